package sight

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// The planes that cut the picture. The section is drawn on the first; the second is there where a corner
// is cut out.
const (
	PlaneFirst = iota
	PlaneSecond
	Planes
)

// Pressing is what points of the drawings are being pressed for: one thing at a time.
type Pressing string

// What points may be pressed for.
const (
	PressingNothing Pressing = ""
	PressingMeasure Pressing = "measure"  // two, that something is measured between
	PressingCut     Pressing = "aiming"   // two of the plan, that the cut is to go through
	PressingRod     Pressing = "standing" // one, that a rod is to stand at
)

// State is what is looked at and how. It is no part of the job, and a value:
// kept aside and put back whole.
type State struct {
	CutOn bool
	// Cutting is where the one plane lies, as long as no corner is cut out.
	Cutting section.Cutting
	Corner  bool
	// CornerMM is how far the planes of a corner are moved off their own places, to the side that they
	// are looked at from.
	CornerMM [Planes]float64
	// draggedMM is how far planes are dragged off their own places, before they fall onto anything.
	draggedMM [Planes]float64
	// Place is what was gone to, which the section shows besides what the cut goes through by itself, if HasPlace.
	Place      [3]float64
	HasPlace   bool
	Stage      buildup.Stage
	Look       viewer.Look
	Apart      float64 // how far layers are drawn apart, a share
	Dimensions bool    // drawn in space at the cut
	Chosen     string  // id of the chosen part
	Mark       *Mark   // the place of the chosen finding
	Marked     string  // key of the finding the mark stands on
	// AllPins marks all that is found in the picture, and not only what stops the job or is not known.
	AllPins bool
	// Pressing is what points of the drawings are being pressed for.
	Pressing Pressing
	// Level is the level cut that a plan is drawn at.
	Level section.Cutting
	// Turned is how the drawings of what is seen from above are turned.
	Turned plan.Quarters
	// Datum is what heights are counted from, in the drawings, at the rods and in the lists.
	Datum geometry.DatumOf
	// RodAt is a point of the room that a rod stands at, if HasRod.
	RodAt   plan.Point
	HasRod  bool
	Water   bool // running in the drawings
	Camera  viewer.Camera
	View    viewer.View // the ready-made view that the camera is; empty for none
	Placed  bool        // the camera has been
	Touched bool        // by hand since it was placed
}

// Usual is how a job is looked at first.
func Usual() State {
	return State{CutOn: true, Cutting: section.Cutting{Of: section.CutDrain}, Stage: buildup.StageTile, Dimensions: true, Datum: geometry.OverStructure, Level: section.Cutting{Of: section.CutBoardsLevel}}
}

// BesideCut is all that is looked at but where it is cut, and from where.
func (s *State) BesideCut() State {
	all := *s
	all.Cutting, all.CornerMM, all.draggedMM, all.Camera = section.Cutting{}, [Planes]float64{}, [Planes]float64{}, viewer.Camera{}
	return all
}

// Active are the planes that there are, the one the section is drawn on first.
func (s *State) Active() []int {
	if s.Corner {
		return []int{PlaneFirst, PlaneSecond}
	}
	return []int{PlaneFirst}
}

// MovedMM is how far a plane is moved off its own place, to the side that it is looked at from.
func (s *State) MovedMM(plane int) float64 { return *s.moved(plane) }

func (s *State) moved(plane int) *float64 {
	if s.Corner {
		return &s.CornerMM[plane]
	}
	return &s.Cutting.AsideMM
}

// Plane is one of the cut planes in a result. Where a cut is none there, it is that through the drain, and
// the section says why.
func (s *State) Plane(r geometry.Result, i int) solid.Cut {
	if s.Corner {
		c := section.Corner(r)[i]
		c.Origin = c.Origin.Add(c.Normal.Mul(s.CornerMM[i]))
		return c
	}
	c, err := s.Cutting.Plane(r)
	if err != nil {
		return section.ThroughDrain(r)
	}
	return c
}

// Section draws a result where it is cut, with what the cut was chosen for looked at first; or through
// the drain, with the reason why there is no such cut.
func (s *State) Section(r geometry.Result) section.Drawing {
	if s.Corner {
		return section.Of(r, s.Cut(r), s.Stage)
	}
	d, err := section.Through(r, s.Cutting, s.Stage)
	if err != nil {
		d = section.Of(r, s.Cut(r), s.Stage)
		d.Fault = message.OfError(err)
	}
	if s.HasPlace {
		d.LookAt(d.Cut.Flat(s.Place).X())
	}
	return d
}

// AtLevel draws what is at the level that is cut, or the plan with the reason why nothing is cut there.
func (s *State) AtLevel(r geometry.Result) section.Drawing {
	d, err := section.Through(r, s.Level, s.Stage)
	if err != nil {
		d = section.PlanOf(r)
		d.Fault = message.OfError(err)
	}
	return d
}

// Cut is the plane the section is drawn on.
func (s *State) Cut(r geometry.Result) solid.Cut { return s.Plane(r, s.Active()[0]) }

// Planes are where the job is cut, the section's first, whether the picture is cut there or not.
func (s *State) Planes(r geometry.Result) (out []solid.Cut) {
	for _, i := range s.Active() {
		out = append(out, s.Plane(r, i))
	}
	return out
}

// Cuts are the planes the picture is cut by; none without a cut.
func (s *State) Cuts(r geometry.Result) []solid.Cut {
	if !s.CutOn {
		return nil
	}
	return s.Planes(r)
}

// insideMM is how far from the room's outermost corners a plane stays, so that
// there is always something of the room on both its sides.
const insideMM = 10

// reach is how far a plane may be moved from its own place without leaving the
// room.
func (s *State) reach(r geometry.Result, plane int) (lowMM, highMM float64) {
	c := s.Plane(r, plane)
	if !s.Corner {
		// Also where it has left the room.
		if anywhere, err := s.Cutting.Upright(r); err == nil {
			c = anywhere
		}
	}
	lowMM, highMM = math.Inf(1), math.Inf(-1)
	for _, p := range r.Settled.Room.Outline {
		side := c.Side([3]float64{p.X(), p.Y(), c.Origin.Z()}) + s.MovedMM(plane)
		lowMM, highMM = math.Min(lowMM, side), math.Max(highMM, side)
	}
	lowMM, highMM = lowMM+insideMM, highMM-insideMM
	if s.Corner {
		// A plane's own place is always within, wherever the shower lies.
		return math.Min(0, lowMM), math.Max(0, highMM)
	}
	return lowMM, highMM
}

// toDrain has the drain cut, as it is shown, where the cut that was asked for is none any more.
func (s *State) toDrain(r geometry.Result) {
	if _, err := s.Cutting.Upright(r); err != nil && !s.Corner {
		s.start(section.Cutting{Of: section.CutDrain}, false)
	}
}
