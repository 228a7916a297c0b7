package rule

import (
	"strconv"
	"strings"

	"underfall/geometry/message"
)

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
	DrainChannelByWall // the number is the wall's letter
	Trap
	TrapAndWaste
	TrapInJoist // the number is the joist's
	TrapByDeck
	TrapByWall // the number is the wall's letter
	TrapOutlet
	WasteRun
	WasteRunOfSize // the number is the pipe's nominal size in whole millimetres
	WasteRunAndMembrane
	Piece        // of the run, numbered
	PieceByJoist // of the run, and the joist's number
	PieceByWall  // of the run, and the wall's number
	PieceByPiece // of the run, and the other's number; Which is the other's kind
	PieceByTrap
	PieceByChannel
	PieceByDeck
	PieceByDoorway // of the run, and the doorway's number
	Leg            // of the run, between a piece and the other's number, Which is the other's kind; to the exit without one
	InLineFitting  // numbered
	Exit
	ExitInWall // the number is the wall's letter
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
	SpillsAt // an edge, or the doorway of that number
	BuiltLevel
	OffPlan // what lies too high or too low for what comes next
	Creases // between planes of the falling floor
	LevelFloor
	ExistingMembrane
	SetDownSlab
	WallTanking
	FloorTanking
	FloorJoints
	HeatingMat
	TileOnPlane // the number is the largest tile that lies whole in its plane, in whole millimetres
	Screen      // numbered
	ShowerHead
	ShowerKerb
	WasteRunToVent
	Vent
	PieceByStack // of the run, and the stack's number
	TrapByStack  // the number is the stack's
	DrainChannelByStack
	Stack         // numbered
	DampCourse    // the number is the wall's letter
	CoreByDoorway // the number is the doorway's
	CoreByWindow  // the number is the window's
	BoardsLetIn   // the number is the bay's
	DeckEdge      // the number is the bay's
	DeckBeside
	Deck
	Ledgers
	Gully
	Pump
	Fixture        // numbered
	PieceByFixture // of the run, and the fixture's number
	RoomFloor
	Window // numbered
	ExtraLayers
	RampByWall    // the number is the wall's letter, Which where the ramp's edge is
	CutOutOfJoist // the number is the joist's, the part which of its openings, between the joists that carry it
	JoistEnds
	MeasuredRoom // as it was measured with a tape
	LaserReading // numbered
)

// Which timber of the floor is meant, where it is no whole joist.
const (
	CutJoistPiece message.ID = "subject.cut-joist"
	SecondJoist   message.ID = "subject.second-joist"
	Trimmer       message.ID = "subject.trimmer"
)

// Subject is the part or place that is measured. Subjects are equal when they are
// the same one, whatever the numbers of the job. It is made for every measurement of
// every sample: ids and numbers alone.
type Subject struct {
	Of Thing
	// Number tells it from others of its kind, counted from one; 0 for the only
	// one. Of a pair it is what the piece of the run meets. A wall's is its letter.
	Number int
	// From is the wall that joists and bays between them are counted from.
	From message.Letter
	// Piece is the piece of the run that is meant; zero for none.
	Piece message.Numbered
	// Part tells parts of what has the number apart, from one; 0 for the whole.
	Part int
	// Between are the numbers of two more of its kind that it lies between.
	Between [2]int
	// Which one it is where the kind does not say so: of an edge, its side; of a base
	// that is too low, what keeps it up; of two pieces and of a leg between them, the other's kind; of a timber of
	// the floor, its kind; of a fixture, its kind, or empty.
	Which message.ID
}

// name is the id by which the thing is called, where no other id says it.
func (t Thing) name() message.ID {
	return [...]message.ID{
		TheShower:           "subject.shower",
		ShowerTile:          "subject.shower-tile",
		Base:                "subject.base",
		BaseBoard:           "subject.base-board",
		Former:              "subject.former",
		StructuralFloor:     "subject.structural-floor",
		SpotLevel:           "subject.spot-level",
		Plane:               "subject.plane",
		Creases:             "subject.creases",
		LevelFloor:          "subject.level-floor",
		TileOnPlane:         "subject.tile-on-plane",
		ExistingMembrane:    "subject.existing-membrane",
		SetDownSlab:         "subject.set-down-slab",
		WallTanking:         "subject.wall-tanking",
		FloorTanking:        "subject.floor-tanking",
		FloorJoints:         "subject.floor-joints",
		HeatingMat:          "subject.heating-mat",
		Screen:              "subject.screen",
		ShowerHead:          "subject.shower-head",
		ShowerKerb:          "subject.shower-kerb",
		Drain:               "subject.drain",
		DrainCover:          "subject.drain-cover",
		DrainChannelByJoist: "subject.drain-channel-by-joist",
		DrainChannelByFloor: "subject.drain-channel-by-floor",
		DrainChannelByDeck:  "subject.drain-channel-by-deck",
		DrainChannelByWall:  "subject.drain-channel-by-wall",
		Trap:                "subject.trap",
		TrapAndWaste:        "subject.trap-and-waste",
		TrapInJoist:         "subject.trap-in-joist",
		TrapByDeck:          "subject.trap-by-deck",
		TrapByWall:          "subject.trap-by-wall",
		TrapOutlet:          "subject.trap-outlet",
		WasteRun:            "subject.waste-run",
		WasteRunToVent:      "subject.waste-run-to-vent",
		Vent:                "subject.vent",
		WasteRunOfSize:      "subject.waste-run-of-size",
		WasteRunAndMembrane: "subject.waste-run-and-membrane",
		PieceByJoist:        "subject.piece-by-joist",
		PieceByWall:         "subject.piece-by-wall",
		PieceByPiece:        "subject.piece-by-piece",
		PieceByTrap:         "subject.piece-by-trap",
		PieceByChannel:      "subject.piece-by-channel",
		PieceByStack:        "subject.piece-by-stack",
		TrapByStack:         "subject.trap-by-stack",
		DrainChannelByStack: "subject.drain-channel-by-stack",
		Stack:               "subject.stack",
		DampCourse:          "subject.damp-course",
		CoreByDoorway:       "subject.core-by-doorway",
		CoreByWindow:        "subject.core-by-window",
		BoardsLetIn:         "subject.boards-let-in",
		DeckEdge:            "subject.deck-edge",
		DeckBeside:          "subject.deck-beside",
		Deck:                "subject.deck",
		Ledgers:             "subject.ledgers",
		Gully:               "subject.gully",
		Pump:                "subject.pump",
		Fixture:             "subject.fixture",
		PieceByFixture:      "subject.piece-by-fixture",
		RoomFloor:           "subject.room-floor",
		Window:              "subject.window",
		ExtraLayers:         "subject.extra-layers",
		CutOutOfJoist:       "subject.cut-out-of-joist",
		JoistEnds:           "subject.joist-ends",
		PieceByDeck:         "subject.piece-by-deck",
		PieceByDoorway:      "subject.piece-by-doorway",
		Leg:                 "subject.leg",
		InLineFitting:       "subject.in-line-fitting",
		Exit:                "subject.exit",
		ExitInWall:          "subject.exit-in-wall",
		ExistingPipeEnd:     "subject.existing-pipe-end",
		DropThroughFloor:    "subject.drop-through-floor",
		Joists:              "subject.joists",
		JoistsUncut:         "subject.joists-uncut",
		JoistCut:            "subject.joist-cut",
		TimberFloor:         "subject.timber-floor",
		TileAndBoards:       "subject.tile-and-boards",
		FloorTile:           "subject.floor-tile",
		Doorway:             "subject.doorway",
		RampByWall:          "subject.ramp-by-wall",
		MeasuredRoom:        "subject.measured-room",
		LaserReading:        "subject.laser-reading",
	}[t]
}

// Message is what people call it.
func (s Subject) Message() message.Message {
	switch s.Of {
	case Piece:
		return s.Piece.Message()
	case Base:
		if s.Which == "" {
			return message.Of(Base.name())
		}
		bound := message.Of(s.Which)
		if s.Piece.Number != 0 {
			bound = bound.With(message.In("piece", s.Piece.Message()))
		}
		return message.Of("subject.base-kept-up", message.In("bound", bound))
	case InLineFitting:
		return message.Of(s.Of.name(), message.In("which", message.Of(s.Which)), message.No("number", s.Number))
	case SpillsAt:
		if s.Which == "" {
			return message.Of(Doorway.name(), message.No("number", s.Number))
		}
		return message.Of(s.Which)
	case OpenEdge, BuiltLevel, OffPlan:
		return message.Of(s.Which)
	case Fixture:
		if s.Which != "" {
			return message.Of("subject.fixture-called", message.In("which", message.Of(s.Which)), message.No("number", s.Number))
		}
	case RampByWall:
		return message.Of(s.Of.name(), message.In("at", message.Of(s.Which)), s.wall())
	case Leg:
		piece := message.In("piece", s.Piece.Message())
		if s.Which == "" {
			return message.Of("subject.leg-to-exit", piece)
		}
		return message.Of(s.Of.name(), piece, message.In("other", message.Numbered{ID: s.Which, Number: s.Number}.Message()))
	case PieceByPiece:
		other := message.Numbered{ID: s.Which, Number: s.Number}
		return message.Of(s.Of.name(), message.In("piece", s.Piece.Message()), message.In("other", other.Message()))
	case DrainChannelByJoist, TrapInJoist, PieceByJoist, JoistCut:
		m := message.Of(s.Of.name())
		if s.Piece.Number != 0 {
			m = m.With(message.In("piece", s.Piece.Message()))
		}
		return m.With(message.In("joist", s.timber()))
	case CutOutOfJoist:
		return message.Of(s.Of.name(), message.No("number", s.Number), message.Wall("wall", s.From),
			message.No("before", s.Between[0]), message.No("after", s.Between[1]))
	case DrainChannelByWall, TrapByWall, ExitInWall, DampCourse:
		return message.Of(s.Of.name(), s.wall())
	case PieceByWall:
		return message.Of(s.Of.name(), message.In("piece", s.Piece.Message()), s.wall())
	case WasteRunOfSize:
		return message.Of(s.Of.name(), message.Nominal("size", float64(s.Number)))
	case TileOnPlane:
		return message.Of(s.Of.name(), message.MM("size", float64(s.Number)))
	}
	m := message.Of(s.Of.name())
	if s.Piece.Number != 0 {
		m = m.With(message.In("piece", s.Piece.Message()))
	}
	if s.Number != 0 {
		m = m.With(message.No("number", s.Number))
	}
	if s.From != 0 {
		m = m.With(message.Wall("wall", s.From))
	}
	return m
}

// WallLetter is the letter of the wall that the subject is of; 0 where it is of none.
func (s Subject) WallLetter() message.Letter {
	switch s.Of {
	case RampByWall, DrainChannelByWall, TrapByWall, ExitInWall, DampCourse, PieceByWall:
		return message.Letter(s.Number)
	}
	return 0
}

// wall is the wall whose letter the number is.
func (s Subject) wall() message.Arg { return message.Wall("wall", message.Letter(s.Number)) }

// timber is which timber of the floor is meant.
func (s Subject) timber() message.Message {
	number, from := message.No("number", s.Number), message.Wall("wall", s.From)
	switch s.Which {
	case "":
		return message.Of("subject.joist", number, from)
	case CutJoistPiece:
		return message.Of(s.Which, number, from, message.No("part", s.Part))
	}
	return message.Of(s.Which, number)
}

// String shows ids and numbers to whoever mends the program, as in "pipe 1,
// piece-by-wall 3".
func (s Subject) String() string {
	var parts []string
	add := func(id message.ID, number int) {
		if id == "" {
			return
		}
		name := string(id[strings.Index(string(id), ".")+1:])
		if number != 0 {
			name += " " + strconv.Itoa(number)
		}
		parts = append(parts, name)
	}
	add(s.Piece.ID, s.Piece.Number)
	switch s.Of {
	case Piece:
	case OpenEdge:
		parts = append(parts, "open-edge "+strconv.Itoa(s.Number))
	case SpillsAt:
		parts = append(parts, "spills-at "+strconv.Itoa(s.Number))
	case BuiltLevel:
		parts = append(parts, "built-level")
	case OffPlan:
		parts = append(parts, "off-plan")
	case DrainChannelByWall, TrapByWall, ExitInWall, DampCourse, PieceByWall, RampByWall:
		add(s.Of.name(), 0)
		parts[len(parts)-1] += " " + message.Letter(s.Number).String()
	default:
		add(s.Of.name(), s.Number)
	}
	add(s.Which, s.Part)
	return strings.Join(parts, ", ")
}

// ID names the subject from one evaluation to the next. It is no text for people.
func (s Subject) ID() string {
	id := strconv.Itoa(int(s.Of))
	piece, number := s.Piece.Number, s.Number
	switch s.Of {
	case Base:
		piece = 0
	case TileOnPlane, RampByWall:
		number = 0
	}
	if number != 0 || piece != 0 {
		id += "." + strconv.Itoa(number) + "." + strconv.Itoa(piece)
	}
	if s.Part != 0 {
		id += "." + strconv.Itoa(s.Part)
	}
	switch s.Of {
	case SpillsAt, BuiltLevel, OffPlan, RampByWall:
		id += "." + string(s.Which)
	case DrainChannelByJoist, TrapInJoist, PieceByJoist, JoistCut:
		if s.Which != "" {
			id += "." + string(s.Which)
		}
	}
	return id
}
