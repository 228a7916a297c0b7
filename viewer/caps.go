package viewer

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// capFace is one cut face ready to draw.
type capFace struct {
	colour    [3]float32
	stage     buildup.Stage
	wall      int
	triangles []float32 // positions
	outline   []float32 // pairs
	hatch     []float32 // pairs
}

// Caps are the cut faces of a scene: on one plane, or on two that take a corner
// out of it.
type Caps struct {
	Cuts  []solid.Cut
	faces []capFace
	// fault says what is not drawn as it should be.
	fault  message.Message
	refuse func(what message.Message, gridMM float64) error // for tests
}

// HatchMM is the usual spacing of the hatch on a cut face.
const HatchMM = 11

// NewCaps makes the cut faces from the exact section. One cut takes away all
// that lies on its side; two take away what lies on both their sides. More are
// not drawn. Without a spacing there is no hatch.
func NewCaps(r geometry.Result, stage buildup.Stage, hatchMM float64, cuts ...solid.Cut) *Caps {
	return new(Caps).of(r, stage, hatchMM, cuts)
}

func (c *Caps) of(r geometry.Result, stage buildup.Stage, hatchMM float64, cuts []solid.Cut) *Caps {
	c.Cuts = cuts[:min(2, len(cuts))]
	for i, cut := range c.Cuts {
		var within plan.Region
		if len(c.Cuts) == 2 {
			within = takenBy(cut, c.Cuts[1-i])
		}
		areas, err := section.Areas(r.Assembly, cut, stage)
		c.note(err)
		for _, a := range areas {
			sh := plan.Shaper{Refuse: c.refuse}
			if within != nil {
				a.Region = sh.Intersect(a.Region, within, a.Name)
			}
			sheet := solid.Cover(&sh, a.Region, a.Name)
			c.note(sh.Err())
			if !sheet.Empty() {
				c.faces = append(c.faces, newCapFace(r, a, sheet, cut, hatchMM))
			}
		}
	}
	return c
}

// note keeps the first fault.
func (c *Caps) note(err error) {
	if c.fault.IsZero() {
		c.fault = section.Fault(err, section.FaultOfCut)
	}
}

// takenBy is the part of a cut's plane that lies on the side another cut takes
// away: a half-plane, as far as any room reaches.
func takenBy(cut, other solid.Cut) plan.Region {
	const farMM = 60000
	// How far a place of the plane lies on the other's side is affine.
	at := func(p plan.Point) float64 { return other.Side(cut.Space(p)) }
	zero := at(plan.Point{})
	g := plan.Point{at(plan.Point{1, 0}) - zero, at(plan.Point{0, 1}) - zero}
	if g.Len() < 1e-9 {
		if zero > 0 {
			return plan.Rectangle(plan.Point{-farMM, -farMM}, plan.Point{farMM, farMM})
		}
		return plan.Region{}
	}
	n := g.Normalize()
	from := n.Mul(-zero / g.Len())
	t := plan.Left(n).Mul(farMM)
	return plan.FromRing(plan.Ring{from.Sub(t), from.Sub(t).Add(n.Mul(farMM)), from.Add(t).Add(n.Mul(farMM)), from.Add(t)})
}

func newCapFace(r geometry.Result, a section.Area, sheet solid.Sheet, cut solid.Cut, hatchMM float64) capFace {
	f := capFace{colour: materialColour(a.Material)}
	for _, p := range r.Assembly.Parts {
		if p.ID == a.PartID {
			f.stage, f.wall = p.Stage, p.Wall
		}
	}
	put := func(to *[]float32, p plan.Point) {
		q := cut.Space(p)
		*to = append(*to, float32(q[0]), float32(q[1]), float32(q[2]))
	}
	for _, t := range sheet.Triangles() {
		for _, p := range t {
			put(&f.triangles, p)
		}
	}
	for _, poly := range a.Region {
		for _, ring := range poly.Rings() {
			for i := range ring {
				put(&f.outline, ring[i])
				put(&f.outline, ring[(i+1)%len(ring)])
			}
		}
	}
	if pattern := a.Pattern(); !pattern.Solid && hatchMM > 0 {
		for _, l := range section.Hatch(a.Region, pattern, hatchMM) {
			put(&f.hatch, l[0])
			put(&f.hatch, l[1])
		}
	}
	return f
}

// clip is a half-space that is kept, as the shaders take it: positive inside.
type clip [4]float32

// everything is the clip that takes nothing away.
func everything() clip { return clip{0, 0, 0, 1} }

// keep is the side of a cut that is kept, or with its sign turned, the one
// taken away.
func keep(c solid.Cut, sign float64) clip {
	n := c.Normal.Mul(-sign)
	return clip{float32(n[0]), float32(n[1]), float32(n[2]), float32(-n.Dot(c.Origin))}
}

// passes are the pairs of clips a scene is drawn with so that what is taken
// away is missing: with two cuts, all behind the first, then what lies before
// the first and behind the second.
func (c *Caps) passes() [][2]clip {
	if c == nil || len(c.Cuts) == 0 {
		return [][2]clip{{everything(), everything()}}
	}
	if len(c.Cuts) == 1 {
		return [][2]clip{{keep(c.Cuts[0], 1), everything()}}
	}
	return [][2]clip{{keep(c.Cuts[0], 1), everything()}, {keep(c.Cuts[0], -1), keep(c.Cuts[1], 1)}}
}

// cutAway tells whether the cuts take a place away.
func cutAway(cuts []solid.Cut, p [3]float64) bool {
	if len(cuts) == 0 {
		return false
	}
	least := math.Inf(1)
	for _, c := range cuts[:min(2, len(cuts))] {
		least = math.Min(least, c.Side(p))
	}
	return least > 0
}
