package engine

import (
	"errors"
	"strings"
	"testing"

	"brimlog/ingest/quantity"
)

// Flanks that can't belong to one lobe at one lift are questioned, and those that can are not.
func TestFlanksAreCompared(t *testing.T) {
	u := quantity.Unknown
	for _, c := range []struct {
		name string
		in   Lobe
		ex   Lobe
		lift float64
		want string
	}{
		{"as the card", Lobe{{20, 60}, {21, 59}, {19, 60}}, nil, u, ""},
		{"moved", Lobe{{10, 70}}, nil, u, ""},
		{"at a lift of its own", Lobe{{5, 45}, {6, 44}}, nil, 1.25, ""},
		{"another lift, and not said", Lobe{{5, 45}}, nil, u, "intake flanks lie 230 degrees apart where the card has 260: another lift"},
		{"wider than the card", Lobe{{35, 75}}, nil, u, "intake flanks lie 290 degrees apart"},
		{"wider than the card, at a lift", Lobe{{35, 75}}, nil, 1.25, "at 1.25 mm of lift where the card has 260"},
		{"a flank misread in one round", Lobe{{20, 60}, {20, 70}, {20, 60}}, nil, 1.25, "intake flanks lie 260 degrees apart in one round and 270 in another"},
		{"the exhaust's", nil, Lobe{{60, 20}, {50, 20}}, u, "exhaust flanks lie 250 degrees apart in one round and 260 in another"},
	} {
		q := NewCamQuestion(Card{20, 60, 60, 20, 40})
		q.Intake, q.Exhaust, q.LiftMM = c.in, c.ex, c.lift
		a, err := q.Answer()
		if err != nil {
			t.Fatal(err)
		}
		all := strings.Join(a.Notes, "\n")
		if c.want == "" && strings.Contains(all, "flanks") || !strings.Contains(all, c.want) {
			t.Errorf("%s: notes %q, want %q", c.name, all, c.want)
		}
	}
	for name, set := range map[string]func(*CamQuestion){
		"lift":                        func(q *CamQuestion) { q.LiftMM = 0 },
		"lift ":                       func(q *CamQuestion) { q.LiftMM = -1 },
		"distance between the flanks": func(q *CamQuestion) { q.Intake = Lobe{{-100, -80}} },
	} {
		q := NewCamQuestion(Card{20, 60, 60, 20, 40})
		q.Intake = Lobe{{20, 60}}
		set(&q)
		_, err := q.Answer()
		var bound *BoundError
		if !errors.As(err, &bound) || bound.Key != strings.TrimSpace(name) {
			t.Errorf("want %s refused, got %v", name, err)
		}
	}
}
