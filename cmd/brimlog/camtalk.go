package main

import (
	"fmt"
	"strconv"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// askCam asks somebody at the engine for the readings, cautions first. Enter passes over a question, or ends the rounds.
func (t *talk) askCam(q *engine.CamQuestion) error {
	t.say("Before anything is turned (Enter passes over a question):")
	s := &sheet{w: t.w}
	for _, c := range engine.WheelCautions {
		s.point("%s", c)
	}
	if !q.Card.Known() {
		if _, err := t.given("timing card, intake opens-closes/exhaust opens-closes, as 20-60/60-20", func(text string) error {
			card, err := parseCard(text, q.Card.SprocketTeeth)
			if err == nil {
				q.Card, err = card, card.Check()
			}
			return err
		}); err != nil {
			return err
		}
	}
	if !quantity.Known(q.Card.SprocketTeeth) {
		if _, err := t.given("teeth of the cam's sprocket, as 40", figure(&q.Card.SprocketTeeth)); err != nil {
			return err
		}
	}
	if _, err := t.given("lift at which both flanks are read, as 1.25 mm or 0.05 in", func(text string) (err error) {
		q.LiftMM, err = parseLift(text)
		return err
	}); err != nil {
		return err
	}
	if err := t.askRounds(q); err != nil {
		return err
	}
	if len(q.Intake)+len(q.Exhaust) == 0 {
		if _, err := t.given("without the wheel: cam degrees that the sprocket stands ahead of its mark, behind is negative", figure(&q.SprocketOffset)); err != nil {
			return err
		}
	}
	return t.askIgnition(q)
}

// askIgnition asks what has become of the spark, where no flag has told.
func (t *talk) askIgnition(q *engine.CamQuestion) error {
	if q.Ignition != engine.IgnitionUnknown {
		return nil
	}
	_, err := t.given("does the distributor turn with the cam, and was the ignition set again since: moved (turns with it, not set again) or reset (set again, or not driven by it)", func(text string) error {
		said, ok := engine.SparkWords[text]
		if !ok {
			return fmt.Errorf("want moved, reset or unknown, got %q", text)
		}
		q.Ignition = said
		return nil
	})
	return err
}

// askRounds asks for rounds of the wheel until there are no more.
func (t *talk) askRounds(q *engine.CamQuestion) error {
	for n := 1; ; n++ {
		question := fmt.Sprintf("round %d, intake opens-closes, and /exhaust where it is read, as 25-55/65-15", n)
		if n == 1 {
			question += "; three rounds tell the scatter"
		}
		given, err := t.given(question, func(text string) error {
			in, ex, err := parseRound(text)
			q.Intake, q.Exhaust = append(q.Intake, in...), append(q.Exhaust, ex...)
			return err
		})
		if err != nil || !given {
			return err
		}
	}
}

// given asks until the answer can be used; false where Enter passed over the question.
func (t *talk) given(question string, take func(text string) error) (given bool, err error) {
	err = t.until(question, "", func(text string) (string, error) {
		if given = text != ""; !given {
			return "", nil
		}
		return "", take(text)
	})
	return given, err
}

func figure(x *float64) func(text string) error {
	return func(text string) error {
		y, err := strconv.ParseFloat(text, 64)
		if err != nil || !quantity.Known(y) {
			return fmt.Errorf("want a number, got %q", text)
		}
		*x = y
		return nil
	}
}
