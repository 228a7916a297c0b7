package buildup

import "underfall/geometry/material"

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

// String names the stage.
func (s Stage) String() string {
	return [...]string{"Bare floor", "Base", "Trap and waste", "Former and drain", "Tanking", "Wall tile", "Floor tile"}[s]
}

// Kind is a kind of layer in a floor.
type Kind int

// The kinds of layer, as they come up from the structure.
const (
	Structure Kind = iota // what the others stand on; without thickness
	BaseBed
	BaseBetweenJoists
	Base
	FormerBed
	Former
	ShowerTanking
	ShowerBed
	ShowerTile
	RoomBase
	ExistingFinish
	RoomTanking
	RoomBed
	RoomTile
	Ramp
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
	Name     string // in a list of layers
	PartID   string // of its body
	PartName string
	Material material.Material
	Stage    Stage
	Extent   Extent
	Key      string // of the job's number it comes from; empty for none
	// ThicknessKey is of the number that its thickness is; empty where none is.
	ThicknessKey string
}

// Facts of a kind. This is the one table of layers: a kind in it and its place
// in Of make a layer of levels, schedule, bodies, sections and loads.
func (k Kind) Facts() Facts {
	return [kinds]Facts{
		Structure:         {Name: "Structural floor"},
		BaseBed:           {"Adhesive under base", "adhesive", "Adhesive bed under the base", material.Adhesive, StageBase, BesideChannel, "base.adhesiveMM", "base.adhesiveMM"},
		BaseBetweenJoists: {"Base between joists", "base-let-in", "Base boards between joists", material.BaseBoard, StageBase, BesideChannel, "base.minThicknessMM", ""},
		Base:              {"Base", "base", "Base", material.BaseBoard, StageBase, BesideChannel, "base.heightMM", "base.heightMM"},
		FormerBed:         {"Bed under former", "former-bed", "Bed under the former", material.Adhesive, StageFormer, BesideChannel, "former.bedMM", "former.bedMM"},
		Former:            {"Former", "former", "Former", material.FormerBody, StageFormer, RoundDrain, "former.slope", "former.thicknessAtDrainMM"},
		ShowerTanking:     {"Shower tanking", "tanking", "Tanking membrane", material.Membrane, StageTanking, RoundDrain, "layers.shower.tanking.thicknessMM", ""},
		ShowerBed:         {"Shower tile bed", "tile-bed", "Tile bed", material.TileBed, StageTile, InsideTile, "layers.shower.bed.thicknessMM", ""},
		ShowerTile:        {"Shower tile", "tile", "Shower floor tile", material.Tile, StageTile, InsideTile, "layers.shower.tile.thicknessMM", "layers.shower.tile.thicknessMM"},
		RoomBase:          {"Room base", "room-base", "Raised base in the room", material.BaseBoard, StageBase, BesideChannel, "room.edge", ""},
		ExistingFinish:    {"Existing finish", "room-finish", "Existing floor finish", material.Screed, StageBare, Whole, "floor.finishThicknessMM", ""},
		RoomTanking:       {"Room tanking", "room-tanking", "Room tanking", material.Membrane, StageTanking, Whole, "layers.room.tanking.thicknessMM", ""},
		RoomBed:           {"Room tile bed", "room-bed", "Room tile bed", material.TileBed, StageTile, Whole, "layers.room.bed.thicknessMM", ""},
		RoomTile:          {"Room tile", "room-tile", "Room floor tile", material.Tile, StageTile, Whole, "layers.room.tile.thicknessMM", ""},
		Ramp:              {"Ramp", "ramp", "Ramp", material.Tile, StageTile, Whole, "room.rampRunMM", ""},
	}[k]
}
