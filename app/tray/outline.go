package tray

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// shapesRow are buttons that give the room a shape to start from.
type shapesRow struct {
	box   *fyne.Container
	there func(job.Job)
}

// Object is the buttons.
func (r *shapesRow) Object() fyne.CanvasObject { return r.box }

// Refresh follows the job.
func (r *shapesRow) Refresh(j job.Job) { r.there(j) }

// key is none: they are of the corners.
func (r *shapesRow) key() string { return "" }

// There tells that they are.
func (r *shapesRow) There() bool { return true }

// shapes makes the buttons; what is refused is told under them.
func (t *Tray) shapes() Row {
	refused := complaint()
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
	shape := func(name message.ID, ring func(size plan.Point) []plan.Point) *control.Press {
		return control.NewPress(t.keys, theme.Word(name), func() {
			_, size := reach(t.now)
			sayUnder(refused, refusal(t.asks.Do(edit.Outline(ring(size))), ""), t.now.Units)
		})
	}
	toRectangle, toL := shape("field.rectangle", rectangle), shape("field.l-shape", l)
	return &shapesRow{box: container.New(apart{}, toRectangle, toL, refused), there: func(j job.Job) {
		// A room that is so already would not change, nor would one that was measured.
		low, size := reach(j)
		enable(toRectangle, !j.Room.Measured() && !sameCorners(j.Room.Outline, rectangle(size), low))
		enable(toL, !j.Room.Measured() && !sameCorners(j.Room.Outline, l(size), low))
	}}
}

// sameCorners tells whether an outline has the corners of a ring, shifted.
func sameCorners(outline, ring []plan.Point, shift plan.Point) bool {
	return len(outline) == len(ring) && !slices.ContainsFunc(ring, func(p plan.Point) bool {
		return !slices.ContainsFunc(outline, func(q plan.Point) bool { return q.Sub(shift).Sub(p).Len() < plan.HairMM })
	})
}

// enable has a button be pressed or not.
func enable(b *control.Press, on bool) {
	if b.Off == on {
		b.Off = !on
		b.Refresh()
	}
}
