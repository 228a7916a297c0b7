package section_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// The stack that the waste joins is drawn hollow in the section along it, its near wall open
// where the branch enters; so is a vent. A stack 110 across stands from the run's end to 110
// past it, its walls 3 thick: 6 of 110 are pipe.
func TestStackAndVentAreHollow(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.Room.Stacks = []job.Stack{{At: plan.Point{115, 1000}, NominalMM: 110, OutsideMM: 110}}
		j.Waste.Exit = job.Exit{Kind: job.ExitStack}
		j.Waste.Vent = &job.Vent{AtMM: 600, NominalMM: 40}
	})
	d, run := section.LongOf(r), &r.Heights.Run
	at := func(s, z float64) string {
		a, ok := d.At(plan.Point{s, z * d.Rise})
		if !ok {
			return ""
		}
		return a.PartID
	}
	end, mouth := run.ExitAtMM, run.InvertAt(run.ExitAtMM)+run.Outgoing().BoreMM/2
	high := r.Heights.TileMM + 30
	for _, c := range []struct {
		what string
		s, z float64
		want string
	}{
		{"near wall", end + 1.5, high, "stack"}, {"bore", end + 55, high, ""}, {"far wall", end + 108.5, high, "stack"}, {"past it", end + 111, high, ""},
		{"where the branch enters", end + 1.5, mouth, ""}, {"the wall across from it", end + 108.5, mouth, "stack"},
		{"vent's wall", 600 - 19, high, "vent"}, {"vent's bore", 600, high, ""}, {"vent's other wall", 600 + 19, high, "vent"},
	} {
		if got := at(c.s, c.z); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// A fixture is drawn in sections that go through it, and in no others: a toilet 400 high, 600
// deep, at the wall opposite to the shower's left.
func TestFixturesInSections(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.Room.Fixtures = []job.Fixture{{Kind: job.FixtureToilet, Wall: 1, OffsetMM: 600, WidthMM: 360, DepthMM: 600, HeightMM: 400}}
	})
	foot := r.Floor.FinishedMM(plan.Point{2100, 780})
	for y, want := range map[float64]bool{599: false, 601: true, 780: true, 959: true, 961: false} {
		d := section.Of(r, solid.VerticalCut(plan.Point{0, y}, plan.Point{1, 0}), buildup.StageTile)
		i := slices.IndexFunc(d.Lines, func(l section.Line) bool { return l.Kind == "fixture" })
		if i >= 0 != want {
			t.Errorf("at y %v: drawn is %v, want %v", y, i >= 0, want)
			continue
		}
		if !want {
			continue
		}
		low, high, _ := plan.FromRing(d.Lines[i].Points[:4]).Bounds()
		if size := high.Sub(low); math.Abs(size.X()-600) > 0.01 || math.Abs(size.Y()-400) > 0.01 || math.Abs(low.Y()-foot) > 0.01 {
			t.Errorf("at y %v: %v by %v from level %v, want 600 by 400 from %v", y, size.X(), size.Y(), low.Y(), foot)
		}
	}
}

// A section along the pane of the starting job shows its lower edge as it is cut: 112 at the
// back and up to y = 1817, 127.44 at its end; the starting job lies as solved in the tests of
// levels. Across it, at y = 1431 half way up, it is 119.72.
func TestGlassInSections(t *testing.T) {
	r := starting(t)
	tile := r.Heights.TileMM
	foot := func(cut solid.Cut) (out []plan.Point) {
		for _, line := range section.Of(r, cut, buildup.StageTile).Lines {
			if line.Kind != "screen" {
				continue
			}
			for _, p := range line.Points {
				if p.Y() < tile+40 {
					q := cut.Space(p)
					out = append(out, plan.Point{q.X() + q.Y(), p.Y() - tile})
				}
			}
		}
		slices.SortFunc(out, func(a, b plan.Point) int { return cmp.Compare(a.X(), b.X()) })
		return slices.Compact(out)
	}
	along := foot(solid.VerticalCut(plan.Point{1382, 0}, plan.Point{0, 1}))
	want := []plan.Point{{1382 + 1045, 19.44}, {1382 + 1817, 4}, {1382 + 1887, 4}}
	across := foot(solid.VerticalCut(plan.Point{0, 1431}, plan.Point{1, 0}))
	for what, c := range map[string][2][]plan.Point{"along": {along, want}, "across": {across, {{1378 + 1431, 11.72}, {1386 + 1431, 11.72}}}} {
		if len(c[0]) != len(c[1]) {
			t.Fatalf("%s: %v, want %v", what, c[0], c[1])
		}
		for i := range c[0] {
			if c[0][i].Sub(c[1][i]).Len() > 1e-6 {
				t.Errorf("%s: %v, want %v", what, c[0], c[1])
			}
		}
	}
}
