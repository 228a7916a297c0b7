package furnish_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/demotest"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
)

// What the user cleared is not there, what was moved lies along its width as far as wanted or nearer, everything else
// stands where it stood, and nothing comes to stand in anything or where one walks.
func TestThingsAsTheUserHadThem(t *testing.T) {
	results := demotest.Results(t)
	rapid.Check(t, func(t *rapid.T) {
		r := results[rapid.IntRange(0, len(results)-1).Draw(t, "demo")]
		p := job.UsualPicture()
		for _, k := range job.ThingKinds().Choices {
			if rapid.Bool().Draw(t, string(k.Value)) {
				p = p.With(job.Thing{Kind: k.Value, Cleared: rapid.Bool().Draw(t, "cleared"), Other: rapid.Bool().Draw(t, "other"),
					AlongMM: rapid.Float64Range(-1500, 1500).Draw(t, "along")})
			}
		}
		was := map[furnish.Kind]furnish.Object{}
		for _, o := range furnish.Of(&r).Objects {
			was[o.Kind] = o
		}
		r.Settled.Picture = &p
		room := furnish.Of(&r)
		for _, wrong := range inspect(&r, room) {
			t.Error(wrong)
		}
		there := map[furnish.Kind]bool{}
		for _, o := range room.Objects {
			there[o.Kind] = true
			k, ok := o.Thing()
			if !ok {
				continue
			}
			had, before := p.Had(k), was[o.Kind]
			if k == job.ThingMirror {
				had.AlongMM = p.Had(job.ThingVanity).AlongMM
			}
			if had.Cleared || o.Other != had.Other {
				t.Errorf("%s is had as %+v, and stands there, other %v", k, had, o.Other)
			}
			if o.MovedMM*had.AlongMM < 0 || math.Abs(o.MovedMM) > math.Abs(had.AlongMM) {
				t.Errorf("%s is moved by %v, wanted %v", k, o.MovedMM, had.AlongMM)
			}
			aside := o.At.Sub(before.At.Add(before.Along().Mul(o.MovedMM)))
			if k == job.ThingNiche { // the shelf in its place hangs before the wall
				aside = o.Along().Mul(aside.Dot(o.Along()))
			}
			if off := aside.Len(); off > 1e-6 || o.WidthMM != before.WidthMM {
				t.Errorf("%s is %v mm from where it is said to be moved to", k, off)
			}
		}
		for kind, o := range was {
			if k, ok := o.Thing(); !there[kind] && (!ok || !p.Had(k).Cleared) {
				t.Errorf("%s is gone", kind)
			}
		}
	})
}

// A thing that stands in no room to spare stays where it is, however little it is moved.
func TestAThingIsNotMovedIntoAnother(t *testing.T) {
	for _, r := range demotest.Results(t) {
		for _, k := range job.ThingKinds().Choices {
			for _, byMM := range []float64{-0.4, -0.25, 0.25, 0.4} {
				p := job.UsualPicture().With(job.Thing{Kind: k.Value, AlongMM: byMM})
				r.Settled.Picture = &p
				for _, wrong := range inspect(&r, furnish.Of(&r)) {
					t.Errorf("%s, %s by %v: %s", r.Stated.Name, k.Value, byMM, wrong)
				}
			}
		}
	}
}

// A towel rail on a free stretch of wall goes as far as it is moved, to the millimetre.
func TestAThingGoesWhereItIsFree(t *testing.T) {
	moved := 0
	for _, r := range demotest.Results(t) {
		for _, k := range job.ThingKinds().Choices {
			for _, byMM := range []float64{-37, 37} {
				p := job.UsualPicture().With(job.Thing{Kind: k.Value, AlongMM: byMM})
				r.Settled.Picture = &p
				for _, o := range furnish.Of(&r).Objects {
					if got, ok := o.Thing(); ok && got == k.Value && o.MovedMM == byMM {
						moved++
					}
				}
			}
		}
	}
	if moved < 20 {
		t.Errorf("only %d things can be moved a little", moved)
	}
}

// A vase goes as far as the sill that it stands on, whatever furniture has come to stand before the window since that was found: by hand,
// from where it is to where it would reach past the window's end.
func TestAVaseMovesAlongItsSill(t *testing.T) {
	moved := 0
	for _, r := range demotest.Shown(t) {
		for _, byMM := range []float64{-37, 37} {
			r.Settled.Picture = nil
			before := furnish.Of(&r)
			p := job.UsualPicture().With(job.Thing{Kind: job.ThingVase, AlongMM: byMM})
			r.Settled.Picture = &p
			for i, o := range furnish.Of(&r).Objects {
				if o.Kind != furnish.Vase {
					continue
				}
				was := before.Objects[i]
				w := &r.Layout.Walls[was.Wall]
				at := was.Middle().Add(was.Along().Mul(byMM)).Sub(w.A).Dot(w.Along)
				for _, x := range before.Windows {
					onSill := at-was.WidthMM/2 > x.OffsetMM && at+was.WidthMM/2 < x.OffsetMM+x.WidthMM
					if x.Wall != was.Wall || !onSill {
						continue
					}
					if moved++; o.MovedMM != byMM {
						t.Errorf("%s: a vase moved by %v of %v", r.Stated.Name, o.MovedMM, byMM)
					}
				}
			}
		}
	}
	if moved < 4 {
		t.Errorf("only %d vases have room on their sill", moved)
	}
}
