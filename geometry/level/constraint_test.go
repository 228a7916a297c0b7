package level_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// bound is one constraint worked out by hand.
type bound struct {
	by      level.Reason
	baseTop float64
	at      mgl64.Vec3
}

// Every bound on the base's top in the starting job, the floor at 5 all over
// (one reading). With the base's top at 0 the flange is at 3 + 20 = 23 and the
// outlet at 23 − 75 = −52.
//
//	thinnest board   5 + 3 adhesive + 20                = 28
//	trap             5 + 95 − 23                        = 77
//	pipe at outlet   5 + 2 (its wall) + 52              = 59
//	pipe at exit     5 + 2 + 645/40 + 52                = 75.125
//	ground outside   −150 + 2 + (645 + 215 + 60)/40 + 52 = −73
//
// An exit not below 30 needs 30 + 645/40 + 52 = 98.125; one at exactly 30 is met
// with the flattest pipe allowed, here 0.018: 30 + 11.61 + 52 = 93.61, and the
// pipe's own bounds are with that fall.
func TestConstraintsByHand(t *testing.T) {
	board := bound{level.Reason{By: level.ThinnestBoard}, 28, mgl64.Vec3{700, 1450, 8}}
	trap := bound{level.Reason{By: level.TrapOnFloor}, 77, mgl64.Vec3{700, 1832, 5}}
	outlet := bound{level.Reason{By: level.PieceOnFloor, Piece: pipe(1)}, 59, mgl64.Vec3{645, 1832, 5}}
	atExit := func(top float64) bound { return bound{outlet.by, top, mgl64.Vec3{0, 1832, 5}} }
	ground := func(top float64) bound {
		return bound{level.Reason{By: level.OutsideGround}, top, mgl64.Vec3{-275, 1832, -150}}
	}
	invert := func(top float64) bound {
		return bound{level.Reason{By: level.ExitInvert}, top, mgl64.Vec3{0, 1832, 30}}
	}
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   []bound
	}{
		"free exit": {func(*job.Job) {}, []bound{ground(-73), board, outlet, atExit(75.125), trap}},
		"not below": {func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(30) }, []bound{ground(-73), board, outlet, atExit(75.125), trap, invert(98.125)}},
		"exactly": {func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(30) },
			[]bound{ground(-150 + 2 + 920*0.018 + 52), board, outlet, atExit(70.61), trap, invert(93.61)}},
		"no ground": {func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = nil }, []bound{board, outlet, atExit(75.125), trap}},
		"pipe's end": {func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, Wall: 3, At: plan.Point{0, 1832}} },
			[]bound{board, outlet, atExit(75.125), trap}},
	} {
		t.Run(name, func(t *testing.T) {
			j := job.New()
			j.SpotLevels = spots([3]float64{1200, 1000, 5})
			c.change(&j)
			_, h := solve(j)
			boundsAre(t, h, c.want)
			near(t, "least base top", h.LeastBaseTopMM(), c.want[len(c.want)-1].baseTop)
			near(t, "base top", h.BaseTopMM, c.want[len(c.want)-1].baseTop)
		})
	}
}

// pipe is the name of a pipe of the run.
func pipe(number int) message.Numbered { return message.Numbered{ID: "piece.pipe", Number: number} }

func boundsAre(t *testing.T, h level.Heights, want []bound) {
	t.Helper()
	if len(h.Constraints) != len(want) {
		t.Fatalf("%d constraints, want %d: %+v", len(h.Constraints), len(want), h.Constraints)
	}
	for i, w := range want {
		c := h.Constraints[i]
		if c.Reason() != w.by {
			t.Errorf("constraint %d is %v, want %v", i, c.Reason(), w.by)
		}
		near(t, w.by.Message().String(), c.BaseTopMM, w.baseTop)
		if c.At.Sub(w.at).Len() > 1e-6 {
			t.Errorf("%v is at %v, want %v", w.by, c.At, w.at)
		}
	}
}

// Let in between joists of 195 under boards of 22, the base stands on the
// joists, 22 under the floor's 5: −17. Trap and pipe matter only where a ceiling
// hangs under the joists, 217 under the floor: 5 − 217 + 95 − 23 = −140, at the
// outlet −212 + 2 + 52 = −158, at the exit 16.125 more.
func TestConstraintsBetweenJoists(t *testing.T) {
	j := job.New()
	j.SpotLevels = spots([3]float64{1200, 1000, 5})
	j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
	j.Room.Walls[3].OutsideGroundMM = nil
	_, h := solve(j)
	joists := bound{level.Reason{By: level.JoistTops}, -17, mgl64.Vec3{700, 1450, 5}}
	boundsAre(t, h, []bound{joists})
	near(t, "top of the joists", h.JoistTopMM(&j), -17)
	near(t, "base over the deck", h.BaseThicknessMM(&j), -22)
	j.Floor.CeilingBelow = true
	_, h = solve(j)
	below := level.Reason{By: level.PieceOnJoists, Piece: pipe(1)}
	boundsAre(t, h, []bound{{below, -158, mgl64.Vec3{645, 1832, -212}}, {below, -141.875, mgl64.Vec3{0, 1832, -212}},
		{level.Reason{By: level.TrapOnJoists}, -140, mgl64.Vec3{700, 1832, -212}}, joists})
}

// A reading of 10 in the shower over a floor at 5: boards, trap and pipe stay
// over the reading. On a floor that rises 10 mm/m to the right the trap stands
// over its right side, x = 755: 7.55 + 95 − 23 = 79.55, and the board over 14.
func TestConstraintsOnAnUnevenFloor(t *testing.T) {
	of := func(h level.Heights, by level.Bound) (least, most float64) {
		least, most = 1e9, -1e9
		for _, c := range h.Constraints {
			if c.By == by {
				least, most = min(least, c.BaseTopMM), max(most, c.BaseTopMM)
			}
		}
		return least, most
	}
	j := job.New()
	j.SpotLevels = spots([3]float64{700, 1450, 10}, [3]float64{2300, 100, 0})
	_, h := solve(j)
	_, trap := of(h, level.TrapOnHighSpot)
	_, board := of(h, level.ThinnestBoard)
	outlet, exit := of(h, level.PieceOnHighSpot)
	near(t, "trap over the reading", trap, 82)
	near(t, "board on the reading", board, 33)
	near(t, "pipe over the reading at the outlet", outlet, 64)
	near(t, "pipe over the reading at the exit", exit, 80.125)
	j.SpotLevels = spots([3]float64{0, 0, 0}, [3]float64{2400, 0, 24}, [3]float64{0, 1900, 0})
	_, h = solve(j)
	_, trap = of(h, level.TrapOnFloor)
	_, board = of(h, level.ThinnestBoard)
	outlet, exit = of(h, level.PieceOnFloor)
	near(t, "trap on a rising floor", trap, 79.55)
	near(t, "board on a rising floor", board, 14+3+20)
	near(t, "pipe on a rising floor at the outlet", outlet, 6.45+2+52)
	near(t, "pipe on a rising floor at the exit", exit, 2+16.125+52)
}

// Only what lies before the exit has to stay over the floor: of three pipes with
// the exit halfway along the second, both ends of the first, and the second from
// its start to the exit. Where a pipe with a wall of 3 follows one with 2, each counts
// with its own.
func TestConstraintsUpToTheExit(t *testing.T) {
	j := job.New()
	j.Room.Walls[3].OutsideGroundMM = nil
	thin, thick := part.Pipe{OutsideDiameterMM: 50, BoreMM: 46}, part.Pipe{OutsideDiameterMM: 50, BoreMM: 44}
	run := waste.Run{ExitAtMM: 250, LengthMM: 400}
	for i, p := range []part.Pipe{thin, thick, thick} {
		from := []float64{0, 200, 300, 400}[i : i+2]
		run.Pieces = append(run.Pieces, waste.Piece{Kind: waste.Straight, Number: i + 1, FromMM: from[0], ToMM: from[1], Pipe: p, After: p,
			Path: []plan.Point{{from[0], 1500}, {from[1], 1500}}})
	}
	h := level.Solve(j, layout.Of(j, &plan.Shaper{}), run, 0.018)
	var got []string
	for _, c := range h.Constraints {
		if c.By == level.PieceOnFloor {
			got = append(got, fmt.Sprintf("pipe %d: %.2f at %.0f", c.Reason().Piece.Number, c.BaseTopMM, c.At.X()))
		}
	}
	want := []string{"pipe 1: 54.00 at 0", "pipe 1: 59.00 at 200",
		"pipe 2: 60.00 at 200", "pipe 2: 61.25 at 250"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("constraints\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// Room is left under trap and pipe, not under the ground outside nor under a level that
// the exit may not lie under; of two requirements the higher one with its room sets the
// buildable height. By hand for the starting job: the trap asks for 72, the pipe, whose
// underside lies 75 + 16.125 + 2 under a flange at 23, for 70.125. With 5 under the trap
// and none under the pipe the trap's 77 counts, the other way about the pipe's 75.125.
func TestRoomUnderTrapAndPipe(t *testing.T) {
	for _, c := range []struct {
		trap, pipe float64
		by         level.Bound
		top, room  float64
	}{{0, 0, level.TrapOnFloor, 72, 0}, {5, 0, level.TrapOnFloor, 77, 5}, {0, 5, level.PieceOnFloor, 75.125, 5}, {5, 6.8, level.TrapOnFloor, 77, 5}, {5, 6.9, level.PieceOnFloor, 77.025, 6.9}} {
		j := job.New()
		j.Drain.BedUnderMM, j.Waste.ClearUnderMM, j.Waste.Exit.Level = c.trap, c.pipe, job.NotBelow(-20)
		l := layout.Of(j, &plan.Shaper{})
		h := level.Solve(j, l, waste.Lay(j, l), 0)
		by, top := h.ClearTop()
		if by.By != c.by || math.Abs(top-c.top) > 1e-9 || by.ClearMM != c.room {
			t.Errorf("%v and %v: %v by %+v", c.trap, c.pipe, top, by)
		}
		if h.LeastBaseTopMM() != 72 {
			t.Errorf("%v and %v: bare at %v", c.trap, c.pipe, h.LeastBaseTopMM())
		}
		for _, x := range h.Constraints {
			if x.By == level.OutsideGround || x.By == level.ExitInvert || x.By == level.ThinnestBoard {
				if x.ClearMM != 0 {
					t.Errorf("%+v wants room", x)
				}
			}
		}
	}
}
