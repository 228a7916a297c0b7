// Package answer is the room of the window that says how the job stands: the plate with the
// one answer, always in sight.
package answer

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// Plate is the one answer: how the job stands, the step, the raise and the way out, in how
// many builds it comes right, and what sets the height.
type Plate struct {
	widget.BaseWidget
	card     *control.Card
	vial     *control.Vial
	headline *control.Text
	notes    *control.Text
	figures  [3]figure
	chance   *control.Text
	row      *fyne.Container // of the figures
	strip    *control.Sign
	setBy    *control.Text
	standing geometry.Standing
}

// figure is one number with what it is of above and what it is made of below.
type figure struct{ caption, value, line *control.Text }

// New makes the plate; it says nothing yet.
func New() *Plate {
	small := func() *control.Text {
		return control.NewWrapped("").Styled(theme.TextCaption, false, theme.Caption)
	}
	p := &Plate{vial: control.NewVial(control.VialPlate), headline: control.NewWrapped("").Styled(theme.TextHeadline, true, theme.Ink),
		notes: small(), chance: control.NewWrapped("").Styled(theme.TextSecond, false, theme.Ink), setBy: small()}
	const stripWidth = 260
	p.strip = control.NewSign(theme.ChanceOf(0), stripWidth, "")
	var row []fyne.CanvasObject
	var values []*control.Text
	for i := range p.figures {
		f := &p.figures[i]
		f.caption, f.line = small(), small()
		f.value = control.NewText("").Styled(theme.TextFigure, true, theme.Ink)
		values, row = append(values, f.value), append(row, container.New(control.Column{}, f.caption, f.value, f.line))
	}
	p.row = container.New(figuresRow{control.Columns{Gap: theme.Space2}, values}, row...)
	head := container.NewBorder(nil, nil, container.NewCenter(p.vial), nil, container.New(layout.NewCustomPaddedLayout(0, 0, theme.Space3, 0), container.New(control.Column{Gap: 2}, p.headline, p.notes)))
	p.card = control.NewCard(container.New(control.Column{Gap: theme.Space2}, head, control.NewRule(), p.row, control.NewRule(),
		p.chance, container.NewHBox(p.strip), control.NewRule(), p.setBy))
	p.ExtendBaseWidget(p)
	return p
}

// CreateRenderer shows the card.
func (p *Plate) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.card) }

// Headline is what it says first.
func (p *Plate) Headline() string { return p.headline.Text }

// Standing is how the job that is shown stands.
func (p *Plate) Standing() geometry.Standing { return p.standing }

// Behind is all that it says behind the headline.
func (p *Plate) Behind() string {
	said := []string{p.notes.Text}
	for _, f := range p.figures {
		said = append(said, f.caption.Text, f.value.Text, f.line.Text)
	}
	return strings.Join(append(said, p.chance.Text, p.setBy.Text), "\n")
}

// longHeadline is how many letters a headline may have in the large size.
const longHeadline = 40

// Tell says what a job comes to.
func (p *Plate) Tell(r geometry.Result, a geometry.Answer) {
	u := r.Settled.Units
	p.standing = a.Standing
	role, _ := theme.OfStanding(a.Standing)
	p.card.Standing(role)
	p.vial.Set(a.Standing, theme.Word(a.Standing.Name()))
	headline := theme.Say(a.Headline(), u)
	p.headline.Styled(theme.TextHeadline, true, theme.Ink)
	if len([]rune(headline)) > longHeadline {
		p.headline.Styled(theme.TextHeading, true, theme.Ink)
	}
	set(p.headline, headline)
	set(p.notes, lines(a.Brief(), u))
	figures := r.Figures()
	for i := range p.figures {
		var of, value, line string
		if i < len(figures) {
			f := figures[i]
			of, value, line = theme.Bare(f.Of, u), theme.Bare(f.Value, u), theme.Bare(f.Line, u)
		}
		set(p.figures[i].caption, of)
		set(p.figures[i].value, value)
		set(p.figures[i].line, line)
	}
	p.row.Refresh()
	set(p.chance, theme.Say(a.ChanceLine(), u))
	if a.ChanceLine().IsZero() {
		p.strip.Hide()
	} else {
		p.strip.Set(theme.ChanceOf(a.InHundred()), p.chance.Text)
		p.strip.Show()
	}
	set(p.setBy, theme.Say(a.SetByLine(), u))
	p.card.Refresh()
}

// ToSettle counts what is to be settled, as the headline does, and what is only to be noted.
func ToSettle(a geometry.Answer) (settle, notes int) {
	notes = len(a.Of(rule.Note))
	return len(a.Cards) - notes, notes
}

// set writes a text where it is another; nothing takes no room.
func set(t *control.Text, s string) {
	if t.Text != s {
		t.SetText(s)
	}
	if s == "" {
		t.Hide()
	} else {
		t.Show()
	}
}

// lines are messages one under the other.
func lines(of []message.Message, u unit.System) string {
	said := make([]string, len(of))
	for i, m := range of {
		said[i] = theme.Say(m, u)
	}
	return strings.Join(said, "\n")
}
