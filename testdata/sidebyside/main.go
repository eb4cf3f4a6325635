// Sidebyside sets the program's speed beside that of R's packages for the same tasks, on the same data, in one run:
//
//	go run ./testdata/sidebyside
//
// It needs R with data.table, strucchange and nlme (Debian: r-cran-data.table, r-cran-strucchange), and prints a row a task: seconds
// here, seconds there, and their ratio. Both times are the least of three, start-up left out.
package main

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/watch"
	"brimlog/testdata/drawn"
)

const (
	fills = 1_000_000
	tanks = 1560 // thirty years
)

func main() {
	log.SetFlags(0)
	dir, err := os.MkdirTemp("", "sidebyside")
	check(err)
	defer os.RemoveAll(dir)
	many := filepath.Join(dir, "many")
	check(os.Mkdir(many, 0o755))
	check(os.WriteFile(filepath.Join(many, book.VehicleFile), []byte("name = \"Many\"\n"), 0o600))
	check(os.WriteFile(filepath.Join(many, book.FillsFile), manyFills(), 0o600))
	check(os.Symlink(filepath.Join(many, book.FillsFile), filepath.Join(dir, book.FillsFile)))

	years := filepath.Join(dir, "years")
	plan := drawn.Plan{Seed: 1974, Tanks: tanks, Days: 7, Noted: 1, Jobs: []drawn.Job{{ID: "retime", Kind: "adjust", Area: "ignition", After: tanks / 2, Pct: -10}}}
	check(os.Mkdir(years, 0o755))
	drawing := plan.Draw()
	drawing.Work = nil // so that the step is nobody's
	check(drawing.Write(years, drawn.Metric))
	b, err := book.Read(years)
	check(err)
	l := tank.Build(b)
	check(os.WriteFile(filepath.Join(dir, "series.csv"), series(l), 0o600))

	there := inR(dir)
	for _, task := range []struct {
		name, what string
		run        func()
	}{
		{"reading", fmt.Sprintf("%d fills; data.table fread", fills), func() { _, err := book.Read(many); check(err) }},
		{"shifts", fmt.Sprintf("%d tanks; strucchange breakpoints", tanks), func() {
			d := model.NewDesign(l)
			_, course := d.Ask(nil)
			watch.Shifts(l, d, course)
		}},
		{"model", fmt.Sprintf("%d tanks; nlme gls", tanks), func() { model.NewDesign(l).Ask(nil) }},
	} {
		here := least(task.run)
		fmt.Printf("%-8s %-40s %8.3f s here %8.3f s in R   ratio %.2g\n", task.name, task.what, here, there[task.name], here/there[task.name])
	}
}

func least(run func()) float64 {
	best := time.Duration(1 << 62)
	for range 3 {
		from := time.Now()
		run()
		best = min(best, time.Since(from))
	}
	return best.Seconds()
}

// inR runs the script and reads what it took.
func inR(dir string) map[string]float64 {
	out, err := exec.Command("Rscript", "testdata/sidebyside/sidebyside.R", dir).Output()
	check(err)
	seconds := map[string]float64{}
	for s := bufio.NewScanner(bytes.NewReader(out)); s.Scan(); {
		var name string
		var took float64
		if _, err := fmt.Sscan(s.Text(), &name, &took); err == nil {
			seconds[name] = took
		}
	}
	return seconds
}

func manyFills() []byte {
	var b bytes.Buffer
	b.WriteString("date,odometer_km,volume_l,full,cost,fuel,station,note\n")
	at := time.Date(1900, 1, 1, 6, 0, 0, 0, time.UTC)
	for i := range fills {
		fmt.Fprintf(&b, "%s,%d,%.2f,yes,%.2f,E5,Hilltop,\n", at.Add(time.Duration(i)*time.Hour).Format("2006-01-02T15:04"), 1000+400*i, 40+float64(i%900)/100, 60+float64(i%1300)/100)
	}
	return b.Bytes()
}

// series is what R is given of the tanks.
func series(l *tank.Log) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Write([]string{"y", "cold", "town"})
	d := model.NewDesign(l)
	for i, o := range d.Obs {
		number := func(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
		t := l.Tanks[i].Conditions
		w.Write([]string{number(o.Y), number(t.Cold / t.Noted), number(t.Road[tank.Town] / t.Noted)})
	}
	w.Flush()
	return b.Bytes()
}

func check(err error) {
	if err != nil {
		log.Fatalf("sidebyside: %v", err)
	}
}
