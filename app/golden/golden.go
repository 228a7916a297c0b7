// Package golden holds pictures that tests draw against those that a person has looked at.
package golden

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
)

const (
	// square is the side of the squares two pictures are compared by: an eye sees their mean.
	square = 4
	// seen is how far the means of two squares may be apart in a channel, of 255.
	seen = 12
)

// Check holds a picture against testdata/NAME.png beside the test. With UPDATE in the environment
// it writes that file instead: to be looked at.
func Check(t *testing.T, name string, got image.Image) {
	t.Helper()
	file := filepath.Join("testdata", name+".png")
	if os.Getenv("UPDATE") != "" {
		write(t, file, got)
		return
	}
	want := read(t, file)
	if got.Bounds().Size() != want.Bounds().Size() {
		t.Fatalf("%s is %v, want %v", name, got.Bounds(), want.Bounds())
	}
	if worst, at := Apart(got, want); worst > seen {
		folder := t.ArtifactDir()
		write(t, filepath.Join(folder, name+".png"), got)
		t.Errorf("%s differs by %.0f at %v; see %s, or run the test with UPDATE=1 when it is meant", name, worst, at, folder)
	}
}

// Apart is how far two pictures of one size are apart in the square and channel where that is
// most, of 255, and where.
func Apart(a, b image.Image) (worst float64, at image.Point) {
	size := a.Bounds().Size()
	for y := 0; y < size.Y; y += square {
		for x := 0; x < size.X; x += square {
			if d := apart(a, b, x, y); d > worst {
				worst, at = d, image.Pt(x, y)
			}
		}
	}
	return worst, at
}

// apart is how far the means of two squares are apart, in the channel where that is most.
func apart(a, b image.Image, x, y int) (most float64) {
	var sum [3]float64
	for dy := range square {
		for dx := range square {
			p, q := color.NRGBAModel.Convert(a.At(x+dx, y+dy)).(color.NRGBA), color.NRGBAModel.Convert(b.At(x+dx, y+dy)).(color.NRGBA)
			sum[0] += float64(p.R) - float64(q.R)
			sum[1] += float64(p.G) - float64(q.G)
			sum[2] += float64(p.B) - float64(q.B)
		}
	}
	for _, v := range sum {
		most = max(most, math.Abs(v)/(square*square))
	}
	return most
}

func read(t *testing.T, file string) image.Image {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatalf("reading %s: %v", file, err)
	}
	return img
}

func write(t *testing.T, file string, img image.Image) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	if err := png.Encode(f, img); err != nil {
		t.Fatalf("writing %s: %v", file, err)
	}
}
