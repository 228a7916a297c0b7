package geometry

import (
	"fmt"
	"runtime"
	"sync"
)

// workerFault is what a worker panicked with, and where: raised again on
// another goroutine, its own stack would not tell.
type workerFault struct {
	reason any
	stack  []byte
}

// Error is the reason and the stack.
func (f workerFault) Error() string { return fmt.Sprintf("%v\n%s", f.reason, f.stack) }

// together runs f once on each processor and waits for all. A panic in one of
// them is raised again here, where the caller can recover from it; on a
// goroutine of its own it would end the program.
func together(f func()) {
	var workers sync.WaitGroup
	var once sync.Once
	var fault *workerFault
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			defer func() {
				if reason := recover(); reason != nil {
					stack := make([]byte, 16<<10)
					stack = stack[:runtime.Stack(stack, false)]
					once.Do(func() { fault = &workerFault{reason, stack} })
				}
			}()
			f()
		})
	}
	workers.Wait()
	if fault != nil {
		panic(*fault)
	}
}
