package sheet_test

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underfall/app/pen"
	"underfall/app/sheet"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/unit"
)

// marks keeps what is drawn on a page: its texts with the room they take, and its straights.
type marks struct {
	pen.Pen
	texts []said
	lines []placing.Straight
}

type said struct {
	text string
	room placing.Box
	size float64
}

func (m *marks) Fill([][]placing.Point, color.RGBA) {}
func (m *marks) Box(placing.Box, color.RGBA)        {}
func (m *marks) Picture(image.Image, placing.Box)   {}
func (m *marks) Stroke(lines []placing.Straight, _ float64, _ color.RGBA) {
	for _, l := range lines {
		if l[0] != l[1] {
			m.lines = append(m.lines, l)
		}
	}
}
func (m *marks) Text(text string, at placing.Point, size float64, f pen.Face, _ color.RGBA) {
	if text == "" {
		return
	}
	wide := m.TextWidth(text, size, f)
	const over, under = 0.72, 0.12 // of a size, over and under the line that letters stand on: those of the fonts without accents
	m.texts = append(m.texts, said{text, placing.Box{Low: placing.Point{at[0], at[1] - over*size},
		High: placing.Point{at[0] + wide, at[1] + under*size}}, size})
}

// drawnPages are the pages of a sheet as they are drawn.
func drawnPages(t *testing.T, r geometry.Result, kind sheet.Kind, paper sheet.Paper) []*marks {
	t.Helper()
	return drawnIn(t, book(t), r, kind, paper)
}

// drawnIn are the pages of a sheet as they are drawn in the words of a language.
func drawnIn(t *testing.T, b words.Book, r geometry.Result, kind sheet.Kind, paper sheet.Paper) (out []*marks) {
	t.Helper()
	d, err := sheet.Lay(r, r.Answer(nil), sheet.Asked{Kind: kind, Paper: paper, Made: made(), By: "A. Fitter", State: 12}, b)
	if err != nil {
		t.Fatalf("%s, %s: %v", r.Settled.Name, kind, err)
	}
	measure := pen.NewPDF(assets.TextFont(), assets.BoldFont(), "", "", made())
	for i := range d.Pages() {
		m := &marks{Pen: measure}
		d.Draw(m, i)
		out = append(out, m)
	}
	return out
}

// inBoth are all demos, each with its lengths in millimetres and in inches.
func inBoth(t *testing.T) (out []geometry.Result) {
	t.Helper()
	for _, r := range demotest.Shown(t) {
		for _, units := range [...]unit.System{unit.Metric, unit.Imperial} {
			r.Settled.Units = units
			out = append(out, r)
		}
	}
	return out
}

// overlap is how far two boxes lie over each other, across and up; nothing where they do not.
func overlap(a, b placing.Box) (wide, high float64) {
	wide = math.Min(a.High[0], b.High[0]) - math.Max(a.Low[0], b.Low[0])
	high = math.Min(a.High[1], b.High[1]) - math.Max(a.Low[1], b.Low[1])
	if wide <= 0 || high <= 0 {
		return 0, 0
	}
	return wide, high
}

// canBeRead complains of texts of a page that are smaller than seven points (common practice, no source), lie over another or run out of
// the margins.
func (m *marks) canBeRead(t *testing.T, where string, paper sheet.Paper) {
	t.Helper()
	const least, hair, margin = 7 - 1e-9, 0.5, 12 / 25.4 * 72 // points
	for i, a := range m.texts {
		if a.size < least {
			t.Errorf("%s: “%s” is written in %v points", where, a.text, a.size)
		}
		if a.room.Low[0] < margin-hair || a.room.High[0] > paper.WideMM/25.4*72-margin+hair || a.room.High[1] > paper.HighMM/25.4*72-margin+3 {
			t.Errorf("%s: “%s” runs out, to %v", where, a.text, a.room)
		}
		for _, b := range m.texts[i+1:] {
			if wide, high := overlap(a.room, b.room); wide > hair && high > hair {
				t.Errorf("%s: “%s” and “%s” lie over each other", where, a.text, b.text)
			}
		}
	}
}

// Every text of every sheet of every demo can be read, on both usual papers and in both systems of units; and in words that are a third
// longer, and American ones.
func TestEveryTextCanBeRead(t *testing.T) {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range inBoth(t) {
		for _, paper := range [...]sheet.Paper{sheet.Papers()[0], sheet.Papers()[2]} {
			for _, language := range [...]string{words.British, words.MadeUp, words.American} {
				if language != words.British && (i/2+len(paper.Key))%2 == 0 {
					continue // on one of the papers
				}
				b := shelf.Book(language, r.Settled.Units, func(m message.Message) { t.Errorf("no words for %s", m) })
				for _, kind := range sheet.Kinds() {
					for n, page := range drawnIn(t, b, r, kind, paper) {
						page.canBeRead(t, fmt.Sprintf("%s, %s, %s, %s, %s, page %d", r.Settled.Name, r.Settled.Units, language, kind, paper.Key, n+1), paper)
					}
				}
			}
		}
	}
}

// No sheet in feet and inches has a figure in metric units, and none in millimetres one in inches, but for pipe and drains that are called
// by their millimetres or inches where they are sold.
func TestSheetsKeepToTheirUnits(t *testing.T) {
	metric := regexp.MustCompile(`\d ?(mm|cm|m|m²|l|ml|kg|l/min)\b`)
	inches := regexp.MustCompile(`\d ?(in|ft|ft²|lb|gal|gpm|in/ft)\b|[\d½¼¾⅛⅜⅝⅞]"`)
	called := regexp.MustCompile(`^(Pipe|Piece with|Sanitary tee|Discharge|Solvent|Bend|1/|Vent|Stack|Branch|Adaptor|Reducer` +
		`|.*\bdrain\b|.*outlet|.*[Pp]ipe\b|.*sockets? of|.*boards? 2 × 4)`)
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range inBoth(t) {
		language, wrong := words.British, inches
		if r.Settled.Units == unit.Imperial {
			language, wrong = words.American, metric
		}
		b := shelf.Book(language, r.Settled.Units, func(m message.Message) { t.Errorf("no words for %s", m) })
		for _, kind := range sheet.Kinds() {
			for n, page := range drawnIn(t, b, r, kind, sheet.Papers()[0]) {
				for _, x := range page.texts {
					if wrong.MatchString(x.text) && !called.MatchString(x.text) {
						t.Errorf("%s, %s, %s, page %d: “%s”", r.Settled.Name, r.Settled.Units, kind, n+1, x.text)
					}
				}
			}
		}
	}
}

// lowest is the lowest straight of a page that is so long and lies along an axis; ok is false for none.
func (m *marks) lowest(axis int, long float64) (out placing.Straight, ok bool) {
	const same = 0.01 // of a point
	for _, l := range m.lines {
		d := placing.Point{l[1][0] - l[0][0], l[1][1] - l[0][1]}
		if math.Abs(d[1-axis]) > same || math.Abs(math.Abs(d[axis])-long) > same {
			continue
		}
		if !ok || math.Max(l[0][1], l[1][1]) > math.Max(out[0][1], out[1][1]) {
			out, ok = l, true
		}
	}
	return out, ok
}

// Every page of templates has both check dimensions, 100 mm or four inches long, at its foot; no template lies over the heading of
// another, over the check dimensions or out of the page; and what is low and narrow stands with others.
func TestTemplatesStandTogether(t *testing.T) {
	const pointsPerMM = 72 / 25.4
	for _, r := range inBoth(t) {
		for _, paper := range sheet.Papers() {
			pages := drawnPages(t, r, sheet.Templates, paper)
			// Nineteen pages with each tile on its own, thirteen with those on which straight edges only go on.
			if most := 7; r.Settled.Name == "Cannot be built as drawn" && paper.Key == "a4" && r.Settled.Units == unit.Metric && len(pages) > most {
				t.Errorf("%s takes %d pages, want %d at most", r.Settled.Name, len(pages), most)
			}
			for n, page := range pages {
				where := fmt.Sprintf("%s, %s, %s, page %d of %d", r.Settled.Name, r.Settled.Units, paper.Key, n+1, len(pages))
				long := 100 * pointsPerMM
				if r.Settled.Units == unit.Imperial {
					long = 4 * 72
				}
				var headings []said
				for _, x := range page.texts {
					if x.size == 9.5 { // as headings are written
						headings = append(headings, x)
					}
				}
				if len(headings) == 0 {
					continue // a job without templates
				}
				across, ok := page.lowest(0, long)
				up, alsoUp := page.lowest(1, long)
				if !ok || !alsoUp {
					t.Errorf("%s: check dimensions %v %v", where, ok, alsoUp)
					continue
				}
				foot := across[0][1]
				for _, l := range page.lines {
					box := placing.Box{Low: placing.Point{math.Min(l[0][0], l[1][0]), math.Min(l[0][1], l[1][1])},
						High: placing.Point{math.Max(l[0][0], l[1][0]) + 0.1, math.Max(l[0][1], l[1][1]) + 0.1}}
					if box.Low[1] < 70 || box.Low[1] > foot+5 {
						continue // the lines at the head and at the foot of every page
					}
					for _, h := range headings {
						if wide, high := overlap(box, h.room); wide > 0 && high > 0 {
							t.Errorf("%s: a line at %v goes through “%s”", where, l, h.text)
						}
					}
					if box.High[1] > foot-8 && box.Low[1] < foot-5 && l != up {
						t.Errorf("%s: a line at %v runs into the check dimension at %v", where, l, foot)
					}
					if l != up && box.High[0] > up[0][0]+5 {
						t.Errorf("%s: a line at %v runs out", where, l)
					}
				}
			}
		}
	}
}

// Of a piece 1400 long only what has an end or a bend is drawn, the same piece at both sides of a shower once: on the page with its bend
// 615 from its left end that is so far from the left crosses as they are told to lie from the end.
func TestPagesOfStraightEdgesAreLeftOut(t *testing.T) {
	const pointsPerMM = 72 / 25.4
	pages := drawnPages(t, demotest.Shown(t)[9], sheet.Templates, sheet.Papers()[0])
	lie := regexp.MustCompile(`left crosses lie (\d+) right of the left end`)
	seen := 0
	for _, page := range pages {
		text, bend := saidOn([]*marks{page}), -1.0
		for _, x := range page.texts {
			if x.text == "615" {
				bend = (x.room.Low[0] + x.room.High[0]) / 2
			}
		}
		told := lie.FindStringSubmatch(text)
		if bend < 0 || told == nil {
			continue
		}
		seen++
		if !strings.Contains(text, "open edge 1") || !strings.Contains(text, "open edge 3") {
			t.Errorf("one edge alone has the piece: %s", text)
		}
		cross := math.Inf(1) // the arms of a cross are 4 long
		for _, l := range page.lines {
			if math.Abs(l[0][0]-l[1][0]) < 0.01 && math.Abs(math.Abs(l[0][1]-l[1][1])-8*pointsPerMM) < 0.01 {
				cross = math.Min(cross, l[0][0])
			}
		}
		from, err := strconv.ParseFloat(told[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		if got := from + (bend-cross)/pointsPerMM; math.Abs(got-615) > 0.2 {
			t.Errorf("the bend lies %v from the left end, by crosses at %v", got, from)
		}
	}
	if seen != 1 {
		t.Errorf("%d pages with the bend", seen)
	}
	if len(pages) != 5 {
		t.Errorf("%d pages, want 5", len(pages))
	}
}
