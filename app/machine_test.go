package app

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/software"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/roomtest"
	"underfall/app/store"
	"underfall/app/theme"
)

// pressable are all that can be pressed in what shows of an object, but for what moves a scroll: that is
// moved by the wheel and by keys as well.
func pressable(all fyne.CanvasObject) (out []fyne.CanvasObject) {
	roomtest.EachShownInto(all, func(o fyne.CanvasObject) bool {
		kind := fmt.Sprintf("%T", o)
		if strings.HasSuffix(kind, "scrollBarArea") || strings.HasSuffix(kind, "scrollBar") {
			return false
		}
		if _, ok := o.(fyne.Tappable); ok && !o.Size().IsZero() {
			out = append(out, o)
		}
		return true
	})
	return out
}

// leastToPress is the least side of what is pressed with gloves on, in units: the larger of the
// usual targets for touch, 44, from memory of WCAG 2.5.5.
const leastToPress = 44

// With everything large nothing that can be pressed is smaller than that, in the desk as it may
// stand, on the start page and on the sheet of a new job; and what a region shows goes into it.
func TestLarge(t *testing.T) {
	onlyLooks(t)
	for _, demo := range []string{"1-slab-side-wall", "6-cannot-be-built", "7-hall-bath-no-curb"} {
		w, _ := openWindow(t, Options{File: "../assets/demos/" + demo + ".json"})
		until(t, "the job", func() bool { return !w.replaced && w.answer.Answer().Counted })
		w.setLarge(true)
		if !w.prefers.Bool(largeKey) {
			t.Error("it is not kept")
		}
		until(t, "the answer", func() bool { return w.answer.Answer().Counted })
		look := func(where string, all fyne.CanvasObject) {
			for _, o := range pressable(all) {
				if s := o.Size(); s.Width < leastToPress || s.Height < leastToPress {
					t.Errorf("%s, %s: %T is %v: %q", demo, where, o, s, textsOf(o))
				}
			}
		}
		for name, change := range w.states(t) {
			change()
			settle(t)
			for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}} {
				w.window.Resize(size)
				look(name, w.main)
				haveRoom(t, w, fmt.Sprintf("%s, %s, %v", demo, name, size))
			}
		}
		w.start.open()
		settle(t)
		look("the start page", w.window.Content())
		w.start.newJob()
		settle(t)
		look("a new job", w.window.Content())
	}
}

// At any size of everything a window on a screen that has the room is laid out as at the usual one:
// it has the same units.
func TestScales(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for _, scale := range append(scales(), 1.25) {
		w.window.Canvas().(software.WindowlessCanvas).SetScale(float32(scale))
		w.window.Resize(fyne.NewSize(1024, 700))
		haveRoom(t, w, fmt.Sprintf("at %g", scale))
	}
}

// A look is kept on the machine; without one it is the system's, and so is what was kept before
// there was a choice.
func TestTheLookIsKept(t *testing.T) {
	w, _ := openWindow(t, Options{})
	p := w.prefers
	for _, c := range []struct {
		before   bool
		look     string
		want     string
		wantDark bool
	}{{true, "?", lookDark, true}, {true, lookLight, lookLight, false}, {false, lookDark, lookDark, true}, {true, lookSystem, lookSystem, w.app.Settings().ThemeVariant() == fynetheme.VariantDark}} {
		p.SetBool("dark", c.before)
		if c.look == "?" {
			p.RemoveValue(lookKey)
		} else {
			p.SetString(lookKey, c.look)
		}
		w.settleLook()
		if w.look != c.want || w.theme.Dark() != c.wantDark {
			t.Errorf("%+v: %q, dark %v", c, w.look, w.theme.Dark())
		}
	}
	w.toggleTheme()
	if !w.theme.Dark() || lookKept(p) != lookDark {
		t.Errorf("toggled it is dark: %v, kept: %q", w.theme.Dark(), lookKept(p))
	}
	for kept, want := range map[float64]float32{0: 1, 1: 1, 1.3: 1.2, 1.5: 1.5, 9: 2} {
		p.SetFloat(scaleKey, kept)
		if got := scaleOf(p); got != want {
			t.Errorf("a scale of %g is %g", kept, got)
		}
	}
	w.setStill(true)
	if w.theme.Moves() {
		t.Error("switched off, things move")
	}
}

// Whether all is to be large is asked once on a machine, beside the first job: answered, left for another job
// or in another window the question is gone.
func TestLargeIsAskedOnce(t *testing.T) {
	begun := func(preferences *store.Settings) *mainWindow {
		w, _ := openWindow(t, Options{StartPage: true})
		for _, key := range []string{askedKey, largeKey} {
			w.prefers.SetBool(key, preferences != nil && preferences.Bool(key))
		}
		if w.askLarge.Visible() {
			t.Error("it is asked before there is a job")
		}
		w.begin(w.demos[1].Job)
		settle(t)
		return w
	}
	w := begun(nil)
	if !w.askLarge.Visible() || len(w.askLarge.Offers()) != 2 {
		t.Fatalf("%q is asked, with %q", w.askLarge.Text(), w.askLarge.Offers())
	}
	w.askLarge.Press(w.askLarge.Offers()[0])
	if !w.theme.IsLarge() || w.askLarge.Visible() {
		t.Errorf("answered it is large: %v, still asked: %v", w.theme.IsLarge(), w.askLarge.Visible())
	}
	if w.begin(w.demos[2].Job); w.askLarge.Visible() {
		t.Error("it is asked again")
	}
	w = begun(nil)
	w.begin(w.demos[2].Job)
	until(t, "the next job", func() bool { return w.change.Result.Settled.Name == w.demos[2].Job.Name })
	if w.askLarge.Visible() {
		t.Error("it stands by the next job")
	}
	if w = begun(w.prefers); w.askLarge.Visible() {
		t.Error("it is asked in the next window")
	}
	if theme.PressHeight >= leastToPress {
		t.Error(fmt.Sprint("usually what is pressed is ", theme.PressHeight, " high: large is nothing"))
	}
}
