package measure

import (
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/rule"
)

// deck measures the deck of a timber floor.
func (m *Measurer) deck() {
	j := &m.Settled
	if deck := j.Floor.Deck.ThicknessMM; j.Floor.Kind == job.FloorTimber && deck > 0 {
		m.add("deck.thickness", of(rule.Deck), deck, m.fallMiddle().Vec3(m.Heights.FloorHighMM))
	}
}

// opening measures how the opening for a base let in between joists is carried.
func (m *Measurer) opening() {
	j, h := &m.Settled, &m.Heights
	if j.Base.Support != job.BetweenJoists {
		return
	}
	under := h.JoistTopMM(j) - j.Base.MinThicknessMM
	middle := m.fallMiddle()
	wide, deep := j.Base.Ledger()
	m.add("ledger.below-joists", of(rule.Ledgers), max(0, j.Base.MinThicknessMM+deep-j.Floor.Joists.DepthMM), middle.Vec3(under))
	if joist.Askew(j, &m.Layout) {
		m.add("opening.askew", of(rule.BoardsLetIn), 1, middle.Vec3(under))
	}
	o, ok := joist.OpeningOf(j, &m.Layout, h)
	if !ok {
		return
	}
	bearing := wide
	for i := range o.Bays {
		b := &o.Bays[i]
		bearing = min(bearing, b.BearingMM)
		at := b.Middle.Vec3(under)
		m.add("board.span", rule.Subject{Of: rule.BoardsLetIn, Number: i + 1, From: m.Layout.JoistsFrom}, min(b.ClearMM, b.AlongMM), at)
		m.add("board.sliver", rule.Subject{Of: rule.BoardsLetIn, Number: i + 1, From: m.Layout.JoistsFrom}, b.WideMM, at)
		m.add("deck.edge-loose", rule.Subject{Of: rule.DeckEdge, Number: i + 1, From: m.Layout.JoistsFrom}, b.EdgeMM, at)
	}
	m.add("deck.overhang", of(rule.DeckBeside), o.OverhangMM, middle.Vec3(h.FloorHighMM))
	m.add("ledger.bearing", of(rule.Ledgers), bearing, middle.Vec3(under))
}
