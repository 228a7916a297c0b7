package app

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/geometry"
	"underfall/geometry/job"
)

// levelsSay are the texts of the levels, and the press among them; nil for none.
func levelsSay(w *mainWindow) (out []string, press *control.Press) {
	roomtest.EachShown(w.levels.Object(), func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *control.Text:
			out = append(out, o.Text)
		case *control.Press:
			press = o
		}
	})
	return out, press
}

// While the levels are open they say that the waste of the second job that comes with Underfall, laid another way, would need a lower
// base, and a press tries that: the base it comes to is lower than the one before. Closed, nothing is looked for.
func TestTheLevelsHaveALowerWayTried(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	w.begin(w.demos[1].Job)
	until(t, "the job at rest", w.resting)
	if _, press := levelsSay(w); press != nil {
		t.Error("a way is looked for though nobody sees the levels")
	}
	w.sides.open(answer.HeightsList)
	var press *control.Press
	until(t, "a lower way", func() bool { _, press = levelsSay(w); return press != nil })
	const want = "Laid another way it needs less: bare 71 mm, 3 mm lower. Into stack 1, pipe 156 mm at 1:40 (25 mm/m)."
	if said, _ := levelsSay(w); !slices.Contains(said, want) {
		t.Errorf("the levels say %q", said)
	}
	w.sides.close()
	if w.sides.open(answer.HeightsList); !w.lower.resting() {
		t.Error("opened again, what is said is looked for once more")
	}
	before := geometry.Evaluate(w.desk.Job(), w.change.Result.Pack)
	press.OnPressed()
	until(t, "the trial", w.trial.Running)
	after := geometry.Evaluate(w.trial.Trial().Ways[0].Edit.Apply(w.desk.Job()), before.Pack)
	if after.Heights.BaseTopMM >= before.Heights.BaseTopMM {
		t.Errorf("tried is a base at %v, before it was %v", after.Heights.BaseTopMM, before.Heights.BaseTopMM)
	}
	w.trial.PutBack()
}

// What the levels say of a job that was counted stays where another is built the same: in another light. Nothing is looked for once more.
func TestLightLeavesWhatTheLevelsSay(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	w.begin(w.demos[1].Job)
	until(t, "the job at rest", w.resting)
	w.sides.open(answer.HeightsList)
	until(t, "a lower way", func() bool { return w.levels.LowerSaid() && w.resting() && w.answer.Answer().Counted })
	before, _ := levelsSay(w)
	w.lightChosen(string(job.LightEvening))
	until(t, "the evening", func() bool { return w.change.Result.Stated.Lit().Kind == job.LightEvening && !w.pace.due })
	if after, _ := levelsSay(w); !slices.Equal(after, before) || !w.lower.resting() {
		t.Errorf("by day the levels say %q, in the evening %q; nothing is looked for: %v", before, after, w.lower.resting())
	}
}
