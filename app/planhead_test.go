package app

import (
	"fmt"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/words"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// What stands over the plan has room, whatever is open and however large it is, in a language of longer words as
// well: what finds none is in the list at its end, and none of it is cut off or has to be scrolled to.
func TestThePlansHeadHasRoom(t *testing.T) {
	onlyLooks(t)
	for _, tag := range []string{words.British, words.MadeUp} {
		t.Setenv("UNDERFALL_LANGUAGE", tag)
		eachOpening(t, regionPlan, func(w *mainWindow, at opening) {
			settle(t)
			h := w.planHead
			wide := w.frame.in(regionPlan).Size().Width
			if need := h.object.MinSize().Width; need > wide+0.5 {
				t.Errorf("%s, %v: the head needs %v of %v", tag, at, need, wide)
			}
			inside, all := h.several.Inside(), h.object.Size().Width
			x := func(o fyne.CanvasObject) float32 { return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).X }
			for _, o := range append(inside, h.toPicture) {
				from, has := x(o)-x(h.object), o.Size().Width
				last := o == inside[len(inside)-1] // which may be cut short
				if o.Visible() && (from < 0 || from+has > all+0.5 || has+0.5 < o.MinSize().Width && !last) {
					t.Errorf("%s, %v: %T stands at %v, %v wide, of %v", tag, at, o, from, has, all)
				}
			}
			if shown := h.several.Shown(); at.size.Width >= 1280 && tag == words.British && !at.large && !slices.Contains(shown, headPutIn) {
				t.Errorf("%v: shown are %v", at, shown)
			}
		})
	}
}

// opening is how a window is open: how large, with everything large or not, and with the fields of a station or without.
type opening struct {
	size        fyne.Size
	large, tray bool
}

// String says so.
func (o opening) String() string {
	return fmt.Sprintf("%v, large %v, tray %v", o.size, o.large, o.tray)
}

// eachOpening opens windows of every kind with a region to the front.
func eachOpening(t *testing.T, front region, look func(w *mainWindow, at opening)) {
	t.Helper()
	for _, size := range []fyne.Size{fyne.NewSize(1024, 700), fyne.NewSize(1280, 800), fyne.NewSize(1920, 1080)} {
		for _, large := range []bool{false, true} {
			w, _ := openWindow(t, Options{})
			w.setLarge(large)
			w.window.Resize(size)
			for _, open := range []bool{false, true} {
				w.sides.close()
				if open {
					w.tray.Open(job.StationWayOut)
					w.sides.openFields()
				}
				w.frame.bring(front)
				look(w, opening{size, large, open})
			}
		}
	}
}

// The plan is turned by what stands over it and by its key, with Shift the other way, round and round; that is no
// change of the job, and another job begins upright.
func TestThePlanIsTurned(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return !w.replaced })
	before := w.desk.Job()
	turn := func(what string, want plan.Quarters) {
		t.Helper()
		settle(t)
		if w.sight.Turned != want {
			t.Errorf("%s: turned %d, want %d", what, w.sight.Turned, want)
		}
	}
	w.planHead.several.OnPressed(headTurn)
	turn("pressed", 1)
	control.FocusOn(w.plan)
	for _, want := range []plan.Quarters{2, 3, 0, 1} {
		w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyR})
		turn("R", want)
	}
	w.keys.Shift = func() bool { return true }
	for _, want := range []plan.Quarters{0, 3} {
		w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyR})
		turn("Shift-R", want)
	}
	if got := w.desk.Job(); got.Name != before.Name || w.change.Edits > 0 || !w.change.Undo.IsZero() {
		t.Error("turning the plan changed the job")
	}
	if err := w.desk.Replace(w.demos[1].Job); err != nil {
		t.Fatal(err)
	}
	w.resetView()
	turn("another job", 0)
}
