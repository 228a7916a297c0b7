package section_test

import (
	"math"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/section"
)

// A cut along the pipe of any demo shows it: cut at its own place, broken and told when it is moved 150 to either side, which
// is more than half of any pipe: behind the cut where that is moved to the side that one looks from, before it on the other.
func TestAlongThePipeShowsIt(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		if len(r.Heights.Run.Corners) < 2 {
			continue
		}
		pipe := r.Heights.Run.PipeAt(0)
		for aside, told := range map[float64]message.ID{0: "", 150: section.MarkPipeBehind, -150: section.MarkPipeBefore} {
			c := section.Cutting{Of: section.CutPipe, AsideMM: aside}
			d, err := section.Through(r, c, buildup.StageTile)
			if err != nil {
				continue // out of the room, which is told
			}
			broken := 0
			for _, l := range d.Lines {
				if l.Kind != "run" {
					continue
				}
				broken++
				if high := l.Points[len(l.Points)-2].Y() - l.Points[0].Y(); broken == 1 && math.Abs(high-pipe.OutsideDiameterMM) > 1e-6 {
					t.Errorf("%s: a pipe of %v is drawn %v high", r.Settled.Name, pipe.OutsideDiameterMM, high)
				}
			}
			var of message.ID
			for _, m := range d.Marks {
				if m.Of == section.MarkPipeBehind || m.Of == section.MarkPipeBefore {
					if of = m.Of; math.Abs(m.ThicknessMM-150) > 1e-6 {
						t.Errorf("%s: moved 150 aside, %v is told", r.Settled.Name, m.ThicknessMM)
					}
				}
			}
			if of != told || (broken > 0) != (told != "") {
				t.Errorf("%s: %v aside %q is told, not %q, and %d pieces are drawn broken", r.Settled.Name, aside, of, told, broken)
			}
		}
		left, right := section.Cutting{Of: section.CutPipe, AsideMM: 150}, section.Cutting{Of: section.CutPipe, AsideMM: -150}
		if left.Says(r).IsZero() && right.Says(r).IsZero() {
			t.Errorf("%s: no cut beside the pipe", r.Settled.Name)
		}
	}
}
