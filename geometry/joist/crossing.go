// Package joist finds where the waste run cuts the joists, and what the cut
// is: a hole, a notch from the top, or worse.
package joist

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Kind is what a crossing does to the joist.
type Kind string

// The kinds of cut.
const (
	Hole    Kind = "hole"
	Notch   Kind = "notch"   // open at the top edge
	Severed Kind = "severed" // reaches the bottom edge, or runs along the joist
)

// Crossing is one place where a pipe passes through a joist.
type Crossing struct {
	Joist *layout.Joist
	Piece *waste.Piece // with its levels
	Kind  Kind
	// Along the joist from the layout's joist origin: where the pipe's centre
	// meets the two faces.
	EntryMM, ExitMM float64
	// Levels of the centre of the pipe at the two faces.
	EntryLevelMM, ExitLevelMM float64
	// EntrySlant and ExitSlant are how the pipe lies to the joist there.
	EntrySlant, ExitSlant Slant
	RadiusMM              float64 // of the hole, with clearance
	TopMM, BottomMM       float64 // levels of the joist's edges there
	At                    plan.Point
	SupportMM, SpanMM     float64 // nearest support, and the span
}

// Slant is how a pipe lies to a joist: what it goes along the joist, and what it
// rises, for each millimetre across it. A round hole comes out as an ellipse on
// the joist's face: 1/sin a times as long as it is high, for an angle a between
// the two.
type Slant struct{ Along, Rise float64 }

// halfLengthMM and halfHeightMM are half the ellipse's extents on a face.
func (s Slant) halfLengthMM(radiusMM float64) float64 { return radiusMM * withOne(s.Along) }

func (s Slant) halfHeightMM(radiusMM float64) float64 { return radiusMM * withOne(s.Rise) }

// withOne is the long side over one and another: slants are far from overflowing.
func withOne(a float64) float64 { return math.Sqrt(1 + a*a) }

// atMost is the slant with its ellipse no longer than reaches a distance along
// the joist, as where a pipe along a joist never meets its face.
func (s Slant) atMost(reachMM, radiusMM float64) Slant {
	most := math.Sqrt(math.Max(0, reachMM*reachMM/radiusMM/radiusMM-1))
	if a := math.Abs(s.Along); a > most {
		s.Rise *= withOne(most) / withOne(a)
		s.Along = math.Copysign(most, s.Along)
	}
	return s
}

// slantOf is how a pipe that goes by a step in plan and falls by a slope on the
// way lies to a joist. Its numbers stay finite for one along the joist.
func slantOf(step, along plan.Point, fall float64) Slant {
	const leastAcross = 1e-9 // the sine of its angle to the joist
	v, length := step.Dot(plan.Left(along)), step.Len()
	across := math.Copysign(math.Max(math.Abs(v), leastAcross*length), v)
	return Slant{step.Dot(along) / across, -fall * length / across}
}

// MiddleMM is the middle of the cut along the joist.
func (c *Crossing) MiddleMM() float64 { return (c.EntryMM + c.ExitMM) / 2 }

// LevelMM is the level of the middle of the cut.
func (c *Crossing) LevelMM() float64 { return (c.EntryLevelMM + c.ExitLevelMM) / 2 }

// LengthMM of the cut along the joist, over both faces.
func (c *Crossing) LengthMM() float64 {
	entry, exit := c.EntrySlant.halfLengthMM(c.RadiusMM), c.ExitSlant.halfLengthMM(c.RadiusMM)
	return math.Max(c.EntryMM+entry, c.ExitMM+exit) - math.Min(c.EntryMM-entry, c.ExitMM-exit)
}

// SizeMM is the greatest of the cut's length and height: the hole's diameter as
// rules mean it. An oblique hole is as large as what it leaves out of the joist's
// length.
func (c *Crossing) SizeMM() float64 { return math.Max(c.LengthMM(), c.CutHighMM()-c.CutLowMM()) }

// CutLowMM and CutHighMM are the levels the cut reaches, not limited to the
// joist.
func (c *Crossing) CutLowMM() float64 {
	return math.Min(c.EntryLevelMM-c.EntrySlant.halfHeightMM(c.RadiusMM), c.ExitLevelMM-c.ExitSlant.halfHeightMM(c.RadiusMM))
}

// CutHighMM is the level of the cut's top.
func (c *Crossing) CutHighMM() float64 {
	return math.Max(c.EntryLevelMM+c.EntrySlant.halfHeightMM(c.RadiusMM), c.ExitLevelMM+c.ExitSlant.halfHeightMM(c.RadiusMM))
}

// Outline is the hole that lets the pipe through square to the joist's face, in
// distances along the joist and levels: the hull of the ellipses on both faces.
// Its corners lie on them, the sides between within the given error of a round
// hole.
func (c *Crossing) Outline(errorMM float64) plan.Ring {
	from, to := plan.Point{c.EntryMM, c.EntryLevelMM}, plan.Point{c.ExitMM, c.ExitLevelMM}
	entry := c.EntrySlant.ellipse(from, c.RadiusMM, errorMM)
	if c.EntrySlant == c.ExitSlant {
		return plan.Drawn(entry, to.Sub(from))
	}
	return plan.Hull(append(entry, c.ExitSlant.ellipse(to, c.RadiusMM, errorMM)...))
}

// ellipse is what a round hole comes out as on a joist's face, about its middle
// there, counter-clockwise.
func (s Slant) ellipse(middle plan.Point, radiusMM, errorMM float64) plan.Ring {
	// A ring round the pipe, each of its points moved on along the pipe to the
	// face: q − d·(q·n)/(d·n), with d = (Along, 1, Rise) along the pipe.
	d := mgl64.Vec3{s.Along, 1, s.Rise}.Normalize()
	up := mgl64.Vec3{-d.Z() * d.X(), -d.Z() * d.Y(), 1 - d.Z()*d.Z()}.Normalize()
	side := d.Cross(up)
	ring := plan.Circle(plan.Point{}, radiusMM, errorMM)
	for i, q := range ring {
		w := side.Mul(q.X()).Add(up.Mul(q.Y()))
		ring[i] = middle.Add(plan.Point{w.X() - s.Along*w.Y(), w.Z() - s.Rise*w.Y()})
	}
	return ring
}

// DepthMM of the joist.
func (c *Crossing) DepthMM() float64 { return c.TopMM - c.BottomMM }

// ZoneShare is the distance to the nearest support over the span, 0 to 0.5;
// negative beyond the outermost support.
func (c *Crossing) ZoneShare() float64 { return c.SupportMM / c.SpanMM }

// Find lists the crossings joist by joist, in each in the order of the run. Pipes
// above the joists cross none.
//
// Method: the centre line of the run is clipped to each joist's footprint; the
// cut is the hull of the ellipses that the pipe, with clearance, makes on both
// faces. Exact for straights; for bends, to their polygon. A pipe that lies in a
// joist and does not pass through it with its middle is a clash and no cut.
func Find(j job.Job, l layout.Layout, h level.Heights) []Crossing {
	return AppendCuts(nil, &j, &l, &h, Passages(&l, &h.Run))
}

// Passage is where the middle of a run passes over a joist in plan, whatever their
// levels.
type Passage struct {
	// Piece of the run and joist of the layout, by their indexes.
	Piece, Joist int
	// The straight of the piece's path it happens on begins FromMM along the run
	// at Start, and runs by Step; Entry and Exit are shares of that.
	FromMM      float64
	Start, Step plan.Point
	Entry, Exit float64
}

// Passages are all passages of a laid run: joist by joist, in each in the order of
// the run.
func Passages(l *layout.Layout, run *waste.Run) []Passage {
	if len(l.Joists) == 0 {
		return nil
	}
	var out []Passage
	across := plan.Left(l.JoistAlong)
	for k := range run.Pieces {
		p := &run.Pieces[k]
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range p.Path {
			v := q.Sub(l.JoistOrigin).Dot(across)
			low, high = math.Min(low, v), math.Max(high, v)
		}
		for s := range p.Stretches {
			for n := range l.Joists {
				joist := &l.Joists[n]
				// Most joists lie wholly to one side.
				if v := joist.Origin.Sub(l.JoistOrigin).Dot(across); joist.Member != layout.Trimmer && (v-joist.WidthMM/2 > high || v+joist.WidthMM/2 < low) {
					continue
				}
				if from, to, ok := joist.Crosses(s.A, s.B); ok {
					out = append(out, Passage{k, n, s.FromMM, s.A, s.B.Sub(s.A), from, to})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Passage) int { return cmp.Compare(a.Joist, b.Joist) })
	return out
}

// AppendCuts adds the crossings that passages come to at a run's levels, in their
// order, to an empty list.
func AppendCuts(out []Crossing, j *job.Job, l *layout.Layout, h *level.Heights, passages []Passage) []Crossing {
	for i := range passages {
		p := &passages[i]
		joist, length := &l.Joists[p.Joist], p.Step.Len()
		size := &h.Run.Pieces[p.Piece].Pipe
		levelAt := func(t float64) float64 { return h.Run.InvertAt(p.FromMM+length*t) + size.BoreMM/2 }
		c := Crossing{RadiusMM: size.OutsideDiameterMM/2 + clash.ClearanceMM, EntryLevelMM: levelAt(p.Entry), ExitLevelMM: levelAt(p.Exit)}
		entry, exit := p.Start.Add(p.Step.Mul(p.Entry)), p.Start.Add(p.Step.Mul(p.Exit))
		c.At = entry.Add(exit).Mul(0.5)
		c.EntryMM, c.ExitMM = entry.Sub(l.JoistOrigin).Dot(joist.Along), exit.Sub(l.JoistOrigin).Dot(joist.Along)
		slant := slantOf(p.Step, joist.Along, (h.Run.InvertAt(p.FromMM)-h.Run.InvertAt(p.FromMM+length))/length)
		c.EntrySlant = slant.atMost(c.RadiusMM+p.FromMM+length*p.Entry, c.RadiusMM)
		c.ExitSlant = slant.atMost(c.RadiusMM+h.Run.LengthMM-p.FromMM-length*p.Exit, c.RadiusMM)
		c.TopMM = TopMM(j, h, joist, c.At)
		c.BottomMM = c.TopMM - j.Floor.Joists.DepthMM
		if !c.classify() {
			continue
		}
		c.Joist, c.Piece = joist, &h.Run.Pieces[p.Piece]
		c.SupportMM, c.SpanMM = nearestSupport(supports(l, joist), c.MiddleMM())
		out = append(out, c)
	}
	return join(out)
}

// TopMM is the level of a joist's top edge near a plan point: the underside of
// the deck over its centre line.
func TopMM(j *job.Job, h *level.Heights, joist *layout.Joist, p plan.Point) float64 {
	on := joist.Origin.Add(joist.Along.Mul(p.Sub(joist.Origin).Dot(joist.Along)))
	return h.Survey.Floor.At(on) - j.Floor.Deck.ThicknessMM
}

// alongShare is how many times its depth a joist may be cut along before it is
// no hole or notch any more. Common practice, no source.
const alongShare = 2

// classify names the cut; false when the pipe passes over or under the joist.
func (c *Crossing) classify() bool {
	low, high := c.CutLowMM(), c.CutHighMM()
	switch {
	case low >= c.TopMM || high <= c.BottomMM:
		return false
	case low <= c.BottomMM || c.LengthMM() > alongShare*c.DepthMM():
		c.Kind = Severed
	case high >= c.TopMM:
		c.Kind = Notch
	default:
		c.Kind = Hole
	}
	return true
}

// sameCutMM is how far the axis may jump in level from one stretch of a cut to the
// next: where a reducer is turned the wrong way round, say.
const sameCutMM = 1

// join merges stretches of one joist that continue each other, as where a run
// enters a joist in one piece and leaves it in the next.
func join(in []Crossing) []Crossing {
	out, first := in[:0], 0 // of those in the same joist
	for i := range in {
		c := &in[i]
		for first < len(out) && out[first].Joist != c.Joist {
			first++
		}
		at := slices.IndexFunc(out[first:], func(o Crossing) bool {
			return math.Abs(o.ExitMM-c.EntryMM) < plan.HairMM && math.Abs(o.ExitLevelMM-c.EntryLevelMM) < sameCutMM
		})
		if at < 0 {
			out = append(out, *c)
			continue
		}
		o := &out[first+at]
		o.ExitMM, o.ExitLevelMM, o.ExitSlant = c.ExitMM, c.ExitLevelMM, c.ExitSlant
		o.RadiusMM = math.Max(o.RadiusMM, c.RadiusMM)
		o.classify()
	}
	return out
}

// supports are what a timber lies on, along it: the floor's, of a trimmer its own ends and
// of a piece of a cut joist those that are left of the floor's, and the ends at trimmers.
func supports(l *layout.Layout, j *layout.Joist) []float64 {
	switch j.Member {
	case layout.Trimmer:
		return []float64{j.FromMM, j.ToMM}
	case layout.CutJoist:
		var out []float64
		if j.HungStart {
			out = append(out, j.FromMM)
		}
		for _, s := range l.SupportsMM {
			if (!j.HungStart || s > j.FromMM) && (!j.HungEnd || s < j.ToMM) {
				out = append(out, s)
			}
		}
		if j.HungEnd {
			out = append(out, j.ToMM)
		}
		return out
	}
	return l.SupportsMM
}

// nearestSupport gives the distance from a place along the joist to the nearer
// support of its span, and the span.
func nearestSupport(supports []float64, at float64) (distance, span float64) {
	for i := 1; i < len(supports); i++ {
		a, b := supports[i-1], supports[i]
		if at <= b || i == len(supports)-1 {
			return math.Min(at-a, b-at), b - a
		}
	}
	return 0, 1
}
