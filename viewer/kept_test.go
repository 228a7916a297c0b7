package viewer

import (
	"math"
	"runtime/debug"
	"testing"

	"github.com/go-gl/gl/v3.3-core/gl"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/viewer/trace"
)

// looked is a small frame of a demo with its shower tiled in a colour, its scene made anew as after an edit.
func looked(t *testing.T, colour string) Frame {
	t.Helper()
	j := demotest.Results(t)[0].Stated.Clone()
	j.Layers.Shower.Colour = colour
	res := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	f := photographed(t, 0, 60, 40)
	f.Scene = NewScene(res, nil)
	return f
}

// Who goes back to a look finds the light that was baked for it, as many other looks as there were between as light is kept of;
// a tile of another colour has light of its own.
func TestLightOfALookIsKept(t *testing.T) {
	r := Open(t)
	first := baked(t, r, looked(t, "#203040"))
	mean := first.Mean()
	if again := r.tracedRoom(looked(t, "#203040")).room; again != first {
		t.Error("a room that is equal in all is brought to the graphics memory again")
	}
	other := r.tracedRoom(looked(t, "#e0d0c0")).room
	if other == first || other.Passes() > 0 {
		t.Errorf("a shower of another colour has the light of the first, of %d passes", other.Passes())
	}
	for i := range mostLoaded {
		r.tracedRoom(looked(t, []string{"#111111", "#222222", "#333333", "#444444", "#555555"}[i%5]))
	}
	back := r.tracedRoom(looked(t, "#203040")).room
	if got := back.Passes(); got < trace.EnoughPasses {
		t.Fatalf("back at the first look its light has %d passes, want %d", got, trace.EnoughPasses)
	}
	if math.Abs(float64(back.Mean().Sub(mean).Len())) > 1e-6 {
		t.Errorf("its mean light is %v, was %v", back.Mean(), mean)
	}
}

// A picture with light that was kept is the picture that it was: each number within a thousandth.
func TestKeptLightGivesTheSamePicture(t *testing.T) {
	r := Open(t)
	drawn := func() []float32 {
		f := looked(t, "#203040")
		baked(t, r, f)
		var s tracedSum
		defer s.free()
		if err := r.traceRows(f, &s, &r.live, f.Height); err != nil {
			t.Fatal(err)
		}
		return s.picture.Light()
	}
	want := drawn()
	for _, c := range []string{"#111111", "#222222", "#333333", "#444444"} {
		r.tracedRoom(looked(t, c))
	}
	for i, got := range drawn() {
		if math.Abs(float64(got-want[i])) > 0.001*math.Max(1, float64(want[i])) {
			t.Fatalf("number %d is %v, was %v", i, got, want[i])
		}
	}
}

// However many looks there were, no more light is kept than of so many, and memory stays what it is.
func TestKeptLightIsBounded(t *testing.T) {
	if testing.Short() {
		t.Skip("half a minute")
	}
	r := Open(t)
	const rounds, settled, slackMB = 26, mostBaked + mostLoaded + 2, 24
	before := 0.0
	for i := range rounds {
		f := looked(t, "#0000"+string("0123456789abcdef"[i/16])+string("0123456789abcdef"[i%16]))
		if err := r.ready(f); err != nil {
			t.Fatal(err)
		}
		room := r.tracedRoom(f).room
		for !room.Warm() {
			if err := r.tracer.Bake(room, wholePass); err != nil {
				t.Fatal(err)
			}
		}
		gl.Finish()
		if i == settled {
			debug.FreeOSMemory()
			before = ResidentMB(t)
		}
	}
	if got := len(r.baked); got != mostBaked {
		t.Errorf("light of %d rooms is kept, want %d", got, mostBaked)
	}
	debug.FreeOSMemory()
	if after := ResidentMB(t); after > before+slackMB {
		t.Errorf("%.0f MB after %d looks, %.0f after %d", after, rounds, before, settled)
	}
}
