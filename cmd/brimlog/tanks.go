package main

import (
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
	r, err := a.review(stats.Options{})
	if err != nil {
		return err
	}
	if a.json {
		return a.tanksDocument(r.TanksDocument())
	}
	a.sheet(r.Show).tanks(r)
	return nil
}

func (s *sheet) tanks(r *stats.Review) {
	km, fuel := 0.0, 0.0
	for _, t := range r.Tanks {
		km += float64(t.DistanceKm)
		fuel += float64(t.FuelL)
	}
	if len(r.Tanks) == 0 {
		s.answer("%s: no tank from brim to brim yet.", r.Book)
	} else {
		all := quantity.EconomyOf(km, fuel)
		s.answer("%s: %s over %s and %s, total fuel over total distance.", r.Book, all.Format(s.economy), counted(len(r.Tanks), "tank"), quantity.Format(km, s.distance))
	}
	for _, n := range r.Notes {
		s.point("%s", n)
	}
	if len(r.Tanks) == 0 {
		return
	}
	s.gap()
	rows := make([][]string, 0, len(r.Tanks))
	for _, t := range r.Tanks {
		rows = append(rows, []string{
			strconv.Itoa(t.Number), t.ToDate[:10], quantity.FormatNumber(float64(t.DistanceKm), s.distance), quantity.FormatNumber(float64(t.FuelL), s.volume),
			s.of(t.LPer100Km), "±" + number(t.SdPct, 1) + " %", number(t.AirC, 0), share(t.TownShare), share(t.NotedShare), strconv.Itoa(t.ToLine),
		})
	}
	s.table([]string{"tank", "until ", s.distance.Label(), s.volume.Label(), s.economy.Label(), "meas.", "°C", "town", "noted", "line"}, rows)
	s.gap()
	s.say("meas. is the standard uncertainty of measuring alone: two brims, the pump's meter, the odometer. line is in fills.csv.")
}
