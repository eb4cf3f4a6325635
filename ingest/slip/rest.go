package slip

import (
	"fmt"
	"math"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// rest reports what is wrong with a fill by itself, whatever its neighbours say, where no slip tells of it.
func (l *log) rest() {
	told := map[int]string{} // columns by line
	for _, p := range l.problems {
		if p.File == book.FillsFile {
			stem, _ := quantity.SplitColumn(p.Column)
			told[p.Line] += stem + " "
		}
	}
	var over []book.Fill
	for _, f := range l.book.Fills {
		if f.Date.After(l.now) && !strings.Contains(told[f.Line], "date") {
			l.future(f.Place, f.Date)
		}
		if l.beyondTanks(f.Litres) && !strings.Contains(told[f.Line], "volume") {
			l.problem(f.Place, "volume", overTank, isDoubt, nil, fmt.Sprintf("%s is more than an ordinary vehicle's tank holds; where yours does, "+
				"write capacity_l under [tank] in vehicle.toml", quantity.Format(f.Litres, l.volumeUnit())))
		}
		if l.overfull(f.Litres) && !strings.Contains(told[f.Line], "volume") {
			over = append(over, f)
		}
	}
	l.tellOver(over)
	for i := range l.visits {
		v := &l.visits[i]
		if told[l.placeOf(i).Line] != "" {
			continue
		}
		if l.goesDown(i) {
			before := l.visits[i-1]
			l.report(v.row, "odometer", backwards, isError, nil, "the odometer reads %s after %s on %s: one of the two is wrong",
				quantity.Format(v.shown, l.odometerUnit()), quantity.Format(before.shown, l.odometerUnit()), before.date)
		}
		l.costSlip(v)
	}
}

// goesDown tells whether the k-th reading lies below the one before it.
func (l *log) goesDown(k int) bool {
	return k > 0 && l.visits[k].count() < l.visits[k-1].count()-oneFigure
}

// tellOver reports fills beyond what the tank holds. Where there are many, it is the capacity that is wrong.
func (l *log) tellOver(over []book.Fill) {
	capacity, u := l.book.Vehicle.Tank.CapacityL, l.volumeUnit()
	if len(over) > 3 && 5*len(over) > len(l.book.Fills) {
		most := 0.0
		for _, f := range over {
			most = max(most, f.Litres)
		}
		l.problems = append(l.problems, book.Problem{Place: book.Place{File: book.VehicleFile, Line: l.sheets.lineOf(book.VehicleFile, "capacity_l")},
			Column: "capacity_l", Kind: overTank, Severity: isDoubt, Message: fmt.Sprintf(
				"%d fills took more than the %s that the tank is said to hold, up to %s: look up its capacity",
				len(over), quantity.Format(capacity, u), quantity.Format(most, u))})
		return
	}
	for _, f := range over {
		severity := isDoubt
		if f.Litres > 2*capacity {
			severity = isError
		}
		l.problem(f.Place, "volume", overTank, severity, nil, fmt.Sprintf("%s is more than the %s that the tank holds",
			quantity.Format(f.Litres, u), quantity.Format(capacity, u)))
	}
}

// costSlip reports a cost whose decimal point has moved: the fuel fits, the price does not.
func (l *log) costSlip(v *visit) {
	if !quantity.Known(v.price) || !(v.cost > 0 && v.litres > 0) {
		return
	}
	away := v.lnPrice() - v.price
	for by := -2; by <= 2; by++ {
		if by == 0 || abs(away+float64(by)*math.Ln10) > 0.3 {
			continue
		}
		place := l.book.Fills[v.row].Place
		c := l.sheets.cell(place, "cost", v.cost)
		meant := shifted(c.number, by) + c.suffix
		l.problem(place, "cost", decimal, isDoubt, &meant, fmt.Sprintf("%.2f for %s is %.3f a unit; around then you paid %.3f",
			v.cost, quantity.Format(v.litres, l.volumeUnit()), v.cost/l.volumeUnit().FromBase(v.litres), math.Exp(v.price)*l.volumeUnit().ToBase(1)))
	}
}
