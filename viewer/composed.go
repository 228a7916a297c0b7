package viewer

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/furnish"
	"underfall/geometry/plan"
)

// What a picture of a shower is composed by, in shares of it. By eye.
const (
	offMiddle   = 0.1  // the shower's middle stands so far beside the picture's without harm
	showerShare = 0.32 // and it takes so much of the picture
	slantDeg    = 22   // what is flat on a wall is seen from no nearer to edge-on
)

// taste is how much a picture is found fault with.
type taste struct {
	bareShare   float64 // bare walls nearer than the shower take no more
	nearerShare float64 // of the way to it
	offMiddle   float64 // what it counts that the shower stands beside the middle
	slanted     float64 // that something hangs all but edge-on
	cutLarge    float64 // that half of something large is in the picture
}

// plain is the taste for who stands in a room and looks, choosy that for a picture to be hung on a wall. By eye.
func plain() taste { return taste{bareShare: 0.25, nearerShare: 0.7, offMiddle: 3} }
func choosy() taste {
	return taste{bareShare: 0.1, nearerShare: 0.75, offMiddle: 8, slanted: 0.5, cutLarge: 40}
}

// unbalanced is what is wrong with how a picture is composed: the shower far beside its middle or small in it, bare walls that take
// much of it before one comes to the shower, the drain and the way in hidden by what stands before them.
func (p *photographer) unbalanced(c Camera) float64 {
	l, r := &p.r.Layout, p.r
	wrong := 0.0
	if x, _, ok := c.Project(p.heart.Vec3(r.Heights.TileMM), p.aspect); ok {
		wrong += p.taste.offMiddle * math.Max(0, math.Abs(x-0.5)-offMiddle)
	}
	const tallMM = 2000
	if box, ok := p.boxOf(c, furnish.Showered(r), r.Heights.TileMM, r.Heights.TileMM+tallMM); ok {
		wrong += 3 * math.Max(0, showerShare-shared(box, [2][2]float64{{0, 0}, {1, 1}}))
	}
	wrong += 3*math.Max(0, p.bare(c)-p.taste.bareShare) + p.slanted(c)
	things := p.things(c)
	if p.hidden(c, things, l.DrainCentre.Vec3(r.Heights.ShowerAt(l, l.DrainCentre))) {
		wrong += 1
	}
	for _, e := range l.OpenEdges() {
		if at := e.Middle(); p.hidden(c, things, at.Vec3(r.Heights.ShowerAt(l, at))) {
			wrong += 0.5
		}
	}
	return wrong + 2*p.floorHidden(c, things)
}

// slanted is how much of what hangs flat on walls is seen all but edge-on: a towel is then a stick, a radiator a comb.
func (p *photographer) slanted(c Camera) (wrong float64) {
	const trifle = 0.002
	eye := c.Eye()
	at := plan.Point{eye.X(), eye.Y()}
	least := math.Sin(slantDeg * math.Pi / 180)
	for _, o := range p.objects {
		if o.Kind != furnish.Towels && o.Kind != furnish.Radiator && o.Kind != furnish.Mirror || o.Wall < 0 || p.leavesOut(at, o) {
			continue
		}
		box, ok := p.boxOf(c, o.Footprint(), o.FromMM, o.ToMM)
		if !ok || shared(box, [2][2]float64{{0, 0}, {1, 1}}) < trifle {
			continue
		}
		slant := math.Abs(p.r.Layout.Walls[o.Wall].Outward.Dot(o.Middle().Sub(at).Normalize()))
		wrong += p.taste.slanted * math.Max(0, 1-slant/least)
	}
	return wrong
}

// floorHidden is the share of the shower's floor that is hidden by things that stand before it.
func (p *photographer) floorHidden(c Camera, things []thing) float64 {
	const parts = 4
	low, high, _ := plan.FromRing(furnish.Showered(p.r)).Bounds()
	size := high.Sub(low)
	all, hidden := 0.0, 0.0
	for i := range parts {
		for k := range parts {
			at := low.Add(plan.Point{(float64(i) + 0.5) / parts * size.X(), (float64(k) + 0.5) / parts * size.Y()})
			if !p.r.Layout.Shower.Contains(at, 0) {
				continue
			}
			all++
			if p.hidden(c, things, at.Vec3(p.r.Heights.ShowerAt(&p.r.Layout, at))) {
				hidden++
			}
		}
	}
	return hidden / math.Max(1, all)
}

// bare is the share of the picture that bare walls take which are nearer than the shower by far: neither window nor anything that
// hangs or stands is seen there.
func (p *photographer) bare(c Camera) float64 {
	const columns, lines = 12, 3
	eye := c.Eye()
	nearMM := p.taste.nearerShare * p.heart.Sub(plan.Point{eye.X(), eye.Y()}).Len()
	dressed, fixed := p.dressed(c), c.fixed()
	bare := 0
	for i := range columns {
		for k := range lines {
			x, y := (float64(i)+0.5)/columns, (float64(k)+0.5)/lines
			from, d := fixed.ray(x, y, p.aspect)
			level := plan.Point{d.X(), d.Y()}
			at := plan.Point{from.X(), from.Y()}
			_, out, ok := p.enters(at, level.Normalize())
			if !ok || out > nearMM {
				continue
			}
			z, foot := from.Z()+out*d.Z()/level.Len(), at.Add(level.Normalize().Mul(out-1))
			if z < p.r.Floor.FinishedMM(foot) || z > p.r.Layout.CeilingAt(foot) || takes(dressed, x, y) {
				continue
			}
			bare++
		}
	}
	return float64(bare) / (columns * lines)
}

// dressed are the parts of the picture that windows and things take.
func (p *photographer) dressed(c Camera) (boxes [][2][2]float64) {
	for _, o := range p.objects {
		if box, ok := p.boxOf(c, o.Footprint(), o.FromMM, o.ToMM); ok {
			boxes = append(boxes, box)
		}
	}
	for _, o := range p.windows {
		w := p.r.Layout.Walls[o.Wall]
		from := w.A.Add(w.Along.Mul(o.OffsetMM))
		if box, ok := p.boxOf(c, plan.Ring{from, from.Add(w.Along.Mul(o.WidthMM))}, o.SillMM, o.SillMM+o.HeightMM); ok {
			boxes = append(boxes, box)
		}
	}
	return boxes
}

// takes tells whether one of some parts of the picture has a place of it.
func takes(boxes [][2][2]float64, x, y float64) bool {
	for _, b := range boxes {
		if x >= b[0][0] && x <= b[1][0] && y >= b[0][1] && y <= b[1][1] {
			return true
		}
	}
	return false
}

// thing is the part of a picture that something takes, and how far away that stands.
type thing struct {
	box    [2][2]float64
	awayMM float64
}

// things are those in a picture that may hide a place.
func (p *photographer) things(c Camera) (all []thing) {
	eye := c.Eye()
	for _, o := range p.objects {
		if o.Kind == furnish.Mat {
			continue
		}
		if box, seen := p.boxOf(c, o.Footprint(), o.FromMM, o.ToMM); seen {
			all = append(all, thing{box, o.Middle().Sub(plan.Point{eye.X(), eye.Y()}).Len()})
		}
	}
	return all
}

// hidden tells whether a thing that stands nearer hides a place.
func (p *photographer) hidden(c Camera, things []thing, at mgl64.Vec3) bool {
	awayMM := at.Sub(c.Eye()).Len()
	x, y, ok := c.Project(at, p.aspect)
	return !ok || slices.ContainsFunc(things, func(t thing) bool {
		return t.awayMM <= awayMM && takes([][2][2]float64{t.box}, x, y)
	})
}
