package drawing

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// startingPlan is the plan of the starting job, in a wide window, with Shift down or not.
func startingPlan(t *testing.T, shift *bool) (*View, *bench) {
	t.Helper()
	b := &bench{Bench: roomtest.New(t, job.New())}
	b.sight = sight.New(b.Do, b.Guard)
	t.Cleanup(func() { close(b.sight.Closed) })
	keys := control.NewKeys()
	keys.Shift = func() bool { return *shift }
	v := New(still.Plan, b.Desk, keys, b.sight, b.Theme, b.Painter())
	v.Readout = func(s string) { b.status = s }
	window := test.NewTempWindow(t, v)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(900, 700))
	b.Desk.Subscribe(func(c desk.Change) { v.SetResult(c.Result, false) })
	b.Until("the drawing", func() bool { return len(v.drawing.Areas) > 0 && v.AtRest() })
	return v, b
}

// dragThing drags a thing of the plan from a quarter of its way along x to where that has gone so far.
func dragThing(v *View, id section.ThingID, by plan.Point) {
	thing, _ := v.drawing.Thing(id)
	from := v.toWindow(thing.At.Add(plan.Point{100, 0}))
	to := v.toWindow(thing.At.Add(plan.Point{100, 0}).Add(by))
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}, Button: desktop.MouseButtonPrimary})
	v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.NewDelta(to.X-from.X, to.Y-from.Y)})
}

// texts are those over the picture.
func (v *View) texts() string {
	var out []string
	for _, o := range v.overlay.Objects {
		if text, is := o.(*canvas.Text); is {
			out = append(out, text.Text)
		}
	}
	return strings.Join(out, ", ")
}

// By hand: the door of 760 from 1500 in a wall of 2400 has its middle at 1880. Taken hold of off its middle and dragged
// 672 to the left it is 8 from the middle of the wall, where it falls: from 820 on. It is told, with the 820 to the
// corner, and is one step of the history. With Shift it stays where it is dragged to.
func TestDragOfADoorFallsIntoPlace(t *testing.T) {
	shift := false
	v, b := startingPlan(t, &shift)
	door := section.ThingID{Key: job.DoorwaysKey + "[0]"}
	dragThing(v, door, plan.Point{-672, 40})
	b.Until("the door to move", func() bool { return b.Change.Result.Settled.Room.Doorways[0].OffsetMM == 820 })
	b.Until("what is told", func() bool { return strings.Contains(v.texts(), "820") })
	if !strings.Contains(v.texts(), "Wall A, its middle") || b.status != "Wall A, its middle" {
		t.Errorf("over the picture %q, below it %q", v.texts(), b.status)
	}
	v.DragEnd()
	if v.texts() != "" {
		t.Errorf("left over the picture: %q", v.texts())
	}
	b.Desk.Undo()
	if got := b.Desk.Job().Room.Doorways[0].OffsetMM; got != 1500 {
		t.Errorf("one step back leaves it at %v", got)
	}
	b.Until("the door to be back", func() bool {
		thing, _ := v.drawing.Thing(door)
		return math.Abs(thing.At.X()-1880) < 1
	})
	shift = true
	dragThing(v, door, plan.Point{-672, 40})
	v.DragEnd()
	if got := b.Desk.Job().Room.Doorways[0].OffsetMM; math.Abs(got-828) > 1 || got != math.Round(got) {
		t.Errorf("with Shift it is at %v, not about 828", got)
	}
}

// A small move is for a place of its own: 5 past the middle of the wall the door stays, where a longer drag to the
// same place has it fall there. A door that is led to another wall stands in that.
func TestSmallMovesFallNowhere(t *testing.T) {
	shift := false
	v, b := startingPlan(t, &shift)
	door := section.ThingID{Key: job.DoorwaysKey + "[0]"}
	stands := func(wall int, mm float64) {
		t.Helper()
		v.DragEnd()
		if got := b.Desk.Job().Room.Doorways[0]; got.Wall != wall || got.OffsetMM != mm {
			t.Errorf("the door is in wall %d at %v, not in %d at %v", got.Wall, got.OffsetMM, wall, mm)
		}
		b.Until("the drawing", func() bool { return v.AtRest() && v.result.Settled.Room.Doorways[0].OffsetMM == mm })
	}
	b.Desk.Do(edit.DragAs(edit.Handle{Kind: edit.HandleDoorway}, plan.Point{1225, 0}, edit.Fine))
	stands(0, 845)
	dragThing(v, door, plan.Point{-30, 0})
	stands(0, 815)
	dragThing(v, door, plan.Point{400, 0})
	stands(0, 1215)
	dragThing(v, door, plan.Point{-397, 0})
	stands(0, 820)
	dragThing(v, door, plan.Point{1080, 905}) // from the middle of a wall of 100: 855 along the next
	stands(1, 475)
}

// A press on a wall that trembles moves nothing; a drag of it does.
func TestPressThatTrembles(t *testing.T) {
	shift := false
	v, b := startingPlan(t, &shift)
	wall := section.ThingID{Key: job.WallsKey + "[1]"}
	was := b.Desk.Job().Room.Outline[1].X()
	thing, _ := v.drawing.Thing(wall)
	at := v.toWindow(thing.At.Add(plan.Point{0, 200}))
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(2, 1)}, Dragged: fyne.NewDelta(2, 1)})
	if got := b.Desk.Job().Room.Outline[1].X(); got != was {
		t.Errorf("the wall moved from %v to %v", was, got)
	}
	v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(40, 1)}, Dragged: fyne.NewDelta(38, 0)})
	v.DragEnd()
	if got := b.Desk.Job().Room.Outline[1].X(); got <= was {
		t.Errorf("the wall stays at %v", got)
	}
}

// The arrow keys move what is held by a millimetre, with Shift by ten.
func TestNudges(t *testing.T) {
	shift := false
	v, b := startingPlan(t, &shift)
	pressOn(v, section.ThingID{Key: job.DoorwaysKey + "[0]"})
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	at := func(mm float64) {
		t.Helper()
		b.Until("the door to move", func() bool {
			thing, _ := v.drawing.Thing(section.ThingID{Key: job.DoorwaysKey + "[0]"})
			return b.Desk.Job().Room.Doorways[0].OffsetMM == mm && math.Abs(thing.At.X()-380-mm) < 1e-6
		})
	}
	at(1499)
	shift = true
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	at(1489)
}

// Nothing of the shower is moved by a drag within it, which shifts the paper, until the shower is chosen.
func TestDragWithinTheShower(t *testing.T) {
	shift := true
	v, b := startingPlan(t, &shift)
	was := b.Desk.Job().Shower
	drag := func() {
		from := v.toWindow(plan.Point{400, 1250})
		v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}, Button: desktop.MouseButtonPrimary})
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(30, 0)}, Dragged: fyne.NewDelta(30, 0)})
		v.DragEnd()
	}
	centre := v.view.Centre
	drag()
	if b.Desk.Job().Shower.OffsetMM != was.OffsetMM || v.view.Centre == centre {
		t.Errorf("the shower is at %v, the paper at %v", b.Desk.Job().Shower.OffsetMM, v.view.Centre)
	}
	pressOn(v, section.ThingID{Key: "shower"})
	drag()
	if b.Desk.Job().Shower.OffsetMM >= was.OffsetMM {
		t.Errorf("the shower stays at %v", b.Desk.Job().Shower.OffsetMM)
	}
}

// While something is dragged labels stay where they were; once it is let go they stand where they would in a drawing
// that nothing went before.
func TestLabelsArePlacedAfreshAfterADrag(t *testing.T) {
	shift := false
	v, b := startingPlan(t, &shift)
	door := section.ThingID{Key: job.DoorwaysKey + "[0]"}
	dragThing(v, door, plan.Point{-672, 40})
	b.Until("the door to move", func() bool { return b.Change.Result.Settled.Room.Doorways[0].OffsetMM == 820 && v.AtRest() })
	if v.sight.Held() == sight.HeldNothing {
		t.Error("nothing is held while the door is dragged")
	}
	v.DragEnd()
	if v.sight.Held() != sight.HeldNothing {
		t.Error("something is held once the door is let go")
	}
	b.Until("the drawing", func() bool { return v.AtRest() })
	after := v.places
	v.places = nil
	v.Redraw()
	b.Until("the drawing again", func() bool { return v.AtRest() && v.places != nil })
	if !reflect.DeepEqual(after, v.places) {
		t.Errorf("labels at %v, afresh at %v", after, v.places)
	}
}
