// Package asbuilt puts levels measured while the work goes on in the place of
// what was planned, and says what to do next so that the floor still comes out.
package asbuilt

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/message"
)

// Instruction is what to do next so that the floor comes out as planned after
// all, worked out from what has been measured.
type Instruction struct {
	What    message.ID
	Kind    buildup.RowKind
	Value   float64
	Planned float64
	// Possible tells that the value lies within what the material takes.
	Possible bool
	At       mgl64.Vec3
}

// Message says what to do now.
func (i Instruction) Message() message.Message {
	planned := i.Kind.Value(i.Planned)
	return message.Of("levels.now", message.In("what", message.Of(i.What)), message.Arg{Name: "planned", Value: planned},
		message.Arg{Name: "value", Value: message.Apart{Value: i.Kind.Value(i.Value), From: planned}})
}

// Contradiction is a measured level that cannot be, given the others.
type Contradiction struct {
	What message.ID
	// ByMM is how far it lies on the wrong side.
	ByMM float64
	At   mgl64.Vec3
}

// Message says what to measure again.
func (c Contradiction) Message() message.Message {
	return message.Of("levels.measure-again", message.In("what", message.Of(c.What)), message.Fine("by", c.ByMM))
}

// Beds that can be laid in one go, mm. Common practice, no source; the sheet
// of the adhesive at hand decides.
const (
	leastBedMM    = 1.0
	greatestBedMM = 10.0
)

// rounding is what sums of millimetres, and of falls, leave over: less is nothing.
const rounding = 1e-9

// leastFall is the least fall that a pipe can be laid to at all: under it, it is
// level. What the rules want is more.
const leastFall = 1e-6

// Settled is a job with what has been measured put in the place of what was
// planned, and what follows from it.
type Settled struct {
	Job            job.Job
	Instructions   []Instruction
	Contradictions []Contradiction
}

// Settle puts measured levels into a job as the thicknesses and depths
// that give them, from the floor up; all that comes after is then worked out
// as ever. What contradicts a level measured below it is left out and named.
func Settle(j job.Job, l layout.Layout, planned level.Heights) Settled {
	b := Settled{Job: j.Clone()}
	a, k := j.AsBuilt, &b.Job
	if !a.Any() {
		return b
	}
	drain := func(z float64) mgl64.Vec3 { return l.DrainEdge.Vec3(z) }
	contradict := func(what message.ID, by float64, at mgl64.Vec3) {
		b.Contradictions = append(b.Contradictions, Contradiction{what, by, at})
	}
	instruct := func(what message.ID, kind buildup.RowKind, value, plannedValue, least, greatest float64, at mgl64.Vec3) {
		b.Instructions = append(b.Instructions, Instruction{what, kind, value, plannedValue, value >= least-rounding && value <= greatest+rounding, at})
	}
	finish := j.Layers.Shower
	overBed := finish.UnderMM() + finish.Tanking.ThicknessMM + finish.Tile.ThicknessMM

	// The base: its height is settled, whatever later parts would have asked
	// for.
	top := planned.BaseTopMM
	if a.BaseTopMM != nil {
		if by := planned.GroundHighMM(&j) - *a.BaseTopMM; by > 0 && j.Base.Support == job.OnFloor {
			contradict("contradiction.base-under-floor", by, l.FallArea.Centroid().Vec3(*a.BaseTopMM))
		} else {
			top = *a.BaseTopMM
		}
	}
	FixBase(k, planned, top)

	// The former at the drain: the bed under it takes up the difference, then
	// the former itself.
	flange := top + j.Former.BedMM + j.Former.ThicknessAtDrainMM
	if a.FormerAtDrainMM != nil {
		over := *a.FormerAtDrainMM - top
		if least := 0.5; over < least {
			contradict("contradiction.former-under-base", least-over, drain(*a.FormerAtDrainMM))
		} else {
			flange = *a.FormerAtDrainMM
			k.Former.BedMM = math.Max(0, math.Min(30, over-j.Former.ThicknessAtDrainMM))
			k.Former.ThicknessAtDrainMM = over - k.Former.BedMM
		}
	} else if a.BaseTopMM != nil {
		instruct("now.former-bed", buildup.IsDepth, planned.FormerMM-top, j.Former.BedMM, leastBedMM, greatestBedMM, l.FallArea.Centroid().Vec3(top))
	}

	// The fall, from the former's high end.
	high, rise := l.HighEnd()
	if a.FormerAtEdgeMM != nil && rise > 0 {
		if by := flange - *a.FormerAtEdgeMM; by > 0 {
			contradict("contradiction.high-end-under-drain", by, high.Vec3(*a.FormerAtEdgeMM))
		} else {
			k.Former.Turn(math.Min(0.25, j.Former.Slope*(*a.FormerAtEdgeMM-flange)/rise))
		}
	}
	if a.TileAtDrainMM == nil && a.FormerAtDrainMM != nil {
		instruct("now.tile-bed-at-drain", buildup.IsDepth, planned.TileMM-flange-overBed, finish.Bed.ThicknessMM, leastBedMM, greatestBedMM, drain(flange))
	}
	if a.TileAtDrainMM == nil && a.FormerAtEdgeMM != nil && rise > 0 && *a.FormerAtEdgeMM >= flange {
		instruct("now.tile-bed-at-high-end", buildup.IsDepth, planned.TileMM+rise-*a.FormerAtEdgeMM-overBed, finish.Bed.ThicknessMM, leastBedMM, greatestBedMM, high.Vec3(*a.FormerAtEdgeMM))
	}
	if a.TileAtDrainMM != nil {
		if bed := *a.TileAtDrainMM - flange - overBed; bed < 0 {
			contradict("contradiction.tile-under-layers", -bed, drain(*a.TileAtDrainMM))
		} else {
			k.Layers.Shower.Bed.ThicknessMM = math.Min(100, bed)
			instruct("now.cover-over-flange", buildup.IsDepth, *a.TileAtDrainMM-flange, planned.TileMM-planned.FlangeMM, j.Drain.CoverLeastMM, j.Drain.CoverGreatestMM, drain(*a.TileAtDrainMM))
		}
	}

	// The waste.
	outlet := flange - j.Drain.OutletInvertDepthMM
	if a.OutletInvertMM != nil {
		depth := flange - *a.OutletInvertMM
		switch {
		case depth < 5:
			contradict("contradiction.outlet-over-flange", 5-depth, l.Outlet.Vec3(*a.OutletInvertMM))
		case depth > 500:
			contradict("contradiction.outlet-far-under-flange", depth-500, l.Outlet.Vec3(*a.OutletInvertMM))
		default:
			outlet = *a.OutletInvertMM
			k.Drain.OutletInvertDepthMM = depth
			// The trap is one body: it hangs as far under its outlet as before, and its weir
			// lies as far over it.
			k.Drain.TrapDepthMM = math.Min(600, depth+j.Drain.TrapDepthMM-j.Drain.OutletInvertDepthMM)
			k.Drain.WeirDepthMM = math.Max(1, math.Min(500, depth+j.Drain.WeirDepthMM-j.Drain.OutletInvertDepthMM))
		}
	}
	run := planned.Run
	switch {
	case len(run.Pieces) == 0:
	case a.ExitInvertMM != nil:
		exit := *a.ExitInvertMM
		k.Waste.Exit.Level = job.Exactly(exit)
		if g, ok := run.GradientTo(outlet, exit); ok {
			instruct("now.pipe-fall", buildup.IsFall, g, planned.Gradient, leastFall, math.Inf(1), run.Exit.Vec3(exit))
		}
	case a.OutletInvertMM != nil || a.FormerAtDrainMM != nil || a.BaseTopMM != nil:
		g := planned.Gradient
		if exit, exact := j.Waste.Exit.Level.ExactlyMM(); exact {
			if to, ok := run.GradientTo(outlet, exit); ok {
				g = to
			}
		}
		instruct("now.exit-invert", buildup.IsLevel, outlet-run.DropMM(run.ExitAtMM, g), planned.OutletMM-run.DropMM(run.ExitAtMM, planned.Gradient),
			math.Inf(-1), math.Inf(1), run.Exit.Vec3(outlet-run.DropMM(run.ExitAtMM, g)))
	}
	return b
}

// FixBase fixes the height of the base so that its top comes to a level, whatever
// the parts over it ask for.
func FixBase(j *job.Job, h level.Heights, topMM float64) {
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, topMM-h.ChosenFromMM(j)
}
