package drawing

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// turnTo turns a plan and waits until that is drawn.
func turnTo(b *bench, v *View, to plan.Quarters) {
	b.sight.Change(func(s *sight.State) { s.Turned = to })
	b.Until("the turned plan", func() bool { return v.AtRest() && v.view.Turned == to })
}

// placesOn are places of a thing that one may press for it: its middle, then all over it.
func placesOn(thing section.Thing) []plan.Point {
	out := []plan.Point{thing.At}
	outline := thing.Outline()
	low, high := outline[0], outline[0]
	for i, p := range outline {
		low = plan.Point{math.Min(low.X(), p.X()), math.Min(low.Y(), p.Y())}
		high = plan.Point{math.Max(high.X(), p.X()), math.Max(high.Y(), p.Y())}
		if i > 0 && len(thing.Path) > 0 {
			for _, share := range [...]float64{0.5, 0.25, 0.75, 0.1, 0.9} {
				out = append(out, outline[i-1].Add(p.Sub(outline[i-1]).Mul(share)))
			}
		}
	}
	const rows = 24
	for i := range rows * rows {
		share := plan.Point{(float64(i%rows) + 0.5) / rows, (float64(i/rows) + 0.5) / rows}
		p := plan.Point{low.X() + share.X()*(high.X()-low.X()), low.Y() + share.Y()*(high.Y()-low.Y())}
		if len(thing.Ring) > 0 && plan.FromRing(thing.Ring).Contains(p, 0) {
			out = append(out, p)
		}
	}
	return out
}

// In the plan of every demo, turned by any quarters, a press where a thing lies chooses that thing and opens its tag,
// which stands at the thing.
func TestPressesInTurnedPlans(t *testing.T) {
	for _, r := range demotest.Results(t) {
		v, b := of(t, r.Stated, still.Plan, fyne.NewSize(900, 640))
		var tagged section.ThingID
		v.OpenTag = func(thing section.Thing, _ bool, _ rune) { tagged = thing.ThingID }
		for turned := range plan.Quarters(4) {
			turnTo(b, v, turned)
			for _, thing := range v.drawing.Things {
				pressed := false
				for _, p := range placesOn(thing) {
					tagged = section.ThingID{}
					v.Tapped(&fyne.PointEvent{Position: v.toWindow(p)})
					if chosen, ok := v.Chosen(); ok && chosen.ThingID == thing.ThingID && tagged == thing.ThingID {
						pressed = true
						break
					}
				}
				if !pressed {
					t.Errorf("%s, %d quarters: no press chooses %v", r.Settled.Name, turned, thing.ThingID)
					continue
				}
				low, high, at := v.Around(thing)
				if size := v.Size(); high.X < 0 || high.Y < 0 || low.X > size.Width || low.Y > size.Height || at != v.toWindow(thing.At) {
					t.Errorf("%s, %d quarters: %v is about %v to %v", r.Settled.Name, turned, thing.ThingID, low, high)
				}
			}
			v.Deselect()
		}
	}
}

// By hand: in the starting room, y to the back, the drain's side lies to the back. Turned once clockwise, the back is
// to the right: what is dragged 60 to the right moves to the back, and an arrow to the right moves it there as well.
func TestDragsInTurnedPlans(t *testing.T) {
	for turned, right := range map[plan.Quarters]plan.Point{0: {1, 0}, 1: {0, 1}, 2: {-1, 0}, 3: {0, -1}} {
		v, b := of(t, job.New(), still.Plan, fyne.NewSize(900, 700))
		problems := b.Desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) {
			j.Room.Stacks = append(j.Room.Stacks, job.Stack{At: plan.Point{1900, 900}, OutsideMM: 110, NominalMM: 100})
		}))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		b.Until("the stack", func() bool { return len(v.drawing.Things) > 0 && len(v.result.Layout.Stacks) == 1 && v.AtRest() })
		turnTo(b, v, turned)
		stack := section.ThingID{Key: job.StacksKey + "[0]"}
		at := func() plan.Point { return b.Desk.Job().Room.Stacks[0].At }
		from := at()
		thing, ok := v.drawing.Thing(stack)
		if !ok {
			t.Fatal("no stack in the plan")
		}
		v.keys.Shift = func() bool { return true } // it falls onto nothing
		p := v.toWindow(thing.At)
		v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: p}, Button: desktop.MouseButtonPrimary})
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p.AddXY(60, 0)}, Dragged: fyne.NewDelta(60, 0)})
		v.DragEnd()
		v.keys.Shift = nil
		if moved, far := at().Sub(from), 60/v.view.PixelsPerMM; moved.Sub(right.Mul(far)).Len() > 1 {
			t.Errorf("%d quarters: dragged 60 to the right, that is %v, it moved %v", turned, far, moved)
		}
		b.Until("the drag drawn", func() bool { return v.AtRest() && len(b.Queue) == 0 })
		v.picked = grasp{handle: thing.Moves}
		from = at()
		v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
		if moved := at().Sub(from); moved.Sub(right).Len() > 1e-6 {
			t.Errorf("%d quarters: an arrow to the right moved it %v", turned, moved)
		}
	}
}

// Dragged by nothing, a turned plan goes with the pointer; what was in the middle stays there as it is turned.
func TestTurnedPlansArePanned(t *testing.T) {
	v, b := of(t, job.New(), still.Plan, fyne.NewSize(900, 700))
	for turned := range plan.Quarters(4) {
		v.Fit()
		turnTo(b, v, turned)
		p := fyne.NewPos(6, 6)
		on := v.toDrawing(p)
		v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: p}, Button: desktop.MouseButtonPrimary})
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p.AddXY(90, 40)}, Dragged: fyne.NewDelta(90, 40)})
		v.DragEnd()
		if off := v.toWindow(on).Subtract(p.AddXY(90, 40)); math.Hypot(float64(off.X), float64(off.Y)) > 0.5 {
			t.Errorf("%d quarters: the paper is %v off the pointer", turned, off)
		}
		centre := v.view.Centre
		turnTo(b, v, turned.And(1))
		if v.view.Centre != centre {
			t.Errorf("%d quarters: turned on about %v, not %v", turned, v.view.Centre, centre)
		}
	}
}
