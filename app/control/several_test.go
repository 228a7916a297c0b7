package control_test

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
)

// As many as find room can be pressed at once, in their order; the others are in the list, which is there
// only where it is needed. One that is held down can be pressed again.
func TestSeveral(t *testing.T) {
	test.NewTempApp(t)
	var pressed []string
	s := control.NewSeveral(control.NewKeys(), "More", func(id string) { pressed = append(pressed, id) })
	options := []control.Option{{ID: "1", Text: "Across the way in"}, {ID: "2", Text: "Across the door"}, {ID: "3", Text: "Along the pipe"}}
	s.Set(options, 0, "2")
	w := test.NewTempWindow(t, s)
	w.SetPadded(false)
	shown := 4
	for _, wide := range []float32{900, 400, 300, 150, 90} {
		w.Resize(fyne.NewSize(wide, 50))
		ids := s.Shown()
		if len(ids) > shown || !slices.Equal(ids, []string{"1", "2", "3"}[:len(ids)]) {
			t.Errorf("%v wide: %v can be pressed", wide, ids)
		}
		shown = len(ids)
		for _, o := range s.Inside() {
			if o.Visible() && o.Position().X+o.Size().Width > wide+0.5 {
				t.Errorf("%v wide: %T ends at %v", wide, o, o.Position().X+o.Size().Width)
			}
		}
		more := s.Inside()[3].Visible()
		if more != (len(ids) < 3) {
			t.Errorf("%v wide: %v can be pressed, the list shows: %v", wide, ids, more)
		}
	}
	if shown != 0 {
		t.Errorf("in 90 units %d are shown", shown)
	}
	w.Resize(fyne.NewSize(900, 50))
	s.Inside()[1].(*control.Press).Tapped(nil)
	s.Set(options, 1, "2")
	if more := s.Inside()[2]; !more.Visible() || len(s.Shown()) != 2 {
		t.Errorf("one that is listed alone is shown: %v", s.Shown())
	}
	list := s.Inside()[2].(*control.Pick)
	for range 2 {
		list.Open()
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	if !slices.Equal(pressed, []string{"2", "3", "3"}) {
		t.Errorf("pressed %v", pressed)
	}
}

// Called otherwise, with more to say, they stand beside each other as they are called then, and none runs into the list.
func TestSeveralCalledOtherwise(t *testing.T) {
	test.NewTempApp(t)
	s := control.NewSeveral(control.NewKeys(), "More", nil)
	s.Set([]control.Option{{ID: "1", Text: "In"}, {ID: "2", Text: "Door"}, {ID: "3", Text: "Pipe"}}, 1, "")
	w := test.NewTempWindow(t, s)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(430, 50))
	s.Set([]control.Option{{ID: "1", Text: "Across the way in"}, {ID: "2", Text: "Across doorway 1"}, {ID: "3", Text: "Along the pipe"}}, 1, "")
	end := float32(0)
	for i, o := range s.Inside() {
		if !o.Visible() {
			continue
		}
		if o.Position().X < end {
			t.Errorf("the one of index %d begins at %v, the one before ends at %v", i, o.Position().X, end)
		}
		if p, ok := o.(*control.Press); ok && p.Size().Width < p.MinSize().Width {
			t.Errorf("%q is %v wide and needs %v", p.Text, p.Size().Width, p.MinSize().Width)
		}
		end = o.Position().X + o.Size().Width
	}
}
