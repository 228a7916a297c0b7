package sheet_test

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"testing"

	"underfall/app/pen"
	"underfall/app/sheet"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
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
func drawnPages(t *testing.T, r geometry.Result, kind sheet.Kind, paper sheet.Paper) (out []*marks) {
	t.Helper()
	d, err := sheet.Lay(r, r.Answer(nil), sheet.Asked{Kind: kind, Paper: paper, Made: made(), By: "A. Fitter", State: 12}, book(t))
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

// Every text of every sheet of every demo can be read, on both usual papers and in both systems of units: none is smaller than seven
// points (common practice, no source), and none lies over another.
func TestEveryTextCanBeRead(t *testing.T) {
	const least, hair = 7 - 1e-9, 0.5 // points
	for _, r := range inBoth(t) {
		for _, paper := range [...]sheet.Paper{sheet.Papers()[0], sheet.Papers()[2]} {
			for _, kind := range sheet.Kinds() {
				for n, page := range drawnPages(t, r, kind, paper) {
					where := fmt.Sprintf("%s, %s, %s, %s, page %d", r.Settled.Name, r.Settled.Units, kind, paper.Key, n+1)
					for i, a := range page.texts {
						if a.size < least {
							t.Errorf("%s: “%s” is written in %v points", where, a.text, a.size)
						}
						for _, b := range page.texts[i+1:] {
							if wide, high := overlap(a.room, b.room); wide > hair && high > hair {
								t.Errorf("%s: “%s” and “%s” lie over each other", where, a.text, b.text)
							}
						}
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
			// Nineteen pages with each tile on its own.
			if most := 14; r.Settled.Name == "Cannot be built as drawn" && paper.Key == "a4" && r.Settled.Units == unit.Metric && len(pages) > most {
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
