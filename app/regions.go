package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// nextRegion gives the keys to the first thing that takes them in the region after the one that
// has them now: the answer, the drawings, the rods, the rail, the tray, the top.
func (w *mainWindow) nextRegion() {
	c := w.window.Canvas()
	f := w.frame
	regions := []region{regionAnswer, regionPlan, regionPicture, regionSection, regionRods, regionRail, regionTray, regionTop}
	at := -1
	if focused, ok := c.Focused().(fyne.CanvasObject); ok {
		for i, r := range regions {
			if holds(f.in(r), focused) {
				at = i
			}
		}
	}
	for k := range regions {
		r := regions[(at+1+k)%len(regions)]
		if !f.clips[r].Visible() {
			continue
		}
		if to := firstFocusable(f.in(r)); to != nil {
			c.Focus(to)
			w.log("region %d", (at+1+k)%len(regions))
			return
		}
	}
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
