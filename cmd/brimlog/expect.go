package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/stats"
	"brimlog/stats/engine"
)

func (a *app) expect() *cobra.Command {
	return &cobra.Command{
		Use:   "expect",
		Short: "Say what this engine should return when healthy and as it is tuned, against what was measured",
		Long: "Say what this engine should return on its own roads and in its own weather, by what vehicle.toml, the trips and the\n" +
			"readings in work.csv tell: healthy, in its present state of tune, and as measured since the last job. What is not told\n" +
			"widens the range, and is named in the order in which telling it would narrow the range most.",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			r, err := a.patientReview(stats.Options{Expect: true})
			if err != nil {
				return err
			}
			doc, err := r.ExpectDocument()
			switch {
			case err != nil:
				return a.outOfBounds(err)
			case a.json:
				return a.document(doc)
			}
			a.sheet(r.Show).expected(doc)
			return nil
		},
	}
}

// outOfBounds tells of a figure that no such vehicle has, by its line in vehicle.toml where there is only one that it can be.
func (a *app) outOfBounds(err error) error {
	var b *engine.BoundError
	if !errors.As(err, &b) {
		return err
	}
	where := book.VehicleFile
	if n := keyLine(filepath.Join(a.folder(), book.VehicleFile), b.Key); n > 0 {
		where = fmt.Sprintf("%s:%d", where, n)
	}
	return fmt.Errorf("%s: column %q: %s", where, b.Key, strings.TrimPrefix(b.Error(), b.Key+": "))
}

// keyLine is the line on which a file sets a key, 0 where that is none or several.
func keyLine(path, key string) int {
	key, _, _ = strings.Cut(key, " ")
	sets := regexp.MustCompile(`(^|[\s{,.])` + regexp.QuoteMeta(key[strings.LastIndexByte(key, '.')+1:]) + `\s*=`)
	text, _ := os.ReadFile(path) // a file that can't be read sets nothing
	found := 0
	for i, line := range strings.Split(string(text), "\n") {
		if line, _, _ = strings.Cut(line, "#"); !sets.MatchString(line) {
			continue
		}
		if found > 0 {
			return 0
		}
		found = i + 1
	}
	return found
}
