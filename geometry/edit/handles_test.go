package edit_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// drag is a drag of a handle of the plan.
func drag(kind edit.HandleKind, x, y float64) edit.Edit {
	return edit.Drag(edit.Handle{Kind: kind}, plan.Point{x, y})
}

// clockwise walks the room of the starting job the other way round: the wall
// at the back, now the second, then starts at x = 0.
func clockwise(j *job.Job) {
	slices.Reverse(j.Room.Outline)
	j.Room.Outline = append(j.Room.Outline[3:], j.Room.Outline[:3]...)
	j.Shower.Wall, j.Shower.OffsetMM = 1, 500
}

// By hand: the shower lies at the back wall, y = 1900, from x = 0 to 1400; its
// offset counts from x = 2400. Walked the other way it lies from x = 500 to
// 1900, and counts from x = 0. Lengths go to whole 5 mm.
func TestDragsOfTheShowerByHand(t *testing.T) {
	shower := func(offset, width, depth float64) func(*job.Job) {
		return func(j *job.Job) { j.Shower.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM = offset, width, depth }
	}
	wide := func(j *job.Job) { j.Shower.WidthMM = 1402 }
	eachEdit(t, map[string]editCase{
		"depth":                       {nil, drag(edit.HandleDepth, 33, 898), shower(1000, 1400, 1000)},
		"half-way":                    {nil, drag(edit.HandleDepth, 33, 897.5), shower(1000, 1400, 1005)},
		"a hair under half-way":       {nil, drag(edit.HandleDepth, 33, 897.5+4.8e-6), shower(1000, 1400, 1005)},
		"more under it":               {nil, drag(edit.HandleDepth, 33, 897.5+5.2e-6), shower(1000, 1400, 1000)},
		"right":                       {nil, drag(edit.HandleRight, 1503, 1450), shower(895, 1505, 900)},
		"left":                        {nil, drag(edit.HandleLeft, 203, 1450), shower(1000, 1195, 900)},
		"right, the other way":        {clockwise, drag(edit.HandleRight, 2003, 1450), shower(500, 1505, 900)},
		"left, the other way":         {clockwise, drag(edit.HandleLeft, 703, 1450), shower(705, 1195, 900)},
		"moved":                       {nil, drag(edit.HandleShower, 1002, 1450), shower(700, 1400, 900)},
		"moved, the other way":        {clockwise, drag(edit.HandleShower, 1002, 1450), shower(300, 1400, 900)},
		"moved past the wall's start": {nil, drag(edit.HandleShower, 5000, 1450), shower(0, 1400, 900)},
		"moved past its end":          {wide, drag(edit.HandleShower, -5000, 1450), shower(998, 1402, 900)},
		"nowhere":                     {nowhere, drag(edit.HandleDepth, 33, 898), nil},
	})
}

func TestDragsOfDrainAndExitByHand(t *testing.T) {
	fall := func(k job.FallKind) func(*job.Job) { return func(j *job.Job) { j.Former.Fall = k } }
	drain := func(offset float64, forward *float64) func(*job.Job) {
		return func(j *job.Job) { j.Drain.OffsetMM, j.Drain.ForwardMM = offset, forward }
	}
	exit := func(wall int, offset float64) func(*job.Job) {
		return func(j *job.Job) { j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = wall, offset }
	}
	eachEdit(t, map[string]editCase{
		"drain":                   {nil, drag(edit.HandleDrain, 802, 1700), drain(100, nil)},
		"drain, shifted before":   {drain(-200, nil), drag(edit.HandleDrain, 802, 1700), drain(100, nil)},
		"drain across the middle": {fall(job.FallMid), drag(edit.HandleDrain, 752, 1497), drain(50, ptr(405))},
		// As long as its side of 1400 less 13 each end it stays where it is; of 1200, sold so
		// long, it moves by half of what is left of 174.
		"drain as long as its side": {func(j *job.Job) { j.Drain.LengthMM = 0 }, drag(edit.HandleDrain, 802, 1700), nil},
		"drain of the longest sold": {func(j *job.Job) { j.Drain.LengthMM, j.Drain.SoldLengthsMM = 0, []float64{900, 1200} }, drag(edit.HandleDrain, 802, 1700), drain(87, nil)},
		"point drain":               {fall(job.FallPoint), drag(edit.HandleDrain, 648, 1503), drain(-50, ptr(395))},
		"drain of the whole room":   {fall(job.FallRoom), drag(edit.HandleDrain, 648, 1503), drain(-50, ptr(395))},
		"drain in front":            {fall(job.FallFront), drag(edit.HandleDrain, 748, 1503), drain(50, nil)},
		// The last wall runs from y = 1900 down.
		"exit along its wall":     {nil, drag(edit.HandleExit, 3, 1201), exit(3, 700)},
		"exit to another wall":    {nil, drag(edit.HandleExit, 903, 60), exit(0, 905)},
		"exit past a wall's ends": {nil, drag(edit.HandleExit, -60, 2100), exit(2, 2400)},
		// Two walls are as near as each other: it stays with the first of them, at
		// its end.
		"exit past a corner": {nil, drag(edit.HandleExit, 2500, -30), exit(0, 2400)},
		"pipe's end":         {pipeEnd, drag(edit.HandleExit, 402, 898), func(j *job.Job) { j.Waste.Exit.At = plan.Point{400, 900} }},
		"through the floor": {func(j *job.Job) { j.Waste.Exit.Kind = job.ExitFloor }, drag(edit.HandleExit, 402, 898), func(j *job.Job) {
			j.Waste.Exit.At = plan.Point{400, 900}
		}},
		"corner":            {nil, edit.Drag(edit.Handle{Kind: edit.HandleCorner, Index: 3}, plan.Point{-12, 2003}), func(j *job.Job) { j.Room.Outline[3] = plan.Point{-10, 2005} }},
		"first corner":      {nil, edit.Drag(edit.Handle{Kind: edit.HandleCorner, Index: 0}, plan.Point{-12, 3}), func(j *job.Job) { j.Room.Outline[0] = plan.Point{-10, 5} }},
		"corner before it":  {nil, edit.Drag(edit.Handle{Kind: edit.HandleCorner, Index: -1}, plan.Point{-12, 3}), nil},
		"corner after last": {nil, edit.Drag(edit.Handle{Kind: edit.HandleCorner, Index: 4}, plan.Point{-12, 3}), nil},
	})
}

// By hand: the run goes left from (645, 1832) to its turn at (300, 1832) and down
// to its exit at (300, 400), 345 + 1432 less what the bend cuts off.
func TestDragsOfTurnsByHand(t *testing.T) {
	turn := func(i int, x, y float64) edit.Edit {
		return edit.Drag(edit.Handle{Kind: edit.HandleTurn, Index: i}, plan.Point{x, y})
	}
	to := func(x, y float64) func(*job.Job) { return turns(plan.Point{x, y}) }
	exitAt := func(x float64) func(*job.Job) {
		return func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{x, 400}} }
	}
	eachEdit(t, map[string]editCase{
		// Both legs fall in line again.
		"near its place":     {pipeEnd, turn(0, 309, 1820), to(300, 1832)},
		"level with outlet":  {pipeEnd, turn(0, 200, 1832-24.9), to(200, 1832)},
		"25 off level":       {pipeEnd, turn(0, 200, 1832-25), to(200, 1832-25)},
		"above the outlet":   {pipeEnd, turn(0, 645-24.9, 1500), to(645, 1500)},
		"25 off that":        {pipeEnd, turn(0, 645-25, 1500), to(645-25, 1500)},
		"at 45° to it":       {pipeEnd, turn(0, 445, 1832-224.9), to(445, 1632)},
		"25 off 45°":         {pipeEnd, turn(0, 445, 1832-225), to(445, 1832-225)},
		"at 45° to the back": {pipeEnd, turn(0, 445, 1832+190), to(445, 2032)},
		"farther than 45°":   {pipeEnd, turn(0, 445, 1832-180), to(445, 1632)},
		// The leg before is at 45° then; the one after comes into line with the exit
		// where the turn is moved along that by less than 50 from the pointer: by
		// (20, 40), and not by (24, 47).
		"along the leg before": {exitAt(465), turn(0, 445, 1612), func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{465, 1652}}
		}},
		"not so far along it": {exitAt(469), turn(0, 445, 1609), func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{445, 1632}}
		}},
		"a turn before the first": {pipeEnd, turn(-1, 309, 1820), nil},
		"a turn after the last":   {pipeEnd, turn(1, 309, 1820), nil},
		"a turn of no run":        {noRun, turn(0, 309, 1820), nil},
		"the last of three": {turns(plan.Point{300, 1832}, plan.Point{300, 1200}, plan.Point{900, 1200}), turn(2, 310, 900), turns(
			plan.Point{300, 1832}, plan.Point{300, 1200}, plan.Point{300, 900})},
	})
}

func TestDragsOfFittingsByHand(t *testing.T) {
	two := func(a, b float64) func(*job.Job) {
		return func(j *job.Job) {
			pipeEnd(j)
			j.Waste.Fittings = []job.Fitting{job.UsualFallingPiece(a), job.UsualFallingPiece(b)}
		}
	}
	fitting := func(i int, x, y float64) edit.Edit {
		return edit.Drag(edit.Handle{Kind: edit.HandleFitting, Index: i}, plan.Point{x, y})
	}
	long := func(kind edit.HandleKind, i int, along, level float64) edit.Edit {
		return edit.DragLong(edit.Handle{Kind: kind, Index: i}, along, level)
	}
	level := func(l job.ExitLevel) func(*job.Job) { return func(j *job.Job) { j.Waste.Exit.Level = l } }
	eachEdit(t, map[string]editCase{
		"along the run":       {two(10, 600), fitting(0, 443, 1800), two(200, 600)},
		"the second":          {two(10, 600), fitting(1, 443, 1800), two(10, 200)},
		"before the outlet":   {two(10, 600), fitting(0, 700, 1832), two(0, 600)},
		"no farther than out": {two(10, 600), fitting(0, 300, 300), two(1755, 600)},
		"before the first":    {two(10, 600), fitting(-1, 443, 1800), nil},
		"after the last":      {two(10, 600), fitting(2, 443, 1800), nil},

		"in the section":           {two(10, 600), long(edit.HandleFitting, 1, 152, 9), two(10, 150)},
		"the first in the section": {two(10, 600), long(edit.HandleFitting, 0, 153, 9), two(155, 600)},
		"before it begins":         {two(10, 600), long(edit.HandleFitting, 0, -30, 9), two(0, 600)},
		"before the first, there":  {two(10, 600), long(edit.HandleFitting, -1, 152, 9), nil},
		"after the last, there":    {two(10, 600), long(edit.HandleFitting, 2, 152, 9), nil},
		"a level":                  {nil, long(edit.HandleExitLevel, 0, 152, -12.6), level(job.Exactly(-12.5))},
		"a level upward":           {nil, long(edit.HandleExitLevel, 0, 152, 12.8), level(job.Exactly(13))},
		"no handle of it":          {two(10, 600), long(edit.HandleDepth, 0, 152, 9), nil},
	})
}

// Every handle says what it moves, each something else but for the two sides, and levels however they were read.
func TestHandlesAreNamed(t *testing.T) {
	names := map[message.ID]int{}
	for kind := edit.HandleDepth; kind <= edit.HandleReading; kind++ {
		names[drag(kind, 0, 0).What.ID]++
	}
	if len(names) != 18 || names["edit.shower-width"] != 2 || names["edit.level-place"] != 2 || names[""] != 0 {
		t.Errorf("%v", names)
	}
	if diff := cmp.Diff(job.New(), drag(edit.NoHandle, 5000, 1450).Apply(job.New()), cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("no handle moves something:\n%s", diff)
	}
}
