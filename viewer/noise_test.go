package viewer

import (
	"fmt"
	"image"
	"math"
	"testing"
	"time"

	"github.com/go-gl/gl/v3.3-core/gl"
	"underfall/geometry/job"
	"underfall/viewer/trace"
)

// BenchmarkNoise is how far a still that has been drawn for so many seconds on two cores, its room's light baked, lies from
// one of very many samples, noise taken off both as in a photograph: the root of the mean of the squares, in steps of 255 of
// a screen, on flat faces and on all of the picture. Seconds are those that the process had of its processors, halved, so
// that they do not hang on what else runs.
func BenchmarkNoise(b *testing.B) {
	const width, height, cores, reference = 640, 400, 2, 160
	f := photographed(b, benchmarkDemo, width, height)
	r := Open(b)
	baked(b, r, f)
	built(b, r, f)
	var s tracedSum
	defer s.free()
	draw := func(most int, enough func(done int) bool) {
		s.begin()
		for n := 0; n < most && (n == 0 || !enough(n)); n++ {
			if err := r.traceRows(f, &s, &r.live, height); err != nil {
				b.Fatal(err)
			}
			gl.Finish()
		}
	}
	draw(reference, func(int) bool { return false })
	want, err := r.showTraced(f, &s)
	if err != nil {
		b.Fatal(err)
	}
	as := r.exposureKept(f)
	flat := flatIn(want)
	for b.Loop() {
		for _, seconds := range []float64{1, 2, 8, 30} {
			began := processorTime(b)
			draw(reference/2, func(done int) bool {
				spent := (processorTime(b) - began).Seconds() / cores
				return spent*(1+1/float64(done)) > seconds // another would take too long
			})
			onFlat, onAll := apart(want, shown(b, r, f, &s, as), flat)
			b.ReportMetric(onFlat, fmt.Sprintf("flat-%gs", seconds))
			b.ReportMetric(onAll, fmt.Sprintf("all-%gs", seconds))
			b.ReportMetric(float64(s.picture.Samples()), fmt.Sprintf("samples-%gs", seconds))
		}
	}
}

// shown takes the noise off a traced picture and shows it with an exposure.
func shown(tb testing.TB, r *Renderer, f Frame, s *tracedSum, e trace.Exposure) *image.RGBA {
	tb.Helper()
	out, err := r.shownAs(f, s, e)
	if err != nil {
		tb.Fatal(err)
	}
	return out
}

// BenchmarkSpread is a still of 32 samples, and one as clean that has more of them where there is noise: how far each lies from
// one of very many, and what the process had of its processors for it, halved for two cores.
func BenchmarkSpread(b *testing.B) {
	const width, height, cores, reference, samples = 640, 400, 2, 192, 32 // without a card a reference takes minutes
	for _, demo := range []int{benchmarkDemo, 2, 4} {
		for _, light := range []job.LightKind{job.LightDay, job.LightEvening} {
			b.Run(fmt.Sprintf("%d %s", demo+1, light), func(b *testing.B) {
				f := photographed(b, demo, width, height)
				f.Light = job.Light{Kind: light, Hour: 11}
				r := Open(b)
				r.Device = "llvmpipe" // a card spreads nothing
				baked(b, r, f)
				built(b, r, f)
				var s tracedSum
				defer s.free()
				sampled := func(n int) time.Duration {
					began := processorTime(b)
					s.begin()
					for range n {
						if err := r.traceRows(f, &s, &r.live, height); err != nil {
							b.Fatal(err)
						}
						gl.Finish()
					}
					return processorTime(b) - began
				}
				sampled(reference)
				want, err := r.showTraced(f, &s)
				if err != nil {
					b.Fatal(err)
				}
				as, flat := r.exposureKept(f), flatIn(want)
				report := func(name string, took time.Duration, got *image.RGBA) {
					onFlat, onAll := apart(want, got, flat)
					b.ReportMetric(took.Seconds()/cores, "s-"+name)
					b.ReportMetric(onFlat, "flat-"+name)
					b.ReportMetric(onAll, "all-"+name)
				}
				for b.Loop() {
					took := sampled(samples)
					report("even", took, shown(b, r, f, &s, as))
					began := processorTime(b)
					spread(b, r, f, samples)
					took = processorTime(b) - began
					report("spread", took, shown(b, r, f, &r.still.traced, as))
					mean, _ := r.still.traced.picture.Drawn()
					b.ReportMetric(mean, "samples-spread")
				}
			})
		}
	}
}

// spread draws a still with more samples where there is noise.
func spread(tb testing.TB, r *Renderer, f Frame, samples int) *still {
	tb.Helper()
	s := &still{ctx: tb.Context(), frame: f, samples: samples, shares: make(chan float64, 1)}
	for over := false; !over; {
		var err error
		if over, err = s.step(r); err != nil {
			tb.Fatal(err)
		}
		gl.Finish()
	}
	return s
}

// flatIn tells which places of a picture lie on flat faces: where nothing round them differs by much.
func flatIn(img *image.RGBA) []bool {
	const round, much = 3, 8
	out := make([]bool, img.Rect.Dx()*img.Rect.Dy())
	for y := round; y < img.Rect.Dy()-round; y++ {
		for x := round; x < img.Rect.Dx()-round; x++ {
			low, high := uint8(255), uint8(0)
			for j := -round; j <= round; j++ {
				for i := -round; i <= round; i++ {
					g := img.Pix[img.PixOffset(x+i, y+j)+1]
					low, high = min(low, g), max(high, g)
				}
			}
			out[y*img.Rect.Dx()+x] = high-low <= much
		}
	}
	return out
}

// apart is how far two pictures lie apart, on the places that are flat and on all.
func apart(a, b *image.RGBA, flat []bool) (onFlat, onAll float64) {
	var sum [2]float64
	var count [2]int
	for i, isFlat := range flat {
		d := 0.0
		for k := range 3 {
			d += math.Pow(float64(a.Pix[4*i+k])-float64(b.Pix[4*i+k]), 2) / 3
		}
		sum[1], count[1] = sum[1]+d, count[1]+1
		if isFlat {
			sum[0], count[0] = sum[0]+d, count[0]+1
		}
	}
	return math.Sqrt(sum[0] / float64(max(1, count[0]))), math.Sqrt(sum[1] / float64(count[1]))
}
