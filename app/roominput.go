package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// outline edits the room's corners, with ready shapes to start from.
func (in *inputs) outline() row {
	list := in.linesRow("field.corners", [][]float64{{0, 0}, {2400, 0}, {2400, 1900}, {0, 1900}}, 5, 2, pointColumns(),
		func(j job.Job) [][]float64 { return pointsOf(j.Room.Outline) },
		func(j *job.Job, items [][]float64) error {
			var ring []plan.Point
			for _, v := range items {
				ring = append(ring, plan.Point{v[0], v[1]})
			}
			*j = edit.Outline(ring).Apply(*j)
			return nil
		})
	size := func() (float64, float64) {
		low, high, _ := plan.Region{{Outer: in.now.Room.Outline}}.Bounds()
		return high.X() - low.X(), high.Y() - low.Y()
	}
	shape := func(name message.ID, ring func(w, d float64) []plan.Point) *widget.Button {
		return widget.NewButton(word(name), func() {
			w, d := size()
			sayUnder(list.message, refusal(in.desk.Do(edit.Outline(ring(w, d))), ""), in.now.Units)
		})
	}
	list.box.Add(container.NewGridWithColumns(2,
		shape("field.rectangle", func(w, d float64) []plan.Point { return []plan.Point{{0, 0}, {w, 0}, {w, d}, {0, d}} }),
		shape("field.l-shape", func(w, d float64) []plan.Point {
			return []plan.Point{{0, 0}, {w, 0}, {w, d / 2}, {w / 2, d / 2}, {w / 2, d}, {0, d}}
		})))
	return list
}

// groupRow holds rows about one item of a list, and the item's picker.
type groupRow struct {
	box  *fyne.Container
	rows []row
	pre  func(job.Job)
}

func (g *groupRow) object() fyne.CanvasObject { return g.box }

func (g *groupRow) refresh(j job.Job) {
	g.pre(j)
	for _, r := range g.rows {
		r.refresh(j)
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
			options = append(options, word(label, message.No("n", i+1)))
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

func (in *inputs) wallEditor() row {
	g := &groupRow{}
	sel, sync := in.itemPicker("place.wall", func(j job.Job) int { return len(j.Room.Walls) }, &in.wall, func() { g.refresh(in.now) })
	g.pre = sync
	wall := func(j *job.Job) *job.Wall { return &j.Room.Walls[in.wall] }
	stud := func(j job.Job) bool { return wall(&j).Kind == job.WallStud }
	length := func(key string, label, what message.ID, least, greatest float64, uses func(job.Job) bool, field func(*job.Wall) *float64) row {
		return newNumberRow(number{key: "wall " + key, label: label, kind: unit.Length, step: 5, least: least, greatest: greatest, uses: uses,
			get: func(j job.Job) float64 { return *field(wall(&j)) },
			set: func(v float64) edit.Edit {
				i := in.wall
				return edit.Of(message.Of(what, message.No("n", i+1)), func(j *job.Job) { *field(&j.Room.Walls[i]) = v })
			}}, in.desk, in.keys)
	}
	g.rows = []row{
		choiceOf(in, "field.wall-kind", job.WallKinds(), func(j job.Job) job.WallKind { return wall(&j).Kind }, func(k job.WallKind) edit.Edit { return edit.Wall(in.wall, k) }, nil),
		length("thickness", "field.wall-thickness", "place.wall-thickness", 10, 1500, nil, func(w *job.Wall) *float64 { return &w.ThicknessMM }),
		length("stud spacing", "field.stud-spacing", "place.wall-stud-spacing", 50, 3000, stud, func(w *job.Wall) *float64 { return &w.StudSpacingMM }),
		length("first stud", "field.first-stud", "place.wall-first-stud", -3000, 3000, stud, func(w *job.Wall) *float64 { return &w.FirstStudMM }),
		length("stud width", "field.stud-width", "place.wall-stud-width", 10, 300, stud, func(w *job.Wall) *float64 { return &w.StudWidthMM }),
		length("sole plate", "field.sole-plate", "place.wall-sole-plate", 0, 200, stud, func(w *job.Wall) *float64 { return &w.SolePlateMM }),
		in.optional("wall ground", "field.wall-ground", -20000, 5000, func(j *job.Job) **float64 { return &wall(j).OutsideGroundMM }, func(v *float64) edit.Edit {
			i := in.wall
			return edit.Optional(message.Of("place.wall-ground", message.No("n", i+1)), func(j *job.Job) **float64 { return &j.Room.Walls[i].OutsideGroundMM }, v)
		}, nil),
		in.optional("wall damp course", "field.wall-damp-course", -20000, 5000, func(j *job.Job) **float64 { return &wall(j).DampCourseMM }, func(v *float64) edit.Edit {
			i := in.wall
			return edit.Optional(message.Of("place.wall-damp-course", message.No("n", i+1)), func(j *job.Job) **float64 { return &j.Room.Walls[i].DampCourseMM }, v)
		}, nil),
	}
	g.box = container.NewVBox(sel)
	for _, r := range g.rows {
		g.box.Add(r.object())
	}
	return g
}

func (in *inputs) doorEditor() row {
	g := &groupRow{}
	sel, sync := in.itemPicker("place.doorway", func(j job.Job) int { return len(j.Room.Doorways) }, &in.door, func() { g.refresh(in.now) })
	some := func(j job.Job) bool { return in.door < len(j.Room.Doorways) }
	none := &job.Doorway{}
	door := func(j *job.Job) *job.Doorway {
		if !some(*j) {
			return none
		}
		return &j.Room.Doorways[in.door]
	}
	change := func(what message.ID, set func(*job.Doorway)) edit.Edit {
		return edit.Doorway(message.Of(what, message.No("n", in.door+1)), in.door, set)
	}
	length := func(key string, label, what message.ID, least, greatest float64, field func(*job.Doorway) *float64) row {
		return newNumberRow(number{key: "door " + key, label: label, kind: unit.Length, step: 5, least: least, greatest: greatest, uses: some,
			get: func(j job.Job) float64 { return *field(door(&j)) },
			set: func(v float64) edit.Edit { return change(what, func(d *job.Doorway) { *field(d) = v }) }}, in.desk, in.keys)
	}
	swings := func(j job.Job) bool { return some(j) && door(&j).Leaf == job.LeafIn }
	g.rows = []row{
		in.wallChoice("field.in-wall", func(j job.Job) int { return door(&j).Wall }, func(i int) edit.Edit { return change("place.doorway-wall", func(d *job.Doorway) { d.Wall = i }) }, some),
		length("offset", "field.doorway-offset", "place.doorway-from-corner", 0, 50000, func(d *job.Doorway) *float64 { return &d.OffsetMM }),
		length("width", "field.doorway-width", "place.doorway-width", 100, 5000, func(d *job.Doorway) *float64 { return &d.WidthMM }),
		length("height", "field.doorway-height", "place.doorway-height", 500, 4000, func(d *job.Doorway) *float64 { return &d.HeightMM }),
		length("neighbour", "field.floor-beyond", "place.doorway-floor-beyond", -1000, 1000, func(d *job.Doorway) *float64 { return &d.NeighbourFFLMM }),
		choiceOf(in, "field.leaf", job.LeafSwings(), func(j job.Job) job.LeafSwing { return door(&j).Leaf },
			func(v job.LeafSwing) edit.Edit {
				return change("place.doorway-leaf", func(d *job.Doorway) { d.Leaf = v })
			}, some),
		length("gap", "field.leaf-gap", "place.doorway-gap", 0, 500, func(d *job.Doorway) *float64 { return &d.LeafGapMM }),
		newCheckRow("field.hinge", in.desk, func(j job.Job) bool { return door(&j).HingeAtStart },
			func(on bool) edit.Edit {
				return change("place.doorway-hinge", func(d *job.Doorway) { d.HingeAtStart = on })
			}, swings),
	}
	add := widget.NewButton(word("app.add-doorway"), func() {
		in.door = len(in.desk.Job().Room.Doorways)
		in.desk.Do(edit.AddDoorway())
	})
	remove := widget.NewButton(word("app.remove-doorway"), func() { in.desk.Do(edit.RemoveDoorway(in.door)) })
	g.pre = func(j job.Job) {
		sync(j)
		if some(j) {
			remove.Enable()
		} else {
			remove.Disable()
		}
	}
	g.box = container.NewVBox(sel)
	for _, r := range g.rows {
		g.box.Add(r.object())
	}
	g.box.Add(container.NewGridWithColumns(2, add, remove))
	return g
}
