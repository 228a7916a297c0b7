package sheet

import (
	"slices"
	"strconv"
	"strings"

	"underfall/app/pen"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/sequence"
)

// work is the order of work with a box for each step, what is read while it is done, and the cautions that bite in it.
func (m *maker) work() []block {
	const boxShare = 0.5
	columns := []tableColumn{{share: boxShare}, {share: 0.5}, m.column("sheet.column.do", 4.35),
		m.column("sheet.column.who", 1), m.column("sheet.column.read", 2.5).inStep(), m.column("sheet.column.up", 1).figures().inStep(),
		m.column("sheet.column.down", 1.1).figures().inStep()}
	const doColumn = 2
	left := m.wide * shares(columns[:doColumn]) / shares(columns)
	steps := sequence.Of(&m.r)
	var rows [][]string
	var cautions [][]block
	for i := range steps {
		s := &steps[i]
		do := m.say.Text(s.Name())
		if core, ok := m.r.Heights.Core(&m.r.Settled, &m.r.Layout); ok && s.ID == sequence.BoreWall {
			size := message.MM("size", m.r.Pack.CoreDrills.For(core.LeastMM))
			do = m.say.Say(message.Of("sheet.bored", message.Name("do", do), size))
		}
		room := m.wide - left - 2*cellPad
		cautions = append(cautions, slices.Concat(m.held(s, room), m.cautions(s.Minds, room)))
		var read, up, down []string
		for _, t := range s.Targets {
			read, up, down = append(read, m.rowSaid(t.What, t.Row)), append(up, m.level(t.LevelMM)), append(down, m.down(t.LevelMM))
		}
		rows = append(rows, []string{"", strconv.Itoa(i + 1), do, m.say.Text(s.By.Name()),
			strings.Join(read, "\n"), strings.Join(up, "\n"), strings.Join(down, "\n")})
	}
	blocks := noted(m.to, columns, rows, m.wide, left+cellPad, cautions)
	for i := range blocks[1:] {
		blocks[i+1] = boxed(blocks[i+1])
	}
	return append(append([]block{gap(8)}, m.heading(m.say.Text("sheet.work"))...), blocks...)
}

// held are that nobody goes on after a step before it is signed, and that nothing of it can be taken back, so wide; that with a mark of its
// own, two bars.
func (m *maker) held(s *sequence.Step, wide float64) (out []block) {
	if s.Hold {
		out = paragraph(m.to, m.say.Text("sheet.hold"), body(), wide)
	}
	if s.Final == "" {
		return out
	}
	says := m.say.Say(message.Of("sheet.final", message.In("why", message.Of(s.Final))))
	return append(out, m.behindMark(says, strong(), wide, func(to pen.Pen, at placing.Point) {
		foot := at[1] + bodyPoints + 1
		for _, x := range [...]float64{at[0] + 2, at[0] + 5} {
			to.Stroke([]placing.Straight{{{x, foot - 8}, {x, foot}}}, 1.2, ink())
		}
	}))
}

// cautions are those of some rules, so wide, each with a mark before it.
func (m *maker) cautions(rules []string, wide float64) (out []block) {
	const side = 7.5
	for _, c := range m.r.Cautions {
		if !slices.Contains(rules, c.Rule.ID) {
			continue
		}
		says := message.Of("sheet.caution", message.In("heading", c.Rule.Heading()), message.In("text", c.Rule.Text()),
			message.In("remedy", c.Rule.Remedy()))
		texts := m.behindMark(m.full.Say(says), body(), wide, func(to pen.Pen, at placing.Point) {
			low, left := at[1]+bodyPoints+0.5, at[0]
			top, right := placing.Point{left + side/2, low - side}, placing.Point{left + side, low}
			to.Stroke([]placing.Straight{{{left, low}, top}, {top, right}, {right, {left, low}}}, 0.8, ink())
			to.Stroke([]placing.Straight{{{top[0], low - 4.9}, {top[0], low - 2.6}}, {{top[0], low - 1.7}, {top[0], low - 1}}}, 0.9, ink())
		})
		texts.high++
		out = append(out, texts)
	}
	return out
}

// behindMark is a text, so wide, with a mark drawn before it.
func (m *maker) behindMark(says string, in style, wide float64, mark func(to pen.Pen, at placing.Point)) block {
	const markWide = 11.0
	texts := beside(column{markWide, paragraph(m.to, says, in, wide-markWide)})
	return block{high: texts.high, draw: func(to pen.Pen, at placing.Point) {
		texts.draw(to, at)
		mark(to, at)
	}}
}

// boxed is a row with a box to tick at its left.
func boxed(row block) block {
	const side = 8.5
	draw := row.draw
	row.draw = func(to pen.Pen, at placing.Point) {
		draw(to, at)
		a := placing.Point{at[0] + cellPad, at[1] + rowPad + 1}
		b := placing.Point{a[0] + side, a[1] + side}
		to.Stroke([]placing.Straight{{a, {b[0], a[1]}}, {{b[0], a[1]}, b}, {b, {a[0], b[1]}}, {{a[0], b[1]}, a}}, 0.9, ink())
	}
	return row
}
