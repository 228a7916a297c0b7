// Package sight is what the 3D picture and the drawings show together: the cut, the stage, the
// chosen part, the mark, whether is measured, and where from it is looked at.
package sight

import (
	"math"
	"time"

	"underfall/app/guard"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
)

// Sight is the state of what is looked at, shared by the 3D picture and the drawings, with
// those who follow it and how their goroutines run.
type Sight struct {
	State
	listeners []func()
	held      Held
	// Do runs a function on the window's goroutine, Guard what runs beside it.
	Do    func(func())
	Guard *guard.Guard
	// Closed is closed with the window: what runs by itself ends then.
	Closed chan struct{}
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

// After runs a function on the window's goroutine after a time, unless it is stopped before, on that goroutine as well.
func (s *Sight) After(wait time.Duration, part message.ID, f func()) (stop func()) {
	stopped := false
	timer := s.Guard.After(wait, part, func() {
		s.Do(func() {
			if !stopped {
				f()
			}
		})
	})
	return func() {
		stopped = true
		timer.Stop()
	}
}

// Held is what is being dragged.
type Held int

// What may be dragged: nothing is, something of the job or of what stands in the room, a plane that cuts the picture.
const (
	HeldNothing Held = iota
	HeldThing
	HeldCut
)

// Hold tells that something is being dragged, or nothing any more; everyone who looks is told of the end.
func (s *Sight) Hold(what Held) {
	ended := s.held != HeldNothing && what == HeldNothing
	s.held = what
	if ended {
		s.Change(func(*State) {})
	}
}

// Held is what is being dragged: what is drawn meanwhile is to be there soon, and is drawn once more after.
func (s *Sight) Held() Held { return s.held }

// Listen has a function called after every change.
func (s *Sight) Listen(f func()) { s.listeners = append(s.listeners, f) }

// snapWithinMM is how near to a place worth cutting a dragged plane falls onto
// it.
const snapWithinMM = 9

// Drag moves a plane; near to a joist, the drain, the pipe's axis, a doorway or
// an edge it falls onto that.
func (s *Sight) Drag(r geometry.Result, plane int, byMM float64) {
	s.Change(func(s *State) {
		s.toDrain(r)
		low, high := s.reach(r, plane)
		// What is dragged past the room does not have to be dragged all the way
		// back.
		s.draggedMM[plane] = math.Max(low, math.Min(high, s.draggedMM[plane]+byMM))
		*s.moved(plane) = s.draggedMM[plane]
		best := float64(snapWithinMM)
		at := s.draggedMM[plane]
		c := s.Plane(r, plane)
		for _, place := range section.Places(r, c) {
			if to := s.draggedMM[plane] + place; math.Abs(place) < best && to >= low && to <= high {
				best, at = math.Abs(place), to
			}
		}
		*s.moved(plane) = at
	})
}

// Nudge moves the plane that the section is drawn on, without snapping.
func (s *Sight) Nudge(r geometry.Result, byMM float64) {
	s.Change(func(s *State) {
		const plane = PlaneFirst
		s.toDrain(r)
		low, high := s.reach(r, plane)
		s.draggedMM[plane] = math.Max(low, math.Min(high, s.MovedMM(plane)+byMM))
		*s.moved(plane) = s.draggedMM[plane]
	})
}

// Turn turns the cut about a place so far from its own way; it stays as it is, and the error says why, where it
// would leave the room, or where a corner is cut out.
func (s *Sight) Turn(r geometry.Result, about plan.Point, deg float64) error {
	turned := s.Cutting.Turned(r, about, deg)
	if _, err := turned.Plane(r); err != nil {
		return err
	}
	if s.Corner {
		return message.Fail("cut.corner-turned")
	}
	s.Recut(turned)
	return nil
}

// Recut has the one cut lie elsewhere, whether the picture is cut or not.
func (s *Sight) Recut(c section.Cutting) {
	if c == s.Cutting {
		return
	}
	s.Change(func(s *State) {
		s.Cutting = c
		s.draggedMM[PlaneFirst] = c.AsideMM
	})
}

// KeepInRoom brings planes back into a room that has changed.
func (s *Sight) KeepInRoom(r geometry.Result) {
	for _, i := range s.Active() {
		if _, err := s.Cutting.Upright(r); err != nil && !s.Corner {
			continue // the section says why
		}
		low, high := s.reach(r, i)
		m := s.moved(i)
		*m = math.Max(low, math.Min(high, *m))
		s.draggedMM[i] = math.Max(low, math.Min(high, s.draggedMM[i]))
	}
}

// CutThere cuts at a place, from its own start, also when the place is the same.
func (s *Sight) CutThere(c section.Cutting) {
	s.Change(func(s *State) { s.start(c, false) })
}

// CutCorner cuts a corner out, from the planes' own places.
func (s *Sight) CutCorner() {
	s.Change(func(s *State) { s.start(s.Cutting.Home(), true) })
}

// start has the picture cut there, with the planes at their own places.
func (s *State) start(c section.Cutting, corner bool) {
	s.Cutting, s.Corner, s.CutOn, s.HasPlace = c, corner, true, false
	s.CornerMM, s.draggedMM = [Planes]float64{}, [Planes]float64{}
	s.draggedMM[PlaneFirst] = *s.moved(PlaneFirst)
}

// MoveLevel moves the level that is cut up, or down, as far as anything is there.
func (s *Sight) MoveLevel(r geometry.Result, byMM float64) {
	plane, err := s.Level.Plane(r)
	if err != nil {
		return
	}
	to := section.Cutting{Of: section.CutLevel, LevelMM: plane.Origin.Z() + byMM}
	if _, err := to.Plane(r); err == nil {
		s.Change(func(s *State) { s.Level = to })
	}
}

// BringBack has every plane at its own place again, neither turned nor moved aside.
func (s *Sight) BringBack() {
	s.Change(func(s *State) { on := s.CutOn; s.start(s.Cutting.Home(), s.Corner); s.CutOn = on })
}

// CutThrough moves the cut to a place, off what it goes through by itself, and has the section show that; of a place at
// the room's rim it stays as far inside as there is anything on both its sides. One across a doorway stays in its opening: where the step
// is greatest may be at a jamb.
func (s *Sight) CutThrough(r geometry.Result, c section.Cutting, at [3]float64) {
	s.Change(func(s *State) {
		s.start(c, false)
		s.Place, s.HasPlace = at, true
		aside := s.Cut(r).Side(at)
		if math.Abs(aside) < plan.HairMM || c.Step.Of == rule.Doorway {
			return
		}
		low, high := s.reach(r, PlaneFirst)
		s.draggedMM[PlaneFirst] = math.Max(low, math.Min(high, aside))
		s.Cutting.AsideMM = s.draggedMM[PlaneFirst]
	})
}

// BackTo brings the cut and what goes with it back to what they were, in what may be another result by
// now; the camera, and how things are looked at, stay.
func (s *Sight) BackTo(r geometry.Result, before State) {
	s.Change(func(to *State) {
		to.CutOn, to.Cutting, to.Corner, to.CornerMM, to.draggedMM = before.CutOn, before.Cutting, before.Corner, before.CornerMM, before.draggedMM
		to.Place, to.HasPlace = before.Place, before.HasPlace
		to.Stage, to.Apart, to.Chosen, to.Mark, to.Marked = before.Stage, before.Apart, before.Chosen, before.Mark, before.Marked
		s.KeepInRoom(r)
	})
}
