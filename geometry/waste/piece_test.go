package waste_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// A pipe of 50 over 46 has walls of 2. Its body is 25 round the centre line;
// fittings stand out 3.5 more for their sockets (common practice, no source); a
// reducer counts with its larger end, whichever that is.
func TestBodies(t *testing.T) {
	large, small := part.Pipe{NominalMM: 50, OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 57}, part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36.6, SocketOutsideMM: 45}
	near(t, "wall of the large pipe", large.WallMM(), 2)
	near(t, "wall of the small pipe", small.WallMM(), 1.7)
	for kind, want := range map[waste.Kind]float64{waste.Straight: 25, waste.Reducer: 28.5, waste.Bend: 28.5, waste.FallingPiece: 28.5, waste.Drop: 28.5} {
		near(t, string(kind), waste.Piece{Kind: kind, Pipe: large, After: small}.RadiusMM(), want)
	}
	// The trap's joint is as thick as its socket or nut, and never thinner than the pipe.
	near(t, "joint", waste.Piece{Kind: waste.Joint, Pipe: large, After: large, OutsideMM: 64}.RadiusMM(), 32)
	near(t, "thin joint", waste.Piece{Kind: waste.Joint, Pipe: large, After: large, OutsideMM: 40}.RadiusMM(), 25)
	near(t, "reducer to a larger pipe", waste.Piece{Kind: waste.Reducer, Pipe: small, After: large}.RadiusMM(), 28.5)
}

// From 100 to 300 the invert falls from 40 to 35: 5 in 200. A piece without
// length in plan has no gradient.
func TestGradientOfAPiece(t *testing.T) {
	p := waste.Piece{FromMM: 100, ToMM: 300, FromInvertMM: 40, ToInvertMM: 35}
	near(t, "length", p.LengthMM(), 200)
	near(t, "gradient", p.Gradient(), 0.025)
	near(t, "gradient of half a millimetre", waste.Piece{FromMM: 100, ToMM: 100.5, FromInvertMM: 40, ToInvertMM: 39.9}.Gradient(), 0.2)
	near(t, "gradient of a drop", waste.Piece{FromMM: 100, ToMM: 100, FromInvertMM: 40, ToInvertMM: 35}.Gradient(), 0)
}

func TestNames(t *testing.T) {
	for want, p := range map[message.Numbered]waste.Piece{
		{ID: "piece.joint", Number: 1}:   {Kind: waste.Joint, Number: 1},
		{ID: "piece.pipe", Number: 1}:    {Kind: waste.Straight, Number: 1},
		{ID: "piece.bend-45", Number: 2}: {Kind: waste.Bend, Number: 2, NearestDeg: 45}, {ID: "piece.bend-90", Number: 3}: {Kind: waste.Bend, Number: 3, NearestDeg: 90},
		{ID: "piece.reducer", Number: 4}: {Kind: waste.Reducer, Number: 4}, {ID: "piece.falling-piece", Number: 5}: {Kind: waste.FallingPiece, Number: 5},
		{ID: "piece.drop", Number: 12}: {Kind: waste.Drop, Number: 12},
	} {
		if got := p.Name(); got != want {
			t.Errorf("%v, want %v", got, want)
		}
	}
	r := run{exit: plan.Point{500, 0}, floor: true}.lay(frame{})
	if a, b := r.Pieces[0].Name(), r.Pieces[1].Name(); a != (message.Numbered{ID: "piece.pipe", Number: 1}) || b != (message.Numbered{ID: "piece.drop", Number: 2}) {
		t.Errorf("%v, %v", a, b)
	}
}

// The middle of a straight, of a bend by its points, and of a drop.
func TestMiddleOfAPiece(t *testing.T) {
	for want, path := range map[plan.Point][]plan.Point{
		{200, 30}: {{100, 10}, {300, 50}}, {7, 8}: {{7, 8}}, {5, 1}: {{0, 0}, {5, 1}, {6, 6}}, {8, 2}: {{0, 0}, {5, 1}, {8, 2}, {9, 4}},
	} {
		nearPoint(t, "middle", waste.Piece{Path: path}.Middle(), want)
	}
}

// Along a piece from 100 to 150 round a corner, one corner there twice: 30 to the
// right and 20 up. Its ends count beyond them.
func TestPointsOfAPiece(t *testing.T) {
	p := waste.Piece{Path: []plan.Point{{10, 5}, {40, 5}, {40, 5}, {40, 25}}, FromMM: 100, ToMM: 150}
	for at, want := range map[float64]plan.Point{50: {10, 5}, 100: {10, 5}, 112: {22, 5}, 130: {40, 5}, 135: {40, 10}, 149: {40, 24}, 150: {40, 25}, 200: {40, 25}} {
		nearPoint(t, "point", p.PointAt(at), want)
	}
	var got []waste.Stretch
	for s := range p.Stretches {
		got = append(got, s)
	}
	if len(got) != 2 || got[0] != (waste.Stretch{A: plan.Point{10, 5}, B: plan.Point{40, 5}, FromMM: 100, LengthMM: 30}) || got[1] != (waste.Stretch{A: plan.Point{40, 5}, B: plan.Point{40, 25}, FromMM: 130, LengthMM: 20}) {
		t.Errorf("stretches %v", got)
	}
	for s := range p.Stretches {
		nearPoint(t, "the first, and no more", s.Along(), plan.Point{1, 0})
		break
	}
	// A drop has one corner and no length.
	nearPoint(t, "of a drop", (&waste.Piece{Path: []plan.Point{{7, 8}}, FromMM: 100, ToMM: 100}).PointAt(90), plan.Point{7, 8})
}

// Walls of 2 and of 1.7 below the inverts of bores of 46 and 36.6, and sockets that
// stand out 3.5 and 2.5 over them; a reducer from 100 to 200 along the run is half-way between at 150.
func TestBodiesAboutTheInvert(t *testing.T) {
	large, small := part.Pipe{NominalMM: 50, OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 57}, part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36.6, SocketOutsideMM: 45}
	of := func(kind waste.Kind, after part.Pipe) waste.Piece {
		return waste.Piece{Kind: kind, Pipe: large, After: after, FromMM: 100, ToMM: 200}
	}
	for _, c := range []struct {
		name             string
		piece            waste.Piece
		at, below, above float64
	}{
		{"pipe", of(waste.Straight, large), 130, 2, 48}, {"bend", of(waste.Bend, large), 130, 5.5, 51.5},
		{"joint", waste.Piece{Kind: waste.Joint, Pipe: large, After: large, OutsideMM: 64, ToMM: 30}, 10, (64.0 - 46) / 2, 46 + 9},
		{"a reducer's start", of(waste.Reducer, small), 100, 5.5, 51.5}, {"before it", of(waste.Reducer, small), 0, 5.5, 51.5},
		{"its middle", of(waste.Reducer, small), 150, 4.85, 41.3 + 4.85}, {"a quarter of it", of(waste.Reducer, small), 125, 5.175, 43.65 + 5.175},
		{"its end", of(waste.Reducer, small), 200, 4.2, 40.8}, {"past it", of(waste.Reducer, small), 300, 4.2, 40.8},
		{"one without length", waste.Piece{Kind: waste.Reducer, Pipe: large, After: small, FromMM: 100, ToMM: 100}, 100, 5.5, 51.5},
		{"one of half a millimetre", waste.Piece{Kind: waste.Reducer, Pipe: large, After: small, FromMM: 100, ToMM: 100.5}, 100.25, 4.85, 41.3 + 4.85},
	} {
		near(t, c.name+", below", c.piece.BelowInvertMM(c.at), c.below)
		near(t, c.name+", above", c.piece.AboveInvertMM(c.at), c.above)
	}
}

// What is wrong with a leg or a bend is told by the names of the pieces as they are laid, which
// are counted from one also where bends had to be drawn in. A corner of 1° needs no bend: the leg
// goes on to the next one.
func TestTroubleNamesPieces(t *testing.T) {
	numbered := func(id message.ID, n int) message.Numbered { return message.Numbered{ID: id, Number: n} }
	joint, exit := numbered("piece.joint", 1), message.Numbered{}
	slight := 100 * math.Tan(math.Pi/180)
	type between [][2]message.Numbered
	for name, c := range map[string]struct {
		run  run
		kind waste.TroubleKind
		want between
	}{
		// Bends keep 30, 15 and 15 of their 45 on legs of 60 and 30: pipe 1, bend 2, pipe 3 of 15,
		// bend 4, bend 5, pipe 6.
		"three bends": {run{turns: []plan.Point{{200, 0}, {200, 60}, {230, 60}}, exit: plan.Point{230, 360}}, waste.NoRoom, between{
			{numbered("piece.bend-90", 2), numbered("piece.bend-90", 4)}, {numbered("piece.bend-90", 4), numbered("piece.bend-90", 5)}}},
		"the first leg": {run{turns: []plan.Point{{30, 0}}, exit: plan.Point{30, 300}}, waste.NoRoom, between{{joint, numbered("piece.bend-90", 1)}}},
		"the last leg":  {run{turns: []plan.Point{{300, 0}}, exit: plan.Point{300, 30}}, waste.NoRoom, between{{numbered("piece.bend-90", 2), exit}}},
		"the drop":      {run{exit: plan.Point{30, 0}, floor: true}, waste.NoRoom, between{{joint, numbered("piece.drop", 1)}}},
		"a slight turn": {run{turns: []plan.Point{{300, 0}, {400, slight}, {410, slight}}, exit: plan.Point{410, 500}}, waste.NoRoom,
			between{{joint, numbered("piece.bend-90", 3)}}},
		"no such bend": {run{turns: []plan.Point{{300, 0}}, exit: plan.Point{450, 300}}, waste.NoBend, between{{numbered("piece.bend-45", 2), exit}}},
	} {
		r := c.run.lay(frame{})
		var got between
		for _, x := range troubles(r, c.kind) {
			got = append(got, [2]message.Numbered{x.From, x.To})
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v; pieces %v", name, got, c.want, kinds(r))
		}
		for i := range r.Pieces {
			if r.Pieces[i].Number != i+1 {
				t.Errorf("%s: piece %d has the number %d", name, i+1, r.Pieces[i].Number)
			}
		}
	}
}
