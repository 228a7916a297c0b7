package job

import (
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// The keys of inputs that the window or an edit treats in a way of its own.
const (
	OutlineKey = "room.outline"
	WallsKey   = "room.walls"
	JoistsKey  = "floor.joists"
	// SideKey is the entry of a wall's length inside, which stands in no file: it follows from the corners.
	SideKey = "lengthMM"
)

// roomInputs are those of the room.
func roomInputs() []Input {
	return append(
		rows(StationRoom, true,
			things(wallList()),
			things(doorwayList())),
		rows(StationRoom, false,
			placesInPlan(OutlineKey, leastCorners, mostCorners, func(j *Job) *[]plan.Point { return &j.Room.Outline }, nextCorner).
				when(func(j *Job) bool { return !j.Room.Measured() }),
			figure("room.heightMM", unit.Length, 500, 6000, 50, nil,
				func(j *Job) *float64 { return &j.Room.HeightMM }),
			things(tapeLengthList()),
			things(tapeAngleList()),
			things(slopeList()),
			things(windowList()),
			things(stackList()),
			things(pipeEndList()),
			things(fixtureList()),
			things(northList()))...)
}

// GroundOutside is the entry of the walls, with their list, that says how high the ground lies outside behind one; without
// it a room lies there.
func GroundOutside() (List, Entry) {
	l := wallList()
	return l, l.entries[slices.IndexFunc(l.entries, func(e Entry) bool { return e.Key == outsideGroundKey })]
}

const outsideGroundKey = "outsideGroundMM"

// wallList are the walls of the room: as many as it has corners, none added or taken away by itself.
func wallList() List {
	at := func(j *Job, i int) *Wall { return &j.Room.Walls[i] }
	stud := func(w *Wall) bool { return w.Kind == WallStud }
	cavity := func(w *Wall) bool { return w.Kind == WallCavity }
	side := Entry{Key: SideKey, Number: &NumberEntry{Kind: unit.Along, Least: leastWallMM, Greatest: farthestMM, Step: 10,
		At: func(j *Job, i int) *float64 { mm := j.Room.WallLengthMM(i); return &mm }}}
	return List{Key: WallsKey, Most: mostCorners, Fixed: true, Count: func(j *Job) int { return len(j.Room.Walls) },
		entries: append([]Entry{side}, made([]func(func(*Job, int) *Wall) Entry{
			choose("kind", WallKinds(), func(w *Wall) *WallKind { return &w.Kind }),
			explained(maybe(outsideGroundKey, unit.Length, -20000, 5000, 10, func(w *Wall) **float64 { return &w.OutsideGroundMM })),
			length("thicknessMM", 10, 1500, 5, func(w *Wall) *float64 { return &w.ThicknessMM }),
			lessUsed(called("name", mostWallNameRunes, func(w *Wall) *string { return &w.Name })),
			lessUsed(where(stud, length("studSpacingMM", 50, 3000, 10, func(w *Wall) *float64 { return &w.StudSpacingMM }))),
			lessUsed(where(stud, along("firstStudMM", -3000, 3000, 10, func(w *Wall) *float64 { return &w.FirstStudMM }))),
			lessUsed(where(stud, length("studWidthMM", 10, 300, 1, func(w *Wall) *float64 { return &w.StudWidthMM }))),
			lessUsed(where(stud, length("solePlateMM", 0, 200, 1, func(w *Wall) *float64 { return &w.SolePlateMM }))),
			lessUsed(where(cavity, length("innerLeafMM", 0, 1000, 1, func(w *Wall) *float64 { return &w.InnerLeafMM }))),
			lessUsed(where(cavity, length("cavityMM", 0, 1000, 1, func(w *Wall) *float64 { return &w.CavityMM }))),
			lessUsed(maybe("dampCourseMM", unit.Length, -20000, 5000, 5, func(w *Wall) **float64 { return &w.DampCourseMM })),
		}, at)...)}
}

// floorInputs are those of the floor below.
func floorInputs() []Input {
	return append(
		rows(StationFloor, true,
			pick("floor.kind", FloorKinds(), func(j *Job) *FloorKind { return &j.Floor.Kind }),
			figure("floor.setDownMM", unit.Length, 0, 300, 1, slab,
				func(j *Job) *float64 { return &j.Floor.SetDownMM }),
			figure("floor.joists.directionDeg", unit.Angle, -360, 360, 5, timber,
				func(j *Job) *float64 { return &j.Floor.Joists.DirectionDeg }),
			figure("floor.joists.depthMM", unit.Length, 50, 600, 5, timber,
				func(j *Job) *float64 { return &j.Floor.Joists.DepthMM }),
			figure("floor.joists.widthMM", unit.Length, 20, 300, 1, timber,
				func(j *Job) *float64 { return &j.Floor.Joists.WidthMM }),
			figure("floor.joists.spacingMM", unit.Length, 100, 2000, 10, timber,
				func(j *Job) *float64 { return &j.Floor.Joists.SpacingMM }),
			figure("floor.joists.firstOffsetMM", unit.Along, -2000, 5000, 10, timber,
				func(j *Job) *float64 { return &j.Floor.Joists.FirstOffsetMM }),
			things(setUpList()),
			inRows(readingList()),
			spotLevels()),
		rows(StationFloor, false,
			figure("floor.slabThicknessMM", unit.Length, 20, 1000, 5, slab,
				func(j *Job) *float64 { return &j.Floor.SlabThicknessMM }),
			figure("floor.deck.thicknessMM", unit.Length, 5, 100, 1, timber,
				func(j *Job) *float64 { return &j.Floor.Deck.ThicknessMM }),
			shelved("floor.joists.timber", "field.strength-class.not-known",
				func(_ *Job, s *part.Shelf) []part.Timber { return s.Timber },
				func(j *Job) *part.Timber { return j.Floor.Joists.Timber }).when(overJoists),
			numbers("floor.joists.supportsMM", unit.Any(unit.Along), 2, mostSupports, []float64{0, 2400},
				func(j *Job) *[]float64 { return &j.Floor.Joists.SupportsMM }, asTyped).when(overJoists),
			figure("floor.joists.bearingMM", unit.Length, 0, 300, 5, timber,
				func(j *Job) *float64 { return &j.Floor.Joists.BearingMM }),
			flag("floor.joists.engineered", func(j *Job) *bool { return &j.Floor.Joists.Engineered }).when(overJoists),
			flag("floor.joists.damp", func(j *Job) *bool { return &j.Floor.Joists.Damp }).when(overJoists),
			flag("floor.ceilingBelow", func(j *Job) *bool { return &j.Floor.CeilingBelow }).when(overJoists),
			things(trimList()).when(overJoists),
			things(existingList()),
			readOn())...)
}

// overJoists tells that the structural floor is of joists.
func overJoists(j *Job) bool { return timber(*j) }

// nextCorner is a corner in the middle of the last wall, from where it can be moved out or in.
func nextCorner(j *Job) []float64 {
	n := len(j.Room.Outline)
	if n < leastCorners {
		return nil
	}
	at := j.Room.Outline[n-1].Add(j.Room.Outline[0]).Mul(0.5)
	return []float64{at.X(), at.Y()}
}

// showerInputs are those of the shower.
func showerInputs() []Input {
	return append(
		rows(StationShower, true,
			wallOf("shower.wall", func(j *Job) *int { return &j.Shower.Wall }),
			figure("shower.offsetMM", unit.Along, 0, 20000, 10, nil,
				func(j *Job) *float64 { return &j.Shower.OffsetMM }),
			figure("shower.widthMM", unit.Along, 300, 10000, 10, nil,
				func(j *Job) *float64 { return &j.Shower.WidthMM }),
			figure("shower.depthMM", unit.Along, 300, 10000, 10, nil,
				func(j *Job) *float64 { return &j.Shower.DepthMM }),
			pick("room.edge", EdgeKinds(), func(j *Job) *EdgeKind { return &j.Room.Edge }).
				when(func(j *Job) bool { return j.Former.Fall != FallRoom }),
			figure("room.rampRunMM", unit.Along, 0, 4000, 50, func(j Job) bool { return j.Room.Edge == EdgeRamp },
				func(j *Job) *float64 { return &j.Room.RampRunMM }),
			things(screenList())),
		rows(StationShower, false,
			things(kerbList()),
			flag("accessible", func(j *Job) *bool { return &j.Accessible }))...)
}

// Colours are the colours to choose tiles and grout from, by plain names.
func Colours() []Option {
	return []Option{
		{"#f1eee8", message.Of("colour.off-white")}, {"#e4ded4", message.Of("colour.cream")},
		{"#d2c6b4", message.Of("colour.beige")}, {"#b7a996", message.Of("colour.grey-beige")},
		{"#a07f66", message.Of("colour.light-brown")}, {"#8d9a8c", message.Of("colour.grey-green")},
		{"#5d7673", message.Of("colour.blue-green")}, {"#3f5c54", message.Of("colour.dark-green")},
		{"#6d7f86", message.Of("colour.blue-grey")}, {"#40525f", message.Of("colour.dark-blue-grey")},
		{"#77736d", message.Of("colour.grey")}, {"#3b3a3a", message.Of("colour.dark-grey")},
	}
}

// usualGrout is what grout is called whose colour nobody states.
func usualGrout() message.Message { return message.Of("colour.grey") }

// GroutWord is what the colour of grout is called; ok is false for one that has no name.
func GroutWord(colour string) (word message.Message, ok bool) {
	if colour == "" {
		return usualGrout(), true
	}
	return ColourWord(colour)
}

// ColourWord is what a colour is called; ok is false for one that has no name.
func ColourWord(colour string) (word message.Message, ok bool) {
	for _, o := range Colours() {
		if o.Value == colour {
			return o.Word, true
		}
	}
	return message.Message{}, false
}
