package desk_test

import (
	"slices"
	"testing"

	"underfall/app/desk"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

func number(t *testing.T, key string, v float64) edit.Edit {
	t.Helper()
	p, ok := job.Find(key)
	if !ok {
		t.Fatal(key)
	}
	return edit.Number(p, v)
}

// latest are the changes up to the one that is of all that was done.
func latest(t *testing.T, next func() desk.Change, is func(desk.Change) bool) desk.Change {
	t.Helper()
	for {
		if c := next(); is(c) {
			return c
		}
	}
}

func depth(v float64) func(desk.Change) bool {
	return func(c desk.Change) bool { return c.Result.Stated.Shower.DepthMM == v && !c.Preview }
}

// What moves along with an edit is one step with it, is told with it and with its redoing, and not with the
// undoing.
func TestWhatMovedIsToldAndUndone(t *testing.T) {
	d, next := open(t)
	d.Do(edit.Side{Wall: 0}.Set(2000))
	long := func(mm float64) func(desk.Change) bool {
		return func(c desk.Change) bool { return c.Result.Stated.Room.WallLengthMM(0) == mm }
	}
	c := latest(t, next, long(2000))
	// 2000 − 760; told are the wall across, the shower and the door.
	if got := c.Result.Stated.Room.Doorways[0].OffsetMM; got != 1240 || len(c.Moved) != 3 {
		t.Errorf("the door is at %v, told %v", got, c.Told())
	}
	d.Undo()
	if c := latest(t, next, long(2400)); len(c.Moved) > 0 || c.Result.Stated.Room.Doorways[0].OffsetMM != 1500 || !c.Undo.IsZero() {
		t.Errorf("undone: %v, %v", c.Told(), c.Undo)
	}
	d.Redo()
	if c := latest(t, next, long(2000)); len(c.Moved) != 3 {
		t.Errorf("redone: %v", c.Told())
	}
}

// A drag that pushes the door along and goes back leaves it where it was.
func TestDragPushesAndLetsGo(t *testing.T) {
	d, _ := open(t)
	for _, mm := range []float64{2300, 1900, 1000, 2100, 2400} {
		d.DoLive("drag", edit.Side{Wall: 0}.Set(mm))
	}
	d.Settle()
	if j := d.Job(); j.Room.Doorways[0].OffsetMM != 1500 || j.Shower.OffsetMM != 1000 || j.Shower.WidthMM != 1400 {
		t.Errorf("the door is at %v, the shower %+v", j.Room.Doorways[0].OffsetMM, j.Shower)
	}
}

// A refusal stands while it would be refused; it goes when it is cured, dismissed or void.
func TestRefusalStands(t *testing.T) {
	wide := func(d *desk.Desk, next func() desk.Change, t *testing.T) desk.Change {
		t.Helper()
		if p := d.Do(number(t, "shower.widthMM", 2500)); len(p) == 0 {
			t.Fatal("2500 is taken where the wall is 2400 long")
		}
		return latest(t, next, func(c desk.Change) bool { return c.Refused != nil })
	}
	t.Run("another edit leaves it", func(t *testing.T) {
		d, next := open(t)
		wide(d, next, t)
		d.Do(setDepth(950))
		if c := latest(t, next, depth(950)); c.Refused == nil || len(c.Problems) > 0 {
			t.Errorf("refused %v, problems %v", c.Refused, c.Problems)
		}
		d.Undo()
		if c := latest(t, next, depth(900)); c.Refused == nil {
			t.Error("undoing the other takes it away")
		}
		d.Preview(setDepth(1000))
		d.EndPreview()
		if c := latest(t, next, depth(900)); c.Refused == nil {
			t.Error("a preview takes it away")
		}
	})
	t.Run("cured", func(t *testing.T) {
		d, next := open(t)
		c := wide(d, next, t)
		d.Do(c.Refused.Cures[0].Edit)
		c = latest(t, next, func(c desk.Change) bool { return c.Result.Stated.Shower.WidthMM == 2400 })
		if c.Refused != nil {
			t.Errorf("cured, and stands: %v", c.Refused.What)
		}
	})
	t.Run("dismissed", func(t *testing.T) {
		d, next := open(t)
		wide(d, next, t)
		d.Dismiss()
		latest(t, next, func(c desk.Change) bool { return c.Refused == nil })
	})
	t.Run("void", func(t *testing.T) {
		d, next := open(t)
		wide(d, next, t)
		d.Do(edit.Side{Wall: 0}.Set(2600))
		latest(t, next, func(c desk.Change) bool { return c.Refused == nil })
		if got := d.Job().Shower.WidthMM; got != 1400 {
			t.Errorf("the shower is %v wide by itself", got)
		}
	})
	t.Run("the same otherwise", func(t *testing.T) {
		d, next := open(t)
		wide(d, next, t)
		d.Do(number(t, "shower.widthMM", 1300))
		latest(t, next, func(c desk.Change) bool { return c.Refused == nil })
	})
}

// What is only typed is told as it would move, and leaves nothing behind.
func TestPreviewTellsWhatWouldMove(t *testing.T) {
	d, next := open(t)
	d.Preview(number(t, "shower.widthMM", 2400))
	c := latest(t, next, func(c desk.Change) bool { return c.Preview })
	if ids := c.Told(); !slices.ContainsFunc(ids, func(m message.Message) bool { return m.ID == "moved.thing" }) {
		t.Errorf("told %v", ids)
	}
	d.Preview(number(t, "shower.widthMM", 2500))
	if c := latest(t, next, func(c desk.Change) bool { return !c.Preview && len(c.Problems) > 0 }); c.Refused != nil {
		t.Errorf("what is only typed is refused: %v", c.Refused.What)
	}
	d.EndPreview()
	if c := latest(t, next, func(c desk.Change) bool { return len(c.Problems) == 0 }); len(c.Moved) > 0 {
		t.Errorf("ended, and tells %v", c.Told())
	}
}
