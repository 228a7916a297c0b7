package unknown

import (
	"fmt"
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Keys of what is not a number.
const (
	floorKey   = "floor.kind"
	runKey     = "floor.joists.directionDeg"
	firstKey   = "floor.joists.firstOffsetMM"
	supportKey = "base.support"
	exitKey    = "waste.exit.kind"
	wallKey    = "waste.exit.wall"
	levelKey   = "waste.exit.level"
)

// dimensions are the inputs of a standing of which it is known what they may be, what weighs most
// first, and the keys of the others.
func dimensions(r *geometry.Result, s job.Standing) (dims []dimension, untried []string) {
	j := &r.Stated
	keys := j.StandingUsed(s)
	has := func(key string) bool { return slices.Contains(keys, key) }
	done := map[string]bool{}
	add := func(d dimension, keys ...string) {
		dims = append(dims, d)
		for _, key := range keys {
			done[key] = true
		}
	}
	if has(floorKey) {
		add(floorDimension(r), floorKey)
	} else if has(runKey) && !openFloor(j) || has(firstKey) && !liesOpen(j) {
		add(joistDimension(r, has(runKey)), runKey, firstKey)
	}
	if has(exitKey) || has(wallKey) {
		add(exitDimension(r, has(exitKey)), exitKey, wallKey)
	}
	if has(supportKey) {
		add(supportDimension(), supportKey)
	}
	for _, key := range keys {
		if done[key] || (key == runKey || key == firstKey) && liesOpen(j) {
			continue
		}
		if d, ok := inputDimension(r, key); ok {
			add(d)
		} else if j.Uses(key) {
			untried = append(untried, key)
		}
	}
	return dims, untried
}

// liesOpen tells whether how the joists lie is found out with what is under the floor, or which way they
// run.
func liesOpen(j *job.Job) bool { return openFloor(j) || j.StandingOf(runKey).Open() }

// openFloor tells whether it is not known what the floor is: nobody then knows how its joists run.
func openFloor(j *job.Job) bool { return j.StandingOf(floorKey).Open() }

func timber(j *job.Job) bool { return j.Floor.Kind == job.FloorTimber }

// inOrder is several edits made one after the other.
func inOrder(edits ...edit.Edit) edit.Edit {
	return edit.Of(edits[0].What, func(j *job.Job) {
		for _, e := range edits {
			*j = e.Apply(*j)
		}
	})
}

// supportDimension is what the base stands on.
func supportDimension() dimension {
	return dimension{key: supportKey, what: job.PlaceInFile(supportKey), uses: timber,
		choices: func(j *job.Job) []choice {
			drawn, other := j.Base.Support, job.BetweenJoists
			if drawn == other {
				other = job.OnFloor
			}
			return []choice{{string(drawn), []edit.Edit{edit.Confirm(supportKey)}}, {string(other), []edit.Edit{edit.Support(other)}}}
		},
		say: func(id string, _ *geometry.Result) message.Message { return wordOf(job.SupportKinds(), id) }}
}

// wordOf is the word of a value of a list.
func wordOf[T ~string](e job.Enum[T], id string) message.Message {
	for _, c := range e.Choices {
		if string(c.Value) == id {
			return message.Of(c.Word())
		}
	}
	return message.Text(id)
}

// exit is a way out for the water.
type exit struct {
	id   string
	what message.Message
	edit edit.Edit
}

// exitDimension is where the water can go: as drawn, through every other wall with an outside, to the
// pipe ends that were found and into stacks, or one where a fitter would look for it, and down through
// the floor; through walls alone where the kind is known.
func exitDimension(r *geometry.Result, kind bool) dimension {
	exits := exitsOf(&r.Stated, kind)
	return dimension{key: exitKey, what: message.Of("unknown.exit"), uses: func(*job.Job) bool { return true },
		choices: func(*job.Job) []choice {
			var out []choice
			for _, e := range exits {
				out = append(out, choice{e.id, []edit.Edit{e.edit}})
			}
			return out
		},
		say: func(id string, _ *geometry.Result) message.Message {
			return exits[slices.IndexFunc(exits, func(e exit) bool { return e.id == id })].what
		}}
}

func exitsOf(j *job.Job, kind bool) []exit {
	own := j.Waste.Exit
	out := []exit{{"as-drawn", wayOut(j, own), inOrder(edit.Confirm(exitKey), edit.Confirm(wallKey))}}
	add := func(id string, to job.Exit, e edit.Edit) {
		out = append(out, exit{id, wayOut(j, to), inOrder(e, edit.Confirm(exitKey), edit.Confirm(wallKey))})
	}
	for i, w := range j.Room.Walls {
		drawn := own.Kind == job.ExitWall && own.Wall == i
		if w.OutsideGroundMM != nil && !drawn && (kind || own.Kind == job.ExitWall) {
			add(fmt.Sprintf("wall %d", i+1), job.Exit{Kind: job.ExitWall, Wall: i}, edit.ThroughWall(i))
		}
	}
	if !kind {
		return out
	}
	for i, p := range j.Room.PipeEnds {
		if !edit.SamePlace(p.Exit(), own) {
			add(fmt.Sprintf("pipe %d", i+1), p.Exit(), edit.LeadTo(i))
		}
	}
	for i := range j.Room.Stacks {
		if own.Kind != job.ExitStack || own.Stack != i {
			add(fmt.Sprintf("stack %d", i+1), job.Exit{Kind: job.ExitStack, Stack: i}, edit.ExitStack(i))
		}
	}
	if len(j.Room.Stacks) == 0 {
		add("stack", job.Exit{Kind: job.ExitStack}, edit.ExitKind(job.ExitStack))
	}
	if own.Kind != job.ExitFloor {
		add("floor", job.Exit{Kind: job.ExitFloor}, edit.ExitKind(job.ExitFloor))
	}
	return out
}

// wayOut says where an exit leads.
func wayOut(j *job.Job, e job.Exit) message.Message {
	switch e.Kind {
	case job.ExitWall:
		return message.Of("unknown.out-wall", j.Room.Wall("wall", e.Wall))
	case job.ExitFloor:
		return message.Of("unknown.out-floor")
	case job.ExitStack:
		return message.Of("unknown.out-stack")
	case job.ExitPump:
		return message.Of("unknown.out-pump")
	}
	return message.Of("unknown.out-pipe")
}
