package app

import "sync"

// together hands functions to the window's goroutine so that all that wait are run at once: each
// handed over by itself may have the window painted between it and the next.
type together struct {
	post func(func()) // runs a function on the window's goroutine, in order

	mu      sync.Mutex
	waiting []func()
}

// do has a function run; those before it have been by then.
func (t *together) do(f func()) {
	t.mu.Lock()
	t.waiting = append(t.waiting, f)
	first := len(t.waiting) == 1
	t.mu.Unlock()
	if first {
		t.post(t.run)
	}
}

// run runs all that wait. What they hand over themselves waits for the next time.
func (t *together) run() {
	t.mu.Lock()
	all := t.waiting
	t.waiting = nil
	t.mu.Unlock()
	for _, f := range all {
		f()
	}
}
