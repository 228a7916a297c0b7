package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/message"
)

// sides are what the window shows at its left beside the drawings: the fields of a station of
// the work, or one of the lists of what has been worked out.
type sides struct {
	frame *frame
	keys  *control.Keys
	lists []side
	// fields are those of the stations.
	fields fyne.CanvasObject
	at     int    // which list is open; one of the two below for none
	told   func() // is called when another is open, or none
}

// What is open when no list is.
const (
	sideClosed = -1
	sideFields = -2
)

// side is one list.
type side struct {
	name   message.ID
	object fyne.CanvasObject
}

func newSides(f *frame, keys *control.Keys, lists []side) *sides {
	return &sides{frame: f, keys: keys, lists: lists, at: sideClosed, told: func() {}}
}

// open shows a list, by its name.
func (s *sides) open(name message.ID) {
	for i, l := range s.lists {
		if l.name == name {
			s.SelectIndex(i)
		}
	}
}

// SelectIndex shows a list under its name, with what closes it.
func (s *sides) SelectIndex(i int) {
	s.at = i
	closing := control.NewButton(s.keys, "", s.close)
	closing.Icon, closing.Importance = fynetheme.CancelIcon(), widget.LowImportance
	name := control.NewText(theme.Word(s.lists[i].name)).Styled(theme.TextTray, true, theme.Ink)
	head := container.NewBorder(nil, nil, container.New(layout.NewCustomPaddedLayout(0, 0, theme.Space2, 0),
		container.NewVBox(layout.NewSpacer(), name, layout.NewSpacer())), closing)
	s.put(container.NewBorder(head, nil, nil, nil, s.lists[i].object))
}

// SelectedIndex is the list that is open.
func (s *sides) SelectedIndex() int { return s.at }

// openFields shows the fields.
func (s *sides) openFields() {
	s.at = sideFields
	s.put(s.fields)
}

func (s *sides) put(o fyne.CanvasObject) {
	s.frame.fill(regionTray, control.NewCard(o))
	s.frame.openTray(true, s.at == sideFields)
	s.told()
}

// close gives the place back to the drawings.
func (s *sides) close() {
	s.at = sideClosed
	s.frame.openTray(false, false)
	s.told()
}

// shows tells whether a list is the one that is open, by its name.
func (s *sides) shows(name message.ID) bool { return s.at >= 0 && s.lists[s.at].name == name }

// title is what the open list is called; empty without one.
func (s *sides) title() string {
	if s.at < 0 {
		return ""
	}
	return theme.Word(s.lists[s.at].name)
}
