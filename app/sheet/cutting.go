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
		return m.lines(m.say.Text("sheet.no-boards"), body()), nil
	}
	d := section.BoardsOf(m.r)
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
			long, wide := m.say.Value(message.Length{MM: p.LengthMM}), m.say.Value(message.Length{MM: p.WidthMM})
			rows = append(rows, []string{strconv.Itoa(p.Number), long, wide,
				thick, sheet, sawn})
		}
		columns := []tableColumn{m.column("sheet.column.number", 0.5).heavy(), m.column("sheet.column.length", 0.9).figures(),
			m.column("sheet.column.width", 0.9).figures(), m.column("sheet.column.thick", 1.1).aligned(),
			m.column("sheet.column.sheet", 0.6).aligned(), m.column("sheet.column.sawn-out", 4)}
		out = append(append(out, gap(8)), m.heading(m.say.Say(l.Name))...)
		out = append(out, table(m.to, columns, rows, m.wide)...)
	}
	out = append(out, gap(8))
	for _, line := range boards.Lines()[len(boards.Layers):] {
		out = append(out, m.lines(m.full.Say(line), body())...)
	}
	return out, nil
}
