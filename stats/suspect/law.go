package suspect

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// A fault comes slight, usual or strong. It is the same fault whichever it is, but its symptoms and its thirst grow
// together; reckoning them as strangers would count one heavy fault many times over. And now and then nobody feels it at
// all: it grew with the owner, or the owner is not one to feel it. Then all that could be felt is missing together, and
// counts once.
const (
	slight = iota
	usual
	strong
	unfelt
	severities
)

var severityShare = [severities]float64{0.29, 0.43, 0.25, 0.03}

const (
	misread = 0.03 // of all grades and words: noted wrongly, or another small thing was at work
	outlier = 0.02 // of all readings: a slip of hand or gauge

	// telling sharpens each likelihood. What an owner writes down is what struck them, so it is more characteristic than
	// the table's shares of all vehicles. It is the one constant that is fitted: by the log score of the written cases, on
	// either half, with the other half to judge it (go test -run TestTellingHoldsOnOtherCases -v). On vehicles drawn from the
	// table itself, by chance and not by what strikes one, a telling of 1 is right and this one too bold (TestDrawnVehicles).
	telling = 2.25
)

// A law says what one sign shows under one cause: chances of its words, or where its figure lies.
type law struct {
	chances [severities][]float64 // grades and words
	peaks   [severities][]peak    // numbers: departures from sound
	sound   bool                  // that of a sound vehicle
}

// A peak is one way in which a figure may turn out.
type peak struct{ share, mean, sd float64 }

// like is the likelihood of what was observed, for a fault so severe, sharpened by telling.
func (l law) like(o observation, severity int, telling float64) float64 {
	if l.chances[severity] != nil {
		return math.Pow(l.chances[severity][o.word], telling)
	}
	return figureLike(l.peaks[severity], o, telling)
}

// figureLike is the likelihood of a figure. A single one never settles everything: wild ones are as likely under every
// cause.
func figureLike(peaks []peak, o observation, telling float64) float64 {
	sum := 0.0
	for _, p := range peaks {
		sum += p.share * density(o.x-p.mean, p.sd*p.sd+o.sd*o.sd)
	}
	return math.Pow((1-outlier)*sum+outlier*o.wild, telling)
}

// density is the normal one, so far from its middle. It is asked for thousands of pairs, so it is written out.
func density(x, variance float64) float64 {
	return math.Exp(-x*x/(2*variance)) / math.Sqrt(2*math.Pi*variance)
}

// wildness is the density of a figure that a slip of hand or gauge has made.
func wildness(x, sd float64) float64 {
	return distuv.StudentsT{Sigma: 5*sd + 1e-3, Nu: 1}.Prob(x)
}

// mixed averages f over how severe a fault may be.
func mixed(f func(severity int) float64) float64 {
	sum := 0.0
	for s, share := range severityShare {
		sum += share * f(s)
	}
	return sum
}

// departure is how far the law lies from that of a sound vehicle, in nats: the louder of two causes is the one heard.
func (l law) departure(s Sign, sound law) float64 {
	if l.sound {
		return 0
	}
	if l.chances[0] != nil {
		sum := 0.0
		for w := range l.chances[0] {
			p := mixed(func(v int) float64 { return l.chances[v][w] })
			sum += p * math.Log(p/sound.chances[0][w])
		}
		return sum
	}
	return mixed(func(v int) float64 {
		sum := 0.0
		for _, p := range l.peaks[v] {
			sum += p.share * p.mean * p.mean
		}
		return sum / (2*s.SD*s.SD + 1e-9)
	})
}

// alike is a law that does not depend on how severe the fault is.
func alike(chances []float64, peaks []peak) law {
	var l law
	for s := range severities {
		l.chances[s], l.peaks[s] = chances, peaks
	}
	return l
}

// blur mixes in the chance of a wrong note.
func blur(chances []float64) []float64 {
	sum := 0.0
	for _, c := range chances {
		sum += c
	}
	out := make([]float64, len(chances))
	for i, c := range chances {
		out[i] = (1-misread)*c/sum + misread/float64(len(chances))
	}
	return out
}
