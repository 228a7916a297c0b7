package app

import (
	"image"
	"reflect"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// BenchmarkDrags is what a step of the pointer costs in the window while a wall, a joist, the drain, the hole in the wall or
// the cut is dragged on the plan: from the pointer to plan, section and 3D picture, all in sight at 1280 × 800, drawn as it
// then stands, with the panels following as they do. Only the toolkit's painting of the window is left out. It reports how
// many such steps there are a second.
func BenchmarkDrags(b *testing.B) {
	handle := func(k edit.HandleKind) func(*mainWindow) plan.Point {
		return func(w *mainWindow) plan.Point {
			d := section.PlanOf(w.change.Result)
			for _, h := range d.Handles {
				if h.Moves == (edit.Handle{Kind: k}) {
					return h.At
				}
			}
			for _, t := range d.Things {
				if t.Moves.Kind == k {
					return t.At
				}
			}
			b.Fatal("the plan has nothing like it")
			return plan.Point{}
		}
	}
	onCut := func(w *mainWindow) plan.Point {
		cut := w.sight.Cut(w.change.Result)
		const besideTheDrainMM = 150
		at := cut.Origin.Add(cut.Along.Mul(besideTheDrainMM))
		return plan.Point{at.X(), at.Y()}
	}
	for _, c := range []struct {
		name string
		demo int // of those that come with Underfall
		at   func(*mainWindow) plan.Point
	}{
		{"wall", 0, handle(edit.HandleSide)}, {"joist", 1, handle(edit.HandleJoist)}, {"drain", 0, handle(edit.HandleDrain)},
		{"hole", 0, handle(edit.HandleExit)}, {"cut", 0, onCut},
	} {
		b.Run(c.name, func(b *testing.B) {
			w, _ := openWindow(b, Options{})
			demos, err := assets.Demos()
			if err != nil {
				b.Fatal(err)
			}
			w.sides.close()
			if err := w.desk.Replace(demos[c.demo].Job); err != nil {
				b.Fatal(err)
			}
			d := newDragged(b, w, demos[c.demo].Job.Name)
			d.down(c.at(w))
			for b.Loop() {
				d.step()
			}
			if took := b.Elapsed(); took > 0 {
				b.ReportMetric(float64(b.N)/took.Seconds(), "steps/s")
			}
		})
	}
}

// dragged is something held on the plan.
type dragged struct {
	b               *testing.B
	w               *mainWindow
	plans, pictures int // that have been shown
	at              fyne.Position
	there           bool // it goes away from where it began
	steps           int  // that way
}

// newDragged waits for a window to show a job, with everything at rest. Nothing falls into places: each step shows.
func newDragged(b *testing.B, w *mainWindow, name string) *dragged {
	d := &dragged{b: b, w: w, there: true}
	w.keys.Shift = func() bool { return true }
	drawn := w.plan.Drawn
	w.plan.Drawn = func() { d.plans++; drawn() }
	w.view.Pictured = func(image.Point) { d.pictures++ }
	until(b, "the job", func() bool {
		return w.change.Result.Stated.Name == name && d.pictures > 0 && w.plan.AtRest() && w.section.AtRest()
	})
	return d
}

// down takes hold of what stands at a point.
func (d *dragged) down(p plan.Point) {
	_, _, d.at = d.w.plan.Around(section.Thing{At: p})
	d.w.plan.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: d.at}, Button: desktop.MouseButtonPrimary})
	for range 3 { // far enough to mean a drag
		d.step()
	}
}

// move moves the pointer away from where it began, or back; it tells whether that moves anything.
func (d *dragged) move() bool {
	const most = 12
	if d.steps++; d.steps > most {
		d.there, d.steps = !d.there, 1
	}
	by := fyne.NewDelta(2, 2)
	if !d.there {
		by = fyne.NewDelta(-2, -2)
	}
	d.at = d.at.AddXY(by.DX, by.DY)
	w := d.w
	job, cut := w.desk.Job(), w.sight.Cut(w.change.Result)
	w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: d.at}, Dragged: by})
	return !reflect.DeepEqual(w.desk.Job(), job) || w.sight.Cut(w.change.Result) != cut
}

// step moves the pointer and waits until all shows what that comes to.
func (d *dragged) step() {
	w, plans, pictures, edits := d.w, d.plans, d.pictures, d.w.change.Edits
	tries := 0
	for ; !d.move(); tries++ {
		if tries > 20 {
			d.b.Fatal("nothing is dragged")
		}
	}
	late := time.After(10 * time.Second)
	changed := func() bool { return w.change.Edits != edits && d.plans > plans }
	for d.pictures == pictures || w.plan.Holds() && !changed() || !w.plan.AtRest() || !w.section.AtRest() {
		select {
		case f := <-tests[d.b]:
			f()
		case <-late:
			d.b.Fatal("a step of a drag does not show")
		}
	}
}
