package search

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// layoutOf is the plan of a job.
func layoutOf(t *testing.T, j job.Job) layout.Layout {
	t.Helper()
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	var sh plan.Shaper
	l := layout.Of(j, &sh)
	if sh.Err() != nil {
		t.Fatal(sh.Err())
	}
	return l
}

// chains lists the corners of all chains, each to a thousandth of a millimetre, in
// order.
func chains(l layout.Layout, exit job.Exit, steps int, bends [2]int, j *job.Job) (out []string) {
	eachChain(l, exit, steps, bends, firstTurns(), j, func(corners []plan.Point) { out = append(out, written(corners)) })
	slices.Sort(out)
	return out
}

func written(corners []plan.Point) (out string) {
	for _, c := range corners {
		out += fmt.Sprintf("(%.3f %.3f)", c.X()+0, c.Y()+0)
	}
	return out
}

// The usual job's outlet is at (645, 1832) and looks to the left; the room reaches from
// (0, 0) to (2400, 1900). Square bends take 45 of each leg, those of 45° take 25.
func TestChainsOfAtMostOneBend(t *testing.T) {
	j := job.New()
	l := layoutOf(t, j)
	pipe := func(ahead, left float64) job.Exit {
		return job.Exit{Kind: job.ExitPipe, At: plan.Point{645 - ahead, 1832 - left}}
	}
	wall := func(index int, offset float64) job.Exit {
		return job.Exit{Kind: job.ExitWall, Wall: index, OffsetMM: offset}
	}
	for _, c := range []struct {
		name string
		exit job.Exit
		want []string
	}{
		{"straight ahead", pipe(300, 0), []string{""}},
		{"as good as straight", pipe(300, 0.49), []string{""}},
		{"a little aside, to either hand", pipe(300, 0.51), nil},
		{"behind", pipe(-300, 0), nil},
		// Square at once, or at 45° from where as much is left ahead as there is aside.
		{"ahead and aside", pipe(500, 300), []string{"(145.000 1832.000)", "(445.000 1832.000)"}},
		{"ahead and to the other side", pipe(500, -60), []string{"(145.000 1832.000)", "(205.000 1832.000)"}},
		{"just room for 45°", pipe(325.01, 300), []string{"(319.990 1832.000)", "(619.990 1832.000)"}},
		{"no room for 45°", pipe(324.99, 300), []string{"(320.010 1832.000)"}},
		{"just room for 90°", pipe(500, 45.01), []string{"(145.000 1832.000)", "(190.010 1832.000)"}},
		{"all the room that 90° takes", pipe(500, 45), []string{"(145.000 1832.000)", "(190.000 1832.000)"}},
		{"all the room before 90°", pipe(45, 300), []string{"(600.000 1832.000)"}},
		{"no room for 90°", pipe(500, 44.99), []string{"(189.990 1832.000)"}},
		// The last leg at 45° is √2 of what is aside.
		{"just room after 45°", pipe(500, 25.01/math.Sqrt2), []string{fmt.Sprintf("(%.3f 1832.000)", 145+25.01/math.Sqrt2)}},
		{"no room after 45°", pipe(500, 24.99/math.Sqrt2), nil},
		{"no room before 90°", pipe(44.99, 300), nil},
		{"just room before 90°", pipe(45.01, 300), []string{"(599.990 1832.000)"}},
		// Out through a wall square to it: the wall at the left begins at its back, at y = 1900.
		{"through the wall ahead", wall(3, 68), []string{""}},
		{"through the wall ahead, aside", wall(3, 400), nil},
		{"through the wall at the side", wall(0, 300), []string{"(300.000 1832.000)"}},
		{"through the wall behind", wall(1, 1832), nil},
	} {
		if got := chains(l, c.exit, 3, [2]int{0, 1}, &j); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	// A joint of 30 at the trap takes its part of the first leg, and of no other.
	j.Drain.OutletJointMM = 30
	for want, exit := range map[string]job.Exit{"(569.990 1832.000)": pipe(75.01, 300), "": pipe(74.99, 300), "(289.990 1832.000)": pipe(355.01, 300)} {
		got := chains(l, exit, 3, [2]int{1, 1}, &j)
		if want == "" && len(got) > 0 || want != "" && !slices.Contains(got, want) {
			t.Errorf("with a joint: %q, want %q", got, want)
		}
	}
	j.Drain.OutletJointMM = 0
	// None with at least two bends among these.
	if got := chains(l, pipe(300, 0), 3, [2]int{1, 1}, &j); len(got) > 0 {
		t.Errorf("straight ahead with one bend: %q", got)
	}
}

// Through a wall that stands askew runs leave as square as eighths of a turn allow: on
// the one side of 22.5° straight to the left, on the other an eighth further.
func TestChainsLeaveAsSquareAsTheyCan(t *testing.T) {
	for _, c := range []struct {
		name  string
		slant float64 // how far the left wall's front end is drawn into the room
		want  []float64
	}{{"square", 0, []float64{4}}, {"22°", math.Tan(22*math.Pi/180) * 1900, []float64{4}}, {"23°", math.Tan(23*math.Pi/180) * 1900, []float64{5}}} {
		j := job.New()
		j.Room.Outline[0] = plan.Point{c.slant, 0}
		j.Room.Doorways = nil
		l := layout.Layout{ToRight: plan.Point{1, 0}, Into: plan.Point{0, -1}, Outlet: plan.Point{1500, 1832}, OutletTo: plan.Point{-1, 0}, Room: plan.FromRing(j.Room.Outline)}
		a, b := j.Room.Outline[3], j.Room.Outline[0]
		along := b.Sub(a).Normalize()
		l.Walls = []layout.Wall{{A: a, B: b, Along: along, Outward: plan.Left(along).Mul(-1), LengthMM: b.Sub(a).Len()}}
		// Each run's last leg, as the eighth of a turn it goes in.
		ends := map[float64]bool{}
		to := l.Walls[0].At(900)
		eachChain(l, job.Exit{Kind: job.ExitWall, OffsetMM: 900}, 3, [2]int{0, 2}, firstTurns(), &j, func(corners []plan.Point) {
			d := to.Sub(append([]plan.Point{l.Outlet}, corners...)[len(corners)])
			ends[math.Mod(math.Round(math.Atan2(d.Y(), d.X())/(math.Pi/4))+8, 8)] = true
		})
		got := make([]float64, 0, len(ends))
		for h := range ends {
			got = append(got, h)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: runs leave by the directions %v, want %v", c.name, got, c.want)
		}
	}
}

// Every chain of two and three bends, enumerated here by complex numbers: a turn by 45°
// is a factor. All legs but two are as long as the bends at their ends need, or that and
// a square's share of what is left to the distance of outlet and exit and 400 more.
func TestChainsOfMoreBends(t *testing.T) {
	const steps = 2
	j := job.New()
	l := layoutOf(t, j)
	for _, at := range []plan.Point{{200, 1300}, {900, 700}} {
		rel := complex(at.X()-645, at.Y()-1832)
		eighth := complex(math.Sqrt2/2, math.Sqrt2/2)
		var want []string
		var grow func(turns []int)
		grow = func(turns []int) {
			if n := len(turns) + 1; n > 2 {
				legs, least := make([]complex128, n), make([]float64, n)
				legs[0] = -1
				for i, turn := range turns {
					legs[i+1] = legs[i]
					for range (turn + 8) % 8 {
						legs[i+1] *= eighth
					}
					face := map[int]float64{-1: 25, 1: 25, -2: 45, 2: 45}[turn]
					least[i], least[i+1] = least[i]+face, least[i+1]+face
				}
				reach := math.Hypot(real(rel), imag(rel)) + 400
				var choose func(lengths []float64)
				choose = func(lengths []float64) {
					if i := len(lengths); i < n-2 {
						for k := 0.0; k <= steps; k++ {
							choose(append(slices.Clone(lengths), least[i]+(reach-least[i])*(k/steps)*(k/steps)))
						}
						return
					}
					left := rel
					for i, length := range lengths {
						left -= complex(length, 0) * legs[i]
					}
					// left = a·u + b·v: by the parts square to each other.
					u, v := legs[n-2], legs[n-1]
					cross := func(a, b complex128) float64 { return real(a)*imag(b) - imag(a)*real(b) }
					a, b := cross(left, v)/cross(u, v), cross(u, left)/cross(u, v)
					if a < least[n-2]-1e-6 || b < least[n-1]-1e-6 {
						return
					}
					place, corners := complex(645, 1832), []plan.Point(nil)
					for i, length := range append(slices.Clone(lengths), a) {
						place += complex(length, 0) * legs[i]
						if x, y := real(place), imag(place); x < -1e-6 || y < -1e-6 || x > 2400+1e-6 || y > 1900+1e-6 {
							return
						}
						corners = append(corners, plan.Point{real(place), imag(place)})
					}
					want = append(want, written(corners))
				}
				choose(nil)
			}
			if len(turns) < 3 {
				for _, turn := range []int{-2, -1, 1, 2} {
					grow(append(slices.Clone(turns), turn))
				}
			}
		}
		grow(nil)
		slices.Sort(want)
		got := chains(l, job.Exit{Kind: job.ExitPipe, At: at}, steps, [2]int{2, 3}, &j)
		if len(want) < 20 || !slices.Equal(got, want) {
			t.Errorf("to %v: %d chains, by hand %d", at, len(got), len(want))
		}
	}
}
