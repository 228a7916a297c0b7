package start

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// drawnWalls are the walls of a drawn room, one under the other: how long each is, and which way the
// next one turns.
type drawnWalls struct {
	of     *Sheet
	rows   []*wallRow
	list   *fyne.Container
	note   *control.Text
	object *fyne.Container
}

// wallRow is one of them.
type wallRow struct {
	long, angle *control.Field
	right, left *choice
	in, out     *control.Press
	turns       *fyne.Container // the choices of the corner after it
	closes      *fyne.Container
	object      *fyne.Container
}

func newDrawnWalls(of *Sheet) *drawnWalls {
	d := &drawnWalls{of: of, list: stacked(theme.Space1), note: paragraph("", theme.TextSecond, theme.Ink)}
	d.object = stacked(theme.Space1, paragraph(theme.Word("start.drawn-how"), theme.TextCaption, theme.Caption), d.list, d.note)
	return d
}

// show brings the walls to a sheet; they are hidden while the room is not drawn.
func (d *drawnWalls) show(s question.Sheet) {
	d.object.Hidden = s.Room.Shape != question.WallByWall
	if d.object.Hidden {
		return
	}
	n := s.Room.Drawn.N
	for i := len(d.rows); i < n; i++ {
		row := d.row(i)
		d.rows = append(d.rows, row)
		d.list.Add(row.object)
	}
	c := s.Room.Drawn.Close()
	for i, row := range d.rows {
		row.object.Hidden = i >= n
		if i < n {
			row.show(s, c, i)
		}
	}
	said, role := d.of.practice.Notes(s), theme.Tight
	if p := d.of.practice.Closes(s); len(p) > 0 {
		said, role = []message.Message{p[0].Message()}, theme.Stops
	}
	text := ""
	for i, m := range said {
		if i > 0 {
			text += " "
		}
		text += theme.Say(m, s.Units)
	}
	d.note.Hidden = text == ""
	d.note.Styled(theme.TextSecond, true, role).SetText(text)
	d.list.Refresh()
	d.object.Refresh()
}

// Widths of what stands in a row.
const (
	wallFieldWide  = 92
	angleFieldWide = 66
)

// row makes the row of a wall.
func (d *drawnWalls) row(i int) *wallRow {
	s, letter := d.of, question.Letter(i)
	sheet := func() question.Sheet { return s.at }
	wall := message.Name("wall", letter)
	r := &wallRow{}
	length := control.Number{About: theme.Word("start.wall-long", wall), Kind: unit.Along, Units: s.at.Units,
		Least: question.LeastWallMM, Greatest: question.GreatestWallMM, Optional: true}
	takes := func(next func(float64) question.Sheet) control.Intents {
		return control.Intents{Preview: func(v float64) { s.previewed(next(v)) }, EndPreview: func() { s.previewed(s.at) },
			Take: func(v float64) error { s.drawn(next(v)); return nil }}
	}
	intents := takes(func(mm float64) question.Sheet { return s.at.WithWall(i, question.Given(mm)) })
	intents.Clear = func() error { s.drawn(s.at.WithWall(i, question.Length{})); return nil }
	r.long = control.NewField(s.o.Keys, length, fieldWords(unit.Along, sheet), intents)
	turn := control.Number{About: theme.Word("start.wall-angle", wall), Kind: unit.Angle, Units: s.at.Units,
		Least: question.LeastDeg, Greatest: question.GreatestDeg}
	r.angle = control.NewField(s.o.Keys, turn, fieldWords(unit.Angle, sheet),
		takes(func(deg float64) question.Sheet { return s.at.WithAngle(i, deg) }))
	corner := func(deg float64, id message.ID) *choice {
		return newChoice(s.o.Keys, theme.Word(id, wall), turnPicture(deg), func() { s.drawn(s.at.WithAngle(i, deg)) })
	}
	r.right, r.left = corner(question.SquareDeg, "start.turns-right"), corner(question.StandsOutDeg, "start.turns-left")
	r.right.narrow, r.left.narrow = true, true
	among([]*choice{r.left, r.right})
	r.in = control.NewPress(s.o.Keys, "", func() { s.drawn(s.at.PutIn(i)) }).WithIcon(theme.IconPlus)
	r.in.Hint = func() string { return theme.Word("start.put-corner-in", wall) }
	r.out = control.NewPress(s.o.Keys, "", func() { s.drawn(s.at.TakeOut(i)) }).WithIcon(theme.IconMinus)
	r.out.Hint = func() string { return theme.Word("start.take-corner-out", wall) }
	r.turns = container.NewHBox(r.left, r.right, container.New(&fieldWidth{angleFieldWide}, r.angle))
	r.closes = container.NewCenter(line(theme.Word("start.closes"), theme.TextCaption, theme.Caption))
	r.object = container.NewBorder(nil, nil, container.NewHBox(container.NewCenter(letterDisc(letter)), container.New(&fieldWidth{wallFieldWide}, r.long)),
		container.NewHBox(r.in, r.out), container.NewHBox(r.turns, r.closes))
	return r
}

// show brings a row to the wall of a sheet, as the walls close.
func (r *wallRow) show(s question.Sheet, c question.Closing, i int) {
	w := s.Room.Drawn.Walls[i]
	is := taped(c.LengthMM(i), s.Units, math.Round)
	shown := control.Shown{Value: w.Long.MM, Known: control.Given, Usual: math.NaN()}
	if !w.Long.Given {
		shown.Value, shown.Known = math.NaN(), control.NotKnown
		shown.Usual = is
		if c.WorkedOut.Has(i) {
			shown.Value, shown.Known, shown.Usual = is, control.WorkedOut, math.NaN()
		}
	}
	r.long.SetUnits(s.Units)
	r.long.Set(shown)
	r.angle.Set(control.Shown{Value: w.InsideDeg, Known: control.Given, Usual: math.NaN()})
	r.right.chosen, r.left.chosen = w.InsideDeg == question.SquareDeg, w.InsideDeg == question.StandsOutDeg
	last := i == s.Room.Drawn.N-1
	r.turns.Hidden, r.closes.Hidden = last, !last
	r.in.Set("", !s.PutsIn(i))
	r.out.Set("", !s.TakesOut(i))
	for _, o := range []fyne.CanvasObject{r.right, r.left, r.turns, r.object} {
		o.Refresh()
	}
}

// taped is a length of nobody's measuring as a tape would show it: in whole millimetres or sixteenths of
// an inch, made whole by a function.
func taped(mm float64, u unit.System, whole func(float64) float64) float64 {
	to := 1.0
	if u == unit.Imperial {
		to = 25.4 / 16
	}
	return whole(mm/to+1e-6) * to
}

// letterDisc is a wall's letter as it stands on the plan.
func letterDisc(letter string) fyne.CanvasObject {
	c := canvas.NewCircle(of(theme.Ink))
	const wide = 22
	return container.NewGridWrap(fyne.NewSize(wide, wide), container.NewStack(c, container.NewCenter(bold(letter, theme.TextSecond, theme.Sheet))))
}

// turnPicture shows which way one goes on at a corner, having come up to it.
func turnPicture(insideDeg float64) fyne.CanvasObject {
	const long, tip = 11, 4
	on := plan.DirectionDeg(90 - (question.StraightDeg - insideDeg))
	end := plan.Point{0, long}.Add(on.Mul(long))
	path := []plan.Point{{0, 0}, {0, long}, end}
	head := []plan.Point{end.Add(plan.DirectionDeg(135).Mul(tip)), end, end.Add(plan.DirectionDeg(-135).Mul(tip))}
	if on.X() < 0 {
		head = []plan.Point{end.Add(plan.DirectionDeg(45).Mul(tip)), end, end.Add(plan.DirectionDeg(-45).Mul(tip))}
	}
	d := section.Drawing{Lines: []section.Line{{Points: path, Weight: section.Heavy}, {Points: head, Weight: section.Heavy}}}
	return sketch{drawing: d, low: plan.Point{min(end.X(), 0), 0}, high: plan.Point{max(end.X(), 0), long + tip}, loose: 2, ground: theme.Sheet}.object(26, 24)
}

// drawn makes the answers those of a room that is drawn otherwise. What hangs on it moves, and is told;
// walls that do not go together stay as they were said, with what is wrong with them.
func (s *Sheet) drawn(next question.Sheet) {
	settled, moved, problems := s.practice.Settle(next, "")
	s.tell()
	if len(problems) > 0 {
		settled = next
		if len(s.practice.Closes(next)) == 0 {
			s.tell(theme.Say(problems[0].Message(), next.Units))
		}
	}
	for _, m := range moved {
		s.tell(theme.Say(m.Message(), next.Units))
	}
	s.set(settled)
}

// previewed shows a drawn room that is not the answer yet.
func (s *Sheet) previewed(next question.Sheet) {
	if next != s.shown {
		s.shown = next
		s.refreshDrawn()
	}
}
