package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/theme"
)

// Area is something larger than a button that is pressed as a whole, by mouse or by keys: a card, a
// figure with its captions. Buttons in it are pressed for themselves.
type Area struct {
	focus
	Content fyne.CanvasObject
	// OnPressed is what it does; nil for nothing, and then it looks like its content.
	OnPressed func()
	// Called is what it is called to who does not see it.
	Called func() string
}

// NewArea makes one.
func NewArea(keys *Keys, content fyne.CanvasObject, called func() string, pressed func()) *Area {
	a := &Area{Content: content, OnPressed: pressed, Called: called}
	a.begin(a, keys)
	return a
}

// Inside is the content.
func (a *Area) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{a.Content} }

// AccessibilityLabel is what it is called.
func (a *Area) AccessibilityLabel() string { return a.Called() }

// AccessibilityRole tells that it can be pressed.
func (a *Area) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// Tapped presses it.
func (a *Area) Tapped(*fyne.PointEvent) { a.press() }

// TypedKey presses it, or hands the key on.
func (a *Area) TypedKey(k *fyne.KeyEvent) {
	if pressed(k.Name) {
		a.press()
		return
	}
	a.pass(k)
}

// Cursor shows that it can be pressed.
func (a *Area) Cursor() desktop.Cursor {
	if a.OnPressed == nil {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}

func (a *Area) press() {
	if a.OnPressed == nil {
		return
	}
	a.keys.Hints.hide(a)
	a.OnPressed()
}

// CreateRenderer draws the content, with a ring round it under the pointer and with the focus.
func (a *Area) CreateRenderer() fyne.WidgetRenderer {
	r := &areaRenderer{a: a, ring: canvas.NewRectangle(color.Transparent)}
	r.Refresh()
	return r
}

type areaRenderer struct {
	a    *Area
	ring *canvas.Rectangle
}

func (r *areaRenderer) Destroy() {}

// MinSize is that of the content, or as high as what is pressed must be.
func (r *areaRenderer) MinSize() fyne.Size {
	least := r.a.Content.MinSize()
	return least.AddWidthHeight(0, 2*r.spare(least.Height))
}

// spare is what there is above and below a content that is lower than what is pressed must be.
func (r *areaRenderer) spare(height float32) float32 { return max(r.a.theme().High(0)-height, 0) / 2 }

func (r *areaRenderer) Layout(size fyne.Size) {
	r.a.Content.Resize(size) // which tells a text that wraps how high it is
	spare := r.spare(r.a.Content.MinSize().Height)
	r.a.Content.Move(fyne.NewPos(0, spare))
	r.a.Content.Resize(size.SubtractWidthHeight(0, 2*spare))
	r.ring.Resize(size)
}

func (r *areaRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.a.Content, r.ring}
}

func (r *areaRenderer) Refresh() {
	t := r.a.theme()
	r.ring.StrokeColor, r.ring.StrokeWidth, r.ring.CornerRadius = color.Transparent, theme.FocusWidth, t.Unit(theme.Radius)
	switch {
	case r.a.focused:
		r.ring.StrokeColor = t.Role(theme.Press)
	case r.a.hovered && r.a.OnPressed != nil:
		r.ring.StrokeColor, r.ring.StrokeWidth = t.Role(theme.Edge), theme.EdgeWidth
	}
	r.Layout(r.a.BaseWidget.Size())
	canvas.Refresh(r.a)
}
