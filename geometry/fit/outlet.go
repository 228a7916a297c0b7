package fit

import (
	"cmp"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// ofRun tells whether a finding says that the run does not go together, or is in its own way.
func ofRun(f rule.Finding) bool {
	switch f.Rule.Quantity {
	case "run.leg-short", "run.turn-off", "run.nothing", "clash.run-gap", "clash.wall-gap", "clash.stack-gap":
		return stops(f)
	}
	return false
}

// turnOutlet is turning the trap's outlet another way so that the run goes together, with its
// own turns where it has some stated, else with those that it finds by itself; of several ways
// the one that brings least, then with the fewest bends, then the lowest.
func (x *tryout) turnOutlet() (best Remedy, ok bool) {
	before := x.before
	if len(before.Problems) > 0 {
		return best, false
	}
	for _, simplest := range [...]bool{false, true} {
		if simplest && len(before.Stated.Waste.Waypoints) == 0 {
			break
		}
		for quarter := 1; quarter < 4; quarter++ {
			deg := job.AngleDeg(before.Stated.Drain.OutletTurnDeg + 90*float64(quarter))
			e := edit.TurnOutlet(deg)
			if simplest {
				e = edit.All(e.What, e, edit.SimplestRun())
			}
			if r, gone := x.with(e, turnWords(deg, simplest)); gone && (!ok || compareTurns(r, best) < 0) {
				best, ok = r, true
			}
		}
		if ok {
			break
		}
	}
	return best, ok
}

// compareTurns tells which of two ways for the outlet is better, below zero for the first.
func compareTurns(a, b Remedy) int {
	left := func(r Remedy) int {
		n := 0
		for _, f := range r.After.Findings {
			if stops(f) {
				n++
			}
		}
		return n
	}
	return cmp.Or(cmp.Compare(left(a), left(b)), cmp.Compare(len(a.New), len(b.New)),
		cmp.Compare(a.After.Heights.Run.Bends, b.After.Heights.Run.Bends), cmp.Compare(a.After.Heights.RaiseMM(), b.After.Heights.RaiseMM()))
}

// turnWords say which way the outlet is turned.
func turnWords(deg float64, simplest bool) message.Message {
	way := edit.OutletTo(deg)
	if simplest {
		return message.Of("remedy.outlet-and-turns", message.In("turn", way))
	}
	return way
}
