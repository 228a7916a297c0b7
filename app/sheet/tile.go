package sheet

import (
	"math"
	"slices"

	"underfall/app/pen"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/unit"
)

// tile is the part of a template that goes onto one page, at full size with its heading over it.
type tile struct {
	of   *template
	head []block
	// leftMM and lowMM are where it begins on the template, wideMM and tallMM how large it is.
	leftMM, lowMM, wideMM, tallMM float64
	// pageWideMM is how wide tiles are that go on at the right; across and up how many the template has.
	pageWideMM float64
	across, up int
}

const (
	leastTileMM = 60.0 // wide is a tile at least, for its heading
	tilesApart  = 14.0 // points between tiles of a page
)

// wide and high are the room that a tile takes on its page, in points.
func (t *tile) wide() float64 { return t.wideMM * PointsPerMM }
func (t *tile) high() float64 { return column{blocks: t.head}.high() + t.tallMM*PointsPerMM }

// tiled are the tiles of a template: each shows a part of it, over its neighbours' edges by so much, with crosses where they meet.
func (m *maker) tiled(t *template) []tile {
	whole := m.wide/PointsPerMM - besideMM
	most := (m.room() - checkHigh - (column{blocks: m.tileHead(t, 1, 1, 2, 2, whole)}).high()) / PointsPerMM
	across, up := tiles(t.wideMM+2*roundMM, whole), tiles(t.upMM+2*roundMM, most)
	var out []tile
	for row := range up {
		for col := range across {
			p := tile{of: t, across: across, up: up, pageWideMM: whole, wideMM: whole, tallMM: most}
			p.leftMM, p.lowMM = float64(col)*(whole-overlapMM)-roundMM, float64(row)*(most-overlapMM)-roundMM
			if up == 1 {
				p.tallMM = t.upMM + 2*roundMM
			}
			p.head = m.tileHead(t, col+1, row+1, across, up, p.wideMM)
			if col == across-1 {
				narrow := p
				narrow.wideMM = math.Max(leastTileMM, t.wideMM+roundMM-p.leftMM)
				narrow.head = m.tileHead(t, col+1, row+1, across, up, narrow.wideMM)
				if narrow.high() <= m.room()-checkHigh { // its heading takes more lines
					p = narrow
				}
			}
			out = append(out, p)
		}
	}
	return out
}

// tileHead is what stands over a tile so wide: of which template it is, and where in it.
func (m *maker) tileHead(t *template, col, row, across, up int, wideMM float64) []block {
	out := heading(m.to, t.name, wideMM*PointsPerMM)
	if across*up > 1 {
		where := m.say.Say(message.Of("sheet.tile", message.No("column", col), message.No("columns", across),
			message.No("row", row), message.No("rows", up)))
		out = append(out, headed(m.to, where, style{size: smallPoints, soft: true}, wideMM*PointsPerMM, 1)...)
	}
	return out
}

// tiles is how many tiles of a size a length takes.
func tiles(longMM, pageMM float64) int {
	if longMM <= pageMM {
		return 1
	}
	return 1 + int(math.Ceil((longMM-pageMM)/(pageMM-overlapMM)-1e-9))
}

// tilesPage is a page of tiles in rows, filled from the top.
type tilesPage struct {
	rows []tilesRow
	used float64
}

// tilesRow are tiles beside each other, each from where it begins.
type tilesRow struct {
	top, high, used float64
	tiles           []tile
	lefts           []float64
}

// take puts a tile onto the page where there is room for it, wide and high as given; false where there is none.
func (p *tilesPage) take(t tile, wide, high float64) bool {
	for i := range p.rows {
		r := &p.rows[i]
		if left := r.used + tilesApart; t.high() <= r.high && left+t.wide() <= wide {
			r.tiles, r.lefts, r.used = append(r.tiles, t), append(r.lefts, left), left+t.wide()
			return true
		}
	}
	top := p.used
	if len(p.rows) > 0 {
		top += tilesApart
	}
	const hair = 1e-6 // of a point
	if len(p.rows) > 0 && top+t.high() > high+hair {
		return false
	}
	p.rows = append(p.rows, tilesRow{top: top, high: t.high(), used: t.wide(), tiles: []tile{t}, lefts: []float64{0}})
	p.used = top + t.high()
	return true
}

// ganged are pages of tiles, low and narrow ones on the first page that has room; every page has two dimensions to check the
// printer by.
func (m *maker) ganged(all []tile) []block {
	wide, high := m.wide-besideMM*PointsPerMM, m.room()-checkHigh
	var pages []*tilesPage
	for _, t := range all {
		taken := func(p *tilesPage) bool { return p.take(t, wide, high) }
		if !slices.ContainsFunc(pages, taken) {
			p := &tilesPage{}
			p.take(t, wide, high)
			pages = append(pages, p)
		}
	}
	out := make([]block, len(pages))
	for i, p := range pages {
		out[i] = block{high: m.room(), draw: func(to pen.Pen, at placing.Point) {
			for _, r := range p.rows {
				for k := range r.tiles {
					r.tiles[k].draw(to, placing.Point{at[0] + r.lefts[k], at[1] + r.top})
				}
			}
			m.checks(to, placing.Point{at[0], at[1] + m.room() - checkHigh + 14})
		}}
	}
	return out
}

// draw draws the tile from its upper left corner.
func (t *tile) draw(to pen.Pen, at placing.Point) {
	beside(column{blocks: t.head}).draw(to, at)
	low := placing.Point{at[0], at[1] + column{blocks: t.head}.high()}
	box := placing.Box{Low: low, High: placing.Point{low[0] + t.wide(), low[1] + t.tallMM*PointsPerMM}}
	in := pen.Within(to, box)
	place := func(p placing.Point) placing.Point {
		return placing.Point{(p[0] - t.leftMM) * PointsPerMM, (t.tallMM - (p[1] - t.lowMM)) * PointsPerMM}
	}
	t.of.draw(in, place, box)
	if t.across*t.up > 1 {
		crosses(in, place, placing.Point{t.pageWideMM, t.tallMM}, t.across, t.up)
	}
}

// crosses mark the middles of overlaps of tiles of a size, the same places on neighbouring ones and none that only one tile has; of a
// single row at its foot and its top.
func crosses(to pen.Pen, place func(placing.Point) placing.Point, size placing.Point, across, up int) {
	const armMM = 4.0
	var lines []placing.Straight
	for col := range across + 1 {
		for row := range up + 1 {
			if (col == 0 || col == across) && (row == 0 || row == up) {
				continue
			}
			p := placing.Point{float64(col)*(size[0]-overlapMM) + overlapMM/2, float64(row)*(size[1]-overlapMM) + overlapMM/2}
			for axis := range 2 {
				a, b := p, p
				a[axis], b[axis] = p[axis]-armMM, p[axis]+armMM
				lines = append(lines, placing.Straight{place(a), place(b)})
			}
		}
	}
	to.Stroke(lines, 0.5, softInk())
}

// checkMM is how long the dimensions are that a printer is checked by: a round length of the rule that is at hand.
func checkMM(u unit.System) float64 {
	if u == unit.Imperial {
		return 101.6
	}
	return 100
}

// checks are two dimensions, across and up the page.
func (m *maker) checks(to pen.Pen, at placing.Point) {
	mm := checkMM(m.r.Settled.Units)
	long := mm * PointsPerMM
	text := m.full.Say(message.Of("sheet.check", message.MM("long", mm)))
	y, x := at[1]+4, at[0]+m.wide-5
	lines := []placing.Straight{
		{{at[0], y}, {at[0] + long, y}}, {{at[0], y - 4}, {at[0], y + 4}}, {{at[0] + long, y - 4}, {at[0] + long, y + 4}},
		{{x, y}, {x, y - long}}, {{x - 4, y}, {x + 4, y}}, {{x - 4, y - long}, {x + 4, y - long}}}
	to.Stroke(lines, 0.6, ink())
	to.Text(text, placing.Point{at[0] + 6, y - 5}, smallPoints, pen.Regular, ink())
}
