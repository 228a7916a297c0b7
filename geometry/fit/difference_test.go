package fit_test

import (
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// told are the differences as they are shown to whoever mends the program: what each is of, before and after.
func told(all []fit.Difference) (out []string) {
	for _, d := range all {
		same := ""
		if d.Same {
			same = " same"
		}
		out = append(out, d.Of.String()+": "+d.Before.String()+" → "+d.After.String()+same)
	}
	return out
}

// differences are those that a change of a job makes.
func differences(t *testing.T, j job.Job, change func(*job.Job)) []string {
	t.Helper()
	k := j.Clone()
	change(&k)
	return told(fit.Differences(evaluated(t, j), evaluated(t, k)))
}

// has tells whether one of several texts begins and ends so.
func has(all []string, begins, ends string) bool {
	for _, s := range all {
		if strings.HasPrefix(s, begins) && strings.HasSuffix(s, ends) {
			return true
		}
	}
	return false
}

// What a change makes other is told with what it was and is, and nothing else but the step at the way in: a room's tile
// that is 10 thicker brings its floor 10 up and the step 10 down; of one that is a twentieth thicker nothing is seen. A pipe led 200 further along its wall is told as that, a floor that falls 1:40 in the place of 1:50
// as its fall. Where nothing changes the step stands alone, and of a job that cannot be worked out there is nothing.
func TestDifferencesByHand(t *testing.T) {
	slab := demotest.Rooms(t)[0].Job
	thicker := func(by float64) func(*job.Job) {
		return func(j *job.Job) { j.Layers.Room.Tile.ThicknessMM += by }
	}
	if got := differences(t, slab, func(*job.Job) {}); len(got) != 1 || !has(got, "figure.step-at-", " same") {
		t.Errorf("of no change: %q", got)
	}
	was, is := evaluated(t, slab), slab.Clone()
	thicker(10)(&is)
	after := evaluated(t, is)
	if by := after.WayIn().MM - was.WayIn().MM; by > -9.99 || by < -10.01 {
		t.Fatalf("the step moves by %v", by)
	}
	got := differences(t, slab, thicker(10))
	if !has(got, "row.room-floor: ", "") || !has(got, "figure.step-at-way-in: ", "") || has(got, "figure.step-at-way-in: ", " same") {
		t.Errorf("of a thicker tile: %q", got)
	}
	if got := differences(t, slab, func(j *job.Job) { j.Former.Slope = 0.025 }); !has(got, "row.plane-fall", "0.025 falling}") {
		t.Errorf("of a steeper floor: %q", got)
	}
	if got := differences(t, slab, func(j *job.Job) { j.Waste.Exit.OffsetMM += 200 }); !has(got, "difference.along-wall: ", "") || has(got, "figure.way-out: ", "") {
		t.Errorf("of a pipe led along the wall: %q", got)
	}
	// 16.59 over the floor is 17, and 10 sixteenths of an inch; so is 16.64.
	inches := slab.Clone()
	inches.Units = unit.Imperial
	for _, j := range []job.Job{slab, inches} {
		if got := differences(t, j, thicker(0.05)); has(got, "row.room-floor", "") {
			t.Errorf("of a twentieth of a millimetre: %q", got)
		}
	}
	if got := fit.Differences(was, geometry.Result{Problems: job.Problems{{}}}); got != nil {
		t.Errorf("of a job that cannot be worked out: %v", got)
	}
}

// A gully that is a metre further out leaves the pipe where it was in the wall: the level of the way out, which is told there, is no
// other, however much lower the pipe ends.
func TestTheWayOutDiffersWhereItIsTold(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Waste.Beyond = &job.Beyond{Joins: job.JoinGully, LengthMM: 150}
	further := func(j *job.Job) { j.Waste.Beyond = &job.Beyond{Joins: job.JoinGully, LengthMM: 1150} }
	if got := differences(t, j, further); has(got, "difference.exit-level", "") {
		t.Errorf("it tells %q", got)
	}
}
