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

// What comes next goes by weight: what stops the job, what is not known, what is only assumed, the
// sheets, the levels.
func TestWhatComesNext(t *testing.T) {
	stated := func(j *job.Job) { j.Standings = nil }
	read := func(j *job.Job) {
		stated(j)
		mm := 60.0
		j.AsBuilt.BaseTopMM = &mm
	}
	for name, c := range map[string]struct {
		change func(*job.Job)
		next   message.ID
		at     progress.Station
	}{
		"uphill":        {func(j *job.Job) { j.Waste.Gradient = -0.02 }, "rule.backfall.remedy", progress.WayOut},
		"unknown floor": {func(j *job.Job) { j.SetStanding("floor.kind", job.NotKnown) }, "progress.find-out", progress.FloorBelow},
		"refused":       {func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitStack, Stack: 4} }, "progress.mend", progress.Room},
	} {
		r, a := summary(t, c.change)
		s := progress.Of(&r, a)
		if s.Next.ID != c.next || s.At != c.at {
			t.Errorf("%s: next %s at %s, %s", name, s.Next, s.At.Name(), a.Headline())
		}
	}
	// With nothing left that a rule has something against, the rest follows.
	for name, c := range map[string]struct {
		change func(*job.Job)
		next   message.ID
	}{
		"assumed": {func(*job.Job) {}, "progress.assumed"},
		"stated":  {stated, "progress.hand-out"},
		"read":    {read, "progress.read"},
	} {
		r, a := summary(t, c.change)
		a.Cards = nil
		if next := progress.Next(&r, a); next.ID != c.next {
			t.Errorf("%s: next %s", name, next)
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
