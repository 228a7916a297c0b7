package level

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// Trap is where the water stands in a drain's trap, and what is round it. Levels are
// above the datum; distances in plan are from the middle of the body, towards the
// outlet and to the left of that way.
type Trap struct {
	UnderMM float64 // underside of the body
	FloorMM float64 // top of its floor
	DipMM   float64 // edge of the dip
	WeirMM  float64
	// WaterMM is where the water stands: at the weir, or at the outlet's invert where
	// that lies higher.
	WaterMM float64
	// SealMM is the seal that the body holds, PassageMM the height there is under the
	// dip's edge. Where the body has no room for both as stated, the seal gives way
	// first, for the dip must let through what comes.
	SealMM, PassageMM float64
	// ShortByMM is by how much weir, seal and passage as stated, with the body's floor,
	// exceed the body's depth; 0 where they have room.
	ShortByMM float64
	// InnerWeirMM is how far the outlet's invert lies under the weir: a plate across the
	// body then holds the water, with a riser before it and a chamber behind. 0 where
	// the outlet itself is the weir.
	InnerWeirMM float64
	// OverWeirMM is how far the outlet's invert lies over the weir.
	OverWeirMM float64
	// HalfMM is half the clear width of the body.
	HalfMM float64
	// The dip's outside, along the way to the outlet and across it.
	DipAlong, DipAcross plan.Interval
	// PlateMM is the face towards the dip of an inner weir's plate.
	PlateMM float64
}

// dipShare is the dip's share of the way from its far side to the wall of the outlet;
// riser and chamber have the rest. Common practice, no source.
const dipShare = 0.6

// Trap works out a job's trap at these heights. All of it lies in the body and nothing
// has less than no height, whatever is stated.
func (h *Heights) Trap(j *job.Job, l *layout.Layout) Trap {
	const wall = part.TrapWallMM
	d := &j.Drain
	t := Trap{UnderMM: h.TrapMM, FloorMM: h.TrapMM + wall, HalfMM: d.TrapSizeMM/2 - wall}
	t.ShortByMM = math.Max(0, d.WeirDepthMM+d.SealMM+d.PassageMM+wall-d.TrapDepthMM)
	t.WeirMM = math.Max(t.FloorMM, h.FlangeMM-d.WeirDepthMM)
	t.DipMM = math.Max(t.FloorMM, h.FlangeMM-d.WeirDepthMM-math.Max(0, d.SealMM-t.ShortByMM))
	t.WaterMM = math.Max(t.WeirMM, h.OutletMM)
	t.SealMM, t.PassageMM = t.WaterMM-t.DipMM, t.DipMM-t.FloorMM
	t.InnerWeirMM, t.OverWeirMM = math.Max(0, t.WeirMM-h.OutletMM), math.Max(0, h.OutletMM-t.WeirMM)
	t.inPlan(l)
	return t
}

// inPlan places dip and weir: the dip hangs from where channel and body overlap, and
// leaves room for a riser and a chamber on the outlet's side.
func (t *Trap) inPlan(l *layout.Layout) {
	const wall = part.TrapWallMM
	low, high := plan.Point{math.Inf(1), math.Inf(1)}, plan.Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range l.Drain {
		for _, q := range p.Outer {
			from := q.Sub(l.TrapCentre)
			u, v := from.Dot(l.OutletTo), from.Dot(plan.Left(l.OutletTo))
			low, high = plan.Point{math.Min(low.X(), u), math.Min(low.Y(), v)}, plan.Point{math.Max(high.X(), u), math.Max(high.Y(), v)}
		}
	}
	// Both have a wall, and the dip's own stands clear of them.
	half := t.HalfMM + wall
	overlap := func(from, to float64) plan.Interval {
		return plan.Interval{From: math.Max(from, -half) + 2*wall, To: math.Min(to, half) - 2*wall}
	}
	t.DipAlong, t.DipAcross = overlap(low.X(), high.X()), overlap(low.Y(), high.Y())
	t.DipAlong.To = math.Min(t.DipAlong.To, t.DipAlong.From+dipShare*(t.HalfMM-wall-t.DipAlong.From))
	t.PlateMM = (t.DipAlong.To + t.HalfMM - wall) / 2
}

// PassageMM2 is the area of the passage under the dip: its clear edge times the height
// there is under it.
func (t *Trap) PassageMM2() float64 {
	const walls = 2 * part.TrapWallMM
	return 2 * (t.DipAlong.To - t.DipAlong.From - walls + t.DipAcross.To - t.DipAcross.From - walls) * t.PassageMM
}
