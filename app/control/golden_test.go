package control_test

import (
	"flag"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
)

var update = flag.Bool("update", false, "write the golden pictures")

// square is the side of the squares two pictures are compared by: an eye sees their mean.
const square = 4

// golden holds a picture against the one a person has looked at.
func golden(t *testing.T, name string, got image.Image) {
	t.Helper()
	file := filepath.Join("testdata", name+".png")
	if *update {
		write(t, file, got)
		return
	}
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	worst, at := 0.0, image.Point{}
	if got.Bounds().Size() != want.Bounds().Size() {
		t.Fatalf("%s is %v, want %v", name, got.Bounds(), want.Bounds())
	}
	for y := 0; y < got.Bounds().Dy(); y += square {
		for x := 0; x < got.Bounds().Dx(); x += square {
			if d := apart(got, want, x, y); d > worst {
				worst, at = d, image.Pt(x, y)
			}
		}
	}
	const seen = 12 // of 255
	if worst > seen {
		folder := t.ArtifactDir()
		write(t, filepath.Join(folder, name+".png"), got)
		t.Errorf("%s differs by %.0f at %v; see %s, or run go test ./app/control -run Seen -update when it is meant", name, worst, at, folder)
	}
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

func write(t *testing.T, file string, img image.Image) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}

// settle lays the window out again: what wraps knows how high it is once it knows how wide.
func (s *shown) settle(size fyne.Size) {
	for range 3 {
		s.window.Content().Refresh()
		s.window.Resize(size.AddWidthHeight(1, 0))
		s.window.Resize(size)
	}
	s.window.Content().Refresh()
}
