package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// Fold is a line that is pressed to see what stands under it, and pressed again to fold that away.
type Fold struct {
	Head *ToolButton
	Box  *fyne.Container // what stands under it
	told func()
}

// NewFold makes one that is closed; told is called when it opens or closes.
func NewFold(keys *Keys, told func()) *Fold {
	f := &Fold{Box: container.New(Column{Gap: theme.Space1}), told: func() {}}
	f.Head = NewButton(keys, "", func() { f.Open(!f.Box.Visible()) })
	f.Head.Alignment, f.Head.Importance = widget.ButtonAlignLeading, widget.LowImportance
	f.Open(false)
	f.told = told
	return f
}

// Object is what is shown of it.
func (f *Fold) Object() fyne.CanvasObject { return container.New(Column{}, f.Head, f.Box) }

// SetText has its line say something.
func (f *Fold) SetText(s string) { f.Head.SetText(s) }

// Open shows what stands under it, or folds that away.
func (f *Fold) Open(on bool) {
	if on {
		f.Box.Show()
		f.Head.SetIcon(fynetheme.MenuDropUpIcon())
	} else {
		f.Box.Hide()
		f.Head.SetIcon(fynetheme.MenuDropDownIcon())
	}
	f.told()
}
