package suspect

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/pelletier/go-toml/v2"

	"brimlog/ingest/book"
)

// A written is a case of testdata/cases: what an owner would know, and the cause found in the end.
type written struct {
	file     string
	Cause    string               `toml:"cause"`
	Tells    string               `toml:"tells"`
	Excess   *float64             `toml:"excess_pct"`
	SD       *float64             `toml:"excess_sd_pct"`
	Onset    string               `toml:"onset"`
	Tanks    int                  `toml:"tanks"`
	Months   []int                `toml:"months"`
	System   string               `toml:"fuel_system"`
	Overlap  *float64             `toml:"overlap"`
	Noted    *float64             `toml:"noted_share"`
	Jobs     *[]writtenJob        `toml:"jobs"`
	Grades   map[string]string    `toml:"grades"`
	Seen     map[string]string    `toml:"seen"`
	Readings string               `toml:"readings"`
	Baseline string               `toml:"baseline"`
	Expected map[string][]float64 `toml:"expected"`
}

type writtenJob struct {
	Areas  []string `toml:"areas"`
	Before float64  `toml:"tanks_before"`
	What   string   `toml:"what"`
}

func writtenCases(t *testing.T) []written {
	t.Helper()
	files, err := filepath.Glob("../../testdata/cases/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases found: %v", err)
	}
	var all []written
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var f struct {
			Case []written `toml:"case"`
		}
		if err := toml.NewDecoder(strings.NewReader(string(b))).DisallowUnknownFields().Decode(&f); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for i := range f.Case {
			f.Case[i].file = filepath.Base(file)
		}
		all = append(all, f.Case...)
	}
	return all
}

// evidence is the case as the program would be told it.
func (c written) evidence(t *testing.T) Evidence {
	t.Helper()
	e := Nothing()
	if c.Excess != nil {
		e.Excess, e.ExcessSD = math.Log1p(*c.Excess/100), *c.SD/100
	}
	e.Onset = Onset{Form: map[string]Form{"": FormUnknown, "sudden": Sudden, "gradual": Gradual}[c.Onset], Tanks: c.Tanks}
	for _, m := range c.Months {
		e.Months = append(e.Months, time.Month(m))
	}
	if c.Overlap != nil {
		e.CamOverlapDeg = *c.Overlap
	}
	if c.Noted != nil {
		e.NotedShare = *c.Noted
	}
	e.FuelSystem = c.System
	if c.Jobs != nil {
		e.Jobs = []Job{}
		for _, j := range *c.Jobs {
			e.Jobs = append(e.Jobs, Job{j.Areas, j.Before, j.What})
		}
	}
	for id, grade := range c.Grades {
		i, g := slices.Index(symptomIDs[:], id), slices.Index(grades, grade)
		if i < 0 || g < 0 {
			t.Fatalf("%s: %s: %s=%s is no symptom and grade", c.file, c.Cause, id, grade)
		}
		e.Grades[i].Typical = book.Grade(g + 1)
	}
	e.Seen = c.Seen
	e.Readings, e.Baseline = readingsOf(t, c.Readings), readingsOf(t, c.Baseline)
	e.Expected = map[string]Figure{}
	for name, f := range c.Expected {
		e.Expected[name] = Figure{f[0], f[1]}
	}
	return e
}

// readingsOf reads `name=value; name=value` as work.csv has it.
func readingsOf(t *testing.T, cell string) []book.Reading {
	t.Helper()
	var rs []book.Reading
	for part := range strings.SplitSeq(cell, ";") {
		name, text, ok := strings.Cut(strings.TrimSpace(part), "=")
		if !ok {
			continue
		}
		r := book.Reading{Name: name, Text: text}
		figures, _, _ := strings.Cut(text, "@")
		for f := range strings.SplitSeq(figures, "/") {
			if x, err := strconv.ParseFloat(f, 64); err == nil {
				r.Values = append(r.Values, x)
			}
		}
		rs = append(rs, r)
	}
	return rs
}
