package guard

import (
	"sync"

	"underfall/geometry/message"
)

// Latest runs one task at a time off the window's goroutine; while one runs,
// only the newest of the others waits. A task that breaks does not keep the next
// from running.
type Latest struct {
	guard *Guard
	part  message.ID // what its tasks are called when one breaks

	mu      sync.Mutex
	next    func()
	running bool
}

// NewLatest makes one for tasks that are called a part when one breaks.
func (g *Guard) NewLatest(part message.ID) *Latest { return &Latest{guard: g, part: part} }

// Run runs a task, or has it wait in the place of the one that waits.
func (l *Latest) Run(task func()) {
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
func (l *Latest) start(task func()) {
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

// Idle tells whether all that was asked for is done.
func (l *Latest) Idle() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return !l.running
}
