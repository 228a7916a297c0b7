// Package answer is the room of the window that says how the job stands: the plate with the
// one answer, always in sight.
package answer

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/job"
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
	head     *control.Area // the headline with the notes under it
	headline *control.Text
	notes    *control.Text
	figures  [3]figure
	row      *fyne.Container // of the figures
	doors    *control.Text   // how high one steps at the doorways
	counted  *control.Text   // what their levels are counted from
	chance   *fyne.Container
	// overChance parts the chance from the figures.
	overChance *control.Rule
	// comesRight names the chance, inHundred is the chance.
	comesRight, inHundred *control.Text
	strip                 *control.Strip
	setBy                 *control.Area
	traps                 *control.Press // the way to other traps, where one sets the height
	// byCaption names what sets the height, by is it, price what the next millimetres cost.
	byCaption, by, price *control.Text
	standing             geometry.Standing
	of                   string // the job that is shown
	units                unit.System
	sight                *sight.Sight
	moved                int // counts how often figures have moved
	after                func(time.Duration, func())
	showFigure           func(geometry.Figure)
	showCard             func(geometry.Card) // goes to one of the cards
}

// HeightsList is the list that says all of what sets the height.
const HeightsList message.ID = "app.levels"

// figure is one number with what it is of above and what it is made of below.
type figure struct {
	caption, value, line *control.Text
	under                *canvas.Rectangle // the value, for a while after it has moved
	area                 *control.Area
}

// New makes the plate, which goes to one of the cards by showCard; it says nothing yet.
func New(keys *control.Keys, asks Asks, showCard func(geometry.Card)) *Plate {
	small := func() *control.Text {
		return control.NewWrapped("").Styled(theme.TextCaption, false, theme.Caption)
	}
	p := &Plate{vial: control.NewVial(control.VialPlate), headline: control.NewWrapped("").Styled(theme.TextHeadline, true, theme.Ink),
		notes: small(), comesRight: small(), inHundred: control.NewText("").Styled(theme.TextBody, true, theme.Ink),
		doors: small(), counted: small(), byCaption: small(), by: control.NewWrapped("").Styled(theme.TextBody, true, theme.Ink), price: small()}
	p.strip = control.NewStrip()
	var row []fyne.CanvasObject
	var values []*control.Text
	for i := range p.figures {
		f := &p.figures[i]
		f.caption, f.line = small(), small()
		f.value = control.NewText("").Styled(theme.TextFigure, true, theme.Ink)
		f.under = canvas.NewRectangle(nil)
		f.under.Hide()
		f.area = control.NewArea(keys, container.New(control.Column{}, f.caption, container.New(underlined{}, f.value, f.under), f.line), func() string {
			return f.caption.Text + " " + f.value.Text
		}, nil)
		values, row = append(values, f.value), append(row, f.area)
	}
	p.row = container.New(figuresRow{control.Columns{Gap: theme.Space2}, values}, row...)
	says := container.New(layout.NewCustomPaddedLayout(0, 0, theme.Space3, 0), container.New(control.Column{Gap: 2}, p.headline, p.notes))
	p.head = control.NewArea(keys, container.NewBorder(nil, nil, container.NewCenter(p.vial), nil, says), p.Headline, nil)
	p.setBy = control.NewArea(keys, container.New(control.Column{}, p.byCaption, p.by, p.price), func() string {
		return p.byCaption.Text + " " + p.by.Text
	}, func() { asks.List(HeightsList) })
	p.traps = control.NewPress(keys, theme.Word("answer.see-traps"), func() { asks.ToField(job.DrainPartKey) })
	p.traps.Small = true
	p.traps.Hide()
	p.after, p.sight = asks.After, asks.Sight
	p.showFigure, p.showCard, p.overChance = asks.ShowFigure, showCard, control.NewRule()
	p.chance = container.New(control.Column{Gap: 2}, container.NewBorder(nil, nil, nil, p.inHundred, p.comesRight), p.strip)
	figures := container.New(control.Column{Gap: 2}, p.row, p.doors, p.counted)
	all := container.New(control.Column{Gap: theme.Space2}, p.head, control.NewRule(), figures, p.overChance, p.chance, control.NewRule(),
		container.NewBorder(nil, nil, nil, container.NewCenter(p.traps), p.setBy))
	control.GroupOf(all)
	p.card = control.NewCard(all)
	p.ExtendBaseWidget(p)
	return p
}

// Inside is the card.
func (p *Plate) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{p.card} }

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
	said = append(said, p.doors.Text, p.counted.Text, p.comesRight.Text, p.inHundred.Text, p.byCaption.Text, p.by.Text, p.price.Text)
	return strings.Join(said, "\n")
}

// PressHeadline presses the headline.
func (p *Plate) PressHeadline() { p.head.Tapped(nil) }

// PressFigure presses a figure, by its index from the left.
func (p *Plate) PressFigure(i int) { p.figures[i].area.Tapped(nil) }

// PressHeight presses what sets the height.
func (p *Plate) PressHeight() { p.setBy.Tapped(nil) }

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
	p.head.OnPressed = nil
	if first, ok := a.First(); ok {
		p.head.OnPressed = func() { p.showCard(first) }
	}
	set(p.notes, lines(a.Brief(), u))
	figures := r.Figures()
	levels, counted := p.levels(r)
	same := p.of == r.Stated.Name && p.units == u && p.counted.Text == counted
	set(p.doors, strings.Join(eachBare(r.DoorLines(), u), "\n"))
	set(p.counted, counted)
	p.of, p.units = r.Stated.Name, u
	moved := false
	for i := range p.figures {
		var of, value, line string
		p.figures[i].area.OnPressed = nil
		if i < len(figures) {
			f := figures[i]
			of, value, line = levels.Say(f.Of), levels.Say(f.Value), levels.Say(f.Line)
			p.figures[i].area.OnPressed = func() { p.showFigure(f) }
		}
		if f := &p.figures[i]; same && f.caption.Text == of && f.value.Text != value {
			f.under.FillColor = theme.Of(p).Role(theme.Press)
			f.under.Show()
			moved = true
		}
		set(p.figures[i].caption, of)
		set(p.figures[i].value, value)
		set(p.figures[i].line, line)
	}
	p.settleMoved(moved)
	p.row.Refresh()
	p.tellChance(a, u)
	fact, price := a.SetByFact()
	p.byCaption.SetText(theme.Word("answer.height-set-by"))
	set(p.by, words.Capital(theme.Bare(fact, u)))
	set(p.price, theme.Bare(price, u))
	p.setBy.Hidden = fact.IsZero()
	if p.traps.Hide(); a.SetBy.OfTrap() && !fact.IsZero() {
		p.traps.Show()
	}
	p.card.Refresh()
}

// levels is the book that tells figures of a result as heights are counted, and what they are counted
// from: nothing where that is the structural floor.
func (p *Plate) levels(r geometry.Result) (b words.Book, counted string) {
	b = theme.Book().In(r.Settled.Units).Bare()
	if p.sight == nil {
		return b, ""
	}
	return p.sight.Levels(b, r), words.Capital(theme.Bare(p.sight.Counted(r), r.Settled.Units))
}

// follows tells whether what levels are counted from is what it says.
func (p *Plate) follows(r geometry.Result) bool {
	_, counted := p.levels(r)
	return p.counted.Text == counted
}

// tellChance says in how many builds it comes right; nothing of a job that is stopped.
func (p *Plate) tellChance(a geometry.Answer, u unit.System) {
	if a.ChanceLine().IsZero() {
		set(p.comesRight, "")
		set(p.inHundred, "")
		p.chance.Hide()
		p.overChance.Hide()
		return
	}
	set(p.comesRight, theme.Word(a.ChanceOf()))
	if a.Counted {
		set(p.inHundred, theme.Say(message.Of("answer.in-hundred", message.No("n", a.InHundred())), u))
	} else {
		set(p.inHundred, theme.Word("answer.counting"))
	}
	p.strip.Set(a.InHundred(), theme.Say(a.ChanceLine(), u))
	p.chance.Show()
	p.chance.Refresh() // the figure stands at the end however long it is
	p.overChance.Show()
}

// ToSettle counts what is to be settled, as the headline does: all but what is only to be noted.
func ToSettle(a geometry.Answer) int { return len(a.Cards) - len(a.Of(rule.Note)) }

// joined are messages one behind the other.
func joined(of []message.Message, u unit.System) string { return strings.Join(each(of, u), " ") }

// bare are messages one behind the other, where the unit is clear.
func bare(of []message.Message, u unit.System) string { return strings.Join(eachBare(of, u), " ") }

// eachBare are messages in words where the unit is clear.
func eachBare(of []message.Message, u unit.System) []string {
	said := make([]string, len(of))
	for i, m := range of {
		said[i] = theme.Bare(m, u)
	}
	return said
}

// each are messages in words.
func each(of []message.Message, u unit.System) []string {
	said := make([]string, len(of))
	for i, m := range of {
		said[i] = theme.Say(m, u)
	}
	return said
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
func lines(of []message.Message, u unit.System) string { return strings.Join(each(of, u), "\n") }
