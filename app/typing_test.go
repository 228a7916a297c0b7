package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/google/go-cmp/cmp"
	"underfall/app/drawing"
	"underfall/app/paint"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
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

// How a number was understood that was typed on a figure, whose field has gone, is told where that stays, with what it was
// probably meant as: pressed, it is that.
func TestMetresTypedOnAFigure(t *testing.T) {
	w, _ := openWindow(t, Options{})
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{1200, 300}, NominalMM: 110, OutsideMM: 110}}
	w.desk.Do(edit.Of(message.Of("edit.stack-place"), func(to *job.Job) { *to = j }))
	settled := func() bool {
		return !w.change.Preview && cmp.Equal(w.change.Result.Stated.Room.Stacks, w.desk.Job().Room.Stacks)
	}
	until(t, "the stack stands", settled)
	left := edit.FromWall{Of: edit.Handle{Kind: edit.HandleStack}, Wall: 3}
	typeOnDimension(t, w, w.plan, paint.Placed{Sets: left}, "1.4")
	until(t, "it is told", func() bool { return settled() && strings.Contains(w.teller.Text(), "1.4 was taken as millimetres") })
	if at := w.desk.Job().Room.Stacks[0].At; at != (plan.Point{1.4, 300}) {
		t.Errorf("it stands at %v", at)
	}
	if !w.teller.Press("1.4 m") {
		t.Fatalf("there is to press %q", w.teller.Offers())
	}
	if at := w.desk.Job().Room.Stacks[0].At; at != (plan.Point{1400, 300}) {
		t.Errorf("pressed, it stands at %v", at)
	}
	until(t, "nothing is told any more", func() bool { return settled() && !strings.Contains(w.teller.Text(), "taken as") })
}

// A reading is asked for where the floor of the room is pressed; outside it is said, where that stays, that none is taken there.
func TestReadingsAreInTheRoom(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	thingOfPlan(t, w, section.ThingID{Key: "shower"})
	for _, p := range []plan.Point{{-60, 700}, {1200, 2600}, {-5000, 800}} { // the starting room is 2400 × 1900
		w.readAt(p, fyne.NewPos(50, 50))
		if said := w.teller.Text(); w.tag.figure.isOpen() || !strings.Contains(said, "not in the room") {
			t.Errorf("at %v a field is open %v, and it is said: %q", p, w.tag.figure.isOpen(), said)
		}
		w.dismiss()
	}
	w.readAt(plan.Point{1200, 700}, fyne.NewPos(50, 50))
	if !w.tag.figure.isOpen() || w.teller.Text() != "" {
		t.Errorf("in the room a field is open %v, and it is said: %q", w.tag.figure.isOpen(), w.teller.Text())
	}
}

// The first reading that is pressed onto the plan leaves the floor where it was, whatever is read, and how high the line is taken is told.
func TestTheFirstReadingIsTold(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	thingOfPlan(t, w, section.ThingID{Key: "shower"})
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { *j = job.New() })) // in which no level is stated
	w.readAt(plan.Point{1200, 700}, fyne.NewPos(50, 50))
	enterText(w, "1203")
	until(t, "it is told", func() bool {
		return strings.Contains(w.teller.Text(), "taken as 1203 mm over the floor by the first reading")
	})
	if got := w.desk.Job().SpotLevels; len(got) != 1 || got[0].LevelMM != 0 {
		t.Errorf("levels %v", got)
	}
}
