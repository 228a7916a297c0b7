package layout

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// FieldJoint is a movement joint across the floor's tile, straight from A to B; Crease tells
// that it runs where falling planes meet.
type FieldJoint struct {
	A, B   plan.Point
	Crease bool
}

// LengthMM of the joint.
func (x FieldJoint) LengthMM() float64 { return x.B.Sub(x.A).Len() }

// Field is tile that no movement joint crosses: how far it reaches along the shower's back
// and away from it.
type Field struct{ WidthMM, DepthMM float64 }

// Fields is how movement joints divide the floor's tile.
type Fields struct {
	Joints []FieldJoint
	Fields []Field
}

// leastFieldMM is the least side that joints are laid out for, whatever is stated. Common
// practice, no source.
const leastFieldMM = 500

// noFieldMM2 is under which a part of the floor beside joints is no field.
const noFieldMM2 = 100

// FieldsOf divides the floor's tile so that no side is longer than stated: where planes of
// a falling floor meet first, then on the joints of the tile, evenly; evenly alone where the
// tile has no joints that run through, or is too large.
func (l *Layout) FieldsOf(j *job.Job) (out Fields) {
	greatest := math.Inf(1)
	if x := j.Layers.Joints; x != nil && x.GreatestFieldMM > 0 {
		greatest = math.Max(leastFieldMM, x.GreatestFieldMM)
	}
	for _, floor := range l.tiled(j) {
		parts := []plan.Region{floor.region}
		if creases := l.Creases(); floor.falls && len(creases) > 0 && l.longer(floor.region, greatest) {
			for _, c := range creases {
				out.Joints = append(out.Joints, FieldJoint{c.A, c.B, true})
			}
			parts = nil
			for _, p := range l.Planes {
				parts = append(parts, p.Region)
			}
		}
		for _, part := range parts {
			out.divide(l, part, floor.finish, greatest)
		}
	}
	return out
}

// tiledFloor is a part of the floor whose tile goes on without a joint.
type tiledFloor struct {
	region plan.Region
	finish *job.Finish
	falls  bool // it is all of the falling floor and nothing else
}

func (l *Layout) tiled(j *job.Job) []tiledFloor {
	shower, room := &j.Layers.Shower, &j.Layers.Room
	x := j.Layers.Joints
	switch {
	case j.Former.Fall == job.FallRoom || !j.RoomFinished():
		return []tiledFloor{{l.FallArea, shower, true}}
	case len(l.Rest) == 0 || x != nil && x.AtEdge:
		return []tiledFloor{{l.FallArea, shower, true}, {l.Rest, room, false}}
	}
	return []tiledFloor{{l.Room, room, false}}
}

// longer tells whether a region reaches farther than so much one way or the other.
func (l *Layout) longer(r plan.Region, mm float64) bool {
	for _, along := range [2]plan.Point{l.ToRight, l.Into} {
		if low, high := r.Reach(along); high-low > mm+plan.HairMM {
			return true
		}
	}
	return false
}

// divide adds the joints across a part of the floor, and its fields.
func (out *Fields) divide(l *Layout, part plan.Region, f *job.Finish, greatestMM float64) {
	if len(part) == 0 {
		return
	}
	var lines [2][]float64 // with the part's ends
	for k, along := range [2]plan.Point{l.ToRight, l.Into} {
		low, high := part.Reach(along)
		from, pitch := l.throughJoints(f, along)
		lines[k] = append(append([]float64{low}, cuts(low, high, greatestMM, from, pitch)...), high)
		across := plan.Left(along)
		for _, at := range lines[k][1 : len(lines[k])-1] {
			on := along.Mul(at)
			for _, iv := range part.Clip(on, across) {
				out.Joints = append(out.Joints, FieldJoint{on.Add(across.Mul(iv.From)), on.Add(across.Mul(iv.To)), false})
			}
		}
	}
	for i := 1; i < len(lines[0]); i++ {
		for k := 1; k < len(lines[1]); k++ {
			a, b, c, d := lines[0][i-1], lines[0][i], lines[1][k-1], lines[1][k]
			at := func(right, into float64) plan.Point { return l.ToRight.Mul(right).Add(l.Into.Mul(into)) }
			if plan.SharedArea(part, plan.FromRing(plan.Ring{at(a, c), at(b, c), at(b, d), at(a, d)})) > noFieldMM2 {
				out.Fields = append(out.Fields, Field{b - a, d - c})
			}
		}
	}
}

// throughJoints are the joints of a floor's tile that run right through across a direction:
// one lies at from along it, the others a pitch apart; a pitch of 0 where none do. Tile is
// set out from the middle of the drain's edge, along the drain.
func (l *Layout) throughJoints(f *job.Finish, along plan.Point) (fromMM, pitchMM float64) {
	fromMM = l.DrainEdge.Dot(along)
	const parallel = 0.99
	if math.Abs(l.DrainAlong.Dot(along)) > parallel {
		if f.Bond == job.BondStack {
			pitchMM = f.TileLengthMM + f.JointMM
		}
		return fromMM, pitchMM
	}
	switch f.Bond {
	case job.BondStack, job.BondHalf, job.BondThird:
		pitchMM = f.TileWidthMM + f.JointMM
	}
	return fromMM, pitchMM
}

// cuts are the places between two ends at which tile is parted so that no part is longer
// than so much: on through joints of the tile where that can be, evenly otherwise.
func cuts(lowMM, highMM, greatestMM, fromMM, pitchMM float64) []float64 {
	side := highMM - lowMM
	if side <= greatestMM+plan.HairMM {
		return nil
	}
	least := int(math.Ceil((side - plan.HairMM) / greatestMM))
	if pitchMM > 0 && pitchMM <= greatestMM {
		for n := least; n <= 2*least+1; n++ {
			if out, ok := onJoints(lowMM, highMM, greatestMM, fromMM, pitchMM, n); ok {
				return out
			}
		}
	}
	var out []float64
	for k := 1; k < least; k++ {
		out = append(out, lowMM+side*float64(k)/float64(least))
	}
	return out
}

// onJoints are the through joints nearest to where so many equal parts would end; ok is
// false where a part between them is too long.
func onJoints(lowMM, highMM, greatestMM, fromMM, pitchMM float64, n int) (out []float64, ok bool) {
	last := lowMM
	for k := 1; k < n; k++ {
		even := lowMM + (highMM-lowMM)*float64(k)/float64(n)
		at := fromMM + math.Round((even-fromMM)/pitchMM)*pitchMM
		if at <= last+plan.HairMM || at >= highMM-plan.HairMM {
			continue
		}
		if at-last > greatestMM+plan.HairMM {
			return nil, false
		}
		out, last = append(out, at), at
	}
	return out, highMM-last <= greatestMM+plan.HairMM
}
