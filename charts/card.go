package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
)

// A field is a box on a card: what it is, and what stands in it.
type field struct {
	Label string
	Value template.HTML
	Under template.HTML // in small, where it needs explaining
	Wide  bool          // it has much to say
}

// A head is the card at the top of the page.
type head struct {
	Book   template.HTML
	Fields []field
}

// card says which log this is and how much there is of it.
func card(l *logbook) head {
	h := head{Book: name(or(l.Book, "A vehicle without a name"))}
	add := func(label string, value template.HTML) {
		h.Fields = append(h.Fields, field{Label: label, Value: value})
	}
	if n := len(l.tanks); n > 0 {
		add("From", say(spoken(l.tanks[0].FromDate)))
		add("To", say(spoken(l.tanks[n-1].ToDate)))
		add("Tanks", say(number(float64(n), 0)))
	} else if l.AsOf != "" {
		add("The log up to", say(spoken(l.AsOf)))
	}
	km, litres := 0.0, 0.0
	for _, t := range l.tanks {
		km += quantity.Or(float64(t.DistanceKm), 0)
		litres += quantity.Or(float64(t.FuelL), 0)
	}
	if km > 0 {
		add("Driven on them", l.distance(km))
		add("Fuel", l.volume(litres))
	}
	if n := len(l.jobs); n > 0 {
		add("Jobs", say(number(float64(n), 0)))
	}
	if n := len(l.Problems); n > 0 {
		add("Entries to look at", say(template.HTML(`<a href="#slips">`), number(float64(n), 0), template.HTML(`</a>`)))
	}
	return h
}
