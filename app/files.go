package app

import (
	"errors"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"underfall/assets"
	"underfall/geometry/job"
)

func (w *mainWindow) openDemo(i int) {
	w.unlessUnsaved(func() {
		w.resetView()
		w.desk.Replace(w.demos[i].Job, "")
	})
}

// resetView makes ready for another job.
func (w *mainWindow) resetView() {
	w.replaced = true
	w.scope.offsetMM, w.scope.chosen, w.scope.mark = 0, "", nil
	w.inputs.wall, w.inputs.door = 0, 0
}

// unlessUnsaved asks before unsaved work is left behind.
func (w *mainWindow) unlessUnsaved(f func()) {
	if !w.change.Unsaved {
		f()
		return
	}
	dialog.ShowConfirm(text("Unsaved work"), text("This job has changes that are not saved. Leave them?"), func(yes bool) {
		if yes {
			f()
		}
	}, w.window)
}

const extension = ".json"

func (w *mainWindow) open() {
	w.unlessUnsaved(func() {
		d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
			if err != nil || f == nil {
				return
			}
			path := f.URI().Path()
			_ = f.Close()
			w.openFile(path)
		}, w.window)
		d.SetFilter(storage.NewExtensionFileFilter([]string{extension}))
		d.Show()
	})
}

func (w *mainWindow) openFile(path string) {
	w.resetView()
	if err := w.desk.Open(path); err != nil {
		w.replaced = false
		dialog.ShowError(err, w.window)
		return
	}
	w.log("opened %s", path)
}

func (w *mainWindow) save() {
	if w.change.File == "" {
		w.saveAs()
		return
	}
	w.saveFile(w.change.File)
}

func (w *mainWindow) saveAs() {
	d := dialog.NewFileSave(func(f fyne.URIWriteCloser, err error) {
		if err != nil || f == nil {
			return
		}
		path := f.URI().Path()
		_ = f.Close()
		w.saveFile(path)
	}, w.window)
	d.SetFileName("shower.underfall.json")
	d.Show()
}

func (w *mainWindow) saveFile(path string) {
	if err := w.desk.Save(path); err != nil {
		dialog.ShowError(err, w.window)
		return
	}
	w.log("saved %s", path)
}

func (w *mainWindow) offerRecovered(j job.Job) {
	dialog.ShowConfirm(text("Unsaved work was found"), textf("“%s” was not saved when Underfall last ended. Bring it back?", j.Name), func(yes bool) {
		if yes {
			w.resetView()
			w.desk.Replace(demoOr(w.demos, j), "")
			w.desk.Edit(func(job.Job) job.Job { return j })
		}
	}, w.window)
}

// demoOr is a job to start the history with, so that a recovered job counts as
// unsaved.
func demoOr(demos []assets.Demo, j job.Job) job.Job {
	if len(demos) > 0 {
		return demos[0].Job
	}
	return j
}

// keepEvery is how often unsaved work is kept beside.
const keepEvery = 5 * time.Second

func (w *mainWindow) keepLoop() {
	if w.folder == "" {
		return
	}
	go func() {
		for range time.Tick(keepEvery) {
			if err := w.desk.Keep(w.folder); err != nil {
				w.scope.do(func() { w.say(err.Error(), true) })
			}
		}
	}()
}

func (w *mainWindow) close() {
	w.unlessUnsaved(func() {
		if err := os.Remove(filepath.Join(w.folder, "unsaved.underfall.json")); err != nil && !errors.Is(err, os.ErrNotExist) {
			w.log("%v", err)
		}
		w.view.engine.close()
		w.window.Close()
	})
}
