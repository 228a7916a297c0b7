package sheet

import (
	"strconv"

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
		return paragraph(m.to, m.say.Text("sheet.no-boards"), style{size: bodyPoints}, m.wide), nil
	}
	d := section.BoardsOf(m.r.Result)
	d.List = section.List{}
	out := m.drawn("sheet.boards", &d, m.wide, 0.7*m.room())
	for i := range boards.Layers {
		l := &boards.Layers[i]
		var rows [][]string
		for k := range l.Pieces {
			p := &l.Pieces[k]
			thick := m.say.Value(message.Length{MM: p.ThickMM, Round: message.Half})
			if p.ThinMM < p.ThickMM {
				thick = m.say.Say(message.Of("sheet.thick", message.Layer("from", p.ThinMM), message.Layer("to", p.ThickMM)))
			}
			sheet, sawn := "", ""
			if p.Sheet > 0 {
				sheet = strconv.Itoa(p.Sheet)
			}
			for n, c := range p.Cuts {
				if n > 0 {
					sawn += "\n"
				}
				sawn += m.say.Say(c.Message())
			}
			if p.Notched && len(p.Cuts) == 0 {
				sawn = m.say.Text("sheet.askew")
			}
			rows = append(rows, []string{strconv.Itoa(p.Number), m.say.Value(message.Length{MM: p.LengthMM}), m.say.Value(message.Length{MM: p.WidthMM}),
				thick, sheet, sawn})
		}
		columns := []tableColumn{{head: m.say.Text("sheet.column.number"), share: 0.5, bold: true}, {head: m.say.Text("sheet.column.length"), share: 0.9, right: true, bold: true},
			{head: m.say.Text("sheet.column.width"), share: 0.9, right: true, bold: true}, {head: m.say.Text("sheet.column.thick"), share: 1.1, right: true},
			{head: m.say.Text("sheet.column.sheet"), share: 0.6, right: true}, {head: m.say.Text("sheet.column.sawn-out"), share: 4}}
		out = append(append(out, gap(8)), heading(m.to, m.say.Say(l.Name), m.wide)...)
		out = append(out, table(m.to, columns, rows, m.wide)...)
	}
	out = append(out, gap(8))
	for _, line := range boards.Lines()[len(boards.Layers):] {
		out = append(out, paragraph(m.to, m.full.Say(line), style{size: bodyPoints}, m.wide)...)
	}
	return out, nil
}
