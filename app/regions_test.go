package app

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/roomtest"
	"underfall/geometry/job"
)

// focusables are all that take the keys in what shows of an object, as the toolkit's own Tab
// finds them: by what is drawn.
func focusables(all fyne.CanvasObject) (out []fyne.Focusable) {
	roomtest.EachShown(all, func(o fyne.CanvasObject) {
		d, can := o.(fyne.Disableable)
		if f, ok := o.(fyne.Focusable); ok && (!can || !d.Disabled()) {
			out = append(out, f)
		}
	})
	return out
}

// states are ways the window may stand, by what is done to bring it there.
func (w *mainWindow) states(t *testing.T) map[string]func() {
	out := map[string]func(){
		"as it opens":       func() { w.sides.close() },
		"with fields":       func() { w.sides.openFields() },
		"with a refusal":    func() { w.teller.Tell("?", true) },
		"in a narrow place": func() { w.window.Resize(fyne.NewSize(1024, 700)) },
	}
	for i, s := range w.sides.lists {
		out["with the list "+string(s.name)] = func() { w.sides.SelectIndex(i) }
	}
	for _, s := range append(job.Stations(), job.HowExact) {
		out["at station "+string(s)] = func() { w.tray.Open(s); w.sides.openFields() }
	}
	for _, c := range w.answer.Answer().Cards {
		id := c.Worst().Rule.ID
		out[fmt.Sprintf("with card %s open", id)] = func() { w.answer.Press(id) }
	}
	return out
}

// What is found inside of a region is what the toolkit's own Tab finds there, whatever the window
// shows; F6 goes to the first of it in every region that shows, one after another, from wherever
// the keys are.
func TestKeysReachEveryRegion(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	until(t, "the job", func() bool { return !w.replaced && len(w.answer.Answer().Cards) > 0 })
	c := w.window.Canvas()
	at := func() region {
		o, _ := c.Focused().(fyne.CanvasObject)
		return w.frame.regionOf(o)
	}
	f6 := func() { c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyF6}) }
	for name, change := range w.states(t) {
		change()
		settle(t)
		first := map[region]fyne.Focusable{}
		for r := range regionCount {
			if !w.frame.clips[r].Visible() {
				continue
			}
			all := focusables(w.frame.in(r))
			for i, f := range all {
				if w.frame.regionOf(f.(fyne.CanvasObject)) != r {
					t.Errorf("%s: %T, number %d of region %d, is not found there", name, f, i, r)
				}
			}
			if len(all) > 0 {
				first[r] = all[0]
			}
		}
		c.Unfocus()
		w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyF6})
		seen := map[region]bool{}
		for range first {
			r := at()
			if seen[r] {
				t.Errorf("%s: F6 comes to region %d again before it has been everywhere", name, r)
			}
			seen[r] = true
			if c.Focused() != first[r] {
				t.Errorf("%s: in region %d F6 leads to %T, not the first", name, r, c.Focused())
			}
			f6()
		}
		if len(seen) != len(first) {
			t.Errorf("%s: F6 reaches %d regions of %d", name, len(seen), len(first))
		}
		for r := range first {
			for i, f := range focusables(w.frame.in(r)) {
				c.Focus(f)
				if c.Focused() != f {
					continue // it gives the keys to something inside
				}
				if f6(); at() == r {
					t.Errorf("%s: from %T, number %d of region %d, F6 leads nowhere", name, f, i, r)
				}
			}
		}
	}
}

// Tab visits every region within twelve stops.
func TestTabVisitsEveryRegion(t *testing.T) {
	for _, demo := range []string{"1-slab-side-wall", "6-cannot-be-built", "7-hall-bath-no-curb"} {
		w, _ := openWindow(t, Options{File: "../assets/demos/" + demo + ".json"})
		until(t, "the job", func() bool { return !w.replaced })
		for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}} {
			w.window.Resize(size)
			c := w.window.Canvas()
			// Backwards the tray is the first, whose fields are as many as there are: it is closed then.
			for _, back := range []bool{false, true} {
				if back {
					w.sides.close()
				} else {
					w.sides.openFields()
				}
				want := map[region]bool{} // beside the tray plan and picture may share one place
				for r := range regionCount {
					if w.frame.clips[r].Visible() && len(focusables(w.frame.in(r))) > 0 {
						want[r] = true
					}
				}
				w.keys.Shift = func() bool { return back }
				c.Unfocus()
				seen, stops := map[region]bool{}, ""
				for range 12 {
					tab(c, back)
					o := c.Focused().(fyne.CanvasObject)
					seen[w.frame.regionOf(o)] = true
					stops += fmt.Sprintf(" %d:%T", w.frame.regionOf(o), o)
				}
				if len(seen) != len(want) {
					t.Errorf("%s at %v, back %v: Tab visits %d regions of %d:%s", demo, size, back, len(seen), len(want), stops)
				}
			}
		}
	}
}

// tab types Tab, as the driver does: what accepts it gets it, else the focus goes on.
func tab(c fyne.Canvas, back bool) {
	if t, ok := c.Focused().(fyne.Tabbable); ok && t.AcceptsTab() {
		c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	} else if back {
		c.FocusPrevious()
	} else {
		c.FocusNext()
	}
}
