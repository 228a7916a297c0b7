package section_test

import (
	"fmt"
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// The middle of the starting job's drain, half of 70 off the 13 that the wall's finish takes, is 48
// from the back wall and in the middle of the shower of 1400. The run lies along y = 1832, 68 from
// the back wall, and leaves 68 from the start of the left one, which is the number that is stated.
func TestRunIsSetOut(t *testing.T) {
	d := section.PlanOf(starting(t))
	var got []string
	for _, o := range d.SetOuts {
		got = append(got, fmt.Sprintf("%v %s %g,%g to %g,%g", o.Text, o.Key, o.Spans[0][0].X(), o.Spans[0][0].Y(), o.Spans[0][1].X(), o.Spans[0][1].Y()))
	}
	want := []string{
		"dimension.length{length: 48 mm}  700,1900 to 700,1852",
		"dimension.length{length: 700 mm}  0,1852 to 700,1852",
		"dimension.length{length: 68 mm} waste.exit.offsetMM -161.25,1900 to -161.25,1832",
		"dimension.length{length: 68 mm}  322.5,1900 to 322.5,1832", // half the 645 from the wall to the trap
	}
	if !slices.Equal(got, want) {
		t.Errorf("set out:\n%q\nwant\n%q", got, want)
	}
}

// A stack is set out from the wall nearest to it and from the nearer of the two across: at 300,
// 700 from the left one, x = 0, and from the front one, y = 0. One outside is not.
func TestStackIsSetOut(t *testing.T) {
	spans := func(at plan.Point) (out [][2]plan.Point) {
		plain := section.PlanOf(starting(t))
		d := section.PlanOf(starting(t, func(j *job.Job) {
			j.Room.Stacks = []job.Stack{{At: at, NominalMM: 110, OutsideMM: 110}}
		}))
		for _, o := range d.SetOuts[len(plain.SetOuts):] {
			expectPoint(t, "of", o.Of, at)
			out = append(out, o.Spans[0])
		}
		return out
	}
	got := spans(plan.Point{300, 700})
	if len(got) != 2 {
		t.Fatalf("%v", got)
	}
	for i, want := range []plan.Point{{0, 700}, {300, 0}} {
		expectPoint(t, "from", got[i][0], want)
		expectPoint(t, "to", got[i][1], plan.Point{300, 700})
	}
	if got := spans(plan.Point{-400, 700}); len(got) > 0 {
		t.Errorf("a stack outside is set out by %v", got)
	}
}
