package app

import (
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// What a change does to the step at the way in is told once it is made: a base made 20 higher has it rise from
// what it was before; taken back, and while nothing of it changes, nothing is told.
func TestWhatAChangeDoesToTheStepIsTold(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return len(w.change.Result.Layout.Walls) > 0 })
	high, ok := job.Find(job.BaseHeightKey)
	if !ok {
		t.Fatal("a base has no height")
	}
	at := func(mm float64) {
		t.Helper()
		w.desk.Do(edit.Number(high, mm))
		until(t, "the change", func() bool {
			return !w.change.Preview && w.change.Result.Stated.Base.HeightMM == mm && w.change.Result.Stated.Base.Height == job.HeightChosen
		})
	}
	at(150)
	at(170)
	until(t, "what it did", func() bool { return strings.HasPrefix(w.teller.Text(), "Step in: it was ") })
	w.desk.Undo()
	until(t, "it is taken back", func() bool { return w.teller.Text() == "" })
	w.desk.Do(edit.Hold(high.Key))
	until(t, "it held", func() bool { return w.change.Result.Stated.StandingOf(high.Key) == job.Held })
	if said := w.teller.Text(); said != "" {
		t.Errorf("held, it says %q", said)
	}
}
