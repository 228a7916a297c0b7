package app

import (
	"runtime"
	"testing"
	"time"
	"weak"
)

// A window that was closed leaves memory: what the toolkit remembers of fields, drawings and texts does not lead to it, and
// nothing that ran beside it holds it.
func TestAClosedWindowLeavesMemory(t *testing.T) {
	var closed []weak.Pointer[mainWindow]
	for range 2 { // the toolkit holds on to the latest
		t.Run("open", func(t *testing.T) {
			w, _ := openWindow(t, Options{File: "../assets/demos/9-level-entry.json"})
			until(t, "the result", func() bool { return !w.replaced })
			w.window.Canvas().Capture()
			enter(w, numberField(t, w, "former.slope"), "1:50")
			settle(t)
			w.window.Canvas().Capture()
			closed = append(closed, weak.Make(w))
		})
	}
	for range 100 {
		runtime.GC()
		if closed[0].Value() == nil {
			return
		}
		time.Sleep(50 * time.Millisecond) // what runs beside it ends
	}
	t.Error("a closed window stays in memory")
}
