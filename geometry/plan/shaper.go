package plan

import (
	"errors"
	"fmt"
	"math"
	"sync"

	"github.com/peterstace/simplefeatures/geom"
	"underfall/geometry/message"
)

// Shaper joins and cuts regions. It keeps the first thing that went wrong, and
// every shape asked for after that is empty: a chain of steps reads like the
// drawing it makes and is checked once, with Err, before anything is built on
// it. The zero value is ready; a shaper serves one goroutine.
type Shaper struct {
	// Refuse, when set, is asked before every attempt and makes it fail with
	// the error it gives. Tests put faults in with it. The grid is that of a
	// union, difference or intersection, and not a number for other attempts.
	Refuse  func(what message.Message, gridMM float64) error
	failure *Failure
	regrids []Regrid
	overlay overlay
}

// Failure is a shape that could not be worked out.
type Failure struct {
	What message.Message // the shape: the base round the pipe
	Err  error
}

// Error says what failed and why.
func (f *Failure) Error() string {
	return f.What.String() + " could not be worked out: " + f.Err.Error()
}

// Unwrap is the reason alone.
func (f *Failure) Unwrap() error { return f.Err }

// Regrid says that a shape was worked out on another grid than the usual one,
// because it did not come out right on that.
type Regrid struct {
	What   message.Message
	GridMM float64 // 0 for none
}

// Coarse tells whether the grid is coarser than the usual one: corners may lie
// that much off.
func (r Regrid) Coarse() bool { return r.GridMM > gridMM }

// Err is the first failure, a *Failure; nil when all went well.
func (s *Shaper) Err() error {
	if s.failure == nil {
		return nil
	}
	return s.failure
}

// Parts are shapers for things that are worked out beside each other, each by one
// goroutine. After a failure they are of no more use than the shaper itself.
func (s *Shaper) Parts(n int) []Shaper {
	refuse := s.Refuse
	if refuse != nil {
		var one sync.Mutex
		refuse = func(what message.Message, gridMM float64) error {
			one.Lock()
			defer one.Unlock()
			return s.Refuse(what, gridMM)
		}
	}
	parts := make([]Shaper, n)
	for i := range parts {
		parts[i].Refuse, parts[i].failure = refuse, s.failure
	}
	return parts
}

// Join takes up what became of a shaper's parts, in their order.
func (s *Shaper) Join(parts []Shaper) {
	for i := range parts {
		if s.failure == nil {
			s.failure = parts[i].failure
		}
		s.regrids = append(s.regrids, parts[i].regrids...)
	}
}

// Regrids are the shapes worked out on another grid than the usual one.
func (s *Shaper) Regrids() []Regrid { return s.regrids }

// Attempt makes a shape by other means and keeps its failure like one of the
// shaper's own. It tells whether the shape was made; after an earlier failure
// it is not tried.
func (s *Shaper) Attempt(what message.Message, shape func() error) bool {
	if s.failure != nil {
		return false
	}
	err := s.refused(what, math.NaN())
	if err == nil {
		err = shape()
	}
	if err != nil {
		s.failure = &Failure{what, err}
	}
	return err == nil
}

func (s *Shaper) refused(what message.Message, gridMM float64) error {
	if s.Refuse == nil {
		return nil
	}
	return s.Refuse(what, gridMM)
}

// Union is everything in a or b. What names it, as in every step, for the
// message when it fails.
func (s *Shaper) Union(a, b Region, what message.Message) Region {
	switch {
	case !s.sound(a, b, what):
		return nil
	case len(a) == 0:
		return b
	case len(b) == 0:
		return a
	}
	return s.combine(a, b, union, a.Area()+b.Area()-SharedArea(a, b), what)
}

// Subtract is a without b.
func (s *Shaper) Subtract(a, b Region, what message.Message) Region {
	switch {
	case !s.sound(a, b, what):
		return nil
	case !boundsMeet(a, b):
		return a
	}
	return s.combine(a, b, difference, a.Area()-SharedArea(a, b), what)
}

// Intersect is what a and b share.
func (s *Shaper) Intersect(a, b Region, what message.Message) Region {
	if !s.sound(a, b, what) || !boundsMeet(a, b) {
		return nil
	}
	return s.combine(a, b, intersection, SharedArea(a, b), what)
}

// Corridor is the region within halfWidthMM of a path, with square corners,
// running extraMM past both ends: the cut a saw makes to let a pipe in. It is
// empty for a path of no length.
func (s *Shaper) Corridor(path []Point, halfWidthMM, extraMM float64, what message.Message) (out Region) {
	if !s.sound(Region{{Outer: path}}, nil, what) {
		return nil
	}
	var clean []Point
	for _, p := range path {
		if len(clean) == 0 || p.Sub(clean[len(clean)-1]).Len() > HairMM {
			clean = append(clean, p)
		}
	}
	if len(clean) < 2 || halfWidthMM <= 0 {
		return nil
	}
	n := len(clean)
	clean[0] = clean[0].Add(clean[0].Sub(clean[1]).Normalize().Mul(extraMM))
	clean[n-1] = clean[n-1].Add(clean[n-1].Sub(clean[n-2]).Normalize().Mul(extraMM))
	s.Attempt(what, func() error {
		g, err := geom.Buffer(lineString(clean).AsGeometry(), halfWidthMM,
			geom.BufferEndCapFlat(), geom.BufferJoinStyleMitre(2))
		if err != nil {
			return fmt.Errorf("widening a path of %d corners: %w", n, err)
		}
		// The corridor holds at least its longest leg and no more than all
		// legs with a square at each corner.
		longest, all := 0.0, 0.0
		for i := 1; i < n; i++ {
			l := clean[i].Sub(clean[i-1]).Len()
			longest, all = math.Max(longest, l), all+l
		}
		least, most := 2*halfWidthMM*longest, 2*halfWidthMM*(all+2*halfWidthMM*float64(n))
		r := fromGeometry(g)
		const roundingShare, slackMM2 = 1e-6, 1 // of the library, which widens on no grid
		if a := r.Area(); !(a >= least*(1-roundingShare)-slackMM2 && a <= most+slackMM2) {
			return fmt.Errorf("widening a path of %d corners gave %.0f mm², not %.0f to %.0f", n, a, least, most)
		}
		out = r
		return nil
	})
	return out
}

// gridMM is the grid corners are put on before a boolean operation, in the
// region's own directions: a ten-thousandth of a millimetre. Edges of a
// building that are meant to coincide then do, also in a room that stands
// askew, where rounding would leave them a hair apart.
const gridMM = 1e-4

// grids are tried in turn: the usual one, a finer one, none, and last coarser
// ones.
func grids() [5]float64 { return [...]float64{gridMM, gridMM / 100, 0, gridMM * 10, gridMM * 100} }

// combine carries out a boolean operation on a grid, in the region's main
// directions. It takes no grid's word for it: the outcome must have the area
// worked out beforehand, which sees a region that crosses itself, a part lost
// and a part made up.
func (s *Shaper) combine(a, b Region, op operation, areaMM2 float64, what message.Message) Region {
	f := mainFrame(a)
	edgesMM := a.edgesMM() + b.edgesMM()
	var first error
	for _, grid := range grids() {
		// Corners move by up to a grid's step, and slivers are left out.
		slack := math.Max(grid, gridMM)*edgesMM + 100*sliverMM2
		var out Region
		err := s.refused(what, grid)
		if err == nil {
			out, err = s.combineOn(grid, f, a, b, op, areaMM2, slack)
		}
		if err == nil {
			if grid != gridMM {
				s.regrids = append(s.regrids, Regrid{what, grid})
			}
			return out
		}
		if first == nil {
			first = err
		}
	}
	s.failure = &Failure{what, first}
	return nil
}

// combineOn carries the operation out on one grid: on the usual one without hairs between
// the two, by overlay where that is sure, else by the library.
func (s *Shaper) combineOn(grid float64, f turnedFrame, a, b Region, op operation, areaMM2, slackMM2 float64) (Region, error) {
	a, b = a.into(f, grid), b.into(f, grid)
	if grid == gridMM {
		a, b = withoutHairs(a, b)
		if out, ok := s.overlay.combine(a, b, grid, op); ok && math.Abs(out.Area()-areaMM2) <= slackMM2 {
			out.outOf(f)
			return out, nil
		}
	}
	g, err := op.inLibrary()(a.geometry(), b.geometry())
	if err != nil {
		return nil, err
	}
	out := fromGeometry(g)
	out.outOf(f)
	if area := out.Area(); !(math.Abs(area-areaMM2) <= slackMM2) {
		return nil, fmt.Errorf("it comes out with %.2f mm² instead of %.2f", area, areaMM2)
	}
	return out, nil
}

// inLibrary is the operation of the library for any shapes.
func (op operation) inLibrary() func(a, b geom.Geometry) (geom.Geometry, error) {
	switch op {
	case union:
		return geom.Union
	case difference:
		return geom.Difference
	}
	return geom.Intersection
}

// sound tells whether a step can be taken at all: nothing failed before it, and
// every corner lies somewhere.
func (s *Shaper) sound(a, b Region, what message.Message) bool {
	if s.failure == nil && !(a.finite() && b.finite()) {
		s.failure = &Failure{what, errors.New("a corner lies nowhere")}
	}
	return s.failure == nil
}

// finite tells whether every corner lies somewhere.
func (r Region) finite() bool {
	for _, p := range r {
		for k := range p.rings() {
			for _, q := range p.ring(k) {
				if s := q.X() + q.Y(); math.IsNaN(s) || math.IsInf(s, 0) {
					return false
				}
			}
		}
	}
	return true
}

// edgesMM is the length of all edges.
func (r Region) edgesMM() float64 {
	sum := 0.0
	for _, p := range r {
		for k := range p.rings() {
			ring := p.ring(k)
			for i := range ring {
				sum += ring[(i+1)%len(ring)].Sub(ring[i]).Len()
			}
		}
	}
	return sum
}
