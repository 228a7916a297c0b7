package rule

import "strconv"

// Thing is a kind of part or place that is measured.
type Thing uint8

// The things. Some are one of several and have a number.
const (
	TheShower Thing = iota + 1
	ShowerTile
	Base
	BaseBoard
	Former
	StructuralFloor
	SpotLevel // numbered
	Plane     // of the falling floor, numbered
	Drain
	DrainCover
	DrainChannelByJoist // the number is the joist's
	DrainChannelByFloor
	DrainChannelByDeck
	DrainChannelByWall // the number is the wall's
	Trap
	TrapAndWaste
	TrapInJoist // the number is the joist's
	TrapByDeck
	TrapByWall // the number is the wall's
	TrapOutlet
	WasteRun
	WasteRunOfSize // the number is the pipe's nominal size in whole millimetres
	WasteRunAndMembrane
	Piece        // of the run, numbered
	PieceByJoist // of the run, and the joist's number
	PieceByWall  // of the run, and the wall's number
	PieceByPiece // of the run, by the number of the other; the name is both names
	PieceByTrap
	PieceByChannel
	PieceByDeck
	PieceByDoorway // of the run, and the doorway's number
	Leg            // of the run, numbered
	BendAt         // a corner of the run, numbered
	InLineFitting
	Exit
	ExitInWall // the number is the wall's
	ExistingPipeEnd
	DropThroughFloor
	Joists
	JoistsUncut
	JoistCut // by a piece of the run, and the joist's number
	TimberFloor
	TileAndBoards
	FloorTile
	OpenEdge // numbered
	Doorway  // numbered
	SpillsAt // a place, by its name
	BuiltLevel
	NextStep
)

// Subject is the part or place that is measured. Subjects are equal when they are
// the same one, whatever the numbers of the job.
type Subject struct {
	Of Thing
	// Number tells it from others of its kind, counted from one; 0 for the only
	// one. Of a pair it is what the piece of the run meets.
	Number int
	// Piece is the piece of the run that is meant, counted from one; 0 for none.
	Piece int
	// Name is what people call it where the kind does not say so: of a piece, an
	// edge, a place.
	Name string
}

// String is what people call it.
func (s Subject) String() string {
	number := strconv.Itoa(s.Number)
	switch s.Of {
	case TheShower:
		return "Shower"
	case ShowerTile:
		return "Shower tile"
	case Base:
		if s.Name != "" {
			return "Base: " + s.Name
		}
		return "Base"
	case BaseBoard:
		return "Base board"
	case Former:
		return "Former"
	case StructuralFloor:
		return "Structural floor"
	case SpotLevel:
		return "Spot level " + number
	case Plane:
		return "Plane " + number
	case Drain:
		return "Drain"
	case DrainCover:
		return "Drain cover"
	case DrainChannelByJoist:
		return "Drain channel, joist " + number
	case DrainChannelByFloor:
		return "Drain channel, floor"
	case DrainChannelByDeck:
		return "Drain channel, deck"
	case DrainChannelByWall:
		return "Drain channel, wall " + number
	case Trap:
		return "Trap"
	case TrapByDeck:
		return "Trap, deck"
	case TrapByWall:
		return "Trap, wall " + number
	case TrapAndWaste:
		return "Trap and waste"
	case TrapInJoist:
		return "Joist " + number
	case TrapOutlet:
		return "Trap outlet"
	case WasteRun:
		return "Waste run"
	case WasteRunOfSize:
		return "Waste run, " + number + " mm pipe"
	case WasteRunAndMembrane:
		return "Waste run and membrane"
	case PieceByJoist:
		return s.Name + ", joist " + number
	case PieceByWall:
		return s.Name + ", wall " + number
	case PieceByTrap:
		return s.Name + ", trap"
	case PieceByChannel:
		return s.Name + ", drain channel"
	case PieceByDeck:
		return s.Name + ", deck"
	case PieceByDoorway:
		return s.Name + ", doorway " + number
	case Leg:
		return "Leg " + number
	case Exit:
		return "Exit"
	case ExitInWall:
		return "Exit, wall " + number
	case ExistingPipeEnd:
		return "Existing pipe end"
	case DropThroughFloor:
		return "Drop through the floor"
	case Joists:
		return "Joists"
	case JoistsUncut:
		return "Joists, uncut"
	case JoistCut:
		return "Joist " + number + ", " + s.Name
	case TimberFloor:
		return "Timber floor"
	case TileAndBoards:
		return "Tile and boards"
	case FloorTile:
		return "Floor tile"
	case Doorway:
		return "Doorway " + number
	}
	return s.Name
}

// ID names the subject from one evaluation to the next. It is no text for people.
func (s Subject) ID() string {
	id := strconv.Itoa(int(s.Of))
	if s.Number != 0 || s.Piece != 0 {
		id += "." + strconv.Itoa(s.Number) + "." + strconv.Itoa(s.Piece)
	}
	switch s.Of {
	case SpillsAt, BuiltLevel, NextStep:
		id += "." + s.Name
	}
	return id
}
