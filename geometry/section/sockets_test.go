package section_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// socketed is the starting job with a joint of 30 at its trap, 64 across, and sockets of
// 62 that pipe of 50 goes 30 into; its base is kept where it is, the outlet's invert at 20.
func socketed(change func(*job.Job)) func(*job.Job) {
	return func(j *job.Job) {
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 30, 64
		j.Waste.SocketOutsideMM, j.Waste.InsertionMM, j.Waste.Bend90FaceMM = 62, 30, 60
		change(j)
	}
}

// outline is the outline of the run in plan.
func outline(t *testing.T, d section.Drawing) plan.Region {
	t.Helper()
	lines := linesOf(d, "run")
	if len(lines) != 1 || !lines[0].Dashed {
		t.Fatalf("%d outlines of the run", len(lines))
	}
	return plan.FromRing(lines[0].Points[:len(lines[0].Points)-1])
}

// has tells whether a region has a corner at a place.
func has(r plan.Region, want plan.Point) bool {
	for _, poly := range r {
		for _, q := range poly.Outer {
			if q.Sub(want).Len() < 1e-3 {
				return true
			}
		}
	}
	return false
}

// In plan sockets stand out by steps. A joint 30 long and 64 across, then 70 of pipe of
// 50, a falling piece from 100 to 220 with sockets of 62 × 30, and pipe to 60 past the
// wall: 920 × 50, and 30·14 + 2·30·12 that stands out.
func TestSocketsInPlan(t *testing.T) {
	d := section.PlanOf(starting(t, socketed(func(j *job.Job) {
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 120, Slope: 0.05}}
	})))
	r := outline(t, d)
	if got, want := r.Area(), 920.0*50+30*14+2*30*12; math.Abs(got-want) > 1e-3 {
		t.Errorf("the run covers %v mm², want %v", got, want)
	}
	for _, side := range []float64{-1, 1} {
		for _, q := range [][2]float64{{645, 32}, {615, 32}, {615, 25}, {545, 25}, {545, 31}, {515, 31}, {515, 25}, {455, 25}, {455, 31}, {425, 31}, {425, 25}, {-275, 25}} {
			if p := (plan.Point{q[0], 1832 + side*q[1]}); !has(r, p) {
				t.Errorf("the run has no corner at %v: %v", p, r[0].Outer)
			}
		}
	}
}

// A reducer to 75 over 70 from 100 to 220: its sockets are 30 deep of 62 and 40 of 90 across,
// and between their ends, at 130 and 180, it widens from 50 to 75.
func TestReducerInPlan(t *testing.T) {
	large := part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 70, SocketOutsideMM: 90, InsertionMM: 40, Bend45FaceMM: 60, Bend90FaceMM: 90}
	r := outline(t, section.PlanOf(starting(t, socketed(func(j *job.Job) {
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 100, LengthMM: 120, Pipe: large}}
	}))))
	if got, want := r.Area(), 30.0*64+70*50+30*62+50*62.5+40*90+700*75; math.Abs(got-want) > 1e-3 {
		t.Errorf("the run covers %v mm², want %v", got, want)
	}
	for _, q := range []plan.Point{{545, 1863}, {515, 1863}, {515, 1857}, {465, 1869.5}, {465, 1877}, {425, 1877}, {425, 1869.5}} {
		if !has(r, q) {
			t.Errorf("the run has no corner at %v: %v", q, r[0].Outer)
		}
	}
}

// A bend of 60 at (300, 1832) towards the front: sockets from its faces, at 60 from the
// corner, to 32 from it: pipe goes 30 in, but they keep a millimetre apart on the inner
// side, 31 + 1 from the corner. And a drop there has one in front of it.
func TestBendAndDropInPlan(t *testing.T) {
	r := outline(t, section.PlanOf(starting(t, socketed(func(j *job.Job) {
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1500}}
	}))))
	for _, q := range []plan.Point{{360, 1863}, {332, 1863}, {360, 1801}, {332, 1801}, {269, 1772}, {269, 1800}, {331, 1772}, {331, 1800}} {
		if !has(r, q) {
			t.Errorf("the run has no corner at %v: %v", q, r[0].Outer)
		}
	}
	r = outline(t, section.PlanOf(starting(t, socketed(func(j *job.Job) {
		j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1832}}
	}))))
	if got, want := r.Area(), 345.0*50+30*14+28*12; math.Abs(got-want) > 1e-3 {
		t.Errorf("the run covers %v mm², want %v", got, want)
	}
}

// In the long section the joint, from 0 to 30, reaches (64 − 46)/2 = 9 below the invert, and
// the sockets of a falling piece from 100 to 220 reach 8, its own wall 2. It falls 6 in
// 120 from 20 − 2.5. The water in the joint stands as in the pipe after it. The joint has
// a length, what comes after it one with its fall.
func TestSocketsAlongTheRun(t *testing.T) {
	r := starting(t, socketed(func(j *job.Job) {
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 120, Slope: 0.05}}
	}))
	d := section.LongOf(r)
	for id, corners := range map[string][][2]float64{
		"pipe-0": {{0, 20 - 9}, {30, 19.25 - 9}, {0, 20 + 46 + 9}, {30, 19.25 + 46 + 9}},
		"pipe-1": {{30, 19.25 - 2}, {100, 17.5 - 2}, {100, 17.5 + 48}},
		"pipe-2": {{100, 17.5 - 8}, {130, 16 - 8}, {130, 16 - 2}, {190, 13 - 2}, {190, 13 - 8}, {220, 11.5 - 8}, {100, 17.5 + 54}, {130, 16 + 54}, {130, 16 + 48}, {190, 13 + 48}, {190, 13 + 54}, {220, 11.5 + 54}},
	} {
		area := named(d, id)[0]
		for _, q := range corners {
			if p := (plan.Point{q[0], q[1] * d.Rise}); !has(area.Region, p) {
				t.Errorf("%s has no corner at %v: %v", id, p, area.Region[0].Outer)
			}
		}
		// A wall below and one above, each with a straight side to the bore.
		if n := len(area.Region[0].Outer) + len(area.Region[1].Outer); n != max(4, len(corners))+4 {
			t.Errorf("%s has %d corners", id, n)
		}
	}
	water := named(d, "pipe-0-water")
	if len(water) != 1 {
		t.Fatalf("water in the joint is drawn %d times", len(water))
	}
	low, high, _ := water[0].Region.Bounds()
	if want := 20 + r.Water.Pieces[0].DepthShare*46; !near(low, plan.Point{0, 19.25 * d.Rise}) || !near(high, plan.Point{30, want * d.Rise}) {
		t.Errorf("water in the joint from %v to %v", low, high)
	}
	for i, want := range [...]struct {
		from, to float64
		text     message.ID
	}{{0, 30, "dimension.length"}, {30, 100, "dimension.length-and-fall"}} {
		if got := d.Dimensions[i]; got.From.X() != want.from || got.To.X() != want.to || got.Text.ID != want.text {
			t.Errorf("length %d is %s from %v to %v", i, got.Text, got.From, got.To)
		}
	}
}
