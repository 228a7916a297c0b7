package viewer_test

import (
	"image"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/viewer"
)

// A strip of a picture at rest is that of the whole one, exposed as that, and stays where less of its width is asked for; of more it is
// drawn anew. Two steps of 255 are left to the noise that is taken off by what lies beside.
func TestStripsAreOfTheWholePicture(t *testing.T) {
	r := viewer.Open(t)
	j := demotest.Rooms(t)[0].Job.Clone()
	f := frame(geometry.Evaluate(j, demotest.Packs(t)[j.Region]), viewer.ViewPhoto, 96, 64)
	rest := func(f viewer.Frame, slot int) (best *image.RGBA) {
		t.Helper()
		for more := true; more; {
			img, further, err := r.Rest(f, slot)
			if err != nil {
				t.Fatal(err)
			}
			if more = further; img != nil {
				best = img
			}
		}
		return best
	}
	whole := rest(f, 0)
	f.Strip = [2]float64{0.25, 0.5}
	strip := rest(f, 1)
	if whole == nil || strip == nil || strip.Rect != whole.Rect {
		t.Fatal("nothing is drawn")
	}
	sum, n := 0, 0
	for y := range 64 {
		for x := 24; x < 48; x++ {
			for k := range 3 {
				d := int(whole.Pix[whole.PixOffset(x, y)+k]) - int(strip.Pix[strip.PixOffset(x, y)+k])
				sum, n = sum+max(d, -d), n+1
			}
		}
	}
	if mean := float64(sum) / float64(n); mean > 2 {
		t.Errorf("a strip differs from the whole picture by %.1f", mean)
	}
	beside := strip.RGBAAt(90, 32) // where nothing is followed the paper is seen
	if beside == whole.RGBAAt(90, 32) {
		t.Errorf("what is not seen is drawn as well: %v", beside)
	}
	f.Strip[1] = 0.4
	if img := rest(f, 1); img != nil || r.Rested(f, 1) != strip {
		t.Error("a narrower strip is drawn anew")
	}
	f.Strip[1] = 0.6
	if r.Rested(f, 1) != nil || rest(f, 1) == nil {
		t.Error("a wider strip is not drawn")
	}
	f.Strip = [2]float64{}
	if r.Rested(f, 1) != nil || r.Rested(f, 0) != whole {
		t.Error("the whole picture stands in the slot that it was drawn in alone")
	}
}

// BenchmarkBesideWhole draws the pictures at rest of three showers beside each other, each whole, with the rooms' light there.
func BenchmarkBesideWhole(b *testing.B) { beside(b, false) }

// BenchmarkBeside draws them each in its strip.
func BenchmarkBeside(b *testing.B) { beside(b, true) }

func beside(b *testing.B, strips bool) {
	r := viewer.Open(b)
	rest := func(f viewer.Frame, slot int) {
		for more := true; more; {
			_, further, err := r.Rest(f, slot)
			if err != nil {
				b.Fatal(err)
			}
			more = further
		}
	}
	var frames []viewer.Frame
	for i, colour := range []string{"#5d7673", "#3b3a3a", "#a07f66"} {
		j := demotest.Rooms(b)[0].Job.Clone()
		j.Layers.Shower.Colour = colour
		f := frame(geometry.Evaluate(j, demotest.Packs(b)[j.Region]), viewer.ViewPhoto, 32, 20)
		rest(f, i)
		f.Width, f.Height = 160, 100
		frames = append(frames, f)
	}
	for n := 0; b.Loop(); n++ {
		for i, f := range frames {
			if f.Dark = n%2 == 1; strips { // another paper is another picture
				f.Strip = [2]float64{float64(i) / 3, float64(i+1) / 3}
			}
			rest(f, i)
		}
	}
}
