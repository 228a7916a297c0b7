// Package waste lays out the waste run: the fittings and straights from the
// trap's outlet to the exit in plan, then the levels along them.
package waste

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// Kind is what a piece of the run is.
type Kind string

// The kinds of piece.
const (
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
	Number int // counted from one along the run
	// Path is the centre line in plan; a bend has many points.
	Path []plan.Point
	// FromMM and ToMM are distances along the run from the outlet, in plan.
	FromMM, ToMM float64
	TurnDeg      float64   // of a bend, without sign
	NearestDeg   float64   // the bend it is made with
	Pipe         part.Pipe // upstream
	After        part.Pipe // downstream; differs for a reducer or an adaptor
	Reversed     bool
	OwnSlope     float64 // of a falling piece, positive down
	Fitting      int     // index in the job of an in-line fitting
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
// along, which is on the safe side between them. A reducer counts with its larger end.
func (p Piece) RadiusMM() float64 {
	return math.Max(p.Pipe.OutsideDiameterMM/2+p.SocketMM(), p.After.OutsideDiameterMM/2+p.afterSocketMM())
}

// SocketMM is how far the piece's upstream socket stands out over its pipe; nothing
// for one without, as a straight is.
func (p *Piece) SocketMM() float64 {
	if p.Kind == Straight {
		return 0
	}
	return p.Pipe.SocketMM()
}

// afterSocketMM is the same of its downstream socket.
func (p *Piece) afterSocketMM() float64 {
	if p.Kind == Straight {
		return 0
	}
	return p.After.SocketMM()
}

// BelowInvertMM is how far the piece's body reaches below the invert at a distance
// along the run: the pipe's wall, and a fitting's socket. A reducer tapers from
// the one pipe to the other.
func (p *Piece) BelowInvertMM(atMM float64) float64 {
	return p.tapered(atMM, p.Pipe.WallMM()+p.SocketMM(), p.After.WallMM()+p.afterSocketMM())
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

// BendName is what people call a bend of so many degrees where none is laid.
func BendName(degrees float64) message.ID {
	if degrees == 90 {
		return "bend.90"
	}
	return "bend.45"
}

// Middle of the piece in plan.
func (p Piece) Middle() plan.Point {
	if n := len(p.Path); n > 2 {
		return p.Path[n/2]
	}
	return p.Path[0].Add(p.Path[len(p.Path)-1]).Mul(0.5)
}

// Trouble is something that makes the run unbuildable as stated in plan.
type Trouble struct {
	Kind TroubleKind
	// Number is the bend's, counted from one, 0 for the trap's outlet; or the
	// leg's or the in-line fitting's, counted from one.
	Number int
	At     plan.Point
	// Value and Limit are what was asked for and what there is.
	Value, Limit float64
}

// TroubleKind names a reason.
type TroubleKind string

// The reasons a run cannot be put together.
const (
	NoBend      TroubleKind = "no-bend"       // no fitting makes the turn; degrees
	NoRoom      TroubleKind = "no-room"       // a leg is too short for its bends; mm
	NoPlace     TroubleKind = "no-place"      // an in-line fitting does not lie on a straight; mm
	NothingLeft TroubleKind = "no-run-at-all" // outlet and exit are in one place
)

// Run is the waste run.
type Run struct {
	Pieces  []Piece
	Trouble []Trouble
	Corners []plan.Point // outlet, turns, exit at the inner wall face
	Exit    plan.Point   // at the inner wall face or over the drop
	ExitTo  plan.Point   // direction at the exit
	// LengthMM is the developed length in plan, through the wall.
	LengthMM float64
	// ExitAtMM is the distance along the run of Exit.
	ExitAtMM float64
	Bends    int
}

// pastWallMM is how far the pipe is drawn past the outer face of a wall.
const pastWallMM = 60

// Lay puts the run together in plan.
func Lay(j job.Job, l layout.Layout) Run {
	w := j.Waste
	r := Run{}
	exit, out := exitOf(w.Exit, l)
	turns := w.Waypoints
	if len(turns) == 0 {
		turns = simplest(l.Outlet, l.OutletTo, exit, out, w)
	}
	r.Corners = append(append([]plan.Point{l.Outlet}, turns...), exit)
	r.Corners = withoutRepeats(r.Corners)
	r.Exit = exit
	if len(r.Corners) < 2 || exit.Sub(l.Outlet).Len() < 1 {
		r.Trouble = append(r.Trouble, Trouble{Kind: NothingLeft, At: exit})
		r.ExitTo = l.OutletTo
		return r
	}
	legs := append([]plan.Point(nil), r.Corners...)
	n := len(legs)
	r.ExitTo = legs[n-1].Sub(legs[n-2]).Normalize()
	if w.Exit.Kind == job.ExitWall {
		wall := l.Walls[w.Exit.Wall]
		// Through the wall along the last leg; a leg along the wall goes square.
		square := r.ExitTo.Dot(wall.Outward)
		if square < 0.2 {
			legs = append(legs, exit.Add(wall.Outward.Mul(wall.ThicknessMM+pastWallMM)))
			r.ExitTo = wall.Outward
		} else {
			legs[n-1] = exit.Add(r.ExitTo.Mul((wall.ThicknessMM + pastWallMM) / square))
		}
	}
	r.lay(legs, l.OutletTo, w)
	r.ExitAtMM = r.exitAt(exit)
	return r
}

func withoutRepeats(points []plan.Point) []plan.Point {
	out := points[:1]
	for _, p := range points[1:] {
		if p.Sub(out[len(out)-1]).Len() > 0.5 {
			out = append(out, p)
		}
	}
	return out
}

// exitOf gives the exit's place and, for a wall, the way out.
func exitOf(e job.Exit, l layout.Layout) (at, out plan.Point) {
	if e.Kind == job.ExitWall {
		wall := l.Walls[e.Wall]
		return wall.At(e.OffsetMM), wall.Outward
	}
	return e.At, plan.Point{}
}

// simplest finds the turns of the simplest run: straight, one right-angled
// turn, or two. It looks at nothing in the way.
func simplest(from, to, exit, out plan.Point, w job.Waste) []plan.Point {
	rel := exit.Sub(from)
	ahead, aside := rel.Dot(to), plan.Cross(to, rel)
	side := plan.Left(to)
	if math.Abs(aside) < 1 && ahead > 0 {
		return nil
	}
	stub := w.Bend90FaceMM + 10
	if out == (plan.Point{}) {
		if ahead >= stub {
			return []plan.Point{from.Add(to.Mul(ahead))}
		}
		return []plan.Point{from.Add(to.Mul(stub)), from.Add(to.Mul(stub)).Add(side.Mul(aside))}
	}
	if s, t, ok := plan.MeetLines(from, to, exit, out.Mul(-1)); ok {
		if s >= w.Bend90FaceMM && t > 0 {
			return []plan.Point{from.Add(to.Mul(s))}
		}
		first := from.Add(to.Mul(stub))
		before := exit.Sub(out.Mul(stub))
		return []plan.Point{first, first.Add(side.Mul(before.Sub(first).Dot(side))), before}
	}
	// Outlet and exit lie on parallel lines: step across halfway, or turn back.
	if out.Dot(to) > 0 && ahead > 2*stub {
		half := from.Add(to.Mul(ahead / 2))
		if step := math.Abs(aside); ahead > step+4*w.Bend45FaceMM {
			return []plan.Point{half.Sub(to.Mul(step / 2)), half.Add(to.Mul(step / 2)).Add(side.Mul(aside))}
		}
		return []plan.Point{half, half.Add(side.Mul(aside))}
	}
	past := math.Max(stub, ahead+stub)
	return []plan.Point{from.Add(to.Mul(past)), from.Add(to.Mul(past)).Add(side.Mul(aside))}
}

// angleSlackDeg is how far a push-fit or solvent joint can be drawn off the
// fitting's angle; common practice, no source.
const angleSlackDeg = 2.5

func turnAt(a, b, c plan.Point) float64 {
	u, v := b.Sub(a), c.Sub(b)
	return math.Atan2(plan.Cross(u, v), u.Dot(v)) * 180 / math.Pi
}

// lay makes pieces of the legs.
func (r *Run) lay(legs []plan.Point, outletTo plan.Point, w job.Waste) {
	pipe := w.Pipe
	n := len(legs)
	// Tangent lengths and turns at every inner corner.
	tangent := make([]float64, n)
	turn := make([]float64, n)
	near := make([]float64, n)
	if first := turnAt(legs[0].Sub(outletTo), legs[0], legs[1]); math.Abs(first) > angleSlackDeg {
		r.Trouble = append(r.Trouble, Trouble{NoBend, 0, legs[0], math.Abs(first), angleSlackDeg})
	}
	for i := 1; i+1 < n; i++ {
		turn[i] = turnAt(legs[i-1], legs[i], legs[i+1])
		a := math.Abs(turn[i])
		if a <= angleSlackDeg {
			continue
		}
		face := w.Bend45FaceMM
		near[i] = 45
		if a > 67.5 {
			near[i], face = 90, w.Bend90FaceMM
		}
		tangent[i] = face * math.Tan(math.Min(a, 150)*math.Pi/360) / math.Tan(near[i]*math.Pi/360)
		r.Bends++
		if math.Abs(a-near[i]) > angleSlackDeg {
			r.Trouble = append(r.Trouble, Trouble{NoBend, i, legs[i], a, near[i]})
		}
	}
	if w.Exit.Kind == job.ExitFloor {
		// The bend that turns the run down takes the end of the last leg.
		tangent[n-1] = w.Bend90FaceMM
	}
	r.fitTangents(legs, tangent)
	at := 0.0
	number := 0
	add := func(p Piece) {
		number++
		p.Number = number
		p.FromMM = at
		length := 0.0
		for i := 1; i < len(p.Path); i++ {
			length += p.Path[i].Sub(p.Path[i-1]).Len()
		}
		at += length
		p.ToMM = at
		if p.After == (part.Pipe{}) {
			p.After = p.Pipe
		}
		r.Pieces = append(r.Pieces, p)
	}
	fittings := w.Fittings
	placed := make([]bool, len(fittings))
	// A straight and a bend to a leg, a fitting and a straight before it, a drop.
	r.Pieces = make([]Piece, 0, 2*n+2*len(fittings))
	for i := 0; i+1 < n; i++ {
		a, b := legs[i], legs[i+1]
		leg := b.Sub(a)
		length := leg.Len()
		u := leg.Mul(1 / length)
		before, after := tangent[i], tangent[i+1]
		pos, end := before, length-after
		for {
			next := -1
			for k, f := range fittings {
				start := at
				if !placed[k] && f.AtMM >= start-plan.HairMM && f.AtMM+f.LengthMM <= start+(end-pos)+plan.HairMM && (next < 0 || f.AtMM < fittings[next].AtMM) {
					next = k
				}
			}
			if next < 0 {
				break
			}
			f := fittings[next]
			placed[next] = true
			if gap := f.AtMM - at; gap > plan.HairMM {
				add(Piece{Kind: Straight, Path: []plan.Point{a.Add(u.Mul(pos)), a.Add(u.Mul(pos + gap))}, Pipe: pipe})
				pos += gap
			}
			piece := Piece{Kind: Kind(f.Kind), Path: []plan.Point{a.Add(u.Mul(pos)), a.Add(u.Mul(pos + f.LengthMM))}, Pipe: pipe, Reversed: f.Reversed, OwnSlope: f.Slope, Fitting: next}
			if piece.Tapers() {
				piece.After = f.Pipe
			} else if f.Reversed {
				piece.OwnSlope = -f.Slope
			}
			add(piece)
			pipe = r.Pieces[len(r.Pieces)-1].After
			pos += f.LengthMM
		}
		if end-pos > plan.HairMM {
			add(Piece{Kind: Straight, Path: []plan.Point{a.Add(u.Mul(pos)), a.Add(u.Mul(end))}, Pipe: pipe})
		}
		if i+2 < n && near[i+1] > 0 {
			add(Piece{Kind: Bend, Path: arc(b, u, legs[i+2].Sub(b).Normalize(), tangent[i+1], pipe.OutsideDiameterMM), Pipe: pipe,
				TurnDeg: math.Abs(turn[i+1]), NearestDeg: near[i+1]})
		}
	}
	for k, f := range fittings {
		if !placed[k] {
			r.Trouble = append(r.Trouble, Trouble{NoPlace, k + 1, legs[0], f.AtMM, at})
		}
	}
	if w.Exit.Kind == job.ExitFloor {
		r.Bends++
		add(Piece{Kind: Drop, Path: []plan.Point{legs[n-1]}, Pipe: pipe, TurnDeg: 90, NearestDeg: 90})
	}
	r.LengthMM = at
}

// fitTangents draws bends in where a leg is too short for those at its ends,
// and says so: the run stays in one piece and can be looked at.
func (r *Run) fitTangents(legs []plan.Point, tangent []float64) {
	wanted := append([]float64(nil), tangent...)
	for i := range len(legs) - 1 {
		length, need := legs[i+1].Sub(legs[i]).Len(), wanted[i]+wanted[i+1]
		if need <= length+plan.HairMM {
			continue
		}
		r.Trouble = append(r.Trouble, Trouble{NoRoom, i + 1, legs[i].Add(legs[i+1]).Mul(0.5), length, need})
		for k := i; k <= i+1; k++ {
			tangent[k] = math.Min(tangent[k], wanted[k]*length/need)
		}
	}
}

// arc is the centre line of a bend at a corner, tangent to both directions.
func arc(corner, in, out plan.Point, tangentMM, outsideDiameterMM float64) []plan.Point {
	theta := math.Atan2(plan.Cross(in, out), in.Dot(out))
	const straightRad = 1e-6 // the arc of so small a turn is its corner
	if tangentMM < plan.HairMM || math.Abs(theta) < straightRad {
		return []plan.Point{corner, corner}
	}
	radius := tangentMM / math.Tan(math.Abs(theta)/2)
	// The outside of the bend keeps the same chord error as the pipe.
	const chordErrorMM = 0.05
	steps := max(2, int(math.Ceil(math.Abs(theta)/(2*math.Acos(1-chordErrorMM/(radius+outsideDiameterMM))))))
	start := corner.Sub(in.Mul(tangentMM))
	toCentre := plan.Left(in)
	if theta < 0 {
		toCentre = toCentre.Mul(-1)
	}
	centre := start.Add(toCentre.Mul(radius))
	path := make([]plan.Point, 0, steps+1)
	for k := range steps + 1 {
		s, c := math.Sincos(math.Abs(theta) * float64(k) / float64(steps))
		path = append(path, centre.Sub(toCentre.Mul(radius*c)).Add(in.Mul(radius*s)))
	}
	path[steps] = corner.Add(out.Mul(tangentMM))
	return path
}

// exitAt is the distance along the run of its exit: on its last straight, unless a
// bend has drawn it off.
func (r *Run) exitAt(exit plan.Point) float64 {
	if last := &r.Pieces[len(r.Pieces)-1]; last.Kind == Straight {
		a, b := last.Path[0], last.Path[1]
		if q := plan.NearestOnSegment(exit, a, b); q.Sub(exit).Len() < noLengthMM {
			return last.FromMM + q.Sub(a).Len()
		}
	}
	return r.Nearest(exit)
}

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

// DropMM is how far the invert has fallen from the outlet to a distance along
// the run, when the free pieces fall at the given gradient. It is affine in
// the gradient: that is what makes the least raise a closed form.
func (r *Run) DropMM(atMM, gradient float64) float64 {
	drop := 0.0
	for i := range r.Pieces {
		p := &r.Pieces[i]
		within := math.Min(atMM, p.ToMM) - p.FromMM
		if within < 0 || p.Kind == Drop {
			break
		}
		switch {
		case p.Kind == FallingPiece:
			drop += within * p.OwnSlope
		case p.Tapers() && p.LengthMM() > 0:
			drop += within*gradient + p.stepMM()*within/p.LengthMM()
		default:
			drop += within * gradient
		}
	}
	return drop
}

// Tapers tells whether the piece leads from one pipe to another.
func (p *Piece) Tapers() bool { return p.Kind == Reducer || p.Kind == Adaptor }

// InLine tells whether the piece is a fitting that the job states in the run.
func (p *Piece) InLine() bool { return p.Tapers() || p.Kind == FallingPiece }

// stepMM is what a reducer takes off the invert: nothing the right way round;
// reversed, crowns are level and the invert moves by the difference in bores
// (negative: it rises, a backfall).
func (p Piece) stepMM() float64 {
	if !p.Tapers() || !p.Reversed {
		return 0
	}
	return p.After.BoreMM - p.Pipe.BoreMM
}

// GradientTo is the gradient of the free pieces that brings the invert from
// one level at the outlet to another at the exit; ok is false when there is no
// free length to do it in.
func (r *Run) GradientTo(outletInvertMM, exitInvertMM float64) (gradient float64, ok bool) {
	fixed := r.DropMM(r.ExitAtMM, 0)
	free := r.DropMM(r.ExitAtMM, 1) - fixed
	if free < 1 {
		return 0, false
	}
	return (outletInvertMM - exitInvertMM - fixed) / free, true
}

// WithLevels is the run with its inverts worked out from the outlet on.
func (r Run) WithLevels(outletInvertMM, gradient float64) Run {
	r.Pieces = append([]Piece(nil), r.Pieces...)
	r.Level(outletInvertMM, gradient)
	return r
}

// Level gives the run's own pieces their inverts, from the outlet on.
func (r *Run) Level(outletInvertMM, gradient float64) {
	for i := range r.Pieces {
		p := &r.Pieces[i]
		p.FromInvertMM = outletInvertMM - r.DropMM(p.FromMM, gradient)
		p.ToInvertMM = outletInvertMM - r.DropMM(p.ToMM, gradient)
	}
}

// InvertAt is the invert at a distance along a run that has levels.
func (r *Run) InvertAt(atMM float64) float64 {
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if atMM <= p.ToMM && p.LengthMM() > 0 {
			t := math.Max(0, (atMM-p.FromMM)/p.LengthMM())
			return p.FromInvertMM + (p.ToInvertMM-p.FromInvertMM)*t
		}
	}
	if n := len(r.Pieces); n > 0 {
		return r.Pieces[n-1].ToInvertMM
	}
	return 0
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

// Path is the whole centre line in plan.
func (r *Run) Path() []plan.Point {
	var out []plan.Point
	for _, p := range r.Pieces {
		for _, q := range p.Path {
			if len(out) == 0 || out[len(out)-1].Sub(q).Len() > plan.HairMM {
				out = append(out, q)
			}
		}
	}
	return out
}

// Outgoing is the pipe at the run's end.
func (r *Run) Outgoing() part.Pipe { return r.PipeAt(math.Inf(1)) }
