package edit_test

import (
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// By hand: the starting room is 2400 × 1900 with its first wall along y = 0 from x = 0, its second along x = 2400
// and its third, along y = 1900, from x = 2400 back. The door of 760 in the first stands from 1500.
func TestDragsAlongWallsByHand(t *testing.T) {
	to := func(kind edit.HandleKind, i int, x, y float64, f edit.Fineness) edit.Edit {
		return edit.DragAs(edit.Handle{Kind: kind, Index: i}, plan.Point{x, y}, f)
	}
	door := func(offset float64) func(*job.Job) {
		return func(j *job.Job) { j.Room.Doorways[0].OffsetMM = offset }
	}
	doorIn := func(wall int, offset float64) func(*job.Job) {
		return func(j *job.Job) { j.Room.Doorways[0].Wall, j.Room.Doorways[0].OffsetMM = wall, offset }
	}
	// narrow is a room with a nook of 700 at the right, too short for the door.
	narrow := func(j *job.Job) {
		j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 700}, {2900, 700}, {2900, 1900}, {0, 1900}}
		j.Shower.Wall = 4
		j.Room.Walls = append(j.Room.Walls, j.Room.Walls[3], j.Room.Walls[3])
	}
	window := func(offset float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Room.Windows = []job.Window{{Wall: 2, OffsetMM: offset, WidthMM: 600, SillMM: 1100, HeightMM: 900}}
		}
	}
	basin := func(wall int, offset float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Room.Fixtures = []job.Fixture{{Kind: job.FixtureBasin, Wall: wall, OffsetMM: offset, WidthMM: 500, DepthMM: 400, HeightMM: 850}}
		}
	}
	inches := func(then func(*job.Job)) func(*job.Job) {
		return func(j *job.Job) { j.Units = "imperial"; then(j) }
	}
	eachEdit(t, map[string]editCase{
		"door by its middle":         {nil, to(edit.HandleDoorway, 0, 1002, 300, edit.Coarse), door(620)}, // 1002 − 380 = 622
		"in whole millimetres":       {nil, to(edit.HandleDoorway, 0, 1001.6, 300, edit.Fine), door(622)},
		"as it is":                   {nil, to(edit.HandleDoorway, 0, 1001.25, 300, edit.Exact), door(621.25)},
		"in quarters of an inch":     {inches(door(1500)), to(edit.HandleDoorway, 0, 1002, 0, edit.Coarse), inches(door(98 * 6.35))},
		"in sixteenths of an inch":   {inches(door(1500)), to(edit.HandleDoorway, 0, 1002, 0, edit.Fine), inches(door(392 * 1.5875))},
		"no farther than its wall":   {nil, to(edit.HandleDoorway, 0, 100, 60, edit.Coarse), door(0)},
		"nor than its other end":     {nil, to(edit.HandleDoorway, 0, 2380, 15, edit.Coarse), door(1640)},
		"as near to the next wall":   {nil, to(edit.HandleDoorway, 0, 2300, 100, edit.Coarse), door(1640)},
		"a door to the next wall":    {nil, to(edit.HandleDoorway, 0, 2330, 902, edit.Coarse), doorIn(1, 520)},  // 902 − 380 = 522
		"to the one beyond the room": {nil, to(edit.HandleDoorway, 0, 1400, 2300, edit.Coarse), doorIn(2, 620)}, // 2400 − 1400 − 380
		"not where it has no room":   {narrow, to(edit.HandleDoorway, 0, 2330, 350, edit.Coarse), door(1640)},
		"a door that is not there":   {nil, to(edit.HandleDoorway, 1, 1002, 300, edit.Coarse), nil},
		"nor one before the first":   {nil, to(edit.HandleDoorway, -1, 1002, 300, edit.Coarse), nil},
		"a window to the first wall": {window(0), to(edit.HandleWindow, 0, 800, 300, edit.Coarse), func(j *job.Job) {
			window(500)(j)
			j.Room.Windows[0].Wall = 0
		}},
		"a window, from x = 2400":     {window(0), to(edit.HandleWindow, 0, 1100, 1900, edit.Coarse), window(1000)},
		"what stands along its wall":  {basin(1, 0), to(edit.HandleFixture, 0, 2200, 1000, edit.Coarse), basin(1, 750)},
		"what stands to another wall": {basin(1, 0), to(edit.HandleFixture, 0, 1000, 1700, edit.Coarse), basin(2, 1150)},
	})
}

// By hand: the joists of the case run up from the bottom, each 400 from the next, counted from the right: the first
// 100 left of x = 2400. One at x = 1900 that is dragged to x = 1850 takes all 50 to the left.
func TestDragsOfJoistsByHand(t *testing.T) {
	first := func(mm float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Floor.Kind = job.FloorTimber
			j.Floor.Joists.DirectionDeg, j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 90, 400, mm
		}
	}
	// As they lie the first is at x = 2300.
	joist := func(i int, x float64) edit.Edit {
		return edit.Drag(edit.Handle{Kind: edit.HandleJoist, Index: i}, plan.Point{x, 700})
	}
	eachEdit(t, map[string]editCase{
		"the second to the left":    {first(100), joist(1, 1850), first(150)},
		"the first to the right":    {first(100), joist(0, 2352), first(50)},
		"over where they begin":     {first(100), joist(0, 2420), first(380)},
		"by more than what parts":   {first(100), joist(0, 1800), first(200)},
		"a joist that is not there": {first(100), joist(40, 1850), nil},
		"one before the first":      {first(100), joist(-1, 1850), nil},
	})
}

// A level that was read lies where it is dragged; one that is worked out of a reading goes with that.
func TestDragsOfReadingsByHand(t *testing.T) {
	level := func(x, y float64) func(*job.Job) {
		return func(j *job.Job) {
			j.SpotLevels = []job.SpotLevel{{At: plan.Point{x, y}, LevelMM: 3, ToleranceMM: 2}}
		}
	}
	read := func(x, y float64) func(*job.Job) {
		return func(j *job.Job) {
			datum := 0.0
			j.Laser = job.Laser{SetUps: []job.SetUp{{LevelMM: &datum, DownMM: 1000}}, Readings: []job.Reading{{SetUp: 1, At: plan.Point{x, y}, DownMM: 997}}}
			j.SpotLevels = nil
			j.WorkOutLevels()
		}
	}
	to := func(kind edit.HandleKind, i int) edit.Edit {
		return edit.Drag(edit.Handle{Kind: kind, Index: i}, plan.Point{801, 402})
	}
	eachEdit(t, map[string]editCase{
		"a level":                     {level(100, 100), to(edit.HandleLevel, 0), level(800, 400)},
		"none after the last":         {level(100, 100), to(edit.HandleLevel, 1), nil},
		"a reading":                   {read(100, 100), to(edit.HandleReading, 0), read(800, 400)},
		"no level of what was read":   {read(100, 100), to(edit.HandleLevel, 0), nil},
		"no reading after the last":   {read(100, 100), to(edit.HandleReading, 1), nil},
		"no reading before the first": {read(100, 100), to(edit.HandleReading, -1), nil},
	})
}
