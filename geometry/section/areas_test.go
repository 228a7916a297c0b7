package section_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// A cut along the floor is drawn whole, without levels: its walls are measured, 2400 by 1900, and
// lettered, with their corners; what is cut is named.
func TestHorizontalCut(t *testing.T) {
	d := section.Of(starting(t), solid.HorizontalCut(300), buildup.StageTile)
	expectPoint(t, "low", d.Low, plan.Point{-215, -100})
	expectPoint(t, "high", d.High, plan.Point{2500, 2115})
	expectPoint(t, "focus low", d.FocusLow, d.Low)
	expectPoint(t, "focus high", d.FocusHigh, d.High)
	if len(d.Marks)+len(d.Notes) > 0 {
		t.Errorf("marks %+v, notes %+v", d.Marks, d.Notes)
	}
	var texts []string
	for _, m := range d.Dimensions {
		texts = append(texts, written(m.Text))
	}
	if fmt.Sprint(texts) != "[2400 mm 1900 mm 2400 mm 1900 mm]" {
		t.Errorf("measured %v", texts)
	}
	discs, rings, names := 0, 0, 0
	for _, n := range d.Names {
		switch {
		case n.Disc != 0:
			discs++
		case n.Ring != message.Corner{}:
			rings++
		default:
			names++
		}
	}
	if discs != 4 || rings != 4 || names == 0 {
		t.Errorf("%d walls lettered, %d corners, %d names", discs, rings, names)
	}
	// Beside everything there is nothing, and no extent.
	none := section.Of(starting(t), solid.VerticalCut(plan.Point{9000, 0}, plan.Point{0, 1}), buildup.StageBare)
	if len(none.Areas) > 0 || none.Low != (plan.Point{}) || none.High != (plan.Point{}) {
		t.Errorf("beside the room: from %v to %v, %d areas", none.Low, none.High, len(none.Areas))
	}
}

// A cut that passes through no more than the bounds of what stands askew gives no areas
// of nothing.
func TestNoEmptyAreas(t *testing.T) {
	r := starting(t, func(j *job.Job) { *j = demotest.Moved(*j, 30, plan.Point{}) })
	for x := -2000.0; x < 3000; x += 190 {
		areas, err := section.Areas(r.Assembly, solid.VerticalCut(plan.Point{x, 0}, plan.Point{0.6, 0.8}), buildup.StageTile)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range areas {
			if len(a.Region) == 0 {
				t.Errorf("at %v there is nothing of %s", x, a.PartID)
			}
		}
	}
}

// What runs through others is cut out of them: the pipe of 50 out of a base of 69
// high. Square across at 345 from the trap the base shows 900·69 less the channel
// that is sawn for it; the pipe shows as a ring of 50 and 46.
func TestPipeIsCutOut(t *testing.T) {
	r := starting(t)
	d := section.Of(r, solid.VerticalCut(plan.Point{300, 0}, plan.Point{0, 1}), buildup.StageTile)
	for _, a := range d.Areas {
		switch a.PartID {
		case "run-straight-1":
			want := math.Pi * (25*25 - 23*23)
			if got := a.Region.Area(); !(math.Abs(got-want) <= 0.01*want) {
				t.Errorf("the pipe's wall covers %v, want %v", got, want)
			}
		case "base", "former":
			if a.Region.Contains(plan.Point{1832, 11.375 - 1}, 0) || a.Region.Contains(plan.Point{1832, 11.375 + 47}, 0) {
				t.Errorf("the %s is drawn in the pipe's wall", a.PartID)
			}
		}
	}
	if a, ok := d.At(plan.Point{1832, 11.375 - 1}); !ok || a.PartID != "run-straight-1" {
		t.Errorf("in the pipe's wall there is %q", a.PartID)
	}
}
