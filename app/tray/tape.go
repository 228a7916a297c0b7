package tray

import (
	"fmt"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// tapeRow are the measures of the room as the tape lies: along each wall from one of its corners, and across the room;
// under them what does not come out, with what can be done about it.
type tapeRow struct {
	tray    *Tray
	how     *control.Choice
	options []control.Option // of that
	lines   *fyne.Container
	cards   *fyne.Container
	marks   map[edit.Mark]*tapeLine
	across  map[[2]int]*tapeLine
	turns   map[int]*control.Press // by walls: hold the zero at the other corner
	begin   *control.Press
	intro   *control.Text // what begins with it
	aside   *control.Press
	// readMM is what was typed of walls, by their indices, before the room was measured: no reading is lost as it is then.
	readMM map[int]float64
	// keptMM is how far out of square the room is meant to be, as far as that was said here; 0 for not.
	keptMM float64
	told   string // what the cards say now
	box    *fyne.Container
}

// tapeLine is one figure with its name beside it.
type tapeLine struct {
	name *control.Text
	row  *NumberRow
	box  *fyne.Container
}

// How the lengths of walls are read: one after the other from a corner on, or each by itself.
const (
	tapeRunning = "running"
	tapeByWall  = "by-wall"
)

// The shortest wall or length across that is read on a tape, so that 2.4 can only be metres, and the longest.
const leastTapeMM, mostTapeMM = 20, 50000

// tape makes the measures of the room.
func (t *Tray) tape() *tapeRow {
	r := &tapeRow{tray: t, lines: container.New(apart{}), cards: container.New(apart{}),
		marks: map[edit.Mark]*tapeLine{}, across: map[[2]int]*tapeLine{}, turns: map[int]*control.Press{}, readMM: map[int]float64{}}
	r.options = []control.Option{{ID: tapeRunning, Text: theme.Word("tape.running")}, {ID: tapeByWall, Text: theme.Word("tape.by-wall")}}
	r.how = control.NewChoice(t.keys, theme.Word("tape.how"), r.options, tapeRunning, func(string) { r.Refresh(t.now) })
	r.begin = control.NewPress(t.keys, theme.Word("tape.begin"), func() { t.asks.Do(edit.Measuring(r.read(-1), edit.TakeTape())) })
	r.intro = caption(theme.Word("tape.begin.help"))
	r.aside = control.NewPress(t.keys, theme.Word("tape.aside"), func() { t.asks.Do(edit.PutTapeAside()) })
	r.box = container.New(apart{}, r.begin, r.intro, caption(theme.Word("tape.help")), r.how, r.lines, r.cards, r.aside)
	return r
}

// Object is all of it.
func (r *tapeRow) Object() fyne.CanvasObject { return r.box }

// There tells that it is.
func (r *tapeRow) There() bool { return true }

// key is none: it is of several inputs.
func (r *tapeRow) key() string { return "" }

// Refresh follows the job.
func (r *tapeRow) Refresh(j job.Job) {
	r.list(j)
	r.tell(j)
	visible(r.begin, !j.Room.Measured())
	visible(r.intro, !j.Room.Measured())
	visible(r.aside, j.Room.Measured())
}

// list shows the lines that a job has, each in the widget that it had before.
func (r *tapeRow) list(j job.Job) {
	var objects []fyne.CanvasObject
	show := func(l *tapeLine, name message.Message) {
		if text := theme.Sentence(name, j.Units); l.name.Text != text {
			l.name.SetText(text)
		}
		l.row.Refresh(j)
		objects = append(objects, l.box)
	}
	running := r.how.Chosen() == tapeRunning
	for _, wall := range j.Room.InOrder() {
		fromEnd := j.Room.ZeroAtEnd(wall)
		letter := message.Wall("wall", j.Room.Letter(wall))
		if running {
			objects = append(objects, r.head(&j, wall, fromEnd)...)
		}
		for _, m := range edit.Marks(j, wall, fromEnd) {
			switch {
			case !m.Taken():
			case running:
				show(r.mark(m), m.Label(j))
			case m.Kind == edit.MarkCorner:
				show(r.mark(m), message.Of("tape.wall", letter))
			}
		}
	}
	if pairs := r.pairs(&j); len(pairs) > 0 {
		objects = append(objects, labelOver(theme.Word("tape.to-check")))
		for _, p := range pairs {
			show(r.length(p), message.Of("tape.across", message.AtCorner("from", j.Room.Corner(p[0])), message.AtCorner("to", j.Room.Corner(p[1]))))
		}
	}
	// Anew only where others are there, as a field that has the keys must stay.
	same := func(a, b fyne.CanvasObject) bool {
		x, heading := a.(*control.Text)
		y, too := b.(*control.Text)
		return a == b || heading && too && x.Text == y.Text
	}
	if !slices.EqualFunc(objects, r.lines.Objects, same) {
		r.lines.Objects = objects
		r.lines.Refresh()
		r.keepInSight()
	}
}

// keepInSight scrolls to the field that is asked, where lines came or went around it.
func (r *tapeRow) keepInSight() {
	l := r.across[r.tray.lights.Across]
	if m := r.tray.lights.Mark; m != nil {
		l = r.marks[*m]
	}
	if s := r.tray.open; l != nil && s != nil && s.of == job.StationRoom {
		s.box.Refresh()
		s.scroll.Reveal(l.box)
	}
}

// head says along which wall the tape lies and from which corner, and lets that be the other one where it was measured.
func (r *tapeRow) head(j *job.Job, wall int, fromEnd bool) []fyne.CanvasObject {
	n := len(j.Room.Outline)
	from, other := wall, (wall+1)%n
	if fromEnd {
		from, other = other, from
	}
	text := theme.Say(message.Of("tape.along-from", message.Wall("wall", j.Room.Letter(wall)), message.AtCorner("corner", j.Room.Corner(from))), j.Units)
	out := []fyne.CanvasObject{labelOver(text)}
	if _, taped := j.Room.TapedAlong(wall); !taped {
		return out
	}
	p := r.turns[wall]
	if p == nil {
		p = control.NewPress(r.tray.keys, "", func() {
			m := edit.Mark{Kind: edit.MarkCorner, Wall: wall, FromEnd: !r.tray.now.Room.ZeroAtEnd(wall)}
			if mm, ok := m.MM(r.tray.now); ok {
				r.tray.asks.Do(m.Set(mm))
			}
		})
		p.Small = true
		r.turns[wall] = p
	}
	p.Set(theme.Say(message.Of("tape.from-other", message.AtCorner("corner", j.Room.Corner(other))), j.Units), false)
	return append(out, p)
}

// pairs are the corners between which a length across the room is asked for: all that were measured, and in a room of
// four corners both others; of one with more, those that are farthest apart.
func (r *tapeRow) pairs(j *job.Job) (out [][2]int) {
	const most = 2
	n := len(j.Room.Outline)
	var all [][2]int
	for _, a := range j.Room.InOrder() {
		for _, b := range j.Room.InOrder() {
			if a < b && b != a+1 && !(a == 0 && b == n-1) {
				all = append(all, [2]int{a, b})
			}
		}
	}
	taped := func(p [2]int) bool {
		_, ok := j.Room.TapedBetween(p[0], p[1])
		return ok
	}
	long := func(p [2]int) float64 { return j.Room.Outline[p[0]].Sub(j.Room.Outline[p[1]]).Len() }
	open := slices.DeleteFunc(slices.Clone(all), taped)
	slices.SortStableFunc(open, func(a, b [2]int) int { return int(math.Round(long(b) - long(a))) })
	open = open[:max(0, min(len(open), most-(len(all)-len(open))))]
	return slices.DeleteFunc(all, func(p [2]int) bool { return !taped(p) && !slices.Contains(open, p) })
}

// line makes a figure with its name beside it; lit is what is lit while it is asked.
func (r *tapeRow) line(n Number, asks Asks, lit section.Lit) *tapeLine {
	l := &tapeLine{name: control.NewWrapped("").Styled(theme.TextSecond, false, theme.Ink), row: NewNumberRow(n, asks, r.tray.keys, nil)}
	l.box = container.New(&besideName{}, l.name, l.row.Object())
	r.tray.lit[l.row.Field] = lit
	r.tray.helpOf(l.row, "item.room.tape.lengths.help", "")
	return l
}

// mark is the line of a mark along a wall.
func (r *tapeRow) mark(m edit.Mark) *tapeLine {
	if l := r.marks[m]; l != nil {
		return l
	}
	n := Number{Key: fmt.Sprintf("tape mark %v", m), Label: "edit.mark", Kind: unit.Along, Step: 1, Greatest: mostTapeMM, Beside: true,
		Get: func(j job.Job) float64 {
			mm, ok := m.MM(j)
			if _, taped := j.Room.TapedAlong(m.Wall); !ok || m.Kind == edit.MarkCorner && j.Room.Measured() && !taped {
				return nan()
			}
			return mm
		},
		Set: m.Set,
		About: func(j job.Job) message.Message {
			return message.Of("tape.mark-about", message.Wall("wall", j.Room.Letter(m.Wall)), message.In("mark", m.Label(j)))
		},
		Standing: func() string {
			if _, taped := r.tray.now.Room.TapedAlong(m.Wall); m.Kind == edit.MarkCorner && !taped {
				return edit.Side{Wall: m.Wall}.Key()
			}
			return m.Keys(r.tray.now)[0]
		}}
	asks := r.tray.asks
	if m.Kind == edit.MarkCorner {
		n.Least = leastTapeMM
		n.Set, n.Clear = func(mm float64) edit.Edit { return r.wall(m, mm) }, func() edit.Edit { return edit.NotAlong(m.Wall) }
		n.WorkedOut = func() float64 { return unit.AsRead(r.tray.now.Room.WallLengthMM(m.Wall), r.tray.now.Units) }
		asks = r.keeping(m.Wall)
	}
	r.marks[m] = r.line(n, asks, section.Lit{Mark: &m})
	return r.marks[m]
}

// wall is the edit of a wall's length. In a room that is drawn another wall goes along, as rooms are square; where that
// was typed itself both are readings, and the room is measured from then on.
func (r *tapeRow) wall(m edit.Mark, mm float64) edit.Edit {
	e := m.Set(mm)
	read := r.read(m.Wall)
	after := e.Apply(r.tray.asks.Job())
	for wall, was := range read {
		if math.Abs(after.Room.WallLengthMM(wall)-was) > sameReadingMM {
			return edit.Measuring(read, e)
		}
	}
	return e
}

// sameReadingMM is how much a wall may be longer or shorter than it was typed and be as it was: rounding.
const sameReadingMM = 0.05

// read are the lengths of walls that were typed and still are so, by the walls' indices, but for one wall.
func (r *tapeRow) read(but int) map[int]float64 {
	j, out := r.tray.asks.Job(), map[int]float64{}
	for wall, mm := range r.readMM {
		if wall != but && wall < len(j.Room.Outline) && math.Abs(j.Room.WallLengthMM(wall)-mm) <= sameReadingMM {
			out[wall] = mm
		}
	}
	return out
}

// keeping are the tray's asks, with what is typed of a wall kept as what was read of it.
func (r *tapeRow) keeping(wall int) Asks {
	asks := r.tray.asks
	keep := func(e edit.Edit, problems job.Problems) job.Problems {
		if j := asks.Job(); len(problems) == 0 && !j.Room.Measured() {
			if f, states := e.Figure(); states {
				r.readMM[wall] = f.Value
			}
		}
		return problems
	}
	do, live := asks.Do, asks.Live
	asks.Do = func(e edit.Edit) job.Problems { return keep(e, do(e)) }
	asks.Live = func(key string, e edit.Edit) job.Problems { return keep(e, live(key, e)) }
	return asks
}

// length is the line of a length across the room.
func (r *tapeRow) length(p [2]int) *tapeLine {
	if l := r.across[p]; l != nil {
		return l
	}
	at := func(j *job.Job) (int, bool) { return j.Room.TapedBetween(p[0], p[1]) }
	n := Number{Key: fmt.Sprintf("tape across %v", p), Label: "tape.to-check", Kind: unit.Along, Step: 1,
		Least: leastTapeMM, Greatest: mostTapeMM, Beside: true,
		Get: func(j job.Job) float64 {
			if i, ok := at(&j); ok {
				return j.Room.Tape.Lengths[i].LengthMM
			}
			return nan()
		},
		Set:   func(mm float64) edit.Edit { return edit.Measuring(r.read(-1), edit.Across(p[0], p[1], mm)) },
		Clear: func() edit.Edit { return edit.NotAcross(p[0], p[1]) },
		About: func(j job.Job) message.Message {
			return message.Of("tape.across", message.AtCorner("from", j.Room.Corner(p[0])), message.AtCorner("to", j.Room.Corner(p[1])))
		}}
	r.across[p] = r.line(n, r.tray.asks, section.Lit{Across: p})
	return r.across[p]
}

// tell shows what does not come out of the measures, and what can be done about it.
func (r *tapeRow) tell(j job.Job) {
	taken, ok := j.Room.Taken()
	lean, out := taken.OutOfSquare()
	keep := out && math.Abs(lean.MM) == r.keptMM
	told := ""
	for _, m := range taken.Told() {
		told += theme.Say(m, j.Units) + "\n"
	}
	if told = fmt.Sprint(told, keep); told == r.told {
		return
	}
	r.told = told
	r.cards.RemoveAll()
	if !ok {
		r.cards.Refresh()
		return
	}
	if said := taken.Open; len(said) > 0 {
		r.cards.Add(card(j, said[0], !taken.Fit.Closes, r.cures(j, &taken)...))
	}
	if said := taken.Square; len(said) > 0 && !keep {
		r.cards.Add(card(j, said[0], false,
			control.NewPress(r.tray.keys, theme.Word("tape.keep-so"), func() {
				r.keptMM = math.Abs(lean.MM)
				r.Refresh(r.tray.now)
			}),
			control.NewPress(r.tray.keys, theme.Word("tape.draw-square"), func() { r.tray.asks.Do(edit.DrawSquare()) })))
	}
	for _, m := range taken.Assumed {
		r.cards.Add(caption(theme.Sentence(m, j.Units)))
	}
	r.cards.Refresh()
}

// cures are what can be done about the one measure that is wrong.
func (r *tapeRow) cures(j job.Job, taken *job.Taken) (out []*control.Press) {
	b := taken.Fit.Blunder
	if b == nil {
		return nil
	}
	for _, cure := range edit.BlunderCures(j, *b) {
		out = append(out, control.NewPress(r.tray.keys, theme.Say(cure.What, j.Units), func() { r.tray.asks.Do(cure) }))
	}
	return out
}

// card says something with what can be done about it; grave where what was measured contradicts itself.
func card(j job.Job, said message.Message, grave bool, presses ...*control.Press) fyne.CanvasObject {
	buttons := container.New(control.Flow{Gap: theme.BetweenTwo})
	for _, p := range presses {
		p.Small = true
		buttons.Add(p)
	}
	text := control.NewWrapped(theme.Sentence(said, j.Units)).Styled(theme.TextSecond, false, theme.Ink)
	c := control.NewCard(container.New(control.Column{Gap: theme.Space2}, text, buttons))
	c.Fill, c.Edge = theme.TightGround, theme.TightGround
	standing := theme.Tight
	if grave {
		c.Fill, c.Edge, standing = theme.StopsGround, theme.StopsGround, theme.Stops
	}
	if len(presses) == 0 {
		buttons.Hide()
	}
	return c.Standing(standing)
}

// focus gives the keys to the field of a mark.
func (r *tapeRow) focus(m edit.Mark) {
	if r.how.Chosen() == tapeByWall && m.Kind != edit.MarkCorner {
		r.how.Set(r.options, tapeRunning)
		r.Refresh(r.tray.now)
	}
	if l := r.marks[m]; l != nil {
		r.tray.open.scroll.Reveal(l.box)
		l.row.Field.Focus()
	}
}

// besideName lays a name and its field beside each other.
type besideName struct{ width float32 }

// fieldShare is how much of the width the field has.
const fieldShare = 0.5

// MinSize is the least width, and the height in the width there is.
func (b *besideName) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least := theme.Of(objects[0]).Unit(cellLeast)/fieldShare + theme.Space2
	return fyne.NewSize(least, b.arrange(objects, max(least, b.width)))
}

// Layout places them.
func (b *besideName) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	b.width = size.Width
	b.arrange(objects, size.Width)
}

// arrange places name and field in a width and tells how high they come.
func (b *besideName) arrange(objects []fyne.CanvasObject, width float32) float32 {
	name, field := objects[0], objects[1]
	wide := width * fieldShare
	put := func(o fyne.CanvasObject, w float32) float32 {
		o.Resize(fyne.NewSize(w, o.MinSize().Height))
		least := o.MinSize().Height
		o.Resize(fyne.NewSize(w, least))
		return least
	}
	high, named := put(field, wide), put(name, width-wide-theme.Space2)
	field.Move(fyne.NewPos(width-wide, 0))
	all := max(high, named)
	name.Move(fyne.NewPos(0, max(0, (min(high, theme.Of(name).High(34))-named)/2)))
	return all
}
