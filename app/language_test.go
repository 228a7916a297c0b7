package app

import (
	"strings"
	"testing"

	"underfall/app/words"
)

// The language changes under the window as it stands, job, groups and tabs with it.
func TestSpeak(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	until(t, "the job", func() bool { return !w.replaced })
	w.inputs.accordion.Items[2].Open = true
	w.sides.SelectIndex(1)
	name := w.desk.Job().Name
	w.speak(words.MadeUp)
	if got := w.sides.Items[1].Text; !strings.HasPrefix(got, "[Levels") || w.sides.SelectedIndex() != 1 || !w.inputs.accordion.Items[2].Open {
		t.Errorf("the second tab is “%s”, chosen %d, third group open %v", got, w.sides.SelectedIndex(), w.inputs.accordion.Items[2].Open)
	}
	if w.desk.Job().Name != name {
		t.Errorf("the job is “%s”", w.desk.Job().Name)
	}
	w.speak(words.British)
	if got := w.sides.Items[1].Text; got != "Levels" {
		t.Errorf("back again the second tab is “%s”", got)
	}
}
