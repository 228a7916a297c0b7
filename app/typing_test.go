package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/drawing"
	"underfall/app/paint"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// typeOnDimension clicks a dimension of a drawing and types in its field: what is typed takes the
// place of the number there.
func typeOnDimension(t *testing.T, w *mainWindow, v *drawing.View, on paint.Placed, typed string) {
	t.Helper()
	v.TypeOn(on)
	field := w.window.Canvas().Focused()
	if field == nil {
		t.Fatal("a click on the dimension opens no field")
	}
	for _, r := range typed {
		field.TypedRune(r)
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// A dimension is typed on where it stands, in the plan and in the section; a
// base as low as works becomes a chosen height.
func TestTypingOnADimension(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for _, c := range []struct {
		view   *drawing.View
		key    string
		text   string
		landed func(job.Job) bool
	}{
		{w.plan, "shower.depthMM", "950", func(j job.Job) bool { return j.Shower.DepthMM == 950 }},
		{w.plan, "room.walls[1]", "2000", func(j job.Job) bool { return j.Room.WallLengthMM(1) == 2000 && j.Room.WallLengthMM(3) == 2000 }},
		{w.section, "base.heightMM", "90", func(j job.Job) bool { return j.Base.HeightMM == 90 && j.Base.Height == job.HeightChosen }},
	} {
		if c.view == w.section {
			w.sides.close() // the room's fields have the plan alone
		}
		typeOnDimension(t, w, c.view, paint.Placed{Key: c.key}, c.text)
		until(t, c.key+" to land", func() bool { return c.landed(w.desk.Job()) })
	}
}

// A stack is set from a wall by typing on the distance in the plan.
func TestStackIsSetFromAWall(t *testing.T) {
	w, _ := openWindow(t, Options{})
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{300, 700}, NominalMM: 110, OutsideMM: 110}}
	j.Waste.Exit = job.Exit{Kind: job.ExitStack}
	j.Drain.OutletTurnDeg = 270
	w.desk.Do(edit.Of(message.Of("edit.stack-place"), func(to *job.Job) { *to = j }))
	left := edit.FromWall{Of: edit.Handle{Kind: edit.HandleStack}, Wall: 3}
	typeOnDimension(t, w, w.plan, paint.Placed{Sets: left}, "250")
	if got := w.desk.Job().Room.Stacks[0].At; got != (plan.Point{250, 700}) {
		t.Fatalf("the stack stands at %v", got)
	}
}
