package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/viewer"
)

// viewNames are the ready-made views in the words of the window.
func viewNames() (views []viewer.View, names []string) {
	for _, v := range []struct {
		view viewer.View
		name string
	}{{viewer.ViewCorner, "Room"}, {viewer.ViewCut, "Cut view"}, {viewer.ViewPlan, "From above"}, {viewer.ViewFront, "From the front"},
		{viewer.ViewStanding, "Standing in it"}, {viewer.ViewDoorway, "From the door"}} {
		views, names = append(views, v.view), append(names, text(v.name))
	}
	return views, names
}

// viewChoice goes to a ready-made view.
func (w *mainWindow) viewChoice() *widget.Select {
	views, names := viewNames()
	s := widget.NewSelect(names, nil)
	s.PlaceHolder = text("View")
	s.OnChanged = func(string) {
		if i := s.SelectedIndex(); i >= 0 {
			w.view.view(views[i])
			w.log("view %s", views[i])
			s.ClearSelected()
			w.release()
		}
	}
	return s
}

// viewOptions opens what else can be set about the picture.
func (w *mainWindow) viewOptions(b *widget.Button) *widget.Button {
	check := func(label string, on func(*scope) *bool) *widget.Check {
		c := widget.NewCheck(text(label), nil)
		c.SetChecked(*on(w.scope))
		c.OnChanged = func(v bool) { w.scope.change(func(s *scope) { *on(s) = v }) }
		return c
	}
	b.OnTapped = func() {
		lights := widget.NewRadioGroup([]string{text("Daylight"), text("Evening light")}, nil)
		lights.Horizontal = true
		lights.SetSelected(lights.Options[w.scope.light])
		lights.OnChanged = func(string) {
			w.scope.change(func(s *scope) {
				s.light = viewer.LightDay
				if lights.Selected == lights.Options[1] {
					s.light = viewer.LightEvening
				}
			})
		}
		apart := widget.NewSlider(0, 1)
		apart.Step = 0.02
		apart.SetValue(w.scope.apart)
		apart.OnChanged = func(v float64) { w.scope.change(func(s *scope) { s.apart = v }) }
		popup := widget.NewPopUp(container.NewVBox(lights,
			check("Wet floor", func(s *scope) *bool { return &s.wet }),
			check("Dimensions at the cut", func(s *scope) *bool { return &s.dimensions }),
			check("Smooth motion", func(s *scope) *bool { return &s.motion }),
			widget.NewLabel(text("Layers drawn apart")), apart), w.window.Canvas())
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(b)
		popup.ShowAtPosition(at.AddXY(0, b.Size().Height+4))
	}
	return b
}

// editPart opens the field a part comes from.
func (w *mainWindow) editPart(id string) {
	for _, p := range w.change.Result.Assembly.Parts {
		if p.ID != id {
			continue
		}
		w.log("edit %s", p.From)
		if o, focus := w.inputs.reveal(p.From); o != nil {
			w.left.ScrollToOffset(fyne.NewPos(0, max(0, w.inputs.top(o)-40)))
			if focus != nil {
				w.window.Canvas().Focus(focus)
			}
		}
	}
}
