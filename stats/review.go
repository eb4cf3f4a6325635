// Package stats is the review: all that is known of a logbook, in one struct that terminal, JSON and page
// show. It asks the rooms below and holds no reckoning of its own but sums, levels and money.
//
// It refuses nothing that could be read: a log that can't answer gets notes that say what would let it.
package stats

import (
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/prove"
	"brimlog/stats/watch"
)

// Options say what is asked of a logbook.
type Options struct {
	AsOf    book.Moment // zero: the last row's date
	Prove   bool        // what the jobs did
	Placebo string      // try placebo jobs for this id
	Watch   bool        // what shifted, which tanks stand out
	Expect  bool        // what the vehicle should use; asks for both of the above, and may run the cycle model
	Suspect bool        // which causes fit; asks for all of the above
}

// Look reviews a logbook.
func Look(b *book.Book, o Options) *Review {
	asOf := o.AsOf
	if asOf.IsZero() {
		asOf = b.Last()
	} else {
		b = b.Until(asOf)
	}
	o.Expect = o.Expect || o.Suspect
	l := tank.Build(b)
	r := &Review{Head: Head{Book: b.Vehicle.Name, AsOf: written(asOf)}, Show: b.Vehicle.Show, Problems: b.Problems}
	if r.Problems == nil {
		r.Problems = []book.Problem{}
	}
	r.Notes = notesOf(b, l)
	r.log = l
	if o.Prove || o.Watch || o.Expect {
		r.Tanks = slices.AppendSeq(make([]Tank, 0, len(l.Tanks)), r.Written(0, len(l.Tanks)))
		r.reckon(l, o)
	}
	return r
}

// reckon runs the model over the log and reads off what was asked for.
func (r *Review) reckon(l *tank.Log, o Options) {
	d := model.NewDesign(l)
	var course model.Course
	var proofs []prove.Proof
	switch {
	case o.Prove:
		proofs, course = prove.All(l, d, placeboTank(l, o.Placebo))
	case o.Expect:
		proofs, course = prove.SoFar(l, d)
	default:
		_, course = d.Ask(nil)
	}
	shifts := watch.Shifts(l, d, course)
	if o.Prove || o.Expect {
		r.Jobs = jobsOf(l, proofs, r.Tanks, shifts)
	}
	if o.Watch || o.Expect {
		r.Watch = watchOf(l, d, course, shifts)
	}
	r.levels(l, d, course)
	if o.Expect {
		r.expect(ground{l, d, course})
	}
	if o.Suspect {
		r.suspects(ground{l, d, course})
	}
}

// placeboTank is the index of the tank in which a job fell, -1 when it has none.
func placeboTank(l *tank.Log, id string) int {
	for _, j := range l.Jobs {
		if id != "" && j.ID == id && !j.Measure() {
			return j.Tank
		}
	}
	return -1
}

// ProveDocument is the answer of prove, for one job or, without an id, for all.
func (r *Review) ProveDocument(id string) ProveDocument {
	d := ProveDocument{Head: r.Head, Jobs: []Job{}}
	for _, j := range r.Jobs {
		if id == "" || j.ID == id {
			d.Jobs = append(d.Jobs, j)
		}
	}
	return d
}

// written is a moment as documents carry it; empty for none.
func written(m book.Moment) string {
	if m.IsZero() {
		return ""
	}
	return m.String()
}
