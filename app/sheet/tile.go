package sheet

import (
	"cmp"
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
	// col and row are where it is among them, from nought; overMM is how far neighbours overlap.
	col, row int
	overMM   float64
}

const (
	leastTileMM = 60.0 // wide is a tile at least, for its heading
	tilesApart  = 14.0 // points between tiles of a page
)

// wide and high are the room that a tile takes on its page, in points.
func (t *tile) wide() float64 { return t.wideMM * PointsPerMM }
func (t *tile) high() float64 { return column{blocks: t.head}.high() + t.tallMM*PointsPerMM }

// tiled are the tiles of a template: each shows a part of it, over its neighbours' edges by so much, with crosses where they meet. Tiles
// on which straight edges would only go on are left out, which those that stay tell.
func (m *maker) tiled(t *template) []tile {
	out := m.tilesOf(t, false)
	if n := out[0].across * out[0].up; len(out) < n {
		out = m.tilesOf(t, true)
	}
	return out
}

// tilesOf are the tiles of a template that show more than straight edges going on; apart tells that some are left out.
func (m *maker) tilesOf(t *template, apart bool) (out []tile) {
	over := m.overlapMM()
	step := over / 2 // tiles follow each other by multiples of it, so that where they lie can be measured
	whole := math.Floor((m.wide/PointsPerMM-besideMM-over)/step)*step + over
	head := m.tileHead(t, &tile{col: 1, row: 1, across: 3, up: 3, wideMM: whole}, apart)
	most := (m.room() - checkHigh - (column{blocks: head}).high()) / PointsPerMM
	across, up := tiles(t.wideMM+2*roundMM, whole, over), tiles(t.upMM+2*roundMM, most, over)
	if up > 1 {
		most = math.Floor((most-over)/step)*step + over
		up = tiles(t.upMM+2*roundMM, most, over)
	}
	for row := range up {
		for col := range across {
			p := tile{of: t, across: across, up: up, col: col, row: row, overMM: over, pageWideMM: whole, wideMM: whole, tallMM: most}
			p.leftMM, p.lowMM = float64(col)*(whole-over)-roundMM, float64(row)*(most-over)-roundMM
			if up == 1 {
				p.tallMM = t.upMM + 2*roundMM
			}
			if across*up > 1 && !p.hasCorner() {
				continue
			}
			p.head = m.tileHead(t, &p, apart)
			if col == across-1 {
				narrow := p
				narrow.wideMM = math.Max(leastTileMM, t.wideMM+roundMM-p.leftMM)
				narrow.head = m.tileHead(t, &narrow, apart)
				if narrow.high() <= m.room()-checkHigh { // its heading takes more lines
					p = narrow
				}
			}
			out = append(out, p)
		}
	}
	return out
}

// hasCorner tells whether a line of the template ends on the tile, between the middles of its overlaps with its neighbours.
func (t *tile) hasCorner() bool {
	part := placing.Box{Low: placing.Point{t.leftMM, t.lowMM}, High: placing.Point{t.leftMM + t.pageWideMM, t.lowMM + t.tallMM}}
	for axis, n := range [...]struct{ at, of int }{{t.col, t.across}, {t.row, t.up}} {
		if n.at > 0 {
			part.Low[axis] += t.overMM / 2
		}
		if n.at < n.of-1 {
			part.High[axis] -= t.overMM / 2
		}
	}
	on := func(p placing.Point) bool { return (placing.Box{Low: p, High: p}).Within(part) }
	return slices.ContainsFunc(t.of.lines, func(l placing.Straight) bool { return on(l[0]) || on(l[1]) })
}

// crossMM is where the cross at the tile's lower left lies from the template's lower left corner.
func (t *tile) crossMM() placing.Point {
	return placing.Point{t.leftMM + roundMM + t.overMM/2, t.lowMM + roundMM + t.overMM/2}
}

// tileHead is what stands over a tile: of which templates it is, where in them, and where tiles are left out from where it is measured.
func (m *maker) tileHead(t *template, p *tile, apart bool) (out []block) {
	wide := p.wideMM * PointsPerMM
	for _, name := range t.names {
		out = append(out, heading(m.to, name, wide)...)
	}
	if p.across*p.up == 1 {
		return out
	}
	args := []message.Arg{message.No("column", p.col+1), message.No("columns", p.across), message.No("row", p.row+1), message.No("rows", p.up)}
	says := message.Of("sheet.tile", args...)
	if apart {
		cross := p.crossMM()
		says = message.Of("sheet.tile-apart", append(args, message.Along("right", cross[0]), message.Along("up", cross[1]))...)
		switch {
		case p.col == 0 && p.row == 0:
			says = message.Of("sheet.tile-first", args...)
		case p.up == 1:
			says = message.Of("sheet.tile-along", append(args, message.Along("right", cross[0]))...)
		}
	}
	return append(out, headed(m.to, m.say.Say(says), style{size: smallPoints, soft: true}, wide, 1)...)
}

// overlapMM is how far neighbouring tiles overlap: a round length of the rule at hand, its half as well.
func (m *maker) overlapMM() float64 {
	if m.r.Settled.Units == unit.Imperial {
		return 12.7
	}
	return 10
}

// tiles is how many tiles of a size a length takes that overlap.
func tiles(longMM, pageMM, overMM float64) int {
	if longMM <= pageMM {
		return 1
	}
	return 1 + int(math.Ceil((longMM-pageMM)/(pageMM-overMM)-1e-9))
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

// ganged are pages of tiles, low and narrow ones on the first page that has room, in their order or, where that takes fewer pages, the
// highest first; every page has two dimensions to check the printer by.
func (m *maker) ganged(all []tile) []block {
	wide, high := m.wide-besideMM*PointsPerMM, m.room()-checkHigh
	pages := onPages(all, wide, high)
	highest := slices.Clone(all)
	slices.SortStableFunc(highest, func(a, b tile) int { return cmp.Compare(b.high(), a.high()) })
	if fewer := onPages(highest, wide, high); len(fewer) < len(pages) {
		pages = fewer
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

// onPages puts tiles on pages with so much room, each on the first that has some.
func onPages(all []tile, wide, high float64) (pages []*tilesPage) {
	for _, t := range all {
		if !slices.ContainsFunc(pages, func(p *tilesPage) bool { return p.take(t, wide, high) }) {
			p := &tilesPage{}
			p.take(t, wide, high)
			pages = append(pages, p)
		}
	}
	return pages
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
		t.crosses(in, place)
	}
}

// crosses mark the middles of overlaps of tiles of a size, the same places on neighbouring ones and none that only one tile has; of a
// single row at its foot and its top.
func (t *tile) crosses(to pen.Pen, place func(placing.Point) placing.Point) {
	const armMM = 4.0
	var lines []placing.Straight
	for col := range t.across + 1 {
		for row := range t.up + 1 {
			if (col == 0 || col == t.across) && (row == 0 || row == t.up) {
				continue
			}
			p := placing.Point{float64(col)*(t.pageWideMM-t.overMM) + t.overMM/2, float64(row)*(t.tallMM-t.overMM) + t.overMM/2}
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
