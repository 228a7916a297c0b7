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

// All fields are shown in one look: for each look Fyne reads its fonts anew, the largest of which is a file of 4 MB.
func TestFieldsReadFontsOnce(t *testing.T) {
	const many, mostMB = 9, 20
	memory := func(fields int) float64 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		s := show(t, func(s *shown) fyne.CanvasObject {
			all := container.NewVBox()
			for range fields {
				all.Add(control.NewField(s.keys, control.Number{}, sayings(), control.Intents{}))
			}
			return all
		}, fyne.NewSize(400, 600))
		s.window.Canvas().Capture()
		runtime.ReadMemStats(&after)
		return float64(after.TotalAlloc-before.TotalAlloc) / 1e6
	}
	memory(1)
	if one, all := memory(1), memory(many); all-one > mostMB {
		t.Errorf("%d fields take %.0f MB, one takes %.0f", many, all, one)
	}
}
