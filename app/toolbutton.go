package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// toolButton is a button of the toolbar: under the pointer it says what it does,
// and the key for it.
type toolButton struct {
	widget.Button
	hint func() string
	say  func(string)
}

func newToolButton(label string, icon fyne.Resource, hint func() string, say func(string), tapped func()) *toolButton {
	b := &toolButton{hint: hint, say: say}
	b.Text, b.Icon, b.OnTapped, b.Importance = label, icon, tapped, widget.LowImportance
	b.ExtendBaseWidget(b)
	return b
}

// MouseIn says what the button does.
func (b *toolButton) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.say(b.hint())
}

// MouseOut takes that back.
func (b *toolButton) MouseOut() {
	b.Button.MouseOut()
	b.say("")
}

// enable lets a button be used, or not.
func enable(b fyne.Disableable, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}
