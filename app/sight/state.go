package sight

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// Mode is which planes cut the picture.
type Mode string

// The modes: across the drain, across a step at the way in or at a doorway, along the waste run, both
// drain and run as a corner.
const (
	CutDrain  Mode = "drain"
	CutWayIn  Mode = "way-in"
	CutDoor   Mode = "door"
	CutRun    Mode = "run"
	CutCorner Mode = "corner"
)

// Name is what the mode is called.
func (m Mode) Name() message.ID {
	switch m {
	case CutWayIn:
		return "cut.way-in"
	case CutDoor:
		return "cut.door"
	case CutRun:
		return "cut.run"
	case CutCorner:
		return "cut.corner"
	}
	return "cut.drain"
}

// Modes are the modes in the order they are offered.
func Modes() []Mode { return []Mode{CutDrain, CutWayIn, CutDoor, CutRun, CutCorner} }

// The cut planes there are. The first is the one across a step as well.
const (
	PlaneDrain = iota
	PlaneRun
	Planes
)

// State is what is looked at and how. It is no part of the job, and a value:
// kept aside and put back whole.
type State struct {
	CutOn bool
	Mode  Mode
	// Step is the one that is cut across, the zero subject for the greatest: of CutWayIn and CutDoor.
	Step rule.Subject
	// OffsetMM are the planes' offsets from their own places, along their normals, as
	// shown; draggedMM before they snapped.
	OffsetMM, draggedMM [Planes]float64
	Stage               buildup.Stage
	Look                viewer.Look
	Light               viewer.Light
	Wet                 bool
	Apart               float64 // how far layers are drawn apart, a share
	Dimensions          bool    // drawn in space at the cut
	Chosen              string  // id of the chosen part
	Mark                *Mark   // the place of the chosen finding
	Marked              string  // key of the finding the mark stands on
	Measuring           bool
	Water               bool // running in the drawings
	Camera              viewer.Camera
	Placed              bool // the camera has been
	Touched             bool // by hand since it was placed
}

// Usual is how a job is looked at first.
func Usual() State {
	return State{CutOn: true, Mode: CutDrain, Stage: buildup.StageTile, Dimensions: true}
}

// Active are the planes of the mode, the one the section is drawn on first.
func (s *State) Active() []int {
	switch s.Mode {
	case CutRun:
		return []int{PlaneRun}
	case CutCorner:
		return []int{PlaneDrain, PlaneRun}
	}
	return []int{PlaneDrain}
}

// Plane is one of the cut planes in a result.
func (s *State) Plane(r geometry.Result, i int) solid.Cut {
	c := section.ThroughDrain(r)
	switch {
	case s.Mode == CutCorner:
		c = section.Corner(r)[i]
	case i == PlaneRun:
		c = section.AlongRun(r)
	default:
		if across, is := s.across(); is {
			// Without such a step the drain is cut, and the section says so.
			if plane, err := across.Plane(r); err == nil {
				c = plane
			}
		}
	}
	c.Origin = c.Origin.Add(c.Normal.Mul(s.OffsetMM[i]))
	return c
}

// across is the cut across a step; false in the other modes.
func (s *State) across() (c section.Cutting, is bool) {
	switch {
	case s.Mode != CutWayIn && s.Mode != CutDoor:
		return c, false
	case s.Step != rule.Subject{}:
		return section.Across(s.Step), true
	case s.Mode == CutDoor:
		return section.Cutting{Of: section.CutDoor}, true
	}
	return section.Cutting{Of: section.CutWayIn}, true
}

// Section draws a result where it is cut: across a step with that looked at first, or through the
// drain with the reason why there is no such step.
func (s *State) Section(r geometry.Result) section.Drawing {
	across, is := s.across()
	if !is || s.OffsetMM[PlaneDrain] != 0 {
		return section.Of(r, s.Cut(r), s.Stage)
	}
	d, err := section.Through(r, across, s.Stage)
	if err != nil {
		d = section.Of(r, s.Cut(r), s.Stage)
		d.Fault = message.OfError(err)
	}
	return d
}

// Cut is the plane the section is drawn on.
func (s *State) Cut(r geometry.Result) solid.Cut { return s.Plane(r, s.Active()[0]) }

// Cuts are the planes the picture is cut by; none without a cut.
func (s *State) Cuts(r geometry.Result) []solid.Cut {
	if !s.CutOn {
		return nil
	}
	var out []solid.Cut
	for _, i := range s.Active() {
		out = append(out, s.Plane(r, i))
	}
	return out
}

// insideMM is how far from the room's outermost corners a plane stays, so that
// there is always something of the room on both its sides.
const insideMM = 10

// reach is how far a plane may be moved from its own place without leaving the
// room.
func (s *State) reach(r geometry.Result, plane int) (lowMM, highMM float64) {
	c := s.Plane(r, plane)
	lowMM, highMM = math.Inf(1), math.Inf(-1)
	for _, p := range r.Settled.Room.Outline {
		side := c.Side([3]float64{p.X(), p.Y(), c.Origin.Z()}) + s.OffsetMM[plane]
		lowMM, highMM = math.Min(lowMM, side), math.Max(highMM, side)
	}
	// The plane's own place is always within, wherever the run goes.
	return math.Min(0, lowMM+insideMM), math.Max(0, highMM-insideMM)
}
