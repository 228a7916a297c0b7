package app

import (
	"math"

	"underfall/app/guard"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// cutMode is which planes cut the picture.
type cutMode string

const (
	cutDrain  cutMode = "drain"
	cutRun    cutMode = "run"
	cutCorner cutMode = "corner"
)

// name is what the mode is called.
func (m cutMode) name() message.ID {
	switch m {
	case cutRun:
		return "cut.run"
	case cutCorner:
		return "cut.corner"
	}
	return "cut.drain"
}

// The cut planes there are.
const (
	planeDrain = iota
	planeRun
	planes
)

// viewState is what is looked at and how. It is no part of the job, and a value:
// kept aside and put back whole.
type viewState struct {
	cutOn bool
	mode  cutMode
	// offsets of the planes from their own places, along their normals, as
	// shown; dragged before they snapped.
	offsetMM, draggedMM [planes]float64
	stage               buildup.Stage
	look                viewer.Look
	light               viewer.Light
	wet                 bool
	apart               float64
	dimensions          bool // drawn in space at the cut
	motion              bool
	chosen              string // id of the chosen part
	mark                *mark  // the place of the chosen finding
	marked              string // key of the finding the mark stands on
	measuring           bool
	water               bool // running in the drawings
	camera              viewer.Camera
	placed              bool // the camera has been
	touched             bool // by hand since it was placed
}

// usualView is how a job is looked at first.
func usualView() viewState {
	return viewState{cutOn: true, mode: cutDrain, stage: buildup.StageTile, dimensions: true, motion: true}
}

// sharedView is the view's state, shared by the 3D picture and the drawings, with
// those who follow it and how their goroutines run.
type sharedView struct {
	viewState
	listener []func()
	// do runs a function on the window's goroutine.
	do    func(func())
	guard *guard.Guard
	// closed is closed with the window: what runs by itself ends then.
	closed chan struct{}
}

// mark is a place in the model with its number, shown in every view.
type mark struct {
	at    [3]float64
	label string
}

func newSharedView(do func(func()), g *guard.Guard) *sharedView {
	return &sharedView{viewState: usualView(), do: do, guard: g, closed: make(chan struct{})}
}

// active are the planes of the mode, the one the section is drawn on first.
func (s *sharedView) active() []int {
	switch s.mode {
	case cutRun:
		return []int{planeRun}
	case cutCorner:
		return []int{planeDrain, planeRun}
	}
	return []int{planeDrain}
}

// plane is one of the cut planes in a result.
func (s *sharedView) plane(r geometry.Result, i int) solid.Cut {
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
func (s *sharedView) cut(r geometry.Result) solid.Cut { return s.plane(r, s.active()[0]) }

// cuts are the planes the picture is cut by; none without a cut.
func (s *sharedView) cuts(r geometry.Result) []solid.Cut {
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
func (s *sharedView) change(f func(*sharedView)) {
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
func (s *sharedView) drag(r geometry.Result, plane int, byMM float64) {
	s.change(func(s *sharedView) {
		low, high := s.reach(r, plane)
		// What is dragged past the room does not have to be dragged all the way
		// back.
		s.draggedMM[plane] = math.Max(low, math.Min(high, s.draggedMM[plane]+byMM))
		s.offsetMM[plane] = s.draggedMM[plane]
		best := float64(snapWithinMM)
		at := s.draggedMM[plane]
		c := s.plane(r, plane)
		for _, place := range section.Places(r, c) {
			if to := s.draggedMM[plane] + place; math.Abs(place) < best && to >= low && to <= high {
				best, at = math.Abs(place), to
			}
		}
		s.offsetMM[plane] = at
	})
}

// nudge moves the plane that the section is drawn on, without snapping.
func (s *sharedView) nudge(r geometry.Result, byMM float64) {
	s.change(func(s *sharedView) {
		i := s.active()[0]
		low, high := s.reach(r, i)
		s.offsetMM[i] = math.Max(low, math.Min(high, s.offsetMM[i]+byMM))
		s.draggedMM[i] = s.offsetMM[i]
	})
}

// insideMM is how far from the room's outermost corners a plane stays, so that
// there is always something of the room on both its sides.
const insideMM = 10

// reach is how far a plane may be moved from its own place without leaving the
// room.
func (s *sharedView) reach(r geometry.Result, plane int) (lowMM, highMM float64) {
	c := s.plane(r, plane)
	lowMM, highMM = math.Inf(1), math.Inf(-1)
	for _, p := range r.Settled.Room.Outline {
		side := c.Side([3]float64{p.X(), p.Y(), c.Origin.Z()}) + s.offsetMM[plane]
		lowMM, highMM = math.Min(lowMM, side), math.Max(highMM, side)
	}
	// The plane's own place is always within, wherever the run goes.
	return math.Min(0, lowMM+insideMM), math.Max(0, highMM-insideMM)
}

// keepInRoom brings planes back into a room that has changed.
func (s *sharedView) keepInRoom(r geometry.Result) {
	for _, i := range s.active() {
		low, high := s.reach(r, i)
		s.offsetMM[i] = math.Max(low, math.Min(high, s.offsetMM[i]))
		s.draggedMM[i] = math.Max(low, math.Min(high, s.draggedMM[i]))
	}
}

// setMode changes the planes; they start from their own places, also when the
// mode is the same.
func (s *sharedView) setMode(m cutMode) {
	s.change(func(s *sharedView) { s.mode, s.offsetMM, s.draggedMM = m, [planes]float64{}, [planes]float64{} })
}

// cutThrough moves the cut to pass through a place.
func (s *sharedView) cutThrough(r geometry.Result, mode cutMode, at [3]float64) {
	s.change(func(s *sharedView) {
		s.mode, s.offsetMM, s.draggedMM, s.cutOn = mode, [planes]float64{}, [planes]float64{}, true
		i := s.active()[0]
		s.offsetMM[i] = s.cut(r).Side(at)
		s.draggedMM[i] = s.offsetMM[i]
	})
}
