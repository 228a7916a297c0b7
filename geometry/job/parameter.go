package job

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Group is a step of the survey and the build, in the order it is done.
type Group string

// The groups of parameters, in order.
const (
	GroupRoom   Group = "room"
	GroupFloor  Group = "floor"
	GroupShower Group = "shower"
	GroupBase   Group = "base"
	GroupFormer Group = "former"
	GroupDrain  Group = "drain"
	GroupWaste  Group = "waste"
	GroupLayers Group = "layers"
	GroupWater  Group = "water"
	GroupSpread Group = "tolerances"
	GroupBuilt  Group = "as-built"
)

// ID is of the group's name.
func (g Group) ID() message.ID { return message.ID("group." + string(g)) }

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
	Kind  unit.Kind
	// Least and Greatest are the values that make sense at all; whether they
	// comply with a code is not decided here.
	Least, Greatest float64
	// Step is what an arrow key changes the value by.
	Step float64
	// uses tells whether a job's geometry depends on the value; nil where every one's does.
	uses  func(Job) bool
	field func(*Job) *float64
}

// Always tells that the geometry of every job depends on the value.
func (p Parameter) Always() bool { return p.uses == nil }

// Uses tells whether the job's geometry depends on the value.
func (p Parameter) Uses(j Job) bool { return p.uses == nil || p.uses(j) }

// Get reads the value from a job.
func (p Parameter) Get(j Job) float64 { return *p.field(&j) }

// With is the job with the value set.
func (p Parameter) With(j Job, v float64) Job {
	j = j.Clone()
	*p.field(&j) = v
	return j
}

// Label is the id of the parameter's name, which its field has on screen.
func (p Parameter) Label() message.ID { return message.ID("parameter." + p.Key) }

// Help is the id of what there is to know of the parameter.
func (p Parameter) Help() message.ID { return message.ID("parameter." + p.Key + ".help") }

// Message says which parameter it is, with its group.
func (p Parameter) Message() message.Message {
	return message.Of("place.parameter", message.In("group", message.Of(p.Group.ID())), message.In("parameter", message.Of(p.Label())))
}

// Check says why a value cannot be used; nothing of one that can.
func (p Parameter) Check(v float64) message.Message {
	if math.IsNaN(v) || v < p.Least || v > p.Greatest {
		return between(p.Least, p.Greatest, p.Kind)
	}
	return message.Message{}
}

func timber(j Job) bool { return j.Floor.Kind == FloorTimber }
func slab(j Job) bool   { return j.Floor.Kind == FloorSlab }
func linear(j Job) bool { return j.Former.Fall.Linear() }
func atWall(j Job) bool { return j.Former.Fall.Linear() && j.Former.Fall != FallMid }

// keepsOff tells whether a drain keeps off a wall, or off the ends of its side.
func keepsOff(j Job) bool { return atWall(j) || linear(j) && j.Drain.LengthMM == 0 }
func endsFall(j Job) bool { return j.Former.EndsFall() }
func letIn(j Job) bool    { return j.Base.Support == BetweenJoists }
func onFloor(j Job) bool  { return j.Base.Support == OnFloor }
func stacked(j Job) bool  { return len(j.Base.BoardsMM) > 0 }
func boarded(j Job) bool  { return !j.Base.Screed }
func fallStated(j Job) bool {
	_, exact := j.Waste.Exit.Level.ExactlyMM()
	return !exact
}
func shared(j Job) bool { return j.Water.OtherDU > 0 }
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
		{"room.heightMM", GroupRoom, unit.Length, 500, 6000, 50, nil, func(j *Job) *float64 { return &j.Room.HeightMM }},
		{"room.rampRunMM", GroupRoom, unit.Length, 0, 4000, 50, func(j Job) bool { return j.Room.Edge == EdgeRamp }, func(j *Job) *float64 { return &j.Room.RampRunMM }},

		{"floor.slabThicknessMM", GroupFloor, unit.Length, 20, 1000, 5, slab, func(j *Job) *float64 { return &j.Floor.SlabThicknessMM }},
		{"floor.setDownMM", GroupFloor, unit.Length, 0, 300, 1, slab, func(j *Job) *float64 { return &j.Floor.SetDownMM }},
		{"floor.deck.thicknessMM", GroupFloor, unit.Length, 5, 100, 1, timber, func(j *Job) *float64 { return &j.Floor.Deck.ThicknessMM }},
		{"floor.joists.depthMM", GroupFloor, unit.Length, 50, 600, 5, timber, func(j *Job) *float64 { return &j.Floor.Joists.DepthMM }},
		{"floor.joists.widthMM", GroupFloor, unit.Length, 20, 300, 1, timber, func(j *Job) *float64 { return &j.Floor.Joists.WidthMM }},
		{"floor.joists.spacingMM", GroupFloor, unit.Length, 100, 2000, 10, timber, func(j *Job) *float64 { return &j.Floor.Joists.SpacingMM }},
		{"floor.joists.directionDeg", GroupFloor, unit.Angle, -360, 360, 5, timber, func(j *Job) *float64 { return &j.Floor.Joists.DirectionDeg }},
		{"floor.joists.firstOffsetMM", GroupFloor, unit.Length, -2000, 5000, 10, timber, func(j *Job) *float64 { return &j.Floor.Joists.FirstOffsetMM }},

		{"shower.offsetMM", GroupShower, unit.Length, 0, 20000, 10, nil, func(j *Job) *float64 { return &j.Shower.OffsetMM }},
		{"shower.widthMM", GroupShower, unit.Length, 300, 10000, 10, nil, func(j *Job) *float64 { return &j.Shower.WidthMM }},
		{"shower.depthMM", GroupShower, unit.Length, 300, 10000, 10, nil, func(j *Job) *float64 { return &j.Shower.DepthMM }},

		{BaseHeightKey, GroupBase, unit.Length, -600, 1000, 1, func(j Job) bool { return j.Base.Height == HeightChosen }, func(j *Job) *float64 { return &j.Base.HeightMM }},
		{"base.minThicknessMM", GroupBase, unit.Length, 0, 200, 1, nil, func(j *Job) *float64 { return &j.Base.MinThicknessMM }},
		{"base.adhesiveMM", GroupBase, unit.Length, 0, 50, 0.5, onFloor, func(j *Job) *float64 { return &j.Base.AdhesiveMM }},
		{"base.betweenLeastMM", GroupBase, unit.Length, 0, 30, 0.5, stacked, func(j *Job) *float64 { return &j.Base.BetweenLeastMM }},
		{"base.betweenGreatestMM", GroupBase, unit.Length, 0, 30, 0.5, stacked, func(j *Job) *float64 { return &j.Base.BetweenGreatestMM }},
		{"base.sawMarginMM", GroupBase, unit.Length, 0, 100, 1, nil, func(j *Job) *float64 { return &j.Base.SawMarginMM }},
		{"base.boardLengthMM", GroupBase, unit.Length, 100, 5000, 10, boarded, func(j *Job) *float64 { return &j.Base.BoardLengthMM }},
		{"base.boardWidthMM", GroupBase, unit.Length, 0, 5000, 10, boarded, func(j *Job) *float64 { return &j.Base.BoardWidthMM }},
		{"base.ledgerWidthMM", GroupBase, unit.Length, 0, 150, 1, letIn, func(j *Job) *float64 { return &j.Base.LedgerWidthMM }},
		{"base.ledgerDepthMM", GroupBase, unit.Length, 0, 200, 1, letIn, func(j *Job) *float64 { return &j.Base.LedgerDepthMM }},
		{"base.nogginSpacingMM", GroupBase, unit.Length, 0, 3000, 10, letIn, func(j *Job) *float64 { return &j.Base.NogginSpacingMM }},
		{"base.keepZoneMM", GroupBase, unit.Length, 0, 5000, 10, boarded, func(j *Job) *float64 { return &j.Base.KeepZoneMM }},

		{"former.slope", GroupFormer, unit.Slope, 0, 0.25, 0.001, nil, func(j *Job) *float64 { return &j.Former.Slope }},
		{"former.endSlope", GroupFormer, unit.Slope, 0, 0.25, 0.001, endsFall, func(j *Job) *float64 { return &j.Former.EndSlope }},
		{"former.thicknessAtDrainMM", GroupFormer, unit.Length, 0.5, 300, 1, nil, func(j *Job) *float64 { return &j.Former.ThicknessAtDrainMM }},
		{"former.bedMM", GroupFormer, unit.Length, 0, 30, 0.5, nil, func(j *Job) *float64 { return &j.Former.BedMM }},
		{"former.longestMM", GroupFormer, unit.Length, 0, 10000, 10, nil, func(j *Job) *float64 { return &j.Former.LongestMM }},
		{"former.widestMM", GroupFormer, unit.Length, 0, 10000, 10, nil, func(j *Job) *float64 { return &j.Former.WidestMM }},

		{"drain.lengthMM", GroupDrain, unit.Length, 0, 6000, 10, linear, func(j *Job) *float64 { return &j.Drain.LengthMM }},
		{"drain.widthMM", GroupDrain, unit.Length, 20, 600, 1, nil, func(j *Job) *float64 { return &j.Drain.WidthMM }},
		{"drain.wallClearanceMM", GroupDrain, unit.Length, 0, 500, 1, keepsOff, func(j *Job) *float64 { return &j.Drain.WallClearanceMM }},
		{"drain.offsetMM", GroupDrain, unit.Length, -5000, 5000, 10, nil, func(j *Job) *float64 { return &j.Drain.OffsetMM }},
		{"drain.channelDepthMM", GroupDrain, unit.Length, 0, 300, 1, nil, func(j *Job) *float64 { return &j.Drain.ChannelDepthMM }},
		{"drain.trapDepthMM", GroupDrain, unit.Length, 10, 600, 1, nil, func(j *Job) *float64 { return &j.Drain.TrapDepthMM }},
		{"drain.trapSizeMM", GroupDrain, unit.Length, 40, 500, 1, nil, func(j *Job) *float64 { return &j.Drain.TrapSizeMM }},
		{"drain.trapOffsetMM", GroupDrain, unit.Length, -3000, 3000, 10, linear, func(j *Job) *float64 { return &j.Drain.TrapOffsetMM }},
		{"drain.bedUnderMM", GroupDrain, unit.Length, 0, 50, 0.5, nil, func(j *Job) *float64 { return &j.Drain.BedUnderMM }},
		{"drain.weirDepthMM", GroupDrain, unit.Length, 1, 500, 1, nil, func(j *Job) *float64 { return &j.Drain.WeirDepthMM }},
		{"drain.sealMM", GroupDrain, unit.Length, 0, 200, 1, nil, func(j *Job) *float64 { return &j.Drain.SealMM }},
		{"drain.passageMM", GroupDrain, unit.Length, 0, 200, 1, nil, func(j *Job) *float64 { return &j.Drain.PassageMM }},
		{"drain.outletInvertDepthMM", GroupDrain, unit.Length, 5, 500, 1, nil, func(j *Job) *float64 { return &j.Drain.OutletInvertDepthMM }},
		{"drain.outletNominalMM", GroupDrain, unit.Length, 20, 200, 1, nil, func(j *Job) *float64 { return &j.Drain.OutletNominalMM }},
		{"drain.outletJointMM", GroupDrain, unit.Length, 0, 300, 1, nil, func(j *Job) *float64 { return &j.Drain.OutletJointMM }},
		{"drain.outletJointOutsideMM", GroupDrain, unit.Length, 20, 300, 0.5, nil, func(j *Job) *float64 { return &j.Drain.OutletJointOutsideMM }},
		{"drain.outletTurnDeg", GroupDrain, unit.Angle, -360, 360, 90, nil, func(j *Job) *float64 { return &j.Drain.OutletTurnDeg }},
		{"drain.capacityLPS", GroupDrain, unit.Flow, 0, 20, 1.0 / 60, nil, func(j *Job) *float64 { return &j.Drain.CapacityLPS }},
		{"drain.capacityHeadMM", GroupDrain, unit.Length, 1, 200, 1, nil, func(j *Job) *float64 { return &j.Drain.CapacityHeadMM }},
		{"drain.coverLeastMM", GroupDrain, unit.Length, 0, 200, 1, nil, func(j *Job) *float64 { return &j.Drain.CoverLeastMM }},
		{"drain.coverGreatestMM", GroupDrain, unit.Length, 0, 300, 1, nil, func(j *Job) *float64 { return &j.Drain.CoverGreatestMM }},
		{"drain.leastFormerMM", GroupDrain, unit.Length, 0, 100, 1, nil, func(j *Job) *float64 { return &j.Drain.LeastFormerMM }},

		{"waste.nominalMM", GroupWaste, unit.Length, 20, 200, 1, nil, func(j *Job) *float64 { return &j.Waste.NominalMM }},
		{"waste.outsideDiameterMM", GroupWaste, unit.Length, 20, 250, 0.1, nil, func(j *Job) *float64 { return &j.Waste.OutsideDiameterMM }},
		{"waste.boreMM", GroupWaste, unit.Length, 10, 240, 0.1, nil, func(j *Job) *float64 { return &j.Waste.BoreMM }},
		{"waste.socketOutsideMM", GroupWaste, unit.Length, 20, 300, 0.5, nil, func(j *Job) *float64 { return &j.Waste.SocketOutsideMM }},
		{"waste.insertionMM", GroupWaste, unit.Length, 0, 300, 1, nil, func(j *Job) *float64 { return &j.Waste.InsertionMM }},
		{"waste.clearUnderMM", GroupWaste, unit.Length, 0, 50, 0.5, nil, func(j *Job) *float64 { return &j.Waste.ClearUnderMM }},
		{"waste.holeRoomMM", GroupWaste, unit.Length, 1, 100, 1, func(j Job) bool { return j.Waste.Exit.Kind != ExitPipe }, func(j *Job) *float64 { return &j.Waste.HoleRoomMM }},
		{"waste.gradient", GroupWaste, unit.Slope, -0.5, 1, 0.001, fallStated, func(j *Job) *float64 { return &j.Waste.Gradient }},
		{"waste.bend45FaceMM", GroupWaste, unit.Length, 1, 300, 1, nil, func(j *Job) *float64 { return &j.Waste.Bend45FaceMM }},
		{"waste.bend90FaceMM", GroupWaste, unit.Length, 1, 500, 1, nil, func(j *Job) *float64 { return &j.Waste.Bend90FaceMM }},
		{"waste.exit.offsetMM", GroupWaste, unit.Length, 0, 50000, 10, func(j Job) bool { return j.Waste.Exit.Kind == ExitWall }, func(j *Job) *float64 { return &j.Waste.Exit.OffsetMM }},
		{"waste.exit.nominalMM", GroupWaste, unit.Length, 0, 250, 1, func(j Job) bool { return j.Waste.Exit.Kind == ExitPipe }, func(j *Job) *float64 { return &j.Waste.Exit.NominalMM }},

		{"layers.shower.tanking.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, nil, func(j *Job) *float64 { return &j.Layers.Shower.Tanking.ThicknessMM }},
		{"layers.shower.tanking.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, nil, func(j *Job) *float64 { return &j.Layers.Shower.Tanking.ToleranceMM }},
		{"layers.shower.bed.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, nil, func(j *Job) *float64 { return &j.Layers.Shower.Bed.ThicknessMM }},
		{"layers.shower.bed.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, nil, func(j *Job) *float64 { return &j.Layers.Shower.Bed.ToleranceMM }},
		{"layers.shower.tile.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, nil, func(j *Job) *float64 { return &j.Layers.Shower.Tile.ThicknessMM }},
		{"layers.shower.tile.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, nil, func(j *Job) *float64 { return &j.Layers.Shower.Tile.ToleranceMM }},
		{"layers.shower.tileLengthMM", GroupLayers, unit.Length, 5, 3500, 1, nil, func(j *Job) *float64 { return &j.Layers.Shower.TileLengthMM }},
		{"layers.shower.tileWidthMM", GroupLayers, unit.Length, 5, 3500, 1, nil, func(j *Job) *float64 { return &j.Layers.Shower.TileWidthMM }},
		{"layers.shower.jointMM", GroupLayers, unit.Length, 0, 30, 0.5, nil, func(j *Job) *float64 { return &j.Layers.Shower.JointMM }},

		{"layers.room.tanking.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Tanking.ThicknessMM }},
		{"layers.room.tanking.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Tanking.ToleranceMM }},
		{"layers.room.bed.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Bed.ThicknessMM }},
		{"layers.room.bed.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Bed.ToleranceMM }},
		{"layers.room.tile.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Tile.ThicknessMM }},
		{"layers.room.tile.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.Tile.ToleranceMM }},
		{"layers.room.tileLengthMM", GroupLayers, unit.Length, 5, 3500, 1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.TileLengthMM }},
		{"layers.room.tileWidthMM", GroupLayers, unit.Length, 5, 3500, 1, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.TileWidthMM }},
		{"layers.room.jointMM", GroupLayers, unit.Length, 0, 30, 0.5, roomTiled, func(j *Job) *float64 { return &j.Layers.Room.JointMM }},

		{"layers.wall.tanking.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, nil, func(j *Job) *float64 { return &j.Layers.Wall.Tanking.ThicknessMM }},
		{"layers.wall.tanking.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, nil, func(j *Job) *float64 { return &j.Layers.Wall.Tanking.ToleranceMM }},
		{"layers.wall.bed.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, nil, func(j *Job) *float64 { return &j.Layers.Wall.Bed.ThicknessMM }},
		{"layers.wall.bed.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, nil, func(j *Job) *float64 { return &j.Layers.Wall.Bed.ToleranceMM }},
		{"layers.wall.tile.thicknessMM", GroupLayers, unit.Length, 0, 100, 0.5, nil, func(j *Job) *float64 { return &j.Layers.Wall.Tile.ThicknessMM }},
		{"layers.wall.tile.toleranceMM", GroupLayers, unit.Length, 0, 30, 0.1, nil, func(j *Job) *float64 { return &j.Layers.Wall.Tile.ToleranceMM }},
		{"layers.wall.tileLengthMM", GroupLayers, unit.Length, 5, 3500, 1, nil, func(j *Job) *float64 { return &j.Layers.Wall.TileLengthMM }},
		{"layers.wall.tileWidthMM", GroupLayers, unit.Length, 5, 3500, 1, nil, func(j *Job) *float64 { return &j.Layers.Wall.TileWidthMM }},
		{"layers.wall.jointMM", GroupLayers, unit.Length, 0, 30, 0.5, nil, func(j *Job) *float64 { return &j.Layers.Wall.JointMM }},
		{"layers.wallTiledToMM", GroupLayers, unit.Length, 300, 6000, 50, nil, func(j *Job) *float64 { return &j.Layers.WallTiledToMM }},

		{"water.otherDU", GroupWater, unit.Count, 0, 50, 0.1, nil, func(j *Job) *float64 { return &j.Water.OtherDU }},
		{"water.largestDU", GroupWater, unit.Count, 0, 20, 0.1, shared, func(j *Job) *float64 { return &j.Water.LargestDU }},

		{"tolerances.floorMM", GroupSpread, unit.Length, 0, 50, 0.5, func(j Job) bool { return len(j.SpotLevels) == 0 }, func(j *Job) *float64 { return &j.Tolerances.FloorMM }},
		{"tolerances.baseMM", GroupSpread, unit.Length, 0, 20, 0.5, nil, func(j *Job) *float64 { return &j.Tolerances.BaseMM }},
		{"tolerances.bedMM", GroupSpread, unit.Length, 0, 20, 0.5, nil, func(j *Job) *float64 { return &j.Tolerances.BedMM }},
		{"tolerances.formerMM", GroupSpread, unit.Length, 0, 20, 0.5, nil, func(j *Job) *float64 { return &j.Tolerances.FormerMM }},
		{"tolerances.fallMM", GroupSpread, unit.Length, 0, 50, 0.5, nil, func(j *Job) *float64 { return &j.Tolerances.FallMM }},
		{"tolerances.outletMM", GroupSpread, unit.Length, 0, 20, 0.5, nil, func(j *Job) *float64 { return &j.Tolerances.OutletMM }},
		{"tolerances.trapMM", GroupSpread, unit.Length, 0, 20, 0.5, nil, func(j *Job) *float64 { return &j.Tolerances.TrapMM }},
		{"tolerances.pipeMM", GroupSpread, unit.Length, 0, 50, 0.5, fallStated, func(j *Job) *float64 { return &j.Tolerances.PipeMM }},
		{"tolerances.exitMM", GroupSpread, unit.Length, 0, 100, 0.5, func(j Job) bool { return j.Waste.Exit.Level.Kind() != ExitFree }, func(j *Job) *float64 { return &j.Tolerances.ExitMM }},
		{"tolerances.doorwayMM", GroupSpread, unit.Length, 0, 50, 0.5, func(j Job) bool { return len(j.Room.Doorways) > 0 }, func(j *Job) *float64 { return &j.Tolerances.DoorwayMM }},
		{"tolerances.groundMM", GroupSpread, unit.Length, 0, 500, 0.5, func(j Job) bool { return j.Waste.Exit.Kind == ExitWall }, func(j *Job) *float64 { return &j.Tolerances.GroundMM }},
		{"tolerances.setUpMM", GroupSpread, unit.Length, 0, 20, 0.5, nil, func(j *Job) *float64 { return &j.Tolerances.SetUpMM }},
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
