package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// fieldWide is how wide a field is at least, in units.
const fieldWide = 112

// edge is the role of the field's edge.
func (f *Field) edge() theme.Role {
	switch {
	case len(f.asked) > 0:
		return theme.Tight
	case f.refused != "" && !f.entry.changed():
		return theme.Stops
	case f.entry.has:
		return theme.Press
	case f.shown.Known == Assumed, f.shown.Known == NotKnown && f.words.NotKnown != "":
		return theme.Unknown
	}
	return theme.Edge
}

// broken tells whether the edge is broken, and finely.
func (f *Field) broken() (is, fine bool) {
	if f.entry.has || f.refused != "" || len(f.asked) > 0 {
		return false, false
	}
	switch f.shown.Known {
	case Assumed:
		return true, false
	case WorkedOut:
		return true, true
	case NotKnown:
		return f.words.NotKnown != "", false
	}
	return false, false
}

// ground is the role under what is typed.
func (f *Field) ground() theme.Role {
	if f.shown.Known == WorkedOut && !f.entry.has {
		return theme.Sunk
	}
	return theme.Sheet
}

// CreateRenderer draws the field.
func (f *Field) CreateRenderer() fyne.WidgetRenderer {
	r := &fieldRenderer{f: f, plate: newPlate(), label: NewWrapped(f.Label), unit: f.unit, note: NewWrapped(""), tag: newTag()}
	r.broken = Broken(f, func() (edge, ground theme.Role, fine bool) {
		_, fine = f.broken()
		return f.edge(), f.ground(), fine
	})
	r.entry = newInLook(&fieldTheme{f.theme(), f}, f.entry)
	r.grip = newGrip(f)
	r.Refresh()
	return r
}

type fieldRenderer struct {
	f      *Field
	plate  plate
	broken *canvas.Raster
	entry  inLook
	label  *Text
	unit   *Text
	note   *Text
	tag    *tag
	grip   *grip
	times  float32
}

func (r *fieldRenderer) Destroy() { r.entry.release() }

func (r *fieldRenderer) thick() float32 {
	if r.f.shown.Known != Held {
		return 0
	}
	return r.f.theme().Unit(theme.StandWidth)
}

func (r *fieldRenderer) Refresh() {
	f, t := r.f, r.f.theme()
	r.label.Styled(theme.TextSecond, true, theme.Ink).SetText(f.Label)
	r.unit.Styled(theme.TextSecond, false, theme.Caption).SetText(f.unitShown())
	broken, _ := f.broken()
	edge, width := t.Role(f.edge()), float32(theme.EdgeWidth)
	if f.edge() != theme.Edge {
		width = theme.FocusWidth
	}
	if f.entry.has { // Fyne's entry draws it
		edge = color.NRGBA{}
	}
	r.broken.Hidden = !broken
	if broken {
		edge = color.NRGBA{}
		r.broken.Refresh()
	}
	r.plate.show(t.Role(f.ground()), edge, width, t.Unit(theme.Radius), t.Role(theme.Ink), r.thick())
	r.plate.hide(broken)
	if times := t.Unit(1); times != r.times {
		r.times = times
		r.entry.wear(&fieldTheme{t, f})
	}
	f.entry.Refresh()
	r.say()
	r.Layout(f.Size())
	canvas.Refresh(f)
}

// say writes what stands under the field.
func (r *fieldRenderer) say() {
	f := r.f
	f.pickAmong()
	r.tag.text = ""
	switch {
	case len(f.asked) > 0:
		var texts []string
		for _, a := range f.asked {
			texts = append(texts, a.Text)
		}
		r.note.Styled(theme.TextCaption, true, theme.Ink).SetText(f.words.Which(texts))
	case f.refused != "":
		r.note.Styled(theme.TextCaption, true, theme.Stops).SetText(f.refused)
	case f.told != "":
		r.note.Styled(theme.TextCaption, false, theme.Ink).SetText(f.told)
	case f.shown.Known == Assumed:
		r.tag.text = f.words.Assumed
		r.note.SetText("")
	case f.shown.Known == NotKnown && f.words.NotKnown != "":
		r.tag.text = f.words.NotKnown
		r.note.SetText("")
	default:
		r.note.Styled(theme.TextCaption, false, theme.Caption).SetText(f.Below)
	}
	r.tag.Refresh()
}

// pickAmong has as many readings to press as there are.
func (f *Field) pickAmong() {
	n := len(f.choices())
	for len(f.picks) < n {
		f.picks = append(f.picks, newWhichOf(f, len(f.picks)))
	}
	f.picks = f.picks[:n]
	for _, p := range f.picks {
		p.Refresh()
	}
}

// arrange lays the parts out under one another for a width and tells how high they are.
func (r *fieldRenderer) arrange(width float32) (high float32) {
	f, t := r.f, r.f.theme()
	gap := t.Unit(theme.Space1)
	stand := func(o fyne.CanvasObject, wide float32) {
		o.Resize(fyne.NewSize(wide, 1))
		size := fyne.NewSize(wide, o.MinSize().Height)
		o.Move(fyne.NewPos(0, high))
		o.Resize(size)
		high += size.Height
	}
	if f.Label != "" {
		stand(r.label, width)
		high += gap
	}
	box := fyne.NewSize(width, t.High(theme.PressHeight))
	at := fyne.NewPos(0, high)
	r.plate.place(at, box, r.thick())
	r.broken.Move(at)
	r.broken.Resize(box)
	r.entry.Move(at.AddXY(r.thick(), 0))
	r.entry.Resize(box.SubtractWidthHeight(r.thick(), 0))
	r.grip.Move(at)
	r.grip.Resize(fyne.NewSize(2*t.Unit(theme.StandWidth), box.Height))
	high += box.Height
	if r.note.Text != "" {
		high += gap / 2
		stand(r.note, width)
	}
	if r.tag.text != "" {
		high += gap / 2
		r.tag.Move(fyne.NewPos(0, high))
		r.tag.Resize(r.tag.MinSize())
		high += r.tag.MinSize().Height
	}
	x := float32(0)
	for i, p := range r.f.picks {
		size := p.MinSize()
		if i > 0 && x+size.Width > width {
			x = 0
			high += size.Height + t.Unit(theme.BetweenTwo)
		}
		p.Move(fyne.NewPos(x, high+gap))
		p.Resize(size)
		x += size.Width + t.Unit(theme.BetweenTwo)
		if i == len(r.f.picks)-1 {
			high += gap + size.Height
		}
	}
	return high
}

func (r *fieldRenderer) MinSize() fyne.Size {
	wide := r.f.theme().Unit(fieldWide)
	width := r.f.Size().Width
	if width <= 0 {
		width = wide
	}
	return fyne.NewSize(wide, r.arrange(width))
}

func (r *fieldRenderer) Layout(size fyne.Size) { r.arrange(size.Width) }

func (r *fieldRenderer) Objects() []fyne.CanvasObject {
	out := append(r.plate.objects(), r.broken, r.entry.ThemeOverride)
	if r.f.Label != "" {
		out = append(out, r.label)
	}
	if r.note.Text != "" {
		out = append(out, r.note)
	}
	if r.tag.text != "" {
		out = append(out, r.tag)
	}
	if r.f.shown.Known == Held {
		out = append(out, r.grip)
	}
	for _, p := range r.f.picks {
		out = append(out, p)
	}
	return out
}

// grip is the thick edge of a field that is held: pressed, it lets go. It is passed over by Tab,
// so that numbers can be typed one after the other; keys let go with Ctrl-L in the field.
type grip struct {
	widget.BaseWidget
	field *Field
}

func newGrip(f *Field) *grip {
	g := &grip{field: f}
	g.ExtendBaseWidget(g)
	return g
}

// Tapped lets go.
func (g *grip) Tapped(*fyne.PointEvent) { g.field.letGo() }

// MouseIn says soon what pressing it does.
func (g *grip) MouseIn(*desktop.MouseEvent) {
	g.field.keys.Hints.soon(g, func() string { return g.field.words.LetGo })
}

// MouseMoved does nothing.
func (g *grip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends it.
func (g *grip) MouseOut() { g.field.keys.Hints.hide(g) }

// Cursor tells that it can be pressed.
func (g *grip) Cursor() desktop.Cursor { return desktop.PointerCursor }

// AccessibilityLabel says what pressing it does.
func (g *grip) AccessibilityLabel() string { return g.field.words.LetGo }

// AccessibilityRole tells that it can be pressed.
func (g *grip) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// CreateRenderer draws nothing: the field has the edge.
func (g *grip) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}

// tag is a word in a broken edge: what is assumed, what is not known.
type tag struct {
	widget.BaseWidget
	text string
}

func newTag() *tag {
	t := &tag{}
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer draws the word and its edge.
func (g *tag) CreateRenderer() fyne.WidgetRenderer {
	r := &tagRenderer{g: g, text: NewText("")}
	r.edge = Broken(g, func() (edge, ground theme.Role, fine bool) { return theme.Unknown, theme.Sheet, false })
	r.text.Align = fyne.TextAlignCenter
	r.Refresh()
	return r
}

type tagRenderer struct {
	g    *tag
	edge *canvas.Raster
	text *Text
}

func (r *tagRenderer) Destroy() {}

func (r *tagRenderer) MinSize() fyne.Size {
	t := theme.Of(r.g)
	return r.text.MinSize().AddWidthHeight(t.Unit(theme.Space3), t.Unit(2))
}

func (r *tagRenderer) Layout(size fyne.Size) {
	r.edge.Resize(size)
	r.text.Resize(size)
}

func (r *tagRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.edge, r.text} }

func (r *tagRenderer) Refresh() {
	r.text.Styled(theme.TextCaption, false, theme.Unknown).SetText(r.g.text)
	r.edge.Refresh()
}
