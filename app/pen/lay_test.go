package pen

import (
	"image"
	"image/color"
	"image/draw"
	"math/rand/v2"
	"testing"

	"golang.org/x/image/vector"
	"underfall/geometry/placing"
)

// Shapes of any ink, on any ground, beyond the picture's edge as well, come out as golang.org/x/image/vector draws them over a
// picture by itself, but for one level of rounding.
func TestInkIsLaidAsTheLibraryDoes(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	const side = 90
	fonts := &Fonts{}
	for n := range 300 {
		got := image.NewRGBA(image.Rect(0, 0, side, side-n%7))
		ground := color.RGBA{uint8(n), 200, uint8(3 * n), 255}
		if n%5 == 0 {
			ground = color.RGBA{}
		}
		draw.Draw(got, got.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
		want := image.NewRGBA(got.Rect)
		copy(want.Pix, got.Pix)
		alpha := []uint8{255, 255, 120, 1}[n%4]
		ink := color.RGBA{uint8(int(alpha) * (n % 100) / 100), alpha / 2, alpha, alpha}
		ring := make([]placing.Point, 3+n%6)
		z := vector.NewRasterizer(got.Rect.Dx(), got.Rect.Dy())
		for i := range ring {
			ring[i] = placing.Point{random.Float64()*140 - 25, random.Float64()*140 - 25}
			if x, y := float32(ring[i][0]), float32(ring[i][1]); i == 0 {
				z.MoveTo(x, y)
			} else {
				z.LineTo(x, y)
			}
		}
		z.ClosePath()
		z.Draw(want, want.Rect, image.NewUniform(ink), image.Point{})
		fonts.On(got).Fill([][]placing.Point{ring}, ink)
		for i := range want.Pix {
			if d := int(want.Pix[i]) - int(got.Pix[i]); d < -1 || d > 1 {
				t.Fatalf("shape %d: at %d, %d there is %d, and the library has %d", n, i/4%side, i/4/side, got.Pix[i], want.Pix[i])
			}
		}
	}
}
