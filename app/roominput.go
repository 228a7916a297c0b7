package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// shapes are buttons that give the room a shape to start from; what is refused is told under its
// corners.
func (in *inputs) shapes(corners *textRow) row {
	rectangle := func(size plan.Point) []plan.Point {
		w, d := size.X(), size.Y()
		return []plan.Point{{0, 0}, {w, 0}, {w, d}, {0, d}}
	}
	l := func(size plan.Point) []plan.Point {
		w, d := size.X(), size.Y()
		return []plan.Point{{0, 0}, {w, 0}, {w, d / 2}, {w / 2, d / 2}, {w / 2, d}, {0, d}}
	}
	reach := func(j job.Job) (low, size plan.Point) {
		low, high, _ := plan.Region{{Outer: j.Room.Outline}}.Bounds()
		return low, high.Sub(low)
	}
	shape := func(name message.ID, ring func(size plan.Point) []plan.Point) *widget.Button {
		return widget.NewButton(theme.Word(name), func() {
			_, size := reach(in.now)
			sayUnder(corners.message, refusal(in.desk.Do(edit.Outline(ring(size))), ""), in.now.Units)
		})
	}
	toRectangle, toL := shape("field.rectangle", rectangle), shape("field.l-shape", l)
	return &groupRow{box: container.NewGridWithColumns(2, toRectangle, toL), pre: func(j job.Job) {
		// A room that is so already would not change.
		low, size := reach(j)
		control.Enable(toRectangle, !sameCorners(j.Room.Outline, rectangle(size), low))
		control.Enable(toL, !sameCorners(j.Room.Outline, l(size), low))
	}}
}

// sameCorners tells whether an outline has the corners of a ring, shifted.
func sameCorners(outline, ring []plan.Point, shift plan.Point) bool {
	return len(outline) == len(ring) && !slices.ContainsFunc(ring, func(p plan.Point) bool {
		return !slices.ContainsFunc(outline, func(q plan.Point) bool { return q.Sub(shift).Sub(p).Len() < plan.HairMM })
	})
}

// groupRow holds rows about one item of a list, and the item's picker.
type groupRow struct {
	box  *fyne.Container
	rows []row
	pre  func(job.Job)
	// list is the key of the list of things that are edited, at which of them; empty for none.
	list string
	at   *int
}

func (g *groupRow) object() fyne.CanvasObject { return g.box }

func (g *groupRow) refresh(j job.Job) {
	g.pre(j)
	for _, r := range g.rows {
		r.refresh(j)
	}
}

// addRows puts the rows under what there is.
func (g *groupRow) addRows() {
	for _, r := range g.rows {
		g.box.Add(r.object())
	}
}

// picker is the place of which item of a list is being edited.
func (in *inputs) picker() *int {
	at := new(int)
	in.picked = append(in.picked, at)
	return at
}

// pickFirst goes back to the first item of every list.
func (in *inputs) pickFirst() {
	for _, at := range in.picked {
		*at = 0
	}
}

// itemPicker chooses which item of a list is edited.
func (in *inputs) itemPicker(label message.ID, count func(job.Job) int, at *int, refresh func()) (*widget.Select, func(job.Job)) {
	setting := false
	var sel *widget.Select
	sel = newSelect(nil, func(string) {
		if i := sel.SelectedIndex(); !setting && i >= 0 {
			*at = i
			refresh()
		}
	})
	return sel, func(j job.Job) {
		setting = true
		defer func() { setting = false }()
		var options []string
		for i := range count(j) {
			options = append(options, theme.Word(label, message.No("n", i+1)))
		}
		sel.Options = options
		if *at < len(options) {
			sel.SetSelectedIndex(*at)
		} else {
			sel.ClearSelected()
		}
		sel.Refresh()
	}
}
