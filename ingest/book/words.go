package book

import (
	"slices"
	"strings"
)

// Areas are the words of a job's area.
func Areas() []string { return slices.Clone(areaWords) }

// The words that cells may hold, in the order in which messages name them.
var (
	yesWords   = []string{"yes", "no", "y", "n", "true", "false", "1", "0"}
	gradeWords = []string{"none", "trace", "moderate", "heavy"}
	shortWords = []string{"none", "some", "most"}
	paceWords  = []string{"easy", "usual", "brisk"}
	roadWords  = []string{"town", "mixed", "open", "motorway", "track"}
	kindWords  = []string{"fit", "adjust", "repair", "service", "measure"}
	areaWords  = []string{"camshaft", "ignition", "fuel", "intake", "exhaust", "cooling", "compression", "valves", "brakes",
		"tyres", "driveline", "odometer", "other"}
	fuelWords   = []string{"E0", "E5", "E10", "E85"} // those whose energy is known; any other label may stand too
	sparkWords  = []string{"moved", "reset", "unknown"}
	needleWords = []string{"steady", "regular_drop", "drift", "flick", "falls_at_2500"}
	smokeWords  = []string{"none", "black", "blue", "white"}
	plugWords   = []string{"normal", "sooty", "white", "oily", "wet"}
)

// oneOf finds s in the list whatever its case, and gives the list's own spelling.
func oneOf(s string, list []string) (string, bool) {
	for _, w := range list {
		if s == w || len(s) == len(w) && strings.EqualFold(s, w) {
			return w, true
		}
	}
	return "", false
}

// nearest is the word of the list that s was most likely meant to be; empty when none is near. A third of
// the letters may be wrong, and two neighbours changing places is one mistake.
func nearest(s string, list []string) string {
	s = strings.ToLower(strings.TrimSpace(s))
	if len(s) < 2 || len(s) > 40 {
		return ""
	}
	best, least, tie := "", len(s), false
	for _, w := range list {
		d := mistakes(s, strings.ToLower(w))
		if d > max(1, max(len(s), len(w))/3) || d > least {
			continue
		}
		tie = d == least && best != ""
		best, least = w, d
	}
	if tie {
		return ""
	}
	return best
}

// mistakes counts the letters to put in, take out, change or swap with their neighbour to make b of a.
func mistakes(a, b string) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

// listed writes a list of words for a message: "none, some or most".
func listed(list []string) string {
	if len(list) == 1 {
		return list[0]
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}

// String is the grade's word; empty for NotJudged.
func (g Grade) String() string {
	if g <= NotJudged || int(g) > len(gradeWords) {
		return ""
	}
	return gradeWords[g-None]
}

// symptomWords are the symptoms' columns in trips.csv.
var symptomWords = [SymptomCount]string{"hard_start", "hard_start_hot", "rough_idle", "hesitation", "stumble", "surge", "stall",
	"knock", "backfire", "run_on", "weak_low", "weak_cruise", "weak_high", "overheating", "runs_cold"}

// String is the symptom's column in trips.csv.
func (s Symptom) String() string {
	if s < 0 || s >= SymptomCount {
		return ""
	}
	return symptomWords[s]
}

// ParseSymptom finds a symptom by its column's name.
func ParseSymptom(name string) (Symptom, bool) {
	for s, w := range symptomWords {
		if w == name {
			return Symptom(s), true
		}
	}
	return 0, false
}

// ParseGrade reads a grade's word.
func ParseGrade(word string) (Grade, bool) {
	for i, w := range gradeWords {
		if strings.EqualFold(strings.TrimSpace(word), w) {
			return None + Grade(i), true
		}
	}
	return NotJudged, false
}
