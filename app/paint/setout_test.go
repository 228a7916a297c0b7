package paint_test

import (
	"slices"
	"testing"

	"underfall/app/paint"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// What is set out is drawn with its text on it, which may be typed on, and beside where it is to
// be drawn first when a line runs along there; without room none of it is drawn.
func TestSetOutsFindRoom(t *testing.T) {
	o := section.SetOut{Text: message.Of("dimension.length", message.MM("length", 300)), Of: plan.Point{150, 0}, Key: "waste.exit.offsetMM",
		Spans: [][2]plan.Point{{{-150, 0}, {150, 0}}, {{-150, 80}, {150, 80}}}}
	draw := func(d section.Drawing) []paint.Placed {
		d.SetOuts = []section.SetOut{o}
		_, written := placed(t, d)
		return written
	}
	middle := func(p []paint.Placed) int {
		if len(p) != 1 || p[0].Key != o.Key {
			t.Fatalf("placed %v", p)
		}
		return (p[0].Box.Min.Y + p[0].Box.Max.Y) / 2
	}
	along := section.Line{Points: []plan.Point{{-100, 1}, {100, 1}}, Weight: section.Heavy}
	if y := middle(draw(section.Drawing{})); y < 198 || y > 202 {
		t.Errorf("written at %d, want 200", y)
	}
	if y := middle(draw(section.Drawing{Lines: []section.Line{along}})); y < 118 || y > 122 {
		t.Errorf("written at %d beside a line, want 120", y)
	}
	var lines []section.Line
	for x := -200.0; x < 200; x += 5 {
		lines = append(lines, section.Line{Points: []plan.Point{{x, -200}, {x, 200}}, Weight: section.Heavy})
	}
	full := section.Drawing{Lines: lines}
	if p := draw(full); len(p) > 0 {
		t.Errorf("written at %v over lines", p)
	}
	full.SetOuts = []section.SetOut{o}
	if a, b := painted(t, full), painted(t, section.Drawing{Lines: lines}); !slices.Equal(a.Pix, b.Pix) {
		t.Error("a line without its text is drawn")
	}
}
