package app

import (
	"errors"
	"image"
	"runtime"
	"sync"
	"time"

	"underfall/app/paint"
	"underfall/geometry"
	"underfall/geometry/build"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// wish is the picture somebody wants: values only, so that it can go to
// another goroutine.
type wish struct {
	result     geometry.Result
	generation int // counts results
	cuts       []solid.Cut
	// frame is all but its scene and caps.
	frame  viewer.Frame
	moving bool
	// style is that of the dimensions drawn in space; nil for none.
	style *paint.Style
	// other is a second result to show beside the first, from the share of the
	// width on where it begins; nil for none.
	other           *geometry.Result
	otherGeneration int
	divide          float64
}

// Samples of a picture at rest, and how long refining may take where no
// graphics card draws.
const (
	samplesSoftware = 24
	samplesCard     = 96
	refineMost      = 2 * time.Second
)

// engine draws wishes on a goroutine of its own, bound to one thread as OpenGL
// asks. Only the newest wish counts.
type engine struct {
	mu      sync.Mutex
	want    *wish
	wake    chan struct{}
	stop    chan struct{}
	show    func(*image.RGBA, viewer.Frame)
	failed  func(error)
	painter *paint.Painter
	// broken makes the next picture fail as a lost context does; for tests.
	broken bool
}

// startEngine opens the context and draws until stopped. Show is called from
// the engine's goroutine with each picture and what it is of; failed when there
// is no 3D.
func startEngine(painter *paint.Painter, show func(*image.RGBA, viewer.Frame), failed func(error)) *engine {
	e := &engine{wake: make(chan struct{}, 1), stop: make(chan struct{}), painter: painter, show: show, failed: failed}
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

// quickShare adapts the size of moving pictures so that they come at 25 a
// second or more.
type quickShare struct{ share float64 }

func (q *quickShare) adapt(took time.Duration) {
	switch {
	case took > 34*time.Millisecond:
		q.share = max(0.35, q.share*0.82)
	case took < 18*time.Millisecond:
		q.share = min(1, q.share*1.12)
	}
}

// mostRestarts is how often a lost context is opened anew before 3D is given
// up.
const mostRestarts = 3

func (e *engine) loop() {
	runtime.LockOSThread()
	for restart := 0; ; restart++ {
		r, err := viewer.NewRenderer()
		if err != nil {
			e.failed(err)
			return
		}
		err = e.serve(r)
		r.Close()
		if err == nil {
			return
		}
		if restart == mostRestarts {
			e.failed(err)
			return
		}
	}
}

// drawn is a result made ready for drawing, kept while it stays the same.
type drawn struct {
	generation int
	scene      *viewer.Scene
	caps       *viewer.Caps
	capsFor    wish
}

// ready brings scene and caps to a wish.
func (d *drawn) ready(w *wish, r geometry.Result, generation int) (*viewer.Scene, *viewer.Caps) {
	fresh := d.scene == nil || generation != d.generation
	if fresh {
		d.scene, d.generation = viewer.NewScene(r, d.scene), generation
	}
	if len(w.cuts) == 0 {
		d.caps = nil
	} else if fresh || d.caps == nil || d.capsFor.frame.Stage != w.frame.Stage || !sameCuts(d.capsFor.cuts, w.cuts) {
		d.caps = viewer.NewCaps(r, w.frame.Stage, viewer.HatchMM, w.cuts...)
	}
	d.capsFor = *w
	return d.scene, d.caps
}

func sameCuts(a, b []solid.Cut) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// serve draws until stopped; an error means that the context is lost.
func (e *engine) serve(r *viewer.Renderer) error {
	share := quickShare{0.7}
	var first, second drawn
	for {
		select {
		case <-e.stop:
			return nil
		case <-e.wake:
		}
		w := e.take()
		if w == nil || len(w.result.Problems) > 0 {
			continue
		}
		f := w.frame
		f.Scene, f.Caps = first.ready(w, w.result, w.generation)
		frames := []viewer.Frame{f}
		if w.other != nil {
			g := w.frame
			g.Scene, g.Caps = second.ready(w, *w.other, w.otherGeneration)
			frames = append(frames, g)
		}
		err := e.picture(r, w, frames, &share)
		e.mu.Lock()
		if e.broken {
			e.broken, err = false, viewer.ErrLost
		}
		e.mu.Unlock()
		if errors.Is(err, viewer.ErrLost) {
			// Ask for the same picture of the next context.
			if !e.pending() {
				e.ask(*w)
			}
			return err
		}
	}
}

// picture draws a wish: once while something moves, else better and better.
func (e *engine) picture(r *viewer.Renderer, w *wish, frames []viewer.Frame, share *quickShare) error {
	if w.moving {
		small := append([]viewer.Frame(nil), frames...)
		for i := range small {
			small[i].Width, small[i].Height = max(1, int(float64(w.frame.Width)*share.share)), max(1, int(float64(w.frame.Height)*share.share))
		}
		start := time.Now()
		img, err := e.each(w, small, func(_ int, f viewer.Frame) (*image.RGBA, error) { return r.Draw(f, true) })
		share.adapt(time.Since(start))
		if err == nil {
			e.show(img, frames[0])
		}
		return err
	}
	img, err := e.each(w, frames, func(_ int, f viewer.Frame) (*image.RGBA, error) { return r.Draw(f, true) })
	if err != nil {
		return err
	}
	e.show(img, frames[0])
	most, start := samplesCard, time.Now()
	if r.Software() {
		most = samplesSoftware
	}
	// Shown after 2, 6, 14, 30 ... samples: a few good steps rather than a
	// flicker of many.
	done := 0
	for step := 2; done < most && !e.pending(); step *= 2 {
		select {
		case <-e.stop:
			return nil
		default:
		}
		step = min(step, most-done)
		late := false
		for range step - 1 {
			if e.pending() {
				return nil
			}
			for i, f := range frames {
				if _, _, err := r.Refine(f, i, 1, false); err != nil {
					return err
				}
			}
			done++
			if late = r.Software() && time.Since(start) > refineMost; late {
				break
			}
		}
		img, err := e.each(w, frames, func(i int, f viewer.Frame) (*image.RGBA, error) {
			img, _, err := r.Refine(f, i, 1, true)
			return img, err
		})
		if err != nil {
			return err
		}
		done++
		e.show(img, frames[0])
		if late {
			return nil
		}
	}
	return nil
}

// inSpace are the sections on the cut planes as a camera sees them: of two, only
// what shows where they meet.
func inSpace(r geometry.Result, stage build.Stage, c viewer.Camera, cuts []solid.Cut, width, height int) []paint.Overlay {
	var out []paint.Overlay
	for i, cut := range cuts {
		d := section.Of(r, cut, stage)
		if len(cuts) > 1 {
			d = d.Within(cuts[1-i])
		}
		out = append(out, paint.Overlay{Drawing: d, To: viewer.InSpace{Camera: c, Cut: cut, Width: width, Height: height}})
	}
	return out
}

// each draws the frames and puts them together: the second beside the first,
// and the dimensions over them.
func (e *engine) each(w *wish, frames []viewer.Frame, draw func(int, viewer.Frame) (*image.RGBA, error)) (*image.RGBA, error) {
	img, err := draw(0, frames[0])
	if err != nil {
		return nil, err
	}
	if len(frames) > 1 {
		other, err := draw(1, frames[1])
		if err != nil {
			return nil, err
		}
		from := int(w.divide * float64(img.Rect.Dx()))
		for y := range img.Rect.Dy() {
			copy(img.Pix[y*img.Stride+4*from:(y+1)*img.Stride], other.Pix[y*other.Stride+4*from:(y+1)*other.Stride])
		}
	}
	if w.style != nil && len(w.cuts) > 0 && w.frame.Apart == 0 {
		s := *w.style
		s.Scale *= float64(frames[0].Width) / float64(w.frame.Width)
		e.painter.Annotate(img, s, inSpace(w.result, w.frame.Stage, w.frame.Camera, w.cuts, img.Rect.Dx(), img.Rect.Dy())...)
	}
	for _, f := range frames {
		if words := f.Fault(); words != "" {
			e.painter.Say(img, newLook(w.frame.Dark).paintStyle(1, w.result.Job.Units, ""), words)
			break
		}
	}
	return img, nil
}
