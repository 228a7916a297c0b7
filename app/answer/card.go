package answer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// card is one cause, with what can be done about it. Pressed it goes to the place and shows more,
// pressed again it goes to the next place; what it is headed by is its gravest place, whichever is shown.
type card struct {
	widget.BaseWidget
	column  *Column
	of      geometry.Card
	at      int // which of its places is shown
	area    *control.Area
	title   *control.Text
	line    *control.Text
	offers  *fyne.Container
	price   *control.Text // of what is offered first
	details *fyne.Container
}

func newCard(c *Column, of geometry.Card) *card {
	k := &card{column: c, of: of}
	severity := of.Severity()
	k.title = control.NewWrapped("").Styled(theme.TextBody, true, theme.Ink)
	k.line = control.NewWrapped("").Styled(theme.TextSecond, false, theme.Ink)
	k.price = control.NewWrapped("").Styled(theme.TextCaption, false, theme.Caption)
	k.offers = container.New(control.Flow{Gap: theme.BetweenTwo})
	k.details = container.New(control.Column{Gap: theme.Space1})
	sign := container.NewGridWrap(fyne.NewSize(c.theme.Unit(control.VialRow+theme.Space1), c.theme.Unit(titleHeight)), signOf(severity))
	head := container.NewBorder(nil, nil, container.NewVBox(sign), nil, k.title)
	sheet := control.NewCard(container.New(control.Column{Gap: theme.Space1}, head, k.line, k.offers, k.price, k.details))
	sheet.Pad = theme.Space2
	if severity == rule.Stop {
		role, _ := theme.OfStanding(geometry.StandingOf(severity))
		sheet.Standing(role)
	}
	k.area = control.NewArea(c.keys, sheet, func() string {
		return theme.Word(severity.Name()) + ": " + k.title.Text + ". " + k.line.Text
	}, k.press)
	k.ExtendBaseWidget(k)
	return k
}

// titleHeight is how high a line of a card's title is: its sign stands in the middle of that.
const titleHeight = 20

// signOf tells how grave a card is: a vial, or what is only to be noted or for a qualified person.
func signOf(s rule.Severity) fyne.CanvasObject {
	word := theme.Word(s.Name())
	switch s {
	case rule.Licensed:
		return control.NewSign(theme.Mark{Kind: theme.Licensed}, control.VialRow, word)
	case rule.Note:
		return control.NewSign(theme.Mark{Kind: theme.Note}, control.VialRow, word)
	}
	vial := control.NewVial(control.VialRow)
	vial.Set(geometry.StandingOf(s), word)
	return vial
}

// CreateRenderer shows the card.
func (k *card) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(k.area) }

// Inside is what lies in it.
func (k *card) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{k.area} }

// place is the one of the card's places that it shows.
func (k *card) place() geometry.Place { return k.of.Places[k.at%len(k.of.Places)] }

// key names the card with the place that it shows among what is offered.
func (k *card) key() offerKey { return offerKey{k.of.Cause(), k.at % len(k.of.Places)} }

// name tells the card from the others.
func (k *card) name() string { return nameOf(k.of) }

// nameOf tells a card from the others: one cause may also be a risk.
func nameOf(of geometry.Card) string {
	if of.Worst().Risk != nil {
		return "risk " + of.Cause()
	}
	return of.Cause()
}

// isOpen tells whether it shows its details.
func (k *card) isOpen() bool { return k.column.open == k.name() }

// press goes to the place, or to the next one.
func (k *card) press() {
	if k.isOpen() {
		k.show(k.at + 1)
	} else {
		k.show(k.at)
	}
}

// show goes to one of the places, and shows more of it.
func (k *card) show(at int) {
	c := k.column
	k.at, c.open = at, k.name()
	for _, o := range c.cards {
		o.fill()
	}
	c.arranged()
	c.asks.ShowFinding(k.place().Finding)
}

// fill writes the place, what can be done about it, and when open the details.
func (k *card) fill() {
	u := k.column.result.Settled.Units
	p := k.place()
	said := p.Message()
	if p.Risk != nil {
		said = message.Of("chance.of", message.In("subject", p.Measurement.Message()), message.In("chance", p.Risk.Chance()))
	}
	title, heading := theme.Say(k.of.Worst().Rule.Heading(), u), p.Rule.Heading()
	if theme.Say(heading, u) != title {
		said = message.Of("finding.fact", message.In("heading", heading), message.In("fact", said))
	}
	line := theme.Bare(said, u)
	for _, open := range p.Open(&k.column.result.Stated) {
		line += " " + theme.Say(message.Of("answer.rests-on", message.In("what", open)), u)
	}
	if n := len(k.of.Places); n > 1 {
		line += " " + theme.Say(message.Of("finding.places", message.No("at", k.at%n+1), message.N("n", n)), u)
	}
	k.title.SetText(title)
	k.line.SetText(line)
	k.offer()
	k.details.RemoveAll()
	if !k.isOpen() {
		k.details.Hide()
		return
	}
	k.detail(p)
	k.details.Show()
}

// offer puts what can be done on the card: of one that is closed as far as that is known.
func (k *card) offer() {
	k.offers.RemoveAll()
	set(k.price, "")
	u, p := k.column.result.Settled.Units, k.place()
	var of Offers
	known := true
	if p.Risk == nil {
		if of, known = k.column.offers[k.key()]; k.isOpen() {
			of, known = k.column.offersOf(k), true
		}
	}
	for i, o := range of.All {
		b := control.NewPress(k.column.keys, theme.Bare(o.Does, u), func() { k.column.asks.Try(of.All, i) })
		b.Small, b.Filled = true, i == 0 && k.column.first() == k
		b.Hint = func() string { return k.priceOf(o) }
		k.offers.Add(b)
	}
	if k.isOpen() && len(k.of.Places) > 1 {
		b := control.NewPress(k.column.keys, theme.Word("answer.next-place"), k.press)
		b.Small, b.Bare = true, true
		k.offers.Add(b)
	}
	if p.Risk == nil && known && len(of.All) == 0 && otherRunMayHelp(p.Finding) {
		b := control.NewPress(k.column.keys, theme.Word("app.find-runs"), k.column.asks.FindRuns)
		b.Small = true
		k.offers.Add(b)
	}
	if field := p.Measurement.Field(); field != "" && p.Risk == nil {
		b := control.NewPress(k.column.keys, theme.Word("answer.to-field"), func() { k.column.asks.ToField(field) })
		b.Small, b.Bare = true, true
		k.offers.Add(b)
	}
	switch {
	case len(of.All) > 0:
		set(k.price, k.priceOf(of.All[0]))
	case !known && k.at == 0 && k.of.Severity() != rule.Note: // that of the first place is being worked out
		set(k.price, theme.Word("answer.looking"))
	}
	if len(k.offers.Objects) == 0 {
		k.offers.Hide()
	} else {
		k.offers.Show()
	}
}

// otherRunMayHelp tells whether what is found hangs on the way that the waste goes, so that another may be free of it.
func otherRunMayHelp(f rule.Finding) bool {
	switch rule.CauseOf(f.Rule.Quantity) {
	case "beyond.unknown", "exit.over-stated":
		return false
	}
	graver := f.Rule.Severity == rule.Stop || f.Rule.Severity == rule.Advice
	return graver && geometry.StationOf(f) == job.StationWayOut && f.Measurement.Quantity != "pipe.exposed"
}

// priceOf says what an offer asks for and leaves, and for which place it is where that is not the one
// that is shown.
func (k *card) priceOf(o fit.Offer) string {
	u := k.column.result.Settled.Units
	price := o.Price(k.column.result)
	if !o.All && o.For.Key() != k.place().Key() {
		price = append([]message.Message{message.Of("remedy.for-place", message.In("subject", o.For.Measurement.Message()))}, price...)
	}
	return bare(price, u)
}

// detail says all there is to say of a place.
func (k *card) detail(p geometry.Place) {
	u := k.column.result.Settled.Units
	add := func(s string, role theme.Role) {
		if s != "" {
			k.details.Add(control.NewWrapped(s).Styled(theme.TextCaption, false, role))
		}
	}
	add(theme.Say(p.Rule.Text(), u), theme.Ink)
	add(theme.Say(message.Of("finding.remedy", message.In("remedy", p.Rule.Remedy())), u), theme.Ink)
	if p.Risk == nil {
		of := k.column.offersOf(k)
		add(theme.Say(of.Why, u), theme.Ink)
		for _, o := range of.All {
			k.details.Add(control.NewRule())
			k.detailOf(o, add)
		}
		if len(of.All) > 0 {
			k.details.Add(control.NewRule())
		}
	}
	add(k.chanceOf(p), theme.Ink)
	add(theme.Say(p.Rule.Origin(), u), theme.Caption)
}

// detailOf says what an offer is made of, asks for and changes besides.
func (k *card) detailOf(o fit.Offer, add func(string, theme.Role)) {
	u := k.column.result.Settled.Units
	k.details.Add(control.NewWrapped(theme.Bare(o.Does, u)).Styled(theme.TextCaption, true, theme.Ink))
	for _, m := range o.Steps {
		add(theme.Say(message.Of("remedy.step", message.In("does", m)), u), theme.Ink)
	}
	for _, n := range o.Asks() {
		add(theme.Say(message.Of("remedy.brings", message.In("heading", n.Rule.Heading()),
			message.In("text", n.Rule.Text()), message.In("remedy", n.Rule.Remedy())), u), theme.Tight)
	}
	for _, m := range o.Changes(k.column.result) {
		add(theme.Bare(m, u), theme.Ink)
	}
}

// chanceOf says how likely a place is to be so once built: nothing before that is counted, and of what
// is certain to be as it is planned.
func (k *card) chanceOf(p geometry.Place) string {
	u := k.column.result.Settled.Units
	if p.Risk != nil {
		return theme.Say(message.Of("chance.planned", message.In("finding", p.Message())), u) + " " + joined(p.Risk.Lines(), u)
	}
	if k.column.counted == nil || k.column.counted.Rough {
		return ""
	}
	for _, r := range k.column.counted.Risks {
		if r.Key() == p.Key() && !r.Certain() {
			return joined(r.Lines(), u)
		}
	}
	return ""
}
