package measure

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/clash"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/waste"
)

// leastWCMM is over what size a branch counts as one of a water closet: Approved Document
// H, 2015, Diagram 2.
const leastWCMM = 65

// intoStack measures how the run joins its stack.
func (m *Measurer) intoStack(pipe part.Pipe, at mgl64.Vec3) {
	r, i := &m.Heights.Run, m.Settled.Waste.Exit.Stack
	s := &m.Settled.Room.Stacks[i]
	stack := rule.Subject{Of: rule.Stack, Number: i + 1}
	facts := map[string]float64{"stackMM": s.NominalMM}
	m.add("stack.narrower", stack, max(0, pipe.NominalMM-s.NominalMM), at)
	m.add("stack.flow", stack, m.Settled.Water.RunLPS(), at).Facts = facts
	invert := r.InvertAt(r.ExitAtMM)
	if s.FootInvertMM != nil {
		m.add("stack.above-foot", stack, invert-*s.FootInvertMM, at)
	}
	if s.OpposedMM == nil {
		return
	}
	over := invert + pipe.BoreMM/2 - *s.OpposedMM
	if s.OpposedNominalMM > leastWCMM && over >= 0 {
		return // what a water closet sends across the stack falls below it
	}
	m.add("stack.off-opposed", stack, math.Abs(over), at).Facts = map[string]float64{"stackMM": s.NominalMM, "opposedMM": s.OpposedNominalMM}
}

// stackBody is the body of a stack, by its index.
func (m *Measurer) stackBody(k int) clash.Cylinder {
	s := &m.Layout.Stacks[k]
	return clash.Cylinder{From: s.At.Vec3(-wallUpAndDownMM), To: s.At.Vec3(wallUpAndDownMM), RadiusMM: s.RadiusMM}
}

// byStacks holds a piece of the run against the stacks near it, but for the one that the
// run ends in.
func (m *Measurer) byStacks(p *waste.Piece, near *nearPiece, i int) {
	for _, k := range near.stacks {
		body := m.stackBody(k)
		is := clash.Meeting{GapMM: math.Inf(1)}
		for _, own := range m.bodies(i) {
			if g := own.GapTo(&body); g.GapMM < is.GapMM {
				is = g
			}
		}
		m.hold("clash.stack-gap", m.pair(kindOf(p), clash.Stack), pieceBy(rule.PieceByStack, p, k+1), is)
	}
}

// stacks holds trap, channel and the falling floor against the stacks.
func (m *Measurer) stacks(trap, channel *clash.Prism) {
	for k := range m.Layout.Stacks {
		body := m.stackBody(k)
		if trap != nil {
			m.hold("clash.stack-gap", m.pair(clash.Trap, clash.Stack), rule.Subject{Of: rule.TrapByStack, Number: k + 1}, body.Gap(trap))
		}
		if channel != nil {
			m.hold("clash.stack-gap", m.pair(clash.Channel, clash.Stack), rule.Subject{Of: rule.DrainChannelByStack, Number: k + 1}, body.Gap(channel))
		}
		s := &m.Layout.Stacks[k]
		if into := m.plan.near.intoFloor[k]; into > 0 {
			m.add("stack.in-shower", rule.Subject{Of: rule.Stack, Number: k + 1}, into, s.At.Vec3(m.Heights.TileMM))
		}
	}
}

// intoFloor is how far a circle in plan reaches into the falling floor; nothing or less
// where it is clear.
func (m *Measurer) intoFloor(at plan.Point, radiusMM float64) float64 {
	edge := m.Layout.FallArea.EdgeMM(at)
	if m.Layout.FallArea.Contains(at, 0) {
		return radiusMM + edge
	}
	return radiusMM - edge
}
