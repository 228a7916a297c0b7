package app

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"underfall/app/desk"
	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// begin puts a job on the desk that has no file yet.
func (w *mainWindow) begin(j job.Job) {
	w.unlessUnsaved(func() {
		w.resetView()
		w.complain(w.desk.Replace(j, ""))
	})
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
	if err := w.desk.Open(path); err != nil {
		dialog.ShowError(err, w.window)
		return
	}
	w.resetView()
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
	w.complain(w.desk.Keep(w.folder)) // which lets the kept copy go
	w.log("saved %s", path)
}

func (w *mainWindow) offerRecovered(j job.Job) {
	dialog.ShowConfirm(text("Unsaved work was found"), textf("“%s” was not saved when Underfall last ended. Bring it back?", j.Name), func(yes bool) {
		if !yes {
			w.complain(desk.Discard(w.folder))
			return
		}
		// On top of a demo, so that it counts as unsaved.
		w.resetView()
		w.complain(w.desk.Replace(w.demos[0].Job, ""))
		w.desk.Do(edit.Replace("Work brought back", j))
		w.complain(w.desk.Keep(w.folder))
	}, w.window)
}

// complain shows an error, when there is one, where messages go.
func (w *mainWindow) complain(err error) {
	if err != nil {
		w.say(err.Error(), true)
	}
}

// keepEvery is how often unsaved work is kept beside.
const keepEvery = 5 * time.Second

func (w *mainWindow) keepLoop() {
	w.keepEnded = make(chan struct{})
	w.guard.Run(partKeeping, func() {
		if w.folder == "" {
			return
		}
		tick := time.NewTicker(keepEvery)
		defer tick.Stop()
		for {
			select {
			case <-w.scope.closed:
				return
			case <-tick.C:
				w.guard.Do(partKeeping, nil, func() {
					err := w.desk.Keep(w.folder)
					w.scope.do(func() { w.complain(err) })
				})
			}
		}
	}, func(bool) { close(w.keepEnded) })
}

func (w *mainWindow) close() {
	w.unlessUnsaved(func() {
		w.end()
		if err := w.desk.Release(w.folder); err != nil {
			w.log("%v", err)
		}
		w.window.Close()
	})
}

// end ends all that goes on by itself. It waits for what must not go on: the
// drawing, and the keeping of work that may be meant to be left behind.
func (w *mainWindow) end() {
	w.ending.Do(func() {
		close(w.scope.closed)
		w.chances.stop()
		w.runs.stop()
		if w.panelsWait != nil {
			w.panelsWait.Stop()
		}
		w.view.close()
		<-w.keepEnded
	})
}
