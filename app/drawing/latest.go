package drawing

import (
	"sync"

	"underfall/app/guard"
	"underfall/geometry/message"
)

// latest runs one task at a time off the window's goroutine; while one runs,
// only the newest of the others waits. A task that breaks does not keep the next
// from running.
type latest struct {
	guard *guard.Guard
	part  message.ID // what its tasks are called when one breaks

	mu      sync.Mutex
	next    func()
	running bool
}

func (l *latest) run(task func()) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.running {
		l.next = task
		return
	}
	l.start(task)
}

// start runs a task and then the newest that came meanwhile. The lock must be
// held.
func (l *latest) start(task func()) {
	l.running = true
	l.guard.Run(l.part, task, func(bool) {
		l.mu.Lock()
		defer l.mu.Unlock()
		l.running = false
		if next := l.next; next != nil {
			l.next = nil
			l.start(next)
		}
	})
}

// idle tells whether all that was asked for is done.
func (l *latest) idle() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return !l.running
}
