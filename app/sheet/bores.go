package sheet

import (
	"underfall/geometry/joist"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/setout"
	"underfall/geometry/takeoff"
)

// bores are the holes through joists as they are marked and drilled, and how the pipe is got through them; nothing without one.
func (m *maker) bores() []block {
	var rows [][]string
	length := func(mm float64) string { return m.say.Value(message.Length{MM: mm}) }
	for _, b := range setout.Bores(&m.r) {
		what := message.ID("sheet.bore-severed")
		switch b.Crossing.Kind {
		case joist.Hole:
			what = "sheet.bore-hole"
		case joist.Notch:
			what = "sheet.bore-notch"
		}
		limits := message.Of("sheet.bore-kept")
		if len(b.Breaks) > 0 {
			list := message.List{}
			for _, f := range b.Breaks {
				list.Items = append(list.Items, f.Rule.Heading())
			}
			limits = message.Of("sheet.bore-beyond", message.Arg{Name: "what", Value: list})
		}
		rows = append(rows, []string{m.say.Say(message.Of(what, message.In("joist", b.Crossing.Joist.Name()))), m.offs(b.Offs),
			length(b.Crossing.SizeMM()), length(b.UnderTopMM), length(b.OverBottomMM), m.level(b.LevelMM), m.down(b.LevelMM), m.say.Say(limits)})
	}
	if len(rows) == 0 {
		return nil
	}
	columns := []tableColumn{m.column("sheet.column.what", 1.5), m.column("sheet.column.from", 1.6).heavy(),
		m.column("sheet.column.bore", 0.65).figures(), m.column("sheet.column.under-top", 0.7).figures(),
		m.column("sheet.column.over-bottom", 0.7).figures(), m.column("sheet.column.up", 0.6).figures(),
		m.column("sheet.column.down", 0.75).figures(), m.column("sheet.column.limits", 1.5)}
	out := append([]block{gap(8)}, m.heading(m.say.Text("sheet.bores"))...)
	out = append(append(out, table(m.to, columns, rows, m.wide)...), gap(4))
	says := m.full.Text("sheet.bores-how")
	for _, how := range m.threaded() {
		says += " " + m.full.Say(how)
	}
	return append(out, m.lines(says, body())...)
}

// reachMM is how far over the ground outside a hole in a wall is worked at without more than a step. Common practice, no source.
const reachMM = 1500

// threaded is how the straights of the run are got through the holes in joists, and what that asks for.
func (m *maker) threaded() (out []message.Message) {
	for _, t := range takeoff.Threads(&m.r) {
		pipe := message.In("pipe", t.Piece.Name().Message())
		switch {
		case t.FromOutside:
			out = append(out, message.Of("sheet.bores-outside", pipe, message.Wall("wall", m.r.Settled.Room.Letter(m.r.Heights.Run.Wall-1))))
			over, known := level.OverGroundMM(&m.r.Settled, &m.r.Heights.Run)
			if !known {
				out = append(out, message.Of("sheet.bores-outside-unknown"))
			} else if over > reachMM {
				out = append(out, message.Of("sheet.bores-outside-over", message.Along("over", over)))
			}
		case t.Couplings > 0:
			out = append(out, message.Of("sheet.bores-lengths", pipe, message.N("n", t.Couplings)))
		default:
			out = append(out, message.Of("sheet.bores-whole", pipe))
		}
	}
	return out
}
