package geometry_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// Turning or shifting the whole room changes coordinates and nothing else: each
// measurement and each row of the schedule is of the same thing and as much, and
// its place has moved with the room.
func TestMovingTheRoomChangesNothing(t *testing.T) {
	t.Parallel()
	p := packs(t)
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(must(assets.Demos())).Draw(t, "demo")
		angle := float64(rapid.IntRange(0, 359).Draw(t, "angle"))
		by := plan.Point{float64(rapid.IntRange(-9000, 9000).Draw(t, "x")), float64(rapid.IntRange(-9000, 9000).Draw(t, "y"))}
		a := geometry.Evaluate(d.Job, p[d.Job.Region])
		b := geometry.Evaluate(demotest.Moved(d.Job, angle, by), p[d.Job.Region])
		if len(b.Problems) > 0 {
			t.Fatalf("moved: %v", b.Problems)
		}
		turn := mgl64.Rotate3DZ(angle * math.Pi / 180)
		same(t, told(a), told(b), func(p mgl64.Vec3) mgl64.Vec3 { return turn.Mul3x1(p).Add(mgl64.Vec3{by.X(), by.Y(), 0}) })
	})
}

// one is a measurement, a finding or a row as both rooms have it.
type one struct {
	what, of string
	value    float64
	at       mgl64.Vec3
}

// told is everything a result says with a number and a place.
func told(r geometry.Result) []one {
	var out []one
	for _, m := range r.Measured {
		out = append(out, one{"measured " + m.Quantity, name(m.Subject), m.Value, m.At})
	}
	for _, f := range r.Findings {
		out = append(out, one{"found " + f.Rule.ID, name(f.Measurement.Subject), f.Measurement.Value, f.Measurement.At})
	}
	for _, row := range r.Schedule {
		label := row.Message().String()
		if row.ID.Of == buildup.PlaneFall {
			label = "Plane, fall"
		}
		out = append(out, one{"row", label, row.Value, row.At}, one{"row, ±", label, row.Worst, row.At}, one{"row, statistically ±", label, row.Statistical, row.At})
	}
	return out
}

// name is a subject's, without the number of what is counted round the shower.
func name(s rule.Subject) string {
	if s.Of == rule.Plane || s.Of == rule.OpenEdge {
		s.Number = 0
	}
	return s.String()
}

// same fails unless everything said of one room is said of the other, as much and
// at the place that it has come to. Bodies that lie along each other have their gap
// at any place there, a leaf over a level floor its own, and over a level edge water
// spills anywhere: of these the place is not compared.
func same(t interface{ Fatalf(string, ...any) }, a, b []one, moved func(mgl64.Vec3) mgl64.Vec3) {
	rest := slices.Clone(b)
	for _, x := range a {
		to := moved(x.at)
		anywhere := slices.ContainsFunc([]string{"clash.", "clash-", "door.leaf", "door-leaf", "reserve"}, func(s string) bool { return strings.Contains(x.what, s) })
		i := slices.IndexFunc(rest, func(y one) bool {
			return y.what == x.what && y.of == x.of && (y.value == x.value || math.Abs(y.value-x.value) <= 1e-6*math.Max(1, math.Abs(x.value))) &&
				(anywhere || y.at.Sub(to).Len() < 1e-2)
		})
		if i < 0 {
			var there []one
			for _, y := range rest {
				if y.what == x.what {
					there = append(there, y)
				}
			}
			t.Fatalf("%+v has come to %v: not among %+v", x, to, there)
		}
		rest = slices.Delete(rest, i, i+1)
	}
	if len(rest) > 0 {
		t.Fatalf("%d more, the first %+v", len(rest), rest[0])
	}
}

// mirrored is a job in the mirror that turns x about. Walls keep their order, so
// that what is counted along them stays. What is counted to the shower's right
// goes the other way; joists, whose offset counts from their right-hand side, run
// the other way so that it is the same side.
func mirrored(j job.Job) job.Job {
	j = j.Clone()
	flip := func(p *plan.Point) { p[0] = -p[0] }
	low, high := math.Inf(1), math.Inf(-1)
	s, c := math.Sincos(j.Floor.Joists.DirectionDeg * math.Pi / 180)
	for i := range j.Room.Outline {
		along := j.Room.Outline[i].Dot(plan.Point{c, s})
		low, high = math.Min(low, along), math.Max(high, along)
	}
	demotest.EachPlace(&j, flip)
	j.Drain.OutletTurnDeg = job.AngleDeg(180 - j.Drain.OutletTurnDeg)
	switch j.Former.Fall {
	case job.FallLeft:
		j.Former.Fall = job.FallRight
	case job.FallRight:
		j.Former.Fall = job.FallLeft
	default:
		j.Drain.OffsetMM, j.Drain.TrapOffsetMM = -j.Drain.OffsetMM, -j.Drain.TrapOffsetMM
	}
	for i := range j.Shower.Screens {
		switch x := &j.Shower.Screens[i]; x.Side {
		case job.SideLeft:
			x.Side = job.SideRight
		case job.SideRight:
			x.Side = job.SideLeft
		default:
			x.OffsetMM, x.HingeAtEnd = j.Shower.WidthMM-x.OffsetMM-x.WidthMM, !x.HingeAtEnd
		}
	}
	j.Floor.Joists.DirectionDeg = job.AngleDeg(-j.Floor.Joists.DirectionDeg)
	for i, at := range j.Floor.Joists.SupportsMM {
		j.Floor.Joists.SupportsMM[i] = high - low - at
	}
	slices.Sort(j.Floor.Joists.SupportsMM)
	return j
}

// inMirror is a subject with the letter of the wall that it has in a mirrored room of so many walls: A
// stays, as the door is in it, and the others run the other way.
func inMirror(subject string, walls int) string {
	return regexp.MustCompile(`(-wall|damp-course) [A-Z]`).ReplaceAllStringFunc(subject, func(named string) string {
		at := len(named) - 1
		letter := (walls - int(named[at]-'A')) % walls
		return named[:at] + message.Letter(letter+1).String()
	})
}

// A mirrored room has the same of everything, left and right swapped, at the
// mirrored place; joist floors too, and with drain and trap off the middle.
func TestMirror(t *testing.T) {
	p := packs(t)
	swap := strings.NewReplacer("Left", "Right", "Right", "Left", "left", "right", "right", "left")
	for _, d := range demoJobs(t) {
		for what, change := range map[string]func(*job.Job){
			"as it is": func(*job.Job) {},
			"trap off the middle": func(j *job.Job) {
				if j.Former.Fall.Linear() {
					j.Drain.TrapOffsetMM = 37
				}
			},
			"drain off the middle": func(j *job.Job) { j.Drain.OffsetMM = 23 },
		} {
			j := d.Job.Clone()
			change(&j)
			a, b := geometry.Evaluate(j, p[j.Region]), geometry.Evaluate(mirrored(j), p[j.Region])
			if len(a.Problems)+len(b.Problems) > 0 {
				t.Fatalf("%s, %s: %v, %v", d.File, what, a.Problems, b.Problems)
			}
			demotest.Inspect(t, b)
			want := told(a)
			for i := range want {
				want[i].of = inMirror(swap.Replace(want[i].of), len(j.Room.Outline))
			}
			t.Run(d.File+" "+what, func(t *testing.T) {
				same(t, want, told(b), func(p mgl64.Vec3) mgl64.Vec3 { return mgl64.Vec3{-p.X(), p.Y(), p.Z()} })
			})
		}
	}
}

// What readings have in common is no part of a step between two of them. By hand for a floor
// and a floor beyond the doorway each read ±2, no layer off: the step is off by 4 at worst and
// √(2² + 2²) = 2.828 as a rule. With a set-up of 1.2 in common 1.6 are left to each, as 1.2² +
// 1.6² = 2²: 3.2 and 2.263; the floor itself is off by 1.2 + 1.6 = 2.8 and by 2 as before.
func TestOneSetUpOfTheLaser(t *testing.T) {
	for setUp, want := range map[float64][4]float64{0: {4, 2.8284, 2, 2}, 1.2: {3.2, 2.2627, 2.8, 2}} {
		j := job.New()
		j.SpotLevels = []job.SpotLevel{{ToleranceMM: 2}}
		j.Tolerances.DoorwayMM, j.Tolerances.SetUpMM = 2, setUp
		for _, layer := range []*job.Layer{&j.Layers.Room.Tanking, &j.Layers.Room.Bed, &j.Layers.Room.Tile} {
			layer.ToleranceMM = 0
		}
		r := geometry.Evaluate(j, packs(t)["UK"])
		var got [4]float64
		for _, row := range r.Schedule {
			switch row.ID.Of {
			case buildup.DoorStep:
				got[0], got[1] = row.Worst, row.Statistical
			case buildup.RoomFloor:
				got[2], got[3] = row.Worst, row.Statistical
			}
		}
		for i := range want {
			if math.Abs(got[i]-want[i]) > 1e-4 {
				t.Errorf("a set-up of %v: %v, want %v", setUp, got, want)
				break
			}
		}
	}
}
