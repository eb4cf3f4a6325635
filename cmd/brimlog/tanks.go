package main

import (
	"bufio"
	"os"
	"runtime/debug"
	"strconv"

	"github.com/spf13/cobra"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

func (a *app) tanks() *cobra.Command {
	return takesSeveral(&cobra.Command{
		Use:   "tanks",
		Short: "List the tanks, brim to brim: distance, fuel, economy with its uncertainty, conditions",
		Args:  cobra.NoArgs,
		RunE:  func(*cobra.Command, []string) error { return a.each((*app).tellTanks) },
	})
}

func (a *app) tellTanks() error {
	if !a.among && os.Getenv("GOGC") == "" {
		// The room that is set aside for rows is four times as large as their file. A collection that comes before it is full walks
		// through what is not used yet, which has the system map it twice: with the usual 100 % a million rows take half as long again.
		defer debug.SetGCPercent(debug.SetGCPercent(600))
	}
	r, err := a.review(stats.Options{})
	if err != nil {
		return err
	}
	if a.json {
		return a.tanksDocument(r)
	}
	s := a.sheet(r.Show)
	lines := bufio.NewWriter(s.w)
	s.w = lines
	s.tanks(r)
	return lines.Flush()
}

func (s *sheet) tanks(r *stats.Review) {
	km, fuel := 0.0, 0.0
	n := r.Measured()
	for t := range r.Written(0, n) {
		km += float64(t.DistanceKm)
		fuel += float64(t.FuelL)
	}
	if n == 0 {
		s.answer("%s: no tank from brim to brim yet.", r.Book)
	} else {
		all := quantity.EconomyOf(km, fuel)
		s.answer("%s: %s over %s and %s, total fuel over total distance.", r.Book, all.Format(s.economy), counted(n, "tank"), quantity.Format(km, s.distance))
	}
	for _, n := range r.Notes {
		s.point("%s", n)
	}
	if n == 0 {
		return
	}
	s.gap()
	rows := make([][]string, 0, n)
	for t := range r.Written(0, n) {
		rows = append(rows, []string{
			strconv.Itoa(t.Number), t.ToDate[:10], quantity.FormatNumber(float64(t.DistanceKm), s.distance), quantity.FormatNumber(float64(t.FuelL), s.volume),
			s.of(t.LPer100Km), "±" + number(t.SdPct, 1) + " %", number(t.AirC, 0), share(t.TownShare), share(t.NotedShare), strconv.Itoa(t.ToLine),
		})
	}
	s.table([]string{"tank", "until ", s.distance.Label(), s.volume.Label(), s.economy.Label(), "meas.", "°C", "town", "noted", "line"}, rows)
	s.gap()
	s.say("meas. is the standard uncertainty of measuring alone: two brims, the pump's meter, the odometer. line is in fills.csv.")
}
