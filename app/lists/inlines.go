package lists

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
)

// inLines is a list whose rows are each as high as the lines of their texts take at its width.
type inLines struct {
	list   *control.List
	object *fyne.Container // the list, with what has its rows follow its width
	count  func() int
	row    func() *fyne.Container
	fill   func(int, *fyne.Container)
	width  float32 // that the rows are to be fitted to
	fitted bool    // they are: measuring them takes milliseconds
	least  float32 // how high what is pressed was as they were
	away   bool    // it is not seen
}

// newLines makes one of so many rows; row makes one to be filled.
func newLines(keys *control.Keys, count func() int, row func() *fyne.Container, fill func(int, *fyne.Container)) *inLines {
	l := &inLines{count: count, row: row, fill: fill}
	l.list = control.NewList(keys, count, func() fyne.CanvasObject { return row() },
		func(i int, o fyne.CanvasObject) { fill(i, o.(*fyne.Container)) })
	l.object = container.New(l, l.list)
	return l
}

// fit has every row be as high as its lines take, and no lower than what is pressed, unless it is or the list is not seen or not laid
// out yet.
func (l *inLines) fit() {
	least := theme.Of(l.list).High(theme.PressHeight)
	if l.fitted && l.least == least || l.away || l.width == 0 {
		return
	}
	row := l.row()
	for i := range l.count() {
		row.Resize(fyne.NewSize(l.width, row.MinSize().Height))
		l.fill(i, row)
		l.list.SetItemHeight(i, max(row.MinSize().Height, least))
	}
	l.fitted, l.least = true, least
}

// renew shows other rows.
func (l *inLines) renew() {
	l.fitted = false
	l.fit()
	l.list.Refresh()
}

// setAway tells that the list is not seen, or is again: until then its rows are not measured.
func (l *inLines) setAway(on bool) {
	l.away = on
	l.fit()
}

// MinSize is the list's.
func (l *inLines) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout gives the list all the room there is; its rows follow its width.
func (l *inLines) Layout(o []fyne.CanvasObject, s fyne.Size) {
	if l.width != s.Width {
		l.width, l.fitted = s.Width, false
	}
	l.fit()
	o[0].Resize(s)
}
