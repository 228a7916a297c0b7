package furnish

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// Sizes of a niche and of the shelf that hangs where there can be none. Common practice, no source.
const (
	nicheFromMM    = 1080 // over the shower's floor
	nicheHighMM    = 320
	nicheDeepMM    = 90
	leastDeepMM    = 65
	nicheBehindMM  = 20  // of the wall that is left behind it
	nicheCornerMM  = 140 // to a corner of the shower
	nicheCeilingMM = 120
	nicheMixerMM   = 260 // to the middle of the mixer and its rail
	shelfDeepMM    = 110
	shelfHighMM    = 24
)

// niche is let into a wall of the shower where it is thick enough, with bottles in it, rather one that pictures show from the
// front and that the mixer is not on; a shelf hangs in its place where the wall is too thin.
func (f *floor) niche(windows []job.Window) {
	best, found := math.Inf(-1), Object{}
	for _, e := range f.r.Layout.Edges {
		if e.Wall < 0 {
			continue
		}
		w := &f.r.Layout.Walls[e.Wall]
		a, b := e.A.Sub(w.A).Dot(w.Along), e.B.Sub(w.A).Dot(w.Along)
		from, to := math.Min(a, b)+nicheCornerMM, math.Max(a, b)-nicheCornerMM
		for _, widthMM := range []float64{640, 480, 320} {
			for at := from + widthMM/2; at+widthMM/2 <= to+plan.HairMM; at += stepMM {
				o := f.nicheAt(e.Wall, at, widthMM)
				toMiddle := math.Abs(at - (from+to)/2)
				worth := widthMM + 600*f.shown(w) - toMiddle/2
				if worth > best+alikeMM && f.nicheFits(o, windows) {
					best, found = worth, o
				}
			}
		}
	}
	if math.IsInf(best, -1) {
		return
	}
	f.placed = append(f.placed, found)
}

// nicheAt is a niche in a wall at a place along it, or a shelf on it where it is too thin.
func (f *floor) nicheAt(wall int, atMM, widthMM float64) Object {
	w := &f.r.Layout.Walls[wall]
	faceMM := f.r.Settled.Layers.Wall.ThicknessMM()
	deepMM := math.Min(nicheDeepMM, w.ThicknessMM-nicheBehindMM)
	floorMM := f.floorMM(w.At(atMM).Sub(w.Outward.Mul(faceMM + nicheDeepMM)))
	o := Object{Kind: Niche, Out: w.Outward.Mul(-1), WidthMM: widthMM, DepthMM: deepMM + faceMM,
		FromMM: floorMM + nicheFromMM, ToMM: floorMM + nicheFromMM + nicheHighMM, Wall: wall}
	o.At = w.At(atMM).Add(w.Outward.Mul(deepMM))
	if deepMM < leastDeepMM {
		return f.asShelf(o)
	}
	return o
}

// asShelf is the shelf in a niche's place.
func (f *floor) asShelf(o Object) Object {
	w := &f.r.Layout.Walls[o.Wall]
	at := o.At.Sub(w.A).Dot(w.Along)
	o.At = w.At(at).Sub(w.Outward.Mul(f.r.Settled.Layers.Wall.ThicknessMM()))
	o.Other, o.DepthMM = true, shelfDeepMM
	o.ToMM = o.FromMM + shelfHighMM
	return o
}

// nicheFits tells whether nothing is in the way of a niche: a window, the mixer, a pane, or what stands or hangs before it.
func (f *floor) nicheFits(o Object, windows []job.Window) bool {
	const beforeMM = 200
	l := &f.r.Layout
	w := &l.Walls[o.Wall]
	at := o.At.Sub(w.A).Dot(w.Along)
	before := f.alongWall(o.Wall, at-o.WidthMM/2-besideMM, at+o.WidthMM/2+besideMM, beforeMM)
	if highMM(f.r, before) < o.ToMM+nicheCeilingMM {
		return false
	}
	for _, x := range windows {
		if x.Wall == o.Wall && meetAlong(at, o.WidthMM/2+2*besideMM, x.OffsetMM, x.OffsetMM+x.WidthMM) {
			return false
		}
	}
	if e, ok := Fittings(f.r); ok && e.Wall == o.Wall {
		middle := mixerAt(f.r, e).Sub(w.A).Dot(w.Along)
		if math.Abs(middle-at) < o.WidthMM/2+nicheMixerMM {
			return false
		}
	}
	for _, x := range l.Screens {
		for _, part := range x.Glass {
			if meet(plan.Hull(part.Outer), before, 0) {
				return false
			}
		}
	}
	for _, p := range f.placed {
		if p.Kind != Niche && p.FromMM < o.ToMM+nicheHighMM && o.FromMM < p.ToMM && meet(p.Footprint(), before, 0) {
			return false
		}
	}
	return true
}

// meetAlong tells whether a stretch about a middle meets another.
func meetAlong(middle, half, from, to float64) bool { return middle-half < to && from < middle+half }

// mixerAt is where the rail of the mixer stands along the edge that it is on.
func mixerAt(r *geometry.Result, e layout.Edge) plan.Point {
	if h := r.Settled.Shower.Head; h != nil {
		return plan.NearestOnSegment(h.At, e.A, e.B)
	}
	return e.Middle()
}

// alongShower tells whether a niche lies along the shower, clear of its corners.
func (f *floor) alongShower(o Object) bool {
	w := &f.r.Layout.Walls[o.Wall]
	at := o.At.Sub(w.A).Dot(w.Along)
	for _, e := range f.r.Layout.Edges {
		a, b := e.A.Sub(w.A).Dot(w.Along), e.B.Sub(w.A).Dot(w.Along)
		if e.Wall == o.Wall && at-o.WidthMM/2 >= math.Min(a, b)+nicheCornerMM/2 && at+o.WidthMM/2 <= math.Max(a, b)-nicheCornerMM/2 {
			return true
		}
	}
	return false
}
