package trial

import (
	"math"
	"slices"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
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
		at, across := plan.Point{m.At.X(), m.At.Y()}, plan.Left(r.Layout.JoistAlong).Mul(reachMM)
		return section.Cutting{Of: section.CutPoints, From: at.Sub(across), To: at.Add(across)}
	case slices.Contains([]string{"pipe", "run", "exit", "reducer", "joist", "beyond", "core", "vent", "gully", "stack", "pump"}, family):
		return section.Cutting{Of: section.CutPipe}
	}
	return section.Cutting{Of: section.CutDrain}
}

// shared is the one cut that both sides of a trial are shown on, at the same place and looked at the same way: the
// place that is meant in the job before, or, of a run that was found and is to end nothing, along that run. A side
// in which the cut of that name lies elsewhere is cut through the same two points. Along is the way that the section runs which was
// being read, zero for none: one that would run against it is looked at from its other side, so that right stays right; one across a
// doorway always leads in.
func shared(was, is geometry.Result, way Way, along plan.Point) (cuts [2]section.Cutting, of int) {
	sides := [2]geometry.Result{was, is}
	if way.Ends.Rule.ID == "" && way.Cut.Of == section.CutPipe {
		of = after
	}
	home := shows(sides[of], way.Cut)
	plane, err := home.Plane(sides[of])
	if err == nil && home.Of != section.CutDoor && home.Step.Of != rule.Doorway &&
		along.Dot(plan.Point{plane.Along.X(), plane.Along.Y()}) < -againstCosine {
		home = home.Turned(sides[of], plan.Point{plane.Origin.X(), plane.Origin.Y()}, home.TurnedDeg+180)
		plane, err = home.Plane(sides[of])
	}
	cuts = [2]section.Cutting{home, home}
	if err != nil {
		return cuts, of
	}
	if there, err := home.Plane(sides[1-of]); err != nil || !samePlane(plane, there) {
		reach := plane.Along.Mul(reachMM)
		low, high := plane.Origin.Sub(reach), plane.Origin.Add(reach)
		cuts[1-of] = section.Cutting{Of: section.CutPoints, From: plan.Point{low.X(), low.Y()}, To: plan.Point{high.X(), high.Y()}}
	}
	return cuts, of
}

// againstCosine is of the angle within which two sections run against each other.
const againstCosine = 0.7

// reachMM is how far from the middle the points of a cut lie: any length tells which way it goes.
const reachMM = 100

// samePlane tells whether two cuts lie in one place, are looked at the same way and count from one origin.
func samePlane(a, b solid.Cut) bool {
	return a.Origin.Sub(b.Origin).Len() < plan.HairMM && a.Normal.Sub(b.Normal).Len() < plan.HairMM
}

// shows is the cut that shows a result: the one that is meant; where the result has no such place the one along the
// pipe, and without a pipe the one through the drain.
func shows(r geometry.Result, meant section.Cutting) section.Cutting {
	for _, c := range []section.Cutting{meant, {Of: section.CutPipe}, {Of: section.CutDrain}} {
		if _, err := c.Plane(r); err == nil {
			return c
		}
	}
	return meant
}

// nearMM is how far off a plane what is hit may be to be shown on it.
const nearMM = 150

// hits are the places that are hit: of the cause that is to be ended, where there is one, and of what stops the job and
// was not there on the other side; without a cause of all that stops it.
func hits(r geometry.Result, ends rule.Finding, other []rule.Finding) (out []rule.Finding) {
	cause := rule.CauseOf(ends.Rule.Quantity)
	for _, f := range r.Findings {
		meant := f.Rule.Severity == rule.Stop && (ends.Rule.ID == "" || !f.Among(other))
		if ends.Rule.ID != "" && f.Rule.Severity != rule.Note {
			meant = meant && len(other) > 0 || rule.CauseOf(f.Rule.Quantity) == cause
		}
		if meant && placed(f) {
			out = append(out, f)
		}
	}
	return out
}

// placed tells whether a finding is of a place.
func placed(f rule.Finding) bool { return f.Measurement.At != [3]float64{} }

// ring is a place that something is told of.
type ring struct {
	at       plan.Point // in the drawing's coordinates
	standing geometry.Standing
	says     message.Message // zero for nothing
}

// ringsOf are the rings of what is hit, the worst first, and one where what was to be ended is hit no longer. What is
// hit is told by its figure.
func ringsOf(hit []rule.Finding, ended *rule.Finding, flat func(mgl64.Vec3) (plan.Point, bool)) (out []ring) {
	for _, f := range hit {
		if at, on := flat(f.Measurement.At); on {
			out = append(out, ring{at, geometry.StandingOf(f.Rule.Severity), f.Message()})
		}
	}
	if ended != nil {
		if at, on := flat(ended.Measurement.At); on {
			out = append(out, ring{at, geometry.Sound, message.Of("trial.put-right")})
		}
	}
	return out
}

// drawn is one drawing of a side, with what is laid over it, in the drawing's coordinates.
type drawn struct {
	section.Drawing
	rings []ring
	// timbers are the parts of the floor that are hit.
	timbers []string
	// old is the run as it was, where it goes otherwise now.
	old []plan.Point
}

// timbersOf are the timbers of a floor that are hit.
func timbersOf(r *geometry.Result, hit []rule.Finding) (out []string) {
	for _, f := range hit {
		if id := r.Timber(f.Measurement.Subject); id != "" {
			out = append(out, id)
		}
	}
	return out
}

// planOf draws the plan of a result, with rings round what is hit and what was to be ended and is no more, nil for none;
// was is the run of the other side, nil for none.
func planOf(r geometry.Result, hit []rule.Finding, ended *rule.Finding, was []plan.Point) drawn {
	d := drawn{Drawing: section.PlanOf(r), timbers: timbersOf(&r, hit)}
	d.Handles, d.Dimensions, d.SetOuts, d.Marks = nil, nil, nil, nil
	d.rings = ringsOf(hit, ended, func(at mgl64.Vec3) (plan.Point, bool) { return d.Cut.Flat(at), true })
	for i := range d.rings {
		d.rings[i].says = message.Message{} // the section has room for it
	}
	if now := r.Heights.Run.Corners; !sameWay(was, now) {
		d.old = was
	}
	return d
}

// sameWayMM is how far aside a run may go and still be told as going the same way.
const sameWayMM = 20

// sameWay tells whether two runs go the same way on plan.
func sameWay(a, b []plan.Point) bool {
	return slices.EqualFunc(a, b, func(p, q plan.Point) bool { return p.Sub(q).Len() < sameWayMM })
}

// sectionOf draws a result on a cut, with rings round what is hit there and what was to be ended and is no more; fault
// is why there is nothing to draw.
func sectionOf(r geometry.Result, cut section.Cutting, hit []rule.Finding, ended *rule.Finding) (d drawn, fault error) {
	if d.Drawing, fault = section.Through(r, cut, buildup.StageTile); fault != nil {
		return drawn{}, fault
	}
	d.Notes, d.Dimensions, d.timbers = nil, nil, timbersOf(&r, hit)
	d.rings = ringsOf(hit, ended, func(at mgl64.Vec3) (plan.Point, bool) {
		return d.Cut.Flat(at), math.Abs(d.Cut.Side(at)) < nearMM
	})
	return d, nil
}

// lookAt has a section look at the worst of what is hit there, else round the trap; at a step as the cut itself does.
func (d *drawn) lookAt(r geometry.Result, cut section.Cutting, hit []rule.Finding) {
	if cut.Of == section.CutStep || cut.Of == section.CutWayIn {
		return
	}
	middle, hits := d.Cut.Flat(r.Layout.TrapCentre.Vec3(0)).X(), false
	for _, f := range slices.Backward(hit) {
		if at := f.Measurement.At; math.Abs(d.Cut.Side(at)) < nearMM {
			middle, hits = d.Cut.Flat(at).X(), true
		}
	}
	low, high := middle-aroundMM, middle+aroundMM
	if run := &r.Heights.Run; cut.Of == section.CutPipe && len(run.Pieces) > 0 {
		// The first leg, with its ends, and what is hit.
		from, to := d.Cut.Flat(run.Corners[0].Vec3(0)).X(), d.Cut.Flat(run.Corners[1].Vec3(0)).X()
		low, high = min(from, to, middle)-aroundMM/2, max(from, to, middle)+aroundMM/2
	}
	low, high = max(d.FocusLow.X(), low), min(d.FocusHigh.X(), high)
	if hits { // also outside of what is usually looked at
		low, high = min(low, max(d.Low.X(), middle-aroundMM/2)), max(high, min(d.High.X(), middle+aroundMM/2))
	}
	if low < high {
		d.FocusLow, d.FocusHigh = plan.Point{low, d.FocusLow.Y()}, plan.Point{high, d.FocusHigh.Y()}
	}
}

// asOne has two sections on one plane show the same stretch of it, as high as either needs: to one scale.
func asOne(home, other *drawn) {
	low, high := home.FocusLow, home.FocusHigh
	low[1], high[1] = math.Min(low[1], other.FocusLow[1]), math.Max(high[1], other.FocusHigh[1])
	for _, d := range []*drawn{home, other} {
		d.FocusLow, d.FocusHigh = low, high
	}
}

// aroundMM is how far to both sides of what is looked at a section shows at least.
const aroundMM = 700
