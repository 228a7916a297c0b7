package edit_test

import (
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// Joists at x = 200, 650 … run from the back wall at y = 2000. The trap, x from 645 to 755
// and y from 1877 to 1987, stands on the second, and so does the channel, to y = 1987.
// With 25 round them the opening is from 13 − 25, so from the joist's start, to 123 + 25,
// in tens 150. A joist whose middle lies 55 + 25 + 23.5 beside the trap's, at x = 700, is
// clear of that room.
func TestTrimJoistByHand(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&j, 150)
	list, _ := job.FindList(job.TrimsKey)
	want := job.Trim{Joist: 2, ToMM: 150}
	for name, e := range map[string]edit.Edit{"remedy": edit.TrimJoist(), "added": edit.AddItem(list)} {
		trimmed := e.Apply(j)
		if got := trimmed.Floor.Joists.Trims; len(got) != 1 || got[0] != want || len(trimmed.Validate()) > 0 {
			t.Errorf("%s: %+v, %v", name, got, trimmed.Validate())
		}
		if len(j.Floor.Joists.Trims) != 0 {
			t.Fatal("the job itself is changed")
		}
	}
	once := edit.TrimJoist().Apply(j)
	if twice := edit.TrimJoist().Apply(once); len(twice.Floor.Joists.Trims) != 1 {
		t.Errorf("twice: %+v", twice.Floor.Joists.Trims)
	}
	for name, c := range map[string]struct {
		first float64 // the second joist at 450 more
		trims int
	}{"clear of the room round it": {700 + 103.5 - 450, 0}, "in the room round it": {700 + 103.4 - 450, 1}} {
		k := j.Clone()
		k.Floor.Joists.FirstOffsetMM = c.first
		if got := edit.TrimJoist().Apply(k).Floor.Joists.Trims; len(got) != c.trims {
			t.Errorf("%s: %+v", name, got)
		}
	}
	slab := job.New()
	if got := edit.TrimJoist().Apply(slab).Floor.Joists.Trims; len(got) != 0 {
		t.Errorf("in a slab: %+v", got)
	}
}
