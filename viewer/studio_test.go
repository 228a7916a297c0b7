package viewer_test

import (
	"bytes"
	"context"
	"errors"
	"image"
	"os"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"underfall/app/guard"
	"underfall/geometry/assembly"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/viewer"
)

// openStudio opens a studio whose faults and end are put into lists; the test is
// skipped where there is no OpenGL.
func openStudio(t *testing.T, probe func(part message.ID)) (s *viewer.Studio, faults func() []guard.Fault, failed chan error) {
	t.Helper()
	var mu sync.Mutex
	var all []guard.Fault
	g := guard.New(func(f guard.Fault) { mu.Lock(); all = append(all, f); mu.Unlock() }, probe)
	failed = make(chan error, 1)
	s = viewer.OpenStudio(g, func(err error) { failed <- err })
	t.Cleanup(s.Close)
	drawn := make(chan struct{})
	s.Live(viewer.Picture{Step: func(*viewer.Renderer) (bool, error) { close(drawn); return false, nil }})
	select {
	case <-drawn:
	case err := <-failed:
		t.Skipf("no picture to test: %v", err)
	}
	return s, func() []guard.Fault { mu.Lock(); defer mu.Unlock(); return append([]guard.Fault(nil), all...) }, failed
}

// keep gives the pictures of a call of Stills.
func keep(to *[]*image.RGBA) func(int, *image.RGBA) error {
	return func(_ int, img *image.RGBA) error { *to = append(*to, img); return nil }
}

// A still that is drawn in slices between live pictures is the still drawn at
// once, to the last bit; both used to share OpenGL's functions, which each new
// picture loaded anew under the other's hands.
func TestStillsBetweenLivePictures(t *testing.T) {
	res := demotest.Results(t)[0]
	f := frame(res, viewer.ViewCut, 320, 210) // many steps of paths
	moving := frame(demotest.Results(t)[1], viewer.ViewCorner, 60, 40)
	var want []*image.RGBA
	func() {
		r := viewer.Open(t)
		defer r.Close()
		img, _, err := r.Refine(f, 0, 2, true)
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, img)
	}()
	s, faults, _ := openStudio(t, nil)
	var drawn atomic.Int64
	const inRow = 8 // go before each slice, as they never rest: whatever draws, one of them has a picture to draw
	step := 0
	s.Live(viewer.Picture{Step: func(r *viewer.Renderer) (bool, error) {
		if step++; step%inRow != 0 {
			return true, nil
		}
		drawn.Add(1)
		moving.Camera = moving.Camera.Orbit(0.1, 0)
		_, err := r.Draw(moving)
		return true, err
	}})
	var got []*image.RGBA
	last := 0.0
	err := s.Stills(context.Background(), []viewer.Frame{f}, 2, func(share float64) {
		if share < last || share > 1 {
			t.Errorf("progress goes from %v to %v", last, share)
		}
		last = share
	}, keep(&got))
	if err != nil || len(got) != 1 || last != 1 {
		t.Fatalf("%d pictures, progress %v, %v", len(got), last, err)
	}
	if !bytes.Equal(got[0].Pix, want[0].Pix) {
		worst, _, at, _ := differ(got[0], want[0])
		t.Errorf("the still differs by %v at %v", worst, at)
	}
	const fewest = 48 // each pass over the room's light before it is good to be shown is a slice at least
	if drawn.Load() < fewest || len(faults()) > 0 {
		t.Errorf("%d live pictures, faults %v", drawn.Load(), faults())
	}
}

// Live pictures go first, but a still comes along while the view never rests.
func TestLiveGoesFirst(t *testing.T) {
	s, _, _ := openStudio(t, nil)
	var steps atomic.Int64
	s.Live(viewer.Picture{Step: func(*viewer.Renderer) (bool, error) { steps.Add(1); return true, nil }})
	var got []*image.RGBA
	// Four slices of samples and one that shows them.
	if err := s.Stills(context.Background(), []viewer.Frame{frame(demotest.Results(t)[0], viewer.ViewCorner, 40, 30)}, 4, nil, keep(&got)); err != nil || len(got) != 1 {
		t.Fatalf("%d pictures, %v", len(got), err)
	}
	if n := steps.Load(); n < 4*8 {
		t.Errorf("%d live steps went before five slices", n)
	}
}

// Stopped, a picture ends; the studio draws on.
func TestStopAStill(t *testing.T) {
	s, _, _ := openStudio(t, nil)
	f := frame(demotest.Results(t)[0], viewer.ViewCorner, 40, 30)
	ctx, cancel := context.WithCancel(context.Background())
	var got []*image.RGBA
	err := s.Stills(ctx, viewer.Turntable(f, 5), 20, func(float64) { cancel() }, keep(&got))
	if !errors.Is(err, context.Canceled) || len(got) > 0 {
		t.Errorf("%d pictures, %v", len(got), err)
	}
	if err := s.Stills(context.Background(), []viewer.Frame{f}, 1, nil, keep(&got)); err != nil || len(got) != 1 {
		t.Errorf("after it %d pictures, %v", len(got), err)
	}
}

// A lost context is opened anew: the live picture and the still begin again. One
// that is lost over and over is given up, and everybody is told.
func TestLostContext(t *testing.T) {
	s, _, failed := openStudio(t, nil)
	f := frame(demotest.Results(t)[0], viewer.ViewCorner, 40, 30)
	lost := func(times int, then chan struct{}) viewer.Picture {
		return viewer.Picture{Step: func(r *viewer.Renderer) (bool, error) {
			if times--; times >= 0 {
				return false, viewer.ErrLost
			}
			_, err := r.Draw(f)
			close(then)
			return false, err
		}}
	}
	for range 2 { // each time anew, as a picture came out between
		drawn := make(chan struct{})
		s.Live(lost(3, drawn))
		var got []*image.RGBA
		if err := s.Stills(context.Background(), []viewer.Frame{f}, 3, nil, keep(&got)); err != nil || len(got) != 1 {
			t.Fatalf("%d pictures, %v", len(got), err)
		}
		<-drawn
	}
	s.Live(lost(100, nil))
	if err := <-failed; !errors.Is(err, viewer.ErrLost) {
		t.Errorf("given up with %v", err)
	}
	if err := s.Stills(context.Background(), []viewer.Frame{f}, 1, nil, keep(new([]*image.RGBA))); !errors.Is(err, viewer.ErrLost) {
		t.Errorf("a picture after that: %v", err)
	}
}

// A fault in a picture is told with what was drawn, and the next picture is
// drawn; it used to end the program. One that never ends is given up.
func TestFaultInAPicture(t *testing.T) {
	s, faults, failed := openStudio(t, nil)
	f := frame(demotest.Results(t)[0], viewer.ViewCorner, 40, 30)
	breaks := viewer.Picture{Doing: func() string { return "the lamp" }, Step: func(*viewer.Renderer) (bool, error) { panic("it broke") }}
	const noStage = 99
	bad := f
	bad.Stage, bad.Look = noStage, viewer.LookTechnical
	bad.Scene = &viewer.Scene{Bodies: append([]viewer.Body{{Part: assembly.Part{Stage: noStage}}}, f.Scene.Bodies...)}
	var got []*image.RGBA
	if err := s.Stills(context.Background(), []viewer.Frame{bad}, 1, nil, keep(&got)); !errors.Is(err, viewer.ErrFault) {
		t.Errorf("a still with a fault gives %v", err)
	}
	s.Live(breaks)
	if err := s.Stills(context.Background(), []viewer.Frame{f}, 1, nil, keep(&got)); err != nil || len(got) != 1 {
		t.Errorf("after it %d pictures, %v", len(got), err)
	}
	told := faults()
	if len(told) != 2 || told[0].Part != viewer.PartStill || !strings.Contains(told[0].Doing, "stage 99") || told[1].Part != viewer.PartLive || told[1].Doing != "the lamp" {
		t.Fatalf("told %+v", told)
	}
	// Each uses a renderer up.
	for n := 1; n <= 4; n++ {
		select {
		case err := <-failed:
			t.Fatalf("given up after %d faults in a row: %v", n-1, err)
		default:
		}
		s.Live(breaks)
		eventually(t, "the fault", func() bool { return len(faults()) == len(told)+n })
	}
	if err := <-failed; !errors.Is(err, viewer.ErrFault) {
		t.Errorf("given up with %v", err)
	}
}

// eventually waits for what another goroutine brings about.
func eventually(t *testing.T, what string, ok func() bool) {
	t.Helper()
	for range 4000 {
		if ok() {
			return
		}
		time.Sleep(2 * time.Millisecond)
	}
	t.Fatalf("%s did not happen", what)
}

// Pictures that cannot be written leave nothing behind, nor does a closed
// studio: no goroutine, no thread. Each picture used to open a context of its
// own.
func TestFailedPicturesLeaveNothing(t *testing.T) {
	threads := func() int {
		entries, err := os.ReadDir("/proc/self/task")
		if err != nil {
			t.Skip(err)
		}
		return len(entries)
	}
	before := runtime.NumGoroutine()
	s, _, _ := openStudio(t, nil)
	f := frame(demotest.Results(t)[0], viewer.ViewCorner, 24, 16)
	full := errors.New("the disk is full")
	fail := func() {
		if err := s.Stills(context.Background(), []viewer.Frame{f}, 1, nil, func(int, *image.RGBA) error { return full }); !errors.Is(err, full) {
			t.Fatal(err)
		}
	}
	fail()
	goroutines, first := runtime.NumGoroutine(), threads()
	for range 50 {
		fail()
	}
	if n := runtime.NumGoroutine(); n > goroutines {
		t.Errorf("50 failed pictures leave %d goroutines", n-goroutines)
	}
	if n := threads(); n > first+4 { // Go starts a few of its own
		t.Errorf("50 failed pictures leave %d threads", n-first)
	}
	s.Close()
	eventually(t, "the end of the studio's goroutine", func() bool { return runtime.NumGoroutine() <= before })
}

// Closing ends whoever waits, and whoever comes later.
func TestCloseTurnsAway(t *testing.T) {
	s, _, _ := openStudio(t, nil)
	f := frame(demotest.Results(t)[0], viewer.ViewCorner, 40, 30)
	begun, result := make(chan struct{}), make(chan error, 1)
	var once sync.Once
	go func() {
		result <- s.Stills(context.Background(), []viewer.Frame{f}, 1<<20, func(float64) { once.Do(func() { close(begun) }) }, keep(new([]*image.RGBA)))
	}()
	<-begun
	s.Close()
	if err := <-result; !errors.Is(err, viewer.ErrClosed) {
		t.Errorf("who waits hears %v", err)
	}
	if err := s.Stills(context.Background(), []viewer.Frame{f}, 1, nil, keep(new([]*image.RGBA))); !errors.Is(err, viewer.ErrClosed) {
		t.Errorf("who comes later hears %v", err)
	}
	s.Close() // once more does nothing
}
