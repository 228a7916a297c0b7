package answer

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unknown"
)

// Column says how the job stands, always in sight, and lists what is wrong, cause by cause, gravest
// first; then what may come to be, and the standing cautions of the work.
type Column struct {
	asks     Asks
	keys     *control.Keys
	theme    *theme.Theme
	plate    *Plate
	toSettle *control.Text // heads the cards
	whose    *control.Text // for whom, and by when
	look     *Look
	toNote   *control.Text // heads the cards that are only to be noted
	licensed *control.Text // heads those for a qualified person
	advised  *control.Text // heads what is advised after those
	later    *control.Text // heads those of what may come to be
	notes    *control.Text // the rest of the answer
	cautions cautions
	box      *fyne.Container
	more     *fyne.Container // the lists that say more
	scroll   *container.Scroll
	whole    *fyne.Container // all of it, once it is shown somewhere
	cards    []*card
	open     string // key of the card that shows its details
	opened   int    // which of the jobs opened so far is shown, by its number
	shown    string // what the cards were made of
	result   geometry.Result
	answer   geometry.Answer // to the result, as far as it is known by now
	counted  *chance.Chances // of the result; nil while it is being counted
	// possible is what the result's job may come to; nil while that is being worked out, and of one
	// that is all known.
	possible *unknown.Exploration
	// offers are what can be done about cards of the result, as far as that was worked out.
	offers map[offerKey]Offers
}

// NewColumn makes one; it says nothing yet.
func NewColumn(t *theme.Theme, keys *control.Keys, asks Asks) *Column {
	heading := func() *control.Text {
		return control.NewWrapped("").Styled(theme.TextField, true, theme.Ink)
	}
	small := func() *control.Text {
		return control.NewWrapped("").Styled(theme.TextCaption, false, theme.Caption)
	}
	c := &Column{asks: asks, keys: keys, theme: t, toSettle: heading(), whose: small(), look: NewLook(keys, asks.Do),
		toNote: heading(), licensed: heading(), advised: heading(), later: heading(), notes: small(), more: moreOf(keys, asks),
		box: container.New(control.Column{Gap: theme.Space2}), offers: map[offerKey]Offers{}}
	c.plate = New(keys, asks, c.showCard)
	c.cautions = cautions{Fold: control.NewFold(keys, func() { control.Refill(c.scroll) })}
	c.scroll = container.NewVScroll(container.New(control.Column{Gap: theme.Space2}, c.box, c.notes, c.cautions.Object()))
	return c
}

// Object is the column, with something more before the cards, which scrolls with them, nil for nothing, and at its foot.
func (c *Column) Object(first, foot fyne.CanvasObject) fyne.CanvasObject {
	if cards, ok := c.scroll.Content.(*fyne.Container); ok && first != nil {
		cards.Objects = append([]fyne.CanvasObject{first}, cards.Objects...)
	}
	head := container.New(control.Column{Gap: theme.Space1}, c.plate, container.New(control.Column{}, c.toSettle, c.whose))
	under := container.New(control.Column{Gap: 2}, foot, c.more)
	// In the order that it is read in, which Tab follows.
	c.whole = container.New(layout.NewBorderLayout(head, under, nil, nil), head, c.scroll, under)
	return c.whole
}

// Refill lays out anew what scrolls, after what stands before the cards has come or gone.
func (c *Column) Refill() { control.Refill(c.scroll) }

// moreOf is a quiet line of the lists that say more.
func moreOf(keys *control.Keys, asks Asks) *fyne.Container {
	all := container.New(control.Flow{Gap: theme.Space1})
	for _, name := range asks.Lists {
		b := control.NewPress(keys, theme.Word(name), func() { asks.List(name) })
		b.Small, b.Bare = true, true
		all.Add(b)
	}
	return all
}

// Of says which of the jobs opened so far the results are of, by its number: another is read from the top, with every
// card closed.
func (c *Column) Of(opened int) {
	if opened == c.opened {
		return
	}
	c.opened, c.open, c.shown = opened, "", ""
	c.scroll.ScrollToOffset(fyne.Position{})
}

// Show shows the answer to another result.
func (c *Column) Show(r geometry.Result) {
	if !r.Stated.BuiltAs(c.result.Stated) {
		c.counted, c.possible, c.offers = nil, nil, map[offerKey]Offers{}
	}
	c.fill(r)
}

// ShowRisks takes what was counted for the result that is shown.
func (c *Column) ShowRisks(counted chance.Chances) {
	c.counted = &counted
	c.fill(c.result)
}

// ShowPossible takes what the job of the result that is shown may come to.
func (c *Column) ShowPossible(x *unknown.Exploration) {
	c.possible = x
	c.fill(c.result)
}

// Follow shows figures as heights are counted now.
func (c *Column) Follow() {
	if len(c.result.Layout.Walls) > 0 && !c.plate.follows(c.result) {
		c.plate.Tell(c.result, c.answer)
	}
}

// Restyle shows the same in another look.
func (c *Column) Restyle() { c.fill(c.result) }

// Result is what is shown, and Answer the answer to it, as far as it is known by now.
func (c *Column) Result() geometry.Result { return c.result }

// Answer is the answer to the result that is shown, as far as it is known by now.
func (c *Column) Answer() geometry.Answer { return c.answer }

// Chances are what was counted for the result that is shown; nil as long as nothing was.
func (c *Column) Chances() *chance.Chances { return c.counted }

// Plate is the part that is always in sight.
func (c *Column) Plate() *Plate { return c.plate }

// showCard goes to a card, in sight with its gravest place.
func (c *Column) showCard(of geometry.Card) {
	for _, k := range c.cards {
		if k.name() == nameOf(of) {
			c.bring(k, 0)
		}
	}
}

// bring goes to a place of a card, and has the card in sight.
func (c *Column) bring(k *card, at int) {
	k.show(at)
	c.scroll.ScrollToOffset(c.box.Position().Add(k.Position()))
}

// Open opens the card of what is found, in sight with that of its places, and goes there; it tells whether
// there is one.
func (c *Column) Open(f rule.Finding) bool {
	for _, k := range c.cards {
		at := slices.IndexFunc(k.of.Places, func(p geometry.Place) bool { return p.Risk == nil && p.Key() == f.Key() })
		if at >= 0 {
			c.bring(k, at)
			return true
		}
	}
	return false
}

// Press presses the card whose gravest place breaks a rule; it tells whether there is one.
func (c *Column) Press(rule string) bool {
	for _, k := range c.cards {
		if k.of.Worst().Rule.ID == rule {
			k.press()
			return true
		}
	}
	return false
}

// Offered are the buttons of the card whose gravest place breaks a rule, by their texts.
func (c *Column) Offered(rule string) (out []string) {
	for _, k := range c.cards {
		if k.of.Worst().Rule.ID != rule {
			continue
		}
		for _, o := range k.offers.Objects {
			out = append(out, o.(*control.Press).Text)
		}
	}
	return out
}

// PressOffer presses a button of such a card by its text; it tells whether there is one.
func (c *Column) PressOffer(rule, text string) bool {
	for _, k := range c.cards {
		for _, o := range k.offers.Objects {
			if p := o.(*control.Press); k.of.Worst().Rule.ID == rule && p.Text == text {
				p.OnPressed()
				return true
			}
		}
	}
	return false
}

// Says is all that the column says under its plate, card by card.
func (c *Column) Says() []string {
	out := []string{c.toSettle.Text, c.whose.Text}
	for _, o := range c.box.Objects {
		switch o := o.(type) {
		case *Look:
			if o.Visible() {
				out = append(out, o.title.Text, o.outcomes.Text, o.settles.Text)
			}
		case *control.Text:
			out = append(out, o.Text)
		case *card:
			out = append(out, o.title.Text, o.line.Text, o.price.Text)
		}
	}
	return append(out, c.notes.Text)
}

// PressCautions opens the standing cautions of the work, or closes them.
func (c *Column) PressCautions() { c.cautions.Head.OnTapped() }

// Cautions are the standing cautions of the work as they are told; none while they are closed.
func (c *Column) Cautions() (out []string) {
	if !c.cautions.Box.Visible() {
		return nil
	}
	for _, o := range c.cautions.Box.Objects {
		out = append(out, o.(*control.Text).Text)
	}
	return out
}

// Details are what the open card says of its place; empty where none is open.
func (c *Column) Details() string {
	var told []string
	for _, k := range c.cards {
		for _, o := range k.details.Objects {
			if t, ok := o.(*control.Text); ok && k.isOpen() {
				told = append(told, t.Text)
			}
		}
	}
	return strings.Join(told, "\n")
}

// settling says how many things are to be settled, and for whom and by when of them.
func settling(r geometry.Result, a geometry.Answer) (toSettle message.Message, whose []message.Message) {
	n := ToSettle(a)
	if licensed := len(a.Of(rule.Licensed)); licensed > 0 {
		whose = append(whose, message.Of("answer.for-licensed", message.N("n", licensed)))
	}
	covered := 0
	for _, c := range r.Cautions {
		if c.Rule.Stage == rule.LayingWaste {
			covered++
		}
	}
	if covered > 0 {
		whose = append(whose, message.Of("answer.before-covering", message.N("n", covered)))
	}
	return message.Of("answer.to-settle", message.N("n", n)), whose
}

// sayLater says what the cards of what may come to be are, and what would help.
func (c *Column) sayLater() string {
	if c.counted == nil || c.counted.Rough {
		return theme.Word("app.may-still-go-wrong-being-worked")
	}
	s := theme.Word("app.may-still-go-wrong-given-the")
	const worthMM = 0.5
	if c.counted.MarginMM > worthMM {
		s += "\n" + theme.Say(message.Of("chance.margin", message.Layer("margin", math.Ceil(c.counted.MarginMM*2)/2)), c.result.Settled.Units)
	}
	return s
}

func (c *Column) fill(r geometry.Result) {
	c.result = r
	u := r.Settled.Units
	c.answer = c.possible.Answer(r.Answer(c.counted))
	a := c.answer
	c.look.Tell(c.possible, u)
	set(c.notes, lines(a.Notes(), u))
	c.plate.Tell(r, a)
	toSettle, whose := settling(r, a)
	set(c.toSettle, theme.Say(toSettle, u))
	set(c.whose, strings.Join(each(whose, u), " · "))
	c.asks.Shown(r, a)
	c.later.SetText(c.sayLater())
	all := slices.Concat(a.Cards, a.Later)
	if made := c.madeOf(all); made != c.shown {
		c.shown = made
		c.make(all)
	} else {
		// The same findings: only where they lie may have moved, and what ends them.
		for i, of := range all {
			c.cards[i].of = of
			c.cards[i].fill()
		}
	}
	c.arranged()
}

// arranged lays the column out anew after what stands in it has changed, and has Tab take all under the
// plate as one.
func (c *Column) arranged() {
	g := &control.Group{}
	for _, o := range c.box.Objects {
		switch o := o.(type) {
		case *Look:
			for _, seen := range o.seen.Objects {
				g.Add(seen.(*control.Press))
			}
		case *card:
			g.Add(o.area)
			for _, offer := range o.offers.Objects {
				g.Add(offer.(*control.Press))
			}
		}
	}
	g.Add(c.cautions.Head)
	for _, o := range c.more.Objects {
		g.Add(o.(*control.Press))
	}
	control.Refill(c.scroll)
	if c.whole != nil && c.whole.Objects[0].Size().Height != c.whole.Objects[0].MinSize().Height {
		c.whole.Refresh() // what stands over the cards has become another height
	}
}

// madeOf tells what is shown of cards from what was shown before.
func (c *Column) madeOf(all []geometry.Card) string {
	var key strings.Builder
	u := c.result.Settled.Units
	for _, of := range all {
		for _, f := range of.Places {
			fmt.Fprintf(&key, "%s=%s", f.Key(), theme.Say(f.Message(), u))
			if f.Risk != nil {
				fmt.Fprintf(&key, " %s %v", f.Risk.Chance(), f.Risk.Main)
			}
			key.WriteByte(';')
		}
	}
	for _, caution := range c.result.Cautions {
		key.WriteString(caution.Key())
	}
	return key.String() + fmt.Sprint(c.theme.Dark(), u, c.answer.Standing)
}

// make makes the cards; one of the same cause as before stays, with what is shown of it.
func (c *Column) make(all []geometry.Card) {
	before := map[string]*card{}
	for _, k := range c.cards {
		before[k.name()] = k
	}
	c.cards = nil
	c.box.RemoveAll()
	looks := lookedAtAfter(c.answer)
	for i, of := range all {
		if i == looks {
			c.box.Add(c.look)
		}
		c.headAt(i)
		made := before[nameOf(of)]
		if made == nil || made.of.Severity() != of.Severity() {
			made = newCard(c, of)
		}
		delete(before, nameOf(of))
		made.of = of
		c.cards = append(c.cards, made)
		c.box.Add(made)
	}
	if looks == len(all) {
		c.box.Add(c.look)
	}
	c.cautions.show(c.result)
	for _, made := range c.cards {
		made.fill()
	}
}

// lookedAtAfter is after how many of the cards what is worth looking at first stands: after those that stop
// the job where the headline says that it is stopped, before all others.
func lookedAtAfter(a geometry.Answer) int {
	if a.Standing != geometry.Stops {
		return 0
	}
	return len(a.Of(rule.Stop))
}

// headAt adds what heads the cards from the one with an index on: those for a qualified person and the advice
// that follows them, those that are only to be noted, what may come to be.
func (c *Column) headAt(i int) {
	u, planned := c.result.Settled.Units, c.answer.Cards
	if i == len(planned) {
		c.box.Add(c.later)
	}
	if i >= len(planned) || i > 0 && planned[i-1].Severity() == planned[i].Severity() {
		return
	}
	n := message.N("n", len(c.answer.Of(planned[i].Severity())))
	switch planned[i].Severity() {
	case rule.Note:
		c.toNote.SetText(theme.Say(message.Of("answer.to-note", n), u))
		c.box.Add(c.toNote)
	case rule.Advice:
		if i > 0 && planned[i-1].Severity() == rule.Licensed {
			c.advised.SetText(theme.Say(message.Of("answer.advised", n), u))
			c.box.Add(c.advised)
		}
	case rule.Licensed:
		c.licensed.SetText(theme.Say(message.Of("answer.licensed", n), u))
		c.box.Add(c.licensed)
	}
}

// first is the first card that something can be done about without leaving the job worse; nil without
// one.
func (c *Column) first() *card {
	for _, k := range c.cards {
		if o, known := c.offers[k.key()]; known && len(o.All) > 0 && !o.All[0].Worse {
			return k
		}
	}
	return nil
}
