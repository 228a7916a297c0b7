package app

import (
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// A job that nobody has named goes on to be called by its shower as that moves; one that was named keeps its name, and so does one
// of which nothing of the shower changes.
func TestAJobIsCalledByItsShower(t *testing.T) {
	w, _ := openWindow(t, Options{})
	j := newJob(w.parts)
	if j.Name != "Shower 1400 mm × 900 mm in corner BC" {
		t.Fatalf("it is called %q", j.Name)
	}
	j.Name += " (2)"
	if err := w.desk.Replace(j); err != nil {
		t.Fatal(err)
	}
	offset, _ := job.Find("shower.offsetMM")
	w.desk.Do(edit.Number(offset, 0)) // 1000 of its wall lay before it: the other end
	if is := w.desk.Job().Name; is != "Shower 1400 mm × 900 mm in corner CD (2)" {
		t.Errorf("moved, it is called %q", is)
	}
	was := w.desk.Job().Name
	w.desk.Undo()
	if is := w.desk.Job().Name; is != j.Name {
		t.Errorf("taken back, it is called %q, not %q", is, j.Name)
	}
	w.desk.Redo()
	if is := w.desk.Job().Name; is != was {
		t.Errorf("made again, it is called %q, not %q", is, was)
	}
	j.Name = "Ours"
	if err := w.desk.Replace(j); err != nil {
		t.Fatal(err)
	}
	w.desk.Do(edit.Number(offset, 0))
	if is := w.desk.Job().Name; is != "Ours" {
		t.Errorf("named, it is called %q", is)
	}
}
