package sheet

import (
	"slices"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/source"
	"underfall/geometry/takeoff"
)

// order is the list that a merchant picks from, with how each quantity was worked out.
func (m *maker) order() ([]block, error) {
	list, err := m.takeoff()
	if err != nil {
		return nil, err
	}
	var out []block
	if m.r.Stops() {
		out = append(m.lines(m.full.Text("order.stops"), body()), gap(6))
	}
	columns := []tableColumn{{share: 3.8}, m.column("order.column.packs", 1.75).heavy(),
		m.column("order.column.needed", 1.05).aligned(), m.column("order.column.left", 0.75).aligned()}
	for _, group := range takeoff.Groups() {
		var rows [][]string
		for i := range list.Lines {
			l := &list.Lines[i]
			if l.Group != group {
				continue
			}
			needed := m.full.Value(l.Needed.Arg("needed").Value)
			if n := l.Cutting.Pieces(); n > 1 {
				needed = m.full.Say(message.Of("order.needed-in", message.Name("needed", needed), message.N("n", n)))
			}
			packs, left := needed, ""
			if l.Form != "" {
				packs = m.full.Say(l.Bought())
				left = m.full.Value(l.Left.Arg("left").Value)
			}
			rows = append(rows, []string{m.full.Say(l.Item), packs, needed, left})
		}
		columns[0].head = m.full.Text(group.Name())
		if rows := table(m.to, columns, rows, m.wide); len(rows) > 0 {
			out = append(append(out, rows...), gap(6))
		}
	}
	out = append(out, m.heading(m.full.Text("order.how-heading"))...)
	if slices.ContainsFunc(list.Lines, func(l takeoff.Line) bool { return l.Source.Mark == source.Practice }) {
		out = append(append(out, m.lines(m.full.Text("order.usual-source"), style{size: smallPoints, soft: true})...), gap(4))
	}
	for i := range list.Lines {
		if how := m.how(&list.Lines[i]); len(how) > 0 {
			out = append(append(out, how...), gap(2))
		}
	}
	if m.r.Settled.Waste.WayOut() != nil {
		out = append(append(out, gap(6)), m.lines(m.full.Text("order.outside"), style{size: smallPoints, soft: true})...)
	}
	return append(append(out, gap(6)), m.lines(m.full.Text("order.note"), style{size: smallPoints, soft: true})...), nil
}

// how says how a line was worked out; nothing where nothing was.
func (m *maker) how(l *takeoff.Line) []block {
	text := ""
	for _, how := range l.How {
		text += " " + m.full.Say(how)
	}
	if l.Source.Mark != source.Derived && l.Source.Mark != source.Practice {
		text += " " + m.full.Say(message.Of("order.source", message.In("source", l.Source.Message())))
	}
	if text == "" {
		return nil
	}
	return m.lines(m.full.Say(message.Of("sheet.how", message.In("item", l.Item), message.Name("text", text[1:]))), style{size: smallPoints})
}

// takeoff is what the job takes.
func (m *maker) takeoff() (takeoff.Takeoff, error) { return Takeoff(&m.r) }

// Takeoff is what a job takes, by the guide values at hand.
func Takeoff(r *geometry.Result) (takeoff.Takeoff, error) {
	guides, err := assets.Guide()
	if err != nil {
		return takeoff.Takeoff{}, err
	}
	return takeoff.Of(r, &guides)
}
