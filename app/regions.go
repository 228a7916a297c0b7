package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// noRegion is where an object is that stands in none.
const noRegion region = -1

// nextRegion gives the keys to the first thing that takes them in the region after the one that
// has them now: the answer, the drawings, the rods, the rail, the tray, the top.
func (w *mainWindow) nextRegion() {
	c := w.window.Canvas()
	f := w.frame
	order := []region{regionAnswer, regionPlan, regionPicture, regionSection, regionRods, regionRail, regionTray, regionTrial, regionTop}
	focused, _ := c.Focused().(fyne.CanvasObject)
	at, now := -1, f.regionOf(focused)
	for i, r := range order {
		if r == now {
			at = i
		}
	}
	for k := range order {
		r := order[(at+1+k)%len(order)]
		if !f.clips[r].Visible() {
			continue
		}
		if to := firstFocusable(f.in(r)); to != nil {
			c.Focus(to)
			w.log("region %d", r)
			return
		}
	}
}

// regionOf is the region that an object stands in; noRegion for none.
func (f *frame) regionOf(o fyne.CanvasObject) region {
	for r := range regionCount {
		if o != nil && holds(f.in(r), o) {
			return r
		}
	}
	return noRegion
}

// inside are the objects an object holds, as far as they may take the keys.
func inside(o fyne.CanvasObject) []fyne.CanvasObject {
	switch o := o.(type) {
	case *fyne.Container:
		return o.Objects
	case *container.Scroll:
		return []fyne.CanvasObject{o.Content}
	case *container.Clip:
		return []fyne.CanvasObject{o.Content}
	case *container.ThemeOverride:
		return []fyne.CanvasObject{o.Content}
	case interface{ Inside() []fyne.CanvasObject }:
		return o.Inside()
	}
	return nil
}

// holds tells whether an object is, or is inside, another.
func holds(o, what fyne.CanvasObject) bool {
	if o == what {
		return true
	}
	for _, i := range inside(o) {
		if holds(i, what) {
			return true
		}
	}
	return false
}

// firstFocusable is the first that can take the keys; nil without one.
func firstFocusable(o fyne.CanvasObject) fyne.Focusable {
	if !o.Visible() {
		return nil
	}
	if f, ok := o.(fyne.Focusable); ok {
		if d, can := o.(fyne.Disableable); !can || !d.Disabled() {
			return f
		}
	}
	for _, i := range inside(o) {
		if f := firstFocusable(i); f != nil {
			return f
		}
	}
	return nil
}
