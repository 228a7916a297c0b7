package app

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// findingsPanel says how the job stands and lists what is wrong, cause by cause, gravest
// first; then what may come to be, and the standing cautions of the work.
type findingsPanel struct {
	theme    *theme.Theme
	keys     *control.Keys
	box      *fyne.Container
	plate    *answer.Plate
	toSettle *widget.Label // heads the cards
	scroll   *container.Scroll
	fly      func(rule.Finding)
	change   func(edit.Edit)
	stations func(geometry.Answer) // tells how the stations of the work stand
	cards    []*findingCard
	open     string // key of the card that shows its details
	shown    string // what the cards were made of
	result   geometry.Result
	answer   geometry.Answer // to the result, as far as it is known by now
	counted  *chance.Chances // of the result; nil while it is being counted
	// possible is what the result's job may come to; nil while that is being worked out, and of one
	// that is all known.
	possible *unknown.Exploration
	look     *lookCard
	notes    *widget.Label // the rest of the answer
	later    *widget.Label
	cautions *cautionsList
	// remedies are what findings of the job that is shown go away by, as far as that was worked
	// out, by the finding.
	remedies map[string]knownRemedy
}

func newFindingsPanel(t *theme.Theme, keys *control.Keys, fly func(rule.Finding), change func(edit.Edit)) *findingsPanel {
	p := &findingsPanel{theme: t, keys: keys, box: container.NewVBox(), plate: answer.New(), toSettle: paragraph(""), fly: fly, change: change, stations: func(geometry.Answer) {},
		remedies: map[string]knownRemedy{}}
	p.toSettle.TextStyle.Bold = true
	p.look = newLookCard(keys, change)
	p.notes = paragraph("")
	p.notes.Importance = widget.LowImportance
	p.scroll = container.NewVScroll(container.NewVBox(p.look, p.box, p.notes))
	p.later = paragraph("")
	p.later.TextStyle.Bold = true
	p.cautions = newCautionsList(keys)
	return p
}

func (p *findingsPanel) object() fyne.CanvasObject {
	return container.NewBorder(p.toSettle, nil, nil, nil, p.scroll)
}

// showRisks takes what was counted for the result that is shown.
func (p *findingsPanel) showRisks(c chance.Chances) {
	p.counted = &c
	p.fill(p.result)
}

// showPossible takes what the job of the result that is shown may come to.
func (p *findingsPanel) showPossible(x *unknown.Exploration) {
	p.possible = x
	p.fill(p.result)
}

func (p *findingsPanel) show(r geometry.Result) {
	p.counted, p.possible = nil, nil
	p.fill(r)
}

// lines are messages one under the other.
func lines(of []message.Message, u unit.System) string {
	said := make([]string, len(of))
	for i, m := range of {
		said[i] = theme.Say(m, u)
	}
	return strings.Join(said, "\n")
}

// sayLater says what the cards of what may come to be are, and what would help.
func (p *findingsPanel) sayLater() string {
	if p.counted == nil || p.counted.Rough {
		return theme.Word("app.may-still-go-wrong-being-worked")
	}
	s := theme.Word("app.may-still-go-wrong-given-the")
	const worthMM = 0.5
	if p.counted.MarginMM > worthMM {
		s += "\n" + theme.Say(message.Of("chance.margin", message.Layer("margin", math.Ceil(p.counted.MarginMM*2)/2)), p.result.Settled.Units)
	}
	return s
}

// toSettle says how many things are to be settled, and how many only to be noted.
func toSettle(a geometry.Answer) message.Message {
	settle, notes := answer.ToSettle(a)
	if notes == 0 {
		return message.Of("answer.to-settle", message.N("n", settle))
	}
	return message.Of("answer.to-settle-notes", message.N("n", notes), message.No("settle", settle))
}

func (p *findingsPanel) fill(r geometry.Result) {
	if !reflect.DeepEqual(r.Stated, p.result.Stated) {
		p.remedies = map[string]knownRemedy{}
	}
	p.result = r
	u := r.Settled.Units
	a := r.Answer(p.counted)
	if p.possible != nil {
		a = p.possible.Answer(a)
	}
	p.answer = a
	p.look.tell(p.possible, u)
	p.notes.SetText(lines(a.Notes(), u))
	p.plate.Tell(r, a)
	p.toSettle.SetText(theme.Say(toSettle(a), u))
	p.stations(a)
	p.later.SetText(p.sayLater())
	all := slices.Concat(a.Cards, a.Later)
	var key strings.Builder
	for _, c := range all {
		for _, f := range c.Places {
			fmt.Fprintf(&key, "%s=%s", f.Key(), theme.Say(f.Message(), u))
			if f.Risk != nil {
				fmt.Fprintf(&key, " %s %v", f.Risk.Chance(), f.Risk.Main)
			}
			key.WriteByte(';')
		}
	}
	for _, c := range r.Cautions {
		key.WriteString(c.Key())
	}
	k := key.String() + fmt.Sprint(p.theme.Dark(), u)
	if k == p.shown {
		// The same findings: only where they lie may have moved, and what ends them.
		for i, c := range all {
			if p.cards[i].of = c; p.open == p.cards[i].key() {
				p.cards[i].fill()
			}
		}
		return
	}
	p.shown = k
	p.cards = nil
	p.box.RemoveAll()
	for i, c := range all {
		if i == len(a.Cards) {
			p.box.Add(p.later)
		}
		card := newFindingCard(p, c)
		p.cards = append(p.cards, card)
		p.box.Add(card)
	}
	p.cautions.show(r)
	p.box.Add(p.cautions.object())
	p.box.Refresh()
}

// findingCard is one cause; tapping it goes to the place and shows the details, tapping
// again goes to the next place.
type findingCard struct {
	widget.BaseWidget
	panel   *findingsPanel
	of      geometry.Card
	at      int
	content *control.Card
	details *fyne.Container
	title   *control.Text
	line    *control.Text
	// remedy is for the place shown, all for every one of several; nil where there is none.
	remedy, all *widget.Button
}

func newFindingCard(p *findingsPanel, of geometry.Card) *findingCard {
	c := &findingCard{panel: p, of: of}
	severity := of.Severity()
	standing := geometry.StandingOf(severity)
	role, _ := theme.OfStanding(standing)
	c.title = control.NewWrapped("").Styled(theme.TextBody, true, theme.Ink)
	c.line = control.NewWrapped("").Styled(theme.TextSecond, false, theme.Ink)
	c.details = container.NewVBox()
	var sign fyne.CanvasObject
	switch severity {
	case rule.Licensed:
		sign = control.NewSign(theme.Mark{Kind: theme.Licensed}, control.VialRow, theme.Word(severity.Name()))
	case rule.Note:
		sign = control.NewSign(theme.Mark{Kind: theme.Note}, control.VialRow, theme.Word(severity.Name()))
	default:
		vial := control.NewVial(control.VialRow)
		vial.Set(standing, theme.Word(severity.Name()))
		sign = vial
	}
	tag := control.NewText(theme.Word(severity.Name())).Styled(theme.TextLayer, true, role)
	head := container.NewBorder(nil, nil, container.NewHBox(container.NewCenter(sign)), container.NewVBox(tag), c.title)
	c.content = control.NewCard(container.New(control.Column{Gap: 2}, head, c.line, c.details))
	c.content.Pad = theme.Space2
	if severity == rule.Stop {
		c.content.Standing(role)
	}
	c.ExtendBaseWidget(c)
	c.fill()
	return c
}

// Inside is what the card shows.
func (c *findingCard) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{c.content} }

// place is the one of the card's places that it shows.
func (c *findingCard) place() geometry.Place { return c.of.Places[c.at%len(c.of.Places)] }

// fill writes the place and, when open, the details.
func (c *findingCard) fill() {
	u := c.panel.result.Settled.Units
	p := c.place()
	line := theme.Say(p.Message(), u)
	if p.Risk != nil {
		line = theme.Say(message.Of("chance.of", message.In("subject", p.Measurement.Message()), message.In("chance", p.Risk.Chance())), u)
	}
	if n := len(c.of.Places); n > 1 {
		line += "  " + theme.Say(message.Of("finding.places", message.No("at", c.at%n+1), message.N("n", n)), u)
	}
	c.title.SetText(theme.Say(p.Rule.Heading(), u))
	c.line.SetText(line)
	c.details.RemoveAll()
	c.remedy, c.all = nil, nil
	if c.panel.open != c.key() {
		c.details.Hide()
		return
	}
	add := func(s string, i widget.Importance) {
		l := paragraph(s)
		l.Importance = i
		c.details.Add(l)
	}
	add(theme.Say(p.Rule.Text(), u), widget.MediumImportance)
	add(theme.Say(message.Of("finding.remedy", message.In("remedy", p.Rule.Remedy())), u), widget.MediumImportance)
	if p.Risk == nil {
		c.addRemedy(add)
	}
	c.addChance(p, add)
	add(theme.Say(p.Rule.Origin(), u), widget.LowImportance)
	c.details.Show()
}

// addChance says how likely it is once built, below all that is there before it is counted:
// what is certain to be as it is planned needs no chance.
func (c *findingCard) addChance(p geometry.Place, add func(string, widget.Importance)) {
	if p.Risk != nil {
		planned := theme.Say(message.Of("chance.planned", message.In("finding", p.Message())), c.panel.result.Settled.Units)
		add(planned+" "+riskText(*p.Risk), widget.MediumImportance)
		return
	}
	if c.panel.counted == nil || c.panel.counted.Rough {
		return
	}
	for _, r := range c.panel.counted.Risks {
		if r.Key() == p.Key() && !r.Certain() {
			add(riskText(r), widget.MediumImportance)
		}
	}
}

// key names the card among the others.
func (c *findingCard) key() string {
	if c.of.Worst().Risk != nil {
		return "risk " + c.of.Cause()
	}
	return c.of.Cause()
}

// CreateRenderer shows the content.
func (c *findingCard) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(c.content)
}

// Tapped goes to the place, or to the next one.
func (c *findingCard) Tapped(*fyne.PointEvent) {
	id := c.key()
	if c.panel.open == id {
		c.at++
	}
	c.panel.open = id
	for _, o := range c.panel.cards {
		o.fill()
		o.Refresh()
	}
	c.panel.box.Refresh()
	c.panel.fly(c.place().Finding)
}
