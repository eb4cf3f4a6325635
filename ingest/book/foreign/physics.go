package foreign

import (
	"math"
	"slices"
	"strconv"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// What a vehicle on the road can do, in wide bounds; a reading that leads outside is wrong by a factor, not by a little.
// Common practice: a moped takes two litres over 100 km, a loaded lorry sixty.
const (
	leastPer100Km = 1.5
	mostPer100Km  = 70
	mostAtOnce    = 1000 // litres into one vehicle
	shortestTrip  = 0.3  // km, of the middle one
	longestTrip   = 3000
	longestTank   = 3000
)

// value is a cell of the sample in base units, by a reading of the decimal mark; Unknown where it is none. A gallon that nobody
// names and a figure without a unit are near enough for a factor.
func (p *plan) value(c *column, cells []string, decimal int) float64 {
	if c == nil {
		return quantity.Unknown
	}
	f, ok := takeFigure(trimMoney(c.cell(cells)))
	if !ok || !allowedSuffix(f.suffix) {
		return quantity.Unknown
	}
	x, err := strconv.ParseFloat(f.read(decimal), 64)
	if err != nil {
		return quantity.Unknown
	}
	unit := c.unit
	if own, ok := unitOf(f.suffix); ok {
		unit = own
	}
	return unit.unit.ToBase(x)
}

// values are a column's figures in the sample.
func (p *plan) values(c *column, decimal int) []float64 {
	out := make([]float64, len(p.sample))
	for i, r := range p.sample {
		out[i] = p.value(c, r.cells, decimal)
	}
	return out
}

// canBe tells whether a reading of the decimal mark leads to what a vehicle can do.
func (p *plan) canBe(decimal int) bool {
	if p.options.File == book.TripsFile {
		return p.canBeDriven(decimal)
	}
	volume := p.column(volumeColumn)
	litres := p.values(volume, decimal)
	for _, l := range litres {
		if l > mostAtOnce {
			return false
		}
	}
	if c := p.find(odometerColumn); c != nil && p.asReadings(p.values(c, decimal), litres) == out {
		return false
	}
	if c := p.find(distanceColumn); c != nil && p.asDistances(p.values(c, decimal), litres) == out {
		return false
	}
	return p.canBePaid(decimal)
}

// canBePaid looks whether price times volume is what was paid, where a sheet has all three.
func (p *plan) canBePaid(decimal int) bool {
	price, volume, cost := p.find(priceColumn), p.find(volumeColumn), p.find(costColumn)
	if price == nil || volume == nil || cost == nil || price.cents || price.each.known() && price.each.unit != volume.unit.unit {
		return true
	}
	plain := *volume
	plain.unit = scale{} // as it stands, whatever its unit
	litres, each, paid := p.values(&plain, decimal), p.values(price, decimal), p.values(cost, decimal)
	agree, differ := 0, 0
	for i := range paid {
		switch off := math.Abs(each[i]*litres[i]/paid[i] - 1); {
		case !quantity.Known(off):
		case off < 0.02:
			agree++
		default:
			differ++
		}
	}
	return agree >= differ
}

// canBeDriven looks at the middle trip.
func (p *plan) canBeDriven(decimal int) bool {
	km := known1(p.values(p.find(distanceColumn), decimal))
	start, end := p.values(p.find("odometer_start"), decimal), p.values(p.find("odometer_end"), decimal)
	for i := range start {
		if d := end[i] - start[i]; quantity.Known(d) {
			km = append(km, d)
		}
	}
	if len(km) == 0 {
		return true
	}
	slices.Sort(km)
	middle := km[len(km)/2]
	return middle >= shortestTrip && middle <= longestTrip
}

func known1(xs []float64) []float64 {
	return slices.DeleteFunc(xs, func(x float64) bool { return !quantity.Known(x) })
}

// column finds a column that is of a name or may be of it.
func (p *plan) column(name string) *column {
	if c := p.find(name); c != nil {
		return c
	}
	for i := range p.columns {
		if c := &p.columns[i]; c.name == "" && slices.Contains(c.columns, name) {
			return c
		}
	}
	return nil
}

// A finding says whether figures can be what they are taken for.
type finding int

const (
	unsaid finding = iota // too few to tell
	fits
	out
)

// asReadings holds figures against an odometer: in the order of the sheet or against it, never to and fro, and what was
// bought lasts for what lies between.
func (p *plan) asReadings(km, litres []float64) finding {
	up, down, thrifty, wasteful := 0, 0, 0, 0
	last := quantity.Unknown
	var sorted [][2]float64
	for i, x := range km {
		if !quantity.Known(x) {
			continue
		}
		switch {
		case x > last:
			up++
		case x < last:
			down++
		}
		last = x
		sorted = append(sorted, [2]float64{x, litres[i]})
	}
	slices.SortFunc(sorted, func(a, b [2]float64) int { return int(math.Copysign(1, a[0]-b[0])) })
	for i := 1; i < len(sorted); i++ {
		count(sorted[i][1], sorted[i][0]-sorted[i-1][0], &thrifty, &wasteful)
	}
	switch {
	case up+down == 0:
		return unsaid
	case min(up, down)*10 > up+down, thrifty < wasteful:
		return out
	}
	return fits
}

// asDistances holds figures against what each fill drove.
func (p *plan) asDistances(km, litres []float64) finding {
	thrifty, wasteful := 0, 0
	for i, x := range km {
		count(litres[i], x, &thrifty, &wasteful)
	}
	switch middle := slices.Sorted(slices.Values(known1(slices.Clone(km)))); {
	case len(middle) > 0 && middle[len(middle)/2] > longestTank:
		return out
	case thrifty+wasteful == 0:
		return unsaid
	case thrifty < wasteful:
		return out
	}
	return fits
}

// count tells whether a vehicle can use so much over so far.
func count(litres, km float64, can, cannot *int) {
	per100 := 100 * litres / km
	switch {
	case !quantity.Known(per100) || km <= 0:
	case per100 >= leastPer100Km && per100 <= mostPer100Km:
		*can++
	default:
		*cannot++
	}
}
