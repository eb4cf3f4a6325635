package slip_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
)

var summer24 = time.Date(2024, 6, 1, 0, 0, 0, 0, time.UTC)

// The reading of the row above once more is one slip. Any reading between its neighbours would do, so none is named.
func TestReadingOfTheFillBefore(t *testing.T) {
	for k := 3; k < 19; k++ {
		e := newEstate()
		e.cell(k, 1, e.fills[k-1][1])
		got := slip.Find(read(t, e.save(t)), summer24)
		if len(got) != 1 || got[0].Line != k+1 || got[0].Kind != "odometer_slip" || got[0].Suggestion != nil ||
			!strings.Contains(got[0].Message, "L over 0 miles") || !strings.Contains(got[0].Message, "reads as it did on "+e.fills[k-1][0]) {
			t.Errorf("row %d: %v", k, words(got))
		}
	}
}

// A part fill that is filled up on the same day without a drive in between is no slip: two pumps, or two cards.
func TestPartFillIsFilledUp(t *testing.T) {
	for k := 3; k < 19; k++ {
		e := newEstate()
		part := append([]string(nil), e.fills[k]...)
		part[2], part[3], part[4] = fmt.Sprintf("%.2f", litres(part)-30), "no", ""
		e.fills[k][2], e.fills[k][4] = "30.00", ""
		e.fills = slices.Insert(e.fills, k, part)
		if got := slip.Find(read(t, e.save(t)), summer24); len(got) > 0 {
			t.Errorf("row %d: %v", k, words(got))
		}
	}
}

// A whole tank at a standstill cannot be, however small the tank is that it makes: a row too many.
func TestFillWithoutAWay(t *testing.T) {
	for k := 3; k < 19; k++ {
		for _, on := range []int{0, 1} {
			e := newEstate()
			row := append([]string(nil), e.fills[k]...)
			row[0] = e.fills[k+1][0]
			row[1] = fmt.Sprint(miles(row) + on)
			row[2] = fmt.Sprintf("%.2f", litres(row)+3)
			row[4] = ""
			e.fills = append(e.fills, row)
			got := slip.Find(read(t, e.save(t)), summer24)
			near := false
			for _, p := range got {
				near = near || p.File == book.FillsFile && (p.Line == 22 || p.Line == k+1 || p.Line == k+2)
			}
			if !near {
				t.Errorf("a second fill %d miles after row %d: %v", on, k, words(got))
			}
		}
	}
}

// A point that marks thousands is no decimal point.
func TestThousandsPointOfTheOdometer(t *testing.T) {
	e := newEstate()
	e.cell(9, 1, e.fills[9][1][:2]+"."+e.fills[9][1][2:])
	got := slip.Find(read(t, e.save(t)), summer24)
	if len(got) != 1 || got[0].Line != 10 || got[0].Kind != "decimal_slip" || suggested(got[0]) != "50066" {
		t.Errorf("%v", words(got))
	}
}

// A reading a little below that of the last fill has not gone all round the instrument.
func TestDriveBelowTheLastFill(t *testing.T) {
	e := newEstate()
	e.vehicle += "[odometer]\ndigits = 5\nunit = \"mi\"\n"
	last := e.fills[20]
	e.trip("2023-06-25", fmt.Sprint(miles(last)-320), fmt.Sprint(miles(last)-300))
	got := slip.Find(read(t, e.save(t)), summer24)
	if len(got) != 1 || got[0].File != book.TripsFile || !strings.Contains(got[0].Message, fmt.Sprintf("it is from %s miles on", last[1])) {
		t.Errorf("%v", words(got))
	}
}

// What the calendar knows is said first.
func TestFutureComesFirst(t *testing.T) {
	e := newEstate()
	b := read(t, e.save(t))
	row := b.Fills[19]
	row.Place, row.Date = book.Place{}, moment(t, "2025-01-01")
	row.Litres += 3
	got := slip.Entry(b, row, summer24)
	if len(got) < 2 || got[0].Kind != "date_future" {
		t.Errorf("%v", words(got))
	}
}

func moment(t testing.TB, text string) book.Moment {
	t.Helper()
	m, err := book.ParseMoment(text)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// A price is one of a litre, or of the gallon that the owner reads.
func TestCostIsHeldAgainstAUnitThatIsNamed(t *testing.T) {
	e := newEstate()
	e.cell(9, 4, strings.Replace(e.fills[9][4], ".", "", 1))
	got := slip.Find(read(t, e.save(t)), summer24)
	if len(got) != 1 || !strings.Contains(got[0].Message, " per L; around then you paid 1.459") {
		t.Errorf("%v", words(got))
	}
}

// A fill whose fuel nobody wrote down is held against the prices of all of them.
func TestCostOfAFillWithoutALabel(t *testing.T) {
	e := newEstate()
	for i := range e.fills {
		e.fills[i] = append(e.fills[i], map[bool]string{true: "fuel", false: "E5"}[i == 0])
	}
	e.cell(9, 7, "")
	if got := slip.Find(read(t, e.save(t)), summer24); len(got) > 0 {
		t.Errorf("a label left out: %v", words(got))
	}
	e.cell(9, 4, strings.Replace(e.fills[9][4], ".", "", 1))
	if got := slip.Find(read(t, e.save(t)), summer24); len(got) != 1 || got[0].Column != "cost" || got[0].Kind != "decimal_slip" {
		t.Errorf("%v", words(got))
	}
}
