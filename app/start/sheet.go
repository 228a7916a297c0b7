package start

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/question"
)

// Region is a country that jobs can be made for.
type Region struct{ Code, Name string }

// SheetOptions are what a sheet gets and what it asks for.
type SheetOptions struct {
	Sheet   question.Sheet
	Regions []Region
	// PracticeIn is the practice of a region.
	PracticeIn func(region string) question.Practice
	// Answer works the first answer out and hands it on; of several asked for soon after each other
	// the last counts.
	Answer func(question.Practice, question.Sheet, func(First, bool))
	// Work puts the sheet's job on the desk, Back leads to the jobs.
	Work func(job.Job)
	Back func()
	// Kept is told the country and the units, which are asked once.
	Kept func(question.Sheet)
	// Answered is told the answers, whenever they have become others.
	Answered func(question.Sheet)
	Keys     *control.Keys
}

// Sheet is the page of six questions.
type Sheet struct {
	o        SheetOptions
	practice question.Practice
	at       question.Sheet // the answers
	shown    question.Sheet // with what is being typed or dragged
	undo     []question.Sheet
	redo     []question.Sheet
	first    First
	known    bool // whether there is a first answer

	fields  []*lengthField
	walls   *drawnWalls // of a room wall by wall
	follow  []func()    // what brings the rest of the page to the sheet
	board   *planBoard
	answers *fyne.Container
	look    *fyne.Container
	assumed *fyne.Container
	told    *fyne.Container
	// asking is the question, of each, that the keys were last in; −1 before.
	asking  int
	presses *control.Text   // what a wall is that is pressed on the plan, where that is not told otherwise
	left    *fyne.Container // the questions, or what is assumed
	scroll  *container.Scroll
	list    *openList
	asked   fyne.CanvasObject   // the questions, while what is open stands in their place
	each    []fyne.CanvasObject // the questions one by one
	column  *fyne.Container     // in which they stand one under the other
	outs    []wayOut
	tall    bool
	looking string            // the input of which it is asked what was seen; empty for none
	seen    *control.Press    // the first thing that may have been; nil while nothing is asked
	footing *canvas.Rectangle // keeps the plan where it is, however much is said below it
	object  fyne.CanvasObject
}

// mostUndone bounds what can be taken back.
const mostUndone = 200

// NewSheet makes the page.
func NewSheet(o SheetOptions) *Sheet {
	s := &Sheet{o: o, at: o.Sheet, shown: o.Sheet, asking: -1}
	s.practice = o.PracticeIn(o.Sheet.Region)
	s.board = newPlan(o.Keys, s.practice, s.shown)
	s.board.corner, s.board.wall, s.board.place = s.pressCorner, s.pressWall, s.pressPlace
	s.board.drag = func(next question.Sheet) { s.shown = next; s.refresh() }
	s.board.dropped = func() {
		if s.shown.Room.Shape == question.WallByWall {
			s.drawn(s.shown)
			return
		}
		s.set(s.shown)
	}
	s.answers, s.look, s.assumed, s.told = container.NewStack(), container.NewStack(), container.NewStack(), container.NewStack()
	s.object = s.lay()
	o.Keys.Focused = s.reveal
	s.refresh()
	return s
}

// Object is the page.
func (s *Sheet) Object() fyne.CanvasObject { return s.object }

// Sheet are the answers as they stand.
func (s *Sheet) Sheet() question.Sheet { return s.at }

// Focus has the keys go to the first length of the room and its door that is not answered, to the first of all where they are:
// the first question stays in sight, whatever is open far below.
func (s *Sheet) Focus() {
	s.firstField().Focus()
	s.scroll.ScrollToTop()
}

// firstField is the field that a sheet begins with.
func (s *Sheet) firstField() *control.Field {
	if s.at.Room.Shape == question.WallByWall {
		return s.walls.rows[0].long // what comes after may stand far below
	}
	var first *control.Field
	for _, f := range s.fields {
		begins := slices.Contains(beginsWith(), f.e) && s.at.Asked(f.e)
		if begins && !s.at.At(f.e).Given {
			return f.field
		}
		if begins && first == nil {
			first = f.field
		}
	}
	return first
}

// beginsWith are the lengths of the room and of its door, which stand at the top.
func beginsWith() []question.Entry {
	return []question.Entry{question.RoomLong, question.RoomWide, question.CutLong, question.CutWide, question.DoorWide, question.DoorFrom}
}

// set takes a sheet as the answers: a step that can be taken back.
func (s *Sheet) set(next question.Sheet) {
	if next == s.at {
		s.shown = next
		s.refresh()
		return
	}
	s.undo = append(s.undo, s.at)
	if len(s.undo) > mostUndone {
		s.undo = s.undo[1:]
	}
	s.redo = nil
	s.keep(next)
}

// keep makes a sheet the answers.
func (s *Sheet) keep(next question.Sheet) {
	if next.Region != s.at.Region {
		s.practice = s.o.PracticeIn(next.Region)
	}
	if next.Region != s.at.Region || next.Units != s.at.Units {
		s.o.Kept(next)
	}
	s.at, s.shown = next, next
	s.o.Answered(next)
	s.refresh()
}

// Undo takes the last answer back, Redo gives it again.
func (s *Sheet) Undo() { s.back(&s.undo, &s.redo) }

// Redo gives an answer again that was taken back.
func (s *Sheet) Redo() { s.back(&s.redo, &s.undo) }

func (s *Sheet) back(from, to *[]question.Sheet) {
	if n := len(*from); n > 0 {
		next := (*from)[n-1]
		*from, *to = (*from)[:n-1], append(*to, s.at)
		s.tell()
		s.keep(next)
	}
}

// take is what a field gives: it keeps its value, and what hangs on it moves, or it is refused.
func (s *Sheet) take(e question.Entry, l question.Length) error {
	next, moved, problems := s.practice.Settle(s.at.With(e, l), e)
	if len(problems) > 0 {
		s.shown = s.at
		s.refreshDrawn()
		return &message.Error{What: problems[0].Message()}
	}
	s.tell()
	for _, m := range moved {
		s.tell(theme.Say(m.Message(), s.at.Units))
	}
	s.set(next)
	return nil
}

// typed shows what a field would give.
func (s *Sheet) typed(e question.Entry, l question.Length) {
	next, _, problems := s.practice.Settle(s.at.With(e, l), e)
	if len(problems) == 0 && next != s.shown {
		s.shown = next
		s.refreshDrawn()
	}
}

// choose makes an answer that is no length; one that cannot be with the others is told, and nothing
// changed.
func (s *Sheet) choose(next question.Sheet) {
	settled, moved, problems := s.practice.Settle(next, "")
	if len(problems) > 0 {
		s.tell()
		s.tell(theme.Say(problems[0].Message(), s.at.Units))
		return
	}
	s.tell()
	for _, m := range moved {
		s.tell(theme.Say(m.Message(), s.at.Units))
	}
	s.set(settled)
}

// answer makes a sheet the answers that was made of them, or says why there is none.
func (s *Sheet) answer(next question.Sheet, problems []question.Problem) {
	s.tell()
	if len(problems) > 0 {
		s.tell(theme.Say(problems[0].Message(), s.at.Units))
		return
	}
	s.set(next)
}

// reveal brings what has the keys into sight, where it is one of what scrolls.
func (s *Sheet) reveal(o fyne.CanvasObject) {
	driver := fyne.CurrentApp().Driver()
	if driver.CanvasForObject(o) == nil || driver.CanvasForObject(s.scroll) == nil {
		return
	}
	s.askedIn(o)
	at, from := driver.AbsolutePositionForObject(o), driver.AbsolutePositionForObject(s.scroll)
	if at.X < from.X || at.X > from.X+s.scroll.Size().Width || !within(s.left, o) {
		return
	}
	top, high := at.Y-from.Y, o.MinSize().Height
	switch over := top + high + theme.Space1 - s.scroll.Size().Height; {
	case top < 0:
		s.scroll.ScrollToOffset(s.scroll.Offset.AddXY(0, top-theme.Space1))
	case over > 0:
		s.scroll.ScrollToOffset(s.scroll.Offset.AddXY(0, over))
	}
}

// within tells whether something stands in a container, or in one in it.
func within(c *fyne.Container, o fyne.CanvasObject) bool {
	for _, in := range c.Objects {
		if box, ok := in.(*fyne.Container); in == o || ok && within(box, o) {
			return true
		}
	}
	return false
}

// Escape leaves the list of what is open, or what is asked of a look; it tells whether there was any.
func (s *Sheet) Escape() bool {
	switch {
	case s.list != nil:
		s.goThrough()
	case s.looking != "":
		s.lookAt("")
	default:
		return false
	}
	return true
}

// toQuestion brings a question, by its number, into sight.
func (s *Sheet) toQuestion(n int) {
	if s.list != nil {
		s.goThrough()
	}
	s.scroll.ScrollToOffset(fyne.NewPos(0, s.each[n-1].Position().Y))
}

// tell says what moved, or why nothing did; without a sentence nothing is said any more.
func (s *Sheet) tell(sentences ...string) {
	if len(sentences) == 0 {
		s.told.RemoveAll()
	}
	for _, said := range sentences {
		box := stacked(theme.Space1)
		if len(s.told.Objects) > 0 {
			box = s.told.Objects[0].(*fyne.Container)
		} else {
			s.told.Add(box)
		}
		box.Add(paragraph(said, theme.TextSecond, theme.Ink))
	}
	s.told.Refresh()
}

// refresh brings the whole page to the sheet.
func (s *Sheet) refresh() {
	for _, f := range s.fields {
		f.show(s.shown, s.practice.UsualMM(s.shown, f.e))
	}
	for _, f := range s.follow {
		f()
	}
	// What is asked may have become more or less; text says how high it is once it knows how wide.
	for range 2 {
		s.column.Layout.Layout(s.column.Objects, s.column.Size())
	}
	s.refreshDrawn()
}

// refreshDrawn brings the plan and the first answer to the sheet as it is shown.
func (s *Sheet) refreshDrawn() {
	if !s.known {
		s.board.show(s.practice, s.shown, nil, nil)
	} else {
		s.board.show(s.practice, s.shown, s.first.Run, s.first.Drain)
	}
	asked := s.shown
	s.o.Answer(s.practice, asked, func(f First, ok bool) {
		if asked != s.shown {
			return
		}
		s.first, s.known = f, ok
		s.showFirst()
	})
}

// work puts the job on the desk.
func (s *Sheet) work() {
	j, problems := s.practice.Job(s.at)
	if len(problems) > 0 {
		s.tell()
		s.tell(theme.Say(problems[0].Message(), s.at.Units))
		return
	}
	if s.known && s.shown == s.at {
		j = s.first.Job // built the way that its answer is of
	}
	s.o.Work(j)
}

// lay puts the page together.
func (s *Sheet) lay() fyne.CanvasObject {
	undo := control.NewPress(s.o.Keys, theme.Word("tool.undo"), s.Undo).WithIcon(theme.IconUndo)
	back := control.NewPress(s.o.Keys, theme.Word("start.back"), s.o.Back)
	back.Key = theme.Word("app.key-escape")
	top := container.NewHBox(container.NewCenter(bold(theme.Word("start.new"), theme.TextHeading, theme.Ink)), gap(theme.Space2, 1),
		container.NewCenter(line(theme.Word("start.all-can-be-changed"), theme.TextCaption, theme.Caption)), layout.NewSpacer(), undo, back)
	s.left = container.NewStack(s.questions())
	s.scroll = besideBar(s.left)
	work := sized(workWide, theme.LargeHeight, control.NewFilled(s.o.Keys, theme.Word("start.work"), s.work))
	nothing := container.New(upright{}, paragraph(theme.Word("start.nothing-else"), theme.TextCaption, theme.Caption))
	foot := stacked(theme.Space1, s.told, thin(), s.assumed, container.NewBorder(nil, nil, nil, work, nothing))
	left := sheetOf(theme.Sheet, theme.Line, theme.Space3, container.New(&over{theme.Space1}, s.scroll, foot))
	s.presses = line(theme.Word("start.plan-letters"), theme.TextCaption, theme.Caption)
	heading := container.NewHBox(bold(theme.Word("start.plan"), theme.TextHeading, theme.Ink), container.NewCenter(s.presses))
	drawn := sheetOf(theme.Sheet, theme.Line, theme.Space2, container.NewBorder(heading, nil, nil, nil, s.board))
	s.footing = canvas.NewRectangle(color.Transparent)
	s.footing.SetMinSize(fyne.NewSize(1, footTall))
	right := container.New(&over{theme.Space2}, drawn, container.NewStack(s.footing, stacked(theme.Space2, s.answers, s.look)))
	return container.New(inset{12, 8}, container.NewBorder(container.New(inset{2, 2}, top), nil, nil, nil,
		container.New(&columns{resized: s.resized, needs: s.questionsNeed}, left, right)))
}

// workWide is how wide the button is that puts the job on the desk.
const workWide = 210

// questionsNeed is how wide the column of questions is at least, with its edges and the bar beside it.
func (s *Sheet) questionsNeed() float32 {
	return s.scroll.MinSize().Width + 2*theme.Space3
}

// resized shows the cards anew where the page has become high enough for their pictures, or no
// longer is.
func (s *Sheet) resized() {
	if tall := s.object != nil && s.object.Size().Height >= tallFrom; tall != s.tall {
		s.tall = tall
		high := float32(footLow)
		if tall {
			high = footTall
		}
		s.footing.SetMinSize(fyne.NewSize(1, high))
		if s.known {
			s.showFirst()
		}
	}
}

// How high what stands under the plan is at least, with pictures on the cards and without.
const (
	footTall = 300
	footLow  = 236
)

// columns sets the questions beside the plan.
type columns struct {
	resized func()
	// needs is how wide the questions are at least.
	needs func() float32
}

// Widths of the column of questions, by that of the page.
const (
	questionsWide = 424
	questionsLess = 400
	columnsFrom   = 1180
)

// Layout places them.
func (c *columns) Layout(o []fyne.CanvasObject, s fyne.Size) {
	wide := float32(questionsWide)
	if s.Width < columnsFrom {
		wide = questionsLess
	}
	wide = max(wider(wide, o[0]), min(c.needs(), s.Width/2))
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(wide, s.Height))
	o[1].Move(fyne.NewPos(wide+theme.Space2, 0))
	o[1].Resize(fyne.NewSize(s.Width-wide-theme.Space2, s.Height))
	c.resized()
}

// MinSize is that of the least window.
func (c *columns) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(980, 560) }

// heading is that of a question: its number, filled once it is answered.
func (s *Sheet) heading(number, title, aside string, answered func() bool) fyne.CanvasObject {
	c := canvas.NewCircle(of(theme.Sheet))
	n := bold(number, theme.TextSecond, theme.Ink)
	c.StrokeWidth = 1.5
	show := func() {
		c.FillColor, c.StrokeColor, n.Role = of(theme.Sheet), of(theme.Ink), theme.Ink
		if answered() {
			c.FillColor, n.Role = of(theme.Ink), theme.Sheet
		}
		c.Refresh()
		n.Refresh()
	}
	s.follow = append(s.follow, show)
	disc := container.NewGridWrap(fyne.NewSize(22, 22), container.NewStack(c, container.NewCenter(n)))
	return container.NewHBox(container.NewCenter(disc), container.NewCenter(bold(title, theme.TextHeading, theme.Ink)), layout.NewSpacer(),
		container.NewCenter(line(aside, theme.TextCaption, theme.Caption)))
}
