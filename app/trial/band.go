package trial

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
)

// band says over the drawings what is tried, and has what keeps it and what puts it back. Held down, by the mouse or
// by Space, it has the job before shown.
type band struct {
	widget.BaseWidget
	room        *Room
	card        *control.Card
	title, note *control.Text
	trying      *control.Text
	back, keep  *control.Press
}

func newBand(r *Room) *band {
	b := &band{room: r, trying: control.NewText(theme.Word("trial.trying")).Styled(theme.TextSecond, true, theme.Press), title: control.NewWrapped("").Styled(theme.TextHeading, true, theme.Ink),
		note: control.NewWrapped("").Styled(theme.TextCaption, false, theme.Ink)}
	b.back = control.NewPress(r.keys, theme.Word("trial.put-back"), r.PutBack)
	b.back.Key = theme.Word("app.key-escape")
	b.keep = control.NewFilled(r.keys, theme.Word("trial.keep"), r.Keep)
	b.keep.Key = theme.Word("trial.key-enter")
	right := container.NewCenter(container.NewHBox(b.back, b.keep))
	b.card = control.NewCard(container.NewBorder(nil, nil, nil, right, container.NewBorder(nil, nil, container.New(padded{}, b.trying), nil, container.New(control.Column{Gap: 2}, b.title, b.note))))
	b.card.Fill, b.card.Edge, b.card.EdgeWidth, b.card.Pad = theme.PressGround, theme.Press, theme.FocusWidth, theme.Space2
	b.ExtendBaseWidget(b)
	return b
}

// padded leaves room behind what it holds.
type padded struct{}

// MinSize is with that room.
func (padded) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[0].MinSize().AddWidthHeight(theme.Space3, 0)
}

// Layout places it.
func (padded) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Resize(s.SubtractWidthHeight(theme.Space3, 0))
}

// CreateRenderer shows the card.
func (b *band) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.card) }

// Inside is the card.
func (b *band) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{b.card} }

// say says what is tried, and what goes along.
func (b *band) say(does, note string) {
	b.title.SetText(does)
	b.note.SetText(note)
	b.card.Refresh()
}

// AccessibilityLabel is what is tried.
func (b *band) AccessibilityLabel() string { return b.trying.Text + " " + b.title.Text }

// AccessibilityRole tells that it is a text.
func (b *band) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// FocusGained shows nothing: the keys of the trial are those of the whole room.
func (b *band) FocusGained() {}

// FocusLost ends holding.
func (b *band) FocusLost() { b.room.Hold(false) }

// TypedRune is not for it.
func (b *band) TypedRune(rune) {}

// TypedKey hands keys to the window, which gives the room its own.
func (b *band) TypedKey(k *fyne.KeyEvent) {
	if b.room.keys.Plain != nil {
		b.room.keys.Plain(k)
	}
}

// TypedShortcut hands the window's shortcuts on.
func (b *band) TypedShortcut(s fyne.Shortcut) { b.room.keys.Typed(s) }

// KeyDown has the job before shown as long as Space is down.
func (b *band) KeyDown(k *fyne.KeyEvent) {
	if k.Name == fyne.KeySpace {
		b.room.Hold(true)
	}
}

// KeyUp shows what is tried again.
func (b *band) KeyUp(k *fyne.KeyEvent) {
	if k.Name == fyne.KeySpace {
		b.room.Hold(false)
	}
}

// MouseDown has the job before shown as long as the button is.
func (b *band) MouseDown(*desktop.MouseEvent) { b.room.Hold(true) }

// MouseUp shows what is tried again.
func (b *band) MouseUp(*desktop.MouseEvent) { b.room.Hold(false) }

// MouseIn does nothing.
func (b *band) MouseIn(*desktop.MouseEvent) {}

// MouseMoved does nothing.
func (b *band) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends holding.
func (b *band) MouseOut() { b.room.Hold(false) }
