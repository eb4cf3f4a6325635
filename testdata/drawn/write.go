package drawn

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"

	"brimlog/ingest/quantity"
)

// Units are those that a logbook is written in.
type Units struct{ Distance, Volume, Air quantity.Unit }

var (
	Metric = Units{quantity.Km, quantity.Litre, quantity.Celsius}
	UK     = Units{quantity.Mile, quantity.GallonUK, quantity.Fahrenheit}
)

// measured names the columns that carry a unit.
func (u Units) measured(column string) (quantity.Unit, bool) {
	switch column {
	case "odometer", "odometer_start", "odometer_end":
		return u.Distance, true
	case "volume":
		return u.Volume, true
	case "air":
		return u.Air, true
	}
	return quantity.Number, false
}

var headings = map[string][]string{
	"fills.csv": {"date", "odometer", "volume", "full", "cost", "fuel", "missed", "note"},
	"trips.csv": {"date", "odometer_start", "odometer_end", "road", "air", "cold_starts"},
	"work.csv":  {"id", "date", "odometer", "kind", "area", "what", "readings", "cost", "idle_min", "fuel_lost_l"},
}

// Write writes the logbook into the folder, in those units, to the last bit.
func (l *Log) Write(dir string, u Units) error {
	if err := os.WriteFile(filepath.Join(dir, "vehicle.toml"), []byte(l.Vehicle), 0o600); err != nil {
		return err
	}
	for file, rows := range map[string][]Row{"fills.csv": l.Fills, "trips.csv": l.Trips, "work.csv": l.Work} {
		if err := write(filepath.Join(dir, file), headings[file], rows, u); err != nil {
			return err
		}
	}
	return nil
}

func write(path string, columns []string, rows []Row, u Units) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	defer f.Close()
	w := csv.NewWriter(f)
	heading := make([]string, len(columns))
	for i, c := range columns {
		heading[i] = c
		if unit, ok := u.measured(c); ok {
			heading[i] += "_" + unit.String()
		}
	}
	if err := w.Write(heading); err != nil {
		return err
	}
	for _, r := range rows {
		cells := make([]string, len(columns))
		for i, c := range columns {
			cells[i] = cell(r[c], c, u)
		}
		if err := w.Write(cells); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}

func cell(x any, column string, u Units) string {
	switch x := x.(type) {
	case nil:
		return ""
	case float64:
		if unit, ok := u.measured(column); ok {
			x = unit.FromBase(x)
		}
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return fmt.Sprint(x)
}
