package measure_test

import (
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// Joists at x = 200, 650 … across the run; the trap, from x = 645 to 755 and y = 1877 to
// 1987, is 28.5 in the second. Cut off from its start at y = 2000 to 1700 it is clear, with
// the trimmer at y from 1700 to 1653: 347 of joist are gone. Of an opening of 100 the
// trimmer, at y from 1900 to 1853, is 23 in the trap; one of 123 just touches it.
func TestTrapInATrimmedOpening(t *testing.T) {
	cut := func(toMM float64) func(*job.Job) {
		return func(j *job.Job) { j.Floor.Joists.Trims = []job.Trim{{Joist: 2, ToMM: toMM}} }
	}
	trap := mgl64.Vec3{700, 1932, -147}
	holdChanges(t, across(t, 150), []change{
		{"whole", func(*job.Job) {}, []want{{"trap.in-joist", "trap-in-joist 2", 28.5, trap}, {"joist.trimmed", "cut-out-of-joist 2", not, nowhere}}},
		{"cut out", cut(300), []want{{"trap.in-joist", "trap-in-joist 2", not, nowhere}, {"joist.trimmed", "cut-out-of-joist 2", 347, mgl64.Vec3{650, 1826.5, -22}}}},
		{"too short", cut(100), []want{{"trap.in-joist", "trap-in-joist 1, trimmer", 23, trap}}},
		{"touching", cut(123), []want{{"trap.in-joist", "trap-in-joist 1, trimmer", not, nowhere}}},
		{"a hair too short", cut(122.9), []want{{"trap.in-joist", "trap-in-joist 1, trimmer", 0.1, trap}}},
	})
}

// An opening is for what lies in it: of one round the trap nothing is idle; of one in the fourth joist, at x = 1550, from
// 300 to 700 along it, are the 400 and both trimmers of 47.
func TestIdleOpening(t *testing.T) {
	trims := func(trims ...job.Trim) func(*job.Job) {
		return func(j *job.Job) { j.Floor.Joists.Trims = trims }
	}
	round, elsewhere := job.Trim{Joist: 2, ToMM: 300}, job.Trim{Joist: 4, FromMM: 300, ToMM: 700}
	holdChanges(t, across(t, 150), []change{
		{"round the trap", trims(round), []want{{"joist.trimmed-idle", "cut-out-of-joist 2", 0, nowhere}}},
		{"elsewhere", trims(elsewhere), []want{{"joist.trimmed-idle", "cut-out-of-joist 4", 494, nowhere}}},
		{"with a stack in it", func(j *job.Job) {
			trims(elsewhere)(j)
			j.Room.Stacks = []job.Stack{{At: plan.Point{1550, 1500}, NominalMM: 110, OutsideMM: 110}}
		}, []want{{"joist.trimmed-idle", "cut-out-of-joist 4", 0, nowhere}}},
	})
}

// A pipe through a joist that carries a trimmer, and through the second one beside it, is a
// hole as any other; of their strength nothing is said, and of joists that carry no
// trimmer what was.
func TestStrengthOfTrimmedJoistsIsNotSaid(t *testing.T) {
	j := across(t, 150)
	whole := all(t, j)
	j.Floor.Joists.Trims = []job.Trim{{Joist: 2, ToMM: 300}}
	cut := all(t, j)
	for _, c := range []struct {
		quantity, subject string
		whole, cut        bool
	}{
		{"joist.hole-size", "pipe 1, joist-cut 1", true, true},
		{"joist.hole-size", "pipe 1, joist-cut 1, second-joist", false, true},
		{"joist.bending-share", "pipe 1, joist-cut 1", true, false},
		{"joist.shear-share", "pipe 1, joist-cut 1", true, false},
		{"joist.bending-share", "pipe 1, joist-cut 1, second-joist", false, false},
		{"joist.bending-share", "joists-uncut", true, true},
		{"joist.stiffness", "joists", true, true},
	} {
		there := func(m rule.Measurement) bool { return m.Quantity == c.quantity && m.Subject.String() == c.subject }
		if got := [2]bool{slices.ContainsFunc(whole, there), slices.ContainsFunc(cut, there)}; got != [2]bool{c.whole, c.cut} {
			t.Errorf("%s of %s, whole and cut: %v", c.quantity, c.subject, got)
		}
	}
	// Three joists, at x = 400, 1300 and 2200: each has a part in the opening.
	j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.Timber = 900, 400, nil
	meets(t, "no joist as it was", all(t, j), want{"joist.bending-share", "joists-uncut", not, nowhere}, want{"joist.stiffness", "joists", not, nowhere},
		want{"joist.grade-unknown", "joists", 1, nowhere})
}
