package section_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// The stack that the waste joins is drawn hollow in the section along it, its near wall open
// where the branch enters; so is a vent. A stack 110 across stands from the run's end to 110
// past it, its walls 3 thick: 6 of 110 are pipe.
func TestStackAndVentAreHollow(t *testing.T) {
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{115, 1000}, NominalMM: 110, OutsideMM: 110}}
	j.Waste.Exit = job.Exit{Kind: job.ExitStack}
	j.Waste.Vent = &job.Vent{AtMM: 600, NominalMM: 40}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
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
	j := job.New()
	j.Room.Fixtures = []job.Fixture{{Kind: job.FixtureToilet, Wall: 1, OffsetMM: 600, WidthMM: 360, DepthMM: 600, HeightMM: 400}}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
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
