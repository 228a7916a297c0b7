package question

import (
	"math"
	"strings"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Said is one thing that was said of the floor beside the six questions, and all that was said before: a
// change laid over the job that the sheet makes. It is never changed itself; nil for nothing.
type Said struct {
	// key is the input that it is about, by its path in the job's file.
	key  string
	edit edit.Edit
	// of is the sheet that it was said of.
	of     about
	before *Said
}

// about is what something that is said may hang on: of another floor or another way out it says nothing.
type about struct {
	floor FloorIs
	runs  Runs
	to    GoesTo
	// wall is the one that the water goes out through, -1 where it goes another way.
	wall  int
	walls int
}

// same tells whether what an input hangs on is the same.
func (a about) same(key string, b about) bool {
	switch {
	case strings.HasPrefix(key, "floor."), strings.HasPrefix(key, "base."):
		return a.floor == b.floor && a.runs == b.runs
	case strings.HasPrefix(key, "waste.exit."):
		return a.to == b.to && a.wall == b.wall && a.walls == b.walls
	case strings.HasPrefix(key, "waste."):
		return a.wall == b.wall && a.walls == b.walls
	case strings.HasPrefix(key, job.PipeEndsKey), strings.HasPrefix(key, job.StacksKey):
		return a.to == b.to
	case strings.HasPrefix(key, "room."):
		return a.walls == b.walls
	}
	return true
}

func (p Practice) about(s Sheet) about {
	wall, through := p.Through(s)
	if !through {
		wall = -1
	}
	return about{s.Floor.Is, s.Floor.Runs, s.Water.To, wall, len(p.Outline(s))}
}

// Of tells whether anything was said of an input.
func (d *Said) Of(key string) bool {
	for ; d != nil; d = d.before {
		if d.key == key {
			return true
		}
	}
	return false
}

// over lays what was said of a sheet over its job, in the order in which it was said.
func (d *Said) over(p Practice, j job.Job, s Sheet) job.Job {
	if d == nil {
		return j
	}
	if j = d.before.over(p, j, s); d.of.same(d.key, p.about(s)) && !s.answers(d.key) {
		j = d.edit.Apply(j)
	}
	return j
}

// answers tells whether one of the questions has an answer that is an input, by its path in the job's
// file: that counts for more than what was said besides.
func (s Sheet) answers(key string) bool {
	e, is := s.EntryOf(key)
	return is && s.At(e).Given || key == joinsKey && s.Asked(JoinFar)
}

// Say is the sheet with one thing more said of an input, by its path in the job's file: an answer where
// one of the questions asks for it, a change laid over the job besides. Where the job would mean nothing
// the sheet is as it was, and the problems say why.
func (p Practice) Say(s Sheet, key string, e edit.Edit) (Sheet, []Problem) {
	j, problems := p.Job(s)
	if len(problems) > 0 {
		return s, problems
	}
	next := answered(s, e.Apply(j))
	next.Said = &Said{key, e, p.about(next), s.Said}
	if _, problems := p.Job(next); len(problems) > 0 {
		return s, problems
	}
	return next, nil
}

// answered is a sheet with the questions answered that were open, as far as a job has them stated.
func answered(s Sheet, j job.Job) Sheet {
	states := func(key string) bool { return !j.StandingOf(key).Open() }
	if s.Floor.Is == FloorNotKnown && states("floor.kind") {
		s.Floor.Is, s.Floor.Said = Concrete, true
		if j.Floor.Kind == job.FloorTimber {
			s.Floor.Is = Timber
		}
	}
	if s.Floor.Is == Timber && s.Floor.Runs == RunsNotKnown && states("floor.joists.directionDeg") {
		const nearly = 0.99
		switch along := plan.DirectionDeg(j.Floor.Joists.DirectionDeg); {
		case math.Abs(along.X()) > nearly:
			s.Floor.Runs = AlongA
		case math.Abs(along.Y()) > nearly:
			s.Floor.Runs = FromA
		}
	}
	if (s.Water.To == GoesAssumed || s.Water.To == GoesNotKnown) && states("waste.exit.kind") {
		switch j.Waste.Exit.Kind {
		case job.ExitWall:
			s.Water.To, s.Water.Wall = GoesOutThroughWall, j.Waste.Exit.Wall
		case job.ExitPipe:
			s.Water.To = GoesIntoPipe
		case job.ExitStack:
			s.Water.To = GoesIntoStack
		}
	}
	return s
}

// EntryOf is the length of a sheet that is an input of its job, by the input's path in the job's file; ok
// is false where the sheet asks for none.
func (s Sheet) EntryOf(key string) (e Entry, ok bool) {
	e, ok = entries()[key]
	return e, ok && s.Asked(e)
}

// entries are the lengths of a sheet by the paths of the inputs that they are in a job's file.
func entries() map[string]Entry {
	return map[string]Entry{"room.doorways[0].widthMM": DoorWide, "room.doorways[0].offsetMM": DoorFrom,
		"floor.joists.depthMM": JoistDeep, "floor.joists.widthMM": JoistWide, "floor.joists.spacingMM": JoistEvery,
		"shower.widthMM": ShowerLong, "shower.depthMM": ShowerDeep,
		joinFarKey: JoinFar, "waste.beyond.gratingMM": Grating, "room.pipeEnds[0].at[0]": WaterAlong, "room.pipeEnds[0].at[1]": WaterAway,
		"room.stacks[0].at[0]": WaterAlong, "room.stacks[0].at[1]": WaterAway, "room.pipeEnds[0].invertMM": PipeDeep,
		"waste.exit.level": BranchDeep}
}

// Confirm is the sheet with an input said to be as is assumed, by its path in the job's file.
func (p Practice) Confirm(s Sheet, key string) (Sheet, []Problem) {
	st := p.Stand(s)
	e, is := s.EntryOf(key)
	given := func(all ...Entry) Sheet {
		next := s
		for _, e := range all {
			next = next.With(e, Given(p.UsualMM(s, e)))
		}
		return next
	}
	switch {
	case is:
		return given(e), nil
	case key == job.OutlineKey && s.Room.Shape == Rectangle:
		return given(RoomLong, RoomWide), nil
	case key == job.OutlineKey && s.Room.Shape == LShaped:
		return given(RoomLong, RoomWide, CutLong, CutWide), nil
	case key == job.OutlineKey && s.Room.Drawn.Close().MissesMM == 0:
		c := s.Room.Drawn.Close()
		for i := range s.Room.Drawn.N {
			if !s.Room.Drawn.Walls[i].Long.Given && !c.WorkedOut.Has(i) {
				s = s.WithWall(i, Given(c.LengthMM(i)))
			}
		}
		return s, nil
	case key == "shower.wall" && st.Corner >= 0:
		s.Shower.Stands, s.Shower.Wall = InCorner, st.Corner
		return s, nil
	case key == "shower.wall":
		s.Shower.Stands, s.Shower.Wall = AtWall, st.Wall
		return s, nil
	case key == "waste.exit.kind":
		s.Water.Wall, _ = p.Through(s)
		s.Water.To = GoesOutThroughWall
		return s, nil
	}
	return p.Say(s, key, edit.Confirm(key))
}
