package tray

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/theme"
	"underfall/geometry/message"
)

// help stands under the field that has the focus: what there is to know of it, and a small
// drawing of what is measured.
type help struct {
	box *fyne.Container
	row Row
}

// helpUnder makes what stands under a field while it is the one that is asked. The id is of a text,
// measure of what its drawing shows.
func (t *Tray) helpUnder(r Row, text message.ID, measure string) fyne.CanvasObject {
	h := &help{row: r, box: container.New(stacked{}, caption(theme.Word(text)))}
	if p := newPicture(measure, t.theme); p != nil {
		h.box.Add(p)
	}
	h.box.Hide()
	t.helps = append(t.helps, h)
	switch r := r.(type) {
	case *NumberRow:
		t.asked[r.Field] = h
	case *ChoiceRow:
		t.asked[r.by] = h
	case *TextRow:
		r.Entry.OnFocus = func() { t.ask(h) }
	}
	return h.box
}

// ask shows what there is to know of a field, and of no other.
func (t *Tray) ask(asked *help) {
	for _, h := range t.helps {
		if h != asked && h.box.Visible() {
			h.box.Hide()
		}
	}
	asked.box.Show()
	t.open.box.Refresh()
	t.open.scroll.Reveal(asked.box)
	t.open.scroll.Reveal(asked.row.Object())
}

// follow hides what stands under a field that is not there.
func (h *help) follow() {
	if !h.row.There() {
		h.box.Hide()
	}
}
