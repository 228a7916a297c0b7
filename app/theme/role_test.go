package theme_test

import (
	"image/color"
	"math"
	"testing"

	"underfall/app/theme"
)

// linear is a channel of an sRGB colour in linear light (IEC 61966-2-1).
func linear(v uint8) float64 {
	c := float64(v) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

// luminance of a colour: WCAG 2.2, definition of relative luminance.
func luminance(c color.NRGBA) float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// contrast of two colours: WCAG 2.2, definition of contrast ratio.
func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a)+0.05, luminance(b)+0.05
	return max(x, y) / min(x, y)
}

// The formula by its ends: black on white is 21, a colour on itself 1.
func TestContrastByItsEnds(t *testing.T) {
	black, white := color.NRGBA{A: 255}, color.NRGBA{255, 255, 255, 255}
	if c := contrast(black, white); math.Abs(c-21) > 1e-9 {
		t.Errorf("black on white is %v", c)
	}
	if c := contrast(white, white); c != 1 {
		t.Errorf("white on white is %v", c)
	}
	// #777 on white is 4.48, #767676 4.54: the two that are quoted for just failing and just
	// passing 4.5.
	for v, want := range map[uint8]float64{0x77: 4.48, 0x76: 4.54} {
		if c := contrast(color.NRGBA{v, v, v, 255}, white); math.Abs(c-want) > 0.005 {
			t.Errorf("grey %x on white is %v, want %v", v, c, want)
		}
	}
}

// The contrasts of the table of roles, to a tenth: what the design promises.
func TestContrastsOfTheTable(t *testing.T) {
	for _, c := range []struct {
		role, on theme.Role
		dark     bool
		want     float64
	}{
		{theme.Ink, theme.Paper, false, 13.9}, {theme.Ink, theme.Sheet, false, 15.6}, {theme.Ink, theme.Paper, true, 14.2}, {theme.Ink, theme.Sheet, true, 12.6},
		{theme.Caption, theme.Paper, false, 6.0}, {theme.Caption, theme.Sheet, false, 6.8}, {theme.Caption, theme.Paper, true, 8.1}, {theme.Caption, theme.Sheet, true, 7.2},
		{theme.Press, theme.Paper, false, 6.2}, {theme.Press, theme.Sheet, false, 7.0}, {theme.Press, theme.Paper, true, 8.5}, {theme.Press, theme.Sheet, true, 7.5},
		{theme.OnPress, theme.Press, false, 7.0}, {theme.OnPress, theme.Press, true, 8.6},
		{theme.Ink, theme.PressGround, false, 12.9},
		{theme.Sound, theme.Paper, false, 6.2}, {theme.Sound, theme.SoundGround, false, 5.9}, {theme.Sound, theme.Paper, true, 8.9}, {theme.Sound, theme.SoundGround, true, 6.9},
		{theme.Tight, theme.Paper, false, 5.6}, {theme.Tight, theme.TightGround, false, 5.4}, {theme.Tight, theme.Paper, true, 9.7}, {theme.Tight, theme.TightGround, true, 7.7},
		{theme.Stops, theme.Paper, false, 6.7}, {theme.Stops, theme.StopsGround, false, 6.1}, {theme.Stops, theme.Paper, true, 8.0}, {theme.Stops, theme.StopsGround, true, 6.5},
		{theme.Unknown, theme.Paper, false, 6.2}, {theme.Unknown, theme.UnknownGround, false, 5.8}, {theme.Unknown, theme.Paper, true, 9.0},
	} {
		if got := contrast(c.role.In(c.dark), c.on.In(c.dark)); math.Abs(got-c.want) > 0.051 {
			t.Errorf("%d on %d, dark %v: %.2f, want %v", c.role, c.on, c.dark, got, c.want)
		}
	}
}

// What WCAG 2.2 asks of every pair the controls use: 4.5 of text (1.4.3), 3 of edges and marks
// one must see to know what can be done (1.4.11).
func TestContrastsOfControls(t *testing.T) {
	const text, seen = 4.5, 3
	for _, c := range []struct {
		least float64
		role  theme.Role
		on    []theme.Role
	}{
		{text, theme.Ink, []theme.Role{theme.Paper, theme.Sheet, theme.Raised, theme.Sunk, theme.PressGround, theme.SoundGround, theme.TightGround, theme.StopsGround, theme.UnknownGround}},
		{text, theme.Caption, []theme.Role{theme.Paper, theme.Sheet, theme.Raised, theme.Sunk, theme.PressGround, theme.StopsGround}},
		{text, theme.Paper, []theme.Role{theme.Ink}}, // the chosen one of a row of choices, a wall's letter
		{text, theme.Press, []theme.Role{theme.Paper, theme.Sheet, theme.Raised, theme.Sunk, theme.PressGround}},
		{text, theme.OnPress, []theme.Role{theme.Press}},
		{text, theme.Sound, []theme.Role{theme.Paper, theme.Sheet, theme.SoundGround}},
		{text, theme.Tight, []theme.Role{theme.Paper, theme.Sheet, theme.TightGround}},
		{text, theme.Stops, []theme.Role{theme.Paper, theme.Sheet, theme.StopsGround}},
		{text, theme.Unknown, []theme.Role{theme.Paper, theme.Sheet, theme.UnknownGround}},
		{seen, theme.Sheet, []theme.Role{theme.Sound, theme.Stops}}, // what is left open in a vial
		{seen, theme.Edge, []theme.Role{theme.Sheet, theme.Paper, theme.Raised}},
		{seen, theme.Press, []theme.Role{theme.StopsGround, theme.TightGround, theme.SoundGround, theme.UnknownGround, theme.Sunk}},
	} {
		for _, on := range c.on {
			for _, dark := range []bool{false, true} {
				if got := contrast(c.role.In(dark), on.In(dark)); got < c.least {
					t.Errorf("%d on %d, dark %v: %.2f, want %v at least", c.role, on, dark, got, c.least)
				}
			}
		}
	}
}
