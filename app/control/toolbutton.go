package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// ToolButton is a button of the toolbar: under the pointer it says what it does,
// and the key for it.
type ToolButton struct {
	widget.Button
	Hint func() string
	say  func(string)
}

// NewToolButton makes one; say shows what Hint says.
func NewToolButton(label string, icon fyne.Resource, hint func() string, say func(string), tapped func()) *ToolButton {
	b := &ToolButton{Hint: hint, say: say}
	b.Text, b.Icon, b.OnTapped, b.Importance = label, icon, tapped, widget.LowImportance
	b.ExtendBaseWidget(b)
	return b
}

// MouseIn says what the button does.
func (b *ToolButton) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.say(b.Hint())
}

// MouseOut takes that back.
func (b *ToolButton) MouseOut() {
	b.Button.MouseOut()
	b.say("")
}

// Enable lets a button be used, or not.
func Enable(b fyne.Disableable, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}
