package app

import (
	"image"
	"runtime"
	"sync"
	"time"

	"underfall/geometry"
	"underfall/geometry/build"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// wish is the picture somebody wants: values only, so that it can go to
// another goroutine.
type wish struct {
	result     geometry.Result
	generation int // counts results
	cut        *solid.Cut
	stage      build.Stage
	camera     viewer.Camera
	look       viewer.Look
	dark       bool
	chosen     string
	width      int
	height     int
	moving     bool
}

// samplesAtRest is how often a picture at rest is refined.
const samplesAtRest = 24

// engine draws wishes on a goroutine of its own, bound to one thread as OpenGL
// asks. Only the newest wish counts.
type engine struct {
	mu     sync.Mutex
	want   *wish
	wake   chan struct{}
	stop   chan struct{}
	show   func(*image.RGBA, *viewer.Scene)
	failed func(error)
}

// startEngine opens the context and draws until stopped. Show is called from
// the engine's goroutine with each picture; failed once when there is no 3D.
func startEngine(show func(*image.RGBA, *viewer.Scene), failed func(error)) *engine {
	e := &engine{wake: make(chan struct{}, 1), stop: make(chan struct{}), show: show, failed: failed}
	go e.loop()
	return e
}

func (e *engine) ask(w wish) {
	e.mu.Lock()
	e.want = &w
	e.mu.Unlock()
	select {
	case e.wake <- struct{}{}:
	default:
	}
}

func (e *engine) close() { close(e.stop) }

// take gives the newest wish, or nil.
func (e *engine) take() *wish {
	e.mu.Lock()
	defer e.mu.Unlock()
	w := e.want
	e.want = nil
	return w
}

func (e *engine) pending() bool {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.want != nil
}

// quickShare adapts the size of moving pictures so that they come at 20 a
// second or more.
type quickShare struct{ share float64 }

func (q *quickShare) adapt(took time.Duration) {
	switch {
	case took > 42*time.Millisecond:
		q.share = max(0.35, q.share*0.8)
	case took < 20*time.Millisecond:
		q.share = min(1, q.share*1.12)
	}
}

func (e *engine) loop() {
	runtime.LockOSThread()
	r, err := viewer.NewRenderer()
	if err != nil {
		e.failed(err)
		return
	}
	defer r.Close()
	share := quickShare{0.7}
	var scene *viewer.Scene
	var caps *viewer.Caps
	generation, capsFor := -1, wish{}
	for {
		select {
		case <-e.stop:
			return
		case <-e.wake:
		}
		w := e.take()
		if w == nil || len(w.result.Problems) > 0 {
			continue
		}
		if w.generation != generation {
			scene, generation = viewer.NewScene(w.result), w.generation
		}
		if w.cut == nil {
			caps = nil
		} else if caps == nil || capsFor.generation != w.generation || capsFor.stage != w.stage || *capsFor.cut != *w.cut {
			const hatchMM = 11
			caps = viewer.NewCaps(w.result, *w.cut, w.stage, hatchMM)
		}
		capsFor = *w
		f := viewer.Frame{Scene: scene, Caps: caps, Camera: w.camera, Stage: w.stage, Look: w.look, Dark: w.dark, Chosen: w.chosen, Width: w.width, Height: w.height}
		if w.moving {
			f.Width, f.Height = max(1, int(float64(w.width)*share.share)), max(1, int(float64(w.height)*share.share))
			start := time.Now()
			picture, err := r.Draw(f, true)
			share.adapt(time.Since(start))
			if err == nil {
				e.show(picture, scene)
			}
			continue
		}
		e.refine(r, f, scene)
	}
}

// refine shows a picture at rest at once, then better and better ones until
// something else is wanted.
func (e *engine) refine(r *viewer.Renderer, f viewer.Frame, scene *viewer.Scene) {
	if picture, err := r.Draw(f, true); err == nil {
		e.show(picture, scene)
	}
	for n := 1; n <= samplesAtRest && !e.pending(); n++ {
		select {
		case <-e.stop:
			return
		default:
		}
		picture, samples, err := r.Refine(f)
		if err != nil {
			return
		}
		// A few good steps rather than a flicker of many.
		if samples == 4 || samples == 10 || samples == samplesAtRest {
			e.show(picture, scene)
		}
	}
}
