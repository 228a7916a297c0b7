package tray

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/message"
)

// help is what there is to know of a field, with what its drawing shows.
type help struct {
	row     Row
	text    message.ID
	measure string
}

// helpOf has a field's help be told while it is the one that is asked. The id is of a text, measure of what its
// drawing shows.
func (t *Tray) helpOf(r Row, text message.ID, measure string) {
	h := &help{row: r, text: text, measure: measure}
	t.helps = append(t.helps, h)
	switch r := r.(type) {
	case *NumberRow:
		t.asked[r.Field] = h
	case *ChoiceRow:
		t.asked[r.by] = h
	case *TextRow:
		r.Entry.OnFocus = func() { t.ask(h) }
	}
}

// ask shows what there is to know of a field, and of no other.
func (t *Tray) ask(asked *help) {
	t.open.place.tell(asked)
	t.open.scroll.Reveal(asked.row.Object())
}

// helpPlace is the one place over a station's foot where it stands what there is to know of the field that is asked. How high
// it is hangs on the tray alone, so that no field moves as another is asked.
type helpPlace struct {
	about   message.ID // what the station is about: it stands there until a field is asked
	of      *help      // nil before any is asked
	text    *control.Text
	scroll  *control.Scroller
	picture *picture
	card    *control.Card
}

// newHelpPlace makes it for a station that is about something, with nothing asked yet.
func newHelpPlace(th *theme.Theme, about message.ID) *helpPlace {
	p := &helpPlace{about: about, text: caption(""), picture: newPicture(th)}
	p.scroll = control.NewScroller(p.text)
	p.card = control.NewCard(container.New(helpLayout{p}, p.scroll, p.picture.raster))
	p.card.Fill, p.card.Pad = theme.Sunk, theme.Space2
	p.tell(nil)
	return p
}

// tell shows the help of a field; of none what the station is about.
func (p *helpPlace) tell(h *help) {
	text, measure := p.about, ""
	if h != nil {
		text, measure = h.text, h.measure
	}
	p.of = h
	if said := theme.Word(text); p.text.Text != said {
		p.text.SetText(said)
		p.scroll.ScrollTo(0)
	}
	p.picture.show(measure)
	p.card.Refresh()
}

// follow says nothing more of a field that is not there any longer.
func (p *helpPlace) follow() {
	if p.of != nil && !p.of.row.There() {
		p.tell(nil)
	}
}

// How high the place is: a share of the tray, within bounds in units.
const (
	helpShare                   = 0.2
	helpLeast, helpMost         = 120, 164
	leastHelpPicture            = 40 // units high; smaller ones show nothing
	helpPictureGap      float32 = theme.Space1
)

// high is how high the place is in a tray of some height.
func (p *helpPlace) high(tray float32) float32 {
	unit := theme.Of(p.card).Unit
	return min(max(tray*helpShare, unit(helpLeast)), unit(helpMost))
}

// helpLayout sets the text over the drawing, which has what the text leaves; without room for both the text has all.
type helpLayout struct{ p *helpPlace }

// MinSize is as little as can be: the place is as high as the tray says.
func (l helpLayout) MinSize(objects []fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout sets them.
func (l helpLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	p := l.p
	p.scroll.Resize(size)
	high := p.text.MinSize().Height // at that width
	left := size.Height - high - helpPictureGap
	if !p.picture.there() || left < theme.Of(p.card).Unit(leastHelpPicture) {
		p.picture.raster.Resize(fyne.Size{})
		return
	}
	p.scroll.Resize(fyne.NewSize(size.Width, high))
	drawn := p.picture.within(fyne.NewSize(size.Width, left))
	p.picture.raster.Move(fyne.NewPos((size.Width-drawn.Width)/2, size.Height-drawn.Height))
	p.picture.raster.Resize(drawn)
}
