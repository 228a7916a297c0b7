package drawing

import (
	"image"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/paint"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// bench is a desk with a drawing over it, in a window of its own.
type bench struct {
	*roomtest.Bench
	sight  *sight.Sight
	status string         // what was last read out
	keys   []fyne.KeyName // that were handed on
}

// at is a drawing of the first of the jobs that Underfall comes with.
func at(t *testing.T, kind still.Kind, size fyne.Size) (*View, *bench) {
	t.Helper()
	return of(t, roomtest.First(t), kind, size)
}

// of is a drawing of a job, once it is drawn.
func of(t *testing.T, j job.Job, kind still.Kind, size fyne.Size) (*View, *bench) {
	t.Helper()
	b := &bench{Bench: roomtest.New(t, j)}
	b.sight = sight.New(b.Do, b.Guard)
	t.Cleanup(func() { close(b.sight.Closed) })
	keys := control.NewKeys()
	keys.Plain = func(e *fyne.KeyEvent) { b.keys = append(b.keys, e.Name) }
	v := New(kind, b.Desk, keys, b.sight, b.Theme, b.Painter())
	v.Readout = func(s string) { b.status = s }
	window := test.NewTempWindow(t, v)
	window.SetPadded(false)
	window.Resize(size)
	b.Desk.Subscribe(func(c desk.Change) { v.SetResult(c.Result, false) })
	b.Until("the drawing", func() bool { return len(v.drawing.Areas) > 0 && v.AtRest() })
	return v, b
}

// Dragging in plan edits the job as one step.
func TestDragInPlan(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(600, 300))
	var at fyne.Position
	for _, h := range v.drawing.Handles {
		if h.Moves.Kind == edit.HandleDepth {
			at = v.toWindow(h.At)
		}
	}
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	if v.grasped.handle.Kind != edit.HandleDepth {
		t.Fatalf("grasped %v", v.grasped)
	}
	for i := range 5 {
		p := at.AddXY(0, float32(3*i))
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p}, Dragged: fyne.NewDelta(0, 3)})
	}
	v.DragEnd()
	if got := b.Desk.Job().Shower.DepthMM; got <= 900 {
		t.Errorf("dragging the front edge out gives a depth of %v", got)
	}
	b.Desk.Undo()
	if got := b.Desk.Job().Shower.DepthMM; got != 900 {
		t.Errorf("one undo gives %v, want 900", got)
	}
}

// Measuring between two corners of the section gives their distance.
func TestMeasure(t *testing.T) {
	v, b := at(t, still.Section, fyne.NewSize(700, 300))
	b.sight.Change(func(s *sight.State) { s.Pressing = sight.PressingMeasure })
	var tile [2]fyne.Position
	for _, a := range v.drawing.Areas {
		if a.PartID == "base" {
			low, high, _ := a.Region.Bounds()
			tile[0], tile[1] = v.toWindow(low), v.toWindow([2]float64{low.X(), high.Y()})
		}
	}
	for _, p := range tile {
		v.Tapped(&fyne.PointEvent{Position: p})
	}
	// Its upper board is one of 10.
	if want := "Measured 10 mm"; b.status != want {
		t.Errorf("%q, want %q", b.status, want)
	}
}

// In the long section the exit's level is dragged, and then drives the fall.
func TestDragInTheLongSection(t *testing.T) {
	v, b := at(t, still.Long, fyne.NewSize(700, 320))
	exitMM := func() float64 { return b.Change.Result.Heights.Run.InvertAt(b.Change.Result.Heights.Run.ExitAtMM) }
	// Six pixels up, of heights drawn Rise times as high, to the next half millimetre.
	want := math.Round((exitMM()+6/v.view.PixelsPerMM/v.drawing.Rise)*2) / 2
	if want < exitMM()+1 {
		t.Fatalf("the exit is not dragged: from %v to %v", exitMM(), want)
	}
	at := v.toWindow(v.drawing.Handles[0].At)
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(0, -6)}, Dragged: fyne.NewDelta(0, -6)})
	v.MouseUp(nil)
	b.Until("the exit to be where it is dragged", func() bool { return math.Abs(exitMM()-want) < 1e-6 })
	if _, exact := b.Desk.Job().Waste.Exit.Level.ExactlyMM(); !exact {
		t.Error("the exit does not drive")
	}
}

// A turn is added to the run and taken away again, a fitting put in and turned
// round; the wrong way round is a finding.
func TestRunMenu(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(600, 300))
	choose := func(atMM float64, label string) {
		for _, item := range v.runItems(atMM) {
			if item.Label == label {
				item.Action()
				b.Settle()
				return
			}
		}
		t.Fatalf("no %q in the menu", label)
	}
	choose(300, "Add a turn here")
	b.Until("the turn", func() bool { return len(b.Change.Result.Heights.Run.Corners) == 3 })
	choose(300, "Remove this turn")
	b.Until("it to go", func() bool { return len(b.Change.Result.Heights.Run.Corners) == 2 })
	b.Desk.Do(edit.Of(message.Of("edit.pipe"), func(j *job.Job) {
		j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM = 40, 43, 39
	}))
	b.Until("the smaller pipe", func() bool { return b.Change.Result.Settled.Waste.NominalMM == 40 })
	choose(200, "Put a reducer to 50 mm here")
	// The trap's joint, pipe, reducer and pipe.
	b.Until("the reducer", func() bool { return len(b.Change.Result.Heights.Run.Pieces) == 4 })
	choose(220, "Turn this fitting round")
	b.Until("the finding", func() bool {
		for _, f := range b.Change.Result.Findings {
			if f.Rule.ID == "reducer-loss" {
				return true
			}
		}
		return false
	})
	choose(220, "Remove this fitting")
	b.Until("it to go", func() bool { return len(b.Change.Result.Heights.Run.Pieces) == 2 })
}

// The water's drops stay on their courses, in plan and along the run.
func TestDropsStayOnTheirCourse(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(600, 300))
	r := b.Change.Result
	for _, kind := range []still.Kind{still.Plan, still.Long} {
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
	b.sight.Change(func(s *sight.State) { s.Water = true })
	b.Until("the drops", func() bool { return v.drops != nil && len(v.drops.dots) > 5 })
	b.sight.Change(func(s *sight.State) { s.Water = false })
	if v.drops != nil {
		t.Error("the water goes on")
	}
}

// What is laid over a drawing to show where it is cut, the drawing knows of, so that its
// texts keep off: a line with six of its flags in plan, two where a corner is cut out, of which the section
// has the other; a rod in plan is crossed by two.
func TestTextsKeepOffCutLines(t *testing.T) {
	p, b := at(t, still.Plan, fyne.NewSize(600, 300))
	b.Until("the line of one plane", func() bool { return len(p.drawing.Over) == 7 })
	b.sight.CutCorner()
	b.Until("the lines of two planes", func() bool { return len(p.drawing.Over) == 14 })
	b.sight.Change(func(s *sight.State) { s.HasRod = true })
	b.Until("the rod", func() bool { return len(p.drawing.Over) == 16 })
	s, b := at(t, still.Section, fyne.NewSize(700, 300))
	b.sight.CutCorner()
	b.Until("the other plane in the section", func() bool { return len(s.drawing.Over) == 1 })
	b.sight.Change(func(s *sight.State) { s.CutOn = false })
	b.Until("none in the section", func() bool { return len(s.drawing.Over) == 0 })
}

// A handle that was clicked moves with the arrow keys.
func TestArrowKeysMoveAHandle(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(700, 330))
	before := b.Desk.Job().Shower.DepthMM
	for _, h := range v.drawing.Handles {
		if h.Moves.Kind == edit.HandleDepth {
			v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: v.toWindow(h.At)}, Button: desktop.MouseButtonPrimary})
			v.MouseUp(nil)
		}
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	b.Until("the shower to get deeper", func() bool { return b.Desk.Job().Shower.DepthMM == before+1 })
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyC})
	if len(b.keys) != 1 || b.keys[0] != fyne.KeyC {
		t.Errorf("of the keys the plan has no use for, the window gets %v", b.keys)
	}
}

// The second plane of a corner stands in the section and is dragged there.
func TestCutIsDraggedInTheSection(t *testing.T) {
	v, b := at(t, still.Section, fyne.NewSize(700, 330))
	b.sight.CutCorner()
	x, _, ok := v.crossing(sight.PlaneSecond)
	if !ok {
		t.Fatal("the second plane does not show in the section")
	}
	at := v.toWindow(plan.Point{x, v.view.Centre.Y()})
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(-60, 0)}, Dragged: fyne.NewDelta(-60, 0)})
	v.MouseUp(nil)
	const snapsMM = 10 // it may fall onto a place that near
	moved, _, _ := v.crossing(sight.PlaneSecond)
	if want := x - 60/v.view.PixelsPerMM*v.scale; math.Abs(moved-want) > snapsMM {
		t.Errorf("dragged 60 points to the left the plane stands at %v, want %v", moved, want)
	}
}

// A click on a dimension tells which it is, on one that follows from a wall what it sets; where the
// waste goes into a stack, that is still taken hold of.
func TestDimensionsAreTold(t *testing.T) {
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{300, 700}, NominalMM: 110, OutsideMM: 110}}
	j.Waste.Exit = job.Exit{Kind: job.ExitStack}
	j.Drain.OutletTurnDeg = 270
	v, b := of(t, j, still.Plan, fyne.NewSize(900, 700))
	var told []paint.Placed
	v.TypeOn = func(on paint.Placed) { told = append(told, on) }
	left := edit.FromWall{Of: edit.Handle{Kind: edit.HandleStack}, Wall: 3}
	for _, meant := range []func(paint.Placed) bool{
		func(p paint.Placed) bool { return p.Key == "shower.depthMM" },
		func(p paint.Placed) bool { return p.Sets == left },
	} {
		told = nil
		i := slices.IndexFunc(v.placed, meant)
		if i < 0 {
			t.Fatal("the dimension is not drawn")
		}
		box := v.placed[i].Box
		x, y := float64(box.Min.X+box.Dx()/2)/v.scale, float64(box.Min.Y+box.Dy()/2)/v.scale
		v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(float32(x), float32(y))})
		if len(told) != 1 || !meant(told[0]) {
			t.Errorf("a click on it tells of %v", told)
		}
		// A press on its line, where the figure does not stand, means it as well.
		told = nil
		a, b := plan.Point(v.placed[i].Line[0]), plan.Point(v.placed[i].Line[1])
		at := a.Add(b.Sub(a).Mul(0.2))
		if (image.Point{int(at.X()), int(at.Y())}).In(box.Inset(-3)) {
			at = a.Add(b.Sub(a).Mul(0.8))
		}
		v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(float32(at.X()/v.scale)+1, float32(at.Y()/v.scale)+1)})
		if len(told) != 1 || !meant(told[0]) {
			t.Errorf("a click on its line tells of %v", told)
		}
	}
	stack := edit.Handle{Kind: edit.HandleStack}
	grab := fyne.PointEvent{Position: v.toWindow(plan.Point{300, 700})}
	v.MouseDown(&desktop.MouseEvent{PointEvent: grab, Button: desktop.MouseButtonPrimary})
	if v.grasped.handle != stack {
		t.Errorf("at the stack %v is taken hold of", v.grasped.handle)
	}
	v.MouseUp(nil)
	b.Settle()
}

// Nothing of a job is shown any more once another is on the desk, not what is being drawn of it either, until that is drawn.
func TestBlankUntilTheNextJob(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(600, 300))
	r := v.result
	v.Redraw()
	v.Blank()
	b.Until("rest", v.AtRest)
	b.Settle()
	if v.picture.Image != nil || len(v.drawing.Areas) > 0 || len(v.drawing.Handles) > 0 || len(v.placed) > 0 {
		t.Error("something is shown of the job before")
	}
	v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(300, 150)})
	v.Redraw()
	b.Until("rest", v.AtRest)
	if v.picture.Image != nil {
		t.Error("it is drawn of no result")
	}
	v.SetResult(r, true)
	b.Until("the drawing", func() bool { return v.picture.Image != nil && len(v.drawing.Areas) > 0 })
}
