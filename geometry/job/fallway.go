package job

import (
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// fallWay is where the drain lies that the floor falls to: at a wall, which is called by its letter, or elsewhere.
func fallWay() Input {
	in := pick("former.fall", FallKinds(), func(j *Job) *FallKind { return &j.Former.Fall })
	in.Choice.Options = func(j *Job, _ *part.Shelf) []Option {
		out := FallKinds().Options()
		for i, o := range out {
			if wall, ok := j.wallOfFall(FallKind(o.Value)); ok {
				out[i].Word = message.Of("choice.fall-at-wall", message.In("fall", o.Word), j.Room.Wall("wall", wall))
			}
		}
		return out
	}
	return in
}

// wallOfFall is the wall that a drain lies along where the floor falls so; ok is false where it lies along none.
func (j *Job) wallOfFall(k FallKind) (wall int, ok bool) {
	if len(j.Room.Outline) == 0 || j.Shower.Wall < 0 || j.Shower.Wall >= len(j.Room.Outline) {
		return 0, false
	}
	c := j.ShowerCorners()
	var a, b plan.Point
	switch k {
	case FallBack:
		return j.Shower.Wall, true
	case FallLeft:
		a, b = c[0], c[3]
	case FallRight:
		a, b = c[1], c[2]
	default:
		return 0, false
	}
	middle := a.Add(b).Mul(0.5)
	const nearMM = 1
	for i, from := range j.Room.Outline {
		to := j.Room.Outline[(i+1)%len(j.Room.Outline)]
		along := plan.Cross(to.Sub(from), b.Sub(a)) / (to.Sub(from).Len() * b.Sub(a).Len())
		if plan.DistanceToSegment(middle, from, to) < nearMM && along < alongSine && along > -alongSine {
			return i, true
		}
	}
	return 0, false
}

// alongSine is the sine of an angle under which a side still lies along a wall.
const alongSine = 0.05
