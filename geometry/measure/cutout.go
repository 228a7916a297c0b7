package measure

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// cutOuts measures what is cut out of joists between trimmers, and how much of that for an opening that nothing lies in:
// one that a run was laid through before.
func (m *Measurer) cutOuts() {
	for i := range m.Layout.CutOuts {
		c := &m.Layout.CutOuts[i]
		subject := rule.Subject{Of: rule.CutOutOfJoist, Number: c.Joist, From: m.Layout.JoistsFrom, Part: c.Which, Between: c.Carriers}
		m.add("joist.trimmed", subject, c.LengthMM, m.cutOutAt(c))
		idle := 0.0
		if !m.liesIn(m.openingOf(c)) {
			idle = c.LengthMM
		}
		m.add("joist.trimmed-idle", subject, idle, m.cutOutAt(c))
	}
}

// cutOutAt is the middle of the top of what is cut out of a joist.
func (m *Measurer) cutOutAt(c *layout.CutOut) mgl64.Vec3 {
	at := c.Middle()
	return at.Vec3(m.joistTopAt(at))
}

// joistTopAt is the level of the joists' top at a place.
func (m *Measurer) joistTopAt(at plan.Point) float64 {
	return m.Heights.Survey.Floor.At(at) - m.Settled.Floor.Deck.ThicknessMM
}

// openingOf is the opening, in plan, that a piece is cut out of a joist for, with all that is cut out beside it for the same.
func (m *Measurer) openingOf(c *layout.CutOut) plan.Region {
	var corners []plan.Point
	for i := range m.Layout.CutOuts {
		if o := &m.Layout.CutOuts[i]; o.Trim == c.Trim {
			corners = append(corners, o.Ring...)
		}
	}
	return plan.FromRing(plan.Hull(corners))
}

// liesIn tells whether anything of the job lies in an opening between joists or goes down through it: the trap and the
// drain's channel of a base let in, a piece of the run that is not over the joists, a stack, or a pipe that was found.
func (m *Measurer) liesIn(opening plan.Region) bool {
	l, run := &m.Layout, &m.Heights.Run
	if m.Settled.Base.Support == job.BetweenJoists && (opening.Overlap(l.Trap) || opening.Overlap(l.Drain)) {
		return true
	}
	for i := range run.Pieces {
		p := &run.Pieces[i]
		low := math.Min(p.FromInvertMM-p.BelowInvertMM(p.FromMM), p.ToInvertMM-p.BelowInvertMM(p.ToMM))
		if low < m.joistTopAt(p.Middle()) && slices.ContainsFunc(p.Around(0), opening.Overlap) {
			return true
		}
	}
	for i := range l.Stacks {
		if s := &l.Stacks[i]; opening.Contains(s.At, s.RadiusMM) {
			return true
		}
	}
	return slices.ContainsFunc(m.Settled.Room.PipeEnds, func(e job.PipeEnd) bool { return opening.Contains(e.At, e.NominalMM) })
}
