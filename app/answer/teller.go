package answer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
)

// Teller says what has become of the last change: what moved along with it, why it was not made
// and what would let it be, that it is saved. It says nothing where there is nothing to say.
type Teller struct {
	widget.BaseWidget
	keys   *control.Keys
	card   *control.Card
	sign   *fyne.Container // the sign of what is refused
	text   *control.Text
	offers *fyne.Container
}

// Offer is something to press about what is told.
type Offer = control.Offer

// NewTeller makes one that says nothing.
func NewTeller(keys *control.Keys) *Teller {
	t := &Teller{keys: keys, text: control.NewWrapped("").Styled(theme.TextSecond, false, theme.Ink),
		offers: container.New(control.Flow{Gap: theme.BetweenTwo})}
	stops := control.NewSign(theme.VialOf(geometry.Stops), control.VialRow, theme.Word(geometry.Stops.Name()))
	t.sign = container.NewVBox(container.NewGridWrap(fyne.NewSize(control.VialRow, titleHeight), stops))
	t.sign.Hide()
	t.card = control.NewCard(container.New(control.Column{Gap: theme.Space2}, container.NewBorder(nil, nil, t.sign, nil, t.text), t.offers))
	t.ExtendBaseWidget(t)
	t.Hide()
	return t
}

// CreateRenderer shows the card.
func (t *Teller) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.card) }

// Inside is the card.
func (t *Teller) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{t.card} }

// Text is what it says; empty for nothing.
func (t *Teller) Text() string { return t.text.Text }

// Tell says something, bad or not, with what can be done about it: the first is offered before
// the others. Nothing to say takes it away.
func (t *Teller) Tell(text string, bad bool, offers ...Offer) {
	if text == "" && !t.Visible() {
		return
	}
	t.card.Fill, t.card.Edge, t.card.EdgeWidth = theme.Sunk, theme.Line, theme.EdgeWidth
	if bad {
		t.card.Fill, t.card.Edge, t.card.EdgeWidth = theme.StopsGround, theme.Stops, theme.FocusWidth
	}
	t.sign.Hidden = !bad
	t.text.SetText(text)
	t.offer(bad, offers)
	if text == "" {
		t.Hide()
	} else {
		t.Show()
	}
	t.card.Refresh()
}

// offer makes the buttons.
func (t *Teller) offer(bad bool, offers []Offer) {
	t.offers.RemoveAll()
	for i, o := range offers {
		b := control.NewPress(t.keys, o.Text, o.Do)
		b.Small, b.Filled = true, bad && i == 0
		t.offers.Add(b)
	}
	if len(offers) == 0 {
		t.offers.Hide()
	} else {
		t.offers.Show()
	}
}

// Offers are the buttons there are, by their texts.
func (t *Teller) Offers() (out []string) {
	for _, o := range t.offers.Objects {
		out = append(out, o.(*control.Press).Text)
	}
	return out
}

// Press presses the button with a text; it tells whether there is one.
func (t *Teller) Press(text string) bool {
	for _, o := range t.offers.Objects {
		if p := o.(*control.Press); p.Text == text {
			p.OnPressed()
			return true
		}
	}
	return false
}
