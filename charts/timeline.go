package charts

import (
	"html/template"
	"slices"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/stats"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// A course is the chart of the whole log and what stands around it.
type course struct {
	Direction string
	Words     template.HTML // what the chart shows, written from its figures
	Months    string        // of its shade
	Windows   []window
	Jobs      []flag
	Folded    bool // too many jobs to list unasked
	Level     bool
	Like      bool
	Healthy   bool // its band is known
	Shifts    bool
	Crept     bool     // one of them came little by little
	Standing  []ruling // the shapes of the tanks that stand out, each once
}

// A window is a stretch of the log that the chart can be narrowed to.
type window struct {
	Days    int // back from the end; 0 is all
	Name    string
	Checked bool
}

// A flag is a job as the chart marks it.
type flag struct {
	Number int
	Link   template.HTML
	Mark   ruling
	Proved bool
}

// timeline is consumption tank by tank, as measured and like for like, with the level of the vehicle and its jobs.
func timeline(l *logbook) *section {
	low, high := quantity.Unknown, quantity.Unknown
	for _, t := range l.tanks {
		if quantity.Known(t.from) && quantity.Known(t.to) && quantity.Known(float64(t.LPer100Km)) {
			low, high = quantity.Or(low, t.from), t.to
		}
	}
	if !quantity.Known(low) {
		return nil
	}
	shade, months := winters(l.tanks, low, high)
	l.data.Charts["timeline"] = timelineChart(l, shade)
	c := course{Direction: l.unit.direction(), Words: inWords(l), Months: months, Windows: windows(l.tanks, low, high)}
	c.Healthy = quantity.Known(float64(l.HealthyLevel().Mid))
	c.Shifts, c.Standing = len(shiftRows(l)) > 0, l.shapes()
	c.Crept = c.Shifts && slices.ContainsFunc(l.Watch.Shifts, func(s stats.Shift) bool { return s.Gradual })
	for _, t := range l.tanks {
		c.Level = c.Level || quantity.Known(float64(t.Level.Mid))
		c.Like = c.Like || quantity.Known(float64(t.LikeForLike.Mid))
	}
	for _, j := range l.jobs {
		c.Jobs = append(c.Jobs, flag{j.Number, link(j), ruling{j.ruling().Mark, j.found(), j.ruling().Tone}, j.proved()})
	}
	c.Folded = len(c.Jobs) > 12
	return &section{ID: "timeline", Title: "Tank by tank", Form: "timeline.html", Data: c}
}

func timelineChart(l *logbook, shade []winter) drawing {
	c := blank("timeline", 12, opts.XAxis{Type: "time", Name: "month"}, opts.YAxis{Type: "value", Name: "economy"}, "axis")
	var winters, flags []row
	var shown []float64
	for _, w := range shade {
		winters = append(winters, row{Figure(w.from), Figure(w.to)})
	}
	for _, t := range l.tanks {
		y, off := float64(t.LPer100Km), quantity.Or(float64(t.SdPct), 0)/100
		shown = append(shown, y*(1-off), y*(1+off), float64(t.LikeForLike.Mid), float64(t.Level.Low), float64(t.Level.High))
	}
	for _, j := range l.jobs {
		if quantity.Known(j.day) {
			flags = append(flags, row{Figure(j.day), Figure(j.Number), Figure(rulingOf(j))})
		}
	}
	add(c, "winter", "", "shade", []int{0, 1}, nil, winters)
	if shifts := shiftRows(l); len(shifts) > 0 {
		add(c, "shift", "", "shift", []int{0, 1}, nil, shifts)
	}
	if h := l.HealthyLevel(); quantity.Known(float64(h.Mid)) {
		shown = append(shown, float64(h.Low), float64(h.High))
		add(c, "healthy", "", "strip", nil, []int{0, 1}, []row{{cut(h.Low, 3), cut(h.High, 3)}})
	}
	add(c, "level", "levels", "steps", []int{0, 1}, []int{2, 3, 4}, nil)
	add(c, "jobs", "", "flag", []int{0}, nil, flags)
	add(c, "as measured", "pumps", "pump", []int{0}, []int{1, 2, 3}, nil)
	add(c, "like for like", "likes", "like", []int{0}, []int{1}, nil)
	if len(l.shapes()) > 0 {
		add(c, "standing out", "odd", "odd", []int{0}, []int{1}, nil)
	}
	low, high := span(shown)
	return drawing{Option: option(c), Low: cut(Figure(low), 2), High: cut(Figure(high), 2)}
}

// windows are the stretches worth narrowing to: those shorter than the log. A log of many tanks opens on its last years.
func windows(tanks []tank, low, high float64) (all []window) {
	const crowd = 300 // more tanks than a wide screen has room for
	years := []struct {
		n    int
		name string
	}{{1, "last year"}, {2, "last 2 years"}, {5, "last 5 years"}, {10, "last 10 years"}}
	checked := -1
	for _, y := range years {
		if length := float64(365 * y.n); high-low > length*1.2 {
			all = append(all, window{Days: 365 * y.n, Name: y.name})
			if within(tanks, high-length) <= crowd {
				checked = len(all) - 1
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	all = append(all, window{Name: "all of it"})
	if len(tanks) <= crowd || checked < 0 {
		checked = len(all) - 1
	}
	all[checked].Checked = true
	return all
}

func within(tanks []tank, after float64) (n int) {
	for _, t := range tanks {
		if t.to > after {
			n++
		}
	}
	return n
}

// inWords tells what the chart shows to those who can't or won't look.
func inWords(l *logbook) template.HTML {
	best, worst := -1, -1
	first, last := -1, -1
	for i, t := range l.tanks {
		if y := float64(t.LPer100Km); quantity.Known(y) && readingOf(t.watched) != slipOfThePen {
			if best < 0 || y < float64(l.tanks[best].LPer100Km) {
				best = i
			}
			if worst < 0 || y > float64(l.tanks[worst].LPer100Km) {
				worst = i
			}
		}
		if quantity.Known(float64(t.Level.Mid)) {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if best < 0 {
		return say("The figures of every tank look like slips of the pen.")
	}
	b, w := l.tanks[best], l.tanks[worst]
	if best == worst {
		return say("One tank so far: ", l.economy(float64(b.LPer100Km)), ".")
	}
	words := say("The best tank ended on ", spoken(b.ToDate), " with ", l.economy(float64(b.LPer100Km)),
		", the thirstiest on ", spoken(w.ToDate), " with ", l.economy(float64(w.LPer100Km)), ".")
	if first >= 0 && last > first {
		f, t := l.tanks[first].Level, l.tanks[last].Level
		words += say(" With season, roads and load allowed for, the vehicle’s own level was ", l.economy(float64(f.Mid)), " at the start and is ",
			l.economy(float64(t.Mid)), " now (80"+fastened+"% sure: ", l.economies(float64(t.Low), float64(t.High)), ").")
	}
	if h := l.HealthyLevel(); quantity.Known(float64(h.Mid)) {
		words += say(" Healthy, as it is built now, it should return ", l.economies(float64(h.Low), float64(h.High)), " on those roads, 80"+fastened+"% sure: the band with dashed edges.")
	}
	return words + spaced(l.marked())
}

// marked says what of the watch is marked in the chart.
func (l *logbook) marked() template.HTML {
	var all []string
	if n := len(shiftRows(l)); n > 0 {
		all = append(all, count(n, "shift without a job", "shifts without a job"))
	}
	if n := len(l.standing()); n > 0 {
		all = append(all, count(n, "tank that stands out", "tanks that stand out"))
	}
	if len(all) == 0 {
		return ""
	}
	return say("Marked: ", strings.Join(all, " and "), "; more of that ", template.HTML(`<a href="#watch">`), "below", template.HTML(`</a>`), ".")
}
