package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// NewSelect is a list to choose from, with a word of the catalogue while nothing is
// chosen.
func NewSelect(options []string, changed func(string)) *widget.Select {
	s := widget.NewSelect(options, changed)
	s.PlaceHolder = theme.Word("app.choose-one")
	return s
}

// NewMessage is a hidden line for what is wrong with a field.
func NewMessage() *widget.Label {
	m := widget.NewLabel("")
	m.Importance = widget.DangerImportance
	m.Wrapping = fyne.TextWrapWord
	m.Hide()
	return m
}
