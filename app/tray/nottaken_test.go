package tray_test

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/geometry/job"
)

// A number of which it is open what is meant is told as not taken, and another can be typed meanwhile.
func TestAnOpenQuestionIsToldAsNotTaken(t *testing.T) {
	b := at(t, job.New())
	r := b.number(t, "drain.lengthMM")
	r.Field.Focus()
	test.Type(b.window.Canvas().Focused(), "1,200")
	b.window.Canvas().FocusNext()
	if !r.Field.Asks() || !slices.Contains(b.NotTaken(), "Drain length") {
		t.Errorf("asks %v; told as not taken are %q", r.Field.Asks(), b.NotTaken())
	}
	r.Field.Focus()
	b.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(b.NotTaken()) != 0 {
		t.Errorf("answered, told as not taken are %q", b.NotTaken())
	}
}
