package viewer

import (
	"errors"
	"fmt"
	"os"
	"runtime"
	"testing"

	"github.com/g3n/engine/gls"
	"underfall/viewer/trace"
)

// Open gives a renderer on this thread; the test or benchmark is skipped where there is no OpenGL.
func Open(tb testing.TB) *Renderer { return openFor(tb, worthwhile) }

// openFor is Open with the abilities that use chooses.
func openFor(tb testing.TB, use func(able trace.Abilities, software bool) trace.Abilities) *Renderer {
	tb.Helper()
	runtime.LockOSThread()
	r, err := newRendererFor(use)
	if errors.Is(err, ErrNoGraphics) {
		tb.Skipf("no picture to test: %v", err)
	}
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(r.close)
	return r
}

// Close is the renderer's.
func (r *Renderer) Close() { r.close() }

// BuildClasses builds the programs for all classes of materials that a frame has, and gives how many there are by now.
func (r *Renderer) BuildClasses(f Frame) (int, error) {
	for {
		if built, err := r.buildOne(f); !built || err != nil {
			n := 0
			for _, p := range r.classed {
				if p != nil {
					n++
				}
			}
			return n, err
		}
	}
}

// ForgetClasses has the renderer draw all classes of materials with one program again.
func (r *Renderer) ForgetClasses() { r.classed = map[trace.Class]*gls.Program{} }

// ResidentMB is the memory that this process holds, the graphics driver's with it.
func ResidentMB(t *testing.T) float64 {
	t.Helper()
	data, err := os.ReadFile("/proc/self/statm")
	if err != nil {
		t.Skipf("no such figure here: %v", err)
	}
	var all, resident float64
	if _, err := fmt.Sscan(string(data), &all, &resident); err != nil {
		t.Fatal(err)
	}
	return resident * float64(os.Getpagesize()) / (1 << 20)
}
