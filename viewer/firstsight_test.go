package viewer

import (
	"image"
	"image/color"
	"testing"

	"underfall/geometry/job"
	"underfall/viewer/trace"
)

// meanOf is the mean colour of a picture in linear light, as an eye tells it apart.
func meanOf(img *image.RGBA) lab {
	var sum [3]float64
	n := 0.0
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			c := decoded(color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA))
			for k := range sum {
				sum[k] += c[k]
			}
			n++
		}
	}
	return labOf([3]float64{sum[0] / n, sum[1] / n, sum[2] / n})
}

// forgetLight has the renderer know of no room's light and no picture's exposure.
func (r *Renderer) forgetLight() {
	for _, t := range r.traced {
		t.room.Free()
	}
	r.traced, r.exposures, r.guesses = nil, map[exposed]trace.Exposure{}, map[guessed]trace.Exposure{}
}

// What is seen of a room first, before its light is known, is of the colour and brightness that the room has once it is
// finished: nobody sees its colour jump. Nor does it once its light stands and its picture is yet to be.
func TestTheFirstSightIsInTheTonesOfTheLast(t *testing.T) {
	const width, height, samples, within = 90, 60, 4, 4
	r := Open(t)
	for demo, kinds := range map[int][]job.LightKind{benchmarkDemo: {job.LightDay, job.LightEvening}, cornered(t): {job.LightEvening}} {
		for _, kind := range kinds {
			f := photographed(t, demo, width, height)
			f.Light = job.UsualPicture().Light
			f.Light.Kind = kind
			r.forgetLight()
			first, err := r.Draw(f)
			if err != nil {
				t.Fatal(err)
			}
			baked(t, r, f)
			moving, err := r.Draw(f)
			if err != nil {
				t.Fatal(err)
			}
			last, _, err := r.Refine(f, 0, samples, true)
			if err != nil {
				t.Fatal(err)
			}
			want := meanOf(last)
			for sight, got := range map[string]lab{"before its light is known": meanOf(first), "lit": meanOf(moving)} {
				if off := got.from(want); off > within {
					t.Errorf("demo %d, %s, %s: %.1f, finished %.1f, apart %.1f", demo+1, kind, sight, got, want, off)
				}
			}
		}
	}
}
