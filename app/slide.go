package app

import (
	"fyne.io/fyne/v2"
	"underfall/app/theme"
)

// slide is how the tray comes to its place and leaves it: over the drawings, which have their places at once.
type slide struct {
	moves func() bool     // tells whether things may move; nil for not
	out   float32         // how far it is out of its place, of its way out of the window
	run   *fyne.Animation // nil at rest
}

// of is where the tray is that has a place.
func (s *slide) of(at place) place {
	at.at.X -= s.out * (at.at.X + at.size.Width)
	at.seen = at.seen || s.run != nil
	return at
}

// slideTray has the tray come, or leave.
func (f *frame) slideTray(in bool) {
	s := &f.slide
	if s.run != nil {
		s.run.Stop()
		s.run = nil
	}
	if s.moves == nil || !s.moves() {
		s.out = 0
		return
	}
	s.run = f.sliding(in)
	s.run.Start()
}

// sliding is the tray's way in from outside of the window, or out of it.
func (f *frame) sliding(in bool) *fyne.Animation {
	s := &f.slide
	from, to := s.out, float32(1)
	if in {
		from, to = 1, 0
	}
	return fyne.NewAnimation(theme.SlideTime, func(done float32) {
		if s.out = from + (to-from)*done; done == 1 {
			s.out, s.run = 0, nil
		}
		put(f.clips[regionTray], s.of(f.arrangement.placed(f.all.Size()).regions[regionTray]))
	})
}
