package control

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/theme"
)

// Pick is one of many: it shows what is chosen and opens a list over the window, which gives the
// focus back when it closes.
type Pick struct {
	focus
	About    string // what is chosen, for who cannot see; in the empty pick as well
	options  []Option
	chosen   string
	OnChosen func(id string)
	list     *pickList // that is open
}

// NewPick makes a pick; chosen is an option's ID, or none of them.
func NewPick(keys *Keys, about string, options []Option, chosen string, f func(id string)) *Pick {
	p := &Pick{About: about, options: options, chosen: chosen, OnChosen: f}
	p.begin(p, keys)
	return p
}

// Set changes the options and which one is chosen.
func (p *Pick) Set(options []Option, chosen string) {
	p.options, p.chosen = options, chosen
	p.Refresh()
}

// Chosen is the ID of what is chosen.
func (p *Pick) Chosen() string { return p.chosen }

// text is what it shows.
func (p *Pick) text() string {
	if i := p.at(); i >= 0 {
		return p.options[i].Text
	}
	return ""
}

// at is where the chosen option stands in the list; −1 for nowhere.
func (p *Pick) at() int {
	for i, o := range p.options {
		if o.ID == p.chosen {
			return i
		}
	}
	return -1
}

// AccessibilityLabel says what is chosen of what.
func (p *Pick) AccessibilityLabel() string {
	return strings.Join(slicesOf(p.About, p.text()), ": ")
}

// AccessibilityRole tells that it can be pressed.
func (p *Pick) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// Tapped opens the list.
func (p *Pick) Tapped(*fyne.PointEvent) {
	FocusOn(p)
	p.Open()
}

// TypedKey opens the list, or hands the key on.
func (p *Pick) TypedKey(k *fyne.KeyEvent) {
	if pressed(k.Name) || k.Name == fyne.KeyDown || k.Name == fyne.KeyUp {
		p.Open()
		return
	}
	p.pass(k)
}

// TypedRune opens the list at what begins with it.
func (p *Pick) TypedRune(r rune) {
	if unicode.IsLetter(r) || unicode.IsDigit(r) {
		p.Open()
		if p.list != nil {
			p.list.TypedRune(r)
		}
	}
}

// Open opens the list.
func (p *Pick) Open() {
	c := fyne.CurrentApp().Driver().CanvasForObject(p)
	if c == nil || p.list != nil || len(p.options) == 0 {
		return
	}
	p.keys.Hints.hide(p)
	p.list = newPickList(p, c)
	c.Overlays().Add(p.list)
	p.list.Resize(c.Size())
	c.Focus(p.list)
	p.list.scroll.Reveal(p.list.rows[p.list.marked])
}

// close closes the list and gives the focus back.
func (p *Pick) close() {
	if p.list == nil {
		return
	}
	l := p.list
	p.list = nil
	l.canvas.Overlays().Remove(l)
	l.canvas.Focus(p)
}

// choose takes an option of the list.
func (p *Pick) choose(i int) {
	if p.options[i].Off {
		return
	}
	id := p.options[i].ID
	p.close()
	if id == p.chosen {
		return
	}
	p.chosen = id
	p.Refresh()
	if p.OnChosen != nil {
		p.OnChosen(id)
	}
}

// CreateRenderer draws what is chosen and the sign of a list.
func (p *Pick) CreateRenderer() fyne.WidgetRenderer {
	r := &pickRenderer{p: p, plate: newPlate(), text: NewWrapped("")}
	r.icon = picture(p, func() theme.Mark { return theme.Mark{Kind: theme.IconDown, Ink: theme.Caption} }, pickIcon)
	r.Refresh()
	return r
}

// pickIcon is how large the sign of a list is, in units.
const pickIcon = 14

type pickRenderer struct {
	p     *Pick
	plate plate
	text  *Text
	icon  *canvas.Raster
}

func (r *pickRenderer) Destroy() {}

func (r *pickRenderer) MinSize() fyne.Size {
	t := r.p.theme()
	if w := r.p.BaseWidget.Size().Width; w > 0 {
		r.text.Resize(fyne.NewSize(w-r.beside(), 1))
	}
	least := r.text.MinSize()
	return fyne.NewSize(max(t.Unit(fieldWide), least.Width+r.beside()), max(t.High(theme.PressHeight), least.Height+t.Unit(theme.Space2)))
}

// beside is what stands beside the text.
func (r *pickRenderer) beside() float32 {
	t := r.p.theme()
	return 2*t.Unit(theme.Space2) + t.Unit(pickIcon) + t.Unit(theme.Space2)
}

func (r *pickRenderer) Layout(size fyne.Size) {
	t := r.p.theme()
	r.plate.place(fyne.Position{}, size, 0)
	side, icon := t.Unit(theme.Space2), t.Unit(pickIcon)
	r.text.Resize(fyne.NewSize(size.Width-r.beside(), 1))
	high := r.text.MinSize().Height
	r.text.Move(fyne.NewPos(side, (size.Height-high)/2))
	r.text.Resize(fyne.NewSize(size.Width-r.beside(), high))
	r.icon.Move(fyne.NewPos(size.Width-side-icon, (size.Height-icon)/2))
	r.icon.Resize(fyne.NewSize(icon, icon))
}

func (r *pickRenderer) Objects() []fyne.CanvasObject {
	return append(r.plate.objects(), r.text, r.icon)
}

func (r *pickRenderer) Refresh() {
	p, t := r.p, r.p.theme()
	edge, width, none := t.Role(theme.Edge), float32(theme.EdgeWidth), theme.Paper.In(false)
	none.A = 0
	if p.focused || p.list != nil {
		edge, width = t.Role(theme.Press), theme.FocusWidth
	}
	fill := t.Role(theme.Sheet)
	if p.hovered {
		fill = over(fill, t.Role(theme.Ink), hoverStrength)
	}
	r.plate.show(fill, edge, width, t.Unit(theme.Radius), none, 0)
	if text := p.text(); text != "" {
		r.text.Styled(theme.TextBody, false, theme.Ink).SetText(text)
	} else {
		r.text.Styled(theme.TextBody, false, theme.Caption).SetText(p.About)
	}
	r.icon.Refresh()
	r.Layout(p.BaseWidget.Size())
	canvas.Refresh(p)
}
