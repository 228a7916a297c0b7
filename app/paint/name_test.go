package paint_test

import (
	"image"
	"slices"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// inkedIn counts the pixels of a box that are not paper.
func inkedIn(img *image.RGBA, box image.Rectangle) (n int) {
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if img.RGBAAt(x, y) != white {
				n++
			}
		}
	}
	return n
}

// A name stands at the first of its places, the left one at −100, where it has room; where a line,
// something that can be dragged, or a pipe is there, at the next, on the right at +100; with both
// taken it is left out, as it is where it has to lie in less room than it takes.
func TestNamesFindRoom(t *testing.T) {
	wall := message.Of("part.wall", message.No("n", 3))
	name := section.Name{Texts: []message.Message{wall}, Places: []section.NameAt{{At: plan.Point{-100, 0}}, {At: plan.Point{100, 0}}}}
	left, right := image.Rect(75, 192, 125, 208), image.Rect(275, 192, 325, 208)
	heavy := func(x float64) section.Line {
		return section.Line{Points: []plan.Point{{x, -60}, {x, 60}}, Weight: section.Heavy}
	}
	pipe := section.Line{Points: []plan.Point{{-170, -40}, {-30, -40}, {-30, 40}, {-170, 40}, {-170, -40}}, Kind: "run"}
	for what, c := range map[string]struct {
		with        section.Drawing
		in          plan.Region
		left, right bool
	}{
		"nothing in the way":  {left: true},
		"a line":              {with: section.Drawing{Lines: []section.Line{heavy(-100)}}, right: true},
		"lines at both":       {with: section.Drawing{Lines: []section.Line{heavy(-100), heavy(100)}}},
		"a handle":            {with: section.Drawing{Handles: []section.Handle{{At: plan.Point{-100, 0}, Moves: edit.Handle{Kind: edit.HandleDrain}}}}, right: true},
		"inside of a pipe":    {with: section.Drawing{Lines: []section.Line{pipe}}, right: true},
		"kept in on the left": {in: plan.Rectangle(plan.Point{-150, -20}, plan.Point{-50, 20}), left: true},
		"kept in too little":  {in: plan.Rectangle(plan.Point{-110, -20}, plan.Point{-90, 20})},
	} {
		bare, named := c.with, c.with
		n := name
		n.In = c.in
		named.Names = []section.Name{n}
		before, after := painted(t, bare), painted(t, named)
		for side, want := range map[image.Rectangle]bool{left: c.left, right: c.right} {
			if got := inkedIn(after, side) > inkedIn(before, side)+30; got != want {
				t.Errorf("%s: written at %v %v, want %v", what, side, got, want)
			}
		}
	}
}

// A name with one place and the mark whose text would stand there are both written, as the mark's goes
// elsewhere; of the texts of a name the fullest that has room is written.
func TestWorthOfNames(t *testing.T) {
	at := func(first bool, texts ...message.Message) section.Drawing {
		return section.Drawing{Names: []section.Name{{Texts: texts, Places: []section.NameAt{{At: plan.Point{0, 34}}}, First: first}}}
	}
	wall := message.Of("part.wall", message.No("n", 3))
	mark := []section.Mark{{At: plan.Point{0, 0}, LevelMM: 116, Of: section.MarkTile}}
	marked := inked(painted(t, section.Drawing{Marks: mark}), 0, 400)
	// The text of the mark would stand 34 over it.
	for _, first := range []bool{true, false} {
		alone, both := at(first, wall), at(first, wall)
		both.Marks = mark
		named, got := painted(t, alone), painted(t, both)
		box := image.Rect(186, 158, 214, 174)
		for y := box.Min.Y; y < box.Max.Y; y++ {
			for x := box.Min.X; x < box.Max.X; x++ {
				if got.RGBAAt(x, y) != named.RGBAAt(x, y) {
					t.Fatalf("first %v: something else is at %d, %d", first, x, y)
				}
			}
		}
		if n := inked(got, 0, 400) - inked(named, 0, 400); n < marked/2 {
			t.Errorf("first %v: of a mark of %d pixels %d are there", first, marked, n)
		}
	}
	full := message.Lines(wall, wall, wall, wall, wall, wall, wall, wall, wall, wall, wall, wall, wall)
	if !slices.Equal(painted(t, at(false, full, wall)).Pix, painted(t, at(false, wall)).Pix) {
		t.Error("a name whose fullest text has no room does not say the shorter one")
	}
}
