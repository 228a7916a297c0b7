package app

import (
	"underfall/geometry"
	"underfall/geometry/build"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// cutMode is the direction of the cut plane.
type cutMode string

const (
	cutDrain cutMode = "Through the drain"
	cutRun   cutMode = "Along the waste run"
)

// scope is what is looked at and how: shared by the 3D picture and the
// drawings. It is no part of the job.
type scope struct {
	cutOn    bool
	mode     cutMode
	offsetMM float64 // of the cut from its mode's own place, towards the viewer
	stage    build.Stage
	look     int
	chosen   string // id of the chosen part
	mark     *mark  // the place of the chosen finding
	listener []func()
	// do runs a function on the window's goroutine.
	do func(func())
}

// mark is a place in the model with its number, shown in every view.
type mark struct {
	at    [3]float64
	label string
}

func newScope(do func(func())) *scope {
	return &scope{cutOn: true, mode: cutDrain, stage: build.StageTile, do: do}
}

// cut is the cut plane in a result.
func (s *scope) cut(r geometry.Result) solid.Cut {
	c := section.ThroughDrain(r)
	if s.mode == cutRun {
		c = section.AlongRun(r)
	}
	c.Origin = c.Origin.Add(c.Normal.Mul(s.offsetMM))
	return c
}

// change makes a change and tells everyone who looks.
func (s *scope) change(f func(*scope)) {
	f(s)
	for _, l := range s.listener {
		l()
	}
}

// cutThrough moves the cut to pass through a place.
func (s *scope) cutThrough(r geometry.Result, mode cutMode, at [3]float64) {
	s.change(func(s *scope) {
		s.mode, s.offsetMM, s.cutOn = mode, 0, true
		s.offsetMM = s.cut(r).Side(at)
	})
}
