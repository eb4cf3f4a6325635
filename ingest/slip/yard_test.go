package slip_test

import (
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"brimlog/ingest/slip"
)

func TestYard(t *testing.T) {
	dirs, _ := filepath.Glob(os.Getenv("YARD"))
	if len(dirs) == 0 {
		t.Skip()
	}
	for _, kind := range []string{"wrong digit", "transposition", "dropped digit", "decimal", "unit", "missed fill", "duplicate", "short fill", "date order"} {
		if *only != "" && *only != kind {
			continue
		}
		n, found, cells, right, extra := 0, 0, 0, 0, 0
		perRegime := map[string][2]int{}
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
			w := &world{rng: rand.New(rand.NewPCG(uint64(i), 5)), fills: rows[1:]}
			fmt.Sscanf(strings.Split(string(must(os.ReadFile(filepath.Join(d, "vehicle.toml")))), "capacity_l = ")[1], "%g", &w.capacity)
			p, ok := w.plant(kind, map[int]bool{})
			if !ok {
				continue
			}
			n++
			dir := t.TempDir()
			if k := os.Getenv("KEEP"); k != "" {
				dir = filepath.Join(k, strings.ReplaceAll(kind, " ", "_")+"-"+filepath.Base(d))
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
			hit := slices.IndexFunc(got, func(q slipProblem) bool { return q.File == "fills.csv" && hits(p, q) })
			name := strings.TrimRight(filepath.Base(d), "-+0123456789")
			s := perRegime[name]
			s[1]++
			if hit >= 0 {
				found++
				s[0]++
			}
			perRegime[name] = s
			extra += len(got) - min(1, hit+1)
			ok = hit >= 0
			if p.was != "" {
				cells++
				if ok = hit >= 0 && sameCell(suggested(got[hit]), p.was); ok {
					right++
				}
			}
			if !ok && os.Getenv("V") != "" {
				fmt.Printf("WRONG %s %s line %d %s was %s is %s size %.2f\n", kind, d, p.line, p.column, p.was, w.fills[p.line-2], p.size)
				for _, q := range got {
					fmt.Println("   ", q.Error(), q.Kind, suggested(q))
				}
			}
		}
		t.Logf("%-14s %4d planted, found %5.1f %%, right correction %5.1f %% of %d, other problems %d %v", kind, n, pct(found, n), pct(right, cells), cells, extra, perRegime)
	}
}

func must(b []byte, err error) []byte { return b }
