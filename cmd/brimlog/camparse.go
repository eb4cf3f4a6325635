package main

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

var rounds = regexp.MustCompile(`^(?:` + pair + `)?(?:/` + pair + `)?$`)

const pair = `(-?\d+(?:\.\d+)?)[-–,](-?\d+(?:\.\d+)?)`

// parseRound reads 25-55/65-15, 25-55 or /65-15. A flank beyond its dead centre is negative: -3-27.
func parseRound(text string) (intake, exhaust engine.Lobe, err error) {
	m := rounds.FindStringSubmatch(strings.Join(strings.Fields(text), ""))
	if m == nil || m[0] == "" {
		return nil, nil, fmt.Errorf("want intake opens-closes/exhaust opens-closes, as 25-55/65-15, or 25-55 for the intake alone, got %q", text)
	}
	lobe := func(opens, closes string) engine.Lobe {
		if opens == "" {
			return nil
		}
		o, _ := strconv.ParseFloat(opens, 64) // the pattern lets numbers through only
		c, _ := strconv.ParseFloat(closes, 64)
		return engine.Lobe{{Opens: o, Closes: c}}
	}
	return lobe(m[1], m[2]), lobe(m[3], m[4]), nil
}

// parseCard reads both lobes of a timing card.
func parseCard(text string, teeth float64) (engine.Card, error) {
	in, ex, err := parseRound(text)
	if err != nil || len(in) == 0 || len(ex) == 0 {
		return engine.Card{}, fmt.Errorf("want intake opens-closes/exhaust opens-closes, as 20-60/60-20, got %q", text)
	}
	return engine.Card{IntakeOpensBTDC: in[0].Opens, IntakeClosesABDC: in[0].Closes, ExhaustOpensBBDC: ex[0].Opens, ExhaustClosesATDC: ex[0].Closes,
		SprocketTeeth: teeth}, nil
}

// parseLift reads a lift in mm, or in inches where it says so.
func parseLift(text string) (mm float64, err error) {
	number, scale := strings.TrimSpace(text), 1.0
	for unit, s := range map[string]float64{"mm": 1, "in": 25.4, `"`: 25.4} {
		if n, ok := strings.CutSuffix(number, unit); ok {
			number, scale = strings.TrimSpace(n), s
		}
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || !(x > 0) {
		return quantity.Unknown, fmt.Errorf("want a lift above nought, as 1.25 mm or 0.05 in, got %q", text)
	}
	return x * scale, nil
}
