package control

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// A press on the rod, a drag along it and the arrows come to the steps in their order, and stop at its ends;
// what it stands at is told and named. Being brought to a step tells nobody.
func TestSteps(t *testing.T) {
	var told []int
	s := NewSteps(NewKeys(), "Built up to", []string{"bare", "base", "tile"}, func(at int) { told = append(told, at) })
	w := test.NewTempWindow(t, s)
	w.Resize(fyne.NewSize(400, 40))
	if s.Name() != "tile" || s.AccessibilityLabel() != "Built up to: tile" {
		t.Errorf("it begins at %q, called %q", s.Name(), s.AccessibilityLabel())
	}
	from, long := s.rod(s.Size().Width)
	at := func(share float32) fyne.PointEvent {
		return fyne.PointEvent{Position: fyne.NewPos(from+share*long, 10)}
	}
	s.MouseDown(&desktop.MouseEvent{PointEvent: at(0.1)})
	s.Dragged(&fyne.DragEvent{PointEvent: at(0.4)})
	s.Dragged(&fyne.DragEvent{PointEvent: at(0.6)}) // the same step
	s.Dragged(&fyne.DragEvent{PointEvent: at(3)})
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyLeft, fyne.KeyLeft, fyne.KeyLeft} {
		s.TypedKey(&fyne.KeyEvent{Name: k})
	}
	s.Set(2)
	want := []int{0, 1, 2, 1, 0}
	if len(told) != len(want) {
		t.Fatalf("told %v, want %v", told, want)
	}
	for i := range want {
		if told[i] != want[i] {
			t.Fatalf("told %v, want %v", told, want)
		}
	}
	if s.At() != 2 {
		t.Error("it is not where it was brought to")
	}
}

// A head leaves its title out where there is not room for it, never what is pressed.
func TestHeadLeavesTheTitleOut(t *testing.T) {
	test.NewTempApp(t)
	title, a, b := NewText("A long title"), NewPress(NewKeys(), "One", nil), NewPress(NewKeys(), "Two", nil)
	objects := []fyne.CanvasObject{title, a, b}
	h := Head{Gap: 6, Yield: 1}
	least := h.MinSize(objects)
	h.Layout(objects, least)
	if title.Visible() || a.Position().X != 0 || b.Position().X+b.Size().Width > least.Width {
		t.Error("at its least the title shows, or not all that is pressed does")
	}
	h.Layout(objects, least.AddWidthHeight(title.MinSize().Width+6, 0))
	if !title.Visible() {
		t.Error("there is room for the title")
	}
}
