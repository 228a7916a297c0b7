package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// While something of the job is held nothing is counted or tried beside it; let go, that begins.
func TestADragIsNotCountedBeside(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	resting := func() bool {
		for _, f := range w.followers {
			if !f.resting() {
				return false
			}
		}
		return true
	}
	until(t, "the plan at rest", func() bool { return resting() && w.answer.Chances() != nil && w.plan.AtRest() })
	down := func(at fyne.Position) {
		w.plan.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	}
	at := handleIn(w.plan.Size(), func(p fyne.Position) bool { down(p); defer w.plan.MouseUp(nil); return w.plan.Holds() })
	settle(t)
	until(t, "the plan at rest", resting)
	down(at)
	before := w.change.Edits
	for range 3 {
		at = at.AddXY(3, 3)
		w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: fyne.NewDelta(3, 3)})
		edits := before
		until(t, "a result of the drag", func() bool { return w.change.Edits > edits })
		before = w.change.Edits
		w.showPanels()
		if !resting() {
			t.Fatal("something is worked out beside the drag")
		}
	}
	w.plan.DragEnd()
	settle(t)
	until(t, "what follows once it is let go", func() bool { return !resting() })
}

// handleIn is a place of a drawing of a size where something is held.
func handleIn(size fyne.Size, holds func(fyne.Position) bool) fyne.Position {
	const step = 5
	for y := float32(0); y < size.Height; y += step {
		for x := float32(0); x < size.Width; x += step {
			if at := fyne.NewPos(x, y); holds(at) {
				return at
			}
		}
	}
	panic("nothing can be dragged")
}
