package app

import (
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"github.com/go-gl/glfw/v3.4/glfw"
)

// waiter has the window's loop wait for what happens while nothing goes on. The toolkit's own looks sixty times a second
// whether anything has happened: what a key does begins only then, and looking takes a good hundredth of a core.
type waiter struct {
	waiting atomic.Bool
	handed  atomic.Int64 // functions handed to the window's goroutine that it has not begun
	painted int          // as often as the window had been painted when this was last looked at
}

const (
	// waitAtMost is how long the loop waits: what the toolkit itself hands over then comes no later.
	waitAtMost = 250 * time.Millisecond
	// stillFor is how long nothing must have been painted before it waits: what moves is painted at every look.
	stillFor = 40 * time.Millisecond
)

// do runs a function on the window's goroutine, which waits no longer.
func (l *waiter) do(f func()) {
	l.handed.Add(1)
	fyne.Do(func() {
		l.handed.Add(-1)
		f()
	})
	if l.waiting.Load() {
		glfw.PostEmptyEvent()
	}
}

// run has the loop of a window wait until the window closes.
func (l *waiter) run(w *mainWindow) {
	for pause := stillFor; ; {
		select {
		case <-w.sight.Closed:
			return
		case <-time.After(pause):
		}
		ended := false
		fyne.DoAndWait(func() { pause, ended = l.wait(w) })
		if ended {
			return
		}
	}
}

// wait waits for something to happen, on the window's goroutine, where the window is shown and still. It tells in how long
// to look again, and whether the loop has ended.
func (l *waiter) wait(w *mainWindow) (again time.Duration, ended bool) {
	if !onFirstThread() { // past the loop's end the toolkit has it run wherever it was handed over
		return 0, true
	}
	still := w.window.Content() == w.main && w.frame.painted == l.painted
	if l.painted = w.frame.painted; !still {
		return stillFor, false
	}
	l.waiting.Store(true)
	defer l.waiting.Store(false)
	if l.handed.Load() > 0 {
		return stillFor, false
	}
	began := time.Now()
	glfw.WaitEventsTimeout(waitAtMost.Seconds())
	if time.Since(began) < waitAtMost {
		return stillFor, false
	}
	return 0, false
}
