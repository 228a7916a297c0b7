package drawing

import (
	"time"

	"bytes"
	"image"
	"reflect"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/geometry/edit"
	"underfall/geometry/section"
)

// beside is another drawing of the same job, in a window of its own.
func (b *bench) beside(t *testing.T, kind still.Kind) *View {
	t.Helper()
	v := New(kind, b.Desk, control.NewKeys(), b.sight, b.Theme, b.Painter())
	window := test.NewTempWindow(t, v)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(700, 300))
	b.Desk.Subscribe(func(c desk.Change) { v.SetResult(c.Result, false) })
	b.Until("the drawing", func() bool { return len(v.drawing.Areas) > 0 && v.AtRest() })
	return v
}

// While the front of the shower is dragged in the plan, step after step, the plan is drawn of each; the section, which only
// follows, may leave some out, but shows the last as soon as the hand rests, and let go is as it would be drawn afresh.
func TestWhatIsHeldIsDrawnOfEachStep(t *testing.T) {
	shift := true // falls into no places
	v, b := startingPlan(t, &shift)
	s := b.beside(t, still.Section)
	front := edit.Handle{Kind: edit.HandleDepth}
	grip, _ := v.handleAt(front)
	at := v.toWindow(grip)
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	for step := range 12 {
		edits, plans := b.Change.Edits, v.drawn
		at = at.AddXY(0, -3)
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: fyne.NewDelta(0, -3)})
		b.Until("the plan of a step", func() bool { return b.Change.Edits > edits && v.drawn > plans && v.AtRest() })
		now := section.PlanOf(b.Change.Result)
		if !reflect.DeepEqual(v.drawing.Areas, now.Areas) || !reflect.DeepEqual(v.drawing.Handles, now.Handles) {
			t.Fatalf("step %d: the plan is not of the result", step)
		}
	}
	if b.sight.Held() != sight.HeldThing {
		t.Fatal("nothing is held")
	}
	shows := func() bool {
		return s.AtRest() && reflect.DeepEqual(s.drawing.Areas, b.sight.Section(b.Change.Result).Areas)
	}
	b.Until("the section of the last step", shows)
	v.MouseUp(&desktop.MouseEvent{})
	v.DragEnd()
	b.Until("the section once it is let go", func() bool { return shows() && v.AtRest() })
	shown := s.picture.Image.(*image.RGBA).Pix
	s.places = nil
	s.Redraw()
	b.Until("the section afresh", func() bool { return s.AtRest() && s.places != nil })
	if !bytes.Equal(shown, s.picture.Image.(*image.RGBA).Pix) {
		t.Error("let go the section is not as it is drawn afresh")
	}
}

// What is to be drawn after a while is not at rest until it is, and is drawn at once where it is asked for before.
func TestDrawnAfterAWhile(t *testing.T) {
	v, b := at(t, still.Section, fyne.NewSize(600, 300))
	const wait = 50 * time.Millisecond
	drawn := v.drawn
	began := time.Now()
	v.SetResultIn(wait, b.Change.Result)
	if v.AtRest() || !v.Behind() {
		t.Fatal("nothing waits to be drawn")
	}
	b.Until("the drawing", func() bool { return v.drawn > drawn && v.AtRest() })
	if took := time.Since(began); took < wait {
		t.Errorf("drawn after %v", took)
	}
	const never = time.Hour
	drawn = v.drawn
	v.SetResultIn(never, b.Change.Result)
	v.Redraw()
	b.Until("the drawing that is asked for", func() bool { return v.drawn > drawn && v.AtRest() })
}

// Where there is no picture the drawing has a ground, as what it stands on is not painted under it; with one it has none.
func TestGroundOfNoPicture(t *testing.T) {
	v, _ := at(t, still.Plan, fyne.NewSize(600, 300))
	if v.ground.Visible() {
		t.Error("the ground is painted under the picture")
	}
	v.Blank()
	if !v.ground.Visible() || v.ground.Size() != v.Size() {
		t.Error("nothing stands where the picture was")
	}
}
