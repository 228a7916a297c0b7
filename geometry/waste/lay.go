package waste

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// pastWallMM is how far past the outer face of a wall the pipe goes where nothing else is
// known of it. Common practice, no source.
const pastWallMM = 60

// Lay puts the run together in plan.
func Lay(j job.Job, l layout.Layout) Run {
	w := j.Waste
	r := Run{}
	exit, out := Target(w.Exit, &l)
	turns := w.Waypoints
	if len(turns) == 0 {
		turns = simplest(l.Outlet, l.OutletTo, exit, out, &j)
	}
	r.Corners = append(append([]plan.Point{l.Outlet}, turns...), exit)
	r.Corners = withoutRepeats(r.Corners)
	r.Exit = exit
	n := len(r.Corners)
	if n < 2 || exit.Sub(l.Outlet).Len() < 1 {
		r.Trouble = append(r.Trouble, Trouble{Kind: NothingLeft, At: exit})
		r.ExitTo = l.OutletTo
		return r
	}
	r.ExitTo = r.Corners[n-1].Sub(r.Corners[n-2]).Normalize()
	legs := append([]plan.Point(nil), r.Corners...)
	if w.Exit.Kind == job.ExitStack {
		r.stopAt(legs, l.Stacks[w.Exit.Stack])
	}
	if w.Exit.Kind == job.ExitWall {
		wall := l.Walls[w.Exit.Wall]
		// Through the wall along the last leg; a leg along the wall goes square.
		square := r.ExitTo.Dot(wall.Outward)
		if square < 0.2 {
			legs, r.ExitTo, square = append(legs, exit), wall.Outward, 1
		}
		past := pastWallMM / square
		if way := w.WayOut(); way != nil {
			past = way.LengthMM
		}
		legs[len(legs)-1] = exit.Add(r.ExitTo.Mul(wall.ThicknessMM/square + past))
		r.Wall = wall.Index + 1
	}
	r.lay(legs, l.OutletTo, &j)
	switch w.Exit.Kind {
	case job.ExitStack:
		r.ExitAtMM = r.LengthMM
		r.leaveTo(l.Walls)
	case job.ExitWall:
		r.ExitAtMM = r.exitAt(exit)
		r.WallAtMM, r.WallTo = r.ExitAtMM, r.ExitTo
	default:
		r.ExitAtMM = r.exitAt(exit)
	}
	return r
}

// stopAt ends the last leg at the side of the stack that it goes to. One that begins
// within it says so.
func (r *Run) stopAt(legs []plan.Point, s layout.Stack) {
	n := len(legs)
	const leastMM = 1
	from := legs[n-2]
	if length := s.At.Sub(from).Len(); length < s.RadiusMM+leastMM {
		r.Trouble = append(r.Trouble, Trouble{Kind: NoRoom, Number: n - 1, At: from, Value: length, Limit: s.RadiusMM})
		return
	}
	legs[n-1] = s.At.Sub(r.ExitTo.Mul(s.RadiusMM))
	r.Exit = legs[n-1]
}

// leaveTo finds the first wall that the run goes out through.
func (r *Run) leaveTo(walls []layout.Wall) {
	for i := range r.Pieces {
		for s := range r.Pieces[i].Stretches {
			along, first := s.Along(), s.LengthMM
			for k := range walls {
				w := &walls[k]
				if along.Dot(w.Outward) <= 0 {
					continue
				}
				at, on, ok := plan.MeetLines(s.A, along, w.A, w.Along)
				if ok && at >= 0 && at < first && on >= 0 && on <= w.LengthMM {
					first, r.Wall, r.WallAtMM, r.WallTo = at, w.Index+1, s.FromMM+at, along
				}
			}
			if r.Wall > 0 {
				return
			}
		}
	}
}

// withoutRepeats leaves out turns that lie on what is before them; the last point, the exit,
// stays, and a turn on it goes.
func withoutRepeats(points []plan.Point) []plan.Point {
	out := points[:1]
	for _, p := range points[1:] {
		if p.Sub(out[len(out)-1]).Len() > 0.5 {
			out = append(out, p)
		}
	}
	if n := len(out); n > 1 {
		out[n-1] = points[len(points)-1]
	}
	return out
}

// Target is the place that the run's last leg goes to, of a stack its middle, and for a
// wall the way out.
func Target(e job.Exit, l *layout.Layout) (at, out plan.Point) {
	switch e.Kind {
	case job.ExitWall:
		wall := l.Walls[e.Wall]
		return wall.At(e.OffsetMM), wall.Outward
	case job.ExitStack:
		return l.Stacks[e.Stack].At, plan.Point{}
	}
	return e.At, plan.Point{}
}

// angleSlackDeg is how far a push-fit or solvent joint can be drawn off the
// fitting's angle; common practice, no source.
const angleSlackDeg = 2.5

func turnAt(a, b, c plan.Point) float64 {
	u, v := b.Sub(a), c.Sub(b)
	return math.Atan2(plan.Cross(u, v), u.Dot(v)) * 180 / math.Pi
}

// corner is what the run does at an end of a leg.
type corner struct {
	// turnDeg is to the left; nearestDeg is the bend it is made with, 0 for none.
	turnDeg, nearestDeg float64
}

// tangentMM is from the corner to the face of its bend, as the pipe there has bends: one
// drawn off its angle keeps its radius, and past 150° reaches no farther.
func (c corner) tangentMM(pipe part.Pipe) float64 {
	face := pipe.Bend90FaceMM
	switch c.nearestDeg {
	case 0:
		return 0
	case 45:
		face = pipe.Bend45FaceMM
	}
	return face * math.Tan(math.Min(math.Abs(c.turnDeg), 150)*math.Pi/360) / math.Tan(c.nearestDeg*math.Pi/360)
}

// lay makes pieces of the legs.
func (r *Run) lay(legs []plan.Point, outletTo plan.Point, j *job.Job) {
	n := len(legs)
	g := laying{legs: legs, corners: make([]corner, n), job: j}
	if first := turnAt(legs[0].Sub(outletTo), legs[0], legs[1]); math.Abs(first) > angleSlackDeg {
		r.Trouble = append(r.Trouble, Trouble{Kind: NoBend, At: legs[0], Value: math.Abs(first), Limit: angleSlackDeg})
	}
	for i := 1; i+1 < n; i++ {
		c := &g.corners[i]
		c.turnDeg = turnAt(legs[i-1], legs[i], legs[i+1])
		a := math.Abs(c.turnDeg)
		if a <= angleSlackDeg {
			continue
		}
		c.nearestDeg = 45
		if a > 67.5 {
			c.nearestDeg = 90
		}
		r.Bends++
		if math.Abs(a-c.nearestDeg) > angleSlackDeg {
			r.Trouble = append(r.Trouble, Trouble{Kind: NoBend, Number: i, At: legs[i], Value: a, Limit: c.nearestDeg})
		}
	}
	floor := j.Waste.Exit.Kind == job.ExitFloor
	if floor {
		// The bend that turns the run down takes the end of the last leg.
		g.corners[n-1] = corner{90, 90}
	}
	g.run(nil)
	if tangent, short := r.fitted(legs, g.tangent); short {
		g.run(tangent)
	}
	r.Pieces = g.pieces
	for k, f := range j.Waste.Fittings {
		if !g.placed[k] {
			r.Trouble = append(r.Trouble, Trouble{Kind: NoPlace, Number: k + 1, At: legs[0], Value: f.AtMM, Limit: g.atMM})
		}
	}
	if floor {
		r.Bends++
		g.names[n-1] = g.add(Piece{Kind: Drop, Path: []plan.Point{legs[n-1]}, Pipe: g.pipe, TurnDeg: 90, NearestDeg: 90}).Name()
		r.Pieces = g.pieces
	}
	r.LengthMM = g.atMM
	g.tell(r.Trouble)
}

// tell gives troubles the names of the pieces that they are about. A corner that the run goes
// straight through has none: the next one that has is the end of its leg.
func (g *laying) tell(all []Trouble) {
	for i := range all {
		t := &all[i]
		from, to := t.Number-1, t.Number
		switch {
		case t.Kind == NoBend && t.Number > 0:
			t.From = g.names[t.Number]
		case t.Kind == NoRoom:
			for from > 0 && g.names[from].ID == "" {
				from--
			}
			for to < len(g.names)-1 && g.names[to].ID == "" {
				to++
			}
			t.From, t.To = g.names[from], g.names[to]
		}
	}
}

// laying puts pieces one after the other along the legs of a run.
type laying struct {
	laid    int                // pieces with a number, so far
	names   []message.Numbered // of the pieces at the corners
	legs    []plan.Point
	corners []corner
	job     *job.Job
	// tangent is what is taken off the legs at every corner: by the trap's joint at the
	// first, by bends at the others.
	tangent []float64
	pieces  []Piece
	pipe    part.Pipe // there
	atMM    float64   // along the run
	placed  []bool    // of the fittings
}

// run lays all pieces but a drop. The bends are those of the pipe they are in, or where
// it is given what they take off the legs.
func (g *laying) run(given []float64) {
	w, n := &g.job.Waste, len(g.legs)
	g.pipe, g.atMM, g.placed, g.tangent = w.Pipe, 0, make([]bool, len(w.Fittings)), make([]float64, n)
	g.laid, g.names = 0, make([]message.Numbered, n)
	g.names[0] = (&Piece{Kind: Joint, Number: 1}).Name()
	// A straight and a bend to a leg, a fitting and a straight before it, a joint and a drop.
	g.pieces = make([]Piece, 0, 2*n+2*len(w.Fittings))
	taken := func(i int, pipe part.Pipe) float64 {
		if given != nil {
			return given[i]
		}
		return g.corners[i].tangentMM(pipe)
	}
	if g.tangent[0] = g.job.Drain.OutletJointMM; given != nil {
		g.tangent[0] = given[0]
	}
	for i := range n - 1 {
		leg := g.legs[i+1].Sub(g.legs[i])
		length := leg.Len()
		u := leg.Mul(1 / length)
		pos := 0.0
		place := func(p Piece, lengthMM float64) *Piece {
			p.Path, p.Pipe = []plan.Point{g.legs[i].Add(u.Mul(pos)), g.legs[i].Add(u.Mul(pos + lengthMM))}, g.pipe
			pos += lengthMM
			return g.add(p)
		}
		if joint := g.tangent[0]; i == 0 && joint > 0 {
			place(Piece{Kind: Joint, OutsideMM: g.job.Drain.OutletJointOutsideMM}, joint)
		}
		pos = g.tangent[i]
		for {
			next := g.next(func(pipe part.Pipe) float64 { return g.atMM + length - taken(i+1, pipe) - pos })
			if next < 0 {
				break
			}
			f := w.Fittings[next]
			g.placed[next] = true
			if gap := g.fittingAt(f) - g.atMM; gap > plan.HairMM {
				place(Piece{Kind: Straight}, gap)
			}
			piece := Piece{Kind: Kind(f.Kind), Reversed: f.Reversed, OwnSlope: f.Slope, Fitting: next}
			if piece.Tapers() {
				piece.After = withBends(f.Pipe, g.pipe)
			} else if f.Reversed {
				piece.OwnSlope = -f.Slope
			}
			g.pipe = place(piece, f.LengthMM).After
		}
		g.tangent[i+1] = taken(i+1, g.pipe)
		if rest := length - g.tangent[i+1] - pos; rest > plan.HairMM {
			place(Piece{Kind: Straight}, rest)
		}
		if c := g.corners[i+1]; i+2 < n && c.nearestDeg > 0 {
			out := g.legs[i+2].Sub(g.legs[i+1]).Normalize()
			bend := g.add(Piece{Kind: Bend, Pipe: g.pipe, TurnDeg: math.Abs(c.turnDeg), NearestDeg: c.nearestDeg,
				Path: arc(g.legs[i+1], u, out, g.tangent[i+1], g.pipe.OutsideDiameterMM)})
			bend.shape(g.legs[i+1], u, out, g.tangent[i+1])
			g.names[i+1] = bend.Name()
		}
	}
}

// next is the fitting to be laid next, by its index; -1 where none has its place
// before the end of the leg. That depends on the pipe that leads up to it.
func (g *laying) next(endMM func(part.Pipe) float64) int {
	fittings := g.job.Waste.Fittings
	next := -1
	for k, f := range fittings {
		pipe := g.pipe
		if f.Kind != job.FittingFallingPiece {
			pipe = withBends(f.Pipe, pipe)
		}
		at := g.fittingAt(f)
		if !g.placed[k] && at >= g.atMM-plan.HairMM && at+f.LengthMM <= endMM(pipe)+plan.HairMM && (next < 0 || f.AtMM < fittings[next].AtMM) {
			next = k
		}
	}
	return next
}

// fittingAt is where a fitting begins along the run: as stated, but not within the
// trap's joint.
func (g *laying) fittingAt(f job.Fitting) float64 {
	if joint := g.tangent[0]; joint > 0 {
		return math.Max(f.AtMM, joint)
	}
	return f.AtMM
}

// withBends is a pipe with its bends. Those that nobody stated are as large as those
// of the pipe before.
func withBends(p, before part.Pipe) part.Pipe {
	if p.Bend45FaceMM == 0 {
		p.Bend45FaceMM = before.Bend45FaceMM
	}
	if p.Bend90FaceMM == 0 {
		p.Bend90FaceMM = before.Bend90FaceMM
	}
	return p
}

// add puts a piece after the others. It stays where it is until the next comes.
func (g *laying) add(p Piece) *Piece {
	// The joint, the only one of its kind, is not counted with the others.
	p.Number, p.FromMM = 1, g.atMM
	if p.Kind != Joint {
		g.laid++
		p.Number = g.laid
	}
	length := 0.0
	for i := 1; i < len(p.Path); i++ {
		length += p.Path[i].Sub(p.Path[i-1]).Len()
	}
	g.atMM += length
	p.ToMM = g.atMM
	if p.After == (part.Pipe{}) {
		p.After = p.Pipe
	}
	g.pieces = append(g.pieces, p)
	return &g.pieces[len(g.pieces)-1]
}

// fitted draws joint and bends in where a leg is too short for those at its ends,
// and says so: the run stays in one piece and can be looked at.
func (r *Run) fitted(legs []plan.Point, wanted []float64) (tangent []float64, short bool) {
	tangent = append(tangent, wanted...)
	for i := range len(legs) - 1 {
		length, need := legs[i+1].Sub(legs[i]).Len(), wanted[i]+wanted[i+1]
		if need <= length+plan.HairMM {
			continue
		}
		short = true
		r.Trouble = append(r.Trouble, Trouble{Kind: NoRoom, Number: i + 1, At: legs[i].Add(legs[i+1]).Mul(0.5), Value: length, Limit: need})
		for k := i; k <= i+1; k++ {
			tangent[k] = math.Min(tangent[k], wanted[k]*length/need)
		}
	}
	return tangent, short
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
