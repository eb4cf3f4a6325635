package slip

import (
	"fmt"
	"math"
	"strings"

	"brimlog/ingest/quantity"
)

// standsOut is the share that a correction must have among all of its column to be named.
const standsOut = 0.4

// tell reports a finding, by the log as it stood before it is mended.
func (l *log) tell(f finding) {
	best := f.stories[0]
	var suggestion *string
	if best.cell != "" && math.Exp(best.gain-f.gain) >= standsOut {
		suggestion = &best.cell
	} else if s := l.lastDigit(&f); s != nil {
		s.missing = true
		f.stories[0], best, suggestion = *s, *s, &s.cell
	}
	if best.with != nil && suggestion != nil {
		l.tellExchange(f.at, &best)
		return
	}
	v := &l.visits[f.at]
	severity := isDoubt
	if best.column == "odometer" && l.goesBack(f.at) || best.column == "volume" && l.farOverfull(v.litres, v.date) {
		severity = isError
	}
	l.report(v.row, best.column, best.kind, severity, suggestion, "%s", l.sentence(&f, suggestion))
}

// sentence says what is odd, what is usual, and what would mend it.
func (l *log) sentence(f *finding, cell *string) string {
	v, best := &l.visits[f.at], f.stories[0]
	odd, mended := l.whatIsOdd(f), ""
	switch best.column {
	case "odometer":
		mended = "the odometer does not fit"
		if cell != nil {
			mended = best.remedy(*cell) + l.neighbours(f.at)
		}
		switch {
		case l.goesBack(f.at):
			odd = l.outOfOrder(f.at)
		case cell == nil && l.readsAsBefore(f.at):
			mended = fmt.Sprintf("the odometer reads as it did on %s: one of the two is wrong, or the fill is written twice", l.visits[f.at-1].date)
		}
	case "volume":
		mended = "the volume does not fit"
		if cell != nil {
			mended = strings.TrimSuffix(best.remedy(*cell), " ")
		}
	case "missed":
		mended = "it looks as if a fill before this one was not written down"
	case "full":
		mended = l.brimWords(f)
	case "date":
		odd = fmt.Sprintf("on %s the odometer cannot have read %s", v.date, quantity.Format(v.shown, l.odometerUnit()))
		if best.kind == dateFuture {
			odd = fmt.Sprintf("%s has not come yet", v.date)
		}
		mended = "another date would be in order"
		if cell != nil {
			mended = *cell + " is in order"
		}
	}
	return odd + "; " + mended
}

// whatIsOdd says what the tanks beside a visit use, and what is usual: "41.0 mpg (UK) over 190 miles; yours is 18.0 to 23.0".
func (l *log) whatIsOdd(f *finding) string {
	ends, begins := "", ""
	for _, t := range l.near(f.at) {
		switch {
		case t.open < f.at:
			ends = l.used(t)
		case t.open == f.at:
			begins = l.used(t)
		}
	}
	odd := ends
	switch {
	case ends == "":
		odd = begins
	case begins != "" && f.stories[0].column != "missed" && f.stories[0].column != "volume":
		odd = ends + ", then " + begins
	}
	if odd == "" {
		v := &l.visits[f.at]
		return fmt.Sprintf("%s at %s", quantity.Format(v.litres, l.volumeUnit()), quantity.Format(v.shown, l.odometerUnit()))
	}
	if len(l.tanks) < 2 {
		return odd + "; most vehicles are " + l.yours(f)
	}
	return odd + "; yours is " + l.yours(f)
}

func (l *log) used(t span) string {
	km := l.visits[t.close].count() - l.visits[t.open].count()
	if km < 0.6*oneFigure {
		return quantity.Format(t.litres, l.volumeUnit()) + " over " + quantity.Format(max(km, 0), l.odometerUnit())
	}
	return quantity.EconomyOf(km, t.litres).Format(l.economyUnit()) + " over " + quantity.Format(km, l.odometerUnit())
}

// yours is what the tanks around a finding use as a rule, in season and on their roads.
func (l *log) yours(f *finding) string {
	ref, u := l.level(f.from, f.to-1), l.economyUnit()
	middle, spread := ref.pooled+l.visits[f.at].lean, 1.6*ref.tailP.sd
	low, high := 100*math.Exp(middle-spread), 100*math.Exp(middle+spread)
	if u.MoreIsBetter() {
		low, high = high, low
	}
	return quantity.FormatNumber(low, u) + " to " + quantity.FormatNumber(high, u)
}

// outOfOrder says between which readings a reading stands.
func (l *log) outOfOrder(k int) string {
	u := l.odometerUnit()
	s := "the odometer reads " + quantity.Format(l.visits[k].shown, u)
	if k > 0 {
		s += fmt.Sprintf(", after %s on %s", quantity.Format(l.visits[k-1].shown, u), l.visits[k-1].date)
	}
	if k+1 < len(l.visits) {
		s += fmt.Sprintf(", before %s on %s", quantity.Format(l.visits[k+1].shown, u), l.visits[k+1].date)
	}
	return s
}

// neighbours are the fills that a reading has to fit.
func (l *log) neighbours(k int) string {
	switch {
	case k == 0:
		return "the fill after it"
	case k == len(l.visits)-1:
		return "the fill before it"
	}
	return "the fills on both sides"
}

// remedy says how a figure becomes the one that was meant.
func (s *story) remedy(cell string) string {
	if s.missing {
		return "the last digit is missing: " + cell + ", give or take a few, fits "
	}
	switch s.kind {
	case unitSlip:
		return "read in " + s.from.Label() + " it is " + cell + ", which fits "
	case decimal:
		return "with the decimal point moved, " + cell + " fits "
	}
	return cell + " fits "
}

// brimWords say by how much a fill was off the mark: what both tanks beside it are off, on the average.
func (l *log) brimWords(f *finding) string {
	ref := l.level(f.from, f.to-1)
	ends, begins := l.away(f.at, ref.pooled)
	word := "short of the mark"
	if ends > 0 {
		word = "over the mark"
	}
	return fmt.Sprintf("this fill looks %s %s, and the next one made up for it", quantity.Format((abs(ends)+abs(begins))/2, l.volumeUnit()), word)
}

func (l *log) economyUnit() quantity.Unit {
	if u, ok := quantity.UnitNamed(l.book.Vehicle.Show.Economy); ok {
		return u
	}
	return quantity.LPer100Km
}
