package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/theme"
)

// Press is a button: outlined, or filled where it is the one of its region. It does not take the
// focus from what is typed on when it is pressed with the mouse.
type Press struct {
	focus
	Text string
	// Icon stands before the text; it may do without one.
	Icon *theme.Mark
	// Key is the key that does the same, shown behind the text; empty for none.
	Key string
	// Filled is the one of its region, Chosen is held down, Bare has no edge, Small is less
	// high, Off cannot be pressed.
	Filled, Chosen, Bare, Small, Off bool
	// OnPressed is what it does.
	OnPressed func()
}

// NewPress makes an outlined button.
func NewPress(keys *Keys, text string, pressed func()) *Press {
	p := &Press{Text: text, OnPressed: pressed}
	p.begin(p, keys)
	return p
}

// NewFilled makes the one filled button of a region.
func NewFilled(keys *Keys, text string, pressed func()) *Press {
	p := NewPress(keys, text, pressed)
	p.Filled = true
	return p
}

// WithIcon is the button with an icon before its text.
func (p *Press) WithIcon(k theme.Kind) *Press {
	p.Icon = &theme.Mark{Kind: k}
	return p
}

// AccessibilityLabel is its text, or what it is for where it has none.
func (p *Press) AccessibilityLabel() string {
	if p.Text == "" {
		return p.hint()
	}
	return p.Text
}

// AccessibilityRole tells that it is a button.
func (p *Press) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// Tapped presses it.
func (p *Press) Tapped(*fyne.PointEvent) { p.press() }

// TypedKey presses it, or hands the key on.
func (p *Press) TypedKey(k *fyne.KeyEvent) {
	if pressed(k.Name) && !p.Off {
		p.press()
		return
	}
	p.pass(k)
}

func (p *Press) press() {
	if p.Off || p.OnPressed == nil {
		return
	}
	p.keys.Hints.hide(p)
	p.OnPressed()
}

// Set changes its text and whether it can be pressed.
func (p *Press) Set(text string, off bool) {
	if p.Text != text || p.Off != off {
		p.Text, p.Off = text, off
		p.Refresh()
	}
}

// CreateRenderer draws the button.
func (p *Press) CreateRenderer() fyne.WidgetRenderer {
	r := &pressRenderer{p: p, plate: newPlate(), ring: canvas.NewRectangle(color.Transparent), text: NewText(""), key: NewText("")}
	r.text.Align = fyne.TextAlignCenter
	r.key.Align = fyne.TextAlignCenter
	r.keyPlate = canvas.NewRectangle(color.Transparent)
	if p.Icon != nil {
		r.icon = picture(p, func() theme.Mark { m := *p.Icon; m.Ink = p.ink(); return m }, iconSize)
	}
	r.Refresh()
	return r
}

// hoverStrength is how much ink lies over what the pointer is on, of 255.
const hoverStrength = 20

// iconSize is how large the icon of a button is, in units.
const iconSize = 18

// widestPress is from when on the text of a button goes into two lines, in units.
const widestPress = 220

// ink is the role of the text.
func (p *Press) ink() theme.Role {
	switch {
	case p.Off:
		return theme.Caption
	case p.Filled:
		return theme.OnPress
	}
	return theme.Ink
}

type pressRenderer struct {
	p              *Press
	plate          plate
	ring, keyPlate *canvas.Rectangle
	icon           *canvas.Raster
	text, key      *Text
}

func (r *pressRenderer) Destroy() {}

func (r *pressRenderer) Refresh() {
	p, t := r.p, r.p.theme()
	fill, edge, width := t.Role(theme.Sheet), t.Role(theme.Edge), float32(theme.EdgeWidth)
	switch {
	case p.Filled && !p.Off:
		fill, edge = t.Role(theme.Press), t.Role(theme.Press)
	case p.Chosen:
		fill, edge, width = t.Role(theme.PressGround), t.Role(theme.Press), theme.FocusWidth
	case p.Off:
		edge = t.Role(theme.Line)
	}
	if p.hovered && !p.Off {
		fill = over(fill, t.Role(p.ink()), hoverStrength)
	}
	if p.Bare && !p.Chosen {
		edge = color.NRGBA{}
		if !p.hovered || p.Off {
			fill = color.NRGBA{}
		}
	}
	r.plate.show(fill, edge, width, t.Unit(theme.Radius), color.Transparent, 0)
	r.ring.StrokeColor, r.ring.StrokeWidth, r.ring.CornerRadius = color.Transparent, theme.FocusWidth, t.Unit(theme.Radius+2)
	if p.focused {
		r.ring.StrokeColor = t.Role(theme.Press)
	}
	r.text.Wrap = wide(p.Text, t.Text(theme.TextSecond), true) > t.Unit(widestPress)
	r.text.Styled(theme.TextSecond, true, p.ink()).SetText(p.Text)
	key, keyEdge := theme.Role(theme.Caption), theme.Role(theme.Edge)
	if p.Filled && !p.Off {
		key, keyEdge = theme.OnPress, theme.OnPress
	}
	r.key.Styled(theme.TextLayer, false, key).SetText(p.Key)
	r.keyPlate.StrokeColor, r.keyPlate.StrokeWidth, r.keyPlate.CornerRadius = t.Role(keyEdge), 1, t.Unit(theme.PlateRadius)
	r.keyPlate.Hidden = p.Key == ""
	if r.icon != nil {
		r.icon.Refresh()
	}
	r.Layout(p.BaseWidget.Size())
	canvas.Refresh(p)
}

// parts are the sizes of what stands in the button, and how wide all of it is.
func (r *pressRenderer) parts() (icon, text, key fyne.Size, all float32) {
	p, t := r.p, r.p.theme()
	gap := t.Unit(theme.BetweenTwo)
	add := func(s fyne.Size) {
		if s.Width > 0 {
			if all > 0 {
				all += gap
			}
			all += s.Width
		}
	}
	if r.icon != nil {
		icon = fyne.NewSize(t.Unit(iconSize), t.Unit(iconSize))
	}
	if p.Text != "" {
		width := r.text.WidestLine()
		if r.text.Wrap {
			width = max(r.text.MinSize().Width, width*0.56)
			r.text.Resize(fyne.NewSize(width, 1))
		}
		text = fyne.NewSize(width, r.text.MinSize().Height)
	}
	if p.Key != "" {
		key = r.key.MinSize().Add(fyne.NewSize(t.Unit(theme.Space2), 0))
	}
	add(icon)
	add(text)
	add(key)
	return icon, text, key, all
}

func (r *pressRenderer) MinSize() fyne.Size {
	p, t := r.p, r.p.theme()
	_, text, _, all := r.parts()
	side, high := float32(theme.Space3), float32(theme.PressHeight)
	if p.Small {
		side, high = theme.Space2+2, theme.SmallHeight
	}
	if p.Bare {
		side = theme.BetweenTwo
	}
	least := fyne.NewSize(0, t.High(high))
	if t.IsLarge() {
		least.Width = least.Height // an icon alone is no narrower than it is high
	}
	return fyne.NewSize(all+2*t.Unit(side), text.Height+t.Unit(theme.Space2)).Max(least)
}

func (r *pressRenderer) Layout(size fyne.Size) {
	t := r.p.theme()
	r.plate.place(fyne.Position{}, size, 0)
	const gap = 3 // between the edge and the ring of the focus
	r.ring.Move(fyne.NewPos(-gap, -gap))
	r.ring.Resize(size.AddWidthHeight(2*gap, 2*gap))
	icon, text, key, all := r.parts()
	x, between := (size.Width-all)/2, t.Unit(theme.BetweenTwo)
	put := func(o fyne.CanvasObject, s fyne.Size) {
		if s.Width > 0 {
			o.Move(fyne.NewPos(x, (size.Height-s.Height)/2))
			o.Resize(s)
			x += s.Width + between
		}
	}
	if r.icon != nil {
		put(r.icon, icon)
	}
	put(r.text, text)
	r.keyPlate.Move(fyne.NewPos(x, (size.Height-key.Height)/2))
	r.keyPlate.Resize(key)
	put(r.key, key)
}

func (r *pressRenderer) Objects() []fyne.CanvasObject {
	out := append(r.plate.objects(), r.text, r.keyPlate, r.key, r.ring)
	if r.icon != nil {
		out = append(out, r.icon)
	}
	return out
}
