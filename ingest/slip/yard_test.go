package slip_test

import (
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brimlog/ingest/slip"
)

func TestYard(t *testing.T) {
	dirs, _ := filepath.Glob(os.Getenv("YARD"))
	if len(dirs) == 0 {
		t.Skip()
	}
	all, kinds, regimes := tally{}, map[string]*tally{}, map[string]*tally{}
	others := 0
	for i, d := range dirs {
		f, _ := os.Open(filepath.Join(d, "fills.csv"))
		rows, _ := csv.NewReader(f).ReadAll()
		f.Close()
		head := rows[0]
		for i := range rows {
			for len(rows[i]) < 6 {
				rows[i] = append(rows[i], "")
			}
		}
		w := &world{rng: rand.New(rand.NewPCG(uint64(i)+*seed, 5)), fills: rows[1:]}
		fmt.Sscanf(strings.Split(string(must(os.ReadFile(filepath.Join(d, "vehicle.toml")))), "capacity_l = ")[1], "%g", &w.capacity)
		for range 1 + w.rng.IntN(3) {
			kind := pick(w.rng, plantedKinds...)
			w.plant(kind)
		}
		dir := t.TempDir()
		if k := os.Getenv("KEEP"); k != "" {
			dir = filepath.Join(k, filepath.Base(d))
			os.RemoveAll(dir)
		}
		os.CopyFS(dir, os.DirFS(d))
		g, _ := os.Create(filepath.Join(dir, "fills.csv"))
		c := csv.NewWriter(g)
		c.Write(append(head, "cost"))
		for _, r := range w.fills {
			c.Write(r)
		}
		c.Flush()
		g.Close()
		got := slip.Find(read(t, dir), clock)
		name := strings.TrimRight(filepath.Base(d), "-+0123456789")
		others += len(got)
		for _, p := range w.slips {
			if kinds[p.kind] == nil {
				kinds[p.kind] = &tally{}
			}
			if regimes[name] == nil {
				regimes[name] = &tally{}
			}
			before := all.found
			a := w.fate(p, got); all.add(a); ok := a.found == a.planted && a.right == a.cells
			kinds[p.kind].add(a)
			regimes[name].add(a)
			others -= all.found - before
			if !ok && os.Getenv("V") != "" {
				fmt.Printf("WRONG %s %s line %d %s was %s is %s size %.2f\n", p.kind, d, w.line(p), p.column, p.was, p.row, p.size)
				for _, q := range got {
					fmt.Println("   ", q.Error(), q.Kind, suggested(q))
				}
			}
		}
	}
	for kind, a := range kinds {
		t.Logf("%-14s %s", kind, a)
	}
	for kind, a := range regimes {
		t.Logf("regime %-14s %s", kind, a)
	}
	t.Logf("all            %s; other problems %d", all, others)
}

func must(b []byte, err error) []byte { return b }
