// Package fit answers whether a part goes with a floor: it chooses the part in the place
// of the one there is, works the floor out again and tells what comes out otherwise.
package fit

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
	"underfall/geometry/unit"
)

// Verdict is whether a part goes with a floor.
type Verdict int

// The verdicts.
const (
	Goes    Verdict = iota // and nothing else changes
	Changes                // it goes, and changes the floor
	Not                    // it does not go
)

// Answer is what comes of choosing a part.
type Answer struct {
	Part part.Part
	// Why the part cannot be chosen at all: numbers that cannot be, its own or the job's.
	// All that follows is then empty.
	Why []message.Message
	// NotSold tells that the part is not listed as sold in the job's country.
	NotSold bool
	// RaiseByMM is by how much higher the base is over the floor, and RaiseMM how high, as both are read.
	RaiseByMM, RaiseMM float64
	// StackDiffers tells that the base is made of other boards or beds.
	StackDiffers bool
	// FitsWas and Fits are the shares of builds in which trap and pipe fit, without the
	// part and with it, as far as straight lines tell.
	FitsWas, Fits float64
	// Rows of the schedule that come out otherwise: steps at edges and doorways first,
	// then in the schedule's order, then those that are gone.
	Rows []Change
	// New and Gone are the findings that there were not before, and are no more; gravest
	// first.
	New, Gone []rule.Finding
	// After is the floor with the part.
	After geometry.Result
}

// Change is a row of the schedule that comes out otherwise.
type Change struct {
	Row buildup.Row // with the part; without it where the row is gone
	// Was is its value without the part. A row that is new has none, one that is gone
	// has no other.
	Was       float64
	New, Gone bool
	units     unit.System // that levels are read in
}

// ByMM is by how much more the row comes to, between its two values as they are read; 0 of a fall and of a
// row that is new or gone.
func (c Change) ByMM() float64 {
	if c.New || c.Gone || c.Row.Kind() == buildup.IsFall {
		return 0
	}
	return unit.RiseRead(message.Rise{FromMM: c.Was, ToMM: c.Row.Value}, c.units)
}

// differs tells whether a row comes out otherwise than it is read, a fall by one that is shown.
func (c Change) differs() bool {
	if c.Row.Kind() == buildup.IsFall {
		return !unit.IsLevel(c.Row.Value - c.Was)
	}
	return c.ByMM() != 0
}

// Try chooses a part for the job of a result and holds what comes out against it, under
// the rules of a pack. A part that may be used in several places is tried in the shower.
// The error is a job that could not be worked out without the part.
func Try(before geometry.Result, p part.Part, pack rule.Pack) (Answer, error) {
	if len(before.Problems) > 0 {
		return Answer{}, before.Problems
	}
	a := Answer{Part: p, NotSold: !p.Of().SoldIn(before.Stated.Region)}
	if a.Why = wrong(before, p); len(a.Why) > 0 {
		return a, nil
	}
	after := geometry.EvaluateAfter(before, edit.UsePart(p).Apply(before.Stated), pack)
	for _, w := range after.Problems {
		a.Why = append(a.Why, w.Message())
	}
	if len(a.Why) > 0 {
		return a, nil
	}
	a.After = after
	a.RaiseMM = raiseTold(after, after.Settled.Units)
	a.RaiseByMM = a.RaiseMM - raiseTold(before, after.Settled.Units)
	a.StackDiffers = after.Heights.Stack != before.Heights.Stack
	a.FitsWas, a.Fits = before.Raises.Now.Fits, after.Raises.Now.Fits
	a.Rows = changes(before.Schedule, after.Schedule, after.Settled.Units)
	a.New, a.Gone = less(after.Findings, before.Findings), less(before.Findings, after.Findings)
	return a, nil
}

// raiseTold is how high the base's top is over the highest of the floor as the answer tells it: between two levels as each of
// them is read.
func raiseTold(r geometry.Result, u unit.System) float64 {
	return unit.RiseRead(r.Heights.RiseTo(r.Heights.BaseTopMM), u)
}

// wrong says why a part can be chosen for no floor, or not for one that falls so.
func wrong(before geometry.Result, p part.Part) []message.Message {
	var out []message.Message
	for _, w := range p.Check() {
		out = append(out, message.Of("problem.part", message.In("part", part.Name(p)), message.Name("field", w.Field), message.In("what", w.What)))
	}
	if d, ok := p.(part.Drain); ok {
		switch linear := before.Stated.Former.Fall.Linear(); {
		case linear && !d.Linear:
			out = append(out, message.Of("fit.falls-to-line"))
		case !linear && d.Linear:
			out = append(out, message.Of("fit.falls-to-point"))
		}
	}
	return out
}

// same tells whether two rows are about the same thing: pieces of a run are counted, so
// that the first after a trap may be another than it was.
func same(a, b buildup.Row) bool { return a.ID == b.ID && a.Piece == b.Piece }

// changes are the rows of a schedule that differ from those before.
func changes(before, after []buildup.Row, u unit.System) []Change {
	var out []Change
	for _, row := range after {
		i := slices.IndexFunc(before, func(b buildup.Row) bool { return same(b, row) })
		if i < 0 {
			out = append(out, Change{Row: row, New: true})
		} else if c := (Change{Row: row, Was: before[i].Value, units: u}); c.differs() {
			out = append(out, c)
		}
	}
	for _, row := range before {
		if !slices.ContainsFunc(after, func(a buildup.Row) bool { return same(a, row) }) {
			out = append(out, Change{Row: row, Was: row.Value, Gone: true})
		}
	}
	rest := func(c Change) int {
		if of := c.Row.ID.Of; of == buildup.EdgeStep || of == buildup.DoorStep {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(out, func(a, b Change) int { return rest(a) - rest(b) })
	return out
}

// less are the findings of one list that are not in the other.
func less(of, without []rule.Finding) []rule.Finding {
	var out []rule.Finding
	for _, f := range of {
		if !f.Among(without) {
			out = append(out, f)
		}
	}
	return out
}

// Stops are the findings that the part brings and that stop the job.
func (a Answer) Stops() []rule.Finding {
	return slices.DeleteFunc(slices.Clone(a.New), func(f rule.Finding) bool { return f.Rule.Severity != rule.Stop })
}

// noticedInHundred is by how many builds of a hundred chances must differ to be told of:
// the estimate is good to about half of one.
const noticedInHundred = 2

// ChanceDiffers tells whether the floor fits in noticeably more builds, or fewer.
func (a Answer) ChanceDiffers() bool {
	by := stage.InHundred(a.Fits) - stage.InHundred(a.FitsWas)
	return by >= noticedInHundred || by <= -noticedInHundred
}

// Verdict is whether the part goes with the floor.
func (a Answer) Verdict() Verdict {
	switch {
	case len(a.Why) > 0 || len(a.Stops()) > 0:
		return Not
	case a.RaiseByMM != 0 || a.StackDiffers || a.ChanceDiffers() || len(a.Rows) > 0 || len(a.New) > 0 || len(a.Gone) > 0:
		return Changes
	}
	return Goes
}
