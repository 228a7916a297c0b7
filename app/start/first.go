package start

import (
	"context"
	"math"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/parallel"
	"underfall/geometry/plan"
	"underfall/geometry/progress"
	"underfall/geometry/question"
	"underfall/geometry/rule"
	"underfall/geometry/waste"
)

// First is the first answer to a sheet: from assumptions, and for each possibility of what is not known.
type First struct {
	// Lead says what is to be said before the cases.
	Lead  message.Message
	Cases []Case
	// Look is what is worth looking at first; nothing where nothing is not known.
	Look Look
	// Assumed are the inputs that practice stands in for, by their keys in the job.
	Assumed []string
	// Job is the sheet's job with what stands in, Run and Drain where its waste and its drain lie.
	Job   job.Job
	Run   []plan.Point
	Drain plan.Ring
}

// Case is one possibility: what it is, how it stands, and how one would build there.
type Case struct {
	Title, How message.Message
	Standing   geometry.Standing
	Step       *geometry.Step
	Build      Build
	HasBuild   bool
	Chance     int // of a hundred builds, as estimated
}

// Look is the one thing that settles most.
type Look struct {
	// What is to be done, What it Settles.
	What, Settles message.Message
}

// possibility is a sheet with what is not known taken to be so.
type possibility struct {
	title message.Message
	sheet question.Sheet
	// letIn tells that the floor is let in between joists where that goes.
	letIn bool
}

// FirstAnswer works the first answer out. A sheet that makes no job has none.
func FirstAnswer(ctx context.Context, p question.Practice, pack rule.Pack, s question.Sheet) (f First, ok bool) {
	j, problems := p.Job(s)
	if len(problems) > 0 {
		return f, false
	}
	all := possibilities(p, s)
	results := make([]geometry.Result, len(all)+1)
	err := parallel.Each(ctx, len(results), func(i int) error {
		if i == len(all) {
			results[i] = geometry.Evaluate(j, pack)
		} else {
			results[i] = worked(p, pack, all[i])
		}
		return nil
	})
	if err != nil {
		return f, false
	}
	own := &results[len(all)]
	f.Job, f.Assumed = j, j.Standing(job.Assumed)
	if len(own.Problems) == 0 {
		f.Run, f.Drain = corners(&own.Heights.Run), ringOf(own.Layout.Drain)
	}
	for i := range all {
		f.Cases = append(f.Cases, caseOf(all[i], &results[i]))
	}
	f.Lead, f.Look = lead(s, f.Cases), look(p, s, f.Cases)
	return f, true
}

// corners are the places where a run turns, as far as it lies in the room.
func corners(r *waste.Run) []plan.Point { return append([]plan.Point(nil), r.Corners...) }

// ringOf is the outline of a region in one piece.
func ringOf(r plan.Region) plan.Ring {
	if len(r) == 0 {
		return nil
	}
	return r[0].Outer
}

// worked is a possibility worked out: let in between joists where it is meant to be and that goes, else
// on the floor.
func worked(p question.Practice, pack rule.Pack, c possibility) geometry.Result {
	j, problems := p.Job(c.sheet)
	if len(problems) > 0 {
		return geometry.Result{}
	}
	on := geometry.Evaluate(j, pack)
	if !c.letIn {
		return on
	}
	j.Base.Support = job.BetweenJoists
	in := geometry.Evaluate(j, pack)
	if len(in.Problems) > 0 || in.Answer(nil).Standing == geometry.Stops && on.Answer(nil).Standing != geometry.Stops {
		return on
	}
	return in
}

// possibilities are what a sheet may come to: each floor that may be there; where that is known, each way
// out that the water may have.
func possibilities(p question.Practice, s question.Sheet) []possibility {
	along, across := ways(p, s)
	timber := func(runs question.Runs) question.Sheet {
		t := s
		t.Floor.Is, t.Floor.Runs = question.Timber, runs
		return t
	}
	concrete := s
	concrete.Floor.Is = question.Concrete
	switch {
	case s.Floor.Is == question.FloorNotKnown:
		return []possibility{{message.Of("start.case.along"), timber(along), true}, {message.Of("start.case.across"), timber(across), false},
			{message.Of("start.case.concrete"), concrete, false}}
	case s.Floor.Is == question.Timber && s.Floor.Runs == question.RunsNotKnown:
		return []possibility{{message.Of("start.case.along"), timber(along), true}, {message.Of("start.case.across"), timber(across), false}}
	case s.Water.To == question.GoesNotKnown:
		return outs(p, s)
	}
	return []possibility{{message.Of(floorCase(s, along)), s, s.Floor.Is == question.Timber && s.Floor.Runs == along}}
}

// floorCase is the id of what a known floor is called.
func floorCase(s question.Sheet, along question.Runs) message.ID {
	switch {
	case s.Floor.Is == question.Concrete:
		return "start.case.concrete"
	case s.Floor.Runs == along:
		return "start.case.along"
	}
	return "start.case.across"
}

// ways are the ways joists run along the pipe and across it: it goes straight out through its wall.
func ways(p question.Practice, s question.Sheet) (along, across question.Runs) {
	outline := p.Outline(s)
	wall, ok := p.Through(s)
	if !ok {
		wall = (p.Stand(s).Wall + len(outline) - 1) % len(outline)
	}
	d := outline[(wall+1)%len(outline)].Sub(outline[wall])
	if math.Abs(d.X()) > math.Abs(d.Y()) {
		return question.FromA, question.AlongA
	}
	return question.AlongA, question.FromA
}

// outs are the ways out that the water may have: through each wall at the shower, through the floor.
func outs(p question.Practice, s question.Sheet) (out []possibility) {
	for _, wall := range WallsAtShower(p, s) {
		o := s
		o.Water = question.Water{To: question.GoesOutThroughWall, Wall: wall}
		out = append(out, possibility{message.Of("start.case.wall", message.Name("wall", question.Letter(wall))), o, false})
	}
	pipe, stack := s, s
	pipe.Water, stack.Water = question.Water{To: question.GoesIntoPipe}, question.Water{To: question.GoesIntoStack}
	return append(out, possibility{message.Of("start.case.pipe"), pipe, false}, possibility{message.Of("start.case.stack"), stack, false})
}

// WallsAtShower are the walls that the shower of a sheet stands at, its own last.
func WallsAtShower(p question.Practice, s question.Sheet) []int {
	st := p.Stand(s)
	n := len(p.Outline(s))
	var out []int
	if st.OffsetMM < 1 {
		out = append(out, (st.Wall+n-1)%n)
	}
	if st.OffsetMM+st.LongMM > st.MostLongMM-1 {
		out = append(out, (st.Wall+1)%n)
	}
	return append(out, st.Wall)
}

// caseOf is how a possibility came out.
func caseOf(c possibility, r *geometry.Result) Case {
	a := r.Answer(nil)
	out := Case{Title: c.title, Standing: a.Standing, Chance: a.InHundred()}
	s := progress.Of(r, a)
	out.Step = s.Step
	out.Build, out.HasBuild = BuildOf(r)
	switch {
	case a.Standing == geometry.Stops:
		out.How = a.Headline()
		if cards := a.Of(rule.Stop); len(cards) > 0 {
			out.How = cards[0].Worst().Rule.Heading()
		}
	case r.Settled.Base.Support == job.BetweenJoists:
		out.How = message.Of("start.how.let-in")
	case r.Settled.Floor.Kind == job.FloorTimber:
		out.How = message.Of("start.how.deck")
	default:
		out.How = message.Of("start.how.slab")
	}
	return out
}

// spread is between which steps the cases that can be built lie; ok is false for fewer than two.
func spread(all []Case) (least, most float64, stops int, ok bool) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, c := range all {
		switch {
		case c.Standing == geometry.Stops:
			stops++
		case c.Step != nil:
			least, most = min(least, c.Step.MM), max(most, c.Step.MM)
		}
	}
	return least, most, stops, len(all)-stops > 1 && most >= least
}

// lead says what the cases have in common.
func lead(s question.Sheet, all []Case) message.Message {
	if len(all) < 2 {
		return message.Of("start.lead.one")
	}
	_, _, stops, _ := spread(all)
	what := message.Message{ID: "start.lead.floor"}
	if s.Floor.Is == question.Concrete || s.Floor.Is == question.Timber && s.Floor.Runs != question.RunsNotKnown {
		what.ID = "start.lead.water"
	}
	switch {
	case stops == len(all):
		return message.Of("start.lead.none", message.In("what", what))
	case stops > 0:
		return message.Of("start.lead.some", message.In("what", what))
	}
	return message.Of("start.lead.all", message.In("what", what))
}

// look is what settles most of what is not known.
func look(p question.Practice, s question.Sheet, all []Case) Look {
	if len(all) < 2 {
		return Look{}
	}
	least, most, stops, ok := spread(all)
	settles := message.Of("start.look.little")
	switch {
	case stops > 0:
		settles = message.Of("start.look.whether")
	case ok && most-least > 3:
		settles = message.Of("start.look.spread", message.MM("mm", most-least))
	}
	switch {
	case s.Floor.Is == question.FloorNotKnown:
		return Look{message.Of("start.look.board"), settles}
	case s.Floor.Is == question.Timber && s.Floor.Runs == question.RunsNotKnown:
		return Look{message.Of("start.look.nails"), settles}
	}
	wall := WallsAtShower(p, s)[0]
	return Look{message.Of("start.look.outside", message.Name("wall", question.Letter(wall))), settles}
}
