package furnish

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// stepMM is how far apart the places lie that are looked at along a wall.
const stepMM = 50

// alikeMM is a difference of worth that makes none: what rounding does to two places that are as good.
const alikeMM = 1e-6

// furniture places what the job does not state, the most needed first.
func (f *floor) furniture() {
	f.basin()
	f.mirrors()
	f.radiator()
	f.towels()
	f.mat()
	f.stool()
	f.plant()
	f.pendant()
}

// has gives the first object of a kind.
func (f *floor) has(k Kind) (o Object, ok bool) {
	for _, o := range f.placed {
		if o.Kind == k {
			return o, true
		}
	}
	return o, false
}

// onWall is the best place along the walls for an object of some size that hangs or stands at one: as worth says
// of it, that of more is better. Free floor of useMM before it must lie in the room, with nothing on it.
// ok is false where there is none.
func (f *floor) onWall(o Object, useMM float64, worth func(o Object, w *layout.Wall) float64) (best Object, ok bool) {
	most := math.Inf(-1)
	off := FaceMM(f.r)
	for i := range f.r.Layout.Walls {
		w := &f.r.Layout.Walls[i]
		for at := o.WidthMM/2 + besideMM; at+o.WidthMM/2+besideMM <= w.LengthMM; at += stepMM {
			k := o
			k.Wall, k.Out = i, w.Outward.Mul(-1)
			k.At = w.At(at).Add(k.Out.Mul(off))
			v := worth(k, w)
			if v <= most+alikeMM {
				continue
			}
			floorMM := f.floorMM(k.Middle())
			k.FromMM, k.ToMM = o.FromMM+floorMM, o.ToMM+floorMM
			if !f.free(k, besideMM) || useMM > 0 && !f.inRoom(strip(k.Footprint()[3], k.Footprint()[2], k.Out, useMM)) {
				continue
			}
			if useMM > 0 && f.stoodOn(k, useMM) {
				continue
			}
			most, best, ok = v, k, true
		}
	}
	return best, ok
}

// stoodOn tells whether anything stands on the floor before an object where one uses it.
func (f *floor) stoodOn(o Object, useMM float64) bool {
	front := before(o, useMM)
	if meet(front, Showered(f.r), 0) {
		return true
	}
	for _, p := range f.placed {
		if p.Kind != o.Kind && meet(front, p.Footprint(), 0) {
			return true
		}
	}
	return false
}

// nearShower is how far an object is from the middle of the way into the shower, or of the shower itself.
func (f *floor) nearShower(o Object) float64 {
	l := &f.r.Layout
	least := math.Inf(1)
	for _, w := range l.Ways() {
		least = math.Min(least, w.Middle().Sub(o.Middle()).Len())
	}
	if math.IsInf(least, 1) {
		return l.Shower.Centroid().Sub(o.Middle()).Len()
	}
	return least
}

// shown is how well a wall is seen in a picture of the shower: that behind it best, those at its sides, and
// not at all that from which it is taken.
func (f *floor) shown(w *layout.Wall) float64 {
	return 1 - w.Outward.Dot(f.r.Layout.Into)
}

// basin is a vanity where the job states no basin: as wide as there is room for.
func (f *floor) basin() {
	if _, ok := f.has(Basin); ok {
		return
	}
	const underMM, topMM = 430, 840
	for _, size := range []struct{ width, depth float64 }{{1000, 460}, {800, 460}, {700, 440}, {600, 400}, {450, 340}} {
		o := Object{Kind: Vanity, WidthMM: size.width, DepthMM: size.depth, FromMM: underMM, ToMM: topMM}
		best, ok := f.onWall(o, useFreeMM, func(o Object, w *layout.Wall) float64 {
			// In the middle of what there is beside the shower rather than in its corner.
			toCorner := math.Min(o.At.Sub(w.A).Len(), o.At.Sub(w.B).Len())
			return f.shown(w) + math.Min(toCorner, 700)/4000 - f.nearShower(o)/8000
		})
		if ok {
			f.put(best)
			return
		}
	}
}

// mirrors hangs one over each basin, as large as it and the ceiling allow.
func (f *floor) mirrors() {
	const overMM, thickMM, toCeilingMM, bestMM, leastMM = 260, 30, 120, 720, 300
	for _, b := range f.placed {
		if b.Kind != Vanity && b.Kind != Basin {
			continue
		}
		over := overMM
		if b.Kind == Vanity {
			over += 130 // the bowl stands on it
		}
		side := math.Min(bestMM, b.WidthMM*0.95)
		m := Object{Kind: Mirror, At: b.At, Out: b.Out, WidthMM: side, DepthMM: thickMM, FromMM: b.ToMM + float64(over), Wall: b.Wall}
		high := highMM(f.r, m.Footprint()) - toCeilingMM
		// A slope that comes low leaves room for a smaller one.
		for side = math.Min(side, high-m.FromMM); side >= leastMM; side -= 60 {
			m.WidthMM, m.ToMM = side, m.FromMM+side
			if f.free(m, 0) {
				f.put(m)
				break
			}
		}
	}
}

// radiator is a rail of warm tubes where the job states neither a radiator nor a warm floor.
func (f *floor) radiator() {
	if _, ok := f.has(Radiator); ok || f.r.Layout.Heated.Area() > 0 {
		return
	}
	o := Object{Kind: Radiator, WidthMM: 500, DepthMM: 95, FromMM: 180, ToMM: 1180}
	if best, ok := f.onWall(o, 0, func(o Object, w *layout.Wall) float64 { return f.nearDoor(o) - 300*f.shown(w) }); ok {
		f.put(best)
	}
}

// nearDoor is how near an object is to a doorway, in millimetres below nought.
func (f *floor) nearDoor(o Object) float64 {
	least := 0.0
	for i, d := range f.r.Layout.Doors {
		if mm := d.Middle().Sub(o.Middle()).Len(); i == 0 || mm < least {
			least = mm
		}
	}
	return -least
}

// towels hang where one reaches them from the shower.
func (f *floor) towels() {
	const fromMM, toMM, depthMM = 480, 1230, 115
	for _, widthMM := range []float64{560, 420} {
		o := Object{Kind: Towels, WidthMM: widthMM, DepthMM: depthMM, FromMM: fromMM, ToMM: toMM}
		best, ok := f.onWall(o, 0, func(o Object, w *layout.Wall) float64 { return 400*f.shown(w) - f.nearShower(o) })
		if ok {
			f.put(best)
			return
		}
	}
}

// mat lies before the widest way into the shower.
func (f *floor) mat() {
	const besideWayMM, thickMM = 60, 15
	l := &f.r.Layout
	widest, at := 0.0, -1
	ways := l.Ways()
	for i, w := range ways {
		if w.WidthMM > widest {
			widest, at = w.WidthMM, i
		}
	}
	if at < 0 {
		return
	}
	w := ways[at]
	out := l.Outward(l.OpenEdges()[w.Edge])
	for _, size := range []struct{ width, depth float64 }{{800, 500}, {650, 450}, {550, 380}} {
		o := Object{Kind: Mat, At: w.Middle().Add(out.Mul(besideWayMM)), Out: out, WidthMM: math.Min(size.width, w.WidthMM), DepthMM: size.depth, Wall: -1}
		o.FromMM = f.floorMM(o.Middle())
		o.ToMM = o.FromMM + thickMM
		if o.WidthMM >= size.depth && f.flatUnder(o) && f.free(o, gapMM) {
			f.put(o)
			return
		}
	}
}

// flatUnder tells whether the floor under an object is flat to a millimetre or so.
func (f *floor) flatUnder(o Object) bool {
	const flatMM = 2
	for _, p := range o.Footprint() {
		if math.Abs(f.floorMM(p)-o.FromMM) > flatMM {
			return false
		}
	}
	return true
}

// stool stands by a wall within reach of the shower, and clear of what one stands or sits before.
func (f *floor) stool() {
	const sideMM, highMM, offMM, clearMM = 340, 450, 30, 200
	o := Object{Kind: Stool, WidthMM: sideMM, DepthMM: sideMM + offMM, ToMM: highMM + 130} // with towels on it
	best, ok := f.onWall(o, 0, func(o Object, w *layout.Wall) float64 {
		for _, p := range f.placed {
			if (p.Kind == Basin || p.Kind == Vanity || p.Kind == Toilet) && meet(o.Footprint(), p.Footprint(), clearMM) {
				return math.Inf(-1)
			}
		}
		return 250*f.shown(w) - f.nearShower(o)
	})
	if !ok {
		return
	}
	best.At, best.DepthMM, best.Wall = best.At.Add(best.Out.Mul(offMM)), sideMM, -1
	f.put(best)
}

// plant stands in a corner of the room, away from the shower, rather by a window.
func (f *floor) plant() {
	for _, size := range []struct{ side, high float64 }{{380, 1150}, {300, 900}} {
		o := Object{Kind: Plant, WidthMM: size.side, DepthMM: size.side, ToMM: size.high}
		best, ok := f.onWall(o, 0, func(o Object, w *layout.Wall) float64 {
			toCorner := math.Min(o.At.Sub(w.A).Len(), o.At.Sub(w.B).Len())
			if f.beforeShower(o) {
				return math.Inf(-1)
			}
			return 500*f.shown(w) + 0.3*f.nearShower(o) - 2*toCorner
		})
		if ok {
			best.Wall = -1
			f.put(best)
			return
		}
	}
}

// beforeShower tells whether an object would stand between the shower and who looks at it.
func (f *floor) beforeShower(o Object) bool {
	const farMM, asideMM = 2500, 150
	l := &f.r.Layout
	for _, e := range l.OpenEdges() {
		along := e.B.Sub(e.A).Normalize().Mul(asideMM)
		if meet(o.Footprint(), strip(e.A.Sub(along), e.B.Add(along), l.Outward(e), farMM), 0) {
			return true
		}
	}
	return false
}

// pendant hangs beside a mirror, under a ceiling that is high enough and where electrical things may hang.
func (f *floor) pendant() {
	const sideMM, longMM, leastCeilingMM, asideMM, offMM = 170, 720, 2300, 150, 220
	m, ok := f.has(Mirror)
	if !ok {
		return
	}
	for _, side := range []float64{1, -1} {
		middle := m.At.Add(m.Along().Mul(side * (m.WidthMM/2 + asideMM))).Add(m.Out.Mul(offMM))
		o := Object{Kind: Pendant, At: middle.Sub(m.Out.Mul(sideMM / 2)), Out: m.Out, WidthMM: sideMM, DepthMM: sideMM, Wall: -1}
		o.ToMM = highMM(f.r, o.Footprint())
		o.FromMM = o.ToMM - longMM
		flat := f.r.Layout.CeilingAt(o.Middle())-o.ToMM < 1
		if flat && o.ToMM-f.floorMM(middle) >= leastCeilingMM && !meet(o.Footprint(), Showered(f.r), lampFreeMM) && f.free(o, besideMM) {
			f.put(o)
			return
		}
	}
}

// onSills stands a vase on the sill of the first window that is wide enough, not behind the tap of a basin under it.
func (f *floor) onSills(windows []job.Window) {
	const sideMM, highMM, leastMM = 130, 230, 500
	for _, w := range windows {
		wall := &f.r.Layout.Walls[w.Wall]
		if w.WidthMM < leastMM || w.HeightMM < highMM*1.5 {
			continue
		}
		for _, share := range []float64{0.78, 0.22} {
			at := wall.At(w.OffsetMM + w.WidthMM*share)
			reveal := math.Max(RevealMM(w, wall.ThicknessMM), sideMM)
			o := Object{Kind: Vase, At: at.Add(wall.Outward.Mul(reveal * 0.8)), Out: wall.Outward.Mul(-1), WidthMM: sideMM, DepthMM: sideMM,
				FromMM: w.SillMM, ToMM: w.SillMM + highMM, Wall: w.Wall}
			if !f.behindTap(o) {
				f.placed = append(f.placed, o)
				return
			}
		}
	}
}

// RevealMM is how far back from the wall's face a window's frame stands: as it says, or as is usual in a wall of
// that thickness.
func RevealMM(w job.Window, thicknessMM float64) float64 {
	const usualMM, frameMM = 150, 60
	if w.RevealMM > 0 {
		return w.RevealMM
	}
	return math.Max(10, math.Min(usualMM, thicknessMM-frameMM))
}

// behindTap tells whether what stands on a sill stands behind the tap of a basin under that.
func (f *floor) behindTap(o Object) bool {
	const overMM = 400
	return slices.ContainsFunc(f.placed, func(b Object) bool {
		off := math.Abs(b.At.Sub(o.At).Dot(o.Along()))
		return (b.Kind == Basin || b.Kind == Vanity) && b.Wall == o.Wall && off < (b.WidthMM/2+o.WidthMM)/2 && b.ToMM > o.FromMM-overMM
	})
}

// windows are the job's; where it states none, one in the wall that has most room for it, rather an outside one and
// one at the side of the shower that is open.
func (f *floor) windows() []job.Window {
	if stated := f.r.Settled.Room.Windows; len(stated) > 0 {
		return stated
	}
	const widestMM, narrowestMM, toCornerMM, overFloorMM, highestMM, toCeilingMM, leastHighMM = 1050, 450, 150, 900, 2120, 150, 450
	l := &f.r.Layout
	best, found := math.Inf(-1), job.Window{}
	for i := range l.Walls {
		w := &l.Walls[i]
		for widthMM := float64(widestMM); widthMM >= narrowestMM; widthMM -= 150 {
			if widthMM > w.LengthMM*0.6 {
				continue
			}
			for at := float64(toCornerMM); at+widthMM+toCornerMM <= w.LengthMM; at += stepMM {
				sill := f.floorMM(w.At(at+widthMM/2).Sub(w.Outward.Mul(50))) + overFloorMM
				ring := f.alongWall(i, at, at+widthMM, windowFreeMM)
				top := math.Min(sill-overFloorMM+highestMM, highMM(f.r, ring)-toCeilingMM)
				worth := widthMM/1000 - math.Abs(at+widthMM/2-w.LengthMM/2)/3000 + 0.8*(1-math.Abs(w.Outward.Dot(l.Into)))
				if f.r.Settled.Room.Walls[i].OutsideGroundMM != nil {
					worth++
				}
				if top-sill < leastHighMM || worth <= best+alikeMM || f.covered(ring, sill, top) {
					continue
				}
				best, found = worth, job.Window{Wall: i, OffsetMM: at, WidthMM: widthMM, SillMM: sill, HeightMM: top - sill}
			}
		}
	}
	if math.IsInf(best, -1) {
		return nil
	}
	return []job.Window{found}
}

// covered tells whether anything is in the way of a window.
func (f *floor) covered(ring plan.Ring, fromMM, toMM float64) bool {
	for _, b := range f.taken {
		if fromMM < b.toMM && b.fromMM < toMM && meet(ring, b.ring, besideMM) {
			return true
		}
	}
	return false
}

// lamps are let into the ceiling over the shower, near its back wall, and over the rest of the floor; a pendant's
// globe, halos behind mirrors, and strips under vanities and in niches are the others.
func (f *floor) lamps() (out []Lamp) {
	const fromTileMM, apartMM, wallMM = 175, 1100, 450
	l := &f.r.Layout
	down := func(at plan.Point) {
		if l.Room.Contains(at, 0) {
			out = append(out, Lamp{Kind: Downlight, At: at, LevelMM: l.CeilingAt(at)})
		}
	}
	left, right := l.Corners[0], l.Corners[1]
	wide := right.Sub(left)
	into := l.Into.Mul(fromTileMM + f.r.Settled.Layers.Wall.ThicknessMM())
	for _, share := range []float64{0.27, 0.75} {
		down(left.Add(wide.Mul(share)).Add(into))
	}
	// In rows along the shower.
	fromU, toU := l.Rest.Reach(l.ToRight)
	fromV, toV := l.Rest.Reach(l.Into)
	n := func(mm float64) int { return max(1, int(math.Round((mm-2*wallMM)/apartMM))+1) }
	nu, nv := n(toU-fromU), n(toV-fromV)
	for i := range nu {
		for k := range nv {
			u, v := fromU+(toU-fromU)*(float64(i)+0.5)/float64(nu), fromV+(toV-fromV)*(float64(k)+0.5)/float64(nv)
			at := l.ToRight.Mul(u).Add(l.Into.Mul(v))
			if mm, _ := l.Clear(at); mm > wallMM/2 && !l.Shower.Contains(at, 0) {
				down(at)
			}
		}
	}
	for _, o := range f.placed {
		switch o.Kind {
		case Pendant:
			out = append(out, Lamp{Kind: Globe, At: o.Middle(), LevelMM: o.FromMM + o.WidthMM/2, LengthMM: o.WidthMM})
		case Vanity:
			out = append(out, Lamp{Kind: Strip, At: o.At.Add(o.Out.Mul(70)), LevelMM: o.FromMM - 3, Along: o.Along(), LengthMM: o.WidthMM - 40})
		case Mirror:
			out = append(out, Lamp{Kind: Halo, At: o.At, LevelMM: (o.FromMM + o.ToMM) / 2, Along: o.Along(), LengthMM: math.Min(o.WidthMM, o.ToMM-o.FromMM)})
		case Niche:
			const behindMM, underMM, shorterMM = 22, 4, 30
			if !o.Other {
				at := o.At.Add(o.Out.Mul(o.DepthMM - behindMM))
				out = append(out, Lamp{Kind: Strip, At: at, LevelMM: o.ToMM - underMM, Along: o.Along(), LengthMM: o.WidthMM - shorterMM})
			}
		}
	}
	return out
}
