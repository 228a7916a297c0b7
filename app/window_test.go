package app

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"underfall/app/guard"
	"underfall/app/words"
	"underfall/geometry/buildup"
	"underfall/geometry/chance"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/viewer"
)

// queue holds what other goroutines want done on the window's, which in tests
// is the test's own.
type queue chan func()

func (q queue) do(f func()) { q <- f }

// tests gives each window its queue, so that until can empty it.
var tests = map[*testing.T]queue{}

// windows is the last window of each test.
var windows = map[*testing.T]*mainWindow{}

// noFolder as the folder for unsaved work leaves the window without.
const noFolder = "none"

// openWindow opens the window on Fyne's test driver: no display is needed.
func openWindow(t *testing.T, o Options) (*mainWindow, *bytes.Buffer) {
	t.Helper()
	if _, stated := os.LookupEnv("UNDERFALL_LANGUAGE"); !stated {
		t.Setenv("UNDERFALL_LANGUAGE", words.British) // whatever the machine speaks
	}
	a := test.NewApp()
	var log bytes.Buffer
	o.Log = &log
	switch o.ConfigFolder {
	case "":
		o.ConfigFolder = t.TempDir()
	case noFolder:
		o.ConfigFolder = ""
	}
	o.Width, o.Height = 1280, 800
	q := tests[t]
	if q == nil {
		q = make(queue, 10000)
		tests[t] = q
	}
	o.Do = q.do
	if before := windows[t]; before != nil {
		// Two windows are two programs; in one, only one can draw in 3D.
		before.view.close()
	}
	w, err := newWindow(a, o)
	if err != nil {
		t.Fatal(err)
	}
	windows[t] = w
	w.window.Show()
	t.Cleanup(func() { w.end(); delete(tests, t); delete(windows, t); a.Quit() })
	settle(t)
	return w, &log
}

// until waits for something that happens off the window's goroutine.
func until(t *testing.T, what string, ok func() bool) {
	t.Helper()
	deadline := time.Now().Add(15 * time.Second)
	for {
		settle(t)
		if ok() {
			return
		}
		if time.Now().After(deadline) {
			t.Fatalf("%s did not happen", what)
		}
		time.Sleep(5 * time.Millisecond)
	}
}

// settle does what is queued.
func settle(t *testing.T) {
	for {
		select {
		case f := <-tests[t]:
			f()
		default:
			return
		}
	}
}

// numberField finds the entry of a parameter by its key.
func numberField(t *testing.T, w *mainWindow, key string) *numberRow {
	t.Helper()
	for _, r := range w.inputs.rows {
		if n, ok := r.(*numberRow); ok && n.key == key {
			return n
		}
	}
	t.Fatalf("no field for %s", key)
	return nil
}

func (w *mainWindow) shownDepth() float64 { return w.change.Result.Settled.Shower.DepthMM }

// enter types into a field as a person does: into it, over what is there, and
// Enter.
func enter(w *mainWindow, e *entry, s string) {
	w.inputs.accordion.OpenAll() // a field that does not show takes no focus
	w.window.Canvas().Focus(e)
	e.SetText(s)
	if e.MultiLine {
		w.window.Canvas().Unfocus()
		return
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// What is typed is shown at once; it is the job's on Enter or on leaving the
// field, as one step, however many keys that took; Escape gives it up.
func TestTypingChangesTheJob(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	w.window.Canvas().Focus(f.entry)
	for _, s := range []string{"", "1", "10", "100", "1000"} {
		f.entry.SetText(s)
	}
	until(t, "the depth being typed", func() bool { return w.shownDepth() == 1000 })
	if got := w.desk.Job().Shower.DepthMM; got != 900 || !w.change.Undo.IsZero() {
		t.Errorf("while typing, the job has a depth of %v, undo %q", got, w.change.Undo)
	}
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	until(t, "the new depth", func() bool {
		return w.desk.Job().Shower.DepthMM == 1000 && say(w.change.Undo, "metric") == "Shower area: Depth" && !w.change.Preview
	})
	f.entry.SetText(`3' 6"`)
	w.window.Canvas().Unfocus()
	until(t, "the depth in feet and inches", func() bool { return w.desk.Job().Shower.DepthMM == 1066.8 })
	w.window.Canvas().Focus(f.entry)
	f.entry.SetText("777")
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	until(t, "the depth before", func() bool { return w.shownDepth() == 1066.8 && f.entry.Text == "1066.8" })
	w.desk.Undo()
	w.desk.Undo()
	until(t, "undo", func() bool { return w.shownDepth() == 900 })
	if !w.desk.Undo().IsZero() {
		t.Error("typing left more than one step each")
	}
}

// A value that is refused when it is left gives way to the one before, not to
// the last beginning of it that would do, and says so.
func TestRefusedGoesBack(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	w.window.Canvas().Focus(f.entry)
	for _, s := range []string{"9", "99", "999", "9999", "99999999"} {
		f.entry.SetText(s)
		settle(t)
	}
	w.window.Canvas().Unfocus()
	until(t, "the depth before", func() bool { return w.shownDepth() == 900 && !w.change.Preview })
	if got := w.desk.Job().Shower.DepthMM; got != 900 || f.entry.Text != "900" {
		t.Errorf("the depth is %v, shown as %q", got, f.entry.Text)
	}
	if !f.message.Visible() || !strings.Contains(f.message.Text, "99999999") {
		t.Errorf("the message is %q", f.message.Text)
	}
}

// The window's shortcuts work while a field has the focus, once what was typed
// there is taken.
func TestShortcutsFromFields(t *testing.T) {
	for name, field := range map[string]func(w *mainWindow) *entry{
		"number": func(w *mainWindow) *entry { return numberField(t, w, "shower.depthMM").entry },
		"name":   func(w *mainWindow) *entry { return w.jobPanel.rows[0].(*textRow).entry },
		"notes":  func(w *mainWindow) *entry { return w.jobPanel.rows[1].(*textRow).entry },
		"list":   func(w *mainWindow) *entry { return listField(t, w, "Spot levels").entry },
	} {
		w, log := openWindow(t, Options{})
		e := field(w)
		path := filepath.Join(t.TempDir(), "x.json")
		w.saveTo(path, func() {})
		until(t, "saving", func() bool { return w.change.File == path && !w.change.Unsaved })
		w.window.Canvas().Focus(e)
		typed := map[string]string{"number": "1000", "name": "Smith", "notes": "by the window", "list": "300, 400, 2.5, 1"}[name]
		e.SetText(typed)
		key := func(k fyne.KeyName, shift fyne.KeyModifier) {
			e.TypedShortcut(&desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierShortcutDefault | shift})
		}
		key(fyne.KeyS, 0)
		until(t, name+": saving what was typed", func() bool {
			data, err := os.ReadFile(path)
			want := map[string]string{"number": `"depthMM": 1000`, "name": `"name": "Smith"`, "notes": "by the window", "list": `"levelMM": 2.5`}[name]
			return err == nil && strings.Contains(string(data), want) && !w.change.Unsaved
		})
		key(fyne.KeyT, 0)
		key(fyne.KeyM, 0)
		e.TypedShortcut(&fyne.ShortcutUndo{})
		until(t, name+": undo", func() bool { return w.change.Undo.IsZero() && w.change.Unsaved })
		e.TypedShortcut(&fyne.ShortcutRedo{})
		until(t, name+": redo", func() bool { return !w.change.Undo.IsZero() && !w.change.Unsaved })
		if !strings.Contains(log.String(), "dark true") || !strings.Contains(log.String(), "measure true") {
			t.Errorf("%s: the keys for dark and measuring do nothing", name)
		}
		for _, k := range []struct {
			key   fyne.KeyName
			shift fyne.KeyModifier
		}{{fyne.KeyO, 0}, {fyne.KeyS, fyne.KeyModifierShift}} {
			before := len(w.window.Canvas().Overlays().List())
			key(k.key, k.shift)
			if len(w.window.Canvas().Overlays().List()) <= before {
				t.Errorf("%s: Ctrl-%s asks for no file", name, k.key)
			}
		}
	}
}

// Half-typed and senseless numbers mark the field and leave the last good job.
func TestHalfTypedNumbers(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	for _, s := range []string{"", "-", "12 f", "1e9", "-900", "NaN", "5000"} {
		f.entry.SetText(s)
		if !f.message.Visible() || f.message.Text == "" {
			t.Errorf("%q is not marked", s)
		}
		if got := w.desk.Job().Shower.DepthMM; got != 900 {
			t.Errorf("%q changed the depth to %v", s, got)
		}
	}
	enter(w, f.entry, "950")
	if f.message.Visible() {
		t.Error("a good number is still marked")
	}
}

func TestArrowKeysStep(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if got := w.desk.Job().Shower.DepthMM; got != 910 {
		t.Errorf("arrow up gives %v, want 910", got)
	}
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	if got := w.desk.Job().Shower.DepthMM; got != 810 {
		t.Errorf("page down gives %v, want 810", got)
	}
}

// Every parameter has a field, shown exactly when the job uses it.
func TestEveryParameterHasAField(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for i := range w.demos {
		j := w.demos[i].Job
		w.inputs.show(j)
		for _, p := range job.Parameters() {
			if f := numberField(t, w, p.Key); f.box.Visible() != p.Uses(j) {
				t.Errorf("%s: %s shown %v, used %v", w.demos[i].File, p.Key, f.box.Visible(), p.Uses(j))
			}
		}
	}
}

// listField finds the list whose label begins so.
func listField(t *testing.T, w *mainWindow, label string) *textRow {
	t.Helper()
	for _, r := range w.inputs.rows {
		if l, ok := r.(*textRow); ok && strings.HasPrefix(l.box.Objects[0].(*widget.Label).Text, label) {
			return l
		}
	}
	t.Fatalf("no list %s", label)
	return nil
}

func TestListFields(t *testing.T) {
	w, _ := openWindow(t, Options{})
	list := func(label string) *textRow { return listField(t, w, label) }
	enter(w, list("Spot levels").entry, "300, 400, 2.5, 1\n900, 400, 3")
	if s := w.desk.Job().SpotLevels; len(s) != 2 || s[0].LevelMM != 2.5 || s[1].ToleranceMM != job.UsualReadingMM {
		t.Errorf("spot levels %+v", s)
	}
	enter(w, list("Spot levels").entry, "300, 400")
	if l := list("Spot levels"); !l.message.Visible() || len(w.desk.Job().SpotLevels) != 2 {
		t.Error("a line with two numbers is not refused")
	}
	if got := list("Spot levels").entry.Text; got != "300, 400" {
		t.Errorf("what was typed and refused is gone: %q", got)
	}
	list("Spot levels").entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got := list("Spot levels").entry.Text; !strings.HasPrefix(got, "300, 400, 2.5") {
		t.Errorf("given up, the list shows %q", got)
	}
	enter(w, list("In-line").entry, "reducer at 200 to 43/39 (reversed)\nfalling piece at 300 long 120 fall 3°")
	f := w.desk.Job().Waste.Fittings
	if len(f) != 2 || !f[0].Reversed || f[0].BoreMM != 39 || f[1].AtMM != 300 || f[1].LengthMM != 120 {
		t.Errorf("fittings %+v", f)
	}
	enter(w, list("Flows").entry, "12, 9 l/min")
	if v := w.desk.Job().Water.TotalLPS(); v < 0.349 || v > 0.351 {
		t.Errorf("flows add up to %v, want 0.35", v)
	}
	enter(w, list("Corners").entry, "0,0\n2400,0\n2400,1900\n1000,1900\n1000,2500\n0,2500")
	if n := len(w.desk.Job().Room.Walls); len(w.desk.Job().Room.Outline) == 6 && n != 6 {
		t.Errorf("six corners, %d walls", n)
	}
}

// Fittings read back what is written of them.
func TestFittingWords(t *testing.T) {
	for _, f := range []job.Fitting{
		{Kind: job.FittingReducer, AtMM: 250, LengthMM: 60, Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 43, BoreMM: 39}.WithUsualFittings(), Reversed: true},
		{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 140, Slope: 0.05},
	} {
		got, err := readFitting(writeFitting(f, "metric", british(t)), "metric", british(t))
		if err != nil || got != f {
			t.Errorf("%q reads back as %+v, %v", writeFitting(f, "metric", british(t)), got, err)
		}
	}
	for _, s := range []string{"", "valve at 3", "reducer to 43/39", "reducer at 100 to 43", "falling piece at x"} {
		if _, err := readFitting(s, "metric", british(t)); err == nil {
			t.Errorf("%q is taken", s)
		}
	}
}

// Choosing a finding moves the cut to its place and opens its details.
func TestFindingMovesTheCut(t *testing.T) {
	w, log := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	until(t, "the job", func() bool { return len(w.findings.cards) > 10 })
	card := w.findings.cards[1]
	card.Tapped(nil)
	f := card.group.findings[0]
	if side := w.shared.cut(w.change.Result).Side(f.Measurement.At); side > 1e-6 || side < -1e-6 {
		t.Errorf("the cut passes %v from the finding", side)
	}
	if w.shared.mark == nil || !card.details.Visible() || !strings.Contains(log.String(), "finding "+f.Rule.ID) {
		t.Error("the finding is not marked, opened or logged")
	}
}

func TestStageSlider(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.stage.SetValue(float64(buildup.StageWaste))
	if w.shared.stage != buildup.StageWaste || w.stageAt.Text != "Trap and waste" {
		t.Errorf("stage %v, label %q", w.shared.stage, w.stageAt.Text)
	}
}

func TestSaveOpenAndDemos(t *testing.T) {
	w, _ := openWindow(t, Options{})
	enter(w, numberField(t, w, "shower.depthMM").entry, "1000")
	path := filepath.Join(t.TempDir(), "x.json")
	w.saveTo(path, func() {})
	until(t, "saving", func() bool { return !w.change.Unsaved && w.change.File == path })
	w.begin(w.demos[2].Job)
	until(t, "the demo", func() bool { return w.change.Result.Settled.Name == w.demos[2].Job.Name })
	w.openFile(path)
	until(t, "reopening", func() bool { return w.shownDepth() == 1000 })
	w.begin(job.New())
	until(t, "the new job", func() bool { return w.change.Result.Settled.Name == "New shower" && w.change.File == "" })
}

// Dragging in plan edits the job as one step.
func TestDragInPlan(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.drawings.SelectIndex(1)
	w.plan.Resize(fyne.NewSize(600, 300))
	until(t, "the plan", func() bool { return len(w.plan.drawing.Handles) > 0 && w.plan.fitted == w.plan.fits })
	var at fyne.Position
	for _, h := range w.plan.drawing.Handles {
		if h.Moves.Kind == edit.HandleDepth {
			at = w.plan.toWindow(h.At)
		}
	}
	w.plan.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	if w.plan.grasped.handle.Kind != edit.HandleDepth {
		t.Fatalf("grasped %v", w.plan.grasped)
	}
	for i := range 5 {
		p := at.AddXY(0, float32(3*i))
		w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p}, Dragged: fyne.NewDelta(0, 3)})
	}
	w.plan.DragEnd()
	if got := w.desk.Job().Shower.DepthMM; got <= 900 {
		t.Errorf("dragging the front edge out gives a depth of %v", got)
	}
	w.desk.Undo()
	if got := w.desk.Job().Shower.DepthMM; got != 900 {
		t.Errorf("one undo gives %v, want 900", got)
	}
}

// Measuring between two corners of the section gives their distance.
func TestMeasure(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.section.Resize(fyne.NewSize(700, 300))
	until(t, "the section", func() bool { return len(w.section.drawing.Areas) > 0 && w.section.fitted == w.section.fits })
	w.setMeasuring(true)
	var tile [2]fyne.Position
	for _, a := range w.section.drawing.Areas {
		if a.PartID == "base" {
			low, high, _ := a.Region.Bounds()
			tile[0], tile[1] = w.section.toWindow(low), w.section.toWindow([2]float64{low.X(), high.Y()})
		}
	}
	for _, p := range tile {
		w.section.Tapped(&fyne.PointEvent{Position: p})
	}
	// Its upper board is one of 10.
	if want := "Measured 10 mm"; w.status.Text != want {
		t.Errorf("%q, want %q", w.status.Text, want)
	}
}

// Orbit, pan, zoom and keys move the camera; nothing else changes.
func TestCameraMoves(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.view.Resize(fyne.NewSize(500, 300))
	until(t, "the first camera", func() bool { return w.shared.placed })
	before := w.shared.camera
	w.view.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	w.view.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(30, 10)})
	w.view.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 20)})
	if w.shared.camera == before || w.shared.camera.DistanceMM >= before.DistanceMM {
		t.Error("the camera did not move")
	}
	w.view.view(viewer.ViewPlan)
	until(t, "the flight", func() bool { return w.shared.camera.Pitch > 1.5 })
}

// Every panel is laid out for every demo, at both sizes and in both themes.
func TestEveryPanelIsLaidOut(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for i := range w.demos {
		w.resetView()
		if err := w.desk.Replace(w.demos[i].Job, ""); err != nil {
			t.Fatal(err)
		}
		until(t, "the demo", func() bool { return w.change.Result.Settled.Name == w.demos[i].Job.Name })
		for _, size := range []fyne.Size{fyne.NewSize(1280, 800), fyne.NewSize(1920, 1080)} {
			w.window.Resize(size)
			for _, tabs := range []*container.AppTabs{w.sides, w.drawings} {
				for k := range tabs.Items {
					tabs.SelectIndex(k)
					settle(t)
					if s := tabs.Items[k].Content.Size(); s.Width < 100 || s.Height < 100 {
						t.Errorf("%s: panel %s is %v", w.demos[i].File, tabs.Items[k].Text, s)
					}
				}
			}
			w.toggleTheme()
		}
	}
}

// Runs are found and one is put into the job by one step.
func TestFindRuns(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.runs.toggle()
	until(t, "the search", func() bool { return w.runs.cancel == nil })
	if len(w.runs.list.Objects) == 0 {
		t.Fatal("nothing is listed: " + w.runs.note.Text)
	}
	before := w.desk.Job()
	button, picture := findButton(w.runs.list.Objects[len(w.runs.list.Objects)-1]), false
	each(w.runs.list, func(o fyne.CanvasObject) { _, is := o.(*canvas.Image); picture = picture || is })
	if button == nil || !picture {
		t.Fatal("a run has no button or no picture")
	}
	button.OnTapped()
	until(t, "the run", func() bool { return len(w.change.Problems) == 0 && !w.change.Undo.IsZero() })
	if w.change.Result.Stops() {
		t.Error("a found run is stopped")
	}
	w.desk.Undo()
	until(t, "undo", func() bool { return w.change.Undo.IsZero() })
	if after := w.desk.Job(); after.Waste.Exit != before.Waste.Exit || after.Drain.OutletTurnDeg != before.Drain.OutletTurnDeg {
		t.Error("undo does not bring the run back")
	}
}

// Found runs are of the job they were found for: another job clears the list
// and stops a search that goes on; an edit marks the list as old, and a run then
// used changes the job as it now is, not back to what it was.
func TestFoundRunsAreOfTheirJob(t *testing.T) {
	w, _ := openWindow(t, Options{})
	search := func() {
		w.runs.toggle()
		until(t, "the search", func() bool { return w.runs.cancel == nil && len(w.runs.list.Objects) > 0 })
	}
	search()
	if w.runs.old.Visible() {
		t.Error("a fresh list is marked as old")
	}
	w.desk.Do(edit.Of(message.Of("edit.test-name-of-the-job"), func(j *job.Job) { j.Name = "Customer B" }))
	until(t, "the mark", func() bool { return w.runs.old.Visible() })
	use := findButton(w.runs.list.Objects[len(w.runs.list.Objects)-1])
	use.OnTapped()
	until(t, "the run", func() bool { return w.change.Undo.ID == "edit.run" })
	if got := w.desk.Job().Name; got != "Customer B" {
		t.Errorf("using a run brought back the job of %q", got)
	}
	if err := w.desk.Replace(w.demos[1].Job, ""); err != nil {
		t.Fatal(err)
	}
	until(t, "an empty list", func() bool { return len(w.runs.list.Objects) == 0 && !w.runs.old.Visible() })

	// While a search goes on, another job is opened: its runs never come.
	w.runs.toggle()
	going := w.runs.cancel
	if going == nil {
		t.Fatal("no search")
	}
	if err := w.desk.Replace(w.demos[2].Job, ""); err != nil {
		t.Fatal(err)
	}
	until(t, "the search to be stopped", func() bool { return w.runs.cancel == nil })
	search()
	for _, o := range w.runs.list.Objects {
		if b := findButton(o); b != nil {
			b.OnTapped()
			break
		}
	}
	until(t, "the run", func() bool { return !w.change.Undo.IsZero() })
	if got := w.desk.Job().Name; got != w.demos[2].Job.Name {
		t.Errorf("a run of another job was used: %q", got)
	}
}

// each visits an object and all it holds.
func each(o fyne.CanvasObject, visit func(fyne.CanvasObject)) {
	visit(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, inner := range o.Objects {
			each(inner, visit)
		}
	case *container.Scroll:
		each(o.Content, visit)
	case *container.Split:
		each(o.Leading, visit)
		each(o.Trailing, visit)
	}
}

// buttonCalled is the button with a label among an object and all it holds.
func buttonCalled(o fyne.CanvasObject, label string) *widget.Button {
	var found *widget.Button
	each(o, func(o fyne.CanvasObject) {
		if b, ok := o.(*toolButton); ok {
			o = &b.Button
		}
		if b, ok := o.(*widget.Button); ok && b.Text == label {
			found = b
		}
	})
	return found
}

func findButton(o fyne.CanvasObject) *widget.Button {
	var found *widget.Button
	each(o, func(o fyne.CanvasObject) {
		if b, ok := o.(*widget.Button); ok {
			found = b
		}
	})
	return found
}

// A floor that nothing stops as planned is no good news where a build may break what stops
// it more often than in 5 of 100.
func TestRisksOfStopsAreNoGoodNews(t *testing.T) {
	w, _ := openWindow(t, Options{})
	p := w.findings
	r := w.desk.Result()
	if r.Stops() || r.Risky() {
		t.Fatal("something is wrong with the starting job")
	}
	for _, c := range []struct {
		severity rule.Severity
		share    float64
		want     widget.Importance
	}{{rule.Stop, 0.05, widget.SuccessImportance}, {rule.Stop, 0.06, widget.WarningImportance}, {rule.Advice, 0.9, widget.SuccessImportance}} {
		p.risks = []chance.Risk{{Rule: rule.Rule{ID: "made-up", Severity: c.severity}, Planned: true, Probability: c.share}}
		p.fill(r)
		if told := strings.Contains(p.summary.Text, word("app.may-stop")); p.summary.Importance != c.want || told != (c.want == widget.WarningImportance) {
			t.Errorf("%s in %v: %v, want %v", c.severity, c.share, p.summary.Importance, c.want)
		}
	}
}

// After a moment's rest the chances are counted, listed under the findings and
// told on their cards.
func TestChancesAreShown(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the count", func() bool { return !w.findings.stale && len(w.findings.risks) > 0 })
	listed := 0
	for _, c := range w.findings.cards {
		if c.group.risk != nil {
			listed++
			if c.group.risk.Planned || c.group.risk.Probability <= 0 {
				t.Errorf("%+v is listed", c.group.risk)
			}
			c.Tapped(nil)
		}
	}
	if listed == 0 {
		t.Error("nothing is listed that may go wrong")
	}
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = 1.0 / 45 }))
	until(t, "the next count", func() bool { return w.findings.stale })
}

// What has been measured shows as an instruction.
func TestAsBuiltSaysWhatToDo(t *testing.T) {
	w, _ := openWindow(t, Options{})
	top := w.change.Result.Heights.BaseTopMM - 2
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.AsBuilt.BaseTopMM = &top }))
	until(t, "the instruction", func() bool { return strings.Contains(w.levels.now.Text, "Bed under the former 5 mm instead of 3 mm") })
	low := top - 30
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.AsBuilt.FormerAtDrainMM = &low }))
	until(t, "the contradiction", func() bool { return strings.Contains(w.levels.now.Text, "Measure again") })
}

// In the long section the exit's level is dragged, and then drives the fall.
func TestDragInTheLongSection(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.drawings.SelectIndex(2)
	w.long.Resize(fyne.NewSize(700, 320))
	until(t, "the drawing", func() bool { return len(w.long.drawing.Handles) > 0 && w.long.fitted == w.long.fits })
	exitMM := func() float64 { return w.change.Result.Heights.Run.InvertAt(w.change.Result.Heights.Run.ExitAtMM) }
	// Six pixels up, of heights drawn Rise times as high, to the next half millimetre.
	want := math.Round((exitMM()+6/w.long.view.PixelsPerMM/w.long.drawing.Rise)*2) / 2
	if want < exitMM()+1 {
		t.Fatalf("the exit is not dragged: from %v to %v", exitMM(), want)
	}
	at := w.long.toWindow(w.long.drawing.Handles[0].At)
	w.long.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	w.long.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(0, -6)}, Dragged: fyne.NewDelta(0, -6)})
	w.long.MouseUp(nil)
	until(t, "the exit to be where it is dragged", func() bool { return math.Abs(exitMM()-want) < 1e-6 })
	if _, exact := w.desk.Job().Waste.Exit.Level.ExactlyMM(); !exact {
		t.Error("the exit does not drive")
	}
}

// A turn is added to the run and taken away again, a fitting put in and turned
// round; the wrong way round is a finding.
func TestRunMenu(t *testing.T) {
	w, _ := openWindow(t, Options{})
	choose := func(atMM float64, label string) {
		for _, item := range w.plan.runItems(atMM) {
			if item.Label == label {
				item.Action()
				settle(t)
				return
			}
		}
		t.Fatalf("no %q in the menu", label)
	}
	choose(300, "Add a turn here")
	until(t, "the turn", func() bool { return len(w.change.Result.Heights.Run.Corners) == 3 })
	choose(300, "Remove this turn")
	until(t, "it to go", func() bool { return len(w.change.Result.Heights.Run.Corners) == 2 })
	w.desk.Do(edit.Of(message.Of("edit.pipe"), func(j *job.Job) {
		j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM = 40, 43, 39
	}))
	until(t, "the smaller pipe", func() bool { return w.change.Result.Settled.Waste.NominalMM == 40 })
	choose(200, "Put a reducer to 50 mm here")
	// The trap's joint, pipe, reducer and pipe.
	until(t, "the reducer", func() bool { return len(w.change.Result.Heights.Run.Pieces) == 4 })
	choose(220, "Turn this fitting round")
	until(t, "the finding", func() bool {
		for _, f := range w.change.Result.Findings {
			if f.Rule.ID == "reducer-loss" {
				return true
			}
		}
		return false
	})
	choose(220, "Remove this fitting")
	until(t, "it to go", func() bool { return len(w.change.Result.Heights.Run.Pieces) == 2 })
}

// The water's drops stay on their courses, in plan and along the run.
func TestDropsStayOnTheirCourse(t *testing.T) {
	w, _ := openWindow(t, Options{})
	r := w.change.Result
	for _, kind := range []drawingKind{drawPlan, drawLong} {
		cs := courses(kind, r, 1)
		if len(cs) == 0 {
			t.Fatalf("kind %d has no water", kind)
		}
		for _, c := range cs {
			for s := 0.0; s < 30; s += 0.37 {
				p := c.at(s)
				best := 1e9
				for i := 1; i < len(c.points); i++ {
					best = min(best, plan.DistanceToSegment(p, c.points[i-1], c.points[i]))
				}
				if best > 1e-6 {
					t.Fatalf("a drop is %v mm off its course", best)
				}
			}
		}
	}
	w.water.run.SetChecked(true)
	w.drawings.SelectIndex(1)
	until(t, "the drops", func() bool { return w.plan.drops != nil && len(w.plan.drops.dots) > 5 })
	w.water.run.SetChecked(false)
	if w.plan.drops != nil {
		t.Error("the water goes on")
	}
}

// Without 3D the program works and says why.
func TestWithout3D(t *testing.T) {
	a := test.NewApp()
	defer a.Quit()
	theme := newAppTheme(false, british(t))
	a.Settings().SetTheme(theme)
	q := make(queue, 1000)
	tests[t] = q
	defer delete(tests, t)
	g := guard.New(func(f guard.Fault) { t.Error(f) }, nil)
	v := newView3D(newSharedView(q.do, g), theme, nil)
	defer v.close()
	v.tellOff(fmt.Errorf("%w (%v)", viewer.ErrNoGraphics, os.ErrNotExist))
	until(t, "the notice", func() bool { return v.notice.Visible() })
	if !strings.Contains(v.notice.Text, "3D picture is off: this computer's graphics driver offers no OpenGL 3.3. ") {
		t.Errorf("notice %q", v.notice.Text)
	}
}

// Light and dark differ, and both paint something.
func TestThemes(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.section.Resize(fyne.NewSize(600, 300))
	mean := func() int {
		img, ok := w.section.picture.Image.(*image.RGBA)
		if !ok {
			return 128
		}
		sum := 0
		for i := 0; i < len(img.Pix); i += 4 {
			sum += int(img.Pix[i])
		}
		return sum / (len(img.Pix) / 4)
	}
	until(t, "a light section", func() bool { return mean() > 180 })
	w.toggleTheme()
	until(t, "a dark section", func() bool { return mean() < 100 })
}
