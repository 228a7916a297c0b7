package app

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// outline edits the room's corners, with ready shapes to start from.
func (in *inputs) outline() row {
	list := in.linesRow("Room corners: x, y, around the room", "0, 0\n2400, 0\n2400, 1900\n0, 1900", 5, 2, 2,
		func(j job.Job) [][]float64 { return pointsOf(j.Room.Outline) },
		func(j *job.Job, items [][]float64) error {
			var ring []plan.Point
			for _, v := range items {
				ring = append(ring, plan.Point{v[0], v[1]})
			}
			setOutline(j, ring)
			return nil
		}).(*listRow)
	size := func() (float64, float64) {
		low, high, _ := plan.Region{{Outer: in.now.Room.Outline}}.Bounds()
		return high.X() - low.X(), high.Y() - low.Y()
	}
	shape := func(name string, ring func(w, d float64) []plan.Point) *widget.Button {
		return widget.NewButton(text(name), func() {
			w, d := size()
			if p := in.edit("", func(j job.Job) job.Job { setOutline(&j, ring(w, d)); return j }); len(p) > 0 {
				list.message.SetText(p[0].Reason)
				list.message.Show()
			}
		})
	}
	list.box.Add(container.NewGridWithColumns(2,
		shape("Rectangle", func(w, d float64) []plan.Point { return []plan.Point{{0, 0}, {w, 0}, {w, d}, {0, d}} }),
		shape("L-shape", func(w, d float64) []plan.Point {
			return []plan.Point{{0, 0}, {w, 0}, {w, d / 2}, {w / 2, d / 2}, {w / 2, d}, {0, d}}
		})))
	return list
}

// setOutline changes the corners and keeps as many walls as there are sides.
func setOutline(j *job.Job, ring []plan.Point) {
	j.Room.Outline = ring
	for len(j.Room.Walls) < len(ring) {
		j.Room.Walls = append(j.Room.Walls, job.Wall{Kind: job.WallMasonry, ThicknessMM: 100})
	}
	j.Room.Walls = j.Room.Walls[:len(ring)]
	if j.Shower.Wall >= len(ring) {
		j.Shower.Wall = 0
	}
	if j.Waste.Exit.Wall >= len(ring) {
		j.Waste.Exit.Wall = 0
	}
	doors := j.Room.Doorways[:0]
	for _, d := range j.Room.Doorways {
		if d.Wall < len(ring) {
			doors = append(doors, d)
		}
	}
	j.Room.Doorways = doors
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
func (in *inputs) itemPicker(label string, count func(job.Job) int, at *int, refresh func()) (*widget.Select, func(job.Job)) {
	setting := false
	var sel *widget.Select
	sel = widget.NewSelect(nil, func(string) {
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
			options = append(options, textf(label, i+1))
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
	sel, sync := in.itemPicker("Wall %d", func(j job.Job) int { return len(j.Room.Walls) }, &in.wall, func() { g.refresh(in.now) })
	g.pre = sync
	wall := func(j *job.Job) *job.Wall { return &j.Room.Walls[in.wall] }
	stud := func(j job.Job) bool { return wall(&j).Kind == job.WallStud }
	length := func(key, label string, uses func(job.Job) bool, field func(*job.Job) *float64) row {
		return newNumberRow(number{key: "wall " + key, label: label, quantity: unit.Length, step: 5, uses: uses,
			get:  func(j job.Job) float64 { return *field(&j) },
			with: func(j job.Job, v float64) job.Job { j = j.Clone(); *field(&j) = v; return j }}, in.desk)
	}
	g.rows = []row{
		in.choice("Kind", words("masonry", "cavity", "stud"), words("Masonry", "Cavity", "Stud"), func(j job.Job) string { return string(wall(&j).Kind) },
			func(j *job.Job, s string) {
				w := wall(j)
				w.Kind = job.WallKind(s)
				if w.Kind == job.WallStud && w.StudSpacingMM == 0 {
					w.StudSpacingMM, w.FirstStudMM, w.StudWidthMM = 400, 200, 47
				}
			}, nil),
		length("thickness", "Thickness", nil, func(j *job.Job) *float64 { return &wall(j).ThicknessMM }),
		length("stud spacing", "Stud spacing", stud, func(j *job.Job) *float64 { return &wall(j).StudSpacingMM }),
		length("first stud", "First stud centre", stud, func(j *job.Job) *float64 { return &wall(j).FirstStudMM }),
		length("stud width", "Stud width", stud, func(j *job.Job) *float64 { return &wall(j).StudWidthMM }),
		in.optional("wall ground", "Ground outside (empty: inside wall)", func(j *job.Job) **float64 { return &wall(j).OutsideGroundMM }, nil),
	}
	g.box = container.NewVBox(sel)
	for _, r := range g.rows {
		g.box.Add(r.object())
	}
	return g
}

func (in *inputs) doorEditor() row {
	g := &groupRow{}
	sel, sync := in.itemPicker("Doorway %d", func(j job.Job) int { return len(j.Room.Doorways) }, &in.door, func() { g.refresh(in.now) })
	some := func(j job.Job) bool { return in.door < len(j.Room.Doorways) }
	none := &job.Doorway{}
	door := func(j *job.Job) *job.Doorway {
		if !some(*j) {
			return none
		}
		return &j.Room.Doorways[in.door]
	}
	length := func(key, label string, field func(*job.Job) *float64) row {
		return newNumberRow(number{key: "door " + key, label: label, quantity: unit.Length, step: 5, uses: some,
			get:  func(j job.Job) float64 { return *field(&j) },
			with: func(j job.Job, v float64) job.Job { j = j.Clone(); *field(&j) = v; return j }}, in.desk)
	}
	swings := func(j job.Job) bool { return some(j) && door(&j).Leaf == job.LeafIn }
	g.rows = []row{
		in.wallChoice("In wall", func(j job.Job) int { return door(&j).Wall }, func(j *job.Job, i int) { door(j).Wall = i }, some),
		length("offset", "From the corner", func(j *job.Job) *float64 { return &door(j).OffsetMM }),
		length("width", "Width", func(j *job.Job) *float64 { return &door(j).WidthMM }),
		length("neighbour", "Floor beyond, FFL", func(j *job.Job) *float64 { return &door(j).NeighbourFFLMM }),
		in.choice("Leaf opens", words("none", "in", "out"), words("No leaf", "Into this room", "Outwards"), func(j job.Job) string { return string(door(&j).Leaf) },
			func(j *job.Job, s string) { door(j).Leaf = job.LeafSwing(s) }, some),
		length("gap", "Gap under the leaf", func(j *job.Job) *float64 { return &door(j).LeafGapMM }),
		newCheckRow("Hinged at the start", func(j job.Job) bool { return door(&j).HingeAtStart },
			func(j job.Job, on bool) job.Job { door(&j).HingeAtStart = on; return j }, swings, in.edit),
	}
	add := widget.NewButton(text("Add doorway"), func() {
		in.edit("", func(j job.Job) job.Job {
			in.door = len(j.Room.Doorways)
			return addDoorway(j)
		})
	})
	remove := widget.NewButton(text("Remove doorway"), func() {
		in.edit("", func(j job.Job) job.Job {
			if in.door < len(j.Room.Doorways) {
				j.Room.Doorways = append(j.Room.Doorways[:in.door], j.Room.Doorways[in.door+1:]...)
			}
			return j
		})
	})
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

// addDoorway puts a doorway where there is room for one: in the first wall
// with a free stretch of 800 mm.
func addDoorway(j job.Job) job.Job {
	n := len(j.Room.Outline)
	const width, margin = 760.0, 20.0
	for w := range n {
		length := j.Room.Outline[(w+1)%n].Sub(j.Room.Outline[w]).Len()
		at := margin
		for _, d := range j.Room.Doorways {
			if d.Wall == w {
				at = math.Max(at, d.OffsetMM+d.WidthMM+margin)
			}
		}
		if at+width+margin <= length {
			j.Room.Doorways = append(j.Room.Doorways, job.Doorway{Wall: w, OffsetMM: at, WidthMM: width, Leaf: job.LeafOut, LeafGapMM: 8})
			return j
		}
	}
	return j
}
