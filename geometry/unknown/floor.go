package unknown

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// lie is how joists may lie: their direction, and where against the trap.
type lie struct {
	deg float64
	// at is where the trap is; free where it is known where the joists lie.
	at      against
	firstMM float64
	drawn   bool
}

// against is how a trap meets the joists.
type against string

const (
	asStated   against = "as-stated"
	betweenTwo against = "between-two"
	overOne    against = "over-one"
)

func (l lie) id() string { return idOf(job.AngleDeg(l.deg)) + " " + string(l.at) }

// lies are the ways in which the joists of a job may lie, if it has some: as they are drawn, or the
// other way where the direction is not known. Joists run along one pair of a room's walls or the
// other; where in the room they lie is as good as chance, and matters by whether the trap comes
// between two of them or over one. Common practice, no source.
func lies(r *geometry.Result, turn bool) []lie {
	j := r.Stated.Clone()
	drawn := timber(&j)
	j.Floor.Kind = job.FloorTimber
	free := j.StandingOf(firstKey).Open() || openFloor(&j) && j.StandingOf(firstKey) != job.Held
	degs := []float64{j.Floor.Joists.DirectionDeg}
	if turn && j.StandingOf(runKey) != job.Held {
		degs = append(degs, job.AngleDeg(degs[0]+90))
	}
	var out []lie
	for i, deg := range degs {
		if !free {
			out = append(out, lie{deg, asStated, j.Floor.Joists.FirstOffsetMM, drawn && i == 0})
			continue
		}
		j.Floor.Joists.DirectionDeg = deg
		lines := j.JoistLines()
		trapMM := r.Layout.TrapCentre.Sub(lines.Origin).Dot(plan.Left(lines.Along))
		bay := j.Floor.Joists.SpacingMM
		both := []lie{{deg, betweenTwo, math.Round(within(trapMM-bay/2, bay)), false}, {deg, overOne, math.Round(within(trapMM, bay)), false}}
		if drawn && i == 0 {
			offMM := within(trapMM-j.Floor.Joists.FirstOffsetMM, bay)
			if math.Min(offMM, bay-offMM) < (j.Drain.TrapSizeMM+j.Floor.Joists.WidthMM)/2 {
				slices.Reverse(both)
			}
			both[0].firstMM, both[0].drawn = j.Floor.Joists.FirstOffsetMM, true
		}
		out = append(out, both...)
	}
	return out
}

// within is a length less whole bays.
func within(mm, bay float64) float64 {
	mm = math.Mod(mm, bay)
	if mm < 0 {
		mm += bay
	}
	return mm
}

// runsAlong tells whether joists of a direction run along the pipe rather than across it: by its
// longest straight.
func runsAlong(r *geometry.Result, deg float64) bool {
	var longest plan.Point
	corners := r.Heights.Run.Corners
	for i := 1; i < len(corners); i++ {
		if leg := corners[i].Sub(corners[i-1]); leg.Len() > longest.Len() {
			longest = leg
		}
	}
	if longest.Len() == 0 {
		return false
	}
	return math.Abs(plan.DirectionDeg(deg).Dot(longest.Normalize())) > math.Sqrt2/2
}

// laid lays the joists of a job so; lines of support and trimmers of another direction are not
// theirs.
func (l lie) laid() edit.Edit {
	run, _ := job.Find(runKey)
	first, _ := job.Find(firstKey)
	number := inOrder(edit.Number(run, l.deg), edit.Number(first, l.firstMM))
	return edit.Of(number.What, func(j *job.Job) {
		if was := &j.Floor.Joists; job.AngleDeg(was.DirectionDeg) != job.AngleDeg(l.deg) || was.FirstOffsetMM != l.firstMM {
			was.SupportsMM, was.Trims = nil, nil
		}
		*j = number.Apply(*j)
	})
}

// waysOnTimber are the ways to set a base on a timber floor that an edit makes: as it was, and let in
// between the joists where nobody has decided.
func waysOnTimber(stated *job.Job, floor edit.Edit) []edit.Edit {
	free := stated.StandingOf(supportKey).Open() || openFloor(stated) && stated.StandingOf(supportKey) != job.Held
	if !free {
		return []edit.Edit{floor}
	}
	return []edit.Edit{inOrder(floor, edit.Support(job.OnFloor)), inOrder(floor, edit.Support(job.BetweenJoists))}
}

// choices are the lies as choices, on a timber floor that an edit makes.
func choices(stated *job.Job, all []lie, confirm, floor edit.Edit) (out []choice) {
	for _, l := range all {
		c := choice{l.id(), waysOnTimber(stated, inOrder(floor, l.laid()))}
		if l.drawn {
			c.ways = []edit.Edit{confirm}
		}
		out = append(out, c)
	}
	return out
}

// concreteID is the id of concrete under the floor.
const concreteID = "concrete"

// floorDimension is what is under the floor: concrete, or joists that lie in either direction.
func floorDimension(r *geometry.Result) dimension {
	stated, all := r.Stated, lies(r, true)
	confirm := inOrder(edit.Confirm(floorKey), edit.Confirm(runKey), edit.Confirm(firstKey))
	slab := choice{concreteID, []edit.Edit{edit.FloorKind(job.FloorSlab)}}
	if !timber(&stated) {
		slab.ways = []edit.Edit{confirm}
	}
	out := choices(&stated, all, confirm, edit.FloorKind(job.FloorTimber))
	if timber(&stated) {
		out = append(out, slab)
	} else {
		out = append([]choice{slab}, out...)
	}
	return dimension{key: floorKey, what: message.Of("unknown.floor"), uses: func(*job.Job) bool { return true },
		choices: func(*job.Job) []choice { return out },
		say: func(id string, r *geometry.Result) message.Message {
			if id == concreteID {
				return message.Of("unknown.concrete")
			}
			return message.Of("unknown.timber", message.In("joists", sayLie(all, id, r)))
		}}
}

// joistDimension is how the joists of a timber floor lie, turned or not.
func joistDimension(r *geometry.Result, turn bool) dimension {
	stated, all := r.Stated, lies(r, turn)
	confirm := inOrder(edit.Confirm(runKey), edit.Confirm(firstKey))
	out := choices(&stated, all, confirm, edit.Of(confirm.What, func(*job.Job) {}))
	key, what := runKey, message.Of("unknown.joists-run")
	if !turn {
		key, what = firstKey, message.Of("unknown.joists-lie")
	}
	return dimension{key: key, what: what, uses: timber, choices: func(*job.Job) []choice { return out },
		say: func(id string, r *geometry.Result) message.Message { return sayLie(all, id, r) }}
}

// sayLie says how joists lie against the pipe and the trap.
func sayLie(all []lie, id string, r *geometry.Result) message.Message {
	l := all[slices.IndexFunc(all, func(l lie) bool { return l.id() == id })]
	runs := message.Of("unknown.joists-across")
	if runsAlong(r, l.deg) {
		runs = message.Of("unknown.joists-along")
	}
	switch l.at {
	case betweenTwo:
		return message.Of("unknown.trap-between", message.In("joists", runs))
	case overOne:
		return message.Of("unknown.trap-over", message.In("joists", runs))
	}
	return runs
}
