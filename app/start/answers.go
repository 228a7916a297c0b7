package start

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// showFirst shows the first answer, what is worth looking at, and how much is assumed.
func (s *Sheet) showFirst() {
	if !s.known {
		s.board.show(s.practice, s.shown, nil, nil)
		said := paragraph("", theme.TextBody, theme.Ink)
		said.Lead = theme.Word("start.no-answer")
		if problems := s.practice.Check(s.shown); len(problems) > 0 {
			said.Text = theme.Say(problems[0].Message(), s.shown.Units)
		}
		s.answers.Objects = []fyne.CanvasObject{said}
		s.look.Objects, s.assumed.Objects = nil, nil
	} else {
		s.board.show(s.practice, s.shown, s.first.Run, s.first.Drain)
		s.answers.Objects = []fyne.CanvasObject{s.cards()}
		s.look.Objects = s.lookBand()
		s.assumed.Objects = []fyne.CanvasObject{s.assumedBand()}
		if s.list != nil {
			s.list.show()
		}
	}
	s.answers.Refresh()
	s.look.Refresh()
	s.assumed.Refresh()
}

// cards are the cases beside each other.
func (s *Sheet) cards() fyne.CanvasObject {
	head := paragraph(theme.Say(s.first.Answer.Headline(), s.shown.Units), theme.TextBody, theme.Ink)
	head.Lead = theme.Word("start.first-answer")
	if l := s.first.Look; !s.tall && l != nil && s.asks(l) {
		return head // what may be stands below, to be pressed
	}
	row := container.New(&deck{})
	for _, c := range s.first.Cases {
		row.Add(s.card(c))
	}
	return stacked(theme.Space1, head, container.NewHScroll(row))
}

// deck sets cards beside each other: as wide as there is room, no narrower than can be read.
type deck struct{}

// Widths of a card.
const (
	cardLeast = 196
	cardMost  = 420
	cardGap   = 8
)

// Layout places them.
func (d *deck) Layout(o []fyne.CanvasObject, s fyne.Size) {
	n := float32(len(o))
	wide := min(max((s.Width-(n-1)*cardGap)/n, cardLeast), cardMost)
	for i, c := range o {
		c.Move(fyne.NewPos(float32(i)*(wide+cardGap), 0))
		c.Resize(fyne.NewSize(wide, s.Height-cardGap))
	}
}

// MinSize is of the narrowest cards, with room under them for the scroll bar.
func (d *deck) MinSize(o []fyne.CanvasObject) fyne.Size {
	high := float32(0)
	for _, c := range o {
		high = max(high, c.MinSize().Height)
	}
	n := float32(len(o))
	return fyne.NewSize(n*cardLeast+(n-1)*cardGap, high+cardGap)
}

// tallFrom is how high the page is at least where the cards have room for their pictures.
const tallFrom = 740

// card is one case: its vial, its build-up, the step, how one would build.
func (s *Sheet) card(c Case) fyne.CanvasObject {
	title := boldly(theme.Sentence(c.Title, s.shown.Units), theme.TextSecond, theme.Ink)
	head := container.NewBorder(nil, nil, container.NewVBox(gap(1, 2), mark(theme.VialOf(c.Standing), 26)), nil, title)
	step := container.NewVBox(line(theme.Word(c.stepsIn()), theme.TextCaption, theme.Caption))
	below := ""
	if c.HasStep {
		step.Add(bold(c.steps(s.shown.Units), theme.TextFigure, theme.Ink))
		if c.Standing != geometry.Stops {
			below = theme.Word("start.kind-and-chance", message.In("kind", message.Of(kindOf(c.Step))), message.No("n", c.Chance))
		}
	}
	built := container.NewHBox(container.NewCenter(step))
	if c.HasBuild && s.tall {
		picture := container.NewCenter(stepSketch(c.Build).object(80, 56))
		built.Objects = append([]fyne.CanvasObject{picture, gap(theme.Space1, 1)}, built.Objects...)
	}
	return sheetOf(theme.Sheet, theme.Line, theme.Space2, stacked(theme.Space1, head, built,
		paragraph(theme.Say(c.How, s.shown.Units), theme.TextSecond, theme.Ink), paragraph(below, theme.TextCaption, theme.Caption)))
}

// stepsIn is the id of the word for how one steps in: up, down, or neither.
func (c Case) stepsIn() message.ID {
	switch {
	case !c.HasStep || c.Step.Kind == geometry.Flush:
		return "start.step-at-way-in"
	case c.Step.MM < 0:
		return "start.step-down"
	}
	return "start.step-up"
}

// steps is how high one steps in: from the least to the greatest of possibilities that come to the same.
func (c Case) steps(u unit.System) string {
	if c.Steps.SpreadMM() == 0 {
		return figure(abs(unit.RiseRead(c.Step.Rise, u)), u)
	}
	least, greatest := figure(c.Steps.LeastMM, u), figure(c.Steps.GreatestMM, u)
	if least == greatest {
		return least
	}
	return least + "–" + greatest
}

// figure is a length as a figure by itself: whole millimetres without their unit, or inches.
func figure(mm float64, u unit.System) string {
	if u == unit.Metric {
		return unit.Editable(math.Round(mm), unit.Length, unit.Metric)
	}
	return theme.Say(lengthMessage(mm), u)
}

// along is a length along the floor as a figure by itself, as figure is one: in feet and inches from a foot up.
func along(mm float64, u unit.System) string {
	if u == unit.Metric {
		return figure(mm, u)
	}
	return theme.Say(message.Of("start.length", message.Along("mm", mm)), u)
}

// kindOf is the id of what a step is for who walks over it.
func kindOf(s geometry.Step) message.ID {
	switch s.Kind {
	case geometry.Flush:
		return "start.kind.flush"
	case geometry.Lip:
		return "start.kind.lip"
	}
	return "start.kind.step"
}

// lookBand is what is worth looking at first; nothing where all comes to the same.
func (s *Sheet) lookBand() []fyne.CanvasObject {
	l := s.first.Look
	if l == nil {
		return nil
	}
	what := paragraph(theme.Say(l.Settles, s.shown.Units), theme.TextSecond, theme.Ink)
	what.Lead = theme.Word("start.worth-looking", message.In("do", l.Do))
	if s.asks(l) {
		return []fyne.CanvasObject{s.seenBand(l)}
	}
	text := stacked(2, what)
	if len(l.Cautions) > 0 && s.tall {
		text.Add(paragraph(theme.Say(l.Cautions[0], s.shown.Units), theme.TextCaption, theme.Caption))
	}
	said := beside(l.Of.Key, text)
	if len(l.Of.Values) == 0 { // what was seen has no answer here; its field is one of the job's
		return []fyne.CanvasObject{sheetOf(theme.SoundGround, theme.Sound, theme.Space2, said)}
	}
	looked := control.NewPress(s.o.Keys, theme.Word("start.looked"), func() { s.lookAt(l.Of.Key) })
	return []fyne.CanvasObject{sheetOf(theme.SoundGround, theme.Sound, theme.Space2,
		container.NewBorder(nil, nil, nil, container.NewCenter(looked), said))}
}

// beside sets the small picture of a look beside what is said of it, where there is one.
func beside(key string, text fyne.CanvasObject) fyne.CanvasObject {
	picture, ok := lookSketch(key)
	if !ok {
		return text
	}
	const wide, high = 54, 47
	return container.NewBorder(nil, nil, container.NewCenter(container.NewHBox(picture.object(wide, high), gap(theme.Space1, 1))), nil, text)
}

// asks tells whether it is being asked what was seen in a look.
func (s *Sheet) asks(l *unknown.Look) bool { return s.looking != "" && s.looking == l.Of.Key }

// seenBand asks what who has looked has seen: each thing that may be is a button.
func (s *Sheet) seenBand(l *unknown.Look) fyne.CanvasObject {
	s.seen = nil
	seen := container.New(&flowing{gap: theme.BetweenTwo, width: s.answers.Size().Width})
	for _, v := range l.Of.Values {
		b := control.NewPress(s.o.Keys, theme.Say(v.What, s.shown.Units), func() {
			s.looking = ""
			s.answer(s.practice.Say(s.at, l.Of.Key, v.Edit))
		})
		b.Small = true
		seen.Add(b)
		if s.seen == nil {
			s.seen = b
		}
	}
	if _, is := job.Find(l.Of.Key); is && questionOf(l.Of.Key) == 0 {
		value, follow := s.openValue(l.Of.Key)
		follow(&s.first.Job, job.Assumed)
		seen.Add(value)
	}
	seen.Add(control.NewPress(s.o.Keys, theme.Word("start.not-seen"), func() { s.lookAt("") }))
	ask := paragraph(theme.Say(l.Do, s.shown.Units), theme.TextSecond, theme.Ink)
	ask.Lead = theme.Word("start.what-is-there")
	if len(l.Cautions) > 0 && !s.tall { // who looks is told in time
		ask.Text += " " + theme.Say(l.Cautions[0], s.shown.Units)
	}
	return sheetOf(theme.SoundGround, theme.Sound, theme.Space2, stacked(theme.Space1, ask, seen))
}

// lookAt asks what there was to be seen of an input; without one it no longer does.
func (s *Sheet) lookAt(key string) {
	s.looking = key
	s.showFirst()
	if key != "" && s.seen != nil {
		control.FocusOn(s.seen)
	}
}

// assumedBand says how much is assumed, and leads through it.
func (s *Sheet) assumedBand() fyne.CanvasObject {
	keys := s.first.Assumed
	count := brokenEdge(line(theme.Word("start.assumed", message.No("n", len(keys))), theme.TextCaption, theme.Unknown))
	var some []string
	for _, key := range keys {
		if m, is := s.standsIn(key); is && len(some) < assumedTold {
			some = append(some, theme.Say(m, s.shown.Units))
		}
	}
	if len(keys) > len(some) {
		some = append(some, "…")
	}
	word := theme.Word("start.go-through")
	if s.list != nil {
		word = theme.Word("start.back-to-questions")
	}
	through := control.NewPress(s.o.Keys, word, s.goThrough)
	return container.NewBorder(nil, nil, container.NewCenter(count), through, container.New(upright{}, paragraph(strings.Join(some, " · "), theme.TextCaption, theme.Caption)))
}

// assumedTold is how much of what is assumed is named beside how much it is.
const assumedTold = 2

// standsIn says what stands in for an input that is a number; it tells whether it is one.
func (s *Sheet) standsIn(key string) (m message.Message, is bool) {
	told := func(name message.Message, v float64, kind unit.Kind) message.Message {
		return message.Of("start.stands-in", message.In("what", name), message.Name("value", unit.Editable(v, kind, s.shown.Units)))
	}
	if e, ok := s.at.EntryOf(key); ok {
		return told(message.Of(e.Name()), taped(s.practice.UsualMM(s.at, e), s.at.Units, math.Floor), unit.Along), true
	}
	if p, ok := job.Find(key); ok {
		return told(message.Of(p.Label()), p.Get(s.first.Job), p.Kind), true
	}
	return m, false
}
