package edit

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// newWallMM is how thick a wall is that a room did not have before. Common practice, no source.
const newWallMM = 100

// Outline changes the room's corners. With as many as before each wall is the one it was. With more or
// fewer, a wall is the one before that it lies nearest to and looks the same way as, and what was at a
// wall goes to the wall that is nearest to its place in the room.
func Outline(ring []plan.Point) Edit {
	ring = slices.Clone(ring)
	return Of(message.Of("edit.corners"), func(j *job.Job) {
		was := *j
		was.Room.Outline = slices.Clone(j.Room.Outline)
		j.Room.Outline = slices.Clone(ring)
		if len(ring) != len(was.Room.Outline) || len(ring) != len(was.Room.Walls) {
			rewall(&was, j)
		}
	}).About("room.outline", "room.walls")
}

// side is a side of a room: its corners and the way out of it.
type side struct{ a, b, out plan.Point }

func sidesOf(outline []plan.Point) []side {
	out := make([]side, len(outline))
	turn := math.Copysign(1, -plan.Ring(outline).SignedArea())
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		out[i] = side{a, b, plan.Left(b.Sub(a).Normalize()).Mul(turn)}
	}
	return out
}

func (s side) lengthMM() float64 { return s.b.Sub(s.a).Len() }

// at is a place along the side.
func (s side) at(alongMM float64) plan.Point { return s.a.Add(s.b.Sub(s.a).Normalize().Mul(alongMM)) }

// nearly is how far a place on one side is from another side: farther where that looks another way.
func (s side) nearly(p, out plan.Point) float64 {
	const turnedMM = 3000 // what looking the other way counts for
	return plan.DistanceToSegment(p, s.a, s.b) + turnedMM*(1-out.Dot(s.out))
}

// rewall gives a room of another number of sides its walls, and what was at walls its place.
func rewall(was, j *job.Job) {
	old, sides := sidesOf(was.Room.Outline), sidesOf(j.Room.Outline)
	if len(sides) == 0 {
		return
	}
	from := wallsBefore(old[:min(len(old), len(was.Room.Walls))], sides)
	j.Room.Walls = make([]job.Wall, len(sides))
	for i := range sides {
		switch part := partOf(old, sides[i]); {
		case part >= 0 && part < len(was.Room.Walls):
			j.Room.Walls[i] = was.Room.Walls[part].From(sides[i].a.Sub(old[part].a).Len())
		case from[i] >= 0:
			j.Room.Walls[i] = was.Room.Walls[from[i]]
		default:
			j.Room.Walls[i] = job.Wall{Kind: job.WallKinds().Usual, ThicknessMM: newWallMM}
		}
	}
	h := hanging{old, sides}
	h.place(&j.Shower.Wall, &j.Shower.OffsetMM, j.Shower.WidthMM)
	if j.Waste.Exit.Kind == job.ExitWall {
		h.place(&j.Waste.Exit.Wall, &j.Waste.Exit.OffsetMM, 0)
	} else if j.Waste.Exit.Wall >= len(sides) {
		j.Waste.Exit.Wall = 0
	}
	for i := range j.Room.Doorways {
		d := &j.Room.Doorways[i]
		h.place(&d.Wall, &d.OffsetMM, d.WidthMM)
	}
	for i := range j.Room.Windows {
		w := &j.Room.Windows[i]
		h.place(&w.Wall, &w.OffsetMM, w.WidthMM)
	}
	for i := range j.Room.Fixtures {
		f := &j.Room.Fixtures[i]
		h.place(&f.Wall, &f.OffsetMM, f.WidthMM)
	}
	for i := range j.Room.Slopes {
		along := 0.0
		if w := j.Room.Slopes[i].Wall; w >= 0 && w < len(old) {
			along = old[w].lengthMM() / 2
		}
		h.place(&j.Room.Slopes[i].Wall, &along, 0)
	}
}

// partOf is which side before another lies on, by its index; -1 for none.
func partOf(old []side, s side) int {
	return slices.IndexFunc(old, func(o side) bool {
		return o.out.Dot(s.out) > 0 &&
			plan.DistanceToSegment(s.a, o.a, o.b) <= job.AtWallMM && plan.DistanceToSegment(s.b, o.a, o.b) <= job.AtWallMM
	})
}

// wallsBefore is which side before each of some sides is, by its index; -1 for none.
func wallsBefore(old, sides []side) []int {
	const leastCos, farthestMM = 0.9, 2500
	type pair struct {
		old, side int
		mm        float64
	}
	var pairs []pair
	for i, o := range old {
		for k, s := range sides {
			if o.out.Dot(s.out) < leastCos {
				continue
			}
			mm := s.a.Sub(o.a).Len() + s.b.Sub(o.b).Len()
			if o.b.Sub(o.a).Dot(s.b.Sub(s.a)) < 0 {
				mm = s.a.Sub(o.b).Len() + s.b.Sub(o.a).Len()
			}
			off := plan.DistanceToSegment(s.at(s.lengthMM()/2), o.a, o.b)
			if mm += 2 * off; off < farthestMM {
				pairs = append(pairs, pair{i, k, mm})
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return cmp.Compare(a.mm, b.mm) })
	out := slices.Repeat([]int{-1}, len(sides))
	taken := make([]bool, len(old))
	for _, p := range pairs {
		if !taken[p.old] && out[p.side] < 0 {
			taken[p.old], out[p.side] = true, p.old
		}
	}
	return out
}

// hanging is what is at walls as a room gets other sides: those before and after.
type hanging struct{ old, sides []side }

// place puts something so long along its wall to where it was, on the wall that is nearest to there.
func (h hanging) place(wall *int, offsetMM *float64, longMM float64) {
	if *wall < 0 || *wall >= len(h.old) {
		return
	}
	o := h.old[*wall]
	middle := o.at(*offsetMM + longMM/2)
	to := 0
	for i := range h.sides {
		if h.sides[i].nearly(middle, o.out) < h.sides[to].nearly(middle, o.out) {
			to = i
		}
	}
	s := h.sides[to]
	along := rounded(plan.Point{middle.Sub(s.a).Dot(s.b.Sub(s.a).Normalize()) - longMM/2}).X()
	*wall, *offsetMM = to, math.Max(0, math.Min(along, s.lengthMM()-longMM))
}
