package app

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/paint"
	"underfall/app/roomtest"
	"underfall/geometry/edit"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/section"
)

// desked is a window with a demo on the desk, its fields closed, and all that follows at rest.
func desked(t *testing.T, demo int) *mainWindow {
	t.Helper()
	roomtest.Wake()
	w, _ := openWindow(t, Options{})
	w.theme.SetStill(true)
	w.window.Resize(fyne.NewSize(1280, 800))
	w.sides.close()
	w.begin(w.demos[demo].Job)
	until(t, "the demo at rest", func() bool {
		return w.change.Result.Settled.Name == w.demos[demo].Job.Name && w.resting()
	})
	if !roomtest.NewFrames().Settle(w.window.Content()) {
		t.Fatal("laid out without end")
	}
	until(t, "its drawings", w.resting)
	return w
}

// The step at the doorway is seen in section in one press, of a button that stands over it from the first.
func TestTheStepAtTheDoorwayInOnePress(t *testing.T) {
	w := desked(t, 0)
	presses := pressesIn(w.window.Content(), "Across the door")
	if len(presses) != 1 || !presses[0].Visible() {
		t.Fatalf("there are %d to press", len(presses))
	}
	presses[0].OnPressed()
	until(t, "the section", w.section.AtRest)
	d := w.sight.Section(w.change.Result)
	step := func(d section.Dimension) bool { return d.Text.ID == "dimension.step" || d.Text.ID == "dimension.lip" }
	if w.sight.Cutting.Of != section.CutDoor || !w.drawings.shows(w.section) || !slices.ContainsFunc(d.Dimensions, step) {
		t.Errorf("cut at %v, with %v", w.sight.Cutting, d.Dimensions)
	}
}

// A wall is moved by three steps on its running dimension: a press where its figure stands in the plan, what is typed, Enter.
func TestAWallInThreeSteps(t *testing.T) {
	w := desked(t, 0)
	key := edit.Side{Wall: 1}.Key()
	outline := w.change.Result.Settled.Room.Outline
	at, ok := figureOf(w, key, outline[1].Add(outline[2]).Mul(0.5))
	if !ok {
		t.Fatal("the plan has no figure of the wall to press")
	}
	w.plan.Tapped(&fyne.PointEvent{Position: at})
	field := w.window.Canvas().Focused()
	if field == nil || !w.tag.layer.IsOpen() {
		t.Fatal("pressed, no field of it has the keys")
	}
	for _, r := range "2000" {
		field.TypedRune(r)
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	until(t, "the wall", func() bool { return !w.change.Preview && w.change.Result.Stated.Room.WallLengthMM(1) == 2000 })
	if w.tag.layer.IsOpen() || w.change.Undo.IsZero() {
		t.Errorf("the field is open %v, and there is “%v” to take back", w.tag.layer.IsOpen(), w.change.Undo)
	}
}

// figureOf is where the figure of an input stands about a place of the plan, as a press finds it.
func figureOf(w *mainWindow, key string, about plan.Point) (at fyne.Position, ok bool) {
	const reach, apart = 60, 6 // less than a figure is high
	typeOn := w.plan.TypeOn
	defer func() { w.plan.TypeOn = typeOn }()
	w.plan.TypeOn = func(on paint.Placed) { ok = ok || on.Key == key }
	_, _, middle := w.plan.Around(section.Thing{At: about})
	for y := float32(-reach); y <= reach; y += apart {
		for x := float32(-reach); x <= reach; x += apart {
			at = middle.AddXY(x, y)
			if w.plan.Tapped(&fyne.PointEvent{Position: at}); ok {
				return at, true
			}
		}
	}
	return at, false
}

// A run is found, tried and put back in four presses, the list's, the search's, its own and Escape, and leaves the job byte for byte
// what it was; kept in the place of the last it is one step to take back.
func TestARunIsFoundTriedAndPutBack(t *testing.T) {
	w := desked(t, 0)
	was := marshalled(t, w)
	found := func() bool { return len(pressesIn(w.window.Content(), "Try")) > 0 }
	pressesIn(w.window.Content(), "Runs")[0].OnPressed()
	until(t, "the list", func() bool { return len(pressesIn(w.window.Content(), "Find runs")) > 0 })
	pressesIn(w.window.Content(), "Find runs")[0].OnPressed()
	until(t, "the runs", found)
	try := func() {
		pressesIn(w.window.Content(), "Try")[0].OnPressed()
		until(t, "the trial", w.trial.Running)
	}
	try()
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyEscape})
	until(t, "the trial put back", func() bool { return !w.trial.Running() && w.resting() })
	if !bytes.Equal(marshalled(t, w), was) || !w.change.Undo.IsZero() {
		t.Errorf("put back, the job is another, with %v to take back", w.change.Undo)
	}
	try()
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyReturn})
	until(t, "the run", func() bool { return !w.change.Preview && !w.change.Undo.IsZero() })
	if bytes.Equal(marshalled(t, w), was) {
		t.Error("kept, the job is what it was")
	}
	w.undoLast()
	until(t, "undo", func() bool { return w.change.Undo.IsZero() })
	if !bytes.Equal(marshalled(t, w), was) {
		t.Error("taken back, the job is another")
	}
}

// fitter presses and types in a window as somebody at it does, and counts that: a press is one, so is a figure with the key that ends it.
type fitter struct {
	t *testing.T
	w *mainWindow
	n int
}

// press presses the middle of what is shown by a name.
func (h *fitter) press(name string) {
	h.t.Helper()
	roomtest.NewFrames().Settle(h.w.window.Content())
	var found fyne.CanvasObject
	roomtest.EachShown(h.w.window.Content(), func(o fyne.CanvasObject) {
		said, named := o.(interface{ AccessibilityLabel() string })
		_, pressed := o.(fyne.Tappable)
		if found == nil && named && pressed && strings.HasPrefix(said.AccessibilityLabel(), name) {
			found = o
		}
	})
	if found == nil {
		h.t.Fatalf("nothing called %q is shown", name)
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(found)
	test.TapCanvas(h.w.window.Canvas(), at.AddXY(found.Size().Width/2, found.Size().Height/2))
	h.n++
}

// figure types a number where the keys are, and Tab.
func (h *fitter) figure(s string) {
	h.t.Helper()
	in := h.w.window.Canvas().Focused()
	if in == nil {
		h.t.Fatal("no field has the keys")
	}
	for _, r := range s {
		in.TypedRune(r)
	}
	h.w.window.Canvas().FocusNext()
	h.n++
}

// key presses one where the window itself takes it.
func (h *fitter) key(k fyne.KeyName) {
	h.w.keys.Plain(&fyne.KeyEvent{Name: k})
	h.n++
}

// Somebody's own room comes to its first answer in four steps from the start page: how long it is and how wide, what is under the
// floor, and Start.
func TestOwnRoomToTheFirstAnswer(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	w.theme.SetStill(true)
	w.window.Resize(fyne.NewSize(1280, 800))
	h := fitter{t: t, w: w}
	until(t, "the start page", func() bool { return w.window.Canvas().Focused() != nil })
	h.figure("2600")
	h.figure("1800")
	h.press("Concrete")
	h.press("Start")
	until(t, "the first answer", func() bool {
		return w.start.sheet != nil && slices.Contains(textsOf(w.window.Content()), "step in, up")
	})
	if s := w.start.sheet.Sheet(); s.Room.Long != question.Given(2600) || s.Room.Wide != question.Given(1800) ||
		s.Floor.Is != question.Concrete || !s.Floor.Said {
		t.Errorf("answered is %+v", s)
	}
	if h.n > 4 {
		t.Errorf("it took %d steps", h.n)
	}
}

// The least raise of a job is found and kept in three steps from the desk: its levels, a press that tries the way of the waste that
// needs less, and Enter.
func TestTheLeastRaiseFound(t *testing.T) {
	w := desked(t, 1)
	was := w.change.Result.Heights.BaseTopMM
	h := fitter{t: t, w: w}
	h.press("Levels")
	until(t, "a lower way", func() bool { return w.levels.LowerSaid() && w.resting() })
	h.press("Try")
	until(t, "the trial", w.trial.Running)
	h.key(fyne.KeyReturn)
	until(t, "the way kept", func() bool { return !w.trial.Running() && !w.change.Preview && !w.change.Undo.IsZero() })
	if now := w.change.Result.Heights.BaseTopMM; now >= was {
		t.Errorf("the base lay at %v and lies at %v", was, now)
	}
	if h.n > 3 {
		t.Errorf("it took %d steps", h.n)
	}
}
