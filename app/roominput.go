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
	"underfall/geometry/unit"
)

// outline edits the room's corners.
func (in *inputs) outline() *textRow {
	return in.linesRow("field.corners", [][]float64{{0, 0}, {2400, 0}, {2400, 1900}, {0, 1900}}, 5, 2, pointColumns(),
		func(j job.Job) [][]float64 { return pointsOf(j.Room.Outline) },
		func(j *job.Job, items [][]float64) error {
			var ring []plan.Point
			for _, v := range items {
				ring = append(ring, plan.Point{v[0], v[1]})
			}
			*j = edit.Outline(ring).Apply(*j)
			return nil
		})
}

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

// wallEditor edits the room's walls one by one. They are no list of things: there are as
// many as sides, and what one is made of brings usual studs.
func (in *inputs) wallEditor() row {
	at := in.picker()
	g := &groupRow{}
	sel, sync := in.itemPicker("place.wall", func(j job.Job) int { return len(j.Room.Walls) }, at, func() { g.refresh(in.now) })
	g.pre = func(j job.Job) {
		*at = min(*at, len(j.Room.Walls)-1)
		sync(j)
	}
	wall := func(j *job.Job) *job.Wall { return &j.Room.Walls[*at] }
	stud := func(j job.Job) bool { return wall(&j).Kind == job.WallStud }
	cavity := func(j job.Job) bool { return wall(&j).Kind == job.WallCavity }
	length := func(key string, label, what message.ID, least, greatest float64, uses func(job.Job) bool, field func(*job.Wall) *float64) row {
		return newNumberRow(number{key: "wall " + key, label: label, kind: unit.Length, step: 5, least: least, greatest: greatest, uses: uses,
			get: func(j job.Job) float64 { return *field(wall(&j)) },
			set: func(v float64) edit.Edit {
				i := *at
				return edit.Of(message.Of(what, message.No("n", i+1)), func(j *job.Job) { *field(&j.Room.Walls[i]) = v })
			}}, in.desk, in.keys)
	}
	level := func(key string, label, what message.ID, field func(*job.Wall) **float64) row {
		return in.optional("wall "+key, label, -20000, 5000, func(j *job.Job) **float64 { return field(wall(j)) }, func(v *float64) edit.Edit {
			i := *at
			return edit.Optional(message.Of(what, message.No("n", i+1)), func(j *job.Job) **float64 { return field(&j.Room.Walls[i]) }, v)
		}, nil)
	}
	g.rows = []row{
		choiceOf(in, "field.wall-kind", job.WallKinds(), func(j job.Job) job.WallKind { return wall(&j).Kind },
			func(k job.WallKind) edit.Edit { return edit.Wall(*at, k) }, nil),
		newNumberRow(sideLength(func() edit.Side { return edit.Side{Wall: *at} }), in.desk, in.keys),
		length("thickness", "field.wall-thickness", "place.wall-thickness", 10, 1500, nil,
			func(w *job.Wall) *float64 { return &w.ThicknessMM }),
		length("stud spacing", "field.stud-spacing", "place.wall-stud-spacing", 50, 3000, stud,
			func(w *job.Wall) *float64 { return &w.StudSpacingMM }),
		length("first stud", "field.first-stud", "place.wall-first-stud", -3000, 3000, stud,
			func(w *job.Wall) *float64 { return &w.FirstStudMM }),
		length("stud width", "field.stud-width", "place.wall-stud-width", 10, 300, stud,
			func(w *job.Wall) *float64 { return &w.StudWidthMM }),
		length("sole plate", "field.sole-plate", "place.wall-sole-plate", 0, 200, stud,
			func(w *job.Wall) *float64 { return &w.SolePlateMM }),
		length("inner leaf", "field.inner-leaf", "place.wall-inner-leaf", 0, 1000, cavity,
			func(w *job.Wall) *float64 { return &w.InnerLeafMM }),
		length("cavity", "field.cavity", "place.wall-cavity", 0, 1000, cavity,
			func(w *job.Wall) *float64 { return &w.CavityMM }),
		level("ground", "field.wall-ground", "place.wall-ground", func(w *job.Wall) **float64 { return &w.OutsideGroundMM }),
		level("damp course", "field.wall-damp-course", "place.wall-damp-course", func(w *job.Wall) **float64 { return &w.DampCourseMM }),
	}
	g.box = container.NewVBox(sel)
	g.addRows()
	return g
}
