package viewer

import (
	"image"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/viewer/trace"
)

// atMirror is a picture with nothing but a demo's mirror in it, seen from straight before it.
func atMirror(tb testing.TB, demo int) Frame {
	res := demotest.Results(tb)[demo]
	const width, height, offMM = 96, 64, 500
	f := Frame{Scene: NewScene(res, nil), Stage: buildup.StageTile, Width: width, Height: height}
	low, high, found := mgl64.Vec3{math.Inf(1), math.Inf(1), math.Inf(1)}, mgl64.Vec3{math.Inf(-1), math.Inf(-1), math.Inf(-1)}, false
	for _, b := range f.Scene.Bodies {
		if f.tracedMaterial(b).Kind != trace.Mirror {
			continue
		}
		found = true
		for k := 0; k+5 < len(b.vertices); k += 6 {
			for c := range 3 {
				low[c], high[c] = min(low[c], float64(b.vertices[k+c])), max(high[c], float64(b.vertices[k+c]))
			}
		}
	}
	if !found {
		tb.Fatalf("demo %d has no mirror", demo)
	}
	middle := low.Add(high).Mul(0.5)
	into := f.Scene.centre.Sub(middle)
	thin, size := 0, high.Sub(low)
	if size[1] < size[0] {
		thin = 1
	}
	normal := mgl64.Vec3{}
	normal[thin] = math.Copysign(1, into[thin])
	f.Camera = Camera{Target: middle, Yaw: math.Atan2(normal[1], normal[0]), DistanceMM: offMM}
	return f
}

// A mirror in motion shows what it shows at rest, as far as one looks at it from its middle: parts of the picture are as
// bright as where light is followed, and it is no plain wall.
func TestMirrorsInMotion(t *testing.T) {
	r := Open(t)
	f := atMirror(t, benchmarkDemo)
	warmed(t, r, f)
	const samples = 4
	rest, _, err := r.Refine(f, 0, samples, true)
	if err != nil {
		t.Fatal(err)
	}
	moving, err := r.Draw(f) // with the exposure of the picture at rest
	if err != nil {
		t.Fatal(err)
	}
	a, b := parts(rest), parts(moving)
	meanA, meanB, off, spread, common := 0.0, 0.0, 0.0, 0.0, 0.0
	for i := range a {
		meanA, meanB = meanA+a[i]/float64(len(a)), meanB+b[i]/float64(len(a))
	}
	spreadB := 0.0
	for i := range a {
		off += math.Abs(a[i]-b[i]) / float64(len(a))
		spread, spreadB, common = spread+math.Pow(a[i]-meanA, 2), spreadB+math.Pow(b[i]-meanB, 2), common+(a[i]-meanA)*(b[i]-meanB)
	}
	alike := common / math.Sqrt(spread*spreadB+1e-9)
	t.Logf("parts are %.1f off, alike by %.2f, spread %.1f and %.1f", off, alike, math.Sqrt(spread/float64(len(a))), math.Sqrt(spreadB/float64(len(a))))
	if off > 20 || alike < 0.8 {
		t.Errorf("parts of the mirror are %.1f of 255 off and alike by %.2f", off, alike)
	}
}

// parts are the means of squares of a picture.
func parts(img *image.RGBA) (out []float64) {
	const side = 8
	for y := 0; y+side <= img.Rect.Dy(); y += side {
		for x := 0; x+side <= img.Rect.Dx(); x += side {
			sum := 0.0
			for j := range side {
				for i := range side {
					c := img.RGBAAt(x+i, y+j)
					sum += (float64(c.R) + float64(c.G) + float64(c.B)) / 3
				}
			}
			out = append(out, sum/side/side)
		}
	}
	return out
}
