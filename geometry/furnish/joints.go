package furnish

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/job"
)

// Slips are how wide a strip of tile is cut beside each side of a niche, seen from the room; 0 where a side lies on a joint.
type Slips struct {
	LeftMM, RightMM, BelowMM, AboveMM float64
	// ToJointMM is how far the niche is moved to the right, or below nought to the left, so that its nearer side lies on a joint.
	ToJointMM float64
}

// SlipsOf is how the tiles of its wall are cut beside a niche; ok is false for anything else, and where joints do not run straight
// through. Tiles are set out as pictures show them: from the middle of the drain, and from the shower's tile at it.
func SlipsOf(r *geometry.Result, o Object) (s Slips, ok bool) {
	f := &r.Settled.Layers.Wall
	if o.Kind != Niche || o.Other || f.Bond != job.BondStack {
		return s, false
	}
	w, right := &r.Layout.Walls[o.Wall], o.Along()
	start := w.At(r.Layout.DrainEdge.Sub(w.A).Dot(w.Along))
	middleMM := o.At.Sub(start).Dot(right)
	across, up := joints{f.TileLengthMM + f.JointMM, f.JointMM}, joints{f.TileWidthMM + f.JointMM, f.JointMM}
	from, to := middleMM-o.WidthMM/2, middleMM+o.WidthMM/2
	s = Slips{LeftMM: across.before(from), RightMM: across.before(-to),
		BelowMM: up.before(o.FromMM - r.Heights.TileMM), AboveMM: up.before(r.Heights.TileMM - o.ToMM)}
	s.ToJointMM = across.nearest(from)
	if other := across.nearest(to); math.Abs(other) < math.Abs(s.ToJointMM) {
		s.ToJointMM = other
	}
	return s, true
}

// joints lie evenly along a straight, from nought on.
type joints struct{ apartMM, wideMM float64 }

// before is how wide the strip is from the joint before a place to it; 0 for a place in a joint, or at its edge. Joints lie alike both
// ways, so that the strip after a place is that before its opposite.
func (k joints) before(atMM float64) float64 {
	const withinMM = 0.5
	past := atMM - math.Floor(atMM/k.apartMM)*k.apartMM - k.wideMM/2
	if past < withinMM || past > k.apartMM-k.wideMM-withinMM {
		return 0
	}
	return past
}

// nearest is how far it is from a place to the nearest joint.
func (k joints) nearest(atMM float64) float64 { return math.Round(atMM/k.apartMM)*k.apartMM - atMM }
