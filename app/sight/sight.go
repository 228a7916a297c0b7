// Package sight is what the 3D picture and the drawings show together: the cut, the stage, the
// chosen part, the mark, whether is measured, and where from it is looked at.
package sight

import (
	"math"

	"underfall/app/guard"
	"underfall/geometry"
	"underfall/geometry/rule"
	"underfall/geometry/section"
)

// Sight is the state of what is looked at, shared by the 3D picture and the drawings, with
// those who follow it and how their goroutines run.
type Sight struct {
	State
	listeners []func()
	// Do runs a function on the window's goroutine, Guard what runs beside it.
	Do    func(func())
	Guard *guard.Guard
	// Closed is closed with the window: what runs by itself ends then.
	Closed chan struct{}
}

// Mark is a place in the model with its number, shown in every view.
type Mark struct {
	At    [3]float64
	Label string
}

// New looks at things as usual; do runs a function on the window's goroutine.
func New(do func(func()), g *guard.Guard) *Sight {
	return &Sight{State: Usual(), Do: do, Guard: g, Closed: make(chan struct{})}
}

// Change makes a change and tells everyone who looks.
func (s *Sight) Change(f func(*State)) {
	f(&s.State)
	for _, l := range s.listeners {
		l()
	}
}

// Listen has a function called after every change.
func (s *Sight) Listen(f func()) { s.listeners = append(s.listeners, f) }

// snapWithinMM is how near to a place worth cutting a dragged plane falls onto
// it.
const snapWithinMM = 9

// Drag moves a plane; near to a joist, the drain, the pipe's axis, a doorway or
// an edge it falls onto that.
func (s *Sight) Drag(r geometry.Result, plane int, byMM float64) {
	s.Change(func(s *State) {
		low, high := s.reach(r, plane)
		// What is dragged past the room does not have to be dragged all the way
		// back.
		s.draggedMM[plane] = math.Max(low, math.Min(high, s.draggedMM[plane]+byMM))
		s.OffsetMM[plane] = s.draggedMM[plane]
		best := float64(snapWithinMM)
		at := s.draggedMM[plane]
		c := s.Plane(r, plane)
		for _, place := range section.Places(r, c) {
			if to := s.draggedMM[plane] + place; math.Abs(place) < best && to >= low && to <= high {
				best, at = math.Abs(place), to
			}
		}
		s.OffsetMM[plane] = at
	})
}

// Nudge moves the plane that the section is drawn on, without snapping.
func (s *Sight) Nudge(r geometry.Result, byMM float64) {
	s.Change(func(s *State) {
		i := s.Active()[0]
		low, high := s.reach(r, i)
		s.OffsetMM[i] = math.Max(low, math.Min(high, s.OffsetMM[i]+byMM))
		s.draggedMM[i] = s.OffsetMM[i]
	})
}

// KeepInRoom brings planes back into a room that has changed.
func (s *Sight) KeepInRoom(r geometry.Result) {
	for _, i := range s.Active() {
		low, high := s.reach(r, i)
		s.OffsetMM[i] = math.Max(low, math.Min(high, s.OffsetMM[i]))
		s.draggedMM[i] = math.Max(low, math.Min(high, s.draggedMM[i]))
	}
}

// SetMode changes the planes; they start from their own places, also when the
// mode is the same.
func (s *Sight) SetMode(m Mode) {
	s.Change(func(s *State) { s.start(m) })
}

// start has the planes of a mode at their own places.
func (s *State) start(m Mode) {
	s.Mode, s.Step, s.OffsetMM, s.draggedMM = m, rule.Subject{}, [Planes]float64{}, [Planes]float64{}
}

// CutAcross cuts across a step: of an open edge, or at a doorway.
func (s *Sight) CutAcross(step rule.Subject) {
	s.Change(func(s *State) {
		s.start(CutWayIn)
		if step.Of == rule.Doorway {
			s.Mode = CutDoor
		}
		s.Step, s.CutOn = step, true
	})
}

// CutThrough moves the cut to pass through a place.
func (s *Sight) CutThrough(r geometry.Result, mode Mode, at [3]float64) {
	s.Change(func(s *State) {
		s.start(mode)
		s.CutOn = true
		i := s.Active()[0]
		s.OffsetMM[i] = s.Cut(r).Side(at)
		s.draggedMM[i] = s.OffsetMM[i]
	})
}

// BackTo brings the cut and what goes with it back to what they were, in what may be another result by
// now; the camera, and how things are looked at, stay.
func (s *Sight) BackTo(r geometry.Result, before State) {
	s.Change(func(to *State) {
		to.CutOn, to.Mode, to.Step, to.OffsetMM, to.draggedMM = before.CutOn, before.Mode, before.Step, before.OffsetMM, before.draggedMM
		to.Stage, to.Apart, to.Chosen, to.Mark, to.Marked = before.Stage, before.Apart, before.Chosen, before.Mark, before.Marked
		s.KeepInRoom(r)
	})
}
