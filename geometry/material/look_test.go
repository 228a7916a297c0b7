package material_test

import (
	"fmt"
	"image/color"
	"math"
	"strings"
	"testing"

	"underfall/geometry/material"
)

// all are the materials there are.
var all = []material.Material{material.Concrete, material.Timber, material.Deck, material.Masonry, material.StudWall, material.Adhesive, material.BaseBoard,
	material.FormerBody, material.Membrane, material.TileBed, material.Tile, material.Screed, material.Plastic, material.Metal, material.Water}

// look is all that is seen of a material beside its hatch, on one line: colour on light
// and dark paper, roughness, what becomes of it where the floor is looked through,
// whether it lies inside others.
func look(m material.Material) string {
	c, d := m.On(false), m.On(true)
	out := fmt.Sprintf("%02x%02x%02x %02x%02x%02x %g %s", c.R, c.G, c.B, d.R, d.G, d.B, m.Roughness(), []string{"glass", "solid", "solid if bare"}[m.Glass()])
	if m.RunsThrough() {
		out += " through"
	}
	if m.Pattern().Solid {
		out += " filled"
	}
	return out
}

// The looks, typed out a second time on purpose: whoever changes one sees it here, and
// looks at the drawings and pictures. The two beds are one thing to look at.
func TestLooks(t *testing.T) {
	want := strings.Split(`c9c7c1 54565a 0.75 solid if bare
d5ae72 a37c42 0.75 solid
c39a5e 8c682f 0.75 glass filled
d8c6ba 6e5c52 0.75 solid if bare
e7e0d2 4b463d 0.75 solid if bare
e4dfd2 8a857a 0.75 glass
d6cba6 8c8157 0.75 glass
b6bca4 6f7763 0.75 glass
5a4f74 a99ccb 0.75 glass filled
e4dfd2 8a857a 0.75 glass
6f7f82 7f9094 0.75 glass filled
cfc6b8 8c8272 0.75 glass
4a5055 8a949b 0.35 solid through filled
aab2b8 9aa4ab 0.75 solid through filled
3f8fc0 58a9d8 0.05 solid through filled`, "\n")
	for i, m := range all {
		if got := look(m); got != want[i] {
			t.Errorf("%s looks like %s, want %s", m, got, want[i])
		}
		if m.Colour() != m.On(false) {
			t.Errorf("%s has another colour in space than on light paper", m)
		}
		for _, o := range all[:i] {
			if m != material.TileBed && look(m) == look(o) && m.Pattern() == o.Pattern() {
				t.Errorf("%s and %s cannot be told apart", m, o)
			}
		}
	}
	if got, want := look("something else"), "999999 777777 0.75 glass"; got != want {
		t.Errorf("what is not known looks like %s, want %s", got, want)
	}
}

// Layers of a floor lie on one another: those that touch are told apart in grey by their
// lightness or by their hatch, on light and on dark paper. Lightness by the weights of
// ITU-R BT.601, steps of 255.
func TestLayersAreToldApartInGrey(t *testing.T) {
	grey := func(m material.Material, dark bool) float64 {
		c := m.On(dark)
		return 0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B)
	}
	stack := []material.Material{material.Concrete, material.Adhesive, material.BaseBoard, material.Adhesive, material.FormerBody, material.Membrane, material.TileBed, material.Tile}
	for i, m := range stack[1:] {
		o := stack[i]
		for _, dark := range []bool{false, true} {
			const apart = 15
			if math.Abs(grey(m, dark)-grey(o, dark)) < apart && m.Pattern() == o.Pattern() {
				t.Errorf("%s on %s, dark %v, cannot be told apart in grey", m, o, dark)
			}
		}
	}
}

// Boards, formers and tanking have quiet colours that no dyed foam board on sale has:
// none is more than half as strong as a colour can be, and none is pink, strong
// green, orange or light blue, by hue in degrees round the circle.
func TestBoardsAreNoDyedFoam(t *testing.T) {
	for _, c := range []color.RGBA{material.BaseBoard.On(false), material.BaseBoard.On(true), material.FormerBody.On(false), material.FormerBody.On(true), material.Membrane.On(false)} {
		high, low := float64(max(c.R, c.G, c.B)), float64(min(c.R, c.G, c.B))
		strength := (high - low) / high
		if strength > 0.4 {
			t.Errorf("%v is a strong colour: %.2f", c, strength)
		}
		pink := c.R > c.G && c.B > c.G && high > 150
		blue := c.B > c.R && high > 150
		if pink || blue {
			t.Errorf("pink or light blue: %v", c)
		}
	}
}

func TestParseColour(t *testing.T) {
	if c, ok := material.ParseColour("#1a2B3c"); !ok || c.R != 0x1a || c.G != 0x2b || c.B != 0x3c || c.A != 255 {
		t.Errorf("#1a2B3c is %v, %v", c, ok)
	}
	for _, text := range []string{"", "1a2b3c", "#1a2b3", "#1a2b3cd", "#1a2b3g", "x1a2b3c", "#-1a2b3"} {
		if c, ok := material.ParseColour(text); ok {
			t.Errorf("%q is read as %v", text, c)
		}
	}
}
