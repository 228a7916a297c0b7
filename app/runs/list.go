package runs

import (
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/search"
	"underfall/geometry/ways"
)

// use is the button that tries a change of the job, and what it says while the job is another.
type use struct {
	button *control.Press
	change edit.Edit
	label  string
}

// show lists what was found, each with a picture and a button that tries it; what cannot be built as it stands comes
// last, folded away with what stops it.
func (p *Finder) show(s search.Outcome, closed []ways.Closed, of job.Job, pictures []image.Image, stopped bool) {
	p.clear()
	p.uses, p.ways = nil, nil
	p.note.SetText(theme.Say(ways.FoundNote(s, of, stopped), of.Units))
	p.group = &control.Group{}
	into := p.list
	if h := s.Hindrance; h != nil {
		p.why.SetText(theme.Word("run.why-none"))
		p.why.Box.Add(control.NewWrapped(theme.Say(ways.HindranceMessage(h, of), of.Units)).Styled(theme.TextSecond, false, theme.Ink))
	}
	var last message.ID
	for i, l := range ways.Listings(s) {
		if len(l.Stops) > 0 {
			into = p.why.Box
		}
		if l.Heading != last {
			into.Add(control.NewWrapped(theme.Word(l.Heading)).Styled(theme.TextField, true, theme.Ink))
		}
		last = l.Heading
		var picture image.Image
		if i < len(pictures) {
			picture = pictures[i]
		}
		into.Add(p.card(l, of, picture))
	}
	p.showClosed(closed, of)
	if s.Hindrance != nil {
		p.list.Add(p.why.Object())
		p.group.Add(p.why.Head)
	}
	p.scroll.Refresh()
}

// clear lists nothing.
func (p *Finder) clear() {
	p.list.RemoveAll()
	p.why.Box.RemoveAll()
	p.why.Open(false)
	p.scroll.ScrollTo(0)
	p.scroll.Refresh()
}

// showClosed lists the ways out that no run goes by, a line each: why, and what would cure it.
func (p *Finder) showClosed(closed []ways.Closed, of job.Job) {
	if len(closed) == 0 {
		return
	}
	p.list.Add(control.NewWrapped(theme.Word("run.closed")).Styled(theme.TextField, true, theme.Ink))
	for _, c := range closed {
		line := control.NewWrapped(theme.Say(c.Said, of.Units)).Styled(theme.TextSecond, false, theme.Ink)
		row := container.NewBorder(nil, nil, nil, nil, line)
		if c.Cured {
			row = container.NewBorder(nil, nil, nil, container.NewVBox(p.use(Way{c.Does, c.Edit})), line)
		}
		card := control.NewCard(row)
		card.Pad = theme.Space2
		p.list.Add(card)
	}
}

// use is a button that tries a way, which it keeps.
func (p *Finder) use(w Way) *control.Press {
	at := len(p.uses)
	u := use{change: w.Edit, label: theme.Word("trial.try")}
	u.button = control.NewPress(p.keys, u.label, func() { p.asks.Try(p.ways, at) })
	u.button.Small = true
	p.group.Add(u.button)
	p.uses, p.ways = append(p.uses, u), append(p.ways, w)
	return u.button
}

// card is a run of the list, with its picture if there is one and a button that tries it.
func (p *Finder) card(l ways.Listing, of job.Job, picture image.Image) fyne.CanvasObject {
	button := p.use(Way{l.Does(), l.Run.Change})
	small := func(s string, r theme.Role) *control.Text {
		return control.NewWrapped(s).Styled(theme.TextCaption, false, r)
	}
	var titles []string
	for _, m := range l.Title() {
		titles = append(titles, theme.Sentence(m, of.Units))
	}
	title := control.NewWrapped(strings.Join(titles, ". ")).Styled(theme.TextBody, true, theme.Ink)
	head := container.NewBorder(nil, nil, nil, container.NewVBox(button), title)
	box := container.New(control.Column{Gap: theme.Space1}, head)
	if picture != nil {
		drawn := canvas.NewImageFromImage(picture)
		drawn.FillMode = canvas.ImageFillContain
		drawn.SetMinSize(fyne.NewSize(150, 94))
		box.Add(drawn)
	}
	box.Add(small(detail(*l.Run, of, p.now), theme.Ink))
	box.Add(small(theme.Bare(l.Below(), of.Units), theme.Caption))
	card := control.NewCard(box)
	card.Pad = theme.Space2
	return card
}

// detail says in a line what a found run asks for.
func detail(a search.Alternative, of job.Job, now *ways.Raised) string {
	var texts []string
	for _, m := range ways.Detail(a, of, now) {
		texts = append(texts, theme.Bare(m, of.Units))
	}
	return strings.Join(texts, " · ")
}
