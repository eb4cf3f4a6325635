package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"brimlog/ingest/book"
)

func TestTankLine(t *testing.T) {
	for text, want := range map[string]book.Cells{
		"":                                      {},
		"60 town, some short, brisk":            {"town_share": "60", "short_trips": "some", "pace": "brisk"},
		"60 some brisk":                         {"town_share": "60", "short_trips": "some", "pace": "brisk"},
		"town 40%; short most; easy pace":       {"town_share": "40", "short_trips": "most", "pace": "easy"},
		"all town, no short trips":              {"town_share": "100", "short_trips": "none"},
		"No town, usual":                        {"town_share": "0", "pace": "usual"},
		"half town":                             {"town_share": "50"},
		"55 % town":                             {"town_share": "55"},
		"weak low trace, weak high heavy":       {"weak_low": "trace", "weak_high": "heavy"},
		"low mod high none":                     {"weak_low": "moderate", "weak_high": "none"},
		"pulled well":                           {"weak_low": "none", "weak_high": "none"},
		"pulled a caravan, brisk":               {"pace": "brisk", "note": "pulled a caravan"},
		"brisk, rain all week, 2 people aboard": {"pace": "brisk", "note": "rain all week, 2 people aboard"},
		"short of breath":                       {"note": "short of breath"},
		"120":                                   {"note": "120"},
		"none":                                  {"note": "none"},
	} {
		got, err := tankLine(text)
		if d := cmp.Diff(want, got); d != "" || err != nil {
			t.Errorf("%q: %v %s", text, err, d)
		}
	}
	for text, want := range map[string]string{
		"weak low":       "want trace, moderate or heavy behind it",
		"low, brisk":     "want trace, moderate or heavy behind it",
		"easy, brisk":    "want each thing once, got pace as easy and as brisk",
		"weak high grim": "want trace, moderate or heavy behind it",
	} {
		if got, err := tankLine(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v, want %q", text, got, err, want)
		}
	}
}

func TestDroveLine(t *testing.T) {
	for text, want := range map[string]book.Cells{
		"":                                   {},
		"hesitation trace":                   {"hesitation": "trace"},
		"Heavy knock; rough idle mod":        {"knock": "heavy", "rough_idle": "moderate"},
		"hard start hot trace, run on trace": {"hard_start_hot": "trace", "run_on": "trace"},
	} {
		got, err := droveLine(text)
		if d := cmp.Diff(want, got); d != "" || err != nil {
			t.Errorf("%q: %v %s", text, err, d)
		}
	}
	fine, err := droveLine("stall trace, else fine")
	if err != nil || len(fine) != int(book.SymptomCount)-1 || fine["stall"] != "trace" || fine["knock"] != "none" || fine["hard_start_hot"] != "" {
		t.Errorf("%v, %v", fine, err)
	}
	for text, want := range map[string]string{
		"knock":        `how heavy: want none, trace, moderate or heavy with "knock"`,
		"wobble heavy": `want a symptom and how heavy, as in hesitation trace, got "wobble heavy"`,
		"heavy":        `got "heavy"`,
	} {
		if got, err := droveLine(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v, want %q", text, got, err, want)
		}
	}
}

// Whatever is typed in one line, it is read, refused, or kept as the note.
func FuzzLines(f *testing.F) {
	f.Add("60 % town, some short, brisk, weak low trace")
	f.Add("heavy knock; else fine")
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func(string) (book.Cells, error){tankLine, droveLine} {
			cells, err := read(text)
			if (cells == nil) == (err == nil) {
				t.Fatalf("%q: %v, %v", text, cells, err)
			}
		}
	})
}

// The help of an entry says what goes into each column, not only what the column is called.
func TestFlagsAreExplained(t *testing.T) {
	for _, file := range []string{book.FillsFile, book.TripsFile, book.WorkFile} {
		for _, column := range book.Columns(file) {
			if m, ok := meanings[column.Name]; ok && !strings.HasPrefix(usageOf(column), m) {
				t.Errorf("%s: %s: %q", file, column.Name, usageOf(column))
			}
		}
	}
	for name := range meanings {
		if !slices.ContainsFunc([]string{book.FillsFile, book.TripsFile, book.WorkFile}, func(file string) bool {
			return slices.ContainsFunc(book.Columns(file), func(c book.Column) bool { return c.Name == name })
		}) {
			t.Errorf("no file has a column %s", name)
		}
	}
}
