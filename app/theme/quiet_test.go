package theme_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/theme"
	"underfall/app/words"
)

// No widget moves by itself; what Underfall moves still does where the system lets it.
func TestQuiet(t *testing.T) {
	a := test.NewApp()
	defer a.Quit()
	before := a.Settings().ShowAnimations()
	quiet := theme.Quiet(a, 1)
	if quiet.Settings().ShowAnimations() || fyne.CurrentApp().Settings().ShowAnimations() {
		t.Error("widgets are told that they may move")
	}
	th := theme.New(false, words.Book{})
	if th.Moves() != before {
		t.Errorf("what Underfall moves: %v, the system says %v", th.Moves(), before)
	}
	th.SetStill(true)
	if th.Moves() {
		t.Error("it moves where it is to stay still")
	}
	fyne.SetCurrentApp(a)
}

// Everything is so many times as large as the system has it, which states 0 for as usual; not
// where the environment states the size.
func TestScaleOfEverything(t *testing.T) {
	a := test.NewApp()
	defer a.Quit()
	defer fyne.SetCurrentApp(a)
	system := max(a.Settings().Scale(), 1)
	quiet := theme.Quiet(a, 1.5)
	for _, times := range []float32{1.5, 1, 2} {
		theme.SetScale(quiet, times)
		if got := quiet.Settings().Scale(); got != system*times || theme.Scale(quiet) != times {
			t.Errorf("%v times: the scale is %v, of a system's %v", times, got, system)
		}
	}
	t.Setenv("FYNE_SCALE", "")
	if !theme.CanScale(quiet) {
		t.Error("it cannot be chosen")
	}
	t.Setenv("FYNE_SCALE", "1.2")
	if theme.CanScale(quiet) {
		t.Error("it can be chosen where the environment states it")
	}
	if theme.CanScale(a) || theme.Scale(a) != 1 {
		t.Error("an app that is not quiet can be scaled")
	}
}

// Large text is a step larger and nothing to press is lower than for gloves; the rest stays.
func TestLargeSizes(t *testing.T) {
	usual, large := theme.New(false, words.Book{}), theme.New(false, words.Book{})
	large.SetLarge(true)
	last := float32(0)
	for _, size := range []float32{theme.TextLayer, theme.TextCaption, theme.TextSecond, theme.TextBody, theme.TextField, theme.TextHeading,
		theme.TextTray, theme.TextHeadline, theme.TextFigure, theme.TextStep, theme.TextReading} {
		if usual.Text(size) != size || large.Text(size) <= size || large.Text(size) <= last {
			t.Errorf("text of %v is %v, large %v after %v", size, usual.Text(size), large.Text(size), last)
		}
		last = large.Text(size)
	}
	for _, high := range []float32{theme.SmallHeight, theme.PressHeight, theme.LargeHeight} {
		if usual.High(high) != high || large.High(high) != theme.LargeHeight {
			t.Errorf("what is %v high is %v, large %v", high, usual.High(high), large.High(high))
		}
	}
	if large.Unit(theme.Space2) != theme.Space2 || large.Times(2).High(theme.PressHeight) != 2*theme.LargeHeight {
		t.Error("distances change, or a larger part of the window does not")
	}
}
