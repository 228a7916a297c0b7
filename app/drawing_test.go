package app

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/sight"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Dragging in plan edits the job as one step.
func TestDragInPlan(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.drawings.SelectIndex(1)
	w.plan.Resize(fyne.NewSize(600, 300))
	until(t, "the plan", func() bool { return len(w.plan.drawing.Handles) > 0 && w.plan.fitted == w.plan.fits })
	var at fyne.Position
	for _, h := range w.plan.drawing.Handles {
		if h.Moves.Kind == edit.HandleDepth {
			at = w.plan.toWindow(h.At)
		}
	}
	w.plan.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	if w.plan.grasped.handle.Kind != edit.HandleDepth {
		t.Fatalf("grasped %v", w.plan.grasped)
	}
	for i := range 5 {
		p := at.AddXY(0, float32(3*i))
		w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p}, Dragged: fyne.NewDelta(0, 3)})
	}
	w.plan.DragEnd()
	if got := w.desk.Job().Shower.DepthMM; got <= 900 {
		t.Errorf("dragging the front edge out gives a depth of %v", got)
	}
	w.desk.Undo()
	if got := w.desk.Job().Shower.DepthMM; got != 900 {
		t.Errorf("one undo gives %v, want 900", got)
	}
}

// Measuring between two corners of the section gives their distance.
func TestMeasure(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.section.Resize(fyne.NewSize(700, 300))
	until(t, "the section", func() bool { return len(w.section.drawing.Areas) > 0 && w.section.fitted == w.section.fits })
	w.setMeasuring(true)
	var tile [2]fyne.Position
	for _, a := range w.section.drawing.Areas {
		if a.PartID == "base" {
			low, high, _ := a.Region.Bounds()
			tile[0], tile[1] = w.section.toWindow(low), w.section.toWindow([2]float64{low.X(), high.Y()})
		}
	}
	for _, p := range tile {
		w.section.Tapped(&fyne.PointEvent{Position: p})
	}
	// Its upper board is one of 10.
	if want := "Measured 10 mm"; w.status.Text != want {
		t.Errorf("%q, want %q", w.status.Text, want)
	}
}

// In the long section the exit's level is dragged, and then drives the fall.
func TestDragInTheLongSection(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.drawings.SelectIndex(2)
	w.long.Resize(fyne.NewSize(700, 320))
	until(t, "the drawing", func() bool { return len(w.long.drawing.Handles) > 0 && w.long.fitted == w.long.fits })
	exitMM := func() float64 { return w.change.Result.Heights.Run.InvertAt(w.change.Result.Heights.Run.ExitAtMM) }
	// Six pixels up, of heights drawn Rise times as high, to the next half millimetre.
	want := math.Round((exitMM()+6/w.long.view.PixelsPerMM/w.long.drawing.Rise)*2) / 2
	if want < exitMM()+1 {
		t.Fatalf("the exit is not dragged: from %v to %v", exitMM(), want)
	}
	at := w.long.toWindow(w.long.drawing.Handles[0].At)
	w.long.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	w.long.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(0, -6)}, Dragged: fyne.NewDelta(0, -6)})
	w.long.MouseUp(nil)
	until(t, "the exit to be where it is dragged", func() bool { return math.Abs(exitMM()-want) < 1e-6 })
	if _, exact := w.desk.Job().Waste.Exit.Level.ExactlyMM(); !exact {
		t.Error("the exit does not drive")
	}
}

// A turn is added to the run and taken away again, a fitting put in and turned
// round; the wrong way round is a finding.
func TestRunMenu(t *testing.T) {
	w, _ := openWindow(t, Options{})
	choose := func(atMM float64, label string) {
		for _, item := range w.plan.runItems(atMM) {
			if item.Label == label {
				item.Action()
				settle(t)
				return
			}
		}
		t.Fatalf("no %q in the menu", label)
	}
	choose(300, "Add a turn here")
	until(t, "the turn", func() bool { return len(w.change.Result.Heights.Run.Corners) == 3 })
	choose(300, "Remove this turn")
	until(t, "it to go", func() bool { return len(w.change.Result.Heights.Run.Corners) == 2 })
	w.desk.Do(edit.Of(message.Of("edit.pipe"), func(j *job.Job) {
		j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM = 40, 43, 39
	}))
	until(t, "the smaller pipe", func() bool { return w.change.Result.Settled.Waste.NominalMM == 40 })
	choose(200, "Put a reducer to 50 mm here")
	// The trap's joint, pipe, reducer and pipe.
	until(t, "the reducer", func() bool { return len(w.change.Result.Heights.Run.Pieces) == 4 })
	choose(220, "Turn this fitting round")
	until(t, "the finding", func() bool {
		for _, f := range w.change.Result.Findings {
			if f.Rule.ID == "reducer-loss" {
				return true
			}
		}
		return false
	})
	choose(220, "Remove this fitting")
	until(t, "it to go", func() bool { return len(w.change.Result.Heights.Run.Pieces) == 2 })
}

// The water's drops stay on their courses, in plan and along the run.
func TestDropsStayOnTheirCourse(t *testing.T) {
	w, _ := openWindow(t, Options{})
	r := w.change.Result
	for _, kind := range []DrawingKind{DrawPlan, DrawLong} {
		cs := courses(kind, r, 1)
		if len(cs) == 0 {
			t.Fatalf("kind %d has no water", kind)
		}
		for _, c := range cs {
			for s := 0.0; s < 30; s += 0.37 {
				p := c.at(s)
				best := 1e9
				for i := 1; i < len(c.points); i++ {
					best = min(best, plan.DistanceToSegment(p, c.points[i-1], c.points[i]))
				}
				if best > 1e-6 {
					t.Fatalf("a drop is %v mm off its course", best)
				}
			}
		}
	}
	w.water.Run.SetChecked(true)
	w.drawings.SelectIndex(1)
	until(t, "the drops", func() bool { return w.plan.drops != nil && len(w.plan.drops.dots) > 5 })
	w.water.Run.SetChecked(false)
	if w.plan.drops != nil {
		t.Error("the water goes on")
	}
}

// What the window lays over a drawing to show where it is cut, the drawing knows of, so that its
// texts keep off: one line in plan, two where a corner is cut out, of which the section has the
// other.
func TestTextsKeepOffCutLines(t *testing.T) {
	w, _ := openWindow(t, Options{})
	over := func() [2]int { return [2]int{len(w.plan.drawing.Over), len(w.section.drawing.Over)} }
	w.plan.Resize(fyne.NewSize(600, 300))
	w.section.Resize(fyne.NewSize(700, 300))
	w.drawings.SelectIndex(1)
	until(t, "the line of one plane", func() bool { return over()[0] == 1 })
	w.sight.SetMode(sight.CutCorner)
	until(t, "the lines of two planes", func() bool { return over()[0] == 2 })
	w.drawings.SelectIndex(0)
	until(t, "the other plane in the section", func() bool { return over()[1] == 1 })
	w.sight.Change(func(s *sight.State) { s.CutOn = false })
	until(t, "none in the section", func() bool { return over()[1] == 0 })
}

// The buttons for shapes of the room are off where it has that shape already.
func TestShapesThatWouldChangeNothing(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.tray.Open(job.StationRoom)
	buttons := pressesIn(w.tray.Object(), "Make a")
	if len(buttons) != 2 {
		t.Fatalf("%d buttons", len(buttons))
	}
	rectangle, l := buttons[0], buttons[1]
	if !rectangle.Off || l.Off {
		t.Error("a rectangle can be made one")
	}
	ring := []plan.Point{{0, 0}, {4800, 0}, {4800, 1900}, {2400, 1900}, {2400, 3800}, {0, 3800}}
	if p := w.desk.Do(edit.All(message.Of("edit.corners"), edit.Outline(ring), edit.Of(message.Of("edit.corners"), func(j *job.Job) {
		j.Shower.Wall, j.Waste.Exit.Wall = 4, 5
	}))); len(p) > 0 {
		t.Fatal(p)
	}
	until(t, "the room", func() bool { return l.Off })
	if rectangle.Off {
		t.Error("an L-shape cannot be made a rectangle")
	}
}
