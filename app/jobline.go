package app

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/app/tray"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// jobLine says which job is on the desk and whether it is saved. The name, pressed, is a field until that is
// left.
type jobLine struct {
	name  *widget.Label
	press *control.Area // the name to be pressed
	row   *tray.TextRow // the name to be typed
	saved *widget.Label
	// line is where they stand in, laid out anew as the name gets longer or shorter; nil before it is made.
	line *fyne.Container
}

func newJobLine(asks tray.Asks, keys *control.Keys) jobLine {
	l := jobLine{name: widget.NewLabel(""), saved: widget.NewLabel(""), row: newNameRow(asks, keys)}
	l.name.TextStyle.Bold = true
	l.name.Truncation = fyne.TextTruncateEllipsis
	l.saved.SizeName, l.saved.Importance = fynetheme.SizeNameCaptionText, widget.LowImportance
	called := func() string { return theme.Word("field.name") + ": " + l.name.Text }
	l.press = control.NewArea(keys, l.name, called, func() { l.typing(true) })
	e := l.row.Entry
	e.Hide()
	leave, escape := e.OnLeave, e.OnEscape
	e.OnLeave = func() { leave(); l.typing(false) }
	e.OnEscape = func() { escape(); l.typing(false) }
	return l
}

// typing has the name be a field with the keys in it, or not.
func (l *jobLine) typing(on bool) {
	e := l.row.Entry
	if on == e.Visible() {
		return
	}
	var shows, goes interface {
		fyne.CanvasObject
		fyne.Focusable
	} = l.press, e
	if on {
		shows, goes = e, l.press
	}
	// What does not show yet has no canvas.
	canvas := fyne.CurrentApp().Driver().CanvasForObject(goes)
	had := on || control.Focused(goes)
	goes.Hide()
	shows.Show()
	if canvas != nil && had {
		canvas.Focus(shows)
	}
	if on {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	l.place()
}

// place lays the line out anew.
func (l *jobLine) place() {
	if l.line != nil {
		l.line.Refresh()
	}
}

// object is the name.
func (l *jobLine) object() fyne.CanvasObject { return container.NewStack(l.press, l.row.Entry) }

// needs is how wide the name is in whole, or the field that it is typed in.
func (l *jobLine) needs() float32 {
	const field = 300
	if l.row.Entry.Visible() {
		return field
	}
	text := fyne.MeasureText(l.name.Text, theme.Of(l.name).Size(fynetheme.SizeNameText), l.name.TextStyle)
	return text.Width + 2*theme.Of(l.name).Size(fynetheme.SizeNameInnerPadding) + 1
}

// show follows the desk.
func (l *jobLine) show(c desk.Change, j job.Job) {
	named := c.Result.Stated.Name != l.name.Text
	write(l.name, c.Result.Stated.Name)
	l.row.Refresh(j)
	switch {
	case c.File == "":
		write(l.saved, theme.Word("app.not-saved-yet"))
	case c.Unsaved:
		write(l.saved, theme.Word("app.changed-since", message.Name("file", store.Plain(filepath.Base(c.File)))))
	default:
		write(l.saved, store.Plain(filepath.Base(c.File)))
	}
	if named {
		l.place()
	}
}

// nameFirst sets a name that may be cut short before what stands behind it, as wide as it needs where there
// is room for that.
type nameFirst struct {
	// needs is how wide the name is.
	needs func() float32
}

// leastName is the width of a job's name that is cut short.
const leastName = 110

// MinSize is with the name at its shortest.
func (n nameFirst) MinSize(o []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(leastName, o[0].MinSize().Height)
	for _, behind := range o[1:] {
		if behind.Visible() {
			m := behind.MinSize()
			s.Width, s.Height = s.Width+m.Width, max(s.Height, m.Height)
		}
	}
	return s
}

// Layout places them.
func (n nameFirst) Layout(o []fyne.CanvasObject, s fyne.Size) {
	x := min(max(leastName, n.needs()), s.Width-n.MinSize(o).Width+leastName)
	put := func(o fyne.CanvasObject, at, width float32) {
		high := o.MinSize().Height
		o.Move(fyne.NewPos(at, (s.Height-high)/2))
		o.Resize(fyne.NewSize(width, high))
	}
	put(o[0], 0, x)
	for _, behind := range o[1:] {
		if behind.Visible() {
			width := behind.MinSize().Width
			put(behind, x, width)
			x += width
		}
	}
}
