package question_test

import (
	"context"
	"reflect"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/question"
	"underfall/geometry/unknown"
)

// explored is what the job of a sheet may come to.
func explored(t *testing.T, p question.Practice, s question.Sheet) unknown.Exploration {
	t.Helper()
	x, err := unknown.Explore(context.Background(), evaluated(t, made(t, p, s)))
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Who has looked says what there was: whichever it is, the question is answered, the job has it stated,
// and there are fewer possibilities. Another answer to the same question counts for more.
func TestSayingWhatWasSeen(t *testing.T) {
	p := practice(t, "UK")
	floor := p.Begin()
	floor.Water = question.Water{To: question.GoesOutThroughWall, Wall: 1}
	way := p.Begin()
	way.Floor.Is = question.Timber
	out := p.Begin()
	out.Floor.Is, out.Water.To = question.Concrete, question.GoesNotKnown
	for name, s := range map[string]question.Sheet{"the floor": floor, "the joists": way, "the way out": out} {
		x := explored(t, p, s)
		if x.Look == nil {
			t.Fatalf("%s: nothing to look at", name)
		}
		for _, v := range x.Look.Of.Values {
			next, problems := p.Say(s, x.Look.Of.Key, v.Edit)
			if len(problems) > 0 || next == s || !next.Said.Of(x.Look.Of.Key) {
				t.Errorf("%s, %v: %v", name, v.What, problems)
				continue
			}
			j, want := made(t, p, next), v.Edit.Apply(made(t, p, s))
			if j.StandingOf(x.Look.Of.Key).Open() {
				t.Errorf("%s, %v: still %q", name, v.What, j.StandingOf(x.Look.Of.Key))
			}
			if j.Floor.Kind != want.Floor.Kind || !reflect.DeepEqual(j.Floor.Joists, want.Floor.Joists) || j.Waste.Exit.Kind != want.Waste.Exit.Kind ||
				j.Waste.Exit.Kind == job.ExitWall && j.Waste.Exit.Wall != want.Waste.Exit.Wall {
				t.Errorf("%s, %v: %+v, %+v, out %+v", name, v.What, j.Floor.Kind, j.Floor.Joists, j.Waste.Exit)
			}
			if n := len(explored(t, p, next).Cases); n >= len(x.Cases) {
				t.Errorf("%s, %v: %d possibilities, %d before", name, v.What, n, len(x.Cases))
			}
			next.Floor = question.Floor{Is: question.Concrete, Said: true}
			next.Water = question.Water{To: question.GoesOutThroughWall, Wall: 2}
			if j := made(t, p, next); j.Floor.Kind != job.FloorSlab || j.Waste.Exit.Kind != job.ExitWall || j.Waste.Exit.Wall != 2 {
				t.Errorf("%s, %v: then concrete and C, but %v and %+v", name, v.What, j.Floor.Kind, j.Waste.Exit)
			}
		}
	}
}

// All that is assumed can be said to be so: then nothing is, and the job is the same but for that.
func TestConfirmingAllThatIsAssumed(t *testing.T) {
	for _, region := range []string{"UK", "US", "DE"} {
		p := practice(t, region)
		concrete := p.Begin()
		concrete.Floor.Is = question.Concrete
		timber := p.Begin()
		timber.Floor.Is, timber.Floor.Runs = question.Timber, question.FromA
		ell := concrete
		ell.Room.Shape = question.LShaped
		pipe, stack := concrete, concrete
		pipe.Water.To, stack.Water.To = question.GoesIntoPipe, question.GoesIntoStack
		for name, s := range map[string]question.Sheet{"concrete": concrete, "timber": timber, "an L": ell, "drawn": p.Draw(ell), "a pipe": pipe, "a stack": stack} {
			before := made(t, p, s)
			for range before.Standing(job.Assumed) {
				next, problems := p.Confirm(s, firstAssumed(made(t, p, s)))
				if len(problems) > 0 {
					t.Fatalf("%s, %s: %v", region, name, problems)
				}
				s = next
			}
			after := made(t, p, s)
			if open := after.Standing(job.Assumed); len(open) > 0 {
				t.Errorf("%s, %s: still %v", region, name, open)
			}
			if after.ShowerCorners() != before.ShowerCorners() || after.Waste.Exit.Kind != before.Waste.Exit.Kind || !reflect.DeepEqual(after.Floor.Joists, before.Floor.Joists) {
				t.Errorf("%s, %s: %v became %v", region, name, before.ShowerCorners(), after.ShowerCorners())
			}
		}
	}
}

// firstAssumed is the first input of a job that is assumed; empty for none.
func firstAssumed(j job.Job) string {
	for _, key := range j.Standing(job.Assumed) {
		return key
	}
	return ""
}

// A number that is no question's is said of the job: it is stated there, and stays where the questions
// are answered otherwise.
func TestSayingANumber(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin()
	trap, _ := job.Find("drain.trapDepthMM")
	said, problems := p.Say(s, trap.Key, edit.Number(trap, 95))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	said = said.With(question.RoomLong, question.Given(3000))
	said.Floor.Is = question.Concrete
	if j := made(t, p, said); trap.Get(j) != 95 || j.StandingOf(trap.Key).Open() {
		t.Errorf("%v, %q", trap.Get(j), j.StandingOf(trap.Key))
	}
	// One that cannot be is not taken.
	if same, problems := p.Say(s, trap.Key, edit.Number(trap, 1)); len(problems) == 0 || same != s {
		t.Errorf("taken: %v", problems)
	}
}
