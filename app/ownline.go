package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// ownLine stands under a field whose value is the user's own and not its part's: it says
// what the part has and leads back to it.
type ownLine struct {
	said *widget.Label
	box  *fyne.Container
}

// newOwnLine makes the line, hidden. Back takes what the part has.
func newOwnLine(back func()) *ownLine {
	said := widget.NewLabel("")
	said.Importance = widget.HighImportance
	said.SizeName = fynetheme.SizeNameCaptionText
	said.Truncation = fyne.TextTruncateEllipsis
	button := widget.NewButton(theme.Word("input.as-sold"), back)
	button.Importance = widget.LowImportance
	middle := container.NewVBox(layout.NewSpacer(), said, layout.NewSpacer())
	l := &ownLine{said: said, box: container.NewBorder(nil, nil, nil, button, middle)}
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
