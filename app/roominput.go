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

// pickable is one of several things, by its index, with what it is called.
type pickable struct {
	index int
	name  message.Message
}

// itemsOf are the things of a list.
func itemsOf(l job.List) func(job.Job) []pickable {
	if l.Key == job.WallsKey {
		return wallsOf
	}
	return func(j job.Job) []pickable {
		var out []pickable
		for i := range l.Count(&j) {
			out = append(out, pickable{i, l.Item(&j, i)})
		}
		return out
	}
}

// wallsOf are the walls of a room in the order of their letters.
func wallsOf(j job.Job) []pickable {
	var out []pickable
	for _, i := range j.Room.InOrder() {
		if i < len(j.Room.Walls) {
			out = append(out, pickable{i, j.Room.Called(i)})
		}
	}
	return out
}

// itemPicker chooses which of several things is edited.
func (in *inputs) itemPicker(items func(job.Job) []pickable, at *int, refresh func()) (*widget.Select, func(job.Job)) {
	setting := false
	var offered []pickable
	var sel *widget.Select
	sel = newSelect(nil, func(string) {
		if i := sel.SelectedIndex(); !setting && i >= 0 {
			*at = offered[i].index
			refresh()
		}
	})
	return sel, func(j job.Job) {
		setting = true
		defer func() { setting = false }()
		var options []string
		offered = items(j)
		for _, one := range offered {
			options = append(options, theme.Say(one.name, j.Units))
		}
		sel.Options = options
		if i := slices.IndexFunc(offered, func(one pickable) bool { return one.index == *at }); i >= 0 {
			sel.SetSelectedIndex(i)
		} else {
			sel.ClearSelected()
		}
		sel.Refresh()
	}
}
