package waste

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

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
