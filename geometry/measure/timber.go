package measure

import (
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/waste"
)

// timberBy is what is measured against a timber of the floor.
func timberBy(t rule.Thing, js *layout.Joist) rule.Subject {
	s := rule.Subject{Of: t, Number: js.Number, From: js.From}
	switch js.Member {
	case layout.CutJoist:
		s.Which, s.Part = rule.CutJoistPiece, js.Piece
	case layout.SecondJoist:
		s.Which = rule.SecondJoist
	case layout.Trimmer:
		s.Which = rule.Trimmer
	}
	return s
}

// IsOf tells whether a subject is of a timber of the floor.
func IsOf(s rule.Subject, js *layout.Joist) bool {
	switch s.Of {
	case rule.JoistCut, rule.TrapInJoist, rule.PieceByJoist, rule.DrainChannelByJoist:
		by := timberBy(s.Of, js)
		by.Piece = s.Piece
		return s == by
	}
	return false
}

// pieceByTimber is a piece of the run against a timber of the floor.
func pieceByTimber(t rule.Thing, p *waste.Piece, js *layout.Joist) rule.Subject {
	s := timberBy(t, js)
	s.Piece = p.Name()
	return s
}

// CutOf is a cut of a joist as rules speak of it.
func CutOf(c *joist.Crossing) rule.Subject { return pieceByTimber(rule.JoistCut, c.Piece, c.Joist) }

// pastHung is how far a point lies past an end of a timber that hangs on another, along
// it; 0 beside it.
func pastHung(js *layout.Joist, p plan.Point) float64 {
	u, past := p.Sub(js.Origin).Dot(js.Along), 0.0
	if js.HungStart || js.Member == layout.Trimmer {
		past = max(past, js.FromMM-u)
	}
	if js.HungEnd || js.Member == layout.Trimmer {
		past = max(past, u-js.ToMM)
	}
	return past
}
