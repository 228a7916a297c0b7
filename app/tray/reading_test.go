package tray_test

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Two readings of one point that differ by more than reading explains are asked about, and either can be taken away; by as
// much as reading explains nothing is asked.
func TestEitherOfTwoReadingsIsTakenAway(t *testing.T) {
	for _, c := range []struct {
		second float64
		press  string
		left   float64 // what is read then; 0 where nothing is asked
	}{{993, "Take reading 2 away", 997}, {993, "Take reading 1 away", 993}, {995.5, "Take reading 2 away", 0}} {
		b := at(t, job.New())
		b.Open(job.StationFloor)
		for _, mm := range []float64{997, c.second} {
			b.job = edit.Read(plan.Point{600, 700}, mm).Apply(b.job)
		}
		b.Show(b.job)
		p := pressCalled(b.Object(), c.press)
		if (p != nil) != (c.left > 0) {
			t.Fatalf("read %v and %v: asked %v", 997, c.second, p != nil)
		}
		if p == nil {
			continue
		}
		test.Tap(p)
		if r := b.job.Laser.Readings; len(r) != 1 || r[0].DownMM != c.left {
			t.Errorf("%s leaves %v", c.press, r)
		}
	}
}

// Presses on the plan are readings from when that is asked for until it is done, or another station is open.
func TestReadingOnThePlan(t *testing.T) {
	b := at(t, job.New())
	var told []bool
	b.Reading = func(on bool) { told = append(told, on) }
	b.Open(job.StationFloor)
	test.Tap(pressCalled(b.Object(), "Press readings"))
	test.Tap(pressCalled(b.Object(), "Done"))
	test.Tap(pressCalled(b.Object(), "Press readings"))
	b.StopReading()
	b.StopReading()
	if want := []bool{true, false, true, false}; len(told) != len(want) {
		t.Errorf("told %v", told)
	}
}
