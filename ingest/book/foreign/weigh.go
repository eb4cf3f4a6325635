package foreign

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// What is ordinary for a vehicle with an owner who keeps a log: narrower than what is possible at all. Common practice: from a light
// motorcycle to a heavy four by four with a big engine, and the tanks that such vehicles have.
const (
	thrifty   = 3.5 // L/100 km
	thirsty   = 32
	smallFill = 5 // litres, of the middle fill
	largeFill = 110
	overRoom  = 1.25 // of the capacity that vehicle.toml tells
	offOwn    = 1.4  // times more or less than the log itself, which is more than any season makes of a middle tank
)

// A weight is what one choice of units makes of a sheet, where the sheet names none.
type weight struct {
	length, volume quantity.Unit
	verdict        verdict
	why            string // what is odd about it
}

// A verdict is how a choice of units stands up to what a vehicle can do.
type verdict int

const (
	ordinary verdict = iota
	odd              // possible, and not of this vehicle
	impossible
)

// weighUnits holds the units that were taken from the logbook, because the sheet names none, against what a vehicle can do, what this
// one does and where its odometer stood. Where they make nonsense of the figures and others do not, those are taken when there is no
// other way to read them, else the sheet is refused.
func (p *plan) weighUnits() error {
	length, volume := p.assumed(quantity.Km), p.assumed(quantity.Litre)
	if p.options.File == book.WorkFile || len(length)+len(volume) == 0 {
		return nil
	}
	log, err := book.Read(p.dir)
	if err != nil {
		return err
	}
	own := p.weigh(log, length, volume)
	if own.verdict == ordinary {
		return nil
	}
	var others []weight
	for _, u := range unitsOr(length, quantity.Km) {
		for _, v := range unitsOr(volume, quantity.Litre) {
			p.measureIn(length, volume, u, v)
			if w := p.weigh(log, length, volume); w.verdict == ordinary && (u != own.length || v != own.volume) {
				others = append(others, w)
			}
		}
	}
	p.measureIn(length, volume, own.length, own.volume)
	switch {
	case len(others) == 0:
		return nil // nothing reads better: the rows are what they are, and check looks at each
	case len(others) == 1 && own.verdict == impossible:
		p.measureIn(length, volume, others[0].length, others[0].volume)
		for _, c := range slices.Concat(length, volume) {
			c.how = fmt.Sprintf("in %s by its figures: in the logbook's own unit %s", c.unit.unit, own.why)
		}
		return nil
	}
	c := slices.Concat(volume, length)[0]
	return refuse(p.file, p.headLine, c.heading, "want a unit in the heading, got none, and in the logbook's own %s: say %s", own.why, p.ways(length, volume, own, others))
}

// assumed are the columns of a quantity whose unit is the logbook's, as nobody told another.
func (p *plan) assumed(base quantity.Unit) (columns []*column) {
	for i := range p.columns {
		c := &p.columns[i]
		if c.assumed && unitFor(p.options.File, c.name) == base || c.assumed && base == quantity.Km && c.name == distanceColumn {
			columns = append(columns, c)
		}
	}
	return columns
}

// unitsOr are all units of a quantity; none to choose from where no column is open.
func unitsOr(columns []*column, base quantity.Unit) []quantity.Unit {
	if len(columns) == 0 {
		return []quantity.Unit{base}
	}
	return base.Units()
}

func (p *plan) measureIn(length, volume []*column, u, v quantity.Unit) {
	for _, c := range length {
		c.unit.unit = u
	}
	for _, c := range volume {
		c.unit.unit = v
	}
}

// mostWays bounds the readings that a message names.
const mostWays = 3

// ways writes what to tell: the readings that differ least from the logbook's own units, and how to keep to these.
func (p *plan) ways(length, volume []*column, own weight, others []weight) string {
	differs := func(w weight) (n int) {
		if w.length != own.length {
			n++
		}
		if w.volume != own.volume {
			n++
		}
		return n
	}
	slices.SortStableFunc(others, func(a, b weight) int { return differs(a) - differs(b) })
	var ways []string
	for _, w := range append(others[:min(mostWays, len(others))], own) {
		var maps []string
		for _, c := range length {
			if w.length != own.length || differs(w) == 0 {
				maps = append(maps, fmt.Sprintf("--map %s_%s=%s", c.name, w.length, p.tag(*c)))
			}
		}
		for _, c := range volume {
			if w.volume != own.volume || differs(w) == 0 {
				maps = append(maps, fmt.Sprintf("--map %s_%s=%s", c.name, w.volume, p.tag(*c)))
			}
		}
		ways = append(ways, strings.Join(maps, " "))
	}
	last := len(ways) - 1
	return strings.Join(ways[:last], ", or ") + ", or, where it is so all the same, " + ways[last]
}

// weigh judges the sample in the units that its columns have now.
func (p *plan) weigh(log *book.Book, length, volume []*column) weight {
	w := weight{length: quantity.Km, volume: quantity.Litre}
	if len(length) > 0 {
		w.length = length[0].unit.unit
	}
	if len(volume) > 0 {
		w.volume = volume[0].unit.unit
	}
	worse := func(v verdict, why string, args ...any) {
		if v > w.verdict {
			w.verdict, w.why = v, fmt.Sprintf(why, args...)
		}
	}
	if p.options.File == book.FillsFile {
		p.weighFuel(log, worse)
	}
	if len(length) > 0 {
		p.weighClock(log, worse)
	}
	return w
}

// weighFuel looks at the middle fill, the largest, and what they make over the distance.
func (p *plan) weighFuel(log *book.Book, worse func(verdict, string, ...any)) {
	litres := p.values(p.find(volumeColumn), p.decimal)
	fills := slices.Sorted(slices.Values(known1(slices.Clone(litres))))
	per100 := p.economies(litres)
	if len(fills) < 2 || len(per100) < 2 {
		return
	}
	middle, most, use := fills[len(fills)/2], fills[len(fills)*9/10], per100[len(per100)/2]
	fuel := func(x float64) string { return quantity.Format(x, unitNamed(log.Vehicle.Show.Volume, quantity.Litre)) }
	economy := func(x float64) string {
		return quantity.Format(x, unitNamed(log.Vehicle.Show.Economy, quantity.LPer100Km))
	}
	switch room := largestTank(log.Vehicle); {
	case quantity.Known(room) && room > 0 && most > overRoom*room:
		worse(impossible, "fills are up to %s, into a tank of %s", fuel(most), fuel(room))
	case !(room > 0) && (middle > largeFill || middle < smallFill):
		worse(odd, "the middle fill is %s", fuel(middle))
	}
	switch {
	case use < leastPer100Km || use > mostPer100Km:
		worse(impossible, "it would be %s", economy(use))
	case use < thrifty || use > thirsty:
		worse(odd, "it would be %s", economy(use))
	}
	if own := ownUse(log); quantity.Known(own) && max(use/own, own/use) > offOwn {
		worse(odd, "it would be %s, where the log has %s", economy(use), economy(own))
	}
}

// largestTank is the most that the vehicle's tank ever held; unknown where the document does not say.
func largestTank(v book.Vehicle) float64 {
	most := v.Tank.CapacityL
	for _, change := range v.From {
		change.Apply(&v)
		if c := v.Tank.CapacityL; quantity.Known(c) && !(c <= most) {
			most = c
		}
	}
	return most
}

func unitNamed(name string, otherwise quantity.Unit) quantity.Unit {
	if u, ok := quantity.UnitNamed(name); ok {
		return u
	}
	return otherwise
}

// economies are the tanks' uses by the sheet, in L/100 km, least first; part fills are taken as they come.
func (p *plan) economies(litres []float64) (per100 []float64) {
	km := p.values(p.find(distanceColumn), p.decimal)
	if c := p.find(odometerColumn); c != nil {
		at := p.values(c, p.decimal)
		order := make([]int, 0, len(at))
		for i, x := range at {
			if quantity.Known(x) {
				order = append(order, i)
			}
		}
		slices.SortStableFunc(order, func(i, j int) int { return int(math.Copysign(1, at[i]-at[j])) })
		km = make([]float64, len(at))
		for n := range order {
			if km[order[n]] = quantity.Unknown; n > 0 {
				km[order[n]] = at[order[n]] - at[order[n-1]]
			}
		}
	}
	for i, l := range litres {
		if x := 100 * l / km[i]; quantity.Known(x) && km[i] > 0 {
			per100 = append(per100, x)
		}
	}
	slices.Sort(per100)
	return per100
}

// ownUse is what the log's middle tank uses, in L/100 km; unknown where it has too few to tell.
func ownUse(log *book.Book) float64 {
	const enough = 5
	var per100 []float64
	last := quantity.Unknown
	for _, f := range log.Fills {
		if x := 100 * f.Litres / (f.Odometer - last); quantity.Known(x) && x > 0 && f.Full && !f.Missed {
			per100 = append(per100, x)
		}
		last = f.Odometer
	}
	if len(per100) < enough {
		return quantity.Unknown
	}
	slices.Sort(per100)
	return per100[len(per100)/2]
}
