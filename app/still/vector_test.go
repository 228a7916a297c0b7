package still_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"underfall/app/still"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

func book(t *testing.T) words.Book {
	t.Helper()
	s, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	return s.Book(words.British, unit.Metric, func(m message.Message) { t.Errorf("no words for %s", m) })
}

func asked(kind still.Kind) still.Request {
	return still.Request{Kind: kind, Cut: section.Cutting{Of: section.CutDrain}, Stage: buildup.StageTile, Width: 1000, Height: 700}
}

func written(t *testing.T, r geometry.Result, kind still.Kind, ending string) string {
	t.Helper()
	var data bytes.Buffer
	if err := still.Written(&data, r, asked(kind), book(t), ending); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "drawing"+ending)
	if err := os.WriteFile(path, data.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// hatched asks ezdxf, which was not written here, for what it finds wrong with a file, and the areas of its hatches.
const hatched = `
import ezdxf, json, sys
from ezdxf.math import Vec2
def area(path):
    v = [Vec2(p) for p in path.vertices]
    return abs(sum(a.x*b.y-b.x*a.y for a, b in zip(v, v[1:]+v[:1])))/2
d = ezdxf.readfile(sys.argv[1])
a = d.audit()
out = {"errors": [e.message for e in a.errors], "hatches": [], "texts": 0, "lines": 0, "unit": d.header["$INSUNITS"]}
for e in d.modelspace():
    if e.dxftype() == "HATCH":
        areas = [area(p) for p in e.paths]
        out["hatches"].append(areas[0]-sum(areas[1:]))
    out["texts"] += e.dxftype() == "TEXT"
    out["lines"] += e.dxftype() == "LINE"
print(json.dumps(out))
`

// Every area of a section and a plan is in the DXF, as large as it is in millimetres.
func TestDXFAgainstEzdxf(t *testing.T) {
	if err := exec.Command("/usr/bin/python3", "-c", "import ezdxf").Run(); err != nil {
		t.Skip("ezdxf is not installed")
	}
	for _, r := range demotest.Shown(t) {
		for _, kind := range []still.Kind{still.Section, still.Plan} {
			out, err := exec.Command("/usr/bin/python3", "-c", hatched, written(t, r, kind, still.EndingDXF)).Output()
			if err != nil {
				t.Fatalf("%s: %v", r.Settled.Name, err)
			}
			var got struct {
				Errors             []string
				Hatches            []float64
				Texts, Lines, Unit int
			}
			if err := json.Unmarshal(out, &got); err != nil {
				t.Fatal(err)
			}
			const millimetres = 4
			if len(got.Errors) > 0 || got.Unit != millimetres || got.Texts < 5 || got.Lines < 20 {
				t.Errorf("%s, %d: %v, %d texts, %d lines, unit %d", r.Settled.Name, kind, got.Errors, got.Texts, got.Lines, got.Unit)
			}
			d := section.PlanOf(r)
			if kind == still.Section {
				if d, err = section.Through(r, asked(kind).Cut, buildup.StageTile); err != nil {
					t.Fatal(err)
				}
			}
			for i := range d.Areas {
				for _, p := range d.Areas[i].Region {
					want := plainArea(p.Rings())
					found := false
					for _, h := range got.Hatches {
						found = found || math.Abs(h-want) <= 1e-3+1e-6*want
					}
					if !found {
						t.Errorf("%s, %d: no hatch of %v mm², of %s", r.Settled.Name, kind, want, d.Areas[i].PartID)
					}
				}
			}
		}
	}
}

// plainArea is what the first ring holds without the others.
func plainArea[R ~[]P, P interface {
	X() float64
	Y() float64
}](rings []R) (sum float64) {
	for k, r := range rings {
		a := 0.0
		for i, q := range r {
			n := r[(i+1)%len(r)]
			a += (q.X()*n.Y() - n.X()*q.Y()) / 2
		}
		if a = math.Abs(a); k > 0 {
			a = -a
		}
		sum += a
	}
	return sum
}

// An SVG is well-formed, says all the drawing says, and another program draws it much as the window does.
func TestSVGIsWhatTheWindowShows(t *testing.T) {
	for _, r := range demotest.Shown(t)[:3] {
		for _, kind := range []still.Kind{still.Section, still.Plan, still.Long} {
			path := written(t, r, kind, still.EndingSVG)
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			texts := 0
			for d := xml.NewDecoder(bytes.NewReader(data)); ; {
				token, err := d.Token()
				if errors.Is(err, io.EOF) {
					break
				}
				if err != nil {
					t.Fatalf("%s: %v", r.Settled.Name, err)
				}
				if e, ok := token.(xml.StartElement); ok && e.Name.Local == "text" {
					texts++
				}
			}
			if texts < 5 {
				t.Errorf("%s, %d: %d texts", r.Settled.Name, kind, texts)
			}
			if _, err := exec.LookPath("rsvg-convert"); err != nil {
				t.Skip("rsvg-convert is not installed")
			}
			q := asked(kind)
			out, err := exec.Command("rsvg-convert", "-w", fmt.Sprint(q.Width), "-h", fmt.Sprint(q.Height), "-b", "white", path).Output()
			if err != nil {
				t.Fatal(err)
			}
			got, err := png.Decode(bytes.NewReader(out))
			if err != nil {
				t.Fatal(err)
			}
			want, err := still.Drawn(r, q, book(t))
			if err != nil {
				t.Fatal(err)
			}
			off := 0
			for y := range q.Height {
				for x := range q.Width {
					a, _, _, _ := got.At(x, y).RGBA()
					if d := int(a>>8) - int(want.RGBAAt(x, y).R); d < -64 || d > 64 {
						off++
					}
				}
			}
			// Letters of another font and hatches that fall between pixels differ.
			if share := float64(off) / float64(q.Width*q.Height); share > 0.06 {
				t.Errorf("%s, %d: %.1f %% of it is drawn otherwise", r.Settled.Name, kind, 100*share)
			}
		}
	}
}
