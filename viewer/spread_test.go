package viewer

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/go-gl/mathgl/mgl32"
	"underfall/viewer/trace"
)

// noisy is a grey picture whose left half is off by noise of one size, its right half by another.
func noisy(seed uint64, left, right float64) *image.RGBA {
	const width, height = 256, 64
	out, numbers := image.NewRGBA(image.Rect(0, 0, width, height)), rand.New(rand.NewPCG(seed, 1))
	for i := range width * height {
		size := left
		if i%width >= width/2 {
			size = right
		}
		v := 128 + size*numbers.NormFloat64()
		for k := range 3 {
			out.Pix[4*i+k] = uint8(math.Max(0, math.Min(255, math.Round(v))))
		}
	}
	return out
}

// drawnTo is a picture of a scene drawn until every tile has its samples, of which it has so many at first.
func drawnTo(t *testing.T, r *Renderer, s *trace.Scene, v trace.View, side, first int, tiles trace.Tiles) []float32 {
	t.Helper()
	room := r.tracer.Load(s, nil, mgl32.Vec3{1, 1, 1})
	defer room.Free()
	var p trace.Picture
	defer p.Free()
	for n := first; p.Samples() < n; n = max(first, p.Most()) {
		if err := r.tracer.Sample(&p, room, v, side, side, side, 1); err != nil {
			t.Fatal(err)
		}
		if p.Samples() == first {
			p.Spread(tiles)
		}
	}
	return p.Light()
}

// By hand: noise of 2 in one half and 6 in the other lies off by (2² + 6²)/2 = 20 on the mean with as many samples everywhere. With
// samples as 2 to 6, n and 3n, it is (4/n + 36/3n)/2 = 8/n of those drawn against 20/32: n = 12.8, 3n = 38.4, and
// 25.6 on the mean in place of 32.
func TestSamplesGoWhereNoiseIs(t *testing.T) {
	tiles := trace.Spread(noisy(1, 0, 0), noisy(2, 2, 6), 10, 32)
	var p trace.Picture
	p.Spread(tiles)
	if _, mean := p.Drawn(); math.Abs(mean-25.6) > 1.2 { // where the halves meet tiles share their noise
		t.Errorf("%.1f samples on the mean, want 25.6", mean)
	}
	if most := p.Most(); most < 36 || most > 43 {
		t.Errorf("%d samples where there is most noise, want 38", most)
	}
	even := trace.Spread(noisy(3, 0, 0), noisy(4, 4, 4), 10, 32)
	p.Spread(even)
	if _, mean := p.Drawn(); math.Abs(mean-32) > 1 {
		t.Errorf("%.1f samples on the mean where noise is even, want 32", mean)
	}
}

// A white furnace with other samples in every tile is as white as with the same everywhere: a sum is divided by the samples
// that it is of.
func TestWhiteFurnaceOfUnevenSamples(t *testing.T) {
	r := Open(t)
	const side = 64
	v := trace.View{Eye: mgl32.Vec3{0, -3000, 0}, Forward: mgl32.Vec3{0, 1, 0},
		Right: mgl32.Vec3{0.08, 0, 0}, Up: mgl32.Vec3{0, 0, 0.08}, NearMM: 1}
	half := image.NewRGBA(image.Rect(0, 0, side, side))
	all := image.NewRGBA(half.Rect)
	for i := range side * side { // more noise to the right
		all.Pix[4*i] = uint8(i % side)
	}
	s := ball(trace.Material{Kind: trace.Paint, Colour: mgl32.Vec3{1, 1, 1}, Roughness: 1})
	light := drawnTo(t, r, s, v, side, 4, trace.Spread(half, all, 4, 24))
	for i := range side {
		column := 0.0
		for y := range side {
			column += float64(light[4*(y*side+i)+1]) / side
		}
		if math.Abs(column-1) > 0.01 {
			t.Errorf("column %d is %.4f", i, column)
		}
	}
}

// A room drawn with more samples where there is noise is as bright as with the same everywhere: within one part in a hundred on
// the mean of all pixels, of which three standard deviations are 0.6 (from 64 samples of 160×100 pixels).
func TestSpreadSamplesAreNoBrighter(t *testing.T) {
	const width, height, samples = 160, 100, 32
	f := photographed(t, benchmarkDemo, width, height)
	r := Open(t)
	r.Device = "llvmpipe" // a card spreads nothing
	baked(t, r, f)
	mean := func(p *trace.Picture) (sum float64) {
		for i, v := range p.Light() {
			if i%4 < 3 {
				sum += float64(v) / (3 * width * height)
			}
		}
		return sum
	}
	spread(t, r, f, samples)
	if got, of := r.still.traced.picture.Drawn(); got != of || of >= samples || of < samples/3 {
		t.Errorf("%.1f of %.1f samples drawn on the mean, fewer than %d expected", got, of, samples)
	}
	uneven := mean(&r.still.traced.picture)
	var s tracedSum
	defer s.free()
	for range samples {
		if err := r.traceRows(f, &s, &r.live, height); err != nil {
			t.Fatal(err)
		}
	}
	if even := mean(&s.picture); math.Abs(uneven/even-1) > 0.01 {
		t.Errorf("the mean light is %.5f with samples where there is noise, %.5f with the same everywhere", uneven, even)
	}
}
