package suspect

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// How often a cause shows a symptom, in the words of the table.
var oftenness = map[string]float64{"always": 0.95, "usually": 0.8, "often": 0.6, "sometimes": 0.35, "seldom": 0.15}

// The grades as they are written, none first.
var grades = []string{"none", "trace", "moderate", "heavy"}

// rarer is the grades of a symptom that a cause keeps away.
var rarer = []float64{97, 2.5, 0.3, 0.2}

// How a symptom that shows is graded when it typically is trace, moderate or heavy.
var graded = [3][3]float64{{0.72, 0.23, 0.05}, {0.27, 0.53, 0.20}, {0.10, 0.35, 0.55}}

// complete fills in what the row of a sign leaves to its kind.
func (s *Sign) complete() error {
	if s.Told == 0 {
		s.Told = 100
	}
	switch s.Kind {
	case "grade":
		s.Words = grades
	case "number":
		if s.Unit == "" {
			return fmt.Errorf("sign %q: a number needs its unit", s.ID)
		}
		if s.ID != "fuel" && !(s.SD > 0 && s.OwnSD > 0) {
			return fmt.Errorf("sign %q: sd %v, own_sd %v: want both over 0", s.ID, s.SD, s.OwnSD)
		}
		return nil
	case "word":
	default:
		return fmt.Errorf("sign %q: kind %q, want grade, word or number", s.ID, s.Kind)
	}
	if len(s.Sound) != len(s.Words) {
		return fmt.Errorf("sign %q: sound has %d shares for %d words", s.ID, len(s.Sound), len(s.Words))
	}
	return nil
}

// soundLaw is what the sign shows on a sound vehicle.
func (s Sign) soundLaw() law {
	l := alike(nil, []peak{{share: 1}})
	if s.Kind != "number" {
		l = alike(blur(s.Sound), nil)
	}
	l.sound = true
	return l
}

// parse reads a cause's line for the sign.
func (s Sign) parse(line string) (law, error) {
	switch s.Kind {
	case "grade":
		return s.parseGrade(line)
	case "word":
		return s.parseWords(line)
	}
	peaks, err := parsePeaks(line)
	return alike(nil, peaks), err
}

// parseGrade reads `usually moderate` or `never`.
func (s Sign) parseGrade(line string) (law, error) {
	if line == "never" {
		return alike(blur(rarer), nil), nil
	}
	often, grade, _ := strings.Cut(line, " ")
	shows, ok := oftenness[often]
	typical := slices.Index(grades, grade) - 1
	if !ok || typical < 0 {
		return law{}, fmt.Errorf("got %q, want one of %s with trace, moderate or heavy, or never", line, strings.Join(slices.Sorted(maps.Keys(oftenness)), ", "))
	}
	var l law
	for v := range severities {
		l.chances[v] = s.gradeChances(shows, typical, v)
	}
	return l, nil
}

// gradeChances: a slight fault shows less often and a grade lower, a strong one more often and a grade higher, one that
// nobody feels not at all, unless it is of those that can't be missed.
func (s Sign) gradeChances(shows float64, typical, severity int) []float64 {
	if severity == unfelt {
		if shows < oftenness["always"] {
			return blur(s.Sound)
		}
		severity = slight
	}
	switch severity {
	case slight:
		shows *= 0.75
	case strong:
		shows = 1 - (1-shows)*0.6
	}
	level := min(max(typical+severity-1, 0), 2)
	chances := make([]float64, len(grades))
	total := 0.0
	for _, share := range s.Sound {
		total += share
	}
	for i, share := range s.Sound {
		chances[i] = (1 - shows) * share / total
	}
	for i, share := range graded[level] {
		chances[i+1] += shows * share
	}
	return blur(chances)
}

// parseWords reads `sooty 50, wet 10`: percent; the rest is shared as in sound vehicles.
func (s Sign) parseWords(line string) (law, error) {
	own, named := make([]float64, len(s.Words)), 0.0
	for part := range strings.SplitSeq(line, ",") {
		word, share, _ := strings.Cut(strings.TrimSpace(part), " ")
		i := slices.Index(s.Words, word)
		percent, err := strconv.ParseFloat(share, 64)
		if i < 0 || err != nil || percent < 0 {
			return law{}, fmt.Errorf("got %q, want a word of %s and its percent", part, strings.Join(s.Words, ", "))
		}
		own[i], named = percent, named+percent
	}
	rest := 0.0
	for i, share := range s.Sound {
		if own[i] == 0 {
			rest += share
		}
	}
	if named > 100 || rest == 0 {
		return law{}, fmt.Errorf("%q makes %v percent, leave some of 100 for the rest", line, named)
	}
	for i, share := range s.Sound {
		if own[i] == 0 {
			own[i] = (100 - named) * share / rest
		}
	}
	return alike(blur(own), nil), nil
}

// parsePeaks reads `-8 ± 3` or `60% 0 ± 3 | 40% -17 ± 4`.
func parsePeaks(line string) ([]peak, error) {
	var peaks []peak
	total := 0.0
	for part := range strings.SplitSeq(strings.ReplaceAll(line, "+-", "±"), "|") {
		p := peak{share: 100}
		figures := strings.TrimSpace(part)
		if share, rest, ok := strings.Cut(figures, "%"); ok {
			figures = rest
			if _, err := fmt.Sscan(share, &p.share); err != nil {
				return nil, fmt.Errorf("got %q, want a share such as 60%%", part)
			}
		}
		mean, sd, _ := strings.Cut(figures, "±")
		var err, also error
		p.mean, err = strconv.ParseFloat(strings.TrimSpace(mean), 64)
		p.sd, also = strconv.ParseFloat(strings.TrimSpace(sd), 64)
		if err != nil || also != nil || p.sd <= 0 {
			return nil, fmt.Errorf("got %q, want a departure and its scatter such as -8 ± 3", part)
		}
		total += p.share
		peaks = append(peaks, p)
	}
	if total != 100 {
		return nil, fmt.Errorf("the shares of %q make %v, want 100", line, total)
	}
	for i := range peaks {
		peaks[i].share /= 100
	}
	return peaks, nil
}
