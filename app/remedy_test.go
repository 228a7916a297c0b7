package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/widget"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
)

// A card that says a joist is in the way has a button that cuts it out between trimmers, and
// says what that asks for; made, the finding is gone. On a joist at the wall it says why not.
func TestCardCutsTheJoistOut(t *testing.T) {
	w, _ := openWindow(t, Options{})
	across := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&across, 150)
	last := demotest.Rooms(t)[2].Job.Clone()
	last.Floor.Joists.FirstOffsetMM = 100
	card := func() *findingCard {
		for _, c := range w.findings.cards {
			if c.key() == "trap-joist" {
				return c
			}
		}
		return nil
	}
	open := func(j job.Job) string {
		w.begin(j)
		until(t, "the finding", func() bool { return w.findings.result.Settled.Name == j.Name && card() != nil })
		w.findings.open = ""
		card().Tapped(nil)
		var told []string
		for _, o := range card().details.Objects {
			if l, ok := o.(*widget.Label); ok {
				told = append(told, l.Text)
			}
		}
		return strings.Join(told, "\n")
	}
	last.Name = "at the wall"
	if told := open(last); card().remedy != nil || !strings.Contains(told, "no joist on its other side carries the trimmers") {
		t.Errorf("at the wall: %s", told)
	}
	told := open(across)
	if c := card(); c.remedy == nil || c.remedy.Text != "Cut the joist out between trimmers" || !strings.Contains(told, "structural engineer") {
		t.Fatalf("no remedy, or without its caution: %s", told)
	}
	card().remedy.OnTapped()
	until(t, "the change", func() bool { return len(w.desk.Job().Floor.Joists.Trims) == 1 && card() == nil })
}
