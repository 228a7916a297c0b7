package trial

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/fit"
	"underfall/geometry/message"
)

// column says at the right what a trial changes, what must be looked at, and what other ways there are.
type column struct {
	room   *Room
	table  *fyne.Container
	sees   *control.Card // what must be seen to
	brings *control.Text
	look   Look
	heads  *control.Text // the other ways
	ways   *fyne.Container
	prices map[int]*control.Text // of the other ways, by their index
	scroll *container.Scroll
	object fyne.CanvasObject
}

func newColumn(r *Room) *column {
	c := &column{room: r, table: container.New(control.Column{Gap: 2}), brings: control.NewWrapped("").Styled(theme.TextSecond, false, theme.Ink),
		heads: control.NewWrapped("").Styled(theme.TextHeading, true, theme.Ink), ways: container.New(control.Column{Gap: theme.Space2})}
	changes := control.NewCard(container.New(control.Column{Gap: theme.Space1},
		control.NewText(theme.Word("trial.what-changes")).Styled(theme.TextHeading, true, theme.Ink), c.table))
	changes.Pad = theme.Space2
	c.sees = control.NewCard(container.New(control.Column{Gap: theme.Space1},
		control.NewText(theme.Word("trial.to-see-to")).Styled(theme.TextBody, true, theme.Ink), c.brings))
	c.sees.Fill, c.sees.Edge, c.sees.Pad = theme.UnknownGround, theme.Unknown, theme.Space2
	c.look = r.asks.Look(r.seen)
	c.scroll = container.NewVScroll(container.New(control.Column{Gap: theme.Space2}, changes, c.sees, c.look, c.heads, c.ways))
	c.object = c.scroll
	return c
}

// began makes the other ways anew.
func (c *column) began() {
	c.ways.RemoveAll()
	c.prices = map[int]*control.Text{}
	u := c.room.view.units()
	for n, i := range c.room.others() {
		price := control.NewWrapped(theme.Word("trial.working-out")).Styled(theme.TextCaption, false, theme.Caption)
		try := control.NewPress(c.room.keys, theme.Word("trial.try"), func() { c.room.other(i) })
		try.Small = true
		if n < mostKeys {
			try.Key = strconv.Itoa(n + 1)
		}
		name := control.NewWrapped(theme.Bare(c.room.trial.Ways[i].Does, u)).Styled(theme.TextBody, true, theme.Ink)
		card := control.NewCard(container.New(control.Column{Gap: 2}, container.NewBorder(nil, nil, nil, try, name), price))
		card.Pad = theme.Space2
		c.prices[i] = price
		c.ways.Add(card)
	}
	c.heads.Hidden = len(c.ways.Objects) == 0
	c.heads.SetText(theme.Word("trial.other-ways", message.N("n", len(c.ways.Objects))))
}

// mostKeys is how many of the other ways have a key.
const mostKeys = 9

// price says what one of the other ways would come to.
func (c *column) price(way int, said string) {
	if t := c.prices[way]; t != nil {
		t.SetText(words.Capital(said))
		control.Refill(c.scroll)
	}
}

// fill writes the table and what must be seen to.
func (c *column) fill() {
	r, u := c.room, c.room.view.units()
	c.table.RemoveAll()
	head := func(id message.ID) string { return theme.Word(id) }
	c.table.Add(row("", head("trial.column-before"), head("trial.column-after"), false, true))
	c.rightRow(&r.sides[before], &r.sides[after])
	for _, d := range fit.Differences(r.sides[before].result, r.sides[after].result) {
		c.table.Add(control.NewRule())
		c.table.Add(row(words.Capital(theme.Bare(d.Of, u)), orNone(theme.Bare(d.Before, u)), orNone(theme.Bare(d.After, u)), !d.Same, false))
	}
	var said []string
	for _, f := range r.brings() {
		said = append(said, theme.Say(message.Of("trial.see-to", message.In("heading", f.Rule.Heading()), message.In("remedy", f.Rule.Remedy())), u))
	}
	c.brings.SetText(strings.Join(said, "\n"))
	c.sees.Hidden = len(said) == 0
	c.look.Tell(r.sides[after].possible, u)
	control.Refill(c.scroll)
}

// rightRow says in how many builds each comes right: of both counted in as many.
func (c *column) rightRow(was, is *side) {
	said := func(s *side) string {
		switch a := s.answer(); {
		case a.Standing == geometry.Stops:
			return theme.Word("answer.in-hundred", message.No("n", 0))
		case s.counted == nil || s.counted.Rough:
			return theme.Word("answer.counting")
		default:
			return theme.Word("answer.in-hundred", message.No("n", a.InHundred()))
		}
	}
	b, a := said(was), said(is)
	c.table.Add(control.NewRule())
	c.table.Add(row(theme.Word("answer.comes-right"), b, a, a != b, false))
}

// orNone is a text, or a stroke for none.
func orNone(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// row is a line of the table: what it is of, before, and after; bold where that is another.
func row(of, before, after string, other, head bool) fyne.CanvasObject {
	size, role := float32(theme.TextSecond), theme.Ink
	if head || !other {
		role = theme.Caption
	}
	text := func(s string, bold bool, r theme.Role) *control.Text {
		return control.NewWrapped(s).Styled(size, bold, r)
	}
	b, a := text(before, false, role), text(after, other, role)
	b.Align, a.Align = fyne.TextAlignTrailing, fyne.TextAlignTrailing
	return container.New(cells{}, text(of, false, role), b, a)
}

// cells sets three texts beside each other: what it is of has the most room.
type cells struct{}

const (
	cellOf  = 0.42 // of the width
	cellGap = 8
)

func (cells) widths(all float32) [3]float32 {
	rest := (all*(1-cellOf) - 2*cellGap) / 2
	return [3]float32{all * cellOf, rest, rest}
}

// MinSize is as high as the highest is at the width that they were last laid out in.
func (cells) MinSize(o []fyne.CanvasObject) (s fyne.Size) {
	for _, c := range o {
		s.Height = max(s.Height, c.MinSize().Height)
	}
	return s
}

// Layout places them.
func (c cells) Layout(o []fyne.CanvasObject, s fyne.Size) {
	x := float32(0)
	for i, wide := range c.widths(s.Width) {
		o[i].Resize(fyne.NewSize(wide, o[i].MinSize().Height))
		o[i].Resize(fyne.NewSize(wide, o[i].MinSize().Height))
		o[i].Move(fyne.NewPos(x, 0))
		x += wide + cellGap
	}
}
