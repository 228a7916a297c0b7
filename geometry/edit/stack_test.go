package edit_test

import (
	"testing"

	"pgregory.net/rapid"
	"underfall/assets"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// The waste stays where it leads when stacks come, move and go: the exit tells which stack
// by its place in the list.
func TestStacksOfTheExit(t *testing.T) {
	stacks, _ := job.FindList("room.stacks")
	two := func(exit int) job.Job {
		j := job.New()
		j.Room.Stacks = []job.Stack{{At: plan.Point{200, 300}, NominalMM: 110, OutsideMM: 110}, {At: plan.Point{2200, 300}, NominalMM: 110, OutsideMM: 110}}
		j.Waste.Exit = job.Exit{Kind: job.ExitStack, Stack: exit}
		return j
	}
	for name, c := range map[string]struct {
		from job.Job
		edit edit.Edit
		want job.Exit
	}{
		"its stack goes":      {two(0), edit.RemoveItem(stacks, 0), job.Exit{Kind: job.ExitPipe, At: plan.Point{200, 300}}},
		"one before it goes":  {two(1), edit.RemoveItem(stacks, 0), job.Exit{Kind: job.ExitStack, Stack: 0}},
		"one after it goes":   {two(0), edit.RemoveItem(stacks, 1), job.Exit{Kind: job.ExitStack, Stack: 0}},
		"into another":        {two(0), edit.ExitStack(1), job.Exit{Kind: job.ExitStack, Stack: 1}},
		"into none there is":  {two(0), edit.ExitStack(2), job.Exit{Kind: job.ExitStack, Stack: 0}},
		"dragged to another":  {two(0), edit.Drag(edit.Handle{Kind: edit.HandleExit}, plan.Point{1900, 500}), job.Exit{Kind: job.ExitStack, Stack: 1}},
		"to a pipe's end now": {two(1), edit.ExitKind(job.ExitPipe), job.Exit{Kind: job.ExitPipe, Stack: 1, At: plan.Point{2200, 300}}},
	} {
		got := c.edit.Apply(c.from)
		if got.Waste.Exit != c.want {
			t.Errorf("%s: %+v, want %+v", name, got.Waste.Exit, c.want)
		}
		if p := got.Validate(); len(p) > 0 {
			t.Errorf("%s: %v", name, p)
		}
	}
	// One that is to go into a stack where there is none has one put up by a wall, 55 + 60 off
	// it. The outlet is at (645, 1832), the shower from y = 1000 up. The corner at the back right,
	// (2285, 1785), lies 47 aside of it, which bends do not make; the one at the front right is
	// before the doorway, from x = 1500 to 2260. The left wall has places from (115, 885) down,
	// 1080 away and more; its corner, 1797 away, counts as 1197, which is more than that.
	// Places go by 1670/67 from the corner at y = 1900: the first is at 1785 - 37·24.93 = 862.8.
	j := edit.ExitKind(job.ExitStack).Apply(job.New())
	if len(j.Room.Stacks) != 1 || j.Room.Stacks[0].At != (plan.Point{115, 863}) || j.Waste.Exit.Kind != job.ExitStack {
		t.Errorf("stacks %+v, exit %+v", j.Room.Stacks, j.Waste.Exit)
	}
	j = edit.Drag(edit.Handle{Kind: edit.HandleStack}, plan.Point{402, 1398}).Apply(j)
	if j.Room.Stacks[0].At != (plan.Point{400, 1400}) {
		t.Errorf("dragged to %v", j.Room.Stacks[0].At)
	}
	j.Waste.Exit.Stack = 1
	if p := j.Validate(); len(p) != 1 || p[0].What.ID != "problem.no-stack" {
		t.Errorf("into a stack that is not there: %v", p)
	}
}

// A pipe that the waste led to in the room turns out to be a stack: it stands where the pipe
// was, but not where nothing can stand, in the shower.
func TestStackWhereThePipeWas(t *testing.T) {
	for name, c := range map[string]struct{ pipe, want plan.Point }{
		"by itself":     {plan.Point{2000, 1200}, plan.Point{2000, 1200}},
		"outside":       {plan.Point{-400, 1832}, plan.Point{-400, 1832}},
		"in the shower": {plan.Point{200, 1300}, plan.Point{115, 863}},
	} {
		j := job.New()
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: c.pipe}
		if got := edit.ExitKind(job.ExitStack).Apply(j).Room.Stacks; len(got) != 1 || got[0].At != c.want {
			t.Errorf("%s: %+v, want %v", name, got, c.want)
		}
	}
}

// A waste that is to go into a pump gets one outside the shower, 1400 by 900 in the corner at the
// back left: at (1400, y) its box of 350 by 180 stands in the room. From the outlet that looks
// into the room, (700, 1777), a bend of 45 with 10 to spare takes y = 1722 and less; the places go
// from (1400, 1000 + 120) or (1400, 1900 - 120) by 50, the nearest to the wall is y = 1680 or 1720.
func TestPumpStandsInTheRoom(t *testing.T) {
	j := edit.ExitKind(job.ExitPump).Apply(job.New())
	at := j.Waste.Exit.At
	if at != (plan.Point{1400, 1680}) && at != (plan.Point{1400, 1720}) || j.Drain.OutletTurnDeg != 270 || j.Waste.Pump == nil {
		t.Errorf("the pump is at %v, the outlet looks %v", at, j.Drain.OutletTurnDeg)
	}
	// Where the waste ended in the room already, it is put there.
	j = job.New()
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{1500, 1682}}
	j.Drain.OutletTurnDeg = 270
	if at := edit.ExitKind(job.ExitPump).Apply(j).Waste.Exit.At; at != j.Waste.Exit.At {
		t.Errorf("the pump is at %v, not where the pipe was", at)
	}
}

// A stack that is put up stands in no shower where a wall has a place outside it, of any demo
// and any job; it stands in the room, apart from other stacks.
func TestStacksAreNotPutInTheShower(t *testing.T) {
	stacks, _ := job.FindList(job.StacksKey)
	check := func(t interface {
		Errorf(string, ...any)
		Fatal(...any)
	}, j job.Job) {
		if n := len(j.Room.Stacks); n > 0 && j.Waste.Exit.Kind != job.ExitStack {
			j.Room.Stacks = nil
		}
		var sh plan.Shaper
		l := layout.Of(j, &sh)
		if sh.Err() != nil {
			t.Fatal(sh.Err())
		}
		wet := l.FallArea
		if j.Former.Fall == job.FallRoom {
			wet = l.Shower
		}
		const halfMM, spareMM = 55, 60 + 30
		free := false
		for _, w := range l.Walls {
			for at := 0.0; at < w.LengthMM; at += 20 {
				p := w.At(at).Sub(w.Outward.Mul(halfMM + 60))
				clear := l.Room.Contains(p, 0) && !wet.Contains(p, 0) && wet.EdgeMM(p) > halfMM+spareMM
				for _, o := range l.Walls {
					clear = clear && plan.DistanceToSegment(p, o.A, o.B) > halfMM+59
				}
				for _, s := range j.Room.Stacks {
					clear = clear && s.At.Sub(p).Len() > s.OutsideMM/2+halfMM+30
				}
				free = free || clear
			}
		}
		with := edit.AddItem(stacks).Apply(j)
		n := len(j.Room.Stacks)
		if len(with.Room.Stacks) != n+1 {
			return // there are as many as there may be
		}
		s := with.Room.Stacks[n]
		if in := wet.Contains(s.At, 0) || wet.EdgeMM(s.At) < halfMM; free && in {
			t.Errorf("%s: a stack in the shower at %v", j.Name, s.At)
		}
		if free && !l.Room.Contains(s.At, 0) {
			t.Errorf("%s: a stack outside the room at %v", j.Name, s.At)
		}
	}
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range append(demos, demotest.Rooms(t)...) {
		check(t, d.Job)
		// The waste that is to go into it can be laid there.
		j := d.Job.Clone()
		j.Room.Stacks, j.Waste.Waypoints, j.Waste.Exit = nil, nil, job.Exit{Kind: job.ExitWall}
		j = edit.ExitKind(job.ExitStack).Apply(j)
		if r := laid(j); len(r.Trouble) > 0 {
			t.Errorf("%s: to a stack at %v the run has %v", j.Name, j.Room.Stacks[0].At, r.Trouble)
		}
	}
	rapid.Check(t, func(t *rapid.T) { check(t, demotest.AnyJob(t)) })
}

// A vent is put at the trap with the size it has, and slides along the run.
func TestVentAtTheTrap(t *testing.T) {
	j := job.New()
	j.Waste.Vent = &job.Vent{AtMM: 900, NominalMM: 40}
	if got := edit.VentAtTrap().Apply(j).Waste.Vent; *got != (job.Vent{NominalMM: 40}) {
		t.Errorf("%+v", *got)
	}
	if got := edit.Drag(edit.Handle{Kind: edit.HandleVent}, plan.Point{345, 1700}).Apply(j).Waste.Vent; *got != (job.Vent{AtMM: 300, NominalMM: 40}) {
		t.Errorf("dragged: %+v", *got)
	}
	if j.Waste.Vent.AtMM != 900 {
		t.Error("the job that was edited has changed")
	}
}
