package control_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
)

// The names of rods beside each other keep apart by more than the words of one do, or “room” and “water stop” read as one, at
// any width that all of them are shown at: “doorway” and “beyond” are wider than their rods. How far: common practice, no source.
func TestNamesOfRodsKeepApart(t *testing.T) {
	var r *control.Rods
	show(t, func(s *shown) fyne.CanvasObject { r = control.NewRods(s.keys, "Heights", nil); return r }, fyne.NewSize(500, 240))
	var set control.RodSet
	for _, name := range []string{"drain", "way in", "room", "doorway", "beyond"} {
		set.Rods = append(set.Rods, control.Rod{ID: name, Name: name, Level: "0"})
	}
	set.Worded = -1
	few := control.RodSet{Rods: set.Rods[:2], Worded: -1}
	r.Set(set, few)
	all := 0
	for width := float32(150); width < 500; width += 7 {
		r.Resize(fyne.NewSize(width, 200))
		var names []*canvas.Text
		for _, o := range test.WidgetRenderer(r).Objects() {
			if text, ok := o.(*canvas.Text); ok && text.Text != "0" && text.Text != "" {
				names = append(names, text)
			}
		}
		if len(names) == len(set.Rods) {
			all++
		}
		for i := 1; i < len(names); i++ {
			words := 2 * fyne.MeasureText(" ", names[i].TextSize, names[i].TextStyle).Width
			if ends := names[i-1].Position().X + names[i-1].MinSize().Width; ends+words > names[i].Position().X {
				t.Errorf("%v wide: “%s” ends at %v, “%s” begins at %v", width, names[i-1].Text, ends, names[i].Text, names[i].Position().X)
			}
		}
	}
	if all == 0 {
		t.Error("all of them are never shown")
	}
}
