package viewer_test

import (
	"image"
	"math"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/viewer"
)

// A wet floor is told from a dry one at a glance, in motion and where light is followed: darker where its tile drinks and its glaze is no mirror already, and
// nothing else of the room changes. An eye tells colours apart from ΔE 2.3 on (Mahy and others, "Evaluation of uniform color spaces", 1994);
// half as much again is a glance (common practice, no source).
func TestWetTilesReadAsWet(t *testing.T) {
	const glance, samples = 1.5 * 2.3, 4
	r := viewer.Open(t)
	darker := map[job.Sheen]float64{}
	for _, sheen := range []job.Sheen{job.SheenMatt, job.SheenSatin, job.SheenGloss} {
		j := demotest.Rooms(t)[0].Job.Clone()
		j.Layers.Shower.Sheen = sheen
		f := frame(geometry.Evaluate(j, demotest.Packs(t)[j.Region]), viewer.ViewDrain, 160, 100)
		for _, look := range []string{"in motion", "traced"} {
			draw := func(wet bool) *image.RGBA {
				f.Wet = wet
				img, _, err := r.Refine(f, 0, samples, true) // which bakes the light as well
				if look == "in motion" && err == nil {
					img, err = r.Draw(f)
				}
				if err != nil {
					t.Fatal(err)
				}
				return img
			}
			dry, wet := draw(false), draw(true)
			floor, floorDarker := apart(f, dry, wet, true)
			rest, _ := apart(f, dry, wet, false)
			t.Logf("%s, %s: the floor differs by %.1f, is darker by %.1f, all else differs by %.1f", sheen, look, floor, floorDarker, rest)
			if sheen != job.SheenGloss && floor < glance {
				t.Errorf("%s, %s: a wet floor differs from a dry one by %.1f", sheen, look, floor)
			}
			if rest > 2.3 {
				t.Errorf("%s, %s: what is not wet differs by %.1f", sheen, look, rest)
			}
			if look == "traced" {
				darker[sheen] = floorDarker
			}
		}
	}
	if min(darker[job.SheenMatt], darker[job.SheenSatin]) < 1 || math.Abs(darker[job.SheenGloss]) > 1 {
		t.Errorf("wet, by how they shine, they are darker by %v", darker)
	}
}

// apart is how far two pictures are apart on the shower's floor, or on all else, and by how much the second is darker there.
func apart(f viewer.Frame, a, b *image.RGBA, onFloor bool) (far, darker float64) {
	n := 0.0
	for y := 0; y+blockPixels <= f.Height; y += blockPixels {
		for x := 0; x+blockPixels <= f.Width; x += blockPixels {
			hit, ok := f.Pick(f.Camera.Ray((float64(x)+2.5)/float64(f.Width), (float64(y)+2.5)/float64(f.Height), float64(f.Width)/float64(f.Height)))
			floor := ok && strings.HasPrefix(hit.Part.ID, "tile")
			if floor != onFloor {
				continue
			}
			l0, a0, b0 := mean(a, x, y)
			l1, a1, b1 := mean(b, x, y)
			far += math.Sqrt((l0-l1)*(l0-l1) + (a0-a1)*(a0-a1) + (b0-b1)*(b0-b1))
			darker += l0 - l1
			n++
		}
	}
	return far / math.Max(1, n), darker / math.Max(1, n)
}
