package suspect

import "brimlog/ingest/book"

// heronLate is a vehicle whose ignition was set by ear and left late, as its log tells it.
func heronLate() Evidence {
	e := Nothing()
	e.Excess, e.ExcessSD = 0.06, 0.03
	e.Onset = Onset{Form: Sudden, Tanks: 3}
	e.Jobs = []Job{{Areas: []string{"ignition"}, What: "distributor overhauled"}}
	e.FuelSystem = carburettor
	for s, g := range map[book.Symptom]book.Grade{book.WeakLow: book.Moderate, book.WeakCruise: book.Trace, book.WeakHigh: book.Moderate,
		book.Knock: book.None, book.RoughIdle: book.None, book.Hesitation: book.Trace, book.HardStart: book.Trace, book.Surge: book.None} {
		e.Grades[s].Typical = g
	}
	return e
}
