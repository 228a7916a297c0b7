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
	quiet := theme.Quiet(a)
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
