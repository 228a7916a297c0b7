package section_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// A floor that rises 14 over the shower's 1400 from left to right: the base lies on the
// bed of 3 at its right, 17 at its left. As many as 14 steps of one are too many lines:
// every 2 from 4 to 16, at x = 1300, 1100 … 100.
func TestMapOfTheBed(t *testing.T) {
	sloping := func(j *job.Job) {
		for _, p := range []plan.Point{{0, 1000}, {1400, 1000}, {1400, 1900}, {0, 1900}} {
			j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: p, LevelMM: p.X() / 100})
		}
	}
	d := section.BedOf(starting(t, sloping))
	var at []float64
	for _, l := range d.Lines {
		if l.Kind == "bed" {
			a, b := l.Points[0], l.Points[1]
			if math.Abs(a.X()-b.X()) > 1e-6 || math.Abs(math.Abs(a.Y()-b.Y())-900) > 1e-6 {
				t.Errorf("a line from %v to %v", a, b)
			}
			at = append(at, a.X())
		}
	}
	if len(at) != 7 {
		t.Fatalf("lines at %v", at)
	}
	for i, x := range at {
		if want := 1300 - 200*float64(i); math.Abs(x-want) > 1e-6 {
			t.Errorf("line %d at %v, want %v", i, x, want)
		}
	}
	// The readings at the four corners.
	if len(d.Marks) != 4 || d.Marks[0].Of != section.MarkBedRead || math.Abs(d.Marks[0].ThicknessMM-17) > 1e-9 || math.Abs(d.Marks[1].ThicknessMM-3) > 1e-9 {
		t.Errorf("marks %+v", d.Marks)
	}
	if d.FocusLow != (plan.Point{-250, 750}) || d.FocusHigh != (plan.Point{1650, 2150}) {
		t.Errorf("looked at from %v to %v", d.FocusLow, d.FocusHigh)
	}
	// A level floor has no lines, a base let in no bed.
	if d := section.BedOf(starting(t, func(*job.Job) {})); len(d.Lines) > 0 || len(d.Marks) != 4 {
		t.Errorf("on a level floor %d lines, %d marks", len(d.Lines), len(d.Marks))
	}
	letIn := func(j *job.Job) { j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists }
	if d := section.BedOf(starting(t, letIn)); len(d.Marks) > 0 {
		t.Errorf("let in %d marks", len(d.Marks))
	}
}
