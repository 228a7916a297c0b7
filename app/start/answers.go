package start

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
)

// showFirst shows the first answer, what is worth looking at, and how much is assumed.
func (s *Sheet) showFirst() {
	if !s.known {
		s.answers.Objects = []fyne.CanvasObject{line(theme.Word("start.no-answer"), theme.TextSecond, theme.Caption)}
		s.look.Objects, s.assumed.Objects = nil, nil
	} else {
		s.board.show(s.practice, s.shown, s.first.Run, s.first.Drain)
		s.answers.Objects = []fyne.CanvasObject{s.cards()}
		s.look.Objects = s.lookBand()
		s.assumed.Objects = []fyne.CanvasObject{s.assumedBand()}
	}
	s.answers.Refresh()
	s.look.Refresh()
	s.assumed.Refresh()
}

// cards are the cases beside each other.
func (s *Sheet) cards() fyne.CanvasObject {
	head := container.NewHBox(bold(theme.Word("start.first-answer"), theme.TextHeading, theme.Ink),
		container.NewCenter(line(theme.Say(s.first.Lead, s.shown.Units), theme.TextSecond, theme.Caption)))
	const beside = 3
	row := container.NewGridWithColumns(max(min(len(s.first.Cases), beside), 1))
	for _, c := range s.first.Cases {
		row.Add(s.card(c))
	}
	return container.NewVBox(head, row)
}

// card is one case: its vial, its build-up, the step, how one would build.
func (s *Sheet) card(c Case) fyne.CanvasObject {
	vial := theme.VialOf(c.Standing)
	head := container.NewHBox(mark(vial, 30), bold(theme.Say(c.Title, s.shown.Units), theme.TextBody, theme.Ink))
	figure := container.NewVBox(line(theme.Word("start.step-at-way-in"), theme.TextCaption, theme.Caption), bold("–", theme.TextFigure, theme.Ink))
	if c.Step != nil {
		figure.Objects[1] = bold(theme.Say(lengthMessage(abs(c.Step.MM)), s.shown.Units), theme.TextFigure, theme.Ink)
	}
	pic := fyne.CanvasObject(gap(88, 58))
	if c.HasBuild {
		pic = stepSketch(c.Build).object(88, 58)
	}
	says := line(theme.Say(c.How, s.shown.Units), theme.TextSecond, theme.Ink)
	below := line("", theme.TextCaption, theme.Caption)
	if c.Step != nil && c.Standing != geometry.Stops {
		below.Text = theme.Word("start.kind-and-chance", message.In("kind", message.Of(kindOf(*c.Step))), message.No("n", c.Chance))
	}
	return sheetOf(theme.Sheet, theme.Line, theme.Space2, container.NewVBox(head,
		container.NewHBox(container.NewCenter(pic), gap(theme.Space1, 1), container.NewCenter(figure)), says, below))
}

// kindOf is the id of what a step is for who walks over it.
func kindOf(s geometry.Step) message.ID {
	return map[geometry.StepKind]message.ID{geometry.Flush: "start.kind.flush", geometry.Lip: "start.kind.lip", geometry.AStep: "start.kind.step"}[s.Kind]
}

// lookBand is what is worth looking at first; nothing where all is known.
func (s *Sheet) lookBand() []fyne.CanvasObject {
	l := s.first.Look
	if l.What.IsZero() {
		return nil
	}
	text := container.NewVBox(bold(theme.Word("start.worth-looking", message.In("what", l.What)), theme.TextBody, theme.Ink),
		line(theme.Say(l.Settles, s.shown.Units), theme.TextSecond, theme.Ink))
	looked := control.NewPress(s.o.Keys, theme.Word("start.looked"), s.lookedFor)
	return []fyne.CanvasObject{sheetOf(theme.SoundGround, theme.Sound, theme.Space2,
		container.NewBorder(nil, nil, nil, container.NewCenter(looked), text))}
}

// lookedFor brings the question that the look answers into sight.
func (s *Sheet) lookedFor() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s.object); c != nil {
		s.scroll.ScrollToBottom()
	}
}

// assumedBand says how much is assumed, and leads through it.
func (s *Sheet) assumedBand() fyne.CanvasObject {
	n := len(s.first.Assumed)
	edge := canvas.NewRectangle(of(theme.UnknownGround))
	edge.StrokeColor, edge.StrokeWidth, edge.CornerRadius = of(theme.Unknown), 1, theme.PlateRadius
	count := container.NewStack(edge, container.New(inset{6, 2}, line(theme.Word("start.assumed", message.No("n", n)), theme.TextCaption, theme.Unknown)))
	through := control.NewPress(s.o.Keys, theme.Word("start.go-through"), s.goThrough)
	return container.NewHBox(container.NewCenter(count), layout.NewSpacer(), through)
}
