package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// place is where a photographer stands: so much turned, so far away, so much aside, of what the view says; so high over the
// floor; and the lens.
type place struct{ turnDeg, farMM, asideMM, highMM, lensMM float64 }

// best is the camera at the best of some places, or at one near it that is better.
//
// Method: all places of the grid, then from the best of them to a better neighbour, by smaller and smaller steps. What is wrong with
// a place need not be told where it is more than with the best so far.
func best(grid []place, camera func(k place, most float64) (c Camera, wrong float64)) (found Camera, least float64) {
	least = math.Inf(1)
	var at place
	try := func(k place) bool {
		c, wrong := camera(k, least)
		if wrong < least {
			least, at, found = wrong, k, c
			return true
		}
		return false
	}
	for _, k := range grid {
		try(k)
	}
	if math.IsInf(least, 1) {
		return found, least
	}
	for step := 1.0; step > 0.05; {
		k, better := at, false
		for _, by := range []place{{turnDeg: 6}, {farMM: 150}, {asideMM: 200}, {highMM: 80}, {lensMM: 4}} {
			for _, sign := range []float64{step, -step} {
				better = try(place{k.turnDeg + sign*by.turnDeg, k.farMM + sign*by.farMM, k.asideMM + sign*by.asideMM,
					k.highMM + sign*by.highMM, k.lensMM + sign*by.lensMM}) || better
			}
		}
		if !better {
			step /= 2
		}
	}
	return found, least
}

// evenly are numbers from one to another, at most a step apart.
func evenly(from, to, step float64) (out []float64) {
	for x := from; x <= to+step/100; x += step {
		out = append(out, x)
	}
	return out
}

// places are all that there are of the numbers given, the eye's height and the lens left open.
func places(turnsDeg, farsMM, asidesMM []float64) (out []place) {
	for _, turnDeg := range turnsDeg {
		for _, farMM := range farsMM {
			for _, asideMM := range asidesMM {
				out = append(out, place{turnDeg: turnDeg, farMM: farMM, asideMM: asideMM})
			}
		}
	}
	return out
}

// wish is how one would rather stand before the shower: so much turned from square to its back wall, to its open side; and
// what it counts for that one stands outside of the room, for each metre from it; and how much may be wrong before a wider lens is tried.
type wish struct{ turnDeg, perMetreOutside, good float64 }

// before is the view of the shower from where one would rather stand; from outside, past a wall that is left out, where not all
// is seen from inside.
func (p *photographer) before(w wish) Camera {
	l := &p.r.Layout
	open := lateral(*l)
	grid := places(evenly(-70, 74, 8), evenly(600, 4600, 250), evenly(-900, 900, 300))
	return p.widened(grid, w.good, func(k place, most float64) (c Camera, wrong float64) {
		const mostTurnDeg, leastFarMM = 80, 500
		s, co := math.Sincos(k.turnDeg * math.Pi / 180)
		out := l.Into.Mul(co).Add(open.Mul(s))
		eye := p.heart.Add(out.Mul(k.farMM)).Add(plan.Left(out).Mul(k.asideMM))
		if math.Abs(k.turnDeg) > mostTurnDeg || k.farMM < leastFarMM || p.inShower(eye) {
			return c, math.Inf(1)
		}
		wrong = math.Abs(k.turnDeg-w.turnDeg)/40 + math.Abs(k.asideMM)/3000 + k.farMM/12000 + math.Abs(k.highMM-photographMM)/1500
		if k.turnDeg < 0 {
			wrong += 0.4 // the closed side is nearer
		}
		if !l.Room.Contains(eye, 0) {
			mm, _ := l.Clear(eye)
			wrong += w.perMetreOutside * mm / 1000
		}
		c, more := p.judged(eye, out.Mul(-1), k.lensMM, k.highMM, most-wrong)
		return c, wrong + more
	})
}

// inShower tells whether a place is in a shower that is no more than a part of its room.
func (p *photographer) inShower(at plan.Point) bool {
	l := &p.r.Layout
	return l.Shower.Area() < l.Room.Area()/2 && l.Shower.Contains(at, 0)
}

// widened is the best camera of a view, with the eye lower or higher, and through a lens that is wider than usual, where no other shows
// what must be seen, or more is wrong than is good with every other picture that does.
func (p *photographer) widened(grid []place, good float64, camera func(k place, most float64) (c Camera, wrong float64)) Camera {
	const stepMM = 3
	var found, held struct {
		Camera
		wrong float64
	}
	found.Camera, found.wrong, held.wrong = p.anywhere(), math.Inf(1), math.Inf(1)
	for _, l := range []limits{{photographMM, photographMM, wideLensMM}, {lowestEyeMM, highestEyeMM, wideLensMM}} {
		for ; l.leastLensMM >= widestLensMM; l.leastLensMM -= stepMM {
			c, wrong := best(l.within(grid), func(k place, most float64) (c Camera, wrong float64) {
				if !l.allow(k) {
					return c, math.Inf(1)
				}
				return camera(k, most)
			})
			switch {
			case math.IsInf(wrong, 1):
			case p.holds(c):
				if wrong < held.wrong {
					held.Camera, held.wrong = c, wrong
				}
				if wrong < good {
					return c
				}
			case wrong < found.wrong && p.void(c) == 0:
				found.Camera, found.wrong = c, wrong
			}
		}
		if !math.IsInf(held.wrong, 1) {
			return held.Camera
		}
	}
	return found.Camera
}

// limits are between which heights over the finished floor the eye may be, and the widest lens there may be.
type limits struct{ lowestMM, highestMM, leastLensMM float64 }

func (l limits) allow(k place) bool {
	return k.lensMM >= l.leastLensMM && k.lensMM <= longestLensMM && k.highMM >= l.lowestMM && k.highMM <= l.highestMM
}

// within are the places of a grid with the widest lens, with the eye at the usual height, and low where it may be.
func (l limits) within(grid []place) (out []place) {
	for _, k := range grid {
		k.highMM, k.lensMM = photographMM, l.leastLensMM
		out = append(out, k)
		if low := l.lowestMM + 100; low < photographMM {
			k.highMM = low
			out = append(out, k)
		}
	}
	return out
}

// anywhere is a view of the shower in a room so small that there is no place for one by the rules.
func (p *photographer) anywhere() Camera {
	into := p.r.Layout.Into
	at := p.heart
	for mm := 0.0; mm < 3000 && p.r.Layout.Room.Contains(at.Add(into.Mul(clearOfWallMM)), 0); mm += 50 {
		at = p.heart.Add(into.Mul(mm))
	}
	c, _ := p.aimed(at.Vec3(p.eyeMM(at, photographMM)), into.Mul(-1), wideLensMM)
	return c
}

// photograph is the view of the room that shows the shower best: from the side of its open edge. An upright or square picture is too
// narrow for all that stands beside the shower, whatever the lens; at the sides of a broad one a wider lens would draw things out.
func (p *photographer) photograph() Camera {
	const narrow, broad = 1, 1.7
	good := math.Inf(1)
	if p.aspect > narrow && p.aspect < broad {
		good = 3
	}
	p.taste = choosy()
	return p.before(wish{18, 0.05, good})
}

// standing is the view of who stands in the room before the shower.
func (p *photographer) standing() Camera { return p.before(wish{38, 6, math.Inf(1)}) }

// fromDoor is the view through a doorway, as one comes in; ok is false where the shower is not seen from it.
func (p *photographer) fromDoor(d layout.Doorway) (c Camera, ok bool) {
	into, along := d.Wall.Outward.Mul(-1), d.Wall.Along
	const jambMM = 100
	aside := math.Max(0, d.Middle().Sub(d.A).Len()-jambMM)
	grid := places(evenly(-24, 24, 6), evenly(-clearOfWallMM, 1800, 160), evenly(-aside, aside, math.Max(50, aside/2)))
	c = p.widened(grid, math.Inf(1), func(k place, most float64) (c Camera, wrong float64) {
		eye := d.Middle().Sub(into.Mul(k.farMM)).Add(along.Mul(k.asideMM))
		if math.Abs(k.asideMM) > aside || k.farMM < -2*clearOfWallMM || p.inShower(eye) {
			return c, math.Inf(1)
		}
		s, co := math.Sincos(k.turnDeg * math.Pi / 180)
		forward := p.heart.Sub(eye).Normalize()
		forward = forward.Mul(co).Add(plan.Left(forward).Mul(s))
		wrong = math.Max(0, k.farMM)/4000 + math.Abs(k.turnDeg)/90 + math.Abs(k.highMM-photographMM)/3000
		c, more := p.judged(eye, forward, k.lensMM, k.highMM, most-wrong)
		return c, wrong + more
	})
	return c, p.holds(c)
}

// atDrain is the view near the drain: its joint, the tile round it and how the floor falls to it.
func (p *photographer) atDrain() Camera {
	l, r := &p.r.Layout, p.r
	drain := l.DrainCentre
	target := drain.Add(p.heart.Sub(drain).Mul(0.25))
	aim := target.Vec3(r.Heights.ShowerAt(l, target))
	half := l.DrainAlong.Mul(r.Settled.DrainLengthMM() / 2)
	const highShare, bestTurnDeg, nearestMM, furthestMM, lengths = 0.45, 38, 1100, 1500, 2
	bestMM := math.Max(nearestMM, math.Min(furthestMM, lengths*r.Settled.DrainLengthMM()))
	open := lateral(*l)
	cutOff := func(c Camera) (wrong float64) { // where an end of the drain lies too near to the picture's edge
		for _, end := range []plan.Point{drain.Sub(half), drain.Add(half)} {
			x, y, ok := c.Project(end.Vec3(aim.Z()), p.aspect)
			if past := math.Max(math.Abs(x-0.5), math.Abs(y-0.5)) - (0.5 - 2*leastShare); ok && past > 0 {
				wrong += 0.5 + past
			}
		}
		return wrong
	}
	least, found := math.Inf(1), Camera{}
	for turnDeg := -85.0; turnDeg <= 85; turnDeg += 5 {
		s, co := math.Sincos(turnDeg * math.Pi / 180)
		out := l.Into.Mul(co).Add(open.Mul(s))
		for far := 800.0; far <= 2400; far += 100 {
			eye := target.Add(out.Mul(far))
			worse := math.Abs(turnDeg-bestTurnDeg)/40 + math.Abs(far-bestMM)/1000
			from := eye.Vec3(aim.Z() + far*highShare)
			if worse >= least || !l.Room.Contains(eye, 0) || p.edgeOn(eye) || !p.sees(eye, drain) || !p.clear(from) {
				continue
			}
			if p.behindGlass(eye, drain) {
				worse += 1
			}
			for _, lensMM := range []float64{longestLensMM, 40, 32} {
				field := throughLens(from, mgl64.Vec3{1, 0, 0}, lensMM, far, p.aspect).FieldDeg
				c, wrong := lookingFrom(from, aim, field), worse+(longestLensMM-lensMM)/100
				if p.aspect > 1 { // in an upright picture the drain's middle does
					wrong += cutOff(c)
				}
				if wrong < least {
					least, found = wrong, c
				}
			}
		}
	}
	if math.IsInf(least, 1) {
		from := target.Add(l.Into.Mul(700)).Vec3(aim.Z() + 900)
		return lookingFrom(from, aim, 40)
	}
	return found
}

// behindGlass tells whether a pane stands between two places.
func (p *photographer) behindGlass(from, to plan.Point) bool {
	for _, x := range p.r.Layout.Screens {
		a, b := x.Foot()
		if crosses(plan.Ring{a, b, b.Add(x.Out), a.Add(x.Out)}, from, to) {
			return true
		}
	}
	return false
}
