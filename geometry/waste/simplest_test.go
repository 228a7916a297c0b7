package waste_test

import (
	"testing"

	"underfall/geometry/plan"
)

// The simplest run from an outlet at the origin that points to the right, bends
// 25 (45°) and 45 (90°) from centre to face. A first turn stands 45 + 10 = 55
// out. To the end of a pipe it is straight (within a millimetre), one turn
// square to the exit from 55 ahead on, else out, across and back.
func TestSimplestRunToAPipe(t *testing.T) {
	for name, c := range map[string]struct {
		exit  plan.Point
		turns []plan.Point
	}{
		"straight":              {plan.Point{500, 0}, nil},
		"0.9 to the left":       {plan.Point{500, 0.9}, nil},
		"0.9 to the right":      {plan.Point{500, -0.9}, nil},
		"1.1 to the left":       {plan.Point{500, 1.1}, []plan.Point{{500, 0}}},
		"1.1 to the right":      {plan.Point{500, -1.1}, []plan.Point{{500, 0}}},
		"to the left":           {plan.Point{300, 200}, []plan.Point{{300, 0}}},
		"to the right":          {plan.Point{300, -200}, []plan.Point{{300, 0}}},
		"56 ahead":              {plan.Point{56, 200}, []plan.Point{{56, 0}}},
		"54 ahead":              {plan.Point{54, 200}, []plan.Point{{55, 0}, {55, 200}}},
		"54 ahead to the right": {plan.Point{54, -200}, []plan.Point{{55, 0}, {55, -200}}},
		"behind":                {plan.Point{-100, 200}, []plan.Point{{55, 0}, {55, 200}}},
		"hardly ahead":          {plan.Point{0.8, 0.8}, nil},
		"hardly behind":         {plan.Point{-0.8, 0.8}, []plan.Point{{55, 0}, {55, 0.8}}},
		"straight behind":       {plan.Point{-300, 0.8}, []plan.Point{{55, 0}, {55, 0.8}}},
	} {
		for _, f := range frames() {
			r := run{exit: c.exit}.lay(f)
			cornersAre(t, name, r, f, append(append([]plan.Point{{}}, c.turns...), c.exit)...)
			nearPoint(t, name+", exit", r.Exit, f.point(c.exit))
		}
	}
	// In numbers that are exact: from a millimetre aside on, and from 55 ahead.
	cornersAre(t, "1 aside", run{exit: plan.Point{512, 1}}.lay(frame{}), frame{}, plan.Point{}, plan.Point{512, 0}, plan.Point{512, 1})
	cornersAre(t, "55 ahead", run{exit: plan.Point{55, 200}}.lay(frame{}), frame{}, plan.Point{}, plan.Point{55, 0}, plan.Point{55, 200})
}

// To a wall the run comes in square. One turn does from 45 ahead on, where the
// outlet's line passes the wall on the inside. Else it goes 55 out, across, and
// 55 before the wall square to it. To a wall that is faced it steps across by
// 45° where there is room, step and four times 25 (300 + 100), by 90° where
// there is not, halfway; where less than 110 is ahead, or the wall is faced
// away, it goes 55 past and turns back.
func TestSimplestRunToAWall(t *testing.T) {
	left, right, ahead, back := plan.Point{0, 1}, plan.Point{0, -1}, plan.Point{1, 0}, plan.Point{-1, 0}
	for name, c := range map[string]struct {
		exit, out plan.Point
		turns     []plan.Point
	}{
		"straight":               {plan.Point{500, 0}, ahead, nil},
		"to the left":            {plan.Point{300, 500}, left, []plan.Point{{300, 0}}},
		"to the right":           {plan.Point{300, -500}, right, []plan.Point{{300, 0}}},
		"46 ahead":               {plan.Point{46, 500}, left, []plan.Point{{46, 0}}},
		"44 ahead":               {plan.Point{44, 500}, left, []plan.Point{{55, 0}, {55, 445}, {44, 445}}},
		"44 ahead, to the right": {plan.Point{44, -500}, right, []plan.Point{{55, 0}, {55, -445}, {44, -445}}},
		"behind":                 {plan.Point{-200, 500}, left, []plan.Point{{55, 0}, {55, 445}, {-200, 445}}},
		"inside out":             {plan.Point{300, -200}, left, []plan.Point{{55, 0}, {55, -255}, {300, -255}}},
		"at half a millimetre":   {plan.Point{300, 0.5}, left, nil},
		"faced, by 45°":          {plan.Point{1000, 300}, ahead, []plan.Point{{350, 0}, {650, 300}}},
		"faced, right, by 45°":   {plan.Point{1000, -300}, ahead, []plan.Point{{350, 0}, {650, -300}}},
		"401 ahead":              {plan.Point{401, 300}, ahead, []plan.Point{{50.5, 0}, {350.5, 300}}},
		"399 ahead":              {plan.Point{399, 300}, ahead, []plan.Point{{199.5, 0}, {199.5, 300}}},
		"399 ahead, right":       {plan.Point{399, -300}, ahead, []plan.Point{{199.5, 0}, {199.5, -300}}},
		"111 ahead":              {plan.Point{111, 300}, ahead, []plan.Point{{55.5, 0}, {55.5, 300}}},
		"109 ahead":              {plan.Point{109, 300}, ahead, []plan.Point{{164, 0}, {164, 300}}},
		"faced away":             {plan.Point{-500, 300}, back, []plan.Point{{55, 0}, {55, 300}}},
		"faced away, ahead":      {plan.Point{200, 300}, back, []plan.Point{{255, 0}, {255, 300}}},
		"faced away, right":      {plan.Point{200, -300}, back, []plan.Point{{255, 0}, {255, -300}}},
	} {
		for _, f := range frames() {
			r := run{exit: c.exit, out: c.out}.lay(f)
			cornersAre(t, name, r, f, append(append([]plan.Point{{}}, c.turns...), c.exit)...)
		}
	}
	// In numbers that are exact: 45 ahead is one turn, 400 ahead is by 90°, 110
	// ahead turns back.
	cornersAre(t, "45 ahead", run{exit: plan.Point{45, 512}, out: left}.lay(frame{}), frame{}, plan.Point{}, plan.Point{45, 0}, plan.Point{45, 512})
	cornersAre(t, "400 ahead", run{exit: plan.Point{400, 300}, out: ahead}.lay(frame{}), frame{},
		plan.Point{}, plan.Point{200, 0}, plan.Point{200, 300}, plan.Point{400, 300})
	cornersAre(t, "110 ahead", run{exit: plan.Point{110, 300}, out: ahead}.lay(frame{}), frame{},
		plan.Point{}, plan.Point{165, 0}, plan.Point{165, 300}, plan.Point{110, 300})
}
