package level

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// RampFacet is a part of a ramp that one plane carries, between the tile line of its edge
// and the room's floor.
type RampFacet struct {
	Edge   int // of the open edges, from nought
	Plane  solid.Plane
	Region plan.Region
}

// UsualRampSlope is what a ramp of no stated run falls by where a region says nothing of
// ramps. Common practice, no source.
const UsualRampSlope = 1.0 / 12

// setRamp finds the fall of the ramps away from their edges, one for all: over the stated
// run from where the tile lies highest over the room; for none stated the usual.
func (h *Heights) setRamp(j *job.Job, l *layout.Layout) {
	h.RampSlope = 0
	if len(l.Ramps) == 0 {
		return
	}
	if j.Room.RampRunMM <= 0 {
		h.LayRamp(j, l, func(riseMM float64) float64 { return riseMM / UsualRampSlope })
		return
	}
	for i := range l.Ramps {
		for _, s := range l.Ramps[i].Slopes {
			for _, p := range [2]plan.Point{s.From, s.To} {
				foot := p.Add(s.Down.Mul(j.Room.RampRunMM))
				h.RampSlope = math.Max(h.RampSlope, (h.ShowerAt(l, p)-h.RampFootAt(j, foot))/j.Room.RampRunMM)
			}
		}
	}
}

// LayRamp gives ramps without a stated run the run that a rise asks for, measured down
// their steepest line, at the place where the tile lies highest over the room.
func (h *Heights) LayRamp(j *job.Job, l *layout.Layout, runOf func(riseMM float64) float64) {
	h.RampSlope = 0
	if j.Room.RampRunMM > 0 {
		return
	}
	rise, along := 0.0, 0.0
	for i := range l.Ramps {
		for _, s := range l.Ramps[i].Slopes {
			for _, p := range [2]plan.Point{s.From, s.To} {
				rise = math.Max(rise, h.ShowerAt(l, p)-h.RampFootAt(j, p))
			}
			along = math.Max(along, math.Abs(h.alongEdge(l, s)))
		}
	}
	if rise <= 0 {
		return
	}
	h.RampSlope = straightOut(rise/runOf(rise), along)
}

// alongEdge is how the tile line rises along a slope's edge, over its run.
func (h *Heights) alongEdge(l *layout.Layout, s layout.RampSlope) float64 {
	run := s.To.Sub(s.From).Len()
	if run == 0 {
		return 0
	}
	return (h.ShowerAt(l, s.To) - h.ShowerAt(l, s.From)) / run
}

// RampPlane is the plane of a slope: it holds the tile line of its edge and falls away
// from it by the ramp's fall.
func (h *Heights) RampPlane(l *layout.Layout, s layout.RampSlope) solid.Plane {
	fall := s.Down.Mul(-h.RampSlope)
	if run := s.To.Sub(s.From).Len(); run > 0 {
		fall = fall.Add(s.To.Sub(s.From).Mul(h.alongEdge(l, s) / run))
	}
	return solid.Plane{Level: h.ShowerAt(l, s.From) - fall.Dot(s.From), SlopeX: fall.X(), SlopeY: fall.Y()}
}

// RampFacets are the parts of the ramps, each with its plane, as far as they stand over
// the room's floor.
func (h *Heights) RampFacets(j *job.Job, l *layout.Layout) []RampFacet {
	if h.RampSlope <= 0 {
		return nil
	}
	var out []RampFacet
	foot := h.footPlane(j)
	for i := range l.Ramps {
		floor := &l.Ramps[i]
		for k, s := range floor.Slopes {
			plane := h.RampPlane(l, s)
			region := floor.Region.Where(func(p plan.Point) float64 { return plane.At(p) - foot.At(p) })
			if len(floor.Slopes) > 1 {
				other := h.RampPlane(l, floor.Slopes[1-k])
				region = region.Where(func(p plan.Point) float64 { return other.At(p) - plane.At(p) })
			}
			if region = tidy(region); region.Area() > leastFacetMM2 {
				out = append(out, RampFacet{s.Edge, plane, region})
			}
		}
	}
	return out
}

// tidy is a region without corners that lie a hair from the one before, as cuts through a
// corner leave them.
func tidy(r plan.Region) plan.Region {
	out := make(plan.Region, 0, len(r))
	for _, p := range r {
		ring := make(plan.Ring, 0, len(p.Outer))
		for i, q := range p.Outer {
			if before := p.Outer[(i+len(p.Outer)-1)%len(p.Outer)]; q.Sub(before).Len() > plan.HairMM {
				ring = append(ring, q)
			}
		}
		if len(ring) > 2 {
			out = append(out, plan.Polygon{Outer: ring, Holes: p.Holes})
		}
	}
	return out
}

// leastFacetMM2 is under what area a part of a ramp is nothing: a square millimetre.
const leastFacetMM2 = 1

// RampRunMM is how far the ramp goes from a point of a slope's tile line, straight away
// from the edge, until it is down at its foot; endless where it never is.
func (h *Heights) RampRunMM(j *job.Job, l *layout.Layout, s layout.RampSlope, from plan.Point) float64 {
	foot := h.footPlane(j)
	over := h.ShowerAt(l, from) - foot.At(from)
	closes := h.RampSlope + foot.SlopeX*s.Down.X() + foot.SlopeY*s.Down.Y()
	switch {
	case over <= 0:
		return 0
	case closes <= 0:
		return math.Inf(1)
	}
	return over / closes
}

// Ramp is the ramp at an open edge, where it climbs most: its rise, its length on plan
// straight out from the edge, and the steepest fall of its planes, rise over run.
type Ramp struct {
	RiseMM, RunMM, Slope float64
	// From is the place on the tile line, Foot where the ramp is down, in the room or not.
	From, Foot plan.Point
}

// RampAt is the ramp at an open edge, counted from nought; ok is false where there is none
// and where it is never down.
func (h *Heights) RampAt(j *job.Job, l *layout.Layout, edge int) (r Ramp, ok bool) {
	if h.RampSlope <= 0 {
		return Ramp{}, false
	}
	for i := range l.Ramps {
		s := l.Ramps[i].Slopes[0]
		if s.Edge != edge || len(l.Ramps[i].Slopes) > 1 {
			continue
		}
		r.Slope = math.Max(r.Slope, h.RampPlane(l, s).Gradient())
		// The middle first, so that a level line is told there.
		for _, p := range [...]plan.Point{s.From.Add(s.To).Mul(0.5), s.From, s.To} {
			if rise := h.ShowerAt(l, p) - h.RampFootAt(j, p); rise > r.RiseMM+plan.HairMM {
				r.RiseMM, r.RunMM, r.From = rise, h.RampRunMM(j, l, s, p), p
				r.Foot = p.Add(s.Down.Mul(r.RunMM))
			}
		}
	}
	if r.RiseMM <= 0 || math.IsInf(r.RunMM, 1) {
		return Ramp{}, false
	}
	return r, true
}

// RampRunAt is how long the ramp at an open edge, counted from nought, would be on plan, straight
// out from where it climbs most, if it were nowhere steeper than a slope; endless where it would
// never be down.
func (h *Heights) RampRunAt(j *job.Job, l *layout.Layout, edge int, slope float64) float64 {
	rise, along := 0.0, 0.0
	var climbs layout.RampSlope
	var from plan.Point
	for i := range l.Ramps {
		s := l.Ramps[i].Slopes[0]
		if s.Edge != edge || len(l.Ramps[i].Slopes) > 1 {
			continue
		}
		along = math.Max(along, math.Abs(h.alongEdge(l, s)))
		for _, p := range [2]plan.Point{s.From, s.To} {
			if over := h.ShowerAt(l, p) - h.RampFootAt(j, p); over > rise {
				rise, climbs, from = over, s, p
			}
		}
	}
	laid := *h
	laid.RampSlope = straightOut(slope, along)
	return laid.RampRunMM(j, l, climbs, from)
}

// straightOut is the fall straight away from an edge of a ramp whose steepest is given, where its
// tile line rises along the edge.
func straightOut(steepest, along float64) float64 {
	if along >= steepest {
		return steepest
	}
	return math.Sqrt(steepest*steepest - along*along)
}

// RampFootAt is the level at which a ramp ends at a plan point: the room's floor, or over
// it where the ramp's own layers are thicker than the finish that stays.
func (h *Heights) RampFootAt(j *job.Job, p plan.Point) float64 { return h.footPlane(j).At(p) }

// RampLipMM is how far the foot of a ramp stands over the room's floor.
func RampLipMM(j *job.Job) float64 {
	if !j.Floor.KeepsFinish() {
		return 0
	}
	return math.Max(0, rampFootMM(j)-j.Floor.KeptInRoomMM())
}

// rampFootMM is how far over the structural floor a ramp ends.
func rampFootMM(j *job.Job) float64 {
	own := j.Floor.KeptUnderRampMM() + j.Layers.Room.ThicknessMM()
	if j.Floor.KeepsFinish() {
		return math.Max(own, j.Floor.KeptInRoomMM())
	}
	return own
}

func (h *Heights) footPlane(j *job.Job) solid.Plane { return h.Survey.Floor.Raised(rampFootMM(j)) }
