package control_test

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"testing"
	"underfall/app/golden"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// heading is the title of a part of the page.
func heading(text string) fyne.CanvasObject {
	return control.NewText(text).Styled(theme.TextSecond, true, theme.Caption)
}

// called puts a word under a thing.
func called(o fyne.CanvasObject, text string, bold bool, r theme.Role) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedVBoxLayout(2), o, control.NewText(text).Styled(theme.TextCaption, bold, r))
}

func row(gap float32, objects ...fyne.CanvasObject) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedHBoxLayout(gap), objects...)
}

// fixed gives a thing a width.
func fixed(width float32, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(fixedWidth(width), o)
}

type fixedWidth float32

func (w fixedWidth) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(float32(w), o[0].MinSize().Height)
}

func (w fixedWidth) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

type fixedHeight float32

func (h fixedHeight) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[0].MinSize().Width, float32(h))
}

func (h fixedHeight) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// swatch is a piece of a material as drawings have it.
func swatch(s *shown, m material.Material) fyne.CanvasObject {
	r := canvas.NewRaster(func(w, h int) image.Image {
		img := image.NewRGBA(image.Rect(0, 0, w, h))
		v := paint.View{PixelsPerMM: 1, Width: w, Height: h, Centre: plan.Point{float64(w) / 2, float64(h) / 2}}
		paint.Areas(img, []section.Area{{Material: m, Cut: true, Region: plan.Rectangle(plan.Point{1, 1}, plan.Point{float64(w) - 1,
			float64(h) - 1})}}, v, s.theme.PaintStyle(float64(s.window.Canvas().Scale()), unit.Metric, ""))
		return img
	})
	r.SetMinSize(fyne.NewSize(76, 34))
	return r
}

// rods are the stacks of the worked set: all millimetres over the slab.
func rods(s *shown) *control.Rods {
	layers := func(former float64) []control.Layer {
		return []control.Layer{{ID: "bed", MM: 3, Material: material.Adhesive}, {ID: "board", Name: "board 60", MM: 60,
			Material: material.BaseBoard}, {ID: "bed2", MM: 4, Material: material.Adhesive},
			{ID: "board2", Name: "board 10", MM: 10, Material: material.BaseBoard}, {ID: "bed3", MM: 3, Material: material.Adhesive},
			{ID: "former", Name: fmt.Sprintf("sloped %g", former), MM: former, Material: material.FormerBody},
			{ID: "tanking", MM: 1, Material: material.Membrane}, {ID: "tilebed", MM: 3, Material: material.TileBed}, {ID: "tile",
				Name: "tile 9", MM: 9, Material: material.Tile}}
	}
	r := control.NewRods(s.keys, "Heights over the slab", func(rod, layer string) { s.did = append(s.did, rod+" "+layer) })
	room := []control.Layer{{ID: "tanking", MM: 1, Material: material.Membrane}, {ID: "tilebed", MM: 3, Material: material.TileBed},
		{ID: "tile", MM: 9, Material: material.Tile, Colour: color.RGBA{0xC7, 0xBB, 0xA8, 255}}}
	r.Set(control.RodSet{Rods: []control.Rod{{ID: "drain", Name: "drain", Level: "+113", Layers: layers(20)},
		{ID: "way in", Name: "way in", Level: "+129", Layers: layers(36)}, {ID: "room", Name: "room", Level: "+13", Layers: room}},
		Worded: 1, Steps: []control.Between{{High: 1, Low: 2, Word: "step", Figure: "116", Kind: theme.Step}}})
	return r
}

// page is all controls and marks on paper.
func page(s *shown) fyne.CanvasObject {
	var all []fyne.CanvasObject
	for _, part := range [][]fyne.CanvasObject{marksOnPage(), fieldsOnPage(s), buttonsOnPage(s),
		{heading("Rods"), container.New(fixedHeight(250), rods(s))}, toldOnPage(s)} {
		all = append(all, part...)
	}
	content := container.New(layout.NewCustomPaddedVBoxLayout(7), all...)
	return container.NewStack(canvas.NewRectangle(s.theme.Role(theme.Paper)), container.New(layout.NewCustomPaddedLayout(14, 14, 20,
		20), content))
}

// vial is one of a standing.
func vial(st geometry.Standing, width float64, word string) *control.Vial {
	v := control.NewVial(width)
	v.Set(st, word)
	return v
}

// marksOnPage are how things stand, and the other marks.
func marksOnPage() []fyne.CanvasObject {
	standings := []struct {
		s    geometry.Standing
		word string
	}{{geometry.Sound, "sound"}, {geometry.Tight, "tight"}, {geometry.Stops, "stops"}, {geometry.NotKnown, "not known"}}
	var vials []fyne.CanvasObject
	var small []fyne.CanvasObject
	for _, st := range standings {
		vials = append(vials, called(vial(st.s, control.VialPlate, st.word), st.word, true, theme.Ink))
		small = append(small, vial(st.s, control.VialRow, st.word))
	}
	sign := func(k theme.Kind, text, word string, r theme.Role) fyne.CanvasObject {
		return called(control.NewSign(theme.Mark{Kind: k, Text: text}, 0, word), word, r != theme.Ink || k == theme.Step, r)
	}
	vials = append(vials, called(vial("", control.VialCard, "note"), "note", true, theme.Ink),
		sign(theme.Licensed, "", "specialist", theme.Ink), container.New(layout.NewCustomPaddedVBoxLayout(3), small...))
	return []fyne.CanvasObject{
		control.NewText("Marks and controls").Styled(theme.TextHeadline, true, theme.Ink),
		heading("Standing of a job or a part: shape first, colour second"), row(14, vials...),
		heading("Height, step, lip, flush, cut, wall, corner, reading, handle"),
		row(16, sign(theme.Level, "+113", "height", theme.Ink), sign(theme.Step, "", "step 116", theme.Ink),
			sign(theme.Lip, "", "lip 17", theme.Tight), sign(theme.Flush, "", "flush", theme.Sound),
			sign(theme.Cut, "", "cut", theme.Ink), sign(theme.Wall, "B", "wall", theme.Ink), sign(theme.Corner, "BC", "corner", theme.Ink),
			sign(theme.Reading, "", "reading", theme.Ink), sign(theme.Handle, "", "handle", theme.Ink)),
	}
}

// fieldsOnPage are a field in its states, one that refuses and one that asks which reading is meant among them.
func fieldsOnPage(s *shown) []fyne.CanvasObject {
	field := func(v float64, k control.Known, change func(n *control.Number)) *control.Field {
		n := control.Number{Kind: unit.Length, Units: unit.Metric, Least: 300, Greatest: 2400, Step: 1}
		if change != nil {
			change(&n)
		}
		f := control.NewField(s.keys, n, control.FieldWords(unit.Length, func() unit.System { return unit.Metric }), control.Intents{})
		f.Set(control.Shown{Value: v, Known: k, Usual: math.NaN()})
		return f
	}
	below := func(text string) func(n *control.Number) { return func(n *control.Number) { n.Below = text } }
	refused := field(900, control.Given, nil)
	asks := field(900, control.Given, func(n *control.Number) { n.Least = 0 })
	s.after = append(s.after, func() {
		s.window.Canvas().Focus(refused.Entry())
		test.Type(refused.Entry(), "9999999")
		s.window.Canvas().Unfocus()
		s.window.Canvas().Focus(asks.Entry())
		test.Type(asks.Entry(), "1,200")
		s.window.Canvas().Unfocus()
	})
	return []fyne.CanvasObject{
		heading("A field in its states"),
		row(12, fixed(130, field(900, control.Given, below("at rest"))), fixed(130, refused),
			fixed(130, field(20, control.Held, below("held: nothing may move it"))),
			fixed(130, field(77, control.WorkedOut, below("worked out")))),
		row(12, fixed(130, field(215, control.Assumed, nil)), fixed(190, asks), fixed(130, field(math.NaN(), control.NotKnown, nil))),
	}
}

// buttonsOnPage are buttons, and what is chosen among several.
func buttonsOnPage(s *shown) []fyne.CanvasObject {
	press := func(text string) *control.Press { return control.NewPress(s.keys, text, func() {}) }
	chosen, off, undo, fit := press("At the cut"), press("Redo").WithIcon(theme.IconRedo), press("Undo").WithIcon(theme.IconUndo), press("Fit")
	chosen.Chosen = true
	off.Off, off.Bare = true, true
	undo.Bare = true
	fit.Key, fit.Small = "0", true
	return []fyne.CanvasObject{
		heading("Buttons"),
		row(8, control.NewFilled(s.keys, "Do it", func() {}), press("Try"), chosen, press("Parts").WithIcon(theme.IconShelf),
			press("Paper").WithIcon(theme.IconPaper), undo, off, fit),
		row(10, control.NewSign(theme.ChanceOf(96), 0, "96 in 100"), control.NewText("96 in 100").Styled(theme.TextSecond, true, theme.Ink)),
		row(16, control.NewChoice(s.keys, "Looking", []control.Option{{ID: "b", Text: "Build"}, {ID: "o", Text: "Options"}, {ID: "s",
			Text: "Show"}}, "b", nil),
			fixed(200, control.NewPick(s.keys, "Pipe", []control.Option{{ID: "50", Text: "50 plastic, push-fit"}}, "50", nil)),
			fixed(130, control.NewPick(s.keys, "Trap", nil, "", nil))),
		control.NewChoice(s.keys, "Floor", []control.Option{{ID: "c", Text: "Concrete", Picture: swatch(s, material.Concrete)},
			{ID: "t", Text: "Timber", Picture: swatch(s, material.Timber)},
			{ID: "n", Text: "Not known", Note: "worked out for both", Picture: swatch(s, material.Screed)},
			{ID: "x", Text: "Board", Picture: swatch(s, material.BaseBoard)}}, "c", nil),
	}
}

// toldOnPage are a plate, and what is told of a change: that something moved along, that it was refused.
func toldOnPage(s *shown) []fyne.CanvasObject {
	press := func(text string) *control.Press { return control.NewPress(s.keys, text, func() {}) }
	says := func(lead, text string) *control.Text {
		t := control.NewWrapped(text)
		t.Lead, t.TextSize = lead, theme.TextSecond
		return t
	}
	moved := says("Door now in wall D.", "Its 1500 from the corner became 1140: the wall is 1900.")
	tell := control.NewCard(container.NewBorder(nil, nil, nil, container.NewCenter(row(8, press("From corner CD"), press("Undo"))), moved))
	tell.Fill = theme.Sunk
	no := says("A shower 1524 wide does not fit between B and the door.", "There are 1500.")
	refuse := control.NewCard(container.NewBorder(nil, nil, container.NewPadded(vial(geometry.Stops, control.VialStation, "stops")),
		container.NewCenter(row(8, press("Make it 1500"), press("Move the door 24"))), no))
	refuse.Fill, refuse.Edge, refuse.EdgeWidth = theme.StopsGround, theme.Stops, theme.FocusWidth
	plate := control.NewCard(row(12, vial(geometry.Tight, control.VialPlate, "tight"), container.New(layout.NewCustomPaddedVBoxLayout(0),
		control.NewText("Can be built").Styled(theme.TextHeadline, true, theme.Ink),
		control.NewText("tight in two places, see below").Styled(theme.TextSecond, false, theme.Caption)))).Standing(theme.Tight)
	return []fyne.CanvasObject{heading("A plate"), plate, heading("Something else moved"), tell,
		heading("Refused, stays until dealt with"), refuse}
}

// The controls as they look, in light and dark, at one and two pixels to a unit.
func TestPageAsSeen(t *testing.T) {
	for _, dark := range []bool{false, true} {
		for _, scale := range []float32{1, 2} {
			s := show(t, func(s *shown) fyne.CanvasObject { s.theme.SetDark(dark); return page(s) }, fyne.NewSize(640, 1260))
			s.window.Canvas().(interface{ SetScale(float32) }).SetScale(scale)
			for _, f := range s.after {
				f()
			}
			s.settle(fyne.NewSize(640, 1260))
			name := fmt.Sprintf("page-%s-%g", map[bool]string{true: "dark", false: "light"}[dark], scale)
			golden.Check(t, name, s.window.Canvas().Capture())
		}
	}
}

// settle lays the window out again: what wraps knows how high it is once it knows how wide.
func (s *shown) settle(size fyne.Size) {
	for range 3 {
		s.window.Content().Refresh()
		s.window.Resize(size.AddWidthHeight(1, 0))
		s.window.Resize(size)
	}
	s.window.Content().Refresh()
}
