package sheet

import (
	"strings"

	"underfall/app/pen"
	"underfall/geometry/message"
	"underfall/geometry/placing"
)

// tableColumn is one of a table: its heading, its share of the width, and how its cells stand.
type tableColumn struct {
	head  string
	share float64
	right bool // aligned, as figures are
	bold  bool
	// abreast has the lines of its cells, as they are broken by whoever fills them, begin beside those of the other
	// columns that are so.
	abreast bool
}

// column is one with a heading from the catalogue, its texts at the left.
func (m *maker) column(head message.ID, share float64) tableColumn {
	return tableColumn{head: m.say.Text(head), share: share}
}

// figures is the column with its cells as figures stand: bold, and aligned to the right.
func (c tableColumn) figures() tableColumn {
	c.right, c.bold = true, true
	return c
}

// aligned is the column with its cells at the right.
func (c tableColumn) aligned() tableColumn {
	c.right = true
	return c
}

// inStep is the column with the lines of its cells beside those of the others that are so.
func (c tableColumn) inStep() tableColumn {
	c.abreast = true
	return c
}

// heavy is the column with its cells in bold.
func (c tableColumn) heavy() tableColumn {
	c.bold = true
	return c
}

const (
	cellPad = 4.0 // on both sides of a cell
	rowPad  = 1.6 // over and under a row's text
)

// table is a table so wide, a block a row; its head stays with its first row and stands again over those that begin a page.
func table(to pen.Pen, columns []tableColumn, rows [][]string, wide float64) []block {
	return noted(to, columns, rows, wide, 0, nil)
}

// shares is what the shares of columns add up to.
func shares(columns []tableColumn) (sum float64) {
	for _, c := range columns {
		sum += c.share
	}
	return sum
}

// noted is a table with notes under the cells of its rows, which begin so far from its left.
func noted(to pen.Pen, columns []tableColumn, rows [][]string, wide, left float64, notes [][]block) []block {
	if len(rows) == 0 {
		return nil
	}
	as := rowShape{columns, wide, left}
	heads, small := make([]string, len(columns)), make([]style, len(columns))
	styles := make([]style, len(columns))
	for i, c := range columns {
		heads[i], small[i] = c.head, style{size: smallPoints, soft: true}
		if styles[i] = body(); c.bold {
			styles[i] = strong()
		}
	}
	head := as.row(to, heads, small, 0.8, nil)
	head.keep = true
	out := make([]block, 0, len(rows))
	for i, cells := range rows {
		var note []block
		if notes != nil {
			note = notes[i]
		}
		out = append(out, as.row(to, cells, styles, 0.4, note))
		if i > 0 {
			out[i].again = &head
		}
	}
	return append([]block{head}, inCompany(out)...)
}

// rowShape is how the rows of a table lie: its columns, so wide together, and where notes begin from its left.
type rowShape struct {
	columns  []tableColumn
	wide     float64
	noteLeft float64
}

// row is a row with its cells in styles, a note under them, and a line of a width under all.
func (t rowShape) row(to pen.Pen, cells []string, styles []style, line float64, note []block) block {
	sum := shares(t.columns)
	texts := cellLines(to, t.columns, styles, cells, func(i int) float64 { return t.wide*t.columns[i].share/sum - 2*cellPad })
	foot := 0.0
	for i := range t.columns {
		foot = max(foot, float64(len(texts[i]))*styles[i].size*leading)
	}
	foot += 2 * rowPad
	under := beside(column{t.noteLeft, note})
	high := foot + under.high
	return block{high: high, draw: func(to pen.Pen, at placing.Point) {
		edge := at[0]
		for i, c := range t.columns {
			width := t.wide * c.share / sum
			for k, text := range texts[i] {
				x := edge + cellPad
				if c.right {
					x = edge + width - cellPad - to.TextWidth(text, styles[i].size, styles[i].face)
				}
				y := at[1] + rowPad + float64(k)*styles[i].size*leading + styles[i].size
				to.Text(text, placing.Point{x, y}, styles[i].size, styles[i].face, styles[i].ink())
			}
			edge += width
		}
		under.draw(to, placing.Point{at[0], at[1] + foot})
		rule := at[1] + high
		to.Stroke([]placing.Straight{{{at[0], rule}, {at[0] + t.wide, rule}}}, line, ruleInk())
	}}
}

// cellLines are the lines that the cells of a row are written in, each wrapped to its room; those of columns that stand abreast take as
// many lines in each of them.
func cellLines(to pen.Pen, columns []tableColumn, styles []style, cells []string, room func(i int) float64) [][]string {
	parts := make([][][]string, len(columns)) // of a cell its lines as given, of each what it is wrapped to
	var tall []int                            // how many lines each takes where they stand abreast
	for i, c := range columns {
		for k, line := range strings.Split(cells[i], "\n") {
			part := wrapped(to, line, styles[i], room(i))
			parts[i] = append(parts[i], part)
			if k == len(tall) {
				tall = append(tall, 0)
			}
			if c.abreast {
				tall[k] = max(tall[k], len(part))
			}
		}
	}
	out := make([][]string, len(columns))
	for i, c := range columns {
		for k, part := range parts[i] {
			out[i] = append(out[i], part...)
			for n := len(part); c.abreast && n < tall[k]; n++ {
				out[i] = append(out[i], "")
			}
		}
	}
	return out
}
