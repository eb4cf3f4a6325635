package tank

import (
	"math"
	"slices"
	"sort"

	"brimlog/ingest/quantity"
)

// standing marks the readings that the road is laid along: fills that are in line, and jobs that fit between them. A job
// is often written down from memory; it never costs a fill its place.
func standing(chain []reading) []bool {
	ofFills := make([]float64, len(chain))
	for k := range chain {
		if ofFills[k] = chain[k].count; chain[k].fill < 0 {
			ofFills[k] = quantity.Unknown
		}
	}
	keep := inLine(ofFills)
	most := ofFills // what fits before the fills to come
	for k, next := len(chain)-1, math.Inf(1); k >= 0; k-- {
		if most[k] = next; keep[k] {
			next = chain[k].count
		}
	}
	last := math.Inf(-1)
	for k := range chain {
		count := chain[k].count
		fits := chain[k].fill < 0 && count >= last && count <= most[k]
		if keep[k] = keep[k] || fits; keep[k] {
			last = count
		}
	}
	return keep
}

// inLine marks the counts that belong to the longest run that never goes back; unknown ones to none. Where there are several
// runs of that length, one reading contradicts another and nobody can tell which is wrong: only what all of them share
// is in line, unless that is the smaller part, as after an instrument changed and nobody wrote it down.
func inLine(count []float64) []bool {
	if keep, all := growing(count); all {
		return keep
	}
	ending, run := longestRun(count)
	back := make([]float64, len(count))
	for k, c := range count {
		back[len(count)-1-k] = -c
	}
	beginning, _ := longestRun(back)
	rivals := map[int]int{} // of the places in a longest run
	for k := range count {
		if ending[k]+beginning[len(count)-1-k] == len(run)+1 {
			rivals[ending[k]]++
		}
	}
	sure := slices.DeleteFunc(slices.Clone(run), func(k int) bool { return rivals[ending[k]] > 1 })
	if 2*len(sure) < len(run) {
		sure = run
	}
	keep := make([]bool, len(count))
	for _, k := range sure {
		keep[k] = true
	}
	return keep
}

// growing marks the known counts, and tells whether none of them goes back, as in most logs.
func growing(count []float64) (known []bool, all bool) {
	known = make([]bool, len(count))
	last := math.Inf(-1)
	for k, c := range count {
		if known[k] = quantity.Known(c); !known[k] {
			continue
		}
		if c < last {
			return nil, false
		}
		last = c
	}
	return known, true
}

// longestRun gives the length of the longest run that ends with each count, 0 for an unknown one, and the indexes of a
// longest run of all.
func longestRun(count []float64) (length, run []int) {
	length = make([]int, len(count))
	before := make([]int, len(count))
	var tails []int // tails[n] ends the run of length n+1 with the smallest count
	for k, c := range count {
		if !quantity.Known(c) {
			continue
		}
		n := sort.Search(len(tails), func(i int) bool { return count[tails[i]] > c })
		length[k], before[k] = n+1, -1
		if n > 0 {
			before[k] = tails[n-1]
		}
		if n == len(tails) {
			tails = append(tails, k)
		} else {
			tails[n] = k
		}
	}
	if len(tails) > 0 {
		for k := tails[len(tails)-1]; k >= 0; k = before[k] {
			run = append(run, k)
		}
	}
	return length, run
}
