// Package guard keeps a fault in one part of the program from ending the rest
// of it, and the work with it.
package guard

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"underfall/geometry/message"
)

// Fault is a part of the program that ended in a panic.
type Fault struct {
	Part   message.ID // what stopped
	Doing  string     // what it was at, in detail; may be empty
	Reason string     // what the panic said
	// Stack are the calls that led to it, the innermost first, as
	// "function folder/file.go:line".
	Stack []string
}

// Guard runs the parts of the program. A panic in one of them is reported and
// goes no further. What Go itself cannot stop, such as a fault inside the
// graphics driver or a full stack, still ends the program.
type Guard struct {
	report func(Fault)
	probe  func(part message.ID)
}

// New makes a guard. Report is called with every fault, on the goroutine it
// happened on. Probe, nil for none, is called first in every piece of work with
// the name of its part: a test makes a part fail by panicking in it.
func New(report func(Fault), probe func(part message.ID)) *Guard { return &Guard{report, probe} }

// Do runs f here and tells whether it came through. Doing is asked what was
// being done when it did not; nil for no more than the part.
func (g *Guard) Do(part message.ID, doing func() string, f func()) (sound bool) {
	return g.try(part, doing, func() {
		if g.probe != nil {
			g.probe(part)
		}
		f()
	})
}

// try is Do without the probe.
func (g *Guard) try(part message.ID, doing func() string, f func()) (sound bool) {
	defer func() {
		if sound {
			return
		}
		// A goroutine that is ended on purpose panics with nothing.
		if reason := recover(); reason != nil {
			g.tell(part, doing, reason)
		}
	}()
	f()
	return true
}

// Go runs f on a goroutine of its own.
func (g *Guard) Go(part message.ID, f func()) { g.Run(part, f, nil) }

// Run runs f on a goroutine of its own and then, there too, ended with whether
// it came through: what is to be put right after a fault belongs there.
func (g *Guard) Run(part message.ID, f func(), ended func(sound bool)) {
	go func() {
		sound := g.Do(part, nil, f)
		if ended != nil {
			g.try(part, nil, func() { ended(sound) })
		}
	}()
}

// Catch, deferred, keeps a fault of the function that defers it from going
// further: for what the window's own loop calls.
func (g *Guard) Catch(part message.ID) {
	if reason := recover(); reason != nil {
		g.tell(part, nil, reason)
	}
}

// Wrap is f, run under the guard whenever it is called.
func (g *Guard) Wrap(part message.ID, f func()) func() { return func() { g.Do(part, nil, f) } }

// After runs f on a goroutine of its own after a time.
func (g *Guard) After(wait time.Duration, part message.ID, f func()) *time.Timer {
	return time.AfterFunc(wait, g.Wrap(part, f))
}

// Within runs f on a goroutine of its own and waits for it, but no longer than
// the limit: what is done after a fault must not hang where the fault left a lock
// behind. A panic of f is its error.
func Within(limit time.Duration, f func() error) error {
	result := make(chan error, 1)
	go func() {
		defer func() {
			if reason := recover(); reason != nil {
				result <- fmt.Errorf("%v", reason)
			}
		}()
		result <- f()
	}()
	late := time.NewTimer(limit)
	defer late.Stop()
	select {
	case err := <-result:
		return err
	case <-late.C:
		return fmt.Errorf("it took longer than %v", limit)
	}
}

// tell reports; a fault in that must not do the harm that is to be kept off.
func (g *Guard) tell(part message.ID, doing func() string, reason any) {
	fault := Fault{Part: part, Reason: fmt.Sprint(reason), Stack: stack()}
	defer func() {
		if again := recover(); again != nil {
			fmt.Fprintf(os.Stderr, "underfall: %s: %s; reporting it: %v\n", part, fault.Reason, again)
		}
	}()
	if doing != nil {
		fault.Doing = doing()
	}
	g.report(fault)
}

// stack are the calls that led to the panic that is being recovered from.
func stack() []string {
	callers := make([]uintptr, 96)
	frames := runtime.CallersFrames(callers[:runtime.Callers(1, callers)])
	var out []string
	for {
		frame, more := frames.Next()
		if frame.Function == "runtime.gopanic" {
			out = nil // what came before only recovers
		} else if frame.Function != "" {
			out = append(out, fmt.Sprintf("%s %s:%d", frame.Function, place(frame.File), frame.Line))
		}
		if !more {
			return out
		}
	}
}

// place is a source file without the folders it lies in on somebody's computer.
func place(file string) string {
	return filepath.Base(filepath.Dir(file)) + "/" + filepath.Base(file)
}

// withoutHome leaves the user's own folder out of a text.
func withoutHome(s string) string {
	if home, err := os.UserHomeDir(); err == nil && len(home) > 1 {
		return strings.ReplaceAll(s, home, "~")
	}
	return s
}
