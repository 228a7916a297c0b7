package job

import (
	"fmt"
	"math"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// The keys of the lists of windows and of what stands in the room.
const (
	WindowsKey  = "room.windows"
	FixturesKey = "room.fixtures"
)

// windowList is the list of the windows.
func windowList() List {
	return listed(WindowsKey, mostItems, func(j *Job) *[]Window { return &j.Room.Windows }, usualWindow,
		inWall(func(w *Window) *int { return &w.Wall }),
		along("offsetMM", 0, farthestMM, 10, func(w *Window) *float64 { return &w.OffsetMM }),
		along("widthMM", 50, 5000, 10, func(w *Window) *float64 { return &w.WidthMM }),
		length("sillMM", 0, 5000, 10, func(w *Window) *float64 { return &w.SillMM }),
		length("heightMM", 50, 5000, 10, func(w *Window) *float64 { return &w.HeightMM }),
		length("revealMM", 0, 1000, 10, func(w *Window) *float64 { return &w.RevealMM }))
}

// stackList is the list of the stacks.
func stackList() List {
	return listed(StacksKey, mostStacks, func(j *Job) *[]Stack { return &j.Room.Stacks }, UsualStack,
		placeX(func(s *Stack) *plan.Point { return &s.At }),
		placeY(func(s *Stack) *plan.Point { return &s.At }),
		length("nominalMM", 32, 250, 5, func(s *Stack) *float64 { return &s.NominalMM }),
		length("outsideMM", 32, 300, 1, func(s *Stack) *float64 { return &s.OutsideMM }),
		maybe("footInvertMM", unit.Length, -20000, 5000, 10, func(s *Stack) **float64 { return &s.FootInvertMM }),
		maybe("opposedMM", unit.Length, -20000, 5000, 10, func(s *Stack) **float64 { return &s.OpposedMM }),
		where(func(s *Stack) bool { return s.OpposedMM != nil },
			length("opposedNominalMM", 20, 200, 5, func(s *Stack) *float64 { return &s.OpposedNominalMM }))).
		removing(withoutStack)
}

// pipeEndList is the list of the ends of pipes that are there.
func pipeEndList() List {
	return listed(PipeEndsKey, mostPipeEnds, func(j *Job) *[]PipeEnd { return &j.Room.PipeEnds }, usualPipeEnd,
		placeX(func(p *PipeEnd) *plan.Point { return &p.At }),
		placeY(func(p *PipeEnd) *plan.Point { return &p.At }),
		maybe("invertMM", unit.Length, -20000, 5000, 10, func(p *PipeEnd) **float64 { return &p.InvertMM }),
		length("nominalMM", 0, 250, 5, func(p *PipeEnd) *float64 { return &p.NominalMM }))
}

// fixtureList is the list of what stands or hangs in the room.
func fixtureList() List {
	return listed(FixturesKey, mostItems, func(j *Job) *[]Fixture { return &j.Room.Fixtures }, usualFixture,
		choose("kind", FixtureKinds(), func(f *Fixture) *FixtureKind { return &f.Kind }),
		inWall(func(f *Fixture) *int { return &f.Wall }),
		along("offsetMM", 0, farthestMM, 10, func(f *Fixture) *float64 { return &f.OffsetMM }),
		along("widthMM", 20, 5000, 10, func(f *Fixture) *float64 { return &f.WidthMM }),
		along("depthMM", 20, 3000, 10, func(f *Fixture) *float64 { return &f.DepthMM }),
		length("heightMM", 20, 4000, 10, func(f *Fixture) *float64 { return &f.HeightMM }),
		length("underMM", 0, 4000, 10, func(f *Fixture) *float64 { return &f.UnderMM }))
}

// slopeList is the list of the sloping ceilings.
func slopeList() List {
	return listed("room.slopes", mostSlopes, func(j *Job) *[]Slope { return &j.Room.Slopes }, usualSlope,
		inWall(func(s *Slope) *int { return &s.Wall }),
		length("kneeMM", 0, 6000, 10, func(s *Slope) *float64 { return &s.KneeMM }),
		number("pitchDeg", unit.Angle, 0, 85, 1, func(s *Slope) *float64 { return &s.PitchDeg }))
}

// northList is the list of where north lies.
func northList() List {
	return single("room.north", func(j *Job) **North { return &j.Room.North }, func(*Job) North { return North{} },
		number("deg", unit.Angle, -360, 360, 5, func(n *North) *float64 { return &n.Deg }))
}

// North is where north lies in plan.
type North struct {
	Deg float64 `json:"deg"` // clockwise from straight up
}

// Window is a window in a wall.
type Window struct {
	Wall     int     `json:"wall"`
	OffsetMM float64 `json:"offsetMM"` // from the wall's start corner to the opening
	WidthMM  float64 `json:"widthMM"`
	SillMM   float64 `json:"sillMM"` // level of the opening's underside
	HeightMM float64 `json:"heightMM"`
	// RevealMM is how far back from the bare wall's face its frame stands.
	RevealMM float64 `json:"revealMM,omitempty"`
}

// usualWindow stands in the middle of the longest wall. Sizes are common practice, no
// source.
func usualWindow(j *Job) Window {
	w := Window{WidthMM: 600, SillMM: 1100, HeightMM: 900}
	longest := 0.0
	for i := range j.Room.Outline {
		if mm := j.Room.WallLengthMM(i); mm > longest {
			w.Wall, longest = i, mm
		}
	}
	w.OffsetMM = math.Max(0, (longest-w.WidthMM)/2)
	return w
}

// WallLengthMM is how long a wall of the room is; 0 where there is no such wall.
func (r Room) WallLengthMM(wall int) float64 {
	n := len(r.Outline)
	if wall < 0 || wall >= n {
		return 0
	}
	return r.Outline[(wall+1)%n].Sub(r.Outline[wall]).Len()
}

// overlap tells whether two stretches of a line, by their starts and lengths, share more
// than an end.
func overlap(aMM, aLongMM, bMM, bLongMM float64) bool {
	return aMM < bMM+bLongMM && bMM < aMM+aLongMM
}

// windows checks that windows lie in their walls, apart from each other and from
// doorways.
func (v *validator) windows(r Room) {
	for i, w := range r.Windows {
		key := fmt.Sprintf("room.windows[%d]", i)
		length := r.WallLengthMM(w.Wall)
		if length == 0 {
			continue // in no wall, which is said
		}
		if w.OffsetMM+w.WidthMM > length+plan.HairMM {
			v.add(key+".offsetMM", "problem.opening-past-wall", longest("length", length))
			continue
		}
		for k, d := range r.Doorways {
			if d.Wall == w.Wall && overlap(d.OffsetMM, d.WidthMM, w.OffsetMM, w.WidthMM) {
				v.add(key, "problem.window-in-doorway", message.No("other", k+1))
			}
		}
		for k, o := range r.Windows[:i] {
			if o.Wall == w.Wall && overlap(o.OffsetMM, o.WidthMM, w.OffsetMM, w.WidthMM) && overlap(o.SillMM, o.HeightMM, w.SillMM, w.HeightMM) {
				v.add(key, "problem.windows-overlap", message.No("other", k+1))
			}
		}
	}
}
