package app

import (
	"slices"
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// While the room is measured, what can be put into it stands over the plan, each by itself and the first to be pressed;
// what there are as many of as there may be is not there. Elsewhere all of it is in one list.
func TestPutInStandsInARow(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	settle(t)
	shown := func() []string { return w.planHead.several.Shown() }
	if !slices.Contains(shown(), headPutIn) {
		t.Errorf("shown are %v", shown())
	}
	w.tray.Open(job.StationRoom)
	w.sides.openFields()
	settle(t)
	if got := shown(); len(got) < 3 || got[0] != "put-in.doorway" || got[1] != "put-in.window" || slices.Contains(got, headPutIn) {
		t.Errorf("in the room shown are %v", got)
	}
	before := w.desk.Job()
	w.planHead.several.OnPressed("put-in.window")
	if got := w.desk.Job(); len(got.Room.Windows) != len(before.Room.Windows)+1 {
		t.Errorf("%d windows, there were %d", len(got.Room.Windows), len(before.Room.Windows))
	}
	j := w.desk.Job()
	names := 0
	for _, o := range w.planHead.putsIn {
		if strings.HasPrefix(o.Text, "+ ") {
			names++
		}
	}
	if names != len(edit.PutsIn(&j)) {
		t.Errorf("%d in the row, %d can be put in", names, len(edit.PutsIn(&j)))
	}
	w.sides.close()
	settle(t)
	if !slices.Contains(shown(), headPutIn) {
		t.Errorf("closed again, shown are %v", shown())
	}
}
