package material_test

import (
	"fmt"
	"strings"
	"testing"

	"underfall/geometry/material"
)

// all are the materials there are.
var all = []material.Material{material.Concrete, material.Timber, material.Deck, material.Masonry, material.StudWall, material.Adhesive, material.BaseBoard,
	material.FormerBody, material.Membrane, material.TileBed, material.Tile, material.Screed, material.Plastic, material.Metal, material.Water}

// look is all that is seen of a material, on one line: colour, roughness, what
// becomes of it where the floor is looked through, whether it lies inside others,
// and its hatch: solid, or angle, spacing and offset of each family, with dash and gap.
func look(m material.Material) string {
	c := m.Colour()
	out := fmt.Sprintf("%02x%02x%02x %g %s", c.R, c.G, c.B, m.Roughness(), []string{"glass", "solid", "solid if bare"}[m.Glass()])
	if m.RunsThrough() {
		out += " through"
	}
	p := m.Pattern()
	if p.Solid {
		out += " filled"
	}
	for _, f := range p.Families {
		if f.Spacing != 0 {
			out += fmt.Sprintf(" %g/%g%+g", f.AngleDeg, f.Spacing, f.Offset)
		}
		if f.Dash != 0 {
			out += fmt.Sprintf(":%g-%g", f.Dash, f.Gap)
		}
	}
	return out
}

// The looks, typed out a second time on purpose: whoever changes one sees it here, and
// looks at the drawings and pictures.
func TestLooks(t *testing.T) {
	want := strings.Split(`b4b2ad 0.75 solid if bare 45/3+0 45/3+0.5 -20/2.2+0:0.25-2.4
c99a5b 0.75 solid 30/1.1+0 -60/3.3+0
b98a52 0.75 glass 0/0.6+0.3:5-0.8
c9b3a3 0.75 solid if bare 45/2+0 45/2+0.4
dcd6cb 0.75 solid if bare 45/2.4+0 -45/2.4+0
8f8d88 0.75 glass -45/0.5+0:0.2-0.5
cfc49a 0.75 glass 60/1.8+0 -60/1.8+0
aeb49c 0.75 glass -45/1.2+0:3-0.6
5a4f74 0.75 glass filled
a7a29a 0.75 glass -45/0.5+0:0.2-0.5
6f8583 0.75 glass 45/0.55+0
cfc6b8 0.75 glass -45/1+0:0.25-0.9
5b5f66 0.35 solid through filled
aab2b8 0.75 solid through filled
5aa9dd 0.05 solid through 0/0.8+0.4:1.4-0.7`, "\n")
	seen := map[string]material.Material{}
	for i, m := range all {
		got := look(m)
		if got != want[i] {
			t.Errorf("%s looks like %s, want %s", m, got, want[i])
		}
		if other, ok := seen[got]; ok {
			t.Errorf("%s and %s cannot be told apart", m, other)
		}
		seen[got] = m
	}
	if got, want := look("something else"), "999999 0.75 glass 45/1+0"; got != want {
		t.Errorf("what is not known looks like %s, want %s", got, want)
	}
}

// Boards, formers and tanking have quiet colours that no dyed foam board on sale has:
// none is more than half as strong as a colour can be, and none is pink, strong
// green, orange or light blue, by hue in degrees round the circle.
func TestBoardsAreNoDyedFoam(t *testing.T) {
	for _, m := range []material.Material{material.BaseBoard, material.FormerBody, material.Membrane} {
		c := m.Colour()
		high, low := float64(max(c.R, c.G, c.B)), float64(min(c.R, c.G, c.B))
		strength := (high - low) / high
		if strength > 0.35 {
			t.Errorf("%s is a strong colour: %.2f", m, strength)
		}
		pink := c.R > c.G && c.B > c.G && high > 150
		blue := c.B > c.R && high > 150
		if pink || blue {
			t.Errorf("%s is pink or light blue: %v", m, c)
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
