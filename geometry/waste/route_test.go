package waste_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

func lay(j job.Job) waste.Run { return waste.Lay(j, layout.Of(j, &plan.Shaper{})) }

// A run with one right-angled turn, by hand: the outlet at (645, 1832) going
// left, the turn at (300, 1832), down to an exit at (300, 400). The bend takes
// 45 off both legs and its arc of radius 45 is 70.69 long: the developed
// length is 345 − 45 + 70.69 + 1432 − 45 = 1757.69.
func TestOneBendByHand(t *testing.T) {
	j := job.New()
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 400}}
	r := lay(j)
	if len(r.Trouble) > 0 || r.Bends != 1 || len(r.Pieces) != 3 {
		t.Fatalf("pieces %v, bends %d, trouble %v", r.Pieces, r.Bends, r.Trouble)
	}
	if math.Abs(r.LengthMM-(345-45+45*math.Pi/2+1432-45)) > 0.2 {
		t.Errorf("length %v", r.LengthMM)
	}
}

// The simplest run is found for an exit in any wall, and always ends there.
func TestSimplestRunReachesEveryWall(t *testing.T) {
	for wall := range 4 {
		j := job.New()
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: wall, OffsetMM: 700}
		r := lay(j)
		l := layout.Of(j, &plan.Shaper{})
		if d := r.Exit.Sub(l.Walls[wall].At(700)).Len(); d > 1e-9 {
			t.Errorf("wall %d: exit is %v off", wall, d)
		}
		if out := r.ExitTo.Dot(l.Walls[wall].Outward); out < 0.9 {
			t.Errorf("wall %d: the run leaves at %v to the wall", wall, out)
		}
		if r.Pieces[len(r.Pieces)-1].ToMM < r.ExitAtMM+l.Walls[wall].ThicknessMM {
			t.Errorf("wall %d: the pipe ends inside the wall", wall)
		}
	}
}

// Level-invert reducer with bores 46 and 36: the right way up the inverts are
// level and crowns differ by 10; reversed, crowns are level and the invert
// jumps up by 10 (worked from the definition of the fitting; common practice).
func TestReducer(t *testing.T) {
	j := job.New()
	j.Waste.Gradient = 0
	j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 200, LengthMM: 60, Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, SocketOutsideMM: 40 + 7}}}
	for _, c := range []struct {
		reversed      bool
		invert, crown float64
	}{{false, 100, 136}, {true, 110, 146}} {
		j.Waste.Fittings[0].Reversed = c.reversed
		r := lay(j).WithLevels(100, 0)
		if got := r.InvertAt(r.ExitAtMM); math.Abs(got-c.invert) > 1e-9 {
			t.Errorf("reversed %v: invert %v, want %v", c.reversed, got, c.invert)
		}
		if got := r.InvertAt(r.ExitAtMM) + r.Outgoing().BoreMM; math.Abs(got-c.crown) > 1e-9 {
			t.Errorf("reversed %v: crown %v, want %v", c.reversed, got, c.crown)
		}
	}
}

// A falling piece of 3° over 120 mm falls 6.289 mm more than a level pipe.
func TestFallingPiece(t *testing.T) {
	j := job.New()
	j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 120, Slope: math.Tan(3 * math.Pi / 180)}}
	straight := lay(j)
	if got := straight.DropMM(math.Inf(1), 0); math.Abs(got-6.289) > 0.001 {
		t.Errorf("drop %v, want 6.289", got)
	}
	j.Waste.Fittings[0].Reversed = true
	reversed := lay(j)
	if got := reversed.DropMM(math.Inf(1), 0); math.Abs(got+6.289) > 0.001 {
		t.Errorf("reversed: drop %v, want −6.289", got)
	}
}

func TestTrouble(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		kind   waste.TroubleKind
	}{
		"turn of 60°":      {func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{400, 1832}, {300, 1832 - 173.2}} }, waste.NoBend},
		"not along outlet": {func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{400, 1600}} }, waste.NoBend},
		"leg too short":    {func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{400, 1832}, {400, 1800}} }, waste.NoRoom},
		"fitting past the end": {func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 5000, LengthMM: 100}}
		}, waste.NoPlace},
		"exit at the outlet": {func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{645, 1832}} }, waste.NothingLeft},
	} {
		t.Run(name, func(t *testing.T) {
			j := job.New()
			c.change(&j)
			for _, x := range lay(j).Trouble {
				if x.Kind == c.kind {
					return
				}
			}
			t.Errorf("trouble %v, want %s", lay(j).Trouble, c.kind)
		})
	}
}

// Whatever the turns and fittings, pieces join end to end, levels are
// continuous, and the gradient that is asked for brings the
// run to the exit level that is asked for.
func TestRunIsContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		at := rapid.Custom(func(t *rapid.T) plan.Point {
			return plan.Point{float64(rapid.IntRange(0, 240).Draw(t, "x")) * 10, float64(rapid.IntRange(0, 190).Draw(t, "y")) * 10}
		})
		j.Waste.Waypoints = rapid.SliceOfN(at, 0, 5).Draw(t, "turns")
		if rapid.Bool().Draw(t, "reducer") {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: rapid.Float64Range(0, 1000).Draw(t, "at"), LengthMM: 60, Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 43, BoreMM: 39, SocketOutsideMM: 43 + 7}, Reversed: rapid.Bool().Draw(t, "reversed")}}
		}
		if rapid.Bool().Draw(t, "joint") {
			j.Drain.OutletJointMM = rapid.Float64Range(1, 300).Draw(t, "joint's length")
		}
		j.Waste.InsertionMM = rapid.Float64Range(0, 60).Draw(t, "insertion")
		r := lay(j)
		if len(r.Pieces) == 0 {
			return
		}
		if g, ok := r.GradientTo(100, 60); ok {
			r = r.WithLevels(100, g)
			if got := r.InvertAt(r.ExitAtMM); math.Abs(got-60) > 1e-6 {
				t.Fatalf("exit at %v, want 60", got)
			}
		}
		for i, p := range r.Pieces {
			// Bodies begin and end where their pieces do, and leave the half of a piece to
			// the socket at its other end.
			body := p.BodyPath()
			if body[0] != p.Path[0] || body[len(body)-1] != p.Path[len(p.Path)-1] {
				t.Fatalf("piece %d from %v has a body from %v to %v", i, p.Path, body[0], body[len(body)-1])
			}
			from, to := p.Sockets()
			if from < 0 || to < 0 || p.Kind != waste.Joint && p.Kind != waste.Drop && math.Max(from, to) > p.LengthMM()/2 {
				t.Fatalf("sockets of %v and %v on %+v", from, to, p)
			}
			if (p.Kind == waste.Joint) != (i == 0 && j.Drain.OutletJointMM > 0) {
				t.Fatalf("piece %d is %+v", i, p)
			}
			if i == 0 {
				continue
			}
			q := r.Pieces[i-1]
			if math.Abs(p.FromMM-q.ToMM) > 1e-9 || math.Abs(p.FromInvertMM-q.ToInvertMM) > 1e-9 {
				t.Fatalf("piece %d does not follow piece %d: %+v, %+v", i, i-1, q, p)
			}
			if gap := p.Path[0].Sub(q.Path[len(q.Path)-1]).Len(); gap > 1e-6 {
				t.Fatalf("gap of %v between %s and %s", gap, q.Name().Message(), p.Name().Message())
			}
		}
	})
}
