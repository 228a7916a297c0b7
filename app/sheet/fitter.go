package sheet

import (
	"slices"
	"strings"

	"underfall/app/pen"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/setout"
	"underfall/geometry/takeoff"
	"underfall/geometry/unit"
)

// fitter is the sheet that goes to site: no sum is left to be done in the head on the floor.
func (m *maker) fitter() ([]block, error) {
	list, err := m.takeoff()
	if err != nil {
		return nil, err
	}
	plan := section.PlanOf(m.r)
	plan.Read(m.r)
	plan.Datum(m.r)
	plan.Doorways(m.r)
	before := slices.Concat(m.marked(&plan), m.bores(), m.pipes(&list))
	cuts, after := m.cuts(), slices.Concat(m.builtUp(), m.settle(), m.work(), []block{gap(10)}, m.levels())
	return m.fewestPages(func(times float64) []block {
		out := slices.Clone(before)
		for i := range cuts {
			out = append(append(out, gap(8)), cuts[i].drawn(m, times)...)
		}
		return append(append(out, gap(8)), after...)
	}), nil
}

// marked are the first heights, the plan and what is marked out by it: on one page, where a plan not much smaller lets them be.
func (m *maker) marked(plan *section.Drawing) []block {
	first, marks := m.first(), m.marks(m.wide)
	drawn := func(share float64) []block {
		return slices.Concat(first, m.drawn("sheet.plan", plan, m.wide, share*m.room()), []block{gap(8)}, marks)
	}
	const largest = 0.55
	for _, share := range [...]float64{largest, 0.5, 0.45, 0.4, 0.35} {
		if out := drawn(share); (column{blocks: out}).high() <= m.room() {
			return out
		}
	}
	return drawn(largest)
}

// first is what a fitter's sheet begins with: the heights, how the base's comes about, and what is against beginning.
func (m *maker) first() []block {
	out := append([]block{m.heights(), gap(4)}, m.lines(m.raise(), body())...)
	out = append(out, gap(6))
	if m.r.Stops() {
		out = append(append(out, m.lines(m.full.Text("sheet.stops"), strong())...), gap(6))
	}
	if open := m.open(); len(open) > 0 {
		out = append(append(out, open...), gap(6))
	}
	return out
}

// pipes are the pieces that pipe is sawn into, with what is seen of each between its fittings, as drawings tell it, and what goes into
// them.
func (m *maker) pipes(list *takeoff.Takeoff) []block {
	var rows [][]string
	length := func(mm float64) string { return m.say.Value(message.Length{MM: mm}) }
	for i := range list.Lines {
		l := &list.Lines[i]
		for _, p := range l.Pieces {
			what := p.What
			if p.PastMM >= 1 {
				what = message.Of("sheet.pipe-past", message.In("pipe", what), message.Along("mm", p.PastMM),
					message.Wall("wall", m.r.Settled.Room.Letter(m.r.Heights.Run.Wall-1)))
			}
			rows = append(rows, []string{m.say.Say(what), m.full.Say(l.Item), length(p.SeenMM), length(p.MM - p.SeenMM), length(p.MM)})
		}
	}
	if len(rows) == 0 {
		return nil
	}
	columns := []tableColumn{m.column("sheet.column.what", 1.6), m.column("sheet.column.of", 2.3), m.column("sheet.column.seen", 0.65).figures(),
		m.column("sheet.column.sockets", 0.55).figures(), m.column("sheet.column.sawn", 0.5).figures().heavy()}
	out := append(m.heading(m.say.Text("sheet.pipes")), table(m.to, columns, rows, m.wide)...)
	return append([]block{gap(8)}, m.together(out)...)
}

// cut is a section of a fitter's sheet with its heading.
type cut struct {
	head message.ID
	d    section.Drawing
}

// drawn is the section with its heading, so many times as high as it may be.
func (c *cut) drawn(m *maker, times float64) []block {
	if c.head == "" {
		return m.drawnLong(&c.d, times)
	}
	return m.drawn(c.head, &c.d, m.wide, times*0.4*m.room())
}

// cuts are the sections across the way in and through the drain, where they are not the same, and along the waste.
func (m *maker) cuts() (out []cut) {
	trap := false
	for _, s := range [...]struct {
		head message.ID
		of   section.CuttingOf
	}{{"sheet.section-way-in", section.CutWayIn}, {"sheet.section-drain", section.CutDrain}} {
		d, err := section.Through(m.r, section.Cutting{Of: s.of}, buildup.StageTile)
		if err != nil || s.of == section.CutDrain && trap {
			continue // there is no way in over an edge, or the trap is seen already
		}
		m.downToJoists(&d)
		trap = slices.ContainsFunc(d.Areas, func(a section.Area) bool { return a.PartID == "trap" && a.Cut })
		out = append(out, cut{s.head, d})
	}
	return append(out, cut{d: section.LongOf(m.r)})
}

// downToJoists has a section looked at down to the foot of its joists, under which the lengths along it are told, where they are as deep
// as joists are in houses. In the window there is no room for that beside the headroom, and the lengths stand higher; paper has it.
func (m *maker) downToJoists(d *section.Drawing) {
	const joistsMM = 330
	if m.r.Settled.Floor.Kind == job.FloorTimber && d.Low.Y() > m.r.Heights.FloorHighMM-joistsMM {
		d.LookToFoot()
	}
}

// usualLineMM is how high over the datum a line is struck where none is: a metre, in inches four feet.
// Common practice, no source.
func usualLineMM(u unit.System) float64 {
	if u == unit.Imperial {
		return 1219.2
	}
	return 1000
}

// laser is the line that heights are read down from: the one that is set up, else where one is usually struck.
func (m *maker) laser() (d geometry.Datum, setUp bool) {
	if d = m.r.Counted(geometry.UnderLaser); d.Of == geometry.UnderLaser {
		return d, true
	}
	return geometry.Datum{Of: geometry.UnderLaser, LaserMM: usualLineMM(m.r.Settled.Units)}, false
}

// down is how a level is read on the staff; nothing where it is none.
func (m *maker) down(levelMM float64) string {
	d, _ := m.laser()
	read, err := m.r.Read(d, levelMM)
	if err != nil {
		return ""
	}
	return m.say.Say(read)
}

// level is a level over the datum.
func (m *maker) level(mm float64) string { return m.say.Value(message.Level{MM: mm}) }

// height is one of those that everything is set by: what it is of, over the datum, and how it is read down.
type height struct{ what, over, down string }

// settingHeights are those that everything is set by, with how each is read down from the laser line.
func (m *maker) settingHeights() (out []height) {
	add := func(what message.ID, mm float64) {
		out = append(out, height{m.say.Text(what), m.level(mm), m.down(mm)})
	}
	line, setUp := m.laser()
	where := m.say.Text("sheet.line-to-strike")
	if setUp {
		where = m.say.Text("sheet.line-set-up")
	}
	out = append(out, height{m.say.Text("sheet.laser"), m.level(line.LaserMM), where})
	h := &m.r.Heights
	if m.r.Settled.Base.Support == job.BetweenJoists { // what is fixed first
		add("sheet.ledger-top", h.LedgerTopMM(&m.r.Settled))
	}
	add("sheet.base-top", h.BaseTopMM)
	for _, row := range m.r.Schedule {
		switch row.ID.Of {
		case buildup.OutletInvert:
			add("sheet.outlet", row.Value)
		case buildup.ExitInvert:
			add("sheet.exit", row.Value)
		}
	}
	add("sheet.tile-drain", h.TileMM)
	rods, _ := m.r.Rods()
	for _, rod := range rods {
		switch rod.Of {
		case geometry.RodWayIn:
			add("sheet.tile-way-in", rod.LevelMM)
		case geometry.RodRoom:
			add("sheet.tile-room", rod.LevelMM)
		}
	}
	return out
}

// heights are the heights that everything is set by, each in a cell of a row.
func (m *maker) heights() block {
	const oneLine, pad, apart = 46, 5, 8
	cells := m.settingHeights()
	wide := m.wide / float64(len(cells))
	names, most, size := make([][]string, len(cells)), 1, float64(figurePoints)
	for i, c := range cells {
		names[i] = wrapped(m.to, c.what, style{size: smallPoints}, wide-2*pad)
		most = max(most, len(names[i]))
		size = min(size, m.fits(c.over, wide-2*pad))
	}
	more := float64(most-1) * apart // a name of several lines
	high := oneLine + more
	return block{high: high, draw: func(to pen.Pen, at placing.Point) {
		frame := []placing.Straight{{at, {at[0] + m.wide, at[1]}}, {{at[0], at[1] + high}, {at[0] + m.wide, at[1] + high}}}
		for i := range len(cells) + 1 {
			x := at[0] + float64(i)*wide
			frame = append(frame, placing.Straight{{x, at[1]}, {x, at[1] + high}})
		}
		to.Stroke(frame, 0.7, ink())
		for i, c := range cells {
			x := at[0] + float64(i)*wide + pad
			for k, what := range names[i] {
				to.Text(what, placing.Point{x, at[1] + 10 + float64(k)*apart}, smallPoints, pen.Regular, softInk())
			}
			to.Text(c.over, placing.Point{x, at[1] + more + 28}, size, pen.Bold, ink())
			to.Text(c.down, placing.Point{x, at[1] + more + 40}, bodyPoints, pen.Bold, ink())
		}
	}}
}

// fits is the size in which a figure goes into so much room: the usual one of figures at most.
func (m *maker) fits(figure string, wide float64) float64 {
	return figurePoints * min(1, wide/m.to.TextWidth(figure, figurePoints, pen.Bold))
}

// where are the distances that a place is found by, as a value of a message.
func where(offs []setout.Off) message.Arg {
	return message.Arg{Name: "where", Value: message.List{Items: offsSaid(offs)}}
}

// offsSaid are distances that a place is found by, each as it is said; a wall that it stands at is told so.
func offsSaid(offs []setout.Off) (out []message.Message) {
	for _, o := range offs {
		if o.MM == 0 {
			out = append(out, message.Of("sheet.at-wall", message.In("from", o.From)))
			continue
		}
		out = append(out, message.Of("sheet.off", message.Along("mm", o.MM), message.In("from", o.From)))
	}
	return out
}

// offs are those distances in a cell of a table.
func (m *maker) offs(offs []setout.Off) string {
	var said []string
	for _, o := range offsSaid(offs) {
		said = append(said, m.say.Say(o))
	}
	return strings.Join(said, ", ")
}

// rowSaid is what a level is of, with where it is read if it is another elsewhere; nil for one that is no row of the schedule.
func (m *maker) rowSaid(what message.Message, row *buildup.Row) string {
	if row == nil {
		return m.say.Say(what)
	}
	if row.ID.Of == buildup.CoreLeast {
		const sameMM = 0.5
		if drill, ok := m.r.Pack.CoreDrills.Next(row.Value); ok && drill > row.Value+sameMM {
			return m.say.Say(message.Of("sheet.core-drilled", message.In("what", what), message.MM("size", drill)))
		}
	}
	offs := setout.Where(&m.r, row)
	if len(offs) == 0 {
		return m.say.Say(what)
	}
	return m.say.Say(message.Of("sheet.read-where", message.In("what", what), where(offs)))
}

// raise says how the base's height comes about, in figures that add up: the bare floor where it is highest, what the base comes over
// that, and its top.
func (m *maker) raise() string {
	h := &m.r.Heights
	says := message.ID("sheet.raise")
	if h.BaseTopMM < h.FloorHighMM {
		says = "sheet.let-down"
	}
	spot := message.Of("sheet.level-floor", message.At("level", h.FloorHighMM))
	if offs := setout.HighSpot(&m.r); len(offs) > 0 {
		spot = message.Of("sheet.high-spot", message.At("level", h.FloorHighMM), where(offs))
	}
	by := message.Arg{Name: "by", Value: h.RiseTo(h.BaseTopMM)}
	return m.say.Say(message.Of(says, message.In("spot", spot), by, message.At("top", h.BaseTopMM)))
}

// marks are what is marked out.
func (m *maker) marks(wide float64) []block {
	var rows [][]string
	for _, mark := range setout.Of(&m.r) {
		up, down := "", ""
		if mark.Levelled {
			up, down = m.level(mark.LevelMM), m.down(mark.LevelMM)
		}
		rows = append(rows, []string{m.say.Say(mark.What), m.offs(mark.Offs), up, down})
	}
	columns := []tableColumn{m.column("sheet.column.what", 1.7), m.column("sheet.column.from", 2.1).heavy(),
		m.column("sheet.column.up", 0.55).figures(), m.column("sheet.column.down", 0.85).figures()}
	return append(heading(m.to, m.say.Text("sheet.marking-out"), wide), table(m.to, columns, rows, wide)...)
}

// drawnLong is the section along the waste, so many times as high as it may be. Its heights are exaggerated, so that it has no scale.
func (m *maker) drawnLong(d *section.Drawing, times float64) []block {
	high := times * 0.36 * m.room()
	if len(d.Areas) == 0 && len(d.Lines) == 0 {
		return nil
	}
	if d.Rise == 1 {
		return m.drawn("sheet.long-scaled", d, m.wide, high)
	}
	return m.unscaled(message.Of("sheet.long", message.Arg{Name: "rise", Value: message.Number(d.Rise)}), d, m.wide, high)
}

// builtUp are the layers at the places that heights are asked for, as they are marked on a batten.
func (m *maker) builtUp() []block {
	rods, _ := m.r.Rods()
	const between = 14
	perRow := 3
	if m.r.Settled.Units == unit.Imperial {
		perRow = 2 // its figures are longer
	}
	wide := (m.wide - float64(perRow-1)*between) / float64(perRow)
	columns := make([]column, perRow)
	for i := range columns {
		columns[i].left = float64(i) * (wide + between)
	}
	any := false
	for _, rod := range rods {
		layers := m.r.LayersOf(rod)
		if len(layers) == 0 {
			continue
		}
		heads := []tableColumn{{head: m.say.Text(rod.Name()), share: 2.8}, m.column("sheet.column.top", 1.35).figures(),
			m.column("sheet.column.down", 1.55).figures()}
		shortest := &columns[0]
		for i := range columns {
			if columns[i].high() < shortest.high() {
				shortest = &columns[i]
			}
		}
		shortest.blocks = append(append(shortest.blocks, table(m.to, heads, m.stacked(layers), wide)...), gap(8))
		any = true
	}
	if !any {
		return nil
	}
	return append(m.heading(m.say.Text("sheet.built-up")), beside(columns...))
}

// stacked are the layers of a rod, the top one first, each with its thickness as sections tell it and its top as that level is told
// everywhere on the sheet: in whole millimetres, as it is set.
func (m *maker) stacked(layers []geometry.RodLayer) [][]string {
	rows := make([][]string, len(layers))
	for i, l := range layers {
		layer := message.Of("sheet.layer-thick", l.Text.Args...)
		rows[len(layers)-1-i] = []string{m.say.Say(layer), m.level(l.TopMM), m.down(l.TopMM)}
	}
	return rows
}

// together are blocks that stay on one page, where they are not higher than one.
func (m *maker) together(blocks []block) []block {
	if (column{blocks: blocks}).high() > m.room() {
		return blocks
	}
	for i := range len(blocks) - 1 {
		blocks[i].keep = true
	}
	return blocks
}

// levels is the schedule of levels, in two tables beside each other.
func (m *maker) levels() []block {
	var rows [][]string
	for i := range m.r.Schedule {
		row := &m.r.Schedule[i]
		off, down := "", ""
		if row.Kind() != buildup.IsFall && row.Statistical > 0 {
			off = m.say.Say(message.Of("sheet.about", message.Layer("by", row.Statistical)))
		}
		if row.Kind() == buildup.IsLevel {
			down = m.down(row.Value)
		}
		rows = append(rows, []string{m.rowSaid(row.Message(), row), m.say.Value(row.Said()), off, down})
	}
	columns := []tableColumn{m.column("sheet.column.what", 2.5), m.column("sheet.column.level", 1.2).figures(),
		m.column("sheet.column.about", 0.8).aligned(), m.column("sheet.column.down", 1.1).figures()}
	const between = 16
	wide, half := (m.wide-between)/2, (len(rows)+1)/2
	return append(m.heading(m.say.Text("sheet.levels")), beside(column{blocks: table(m.to, columns, rows[:half], wide)},
		column{wide + between, table(m.to, columns, rows[half:], wide)}))
}

// settle is what has to be settled before work begins, with what to do about it.
func (m *maker) settle() []block {
	out := append([]block{gap(8)}, m.heading(m.say.Text("sheet.settle"))...)
	none := true
	for _, c := range m.answer.Cards {
		worst := c.Worst()
		if c.Severity() == rule.Note && worst.Message().ID != rule.NoReserve {
			continue
		}
		none = false
		severity := m.full.Text(c.Severity().Name())
		heads := message.Of("sheet.card", message.In("heading", worst.Rule.Heading()), message.Name("severity", severity))
		says := message.Of("sheet.card-says", message.In("found", worst.Message()), message.In("remedy", worst.Rule.Remedy()))
		out = append(out, m.together(append(m.lines(m.full.Say(heads), strong()), m.lines(m.full.Say(says), body())...))...)
		out = append(out, gap(4))
	}
	if none {
		out = append(out, m.lines(m.say.Text("sheet.nothing-to-settle"), body())...)
	}
	return out
}
