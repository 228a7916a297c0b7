package rule_test

import (
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// A subject by its ids and numbers: what it says, what it shows to whoever mends the
// program, and the id that it keeps from one evaluation to the next.
func TestSubjects(t *testing.T) {
	one, two := message.Numbered{ID: "piece.pipe", Number: 1}, message.Numbered{ID: "piece.bend-90", Number: 2}
	for _, c := range []struct {
		of              rule.Subject
		says, shows, id string
	}{
		{rule.Subject{Of: rule.TheShower}, "subject.shower", "shower", "1"},
		{rule.Subject{Of: rule.Plane, Number: 4}, "subject.plane{number: 4}", "plane 4", "8.4.0"},
		{rule.Subject{Of: rule.WasteRunOfSize, Number: 75}, "subject.waste-run-of-size{size: size 75}", "waste-run-of-size 75", "22.75.0"},
		{rule.Subject{Of: rule.Piece, Piece: two}, "piece.bend-90{number: 2}", "bend-90 2", "24.0.2"},
		{rule.Subject{Of: rule.PieceByTrap, Piece: one}, "subject.piece-by-trap{piece: piece.pipe{number: 1}}", "pipe 1, piece-by-trap", "28.0.1"},
		{rule.Subject{Of: rule.PieceByWall, Piece: one, Number: 3}, "subject.piece-by-wall{piece: piece.pipe{number: 1}, wall: C}", "pipe 1, piece-by-wall C", "26.3.1"},
		{rule.Subject{Of: rule.PieceByPiece, Piece: one, Number: 2, Which: "piece.bend-90"}, "subject.piece-by-piece{piece: piece.pipe{number: 1}, other: piece.bend-90{number: 2}}", "pipe 1, piece-by-piece 2, bend-90", "27.2.1"},
		{rule.Subject{Of: rule.Base}, "subject.base", "base", "3"},
		{rule.Subject{Of: rule.Base, Which: "bound.trap-on-floor"}, "subject.base-kept-up{bound: bound.trap-on-floor}", "base, trap-on-floor", "3"},
		// What keeps a base up may be one piece or another: it is the same base.
		{rule.Subject{Of: rule.Base, Which: "bound.piece-on-floor", Piece: two}, "subject.base-kept-up{bound: bound.piece-on-floor{piece: piece.bend-90{number: 2}}}", "bend-90 2, base, piece-on-floor", "3"},
		{rule.Subject{Of: rule.Leg, Piece: one, Number: 2, Which: "piece.bend-90"}, "subject.leg{piece: piece.pipe{number: 1}, other: piece.bend-90{number: 2}}", "pipe 1, leg 2, bend-90", "32.2.1"},
		{rule.Subject{Of: rule.Leg, Piece: two}, "subject.leg-to-exit{piece: piece.bend-90{number: 2}}", "bend-90 2, leg", "32.0.2"},
		{rule.Subject{Of: rule.InLineFitting, Number: 2, Which: "fitting.reducer"}, "subject.in-line-fitting{which: fitting.reducer, number: 2}", "in-line-fitting 2, reducer", "33.2.0"},
		{rule.Subject{Of: rule.OpenEdge, Number: 1, Which: "edge.front"}, "edge.front", "open-edge 1, front", "44.1.0"},
		{rule.Subject{Of: rule.SpillsAt, Which: "edge.front"}, "edge.front", "spills-at 0, front", "46.edge.front"},
		{rule.Subject{Of: rule.SpillsAt, Number: 2}, "subject.doorway{number: 2}", "spills-at 2", "46.2.0."},
	} {
		if says, shows, id := c.of.Message().String(), c.of.String(), c.of.ID(); says != c.says || shows != c.shows || id != c.id {
			t.Errorf("%+v: %s, %s, %s; want %s, %s, %s", c.of, says, shows, id, c.says, c.shows, c.id)
		}
	}
}
