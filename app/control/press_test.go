package control_test

import (
	"fmt"
	"image"
	"strings"
	"testing"
	"time"
	"underfall/app/golden"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/material"
)

// A button is pressed by the mouse, by Space and by Enter; other keys and the window's shortcuts
// are handed on; off, it does nothing.
func TestPress(t *testing.T) {
	n := 0
	var p *control.Press
	s := show(t, func(s *shown) fyne.CanvasObject {
		p = control.NewPress(s.keys, "Parts", func() { n++ })
		return container.NewStack(container.NewCenter(p), s.keys.Hints)
	}, fyne.NewSize(200, 100))
	saved := false
	s.keys.Shortcuts["save"] = func() { saved = true }
	test.Tap(p)
	s.window.Canvas().Focus(p)
	s.key(fyne.KeySpace, fyne.KeyReturn, fyne.Key1, fyne.KeyEscape)
	p.TypedShortcut(saving{})
	if n != 3 || len(s.passed) != 2 || !saved {
		t.Errorf("pressed %d times, handed on %v, saved %v", n, s.passed, saved)
	}
	p.Set("Parts", true)
	test.Tap(p)
	s.key(fyne.KeySpace)
	if n != 3 {
		t.Error("off, it does something")
	}
	if p.AccessibilityLabel() != "Parts" || p.AccessibilityRole() != fyne.AccessibleRoleButton {
		t.Errorf("heard as %q", p.AccessibilityLabel())
	}
}

// The focus can be seen: a ring of the press colour round the button.
func TestFocusIsSeen(t *testing.T) {
	var p *control.Press
	s := show(t, func(s *shown) fyne.CanvasObject {
		p = control.NewPress(s.keys, "Parts", func() {})
		return container.NewCenter(p)
	}, fyne.NewSize(200, 100))
	ringed := func() int {
		img, n := s.window.Canvas().Capture(), 0
		for y := range 100 {
			for x := range 200 {
				if at(img, x, y) == theme.Press.In(false) {
					n++
				}
			}
		}
		return n
	}
	if n := ringed(); n != 0 {
		t.Errorf("%d pixels of a ring without the focus", n)
	}
	s.window.Canvas().Focus(p)
	if n := ringed(); n < 200 {
		t.Errorf("%d pixels of a ring with the focus", n)
	}
}

// Sizes to press: 36, 32 small, and 44 at least with Large; words a third longer widen the
// button, or go into a second line.
func TestPressSizes(t *testing.T) {
	var p, small, long *control.Press
	var large *container.ThemeOverride
	german := "Durchgangshöhe an der Tür mit der Latte nachmessen und eintragen"
	s := show(t, func(s *shown) fyne.CanvasObject {
		p, small, long = control.NewPress(s.keys, "Parts", nil), control.NewPress(s.keys, "Fit", nil), control.NewPress(s.keys, german, nil)
		small.Small = true
		return container.NewVBox(p, small, long)
	}, fyne.NewSize(400, 300))
	_ = s
	if p.MinSize().Height != 36 || small.MinSize().Height != 32 {
		t.Errorf("%v and %v high", p.MinSize().Height, small.MinSize().Height)
	}
	says(t, s, long, german)
	if size := long.MinSize(); size.Width > 340 || size.Height < 40 {
		t.Errorf("a long text makes it %v", size)
	}
	gloves := control.NewPress(s.keys, "Parts", nil)
	fixed := control.NewField(s.keys, control.Number{}, sayings(), control.Intents{})
	large = container.NewThemeOverride(container.NewVBox(gloves, fixed), s.theme.Times(theme.Large))
	s.window.SetContent(large)
	if gloves.MinSize().Height < 44 || fixed.MinSize().Height < 44 {
		t.Errorf("for gloves it is %v and %v high", gloves.MinSize().Height, fixed.MinSize().Height)
	}
}

// What a thing is for is said when the pointer has rested on it, and on Shift-F1; not when the
// pointer went on before.
func TestHints(t *testing.T) {
	var p *control.Press
	s := show(t, func(s *shown) fyne.CanvasObject {
		p = control.NewPress(s.keys, "", nil)
		p.Hint = func() string { return "Undo: way out 48" }
		return container.NewStack(container.NewVBox(p), s.keys.Hints)
	}, fyne.NewSize(300, 100))
	c := s.window.Canvas()
	test.MoveMouse(c, fyne.NewPos(10, 10))
	test.MoveMouse(c, fyne.NewPos(10, 90))
	if s.later[0] != nil {
		t.Error("a hint is still to come when the pointer has left")
	}
	test.MoveMouse(c, fyne.NewPos(10, 10))
	if s.keys.Hints.Shown() != "" {
		t.Error("a hint at once")
	}
	s.later[1]()
	says(t, s, s.keys.Hints, "Undo: way out 48")
	test.MoveMouse(c, fyne.NewPos(10, 90))
	if s.keys.Hints.Shown() != "" {
		t.Error("the hint stays when the pointer has left")
	}
	c.Focus(p)
	shift := false
	s.keys.Shift = func() bool { return shift }
	s.key(fyne.KeyF1)
	if s.keys.Hints.Shown() != "" || len(s.passed) != 1 {
		t.Errorf("F1 alone says %q", s.keys.Hints.Shown())
	}
	shift = true
	s.key(fyne.KeyF1)
	if s.keys.Hints.Shown() != "Undo: way out 48" {
		t.Errorf("Shift-F1 says %q", s.keys.Hints.Shown())
	}
	c.Unfocus()
	if s.keys.Hints.Shown() != "" {
		t.Error("the hint stays when the focus has left")
	}
	// The layer takes nothing from what lies under it.
	test.TapCanvas(c, fyne.NewPos(10, 10))
	if theme.HintTime != 400*time.Millisecond {
		t.Errorf("it takes %v", theme.HintTime)
	}
}

// Options are chosen by a press, by the arrows and passed over where they are off.
func TestChoice(t *testing.T) {
	var c *control.Choice
	options := []control.Option{{ID: "c", Text: "Concrete"}, {ID: "t", Text: "Timber", Off: true}, {ID: "n", Text: "Not known"}}
	s := show(t, func(s *shown) fyne.CanvasObject {
		c = control.NewChoice(s.keys, "Floor below", options, "c", func(id string) { s.did = append(s.did, id) })
		return container.NewVBox(c)
	}, fyne.NewSize(320, 60))
	s.window.Canvas().Focus(c)
	s.key(fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft, fyne.KeyUp)
	if fmt.Sprint(s.did) != "[n c]" || len(s.passed) != 1 {
		t.Errorf("chosen %v, handed on %v", s.did, s.passed)
	}
	test.TapCanvas(s.window.Canvas(), fyne.NewPos(300, 18))
	test.TapCanvas(s.window.Canvas(), fyne.NewPos(160, 18))
	if c.Chosen() != "n" || len(s.did) != 3 {
		t.Errorf("pressed: %v", s.did)
	}
	if c.AccessibilityLabel() != "Floor below: Not known" {
		t.Errorf("heard as %q", c.AccessibilityLabel())
	}
	// In columns the arrows go up and down as well.
	c.Columns = 2
	options[1].Off = false
	c.Set(append(options, control.Option{ID: "x", Text: "Screed"}), "c")
	s.key(fyne.KeyDown, fyne.KeyRight, fyne.KeyUp)
	if c.Chosen() != "t" {
		t.Errorf("down, right, up from the first: %v", c.Chosen())
	}
}

// A pick opens its list over the window, is worked by keys, and gets the focus back.
func TestPick(t *testing.T) {
	var p *control.Pick
	var options []control.Option
	for i := range 30 {
		options = append(options, control.Option{ID: fmt.Sprint(i), Text: fmt.Sprintf("Pipe %d", 30+i)})
	}
	options[4].Text = "Cast iron"
	s := show(t, func(s *shown) fyne.CanvasObject {
		p = control.NewPick(s.keys, "Pipe", options, "2", func(id string) { s.did = append(s.did, id) })
		return container.NewVBox(p)
	}, fyne.NewSize(240, 300))
	c := s.window.Canvas()
	c.Focus(p)
	s.key(fyne.KeyEscape)
	if len(s.passed) != 1 {
		t.Errorf("Escape without a list is handed on: %v", s.passed)
	}
	s.key(fyne.KeySpace)
	if len(c.Overlays().List()) != 1 {
		t.Fatal("no list opens")
	}
	s.key(fyne.KeyDown, fyne.KeyReturn)
	if fmt.Sprint(s.did) != "[3]" || len(c.Overlays().List()) != 0 || c.Focused() != p {
		t.Errorf("chosen %v, focus on %T", s.did, c.Focused())
	}
	s.key(fyne.KeyDown, fyne.KeyEnd, fyne.KeyEscape)
	if len(s.did) != 1 || c.Focused() != p || p.Chosen() != "3" {
		t.Errorf("Escape chooses %v, focus on %T", s.did, c.Focused())
	}
	// What begins with a letter.
	p.TypedRune('c')
	s.key(fyne.KeyReturn)
	if p.Chosen() != "4" {
		t.Errorf("typing c chooses %s", p.Chosen())
	}
	// By the mouse, also beside the list.
	test.TapCanvas(c, fyne.NewPos(20, 18))
	test.TapCanvas(c, fyne.NewPos(230, 20))
	if len(c.Overlays().List()) != 0 || p.Chosen() != "4" {
		t.Error("a press beside the list does not close it alone")
	}
	says(t, s, p, "Cast iron")
	p.Open()
	s.key(fyne.KeyEnd)
	says(t, s, c.Overlays().Top(), "Pipe 59")
	golden.Check(t, "pick-open", c.Capture())
	s.key(fyne.KeyReturn)
	if p.Chosen() != "29" {
		t.Errorf("the end is %s", p.Chosen())
	}
}

// The wheel moves a scroller, over a field as well; at the end it moves what that stands in.
// A drag moves it from six units on.
func TestScroller(t *testing.T) {
	var outer, inner *control.Scroller
	var f *control.Field
	s := show(t, func(s *shown) fyne.CanvasObject {
		tall := func(high float32) fyne.CanvasObject { return container.New(fixedHeight(high), control.NewText("")) }
		f = control.NewField(s.keys, control.Number{Label: "Deep"}, sayings(), control.Intents{})
		inner = control.NewScroller(container.NewVBox(f, tall(200)))
		outer = control.NewScroller(container.NewVBox(container.New(fixedHeight(100), inner), tall(300)))
		inner.In(outer)
		return outer
	}, fyne.NewSize(200, 200))
	c := s.window.Canvas()
	wheel := func(y, by float32) {
		e := &fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, by)}
		e.AbsolutePosition = fyne.NewPos(30, y)
		control.ScrollableAt(c, e.AbsolutePosition).Scrolled(e)
	}
	wheel(30, -50) // over the field
	if inner.Offset() != 50 || outer.Offset() != 0 {
		t.Errorf("the inner one is at %v, the outer at %v", inner.Offset(), outer.Offset())
	}
	wheel(30, -1000)
	end := inner.Offset()
	wheel(30, -40)
	if inner.Offset() != end || outer.Offset() != 40 {
		t.Errorf("at the end: %v and %v", inner.Offset(), outer.Offset())
	}
	wheel(180, -10)
	if outer.Offset() != 50 {
		t.Errorf("beside the inner one: %v", outer.Offset())
	}
	drag := func(by float32) {
		outer.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(0, by)})
	}
	drag(-5)
	if outer.Offset() != 50 {
		t.Error("a press that trembles moves it")
	}
	drag(-5)
	if outer.Offset() != 60 {
		t.Errorf("dragged by ten it is at %v", outer.Offset())
	}
	outer.DragEnd()
	drag(3)
	outer.DragEnd()
	if outer.Offset() != 60 {
		t.Error("a short drag back moves it")
	}
	outer.ScrollTo(0)
	inner.ScrollTo(100)
	inner.Reveal(f)
	if inner.Offset() > 1 {
		t.Errorf("the field is not brought into sight: %v", inner.Offset())
	}
}

// A vial glides to its new place and says how it stands.
func TestVial(t *testing.T) {
	var v *control.Vial
	s := show(t, func(*shown) fyne.CanvasObject {
		v = control.NewVial(control.VialCard)
		return container.NewCenter(v)
	}, fyne.NewSize(100, 60))
	v.Set(geometry.Sound, "sound")
	v.Set(geometry.Stops, "stops")
	if v.Standing() != geometry.Stops || v.AccessibilityLabel() != "stops" {
		t.Errorf("%v, %q", v.Standing(), v.AccessibilityLabel())
	}
	s.theme.SetStill(true)
	if s.theme.Moves() {
		t.Error("it moves where nothing is to")
	}
	v.Set(geometry.Sound, "sound")
	img := s.window.Canvas().Capture()
	if c := at(img, 50, 30); c != theme.Sheet.In(false) {
		t.Errorf("where the bubble is to be there is %v", c)
	}
}

// Rods stand to one scale: 129, 113 and 13 over one base, to a pixel and a half.
func TestRodsStandToScale(t *testing.T) {
	var r *control.Rods
	s := show(t, func(s *shown) fyne.CanvasObject { r = rods(s); return r }, fyne.NewSize(280, 300))
	img := s.window.Canvas().Capture()
	base := lowest(img, 4) // the line they stand on
	scale := float64(base-24) / 129
	for x, mm := range map[int]float64{control.MiddleOf(r, 0): 113, control.MiddleOf(r, 1): 129, control.MiddleOf(r, 2): 13} {
		// The first pixel of ink from above, under the figure.
		top := base
		for y := base - 2; y > 0 && at(img, x, y) != theme.Paper.In(false); y-- {
			top = y
		}
		if want := float64(base) - mm*scale; float64(top) < want-3.5 || float64(top) > want+3.5 {
			t.Errorf("a rod of %v mm stands up to %d, want %.0f", mm, top, want)
		}
	}
	says(t, s, r, "+113", "+129", "+13", "drain", "way in", "room", "step", "116", "board 60", "sloped 36")
	if got := r.AccessibilityLabel(); !strings.HasPrefix(got,
		"Heights over the slab; drain +113; way in +129: ") || !strings.HasSuffix(got, "; room +13; step 116") {
		t.Errorf("heard as %q", got)
	}
}

// lowest is the lowest pixel of a column that is not paper.
func lowest(img image.Image, x int) int {
	for y := img.Bounds().Dy() - 1; y > 0; y-- {
		if at(img, x, y) != theme.Paper.In(false) {
			return y
		}
	}
	return 0
}

// A press on a block, and the arrows with Enter, select its layer; thin ones can be hit.
func TestRodsArePressed(t *testing.T) {
	var r *control.Rods
	s := show(t, func(s *shown) fyne.CanvasObject { r = rods(s); return r }, fyne.NewSize(280, 300))
	c := s.window.Canvas()
	test.TapCanvas(c, fyne.NewPos(float32(control.MiddleOf(r, 1)), 200))
	test.TapCanvas(c, fyne.NewPos(270, 150))
	s.key(fyne.KeyUp, fyne.KeyReturn, fyne.KeyLeft, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn, fyne.KeyEscape)
	if got := strings.Join(s.did, ", "); got != "way in board, way in bed2, drain bed" {
		t.Errorf("selected %s", got)
	}
	if len(s.passed) != 1 {
		t.Errorf("handed on %v", s.passed)
	}
	r.Choose("board")
	s.theme.SetDark(true)
	r.Set()
	r.Refresh()
	if r.MinSize().Width <= 0 {
		t.Error("no rods have no room")
	}
}

// Rods in little room: they come closer, then lose their names; figures stay within.
func TestRodsInLittleRoom(t *testing.T) {
	for _, width := range []float32{300, 240, 200, 170} {
		var r *control.Rods
		s := show(t, func(s *shown) fyne.CanvasObject { r = rods(s); return r }, fyne.NewSize(width, 220))
		says(t, s, r, "+113", "+129", "+13", "116")
		for _, text := range control.Drawn(r) {
			if p := text.Position(); p.X < 0 || p.X+text.MinSize().Width > width+0.5 {
				t.Errorf("%v wide: %q lies from %v to %v", width, text.Text, p.X, p.X+text.MinSize().Width)
			}
		}
	}
	// As wide as they are in a window of usual size, they have their names.
	var r *control.Rods
	s := show(t, func(s *shown) fyne.CanvasObject { r = rods(s); return r }, fyne.NewSize(238, 240))
	says(t, s, r, "board 60", "sloped 36", "tile 9")
	golden.Check(t, "rods-narrow", s.window.Canvas().Capture())
	// A lip: its figure stands beside the arrow.
	s = show(t, func(s *shown) fyne.CanvasObject {
		r := control.NewRods(s.keys, "Heights", nil)
		r.Set(control.RodSet{Rods: []control.Rod{{Name: "way in", Level: "+30", Layers: []control.Layer{{ID: "a", Name: "board 30", MM: 30,
			Material: material.BaseBoard}}},
			{Name: "room", Level: "+13", Layers: []control.Layer{{ID: "b", MM: 13, Material: material.Tile}}}}, Worded: 0, Steps: []control.Between{{High: 0,
			Low: 1, Word: "lip", Figure: "17", Kind: theme.Lip}}})
		return r
	}, fyne.NewSize(260, 160))
	golden.Check(t, "rods-lip", s.window.Canvas().Capture())
}
