package question

import (
	"math"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Job is the job of a sheet's answers, with what is usual for the rest, or why there is none.
func (p Practice) Job(s Sheet) (job.Job, []Problem) {
	if problems := p.Check(s); len(problems) > 0 {
		return job.Job{}, problems
	}
	j := p.start.Clone()
	if s.Name != "" {
		j.Name = s.Name
	}
	j.Region, j.Units = s.Region, s.Units
	p.room(&j, s)
	p.floor(&j, s)
	p.shower(&j, s)
	if problems := j.Validate(); len(problems) > 0 {
		return job.Job{}, problemsOf(problems)
	}
	j = screened(j)
	j = p.water(j, s)
	p.stand(&j, s)
	j = s.Said.over(p, j, s)
	if problems := j.Validate(); len(problems) > 0 {
		return job.Job{}, problemsOf(problems)
	}
	return j, nil
}

// room gives the job its walls and its door.
func (p Practice) room(j *job.Job, s Sheet) {
	inside, outside := p.start.Room.Walls[0], p.start.Room.Walls[3]
	j.Room.Outline = p.Outline(s)
	j.Room.Walls = nil
	for i := range j.Room.Outline {
		w := inside
		if p.IsOutside(s, i) {
			w = outside
			ground := *outside.OutsideGroundMM
			w.OutsideGroundMM = &ground
		}
		if w.Kind == job.WallStud {
			// The usual walls run the other way round: their studs are counted from the end.
			w.FirstStudMM = math.Mod(math.Max(0, wallMM(j.Room.Outline, i)-w.FirstStudMM), w.StudSpacingMM)
		}
		j.Room.Walls = append(j.Room.Walls, w)
	}
	wide, from := p.doorMM(s)
	door := p.start.Room.Doorways[0]
	door.WidthMM, door.OffsetMM = wide, from
	j.Room.Doorways = []job.Doorway{door}
}

// IsOutside tells whether a wall counts as one with no room behind it: one that was said to be, or
// that the water goes out through.
func (p Practice) IsOutside(s Sheet, wall int) bool {
	out, through := p.Through(s)
	return s.Outside.Has(wall) || through && out == wall
}

// Through is the wall that water goes out through, as answered or assumed; ok is false where it goes
// another way.
func (p Practice) Through(s Sheet) (wall int, ok bool) {
	switch s.Water.To {
	case GoesOutThroughWall:
		return min(s.Water.Wall, len(p.Outline(s))-1), true
	case GoesAssumed, GoesNotKnown:
		return p.Stand(s).beside, true
	}
	return 0, false
}

// floor gives the job what the floor stands on; concrete stands in for what is not known.
func (p Practice) floor(j *job.Job, s Sheet) {
	if s.Floor.Is != Timber {
		j.Floor.Kind = job.FloorSlab
		return
	}
	j.Floor.Kind = job.FloorTimber
	joists := &j.Floor.Joists
	joists.DepthMM, joists.WidthMM = s.Floor.Deep.or(joists.DepthMM), s.Floor.Wide.or(joists.WidthMM)
	joists.SpacingMM = s.Floor.Every.or(joists.SpacingMM)
	const quarterDeg = 90
	if s.Floor.Runs == FromA {
		joists.DirectionDeg = quarterDeg
	}
}

// shower puts the shower in its place.
func (p Practice) shower(j *job.Job, s Sheet) {
	st := p.Stand(s)
	j.Shower = job.Shower{Wall: st.Wall, OffsetMM: st.OffsetMM, WidthMM: st.LongMM, DepthMM: st.DeepMM}
	// An exit that is sound until the water has its own.
	j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: st.Wall}
	if len(j.Validate()) > 0 {
		// No drain along a side is sold so short.
		if point := edit.FallWithDrain(job.FallPoint, p.shelf).Apply(*j); len(point.Validate()) == 0 {
			*j = point
		}
	}
}

// screensKey is the list of screens.
const screensKey = "shower.screens"

// screened is the job with a usual pane of glass where the shower has a place for one.
func screened(j job.Job) job.Job {
	for _, l := range job.Lists() {
		if l.Key != screensKey {
			continue
		}
		with := edit.AddItem(l).Apply(j)
		if n := len(with.Shower.Screens); n == 1 && with.Shower.Screens[0].Kind == job.ScreenPane && len(with.Validate()) == 0 {
			return with
		}
	}
	return j
}

// water leads the waste where the sheet says.
func (p Practice) water(j job.Job, s Sheet) job.Job {
	switch s.Water.To {
	case GoesIntoPipe:
		end := job.PipeEnd{At: s.Water.at(found(j))}
		if d := s.Water.Deep; d.Given {
			invert := -d.MM
			end.InvertMM = &invert
		}
		j.Room.PipeEnds = []job.PipeEnd{end}
		return edit.BoxIn().Apply(edit.LeadTo(0).Apply(j))
	case GoesIntoStack:
		at := s.Water.at(found(j))
		j = edit.ExitKind(job.ExitStack).Apply(j)
		if len(j.Room.Stacks) > 0 {
			j.Room.Stacks[0].At = at
			j = edit.BoxIn().Apply(edit.ExitStack(0).Apply(j))
		}
		if b := s.Water.Branch; b.Given {
			j = edit.ExitLevel(job.Exactly(-b.MM)).Apply(j)
		}
		return j
	}
	wall, _ := p.Through(s)
	return s.Water.outside(edit.WayOutside().Apply(edit.ThroughWall(wall).Apply(j)))
}

// outside is a job with what was said of the way outside.
func (w Water) outside(j job.Job) job.Job {
	b := j.Waste.Beyond
	if b == nil || w.To != GoesOutThroughWall {
		return j
	}
	switch w.Joins {
	case JoinsGully:
		b.Joins = job.JoinGully
	case JoinsStack:
		b.Joins = job.JoinStack
	case JoinsDrain:
		b.Joins = job.JoinDrain
	default:
		return j
	}
	b.LengthMM = w.Far.or(b.LengthMM)
	if w.Joins == JoinsGully && w.Grating.Given {
		level := -w.Grating.MM
		b.GratingMM = &level
	}
	return j
}

// at is where the pipe or the stack is, with a place found for what was not said of it.
func (w Water) at(found plan.Point) plan.Point {
	return plan.Point{w.Along.or(found.X()), w.Away.or(found.Y())}
}

// foundPlace is where a pipe or a stack of a sheet is looked for first, where its room is sound.
func (p Practice) foundPlace(s Sheet) plan.Point {
	s.Water = Water{To: GoesNotKnown}
	j, problems := p.Job(s)
	if len(problems) > 0 {
		return plan.Point{}
	}
	return found(j)
}

// found is where a pipe in the floor is looked for first: where a stack would stand.
func found(j job.Job) plan.Point {
	with := edit.ExitKind(job.ExitStack).Apply(j)
	if len(with.Room.Stacks) == 0 {
		return job.UsualStack(&j).At
	}
	return with.Room.Stacks[0].At
}
