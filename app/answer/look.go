package answer

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// Look says what is worth looking at first, what that settles, what the job comes to by what is seen,
// and takes what was seen.
type Look struct {
	widget.BaseWidget
	keys           *control.Keys
	do             func(edit.Edit)
	card           *control.Card
	title, settles *control.Text
	outcomes       *control.Text
	seen           *fyne.Container
}

// NewLook makes one that says nothing; do is handed what was seen, as a change of the job.
func NewLook(keys *control.Keys, do func(edit.Edit)) *Look {
	small := func() *control.Text {
		return control.NewWrapped("").Styled(theme.TextCaption, false, theme.Ink)
	}
	l := &Look{keys: keys, do: do, title: control.NewWrapped("").Styled(theme.TextBody, true, theme.Ink),
		settles: small(), outcomes: small(), seen: container.New(control.Flow{Gap: theme.BetweenTwo})}
	l.card = control.NewCard(container.New(control.Column{Gap: theme.Space1}, l.title, l.outcomes, l.settles, l.seen))
	l.card.Fill, l.card.Edge, l.card.Pad = theme.SoundGround, theme.Sound, theme.Space2
	l.ExtendBaseWidget(l)
	l.Hide()
	return l
}

// CreateRenderer shows the card.
func (l *Look) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(l.card) }

// Inside is the card.
func (l *Look) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{l.card} }

// Tell shows the look that settles most; nothing takes the card away.
func (l *Look) Tell(x *unknown.Exploration, u unit.System) {
	if x == nil || x.Look == nil {
		l.Hide()
		return
	}
	first := x.Look
	l.title.SetText(theme.Say(message.Of("app.look-first", message.In("do", first.Do)), u))
	said := theme.Say(first.Settles, u)
	for _, c := range first.Cautions {
		said += " " + theme.Say(c, u)
	}
	l.settles.SetText(said)
	l.outcomes.SetText(lines(comesTo(x), u))
	l.seen.RemoveAll()
	for _, v := range first.Of.Values {
		b := control.NewPress(l.keys, words.Capital(theme.Say(v.Alone(), u)), func() { l.do(v.Edit) })
		b.Small = true
		l.seen.Add(b)
	}
	l.Show()
	l.card.Refresh()
}

// comesTo says what the job comes to by what is not known, possibilities that come to the same together,
// and what knowing each of it is worth.
func comesTo(x *unknown.Exploration) (out []message.Message) {
	if len(x.Cases) > 1 {
		for _, o := range x.Outcomes() {
			out = append(out, o.Message())
		}
	}
	for _, u := range slices.Concat(x.Unknowns, x.Assumed) {
		if u.Worth.Matters() {
			out = append(out, message.Of("look.worth", message.In("what", u.What), message.In("worth", u.Worth.Message())))
		}
	}
	return out
}
