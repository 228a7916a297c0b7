package assembly

import (
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/material"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// waste makes a body of each piece of the run. Straight pipe goes into the sockets of
// the fittings at its ends, as far as they are deep; between two fittings without pipe
// that is cut for it, the one's own wall goes on up to the other.
func (b *builder) waste() {
	pieces := b.heights.Run.Pieces
	for i := range pieces {
		p := &pieces[i]
		var body solid.Compound
		switch {
		case p.Kind == waste.Straight:
			body = b.straight(i)
		case p.Kind == waste.Drop:
			body = b.drop(i)
		default:
			body = b.fitting(i)
		}
		if len(body) == 0 {
			continue
		}
		shape := solid.Shape(body)
		if len(body) == 1 {
			shape = body[0]
		}
		id := fmt.Sprintf("run-%s-%d", p.Kind, p.Number)
		if p.Kind == waste.Joint {
			id = "run-joint" // the only one
		}
		b.add(Part{ID: id, Name: p.Name().Message(), Material: material.Plastic, Stage: buildup.StageWaste,
			Precedence: precedencePipe, From: "waste.gradient", Shape: shape})
	}
}

// isStraight tells whether a piece of the run, by its index, is straight pipe; what is
// before the first and after the last is not.
func (b *builder) isStraight(i int) bool {
	pieces := b.heights.Run.Pieces
	return i >= 0 && i < len(pieces) && pieces[i].Kind == waste.Straight
}

// ends are the middles of the pipe at both ends of a piece of the run.
func ends(p *waste.Piece) (from, to mgl64.Vec3) {
	return p.Path[0].Vec3(p.FromInvertMM + p.Pipe.BoreMM/2), p.Path[len(p.Path)-1].Vec3(p.ToInvertMM + p.After.BoreMM/2)
}

// way is how the pipe goes on, for each millimetre in plan, at both ends of a fitting:
// as the straight pipe in its socket, or where there is none as the fitting itself.
func (b *builder) way(i int) (from, to mgl64.Vec3) {
	p := &b.heights.Run.Pieces[i]
	path, down := p.BodyPath(), -p.Gradient()
	n := len(path)
	if n > 1 {
		from = path[1].Sub(path[0]).Normalize().Vec3(down)
		to = path[n-1].Sub(path[n-2]).Normalize().Vec3(down)
	} else {
		from = b.heights.Run.ExitTo.Vec3(0)
	}
	if b.isStraight(i - 1) {
		from = along(&b.heights.Run.Pieces[i-1])
	}
	if b.isStraight(i + 1) {
		to = along(&b.heights.Run.Pieces[i+1])
	}
	return from, to
}

// along is how a straight goes on for each millimetre in plan.
func along(p *waste.Piece) mgl64.Vec3 {
	return p.Path[1].Sub(p.Path[0]).Normalize().Vec3(-p.Gradient())
}

// tube is a body of a pipe's size along a path; nothing where it has no length.
func tube(outsideMM, insideMM float64, path ...mgl64.Vec3) solid.Compound {
	path = unrepeated(path)
	if len(path) < 2 {
		return nil
	}
	return solid.Compound{solid.Tube{Path: path, OutsideRadiusMM: outsideMM / 2, InsideRadiusMM: insideMM / 2}}
}

// unrepeated is a path without the points on it that repeat.
func unrepeated(path []mgl64.Vec3) (out []mgl64.Vec3) {
	for _, p := range path {
		if len(out) == 0 || p.Sub(out[len(out)-1]).Len() > plan.HairMM {
			out = append(out, p)
		}
	}
	return out
}

// pipeTube is pipe along a path.
func pipeTube(of part.Pipe, path ...mgl64.Vec3) solid.Compound {
	return tube(of.OutsideDiameterMM, of.BoreMM, path...)
}

// ring is a socket that stands out over the pipe in it; nothing where it does not.
func ring(of part.Pipe, standsOutMM float64, path ...mgl64.Vec3) solid.Compound {
	if standsOutMM <= 0 {
		return nil
	}
	return tube(of.OutsideDiameterMM+2*standsOutMM, of.OutsideDiameterMM, path...)
}

// straight is pipe from inside the socket before it to inside the one after.
func (b *builder) straight(i int) solid.Compound {
	pieces := b.heights.Run.Pieces
	p := &pieces[i]
	from, to := ends(p)
	u := along(p)
	if i > 0 {
		_, deep := pieces[i-1].Sockets()
		from = from.Sub(u.Mul(deep))
	}
	if i+1 < len(pieces) {
		deep, _ := pieces[i+1].Sockets()
		to = to.Add(u.Mul(deep))
	}
	return pipeTube(p.Pipe, from, to)
}

// fitting is a piece with sockets: its own wall between the ends of the pipes in them,
// and a ring for each socket.
func (b *builder) fitting(i int) solid.Compound {
	p := &b.heights.Run.Pieces[i]
	faceFrom, faceTo := ends(p)
	deepFrom, deepTo := p.Sockets()
	// The ends of the pipes that go in.
	from, to := faceFrom, faceTo
	wayFrom, wayTo := b.way(i)
	if deepFrom > 0 {
		from = from.Add(wayFrom.Mul(deepFrom))
	}
	if deepTo > 0 {
		to = to.Sub(wayTo.Mul(deepTo))
	}
	// What of the fitting's own wall takes the place of pipe in its sockets.
	var before, after []mgl64.Vec3
	if deepFrom > 0 && !b.isStraight(i-1) {
		before = []mgl64.Vec3{faceFrom, from}
	}
	if deepTo > 0 && !b.isStraight(i+1) {
		after = []mgl64.Vec3{to, faceTo}
	}
	var body solid.Compound
	if p.Tapers() {
		body = solid.Compound{solid.NewTaper(from, to, p.Pipe.OutsideDiameterMM/2, p.After.OutsideDiameterMM/2, p.Pipe.BoreMM/2, p.After.BoreMM/2)}
		body = append(append(body, pipeTube(p.Pipe, before...)...), pipeTube(p.After, after...)...)
	} else {
		body = pipeTube(p.Pipe, unkinked(slices.Concat(before, between(p, from, to), after), p.Pipe.OutsideDiameterMM/2)...)
	}
	if p.Kind == waste.Joint {
		return append(body, ring(p.Pipe, p.SocketMM(), faceFrom, faceTo)...)
	}
	body = append(body, ring(p.Pipe, p.SocketMM(), faceFrom, from)...)
	return append(body, ring(p.After, p.AfterSocketMM(), to, faceTo)...)
}

// between is the middle of a fitting from the end of the one pipe in it to that of the
// other, as much lower as it is farther on.
func between(p *waste.Piece, from, to mgl64.Vec3) []mgl64.Vec3 {
	plain := p.BodyPath()
	if p.Body != nil {
		plain = plain[1 : len(plain)-1] // without its sockets
	}
	whole, at := 0.0, 0.0
	for i := 1; i < len(plain); i++ {
		whole += plain[i].Sub(plain[i-1]).Len()
	}
	path := []mgl64.Vec3{from}
	for i := 1; i+1 < len(plain); i++ {
		at += plain[i].Sub(plain[i-1]).Len()
		path = append(path, plain[i].Vec3(from.Z()+(to.Z()-from.Z())*at/whole))
	}
	path = append(path, to)
	if p.Kind == waste.Bend && p.Body == nil && to.Sub(from).Len() > plan.HairMM {
		return unfolded(path, p.Pipe.OutsideDiameterMM/2)
	}
	return path
}

// drop turns the pipe down at a floor exit and takes it through the floor: a bend with
// two sockets, and the pipe in the lower one drawn as one with it.
func (b *builder) drop(i int) solid.Compound {
	r := &b.heights.Run
	p := &r.Pieces[i]
	axis, faceMM := p.FromInvertMM+p.Pipe.BoreMM/2, p.Pipe.Bend90FaceMM
	face := r.Exit.Sub(r.ExitTo.Mul(faceMM)).Vec3(axis)
	way, _ := b.way(i)
	deep, _ := p.Sockets()
	from, radius := face.Add(way.Mul(deep)), faceMM-deep
	path := []mgl64.Vec3{from}
	start := r.Exit.Sub(r.ExitTo.Mul(radius))
	const steps = 18
	for k := 1; k <= steps; k++ {
		s, c := math.Sincos(math.Pi / 2 * float64(k) / steps)
		path = append(path, start.Add(r.ExitTo.Mul(radius*s)).Vec3(from.Z()-radius*(1-c)))
	}
	down := path[steps]
	switch least := p.Pipe.OutsideDiameterMM/2 + foldRoomMM; {
	case radius < least:
		// Tighter than it is thick, it is mitred.
		path = []mgl64.Vec3{r.Exit.Sub(r.ExitTo.Mul(least)).Vec3(axis), r.Exit.Vec3(axis)}
	case deep > 0 && !b.isStraight(i-1):
		path = append([]mgl64.Vec3{face}, path...)
	}
	foot := math.Min(b.wallFootMM(), axis-faceMM) - 100
	body := pipeTube(p.Pipe, append(path, r.Exit.Vec3(foot))...)
	body = append(body, ring(p.Pipe, p.SocketMM(), face, from)...)
	return append(body, ring(p.Pipe, p.SocketMM(), down, down.Sub(mgl64.Vec3{0, 0, deep}))...)
}

// unfolded is the path of a bend's body. A bend that is tighter than its pipe is thick
// would fold over itself on its inner side; its body is mitred at the corner instead,
// with legs as long as the mitre needs.
func unfolded(path []mgl64.Vec3, radiusMM float64) []mgl64.Vec3 {
	n := len(path)
	u, v := path[1].Sub(path[0]).Normalize(), path[n-1].Sub(path[n-2]).Normalize()
	half := math.Tan(math.Acos(math.Max(-1, math.Min(1, u.Dot(v)))) / 2)
	chord := path[n-1].Sub(path[0])
	// Both legs run to the corner and are equal: chord = leg · (u + v).
	leg := chord.Len() / u.Add(v).Len()
	if half < noTurn || half > mostMitre || !anyFolds(path, radiusMM+foldRoomMM) {
		return path
	}
	corner := path[0].Add(u.Mul(leg)).Add(path[n-1].Sub(v.Mul(leg))).Mul(0.5)
	reach := (radiusMM + foldRoomMM) * half
	return []mgl64.Vec3{corner.Sub(u.Mul(reach)), corner, corner.Add(v.Mul(reach))}
}

// unkinked is the path of a fitting's body without the inner points at which it would fold over itself: between deep
// sockets little is left of a fitting that falls, and all of its fall is there.
func unkinked(path []mgl64.Vec3, radiusMM float64) []mgl64.Vec3 {
	path = unrepeated(path)
	for leg := 1; leg < len(path) && len(path) > 2; leg++ {
		if folds(path, leg, radiusMM) {
			drop := max(1, leg-1) // the point before it; of the first leg the one after
			path, leg = slices.Delete(path, drop, drop+1), 0
		}
	}
	return path
}

// anyFolds tells whether a tube of the radius folds over itself at any leg of its path.
func anyFolds(path []mgl64.Vec3, radiusMM float64) bool {
	for leg := 1; leg < len(path); leg++ {
		if folds(path, leg, radiusMM) {
			return true
		}
	}
	return false
}

// folds tells whether the mitres at both ends of a path's leg, by the index of its end, meet within a tube of the radius
// about it.
func folds(path []mgl64.Vec3, leg int, radiusMM float64) bool {
	direction := func(leg int) mgl64.Vec3 { return path[leg].Sub(path[leg-1]).Normalize() }
	along := direction(leg)
	// How far a mitre with a neighbour lies along the leg, for each millimetre aside of its middle.
	mitre := func(neighbour int) mgl64.Vec3 {
		if neighbour < 1 || neighbour >= len(path) {
			return mgl64.Vec3{} // an end, square
		}
		normal := along.Add(direction(neighbour))
		return normal.Mul(1 / along.Dot(normal)).Sub(along)
	}
	return mitre(leg+1).Sub(mitre(leg-1)).Len()*radiusMM >= path[leg].Sub(path[leg-1]).Len()
}

// The least radius of the inner side of a bend's body, and the tangent of half
// the sharpest turn that is mitred.
const (
	foldRoomMM = 1
	mostMitre  = 2.5
	noTurn     = 1e-6 // of a bend that is straight
)
