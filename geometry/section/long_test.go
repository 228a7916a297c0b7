package section_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// In the long section every piece of pipe is as long and as high as it is, its
// levels those of the run, the heights exaggerated and nothing else.
func TestLongSectionIsTrue(t *testing.T) {
	for _, r := range demotest.Results(t) {
		d := section.LongOf(r)
		run := r.Heights.Run
		pipes := map[string]section.Area{}
		for _, a := range d.Areas {
			pipes[a.Name.String()] = a
			if len(a.Region) == 0 {
				t.Errorf("%s: %s has no area", r.Settled.Name, a.Name)
			}
		}
		for _, p := range run.Pieces {
			if p.Kind == "drop" || p.LengthMM() < 1 {
				continue
			}
			a, ok := pipes[p.Name().Message().String()]
			if !ok {
				t.Errorf("%s: %s is not drawn", r.Settled.Name, p.Name().Message())
				continue
			}
			covers := p.LengthMM() * (p.Pipe.OutsideDiameterMM + p.After.OutsideDiameterMM - p.Pipe.BoreMM - p.After.BoreMM) / 2
			// Sockets stand out by 3.5 and are 20 deep; those of a bend of 25 for 45° on pipe of
			// 42 end where they are a millimetre apart, (24.5 + 1)·tan 22.5° from its corner.
			switch p.Kind {
			case "bend":
				if p.Pipe.OutsideDiameterMM != 42 || p.NearestDeg != 45 {
					t.Fatalf("%s: a bend of %v for %v", r.Settled.Name, p.Pipe.OutsideDiameterMM, p.NearestDeg)
				}
				covers += 2 * 3.5 * 2 * (25 - 25.5*math.Tan(p.TurnDeg*math.Pi/360))
			case "falling-piece":
				covers += 2 * 3.5 * 2 * 20
			}
			if got, want := a.Region.Area(), covers*d.Rise; !(math.Abs(got-want) <= 1e-6*want) {
				t.Errorf("%s: %s covers %v, want length × walls × rise %v", r.Settled.Name, p.Name().Message(), got, want)
			}
		}
		for _, m := range d.Marks {
			levelled := m.Of != section.MarkLeastCover && m.Of != section.MarkStop && m.Of != section.MarkPiece
			if m.Of == section.MarkInvert && !(math.Abs(m.LevelMM-run.InvertAt(m.At.X())) <= 1e-9) ||
				levelled && !(math.Abs(m.At.Y()-m.LevelMM*d.Rise) <= 1e-6) {
				t.Errorf("%s: mark %+v, invert there %v", r.Settled.Name, m, run.InvertAt(m.At.X()))
			}
		}
	}
}

// overJoists is the starting job let in between joists of 47 × 200 under a deck of
// 20, that run in a direction; its waste goes straight left from x = 645.
func overJoists(t *testing.T, directionDeg, firstMM float64) geometry.Result {
	t.Helper()
	j := job.New()
	j.Floor = job.Floor{Kind: job.FloorTimber, Deck: job.Deck{ThicknessMM: 20},
		Joists: job.Joists{DepthMM: 200, WidthMM: 47, SpacingMM: 400, DirectionDeg: directionDeg, FirstOffsetMM: firstMM}}
	j.Base.Support, j.Base.Height, j.Base.HeightMM = job.BetweenJoists, job.HeightChosen, 0
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	return r
}

// timber are the boxes of the joists drawn, by where they begin.
func timber(d section.Drawing) (boxes [][2]plan.Point) {
	for _, a := range d.Areas {
		if a.Material == material.Timber {
			low, high, _ := a.Region.Bounds()
			boxes = append(boxes, [2]plan.Point{low, high})
		}
	}
	slices.SortFunc(boxes, func(a, b [2]plan.Point) int { return cmp.Compare(a[0].X(), b[0].X()) })
	return boxes
}

// The joists that the run meets in plan are drawn as wide as it crosses them, from
// −220 to −20. Square to it, at x = 300 and 700, it meets the one at 300, from
// 645 − 323.5 on; the one at 700, under the trap, lies 78.5 before. At 45° its way through one is 47·√2; the one that passes through
// (322.5, 1832), as its offset is chosen, lies about 322.5 along the run.
func TestLongSectionShowsTheJoists(t *testing.T) {
	d := section.LongOf(overJoists(t, 270, 300))
	drawn := timber(d)
	want := [2][2]plan.Point{{{-78.5, -220 * d.Rise}, {-31.5, -20 * d.Rise}}, {{321.5, -220 * d.Rise}, {368.5, -20 * d.Rise}}}
	if len(drawn) != 2 {
		t.Fatalf("joists at %v, want them at %v", drawn, want)
	}
	for i := range want {
		if drawn[i][0].Sub(want[i][0]).Len() > 1e-6 || drawn[i][1].Sub(want[i][1]).Len() > 1e-6 {
			t.Errorf("a joist at %v, want it at %v", drawn[i], want[i])
		}
	}
	d = section.LongOf(overJoists(t, 45, (2400-322.5+1832)/math.Sqrt2))
	found := false
	for _, b := range timber(d) {
		if middle := (b[0].X() + b[1].X()) / 2; math.Abs(middle-322.5) < 1e-6 {
			found = true
			if wide := b[1].X() - b[0].X(); math.Abs(wide-47*math.Sqrt2) > 1e-6 {
				t.Errorf("at 45° a joist of 47 is drawn %v wide", wide)
			}
		}
	}
	if !found {
		t.Errorf("at 45° no joist is drawn at 322.5: %v", timber(d))
	}
	// Along the run, under it, one for all of its length in the room and 150 before; beside it,
	// 100 off, none.
	if drawn = timber(section.LongOf(overJoists(t, 0, 1832-4*400))); len(drawn) != 1 || math.Abs(drawn[0][1].X()-drawn[0][0].X()-795) > 1e-6 {
		t.Errorf("a joist under the run is drawn at %v", drawn)
	}
	if drawn = timber(section.LongOf(overJoists(t, 0, 1732-4*400))); len(drawn) != 0 {
		t.Errorf("joists beside the run are drawn at %v", drawn)
	}
	// On a slab there are none.
	if drawn = timber(section.LongOf(demotest.Results(t)[0])); len(drawn) != 0 {
		t.Errorf("on a slab joists are drawn at %v", drawn)
	}
}

// Water runs downhill all the way, and to the drain.
func TestFlowLinesRunDown(t *testing.T) {
	for _, r := range demotest.Results(t) {
		lines := section.FlowLines(r, 150)
		if len(lines) < 10 {
			t.Errorf("%s: %d lines", r.Settled.Name, len(lines))
		}
		reached := 0
		for _, l := range lines {
			for i := 1; i < len(l); i++ {
				if a, b := r.Layout.Fall.At(l[i-1]), r.Layout.Fall.At(l[i]); b > a+1e-9 {
					t.Fatalf("%s: water runs up from %v to %v", r.Settled.Name, a, b)
				}
			}
			if r.Layout.Fall.At(l[len(l)-1]) < 0.5 {
				reached++
			}
		}
		if reached < len(lines)*9/10 {
			t.Errorf("%s: only %d of %d lines reach the drain's level", r.Settled.Name, reached, len(lines))
		}
	}
}

// Over a bend the floor is one body: it was drawn in as many slices as the bend has
// straights, whose outlines stood over each other as a black block.
func TestFloorOverBendsIsWhole(t *testing.T) {
	for _, r := range demotest.Results(t)[:5] {
		j := r.Settled.Clone()
		from, to := r.Layout.Outlet, r.Layout.OutletTo
		j.Waste.Waypoints = []plan.Point{from.Add(to.Mul(150))}
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: from.Add(to.Mul(150)).Add(plan.Left(to).Mul(-250))}
		if !r.Layout.FallArea.Contains(j.Waste.Exit.At, 0) {
			j.Waste.Exit.At = from.Add(to.Mul(150)).Add(plan.Left(to).Mul(250))
		}
		bent := geometry.Evaluate(j, r.Pack)
		if len(bent.Problems) > 0 || bent.Heights.Run.Bends != 1 {
			t.Fatalf("%s: %v, %d bends", j.Name, bent.Problems, bent.Heights.Run.Bends)
		}
		count := map[string]int{}
		for _, a := range section.LongOf(bent).Areas {
			count[a.PartID]++
		}
		// A let-in base may be broken by joists under it; nothing else is.
		if count["former"] != 1 || count["tile"] != 1 {
			t.Errorf("%s: the former is drawn in %d pieces, the tile in %d", j.Name, count["former"], count["tile"])
		}
	}
}

// Through a cavity wall of 300 with leaves of 100 the run meets both and the hollow between.
func TestLeavesAlongTheRun(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		w := &j.Room.Walls[3]
		w.Kind, w.ThicknessMM, w.InnerLeafMM, w.CavityMM = job.WallCavity, 300, 100, 100
	})
	d, at := section.LongOf(r), r.Heights.Run.WallAtMM
	for mm, want := range map[float64]bool{50: true, 150: false, 250: true} {
		if a, _ := d.At(plan.Point{at + mm, 150 * d.Rise}); (a.PartID == "wall") != want {
			t.Errorf("%v into the wall: %q", mm, a.PartID)
		}
	}
	// Over the sleeve a flashing goes across the cavity, from the outer leaf up to the inner one, with weep
	// holes through the outer one at its foot: 3 over the hole, whose top there is 33 and a hair over a
	// middle of 26.875 − 200/40.
	foot := 26.875 - 5 + 33*math.Hypot(1, 1.0/40) + 3
	c := solid.VerticalCut(plan.Point{0, 1832}, plan.Point{-1, 0})
	across := section.Of(r, c, buildup.StageTile)
	zero := c.Flat(plan.Point{0, 1832}.Vec3(0)).X()
	for what, in := range map[string]struct {
		d     section.Drawing
		x, up float64
	}{"along the run": {d, at, d.Rise}, "across the wall": {across, zero, 1}} {
		for _, p := range []plan.Point{{199, 2}, {150, 37.5 + 1.5}} {
			if a, _ := in.d.At(plan.Point{in.x + p.X(), (foot + p.Y()) * in.up}); a.PartID != "flashing" {
				t.Errorf("%s, %v from the foot of the flashing: %q", what, p, a.PartID)
			}
		}
		if weep := linesOf(in.d, "weep"); len(weep) != 1 {
			t.Errorf("%s: %d weep holes", what, len(weep))
		} else {
			expectLine(t, weep[0], section.Medium, true, plan.Point{in.x + 200, foot * in.up}, plan.Point{in.x + 300, foot * in.up})
		}
		if !slices.ContainsFunc(in.d.Marks, func(m section.Mark) bool { return m.Of == section.MarkFlashing }) {
			t.Errorf("%s it is not named", what)
		}
	}
}

// The whole run is dimensioned as far as its pieces are: also the drop through a floor, to its middle.
func TestTheWholeRunIsDimensioned(t *testing.T) {
	const sameMM = 1e-6
	drops := 0
	for _, r := range demotest.Shown(t) {
		pieces, whole := 0.0, 0.0
		for _, d := range section.LongOf(r).Dimensions {
			switch {
			case d.Side.Y() >= 0:
			case d.Row == 1:
				pieces = math.Max(pieces, d.To.X())
			case d.Row == 2:
				whole = d.To.X()
			}
		}
		if math.Abs(pieces-whole) > sameMM {
			t.Errorf("%s: pieces are dimensioned to %v, the whole to %v", r.Settled.Name, pieces, whole)
		}
		if r.Settled.Waste.Exit.Kind == job.ExitFloor {
			drops++
		}
	}
	if drops == 0 {
		t.Error("no demo drops through its floor")
	}
}
