package app

import (
	"encoding/json"
	"image"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/desk"
	"underfall/app/drawing"
	"underfall/app/guard"
	"underfall/app/roomtest"
	"underfall/app/runs"
	"underfall/app/theme"
	"underfall/app/trial"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/viewer"
)

// trap makes a part fail once.
type trap struct{ part atomic.Value }

func (x *trap) probe(part message.ID) {
	if x.part.CompareAndSwap(string(part), "") {
		panic("a broken " + string(part))
	}
}

// A panic in any part is told in a sentence, keeps the work, leaves a report with
// the job, and the part can be started again. Each used to end the program.
func TestFaultsEndNothing(t *testing.T) {
	var x trap
	folder := t.TempDir()
	w, log := openWindow(t, Options{ConfigFolder: folder, Probe: x.probe})
	w.view.Resize(fyne.NewSize(200, 150))
	until(t, "a picture or a notice", func() bool { return w.view.Drawn() || noticeIn(w.view) != "" })
	draws := w.view.Drawn()
	w.plan.Resize(fyne.NewSize(300, 200))
	w.drawings.SelectIndex(1)
	deeper := func() {
		w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Shower.DepthMM++ }))
	}
	deeper()
	for _, c := range faultyParts(w, deeper, filepath.Join(t.TempDir(), "still.png")) {
		if c.picture && !draws {
			continue
		}
		t.Run(string(c.part), func(inner *testing.T) {
			before := reports(folder)
			kept := filepath.Join(folder, keptFolder)
			// What was changed before may just be being kept there.
			until(t, "nothing kept", func() bool { return os.RemoveAll(kept) == nil })
			x.part.Store(string(c.part))
			c.start()
			until(t, "the fault in "+string(c.part), func() bool {
				return x.part.Load() == "" && strings.Contains(w.faults.said(), theme.Word(c.part))
			})
			if w.showroom != nil {
				w.closeShowroom()
			}
			// What is shown of the next change may take its place in the line below.
			said := w.faults.said()
			until(t, "the sentence", func() bool { return strings.Contains(log.String(), "fault: "+said) })
			if !strings.Contains(said, "Your work is kept.") {
				inner.Errorf("the sentence is %q", said)
			}
			if files, _ := filepath.Glob(filepath.Join(kept, "*.json")); len(files) != 1 {
				inner.Errorf("kept is %v", files)
			}
			files := reports(folder)
			if len(files) != len(before)+1 || !strings.Contains(said, files[len(files)-1]) {
				inner.Fatalf("reports %v, told %q", files, said)
			}
			c.holdReport(inner, files[len(files)-1], w.desk.Job())
			c.start()
			until(t, string(c.part)+" again", c.again)
		})
	}
}

// faultyPart is a part that is made to fail.
type faultyPart struct {
	part    message.ID
	picture bool // it needs OpenGL
	start   func()
	again   func() bool // the part works after the fault, once started again
}

// faultyParts are all parts of the window, with what starts them; a picture goes into the
// file still.
func faultyParts(w *mainWindow, deeper func(), still string) []faultyPart {
	return []faultyPart{
		{viewer.PartLive, true, func() { imageIn(w.view).Image = nil; w.view.Redraw() },
			func() bool { return imageIn(w.view).Image != nil }},
		{viewer.PartStill, true, func() { w.drawPictures(w.view.Shot(image.Pt(20, 16), false, false), still) },
			func() bool { _, err := os.Stat(still); return err == nil }},
		{partChances, false, func() { deeper(); w.showPanels() },
			func() bool { return w.answer.Answer().Counted }},
		{partRemedies, false, func() { deeper(); w.showPanels() },
			func() bool { return len(w.answer.Offered("core-slab")) > 0 }},
		{runs.PartSearch, false, func() { pressesIn(w.runs.Object(), "Find runs")[0].OnPressed() },
			func() bool {
				return len(pressesIn(w.runs.Object(), "Find runs")) > 0 && len(pressesIn(w.runs.Object(), "Try")) > 0
			}},
		{trial.Part, false, func() {
			w.tryRun([]runs.Way{{Does: message.Of("edit.run"), Edit: edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Waste.Exit.OffsetMM += 50 })}}, 0)
		}, w.trial.Running},
		{drawing.PartWater, false, func() { w.water.Run.SetChecked(false); w.water.Run.SetChecked(true) },
			func() bool { return watered(w.plan) }},
		{drawing.Part, false, func() { imageIn(w.plan).Image = nil; w.plan.Redraw() },
			func() bool { return imageIn(w.plan).Image != nil }},
		{desk.PartEvaluation, false, deeper,
			func() bool { return w.shownDepth() == w.desk.Job().Shower.DepthMM }},
		{partChange, false, deeper,
			func() bool { return w.shownDepth() == w.desk.Job().Shower.DepthMM }},
	}
}

// watered tells whether drops of water are over a drawing.
func watered(v *drawing.View) (drops bool) {
	roomtest.EachShown(v, func(o fyne.CanvasObject) {
		if c, ok := o.(*canvas.Circle); ok && c.StrokeWidth == 0 && c.FillColor != nil {
			drops = true
		}
	})
	return drops
}

// reports are the files with reports of faults.
func reports(folder string) []string {
	files, _ := filepath.Glob(filepath.Join(folder, guard.Folder, "*.json"))
	return files
}

// holdReport holds the report of the fault to the part and the job.
func (c faultyPart) holdReport(t *testing.T, file string, j job.Job) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var report guard.Report
	if err := json.Unmarshal(data, &report); err != nil {
		t.Fatal(err)
	}
	if of, err := job.Parse(report.Job); err != nil || !reflect.DeepEqual(of, j) {
		t.Errorf("the report's job is another, %v", err)
	}
	if report.Part != string(c.part) || !strings.Contains(report.Reason, "a broken "+string(c.part)) || len(report.Stack) == 0 {
		t.Errorf("the report is\n%s", data)
	}
}

// A panic in what the window's own loop calls is told as well, and the loop goes
// on.
func TestFaultsInHandlers(t *testing.T) {
	w, _ := openWindow(t, Options{})
	broken := func(string) { panic("a broken listener") }
	w.view.Choose, w.view.Readout, w.section.Readout, w.section.Choose = broken, broken, broken, broken
	w.section.Resize(fyne.NewSize(300, 200))
	w.sight.Listen(func() { broken("") })
	for _, c := range []struct {
		name   string
		handle func()
	}{
		{"a tap in 3D", func() { w.view.Tapped(&fyne.PointEvent{}) }},
		{"a move in 3D", func() { w.view.MouseMoved(&desktop.MouseEvent{}) }},
		{"a tap in section", func() { w.section.Tapped(&fyne.PointEvent{}) }},
		{"a move in section", func() { w.section.MouseMoved(&desktop.MouseEvent{}) }},
		{"a key", func() { w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyX}) }},
		{"a tool", w.keys.Shortcuts[ctrlName(fyne.KeyM)]},
	} {
		w.teller.Tell("", false)
		c.handle()
		until(t, "the sentence after "+c.name, func() bool { return strings.Contains(w.teller.Text(), "a fault in Underfall") })
	}
}

// Where the work cannot be kept, the sentence says so and what to do.
func TestFaultWithoutAPlaceForTheWork(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Shower.DepthMM++ }))
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, folder := range []string{"", filepath.Join(file, "inside")} {
		var said string
		w.desk.KeepIn(filepath.Join(folder, keptFolder), time.Now)
		newFaults(w.desk, folder, func(sentence string, _ bool) { said = sentence }).report(guard.Fault{Part: runs.PartSearch})
		for _, want := range []string{"could not be kept", "save it now", "A report could not be written"} {
			if !strings.Contains(said, want) {
				t.Errorf("folder %q: %q", folder, said)
			}
		}
	}
}
