// Package answer is the room of the window that says how the job stands: the plate with the
// one answer, always in sight.
package answer

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
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
	bar      *canvas.Rectangle
	headline *widget.Label
	behind   *widget.Label
	figures  [3]figure
	chance   *widget.Label
	strip    *strip
	setBy    *widget.Label
	more     *fyne.Container
	content  fyne.CanvasObject
	standing geometry.Standing
}

// figure is one number with what it is of above and what it is made of below.
type figure struct {
	caption, line *widget.Label
	value         *widget.Label
}

// New makes the plate; more is shown at its foot.
func New(more ...fyne.CanvasObject) *Plate {
	p := &Plate{bar: canvas.NewRectangle(nil), headline: wrapped(), behind: caption(), chance: wrapped(), strip: newStrip(), setBy: caption(),
		more: container.NewHBox(more...)}
	p.headline.SizeName, p.headline.TextStyle.Bold = fynetheme.SizeNameSubHeadingText, true
	p.bar.SetMinSize(fyne.NewSize(6, 10))
	row := container.New(layout.NewGridLayout(len(p.figures)))
	for i := range p.figures {
		f := &p.figures[i]
		f.caption, f.line, f.value = caption(), caption(), widget.NewLabel("")
		f.value.SizeName, f.value.TextStyle.Bold = fynetheme.SizeNameHeadingText, true
		row.Add(container.New(snug{}, f.caption, f.value, f.line))
	}
	chance := container.New(snug{}, p.chance, container.NewPadded(p.strip))
	p.content = container.NewBorder(nil, nil, p.bar, nil, container.New(snug{}, p.headline, p.behind, widget.NewSeparator(), row,
		widget.NewSeparator(), chance, widget.NewSeparator(), p.setBy, p.more))
	p.ExtendBaseWidget(p)
	return p
}

// wrapped is a label of as many lines as its text needs.
func wrapped() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	return l
}

// caption is such a label in small letters.
func caption() *widget.Label {
	l := wrapped()
	l.SizeName = fynetheme.SizeNameCaptionText
	return l
}

// CreateRenderer shows the content.
func (p *Plate) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.content) }

// Headline is what it says first.
func (p *Plate) Headline() string { return p.headline.Text }

// Standing is how the job that is shown stands.
func (p *Plate) Standing() geometry.Standing { return p.standing }

// Behind is all that it says behind the headline.
func (p *Plate) Behind() string {
	s := p.behind.Text
	for _, f := range p.figures {
		s += "\n" + f.caption.Text + " " + f.value.Text + " " + f.line.Text
	}
	return s + "\n" + p.chance.Text + "\n" + p.setBy.Text
}

// Refresh takes the colours of the theme.
func (p *Plate) Refresh() {
	p.paint()
	p.BaseWidget.Refresh()
}

func (p *Plate) paint() {
	name := map[geometry.Standing]fyne.ThemeColorName{geometry.Stops: fynetheme.ColorNameError, geometry.Sound: fynetheme.ColorNameSuccess,
		geometry.Tight: fynetheme.ColorNameWarning, geometry.NotKnown: fynetheme.ColorNameDisabled}[p.standing]
	if name != "" {
		p.bar.FillColor = fynetheme.Color(name)
		p.strip.colour = p.bar.FillColor
	}
	p.strip.Refresh()
	p.bar.Refresh()
}

// Tell says what a job comes to.
func (p *Plate) Tell(r geometry.Result, a geometry.Answer) {
	u := r.Settled.Units
	p.standing = a.Standing
	set(p.headline, theme.Say(a.Headline(), u))
	set(p.behind, lines(a.Notes(), u))
	figures := []message.Message{}
	for _, f := range r.Figures() {
		figures = append(figures, f.Of, f.Value, f.Line)
	}
	for i := range p.figures {
		f := &p.figures[i]
		var of, value, line string
		if 3*i < len(figures) {
			of, value, line = theme.Bare(figures[3*i], u), theme.Bare(figures[3*i+1], u), theme.Bare(figures[3*i+2], u)
		}
		set(f.caption, of)
		set(f.value, value)
		set(f.line, line)
	}
	set(p.chance, theme.Say(a.ChanceLine(), u))
	p.strip.cells = -1
	if a.Standing != geometry.Stops {
		p.strip.cells = int(math.Round(float64(a.InHundred()) / 5))
	}
	set(p.setBy, theme.Say(a.SetByLine(), u))
	p.Refresh()
}

// ToSettle counts what is to be settled and what is for a licensed person.
func ToSettle(a geometry.Answer) (settle, licensed int) {
	return len(a.Cards) - len(a.Of(rule.Licensed)), len(a.Of(rule.Licensed))
}

// set writes a text where it is another.
func set(l *widget.Label, s string) {
	if l.Text != s {
		l.SetText(s)
	}
	if s == "" {
		l.Hide()
	} else {
		l.Show()
	}
}

// lines are messages one under the other.
func lines(of []message.Message, u unit.System) string {
	s := ""
	for i, m := range of {
		if i > 0 {
			s += "\n"
		}
		s += theme.Say(m, u)
	}
	return s
}
