package geometry_test

import (
	"context"
	"testing"

	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
)

// sharesIn are the numbers of a hundred in the texts of an id, however deep they stand.
func sharesIn(id message.ID, of ...message.Message) (out []float64) {
	for _, m := range of {
		for _, a := range m.Args {
			switch v := a.Value.(type) {
			case message.Number:
				if m.ID == id {
					out = append(out, float64(v))
				}
			case message.Said:
				out = append(out, sharesIn(id, message.Message(v))...)
			}
		}
	}
	return out
}

// In how many builds a floor comes right is one number, wherever it is told: with the answer and with
// the heights that the base may have. What is not counted is told as being about so much.
func TestTheShareOfBuildsIsOneNumber(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		counted, err := chance.Count(context.Background(), r.Levelled, r.Findings, 500, chance.Seed)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []*chance.Chances{nil, &counted} {
			a := r.Answer(c)
			lines := a.HeightLines(r)
			told := sharesIn("heights.comes-right", lines...)
			if c == nil || a.Standing == geometry.Stops {
				if len(told) > 0 || len(sharesIn("heights.about", lines...)) == 0 {
					t.Errorf("%s, not counted: %v", r.Settled.Name, lines)
				}
				continue
			}
			answer := sharesIn("answer.chance", a.ChanceLine())
			if len(told) == 0 || len(answer) != 1 {
				t.Errorf("%s: no share is told: %v, %v", r.Settled.Name, lines, a.ChanceLine())
			}
			for _, n := range told {
				if n != answer[0] {
					t.Errorf("%s: %v with its heights, %v with the answer", r.Settled.Name, n, answer[0])
				}
			}
		}
	}
}

// A base that lies under the floor is told as let down by so much, not as raised by less than nothing.
func TestTheRaiseHasNoSign(t *testing.T) {
	down := 0
	for _, r := range demotest.Shown(t) {
		for _, f := range r.Figures() {
			if f.Of.ID != "figure.raise" && f.Of.ID != "figure.let-down" {
				continue
			}
			mm := f.Value.Args[0].Value.(message.Length).MM
			sunk := r.Answer(nil).RaiseMM < 0
			if mm < 0 || sunk != (f.Of.ID == "figure.let-down") {
				t.Errorf("%s: %s of %v", r.Settled.Name, f.Of.ID, mm)
			}
			if sunk {
				down++
			}
		}
	}
	if down == 0 {
		t.Error("no demo's base lies under the floor")
	}
}
