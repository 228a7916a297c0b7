package app

import (
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
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

// What a change does to the step at a doorway is told by the doorway's name: on a level slab the floor lies at 10 + 2 + 1 = 13, and
// one beyond its doorway that is typed to lie at 40 is 27 down from it, at 60 47. By hand.
func TestWhatAChangeDoesToADoorwaysStepIsTold(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return len(w.change.Result.Layout.Walls) > 0 })
	doors, _ := job.FindList(job.DoorwaysKey)
	beyond := func(mm float64) {
		t.Helper()
		for _, e := range doors.Entries() {
			if e.Key == "neighbourFFLMM" {
				w.desk.Do(edit.ItemNumber(doors, 0, e, &mm))
			}
		}
		until(t, "the change", func() bool {
			return !w.change.Preview && w.change.Result.Stated.Room.Doorways[0].NeighbourFFLMM == mm
		})
	}
	w.desk.Do(edit.Of(message.Of("edit.floor-kind"), func(j *job.Job) { j.SpotLevels = nil }))
	beyond(40)
	beyond(60)
	until(t, "what it did", func() bool {
		return strings.Contains(w.teller.Text(), "Doorway 1, step: it was 27 mm down and is 47 mm down now.")
	})
	if said := w.teller.Text(); strings.Contains(said, "Step in") {
		t.Errorf("it speaks of the step at the way in: %q", said)
	}
}
