package app

import (
	"bytes"
	"cmp"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/rail"
	"underfall/app/roomtest"
	"underfall/app/theme"
	"underfall/app/tray"
	"underfall/app/words"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
)

// tests gives each window its queue, so that until can empty it.
var tests = map[testing.TB]roomtest.Queue{}

// windows is the last window of each test.
var windows = map[testing.TB]*mainWindow{}

// noFolder as the folder for unsaved work leaves the window without.
const noFolder = "none"

// onlyLooks leaves a test out of the short ones: it looks at what stands where, in many windows, and has nothing run
// beside them that others do not.
func onlyLooks(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("nothing runs beside the window that is not run elsewhere")
	}
}

// openWindow opens the window on Fyne's test driver: no display is needed.
func openWindow(t testing.TB, o Options) (*mainWindow, *bytes.Buffer) {
	t.Helper()
	if _, stated := os.LookupEnv("UNDERFALL_LANGUAGE"); !stated {
		t.Setenv("UNDERFALL_LANGUAGE", words.British) // whatever the machine speaks
	}
	a := test.NewApp()
	roomtest.Wake()
	var log bytes.Buffer
	o.Log = &log
	switch o.ConfigFolder {
	case "":
		o.ConfigFolder = t.TempDir()
	case noFolder:
		o.ConfigFolder = ""
	}
	o.Width, o.Height = 1280, 800
	o.Builds = cmp.Or(o.Builds, 500) // counting goes on beside nearly every test, and few are about it
	q := tests[t]
	if q == nil {
		q = roomtest.NewQueue()
		tests[t] = q
	}
	o.Do = q.Do
	if before := windows[t]; before != nil {
		// Two windows are two programs; in one, only one can draw in 3D.
		before.view.Close()
	}
	w, err := newWindow(a, o)
	if err != nil {
		t.Fatal(err)
	}
	windows[t] = w
	w.sides.openFields() // a field that does not show takes no focus
	w.window.Show()
	t.Cleanup(func() {
		w.end()
		_ = w.desk.Release()
		delete(tests, t)
		delete(windows, t)
		roomtest.Drop()
	})
	settle(t)
	return w, &log
}

// until waits for something that happens off the window's goroutine.
func until(t testing.TB, what string, ok func() bool) {
	t.Helper()
	tests[t].Until(t, what, ok)
}

// settle does what is queued.
func settle(t testing.TB) { tests[t].Settle() }

func (w *mainWindow) shownDepth() float64 { return w.change.Result.Settled.Shower.DepthMM }

// shortcutField is what is typed on and hands shortcuts on.
type shortcutField interface {
	typed
	TypedShortcut(fyne.Shortcut)
}

// The window's shortcuts work while a field has the focus, once what was typed
// there is taken.
func TestShortcutsFromFields(t *testing.T) {
	for name, field := range map[string]func(w *mainWindow) shortcutField{
		"number": func(w *mainWindow) shortcutField {
			return into(w, numberField(t, w, "shower.depthMM")).(shortcutField)
		},
		"name": func(w *mainWindow) shortcutField {
			w.sides.open("app.job")
			return w.jobPanel.rows[0].(*tray.TextRow).Entry
		},
		"notes": func(w *mainWindow) shortcutField {
			w.sides.open("app.job")
			return w.jobPanel.rows[1].(*tray.TextRow).Entry
		},
		"list": func(w *mainWindow) shortcutField { return listField(t, w, "water.showerFlowsLPS").Entry },
	} {
		w, log := openWindow(t, Options{})
		e := field(w)
		path := filepath.Join(t.TempDir(), "x.json")
		w.saveTo(path, func() {})
		until(t, "saving", func() bool { return w.change.File == path && !w.change.Unsaved })
		w.window.Canvas().Focus(e)
		typed := map[string]string{"number": "1000", "name": "Smith", "notes": "by the window", "list": "12, 9.5"}[name]
		e.SetText(typed)
		key := func(k fyne.KeyName, shift fyne.KeyModifier) {
			e.TypedShortcut(&desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierShortcutDefault | shift})
		}
		key(fyne.KeyS, 0)
		until(t, name+": saving what was typed", func() bool {
			data, err := os.ReadFile(path)
			want := map[string]string{
				"number": `"depthMM": 1000`, "name": `"name": "Smith"`, "notes": "by the window", "list": `0.158333`,
			}[name]
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

// Choosing a finding moves the cut to its place and opens its details.
func TestFindingMovesTheCut(t *testing.T) {
	w, log := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	until(t, "the job", func() bool { return len(w.answer.Answer().Cards) > 8 })
	f := w.answer.Answer().Cards[1].Worst()
	w.answer.Press(f.Rule.ID)
	if side := w.sight.Cut(w.change.Result).Side(f.Measurement.At); side > 1e-6 || side < -1e-6 {
		t.Errorf("the cut passes %v from the finding", side)
	}
	if w.sight.Mark == nil || w.answer.Details() == "" || !strings.Contains(log.String(), "finding "+f.Rule.ID) {
		t.Error("the finding is not marked, opened or logged")
	}
}

func TestStageSlider(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.stage.GoTo(int(buildup.StageWaste))
	if w.sight.Stage != buildup.StageWaste || w.stage.Name() != "Trap and waste" {
		t.Errorf("stage %v, label %q", w.sight.Stage, w.stage.Name())
	}
}

func TestSaveOpenAndDemos(t *testing.T) {
	w, _ := openWindow(t, Options{})
	enter(w, numberField(t, w, "shower.depthMM"), "1000")
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

// Every panel is laid out for every demo, at both sizes and in both themes.
func TestEveryPanelIsLaidOut(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for i := range w.demos {
		if i > 0 && testing.Short() {
			break // what runs beside the window is the same for each
		}
		w.resetView()
		if err := w.desk.Replace(w.demos[i].Job); err != nil {
			t.Fatal(err)
		}
		until(t, "the demo", func() bool { return w.change.Result.Settled.Name == w.demos[i].Job.Name })
		for _, size := range []fyne.Size{fyne.NewSize(1280, 800), fyne.NewSize(1920, 1080)} {
			w.window.Resize(size)
			large := func(name string, o fyne.CanvasObject) {
				settle(t)
				if s := o.Size(); s.Width < 100 || s.Height < 100 {
					t.Errorf("%s: %s is %v", w.demos[i].File, name, s)
				}
			}
			for k, l := range w.sides.lists {
				w.sides.SelectIndex(k)
				large(w.sides.title(), l.object)
			}
			for k, d := range w.drawings.shown {
				w.drawings.SelectIndex(k)
				large(theme.Word(d.name), d.view)
			}
			large("the picture", w.view)
			large("the answer", w.frame.in(regionAnswer))
			w.toggleTheme()
		}
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
	case *container.Clip:
		each(o.Content, visit)
	case *answer.Plate, *rail.Rail:
		for _, inner := range test.WidgetRenderer(o.(fyne.Widget)).Objects() {
			each(inner, visit)
		}
	case interface{ Inside() []fyne.CanvasObject }:
		for _, inner := range o.Inside() {
			each(inner, visit)
		}
	}
}

// imageIn is the image that a view shows its picture in.
func imageIn(v fyne.Widget) *canvas.Image {
	var found *canvas.Image
	roomtest.EachShown(v, func(o fyne.CanvasObject) {
		if i, ok := o.(*canvas.Image); ok {
			found = i
		}
	})
	return found
}

// noticeIn is the text that a view shows in place of a picture; empty for none.
func noticeIn(v fyne.Widget) string {
	var found string
	roomtest.EachShown(v, func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok {
			found = l.Text
		}
	})
	return found
}

// buttonCalled is the button with a label among an object and all it holds.
func buttonCalled(o fyne.CanvasObject, label string) *widget.Button {
	var found *widget.Button
	each(o, func(o fyne.CanvasObject) {
		if b, ok := o.(*control.ToolButton); ok {
			o = &b.Button
		}
		if b, ok := o.(*widget.Button); ok && b.Text == label {
			found = b
		}
	})
	return found
}

// Light and dark differ, and both paint something.
func TestThemes(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.section.Resize(fyne.NewSize(600, 300))
	mean := func() int {
		img, ok := imageIn(w.section).Image.(*image.RGBA)
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
