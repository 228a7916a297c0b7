package settle_test

import (
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

// A screed is added under readings that were made on it: they keep what a staff can have stood on, which is told, and everything else
// that is counted from there stays too. Where nothing stays any longer they count as read on the structural floor, and what somebody
// has said they were read on is not changed.
func TestReadingsKeepWhatTheyStoodOn(t *testing.T) {
	say := in(t, unit.Metric)
	layers, _ := job.FindList("floor.existing")
	entry := func(key string) job.Entry {
		for _, e := range layers.Entries() {
			if e.Key == key {
				return e
			}
		}
		t.Fatal(key)
		return job.Entry{}
	}
	j := job.New()
	do := func(e edit.Edit, on job.ReadOn, overMM float64, want string) {
		t.Helper()
		s := settle.Do(j, e)
		if s.Refused != nil {
			t.Fatal(say(s.Refused.What))
		}
		said := ""
		for _, m := range s.Moved {
			said += say(m.What)
		}
		if said != want {
			t.Errorf("told %q, want %q", said, want)
		}
		if j = s.Job; j.Floor.ReadsOn() != on || j.Floor.ReadOverMM(false) != overMM {
			t.Errorf("read on %s, %v over the structure, want %s, %v", j.Floor.ReadsOn(), j.Floor.ReadOverMM(false), on, overMM)
		}
	}
	const kept = "All heights now count as read on top of what stays, as a staff stands on nothing else: the structural floor lies "
	const under = " under them. If it was laid bare for that, set Levels were read on to the structural floor."
	do(edit.AddItem(layers), job.ReadOnKept, 15, kept+"15 mm"+under)
	do(edit.ItemChoice(layers, 0, entry("kind"), "screed"), job.ReadOnKept, 15, "")
	sixty := 60.0
	do(edit.ItemNumber(layers, 0, entry("thicknessMM"), &sixty), job.ReadOnKept, 60,
		"Heights were read on top of that: the structural floor lies 60 mm under them, 15 mm before.")
	do(edit.ItemChoice(layers, 0, entry("out"), "stays"), job.ReadOnKept, 60, "")
	do(edit.ItemChoice(layers, 0, entry("out"), "everywhere"), job.ReadOnStructure, 0,
		"Nothing stays on the structural floor now, so all heights count as read on that, laid bare. "+
			"If they were read on what comes out, set Levels were read on to the floor as found.")
	in, _ := job.FindInput(job.ReadOnKey)
	do(edit.Choose(in, "found", edit.Outside{}), job.ReadOnFound, 60, "")
	do(edit.ItemChoice(layers, 0, entry("out"), "stays"), job.ReadOnFound, 60, "")
	do(edit.Choose(in, "structure", edit.Outside{}), job.ReadOnStructure, 0, "")
	do(edit.ItemNumber(layers, 0, entry("thicknessMM"), &[]float64{70}[0]), job.ReadOnStructure, 0, "")
	do(edit.Choose(in, "kept", edit.Outside{}), job.ReadOnKept, 70, "")
	do(edit.RemoveItem(layers, 0), job.ReadOnStructure, 0, "With no layer left on it, all heights count as read on the structural floor.")
}
