package edit_test

import (
	"slices"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// What an edit is about is what it is asked for, not what goes along with it; of one that does not say so it is all.
func TestWhatEditsAreAbout(t *testing.T) {
	width, _ := job.Find("shower.widthMM")
	doors, _ := job.FindList(job.DoorwaysKey)
	entry := doors.Entries()[slices.IndexFunc(doors.Entries(), func(e job.Entry) bool { return e.Key == "offsetMM" })]
	mm := 100.0
	plain := edit.Of(message.Of("edit.test"), func(*job.Job) {})
	for name, c := range map[string]struct {
		edit edit.Edit
		want []string
	}{
		"number":     {edit.Number(width, 900), []string{"shower.widthMM"}},
		"thing":      {edit.ItemNumber(doors, 0, entry, &mm), []string{"room.doorways[0].offsetMM"}},
		"list":       {edit.AddItem(doors), []string{"room.doorways"}},
		"wall":       {edit.Side{Wall: 1}.Set(900), []string{"room.walls[1]", "room.outline", "room.tape.lengths"}},
		"drag":       {edit.Drag(edit.Handle{Kind: edit.HandleDepth}, plan.Point{}), []string{"shower.depthMM"}},
		"not said":   {plain, nil},
		"several":    {edit.All(message.Of("edit.test"), edit.Number(width, 900), edit.AddItem(doors)), []string{"shower.widthMM", "room.doorways"}},
		"one of all": {edit.All(message.Of("edit.test"), edit.Number(width, 900), plain), nil},
	} {
		got, said := c.edit.Subject()
		if !slices.Equal(got, c.want) || said != (c.want != nil) {
			t.Errorf("%s: %q, %v, want %q", name, got, said, c.want)
		}
	}
}

// The same edit with another number is that of the number, and says what the job has.
func TestFigures(t *testing.T) {
	j := job.New()
	f, ok := edit.Side{Wall: 0}.Set(2000).Figure()
	if was, has := f.Of(j); !ok || !has || was != 2400 || f.Value != 2000 {
		t.Fatalf("%+v, %v", f, ok)
	}
	if got := f.With(1800).Apply(j).Room.WallLengthMM(0); got != 1800 {
		t.Errorf("with 1800: %v", got)
	}
	if _, ok := edit.Fall(job.FallMid).Figure(); ok {
		t.Error("a choice has a figure")
	}
}

// Half of a drag of the shower's front from 900 to 1100 is to 1000.
func TestPartOfADrag(t *testing.T) {
	j := job.New()
	to, ok := edit.Drag(edit.Handle{Kind: edit.HandleDepth}, plan.Point{700, 800}).PartWay(j)
	if !ok {
		t.Fatal("a drag goes all of its way or none")
	}
	if got := to(0.5).Apply(j).Shower.DepthMM; got != 1000 {
		t.Errorf("half of the way: %v", got)
	}
	if _, ok := edit.Fall(job.FallMid).PartWay(j); ok {
		t.Error("a choice is made by half")
	}
}
