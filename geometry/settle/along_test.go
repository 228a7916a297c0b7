package settle_test

import (
	"reflect"
	"slices"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

// overJoists is the starting job over joists that run from wall 1 to wall 3, the first 100 from wall 2 and so at 2300,
// 1900, 1500, 1100, 700 and 300 from wall 4, the fifth under the trap, whose middle is 700 from wall 4 and 13 + 55 from
// wall 3. It is cut out there, from 100 before the trap's near side on (1900 − 13 − 110 − 100) to its end at 1900.
func overJoists(change func(*job.Job)) job.Job {
	return with(func(j *job.Job) {
		j.Floor.Kind = job.FloorTimber
		j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM = 90, 100
		j.Floor.Joists.Trims = []job.Trim{{Joist: 5, FromMM: 1677, ToMM: 1900}}
		j.Room.Doorways[0].OffsetMM = 100
		change(j)
	})
}

// An opening that was trimmed round the trap is round it after the room or the shower has changed, or it is told that it
// is not.
func TestTrimmedOpeningsGoAlongWithTheTrap(t *testing.T) {
	say := in(t, unit.Metric)
	for name, c := range map[string]struct {
		before job.Job
		edit   edit.Edit
		want   job.Trim
		told   string
	}{
		// Wall 2 goes out by 400, and the joists with it: the trap, at 700 from wall 4, is at the sixth now.
		"a wider room": {overJoists(none), edit.Side{Wall: 0}.Set(2800), job.Trim{Joist: 6, FromMM: 1677, ToMM: 1900},
			"Trimmed opening 1 went along with the trap: First joist cut out was 5 and became 6."},
		// Wall 3 goes out by 400, the shower and its trap with it.
		"a deeper room": {overJoists(none), edit.Side{Wall: 1}.Set(2300), job.Trim{Joist: 5, FromMM: 2077, ToMM: 2300},
			"Trimmed opening 1 went along with the trap: Cut out from was 1677 mm and became 2077 mm and Cut out to was 1900 mm and became 2300 mm."},
		// The shower 400 from wall 4: its trap at 1100, where the fourth joist is.
		"the shower moved": {overJoists(none), number("shower.offsetMM", 600), job.Trim{Joist: 4, FromMM: 1677, ToMM: 1900},
			"Trimmed opening 1 went along with the trap: First joist cut out was 5 and became 4."},
		// At 750 it is still between the joists beside.
		"the shower moved a little": {overJoists(none), number("shower.offsetMM", 950), job.Trim{Joist: 5, FromMM: 1677, ToMM: 1900}, ""},
		"held": {overJoists(held(job.TrimsKey + "[0].joist")), edit.Side{Wall: 0}.Set(2800), job.Trim{Joist: 5, FromMM: 1677, ToMM: 1900},
			"Trimmed opening 1 stays where it was, and is no longer round the trap."},
		// No joist past the last carries it: the trap at 300 from wall 4 is at the sixth of six.
		"no room for it": {overJoists(none), number("drain.offsetMM", -400), job.Trim{Joist: 5, FromMM: 1677, ToMM: 1900},
			"Trimmed opening 1 stays where it was, and is no longer round the trap."},
	} {
		t.Run(name, func(t *testing.T) {
			if p := c.before.Validate(); len(p) > 0 {
				t.Fatal(p)
			}
			if name == "no room for it" {
				c.before.Drain.LengthMM = 400
			}
			s := settle.Do(c.before, c.edit)
			if s.Refused != nil {
				t.Fatal(say(s.Refused.What))
			}
			if got := s.Job.Floor.Joists.Trims; !reflect.DeepEqual(got, []job.Trim{c.want}) {
				t.Errorf("%+v, want %+v", got, c.want)
			}
			var told []string
			for _, m := range s.Moved {
				told = append(told, say(m.What))
			}
			if slices.Contains(told, c.told) != (c.told != "") {
				t.Errorf("told %q, want %q", told, c.told)
			}
		})
	}
}

// What bears joists at the far wall goes with it: supports 50 into both walls of a room of 1900 that becomes 2300 deep, and
// one between, 900 from the near wall.
func TestSupportsGoAlongWithTheirWall(t *testing.T) {
	say := in(t, unit.Metric)
	j := overJoists(func(j *job.Job) { j.Floor.Joists.SupportsMM = []float64{-50, 900, 1950} })
	s := settle.Do(j, edit.Side{Wall: 1}.Set(2300))
	if s.Refused != nil {
		t.Fatal(say(s.Refused.What))
	}
	if want := []float64{-50, 900, 2350}; !reflect.DeepEqual(s.Job.Floor.Joists.SupportsMM, want) {
		t.Errorf("%v, want %v", s.Job.Floor.Joists.SupportsMM, want)
	}
	want := "The joists' last support went along with its wall: 1950 mm from wall A became 2350 mm."
	if !slices.ContainsFunc(s.Moved, func(m settle.Moved) bool { return say(m.What) == want }) {
		t.Errorf("%q is not told", want)
	}
}

// What stands by a wall stays by it where the wall goes out, too: a stack 115 from walls 2 and 3 in their corner, a pipe
// end 100 from wall 2. One that stands 500 from it stays.
func TestWhatStandsByAWallGoesWithIt(t *testing.T) {
	say := in(t, unit.Metric)
	j := with(func(j *job.Job) {
		stack := job.Stack{NominalMM: 110, OutsideMM: 110}
		stack.At = plan.Point{2285, 1785}
		j.Room.Stacks = append(j.Room.Stacks, stack)
		stack.At = plan.Point{1900, 500}
		j.Room.Stacks = append(j.Room.Stacks, stack)
		j.Room.PipeEnds = []job.PipeEnd{{At: plan.Point{2300, 300}, NominalMM: 50}}
	})
	s := settle.Do(j, edit.Side{Wall: 0}.Set(2800))
	if s.Refused != nil {
		t.Fatal(say(s.Refused.What))
	}
	r := &s.Job.Room
	if r.Stacks[0].At != (plan.Point{2685, 1785}) || r.Stacks[1].At != (plan.Point{1900, 500}) || r.PipeEnds[0].At != (plan.Point{2700, 300}) {
		t.Errorf("%v, %v, %v", r.Stacks[0].At, r.Stacks[1].At, r.PipeEnds[0].At)
	}
	want := "Stack 1 moved 400 mm and stands 115 mm from wall D."
	if !slices.ContainsFunc(s.Moved, func(m settle.Moved) bool { return say(m.What) == want }) {
		for _, m := range s.Moved {
			t.Log(say(m.What))
		}
		t.Errorf("%q is not told", want)
	}
}

// The turns that are stated of a run keep its legs running as they did: from the trap's outlet at 645 straight to the left
// to 300, then down at 300 and out through wall 1. With wall 3, and so the trap, 400 farther out the turn lies 400 farther.
func TestTurnsGoAlongWithTheTrap(t *testing.T) {
	say := in(t, unit.Metric)
	j := with(func(j *job.Job) {
		j.Room.Doorways[0].OffsetMM = 1000
		j.Waste.Waypoints = []plan.Point{{300, 1832}}
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 0, OffsetMM: 300}
	})
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	// Its face, 215 behind its inner one, to 2515.
	s := settle.Do(j, edit.Drag(edit.Handle{Kind: edit.HandleSide, Index: 2}, plan.Point{1200, 2515}))
	if s.Refused != nil {
		t.Fatal(say(s.Refused.What))
	}
	if want := []plan.Point{{300, 2232}}; !reflect.DeepEqual(s.Job.Waste.Waypoints, want) {
		t.Errorf("%v, want %v", s.Job.Waste.Waypoints, want)
	}
	want := "The turns of the pipe went along, so that it bends as it did."
	if !slices.ContainsFunc(s.Moved, func(m settle.Moved) bool { return say(m.What) == want }) {
		t.Errorf("%q is not told", want)
	}
}

// Walls have their letters from the first door. Dragged to the wall on the right of who comes in, it has them lettered anew,
// which is told; so when it is taken out of the room, and where another is the first then. Along its own wall it says
// nothing of letters.
func TestLettersAnewAreTold(t *testing.T) {
	say := in(t, unit.Metric)
	doors, _ := job.FindList(job.DoorwaysKey)
	second := with(func(j *job.Job) {
		door := j.Room.Doorways[0]
		door.Wall, door.OffsetMM = 1, 100
		j.Room.Doorways = append(j.Room.Doorways, door)
	})
	const anew = "The walls have other letters, as they run on from the first door: what was wall D is wall A now."
	for name, c := range map[string]struct {
		before job.Job
		edit   edit.Edit
		told   bool
	}{
		"dragged to another wall":  {with(none), edit.Drag(edit.Handle{Kind: edit.HandleDoorway}, plan.Point{2400, 400}), true},
		"stated at another wall":   {with(none), item(t, job.DoorwaysKey, "wall", 1), true},
		"the first of two is gone": {second, edit.RemoveItem(doors, 0), true},
		"the second is gone":       {second, edit.RemoveItem(doors, 1), false},
		"along its wall":           {with(none), edit.Drag(edit.Handle{Kind: edit.HandleDoorway}, plan.Point{900, 0}), false},
	} {
		s := settle.Do(c.before, c.edit)
		if s.Refused != nil {
			t.Errorf("%s: %s", name, say(s.Refused.What))
			continue
		}
		if told := slices.ContainsFunc(s.Moved, func(m settle.Moved) bool { return say(m.What) == anew }); told != c.told {
			t.Errorf("%s: told %v, want %v", name, told, c.told)
			for _, m := range s.Moved {
				t.Log(say(m.What))
			}
		}
	}
}

// A place that nobody can mean is not taken: a level of the floor farther past the room's walls, which are 215 thick at
// most, than a doorway is deep, anything else 10 m past them. A level in the other leg of what would be the whole of an
// L is taken, as one number is typed after the other, and told.
func TestPlacesOutsideTheRoom(t *testing.T) {
	say := in(t, unit.Metric)
	ell := with(func(j *job.Job) {
		j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 950}, {1400, 950}, {1400, 1900}, {0, 1900}}
		j.Room.Walls = append(j.Room.Walls, j.Room.Walls[0], j.Room.Walls[0])
		j.Shower.Wall, j.Shower.OffsetMM, j.Shower.WidthMM, j.Waste.Exit.Wall = 4, 0, 1400, 5
	})
	if p := ell.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	spot := func(p ...plan.Point) edit.Edit {
		in, _ := job.FindInput(job.SpotLevelsKey)
		var rows [][]float64
		for _, p := range p {
			rows = append(rows, []float64{p.X(), p.Y(), 0, 1})
		}
		return edit.Rows(in, rows)
	}
	stack := func(p plan.Point) edit.Edit {
		return edit.Of(edit.Outline(nil).What, func(j *job.Job) {
			j.Room.Stacks = append(j.Room.Stacks, job.Stack{At: p, NominalMM: 110, OutsideMM: 110})
		})
	}
	for name, c := range map[string]struct {
		edit    edit.Edit
		refused string
		told    string
	}{
		"levels in the room":          {spot(plan.Point{100, 100}, plan.Point{1300, 1800}), "", ""},
		"one in a doorway":            {spot(plan.Point{1500, -100}), "", "Reading 1 lies outside the room now."},
		"one in the other leg":        {spot(plan.Point{2000, 1500}), "", "Reading 1 lies outside the room now."},
		"one metres for millimetres":  {spot(plan.Point{100, 100}, plan.Point{12000, 100}), "Level 2 of the floor: give a place in this room: it would lie 9600 mm past its walls", ""},
		"read down from the laser":    {edit.Read(plan.Point{-4000, 100}, 990), "Reading 1: give a place in this room: it would lie 4000 mm past its walls", ""},
		"a stack outside":             {stack(plan.Point{2900, 500}), "", ""},
		"a stack nobody can mean":     {stack(plan.Point{50000, 500}), "Stack 1: give a place within 10000 mm of the room: it would lie 47600 mm past its walls", ""},
		"a turn that nobody can mean": {edit.Of(edit.Outline(nil).What, func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{300, 30000}} }), "Turn 1 of the run: give a place within 10000 mm of the room: it would lie 28100 mm past its walls", ""},
	} {
		s := settle.Do(ell, c.edit)
		if got := refusedWith(s, say); got != c.refused {
			t.Errorf("%s: refused with %q, want %q", name, got, c.refused)
		}
		if c.refused == "" && c.told != "" && !slices.ContainsFunc(s.Moved, func(m settle.Moved) bool { return say(m.What) == c.told }) {
			t.Errorf("%s: %q is not told: %v", name, c.told, s.Moved)
		}
		if c.refused == "" && c.told == "" && len(s.Moved) > 0 {
			t.Errorf("%s: told %v", name, s.Moved)
		}
	}
}

// refusedWith is why a change was refused; empty where it was not.
func refusedWith(s settle.Settled, say func(message.Message) string) string {
	if s.Refused == nil {
		return ""
	}
	return say(s.Refused.What)
}
