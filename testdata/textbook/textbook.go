// Package textbook holds the tests and charts that textbooks give for two samples and for a series: the second
// opinion that the program's own answers are held against. The program itself uses none of them: all take
// independent normal scatter about one level for granted, which a logbook does not have.
//
// Each function names where it is written down; the tests beside stats/calc hold each against the published
// values. Arguments out of a function's domain give NaN.
package textbook

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
)

// Mean is the arithmetic mean.
func Mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// Sd is the standard deviation with n-1 below.
func Sd(x []float64) float64 {
	mean, sum := Mean(x), 0.0
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(len(x)-1))
}

// Column reads the figures of one column of a CSV file with a heading; empty cells are left out.
func Column(path, name string) ([]float64, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, err
	}
	k := slices.Index(rows[0], name)
	if k < 0 {
		return nil, fmt.Errorf("%s: no column %q", path, name)
	}
	var out []float64
	for _, r := range rows[1:] {
		if r[k] == "" {
			continue
		}
		x, err := strconv.ParseFloat(r[k], 64)
		if err != nil {
			return nil, fmt.Errorf("%s: column %q: %w", path, name, err)
		}
		out = append(out, x)
	}
	return out, nil
}
