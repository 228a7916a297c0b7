package trial

import (
	"math"
	"slices"
	"strings"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// CutOf is the section that shows a finding: across the step, across the joists at the place that is hit, along
// the pipe for all else that is of the run, else through the drain.
func CutOf(r geometry.Result, f rule.Finding) section.Cutting {
	m := &f.Measurement
	family, _, _ := strings.Cut(m.Quantity, ".")
	_, _, stepped := r.StepPlace(m.Subject)
	switch {
	case family == "step" && stepped:
		return section.Across(m.Subject)
	case len(r.Layout.Joists) > 0 && (family == "joist" || strings.Contains(m.Quantity, "joist")):
		const reachMM = 100 // any length tells which way it goes
		at, across := plan.Point{m.At.X(), m.At.Y()}, plan.Left(r.Layout.JoistAlong).Mul(reachMM)
		return section.Cutting{Of: section.CutPoints, From: at.Sub(across), To: at.Add(across)}
	case slices.Contains([]string{"pipe", "run", "exit", "reducer", "joist", "beyond", "core", "vent", "gully", "stack", "pump"}, family):
		return section.Cutting{Of: section.CutPipe}
	}
	return section.Cutting{Of: section.CutDrain}
}

// shows is the cut that shows a result: the one that is meant; where the result has no such place, or its pipe is
// looked for and goes elsewhere, the one along the pipe, and without a pipe the one through the drain.
func shows(r geometry.Result, meant section.Cutting, pipe bool) section.Cutting {
	plane, err := meant.Plane(r)
	if err == nil && (!pipe || meant.Of != section.CutPoints || liesIn(plane, r)) {
		return meant
	}
	for _, of := range []section.CuttingOf{section.CutPipe, section.CutDrain} {
		if _, err := (section.Cutting{Of: of}).Plane(r); err == nil {
			return section.Cutting{Of: of}
		}
	}
	return meant
}

// nearMM is how far off a plane what is hit may be to be shown on it.
const nearMM = 150

// liesIn tells whether a leg of the run lies in a plane.
func liesIn(plane solid.Cut, r geometry.Result) bool {
	const offMM = 25 // within it the pipe is cut lengthwise
	off := func(p plan.Point) float64 { return math.Abs(plane.Side(p.Vec3(plane.Origin.Z()))) }
	for i, p := range r.Heights.Run.Corners {
		if i > 0 && off(p) < offMM && off(r.Heights.Run.Corners[i-1]) < offMM {
			return true
		}
	}
	return false
}

// hits are the places that are hit: of the cause that is to be ended, where there is one, and of what stops the job and
// was not there on the other side; without a cause of all that stops it.
func hits(r geometry.Result, ends rule.Finding, other []rule.Finding) (at [][3]float64) {
	cause := rule.CauseOf(ends.Rule.Quantity)
	for _, f := range r.Findings {
		meant := f.Rule.Severity == rule.Stop && (ends.Rule.ID == "" || !slices.ContainsFunc(other, func(o rule.Finding) bool { return o.Key() == f.Key() }))
		if ends.Rule.ID != "" && f.Rule.Severity != rule.Note {
			meant = meant && len(other) > 0 || rule.CauseOf(f.Rule.Quantity) == cause
		}
		if place := [3]float64(f.Measurement.At); meant && place != ([3]float64{}) {
			at = append(at, place)
		}
	}
	return at
}

// drawn is one drawing of a side, with what is laid over it, in the drawing's coordinates.
type drawn struct {
	section.Drawing
	circles []plan.Point
	// old is the run as it was, where it goes otherwise now.
	old []plan.Point
}

// planOf draws the plan of a result, with what is hit circled; before is the run of the other side, nil for none.
func planOf(r geometry.Result, hit [][3]float64, before []plan.Point) drawn {
	d := drawn{Drawing: section.PlanOf(r)}
	d.Handles, d.Dimensions, d.SetOuts, d.Marks = nil, nil, nil, nil
	for _, at := range hit {
		d.circles = append(d.circles, d.Cut.Flat(at))
	}
	if now := r.Heights.Run.Corners; !sameWay(before, now) {
		d.old = before
	}
	return d
}

// sameWayMM is how far aside a run may go and still be told as going the same way.
const sameWayMM = 20

// sameWay tells whether two runs go the same way on plan.
func sameWay(a, b []plan.Point) bool {
	return slices.EqualFunc(a, b, func(p, q plan.Point) bool { return p.Sub(q).Len() < sameWayMM })
}

// sectionOf draws a result on a cut, with what is hit there circled; fault is why there is nothing to draw.
// What is looked at is round the first of the places to look at that lies on it, else round the trap.
func sectionOf(r geometry.Result, cut section.Cutting, hit, looked [][3]float64) (d drawn, fault error) {
	if d.Drawing, fault = section.Through(r, cut, buildup.StageTile); fault != nil {
		return drawn{}, fault
	}
	d.Notes, d.Dimensions = nil, nil
	for _, at := range hit {
		if math.Abs(d.Cut.Side(at)) < nearMM {
			d.circles = append(d.circles, d.Cut.Flat(at))
		}
	}
	if cut.Of == section.CutStep || cut.Of == section.CutWayIn {
		return d, nil // which has its own place
	}
	middle := d.Cut.Flat(r.Layout.TrapCentre.Vec3(0)).X()
	for _, at := range slices.Backward(looked) {
		if math.Abs(d.Cut.Side(at)) < nearMM {
			middle = d.Cut.Flat(at).X()
		}
	}
	low, high := middle-aroundMM, middle+aroundMM
	if run := &r.Heights.Run; cut.Of == section.CutPipe && len(run.Pieces) > 0 {
		// The first leg, with its ends.
		from, to := d.Cut.Flat(run.Corners[0].Vec3(0)).X(), d.Cut.Flat(run.Corners[1].Vec3(0)).X()
		low, high = math.Min(from, to)-aroundMM/2, math.Max(from, to)+aroundMM/2
	}
	low, high = math.Max(d.FocusLow.X(), low), math.Min(d.FocusHigh.X(), high)
	if low < high {
		d.FocusLow, d.FocusHigh = plan.Point{low, d.FocusLow.Y()}, plan.Point{high, d.FocusHigh.Y()}
	}
	return d, nil
}

// asOne has two sections that are looked at the same way show as much of their surroundings: to one scale.
func asOne(a, b *drawn) {
	if a.Cut.Normal.Sub(b.Cut.Normal).Len() > plan.HairMM {
		return
	}
	low := plan.Point{math.Min(a.FocusLow.X(), b.FocusLow.X()), math.Min(a.FocusLow.Y(), b.FocusLow.Y())}
	high := plan.Point{math.Max(a.FocusHigh.X(), b.FocusHigh.X()), math.Max(a.FocusHigh.Y(), b.FocusHigh.Y())}
	for _, d := range []*drawn{a, b} {
		d.FocusLow, d.FocusHigh = low, high
	}
}

// aroundMM is how far to both sides of what is looked at a section shows at least.
const aroundMM = 700
