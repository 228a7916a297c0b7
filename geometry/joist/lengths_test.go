package joist_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry/joist"
	"underfall/geometry/plan"
)

// Pipe that goes 20 into sockets, from 0 to 1200 and 20 farther at both ends, so 1240 long, through joists 50 wide in a room from −300 on;
// a length is 10 shorter than the gap that it is laid into. Joists at 200, 600 and 1000 in a room to 1300: the longest gap goes from −300
// to 175, so the lengths are 465, 465 and 310. With the middle joist at 480 the first coupling, 20 each side, would reach into it past
// 445 and so lies at 435. In a room that begins at −200 the longest gap is 375.
//
// Joists every 80 from 55 to 775 leave gaps of 30 between them, where no coupling has 20 each side; before the first, from −300 to 30,
// one could lie up to 10, but a length is at least the 40 that go into sockets, from −20 to 20. The longest gap goes from 800 to 1300: a
// length of 490 ends at 470, in a joist, and is coupled there, the next of 490 at 960, clear of joists.
func TestCouplingsBetweenJoistsByHand(t *testing.T) {
	pipe := pipe50
	pipe.InsertionMM = 20
	for name, c := range map[string]struct {
		joists   []float64
		from, to float64
		levelMM  float64
		wall     bool
		want     []float64
	}{
		"three joists":              {joists: []float64{200, 600, 1000}, from: -300, to: 1300, levelMM: -100, want: []float64{445, 910}},
		"a joist where it would be": {joists: []float64{200, 480, 1000}, from: -300, to: 1300, levelMM: -100, want: []float64{435, 900}},
		"a smaller room":            {joists: []float64{200, 600, 1000}, from: -200, to: 1300, levelMM: -100, want: []float64{345, 710, 1075}},
		"no gap has room": {
			joists: []float64{55, 135, 215, 295, 375, 455, 535, 615, 695, 775}, from: -300, to: 1300, levelMM: -100,
			want: []float64{470, 960},
		},
		"out through the wall":                       {joists: []float64{200, 600, 1000}, from: -300, to: 1100, levelMM: -100, wall: true},
		"laid in from above":                         {joists: []float64{200, 600, 1000}, from: -300, to: 1300, levelMM: -30},
		"over the joists":                            {joists: []float64{200, 600, 1000}, from: -300, to: 1300, levelMM: 50},
		"one joist, and room for it all before that": {joists: []float64{1100}, from: -300, to: 1300, levelMM: -100},
	} {
		b := joistsAt(90, c.joists...).pipe(pipe, plan.Point{}, plan.Point{1200, 0}).centre(c.levelMM, 0)
		b.plan.Room = plan.FromRing(plan.Ring{{c.from, -500}, {c.to, -500}, {c.to, 500}, {c.from, 500}})
		if c.wall {
			b.level.Run.Wall, b.level.Run.WallAtMM = 1, c.to
		}
		run := &b.level.Run
		got := joist.CouplingsMM(&b.plan, run, b.cuts(), &run.Pieces[0], 20, 20)
		if !slices.EqualFunc(got, c.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }) {
			t.Errorf("%s: coupled at %v, want %v", name, got, c.want)
		}
	}
}
