package viewer

import (
	"errors"
	"fmt"
	"runtime"
	"sync"

	"github.com/go-gl/gl/v3.3-core/gl"
	"underfall/geometry/message"
)

// Guard runs parts of the program so that a panic in one of them is reported and
// goes no further.
type Guard interface {
	// Do runs f here and tells whether it came through; doing is asked what was
	// being done when it did not, nil for no more than the part.
	Do(part message.ID, doing func() string, f func()) (sound bool)
	// Run runs f on a goroutine of its own, and then ended with whether it came
	// through.
	Run(part message.ID, f func(), ended func(sound bool))
}

// Studio is where every picture is drawn. It owns one goroutine bound to its
// thread, as OpenGL asks, with one context on it; whoever wants a picture hands
// it work. Live pictures go first; stills are drawn in slices between them. A
// lost context is opened anew.
//
// OpenGL's functions are kept in variables of the whole program, so only one
// studio may be open at a time. All methods may be called from any goroutine.
type Studio struct {
	guard  Guard
	failed func(error)
	awake  chan struct{}
	quit   chan struct{}
	ended  chan struct{}
	close  sync.Once

	mu     sync.Mutex
	live   *Picture
	inRow  int // live steps since the last slice of a still
	stills []*still
	off    error // why nothing is drawn any more; nil while it is
}

// Picture is a live picture: it is drawn once or better and better, until
// another takes its place.
type Picture struct {
	// Step draws on the studio's goroutine and tells whether there is more to
	// draw. When it gave ErrLost it is called again with another renderer, and
	// must begin again. Its other errors end the picture.
	Step func(r *Renderer) (more bool, err error)
	// Doing says what is drawn, for the report of a fault; nil for nothing.
	Doing func() string
}

// Parts of the program, as a fault in them is told.
const (
	PartLive  message.ID = "fault.3d-picture"
	PartStill message.ID = "fault.taking-picture"
)

var (
	// ErrClosed tells that the studio was closed before the picture was done.
	ErrClosed error = message.Fail("view3d.closed")
	// ErrFault tells that a fault in the program ended the picture; the guard has
	// told of it.
	ErrFault error = message.Fail("view3d.fault")
)

const (
	// mostRestarts is how often a context is opened anew, without a picture done
	// between, before 3D is given up.
	mostRestarts = 3
	// mostLiveInRow is how many live steps go before a slice of a still at most,
	// so that a still comes along while the view never rests.
	mostLiveInRow = 8
)

// OpenStudio opens a studio; its goroutine runs under the guard. Failed is
// called once, from there, when there is no 3D or none any more: with
// ErrNoGraphics, ErrLost or ErrFault.
func OpenStudio(g Guard, failed func(error)) *Studio {
	s := &Studio{guard: g, failed: failed, awake: make(chan struct{}, 1), quit: make(chan struct{}), ended: make(chan struct{})}
	off := error(ErrFault) // unless something else is found out
	g.Run(PartLive, func() { off = s.run() }, func(bool) { s.end(off) })
	return s
}

// Close ends all work, gives the context back and waits for the goroutine's end:
// as long as one slice takes.
func (s *Studio) Close() {
	s.close.Do(func() { close(s.quit) })
	<-s.ended
}

// Live wants a picture in place of the one before. Where nothing is drawn any
// more it does nothing.
func (s *Studio) Live(p Picture) {
	s.mu.Lock()
	if s.off == nil {
		s.live = &p
	}
	s.mu.Unlock()
	s.rouse()
}

// queue adds a still.
func (s *Studio) queue(t *still) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.off != nil {
		return s.off
	}
	s.stills = append(s.stills, t)
	s.rouse()
	return nil
}

func (s *Studio) rouse() {
	select {
	case s.awake <- struct{}{}:
	default:
	}
}

// run opens contexts and draws until the studio is closed or 3D is given up, and
// says why.
func (s *Studio) run() (off error) {
	runtime.LockOSThread() // and never unlocked: the thread ends with its goroutine
	resets := 0
	for restarts := 0; restarts <= mostRestarts; restarts++ {
		r, err := newRenderer()
		if err != nil {
			return err
		}
		r.resets = resets
		off = s.serve(r, &restarts)
		s.guard.Do(PartLive, nil, r.close)
		if off == ErrClosed {
			break
		}
		if errors.Is(off, ErrLost) {
			resets++
		}
	}
	return off
}

// end turns everybody away who waits, or comes later.
func (s *Studio) end(off error) {
	s.mu.Lock()
	s.off, s.live = off, nil
	for _, t := range s.stills {
		t.result <- stillResult{err: off}
	}
	s.stills = nil
	s.mu.Unlock()
	close(s.ended)
	if off != ErrClosed {
		s.failed(off)
	}
}

// next is what to draw now; neither when there is nothing.
func (s *Studio) next() (*Picture, *still) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for len(s.stills) > 0 && s.stills[0].ctx.Err() != nil {
		s.stills = s.stills[1:]
	}
	if s.live != nil && (len(s.stills) == 0 || s.inRow < mostLiveInRow) {
		s.inRow++
		return s.live, nil
	}
	s.inRow = 0
	if len(s.stills) > 0 {
		return nil, s.stills[0]
	}
	return nil, nil
}

// serve draws with one renderer; it ends with ErrClosed, or with why another
// renderer is needed.
func (s *Studio) serve(r *Renderer, restarts *int) error {
	for {
		select {
		case <-s.quit:
			return ErrClosed
		default:
		}
		live, t := s.next()
		var err error
		switch {
		case live != nil:
			err = s.step(r, live, restarts)
		case t != nil:
			err = s.slice(r, t, restarts)
		default:
			r.still.free()
			select {
			case <-s.quit:
			case <-s.awake:
			}
		}
		if err != nil {
			return err
		}
		// Drivers draw later than they are told to: what piled up there would go before
		// whatever moves next.
		gl.Finish()
	}
}

// step draws some of a live picture. The error is not nil when the renderer is
// of no more use.
func (s *Studio) step(r *Renderer, p *Picture, restarts *int) error {
	more, err := false, error(nil)
	sound := s.guard.Do(PartLive, p.Doing, func() { more, err = p.Step(r) })
	lost := errors.Is(err, ErrLost)
	if !sound || !lost && (err != nil || !more) {
		s.mu.Lock()
		if s.live == p {
			s.live = nil
		}
		s.mu.Unlock()
	}
	switch {
	case !sound:
		return ErrFault
	case lost:
		return err
	case err == nil && !more:
		*restarts = 0 // a whole picture came out
	}
	return nil
}

// slice draws some of a still. The error is not nil when the renderer is of no
// more use; the still then begins again with the next, unless it was its fault.
func (s *Studio) slice(r *Renderer, t *still, restarts *int) error {
	over, err := false, error(nil)
	sound := s.guard.Do(PartStill, t.frame.describe, func() { over, err = t.step(r) })
	switch {
	case !sound:
		s.finish(t, stillResult{err: ErrFault})
		return ErrFault
	case errors.Is(err, ErrLost):
		t.begin()
		return err
	case err != nil:
		s.finish(t, stillResult{err: err})
	case over:
		*restarts = 0
		s.finish(t, stillResult{image: t.image})
	}
	return nil
}

// finish takes a still from the queue and gives what came of it.
func (s *Studio) finish(t *still, result stillResult) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i := range s.stills {
		if s.stills[i] == t {
			s.stills = append(s.stills[:i:i], s.stills[i+1:]...)
			break
		}
	}
	t.result <- result
}

// describe says what a frame is of, for the report of a fault.
func (f Frame) describe() string {
	return fmt.Sprintf("%d × %d pixels, stage %d, look %d, light %s at %g, wet %v, dark %v, transparent %v, apart %.2f, chosen %q, camera %+v, cuts %+v",
		f.Width, f.Height, f.Stage, f.Look, f.Light.Kind, f.Light.Hour, f.Wet, f.Dark, f.Transparent, f.Apart, f.Chosen, f.Camera, f.cuts())
}
