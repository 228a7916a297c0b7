package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/furnish"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// How a room is photographed: level, so that uprights stay upright, from the height of the chest, through
// a lens of 24 to 50 mm on film 36 mm wide. Common practice, no source.
const (
	photographMM  = 1350 // the eye over the finished floor
	filmHalfMM    = 18
	underTopMM    = 450  // how far the eye stays under the ceiling
	mostRise      = 1    // a lens shifted by half the film's height
	usualRise     = 0.45 // more is a last resort: what is near the edges is drawn out
	edgeOnDeg     = 10   // a pane is never seen from nearer to edge-on than this
	beforeStepMM  = 400  // of the floor before the step is in the picture
	marginShare   = 0.05
	leastRoomMM   = 150 // of the room along every line of sight
	clearOfWallMM = 120 // the eye keeps this from walls that it sees
)

// throughLens is a camera that stands at a place and looks level in a direction, through a lens; the lens counts
// along the picture's longer side.
func throughLens(eye, forward mgl64.Vec3, lensMM, aspect, rise float64) Camera {
	half := filmHalfMM / lensMM
	if aspect > 1 {
		half /= aspect
	}
	const awayMM = 2500
	c := lookingFrom(eye, eye.Add(forward.Mul(awayMM)), 2*math.Atan(half)*180/math.Pi)
	c.Rise = rise
	return c
}

// photographer looks for the place that a room is photographed from.
type photographer struct {
	r      *geometry.Result
	aspect float64
	// subject is what must be in the picture, heart the one that must be seen past everything.
	subject []mgl64.Vec3
	heart   plan.Point
	tall    []plan.Ring // what stands in the room so high that it hides what is behind it
}

func newPhotographer(r *geometry.Result, aspect float64) *photographer {
	l := &r.Layout
	p := &photographer{r: r, aspect: aspect, heart: l.Shower.Centroid()}
	const tallMM = 520
	for _, o := range furnish.Of(r).Objects {
		if o.ToMM-r.Heights.TileMM > tallMM && o.Kind != furnish.Mirror && o.Kind != furnish.Vase {
			p.tall = append(p.tall, o.Footprint())
		}
	}
	p.subject = []mgl64.Vec3{p.rose()}
	for _, c := range l.Corners {
		p.subject = append(p.subject, c.Vec3(r.Heights.TileMM))
	}
	for _, e := range l.OpenEdges() {
		before := e.Middle().Add(l.Outward(e).Mul(beforeStepMM))
		if l.Room.Contains(before, 0) {
			p.subject = append(p.subject, before.Vec3(r.Floor.FinishedMM(before)))
		}
	}
	return p
}

// rose is the place of the rose, or of one that is not stated: the end of an arm over the middle of the shower.
func (p *photographer) rose() mgl64.Vec3 {
	r, at, highMM := p.r, p.heart, 2120.0
	if h := r.Settled.Shower.Head; h != nil {
		at, highMM = h.At, h.HeightMM+roseUnderMM
	}
	z := math.Min(r.Heights.ShowerAt(&r.Layout, at)+highMM, r.Layout.CeilingAt(at))
	return at.Vec3(z)
}

// eyeMM is how high the eye is at a place: that of the chest over the floor, lower under a slope.
func (p *photographer) eyeMM(at plan.Point) float64 {
	l := &p.r.Layout
	inside := at
	if !l.Room.Contains(at, 0) {
		inside = p.heart
	}
	floor := p.r.Floor.FinishedMM(inside)
	return math.Min(floor+photographMM, math.Max(floor+photographMM/2, l.CeilingAt(inside)-underTopMM))
}

// enters is where a level line of sight from a place first comes into the room, as a distance, and where it leaves
// it again; ok is false where it never comes in.
func (p *photographer) enters(at, direction plan.Point) (in, out float64, ok bool) {
	in, out = math.Inf(1), math.Inf(1)
	for _, w := range p.r.Layout.Walls {
		s, t, meets := plan.MeetLines(at, direction, w.A, w.Along)
		if !meets || s < 0 || t < -plan.HairMM || t > w.LengthMM+plan.HairMM {
			continue
		}
		if w.Outward.Dot(direction) < 0 {
			in = math.Min(in, s)
		} else {
			out = math.Min(out, s)
		}
	}
	if p.r.Layout.Room.Contains(at, 0) {
		return 0, out, !math.IsInf(out, 1)
	}
	if math.IsInf(in, 1) || in > out {
		return 0, 0, false
	}
	out = math.Inf(1)
	for _, w := range p.r.Layout.Walls {
		s, t, meets := plan.MeetLines(at, direction, w.A, w.Along)
		if meets && s > in+1 && t >= -plan.HairMM && t <= w.LengthMM+plan.HairMM && w.Outward.Dot(direction) > 0 {
			out = math.Min(out, s)
		}
	}
	return in, out, !math.IsInf(out, 1)
}

// sees tells whether a place of the plan is seen from another past walls and tall things.
func (p *photographer) sees(from, to plan.Point) bool {
	way := to.Sub(from)
	const slackMM = 15
	if _, out, ok := p.enters(from, way.Normalize()); !ok || out < way.Len()-slackMM {
		return false
	}
	for _, ring := range p.tall {
		if crosses(ring, from, to) || plan.FromRing(ring).Contains(from, clearOfWallMM) {
			return false
		}
	}
	return true
}

// crosses tells whether a straight crosses a ring's edge.
func crosses(ring plan.Ring, from, to plan.Point) bool {
	way := to.Sub(from)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		s, t, ok := plan.MeetLines(from, way.Normalize(), a, b.Sub(a).Normalize())
		if ok && s > 0 && s < way.Len() && t > 0 && t < b.Sub(a).Len() {
			return true
		}
	}
	return false
}

// edgeOn tells whether a pane would be seen all but edge-on from a place.
func (p *photographer) edgeOn(eye plan.Point) bool {
	least := math.Sin(edgeOnDeg * math.Pi / 180)
	for _, x := range p.r.Layout.Screens {
		a, b := x.Foot()
		for _, q := range []plan.Point{a, b} {
			if math.Abs(x.Out.Dot(q.Sub(eye).Normalize())) < least {
				return true
			}
		}
	}
	return false
}

// void is the share of the picture's columns that look past the room: beside its walls, over its ceiling or under
// its floor where they come in. 0 where the whole picture looks into the room.
func (p *photographer) void(c Camera) float64 {
	const columns = 8
	missed := 0.0
	for i := range columns + 1 {
		from, bottom := c.Ray(float64(i)/columns, 1, p.aspect)
		_, top := c.Ray(float64(i)/columns, 0, p.aspect)
		at, level := plan.Point{from.X(), from.Y()}, plan.Point{top.X(), top.Y()}.Normalize()
		in, out, ok := p.enters(at, level)
		if !ok || out-in < leastRoomMM {
			missed++
			continue
		}
		if in == 0 {
			continue
		}
		door := at.Add(level.Mul(in + 1))
		high := from.Z() + in*top.Z()/math.Hypot(top.X(), top.Y())
		low := from.Z() + in*bottom.Z()/math.Hypot(bottom.X(), bottom.Y())
		if high > p.r.Layout.CeilingAt(door) || low < p.r.Floor.FinishedMM(door) {
			missed++
		}
	}
	return missed / (columns + 1)
}

// aimed is a camera at a place that looks level, shifted so that the subject stands in the picture, rather its floor where not all does;
// outside is how much of the subject lies out of it, in pictures, added up over its places.
func (p *photographer) aimed(eye, forward plan.Point, lensMM float64) (c Camera, outside float64) {
	c = throughLens(eye.Vec3(p.eyeMM(eye)), forward.Vec3(0), lensMM, p.aspect, 0)
	low, high := math.Inf(1), math.Inf(-1)
	var ys []float64
	for _, q := range p.subject {
		x, y, ok := c.Project(q, p.aspect)
		if !ok {
			outside++
			continue
		}
		outside += math.Max(0, math.Max(marginShare/2-x, x-1+marginShare/2))
		low, high = math.Min(low, y), math.Max(high, y)
		ys = append(ys, y)
	}
	if len(ys) == 0 {
		return c, outside
	}
	// Project counts down from the top.
	c.Rise = low + high - 1
	if high-low > 1-2*marginShare {
		c.Rise = (c.Rise + 2*(high+marginShare) - 2) / 2
	}
	c.Rise = math.Max(-mostRise, math.Min(mostRise, c.Rise))
	for _, y := range ys {
		y -= c.Rise / 2
		outside += math.Max(0, math.Max(-y, y-1))
	}
	return c, outside
}

// place is where the photographer stands: as seen from the shower so much turned from square to its back wall,
// so far away, so much aside; and the lens.
type place struct{ turnDeg, farMM, asideMM, lensMM float64 }

// camera at a place, and how much is wrong with it: infinite where nothing is to be seen from there.
func (p *photographer) camera(k place) (c Camera, wrong float64) {
	l := &p.r.Layout
	if k.lensMM < 24 || k.lensMM > 50 || math.Abs(k.turnDeg) > 80 || k.farMM < 500 {
		return c, math.Inf(1)
	}
	s, co := math.Sincos(k.turnDeg * math.Pi / 180)
	out := l.Into.Mul(co).Add(lateral(*l).Mul(s))
	forward := out.Mul(-1)
	eye := p.heart.Add(out.Mul(k.farMM)).Add(plan.Left(out).Mul(k.asideMM))
	if l.Shower.Contains(eye, 0) || p.edgeOn(eye) || !p.sees(eye, p.heart) {
		return c, math.Inf(1)
	}
	if mm, w := l.Clear(eye); mm < clearOfWallMM && eye.Sub(w.A).Dot(w.Outward) < 0 {
		return c, math.Inf(1)
	}
	c, outside := p.aimed(eye, forward, k.lensMM)
	// What is wanted, by its weight; the weights are chosen by eye.
	wrong = math.Abs(k.turnDeg-18)/40 + math.Abs(k.asideMM)/3000 + k.farMM/12000 + (k.lensMM-24)/80 + 8*outside + 30*p.void(c) +
		math.Max(0, math.Abs(c.Rise)-usualRise)
	if k.turnDeg < 0 {
		wrong += 0.4 // the closed side is nearer
	}
	for _, q := range p.subject {
		if !p.sees(eye, plan.Point{q.X(), q.Y()}) {
			wrong += 0.5
		}
	}
	return c, wrong
}

// photograph is the view of the room that shows the shower best: from the side of its open edge, from outside
// where a wall that is left out lets one stand there.
//
// Method: places on a coarse grid, then from the best of them to a better neighbour, by smaller and smaller steps.
func (p *photographer) photograph() Camera {
	best, at, found := math.Inf(1), place{}, Camera{}
	try := func(k place) bool {
		c, wrong := p.camera(k)
		if wrong < best {
			best, at, found = wrong, k, c
			return true
		}
		return false
	}
	for _, lensMM := range []float64{24, 30} {
		for turnDeg := -70.0; turnDeg <= 74; turnDeg += 8 {
			for farMM := 600.0; farMM <= 4600; farMM += 250 {
				for asideMM := -900.0; asideMM <= 900; asideMM += 300 {
					try(place{turnDeg, farMM, asideMM, lensMM})
				}
			}
		}
	}
	for step := 1.0; step > 0.05; {
		k, better := at, false
		for _, by := range []place{{turnDeg: 6}, {farMM: 150}, {asideMM: 200}, {lensMM: 4}} {
			for _, sign := range []float64{step, -step} {
				better = try(place{k.turnDeg + sign*by.turnDeg, k.farMM + sign*by.farMM, k.asideMM + sign*by.asideMM, k.lensMM + sign*by.lensMM}) || better
			}
		}
		if !better {
			step /= 2
		}
	}
	if math.IsInf(best, 1) || p.void(found) > 0 {
		l := &p.r.Layout
		return p.standing(p.heart.Add(l.Into.Mul(2200)).Add(lateral(*l).Mul(700)))
	}
	return found
}

// standing is the view from a place in the room, or as near to the shower as asks for: level, the shower in the
// middle, as much of its floor and of the rose as one sees from there.
func (p *photographer) standing(at plan.Point) Camera {
	l := &p.r.Layout
	for range 60 {
		if mm, _ := l.Clear(at); l.Room.Contains(at, 0) && mm >= clearOfWallMM-1 && !p.edgeOn(at) {
			break
		}
		at = at.Add(p.heart.Sub(at).Mul(0.03)).Add(plan.Left(p.heart.Sub(at)).Mul(0.004))
	}
	c, _ := p.aimed(at, p.heart.Sub(at).Normalize(), 24)
	return c
}

// atDrain is the view near the drain: its joint, the tile round it and how the floor falls to it.
func (p *photographer) atDrain() Camera {
	l, r := &p.r.Layout, p.r
	drain := l.DrainCentre
	target := drain.Add(p.heart.Sub(drain).Mul(0.25))
	aim := target.Vec3(r.Heights.ShowerAt(l, target))
	const lensMM, highMM = 50, 0.45
	open := lateral(*l)
	best, found := math.Inf(1), Camera{}
	for turnDeg := -85.0; turnDeg <= 85; turnDeg += 5 {
		s, co := math.Sincos(turnDeg * math.Pi / 180)
		out := l.Into.Mul(co).Add(open.Mul(s))
		for far := 900.0; far <= 2400; far += 150 {
			eye := target.Add(out.Mul(far))
			worse := math.Abs(turnDeg-38)/40 + math.Abs(far-1700)/1000
			if worse >= best || !l.Room.Contains(eye, 0) || p.edgeOn(eye) || !p.sees(eye, drain) {
				continue
			}
			if mm, _ := l.Clear(eye); mm < clearOfWallMM {
				continue
			}
			if p.behindGlass(eye, drain) {
				worse += 1
			}
			if worse < best {
				from := eye.Vec3(aim.Z() + far*highMM)
				field := throughLens(from, mgl64.Vec3{1, 0, 0}, lensMM, p.aspect, 0).FieldDeg
				best, found = worse, lookingFrom(from, aim, field)
			}
		}
	}
	if math.IsInf(best, 1) {
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

// fromDoor is the view through a doorway from which the shower is seen; ok is false where there is none.
func (p *photographer) fromDoor(d layout.Doorway) (c Camera, ok bool) {
	const insideMM = clearOfWallMM
	at := d.Middle().Sub(d.Wall.Outward.Mul(insideMM))
	if !p.sees(at, p.heart) {
		return c, false
	}
	return p.standing(at), true
}
