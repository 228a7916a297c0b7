package app

import (
	"image"
	"reflect"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/drawing"
	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// BenchmarkDrags is what a step of the pointer costs in the window while a wall, a joist, the drain, the hole in the wall or
// the cut is dragged on the plan: from the pointer to what the hand holds, drawn as it then stands: the plan, or the section
// through the cut. Plan, section and 3D picture are all in sight at 1280 × 800, and what is not held follows as it does, as do
// the panels. Only the toolkit's painting of the window is left out. It reports how many such steps there are a second, how
// many 3D pictures and drawings that only follow, and within how many milliseconds after the last step all of them show it;
// cpu-ms/step is what all processors work for a step and what follows it, which tells more than the rest where the machine does
// much else.
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
			d.held, d.follows = w.plan, w.section
			if c.name == "cut" {
				d.held, d.follows = w.section, nil
			}
			pictures, followed, used := d.pictures, d.drawn[d.follows], usedCPU()
			for b.Loop() {
				d.step()
			}
			if took := b.Elapsed(); took > 0 {
				b.ReportMetric(float64(b.N)/took.Seconds(), "steps/s")
				b.ReportMetric(float64((usedCPU()-used).Microseconds())/1000/float64(b.N), "cpu-ms/step")
				b.ReportMetric(float64(d.pictures-pictures)/took.Seconds(), "pictures/s")
				b.ReportMetric(float64(d.drawn[d.follows]-followed)/took.Seconds(), "followed/s")
				b.ReportMetric(float64(d.rest().Milliseconds()), "ms-rest")
			}
		})
	}
}

// dragged is something held on the plan.
type dragged struct {
	b             *testing.B
	w             *mainWindow
	held, follows *drawing.View         // what shows what the hand holds, and what else is in sight; nil for nothing else
	drawn         map[*drawing.View]int // how often
	pictures      int                   // that have been shown
	at            fyne.Position
	there         bool // it goes away from where it began
	steps         int  // that way
}

// newDragged waits for a window to show a job, with everything at rest. Nothing falls into places: each step shows.
func newDragged(b *testing.B, w *mainWindow, name string) *dragged {
	d := &dragged{b: b, w: w, held: w.plan, there: true, drawn: map[*drawing.View]int{}}
	w.keys.Shift = func() bool { return true }
	for _, v := range []*drawing.View{w.plan, w.section} {
		drawn := v.Drawn
		v.Drawn = func() {
			d.drawn[v]++
			if drawn != nil {
				drawn()
			}
		}
	}
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
		d.move()
		d.rest()
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

// step moves the pointer and waits until what the hand holds shows what that comes to.
func (d *dragged) step() {
	w, drawn, edits := d.w, d.drawn[d.held], d.w.change.Edits
	tries := 0
	for ; !d.move(); tries++ {
		if tries > 20 {
			d.b.Fatal("nothing is dragged")
		}
	}
	d.until("a step of a drag", func() bool {
		return d.drawn[d.held] > drawn && (w.change.Edits != edits || !w.plan.Holds()) && d.held.AtRest()
	})
}

// rest waits until all shows what the drag has come to, and tells how long that took.
func (d *dragged) rest() time.Duration {
	began := time.Now()
	d.until("what follows a drag", func() bool {
		return d.w.plan.AtRest() && d.w.section.AtRest() && d.w.view.Shows()
	})
	return time.Since(began)
}

// until does what comes on the window's goroutine until something is so.
func (d *dragged) until(what string, ok func() bool) {
	late := time.After(10 * time.Second)
	for !ok() {
		select {
		case f := <-tests[d.b]:
			f()
		case <-late:
			d.b.Fatal(what + " does not show")
		}
	}
}
