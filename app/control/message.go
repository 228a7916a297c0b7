package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// NewMessage is a hidden line for what is wrong with a field.
func NewMessage() *widget.Label {
	m := widget.NewLabel("")
	m.Importance = widget.DangerImportance
	m.Wrapping = fyne.TextWrapWord
	m.Hide()
	return m
}
