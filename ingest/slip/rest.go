package slip

import (
	"fmt"
	"math"
	"slices"
	"strconv"
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
		if l.beyondTanks(f.Litres, f.Date) && !strings.Contains(told[f.Line], "volume") {
			l.problem(f.Place, "volume", overTank, isDoubt, nil, fmt.Sprintf("%s is more than an ordinary vehicle's tank holds; where yours does, "+
				"write capacity_l under [tank] in vehicle.toml", quantity.Format(f.Litres, l.volumeUnit())))
		}
		if l.overfull(f.Litres, f.Date) && !strings.Contains(told[f.Line], "volume") {
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

// tellOver reports fills beyond what the tank held then. Where there are many, it is the capacity that is wrong.
func (l *log) tellOver(over []book.Fill) {
	for _, h := range l.held {
		held := func(f book.Fill) bool { return l.holdingAt(f.Date).job == h.job }
		beyond, all := 0, 0
		most := 0.0
		for _, f := range over {
			if held(f) {
				beyond++
				most = max(most, f.Litres)
			}
		}
		for _, f := range l.book.Fills {
			if held(f) {
				all++
			}
		}
		if beyond > 3 && 5*beyond > all {
			l.tellCapacity(h, beyond, most)
			over = slices.DeleteFunc(over, held)
		}
	}
	u := l.volumeUnit()
	for _, f := range over {
		severity := isDoubt
		if l.farOverfull(f.Litres, f.Date) {
			severity = isError
		}
		room, _ := l.room(f.Date)
		l.problem(f.Place, "volume", overTank, severity, nil, fmt.Sprintf("%s is more than the %s that the tank holds",
			quantity.Format(f.Litres, u), quantity.Format(room, u)))
	}
}

// tellCapacity reports a capacity that many fills contradict, at its line of the vehicle's document: that of its job where a job
// brought it.
func (l *log) tellCapacity(h holding, beyond int, most float64) {
	mark, u := "capacity_l", l.volumeUnit()
	if h.job != "" {
		mark = strconv.Quote(h.job)
	}
	l.problems = append(l.problems, book.Problem{Place: book.Place{File: book.VehicleFile, Line: l.sheets.lineOf(book.VehicleFile, mark)},
		Column: "capacity_l", Kind: overTank, Severity: isDoubt, Message: fmt.Sprintf(
			"%d fills took more than the %s that the tank is said to hold, up to %s: look up its capacity",
			beyond, quantity.Format(h.litres, u), quantity.Format(most, u))})
}

// costSlip reports a cost whose decimal point has moved: the fuel fits, the price does not.
func (l *log) costSlip(v *visit) {
	if !quantity.Known(v.price) || !(v.cost > 0 && v.litres > 0) {
		return
	}
	away, u := v.lnPrice()-v.price, l.volumeUnit()
	for by := -2; by <= 2; by++ {
		if by == 0 || abs(away+float64(by)*math.Ln10) > 0.3 {
			continue
		}
		place := l.book.Fills[v.row].Place
		c := l.sheets.cell(place, "cost", v.cost)
		meant := shifted(c.number, by) + c.suffix
		l.problem(place, "cost", decimal, isDoubt, &meant, fmt.Sprintf("%.2f for %s is %.3f per %s; around then you paid %.3f",
			v.cost, quantity.Format(v.litres, u), v.cost/u.FromBase(v.litres), u.Label(), math.Exp(v.price)*u.ToBase(1)))
	}
}
