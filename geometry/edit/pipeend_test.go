package edit_test

import (
	"slices"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The waste led to a pipe end has its place and size, and its level where that was found;
// a level measured at the exit before is no longer the exit's.
func TestTheWasteIsLedToAPipeEnd(t *testing.T) {
	found, measured := -40.0, 12.0
	j := job.New()
	j.AsBuilt.ExitInvertMM = &measured
	j.Room.PipeEnds = []job.PipeEnd{{At: plan.Point{300, 400}}, {At: plan.Point{2000, 500}, InvertMM: &found, NominalMM: 50}}
	for name, c := range map[string]struct {
		to       int
		want     job.Exit
		measured bool
	}{
		"nothing known":  {0, job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 400}}, false},
		"all known":      {1, job.Exit{Kind: job.ExitPipe, At: plan.Point{2000, 500}, NominalMM: 50, Level: job.Exactly(-40)}, false},
		"no such":        {2, j.Waste.Exit, true},
		"none before it": {-1, j.Waste.Exit, true},
	} {
		got := edit.LeadTo(c.to).Apply(j)
		if got.Waste.Exit != c.want || (got.AsBuilt.ExitInvertMM != nil) != c.measured {
			t.Errorf("%s: %+v, measured %v", name, got.Waste.Exit, got.AsBuilt.ExitInvertMM)
		}
		if p := got.Validate(); len(p) > 0 {
			t.Errorf("%s: %v", name, p)
		}
		if i, ok := got.Room.PipeEndAt(got.Waste.Exit); ok != !c.measured || ok && i != c.to {
			t.Errorf("%s: it leads to pipe end %d, %v", name, i, ok)
		}
	}
	// Led there once more it keeps what was measured, and one added then is the pipe
	// that the waste leads to.
	led := edit.LeadTo(1).Apply(j)
	led.AsBuilt.ExitInvertMM = &measured
	if again := edit.LeadTo(1).Apply(led); again.AsBuilt.ExitInvertMM == nil {
		t.Error("what was measured there is lost")
	}
	ends, _ := job.FindList("room.pipeEnds")
	invert := ends.Entries()[slices.IndexFunc(ends.Entries(), func(e job.Entry) bool { return e.Key == "invertMM" })]
	read := -165.0
	if got := edit.ItemNumber(ends, 1, invert, &read).Apply(led); !got.Waste.Exit.Level.Equal(job.Exactly(-165)) {
		t.Errorf("the pipe that the waste leads to is read at -165, the waste ends at %+v", got.Waste.Exit.Level)
	}
	held := led.Clone()
	held.SetStanding("waste.exit.level", job.Held)
	if got := edit.ItemNumber(ends, 1, invert, &read).Apply(held); !got.Waste.Exit.Level.Equal(led.Waste.Exit.Level) {
		t.Errorf("a level that is held is %+v", got.Waste.Exit.Level)
	}
	led.Room.PipeEnds = nil
	list, _ := job.FindList("room.pipeEnds")
	if p := edit.AddItem(list).Apply(led).Room.PipeEnds[0]; p.At != (plan.Point{2000, 500}) || p.NominalMM != 50 || p.InvertMM == nil || *p.InvertMM != -40 {
		t.Errorf("added: %+v", p)
	}
	if at := edit.Drag(edit.Handle{Kind: edit.HandlePipeEnd}, plan.Point{402, 1398}).Apply(j).Room.PipeEnds[0].At; at != (plan.Point{400, 1400}) {
		t.Errorf("dragged to %v", at)
	}
}
