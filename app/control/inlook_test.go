package control_test

import (
	"runtime"
	"testing"
	"weak"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/roomtest"
)

// What was shown and is drawn no more leaves memory, and with it whatever it was made with.
func TestWhatIsTakenAwayLeavesMemory(t *testing.T) {
	var field weak.Pointer[control.Field]
	var pick weak.Pointer[control.Pick]
	t.Run("shown", func(t *testing.T) {
		s := show(t, func(s *shown) fyne.CanvasObject {
			f := control.NewField(s.keys, control.Number{}, sayings(), control.Intents{})
			p := control.NewPick(s.keys, "Floor", []control.Option{{ID: "joists", Text: "Joists"}}, "joists", nil)
			field, pick = weak.Make(f), weak.Make(p)
			return container.NewVBox(f, p)
		}, fyne.NewSize(400, 300))
		s.window.Canvas().Capture()
		pick.Value().Open()
		s.window.Canvas().Capture()
	})
	roomtest.Drop()
	for range 3 {
		runtime.GC()
	}
	if field.Value() != nil {
		t.Error("a field stays in memory")
	}
	if pick.Value() != nil {
		t.Error("the list of a pick, and the pick with it, stay in memory")
	}
}
