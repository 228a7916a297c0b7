package tray_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"underfall/app/control"
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

// How high the line is taken to lie is told beside the readings, and no longer once a known point gives it.
func TestTheTakenLineIsTold(t *testing.T) {
	b := at(t, job.New())
	b.Open(job.StationFloor)
	told := func() bool {
		b.Show(b.job)
		for _, o := range test.LaidOutObjects(b.Object()) {
			if text, ok := o.(*control.Text); ok && text.Visible() && strings.Contains(text.Text, "line is taken as 1203 mm over the floor") {
				return true
			}
		}
		return false
	}
	if told() {
		t.Error("told before anything is read")
	}
	b.job = edit.Read(plan.Point{770, 800}, 1203).Apply(b.job)
	if !told() {
		t.Error("the line is taken in silence")
	}
	datum := 0.0
	b.job.Laser.SetUps[0] = job.SetUp{LevelMM: &datum, DownMM: 1203}
	b.job.WorkOut()
	if told() {
		t.Error("a line that is known is told as taken")
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
