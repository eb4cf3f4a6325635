package suspect

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// reasons says in the owner's words what moved a chance. A piece of evidence speaks for a cause as many times as the
// cause makes it likelier than all the others together do.
type reasons struct {
	w     *weighing
	total []float64 // of each observation, over all causes by their prior
}

const (
	tellable   = 1.3 // times likelier or less likely from which evidence is told
	tellAtMost = 6
	saidAtMost = 50 // a table of the trade's does not carry greater odds
)

func (w *weighing) newReasons() reasons {
	r := reasons{w: w, total: make([]float64, len(w.obs))}
	for i, p := range w.prior {
		for k := range w.obs {
			r.total[k] += p * w.mixed[i][k]
		}
	}
	return r
}

// A reason is a sentence and how many times likelier it makes the cause.
type reason struct {
	text  string
	times float64
}

// of gives the reasons for and against a cause, the weightiest first.
func (r reasons) of(cause int) (because, against []string) {
	id := r.w.t.Causes[cause].ID
	if id == NotListed {
		return r.notListed(cause), []string{}
	}
	all := r.told(cause)
	for k := range r.w.obs {
		all = append(all, r.sign(cause, k))
	}
	slices.SortStableFunc(all, func(a, b reason) int {
		return cmp.Compare(math.Abs(math.Log(b.times)), math.Abs(math.Log(a.times)))
	})
	because, against = r.shared(cause), []string{}
	for _, one := range all {
		switch {
		case one.times >= tellable && len(because) < tellAtMost:
			because = append(because, one.text+odds(one.times, "for"))
		case one.times <= 1/tellable && len(against) < tellAtMost:
			against = append(against, one.text+odds(1/one.times, "against"))
		}
	}
	return because, against
}

// notListed has nothing of its own to show: it stands where the rest fail.
func (r reasons) notListed(cause int) []string {
	if r.w.chance[cause] > 2*r.w.prior[cause] {
		return []string{"nothing in the list fits all that is known"}
	}
	return []string{}
}

// shared tells of the second fault that the cause would need beside it.
func (r reasons) shared(cause int) []string {
	texts := []string{}
	for _, p := range r.w.pairs {
		if other := p.a + p.b - cause; p.chance >= 0.1 && (p.a == cause || p.b == cause) {
			texts = append(texts, fmt.Sprintf("together with %q it explains what neither does alone (%.0f in 100)", r.w.t.Causes[other].Name, 100*p.chance))
		}
	}
	return texts
}

// odds writes the weight of a reason.
func odds(times float64, which string) string {
	switch {
	case times > saidAtMost:
		return fmt.Sprintf(" (more than %d to 1 %s)", saidAtMost, which)
	case times < 3:
		return fmt.Sprintf(" (%.1f to 1 %s)", times, which)
	}
	return fmt.Sprintf(" (%.0f to 1 %s)", times, which)
}

// sign is what one observation says of the cause.
func (r reasons) sign(cause, k int) reason {
	w := r.w
	p, like := w.prior[cause], w.mixed[cause][k]
	times := like / ((r.total[k] - p*like) / (1 - p))
	o := w.obs[k]
	s := w.t.Signs[o.sign]
	switch {
	case s.ID == "fuel":
		return reason{w.fuelSentence(cause, o), times}
	case w.t.Causes[cause].ID == NothingWrong:
		return reason{s.soundSentence(o, times), times}
	case s.Kind == "grade":
		return reason{s.gradeSentence(o, times > 1, w.brings(cause, o.sign)), times}
	case s.Kind == "word":
		return reason{fmt.Sprintf("%s: %s, %s", s.Says, plain(o.text), fits(times, "as with this cause", "which is unlike this cause")), times}
	}
	return reason{s.numberSentence(o, times), times}
}

// plain is a word of the files as one would say it.
func plain(word string) string { return strings.ReplaceAll(word, "_", " ") }

// soundSentence tells a sign as it bears on nothing being wrong.
func (s Sign) soundSentence(o observation, times float64) string {
	verdict := fits(times, "as in a sound vehicle", "which a sound vehicle seldom shows")
	switch {
	case s.Kind == "grade" && o.word == 0:
		return s.absent(o)
	case s.Kind == "number":
		return fmt.Sprintf("%s (%s), %s", s.Says, o.text, verdict)
	}
	return fmt.Sprintf("%s: %s, %s", s.Says, plain(o.text), verdict)
}

func fits(times float64, yes, no string) string {
	if times > 1 {
		return yes
	}
	return no
}

// brings says how regularly a cause shows the symptom.
func (w *weighing) brings(cause, sign int) string {
	l := w.laws[cause][sign]
	if 1-mixed(func(v int) float64 { return l.chances[v][0] }) > 0.6 {
		return "mostly brings"
	}
	return "may bring"
}

// absent says that a symptom is not there, or is no worse than it ever was.
func (s Sign) absent(o observation) string {
	if o.asBefore {
		return s.Says + " no worse than before it began"
	}
	return "no " + s.Says
}

// gradeSentence tells a grade as it bears on the cause.
func (s Sign) gradeSentence(o observation, speaksFor bool, brings string) string {
	grade := o.word
	switch {
	case grade == 0 && speaksFor:
		return s.absent(o) + ", and this cause does not bring it"
	case grade == 0:
		return fmt.Sprintf("%s, which this cause %s", s.absent(o), brings)
	case speaksFor:
		return fmt.Sprintf("%s (%s), which this cause %s", s.Says, grades[grade], brings)
	}
	return fmt.Sprintf("%s (%s), not what this cause brings", s.Says, grades[grade])
}

func (s Sign) numberSentence(o observation, times float64) string {
	side := "near what is sound"
	switch unit := s.Unit; {
	case o.x >= o.sd:
		side = fmt.Sprintf("%.2g %s over what is sound", o.x, unit)
	case o.x <= -o.sd:
		side = fmt.Sprintf("%.2g %s under what is sound", -o.x, unit)
	}
	return fmt.Sprintf("%s (%s) is %s, %s", s.Says, o.text, side, fits(times, "as this cause makes it", "which this cause does not explain"))
}

// fuelSentence sets what is used against what the cause costs.
func (w *weighing) fuelSentence(cause int, o observation) string {
	used, pct := "it uses what it should", 100*math.Expm1(o.x)
	switch {
	case pct >= 0.5:
		used = fmt.Sprintf("it uses %.0f %% more than it should", pct)
	case pct <= -0.5:
		used = fmt.Sprintf("it uses %.0f %% less than was to be expected", -pct)
	}
	c := w.t.Causes[cause]
	if !c.listed() {
		return used
	}
	_, low, high := w.cost(c)
	if low < -0.5 {
		return fmt.Sprintf("%s, and this may make anything from %.0f %% less to %.0f %% more", used, -float64(low), float64(high))
	}
	return fmt.Sprintf("%s, and this usually makes %.0f to %.0f %% more", used, max(float64(low), 0), float64(high))
}
