package viewer

import (
	"math"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/viewer/trace"
)

// tracingWith is Open with the abilities that a test chooses of those that the driver has.
func tracingWith(tb testing.TB, use func(trace.Abilities) trace.Abilities) *Renderer {
	return openFor(tb, func(able trace.Abilities, _ bool) trace.Abilities { return use(able) })
}

// far is how far two lists of light lie apart: the root of the mean of the squares of differences against the mean.
func far(a, b []float32) float64 {
	sum, mean := 0.0, 0.0
	for i := range a {
		sum += math.Pow(float64(a[i]-b[i]), 2)
		mean += float64(a[i])
	}
	return math.Sqrt(sum/float64(len(a))) / (mean / float64(len(a)))
}

// blending, computing and filtering are the abilities of a driver with nothing but that.
func blending(a trace.Abilities) trace.Abilities  { return trace.Abilities{Blends: a.Blends} }
func computing(a trace.Abilities) trace.Abilities { return trace.Abilities{Computes: a.Computes} }
func filtering(a trace.Abilities) trace.Abilities { return trace.Abilities{Filters: a.Filters} }

func none(trace.Abilities) trace.Abilities { return trace.Abilities{} }

// corneredRoom is a small photograph of a room with a corner that turns in: by most of its places light is read between
// by the driver, beside the corner's walls it is not.
func corneredRoom(t *testing.T) Frame {
	res := demotest.Results(t)[cornered(t)]
	const width, height = 90, 60
	return Frame{Scene: NewScene(res, nil), Camera: CameraFor(ViewPhoto, res, 1.5), Stage: buildup.StageTile, Width: width, Height: height}
}

// warmed bakes a frame's room until its light stands, if roughly.
func warmed(t *testing.T, r *Renderer, f Frame) {
	t.Helper()
	if err := r.ready(f); err != nil {
		t.Fatal(err)
	}
	for room := r.tracedRoom(f).room; !room.Warm() || room.Baking(); {
		if err := r.tracer.Bake(room, wholePass); err != nil {
			t.Fatal(err)
		}
	}
}

// pictures are a frame's, drawn by a driver of some abilities.
type pictures struct {
	light           []float32 // of a picture at rest
	moving, refined []uint8   // pixels of a picture in motion, and of one that samples of it are added up to
}

// picturesWith are the frame's, its room warmed.
func picturesWith(t *testing.T, f Frame, use func(trace.Abilities) trace.Abilities) (out pictures) {
	r := tracingWith(t, use)
	defer r.close()
	warmed(t, r, f)
	var s tracedSum
	defer s.free()
	const samples, rowsAtOnce = 2, 25
	for s.picture.Samples() < samples {
		if err := r.traceRows(f, &s, &r.live, rowsAtOnce); err != nil {
			t.Fatal(err)
		}
	}
	out.light = s.picture.Light()
	img, err := r.Draw(f)
	if err != nil {
		t.Fatal(err)
	}
	out.moving = append(out.moving, img.Pix...)
	f.Look = LookThrough
	img, _, err = r.Refine(f, 0, 3, true)
	if err != nil {
		t.Fatal(err)
	}
	out.refined = img.Pix
	return out
}

// What a driver cannot do is done another way, and the pictures are the same. That at rest is, pixel by pixel, within what
// 16 bits of light take: paths are the same whatever follows them. Those in motion are, but for places beside what weighs
// nothing where the driver reads between the places of a volume.
func TestEveryWayGivesTheSamePictures(t *testing.T) {
	f := corneredRoom(t)
	want := picturesWith(t, f, none)
	const exactly, in16Bits = 1e-4, 0.002
	const nowhere, besideWalls = 0, 0.01
	for _, c := range []struct {
		name         string
		use          func(trace.Abilities) trace.Abilities
		within, most float64
	}{
		{"blending", blending, exactly, nowhere},
		{"computing", computing, exactly, nowhere},
		{"filtering", filtering, exactly, besideWalls},
		{"computing and filtering", func(a trace.Abilities) trace.Abilities { a.Blends = false; return a }, in16Bits, besideWalls},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := picturesWith(t, f, c.use)
			if off := far(want.light, got.light); off > c.within {
				t.Errorf("light is %.5f of the mean off", off)
			}
			if off := differing(want.moving, got.moving); off > c.most {
				t.Errorf("%.2f %% of the values in motion differ", 100*off)
			}
			if off := differing(want.refined, got.refined); off > c.most {
				t.Errorf("%.2f %% of the refined values differ", 100*off)
			}
		})
	}
}

// differing is the share of values that differ by more than rounding does.
func differing(a, b []uint8) float64 {
	const step = 2
	off := 0
	for i := range a {
		if d := int(a[i]) - int(b[i]); d > step || d < -step {
			off++
		}
	}
	return float64(off) / float64(len(a))
}

// cornered is a demo whose room has a corner that turns into it.
func cornered(t *testing.T) int {
	for i, res := range demotest.Results(t) {
		left, right := false, false
		o := NewScene(res, nil).outline
		for k, b := range o {
			u, w := b.Sub(o[(k+len(o)-1)%len(o)]), o[(k+1)%len(o)].Sub(b)
			turn := u[0]*w[1] - u[1]*w[0]
			left, right = left || turn > 0, right || turn < 0
		}
		if left && right {
			return i
		}
	}
	t.Fatal("no demo has a corner that turns in")
	return 0
}
