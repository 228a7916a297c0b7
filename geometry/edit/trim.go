package edit

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// TrimJoist cuts the joist that the trap stands on out round it and the drain's channel,
// between trimmers; nothing where it stands on none, or on one that is cut.
func TrimJoist() Edit {
	return Of(message.Of("edit.trim-joist"), func(j *job.Job) {
		if t, ok := trimRoundTrap(j); ok {
			j.Floor.Joists.Trims = append(j.Floor.Joists.Trims, t)
		}
	})
}

// Room left round trap and channel in an opening between trimmers, and the step its ends
// are rounded out to. Common practice, no source.
const (
	roundTrapMM = 25
	trimStepMM  = 10
)

// trimRoundTrap is the opening round the trap in the joist nearest to its middle; ok is
// false where the trap with its room is clear of it, or the joist is cut.
func trimRoundTrap(j *job.Job) (t job.Trim, ok bool) {
	if len(j.Validate()) > 0 {
		return t, false
	}
	lines, l := j.JoistLines(), layout.Of(*j, &plan.Shaper{})
	across := plan.Left(lines.Along)
	nearest := math.Inf(1)
	for i, line := range lines.Lines {
		if off := math.Abs(l.TrapCentre.Sub(lines.Origin).Dot(across) - line.OffsetMM); off < nearest {
			nearest, t.Joist = off, i+1
		}
	}
	if t.Joist == 0 {
		return t, false
	}
	for _, o := range j.Floor.Joists.Trims {
		if o.Joist == t.Joist {
			return t, false
		}
	}
	line := lines.Lines[t.Joist-1]
	from, to := math.Inf(1), math.Inf(-1)
	reach := j.Floor.Joists.WidthMM/2 + roundTrapMM
	for i, body := range [2]plan.Region{l.Trap, l.Drain} {
		lowU, highU, lowV, highV := extents(body, lines.Origin, lines.Along)
		if lowV >= line.OffsetMM+reach || highV <= line.OffsetMM-reach {
			if i == 0 {
				return t, false
			}
			continue
		}
		from, to = math.Min(from, lowU), math.Max(to, highU)
	}
	t.FromMM = math.Floor((from-line.FromMM-roundTrapMM)/trimStepMM) * trimStepMM
	t.ToMM = math.Ceil((to-line.FromMM+roundTrapMM)/trimStepMM) * trimStepMM
	least := j.Floor.Joists.WidthMM + job.LeastPieceMM
	if t.FromMM < least {
		t.FromMM = 0
	}
	if t.ToMM > line.LengthMM()-least {
		t.ToMM = line.LengthMM()
	}
	return t, true
}

// extents are how far a region reaches along a direction and across it, from an origin.
func extents(r plan.Region, origin, along plan.Point) (lowU, highU, lowV, highV float64) {
	lowU, highU, lowV, highV = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range r {
		for _, q := range p.Outer {
			u, v := q.Sub(origin).Dot(along), q.Sub(origin).Dot(plan.Left(along))
			lowU, highU, lowV, highV = math.Min(lowU, u), math.Max(highU, u), math.Min(lowV, v), math.Max(highV, v)
		}
	}
	return lowU, highU, lowV, highV
}
