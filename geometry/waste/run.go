package waste

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// Trouble is something that makes the run unbuildable as stated in plan.
type Trouble struct {
	Kind TroubleKind
	// Number is the bend's, counted from one, 0 for the trap's outlet; or the
	// leg's or the in-line fitting's, counted from one.
	Number int
	At     plan.Point
	// Value and Limit are what was asked for and what there is.
	Value, Limit float64
	// From and To are the pieces at the ends of a leg; To is none where it ends at the exit.
	// From is the bend that does not turn so far.
	From, To message.Numbered
}

// TroubleKind names a reason.
type TroubleKind string

// The reasons a run cannot be put together.
const (
	NoBend      TroubleKind = "no-bend"       // no fitting makes the turn; degrees
	NoRoom      TroubleKind = "no-room"       // a leg is too short for its bends, or the trap's joint and a bend; mm
	NoPlace     TroubleKind = "no-place"      // an in-line fitting does not lie on a straight; mm
	NothingLeft TroubleKind = "no-run-at-all" // outlet and exit are in one place
)

// Run is the waste run.
type Run struct {
	Pieces  []Piece
	Trouble []Trouble
	Corners []plan.Point // outlet, turns, exit at the inner wall face or the stack's middle
	Exit    plan.Point   // at the inner wall face, on the stack or over the drop
	ExitTo  plan.Point   // direction at the exit
	// LengthMM is the developed length in plan, through the wall.
	LengthMM float64
	// ExitAtMM is the distance along the run of Exit.
	ExitAtMM float64
	// Wall is the wall that the run goes out through, counted from one; 0 for none. It
	// meets the inner face WallAtMM along the run, its direction there WallTo.
	Wall     int
	WallAtMM float64
	WallTo   plan.Point
	Bends    int
}

// InRoomMM is how far along the run it lies in the room.
func (r *Run) InRoomMM() float64 {
	if r.Wall > 0 {
		return r.WallAtMM
	}
	return r.ExitAtMM
}

// OuterFaceAtMM is how far along the run it comes out of the wall that it goes through,
// so thick, whose outside lies in a direction.
func (r *Run) OuterFaceAtMM(thicknessMM float64, outward plan.Point) float64 {
	return r.WallAtMM + thicknessMM/r.WallTo.Dot(outward)
}

// LevelEndMM is how far along the run it lies with its fall: to the bend that turns it down
// outside, or to its end.
func (r *Run) LevelEndMM(w *job.Waste) float64 {
	if !w.TurnsDown() {
		return r.LengthMM
	}
	return math.Max(0, r.LengthMM-FaceMM(r.Outgoing()))
}

// FaceMM is from the corner of a bend of 90° to its face; never so little that it would fold
// over itself.
func FaceMM(pipe part.Pipe) float64 { return math.Max(pipe.Bend90FaceMM, pipe.OutsideDiameterMM/2) }

// Nearest is the distance along the run, in millimetres, of its place nearest
// to a point of the plan.
func (r *Run) Nearest(p plan.Point) float64 {
	best, at := math.Inf(1), 0.0
	for k := range r.Pieces {
		for s := range r.Pieces[k].Stretches {
			q := plan.NearestOnSegment(p, s.A, s.B)
			if d := q.Sub(p).Len(); d < best {
				best, at = d, s.FromMM+q.Sub(s.A).Len()
			}
		}
	}
	return at
}

// PipeAt is the size of the pipe at a distance along the run.
func (r *Run) PipeAt(atMM float64) part.Pipe {
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if atMM <= p.ToMM {
			return p.Pipe
		}
	}
	if n := len(r.Pieces); n > 0 {
		return r.Pieces[n-1].After
	}
	return part.Pipe{}
}

// PointAt is the plan point at a distance along the run.
func (r *Run) PointAt(atMM float64) plan.Point {
	for k := range r.Pieces {
		p := &r.Pieces[k]
		if atMM > p.ToMM+noLengthMM {
			continue
		}
		s := p.FromMM
		for i := 1; i < len(p.Path); i++ {
			d := p.Path[i].Sub(p.Path[i-1])
			// Plain coordinates in millimetres need no guard against overflow.
			if l := math.Sqrt(d.Dot(d)); atMM <= s+l+noLengthMM && l > 0 {
				return p.Path[i-1].Add(d.Mul(math.Max(0, atMM-s) / l))
			} else {
				s += l
			}
		}
	}
	return r.Exit
}

// BodyPath is the whole centre line in plan, with bends as they are made.
func (r *Run) BodyPath() []plan.Point {
	var out []plan.Point
	for i := range r.Pieces {
		for _, q := range r.Pieces[i].BodyPath() {
			if len(out) == 0 || out[len(out)-1].Sub(q).Len() > plan.HairMM {
				out = append(out, q)
			}
		}
	}
	return out
}

// Outgoing is the pipe at the run's end.
func (r *Run) Outgoing() part.Pipe { return r.PipeAt(math.Inf(1)) }
