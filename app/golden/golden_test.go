package golden_test

import (
	"image"
	"image/color"
	"testing"

	"underfall/app/golden"
)

// One pixel of a square of sixteen that turns from white to black changes its mean by a sixteenth.
func TestApart(t *testing.T) {
	white := func() *image.NRGBA {
		img := image.NewNRGBA(image.Rect(0, 0, 12, 8))
		for i := range img.Pix {
			img.Pix[i] = 255
		}
		return img
	}
	a, b := white(), white()
	if worst, _ := golden.Apart(a, b); worst != 0 {
		t.Errorf("a picture is %v apart from itself", worst)
	}
	b.Set(9, 5, color.NRGBA{0, 255, 255, 255})
	worst, at := golden.Apart(a, b)
	if worst != 255.0/16 || at != image.Pt(8, 4) {
		t.Errorf("apart by %v at %v, want 255/16 at the square that has the pixel", worst, at)
	}
}
