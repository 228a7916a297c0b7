package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"underfall/geometry/boarding"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// cutting is the sheet of every board as it is laid and sawn.
func (m *maker) cutting() ([]block, error) {
	boards, err := m.r.Boarding()
	if err != nil {
		return nil, err
	}
	if len(boards.Layers) == 0 {
		return m.lines(m.say.Text("sheet.no-boards"), body()), nil
	}
	var said []block
	for _, line := range boards.Notes() {
		said = append(said, m.lines(m.full.Say(line), body())...)
	}
	said = append(m.together(said), gap(8))
	layers := make([]section.Drawing, len(boards.Layers))
	for i := range layers {
		layers[i] = section.BoardLayer(m.r, &boards, i)
	}
	const inRow = 3
	largest, flat := make([]section.Drawing, len(boards.Stocks)), make([]section.Drawing, len(boards.Stocks))
	for i := range boards.Stocks {
		largest[i], flat[i] = section.BoardSheets(m.r, &boards, i, 0), section.BoardSheets(m.r, &boards, i, inRow)
	}
	laid := func(layer func(*boarding.Layer, *section.Drawing, float64) []block, sheets []section.Drawing) func(float64) []block {
		return func(times float64) []block {
			out := slices.Clone(said)
			for _, i := range order(boards.Layers) {
				out = append(out, layer(&boards.Layers[i], &layers[i], times)...)
			}
			for i := range sheets {
				out = append(out, m.sheets(&boards, i, &sheets[i], times)...)
			}
			return out
		}
	}
	return m.fewestPages(laid(m.layerAbreast, largest), laid(m.layerAbreast, flat), laid(m.layer, largest), laid(m.layer, flat)), nil
}

// order is the one that layers are told in, by their places: those of the shower, with its former, before those of the room.
func order(layers []boarding.Layer) (out []int) {
	for _, room := range [...]bool{false, true} {
		for i := range layers {
			if strings.Contains(layers[i].Name.String(), roomLayers) == room {
				out = append(out, i)
			}
		}
	}
	return out
}

// roomLayers is what the names of layers of the room have in them.
const roomLayers = "part.room-"

// sheets are those of a stock as they are sawn, so many times as high as they may be.
func (m *maker) sheets(boards *boarding.Plan, stock int, d *section.Drawing, times float64) []block {
	thickness := message.Layer("thickness", boards.Stocks[stock].ThicknessMM)
	out := m.drawn("sheet.sheets", d, m.wide, m.sawnHigh(d, sheetsShare, times), thickness)
	if len(out) == 0 {
		return nil
	}
	return append(m.together(append(out, m.whole(boards, stock)...)), gap(8))
}

// whole tells which pieces are sheets of a stock as they come, which no drawing of what is sawn shows; nothing for none.
func (m *maker) whole(boards *boarding.Plan, stock int) []block {
	var pieces message.List
	for i := range boards.Layers {
		l := &boards.Layers[i]
		for k := range l.Pieces {
			if p := &l.Pieces[k]; l.Stock == stock && boards.Stocks[stock].Whole(p) {
				pieces.Items = append(pieces.Items, message.Of("sheet.piece", message.No("n", p.Number)))
			}
		}
	}
	if len(pieces.Items) == 0 {
		return nil
	}
	says := message.Of("sheet.whole", message.N("pieces", len(pieces.Items)), message.Arg{Name: "which", Value: pieces})
	return m.lines(m.full.Say(says), style{size: smallPoints, soft: true})
}

// fewestPages is what takes the fewest pages of some blocks with drawings so many times as high as they may be, laid in one of some ways:
// of those the largest whose last page is not almost bare, or else the largest; of two ways alike in that the first.
func (m *maker) fewestPages(ways ...func(times float64) []block) (best []block) {
	const bareShare = 0.3 // of a page
	least, bestBare := math.MaxInt, false
	for _, of := range ways {
		for _, times := range [...]float64{1, 0.9, 0.8, 0.7, 0.6} {
			blocks := of(times)
			pages := paged(blocks, m.room())
			n := len(pages)
			bare := n > 1 && column{blocks: pages[n-1]}.high() < bareShare*m.room()
			if n < least || n == least && bestBare && !bare {
				best, least, bestBare = blocks, n, bare
			}
			if least <= 1 {
				return best
			}
		}
	}
	return best
}

// How much of a page's height the drawings of a layer and of sheets take at most, and the smallest scale that boards are sawn by where
// they have that much.
const (
	layerShare  = 0.4
	sheetsShare = 0.45
	sawnByRatio = 32
)

// sawnHigh is how high a drawing of boards may be: so many times a share of the page, and all of the share where it cannot be sawn by any
// smaller.
func (m *maker) sawnHigh(d *section.Drawing, share, times float64) float64 {
	whole := share * m.room()
	if s, ok := m.scaleFor(d, m.wide, times*whole); !ok || s.ratio > sawnByRatio {
		return whole
	}
	return times * whole
}

// layer is one layer of boards: drawn as it is laid, so many times as high as it may be, its pieces in a table under it, or in two
// beside each other where there are many.
func (m *maker) layer(l *boarding.Layer, d *section.Drawing, times float64) []block {
	const many, between = 6, 14
	drawn := m.drawn("sheet.layer", d, m.wide, m.sawnHigh(d, layerShare, times), message.In("layer", l.Name))
	if n := len(l.Pieces); n >= many {
		half, wide := (n+1)/2, (m.wide-between)/2
		two := beside(column{blocks: m.pieces(l, l.Pieces[:half], wide)}, column{wide + between, m.pieces(l, l.Pieces[half:], wide)})
		if out := m.layerEnd(l, append(slices.Clone(drawn), two)); (column{blocks: out}).high() <= m.room() {
			return out
		}
	}
	return m.layerEnd(l, append(drawn, m.pieces(l, l.Pieces, m.wide)...))
}

// layerAbreast is a layer with its pieces in a table beside the drawing, in the largest scale that leaves that room; under it where there
// is too little, or they take more than a page.
func (m *maker) layerAbreast(l *boarding.Layer, d *section.Drawing, times float64) []block {
	const between, tableLeast = 12, 236
	high, most := m.sawnHigh(d, layerShare, times), m.wide-between-tableLeast
	s, ok := m.scaleFor(d, most, high)
	if !ok || s.ratio > sawnByRatio {
		return m.layer(l, d, times)
	}
	wide := most
	for narrow := 0.0; wide-narrow > 1; {
		if middle := (narrow + wide) / 2; m.scaleIs(d, middle, high, s) {
			wide = middle
		} else {
			narrow = middle
		}
	}
	const headWide = 200 // in which its heading stands on a line
	wide = min(most, max(headWide, math.Ceil(wide)))
	drawn := m.drawn("sheet.layer", d, wide, high, message.In("layer", l.Name))
	left := wide + between
	out := m.layerEnd(l, []block{beside(column{blocks: drawn}, column{left, m.pieces(l, l.Pieces, m.wide-left)})})
	if (column{blocks: out}).high() > m.room() {
		return m.layer(l, d, times)
	}
	return out
}

// scaleIs tells whether a drawing has a scale in a frame.
func (m *maker) scaleIs(d *section.Drawing, wide, high float64, want drawnScale) bool {
	s, ok := m.scaleFor(d, wide, high)
	return ok && s == want
}

// pieces are pieces of a layer in a table.
func (m *maker) pieces(l *boarding.Layer, of []boarding.Piece, wide float64) []block {
	var rows [][]string
	for i := range of {
		rows = append(rows, m.pieceRow(l, &of[i]))
	}
	// Figures take what they are wide, and stand beside their names; what is sawn out has the rest.
	const number, thick, fromTo, sheet, long, longInches = 22.0, 32.0, 50.0, 29.0, 33.0, 43.0
	side, depth := long, thick
	if m.r.Settled.Units == unit.Imperial {
		side = longInches
	}
	if l.Former {
		depth = fromTo
	}
	columns := []tableColumn{m.column("sheet.column.number", number).heavy(), m.column("sheet.column.length", side).figures(),
		m.column("sheet.column.width", side).figures(), m.column("sheet.column.thick", depth).aligned(),
		m.column("sheet.column.sheet", sheet).aligned(), m.column("sheet.column.sawn-out", wide-number-2*side-depth-sheet)}
	return table(m.to, columns, rows, wide)
}

// layerEnd is a layer with what is told of it last, on one page.
func (m *maker) layerEnd(l *boarding.Layer, out []block) []block {
	if l.Former {
		out = append(out, m.lines(m.full.Text("sheet.former-pieces"), style{size: smallPoints, soft: true})...)
	}
	return append(m.together(out), gap(12))
}

// pieceRow is a piece of a layer as a row of its table.
func (m *maker) pieceRow(l *boarding.Layer, p *boarding.Piece) []string {
	thickMM := l.BoardMM
	if l.Former {
		thickMM = p.ThickMM
	}
	thick := m.say.Value(message.Length{MM: thickMM, Round: message.Half})
	if l.Former && p.ThinMM < p.ThickMM {
		thick = m.say.Say(message.Of("sheet.thick", message.Layer("from", p.ThinMM), message.Layer("to", p.ThickMM)))
	}
	sheet := ""
	if p.Sheet > 0 {
		sheet = strconv.Itoa(p.Sheet)
	}
	var sawn []string
	for _, c := range p.Cuts {
		sawn = append(sawn, m.say.Say(c.Message()))
	}
	for _, off := range p.Askew() {
		sawn = append(sawn, m.say.Say(off))
	}
	long, wide := m.say.Value(message.Length{MM: p.LengthMM}), m.say.Value(message.Length{MM: p.WidthMM})
	return []string{strconv.Itoa(p.Number), long, wide, thick, sheet, strings.Join(sawn, "\n")}
}
