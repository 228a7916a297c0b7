package section

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// beyondMM is how far the floor beyond a doorway is drawn past its wall.
const beyondMM = 250

// steps draws, where the cut goes across a doorway, the floor beyond it, and measures the steps that
// it goes across, there and at open edges.
func (d *Drawing) steps(r geometry.Result, stage buildup.Stage) {
	if stage < buildup.StageTile {
		return
	}
	for _, s := range r.Steps() {
		switch s.Where.Of {
		case rule.Doorway:
			d.doorStep(&r, &r.Layout.Doors[s.Where.Number-1], s)
		case rule.OpenEdge:
			d.edgeStep(&r, r.Layout.OpenEdges()[s.Where.Number-1], s)
		}
	}
}

// crossing is where, along the cut, it goes across a straight on plan; ok is false where it does
// not, or runs nearly with it.
func (d *Drawing) crossing(a, b plan.Point) (x float64, ok bool) {
	const leastSine = 0.3
	along := b.Sub(a).Normalize()
	if math.Abs(plan.Cross(along, planOf(d.Cut.Along))) < leastSine {
		return 0, false
	}
	x, t, ok := plan.MeetLines(planOf(d.Cut.Origin), planOf(d.Cut.Along), a, along)
	return x, ok && t >= 0 && t <= b.Sub(a).Len()
}

// doorStep draws the floor beyond a doorway, marks its level and measures the step.
func (d *Drawing) doorStep(r *geometry.Result, door *layout.Doorway, s geometry.Step) {
	x, ok := d.crossing(door.A, door.B)
	if !ok {
		return
	}
	out := door.Wall.Outward.Dot(planOf(d.Cut.Along))
	far := x + sign(out)*(door.Wall.ThicknessMM/math.Abs(out)+beyondMM)
	level := r.Settled.Room.Doorways[door.Index].NeighbourFFLMM
	d.Lines = append(d.Lines, Line{[]plan.Point{{x, level}, {far, level}}, Heavy, false, "floor-beyond"})
	d.Low = plan.Point{math.Min(d.Low.X(), far), math.Min(d.Low.Y(), level)}
	d.High = plan.Point{math.Max(d.High.X(), far), math.Max(d.High.Y(), level)}
	room, beyond := r.Floor.FinishedMM(d.planAt(x-sign(out)*besideStepMM)), MarkBeyond
	if r.Settled.BeyondOpen(door.Index) {
		beyond = MarkBeyondAssumed
	}
	d.Marks = append(d.Marks, Mark{At: plan.Point{far - sign(out)*beyondMM/2, level}, Of: beyond, LevelMM: level})
	d.floorAtDoor(r, x, -sign(out), room)
	rise := buildup.DoorRise(level, room, r.Settled.DoorStopMM())
	d.stepDimension(x, rise.FromMM, rise.ToMM, sign(out), s)
}

// floorAtDoor marks the room's floor at a doorway, on the side of the cut's place there that the room is on: instead of where else on
// the same stretch of floor the same is told, and not where the shower's tile begins there at that level.
func (d *Drawing) floorAtDoor(r *geometry.Result, x, in, levelMM float64) {
	at := Mark{At: plan.Point{x + in*beyondMM/2, levelMM}, Of: MarkRoomFloor, LevelMM: levelMM}
	told := func(m *Mark) bool {
		return unit.AsRead(m.LevelMM, r.Settled.Units) == unit.AsRead(levelMM, r.Settled.Units)
	}
	for i := range d.Marks {
		if m := &d.Marks[i]; m.Of == MarkTile && told(m) && math.Abs(m.At.X()-x) < beyondMM/2 {
			return
		}
	}
	for _, iv := range d.along(r.Layout.Rest) {
		if at.At.X() < iv.From || at.At.X() > iv.To {
			continue
		}
		d.Marks = slices.DeleteFunc(d.Marks, func(m Mark) bool {
			return m.Of == MarkRoomFloor && told(&m) && m.At.X() > iv.From && m.At.X() < iv.To
		})
	}
	d.Marks = append(d.Marks, at)
}

// besideStepMM is how far off an open edge the room's floor is taken beside it.
const besideStepMM = 1

// roomFloorAt is where on a stretch of the room's floor its level is marked: in the middle, or so near to a step that
// the cut goes across that it is told as where that is measured from.
func (d *Drawing) roomFloorAt(r *geometry.Result, iv plan.Interval) float64 {
	middle := (iv.From + iv.To) / 2
	level := func(x float64) float64 { return unit.AsRead(r.Floor.FinishedMM(d.planAt(x)), r.Settled.Units) }
	from := func(foot float64) float64 {
		at := middle
		for math.Abs(at-foot) > besideStepMM && level(at) != level(foot) {
			at = (at + foot) / 2
		}
		return at
	}
	for _, s := range r.Steps() {
		if s.Where.Of != rule.OpenEdge || s.Kind == geometry.Flush {
			continue
		}
		e := r.Layout.OpenEdges()[s.Where.Number-1]
		x, ok := d.crossing(e.A, e.B)
		switch {
		case !ok:
		case math.Abs(x-iv.From) < besideStepMM:
			return from(iv.From + besideStepMM)
		case math.Abs(x-iv.To) < besideStepMM:
			return from(iv.To - besideStepMM)
		}
	}
	return middle
}

// edgeStep measures the step at an open edge where the cut goes across it.
func (d *Drawing) edgeStep(r *geometry.Result, e layout.Edge, s geometry.Step) {
	x, ok := d.crossing(e.A, e.B)
	if !ok {
		return
	}
	out := r.Layout.Outward(e)
	from, to := r.Floor.FinishedMM(d.planAt(x).Add(out.Mul(besideStepMM))), r.Heights.ShowerAt(&r.Layout, d.planAt(x))
	if kerb, has := r.Heights.KerbTop(&r.Settled, &r.Layout); has {
		from, to = math.Min(from, to), kerb
	}
	d.stepDimension(x, from, to, sign(out.Dot(planOf(d.Cut.Along))), s)
}

// How the dimension of a step is told.
const (
	DimensionStep message.ID = "dimension.step"
	DimensionLip  message.ID = "dimension.lip"
)

// stepDimension measures a step that is one, past what is measured on that side of it.
func (d *Drawing) stepDimension(x, from, to, side float64, s geometry.Step) {
	if s.Kind == geometry.Flush || math.Abs(to-from) <= plan.HairMM {
		return
	}
	row := 1
	for _, m := range d.Dimensions {
		if m.Side.X()*side > 0 && math.Abs(m.From.X()-x) < buildUpNearMM {
			row = max(row, m.Row+1)
		}
	}
	of := DimensionStep
	if s.Kind == geometry.Lip {
		of = DimensionLip
	}
	text := message.Of(of, message.Between("step", from, to))
	d.Dimensions = append(d.Dimensions, Dimension{From: plan.Point{x, from}, To: plan.Point{x, to}, Text: text,
		Row: row, Side: plan.Point{side, 0}, Step: true})
}

// buildUpNearMM is how near to a step dimensions of layers stand in its way.
const buildUpNearMM = 60
