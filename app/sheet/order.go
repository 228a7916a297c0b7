package sheet

import (
	"math"
	"slices"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/source"
	"underfall/geometry/takeoff"
)

// leftTold is the share of what is needed from which what is left over is told: less is none to anybody.
const leftTold = 0.005

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
				if left = m.full.Text("order.none-left"); l.Left.Value > leftTold*l.Needed.Value {
					left = m.full.Value(l.Left.Arg("left").Value)
				}
			}
			rows = append(rows, []string{m.full.Say(l.Item), packs, needed, left})
		}
		columns[0].head = m.full.Text(group.Name())
		if rows := table(m.to, columns, rows, m.wide); len(rows) > 0 {
			out = append(append(out, rows...), gap(4.5))
		}
	}
	out = append(out, m.heading(m.full.Text("order.how-heading"))...)
	if slices.ContainsFunc(list.Lines, func(l takeoff.Line) bool { return l.Source.Mark == source.Practice }) {
		usual := m.lines(m.full.Text("order.usual-source"), style{size: smallPoints, soft: true})
		for i := range usual {
			usual[i].keep = true
		}
		out = append(out, usual...)
		out[len(out)-1].high += 4
	}
	var last []block
	if m.r.Settled.Waste.WayOut() != nil {
		last = append(append(last, gap(6)), m.lines(m.full.Text("order.outside"), style{size: smallPoints, soft: true})...)
	}
	last = append(append(last, gap(6)), m.lines(m.full.Text("order.note"), style{size: smallPoints, soft: true})...)
	return m.fewestColumns(func(columns int) []block {
		ends := slices.Concat(m.workedIn(columns, &list), last)
		if columns > 1 {
			ends = m.together(ends)
		}
		return slices.Concat(out, ends)
	}), nil
}

// fewestColumns is what takes the fewest pages of some blocks that are set in so many columns: of those the one with the fewest columns
// whose lines the eye can follow, or else with the most.
func (m *maker) fewestColumns(of func(columns int) []block) (best []block) {
	const most, widestLine = 3, 600 // points; common practice, no source
	least, fits := math.MaxInt, false
	for columns := 1; columns <= most; columns++ {
		blocks := of(columns)
		if n := len(paged(blocks, m.room())); n < least || n == least && !fits {
			best, least, fits = blocks, n, m.wide/float64(columns) <= widestLine
		}
	}
	return best
}

// worked says how all lines were worked out, so wide.
func (m *maker) worked(list *takeoff.Takeoff, wide float64) (out []block) {
	for i := range list.Lines {
		if how := m.how(&list.Lines[i], wide); len(how) > 0 {
			out = append(append(out, how...), gap(2))
		}
	}
	return out
}

// workedIn says it in so many columns beside each other, where they are no higher than a page; else in one.
func (m *maker) workedIn(columns int, list *takeoff.Takeoff) []block {
	if columns == 1 {
		return m.worked(list, m.wide)
	}
	const between = 16
	wide := (m.wide - between*float64(columns-1)) / float64(columns)
	all := m.worked(list, wide)
	share := column{blocks: all}.high() / float64(columns)
	abreast, high := make([]column, columns), 0.0
	for i, k := 0, 0; i < len(all); i++ {
		if high >= share*float64(k+1) && k+1 < columns && all[i-1].draw == nil { // between two lines of the list
			k++
		}
		abreast[k].left = float64(k) * (wide + between)
		abreast[k].blocks = append(abreast[k].blocks, all[i])
		high += all[i].high
	}
	both := beside(abreast...)
	if both.high > m.room() {
		return m.worked(list, m.wide)
	}
	return []block{both}
}

// how says how a line was worked out, so wide; nothing where nothing was. A merchant has no use for what a guide value is from and
// how far that was checked: that is told with the checks, and by the command line.
func (m *maker) how(l *takeoff.Line, wide float64) []block {
	text := ""
	for _, how := range l.How {
		text += " " + m.full.Say(how)
	}
	if text == "" {
		return nil
	}
	says := m.full.Say(message.Of("sheet.how", message.In("item", l.Item), message.Name("text", text[1:])))
	return paragraph(m.to, says, style{size: smallPoints}, wide)
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
