package words_test

import (
	"testing"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
	"underfall/geometry/waste"
)

// book is British English as Underfall carries it; a message without a text fails.
func book(t *testing.T) words.Book {
	t.Helper()
	s, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	return s.Book(words.British, unit.Metric, func(m message.Message) { t.Errorf("no words for %s", m) })
}

// Whatever may be measured, keep the base up or be a piece of the run has words.
func TestSubjectsHaveWords(t *testing.T) {
	b := book(t)
	pipe := message.Numbered{ID: "piece.pipe", Number: 1}
	for of := rule.TheShower; of < rule.OpenEdge; of++ {
		s := rule.Subject{Of: of, Number: 2, Piece: pipe}
		switch of {
		case rule.InLineFitting:
			s.Which = "fitting.reducer"
		case rule.PieceByPiece, rule.Leg:
			s.Which = "piece.drop"
		}
		b.Say(s.Message())
	}
	for by := level.JoistTops; by <= level.OutsideGround; by++ {
		b.Say(level.Reason{By: by, Piece: pipe}.Message())
	}
	for _, kind := range []waste.Kind{waste.Joint, waste.Straight, waste.Bend, waste.Reducer, waste.FallingPiece, waste.Drop} {
		b.Say((&waste.Piece{Kind: kind, Number: 1}).Name().Message())
	}
	for want, s := range map[string]rule.Subject{
		"Pipe 1, wall C":                     {Of: rule.PieceByWall, Piece: pipe, Number: 3},
		"Base, set by Pipe 1 over the floor": {Of: rule.Base, Which: "bound.piece-on-floor", Piece: pipe},
		"Pipe 1 to 45° bend 2":               {Of: rule.Leg, Piece: pipe, Which: "piece.bend-45", Number: 2},
		"Pipe 1 to the exit":                 {Of: rule.Leg, Piece: pipe},
		"Waste run, 75 mm pipe":              {Of: rule.WasteRunOfSize, Number: 75},
		"Front edge":                         {Of: rule.OpenEdge, Number: 1, Which: "edge.front"},
		"Doorway 1":                          {Of: rule.SpillsAt, Number: 1},
	} {
		if got := b.Say(s.Message()); got != want {
			t.Errorf("“%s”, want “%s”", got, want)
		}
	}
}
