package settle_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

// taped is the starting room, 2400 by 1900, with the walls A and B measured so.
func taped() job.Job {
	j := job.New()
	j.Room.Tape = job.Tape{Drawn: slices.Clone(j.Room.Outline), Lengths: []job.Taped{
		{From: 0, To: 1, LengthMM: 2400}, {From: 0, To: 3, LengthMM: 1900},
	}}
	j.Room.WorkOut()
	return j
}

// A measured wall typed longer: the room is, and the shower stays in its corner.
func TestMeasuredWallTyped(t *testing.T) {
	j := taped()
	s := settle.Do(j, edit.Side{Wall: 0}.Set(2600))
	if s.Refused != nil {
		t.Fatal(s.Refused.What)
	}
	if got := s.Job.Room.WallLengthMM(2); math.Abs(got-2600) > 1e-3 || s.Job.Room.Tape.Lengths[0].LengthMM != 2600 {
		t.Errorf("the wall across is %v, measured %v", got, s.Job.Room.Tape.Lengths)
	}
	// Of the wall at its back, that runs back to the corner BC, the shower took the last 1400.
	if sh := s.Job.Shower; math.Abs(sh.OffsetMM+sh.WidthMM-2600) > 1e-3 {
		t.Errorf("the shower is at %v", sh.OffsetMM)
	}
}

// Typed too short for its door, a measured wall has the door moved, as any other.
func TestMeasuredWallMovesItsDoor(t *testing.T) {
	s := settle.Do(taped(), edit.Side{Wall: 0}.Set(2200))
	if s.Refused != nil {
		t.Fatal(s.Refused.What)
	}
	if d := s.Job.Room.Doorways[0]; math.Abs(d.OffsetMM+d.WidthMM-2200) > 1e-3 {
		t.Errorf("the door is at %v", d.OffsetMM)
	}
}

// A wall of a measured room that is dragged stays, and it is said why; the cure puts what was measured aside.
func TestMeasuredWallIsNotDragged(t *testing.T) {
	j := taped()
	say := in(t, unit.Metric)
	s := settle.Do(j, edit.Drag(edit.Handle{Kind: edit.HandleCorner, Index: 1}, plan.Point{2600, 0}))
	if s.Refused == nil || !slices.Equal(s.Job.Room.Outline, j.Room.Outline) {
		t.Fatalf("dragged to %v", s.Job.Room.Outline)
	}
	const why = "Corners of the room: the corners come from what was measured of the room: change a measure, " +
		"or put what was measured aside"
	if got := say(s.Refused.What); got != why {
		t.Errorf("%q", got)
	}
	if len(s.Refused.Cures) != 1 || say(s.Refused.Cures[0].What) != "Put what was measured aside, and do it" {
		t.Fatalf("%v", s.Refused.Cures)
	}
	cured := settle.Do(j, s.Refused.Cures[0].Edit)
	if cured.Refused != nil || cured.Job.Room.Measured() || cured.Job.Room.Outline[1] != (plan.Point{2600, 0}) {
		t.Errorf("cured: %v", cured.Job.Room)
	}
}

// refusedDiagonal types another length for a diagonal that was measured too: the job as it is before, the path of the measure and the
// refusal.
func refusedDiagonal(t *testing.T, mm float64) (j job.Job, path string, refused *settle.Refusal) {
	t.Helper()
	j = taped()
	j.Room.Tape.Lengths = append(j.Room.Tape.Lengths, job.Taped{From: 1, To: 3, LengthMM: 3061})
	j.Room.WorkOut()
	l, _ := job.FindList(job.TapeLengthsKey)
	e := l.Entries()[slices.IndexFunc(l.Entries(), func(e job.Entry) bool { return e.Key == "lengthMM" })]
	s := settle.Do(j, edit.ItemNumber(l, 2, e, &mm))
	if s.Refused == nil {
		t.Fatalf("corners %v", s.Job.Room.Outline)
	}
	return j, l.Path(2, e), s.Refused
}

// A length that no room has is refused, with the nearest that one has.
func TestImpossibleMeasureIsRefused(t *testing.T) {
	j, _, refused := refusedDiagonal(t, 5000)
	if got := in(t, unit.Metric)(refused.What); got == "" {
		t.Error("nothing is said")
	}
	for _, c := range refused.Cures {
		if again := settle.Do(j, c.Edit); again.Refused != nil {
			t.Errorf("%v is no cure", c.What)
		}
	}
}

// A diagonal that was typed as 310 is blamed, not the wall of 2400 that is then longer than the way round by it, 310 + 1900.
func TestTheMeasureThatWasTypedIsBlamed(t *testing.T) {
	j, path, refused := refusedDiagonal(t, 310)
	say := in(t, unit.Metric)
	if got, typed := say(refused.What), say(j.PlaceOf(path)); !strings.HasPrefix(got, typed+": with 310 mm ") {
		t.Errorf("%q, want it to begin with %q", got, typed)
	}
}

// A door that is held and was measured from the end of its wall keeps its distance from there as the wall becomes longer.
func TestHeldFromTheEnd(t *testing.T) {
	j := taped()
	j.Room.Tape.Lengths[0] = job.Taped{From: 1, To: 0, LengthMM: 2400}
	j.SetStanding("room.doorways[0].offsetMM", job.Held)
	s := settle.Do(j, edit.Side{Wall: 0}.Set(2500))
	if s.Refused != nil {
		t.Fatal(s.Refused.What)
	}
	if got := s.Job.Room.Doorways[0].OffsetMM; math.Abs(got-1600) > 1e-3 {
		t.Errorf("the door is at %v, 140 from the end of 2500", got)
	}
}

// What moves by less than is shown is not told: where the two lengths across a room of 2400 by 1900, 3061 by Pythagoras,
// differ a little, the shower goes along with its corner by a part of a millimetre.
func TestLessThanIsShownIsNotTold(t *testing.T) {
	s := settle.Do(job.New(), edit.Across(0, 2, 3069))
	if s = settle.Do(s.Job, edit.Across(1, 3, 3053)); s.Refused != nil {
		t.Fatal(s.Refused.What)
	}
	for _, m := range s.Moved {
		if strings.Contains(m.What.String(), "moved.from-corner") {
			t.Errorf("told: %s", m.What)
		}
	}
}

// What goes along with a wall that is typed is told: the one across in a room that is drawn; and that the room is measured
// from then on, where another wall was typed before.
func TestWallsThatGoAlongAreTold(t *testing.T) {
	say := in(t, unit.Metric)
	told := func(j job.Job, e edit.Edit) (out []string) {
		s := settle.Do(j, e)
		if s.Refused != nil {
			t.Fatal(say(s.Refused.What))
		}
		for _, m := range s.Moved {
			out = append(out, say(m.What))
		}
		return out
	}
	if got := told(job.New(), edit.Side{Wall: 0}.Set(2410)); !slices.Contains(got, "Wall C: 2400 mm long became 2410 mm.") {
		t.Errorf("%q", got)
	}
	j := edit.Side{Wall: 0}.Set(2410).Apply(job.New())
	got := told(j, edit.Measuring(map[int]float64{0: 2410}, edit.Side{Wall: 2}.Set(2395)))
	if len(got) == 0 || got[0] != "The room is measured with a tape from now on, as it is not square: walls A and C as typed." {
		t.Errorf("%q", got)
	}
}

// A shower from wall to wall in a room that the tape finds a little out of square gives millimetres of its width, never
// its depth, whatever the room passes through as it is measured wall by wall; and stands from wall to wall still.
func TestFullWidthShowerInATapedRoom(t *testing.T) {
	j := job.New()
	for _, e := range []edit.Edit{edit.Side{Wall: 0}.Set(2650), edit.Side{Wall: 1}.Set(1780)} {
		j = settle.Do(j, e).Job
	}
	j.Shower.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM = 0, j.Room.WallLengthMM(j.Shower.Wall), 900
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	for _, first := range [...]edit.Edit{edit.TakeTape(), edit.Of(edit.TakeTape().What, func(*job.Job) {})} {
		taped := settle.Do(j, first).Job
		read := map[int]float64{}
		for i, mm := range [...]float64{2650, 1778, 2655, 1783} {
			taped = measured(t, taped, edit.Measuring(read, edit.Side{Wall: i}.Set(mm)))
			read[i] = mm
		}
		for i, mm := range [...]float64{3196, 3190} {
			taped = measured(t, taped, edit.Across(i, i+2, mm))
		}
		sides := taped.ShowerSides()
		for i, side := range sides {
			if walled := len(side) == 1 && side[0].Wall >= 0; walled != (i != 2) {
				t.Errorf("side %d of the shower: %v", i, side)
			}
		}
		if sh := taped.Shower; sh.DepthMM != 900 || math.Abs(sh.WidthMM-2650) > 10 {
			t.Errorf("%v wide and %v deep", sh.WidthMM, sh.DepthMM)
		}
	}
}

// A shower in a corner of a room that is measured a little out of square stays in that corner.
func TestCornerShowerInATapedRoom(t *testing.T) {
	j := settle.Do(settle.Do(job.New(), edit.Side{Wall: 0}.Set(2650)).Job, edit.Side{Wall: 1}.Set(1780)).Job
	toCorner := func(j job.Job) float64 {
		return j.Room.WallLengthMM(j.Shower.Wall) - j.Shower.OffsetMM - j.Shower.WidthMM
	}
	if toCorner(j) != 0 {
		t.Fatalf("%v from the corner", toCorner(j))
	}
	taped := settle.Do(j, edit.TakeTape()).Job
	for i, mm := range [...]float64{2650, 1778, 2655, 1783} {
		taped = measured(t, taped, edit.Side{Wall: i}.Set(mm))
	}
	for i, mm := range [...]float64{3196, 3190} {
		taped = measured(t, taped, edit.Across(i, i+2, mm))
	}
	if sh := taped.Shower; sh.WidthMM != j.Shower.WidthMM || sh.DepthMM != j.Shower.DepthMM || math.Abs(toCorner(taped)) > job.AtWallMM {
		t.Errorf("%v by %v, %v from the corner", sh.WidthMM, sh.DepthMM, toCorner(taped))
	}
}

// A reading that the others do not go with is shared out, and that is told; one that they do is not.
// 2400 by 1900 has lengths across of 3061 by Pythagoras.
func TestAReadingThatIsSharedOutIsTold(t *testing.T) {
	j := settle.Do(job.New(), edit.TakeTape()).Job
	for i := range 2 {
		j = measured(t, j, edit.Across(i, i+2, 3061))
	}
	told := func(mm float64) (out []string) {
		for _, m := range settle.Do(j, edit.Side{Wall: 3}.Set(mm)).Moved {
			if say := in(t, unit.Metric)(m.What); strings.Contains(say, "put the tape aside") {
				out = append(out, say)
			}
		}
		return out
	}
	if got := told(1903); len(got) > 0 {
		t.Errorf("told of 3 mm: %q", got)
	}
	if got := told(2000); len(got) != 1 || !strings.HasPrefix(got[0], "Wall B is read as 2000 mm and drawn as 19") {
		t.Errorf("told of 100 mm: %q", got)
	}
}

// measured is a job after a measure that nothing refuses.
func measured(t *testing.T, j job.Job, e edit.Edit) job.Job {
	t.Helper()
	s := settle.Do(j, e)
	if s.Refused != nil {
		t.Fatal(in(t, unit.Metric)(s.Refused.What))
	}
	return s.Job
}
