package app

import (
	"image"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// A window that goes in the middle of what takes long leaves nothing going on, no file that is half a picture, and its work kept:
// while the light of a room is followed for a picture, while ways for the waste are looked for, while a still is drawn.
func TestAWindowGoesInTheMiddle(t *testing.T) {
	first := withPicture(t) // what the toolkit starts once stays
	first.end()
	settled := runtime.NumGoroutine()
	for range 20 {
		time.Sleep(10 * time.Millisecond)
		settled = min(settled, runtime.NumGoroutine())
	}
	settled++ // each part of the test runs beside this
	for name, begin := range map[string]func(w *mainWindow, still string){
		"the light": func(w *mainWindow, _ string) { w.openShowroom() },
		"a search":  func(w *mainWindow, _ string) { w.runs.Begin() },
		"a still": func(w *mainWindow, still string) {
			w.drawPictures(w.view.Shot(image.Pt(1600, 1200), false, true), still)
		},
	} {
		t.Run(name, func(t *testing.T) {
			config, still := t.TempDir(), filepath.Join(t.TempDir(), "still.png")
			w, _ := openWindow(t, Options{ConfigFolder: config})
			w.frame.bring(regionPicture)
			w.view.Resize(fyne.NewSize(420, 300))
			until(t, "the picture", w.view.Drawn)
			deepen(t, w, 1000)
			begin(w, still)
			w.desk.Do(edit.Of(message.Of("edit.test-depth"), func(j *job.Job) { j.Shower.DepthMM = 1030 }))
			if runtime.NumGoroutine() <= settled {
				t.Fatal("nothing goes on")
			}
			w.end()
			until(t, "the end of what went on", func() bool { return runtime.NumGoroutine() <= settled })
			if _, err := os.Stat(still); err == nil {
				t.Error("half a picture is written")
			}
			kept, err := filepath.Glob(filepath.Join(config, "kept", "*.json"))
			if err != nil || len(kept) != 1 {
				t.Fatalf("kept are %q, %v", kept, err)
			}
			if data, err := os.ReadFile(kept[0]); err != nil || !strings.Contains(string(data), "1030") {
				t.Errorf("the last edit is not kept: %v", err)
			}
		})
	}
}
