package tray_test

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/tray"
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

// The field that has the keys stays in sight, whole, where one before it was not taken: that says so, and the heading of the
// station, in as many lines as it takes. What was scrolled away from stays away.
func TestAFieldStaysInSightUnderWhatWasNotTaken(t *testing.T) {
	for high := float32(430); high < 620; high += 10 {
		b := at(t, job.New())
		b.window.Resize(fyne.NewSize(trayWidth, high))
		length := b.number(t, "drain.lengthMM")
		var shift *tray.NumberRow
		for _, r := range b.Rows()[slices.Index(b.Rows(), tray.Row(length))+1:] {
			if n, is := r.(*tray.NumberRow); is && n.There() && shift == nil {
				shift = n
			}
		}
		length.Field.Focus()
		test.Type(b.window.Canvas().Focused(), "1,200")
		shift.Field.Focus()
		b.Show(b.job)
		d := fyne.CurrentApp().Driver()
		scroll := b.Scroll()
		from := d.AbsolutePositionForObject(scroll).Y
		top := d.AbsolutePositionForObject(shift.Field).Y
		if bottom := top + shift.Field.Size().Height; top < from || bottom > from+scroll.Size().Height {
			t.Errorf("%v high: the field from %v to %v, what scrolls from %v to %v", high, top, bottom, from, from+scroll.Size().Height)
		}
		scroll.ScrollTo(0)
		b.Show(b.job)
		b.window.Resize(fyne.NewSize(trayWidth, high-20))
		if scroll.Offset() != 0 {
			t.Errorf("%v high: scrolled to the top it is at %v", high, scroll.Offset())
		}
	}
}
