package question

import (
	"math"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// Practice is what is usual in a country: what stands in for whatever is not answered.
type Practice struct {
	start job.Job
	shelf part.Shelf
	// Sizes of the usual room, its door and its shower.
	longMM, wideMM, doorWideMM, doorFromMM, showerLongMM, showerDeepMM float64
}

// PracticeIn is the practice of a region, with parts of a shelf.
func PracticeIn(region string, shelf part.Shelf) Practice {
	start := edit.Start(region, shelf)
	door := start.Room.Doorways[0]
	p := Practice{start: start, shelf: shelf, longMM: start.Room.WallLengthMM(0), wideMM: start.Room.WallLengthMM(1),
		doorWideMM: door.WidthMM, showerLongMM: start.Shower.WidthMM, showerDeepMM: start.Shower.DepthMM}
	p.doorFromMM = p.longMM - door.OffsetMM - door.WidthMM // wall A of the usual job, which is walked the other way round, begins at AB
	return p
}

// Begin is a sheet with nothing answered but the country.
func (p Practice) Begin() Sheet { return Sheet{Region: p.start.Region, Units: p.start.Units} }

// Region is the country whose practice it is.
func (p Practice) Region() string { return p.start.Region }

// round is what a length of nobody's measuring is rounded to: a quarter of an inch or a whole
// millimetre.
func (p Practice) round(mm float64) float64 {
	to := 1.0
	if p.start.Units == unit.Imperial {
		to = 25.4 / 4
	}
	return math.Round(mm/to) * to
}

// Entry is one of a sheet's answers that is a length.
type Entry string

// The lengths, in the order of the questions.
const (
	RoomLong   Entry = "room-long"
	RoomWide   Entry = "room-wide"
	CutLong    Entry = "cut-long"
	CutWide    Entry = "cut-wide"
	DoorWide   Entry = "door-wide"
	DoorFrom   Entry = "door-from"
	JoistDeep  Entry = "joist-deep"
	JoistWide  Entry = "joist-wide"
	JoistEvery Entry = "joist-every"
	ShowerLong Entry = "shower-long"
	ShowerDeep Entry = "shower-deep"
	ShowerFrom Entry = "shower-from"
	JoinFar    Entry = "join-far"
	Grating    Entry = "grating"
	WaterAlong Entry = "water-along"
	WaterAway  Entry = "water-away"
	PipeDeep   Entry = "pipe-deep"
	BranchDeep Entry = "branch-deep"
)

// Entries are all lengths, in the order of the questions.
func Entries() []Entry {
	return []Entry{RoomLong, RoomWide, CutLong, CutWide, DoorWide, DoorFrom, JoistDeep, JoistWide, JoistEvery, ShowerLong, ShowerDeep,
		ShowerFrom, JoinFar, Grating, WaterAlong, WaterAway, PipeDeep, BranchDeep}
}

// field is where a sheet keeps a length.
func (s *Sheet) field(e Entry) *Length {
	switch e {
	case RoomLong:
		return &s.Room.Long
	case RoomWide:
		return &s.Room.Wide
	case CutLong:
		return &s.Room.Cut.Long
	case CutWide:
		return &s.Room.Cut.Wide
	case DoorWide:
		return &s.Door.Wide
	case DoorFrom:
		return &s.Door.From
	case JoistDeep:
		return &s.Floor.Deep
	case JoistWide:
		return &s.Floor.Wide
	case JoistEvery:
		return &s.Floor.Every
	case ShowerLong:
		return &s.Shower.Long
	case ShowerDeep:
		return &s.Shower.Deep
	case JoinFar:
		return &s.Water.Far
	case Grating:
		return &s.Water.Grating
	case WaterAlong:
		return &s.Water.Along
	case WaterAway:
		return &s.Water.Away
	case PipeDeep:
		return &s.Water.Deep
	case BranchDeep:
		return &s.Water.Branch
	}
	return &s.Shower.From
}

// At is an answer.
func (s Sheet) At(e Entry) Length { return *s.field(e) }

// With is the sheet with another answer.
func (s Sheet) With(e Entry, l Length) Sheet {
	*s.field(e) = l
	return s
}

// Asked tells whether a sheet asks for a length as it stands.
func (s Sheet) Asked(e Entry) bool {
	switch e {
	case RoomLong, RoomWide:
		return s.Room.Shape != WallByWall
	case CutLong, CutWide:
		return s.Room.Shape == LShaped
	case JoistDeep, JoistWide, JoistEvery:
		return s.Floor.Is == Timber
	case ShowerFrom:
		return s.Shower.Stands == AtWall
	case JoinFar:
		return s.Water.To == GoesOutThroughWall && (s.Water.Joins == JoinsGully || s.Water.Joins == JoinsStack || s.Water.Joins == JoinsDrain)
	case Grating:
		return s.Water.To == GoesOutThroughWall && s.Water.Joins == JoinsGully
	case WaterAlong, WaterAway:
		return s.Water.To == GoesIntoPipe || s.Water.To == GoesIntoStack
	case PipeDeep:
		return s.Water.To == GoesIntoPipe
	case BranchDeep:
		return s.Water.To == GoesIntoStack
	}
	return true
}

// Bounds are the lengths that make sense at all as an answer. Rooms are those of dwellings, others as
// a job has them. Common practice, no source.
func (e Entry) Bounds() (leastMM, greatestMM float64) {
	switch e {
	case RoomLong, RoomWide:
		return 600, 20000
	case CutLong, CutWide:
		return 50, 19000
	case DoorWide:
		return 300, 3000
	case JoistDeep:
		return 50, 600
	case JoistWide:
		return 20, 300
	case JoistEvery:
		return 100, 2000
	case ShowerLong, ShowerDeep:
		return 300, 10000
	case Grating, PipeDeep, BranchDeep:
		return 0, 5000
	}
	return 0, 20000
}

// Kind is what kind of number an answer is: depths, levels, and the distance of joists, which is called
// by its inches, are no lengths along the floor.
func (e Entry) Kind() unit.Kind {
	switch e {
	case JoistDeep, JoistWide, JoistEvery, Grating, PipeDeep, BranchDeep:
		return unit.Length
	}
	return unit.Along
}

// length is an answer as it is said, in whole millimetres.
func (e Entry) length(name string, mm float64) message.Arg {
	if e.Kind() == unit.Along {
		return message.Along(name, mm)
	}
	return message.MM(name, mm)
}

// UsualMM is what stands in for a length that is not answered: from the country's practice, as the
// room of the sheet has room for it. Not a number where nothing does.
func (p Practice) UsualMM(s Sheet, e Entry) float64 {
	cutLong, cutWide := p.cutMM(s)
	st := p.Stand(s)
	switch e {
	case RoomLong:
		return p.longMM
	case RoomWide:
		return p.wideMM
	case CutLong:
		return cutLong
	case CutWide:
		return cutWide
	case DoorWide, DoorFrom:
		wide, from := p.doorMM(s)
		if e == DoorWide {
			return wide
		}
		return from
	case JoistDeep:
		return p.start.Floor.Joists.DepthMM
	case JoistWide:
		return p.start.Floor.Joists.WidthMM
	case JoistEvery:
		return p.start.Floor.Joists.SpacingMM
	case ShowerLong:
		return st.LongMM
	case ShowerDeep:
		return st.DeepMM
	case JoinFar:
		return p.round(job.UsualBeyond().LengthMM)
	case Grating, PipeDeep, BranchDeep:
		return math.NaN()
	case WaterAlong, WaterAway:
		at := p.foundPlace(s)
		if e == WaterAlong {
			return at.X()
		}
		return at.Y()
	}
	return st.OffsetMM
}

// Door is how wide the door is and how far from where wall A begins, which is its corner with the last wall.
func (p Practice) Door(s Sheet) (wideMM, fromMM float64) { return p.doorMM(s) }

// Wall is what a wall counts as: how thick it is, and of what kind.
func (p Practice) Wall(s Sheet, wall int) job.Wall {
	if p.IsOutside(s, wall) {
		return p.start.Room.Walls[3]
	}
	return p.start.Room.Walls[0]
}

// doorMM is how wide the door is and how far from where wall A begins. One whose place was not said moves along
// its wall until it has room.
func (p Practice) doorMM(s Sheet) (wideMM, fromMM float64) {
	outline := p.Outline(s)
	wall := wallMM(outline, 0)
	wideMM = s.Door.Wide.or(math.Min(p.doorWideMM, p.round(wall*doorShare)))
	return wideMM, s.Door.From.or(math.Max(0, math.Min(p.doorFromMM, p.round(wall-wideMM-doorPostMM))))
}

// A door that was not answered takes at most so much of a short wall, and keeps so far from the next.
// Common practice, no source.
const (
	doorShare  = 0.8
	doorPostMM = 50
)
