package app

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/build"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// cutMode is which planes cut the picture.
type cutMode string

const (
	cutDrain  cutMode = "Through the drain"
	cutRun    cutMode = "Along the waste run"
	cutCorner cutMode = "A corner cut out"
)

// The cut planes there are.
const (
	planeDrain = iota
	planeRun
	planes
)

// scope is what is looked at and how: shared by the 3D picture and the
// drawings. It is no part of the job.
type scope struct {
	cutOn bool
	mode  cutMode
	// offsets of the planes from their own places, along their normals, as
	// shown; dragged before they snapped.
	offsetMM, draggedMM [planes]float64
	stage               build.Stage
	look                viewer.Look
	light               viewer.Light
	wet                 bool
	apart               float64
	dimensions          bool // drawn in space at the cut
	motion              bool
	chosen              string // id of the chosen part
	mark                *mark  // the place of the chosen finding
	listener            []func()
	// do runs a function on the window's goroutine.
	do func(func())
}

// mark is a place in the model with its number, shown in every view.
type mark struct {
	at    [3]float64
	label string
}

func newScope(do func(func())) *scope {
	return &scope{cutOn: true, mode: cutDrain, stage: build.StageTile, dimensions: true, motion: true, do: do}
}

// active are the planes of the mode, the one the section is drawn on first.
func (s *scope) active() []int {
	switch s.mode {
	case cutRun:
		return []int{planeRun}
	case cutCorner:
		return []int{planeDrain, planeRun}
	}
	return []int{planeDrain}
}

// plane is one of the cut planes in a result.
func (s *scope) plane(r geometry.Result, i int) solid.Cut {
	c := section.ThroughDrain(r)
	switch {
	case s.mode == cutCorner:
		c = section.Corner(r)[i]
	case i == planeRun:
		c = section.AlongRun(r)
	}
	c.Origin = c.Origin.Add(c.Normal.Mul(s.offsetMM[i]))
	return c
}

// cut is the plane the section is drawn on.
func (s *scope) cut(r geometry.Result) solid.Cut { return s.plane(r, s.active()[0]) }

// cuts are the planes the picture is cut by; none without a cut.
func (s *scope) cuts(r geometry.Result) []solid.Cut {
	if !s.cutOn {
		return nil
	}
	var out []solid.Cut
	for _, i := range s.active() {
		out = append(out, s.plane(r, i))
	}
	return out
}

// change makes a change and tells everyone who looks.
func (s *scope) change(f func(*scope)) {
	f(s)
	for _, l := range s.listener {
		l()
	}
}

// snapWithinMM is how near to a place worth cutting a dragged plane falls onto
// it.
const snapWithinMM = 9

// drag moves a plane; near to a joist, the drain, the pipe's axis, a doorway or
// an edge it falls onto that.
func (s *scope) drag(r geometry.Result, plane int, byMM float64) {
	s.change(func(s *scope) {
		s.draggedMM[plane] += byMM
		s.offsetMM[plane] = s.draggedMM[plane]
		best := float64(snapWithinMM)
		at := s.draggedMM[plane]
		c := s.plane(r, plane)
		for _, place := range section.Places(r, c) {
			if math.Abs(place) < best {
				best, at = math.Abs(place), s.draggedMM[plane]+place
			}
		}
		s.offsetMM[plane] = at
	})
}

// setMode changes the planes; they start from their own places.
func (s *scope) setMode(m cutMode) {
	s.change(func(s *scope) { s.mode, s.offsetMM, s.draggedMM = m, [planes]float64{}, [planes]float64{} })
}

// cutThrough moves the cut to pass through a place.
func (s *scope) cutThrough(r geometry.Result, mode cutMode, at [3]float64) {
	s.change(func(s *scope) {
		s.mode, s.offsetMM, s.draggedMM, s.cutOn = mode, [planes]float64{}, [planes]float64{}, true
		i := s.active()[0]
		s.offsetMM[i] = s.cut(r).Side(at)
		s.draggedMM[i] = s.offsetMM[i]
	})
}
