package paint_test

import (
	"image/color"
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// wallAt is the name of a wall along y = 0 from x = −150 to 150, so broad, with a place in its middle and
// one beside it, upwards.
func wallAt(broad float64) section.Name {
	return section.Name{Texts: []message.Message{message.Text("B")}, First: true, Disc: 2, BroadMM: broad,
		Line:   [2]plan.Point{{-150, 0}, {150, 0}},
		Places: []section.NameAt{{At: plan.Point{0, 0}}, {At: plan.Point{0, broad / 2}, Side: plan.Point{0, 1}}}}
}

// At a pixel a millimetre the picture's middle is 200 from its edges. A disc of radius 10 stands on a wall
// 19 broad and more; beside a narrower one, its middle 5 and 10 off the wall's edge; on it all the same
// where lines are everywhere beside it; and along it where its places are written on or off the picture.
func TestDiscsOfWalls(t *testing.T) {
	ink := color.RGBA{0, 0, 0, 255}
	inked := func(d section.Drawing, x, y int) bool { return painted(t, d).RGBAAt(x, y) == ink }
	rim := 8 // off the middle, clear of the letter
	broad := section.Drawing{Names: []section.Name{wallAt(19)}}
	if !inked(broad, 200-rim, 200) || inked(broad, 200-rim, 175) {
		t.Error("no disc on a broad wall")
	}
	narrow := section.Drawing{Names: []section.Name{wallAt(10)}}
	if inked(narrow, 200-rim, 200) || !inked(narrow, 200-rim, 200-5-15) {
		t.Error("no disc beside a narrow wall")
	}
	narrow.Lines = []section.Line{{Points: []plan.Point{{-150, 20}, {150, 20}}, Weight: section.Medium}}
	if !inked(narrow, 200-rim, 200) {
		t.Error("no disc on a narrow wall with a line beside it")
	}
	// A text that is there first stands where the disc would: it goes along, three tenths on.
	taken := section.Drawing{Names: []section.Name{{Texts: []message.Message{message.Text("there")}, First: true, Places: []section.NameAt{{At: plan.Point{0, 0}}}}, wallAt(19)}}
	taken.Names[1].Places = taken.Names[1].Places[:1]
	if !inked(taken, 200-60-rim, 200) {
		t.Error("no disc along the wall")
	}
	off := section.Drawing{Names: []section.Name{wallAt(19)}}
	off.Names[0].Line = [2]plan.Point{{0, 0}, {800, 0}}
	off.Names[0].Places = []section.NameAt{{At: plan.Point{400, 0}}}
	if !inked(off, 300-rim, 200) {
		t.Error("no disc in the middle of what shows of a wall")
	}
}

// A ring with two letters stands off its corner, and not at all where there is no room.
func TestRingsOfCorners(t *testing.T) {
	d := section.Drawing{Names: []section.Name{{Texts: []message.Message{message.Text("BC")}, Ring: message.Corner{2, 3},
		Places: []section.NameAt{{At: plan.Point{0, 0}, Side: plan.Point{1, 0}}}}}}
	// Its middle is 5 and at least 10 to the right, its rim 20 off that at most.
	if n := inked(painted(t, d), 0, 400); n < 60 {
		t.Errorf("%d pixels of a ring", n)
	}
	for x := 1.0; x < 60; x += 5 {
		d.Lines = append(d.Lines, section.Line{Points: []plan.Point{{x, -100}, {x, 100}}, Weight: section.Medium})
	}
	bare := d
	bare.Names = nil
	if a, b := inked(painted(t, d), 0, 400), inked(painted(t, bare), 0, 400); a != b {
		t.Error("a ring stands on lines")
	}
}
