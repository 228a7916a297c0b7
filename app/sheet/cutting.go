package sheet

import (
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
	for _, line := range boards.Lines()[len(boards.Layers):] {
		said = append(said, m.lines(m.full.Say(line), body())...)
	}
	out := append(m.together(said), gap(8))
	for i := range boards.Layers {
		out = append(out, m.layer(&boards, i)...)
	}
	for i := range boards.Stocks {
		d := section.BoardSheets(m.r, &boards, i)
		out = append(out, m.drawn("sheet.sheets", &d, m.wide, sheetsShare*m.room(), message.Layer("thickness", boards.Stocks[i].ThicknessMM))...)
		out = append(out, gap(8))
	}
	return out, nil
}

// How much of a page's height the drawings of a layer and of sheets take at most: enough to be sawn by.
const (
	layerShare  = 0.4
	sheetsShare = 0.45
)

// layer is one layer of boards: drawn as it is laid, its pieces in a table.
func (m *maker) layer(p *boarding.Plan, layer int) []block {
	l := &p.Layers[layer]
	d := section.BoardLayer(m.r, p, layer)
	var rows [][]string
	for i := range l.Pieces {
		rows = append(rows, m.pieceRow(l, &l.Pieces[i]))
	}
	columns := []tableColumn{m.column("sheet.column.number", 0.5).heavy(), m.column("sheet.column.length", 0.9).figures(),
		m.column("sheet.column.width", 0.9).figures(), m.column("sheet.column.thick", 1.1).aligned(),
		m.column("sheet.column.sheet", 0.6).aligned(), m.column("sheet.column.sawn-out", 4)}
	out := m.drawn("sheet.layer", &d, m.wide, layerShare*m.room(), message.In("layer", l.Name))
	out = m.together(append(out, table(m.to, columns, rows, m.wide)...))
	return append(out, gap(12))
}

// pieceRow is a piece of a layer as a row of its table.
func (m *maker) pieceRow(l *boarding.Layer, p *boarding.Piece) []string {
	thick := m.say.Value(message.Length{MM: p.ThickMM, Round: message.Half})
	if p.ThinMM < p.ThickMM {
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
	for _, off := range p.Askew(l) {
		sawn = append(sawn, m.say.Say(off))
	}
	long, wide := m.say.Value(message.Length{MM: p.LengthMM}), m.say.Value(message.Length{MM: p.WidthMM})
	return []string{strconv.Itoa(p.Number), long, wide, thick, sheet, strings.Join(sawn, "\n")}
}
