package layout_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// underChordMM2 is by how much the area of a quarter circle can come out less,
// being drawn in chords that stay within half a millimetre of it.
func underChordMM2(radiusMM float64) float64 { return 0.5 * math.Pi / 2 * radiusMM }

// belowMM2 is the part of a quarter disc up to a height over one of its
// straight sides: ∫√(r² − y²)dy = (h√(r² − h²) + r²·asin(h/r))/2.
func belowMM2(radius, height float64) float64 {
	return (height*math.Sqrt(radius*radius-height*height) + radius*radius*math.Asin(height/radius)) / 2
}

// A door 760 wide, 1500 along the front wall of the starting room. Its leaf
// passes over a quarter disc about the hinge, whose middle lies 4r/3π from both
// straight sides: 322.56. One that opens outwards passes over nothing inside.
func TestDoorByHand(t *testing.T) {
	const r = 760.0
	middle := 4 * r / (3 * math.Pi)
	inEveryFrame(t, func(t *testing.T, f frame) {
		for _, hingeAtStart := range []bool{true, false} {
			j := job.New()
			j.Room.Doorways = append([]job.Doorway{{Wall: 1, OffsetMM: 100, WidthMM: 600, HeightMM: 2040, Leaf: job.LeafNone}}, j.Room.Doorways[0])
			j.Room.Doorways[1].Leaf, j.Room.Doorways[1].HingeAtStart = job.LeafIn, hingeAtStart
			l := place(t, f.job(j))
			d := l.Doors[1]
			a, b := plan.Point{1500, 0}, plan.Point{2260, 0}
			if f.backward {
				a, b = b, a
			}
			if d.Index != 1 || d.Wall.Index != f.wall(0, 4) {
				t.Errorf("doorway %d in wall %d", d.Index, d.Wall.Index)
			}
			nearPoint(t, "start", d.A, f.point(a))
			nearPoint(t, "end", d.B, f.point(b))
			nearPoint(t, "middle", d.Middle(), f.point(plan.Point{1880, 0}))
			x := 1500 + middle
			if !hingeAtStart {
				x = 2260 - middle
			}
			if got, want := d.Sweep.Centroid(), f.point(plan.Point{x, middle}); got.Sub(want).Len() > 0.2 {
				t.Errorf("hinge at start %v: the sweep's middle is %v, want %v", hingeAtStart, got, want)
			}
			if got, disc := d.Sweep.Area(), math.Pi/4*r*r; got > disc || got < disc-underChordMM2(r) {
				t.Errorf("hinge at start %v: the sweep covers %v, want %v", hingeAtStart, got, disc)
			}
			// It does not come over the falling floor.
			nearArea(t, "sweep over the fall", d.SweepFall, 0)
			nearArea(t, "sweep over the room", d.SweepRoom, d.Sweep.Area())
			if l.Doors[0].Sweep != nil || l.Doors[0].SweepRoom != nil {
				t.Error("an opening without a leaf has a sweep")
			}
		}
		j := job.New() // its door opens outwards
		if d := place(t, f.job(j)).Doors[0]; len(d.Sweep)+len(d.SweepFall)+len(d.SweepRoom) > 0 {
			t.Error("a leaf that opens outwards sweeps the room")
		}
	})
}

// In a room 500 deep the leaf stops at the wall across: what is left of its
// quarter disc is the part up to 500.
func TestSweepStaysInTheRoom(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{2400, 0}, plan.Point{2400, 500}, plan.Point{0, 500})
	j.Shower.DepthMM = 300
	j.Room.Doorways = []job.Doorway{{Wall: 0, OffsetMM: 1500, WidthMM: 760, HeightMM: 2040, Leaf: job.LeafIn}}
	got, want := place(t, j).Doors[0].Sweep.Area(), belowMM2(760, 500)
	if got > want || got < want-underChordMM2(760) {
		t.Errorf("the sweep covers %v, want %v", got, want)
	}
}

// A door in the left wall from y = 1100 down to 340, hinged at 340: what passes
// over the shower, which begins at y = 1000, is the quarter disc over 660.
func TestSweepOverTheShower(t *testing.T) {
	const r = 760.0
	over := math.Pi/4*r*r - belowMM2(r, 660)
	inEveryFrame(t, func(t *testing.T, f frame) {
		for _, c := range []struct {
			fall      job.FallKind
			fell, rem float64
		}{{job.FallBack, over, math.Pi/4*r*r - over}, {job.FallRoom, math.Pi / 4 * r * r, 0}} {
			j := job.New()
			j.Former.Fall = c.fall
			j.Room.Doorways = []job.Doorway{{Wall: 3, OffsetMM: 800, WidthMM: r, HeightMM: 2040, Leaf: job.LeafIn}}
			d := place(t, f.job(j)).Doors[0]
			for name, x := range map[string][2]float64{"fall": {d.SweepFall.Area(), c.fell}, "room": {d.SweepRoom.Area(), c.rem}} {
				if x[0] > x[1]+1 || x[0] < x[1]-underChordMM2(r) {
					t.Errorf("%s: the sweep over the %s covers %v, want %v", c.fall, name, x[0], x[1])
				}
			}
			near(t, fmt.Sprintf("%s: both parts", c.fall), d.SweepFall.Area()+d.SweepRoom.Area(), d.Sweep.Area())
		}
	})
}

// A sweep that cannot be worked out says which doorway it is of, as people count.
func TestFailedSweepNamesItsDoorway(t *testing.T) {
	j := job.New()
	j.Room.Doorways[0].Leaf = job.LeafNone
	j.Room.Doorways = append(j.Room.Doorways, job.Doorway{Wall: 3, OffsetMM: 800, WidthMM: 760, HeightMM: 2040, Leaf: job.LeafIn})
	for _, earlier := range []int{0, 1} { // the sweep in the room, then its part over the fall
		passed := 0
		sh := &plan.Shaper{Refuse: func(what message.Message, _ float64) error {
			if what.ID != "shape.door-sweep" {
				return nil
			}
			if passed++; passed <= earlier {
				return nil
			}
			return errors.New("no")
		}}
		layout.Of(j, sh)
		var f *plan.Failure
		if !errors.As(sh.Err(), &f) || f.What.String() != "shape.door-sweep{doorway: 2}" {
			t.Errorf("after %d: %v", earlier, sh.Err())
		}
	}
}

// A leaf that opens outwards passes over a quarter of 760 beyond the outer face of the wall, 100
// out; any other passes over nothing there.
func TestLeafBeyond(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		for _, leaf := range []job.LeafSwing{job.LeafOut, job.LeafIn, job.LeafNone} {
			j := job.New()
			j.Room.Doorways[0].Leaf = leaf
			moved := f.job(j)
			swing, ok := place(t, moved).Doors[0].Beyond(&moved)
			if ok != (leaf == job.LeafOut) {
				t.Errorf("a leaf that opens %s passes outside %v", leaf, ok)
			}
			if !ok {
				continue
			}
			area := math.Abs(swing.SignedArea())
			if want := math.Pi / 4 * 760 * 760; area > want || want-area > underChordMM2(760)*4 {
				t.Errorf("it passes over %v, want %v", area, want)
			}
			var box plan.Ring
			for _, q := range [...]plan.Point{{1500, -860}, {2260, -860}, {2260, -100}, {1500, -100}} {
				box = append(box, f.point(q))
			}
			for _, q := range swing {
				if !plan.FromRing(box).Contains(q, 1e-6) {
					t.Errorf("it reaches %v", q)
				}
			}
		}
	})
}

// A leaf of 760 that slides along the front wall of the starting room, from its opening at 1500 to
// the side of the corner: a strip 60 deep from 740 to 2260. To the other side it would go on to 3020, of a
// wall of 2400: 620 too far, and the strip ends at the wall. One that slides into the wall of 100
// sweeps over nothing; its pocket is 40 of the wall's middle, from 740 to 1500.
func TestSlidingDoorByHand(t *testing.T) {
	for name, c := range map[string]struct {
		leaf       job.LeafSwing
		toStart    bool
		sweep      float64
		short      float64
		pocketFrom plan.Point
		pocketTo   plan.Point
	}{
		"along, to the corner":  {job.LeafSlide, true, 60 * 1520, 0, plan.Point{}, plan.Point{}},
		"along, away from it":   {job.LeafSlide, false, 60 * 900, 620, plan.Point{}, plan.Point{}},
		"into, to the corner":   {job.LeafPocket, true, 0, 0, plan.Point{740, -30}, plan.Point{1500, -70}},
		"into, away from it":    {job.LeafPocket, false, 0, 620, plan.Point{2260, -30}, plan.Point{2400, -70}},
		"hinged, to the corner": {job.LeafOut, true, 0, 0, plan.Point{}, plan.Point{}},
	} {
		j := job.New()
		d := &j.Room.Doorways[0]
		d.Leaf, d.HingeAtStart = c.leaf, c.toStart
		door := place(t, j).Doors[0]
		nearArea(t, name+": strip", door.Sweep, c.sweep)
		if got := door.SlideShortMM(d); math.Abs(got-c.short) > 1e-9 {
			t.Errorf("%s: %v short, want %v", name, got, c.short)
		}
		ring, ok := door.Pocket(d)
		if ok != (c.pocketTo != plan.Point{}) {
			t.Errorf("%s: a pocket: %v", name, ok)
		}
		if ok {
			nearPoint(t, name+": pocket", ring[0], c.pocketFrom)
			nearPoint(t, name+": pocket", ring[2], c.pocketTo)
		}
	}
}
