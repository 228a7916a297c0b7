package job

import (
	"fmt"
	"math"
	"slices"

	"underfall/geometry/unit"
)

// Group is a step of the survey and the build, in the order it is done.
type Group string

// The groups of parameters, in order.
const (
	GroupRoom   Group = "Room"
	GroupFloor  Group = "Structural floor"
	GroupShower Group = "Shower area"
	GroupBase   Group = "Base"
	GroupFormer Group = "Former and fall"
	GroupDrain  Group = "Drain and trap"
	GroupWaste  Group = "Waste run"
	GroupLayers Group = "Finishes"
	GroupWater  Group = "Water"
	GroupSpread Group = "Tolerances"
	GroupBuilt  Group = "As built"
)

// Groups in the order a fitter surveys and builds.
func Groups() []Group {
	return []Group{GroupRoom, GroupFloor, GroupShower, GroupBase, GroupFormer, GroupDrain, GroupWaste, GroupLayers, GroupWater, GroupSpread, GroupBuilt}
}

// Parameter is one single number of a job: where it is, what it means, which
// values it may have. The one row serves its entry field, its check, its
// place in messages and its tests.
type Parameter struct {
	Key   string // path in the job file
	Group Group
	Label string
	Help  string
	Kind  unit.Kind
	// Least and Greatest are the values that make sense at all; whether they
	// comply with a code is not decided here.
	Least, Greatest float64
	// Step is what an arrow key changes the value by.
	Step float64
	// Uses tells whether the job's geometry depends on the value.
	Uses  func(Job) bool
	field func(*Job) *float64
}

// Get reads the value from a job.
func (p Parameter) Get(j Job) float64 { return *p.field(&j) }

// With is the job with the value set.
func (p Parameter) With(j Job, v float64) Job {
	j = j.Clone()
	*p.field(&j) = v
	return j
}

// Check says in plain words why a value cannot be used.
func (p Parameter) Check(v float64, s unit.System) error {
	if math.IsNaN(v) || v < p.Least || v > p.Greatest {
		return fmt.Errorf("must be between %s and %s",
			unit.Format(p.Least, p.Kind, s), unit.Format(p.Greatest, p.Kind, s))
	}
	return nil
}

func timber(j Job) bool  { return j.Floor.Kind == FloorTimber }
func slab(j Job) bool    { return j.Floor.Kind == FloorSlab }
func linear(j Job) bool  { return j.Former.Fall.Linear() }
func atWall(j Job) bool  { return j.Former.Fall.Linear() && j.Former.Fall != FallMid }
func onFloor(j Job) bool { return j.Base.Support == OnFloor }
func always(Job) bool    { return true }
func fallStated(j Job) bool {
	_, exact := j.Waste.Exit.Level.ExactlyMM()
	return !exact
}
func roomTiled(j Job) bool {
	return !j.Floor.KeepsFinish() || j.Room.Edge == EdgeRaiseRoom || j.Former.Fall == FallRoom
}

// BaseHeightKey is the key of the height of the base, which is only used when
// it is chosen.
const BaseHeightKey = "base.heightMM"

// EachParameter gives all single numbers of a job, in the order of the groups.
// Nothing is set aside for it: a row is a line of a list that is part of the
// program, and its field is found without keeping anything.
func EachParameter(yield func(Parameter) bool) {
	for _, p := range [...]Parameter{
		{"room.heightMM", GroupRoom, "Room height", "From the structural floor to the ceiling.", unit.Length, 500, 6000, 50, always, func(j *Job) *float64 { return &j.Room.HeightMM }},
		{"room.rampRunMM", GroupRoom, "Ramp run", "Length of the ramp outside the open edge, measured level.", unit.Length, 0, 4000, 50, func(j Job) bool { return j.Room.Edge == EdgeRamp }, func(j *Job) *float64 { return &j.Room.RampRunMM }},

		{"floor.slabThicknessMM", GroupFloor, "Slab thickness", "Thickness of the concrete slab. Do not cut into a slab before you know what is in it.", unit.Length, 20, 1000, 5, slab, func(j *Job) *float64 { return &j.Floor.SlabThicknessMM }},
		{"floor.deck.thicknessMM", GroupFloor, "Deck thickness", "Thickness of the boards on the joists.", unit.Length, 5, 100, 1, timber, func(j *Job) *float64 { return &j.Floor.Deck.ThicknessMM }},
		{"floor.joists.depthMM", GroupFloor, "Joist depth", "Height of a joist.", unit.Length, 50, 600, 5, timber, func(j *Job) *float64 { return &j.Floor.Joists.DepthMM }},
		{"floor.joists.widthMM", GroupFloor, "Joist width", "Breadth of a joist.", unit.Length, 20, 300, 1, timber, func(j *Job) *float64 { return &j.Floor.Joists.WidthMM }},
		{"floor.joists.spacingMM", GroupFloor, "Joist spacing", "Between joist centre lines.", unit.Length, 100, 2000, 10, timber, func(j *Job) *float64 { return &j.Floor.Joists.SpacingMM }},
		{"floor.joists.directionDeg", GroupFloor, "Joist direction", "The way the joists run, from the X axis of the plan.", unit.Angle, -360, 360, 5, timber, func(j *Job) *float64 { return &j.Floor.Joists.DirectionDeg }},
		{"floor.joists.firstOffsetMM", GroupFloor, "First joist", "From the room's outermost point on the right-hand side, looking along the joists, to the first centre line.", unit.Length, -2000, 5000, 10, timber, func(j *Job) *float64 { return &j.Floor.Joists.FirstOffsetMM }},
		{"floor.finishThicknessMM", GroupFloor, "Existing finish kept", "Thickness of the existing floor finish that stays in the room; 0 when the room is newly tiled.", unit.Length, 0, 300, 1, always, func(j *Job) *float64 { return &j.Floor.FinishThicknessMM }},

		{"shower.offsetMM", GroupShower, "From the corner", "From the back wall's start corner to the shower.", unit.Length, 0, 20000, 10, always, func(j *Job) *float64 { return &j.Shower.OffsetMM }},
		{"shower.widthMM", GroupShower, "Width", "Along the back wall.", unit.Length, 300, 10000, 10, always, func(j *Job) *float64 { return &j.Shower.WidthMM }},
		{"shower.depthMM", GroupShower, "Depth", "Away from the back wall.", unit.Length, 300, 10000, 10, always, func(j *Job) *float64 { return &j.Shower.DepthMM }},

		{BaseHeightKey, GroupBase, "Base height", "Top of the base above its adhesive bed, or above the deck when let in between joists.", unit.Length, -600, 1000, 1, func(j Job) bool { return j.Base.Height == HeightChosen }, func(j *Job) *float64 { return &j.Base.HeightMM }},
		{"base.minThicknessMM", GroupBase, "Thinnest board", "The thinnest base board that may be used.", unit.Length, 0, 200, 1, always, func(j *Job) *float64 { return &j.Base.MinThicknessMM }},
		{"base.adhesiveMM", GroupBase, "Adhesive bed", "Least bed under the base; it levels out the floor.", unit.Length, 0, 50, 0.5, onFloor, func(j *Job) *float64 { return &j.Base.AdhesiveMM }},
		{"base.channelLeewayMM", GroupBase, "Channel leeway", "Room left each side of the trap and the pipe.", unit.Length, 0, 100, 1, always, func(j *Job) *float64 { return &j.Base.ChannelLeewayMM }},
		{"base.boardLengthMM", GroupBase, "Board length", "Length of a base board as bought.", unit.Length, 100, 5000, 10, always, func(j *Job) *float64 { return &j.Base.BoardLengthMM }},

		{"former.slope", GroupFormer, "Fall", "Fall of the tile to the drain, as 1:50, 2 %, 20 mm/m or 1/4 in/ft.", unit.Slope, 0, 0.25, 0.001, always, func(j *Job) *float64 { return &j.Former.Slope }},
		{"former.thicknessAtDrainMM", GroupFormer, "Thickness at the drain", "Former thickness where it is thinnest.", unit.Length, 0.5, 300, 1, always, func(j *Job) *float64 { return &j.Former.ThicknessAtDrainMM }},
		{"former.bedMM", GroupFormer, "Adhesive under former", "Bed between base and former.", unit.Length, 0, 30, 0.5, always, func(j *Job) *float64 { return &j.Former.BedMM }},

		{"drain.lengthMM", GroupDrain, "Drain length", "Along a linear drain.", unit.Length, 50, 6000, 10, linear, func(j *Job) *float64 { return &j.Drain.LengthMM }},
		{"drain.widthMM", GroupDrain, "Drain width", "Across a linear drain; the side of a point drain.", unit.Length, 20, 600, 1, always, func(j *Job) *float64 { return &j.Drain.WidthMM }},
		{"drain.wallClearanceMM", GroupDrain, "Clear of bare wall", "From the bare wall to the drain body: room for the wall's tanking, bed and tile.", unit.Length, 0, 500, 1, atWall, func(j *Job) *float64 { return &j.Drain.WallClearanceMM }},
		{"drain.offsetMM", GroupDrain, "Drain shift", "From the middle of its side to the drain's middle: to the right is more, at the left or right side to the front.", unit.Length, -5000, 5000, 10, always, func(j *Job) *float64 { return &j.Drain.OffsetMM }},
		{"drain.channelDepthMM", GroupDrain, "Channel depth", "From the flange down to the underside of the channel.", unit.Length, 0, 300, 1, always, func(j *Job) *float64 { return &j.Drain.ChannelDepthMM }},
		{"drain.trapDepthMM", GroupDrain, "Trap depth", "From the flange down to the underside of the trap.", unit.Length, 10, 600, 1, always, func(j *Job) *float64 { return &j.Drain.TrapDepthMM }},
		{"drain.trapSizeMM", GroupDrain, "Trap size", "Side of the trap body in plan.", unit.Length, 40, 500, 1, always, func(j *Job) *float64 { return &j.Drain.TrapSizeMM }},
		{"drain.trapOffsetMM", GroupDrain, "Trap shift", "From the drain's middle to the trap's: to the right is more, at the left or right side to the front.", unit.Length, -3000, 3000, 10, linear, func(j *Job) *float64 { return &j.Drain.TrapOffsetMM }},
		{"drain.sealMM", GroupDrain, "Trap seal", "Depth of water that keeps drain gas out.", unit.Length, 0, 200, 1, always, func(j *Job) *float64 { return &j.Drain.SealMM }},
		{"drain.outletInvertDepthMM", GroupDrain, "Outlet below flange", "From the flange down to the outlet's invert.", unit.Length, 5, 500, 1, always, func(j *Job) *float64 { return &j.Drain.OutletInvertDepthMM }},
		{"drain.outletTurnDeg", GroupDrain, "Outlet direction", "The way the outlet points, facing the back wall: 0 right, 90 to the back wall, 180 left, 270 into the room.", unit.Angle, -360, 360, 90, always, func(j *Job) *float64 { return &j.Drain.OutletTurnDeg }},
		{"drain.capacityLPS", GroupDrain, "Trap capacity", "What the trap carries, from its data sheet; 0 when it is not known.", unit.Flow, 0, 20, 1.0 / 60, always, func(j *Job) *float64 { return &j.Drain.CapacityLPS }},
		{"drain.capacityHeadMM", GroupDrain, "Capacity with water", "Depth of water over the cover at which the data sheet gives the capacity.", unit.Length, 1, 200, 1, always, func(j *Job) *float64 { return &j.Drain.CapacityHeadMM }},
		{"drain.coverLeastMM", GroupDrain, "Cover lowest", "Lowest setting of the cover's top above the flange.", unit.Length, 0, 200, 1, always, func(j *Job) *float64 { return &j.Drain.CoverLeastMM }},
		{"drain.coverGreatestMM", GroupDrain, "Cover highest", "Highest setting of the cover's top above the flange.", unit.Length, 0, 300, 1, always, func(j *Job) *float64 { return &j.Drain.CoverGreatestMM }},
		{"drain.leastFormerMM", GroupDrain, "Former needed", "Least former the flange needs under it.", unit.Length, 0, 100, 1, always, func(j *Job) *float64 { return &j.Drain.LeastFormerMM }},

		{"waste.nominalMM", GroupWaste, "Pipe size", "Nominal size the codes go by.", unit.Length, 20, 200, 1, always, func(j *Job) *float64 { return &j.Waste.NominalMM }},
		{"waste.outsideDiameterMM", GroupWaste, "Outside diameter", "Measured over the pipe.", unit.Length, 20, 250, 0.1, always, func(j *Job) *float64 { return &j.Waste.OutsideDiameterMM }},
		{"waste.boreMM", GroupWaste, "Bore", "Inside diameter.", unit.Length, 10, 240, 0.1, always, func(j *Job) *float64 { return &j.Waste.BoreMM }},
		{"waste.gradient", GroupWaste, "Pipe fall", "Fall of the pipe, as 1:40, 2.5 %, 25 mm/m or 1/4 in/ft.", unit.Slope, -0.5, 1, 0.001, fallStated, func(j *Job) *float64 { return &j.Waste.Gradient }},
		{"waste.bend45FaceMM", GroupWaste, "45° bend, centre to face", "From the corner of the centre lines to the fitting's end.", unit.Length, 1, 300, 1, always, func(j *Job) *float64 { return &j.Waste.Bend45FaceMM }},
		{"waste.bend90FaceMM", GroupWaste, "90° bend, centre to face", "From the corner of the centre lines to the fitting's end.", unit.Length, 1, 500, 1, always, func(j *Job) *float64 { return &j.Waste.Bend90FaceMM }},
		{"waste.exit.offsetMM", GroupWaste, "Exit along the wall", "From the wall's start corner to the pipe's centre.", unit.Length, 0, 50000, 10, func(j Job) bool { return j.Waste.Exit.Kind == ExitWall }, func(j *Job) *float64 { return &j.Waste.Exit.OffsetMM }},
		{"waste.exit.nominalMM", GroupWaste, "Existing pipe size", "Nominal size of the pipe the run ends in; 0 when it is not known.", unit.Length, 0, 250, 1, func(j Job) bool { return j.Waste.Exit.Kind == ExitPipe }, func(j *Job) *float64 { return &j.Waste.Exit.NominalMM }},

		{"layers.shower.tanking.thicknessMM", GroupLayers, "Shower tanking", "Waterproof layer.", unit.Length, 0, 100, 0.5, always, func(j *Job) *float64 { return &j.Layers.Shower.Tanking.ThicknessMM }},
		{"layers.shower.tanking.toleranceMM", GroupLayers, "Shower tanking ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, always, func(j *Job) *float64 { return &j.Layers.Shower.Tanking.ToleranceMM }},
		{"layers.shower.bed.thicknessMM", GroupLayers, "Shower tile bed", "Adhesive bed under the tile, as it is when pressed.", unit.Length, 0, 100, 0.5, always, func(j *Job) *float64 { return &j.Layers.Shower.Bed.ThicknessMM }},
		{"layers.shower.bed.toleranceMM", GroupLayers, "Shower tile bed ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, always, func(j *Job) *float64 { return &j.Layers.Shower.Bed.ToleranceMM }},
		{"layers.shower.tile.thicknessMM", GroupLayers, "Shower tile", "Thickness of the tile.", unit.Length, 0, 100, 0.5, always, func(j *Job) *float64 { return &j.Layers.Shower.Tile.ThicknessMM }},
		{"layers.shower.tile.toleranceMM", GroupLayers, "Shower tile ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, always, func(j *Job) *float64 { return &j.Layers.Shower.Tile.ToleranceMM }},
		{"layers.shower.tileLengthMM", GroupLayers, "Shower tile length", "Length of the tile's face.", unit.Length, 5, 3500, 1, always, func(j *Job) *float64 { return &j.Layers.Shower.TileLengthMM }},
		{"layers.shower.tileWidthMM", GroupLayers, "Shower tile width", "Width of the tile's face.", unit.Length, 5, 3500, 1, always, func(j *Job) *float64 { return &j.Layers.Shower.TileWidthMM }},
		{"layers.shower.jointMM", GroupLayers, "Shower joint", "Width of the grout joint.", unit.Length, 0, 30, 0.5, always, func(j *Job) *float64 { return &j.Layers.Shower.JointMM }},

		{"layers.room.tanking.thicknessMM", GroupLayers, "Room tanking", "Waterproof layer.", unit.Length, 0, 100, 0.5, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Tanking.ThicknessMM }},
		{"layers.room.tanking.toleranceMM", GroupLayers, "Room tanking ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Tanking.ToleranceMM }},
		{"layers.room.bed.thicknessMM", GroupLayers, "Room tile bed", "Adhesive bed under the tile, as it is when pressed.", unit.Length, 0, 100, 0.5, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Bed.ThicknessMM }},
		{"layers.room.bed.toleranceMM", GroupLayers, "Room tile bed ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Bed.ToleranceMM }},
		{"layers.room.tile.thicknessMM", GroupLayers, "Room tile", "Thickness of the tile.", unit.Length, 0, 100, 0.5, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Tile.ThicknessMM }},
		{"layers.room.tile.toleranceMM", GroupLayers, "Room tile ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Tile.ToleranceMM }},
		{"layers.room.tileLengthMM", GroupLayers, "Room tile length", "Length of the tile's face.", unit.Length, 5, 3500, 1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.TileLengthMM }},
		{"layers.room.tileWidthMM", GroupLayers, "Room tile width", "Width of the tile's face.", unit.Length, 5, 3500, 1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.TileWidthMM }},
		{"layers.room.jointMM", GroupLayers, "Room joint", "Width of the grout joint.", unit.Length, 0, 30, 0.5, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.JointMM }},

		{"layers.wall.tanking.thicknessMM", GroupLayers, "Wall tanking", "Waterproof layer.", unit.Length, 0, 100, 0.5, always, func(j *Job) *float64 { return &j.Layers.Wall.Tanking.ThicknessMM }},
		{"layers.wall.tanking.toleranceMM", GroupLayers, "Wall tanking ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, always, func(j *Job) *float64 { return &j.Layers.Wall.Tanking.ToleranceMM }},
		{"layers.wall.bed.thicknessMM", GroupLayers, "Wall tile bed", "Adhesive bed under the tile, as it is when pressed.", unit.Length, 0, 100, 0.5, always, func(j *Job) *float64 { return &j.Layers.Wall.Bed.ThicknessMM }},
		{"layers.wall.bed.toleranceMM", GroupLayers, "Wall tile bed ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, always, func(j *Job) *float64 { return &j.Layers.Wall.Bed.ToleranceMM }},
		{"layers.wall.tile.thicknessMM", GroupLayers, "Wall tile", "Thickness of the tile.", unit.Length, 0, 100, 0.5, always, func(j *Job) *float64 { return &j.Layers.Wall.Tile.ThicknessMM }},
		{"layers.wall.tile.toleranceMM", GroupLayers, "Wall tile ±", "How far it may turn out thicker or thinner.", unit.Length, 0, 30, 0.1, always, func(j *Job) *float64 { return &j.Layers.Wall.Tile.ToleranceMM }},
		{"layers.wall.tileLengthMM", GroupLayers, "Wall tile length", "Length of the tile's face.", unit.Length, 5, 3500, 1, always, func(j *Job) *float64 { return &j.Layers.Wall.TileLengthMM }},
		{"layers.wall.tileWidthMM", GroupLayers, "Wall tile width", "Width of the tile's face.", unit.Length, 5, 3500, 1, always, func(j *Job) *float64 { return &j.Layers.Wall.TileWidthMM }},
		{"layers.wall.jointMM", GroupLayers, "Wall joint", "Width of the grout joint.", unit.Length, 0, 30, 0.5, always, func(j *Job) *float64 { return &j.Layers.Wall.JointMM }},

		{"tolerances.floorMM", GroupSpread, "Floor ±", "Structural floor where no spot level was taken.", unit.Length, 0, 50, 0.5, func(j Job) bool { return len(j.SpotLevels) == 0 }, func(j *Job) *float64 { return &j.Tolerances.FloorMM }},
		{"tolerances.baseMM", GroupSpread, "Base top ±", "How well the base is set to its height.", unit.Length, 0, 20, 0.5, always, func(j *Job) *float64 { return &j.Tolerances.BaseMM }},
		{"tolerances.bedMM", GroupSpread, "Bed under former ±", "How well the bed under the former is kept.", unit.Length, 0, 20, 0.5, always, func(j *Job) *float64 { return &j.Tolerances.BedMM }},
		{"tolerances.formerMM", GroupSpread, "Former ±", "Thickness of the former at the drain.", unit.Length, 0, 20, 0.5, always, func(j *Job) *float64 { return &j.Tolerances.FormerMM }},
		{"tolerances.fallMM", GroupSpread, "Fall ±", "Rise of the former over its whole length.", unit.Length, 0, 50, 0.5, always, func(j *Job) *float64 { return &j.Tolerances.FallMM }},
		{"tolerances.outletMM", GroupSpread, "Outlet ±", "Outlet below the flange, from the data sheet or measured.", unit.Length, 0, 20, 0.5, always, func(j *Job) *float64 { return &j.Tolerances.OutletMM }},
		{"tolerances.trapMM", GroupSpread, "Trap ±", "Depth of the trap, from the data sheet or measured.", unit.Length, 0, 20, 0.5, always, func(j *Job) *float64 { return &j.Tolerances.TrapMM }},
		{"tolerances.pipeMM", GroupSpread, "Pipe as laid ±", "Invert at the exit when the pipe's fall is set by hand; of a run shorter than a metre, in proportion.", unit.Length, 0, 50, 0.5, fallStated, func(j *Job) *float64 { return &j.Tolerances.PipeMM }},
		{"tolerances.exitMM", GroupSpread, "Exit as measured ±", "Level of the stated exit.", unit.Length, 0, 100, 0.5, func(j Job) bool { return j.Waste.Exit.Level.Kind() != ExitFree }, func(j *Job) *float64 { return &j.Tolerances.ExitMM }},
		{"tolerances.doorwayMM", GroupSpread, "Floors beyond doorways ±", "Finished floor of the rooms beyond.", unit.Length, 0, 50, 0.5, func(j Job) bool { return len(j.Room.Doorways) > 0 }, func(j *Job) *float64 { return &j.Tolerances.DoorwayMM }},
		{"tolerances.groundMM", GroupSpread, "Ground outside ±", "Ground level outside the walls.", unit.Length, 0, 500, 0.5, func(j Job) bool { return j.Waste.Exit.Kind == ExitWall }, func(j *Job) *float64 { return &j.Tolerances.GroundMM }},
	} {
		if !yield(p) {
			return
		}
	}
}

// Parameters is the list of all single numbers of a job, in the order of the
// groups.
func Parameters() []Parameter { return slices.Collect(EachParameter) }

// Find is the parameter with the given key.
func Find(key string) (Parameter, bool) {
	for p := range EachParameter {
		if p.Key == key {
			return p, true
		}
	}
	return Parameter{}, false
}
