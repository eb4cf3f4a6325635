package suspect

import "testing"

// Asked to the end, no question comes twice, 'don't know' is taken, and the asking ends.
func TestQuestions(t *testing.T) {
	for _, answer := range []string{"", "first"} {
		e := heronLate()
		asked := map[string]bool{}
		for {
			q, ok := NextQuestion(e)
			if !ok {
				break
			}
			if asked[q.Sign] || q.Text == "" || len(q.Answers) < 2 {
				t.Fatalf("asked %+v, after %v", q, asked)
			}
			asked[q.Sign] = true
			if answer == "" {
				e = e.Answer(q, "")
			} else {
				e = e.Answer(q, q.Answers[0])
			}
		}
		if len(asked) < 3 {
			t.Errorf("only %d questions were worth asking", len(asked))
		}
	}
}

// A brake and a slipping clutch are told apart by the pull at full throttle, not by how it starts.
func TestTheTellingQuestionComesFirst(t *testing.T) {
	e := Nothing()
	e.Seen = map[string]string{"smell": "burnt", "smoke": "none", "plug": "normal"}
	q, ok := NextQuestion(e)
	if !ok || q.Sign != "weak_high" {
		t.Errorf("asks %q first, want weak_high", q.Sign)
	}
}

func TestAnswerLeavesTheEvidenceGivenAlone(t *testing.T) {
	e := heronLate()
	q, _ := NextQuestion(e)
	e.Answer(q, q.Answers[0])
	if len(e.Seen) > 0 || len(e.DontKnow) > 0 {
		t.Error("the evidence given was changed")
	}
}
