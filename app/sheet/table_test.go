package sheet

import (
	"image/color"
	"slices"
	"strings"
	"testing"

	"underfall/app/pen"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// written keeps where texts stand; every letter is as wide as it is high.
type written struct {
	pen.Pen
	at map[string]placing.Point
}

func (w *written) Text(text string, at placing.Point, _ float64, _ pen.Face, _ color.RGBA) {
	if text != "" {
		w.at[text] = at
	}
}

func (*written) TextWidth(text string, size float64, _ pen.Face) float64 {
	return float64(len(text)) * size
}
func (*written) Stroke([]placing.Straight, float64, color.RGBA) {}

// Figures stand beside what they are of, also where a name before them takes two lines; columns that are not in step go on
// line by line.
func TestFiguresStandBesideTheirNames(t *testing.T) {
	to := &written{at: map[string]placing.Point{}}
	columns := []tableColumn{{share: 1}, {share: 10, abreast: true}, {share: 10, abreast: true, right: true}}
	rows := [][]string{{"x\ny", "wwwwww wwwwww wwwwww\nsecond\nthird", "11\n22\n33"}}
	const wide = 210 // so that the first name takes several lines of letters 8 wide
	blocks := table(to, columns, rows, wide)
	y := 0.0
	for _, b := range blocks {
		b.draw(to, placing.Point{0, y})
		y += b.high
	}
	for name, figure := range map[string]string{"second": "22", "third": "33"} {
		a, ok := to.at[name]
		b, there := to.at[figure]
		if !ok || !there || a[1] != b[1] {
			t.Errorf("%s stands at %v, %s at %v", name, a, figure, b)
		}
	}
	if gap := to.at["22"][1] - to.at["11"][1]; gap < 1.5*bodyPoints*leading {
		t.Errorf("the first name takes one line: %v", gap)
	}
	if to.at["y"][1]-to.at["x"][1] > 1.1*bodyPoints*leading {
		t.Error("a column that is not in step waits")
	}
}

// A figure stays on one line with its fraction and its unit, wherever the line ends.
func TestFiguresStayOnALine(t *testing.T) {
	to := &written{}
	const size = 8 // as wide as a letter of these
	text := `its middle lies 30" from corner CD, at -3 3/16" inside, 1.5 kg heavy, 5/16 in/ft (2.71 %)`
	for letters := 14; letters < 60; letters++ {
		lines := wrapped(to, text, style{size: size}, float64(letters*size))
		for _, figure := range []string{`-3 3/16"`, "1.5 kg", "5/16 in/ft", "(2.71 %)"} {
			if !slices.ContainsFunc(lines, func(line string) bool { return strings.Contains(line, figure) }) {
				t.Errorf("%d letters: %s is broken in %q", letters, figure, lines)
			}
		}
		if len(lines) > 1 && strings.Join(lines, " ") != text {
			t.Errorf("%d letters: %q", letters, lines)
		}
	}
}

// A text or a table that goes over a page's end leaves no line of it alone on either page: by hand, pages of ten lines, after from none to
// nine lines of something else.
func TestNoLineIsLeftAlone(t *testing.T) {
	const line = bodyPoints * leading
	for before := range 10 {
		for _, lines := range []int{2, 3, 5} {
			text := make([]block, lines)
			for i := range text {
				text[i] = block{high: line, draw: func(pen.Pen, placing.Point) {}}
			}
			var all []block
			for range before {
				all = append(all, block{high: line, draw: func(pen.Pen, placing.Point) {}})
			}
			pages := paged(append(all, inCompany(text)...), 10.5*line)
			first := len(pages[0]) - before
			if len(pages) > 2 || first == 1 || lines-first == 1 {
				t.Errorf("after %d lines %d of %d stand on the first of %d pages", before, first, lines, len(pages))
			}
		}
	}
}

// Of several marks of a kind a word is led to the one farthest from what others are led to: by hand, 60 from the next against 5 and 40.
func TestAWordIsLedToAMarkApart(t *testing.T) {
	d := section.Drawing{Marks: []section.Mark{
		{At: plan.Point{5, 1}, Of: section.MarkInvert}, {At: plan.Point{160, 2}, Of: section.MarkInvert},
		{At: plan.Point{60, 4}, Of: section.MarkInvert}, {At: plan.Point{900, 4}, Of: section.MarkInvert},
		{At: plan.Point{300, 3}, Of: section.MarkCrown}}}
	seen := func(p plan.Point) bool { return p.X() < 500 }
	if at, ok := markedApart(section.MarkInvert, &d, []float64{0, 100}, seen); !ok || at != (plan.Point{160, 2}) {
		t.Errorf("it is led to %v, %v", at, ok)
	}
	if _, ok := markedApart(section.MarkGully, &d, nil, seen); ok {
		t.Error("there is no such mark")
	}
}
