package fit_test

import (
	"fmt"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// acrossRun is the let-in room on joists at x = 200, 650, 1100 … that run away from the back
// wall at y = 2000: the trap, from x = 645 to 755 and y = 1877 to 1987, stands in the second.
func acrossRun(t *testing.T) job.Job {
	j := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&j, 150)
	return j
}

// broken is the first finding by a rule.
func broken(r geometry.Result, id string) (rule.Finding, bool) {
	for _, f := range r.Findings {
		if f.Rule.ID == id {
			return f, true
		}
	}
	return rule.Finding{}, false
}

// The trap reaches to y = 1877, 123 from the joists' start, and 25 more is 148: the opening
// ends at 150, and leaves no piece at the start, which is 13 − 25 from it. A channel 700 long
// about x = 700 lies from x = 350 to 1050, in the joists at 500 and 950, the second and the
// third, but not in those at 50 and 1400, nor in second joists to 50 + 70.5 and from
// 1400 − 70.5. A trap of 200 about x = 700 is in the joists at x = 600 and 800 of those 200
// apart, the fourth and the fifth, and clear of second joists to 400 + 70.5 and from
// 1000 − 70.5; it reaches to y = 1787, 213 + 25 from their start.
func TestTrimIsOfferedWhereItHelps(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		rule   string
		want   []job.Trim // none where it is not offered
		joists int
		why    message.ID
	}{
		"trap in one joist": {func(*job.Job) {}, "trap-joist", []job.Trim{{Joist: 2, ToMM: 150}}, 1, ""},
		"channel in two": {func(j *job.Job) {
			j.Floor.Joists.FirstOffsetMM, j.Drain.ChannelDepthMM, j.Drain.LengthMM = 500, 60, 700
		}, "clash-drain", []job.Trim{{Joist: 2, Further: 1, ToMM: 150}}, 2, ""},
		"trap in two": {func(j *job.Job) {
			j.Floor.Joists.SpacingMM, j.Drain.TrapSizeMM = 200, 200
		}, "trap-joist", []job.Trim{{Joist: 4, Further: 1, ToMM: 240}}, 2, ""},
		"trap in a trimmer": {func(j *job.Job) {
			j.Floor.Joists.Trims = []job.Trim{{Joist: 2, ToMM: 100}}
		}, "trap-joist", []job.Trim{{Joist: 2, ToMM: 150}}, 0, ""},
		"engineered joists": {func(j *job.Job) { j.Floor.Joists.Engineered = true }, "trap-joist", nil, 0, "remedy.engineered"},
		"channel in the first as well": {func(j *job.Job) {
			j.Floor.Joists.FirstOffsetMM, j.Drain.ChannelDepthMM, j.Drain.LengthMM = 350, 60, 700
		}, "clash-drain", nil, 0, "problem"},
		"another rule": {func(*job.Job) {}, "uk-hole-size", nil, 0, ""},
	} {
		j := acrossRun(t)
		c.change(&j)
		r := evaluated(t, j)
		f, ok := broken(r, c.rule)
		if !ok {
			t.Fatalf("%s: nothing to mend", name)
		}
		got, why, ok := fit.Trim(r, f)
		if ok != (c.want != nil) || why.ID != c.why {
			t.Errorf("%s: offered %v, %v", name, ok, why)
		}
		if !ok {
			continue
		}
		if trims := got.Edit.Apply(j).Floor.Joists.Trims; fmt.Sprint(trims) != fmt.Sprint(c.want) || got.Joists != c.joists {
			t.Errorf("%s: %+v, %d joists", name, trims, got.Joists)
		}
		for _, n := range got.After.Findings {
			if n.Key() == f.Key() {
				t.Errorf("%s: the finding is still there", name)
			}
		}
		if asked := slices.ContainsFunc(got.New, func(n rule.Finding) bool { return n.Rule.ID == "trimmed-joist" && n.Rule.Severity == rule.Licensed }); asked != (c.joists > 0) {
			t.Errorf("%s: an engineer is asked for: %v", name, asked)
		}
	}
}

// The trap of the let-in room stands in its last joist where that lies at y = 1900: no joist
// behind it carries trimmers, and the reason is told. On a slab nothing is.
func TestTrimAtTheWallIsNotOffered(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	j.Floor.Joists.FirstOffsetMM = 100
	r := evaluated(t, j)
	f, found := broken(r, "trap-joist")
	if _, why, ok := fit.Trim(r, f); !found || ok || why.IsZero() {
		t.Errorf("offered %v, %v", ok, why)
	}
	slab := evaluated(t, usual())
	if _, why, ok := fit.Trim(slab, f); ok || !why.IsZero() {
		t.Errorf("on a slab: %v", why)
	}
}

// A joist that stays cut for a run that has gone elsewhere is told with its cure: that leaves it whole, at both places where
// it is cut for nothing, and the opening that a stack stands in as it is.
func TestIdleOpeningsAreClosed(t *testing.T) {
	j := demotest.Rooms(t)[2].Job
	lines := j.JoistLines()
	used := job.Trim{Joist: 2, FromMM: 1300, ToMM: 1600}
	at := lines.Origin.Add(plan.Left(lines.Along).Mul(lines.Lines[1].OffsetMM)).Add(lines.Along.Mul(lines.Lines[1].FromMM + 1450))
	j.Room.Stacks = append(j.Room.Stacks, job.Stack{At: at, NominalMM: 110, OutsideMM: 110})
	j.Floor.Joists.Trims = []job.Trim{{Joist: 4, FromMM: 1300, ToMM: 1600}, used, {Joist: 4, FromMM: 700, ToMM: 1000}}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	told := 0
	for _, f := range r.Findings {
		if f.Rule.ID != "trimmed-idle" {
			continue
		}
		told++
		cure, _, ok := fit.RemedyOf(r, f)
		if !ok {
			t.Fatal("no cure")
		}
		if left := cure.After.Stated.Floor.Joists.Trims; len(left) != 1 || left[0] != used {
			t.Errorf("left %+v", left)
		}
	}
	if told != 2 {
		t.Errorf("told %d times", told)
	}
}
