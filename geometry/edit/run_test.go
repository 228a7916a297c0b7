package edit_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// pipeEnd takes the waste of the starting job to the end of a pipe at (300, 400).
// By hand: the drain's middle lies at x = 700 and its trap is 110 wide, so the
// outlet, to the left, is at x = 645; the run goes straight on to (300, 1832),
// turns there by 90° and comes to the exit.
func pipeEnd(j *job.Job) {
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 400}}
}

// nowhere is a room that crosses itself, which cannot be laid out.
func nowhere(j *job.Job) {
	j.Room.Outline = []plan.Point{{0, 0}, {2400, 1900}, {2400, 0}, {0, 1900}}
	j.Former.Fall = job.FallRoom
}

// noRun has its one turn and its exit at the outlet of the trap.
func noRun(j *job.Job) {
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{645, 1832}}
	j.Waste.Waypoints = []plan.Point{{645, 1832}}
}

func turns(points ...plan.Point) func(*job.Job) {
	return func(j *job.Job) {
		pipeEnd(j)
		j.Waste.Waypoints = points
	}
}

// laid is the run of a job.
func laid(j job.Job) waste.Run { return waste.Lay(j, layout.Of(j, &plan.Shaper{})) }

func TestOutletIsWhereTheTestsTakeItToBe(t *testing.T) {
	j := job.New()
	pipeEnd(&j)
	r := laid(j)
	want := []plan.Point{{645, 1832}, {300, 1832}, {300, 400}}
	if diff := cmp.Diff(want, r.Corners); diff != "" || len(r.Trouble) > 0 {
		t.Errorf("%v %s", r.Trouble, diff)
	}
	noRun(&j)
	if r := laid(j); len(r.Corners) != 1 {
		t.Errorf("a run of no length has corners %v", r.Corners)
	}
	nowhere(&j)
	var sh plan.Shaper
	if layout.Of(j, &sh); sh.Err() == nil {
		t.Error("a room that crosses itself is laid out")
	}
}

func TestRunValuesByHand(t *testing.T) {
	measured := func(j *job.Job) { j.AsBuilt.OutletInvertMM, j.AsBuilt.ExitInvertMM = ptr(1), ptr(2) }
	run := edit.RunOf(job.New())
	turned, shifted, elsewhere, deeper := run, run, run, run
	turned.OutletTurnDeg = 90
	shifted.TrapOffsetMM = 10
	elsewhere.Exit.OffsetMM = 500
	deeper.Exit.Level, deeper.Gradient = job.Exactly(-10), 0.03
	deeper.Waypoints, deeper.Fittings = []plan.Point{{1, 2}}, []job.Fitting{usualReducer(100)}
	level := func(l job.ExitLevel) func(*job.Job) { return func(j *job.Job) { j.Waste.Exit.Level = l } }
	exit := func(kind job.ExitKind, at plan.Point) func(*job.Job) {
		return func(j *job.Job) { j.Waste.Exit.Kind, j.Waste.Exit.At = kind, at }
	}
	eachEdit(t, map[string]editCase{
		"the same way": {measured, edit.UseRun(run), nil},
		"turned": {measured, edit.UseRun(turned), func(j *job.Job) {
			j.Drain.OutletTurnDeg, j.AsBuilt.OutletInvertMM = 90, nil
		}},
		"shifted": {measured, edit.UseRun(shifted), func(j *job.Job) {
			j.Drain.TrapOffsetMM, j.AsBuilt.OutletInvertMM = 10, nil
		}},
		"elsewhere": {measured, edit.UseRun(elsewhere), func(j *job.Job) {
			j.Waste.Exit.OffsetMM, j.AsBuilt.ExitInvertMM = 500, nil
		}},
		"another level and fall": {measured, edit.UseRun(deeper), func(j *job.Job) {
			j.Waste.Exit.Level, j.Waste.Gradient = job.Exactly(-10), 0.03
			j.Waste.Waypoints, j.Waste.Fittings = deeper.Waypoints, deeper.Fittings
		}},
		"pipe": {narrow, edit.LargerPipe(), func(j *job.Job) {
			j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM, j.Waste.SocketOutsideMM = 50, 50, 46, 57
		}},
		"pipe, with the outlet it fits": {func(j *job.Job) { narrow(j); j.Drain.OutletNominalMM, j.Drain.OutletJointOutsideMM = 40, 50 }, edit.LargerPipe(), func(j *job.Job) {
			j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM, j.Waste.SocketOutsideMM = 50, 50, 46, 57
			j.Drain.OutletNominalMM, j.Drain.OutletJointOutsideMM = 50, 57
		}},
		"pipe, with the drain's outlet for it": {func(j *job.Job) { narrow(j); withOutlets(j) }, edit.LargerPipe(), func(j *job.Job) {
			j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM, j.Waste.SocketOutsideMM = 50, 50, 46, 57
			j.Drain.OutletNominalMM, j.Drain.OutletInvertDepthMM, j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM, j.Drain.CapacityLPS = 50, 40, 30, 66, 0
		}},
		"no larger pipe": {nil, edit.LargerPipe(), nil},
		"fall":           {nil, edit.Gradient(0.04), func(j *job.Job) { j.Waste.Gradient = 0.04 }},
		"vent":           {nil, edit.VentAtTrap(), func(j *job.Job) { j.Waste.Vent = &job.Vent{NominalMM: 32} }},
		"drain, moved": {func(j *job.Job) { level := 20.0; j.Drain.OffsetMM, j.AsBuilt.OutletInvertMM = 30, &level }, edit.MoveDrain(-50),
			func(j *job.Job) { j.Drain.OffsetMM, j.AsBuilt.OutletInvertMM = -20, nil }},
		"trap, shifted":  {func(j *job.Job) { j.Drain.TrapOffsetMM = 30 }, edit.ShiftTrap(-50), func(j *job.Job) { j.Drain.TrapOffsetMM = -20 }},
		"exit level":     {nil, edit.ExitLevel(job.NotBelow(5)), level(job.NotBelow(5))},
		"not below":      {nil, edit.ExitLevelKind(job.ExitNotBelow, 12.6), level(job.NotBelow(13))},
		"exactly":        {nil, edit.ExitLevelKind(job.ExitExactly, -12.6), level(job.Exactly(-13))},
		"exactly that":   {level(job.NotBelow(7.25)), edit.ExitLevelKind(job.ExitExactly, 12), level(job.Exactly(7.25))},
		"not below that": {level(job.Exactly(7.25)), edit.ExitLevelKind(job.ExitNotBelow, 12), level(job.NotBelow(7.25))},
		"free":           {level(job.Exactly(7.25)), edit.ExitLevelKind(job.ExitFree, 12), level(job.ExitLevel{})},
		// The exit's wall runs down x = 0 from y = 1900: 68.4 along is 1831.6.
		"no longer through the wall": {func(j *job.Job) { j.Waste.Exit.OffsetMM = 68.4 }, edit.ExitKind(job.ExitPipe), func(j *job.Job) {
			exit(job.ExitPipe, plan.Point{150, 1832})(j)
			j.SetStanding("waste.exit.at", job.Assumed) // nobody has said where
		}},
		"through the floor then": {exit(job.ExitPipe, plan.Point{3, 4}), edit.ExitKind(job.ExitFloor), exit(job.ExitFloor, plan.Point{3, 4})},
		"through a wall again":   {exit(job.ExitPipe, plan.Point{3, 4}), edit.ExitKind(job.ExitWall), exit(job.ExitWall, plan.Point{3, 4})},
		"through the wall still": {nil, edit.ExitKind(job.ExitWall), nil},
		"from nowhere":           {nowhere, edit.ExitKind(job.ExitPipe), nil},
	})
	// Neither the run an edit was made with nor the job it made is shared.
	e := edit.UseRun(deeper)
	deeper.Waypoints[0][0], deeper.Fittings[0].AtMM = 9, 9
	first := e.Apply(job.New())
	first.Waste.Waypoints[0][1], first.Waste.Fittings[0].LengthMM = 9, 9
	again := e.Apply(job.New())
	if again.Waste.Waypoints[0] != (plan.Point{1, 2}) || again.Waste.Fittings[0] != usualReducer(100) {
		t.Errorf("%v, %v", again.Waste.Waypoints, again.Waste.Fittings)
	}
	if of := edit.RunOf(again); of.Waypoints[0] != (plan.Point{1, 2}) || of.Fittings[0] != usualReducer(100) || of.Gradient != 0.03 || of.Exit != again.Waste.Exit || of.OutletTurnDeg != 180 {
		t.Errorf("the way of it is %+v", of)
	}
}

func TestSamePlace(t *testing.T) {
	wall := job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 50, At: plan.Point{1, 2}}
	pipe := job.Exit{Kind: job.ExitPipe, Wall: 1, OffsetMM: 50, At: plan.Point{1, 2}}
	change := func(e job.Exit, by func(*job.Exit)) job.Exit {
		by(&e)
		return e
	}
	for name, c := range map[string]struct {
		a, b job.Exit
		same bool
	}{
		"wall":               {wall, wall, true},
		"pipe":               {pipe, pipe, true},
		"wall and pipe":      {wall, pipe, false},
		"another wall":       {wall, change(wall, func(e *job.Exit) { e.Wall = 2 }), false},
		"farther along":      {wall, change(wall, func(e *job.Exit) { e.OffsetMM = 51 }), false},
		"a wall has no at":   {wall, change(wall, func(e *job.Exit) { e.At[0] = 7 }), true},
		"elsewhere":          {pipe, change(pipe, func(e *job.Exit) { e.At[0] = 7 }), false},
		"a pipe has no wall": {pipe, change(pipe, func(e *job.Exit) { e.Wall, e.OffsetMM = 3, 7 }), true},
		"another level":      {wall, change(wall, func(e *job.Exit) { e.Level = job.Exactly(3) }), true},
	} {
		if got := edit.SamePlace(c.a, c.b); got != c.same {
			t.Errorf("%s: the same place: %v", name, got)
		}
	}
}

func TestTurnsByHand(t *testing.T) {
	bend, below, lowest := plan.Point{300, 1832}, plan.Point{300, 1200}, plan.Point{300, 800}
	eachEdit(t, map[string]editCase{
		// 100 along the first leg is (545, 1832); rounded, 1830.
		"on the first leg": {pipeEnd, edit.AddTurn(100), turns(plan.Point{545, 1830}, bend)},
		// By the middle of the bend the second leg begins.
		"on the second leg":    {pipeEnd, edit.AddTurn(1557.674), turns(bend, plan.Point{300, 600})},
		"at the outlet":        {pipeEnd, edit.AddTurn(0), turns(plan.Point{645, 1830}, bend)},
		"between stated ones":  {turns(bend, below, lowest), edit.AddTurn(1157.674), turns(bend, below, plan.Point{300, 1000}, lowest)},
		"on a straight run":    {nil, edit.AddTurn(100), func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{545, 1830}} }},
		"on no run":            {noRun, edit.AddTurn(100), nil},
		"on a run nowhere":     {nowhere, edit.AddTurn(100), nil},
		"the found one less":   {pipeEnd, edit.RemoveTurn(0), nil},
		"the first less":       {turns(bend, below, lowest), edit.RemoveTurn(0), turns(below, lowest)},
		"the last less":        {turns(bend, below, lowest), edit.RemoveTurn(2), turns(bend, below)},
		"the one before less":  {turns(bend, below, lowest), edit.RemoveTurn(-1), nil},
		"the one after less":   {turns(bend, below, lowest), edit.RemoveTurn(3), nil},
		"nowhere one less":     {func(j *job.Job) { turns(bend)(j); nowhere(j) }, edit.RemoveTurn(0), nil},
		"none of one straight": {nil, edit.RemoveTurn(0), nil},
		"the simplest":         {turns(bend, below), edit.SimplestRun(), func(j *job.Job) { j.Waste.Waypoints = nil }},
	})
	straight := job.New()
	if got := edit.Turns(straight, laid(straight)); len(got) != 0 {
		t.Errorf("a straight run turns at %v", got)
	}
	// A turn of a straight run that is stated on its outlet is still there.
	straight.Waste.Waypoints = []plan.Point{{645, 1832}}
	if got := edit.Turns(straight, laid(straight)); len(got) != 1 {
		t.Errorf("a turn at the outlet: %v", got)
	}
}

// By hand: the bend's corner lies 345 along the first leg, the bend begins 45
// before it; turns of no angle at 545 and 465 are 100 and 180 along.
func TestTurnNearByHand(t *testing.T) {
	bent, passing := job.New(), job.New()
	pipeEnd(&bent)
	turns(plan.Point{545, 1832}, plan.Point{465, 1832}, plan.Point{300, 1832})(&passing)
	for _, c := range []struct {
		job   job.Job
		at    float64
		turn  int
		found bool
	}{
		{bent, 284.9, 0, false}, {bent, 285, 0, false}, {bent, 285.1, 0, true}, {bent, 330, 0, true},
		{passing, 40, 0, false}, {passing, 41, 0, true}, {passing, 139, 0, true}, {passing, 140, 0, true}, {passing, 141, 1, true},
		{passing, 239, 1, true}, {passing, 262, 1, false}, {passing, 290, 2, true},
	} {
		if turn, ok := edit.TurnNear(c.job, laid(c.job), c.at); ok != c.found || ok && turn != c.turn {
			t.Errorf("at %v: turn %d, %v; want %d, %v", c.at, turn, ok, c.turn, c.found)
		}
	}
}

func TestFittingsByHand(t *testing.T) {
	at := func(all ...float64) func(*job.Job) {
		return func(j *job.Job) {
			for _, mm := range all {
				j.Waste.Fittings = append(j.Waste.Fittings, usualReducer(mm))
			}
		}
	}
	turned := func(i int) func(*job.Job) {
		return func(j *job.Job) { j.Waste.Fittings[i].Reversed = !j.Waste.Fittings[i].Reversed }
	}
	both := func(a, b func(*job.Job)) func(*job.Job) { return func(j *job.Job) { a(j); b(j) } }
	joint := func(j *job.Job) { j.Drain.OutletJointMM = 30 }
	eachEdit(t, map[string]editCase{
		"one more":            {at(100), edit.AddFitting(usualReducer(50)), at(50)},
		"turned":              {at(100, 300), edit.TurnFitting(300.9), turned(1)},
		"turned back":         {both(at(100, 300), turned(0)), edit.TurnFitting(99.1), turned(0)},
		"turned, 1 mm beside": {at(100, 300), edit.TurnFitting(301), nil},
		"turned, 1 mm before": {at(100, 300), edit.TurnFitting(99), nil},
		"less":                {at(100, 300), edit.RemoveFitting(100), func(j *job.Job) { j.Waste.Fittings = j.Waste.Fittings[1:] }},
		"the last less":       {at(100, 300), edit.RemoveFitting(300), func(j *job.Job) { j.Waste.Fittings = j.Waste.Fittings[:1] }},
		"none less":           {at(100, 300), edit.RemoveFitting(200), nil},
		// Stated within the trap's joint of 30 it stands at its end.
		"at the joint's end, turned": {both(at(10), joint), edit.TurnFitting(30), turned(0)},
		"in the joint, none less":    {both(at(10), joint), edit.RemoveFitting(10), nil},
		"the first of two so far":    {at(100, 100.5), edit.RemoveFitting(100.2), func(j *job.Job) { j.Waste.Fittings = j.Waste.Fittings[1:] }},
	})
}

// narrow has pipe of 40 mm whose sockets stand out as those of the starting job do.
func narrow(j *job.Job) {
	j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM, j.Waste.SocketOutsideMM = 40, 43, 39, 50
}

// withOutlets has a drain with outlets of 40 and 50, the larger one for pipe of 50.
func withOutlets(j *job.Job) {
	j.Parts.Drain = &part.Drain{Outlets: []part.Outlet{{NominalMM: 40}, {NominalMM: 50, InvertDepthMM: 40, JointMM: 30, JointOutsideMM: 66}}}
}

// usualReducer is a reducer to the usual pipe of 50 mm.
func usualReducer(atMM float64) job.Fitting {
	j := job.New()
	f, _ := j.ReducerAt(atMM)
	return f
}

// The outlet looks the way from which the waste gets to a new exit. It looks left, along the
// back wall, with the trap at x = 700: a stack on the left in line with it is reached as it
// is, one on the right with the outlet turned round. Turns that were stated stay, and so
// does the outlet.
func TestOutletTurnsToItsStack(t *testing.T) {
	for name, c := range map[string]struct {
		x     float64
		turns []plan.Point
		want  float64
	}{
		"on the left":           {-60, nil, 180},
		"on the right":          {1900, nil, 0},
		"on the right, by turn": {1900, []plan.Point{{400, 1600}}, 180},
	} {
		j := job.New()
		j.Shower.Screens = nil
		middle := layout.Of(j, &plan.Shaper{}).Outlet.Y()
		j.Room.Stacks = []job.Stack{{At: plan.Point{c.x, middle}, NominalMM: 110, OutsideMM: 110}}
		j.Waste.Waypoints = c.turns
		got := edit.ExitKind(job.ExitStack).Apply(j)
		if got.Drain.OutletTurnDeg != c.want || j.Drain.OutletTurnDeg != 180 {
			t.Errorf("%s: the outlet looks %v, want %v", name, got.Drain.OutletTurnDeg, c.want)
		}
		var sh plan.Shaper
		if run := waste.Lay(got, layout.Of(got, &sh)); len(c.turns) == 0 && len(run.Trouble) > 0 {
			t.Errorf("%s: %v", name, run.Trouble)
		}
		if again := edit.ExitStack(0).Apply(got); again.Drain.OutletTurnDeg != got.Drain.OutletTurnDeg {
			t.Errorf("%s: chosen again it looks %v", name, again.Drain.OutletTurnDeg)
		}
	}
}

// A turn dragged to a place is there, however often. The pipe to an exit 31.75 ahead of the
// outlet, too near for a bend of 22 and 10 to spare, goes 32 ahead and comes back: to the
// exit, not to a turn a hair beside it.
func TestTurnDraggedAgain(t *testing.T) {
	j := job.New()
	j.Waste.Bend90FaceMM, j.Drain.OutletJointMM = 22, 0
	outlet := layout.Of(j, &plan.Shaper{}).Outlet
	exit := plan.Point{outlet.X() - 31.75, outlet.Y() - 1200}
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: exit}
	if run := waste.Lay(j, layout.Of(j, &plan.Shaper{})); run.Corners[len(run.Corners)-1] != exit {
		t.Errorf("the run goes by %v, and ends at %v", run.Corners, exit)
	}
	to := plan.Point{outlet.X() - 31, outlet.Y()}
	once := edit.Drag(edit.Handle{Kind: edit.HandleTurn}, to).Apply(j)
	if diff := cmp.Diff(once, edit.Drag(edit.Handle{Kind: edit.HandleTurn}, to).Apply(once)); diff != "" {
		t.Errorf("dragged again: %s", diff)
	}
}
