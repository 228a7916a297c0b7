package control_test

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/theme"
)

// No word of a step stands on an arrow, its own or another's, however high the steps are and however much room there is.
func TestWordsOfStepsStandOnNoArrow(t *testing.T) {
	var r *control.Rods
	show(t, func(s *shown) fyne.CanvasObject { r = control.NewRods(s.keys, "Heights", nil); return r }, fyne.NewSize(500, 240))
	rod := func(name string, mm float64) control.Rod {
		return control.Rod{ID: name, Name: name, Level: "+18", Layers: []control.Layer{{ID: name, Name: "Board below 80", MM: mm}}}
	}
	for _, worded := range []int{-1, 0, 1, 2, 3} {
		for _, lip := range []float64{5, 15, 30, 60} {
			for _, room := range []float64{10, 60, 110} {
				set := control.RodSet{Worded: worded, Rods: []control.Rod{rod("drain", 100), rod("way in", 120), rod("room", room), rod("doorway", room+lip)}}
				set.Steps = []control.Between{{High: 1, Low: 2, Word: "step", Figure: "44", Kind: theme.Step}, {High: 3, Low: 2, Word: "lip", Figure: "5", Kind: theme.Lip}}
				r.Set(set)
				for _, high := range []float32{130, 180, 240, 400} {
					for width := float32(220); width < 460; width += 30 {
						r.Resize(fyne.NewSize(width, high))
						objects := test.WidgetRenderer(r).Objects()
						blocks := objects[0].(*canvas.Raster)
						img := blocks.Generator(int(blocks.Size().Width), int(blocks.Size().Height))
						for _, o := range objects[1:] {
							if text := o.(*canvas.Text); text.Text == "lip" || text.Text == "step" {
								if n := inkUnder(img, text); n > 0 {
									t.Errorf("%v × %v, a lip of %v over %v: %d pixels of an arrow under “%s”", width, high, lip, room, n, text.Text)
								}
							}
						}
					}
				}
			}
		}
	}
}

// inkUnder counts what is drawn under the letters of a text.
func inkUnder(img image.Image, text *canvas.Text) (n int) {
	at, size := text.Position(), text.MinSize()
	const aside, share = 1, 0.25 // what a text's box has round its letters
	for y := int(at.Y + size.Height*share); y < int(at.Y+size.Height*(1-share)); y++ {
		for x := int(at.X) + aside; x < int(at.X+size.Width)-aside; x++ {
			if _, _, _, a := img.At(x, y).RGBA(); a > 0 {
				n++
			}
		}
	}
	return n
}

// A floor of which nothing is known but how high it lies has a line there, under its figure.
func TestABareFloorHasItsLine(t *testing.T) {
	var r *control.Rods
	show(t, func(s *shown) fyne.CanvasObject { r = control.NewRods(s.keys, "Heights", nil); return r }, fyne.NewSize(300, 240))
	r.Set(control.RodSet{Worded: -1, Rods: []control.Rod{
		{ID: "room", Name: "room", Level: "+100", Layers: []control.Layer{{ID: "tile", MM: 100}}},
		{ID: "beyond", Name: "beyond", Level: "+50", FromMM: 50},
	}})
	r.Resize(fyne.NewSize(300, 240))
	objects := test.WidgetRenderer(r).Objects()
	img := objects[0].(*canvas.Raster).Generator(300, 240)
	for _, o := range objects[1:] {
		text := o.(*canvas.Text)
		if text.Text != "+50" {
			continue
		}
		x := int(text.Position().X + text.MinSize().Width/2)
		inked := 0
		for y := int(text.Position().Y); y < int(text.Position().Y+2*text.MinSize().Height); y++ {
			if _, _, _, a := img.At(x, y).RGBA(); a > 0 {
				inked++
			}
		}
		if inked < 1 || inked > 3 {
			t.Errorf("%d pixels of a line under “+50”", inked)
		}
		return
	}
	t.Error("“+50” is not written")
}
