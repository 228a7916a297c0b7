package edit_test

import (
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The usual job's trap is at (700, 1832), its outlet 55 to the left of there, and the waste goes straight out through the wall on
// the left, 68 from its far end at y = 1900. Its one leg laid 300 towards the room leads out 368 from there, from a turn under the
// trap, to which the outlet is turned; with the trap it cannot go, as the drain lies along the leg. Of a run with turns a middle leg
// keeps the directions of those beside it, and a leg to the end of a pipe comes back to that. Out through the front wall the leg runs
// square to the drain: the trap goes along with it.
func TestALegIsLaidAside(t *testing.T) {
	towards := plan.Point{0, -300}
	turned := func(change func(*job.Job)) func(*job.Job) {
		return func(j *job.Job) {
			j.Drain.OutletTurnDeg = 270
			change(j)
		}
	}
	around := func(a, b float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{500, 1832}, {500, a}, {200, a}, {200, b}}
			j.Waste.Exit.OffsetMM = 1900 - b
		}
	}
	across := func(j *job.Job) { // out through the front wall, which begins at the room's corner
		j.Drain.OutletTurnDeg, j.Waste.Exit = 270, job.Exit{Kind: job.ExitWall, Wall: 0, OffsetMM: 700}
	}
	toPipe := func(j *job.Job) {
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{100, 1832}}
	}
	measured := func(change func(*job.Job)) func(*job.Job) {
		return func(j *job.Job) {
			change(j)
			j.AsBuilt.OutletInvertMM, j.AsBuilt.ExitInvertMM = ptr(40), ptr(20)
		}
	}
	eachEdit(t, map[string]editCase{
		"the only leg": {nil, edit.ShiftLeg(plan.Point{300, 1832}, towards, false), turned(func(j *job.Job) {
			j.Waste.Waypoints, j.Waste.Exit.OffsetMM = []plan.Point{{700, 1532}}, 368
		})},
		"along the drain":      {nil, edit.ShiftLeg(plan.Point{300, 1832}, towards, true), nil},
		"past the wall's end":  {nil, edit.ShiftLeg(plan.Point{300, 1832}, plan.Point{0, 300}, false), nil},
		"not at all":           {nil, edit.ShiftLeg(plan.Point{300, 1832}, plan.Point{}, false), nil},
		"no run":               {noRun, edit.ShiftLeg(plan.Point{300, 1832}, towards, false), nil},
		"a leg between others": {around(1000, 600), edit.ShiftLeg(plan.Point{350, 1000}, towards, false), around(700, 600)},
		"the last leg":         {around(1000, 600), edit.ShiftLeg(plan.Point{100, 600}, plan.Point{0, -100}, false), around(1000, 500)},
		"to a pipe": {toPipe, edit.ShiftLeg(plan.Point{300, 1832}, towards, false), turned(func(j *job.Job) {
			toPipe(j)
			j.Waste.Waypoints = []plan.Point{{700, 1532}, {100, 1532}}
		})},
		"with its trap": {across, edit.ShiftLeg(plan.Point{700, 900}, plan.Point{-100, 0}, true), func(j *job.Job) {
			across(j)
			j.Drain.TrapOffsetMM, j.Waste.Exit.OffsetMM = -100, 600
		}},
		// Levels measured as built are lost with their places: of a trap that moves along, and of an exit.
		"with its trap, as built": {measured(across), edit.ShiftLeg(plan.Point{700, 900}, plan.Point{-100, 0}, true), func(j *job.Job) {
			j.Drain.TrapOffsetMM, j.Waste.Exit.OffsetMM = -100, 600
			j.AsBuilt.OutletInvertMM, j.AsBuilt.ExitInvertMM = nil, nil
		}},
		"between others, as built": {measured(around(1000, 600)), edit.ShiftLeg(plan.Point{350, 1000}, towards, false), around(700, 600)},
	})
}
