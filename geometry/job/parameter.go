package job

import (
	"fmt"
	"math"

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
	Key      string // path in the job file
	Group    Group
	Label    string
	Help     string
	Quantity unit.Quantity
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
			unit.Format(p.Least, p.Quantity, s), unit.Format(p.Greatest, p.Quantity, s))
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

// Parameters are all single numbers of a job, in the order of the groups.
func Parameters() []Parameter {
	mm := func(key string, g Group, label, help string, least, greatest, step float64, uses func(Job) bool, field func(*Job) *float64) Parameter {
		return Parameter{key, g, label, help, unit.Length, least, greatest, step, uses, field}
	}
	of := func(q unit.Quantity, p Parameter) Parameter {
		p.Quantity = q
		return p
	}
	rows := []Parameter{
		mm("room.heightMM", GroupRoom, "Room height", "From the structural floor to the ceiling.", 500, 6000, 50, always, func(j *Job) *float64 { return &j.Room.HeightMM }),
		mm("room.rampRunMM", GroupRoom, "Ramp run", "Length of the ramp outside the open edge, measured level.", 0, 4000, 50,
			func(j Job) bool { return j.Room.Edge == EdgeRamp }, func(j *Job) *float64 { return &j.Room.RampRunMM }),

		mm("floor.slabThicknessMM", GroupFloor, "Slab thickness", "Thickness of the concrete slab. Do not cut into a slab before you know what is in it.", 20, 1000, 5, slab, func(j *Job) *float64 { return &j.Floor.SlabThicknessMM }),
		mm("floor.deck.thicknessMM", GroupFloor, "Deck thickness", "Thickness of the boards on the joists.", 5, 100, 1, timber, func(j *Job) *float64 { return &j.Floor.Deck.ThicknessMM }),
		mm("floor.joists.depthMM", GroupFloor, "Joist depth", "Height of a joist.", 50, 600, 5, timber, func(j *Job) *float64 { return &j.Floor.Joists.DepthMM }),
		mm("floor.joists.widthMM", GroupFloor, "Joist width", "Breadth of a joist.", 20, 300, 1, timber, func(j *Job) *float64 { return &j.Floor.Joists.WidthMM }),
		mm("floor.joists.spacingMM", GroupFloor, "Joist spacing", "Between joist centre lines.", 100, 2000, 10, timber, func(j *Job) *float64 { return &j.Floor.Joists.SpacingMM }),
		of(unit.Angle, mm("floor.joists.directionDeg", GroupFloor, "Joist direction", "The way the joists run, from the X axis of the plan.", -360, 360, 5, timber, func(j *Job) *float64 { return &j.Floor.Joists.DirectionDeg })),
		mm("floor.joists.firstOffsetMM", GroupFloor, "First joist", "From the room's outermost point on the right-hand side, looking along the joists, to the first centre line.", -2000, 5000, 10, timber, func(j *Job) *float64 { return &j.Floor.Joists.FirstOffsetMM }),
		mm("floor.finishThicknessMM", GroupFloor, "Existing finish kept", "Thickness of the existing floor finish that stays in the room; 0 when the room is newly tiled.", 0, 300, 1, always, func(j *Job) *float64 { return &j.Floor.FinishThicknessMM }),

		mm("shower.offsetMM", GroupShower, "From the corner", "From the start of the back wall to the shower.", 0, 20000, 10, always, func(j *Job) *float64 { return &j.Shower.OffsetMM }),
		mm("shower.widthMM", GroupShower, "Width", "Along the back wall.", 300, 10000, 10, always, func(j *Job) *float64 { return &j.Shower.WidthMM }),
		mm("shower.depthMM", GroupShower, "Depth", "Away from the back wall.", 300, 10000, 10, always, func(j *Job) *float64 { return &j.Shower.DepthMM }),

		mm(BaseHeightKey, GroupBase, "Base height", "Top of the base above its adhesive bed, or above the deck when let in between joists.", -600, 1000, 1,
			func(j Job) bool { return j.Base.Height == HeightChosen }, func(j *Job) *float64 { return &j.Base.HeightMM }),
		mm("base.minThicknessMM", GroupBase, "Thinnest board", "The thinnest base board that may be used.", 0, 200, 1, always, func(j *Job) *float64 { return &j.Base.MinThicknessMM }),
		mm("base.adhesiveMM", GroupBase, "Adhesive bed", "Least bed under the base; it levels out the floor.", 0, 50, 0.5, onFloor, func(j *Job) *float64 { return &j.Base.AdhesiveMM }),
		mm("base.channelLeewayMM", GroupBase, "Channel leeway", "Room left each side of the trap and the pipe.", 0, 100, 1, always, func(j *Job) *float64 { return &j.Base.ChannelLeewayMM }),
		mm("base.boardLengthMM", GroupBase, "Board length", "Length of a base board as bought.", 100, 5000, 10, always, func(j *Job) *float64 { return &j.Base.BoardLengthMM }),

		of(unit.Slope, mm("former.slope", GroupFormer, "Fall", "Fall of the tile to the drain, as 1:50, 2 %, 20 mm/m or 1/4 in/ft.", 0, 0.25, 0.001, always, func(j *Job) *float64 { return &j.Former.Slope })),
		mm("former.thicknessAtDrainMM", GroupFormer, "Thickness at the drain", "Former thickness where it is thinnest.", 0.5, 300, 1, always, func(j *Job) *float64 { return &j.Former.ThicknessAtDrainMM }),
		mm("former.bedMM", GroupFormer, "Adhesive under former", "Bed between base and former.", 0, 30, 0.5, always, func(j *Job) *float64 { return &j.Former.BedMM }),

		mm("drain.lengthMM", GroupDrain, "Drain length", "Along a linear drain.", 50, 6000, 10, linear, func(j *Job) *float64 { return &j.Drain.LengthMM }),
		mm("drain.widthMM", GroupDrain, "Drain width", "Across a linear drain; the side of a point drain.", 20, 600, 1, always, func(j *Job) *float64 { return &j.Drain.WidthMM }),
		mm("drain.wallClearanceMM", GroupDrain, "Clear of bare wall", "From the bare wall to the drain body: room for the wall's tanking, bed and tile.", 0, 500, 1, atWall, func(j *Job) *float64 { return &j.Drain.WallClearanceMM }),
		mm("drain.offsetMM", GroupDrain, "Drain shift", "From the middle of its side.", -5000, 5000, 10, always, func(j *Job) *float64 { return &j.Drain.OffsetMM }),
		mm("drain.channelDepthMM", GroupDrain, "Channel depth", "From the flange down to the underside of the channel.", 0, 300, 1, always, func(j *Job) *float64 { return &j.Drain.ChannelDepthMM }),
		mm("drain.trapDepthMM", GroupDrain, "Trap depth", "From the flange down to the underside of the trap.", 10, 600, 1, always, func(j *Job) *float64 { return &j.Drain.TrapDepthMM }),
		mm("drain.trapSizeMM", GroupDrain, "Trap size", "Side of the trap body in plan.", 40, 500, 1, always, func(j *Job) *float64 { return &j.Drain.TrapSizeMM }),
		mm("drain.trapOffsetMM", GroupDrain, "Trap shift", "Along the drain from its middle.", -3000, 3000, 10, linear, func(j *Job) *float64 { return &j.Drain.TrapOffsetMM }),
		mm("drain.sealMM", GroupDrain, "Trap seal", "Depth of water that keeps drain gas out.", 0, 200, 1, always, func(j *Job) *float64 { return &j.Drain.SealMM }),
		mm("drain.outletInvertDepthMM", GroupDrain, "Outlet below flange", "From the flange down to the outlet's invert.", 5, 500, 1, always, func(j *Job) *float64 { return &j.Drain.OutletInvertDepthMM }),
		of(unit.Angle, mm("drain.outletTurnDeg", GroupDrain, "Outlet direction", "The way the outlet points, facing the back wall: 0 right, 90 to the back wall, 180 left, 270 into the room.", -360, 360, 90, always, func(j *Job) *float64 { return &j.Drain.OutletTurnDeg })),
		of(unit.Flow, mm("drain.capacityLPS", GroupDrain, "Trap capacity", "What the trap carries, from its data sheet; 0 when it is not known.", 0, 20, 1.0/60, always, func(j *Job) *float64 { return &j.Drain.CapacityLPS })),
		mm("drain.capacityHeadMM", GroupDrain, "Capacity with water", "Depth of water over the cover at which the data sheet gives the capacity.", 1, 200, 1, always, func(j *Job) *float64 { return &j.Drain.CapacityHeadMM }),
		mm("drain.coverLeastMM", GroupDrain, "Cover lowest", "Lowest setting of the cover's top above the flange.", 0, 200, 1, always, func(j *Job) *float64 { return &j.Drain.CoverLeastMM }),
		mm("drain.coverGreatestMM", GroupDrain, "Cover highest", "Highest setting of the cover's top above the flange.", 0, 300, 1, always, func(j *Job) *float64 { return &j.Drain.CoverGreatestMM }),
		mm("drain.leastFormerMM", GroupDrain, "Former needed", "Least former the flange needs under it.", 0, 100, 1, always, func(j *Job) *float64 { return &j.Drain.LeastFormerMM }),

		mm("waste.nominalMM", GroupWaste, "Pipe size", "Nominal size the codes go by.", 20, 200, 1, always, func(j *Job) *float64 { return &j.Waste.NominalMM }),
		mm("waste.outsideDiameterMM", GroupWaste, "Outside diameter", "Measured over the pipe.", 20, 250, 0.1, always, func(j *Job) *float64 { return &j.Waste.OutsideDiameterMM }),
		mm("waste.boreMM", GroupWaste, "Bore", "Inside diameter.", 10, 240, 0.1, always, func(j *Job) *float64 { return &j.Waste.BoreMM }),
		of(unit.Slope, mm("waste.gradient", GroupWaste, "Pipe fall", "Fall of the pipe, as 1:40, 2.5 %, 25 mm/m or 1/4 in/ft.", -0.5, 1, 0.001,
			fallStated, func(j *Job) *float64 { return &j.Waste.Gradient })),
		mm("waste.bend45FaceMM", GroupWaste, "45° bend, centre to face", "From the corner of the centre lines to the fitting's end.", 1, 300, 1, always, func(j *Job) *float64 { return &j.Waste.Bend45FaceMM }),
		mm("waste.bend90FaceMM", GroupWaste, "90° bend, centre to face", "From the corner of the centre lines to the fitting's end.", 1, 500, 1, always, func(j *Job) *float64 { return &j.Waste.Bend90FaceMM }),
		mm("waste.exit.offsetMM", GroupWaste, "Exit along the wall", "From the wall's start corner to the pipe's centre.", 0, 50000, 10,
			func(j Job) bool { return j.Waste.Exit.Kind == ExitWall }, func(j *Job) *float64 { return &j.Waste.Exit.OffsetMM }),
		mm("waste.exit.nominalMM", GroupWaste, "Existing pipe size", "Nominal size of the pipe the run ends in; 0 when it is not known.", 0, 250, 1,
			func(j Job) bool { return j.Waste.Exit.Kind == ExitPipe }, func(j *Job) *float64 { return &j.Waste.Exit.NominalMM }),
	}
	for _, f := range []struct {
		key, label string
		uses       func(Job) bool
		finish     func(*Job) *Finish
	}{
		{"layers.shower", "Shower", always, func(j *Job) *Finish { return &j.Layers.Shower }},
		{"layers.room", "Room", roomTiled, func(j *Job) *Finish { return &j.Layers.Room }},
		{"layers.wall", "Wall", always, func(j *Job) *Finish { return &j.Layers.Wall }},
	} {
		finish := f.finish
		for _, l := range []struct {
			key, label, help string
			layer            func(*Finish) *Layer
		}{
			{"tanking", "tanking", "Waterproof layer.", func(x *Finish) *Layer { return &x.Tanking }},
			{"bed", "tile bed", "Adhesive bed under the tile, as it is when pressed.", func(x *Finish) *Layer { return &x.Bed }},
			{"tile", "tile", "Thickness of the tile.", func(x *Finish) *Layer { return &x.Tile }},
		} {
			layer := l.layer
			rows = append(rows,
				mm(f.key+"."+l.key+".thicknessMM", GroupLayers, f.label+" "+l.label, l.help, 0, 100, 0.5, f.uses, func(j *Job) *float64 { return &layer(finish(j)).ThicknessMM }),
				mm(f.key+"."+l.key+".toleranceMM", GroupLayers, f.label+" "+l.label+" ±", "How far it may turn out thicker or thinner.", 0, 30, 0.1, f.uses, func(j *Job) *float64 { return &layer(finish(j)).ToleranceMM }))
		}
		rows = append(rows,
			mm(f.key+".tileLengthMM", GroupLayers, f.label+" tile length", "Length of the tile's face.", 5, 3500, 1, f.uses, func(j *Job) *float64 { return &finish(j).TileLengthMM }),
			mm(f.key+".tileWidthMM", GroupLayers, f.label+" tile width", "Width of the tile's face.", 5, 3500, 1, f.uses, func(j *Job) *float64 { return &finish(j).TileWidthMM }),
			mm(f.key+".jointMM", GroupLayers, f.label+" joint", "Width of the grout joint.", 0, 30, 0.5, f.uses, func(j *Job) *float64 { return &finish(j).JointMM }))
	}
	spread := func(key, label, help string, greatest float64, uses func(Job) bool, field func(*Tolerances) *float64) {
		rows = append(rows, mm("tolerances."+key, GroupSpread, label+" ±", help, 0, greatest, 0.5, uses, func(j *Job) *float64 { return field(&j.Tolerances) }))
	}
	spread("floorMM", "Floor", "Structural floor where no spot level was taken.", 50, func(j Job) bool { return len(j.SpotLevels) == 0 }, func(t *Tolerances) *float64 { return &t.FloorMM })
	spread("baseMM", "Base top", "How well the base is set to its height.", 20, always, func(t *Tolerances) *float64 { return &t.BaseMM })
	spread("bedMM", "Bed under former", "How well the bed under the former is kept.", 20, always, func(t *Tolerances) *float64 { return &t.BedMM })
	spread("formerMM", "Former", "Thickness of the former at the drain.", 20, always, func(t *Tolerances) *float64 { return &t.FormerMM })
	spread("fallMM", "Fall", "Rise of the former over its whole length.", 50, always, func(t *Tolerances) *float64 { return &t.FallMM })
	spread("outletMM", "Outlet", "Outlet below the flange, from the data sheet or measured.", 20, always, func(t *Tolerances) *float64 { return &t.OutletMM })
	spread("trapMM", "Trap", "Depth of the trap, from the data sheet or measured.", 20, always, func(t *Tolerances) *float64 { return &t.TrapMM })
	spread("pipeMM", "Pipe as laid", "Invert at the exit when the pipe's fall is set by hand; of a run shorter than a metre, in proportion.", 50, fallStated, func(t *Tolerances) *float64 { return &t.PipeMM })
	spread("exitMM", "Exit as measured", "Level of the stated exit.", 100, func(j Job) bool { return j.Waste.Exit.Level.Kind() != ExitFree }, func(t *Tolerances) *float64 { return &t.ExitMM })
	spread("doorwayMM", "Floors beyond doorways", "Finished floor of the rooms beyond.", 50, func(j Job) bool { return len(j.Room.Doorways) > 0 }, func(t *Tolerances) *float64 { return &t.DoorwayMM })
	spread("groundMM", "Ground outside", "Ground level outside the walls.", 500, func(j Job) bool { return j.Waste.Exit.Kind == ExitWall }, func(t *Tolerances) *float64 { return &t.GroundMM })
	return rows
}

// Find is the parameter with the given key.
func Find(key string) (Parameter, bool) {
	for _, p := range Parameters() {
		if p.Key == key {
			return p, true
		}
	}
	return Parameter{}, false
}
