package measure_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/clash"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// on is a job with something changed.
func on(j job.Job, change func(*job.Job)) job.Job {
	j = j.Clone()
	change(&j)
	return j
}

// winding is a job on a slab in a large room whose outlet, at (0, 0) of the points
// given, looks along x; the run turns at all of them but the last, where an
// existing pipe ends.
func winding(points ...plan.Point) job.Job {
	return on(job.New(), func(j *job.Job) {
		j.Room.Outline = []plan.Point{{0, 0}, {4000, 0}, {4000, 4000}, {0, 4000}}
		j.Room.Doorways = nil
		j.Shower.Wall, j.Shower.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM = 2, 1200, 1600, 1400
		j.Former.Fall, j.Drain.WidthMM, j.Drain.LengthMM = job.FallPoint, 110, 110
		j.Drain.OutletTurnDeg = 0
		start := geometry.Evaluate(*j, geometry.Result{}.Pack).Layout
		for i, p := range points {
			at := start.Outlet.Add(start.OutletTo.Mul(p.X())).Add(plan.Left(start.OutletTo).Mul(p.Y()))
			if i < len(points)-1 {
				j.Waste.Waypoints = append(j.Waste.Waypoints, at)
			} else {
				j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: at}
			}
		}
	})
}

// stackAt is a job with a stack of 110 at a place from its outlet, ahead and to the left.
func stackAt(j job.Job, from plan.Point) job.Job {
	l := geometry.Evaluate(j, geometry.Result{}.Pack).Layout
	at := l.Outlet.Add(l.OutletTo.Mul(from.X())).Add(plan.Left(l.OutletTo).Mul(from.Y()))
	return on(j, func(j *job.Job) { j.Room.Stacks = []job.Stack{{At: at, NominalMM: 110, OutsideMM: 110}} })
}

// Every pair of bodies that are meant to be apart is measured in some job; what a
// pair's rule asks for is the room that the table names.
func TestEveryPairIsMeasured(t *testing.T) {
	demos := demotest.Rooms(t)
	slab, letIn := demos[0].Job.Clone(), demos[2].Job.Clone()
	letIn.Floor.Joists.DirectionDeg, letIn.Floor.Joists.FirstOffsetMM, letIn.Floor.Joists.SupportsMM = 270, 400, []float64{0, 2000}
	studs := func(j *job.Job) {
		j.Room.Walls[3] = job.Wall{Kind: job.WallStud, ThicknessMM: 100, StudSpacingMM: 400, FirstStudMM: 80, StudWidthMM: 47}
	}
	throughWall := []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 540, LengthMM: 120, Slope: 0.05}}
	doorAtExit := func(j *job.Job) {
		e := j.Waste.Exit
		j.Room.Doorways = []job.Doorway{{Wall: e.Wall, OffsetMM: e.OffsetMM - 60, WidthMM: 500, HeightMM: 2040, Leaf: job.LeafNone}}
	}
	frontEdge := on(letIn, func(j *job.Job) { j.Former.Fall = job.FallFront })
	type pair [2]clash.Kind
	cases := map[pair]struct {
		job               job.Job
		quantity, subject string
	}{
		{clash.Pipe, clash.Pipe}:       {winding(plan.Point{400, 0}, plan.Point{400, 200}, plan.Point{200, 200}, plan.Point{200, -300}), "clash.run-gap", "pipe 7, piece-by-piece 1, pipe"},
		{clash.Pipe, clash.Fitting}:    {winding(plan.Point{400, 0}, plan.Point{400, 200}, plan.Point{600, 200}, plan.Point{600, 0}, plan.Point{420, 0}), "clash.run-gap", "pipe 9, piece-by-piece 2, bend-90"},
		{clash.Fitting, clash.Fitting}: {winding(plan.Point{400, 0}, plan.Point{400, 300}, plan.Point{500, 300}, plan.Point{500, 0}, plan.Point{440, 0}), "clash.run-gap", "bend-90 8, piece-by-piece 2, bend-90"},
		{clash.Pipe, clash.Trap}:       {winding(plan.Point{200, 0}, plan.Point{200, 200}, plan.Point{-55, 200}, plan.Point{-55, 65}), "clash.run-gap", "pipe 7, piece-by-trap"},
		{clash.Fitting, clash.Trap}:    {winding(plan.Point{200, 0}, plan.Point{200, 110}, plan.Point{-55, 110}, plan.Point{-55, 60}), "clash.run-gap", "bend-90 6, piece-by-trap"},
		{clash.Pipe, clash.Channel}:    {slab, "clash.run-gap", "pipe 1, piece-by-channel"},
		{clash.Fitting, clash.Channel}: {on(slab, func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, LengthMM: 120, Slope: 0.05}}
		}), "clash.run-gap", "falling-piece 1, piece-by-channel"},
		{clash.Pipe, clash.Joist}:      {letInAlong(t, 4), "clash.joist-gap", "pipe"},
		{clash.Fitting, clash.Joist}:   {letInAlong(t, 4), "clash.joist-gap", "bend-90"},
		{clash.Trap, clash.Joist}:      {on(letIn, func(j *job.Job) { j.Floor.Joists.FirstOffsetMM = 700 }), "trap.in-joist", "trap-in-joist"},
		{clash.Channel, clash.Joist}:   {letIn, "clash.drain-gap", "drain-channel-by-joist"},
		{clash.Pipe, clash.Deck}:       {demos[5].Job, "clash.deck-gap", "pipe 1, piece-by-deck"},
		{clash.Fitting, clash.Deck}:    {demos[5].Job, "clash.deck-gap", "bend-45 2, piece-by-deck"},
		{clash.Trap, clash.Deck}:       {frontEdge, "clash.deck-gap", "trap-by-deck"},
		{clash.Channel, clash.Deck}:    {frontEdge, "clash.deck-gap", "drain-channel-by-deck"},
		{clash.Pipe, clash.Slab}:       {slab, "pipe.into-floor", "pipe 1"},
		{clash.Fitting, clash.Slab}:    {on(slab, func(j *job.Job) { j.Waste.Fittings = throughWall }), "pipe.into-floor", "falling-piece"},
		{clash.Trap, clash.Slab}:       {slab, "trap.into-floor", "trap"},
		{clash.Channel, clash.Slab}:    {on(slab, func(j *job.Job) { j.Drain.ChannelDepthMM = 100 }), "clash.drain-gap", "drain-channel-by-floor"},
		{clash.Pipe, clash.Stud}:       {on(slab, studs), "exit.in-stud", "exit"},
		{clash.Fitting, clash.Stud}:    {on(slab, func(j *job.Job) { studs(j); j.Waste.Fittings = throughWall }), "exit.in-stud", "exit"},
		{clash.Pipe, clash.Wall}:       {winding(plan.Point{1915, 0}, plan.Point{1915, 300}), "clash.wall-gap", "pipe 3"},
		{clash.Fitting, clash.Wall}:    {on(slab, func(j *job.Job) { j.Waste.Fittings = throughWall }), "clash.wall-gap", "falling-piece"},
		{clash.Trap, clash.Wall}:       {slab, "clash.wall-gap", "trap"},
		{clash.Channel, clash.Wall}:    {slab, "clash.wall-gap", "drain-channel"},
		{clash.Pipe, clash.Doorway}:    {on(slab, doorAtExit), "clash.door-gap", "pipe"},
		{clash.Fitting, clash.Doorway}: {on(slab, func(j *job.Job) { doorAtExit(j); j.Waste.Fittings = throughWall }), "clash.door-gap", "falling-piece"},
		{clash.Pipe, clash.Stack}:      {stackAt(winding(plan.Point{400, 0}), plan.Point{200, 80}), "clash.stack-gap", "pipe 1, piece-by-stack 1"},
		{clash.Fitting, clash.Stack}:   {stackAt(winding(plan.Point{400, 0}, plan.Point{400, 300}), plan.Point{430, -60}), "clash.stack-gap", "bend-90 2, piece-by-stack 1"},
		{clash.Trap, clash.Stack}:      {stackAt(slab, plan.Point{-55, 120}), "clash.stack-gap", "trap-by-stack 1"},
		{clash.Channel, clash.Stack}:   {stackAt(slab, plan.Point{-300, 85}), "clash.stack-gap", "drain-channel-by-stack 1"},
	}
	for _, p := range clash.Pairs() {
		c, ok := cases[pair{p.A, p.B}]
		delete(cases, pair{p.A, p.B})
		switch {
		case p.Meant != clash.Apart && ok:
			t.Errorf("%s and %s are not meant to be apart, and are measured", p.A, p.B)
		case p.Meant == clash.Apart && !ok:
			t.Errorf("no job here holds a %s against a %s", p.A, p.B)
		case p.Meant == clash.Apart:
			r := geometry.Evaluate(c.job, demotest.Packs(t)["UK"])
			if len(r.Problems) > 0 {
				t.Errorf("%s against %s: %v", p.A, p.B, r.Problems)
			} else if math.IsNaN(measured(r, c.quantity, c.subject)) {
				t.Errorf("%s against %s: %s of %s is not measured: %s", p.A, p.B, c.quantity, c.subject, gaps(r))
			}
		}
	}
	for p := range cases {
		t.Errorf("the table lacks %s against %s", p[0], p[1])
	}
	for _, r := range demotest.Packs(t)["UK"].Rules {
		if r.ID == "clash-joist-near" && r.Limit != clash.ClearanceMM {
			t.Errorf("the rule asks for %v mm beside a joist, the table for %v", r.Limit, clash.ClearanceMM)
		}
	}
}

// gaps lists the clashes measured.
func gaps(r geometry.Result) (out string) {
	for _, m := range r.Measured {
		if m.Quantity[:5] == "clash" {
			out += fmt.Sprintf("%s %s %.2f; ", m.Quantity, m.Subject, m.Value)
		}
	}
	return out
}
