package app

import "sync"

// latest runs one task at a time off the window's goroutine; while one runs,
// only the newest of the others waits.
type latest struct {
	mu      sync.Mutex
	next    func()
	running bool
}

func (l *latest) run(task func()) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.next = task
	if l.running {
		return
	}
	l.running = true
	go func() {
		for {
			l.mu.Lock()
			task := l.next
			l.next = nil
			if task == nil {
				l.running = false
				l.mu.Unlock()
				return
			}
			l.mu.Unlock()
			task()
		}
	}()
}
