package charts

import (
	"strings"
	"testing"

	"brimlog/stats"
)

// A shift whose odds fall short of proof is told with a perhaps and drawn hollow, wherever it stands; one that is proved is not.
func TestShiftShortOfProof(t *testing.T) {
	for _, c := range []struct {
		change, odds       float64
		gradual, back      bool
		mark, figure       string
		answer, head, told string
	}{
		{6.8, 240, false, false, "▼", "Yes: 6.8 % more fuel", "it began to take more", "6.8 % more fuel", "It came between"},
		{6.8, 5, false, false, "▽", "It seems so: 6.8 % more fuel", "it seems to have begun to take more", "Perhaps 6.8 % more fuel", "It seems to have come between"},
		{6.8, 240, true, false, "▼", "Yes: 6.8 % more fuel", "it came, little by little, to take more", "6.8 % more fuel", "It crept up between"},
		{6.8, 5, true, false, "▽", "It seems so: 6.8 % more fuel", "it seems to have come, little by little, to take more", "Perhaps 6.8 % more fuel", "It seems to have crept up between"},
		{6.8, 1, false, true, "▽", "No, not now", "it seems to have begun to take 6.8 % more fuel", "Perhaps 6.8 % more fuel", "It seems to have come between"},
		{6.8, 240, false, true, "▼", "Not any more", "it began to take 6.8 % more fuel", "6.8 % more fuel", "It came between"},
		{-4.2, 5, false, false, "△", "No: perhaps 4.2 % less fuel", "it seems to have begun to take less", "Perhaps 4.2 % less fuel", "It seems to have come between"},
		{-4.2, 31, true, false, "▲", "No: 4.2 % less fuel", "it came, little by little, to take less", "4.2 % less fuel", "It crept down between"},
	} {
		r := heron()
		s := stats.Shift{FromDate: "2023-05-01", ToDate: "2023-11-13", ChangePct: Figure(c.change), LowPct: Figure(c.change - 3), HighPct: Figure(c.change + 3),
			OddsChanged: Figure(c.odds), Jobs: []string{}, SinceTank: 61, Gradual: c.gradual}
		if c.back {
			s.TakenBackBy = "tyres"
		}
		r.Watch.Shifts, r.Watch.Alarm = []stats.Shift{s}, c.change > 0 && !c.back
		l := open(r)
		plainly := func(x string) string { return strings.ReplaceAll(x, "\u00a0", " ") }
		a, _ := slipped(l)
		if got := plainly(textIn(a.Figure)); got != c.figure || !strings.Contains(plainly(textIn(a.Sentence)), c.answer) {
			t.Errorf("%+v is answered %q: %q", c, got, textIn(a.Sentence))
		}
		card := l.shiftCard(s)
		if plainly(card.Headline) != c.head || !strings.HasPrefix(textIn(card.Finding), c.told) || card.Mark.Mark != c.mark {
			t.Errorf("%+v has the card %s %q: %q", c, card.Mark.Mark, card.Headline, textIn(card.Finding))
		}
		if n := shiftRows(l)[0][2]; rulings[int(n)].mark != c.mark {
			t.Errorf("%+v is drawn as %s", c, rulings[int(n)].mark)
		}
		if hollow := c.odds < 20; card.Rule.Hollow != hollow || a.Rule.Hollow != hollow {
			t.Errorf("%+v: hollow on the rules: %v and %v", c, card.Rule.Hollow, a.Rule.Hollow)
		}
		if crept := strings.Contains(textOf(t, r, "timeline"), "or little by little over them"); crept != c.gradual {
			t.Errorf("%+v: the key tells of a climb: %v", c, crept)
		}
	}
}
