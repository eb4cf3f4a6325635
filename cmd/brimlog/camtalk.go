package main

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A camTalk asks somebody at the engine for the readings, one after another, cautions first. An empty line passes over a
// question, or ends the rounds.
type camTalk struct {
	lines *bufio.Scanner
	w     io.Writer
}

func (t *camTalk) ask(q *engine.CamQuestion) error {
	fmt.Fprintln(t.w, "Before anything is turned:")
	s := &sheet{w: t.w}
	for _, c := range engine.WheelCautions {
		s.point("%s", c)
	}
	s.gap()
	if !q.Card.Known() {
		t.one("Timing card, intake opens-closes/exhaust opens-closes, as 20-60/60-20", func(text string) error {
			in, ex, err := parseRound(text)
			if err == nil && (len(in) == 0 || len(ex) == 0) {
				err = fmt.Errorf("want both lobes, as 20-60/60-20, got %q", text)
			}
			if err != nil {
				return err
			}
			q.Card = engine.Card{IntakeOpensBTDC: in[0].Opens, IntakeClosesABDC: in[0].Closes, ExhaustOpensBBDC: ex[0].Opens, ExhaustClosesATDC: ex[0].Closes,
				SprocketTeeth: q.Card.SprocketTeeth}
			return q.Card.Check()
		})
	}
	if !quantity.Known(q.Card.SprocketTeeth) {
		t.one("Teeth of the cam's sprocket", number64(&q.Card.SprocketTeeth))
	}
	t.one("Lift at which both flanks are read, as 1.25 mm or 0.05 in", func(text string) (err error) {
		q.LiftMM, err = parseLift(text)
		return err
	})
	for n := 1; ; n++ {
		round := fmt.Sprintf("Round %d, intake opens-closes, and the exhaust too where it is read, as 25-55/65-15 (three rounds tell the scatter)", n)
		if !t.one(round, func(text string) error {
			in, ex, err := parseRound(text)
			q.Intake, q.Exhaust = append(q.Intake, in...), append(q.Exhaust, ex...)
			return err
		}) {
			break
		}
	}
	if len(q.Intake)+len(q.Exhaust) == 0 {
		t.one("Without the wheel: cam degrees that the sprocket stands ahead of its mark (behind is negative)", number64(&q.SprocketOffset))
	}
	return t.lines.Err()
}

// one asks until the answer can be used; false where there was none.
func (t *camTalk) one(question string, take func(text string) error) bool {
	for {
		fmt.Fprintf(t.w, "%s: ", question)
		if !t.lines.Scan() {
			fmt.Fprintln(t.w)
			return false
		}
		text := strings.TrimSpace(t.lines.Text())
		if text == "" {
			return false
		}
		err := take(text)
		if err == nil {
			return true
		}
		fmt.Fprintf(t.w, "  %v\n", err)
	}
}

// agree asks a question that yes answers; anything else is no.
func (t *camTalk) agree(question string) bool {
	yes := false
	t.one(question+"? (yes or no)", func(text string) error {
		yes = strings.HasPrefix(strings.ToLower(text), "y")
		return nil
	})
	return yes
}

func number64(x *float64) func(text string) error {
	return func(text string) error {
		y, err := strconv.ParseFloat(text, 64)
		if err != nil || !quantity.Known(y) {
			return fmt.Errorf("want a number, got %q", text)
		}
		*x = y
		return nil
	}
}
