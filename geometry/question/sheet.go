// Package question is how a job begins: six questions about a room and the shower that is to
// go into it. A Sheet holds what has been answered so far, in any order; Practice.Job makes a
// job of it in which what is usual in the country stands in for the rest.
//
// The wall one comes in by is A. The walls are lettered on from there to the left of who
// stands in its door: clockwise, seen from above. A corner is called by its two walls.
package question

import "underfall/geometry/unit"

// Length is an answer in millimetres; where it is not given, the usual stands in.
type Length struct {
	MM    float64
	Given bool
}

// Given is a length that was answered.
func Given(mm float64) Length { return Length{mm, true} }

// or is the length, or what stands in for it.
func (l Length) or(usualMM float64) float64 {
	if l.Given {
		return l.MM
	}
	return usualMM
}

// Sheet is the answers to the six questions so far: a value to be compared and copied. The
// zero value of each answer is that it has not been given.
type Sheet struct {
	// Name is what the job is to be called; empty while nobody said.
	Name string
	// Region is the country whose practice stands in for what is not answered, Units what
	// lengths are typed and told in.
	Region string
	Units  unit.System
	Room   Room
	Door   Door
	Floor  Floor
	Shower Shower
	Water  Water
	// Outside are the walls that were said to have no room behind them.
	Outside Walls
	// Said is what was said of the floor beside the questions; nil for nothing.
	Said *Said `json:"-"`
}

// Room is its shape between bare walls.
type Room struct {
	Shape Shape
	// Long, along wall A, and Wide, away from it, are of a rectangle or of the one that an L-shaped
	// room is cut out of. Turned, it is the other way round, with its cut.
	Long, Wide Length
	Turned     bool
	Cut        Cut
	// Drawn are the walls of a room of neither shape.
	Drawn Drawn
}

// Shape is what shape a room has.
type Shape uint8

// The shapes; one of any other is drawn wall by wall.
const (
	Rectangle Shape = iota
	LShaped
	WallByWall
)

// Cut is what an L-shaped room lacks of its rectangle: a smaller one in a corner.
type Cut struct {
	At Quarter
	// Long is the way that the room's Long is, Wide the way that its Wide is.
	Long, Wide Length
}

// Quarter is a corner of the rectangle round the room, in the order of its walls.
type Quarter uint8

// The corners: far ones are away from wall A; left and right as one comes in.
const (
	FarLeft Quarter = iota
	FarRight
	NearRight
	NearLeft
)

// Door is in wall A.
type Door struct {
	Wide Length
	// From is from where wall A begins, its corner with the last wall, to the nearer side of the opening.
	From Length
}

// FloorIs is what is under the floor.
type FloorIs uint8

// What it may be.
const (
	FloorNotKnown FloorIs = iota
	Concrete
	Timber
)

// Runs is which way joists run.
type Runs uint8

// The ways.
const (
	RunsNotKnown Runs = iota
	AlongA            // as wall A does
	FromA             // away from wall A
)

// Floor is what the floor stands on.
type Floor struct {
	Is FloorIs
	// Said tells that the question was answered, be it by not known.
	Said bool
	// The rest is of joists: Every is between centres.
	Runs              Runs
	Deep, Wide, Every Length
}

// Stands is where a shower may stand.
type Stands uint8

// The places; one that was not chosen is in the corner farthest to the left, across from wall A.
const (
	StandsUsually Stands = iota
	InCorner
	AtWall
)

// Shower is where it goes and how large it is.
type Shower struct {
	Stands Stands
	// Wall is the one it stands at; of one in a corner the first of the corner's two, by
	// their letters.
	Wall int
	// Turned tells that its long side lies along the other wall of its corner.
	Turned     bool
	Long, Deep Length
	// From is how far along its wall one that stands at a wall begins, from the wall's start.
	From Length
}

// GoesTo is where water can go.
type GoesTo uint8

// The ways out. Assumed is through the wall beside the shower.
const (
	GoesAssumed GoesTo = iota
	GoesOutThroughWall
	GoesIntoPipe
	GoesIntoStack
	GoesNotKnown
)

// Water is where it can leave.
type Water struct {
	To GoesTo
	// Wall is the one it goes out through.
	Wall int
	// Joins is what it joins outside of that wall, Far how far from the wall's outer face; Grating is how
	// far a gully's grating lies below the floor that the room is built on.
	Joins        Joins
	Far, Grating Length
	// Along and Away are where the pipe or the stack is, along wall A from corner AB and away from wall
	// A; where they are not given, a place is found. Deep is how far below the floor the pipe has its
	// bottom inside, Branch how far the branch of the stack has it that stands ready; not given where
	// none does.
	Along, Away, Deep, Branch Length
}

// Joins is what the water joins outside.
type Joins uint8

// What it may join. Where nobody said, what is usual in the country is assumed.
const (
	JoinsUsually Joins = iota
	JoinsGully
	JoinsStack
	JoinsDrain
	JoinsNotKnown
)

// Walls are some of a room's walls.
type Walls uint16

// Has tells whether a wall is one of them.
func (w Walls) Has(wall int) bool { return w&(1<<wall) != 0 }

// With are the walls with one more, or without one.
func (w Walls) With(wall int, in bool) Walls {
	if in {
		return w | 1<<wall
	}
	return w &^ (1 << wall)
}
