package viewer_test

import (
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/section"
	"underfall/viewer"
)

var update = flag.Bool("update", false, "write the golden pictures")

// blockPixels is the side of the squares two pictures are compared by: an eye
// sees their mean, not single pixels.
const blockPixels = 5

// mean is the mean colour of a square, in steps an eye tells apart about
// evenly: lightness and two opponent colours.
func mean(img image.Image, x, y int) (l, a, b float64) {
	var sum [3]float64
	for dy := range blockPixels {
		for dx := range blockPixels {
			c := color.NRGBAModel.Convert(img.At(x+dx, y+dy)).(color.NRGBA)
			for k, v := range [3]uint8{c.R, c.G, c.B} {
				sum[k] += float64(v) / (blockPixels * blockPixels)
			}
		}
	}
	return 0.39 * (0.30*sum[0] + 0.59*sum[1] + 0.11*sum[2]), 0.39 * (sum[0] - sum[1]), 0.39 * (0.5*(sum[0]+sum[1]) - sum[2])
}

// differ gives the largest and the mean difference of two pictures' squares, in
// hundredths of the way from black to white, where the largest is, and a
// picture of the differences.
func differ(a, b image.Image) (worst, average float64, at image.Point, shown *image.Gray) {
	r := a.Bounds()
	shown = image.NewGray(r)
	n := 0.0
	for y := r.Min.Y; y+blockPixels <= r.Max.Y; y += blockPixels {
		for x := r.Min.X; x+blockPixels <= r.Max.X; x += blockPixels {
			l0, a0, b0 := mean(a, x, y)
			l1, a1, b1 := mean(b, x, y)
			d := math.Sqrt((l0-l1)*(l0-l1) + 0.5*(a0-a1)*(a0-a1) + 0.5*(b0-b1)*(b0-b1))
			average += d
			n++
			if d > worst {
				worst, at = d, image.Pt(x, y)
			}
			for dy := range blockPixels {
				for dx := range blockPixels {
					shown.SetGray(x+dx, y+dy, color.Gray{uint8(math.Min(255, d*12))})
				}
			}
		}
	}
	return worst, average / n, at, shown
}

// Pictures of every demo, finished and cut, against those a person has looked
// at: software renderers and drivers may differ by what no eye sees.
func TestGoldenPictures(t *testing.T) {
	r := viewer.Open(t)
	const width, height, samples = 210, 135, 24
	const worstSeen, averageSeen = 7, 0.8
	demos := demotest.Rooms(t)
	for i, res := range demotest.Results(t) {
		for name, view := range map[string]viewer.View{"finished": viewer.ViewCorner, "cut": viewer.ViewCut} {
			f := frame(res, view, width, height)
			if name == "cut" {
				cuts := section.Corner(res)
				f.Caps = viewer.NewCaps(res, f.Stage, 11, cuts[:]...)
				f.Camera = viewer.CameraFor(view, res, float64(width)/height, cuts[:]...)
			}
			img, _, err := r.Refine(f, 0, samples, true)
			if err != nil {
				t.Fatal(err)
			}
			file := filepath.Join("testdata", fmt.Sprintf("%s-%s.png", strings.TrimSuffix(demos[i].File, ".json"), name))
			if *update {
				write(t, file, img)
				continue
			}
			data, err := os.Open(file)
			if err != nil {
				t.Fatal(err)
			}
			want, err := png.Decode(data)
			_ = data.Close()
			if err != nil {
				t.Fatal(err)
			}
			worst, average, at, shown := differ(img, want)
			if worst > worstSeen || average > averageSeen {
				folder := t.ArtifactDir()
				write(t, filepath.Join(folder, "got-"+filepath.Base(file)), img)
				write(t, filepath.Join(folder, "difference-"+filepath.Base(file)), shown)
				t.Errorf("%s: differs by %.1f at %v, %.2f on average (at most %v and %v); see %s, or run go test ./viewer -run Golden -update when it is meant", file, worst, at, average, worstSeen, averageSeen, folder)
			}
		}
	}
}

// The comparison tells a moved tile joint from nothing, and one picture from
// itself.
func TestPicturesAreToldApart(t *testing.T) {
	r := viewer.Open(t)
	res := demotest.Results(t)[0]
	f := frame(res, viewer.ViewCorner, 210, 135)
	a, _, err := r.Refine(f, 0, 8, true)
	if err != nil {
		t.Fatal(err)
	}
	if worst, average, _, _ := differ(a, a); worst != 0 || average != 0 {
		t.Errorf("a picture differs from itself by %v", worst)
	}
	f.Camera = f.Camera.Orbit(0.05, 0)
	b, _, err := r.Refine(f, 0, 8, true)
	if err != nil {
		t.Fatal(err)
	}
	if worst, average, _, _ := differ(a, b); worst <= 7 && average <= 0.8 {
		t.Errorf("two degrees round differ by %v, %v on average", worst, average)
	}
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
