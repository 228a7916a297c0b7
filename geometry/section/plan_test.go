package section_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// linesOf are the lines of a kind in a drawing.
func linesOf(d section.Drawing, kind string) (out []section.Line) {
	for _, l := range d.Lines {
		if l.Kind == kind {
			out = append(out, l)
		}
	}
	return out
}

// expectLine wants a line through points, from wherever a closed one begins.
func expectLine(t *testing.T, got section.Line, weight section.Weight, dashed bool, want ...plan.Point) {
	t.Helper()
	same := len(got.Points) == len(want) && got.Weight == weight && got.Dashed == dashed
	for i := 0; same && i < len(want); i++ {
		same = near(got.Points[i], want[i])
	}
	if !same {
		t.Errorf("%s line %+v, want %v of weight %d, dashed %v", got.Kind, got, want, weight, dashed)
	}
}

// joistsToTheBack is the starting job on timber, joists of 47 at 1200 from the back
// to the front along x = 2400, 1200 and 0.
func joistsToTheBack(j *job.Job) {
	j.Floor.Kind, j.Floor.Joists.DirectionDeg = job.FloorTimber, 90
	j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 1200, 0
}

// The lines of the starting job's plan by hand; see starting. The falling plane's
// middle is (700, 1408.5), its arrow 240 long, as a third of its 817 is more than half
// of that, with barbs a quarter of half its length back and an eighth aside.
func TestPlanLinesByHand(t *testing.T) {
	d := section.PlanOf(starting(t, joistsToTheBack))
	if n := len(linesOf(d, "door")); n != 1 {
		t.Errorf("%d lines of a door that opens outwards", n)
	}
	expectLine(t, linesOf(d, "door")[0], section.Thin, false, plan.Point{1500, 0}, plan.Point{2260, 0})
	expectLine(t, linesOf(d, "plane")[0], section.Thin, false,
		plan.Point{0, 1000}, plan.Point{1400, 1000}, plan.Point{1400, 1817}, plan.Point{0, 1817}, plan.Point{0, 1000})
	expectLine(t, linesOf(d, "fall")[0], section.Medium, false,
		plan.Point{700, 1288.5}, plan.Point{700, 1528.5}, plan.Point{685, 1498.5}, plan.Point{700, 1528.5}, plan.Point{715, 1498.5})
	expectLine(t, linesOf(d, "trap")[0], section.Medium, true,
		plan.Point{645, 1777}, plan.Point{755, 1777}, plan.Point{755, 1887}, plan.Point{645, 1887}, plan.Point{645, 1777})
	expectLine(t, linesOf(d, "run axis")[0], section.Thin, false, plan.Point{645, 1832}, plan.Point{-275, 1832})
	expectLine(t, linesOf(d, "run")[0], section.Medium, true,
		plan.Point{645, 1807}, plan.Point{645, 1857}, plan.Point{-275, 1857}, plan.Point{-275, 1807}, plan.Point{645, 1807})
	joists := linesOf(d, "joist")
	if len(joists) != 3 {
		t.Fatalf("%d joists", len(joists))
	}
	for i, x := range []float64{2400, 1200, 0} {
		expectLine(t, joists[i], section.Thin, true,
			plan.Point{x + 23.5, 0}, plan.Point{x + 23.5, 1900}, plan.Point{x - 23.5, 1900}, plan.Point{x - 23.5, 0}, plan.Point{x + 23.5, 0})
	}
	// Walls, the joists half under them, 60 of pipe beyond and a door that opens 760 out from 100:
	// nothing reaches farther.
	expectPoint(t, "low", d.Low, plan.Point{-275, -860})
	expectPoint(t, "high", d.High, plan.Point{2500, 2115})
	for id, want := range map[string]float64{"room": 2400 * 1900, "shower": 1400 * 900, "drain": 800 * 70} {
		found := 0
		for _, a := range d.Areas {
			if a.PartID == id {
				found++
				if a.Cut || !(math.Abs(a.Region.Area()-want) <= 1e-6) {
					t.Errorf("%s: %+v, want %v mm² seen", id, a, want)
				}
			}
		}
		if found != 1 {
			t.Errorf("%s is drawn %d times", id, found)
		}
	}
}

// joistCut has the starting job on joists of 47 by 195 at 400, of which the third is cut from 800 to 1400 along it.
func joistCut(j *job.Job) {
	j.Floor.Kind = job.FloorTimber
	j.Floor.Joists = job.Joists{DepthMM: 195, WidthMM: 47, SpacingMM: 400, FirstOffsetMM: 200,
		Trims: []job.Trim{{Joist: 3, FromMM: 800, ToMM: 1400}}}
}

// The joist of the starting room at y = 1000, the third of those along X at y = 200, 600 …,
// is cut from x = 800 to 1400 between trimmers 47 wide: crossed out from 753 to 1447, and
// named. The trimmers are drawn whole.
func TestCutJoistInPlan(t *testing.T) {
	d := section.PlanOf(starting(t, joistCut))
	trimmers := linesOf(d, "trimmer")
	if len(trimmers) != 2 || len(linesOf(d, "cut-out")) != 3 || len(linesOf(d, "joist")) != 4+2 || len(linesOf(d, "second-joist")) != 2 {
		t.Fatalf("%d trimmers, %d lines of what is cut out, %d joists", len(trimmers), len(linesOf(d, "cut-out")), len(linesOf(d, "joist")))
	}
	low, high, _ := plan.Region{{Outer: linesOf(d, "cut-out")[0].Points[:4]}}.Bounds()
	expectPoint(t, "cut out from", low, plan.Point{753, 976.5})
	expectPoint(t, "to", high, plan.Point{1447, 1023.5})
	for i, x := range []float64{776.5, 1423.5} {
		low, high, _ := plan.Region{{Outer: trimmers[i].Points[:4]}}.Bounds()
		expectPoint(t, "trimmer from", low, plan.Point{x - 23.5, 670.5})
		expectPoint(t, "to", high, plan.Point{x + 23.5, 1329.5})
		if trimmers[i].Dashed {
			t.Error("a trimmer is dashed")
		}
	}
	// Each is named once, their sizes are in the list of what is cut.
	expectPoint(t, "what is cut out", nameOf(t, d, "name.cut-out{n: 3, wall: A}").Places[0].At, plan.Point{1100, 1000})
	for i, x := range []float64{800, 1400} { // on the side of the opening
		n := nameOf(t, d, fmt.Sprintf("part.trimmer{n: %d}", i+1))
		expectPoint(t, "trimmer", n.Places[1-i].At, plan.Point{x, 1000})
	}
	for _, n := range []int{2, 4} {
		nameOf(t, d, fmt.Sprintf("name.joist-doubled{joist: name.joist{n: %d, wall: A}}", n))
	}
	if notes := timberNotes(d); len(notes) > 0 {
		t.Errorf("timbers are noted as well: %v", notes)
	}
}

// Two joists that are cut for one opening are named together, between them: the third and fourth,
// y = 400 and 600; the joist between two openings is doubled on both sides.
func TestCutJoistsAreNamedOnce(t *testing.T) {
	d := section.PlanOf(starting(t, func(j *job.Job) {
		j.Floor.Kind = job.FloorTimber
		j.Floor.Joists = job.Joists{DepthMM: 195, WidthMM: 47, SpacingMM: 200, FirstOffsetMM: 200, Trims: []job.Trim{
			{Joist: 3, Further: 1, FromMM: 800, ToMM: 1400}, {Joist: 6, FromMM: 800, ToMM: 1400}}}
	}))
	expectPoint(t, "both", nameOf(t, d, "name.cut-outs{first: 3, last: 4, wall: A}").Places[0].At, plan.Point{1100, 500})
	nameOf(t, d, "name.cut-out{n: 6, wall: A}")
	nameOf(t, d, "name.joist-doubled-twice{joist: name.joist{n: 5, wall: A}}")
	if n := len(linesOf(d, "cut-out")); n != 3*3 {
		t.Errorf("%d lines of what is cut out", n)
	}
}

// timberNotes are the notes on trimmers and doubled joists.
func timberNotes(d section.Drawing) (out []section.Note) {
	for _, n := range d.Notes {
		switch n.Places[0].Texts[0].ID {
		case "note.doubled-joist", "note.trimmer":
			out = append(out, n)
		}
	}
	return out
}

// The section at x = 1100 through the drain of a shower about there, through joists along X
// at y = 200, 600 …, the third cut out from x = 800 to 1400: the second joists, y from 623.5
// to 670.5 and from 1329.5 to 1376.5, are named, 8 into their flanks on the opening's side,
// as the joists they double lie on the other. What is cut out is not there. Along y = 1000
// both trimmers are cut, x from 753 to 800 and from 1400 to 1447, and named on either side.
func TestTimbersAreNamedInSections(t *testing.T) {
	r := starting(t, joistCut)
	for _, c := range []struct {
		from, along plan.Point
		want        map[string][]float64 // where along the cut a note may begin
	}{
		{plan.Point{1100, 0}, plan.Point{0, 1}, map[string][]float64{"note.doubled-joist 2": {662.5}, "note.doubled-joist 4": {1337.5}}},
		{plan.Point{0, 1000}, plan.Point{1, 0}, map[string][]float64{"note.trimmer 1": {792, 761}, "note.trimmer 2": {1439, 1408}}},
	} {
		d := section.Of(r, solid.VerticalCut(c.from, c.along), buildup.StageTile)
		got := timberNotes(d)
		if len(got) != len(c.want) {
			t.Fatalf("%d notes from %v: %+v", len(got), c.from, got)
		}
		for _, n := range got {
			name := fmt.Sprintf("%s %v", n.Places[0].Texts[0].ID, n.Places[0].Texts[0].Args[0].Value)
			for i, at := range c.want[name] {
				if x := n.Places[i].Points[0].X(); math.Abs(x-at) > 1e-6 {
					t.Errorf("%s: place %d at %v, want %v", name, i, x, at)
				}
			}
			if c.want[name] == nil {
				t.Errorf("named: %s", name)
			}
		}
	}
}

// The core through a wall is named in plan, in the middle of the wall: the pipe leaves the
// starting room through its left wall. A hole through a stud wall is drilled by no core.
func TestCoreInPlan(t *testing.T) {
	cores := func(change ...func(*job.Job)) (out []section.Mark) {
		for _, m := range section.PlanOf(starting(t, change...)).Marks {
			if m.Of == section.MarkCore {
				out = append(out, m)
			}
		}
		return out
	}
	solid := cores()
	r := starting(t)
	w := r.Layout.Walls[r.Heights.Run.Wall-1]
	if len(solid) != 1 || !near(solid[0].At, r.Heights.Run.Exit.Add(w.Outward.Mul(w.ThicknessMM/2))) {
		t.Fatalf("%+v", solid)
	}
	for _, m := range section.LongOf(r).Marks {
		if m.Of == section.MarkCore && (m.LevelMM != solid[0].LevelMM || m.ThicknessMM != solid[0].ThicknessMM) {
			t.Errorf("%+v in plan, %+v along the run", solid[0], m)
		}
	}
	if got := cores(func(j *job.Job) {
		w := &j.Room.Walls[r.Heights.Run.Wall-1]
		w.Kind, w.StudSpacingMM, w.FirstStudMM, w.StudWidthMM = job.WallStud, 400, 200, 47
	}); len(got) != 0 {
		t.Errorf("in a stud wall %+v", got)
	}
}

// An arrow of fall is a third of its plane's length to either side where that is less
// than 120, points down the fall whichever way that is, and there is none on a floor
// without a fall.
func TestFallArrows(t *testing.T) {
	depth := func(mm float64) func(*job.Job) { return func(j *job.Job) { j.Shower.DepthMM = mm } }
	tail := func(changes ...func(*job.Job)) (tail, tip plan.Point, n int) {
		arrows := linesOf(section.PlanOf(starting(t, changes...)), "fall")
		if len(arrows) == 0 {
			return
		}
		return arrows[0].Points[0], arrows[0].Points[1], len(arrows)
	}
	for name, c := range map[string]struct {
		change func(*job.Job)
		length float64
		down   plan.Point
		n      int
	}{
		"to the back":       {falls(job.FallBack), 240, plan.Point{0, 1}, 1},
		"to the front":      {falls(job.FallFront), 240, plan.Point{0, -1}, 1},
		"to the left":       {falls(job.FallLeft), 240, plan.Point{-1, 0}, 1},
		"to the right":      {falls(job.FallRight), 240, plan.Point{1, 0}, 1},
		"300 long":          {depth(383), 200, plan.Point{0, 1}, 1},
		"360 long":          {depth(443), 240, plan.Point{0, 1}, 1},
		"359.7 long":        {depth(442.7), 2 * 119.9, plan.Point{0, 1}, 1},
		"to a point, first": {falls(job.FallPoint), 240, plan.Point{}, 4},
		"no fall":           {func(j *job.Job) { j.Former.Slope = 0 }, 0, plan.Point{}, 0},
	} {
		from, to, n := tail(c.change)
		step := to.Sub(from)
		if n != c.n || !(math.Abs(step.Len()-c.length) <= 1e-6) || c.down != (plan.Point{}) && !near(step.Normalize(), c.down) {
			t.Errorf("%s: %d arrows, the first from %v to %v; want %d, %v long to %v", name, n, from, to, c.n, c.length, c.down)
		}
	}
}

// A leaf that opens inwards sweeps a quarter of a circle about its hinge into the
// room, its width of 760 from the opening.
func TestDoorSwing(t *testing.T) {
	for atStart, c := range map[bool]struct{ hinge, free plan.Point }{
		true:  {plan.Point{1500, 0}, plan.Point{2260, 0}},
		false: {plan.Point{2260, 0}, plan.Point{1500, 0}},
	} {
		lines := linesOf(section.PlanOf(starting(t, func(j *job.Job) {
			j.Room.Doorways[0].Leaf, j.Room.Doorways[0].HingeAtStart = job.LeafIn, atStart
		})), "door")
		if len(lines) != 2 {
			t.Fatalf("%d lines of a door", len(lines))
		}
		sweep := lines[0]
		if first, last := sweep.Points[0], sweep.Points[len(sweep.Points)-1]; first != last || sweep.Dashed || sweep.Weight != section.Thin {
			t.Errorf("the swing is not closed: %v to %v", first, last)
		}
		want := map[plan.Point]bool{c.hinge: false, c.free: false, {c.hinge.X(), 760}: false}
		for _, p := range sweep.Points {
			for q := range want {
				want[q] = want[q] || p.Sub(q).Len() < 1e-3
			}
			if far := p.Sub(c.hinge).Len(); far > 1e-3 && !(math.Abs(far-760) <= 1e-3) || p.Y() < -1e-9 {
				t.Errorf("the leaf comes by %v, %v from its hinge", p, far)
			}
		}
		for q, there := range want {
			if !there {
				t.Errorf("the swing does not come by %v", q)
			}
		}
		expectLine(t, lines[1], section.Thin, false, plan.Point{1500, 0}, plan.Point{2260, 0})
	}
}

// Fittings are wedges that point the way they should carry the water, 0.6 of the
// pipe's 50 to either side; turned round they point back. By hand: 300 along from
// x = 645, 100 long.
func TestFittingsPointTheWay(t *testing.T) {
	for _, kind := range []job.FittingKind{job.FittingReducer, job.FittingFallingPiece} {
		for reversed, want := range map[bool][]plan.Point{
			false: {{345, 1802}, {245, 1832}, {345, 1862}, {345, 1802}},
			true:  {{245, 1862}, {345, 1832}, {245, 1802}, {245, 1862}},
		} {
			r := starting(t, func(j *job.Job) {
				j.Waste.Fittings = []job.Fitting{{Kind: kind, AtMM: 300, LengthMM: 100, Reversed: reversed,
					Pipe: part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 70, SocketOutsideMM: 82}, Slope: 0.03}}
			})
			d := section.PlanOf(r)
			wedges := linesOf(d, "fitting")
			if len(wedges) != 1 {
				t.Fatalf("%s: %d wedges", kind, len(wedges))
			}
			expectLine(t, wedges[0], section.Heavy, false, want...)
			expectHandle(t, d, edit.Handle{Kind: edit.HandleFitting}, plan.Point{345, 1832}, 1)
			// In the long section 300 along, at the pipe's middle: 23 over an invert
			// 7.5 under the outlet's.
			long := section.LongOf(r)
			expectHandle(t, long, edit.Handle{Kind: edit.HandleFitting}, plan.Point{300, (r.Heights.OutletMM - 7.5 + 23) * long.Rise}, 1)
		}
	}
}

// expectHandle wants a handle that moves something at a place, and so many in all.
func expectHandle(t *testing.T, d section.Drawing, moves edit.Handle, at plan.Point, number int) {
	t.Helper()
	n, found := 0, false
	for _, h := range d.Handles {
		if h.Moves.Kind == moves.Kind {
			n++
		}
		if h.Moves == moves {
			found = true
			expectPoint(t, "handle", h.At, at)
		}
	}
	if n != number || !found {
		t.Errorf("%d handles of the kind of %+v, want %d: %+v", n, moves, number, d.Handles)
	}
}

// Every wall of 250 and more has its length, to be typed on, outside it, the shower its sizes in
// front and to the right, and a linear drain its own before it, but not where all the room
// falls.
func TestPlanDimensions(t *testing.T) {
	shower := []section.Dimension{
		{From: plan.Point{0, 1000}, To: plan.Point{1400, 1000}, Text: length(1400), Row: 1, Side: plan.Point{0, -1}, Key: "shower.widthMM"},
		{From: plan.Point{1400, 1900}, To: plan.Point{1400, 1000}, Text: length(900), Row: 1, Side: plan.Point{1, 0}, Key: "shower.depthMM"},
		{From: plan.Point{300, 1817}, To: plan.Point{1100, 1817}, Text: length(800), Row: 1, Side: plan.Point{0, -1}, Key: "drain.lengthMM"},
	}
	walls := []section.Dimension{
		{From: plan.Point{0, -100}, To: plan.Point{2400, -100}, Text: length(2400), Row: 1, Side: plan.Point{0, -1}, Key: "room.walls[0]"},
		{From: plan.Point{2500, 0}, To: plan.Point{2500, 1900}, Text: length(1900), Row: 1, Side: plan.Point{1, 0}, Key: "room.walls[1]"},
		{From: plan.Point{2400, 2115}, To: plan.Point{0, 2115}, Text: length(2400), Row: 1, Side: plan.Point{0, 1}, Key: "room.walls[2]"},
		{From: plan.Point{-215, 1900}, To: plan.Point{-215, 0}, Text: length(1900), Row: 1, Side: plan.Point{-1, 0}, Key: "room.walls[3]"},
	}
	expectDimensions(t, "plan", section.PlanOf(starting(t)).Dimensions, append(walls[:4:4], shower...))
	// As long as its side less 13 at both ends, until a length is typed on it.
	long := section.Dimension{From: plan.Point{13, 1817}, To: plan.Point{1387, 1817}, Text: length(1374),
		Row: 1, Side: plan.Point{0, -1}, Key: "drain.lengthMM"}
	whole := section.PlanOf(starting(t, func(j *job.Job) { j.Drain.LengthMM = 0 })).Dimensions
	expectDimensions(t, "plan with a drain as long as its side", whole, append(append(walls[:4:4], shower[:2]...), long))
	expectDimensions(t, "plan of a falling room", section.PlanOf(starting(t, falls(job.FallRoom))).Dimensions, walls)
	// A corner of the room cut out, 250 or less one way: the wall there is left out.
	for jog, want := range map[float64]int{250: 9, 249.9: 8} {
		d := section.PlanOf(starting(t, func(j *job.Job) {
			j.Room.Doorways = nil
			j.Room.Outline = []plan.Point{{0, 0}, {1600, 0}, {1600, jog}, {2400, jog}, {2400, 1900}, {0, 1900}}
			w := j.Room.Walls
			j.Room.Walls = []job.Wall{w[0], w[1], w[0], w[1], w[2], w[3]}
			j.Shower.Wall, j.Waste.Exit.Wall = 4, 5
		}))
		if n := len(d.Dimensions); n != want {
			t.Errorf("a wall of %v: %d dimensions, want %d", jog, n, want)
		}
	}
}

// Inverts are written at outlet, bends and exit. Through the front wall at x = 300
// the run turns at (300, 1832), 45 from its bend's ends, which begins 300 along: its
// middle lies at 45° on a circle of 45, its length is a quarter of that. The core's mark
// comes last, as along the run.
func TestPlanInverts(t *testing.T) {
	expectMarks(t, "plan", section.PlanOf(starting(t)).Marks, []section.Mark{
		{At: plan.Point{645, 1832}, LevelMM: 20, Of: section.MarkInvert}, {At: plan.Point{0, 1832}, LevelMM: 3.875, Of: section.MarkInvert},
		{At: plan.Point{-107.5, 1832}, LevelMM: 24.1875, ThicknessMM: 78, Of: section.MarkCore}})
	d := section.PlanOf(starting(t, func(j *job.Job) {
		j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 0, 300
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	}))
	// Pipe 3 comes to lie in the floor, and is marked as well.
	d.Marks = slices.DeleteFunc(d.Marks, func(m section.Mark) bool { return m.Of == section.MarkPiece })
	if len(d.Marks) != 3 {
		t.Fatalf("%+v", d.Marks)
	}
	m := d.Marks[1]
	if m.Of != section.MarkPieceInvert || m.Said.String() != "piece.bend-90{number: 2}" {
		t.Errorf("at the bend %v of %v", m.Of, m.Said)
	}
	at, level := plan.Point{345 - 45*math.Sqrt2/2, 1787 + 45*math.Sqrt2/2}, 20-0.025*(300+45*math.Pi/4)
	// A bend is drawn in chords that leave its circle by up to 0.05.
	if m.At.Sub(at).Len() > 2 || !(math.Abs(m.LevelMM-level) <= 0.01) || !(math.Abs(m.At.Sub(plan.Point{345, 1787}).Len()-45) <= 0.1) {
		t.Errorf("at the bend %+v, want %v at %v", m, level, at)
	}
	expectPoint(t, "exit", d.Marks[2].At, plan.Point{300, 0})
	expectHandle(t, d, edit.Handle{Kind: edit.HandleTurn}, plan.Point{300, 1832}, 1)
	expectHandle(t, d, edit.Handle{Kind: edit.HandleExit}, plan.Point{300, 0}, 1)
}

// What can be dragged in plan, by hand.
func TestPlanHandles(t *testing.T) {
	d := section.PlanOf(starting(t))
	for kind, at := range map[edit.HandleKind]plan.Point{
		edit.HandleDepth: {700, 1000}, edit.HandleRight: {1400, 1450}, edit.HandleLeft: {0, 1450}, edit.HandleShower: {700, 1450},
		edit.HandleDrain: {700, 1852}, edit.HandleExit: {0, 1832},
	} {
		expectHandle(t, d, edit.Handle{Kind: kind}, at, 1)
	}
	for i, at := range []plan.Point{{0, 0}, {2400, 0}, {2400, 1900}, {0, 1900}} {
		expectHandle(t, d, edit.Handle{Kind: edit.HandleCorner, Index: i}, at, 4)
	}
	// On the outer faces of walls of 100 and 215.
	for i, at := range []plan.Point{{1200, -100}, {2500, 950}, {1200, 2115}, {-215, 950}} {
		expectHandle(t, d, edit.Handle{Kind: edit.HandleSide, Index: i}, at, 4)
	}
	if n := len(d.Handles); n != 14 {
		t.Errorf("%d handles, want 14: %+v", n, d.Handles)
	}
	// A floor that falls everywhere has no shower to drag, a run of no length no levels.
	if n := len(section.PlanOf(starting(t, falls(job.FallRoom))).Handles); n != 12 {
		t.Errorf("a falling room: %d handles, want drain, exit, two turns on the way there, four corners and four sides", n)
	}
	none := starting(t)
	none.Heights.Run.Corners = none.Heights.Run.Corners[:1]
	if d := section.PlanOf(none); len(d.Handles) != 14 || len(d.Marks) > 0 {
		t.Errorf("a run of no length: %d handles, want 14; %+v", len(d.Handles), d.Marks)
	}
}

// The parts of a ramp are seen outside each open edge: by hand as in its zones, beside the
// right edge in two, in front in one, at the corner in two.
func TestPlanShowsRamps(t *testing.T) {
	d := section.PlanOf(starting(t, func(j *job.Job) { j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 600, nil }))
	var areas []float64
	for _, a := range d.Areas {
		if a.PartID == "ramp" {
			areas = append(areas, a.Region.Area())
		}
	}
	const run, hip = 600 / 111.34, 1 + 12/111.34
	want := []float64{95 * run * 83, (95 + 111.34) / 2 * run * 817, 600 * 1400, 180000, 180000 * hip}
	if len(areas) != len(want) {
		t.Fatalf("ramps %v, want %v", areas, want)
	}
	for i := range want {
		if math.Abs(areas[i]-want[i]) > 1 {
			t.Errorf("ramp's part %d takes %v mm², want %v", i, areas[i], want[i])
		}
	}
	for _, a := range section.PlanOf(starting(t)).Areas {
		if a.PartID == "ramp" {
			t.Errorf("without a ramp: %+v", a)
		}
	}
}

// Behind a drain at a stud wall the studs are set out from its start: the drain begins
// 1300 along the wall of 2400, and studs stand at 1400 and 1800.
func TestPlanSetsOutStuds(t *testing.T) {
	count := func(d section.Drawing) (lines, second int, sizes []float64) {
		for _, l := range d.Lines {
			if l.Kind == "stud" {
				lines++
			}
		}
		for _, m := range d.Dimensions {
			if m.Row == 2 {
				second++
				sizes = append(sizes, m.From.Sub(m.To).Len())
			}
		}
		return lines, second, sizes
	}
	d := section.PlanOf(starting(t, func(j *job.Job) { j.Room.Walls[2] = j.Room.Walls[0] }))
	lines, _, sizes := count(d)
	// Four beside the doorway, five at the right, six along the wall of the drain.
	if lines != 4+5+6 || len(sizes) != 2 || math.Abs(sizes[0]-100) > 1e-6 || math.Abs(sizes[1]-400) > 1e-6 {
		t.Errorf("%d studs, set out by %v", lines, sizes)
	}
	labels := 0
	for _, m := range d.Dimensions {
		if m.Text.ID == section.FirstStud {
			labels++
		}
	}
	if labels != 1 {
		t.Errorf("%d stretches say that they lead to studs, want the first", labels)
	}
	if room := d.FocusHigh.Y() - d.High.Y(); room < 100 {
		t.Errorf("%v of room for the second row", room)
	}
	if _, n, _ := count(section.PlanOf(starting(t))); n != 0 {
		t.Errorf("%d dimensions of studs behind masonry", n)
	}
}

// The starting job's doorway begins 1500 along its wall of 2400 and is 760 wide: the chain makes the wall's length, which stands outside
// of it; the other walls keep theirs where they were.
func TestDoorwaysAreDimensioned(t *testing.T) {
	r := starting(t, func(*job.Job) {})
	d := section.PlanOf(r)
	before := len(d.Dimensions)
	d.Doorways(r)
	wall := edit.Side{Wall: r.Layout.Doors[0].Wall.Index}.Key()
	for _, o := range d.Dimensions[:before] {
		if o.Key == wall && o.Row != 2 {
			t.Errorf("the wall's length stands in row %d", o.Row)
		}
	}
	var got []float64
	for _, o := range d.Dimensions[before:] {
		got = append(got, o.To.Sub(o.From).Len())
		if o.Row != 1 {
			t.Errorf("%v stands in row %d", o.Text, o.Row)
		}
	}
	if want := []float64{1500, 760, 140}; !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }) {
		t.Errorf("%v, want %v", got, want)
	}
}
