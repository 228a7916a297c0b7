package section_test

import (
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

func ramped(j *job.Job) { j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 600, nil }

// sloping is the text of a ramp's dimension.
func sloping(id message.ID, mm, slope float64) message.Message {
	return message.Of(id, message.MM("length", mm), message.Slope("fall", slope))
}

// A ramp of 600 before the front edge, −832 along the section through the drain, from
// 124.34 down to 13: all of it is looked at, with 260 beside it, its length and slope stand
// below it, and the room's floor is marked in the middle of the 400 beyond its foot.
func TestSectionShowsTheWholeRamp(t *testing.T) {
	d := through(starting(t, ramped), buildup.StageTile)
	expectPoint(t, "focus low", d.FocusLow, plan.Point{-1432 - 260, -150})
	var got []section.Dimension
	for _, m := range d.Dimensions {
		if m.Text.ID == "dimension.ramp-here" {
			got = append(got, m)
		}
	}
	expectDimensions(t, "ramp", got, []section.Dimension{
		{From: plan.Point{-1432, -150}, To: plan.Point{-832, -150}, Text: sloping("dimension.ramp-here", 600, 111.34/600), Row: 1, Side: below},
	})
	var marks []section.Mark
	for _, m := range d.Marks {
		if m.Of == section.MarkRoomFloor {
			marks = append(marks, m)
		}
	}
	expectMarks(t, "room floor", marks, []section.Mark{{At: plan.Point{-1632, 13}, Of: section.MarkRoomFloor, LevelMM: 13}})
}

// In plan a ramp's length stands beside it where it climbs most: at the right from the edge's
// far end. A stated length can be changed there; into the wall 1000 away a longer one is drawn as far
// as there is floor.
func TestPlanDimensionsRamps(t *testing.T) {
	for name, c := range map[string]struct{ statedMM, longMM, drawnMM float64 }{"in the room": {600, 600, 600}, "into the wall": {1200, 1200, 1000}} {
		d := section.PlanOf(starting(t, ramped, func(j *job.Job) { j.Room.RampRunMM = c.statedMM }))
		var got []section.Dimension
		for _, m := range d.Dimensions {
			if m.Text.ID == "dimension.ramp" {
				got = append(got, m)
			}
		}
		long := message.Of("dimension.ramp", message.MM("length", c.longMM))
		expectDimensions(t, name, got, []section.Dimension{
			{From: plan.Point{1400, 1000}, To: plan.Point{1400 + c.drawnMM, 1000}, Text: long, Row: 1, Side: plan.Point{0, 1}, Key: "room.rampRunMM"},
			{From: plan.Point{700, 1000}, To: plan.Point{700, 1000 - c.drawnMM}, Text: long, Row: 1, Side: right, Key: "room.rampRunMM"},
		})
	}
}
