package waste_test

import (
	"fmt"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// A joint of 30 is the first piece of a run of 1000, of the run's pipe; fittings stated
// nearer than its end stand at its end, others where they are stated. Two in one place
// are one too many, as ever.
func TestJointComesFirst(t *testing.T) {
	type piece struct {
		kind waste.Kind
		to   float64
	}
	const o, s, e = waste.Joint, waste.Straight, waste.FallingPiece
	for name, c := range map[string]struct {
		fittings []job.Fitting
		pieces   []piece
		missing  int // of the fittings, counted from one
	}{
		"alone":            {nil, []piece{{o, 30}, {s, 1000}}, 0},
		"at the outlet":    {[]job.Fitting{fallingPiece(0, 120)}, []piece{{o, 30}, {e, 150}, {s, 1000}}, 0},
		"in the joint":     {[]job.Fitting{fallingPiece(29.9, 120)}, []piece{{o, 30}, {e, 150}, {s, 1000}}, 0},
		"after it":         {[]job.Fitting{fallingPiece(31, 120)}, []piece{{o, 30}, {s, 31}, {e, 151}, {s, 1000}}, 0},
		"the nearer":       {[]job.Fitting{fallingPiece(20, 120), fallingPiece(10, 50)}, []piece{{o, 30}, {e, 80}, {s, 1000}}, 1},
		"all that is left": {[]job.Fitting{fallingPiece(0, 970)}, []piece{{o, 30}, {e, 1000}}, 0},
		"a little more":    {[]job.Fitting{fallingPiece(0, 970.1)}, []piece{{o, 30}, {s, 1000}}, 1},
	} {
		for _, f := range frames() {
			r := run{exit: plan.Point{1000, 0}, fittings: c.fittings, joint: 30}.lay(f)
			if len(r.Pieces) != len(c.pieces) {
				t.Fatalf("%s: pieces %v", name, kinds(r))
			}
			from := 0.0
			for i, want := range c.pieces {
				p := r.Pieces[i]
				if p.Kind != want.kind || p.Number != max(1, i) || p.Pipe.NominalMM != 50 || p.Pipe != p.After {
					t.Errorf("%s: piece %d is %+v", name, i+1, p)
				}
				near(t, fmt.Sprintf("%s, end of piece %d", name, i+1), p.ToMM, want.to)
				nearPoint(t, name+", start in plan", p.Path[0], f.point(plan.Point{from, 0}))
				from = want.to
			}
			near(t, name+", joint's diameter", r.Pieces[0].OutsideMM, 64)
			if found := troubles(r, waste.NoPlace); len(r.Trouble) != len(found) || c.missing == 0 != (len(found) == 0) || len(found) > 0 && found[0].Number != c.missing {
				t.Errorf("%s: trouble %v", name, r.Trouble)
			}
		}
	}
	if r := (run{exit: plan.Point{1000, 0}}).lay(frame{}); r.Pieces[0].Kind != waste.Straight {
		t.Errorf("without one the run begins with a %s", r.Pieces[0].Kind)
	}
}

// A joint of 30 and a bend of 45 take 75 of the first leg. On 75 they fit with no pipe
// between; on 60 both are drawn in to 60/75 of their size: 24 and 36, and the joint falls
// by as much.
func TestJointOnAShortLeg(t *testing.T) {
	for first, want := range map[float64]struct{ joint, bend float64 }{75: {30, 45}, 60: {24, 36}} {
		r := run{turns: []plan.Point{{first, 0}}, exit: plan.Point{first, 500}, joint: 30}.lay(frame{})
		if len(r.Pieces) != 3 || r.Pieces[1].Kind != waste.Bend {
			t.Fatalf("first leg of %v: %v", first, kinds(r))
		}
		near(t, "joint", r.Pieces[0].LengthMM(), want.joint)
		near(t, "bend from its corner", first-r.Pieces[1].Path[0].X(), want.bend)
		near(t, "drop over the joint", r.DropMM(want.joint, 0.02), 0.02*want.joint)
		found := troubles(r, waste.NoRoom)
		if len(r.Trouble) != len(found) || first == 75 != (len(found) == 0) {
			t.Errorf("first leg of %v: trouble %v", first, r.Trouble)
		}
		for _, x := range found {
			if x.Number != 1 || x.Value != 60 || x.Limit != 75 {
				t.Errorf("trouble %+v", x)
			}
		}
	}
}

// The simplest run leaves the trap's joint room before its first bend: square at once
// where there are 30 + 45 ahead, and after 30 + 45 + 10 where there are not; back past the
// outlet the last leg needs its bend and 10 alone.
func TestSimplestRunWithAJoint(t *testing.T) {
	right, up := plan.Point{1, 0}, plan.Point{0, 1}
	for name, c := range map[string]struct {
		r    run
		want []plan.Point
	}{
		"just room":          {run{exit: plan.Point{75, 400}, out: up}, []plan.Point{{75, 0}}},
		"no room":            {run{exit: plan.Point{74.9, 400}, out: up}, []plan.Point{{85, 0}, {85, 345}, {74.9, 345}}},
		"ahead to a pipe":    {run{exit: plan.Point{85, 400}}, []plan.Point{{85, 0}}},
		"too near a pipe":    {run{exit: plan.Point{80, 400}}, []plan.Point{{85, 0}, {85, 400}}},
		"step, just room":    {run{exit: plan.Point{170.1, 300}, out: right}, []plan.Point{{85.05, 0}, {85.05, 300}}},
		"step, no room":      {run{exit: plan.Point{169.9, 300}, out: right}, []plan.Point{{224.9, 0}, {224.9, 300}}},
		"step, 45° bends":    {run{exit: plan.Point{460.2, 300}, out: right}, []plan.Point{{80.1, 0}, {380.1, 300}}},
		"step, no 45° bends": {run{exit: plan.Point{459.9, 300}, out: right}, []plan.Point{{229.95, 0}, {229.95, 300}}},
	} {
		c.r.joint = 30
		for _, f := range frames() {
			r := c.r.lay(f)
			cornersAre(t, name, r, f, append(append([]plan.Point{{}}, c.want...), c.r.exit)...)
		}
	}
	// A reducer to pipe with larger bends, of 90: the turn has room for those.
	large := reducer(100, 60)
	large.Bend90FaceMM = 90
	r := run{exit: plan.Point{119.9, 400}, out: up, fittings: []job.Fitting{large}, joint: 30}.lay(frame{})
	cornersAre(t, "larger bends", r, frame{}, plan.Point{}, plan.Point{130, 0}, plan.Point{130, 300}, plan.Point{119.9, 300}, plan.Point{119.9, 400})
}

// Bends are those of the pipe they are in. Pipe of 50 has bends of 45, and of 25 for 45°;
// the pipe after the reducer of 90 and 60. From 0 to 400 and square to 900, at 45° to the
// exit: with the reducer on the second leg the first bend is the smaller one, the second
// the larger; with it on the first leg both are the larger.
func TestBendsOfThePipeThere(t *testing.T) {
	large := part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 70, SocketOutsideMM: 90, Bend45FaceMM: 60, Bend90FaceMM: 90}
	at := func(mm float64, to part.Pipe) run {
		f := job.Fitting{Kind: job.FittingReducer, AtMM: mm, LengthMM: 80, Pipe: to}
		return run{turns: []plan.Point{{400, 0}, {400, 500}}, exit: plan.Point{0, 900}, fittings: []job.Fitting{f}}
	}
	for name, c := range map[string]struct {
		r       run
		tangent [2]float64
		placed  bool
	}{
		"on the first leg":   {at(100, large), [2]float64{90, 60}, true},
		"up to a large bend": {at(230, large), [2]float64{90, 60}, true},
		// The reducer would end at 310.1, the large bend begin at 310: it has no place there.
		"into a large bend":  {at(230.1, large), [2]float64{45, 25}, false},
		"on the second leg":  {at(500, large), [2]float64{45, 60}, true},
		"past both":          {at(1000, large), [2]float64{45, 25}, true},
		"no bends stated":    {at(100, part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36}), [2]float64{45, 25}, true},
		"smaller bends":      {at(100, part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, Bend45FaceMM: 15, Bend90FaceMM: 30}), [2]float64{30, 15}, true},
		"up to a small bend": {at(290, part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, Bend45FaceMM: 15, Bend90FaceMM: 30}), [2]float64{30, 15}, true},
	} {
		r := c.r.lay(frame{})
		corners, k := c.r.turns, 0
		for _, p := range r.Pieces {
			if p.Kind == waste.Bend {
				near(t, fmt.Sprintf("%s, bend %d from its corner", name, k+1), p.Path[0].Sub(corners[k]).Len(), c.tangent[k])
				k++
			}
		}
		if k != 2 || c.placed != (len(r.Trouble) == 0) {
			t.Errorf("%s: %d bends, trouble %v", name, k, r.Trouble)
		}
	}
	// The drop's bend is that of the outgoing pipe as well: it begins 90 before the exit.
	drop := run{exit: plan.Point{1000, 0}, floor: true, fittings: []job.Fitting{{Kind: job.FittingReducer, AtMM: 100, LengthMM: 80, Pipe: large}}}.lay(frame{})
	near(t, "where the drop begins", drop.LengthMM, 910)
	// Bends of 90 too large for a leg of 100 between them, of 45 not: the reducer tells.
	short := at(100, large)
	short.turns, short.exit = []plan.Point{{400, 0}, {400, 100}}, plan.Point{900, 100}
	if found := troubles(short.lay(frame{}), waste.NoRoom); len(found) != 1 || found[0].Limit != 180 || found[0].Value != 100 {
		t.Errorf("trouble %v", found)
	}
	short.fittings = nil
	if r := short.lay(frame{}); len(r.Trouble) > 0 {
		t.Errorf("without a reducer: trouble %v", r.Trouble)
	}
}

// How deep sockets are, for pipe of 50 in sockets of 57 across. In line: as far as pipe
// goes in, but a stop of 4 stays between them. In a bend, by hand: sockets of 28.5 in
// radius whose inner sides keep 1 apart end (28.5 + 1)·tan(turn/2) from the corner.
func TestSockets(t *testing.T) {
	pipe := part.Pipe{OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 57, InsertionMM: 20, Bend90FaceMM: 45}
	small := part.Pipe{OutsideDiameterMM: 40, BoreMM: 36, SocketOutsideMM: 47, InsertionMM: 15}
	bare := part.Pipe{OutsideDiameterMM: 40, BoreMM: 36, InsertionMM: 15}
	straight := func(kind waste.Kind, after part.Pipe, length float64) waste.Piece {
		return waste.Piece{Kind: kind, Pipe: pipe, After: after, OutsideMM: 64, ToMM: length, Path: []plan.Point{{0, 0}, {length, 0}}}
	}
	bend := func(degrees, faceMM float64) waste.Piece {
		p := pipe
		p.Bend45FaceMM, p.Bend90FaceMM = faceMM, faceMM
		return turnOf(degrees, p)
	}
	thin := straight(waste.Joint, pipe, 30)
	thin.OutsideMM = 50
	for _, c := range []struct {
		name     string
		piece    waste.Piece
		from, to float64
	}{
		{"pipe", straight(waste.Straight, pipe, 500), 0, 0},
		{"falling piece", straight(waste.FallingPiece, pipe, 120), 20, 20},
		{"just long enough", straight(waste.FallingPiece, pipe, 44), 20, 20},
		{"short", straight(waste.FallingPiece, pipe, 43), 19.5, 19.5},
		{"shorter than its stop", straight(waste.FallingPiece, pipe, 3), 0, 0},
		{"reducer", straight(waste.Reducer, small, 60), 20, 15},
		{"short reducer", straight(waste.Reducer, small, 36), 16, 15},
		{"adaptor to pipe without sockets", straight(waste.Adaptor, bare, 60), 20, 0},
		{"joint", straight(waste.Joint, pipe, 30), 0, 20},
		{"short joint", straight(waste.Joint, pipe, 15), 0, 15},
		{"joint as thin as the pipe", thin, 0, 0},
		{"90°, roomy", bend(90, 60), 20, 20},
		{"90°, just", bend(90, 49.5), 20, 20},
		{"90°, tight", bend(90, 45), 15.5, 15.5},
		{"90°, no room", bend(90, 29.5), 0, 0},
		{"45°, tight", bend(45, 25), 25 - 29.5*0.41421356, 25 - 29.5*0.41421356},
		{"drop", waste.Piece{Kind: waste.Drop, Pipe: pipe, After: pipe, TurnDeg: 90, Path: []plan.Point{{0, 0}}}, 15.5, 15.5},
		{"drop without sockets", waste.Piece{Kind: waste.Drop, Pipe: bare, After: bare, TurnDeg: 90, Path: []plan.Point{{0, 0}}}, 0, 0},
	} {
		from, to := c.piece.Sockets()
		near(t, c.name+", from", from, c.from)
		near(t, c.name+", to", to, c.to)
	}
}

// turnOf is the bend of a run of a pipe that turns by an angle.
func turnOf(degrees float64, pipe part.Pipe) waste.Piece {
	f := job.Fitting{Kind: job.FittingAdaptor, LengthMM: 10, Pipe: pipe}
	r := turning(degrees)
	r.fittings = []job.Fitting{f}
	return r.lay(frame{}).Pieces[2]
}

// The middle of a bend's body is straight in its sockets, 20 of a face of 60, and on an
// arc of 40 between them: from (940, 0), 20 on, about (960, 40) up to (1000, 40), and on
// to (1000, 60). Where there is no room for sockets it is the path itself.
func TestBodyOfABend(t *testing.T) {
	pipe := part.Pipe{OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 57, InsertionMM: 20, Bend45FaceMM: 25, Bend90FaceMM: 60}
	bend := turnOf(90, pipe)
	body := bend.BodyPath()
	n := len(body)
	nearPoint(t, "start", body[0], plan.Point{940, 0})
	nearPoint(t, "end of the pipe in it", body[1], plan.Point{960, 0})
	nearPoint(t, "end of the pipe out of it", body[n-2], plan.Point{1000, 40})
	nearPoint(t, "end", body[n-1], plan.Point{1000, 60})
	for _, q := range body[1 : n-1] {
		near(t, "radius", q.Sub(plan.Point{960, 40}).Len(), 40)
	}
	if n < 8 {
		t.Errorf("drawn with %d points", n)
	}
	pipe.Bend90FaceMM = 29.5
	if tight := turnOf(90, pipe); tight.Body != nil || len(tight.BodyPath()) != len(tight.Path) {
		t.Errorf("a tight bend has a body of %d points", len(tight.Body))
	}
}
