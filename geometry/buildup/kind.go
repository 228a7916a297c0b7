package buildup

import (
	"underfall/geometry/material"
	"underfall/geometry/message"
)

// Stage is a stage of the work.
type Stage int

// The stages in order.
const (
	StageBare Stage = iota
	StageBase
	StageWaste
	StageFormer
	StageTanking
	StageWallTile
	StageTile
	Stages // how many there are
)

// Message names the stage.
func (s Stage) Message() message.Message {
	return message.Of([...]message.ID{
		"stage.bare", "stage.base", "stage.waste", "stage.former", "stage.tanking", "stage.wall-tile", "stage.tile"}[s])
}

// Kind is a kind of layer in a floor.
type Kind int

// The kinds of layer, as they come up from the structure.
const (
	Structure     Kind = iota // what the others stand on; without thickness
	ExistingUnder             // found on the structural floor, and staying under the base
	Existing                  // and staying in the room
	BaseCourse                // under the base's bed
	BaseBed
	BaseBetweenJoists
	LowerBoard // of a stack, with the bed on it
	BoardBed
	Base // the board on top, or the base in one piece
	FormerBed
	Former
	ShowerCourse // under the tanking
	ShowerTanking
	ShowerBed
	ShowerTile
	RoomBaseBed    // under a raised room's base
	RoomLowerBoard // of its stack, with the bed on it
	RoomBoardBed
	RoomBase
	RoomLevelling // in its place where no board fits
	RampBase
	RoomCourse // under the tanking
	RoomTanking
	RoomBed
	RoomTile
	kinds // how many there are
)

// Extent is how much of its zone a layer takes.
type Extent int

// The extents.
const (
	Whole         Extent = iota
	BesideChannel        // sawn out for the trap and the pipe
	RoundDrain           // left out over the drain
	InsideTile           // left out over the drain and behind the walls' finish
)

// Facts are what is known of a kind of layer wherever it lies.
type Facts struct {
	Name     message.ID // in a list of layers
	PartID   string     // of its body
	PartName message.ID
	Material material.Material
	Stage    Stage
	Extent   Extent
	Key      string // of the job's number it comes from; empty for none
	// ThicknessKey is of the number that its thickness is; empty where none is.
	ThicknessKey string
}

// InStack tells whether a layer is one of several of its kind, numbered from the bottom up: a
// board under others, or the bed on it.
func (k Kind) InStack() bool {
	return k == LowerBoard || k == BoardBed || k == RoomLowerBoard || k == RoomBoardBed
}

// ofRoomBase tells whether a layer is of a raised room's base.
func (k Kind) ofRoomBase() bool { return k >= RoomBaseBed && k <= RoomLevelling }

// TopsBase tells whether a layer is the uppermost of a base: the shower's own, or a raised room's.
func (k Kind) TopsBase() bool { return k == Base || k == RoomBase || k == RoomLevelling }

// BesideShower tells whether a layer lies on the room's floor: a raised room's base, and a ramp.
func (k Kind) BesideShower() bool { return k.ofRoomBase() || k == RampBase }

// OfShowerBase tells whether a layer is sawn out for the drain: the boards of the shower's own
// base and former, with their beds.
func (k Kind) OfShowerBase() bool { return k.Facts().Extent == BesideChannel && !k.ofRoomBase() }

// Facts of a kind. This is the one table of layers: a kind in it and its place
// in Of make a layer of levels, schedule, bodies, sections and loads.
func (k Kind) Facts() Facts {
	return [kinds]Facts{
		Structure:     {Name: "layer.structure"},
		ExistingUnder: {"layer.existing", "existing-under", "part.existing-under", material.Screed, StageBare, Whole, "floor.existing", ""},
		Existing:      {"layer.existing", "existing", "part.existing", material.Screed, StageBare, Whole, "floor.existing", ""},
		BaseCourse:    {"layer.course", "base-course", "part.base-course", material.Mortar, StageBase, Whole, "base.under", ""},
		BaseBed: {"layer.base-bed", "adhesive", "part.adhesive",
			material.Adhesive, StageBase, BesideChannel, "base.adhesiveMM", "base.adhesiveMM"},
		BaseBetweenJoists: {"layer.base-between-joists", "base-let-in", "part.base-let-in",
			material.BaseBoard, StageBase, BesideChannel, "base.minThicknessMM", ""},
		LowerBoard: {"layer.lower-board", "lower-board", "part.lower-board",
			material.BaseBoard, StageBase, BesideChannel, "base.heightMM", ""},
		BoardBed: {"layer.board-bed", "board-bed", "part.board-bed",
			material.Adhesive, StageBase, BesideChannel, "base.betweenLeastMM", ""},
		Base: {"layer.base", "base", "part.base", material.BaseBoard, StageBase, BesideChannel, "base.heightMM", "base.heightMM"},
		FormerBed: {"layer.former-bed", "former-bed", "part.former-bed",
			material.Adhesive, StageFormer, BesideChannel, "former.bedMM", "former.bedMM"},
		Former: {"layer.former", "former", "part.former",
			material.FormerBody, StageFormer, RoundDrain, "former.slope", "former.thicknessAtDrainMM"},
		ShowerCourse: {"layer.course", "shower-course", "part.shower-course",
			material.Mortar, StageTanking, RoundDrain, "layers.shower.under", ""},
		ShowerTanking: {"layer.shower-tanking", "tanking", "part.tanking",
			material.Membrane, StageTanking, RoundDrain, "layers.shower.tanking.thicknessMM", ""},
		ShowerBed: {"layer.shower-bed", "tile-bed", "part.tile-bed",
			material.TileBed, StageTile, InsideTile, "layers.shower.bed.thicknessMM", ""},
		ShowerTile: {"layer.shower-tile", "tile", "part.tile",
			material.Tile, StageTile, InsideTile, "layers.shower.tile.thicknessMM", "layers.shower.tile.thicknessMM"},
		RoomBaseBed: {"layer.room-base-bed", "room-adhesive", "part.room-adhesive",
			material.Adhesive, StageBase, BesideChannel, "base.adhesiveMM", ""},
		RoomLowerBoard: {"layer.room-lower-board", "room-lower-board", "part.room-lower-board",
			material.BaseBoard, StageBase, BesideChannel, "room.edge", ""},
		RoomBoardBed: {"layer.room-board-bed", "room-board-bed", "part.room-board-bed",
			material.Adhesive, StageBase, BesideChannel, "base.betweenLeastMM", ""},
		RoomBase: {"layer.room-base", "room-base", "part.room-base", material.BaseBoard, StageBase, BesideChannel, "room.edge", ""},
		RoomLevelling: {"layer.room-levelling", "room-levelling", "part.room-levelling",
			material.Levelling, StageBase, BesideChannel, "room.edge", ""},
		RampBase:   {"layer.ramp", "ramp", "part.ramp", material.Mortar, StageBase, BesideChannel, "room.rampRunMM", ""},
		RoomCourse: {"layer.course", "room-course", "part.room-course", material.Mortar, StageTanking, Whole, "layers.room.under", ""},
		RoomTanking: {"layer.room-tanking", "room-tanking", "part.room-tanking",
			material.Membrane, StageTanking, Whole, "layers.room.tanking.thicknessMM", ""},
		RoomBed: {"layer.room-bed", "room-bed", "part.room-bed",
			material.TileBed, StageTile, Whole, "layers.room.bed.thicknessMM", ""},
		RoomTile: {"layer.room-tile", "room-tile", "part.room-tile",
			material.Tile, StageTile, Whole, "layers.room.tile.thicknessMM", ""},
	}[k]
}
