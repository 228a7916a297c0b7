package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/roomtest"
)

// The tools of the top bar look alike, and each says under the pointer what it does.
func TestToolsOfTheTopBarAreAlike(t *testing.T) {
	onlyLooks(t)
	w, _ := openWindow(t, Options{})
	n := 0
	roomtest.EachShown(w.frame.in(regionTop), func(o fyne.CanvasObject) {
		b, ok := o.(*control.ToolButton)
		if !ok {
			return
		}
		if n++; b.Importance != w.undo.Importance {
			t.Errorf("%q stands on another ground than Undo", b.Text)
		}
		if b.Hint == nil || b.Hint() == "" {
			t.Errorf("%q says nothing", b.Text)
		}
	})
	if n < 7 {
		t.Errorf("only %d tools", n)
	}
}
