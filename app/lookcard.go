package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// lookCard says what is worth looking at first, what that settles, and takes what was seen.
type lookCard struct {
	widget.BaseWidget
	keys     *control.Keys
	change   func(edit.Edit)
	card     *control.Card
	do, text *control.Text
	seen     *fyne.Container
}

func newLookCard(keys *control.Keys, change func(edit.Edit)) *lookCard {
	l := &lookCard{keys: keys, change: change, do: control.NewWrapped("").Styled(theme.TextBody, true, theme.Ink),
		text: control.NewWrapped("").Styled(theme.TextCaption, false, theme.Ink), seen: container.New(control.Flow{Gap: theme.BetweenTwo})}
	l.card = control.NewCard(container.New(control.Column{Gap: theme.Space1}, l.do, l.text, l.seen))
	l.card.Fill, l.card.Edge, l.card.Pad = theme.SoundGround, theme.Sound, theme.Space2
	l.ExtendBaseWidget(l)
	l.Hide()
	return l
}

// CreateRenderer shows the card.
func (l *lookCard) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(l.card) }

// Inside is the card.
func (l *lookCard) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{l.card} }

// tell shows the look that settles most; nothing takes the card away.
func (l *lookCard) tell(x *unknown.Exploration, u unit.System) {
	if x == nil || x.Look == nil {
		l.Hide()
		return
	}
	look := x.Look
	l.do.SetText(theme.Say(message.Of("app.look-first", message.In("do", look.Do)), u))
	said := theme.Say(look.Settles, u)
	for _, c := range look.Cautions {
		said += " " + theme.Say(c, u)
	}
	l.text.SetText(said)
	l.seen.RemoveAll()
	for _, v := range look.Of.Values {
		b := control.NewPress(l.keys, theme.Say(v.What, u), func() { l.change(v.Edit) })
		b.Small = true
		l.seen.Add(b)
	}
	l.Show()
	l.card.Refresh()
}
