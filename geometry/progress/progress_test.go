package progress_test

import (
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/progress"
	"underfall/geometry/question"
	"underfall/geometry/rule"
)

// summary is that of a job, made of a sheet with all answered and changed.
func summary(t *testing.T, change func(*job.Job)) (geometry.Result, geometry.Answer) {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	p := question.PracticeIn("UK", shelf)
	s := p.Begin()
	s.Floor.Is, s.Water.To = question.Concrete, question.GoesOutThroughWall
	s.Water.Wall = 1
	j, problems := p.Job(s)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	change(&j)
	r := geometry.Evaluate(j, packs["UK"])
	return r, r.Answer(nil)
}

// What comes next goes by weight, and a job is where that is done: what stops the job, what is not known, what is only assumed, the
// sheets, the levels.
func TestWhatComesNext(t *testing.T) {
	stated := func(j *job.Job) { j.Standings = nil }
	assumed := func(j *job.Job) {
		stated(j)
		j.SetStanding("room.doorways[0].widthMM", job.Assumed)
		j.SetStanding("waste.exit.offsetMM", job.Assumed)
	}
	readAll := func(j *job.Job) {
		stated(j)
		for _, l := range j.AsBuilt.Levels() {
			mm := 60.0
			*l.MM = &mm
		}
	}
	read := func(j *job.Job) {
		stated(j)
		mm := 60.0
		j.AsBuilt.BaseTopMM = &mm
	}
	for name, c := range map[string]struct {
		change func(*job.Job)
		next   message.ID
		where  message.ID
	}{
		"uphill":        {func(j *job.Job) { j.Waste.Gradient = -0.02 }, "rule.backfall.remedy", "progress.way-out"},
		"unknown floor": {func(j *job.Job) { j.SetStanding("floor.kind", job.NotKnown) }, "progress.find-out", "progress.floor"},
		"refused":       {func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitStack, Stack: 4} }, "progress.mend", "progress.way-out"},
	} {
		r, a := summary(t, c.change)
		s := progress.Of(&r, a)
		if s.Next.ID != c.next || s.Where() != c.where {
			t.Errorf("%s: next %s, %s, %s", name, s.Next, s.Where(), a.Headline())
		}
	}
	// With nothing left that a rule has something against, the rest follows.
	for name, c := range map[string]struct {
		change      func(*job.Job)
		next, where message.ID
		left        []bool // to say, station by station
	}{
		"assumed": {assumed, "progress.assumed", "progress.room", []bool{true, false, false, false, true, false, true}},
		"stated":  {stated, "progress.hand-out", "progress.not-begun", []bool{false, false, false, false, false, false, true}},
		"read":    {read, "progress.read", "progress.on-site", []bool{false, false, false, false, false, false, true}},
		"all":     {readAll, "progress.done", "progress.on-site", []bool{false, false, false, false, false, false, false}},
	} {
		r, a := summary(t, c.change)
		a.Cards = nil
		s := progress.Of(&r, a)
		if s.Next.ID != c.next || s.Where() != c.where {
			t.Errorf("%s: next %s, %s", name, s.Next, s.Where())
		}
		for k, settled := range s.Settled {
			if settled == c.left[k] {
				t.Errorf("%s: at %s there is nothing left to say: %v", name, job.Stations()[k], settled)
			}
		}
	}
}

// The plan is the room as it was stated, with its door and its shower; the step is the worst of the
// shower's own edges.
func TestThePlan(t *testing.T) {
	r, a := summary(t, func(*job.Job) {})
	s := progress.Of(&r, a)
	if len(s.Plan.Room) != 4 || len(s.Plan.Doors) != 1 || len(s.Plan.Shower) != 4 {
		t.Errorf("%+v", s.Plan)
	}
	if d := s.Plan.Doors[0]; d[0].Sub(d[1]).Len() != 760 {
		t.Errorf("the door is %v", d)
	}
	if s.Step == nil {
		t.Fatal("no step")
	}
	for _, e := range a.Steps {
		if e.Where.Of == rule.OpenEdge && e.MM > s.Step.MM {
			t.Errorf("%v is more than %v", e, *s.Step)
		}
	}
}
