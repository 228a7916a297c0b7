package drawing

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/paint"
	"underfall/app/still"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
)

// deeper makes the room so long that a plan of it is of another scale.
func deeper() edit.Edit {
	return edit.Of(message.Of("edit.pipe"), func(j *job.Job) {
		for i := range j.Room.Outline {
			if j.Room.Outline[i][1] > 1000 {
				j.Room.Outline[i][1] += 1500
			}
		}
	})
}

// viewOf is what a drawing shows once it is at rest.
func viewOf(b *bench, v *View) paint.View {
	b.Until("the drawing at rest", func() bool { return v.AtRest() && len(b.Queue) == 0 })
	return v.view
}

// How a drawing lies in its place follows from the job, the cut and the place, whatever was shown
// before and whenever it came.
func TestADrawingIsFittedToWhatItShows(t *testing.T) {
	size, other := fyne.NewSize(700, 330), fyne.NewSize(420, 500)
	for _, kind := range []still.Kind{still.Plan, still.Section, still.Long, still.Bed} {
		v, b := at(t, kind, size)
		first := viewOf(b, v)
		b.Desk.Do(deeper())
		b.Until("the deeper room", func() bool { return !b.Change.Undo.IsZero() })
		b.sight.CutThere(section.Cutting{Of: section.CutPipe})
		want := viewOf(b, v)
		if kind == still.Plan && want.PixelsPerMM >= first.PixelsPerMM {
			t.Errorf("drawing %d of a deeper room is as large", kind)
		}
		window := fyne.CurrentApp().Driver().AllWindows()[0]
		window.Resize(other)
		window.Resize(size)
		if got := viewOf(b, v); got != want {
			t.Errorf("drawing %d made small and large again lies at %v, before at %v", kind, got, want)
		}
		b.Desk.Undo()
		b.sight.CutThere(section.Cutting{Of: section.CutDrain})
		b.Until("the room as it was", func() bool { return b.Change.Undo.IsZero() })
		if got := viewOf(b, v); got != first {
			t.Errorf("drawing %d of the room as it was lies at %v, first at %v", kind, got, first)
		}
	}
}

// What is held stays under the pointer, and what was panned or zoomed by hand stays as it is.
func TestADrawingThatIsHeldOrTouchedIsNotFitted(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(700, 330))
	before := viewOf(b, v)
	for _, h := range v.drawing.Handles {
		if h.Moves.Kind == edit.HandleDepth {
			v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: v.toWindow(h.At)}, Button: desktop.MouseButtonPrimary})
		}
	}
	b.Desk.Do(deeper())
	b.Until("the deeper room", func() bool { return !b.Change.Undo.IsZero() })
	if got := viewOf(b, v); got != before {
		t.Errorf("with a handle held it lies at %v, before at %v", got, before)
	}
	v.MouseUp(nil)
	fitted := viewOf(b, v)
	if fitted == before {
		t.Error("let go it is not fitted again")
	}
	v.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, 100)}, Scrolled: fyne.NewDelta(0, 40)})
	zoomed := viewOf(b, v)
	b.Desk.Undo()
	b.Until("the room as it was", func() bool { return b.Change.Undo.IsZero() })
	if got := viewOf(b, v); got != zoomed || got == fitted {
		t.Errorf("zoomed it lies at %v, then at %v", zoomed, got)
	}
	v.Fit()
	if got := viewOf(b, v); got != before {
		t.Errorf("fitted again it lies at %v, want %v", got, before)
	}
}
