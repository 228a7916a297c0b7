package furnish

import (
	"math"

	"underfall/geometry/job"
)

// Thing is which of the things of a room's picture an object is; ok is false for what the job states itself, and for what
// is none of them.
func (o Object) Thing() (k job.ThingKind, ok bool) {
	k = job.ThingKind(o.Kind)
	return k, !o.Stated && job.ThingKinds().Has(k)
}

// had has things as the user had them: cleared, in their other design, or moved along what they stand at as far as they
// stay clear of everything, towards where they were wanted. All was placed as if nothing were had otherwise, so that
// nothing else stirs.
func (f *floor) had(p job.Picture, windows []job.Window) {
	shifted := 0.0
	for i := 0; i < len(f.placed); i++ {
		k, ok := f.placed[i].Thing()
		if !ok {
			continue
		}
		t := p.Had(k)
		if t.Cleared {
			f.unblock(f.placed[i].Kind)
			f.placed = append(f.placed[:i:i], f.placed[i+1:]...)
			i--
			continue
		}
		o := &f.placed[i]
		switch {
		case k != job.ThingNiche:
			o.Other = t.Other
		case t.Other && !o.Other:
			*o = f.asShelf(*o)
		}
		if k == job.ThingMirror {
			t.AlongMM = shifted // it hangs over its basin
		}
		if t.AlongMM != 0 {
			f.shift(o, t.AlongMM, windows)
		}
		if k == job.ThingVanity {
			shifted = o.MovedMM
		}
	}
}

// unblock gives the room that a kind of object takes back.
func (f *floor) unblock(k Kind) {
	kept := f.taken[:0:0]
	for _, b := range f.taken {
		if b.by != k {
			kept = append(kept, b)
		}
	}
	f.taken = kept
}

// shift moves an object along its width, to the right of who looks at it, as far towards what is wanted as it stands free.
func (f *floor) shift(o *Object, alongMM float64, windows []job.Window) {
	from := *o
	f.unblock(o.Kind)
	for byMM := alongMM; ; byMM = toward(byMM, stepMM/2) {
		k := from
		k.At = from.At.Add(from.Along().Mul(byMM))
		up := f.floorMM(k.Middle()) - f.floorMM(from.Middle())
		if o.Kind == Pendant || o.Kind == Vase || o.Kind == Niche {
			up = 0 // they stand on no floor
		}
		k.FromMM, k.ToMM, k.MovedMM = from.FromMM+up, from.ToMM+up, byMM
		wide := k
		wide.WidthMM += 2 * gapMM
		clear := f.free(k, gapMM) && f.inRoom(wide.Footprint())
		switch o.Kind {
		case Vanity:
			clear = clear && f.inRoom(before(k, useFreeMM)) && !f.stoodOn(k, useFreeMM)
		case Mat:
			clear = clear && f.flatUnder(k)
		case Vase:
			clear = f.onSill(k, windows) && !f.behindTap(k)
		case Niche:
			clear = f.alongShower(k) && f.nicheFits(k, windows)
		}
		if clear || byMM == 0 {
			*o = k
			break
		}
	}
	f.blockFor(*o)
}

// toward is a number nearer to nought by a step.
func toward(x, step float64) float64 {
	if math.Abs(x) <= step {
		return 0
	}
	return x - math.Copysign(step, x)
}

// onSill tells whether an object stands on the sill of a window in its wall, clear of its ends.
func (f *floor) onSill(o Object, windows []job.Window) bool {
	w := &f.r.Layout.Walls[o.Wall]
	at := o.Middle().Sub(w.A).Dot(w.Along)
	for _, window := range windows {
		if window.Wall == o.Wall && at-o.WidthMM/2 > window.OffsetMM && at+o.WidthMM/2 < window.OffsetMM+window.WidthMM {
			return true
		}
	}
	return false
}
