package settle

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/plan"
)

// least is the least movement of all that lies within a wall and apart, found by trying every place on a
// grid of whole millimetres for everything that moves.
func least(spans []span, lengthMM int, keep apart) float64 {
	best := math.Inf(1)
	var try func(i int, placed []span, sum float64)
	try = func(i int, placed []span, sum float64) {
		if sum >= best {
			return
		}
		if i == len(spans) {
			best = sum
			return
		}
		p := spans[i]
		was := p.fromMM
		first, last := 0, lengthMM-int(p.longMM)
		if !p.moves {
			first, last = int(was), int(was)
			if p.toMM() > float64(lengthMM) {
				return
			}
		}
		for at := first; at <= last; at++ {
			p.fromMM = float64(at)
			clear := true
			for _, o := range placed {
				clear = clear && !(p.meets(o) && keep(p, o))
			}
			if clear {
				try(i+1, append(placed[:i:i], p), sum+math.Abs(p.fromMM-was))
			}
		}
	}
	try(0, nil, 0)
	return best
}

// What has to move along a wall moves as little as every arrangement of it allows.
func TestLeastMovement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const lengthMM = 40
		n := rapid.IntRange(1, 3).Draw(t, "things")
		row := make([]span, n)
		for i := range row {
			row[i] = span{kind: doorSpan, index: i, fromMM: float64(rapid.IntRange(0, 45).Draw(t, "from")),
				longMM: float64(rapid.IntRange(1, 20).Draw(t, "long")), moves: rapid.IntRange(0, 3).Draw(t, "moves") > 0}
		}
		all := rapid.Bool().Draw(t, "all apart")
		// Two of them need not be kept apart.
		keep := func(a, b span) bool { return a.index+b.index != 1 || n < 3 || all }
		want := least(row, lengthMM, keep)
		r := rowOf(row, lengthMM, keep)
		if lies := r.lie(); lies == math.IsInf(want, 1) {
			t.Fatalf("lies %v, and the least movement is %v", lies, want)
		} else if !lies {
			return
		}
		got := 0.0
		for i, p := range r.spans {
			got += math.Abs(p.fromMM - r.was[i])
		}
		if math.Abs(got-want) > plan.HairMM {
			t.Fatalf("moved %v, and %v is enough: %+v", got, want, r.spans)
		}
		for i, p := range r.spans {
			if p.fromMM < 0 || p.toMM() > lengthMM || !p.moves && p.fromMM != r.was[i] {
				t.Fatalf("%+v was at %v", p, r.was[i])
			}
		}
	})
}
