package sheet_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"underfall/app/sheet"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// need skips a test without programs that are not written here; ./cmd/dev test installs them.
func need(t *testing.T, tools ...string) {
	t.Helper()
	for _, tool := range tools {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skip(tool, "is not installed")
		}
	}
}

func book(t testing.TB) words.Book {
	t.Helper()
	s, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	return s.Book(words.British, unit.Metric, func(m message.Message) { t.Errorf("no words for %s", m) })
}

func made() time.Time { return time.Date(2026, 3, 4, 15, 16, 0, 0, time.UTC) }

// written is a sheet in a file.
func written(t *testing.T, r geometry.Result, kind sheet.Kind, paper sheet.Paper) string {
	t.Helper()
	var data bytes.Buffer
	q := sheet.Asked{Kind: kind, Paper: paper, Made: made(), By: "A. Fitter", State: 12}
	if err := sheet.Write(&data, r, r.Answer(nil), q, book(t)); err != nil {
		t.Fatalf("%s, %s: %v", r.Settled.Name, kind, err)
	}
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(path, data.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v: %s", name, err, out)
	}
	return string(out)
}

// page is one as pdftotext tells of it.
type page struct {
	Wide  float64 `xml:"width,attr"`
	High  float64 `xml:"height,attr"`
	Words []struct {
		Left  float64 `xml:"xMin,attr"`
		Top   float64 `xml:"yMin,attr"`
		Right float64 `xml:"xMax,attr"`
		Foot  float64 `xml:"yMax,attr"`
		Text  string  `xml:",chardata"`
	} `xml:"word"`
}

// pagesOf are the pages of a file with their words.
func pagesOf(t *testing.T, path string) []page {
	t.Helper()
	var doc struct {
		Pages []page `xml:"body>doc>page"`
	}
	d := xml.NewDecoder(strings.NewReader(run(t, "pdftotext", "-bbox", path, "-")))
	d.Strict, d.Entity = false, xml.HTMLEntity
	if err := d.Decode(&doc); err != nil || len(doc.Pages) == 0 {
		t.Fatalf("%s: %v", path, err)
	}
	return doc.Pages
}

// demos are the results of the demos; of a short test a few that differ most.
func demos(t *testing.T) []geometry.Result {
	t.Helper()
	all := demotest.Shown(t)
	if testing.Short() {
		return []geometry.Result{all[0], all[5], all[6]}
	}
	return all
}

// Every sheet of every demo is sound to qpdf, of the paper's size to poppler, written in embedded fonts, and all its words
// lie on the page.
func TestSheetsAreSound(t *testing.T) {
	need(t, "qpdf", "pdftotext", "pdffonts")
	for i, r := range demos(t) {
		paper := sheet.Papers()[i%len(sheet.Papers())]
		for _, kind := range sheet.Kinds() {
			path := written(t, r, kind, paper)
			if out := run(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors") {
				t.Errorf("%s, %s: %s", r.Settled.Name, kind, out)
			}
			fonts := strings.Split(strings.TrimSpace(run(t, "pdffonts", path)), "\n")[2:]
			if len(fonts) == 0 || len(fonts) > 2 {
				t.Errorf("%s, %s: fonts %q", r.Settled.Name, kind, fonts)
			}
			for _, f := range fonts {
				if !regexp.MustCompile(`TrueType.*\byes\s+(yes|no)\s+yes\b`).MatchString(f) {
					t.Errorf("%s, %s: a font is not embedded or cannot be searched: %s", r.Settled.Name, kind, f)
				}
			}
			for n, p := range pagesOf(t, path) {
				const pointsPerMM = 72 / 25.4
				if math.Abs(p.Wide-paper.WideMM*pointsPerMM) > 0.1 || math.Abs(p.High-paper.HighMM*pointsPerMM) > 0.1 {
					t.Errorf("%s: page %d is %v by %v points, not %s", kind, n+1, p.Wide, p.High, paper.Key)
				}
				for _, w := range p.Words {
					const edge = 30.0 // a little less than the margin
					if w.Left < edge || w.Right > p.Wide-edge || w.Top < edge-8 || w.Foot > p.High-edge+8 {
						t.Errorf("%s, %s: “%s” runs out of page %d", r.Settled.Name, kind, w.Text, n+1)
					}
				}
			}
		}
	}
}

// Every level of every demo stands in the text of its fitter's sheet, and how it is read down from a line struck a metre
// over the datum.
func TestEveryLevelIsOnPaper(t *testing.T) {
	need(t, "pdftotext")
	for _, r := range demotest.Shown(t) {
		if r.Settled.Units != unit.Metric || len(r.Settled.Laser.SetUps) > 0 {
			continue
		}
		text := strings.Join(strings.Fields(run(t, "pdftotext", "-layout", written(t, r, sheet.Fitter, sheet.Papers()[0]), "-")), " ")
		levels := 0
		for i := range r.Schedule {
			row := &r.Schedule[i]
			if row.Kind() != "level" {
				continue
			}
			levels++
			mm := int(math.Round(row.Value))
			over := fmt.Sprintf("%+d", mm)
			if mm == 0 {
				over = "0"
			}
			down, exact := strconv.Itoa(1000-mm), strconv.Itoa(int(math.Round(1000-row.Value)))
			if !strings.Contains(text, over) || !strings.Contains(text, down) && !strings.Contains(text, exact) {
				t.Errorf("%s: %s of %s, %d down, is not on the sheet", r.Settled.Name, book(t).Say(row.Message()), over, 1000-mm)
			}
		}
		if levels < 8 {
			t.Errorf("%s: %d levels", r.Settled.Name, levels)
		}
	}
}

// The scale bar of the plan is as long as the scale that stands over it says, measured in pixels to 0.2 mm.
func TestScaleBarIsTrue(t *testing.T) {
	need(t, "pdftotext", "pdftoppm")
	r := demotest.Shown(t)[0]
	path := written(t, r, sheet.Fitter, sheet.Papers()[0])
	words := pagesOf(t, path)[0].Words
	ratio, lengthMM, left, middle := 0.0, 0.0, 0.0, 0.0
	for i, w := range words {
		if w.Text == "Plan" {
			ratio, _ = strconv.ParseFloat(strings.TrimPrefix(words[i+1].Text, "1:"), 64)
		}
		if ratio > 0 && lengthMM == 0 && w.Text == "mm" {
			lengthMM, _ = strconv.ParseFloat(words[i-1].Text, 64)
			left, middle = words[i-1].Left, (w.Top+w.Foot)/2
		}
	}
	if ratio == 0 || lengthMM == 0 {
		t.Fatal("no scale, or no bar")
	}
	img := firstPage(t, path)
	const pixelsPerPoint = pixelsPerMM * 25.4 / 72
	dark := func(x, y int) bool { c, _, _, _ := img.At(x, y).RGBA(); return c < 0x8000 }
	longest := 0
	for y := int((middle - 8) * pixelsPerPoint); y < int((middle+8)*pixelsPerPoint); y++ {
		x, n := int((left-1)*pixelsPerPoint), 0
		for ; x > 0 && !dark(x, y); x-- {
		}
		for ; x-n > 0 && dark(x-n, y); n++ {
		}
		longest = max(longest, n)
	}
	if want := lengthMM / ratio; math.Abs(float64(longest)/pixelsPerMM-want) > 0.2 {
		t.Errorf("the bar of %v in 1:%v is %v mm long, want %v", lengthMM, ratio, float64(longest)/pixelsPerMM, want)
	}
}

// pixelsPerMM is how finely pages are measured.
const pixelsPerMM = 20

// firstPage is the first page of a file as poppler draws it.
func firstPage(t *testing.T, path string) image.Image {
	t.Helper()
	prefix := filepath.Join(t.TempDir(), "page")
	run(t, "pdftoppm", "-r", strconv.FormatFloat(pixelsPerMM*25.4, 'f', -1, 64), "-f", "1", "-l", "1", "-png", path, prefix)
	files, err := filepath.Glob(prefix + "*.png")
	if err != nil || len(files) != 1 {
		t.Fatal(files, err)
	}
	data, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// A name as long as it may be runs over no page, and a job without a name has its sheets as well.
func TestNamesOfAnyLength(t *testing.T) {
	need(t, "pdftotext")
	for _, name := range []string{"", strings.Repeat("W", 300), strings.Repeat("bath ", 60)} {
		r := demotest.Shown(t)[0]
		r.Settled.Name = name
		for _, kind := range sheet.Kinds() {
			for _, p := range pagesOf(t, written(t, r, kind, sheet.Papers()[0])) {
				for _, w := range p.Words {
					if w.Right > p.Wide-30 {
						t.Errorf("“%s” runs out of the page", w.Text)
					}
				}
			}
		}
	}
}

// A job that cannot be worked out has no sheet, in words.
func TestNoSheetWithoutAResult(t *testing.T) {
	j := demotest.Results(t)[0].Stated
	j.Shower.WidthMM = -1
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	var out bytes.Buffer
	err := sheet.Write(&out, r, r.Answer(nil), sheet.Asked{Kind: sheet.Fitter, Paper: sheet.Papers()[0], Made: made()}, book(t))
	if err == nil || out.Len() > 0 {
		t.Errorf("%d bytes, %v", out.Len(), err)
	}
	if _, err := sheet.PaperOf("papyrus"); err == nil {
		t.Error("any paper is taken")
	}
}

// BenchmarkSheets makes all sheets of the first demo.
func BenchmarkSheets(b *testing.B) {
	r := demotest.Shown(b)[0]
	words, a := book(b), r.Answer(nil)
	for _, kind := range sheet.Kinds() {
		b.Run(string(kind), func(b *testing.B) {
			for b.Loop() {
				var out bytes.Buffer
				if err := sheet.Write(&out, r, a, sheet.Asked{Kind: kind, Paper: sheet.Papers()[0], Made: made()}, words); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// No figure of a level is broken over two lines, in inches either: what stands on the sheet in one word or two is what the level reads as.
func TestFiguresAreNotBroken(t *testing.T) {
	need(t, "pdftotext")
	for _, r := range demos(t) {
		r.Settled.Units = unit.Imperial
		text := run(t, "pdftotext", "-layout", written(t, r, sheet.Fitter, sheet.Papers()[2]), "-")
		for line := range strings.SplitSeq(text, "\n") {
			for _, word := range strings.Fields(line) {
				if regexp.MustCompile(`[0-9¼½¾⅛⅜⅝⅞]\+$|[0-9]/1?$`).MatchString(word) {
					t.Errorf("%s: “%s” is broken", r.Settled.Name, word)
				}
			}
		}
		if !strings.ContainsAny(text, "¼½¾⅛⅜⅝⅞") {
			t.Errorf("%s: no inches", r.Settled.Name)
		}
	}
}

// Templates are at full size: the check dimension, and the hole through the wall along its level line, measured in pixels to 0.2 mm.
func TestTemplatesAreAtFullSize(t *testing.T) {
	need(t, "pdftoppm", "pdftotext")
	for _, paper := range sheet.Papers() {
		r := demotest.Results(t)[0]
		path := written(t, r, sheet.Templates, paper)
		img := firstPage(t, path)
		dark := func(x, y int) bool { c, _, _, _ := img.At(x, y).RGBA(); return c < 0x8000 }
		longest := func(y int) (from, n int) {
			for x, here := 0, 0; x < img.Bounds().Dx(); x++ {
				if here++; !dark(x, y) {
					here = 0
				}
				if here > n {
					from, n = x-here+1, here
				}
			}
			return from, n
		}
		// The check dimension is the lowest long line over the foot; the level line goes through the hole.
		var check, level int
		size := r.Pack.CoreDrills.For(least(t, &r))
		const underFootMM, roundHoleMM = 19, 25 // the line at the foot of the page; how far the level line goes out of the hole
		for y := img.Bounds().Dy() - underFootMM*pixelsPerMM; y > 0 && level == 0; y-- {
			if _, n := longest(y); n > 90*pixelsPerMM {
				switch {
				case check == 0:
					check = y
				case math.Abs(float64(n)/pixelsPerMM-size-2*roundHoleMM) < 1:
					level = y
				}
			}
		}
		if check == 0 || level == 0 {
			t.Fatalf("%s: no lines", paper.Key)
		}
		const tickMM = 0.6 / 72 * 25.4 // half of it stands out at each end
		if _, n := longest(check); math.Abs(float64(n)/pixelsPerMM-tickMM-100) > 0.1 {
			t.Errorf("%s: the dimension of 100 is %v mm long", paper.Key, float64(n)/pixelsPerMM)
		}
		// Two millimetres over the level line the hole is a hair narrower than its diameter: 2·√(r² − 2²).
		from, _ := longest(level)
		y, left, right := level-2*pixelsPerMM, 0, 0
		for x := from; x < from+140*pixelsPerMM; x++ {
			if dark(x, y) {
				if left == 0 {
					left = x
				}
				right = x
			}
		}
		want := 2 * math.Sqrt(size*size/4-4)
		if got := float64(right-left) / pixelsPerMM; math.Abs(got-want) > 0.35 { // the line is 0.28 mm wide
			t.Errorf("%s: the hole of %v is %v across, want %v", paper.Key, size, got, want)
		}
	}
}

// least is the diameter that the hole needs, as the schedule has it.
func least(t *testing.T, r *geometry.Result) float64 {
	t.Helper()
	for i := range r.Schedule {
		if r.Schedule[i].ID.Of == buildup.CoreLeast {
			return r.Schedule[i].Value
		}
	}
	t.Fatal("no hole")
	return 0
}

// measured is a page of a file of templates as its pixels tell it, at ten to a millimetre.
type measured struct {
	image.Image
	perMM float64
}

// pageOf is a page of a file, from one.
func pageOf(t *testing.T, path string, page int) measured {
	t.Helper()
	const perMM = 10.0
	prefix := filepath.Join(t.TempDir(), "page")
	n := strconv.Itoa(page)
	run(t, "pdftoppm", "-r", strconv.FormatFloat(perMM*25.4, 'f', -1, 64), "-f", n, "-l", n, "-png", path, prefix)
	files, err := filepath.Glob(prefix + "*.png")
	if err != nil || len(files) != 1 {
		t.Fatal(files, err)
	}
	f, err := os.Open(files[0])
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return measured{img, perMM}
}

// straight is the longest dark straight along one axis among some lines of a page: on which line it lies and how long it is, mm.
func (m measured) straight(axis int, fromMM, toMM float64) (onMM, longMM float64) {
	size := m.Bounds().Size()
	across, along := size.X, size.Y
	if axis == 0 {
		across, along = size.Y, size.X
	}
	for c := max(0, int(fromMM*m.perMM)); c < min(across, int(toMM*m.perMM)); c++ {
		here := 0
		for k := range along {
			x, y := c, k
			if axis == 0 {
				x, y = k, c
			}
			if v, _, _, _ := m.At(x, y).RGBA(); v < 0xa000 {
				here++
			} else {
				here = 0
			}
			if long := float64(here) / m.perMM; long > longMM {
				onMM, longMM = float64(c)/m.perMM, long
			}
		}
	}
	return onMM, longMM
}

// pageWith is the first page whose text has something, from one; 0 for none.
func pageWith(t *testing.T, path, has string) int {
	t.Helper()
	for i, text := range strings.Split(run(t, "pdftotext", "-layout", path, "-"), "\f") {
		if strings.Contains(strings.Join(strings.Fields(text), " "), has) {
			return i + 1
		}
	}
	return 0
}

// Every kind of template is at full size, measured in pixels to 0.2 mm: what is sawn out of a board is as long as the cutting plan says, a
// raking piece as high as the shower stands over the room at its start, a stud as wide as the job says. A line is 0.28 mm wide, half of
// it beyond each end.
func TestEveryKindOfTemplateIsAtFullSize(t *testing.T) {
	need(t, "pdftoppm", "pdftotext")
	const lineMM, offMM = 0.8 / 72 * 25.4, 0.2
	const checkLeftMM = 190.0 // from here on stands the upright check dimension
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > offMM {
			t.Errorf("%s is %v mm, want %v", what, got, want)
		}
	}
	all := demotest.Shown(t)
	ramp := all[10]
	path := written(t, ramp, sheet.Templates, sheet.Papers()[0])
	boards, err := ramp.Boarding()
	if err != nil {
		t.Fatal(err)
	}
	cut := boards.Layers[0].Pieces[0].Cuts[0]
	_, long := pageOf(t, path, pageWith(t, path, "Board 1, ")).straight(1, 0, checkLeftMM)
	near("what is sawn out of the first board", long-lineMM, cut.SizeMM.Y())
	if pageWith(t, path, "Piece at open edge") > 0 {
		t.Error("a ramp that comes up to the edge has raking pieces")
	}
	slab := all[0]
	path = written(t, slab, sheet.Templates, sheet.Papers()[0])
	for i, e := range slab.Heights.Edges(&slab.Settled, &slab.Layout) {
		page := pageWith(t, path, fmt.Sprintf("Piece at open edge %d", i+1))
		if !e.Tapered() || page == 0 {
			continue
		}
		img := pageOf(t, path, page)
		_, high := img.straight(1, 0, checkLeftMM)
		near("the raking piece at its start", high-lineMM, e.ShowerA-e.RoomA)
		_, check := img.straight(1, checkLeftMM, 210)
		near("the upright check dimension", check-lineMM, 100)
		return
	}
	t.Error("the first demo has no raking piece")
}

// band is what lies on a page between two heights from its top.
func band(m measured, fromMM, toMM float64) measured {
	b := m.Bounds()
	part := image.Rect(0, 0, b.Dx(), int(m.perMM*(toMM-fromMM)))
	out := image.NewGray(part)
	draw.Draw(out, part, m.Image, b.Min.Add(image.Pt(0, int(m.perMM*fromMM))), draw.Src)
	return measured{out, m.perMM}
}

// The studs behind a drain are as wide as the job says, at full size: between both edges of one, half as high as its middle line.
func TestStudsAreAtFullSize(t *testing.T) {
	need(t, "pdftoppm", "pdftotext")
	const pointsPerMM, stripMM = 72 / 25.4, 68.0
	for _, r := range demotest.Shown(t) {
		w, _, studs, ok := r.Layout.DrainStuds(&r.Settled)
		if !ok || len(studs) == 0 {
			continue
		}
		paper := sheet.Papers()[1]
		path := written(t, r, sheet.Templates, paper)
		for n, page := range drawnPages(t, r, sheet.Templates, paper) {
			for _, x := range page.texts {
				if !strings.HasPrefix(x.text, "Drain along wall") {
					continue
				}
				top := x.room.Low[1] / pointsPerMM
				img := band(pageOf(t, path, n+1), top, top+stripMM)
				from := x.room.Low[0] / pointsPerMM
				var edges []float64
				for x := from - 1; x < from+190; x += 0.1 {
					if _, long := img.straight(1, x, x+0.15); math.Abs(long-21) < 1 {
						if n := len(edges); n == 0 || x-edges[n-1] > 1 {
							edges = append(edges, x)
						}
					}
				}
				if len(edges) < 2 {
					continue
				}
				if want := r.Settled.Room.Walls[w.Index].StudWidthMM; math.Abs(edges[1]-edges[0]-want) > 0.2 {
					t.Errorf("%s: a stud is %v wide, want %v", r.Settled.Name, edges[1]-edges[0], want)
				}
				return
			}
		}
	}
	t.Error("no demo has studs behind its drain")
}
