package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// How a room is photographed: level, so that uprights stay upright, from the height of the chest, through
// a lens of 24 to 50 mm on film 36 mm wide, and a wider one where a small room leaves no other way; lower or
// higher where that shows too little. Common practice, no source.
const (
	photographMM  = 1350 // the eye over the finished floor
	highestEyeMM  = 1550 // that of who stands
	lowestEyeMM   = 900  // that of who kneels
	filmHalfMM    = 18
	wideLensMM    = 24
	widestLensMM  = 15
	longestLensMM = 50
	underTopMM    = 450  // how far the eye stays under the ceiling
	mostRise      = 1    // a lens shifted by half the film's height
	usualRise     = 0.45 // more is a last resort: what is near the edges is drawn out
	edgeOnDeg     = 10   // a pane is never seen from nearer to edge-on than this
	beforeStepMM  = 400  // of the floor before the step is in the picture
	marginShare   = 0.05 // of the picture's height that is left free over the rose and under the floor, where it can be
	leastShare    = 0.01 // that is left free all round
	leastRoomMM   = 150  // of the room along every line of sight
	clearOfWallMM = 120  // the eye keeps this from walls that it sees, and from things
	behindWallMM  = 50   // and this from a wall that is left out
)

// throughLens is a camera that stands at a place and looks level in a direction, through a lens, at what is so far
// away; the lens counts along the picture's longer side.
func throughLens(eye, forward mgl64.Vec3, lensMM, awayMM, aspect float64) Camera {
	half := filmHalfMM / lensMM
	if aspect > 1 {
		half /= aspect
	}
	return lookingFrom(eye, eye.Add(forward.Mul(awayMM)), 2*math.Atan(half)*180/math.Pi)
}

// photographer looks for the place that a room is photographed from.
type photographer struct {
	r      *geometry.Result
	aspect float64
	// subject is what must be in the picture, heart the one that must be seen past everything.
	subject []mgl64.Vec3
	heart   plan.Point
	objects []furnish.Object
	windows []job.Window
	taste   taste
}

func newPhotographer(r *geometry.Result, aspect float64) *photographer {
	l := &r.Layout
	floor := furnish.Showered(r)
	room := furnish.Of(r)
	p := &photographer{r: r, aspect: aspect, heart: plan.FromRing(floor).Centroid(),
		objects: room.Objects, windows: room.Windows, taste: plain()}
	for _, c := range floor {
		p.subject = append(p.subject, c.Vec3(r.Heights.ShowerAt(l, c)))
	}
	if at, ok := rose(*r); ok {
		for _, d := range []mgl64.Vec3{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}} {
			p.subject = append(p.subject, at.Add(d.Mul(roseRadiusMM)).Add(up().Mul(roseUnderMM)))
		}
	}
	if r.Settled.Former.Fall == job.FallRoom {
		return p // there is no step
	}
	for _, e := range l.OpenEdges() {
		before := e.Middle().Add(l.Outward(e).Mul(beforeStepMM))
		if l.Room.Contains(before, 0) {
			p.subject = append(p.subject, before.Vec3(r.Floor.FinishedMM(before)))
		}
	}
	return p
}

// eyeMM is the level of an eye at a place that is so high over the floor, lower under a slope.
func (p *photographer) eyeMM(at plan.Point, highMM float64) float64 {
	l := &p.r.Layout
	inside := at
	if !l.Room.Contains(at, 0) {
		inside = p.heart
	}
	floor := p.r.Floor.FinishedMM(inside)
	return math.Min(floor+highMM, math.Max(floor+highMM/2, l.CeilingAt(inside)-underTopMM))
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
	const slackMM, tallMM = 15, 520
	if way.Len() < slackMM {
		return true
	}
	if _, out, ok := p.enters(from, way.Normalize()); !ok || out < way.Len()-slackMM {
		return false
	}
	for _, o := range p.objects {
		tall := o.ToMM-p.r.Heights.TileMM > tallMM && o.Kind != furnish.Mirror && o.Kind != furnish.Vase && o.Kind != furnish.Pendant
		if tall && crosses(o.Footprint(), from, to) {
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

// clear tells whether an eye at a place keeps clear of the walls that are seen from it, of panes, and of what stands and hangs.
func (p *photographer) clear(eye mgl64.Vec3) bool {
	l, at := &p.r.Layout, plan.Point{eye.X(), eye.Y()}
	if mm, _ := l.Clear(at); mm < clearOfWallMM && l.Room.Contains(at, 0) || mm < behindWallMM {
		return false
	}
	for _, x := range l.Screens {
		if a, b := x.Foot(); plan.DistanceToSegment(at, a, b) < clearOfWallMM {
			return false
		}
	}
	for _, o := range p.objects {
		if eye.Z() > o.FromMM-clearOfWallMM && eye.Z() < o.ToMM+clearOfWallMM && plan.FromRing(o.Footprint()).Contains(at, clearOfWallMM) {
			return false
		}
	}
	return true
}

// void is the share of the lines of sight, along the picture's upper and lower edge, that look past the room: beside its
// walls, over its ceiling or under its floor where they come in. 0 where the whole picture looks into the room.
func (p *photographer) void(c Camera) float64 {
	const columns = 8
	missed, fixed := 0.0, c.fixed()
	for i := range columns + 1 {
		for y := range 2 {
			from, d := fixed.ray(float64(i)/columns, float64(y), p.aspect)
			at, level := plan.Point{from.X(), from.Y()}, plan.Point{d.X(), d.Y()}
			in, out, ok := p.enters(at, level.Normalize())
			if !ok || out-in < leastRoomMM {
				missed++
				continue
			}
			if in == 0 {
				continue
			}
			door := at.Add(level.Normalize().Mul(in + 1))
			if z := from.Z() + in*d.Z()/level.Len(); z > p.r.Layout.CeilingAt(door) || z < p.r.Floor.FinishedMM(door) {
				missed++
			}
		}
	}
	return missed / (2 * (columns + 1))
}

// aimed is a camera at a place that looks level, shifted so that the subject stands in the picture, rather its floor where not all does;
// outside is how much of the subject lies out of it, in pictures, added up over its places.
func (p *photographer) aimed(eye mgl64.Vec3, forward plan.Point, lensMM float64) (c Camera, outside float64) {
	const nearestMM = 800
	awayMM := math.Max(nearestMM, p.heart.Sub(plan.Point{eye.X(), eye.Y()}).Dot(forward))
	c = throughLens(eye, forward.Vec3(0), lensMM, awayMM, p.aspect)
	low, high := math.Inf(1), math.Inf(-1)
	ys, fixed := make([]float64, 0, len(p.subject)), c.fixed()
	for _, q := range p.subject {
		x, y, ok := fixed.project(q, p.aspect)
		if !ok {
			outside++
			continue
		}
		outside += math.Max(0, math.Max(leastShare-x, x-1+leastShare))
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
		outside += math.Max(0, math.Max(leastShare-y, y-1+leastShare))
	}
	return c, outside
}

// boxOf is the part of the picture that a ring between two levels takes, as shares from its left and top, as if it had no edges; ok is
// false where some of it is behind the eye.
func (p *photographer) boxOf(c Camera, ring plan.Ring, fromMM, toMM float64) (box [2][2]float64, ok bool) {
	box = [2][2]float64{{math.Inf(1), math.Inf(1)}, {math.Inf(-1), math.Inf(-1)}}
	fixed := c.fixed()
	for _, q := range ring {
		for _, z := range []float64{fromMM, toMM} {
			x, y, ok := fixed.project(q.Vec3(z), p.aspect)
			if !ok {
				return box, false
			}
			for k, v := range [2]float64{x, y} {
				box[0][k], box[1][k] = math.Min(box[0][k], v), math.Max(box[1][k], v)
			}
		}
	}
	return box, true
}

// shades tells whether some of the floor under an object is in the picture.
func (p *photographer) shades(c Camera, o furnish.Object) bool {
	const parts = 4
	ring, level := o.Footprint(), p.r.Floor.FinishedMM(o.Middle())
	u, v, fixed := ring[1].Sub(ring[0]), ring[3].Sub(ring[0]), c.fixed()
	for i := range parts + 1 {
		for k := range parts + 1 {
			at := ring[0].Add(u.Mul(float64(i) / parts)).Add(v.Mul(float64(k) / parts))
			if x, y, ok := fixed.project(at.Vec3(level), p.aspect); ok && x > 0 && x < 1 && y > 0 && y < 1 {
				return true
			}
		}
	}
	return false
}

// leavesOut tells whether an object is left out with the wall that it stands or hangs at, as the eye is behind that.
func (p *photographer) leavesOut(at plan.Point, o furnish.Object) bool {
	if o.Wall < 0 {
		return false
	}
	w := p.r.Layout.Walls[o.Wall]
	return w.Outward.Dot(at.Sub(w.A)) > 0
}

// footprints is how many of the things that stand on the floor are left out of a picture that shows where they stood: no light
// falls there.
func (p *photographer) footprints(c Camera) (n int) {
	eye := c.Eye()
	for _, o := range p.objects {
		if p.stands(o) && p.leavesOut(plan.Point{eye.X(), eye.Y()}, o) && p.shades(c, o) {
			n++
		}
	}
	return n
}

// unmarked is a camera turned about what it looks at, no more than it takes, so that it shows no place where something stands that is
// left out; as it is where it shows one from everywhere.
func (p *photographer) unmarked(c Camera) Camera {
	const step, most = 0.1, 1.3
	for turn := 0.0; turn <= most; turn += step {
		for _, k := range []Camera{c.Orbit(turn, 0), c.Orbit(-turn, 0)} {
			if p.footprints(k) == 0 {
				return k
			}
		}
	}
	return c
}

// stands tells whether an object stands on the floor.
func (p *photographer) stands(o furnish.Object) bool {
	const hangsMM = 100
	return o.FromMM-p.r.Floor.FinishedMM(o.Middle()) < hangsMM
}

// shared is the area that two parts of the picture share.
func shared(a, b [2][2]float64) float64 {
	area := 1.0
	for k := range 2 {
		area *= math.Max(0, math.Min(a[1][k], b[1][k])-math.Max(a[0][k], b[0][k]))
	}
	return area
}

// untidy is what is wrong with where things stand in the picture: how many its edges cut through, each counting most where half of it
// is in the picture; how much of it is taken by what stands near the lens; and how much of the shower's floor and of the wall
// behind it is hidden by what stands before it.
func (p *photographer) untidy(c Camera) (torn, crowded float64) {
	const wallMM, leftOut, stoodThere, cut, trifle, mostLarge = 1100, 0.2, 4, 0.4, 0.01, 0.1
	l, eye := &p.r.Layout, c.Eye()
	at := plan.Point{eye.X(), eye.Y()}
	farMM := p.heart.Sub(at).Len()
	whole := [2][2]float64{{0, 0}, {1, 1}}
	shower, ok := p.boxOf(c, furnish.Showered(p.r), p.r.Heights.TileMM, p.r.Heights.TileMM+wallMM)
	showerArea := shared(shower, whole)
	for _, o := range p.objects {
		if p.leavesOut(at, o) {
			// It is left out with its wall, but where it keeps the light off is seen.
			if p.shades(c, o) {
				crowded += leftOut
				if p.stands(o) {
					crowded += stoodThere
				}
			}
			continue
		}
		box, seen := p.boxOf(c, o.Footprint(), o.FromMM, o.ToMM)
		if !seen {
			continue
		}
		area := math.Max(1e-9, (box[1][0]-box[0][0])*(box[1][1]-box[0][1]))
		in := shared(box, whole)
		nearer := math.Max(0, 1-o.Middle().Sub(at).Len()/math.Max(1, farMM))
		share := in / area
		torn += 4 * share * (1 - share)
		if share > trifle && share < 1-trifle {
			torn += cut
		}
		if o.Kind == furnish.Mat || o.Kind == furnish.Niche {
			continue
		}
		if share > trifle && share < 1-trifle {
			torn += p.taste.cutLarge * math.Min(in, mostLarge) // half of what takes much of the picture is in it
		}
		crowded += 2 * nearer * in
		if ok && showerArea > 0 && nearer > 0.15 && !l.Shower.Contains(o.Middle(), 0) {
			crowded += 2 * shared(box, shower) / showerArea
		}
	}
	return torn, crowded
}

// cramped is how much of the picture's width a wall takes that is all but before the lens.
func (p *photographer) cramped(c Camera) float64 {
	const columns, nearMM = 8, 900
	all, fixed := 0.0, c.fixed()
	for i := range columns + 1 {
		from, d := fixed.ray(float64(i)/columns, 0.5, p.aspect)
		if _, out, ok := p.enters(plan.Point{from.X(), from.Y()}, plan.Point{d.X(), d.Y()}.Normalize()); ok {
			all += math.Max(0, 1-out/nearMM)
		}
	}
	return all / (columns + 1)
}

// judged is a camera at a place that looks level in a direction through a lens, and how much is wrong with its picture, whatever
// view it is for: infinite where nothing is to be seen from there, or it is more than counts. The weights are chosen by eye.
func (p *photographer) judged(at, forward plan.Point, lensMM, highMM, most float64) (c Camera, wrong float64) {
	none := math.Inf(1)
	if most <= 0 || p.edgeOn(at) {
		return c, none
	}
	eye := at.Vec3(p.eyeMM(at, highMM))
	c, outside := p.aimed(eye, forward, lensMM)
	wrong = math.Max(0, lensMM-wideLensMM)/80 + math.Max(0, wideLensMM-lensMM)/4 + math.Max(0, math.Abs(c.Rise)-usualRise)
	if outside > 0 {
		wrong += 2 + 8*outside
	}
	if wrong >= most || !p.sees(at, p.heart) || !p.clear(eye) {
		return c, none
	}
	if wrong += 30 * p.void(c); wrong >= most {
		return c, none
	}
	for _, q := range p.subject {
		if !p.sees(at, plan.Point{q.X(), q.Y()}) {
			wrong += 0.4
		}
	}
	if wrong < most {
		torn, crowded := p.untidy(c)
		wrong += 0.2*torn + crowded + 2*p.cramped(c)
	}
	if wrong < most {
		wrong += p.unbalanced(c)
	}
	return c, wrong
}

// holds tells whether a camera's picture shows what it must: all of the subject, nothing of it past the room, no pane all but
// edge-on, and no place where something stands that is left out.
func (p *photographer) holds(c Camera) bool {
	eye := c.Eye()
	at := plan.Point{eye.X(), eye.Y()}
	if p.void(c) > 0 || p.edgeOn(at) || !p.sees(at, p.heart) || p.footprints(c) > 0 {
		return false
	}
	for _, q := range p.subject {
		if x, y, ok := c.Project(q, p.aspect); !ok || x < 0 || x > 1 || y < 0 || y > 1 {
			return false
		}
	}
	return true
}
