// Package waste lays out the waste run: the fittings and straights from the
// trap's outlet to the exit in plan, then the levels along them.
package waste

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// Kind is what a piece of the run is.
type Kind string

// The kinds of piece.
const (
	// Joint is the trap's outlet: the socket or nut that the first pipe goes into.
	Joint    Kind = "joint"
	Straight Kind = "straight"
	Bend     Kind = "bend"
	Reducer  Kind = "reducer"
	Adaptor  Kind = "adaptor" // to pipe of another system
	// FallingPiece is a length with a fall of its own.
	FallingPiece Kind = "falling-piece"
	Drop         Kind = "drop" // the bend and pipe straight down at a floor exit
)

// Piece is one part of the run in the order the water takes it.
type Piece struct {
	Kind   Kind
	Number int // counted from one along the run, the trap's joint by itself
	// Path is the centre line in plan that lengths and falls go by; a bend has many
	// points, on the arc from face to face.
	Path []plan.Point
	// Body is the centre line of a bend as it is made: straight in its sockets, on a
	// tighter arc between. Nil for what is made along Path.
	Body []plan.Point
	// FromMM and ToMM are distances along the run from the outlet, in plan.
	FromMM, ToMM float64
	TurnDeg      float64   // of a bend, without sign
	NearestDeg   float64   // the bend it is made with
	Pipe         part.Pipe // upstream
	After        part.Pipe // downstream; differs for a reducer or an adaptor
	Reversed     bool
	OwnSlope     float64 // of a falling piece, positive down
	Fitting      int     // index in the job of an in-line fitting
	OutsideMM    float64 // of a joint: its diameter
	// Levels, filled in by WithLevels: of the invert at both ends.
	FromInvertMM, ToInvertMM float64
}

// LengthMM of the piece in plan.
func (p Piece) LengthMM() float64 { return p.ToMM - p.FromMM }

// Stretch is a straight of a piece's centre line in plan, FromMM along the run.
type Stretch struct {
	A, B             plan.Point
	FromMM, LengthMM float64
}

// Along is its unit direction.
func (s Stretch) Along() plan.Point { return s.B.Sub(s.A).Mul(1 / s.LengthMM) }

// noLengthMM is the length under which a stretch is a repeated corner: far under
// anything drawn, far over rounding in coordinates of a building.
const noLengthMM = 1e-9

// PointAt is the plan point of the piece at a distance along the run; its ends
// beyond them.
func (p *Piece) PointAt(atMM float64) plan.Point {
	if atMM >= p.ToMM {
		return p.Path[len(p.Path)-1]
	}
	for s := range p.Stretches {
		if atMM <= s.FromMM+s.LengthMM {
			return s.A.Add(s.Along().Mul(math.Max(0, atMM-s.FromMM)))
		}
	}
	return p.Path[0]
}

// Stretches are the straights of the piece's centre line, in the order the water
// takes them.
func (p *Piece) Stretches(yield func(Stretch) bool) {
	at := p.FromMM
	for i := 1; i < len(p.Path); i++ {
		s := Stretch{p.Path[i-1], p.Path[i], at, p.Path[i].Sub(p.Path[i-1]).Len()}
		if s.LengthMM >= noLengthMM && !yield(s) {
			return
		}
		at += s.LengthMM
	}
}

// Gradient is the fall over the piece, positive down.
func (p Piece) Gradient() float64 {
	if p.LengthMM() <= 0 {
		return 0
	}
	return (p.FromInvertMM - p.ToInvertMM) / p.LengthMM()
}

// RadiusMM of the piece's body: of the pipe, or of a fitting with its sockets all
// along. That is more than there is between the sockets, so what keeps clear of it
// keeps clear of the fitting. A reducer counts with its larger end.
func (p Piece) RadiusMM() float64 {
	return math.Max(p.Pipe.OutsideDiameterMM/2+p.SocketMM(), p.After.OutsideDiameterMM/2+p.AfterSocketMM())
}

// WidestMM is the same with the sockets that straight pipe has where lengths of it meet.
func (p *Piece) WidestMM() float64 {
	widest := p.RadiusMM()
	for _, of := range [2]part.Pipe{p.Pipe, p.After} {
		widest = math.Max(widest, of.OutsideDiameterMM/2+of.SocketMM())
	}
	return widest
}

// SocketMM is how far the piece's upstream socket stands out over its pipe; nothing
// for one without, as a straight is.
func (p *Piece) SocketMM() float64 { return p.standsOutMM(p.Pipe) }

// AfterSocketMM is the same of its downstream socket.
func (p *Piece) AfterSocketMM() float64 { return p.standsOutMM(p.After) }

func (p *Piece) standsOutMM(pipe part.Pipe) float64 {
	switch p.Kind {
	case Straight:
		return 0
	case Joint:
		return math.Max(0, (p.OutsideMM-pipe.OutsideDiameterMM)/2)
	}
	return pipe.SocketMM()
}

// BelowInvertMM is how far the piece's body reaches below the invert at a distance
// along the run: the pipe's wall, and a fitting's socket. A reducer tapers from
// the one pipe to the other.
func (p *Piece) BelowInvertMM(atMM float64) float64 {
	return p.tapered(atMM, p.Pipe.WallMM()+p.SocketMM(), p.After.WallMM()+p.AfterSocketMM())
}

// AboveInvertMM is how far the piece's body reaches over the invert there: to its
// crown.
func (p *Piece) AboveInvertMM(atMM float64) float64 {
	return p.tapered(atMM, p.Pipe.BoreMM, p.After.BoreMM) + p.BelowInvertMM(atMM)
}

// tapered is between two values at the piece's ends at a distance along the run.
func (p *Piece) tapered(atMM, from, to float64) float64 {
	if from == to || p.LengthMM() <= 0 {
		return from
	}
	share := math.Max(0, math.Min(1, (atMM-p.FromMM)/p.LengthMM()))
	return from + (to-from)*share
}

// Name is what people call the piece.
func (p *Piece) Name() message.Numbered {
	switch p.Kind {
	case Joint:
		return message.Numbered{ID: "piece.joint", Number: p.Number}
	case Bend:
		if p.NearestDeg == 90 {
			return message.Numbered{ID: "piece.bend-90", Number: p.Number}
		}
		return message.Numbered{ID: "piece.bend-45", Number: p.Number}
	case Reducer:
		return message.Numbered{ID: "piece.reducer", Number: p.Number}
	case Adaptor:
		return message.Numbered{ID: "piece.adaptor", Number: p.Number}
	case FallingPiece:
		return message.Numbered{ID: "piece.falling-piece", Number: p.Number}
	case Drop:
		return message.Numbered{ID: "piece.drop", Number: p.Number}
	}
	return message.Numbered{ID: "piece.pipe", Number: p.Number}
}

// Middle of the piece in plan.
func (p Piece) Middle() plan.Point {
	if n := len(p.Path); n > 2 {
		return p.Path[n/2]
	}
	return p.Path[0].Add(p.Path[len(p.Path)-1]).Mul(0.5)
}

// Tapers tells whether the piece leads from one pipe to another.
func (p *Piece) Tapers() bool { return p.Kind == Reducer || p.Kind == Adaptor }

// InLine tells whether the piece is a fitting that the job states in the run.
func (p *Piece) InLine() bool { return p.Tapers() || p.Kind == FallingPiece }
