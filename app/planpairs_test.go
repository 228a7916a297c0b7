package app

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/google/go-cmp/cmp"
	"underfall/app/sight"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// hand does one thing after the other to the plan of a window, as a hand would that means nothing by it.
type hand struct {
	t      *testing.T
	w      *mainWindow
	random *rand.Rand
	did    []string
}

// anywhere is a place of the plan, now and then past its rim.
func (h *hand) anywhere() fyne.Position {
	size := h.w.plan.Size()
	return fyne.NewPos((h.random.Float32()*1.3-0.15)*size.Width, (h.random.Float32()*1.3-0.15)*size.Height)
}

// onThing is a place on a thing of the plan; anywhere where it has none.
func (h *hand) onThing() fyne.Position {
	things := section.PlanOf(h.w.change.Result).Things
	if len(things) == 0 {
		return h.anywhere()
	}
	thing, ok := h.w.plan.Thing(things[h.random.Intn(len(things))].ThingID)
	if !ok {
		return h.anywhere()
	}
	_, _, at := h.w.plan.Around(thing)
	return at
}

func (h *hand) point() plan.Point {
	return plan.Point{h.random.Float64()*6000 - 1500, h.random.Float64()*6000 - 1500}
}

// begin takes hold of something and leads it about.
func (h *hand) begin() {
	from := h.onThing()
	h.w.plan.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}, Button: desktop.MouseButtonPrimary})
	for range 1 + h.random.Intn(3) {
		to := h.anywhere()
		if h.random.Intn(2) == 0 {
			to = h.onThing()
		}
		h.w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.NewDelta(to.X-from.X, to.Y-from.Y)})
		from = to
	}
}

func (h *hand) end() {
	h.w.plan.DragEnd()
	h.w.plan.MouseUp(nil)
}

// typed types a figure, or half of one, and leaves it in one way or another.
func (h *hand) typed() string {
	figure := []string{"1200", "9999999", "-", "1/", "4 11", "=", "=1/0", "abc", "1,2", "0", "7' 10", "1e9", "300"}[h.random.Intn(13)]
	typedAs(h.w, figure)
	key := []fyne.KeyName{fyne.KeyReturn, fyne.KeyEscape, fyne.KeyTab, ""}[h.random.Intn(4)]
	if f := h.w.window.Canvas().Focused(); f != nil && key != "" {
		f.TypedKey(&fyne.KeyEvent{Name: key})
	}
	return fmt.Sprintf("typed %q %s", figure, key)
}

// do does one thing, and says which.
func (h *hand) do() string {
	w := h.w
	switch h.random.Intn(16) {
	case 0, 1, 2:
		h.begin()
		h.end()
		return "dragged"
	case 3:
		h.begin()
		w.undoLast()
		h.w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: h.anywhere()}})
		h.end()
		return "undone while it was dragged"
	case 4:
		h.begin()
		typedAs(w, "700")
		h.end()
		return "typed while something was dragged"
	case 5, 6:
		at := h.onThing()
		w.plan.Tapped(&fyne.PointEvent{Position: at})
		return "pressed, " + h.typed()
	case 7:
		w.plan.Tapped(&fyne.PointEvent{Position: h.anywhere()})
		return "pressed anywhere, " + h.typed()
	case 8:
		w.undoLast()
		return "undone"
	case 9:
		w.redoLast()
		return "made again"
	case 10:
		w.turnPlan()
		return "turned"
	case 11:
		from := h.point()
		to := from
		if h.random.Intn(2) == 0 {
			to = h.point()
		}
		w.plan.Cut(section.Cutting{Of: section.CutPoints, From: from, To: to})
		return "cut"
	case 12:
		w.plan.Rod(h.point(), 20)
		return "stood a rod"
	case 13:
		j := w.desk.Job()
		in := edit.PutsIn(&j)
		if len(j.Room.Doorways)+len(j.Room.Windows)+len(j.Room.Fixtures)+len(j.Room.Stacks) > 12 {
			return "put nothing more in"
		}
		w.put(in[h.random.Intn(len(in))])
		w.sides.close()
		return "put in"
	case 14:
		w.setPressing([]sight.Pressing{sight.PressingNothing, sight.PressingMeasure, sight.PressingCut, sight.PressingRod}[h.random.Intn(4)])
		for range 2 {
			w.plan.Tapped(&fyne.PointEvent{Position: h.anywhere()})
		}
		w.setPressing(sight.PressingNothing)
		return "pressed points"
	}
	units := []unit.System{unit.Metric, unit.Imperial}[h.random.Intn(2)]
	w.desk.Do(edit.Of(message.Of("edit.units"), func(j *job.Job) { j.Units = units }))
	return "units"
}

// Whatever a hand does to the plan in whatever order, the job means something, undoing all of it gives the first job back, what is refused is
// said, and no part of the window fails.
func TestAnythingDoneToThePlan(t *testing.T) {
	w, log := openWindow(t, Options{})
	for n, demo := range w.demos {
		if testing.Short() && n%4 > 0 {
			continue
		}
		h := &hand{t: t, w: w, random: rand.New(rand.NewSource(int64(n)))}
		if err := w.desk.Replace(demo.Job); err != nil {
			t.Fatal(err)
		}
		until(t, "the demo", func() bool { return !w.replaced && w.change.Result.Settled.Name == demo.Job.Name && w.plan.AtRest() })
		w.sides.close()
		first := w.desk.Job()
		for range 40 {
			h.did = append(h.did, h.do())
			settle(t)
			now := w.desk.Job()
			if p := now.Validate(); len(p) > 0 {
				t.Fatalf("%s: after %v the job means nothing: %v", demo.Job.Name, h.did, p)
			}
			if h.random.Intn(4) == 0 {
				until(t, "the plan at rest", func() bool { return w.plan.AtRest() && len(w.change.Result.Problems) == 0 })
			}
			if _, ok := w.plan.Thing(w.tag.of); w.tag.layer.IsOpen() && !w.tag.figure.isOpen() && w.tag.worked == nil &&
				w.plan.AtRest() && !ok {
				t.Errorf("%s: after %v a tag is open of %v, which is not there", demo.Job.Name, h.did, w.tag.of)
			}
		}
		w.window.Canvas().Unfocus()
		settle(t)
		for range 200 {
			if w.desk.Undo().IsZero() {
				break
			}
		}
		if diff := cmp.Diff(first, w.desk.Job()); diff != "" {
			t.Errorf("%s: after %v undoing all does not give the job back:\n%s", demo.Job.Name, h.did, diff)
		}
		until(t, "the first job again", func() bool { return w.plan.AtRest() })
	}
	if said := log.String(); strings.Contains(said, "fault:") {
		t.Error(said[strings.Index(said, "fault:"):])
	}
}
