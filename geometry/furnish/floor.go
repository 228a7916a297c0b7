package furnish

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// blocked is room that nothing may be put into: over a convex ring, between two levels.
type blocked struct {
	ring         plan.Ring
	fromMM, toMM float64
	by           Kind // what takes it, of what the user may move; empty for all else
	free         bool // floor that is kept free: what is beside it may come up to it
}

// floor is the room that is left.
type floor struct {
	r      *geometry.Result
	taken  []blocked
	placed []Object
	// ways are the floors before the ways into the shower: free, but for a mat.
	ways []plan.Ring
}

// All levels that there are.
const lowest, highest = -1e6, 1e6

// floorOf is a result's floor with what its job states on it.
func floorOf(r *geometry.Result) *floor {
	f, l := &floor{r: r}, &r.Layout
	f.block(Showered(r), lowest, highest)
	if ring, ok := mixer(r); ok {
		f.block(ring, lowest, highest)
	}
	for _, w := range l.Ways() {
		open := l.OpenEdges()[w.Edge]
		f.ways = append(f.ways, strip(w.A, w.B, l.Outward(open), wayFreeMM))
	}
	for _, x := range l.Screens {
		f.region(x.Glass)
		f.region(x.Sweep)
	}
	for i, d := range l.Doors {
		stated := r.Settled.Room.Doorways[i]
		f.region(d.Sweep)
		f.block(f.alongWall(d.Wall.Index, stated.OffsetMM-architraveMM, stated.OffsetMM+stated.WidthMM+architraveMM, doorFreeMM), lowest, highest)
	}
	const overRampMM = 470 // what hangs higher leaves it free
	for _, ramp := range l.Ramps {
		for _, p := range ramp.Region {
			f.block(p.Outer, lowest, f.floorMM(p.Outer[0])+overRampMM)
		}
	}
	f.standing()
	f.stated()
	return f
}

// wetMM is the side of the square that is showered on where the whole floor of a room falls. Common practice, no source.
const wetMM = 1000

// Showered is the floor that one stands on under the shower: the shower's, or where that is all of the room the
// floor round the rose, or round the drain where no rose is stated.
func Showered(r *geometry.Result) plan.Ring {
	const most = 0.75
	l := &r.Layout
	if l.Shower.Area() < most*l.Room.Area() {
		return l.Corners[:]
	}
	at := l.DrainCentre
	if h := r.Settled.Shower.Head; h != nil {
		at = h.At
	}
	u, v := l.ToRight.Mul(wetMM/2), l.Into.Mul(wetMM/2)
	return plan.Ring{at.Sub(u).Sub(v), at.Add(u).Sub(v), at.Add(u).Add(v), at.Sub(u).Add(v)}
}

// block takes room away over the hull of places.
func (f *floor) block(of []plan.Point, fromMM, toMM float64) {
	if len(of) > 2 {
		f.taken = append(f.taken, blocked{ring: plan.Hull(of), fromMM: fromMM, toMM: toMM})
	}
}

// region takes a region's parts away, each as its hull.
func (f *floor) region(r plan.Region) {
	for _, p := range r {
		f.block(p.Outer, lowest, highest)
	}
}

// strip is a straight made so wide to one side.
func strip(a, b, out plan.Point, wideMM float64) plan.Ring {
	by := out.Mul(wideMM)
	return plan.Ring{a, b, b.Add(by), a.Add(by)}
}

// alongWall is a strip of the floor along a wall.
func (f *floor) alongWall(wall int, fromMM, toMM, wideMM float64) plan.Ring {
	w := &f.r.Layout.Walls[wall]
	return strip(w.At(fromMM), w.At(toMM), w.Outward.Mul(-1), wideMM)
}

// standing takes away what of the build stands up over the room's floor: casings of pipes, a pump, vents.
func (f *floor) standing() {
	const upMM = 20
	for _, p := range f.r.Assembly.Parts {
		if p.Wall > 0 || p.Stage > buildup.StageTile {
			continue
		}
		box := p.Bounds()
		low := plan.Point{box.Low[0], box.Low[1]}.Add(plan.Point{box.High[0], box.High[1]}).Mul(0.5)
		if box.High[2] < f.floorMM(low)+upMM {
			continue
		}
		var up []plan.Point
		for _, v := range p.Mesh().Vertices {
			at := plan.Point{v[0], v[1]}
			if f.r.Layout.Room.Contains(at, 1) && !f.r.Layout.Shower.Contains(at, 1) && v[2] > f.floorMM(at)+upMM {
				up = append(up, at)
			}
		}
		if len(up) > 2 {
			f.block(up, box.Low[2], box.High[2])
		}
	}
}

// floorMM is the level of the finished floor at a place, as near to it as there is one.
func (f *floor) floorMM(at plan.Point) float64 { return f.r.Floor.FinishedMM(at) }

// stated places what the job states.
func (f *floor) stated() {
	kinds := map[job.FixtureKind]Kind{job.FixtureBasin: Basin, job.FixtureToilet: Toilet, job.FixtureRadiator: Radiator, job.FixtureCupboard: Cupboard}
	for _, s := range f.r.Settled.Room.Fixtures {
		w := &f.r.Layout.Walls[s.Wall]
		at := w.At(s.OffsetMM + s.WidthMM/2)
		o := Object{Kind: kinds[s.Kind], At: at, Out: w.Outward.Mul(-1), WidthMM: s.WidthMM, DepthMM: s.DepthMM, Wall: s.Wall, Stated: true}
		o.FromMM = f.floorMM(o.Middle()) + s.UnderMM
		o.ToMM = o.FromMM + s.HeightMM
		f.put(o)
	}
	for _, s := range f.r.Layout.Stacks {
		if o, ok := f.casing(s); ok {
			f.put(o)
		}
	}
}

// casing is what goes round an upright pipe in the room: to the wall where it stands near one.
func (f *floor) casing(s layout.Stack) (o Object, ok bool) {
	l := &f.r.Layout
	if !l.Room.Contains(s.At, 0) || l.Shower.Contains(s.At, 0) {
		return o, false
	}
	const roundMM, nearMM = job.StackClearMM, 150
	half := s.RadiusMM + roundMM
	mm, w := l.Clear(s.At)
	o = Object{Kind: Casing, Out: w.Outward.Mul(-1), WidthMM: 2 * half, DepthMM: 2 * half, Wall: w.Index, Stated: true}
	o.At = s.At.Add(w.Outward.Mul(half))
	if mm < half+nearMM {
		o.At = s.At.Add(w.Outward.Mul(mm))
		o.DepthMM = mm + half
	} else {
		o.Wall = -1
	}
	// To a corner that is near as well.
	for _, side := range []plan.Point{o.Along(), o.Along().Mul(-1)} {
		for i := range l.Walls {
			v := &l.Walls[i]
			off := v.A.Sub(s.At).Dot(v.Outward)
			along := s.At.Sub(v.A).Dot(v.Along)
			if v.Outward.Dot(side) > 0.999 && off > half && off < half+nearMM && along > 0 && along < v.LengthMM {
				o.At = o.At.Add(side.Mul((off - half) / 2))
				o.WidthMM += off - half
			}
		}
	}
	o.FromMM = f.floorMM(s.At)
	// Under a slope up to where that is highest: what reaches through it is not seen, and the pipe is covered.
	o.ToMM = o.FromMM
	for _, p := range o.Footprint() {
		o.ToMM = math.Max(o.ToMM, f.r.Layout.CeilingAt(p))
	}
	return o, o.ToMM > o.FromMM
}

// put places an object: nothing else may stand where it does.
func (f *floor) put(o Object) {
	f.placed = append(f.placed, o)
	f.blockFor(o)
}

// blockFor takes the room away that an object needs: its own, and before a basin the floor that one stands on.
func (f *floor) blockFor(o Object) {
	n := len(f.taken)
	switch o.Kind {
	case Basin, Toilet, Vanity: // nothing stands under them
		floorMM := f.floorMM(o.Middle())
		f.block(o.Footprint(), floorMM, o.ToMM)
		f.block(before(o, useFreeMM), floorMM, o.ToMM)
		f.taken[len(f.taken)-1].free = true
	default:
		f.block(o.Footprint(), o.FromMM, o.ToMM)
	}
	if _, ok := o.Thing(); !ok {
		return
	}
	for i := n; i < len(f.taken); i++ {
		f.taken[i].by = o.Kind
	}
}

// before is the floor before an object, so deep, where one uses it.
func before(o Object, useMM float64) plan.Ring {
	ring := o.Footprint()
	return strip(ring[3], ring[2], o.Out, useMM)
}

// free tells whether an object could stand in its place: in the room, under its ceiling, clear of all that
// is there already.
func (f *floor) free(o Object, apartMM float64) bool {
	ring := o.Footprint()
	if !f.inRoom(ring) {
		return false
	}
	if o.ToMM > highMM(f.r, ring) {
		return false
	}
	if o.Kind != Mat {
		for _, w := range f.ways {
			if meet(ring, w, 0) {
				return false
			}
		}
	}
	for _, b := range f.taken {
		apartMM := apartMM
		if b.free {
			apartMM = 0
		}
		if o.FromMM < b.toMM+gapMM && b.fromMM < o.ToMM+gapMM && meet(ring, b.ring, apartMM) {
			return false
		}
	}
	return true
}

// inRoom tells whether a convex ring lies in the room, along a wall or clear of it.
func (f *floor) inRoom(ring plan.Ring) bool {
	const hairMM = 0.5
	for _, p := range ring {
		if !f.r.Layout.Room.Contains(p, hairMM) {
			return false
		}
	}
	for i := range f.r.Layout.Walls {
		w := &f.r.Layout.Walls[i]
		if meet(ring, plan.Ring{w.A, w.B}, -hairMM) {
			return false
		}
	}
	return true
}

// meet tells whether two convex rings come nearer to each other than a gap: no line square to a side of one of
// them keeps them that far apart. A gap below nought lets them touch as deep.
func meet(a, b plan.Ring, gapMM float64) bool {
	for _, pair := range [][2]plan.Ring{{a, b}, {b, a}} {
		ring := pair[0]
		for i, p := range ring {
			side := ring[(i+1)%len(ring)].Sub(p)
			if side.Len() < plan.HairMM {
				continue
			}
			n := plan.Left(side.Normalize())
			lowA, highA := reach(a, n)
			lowB, highB := reach(b, n)
			if math.Max(lowB-highA, lowA-highB) >= gapMM-plan.HairMM {
				return false
			}
		}
	}
	return true
}

// reach is how far a ring reaches in a direction.
func reach(ring plan.Ring, n plan.Point) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range ring {
		s := p.Dot(n)
		low, high = math.Min(low, s), math.Max(high, s)
	}
	return low, high
}
