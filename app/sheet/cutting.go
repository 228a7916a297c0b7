package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"underfall/geometry/boarding"
	"underfall/geometry/message"
	"underfall/geometry/section"
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
	sheets := make([]section.Drawing, len(boards.Stocks))
	for i := range sheets {
		sheets[i] = section.BoardSheets(m.r, &boards, i)
	}
	return m.fewestPages(func(times float64) []block {
		out := slices.Clone(said)
		for i := range layers {
			out = append(out, m.layer(&boards.Layers[i], &layers[i], times)...)
		}
		for i := range sheets {
			thickness := message.Layer("thickness", boards.Stocks[i].ThicknessMM)
			sawn := m.drawn("sheet.sheets", &sheets[i], m.wide, m.sawnHigh(&sheets[i], sheetsShare, times), thickness)
			if len(sawn) > 0 {
				sawn = m.together(append(sawn, m.whole(&boards, i)...))
			}
			out = append(append(out, sawn...), gap(8))
		}
		return out
	}), nil
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

// fewestPages is what takes the fewest pages of some blocks with drawings so many times as high as they may be: of those the largest whose
// last page is not almost bare, or else the largest.
func (m *maker) fewestPages(of func(times float64) []block) (best []block) {
	const bareShare = 0.3 // of a page
	least, bestBare := math.MaxInt, false
	for _, times := range [...]float64{1, 0.9, 0.8, 0.7, 0.6} {
		blocks := of(times)
		pages := paged(blocks, m.room())
		n := len(pages)
		bare := n > 1 && column{blocks: pages[n-1]}.high() < bareShare*m.room()
		if n < least || n == least && bestBare && !bare {
			best, least, bestBare = blocks, n, bare
		}
		if least <= 1 {
			break
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

// layer is one layer of boards: drawn as it is laid, so many times as high as it may be, its pieces in a table.
func (m *maker) layer(l *boarding.Layer, d *section.Drawing, times float64) []block {
	var rows [][]string
	for i := range l.Pieces {
		rows = append(rows, m.pieceRow(l, &l.Pieces[i]))
	}
	columns := []tableColumn{m.column("sheet.column.number", 0.5).heavy(), m.column("sheet.column.length", 0.9).figures(),
		m.column("sheet.column.width", 0.9).figures(), m.column("sheet.column.thick", 1.4).aligned(),
		m.column("sheet.column.sheet", 0.6).aligned(), m.column("sheet.column.sawn-out", 3.7)}
	out := m.drawn("sheet.layer", d, m.wide, m.sawnHigh(d, layerShare, times), message.In("layer", l.Name))
	out = append(out, table(m.to, columns, rows, m.wide)...)
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
