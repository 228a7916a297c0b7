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
	j.Room.Tape = job.Tape{Drawn: slices.Clone(j.Room.Outline), Lengths: []job.Taped{{From: 0, To: 1, LengthMM: 2400}, {From: 0, To: 3, LengthMM: 1900}}}
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
	if got := say(s.Refused.What); got != "Corners of the room: the corners come from what was measured of the room: change a measure, or put what was measured aside" {
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

// A length that no room has is refused, with the nearest that one has.
func TestImpossibleMeasureIsRefused(t *testing.T) {
	j := taped()
	j.Room.Tape.Lengths = append(j.Room.Tape.Lengths, job.Taped{From: 1, To: 3, LengthMM: 3061})
	j.Room.WorkOut()
	l, _ := job.FindList(job.TapeLengthsKey)
	e := l.Entries()[slices.IndexFunc(l.Entries(), func(e job.Entry) bool { return e.Key == "lengthMM" })]
	mm := 5000.0
	s := settle.Do(j, edit.ItemNumber(l, 2, e, &mm))
	if s.Refused == nil {
		t.Fatalf("corners %v", s.Job.Room.Outline)
	}
	if got := in(t, unit.Metric)(s.Refused.What); got == "" {
		t.Error("nothing is said")
	}
	for _, c := range s.Refused.Cures {
		if again := settle.Do(j, c.Edit); again.Refused != nil {
			t.Errorf("%v is no cure", c.What)
		}
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
