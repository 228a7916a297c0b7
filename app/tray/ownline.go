package tray

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// ownLine stands under a field whose value is the user's own and not its part's: it says
// what the part has and leads back to it.
type ownLine struct {
	said *control.Text
	box  *fyne.Container
	back func()
}

// newOwnLine makes the line, hidden. Back takes what the part has.
func newOwnLine(keys *control.Keys, back func()) *ownLine {
	said := caption("")
	button := control.NewPress(keys, theme.Word("input.as-sold"), back)
	button.Small = true
	l := &ownLine{said: said, box: container.NewBorder(nil, nil, nil, button, said), back: back}
	l.box.Hide()
	return l
}

// show says that the value is the user's own; nothing to say hides the line.
func (l *ownLine) show(own message.Message, u unit.System) {
	if own.IsZero() {
		l.box.Hide()
		return
	}
	if s := theme.Say(message.Of("input.own", message.In("own", own)), u); l.said.Text != s {
		l.said.SetText(s)
	}
	l.box.Show()
}

// text is what the line says; nothing while it is hidden.
func (l *ownLine) text() string {
	if l == nil || !l.box.Visible() {
		return ""
	}
	return l.said.Text
}
