package roomtest

import (
	"time"
	_ "unsafe" // for go:linkname

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/go-text/typesetting/shaping"
)

// Frames lays out what a window shows as its toolkit does before each frame that it paints: what holds
// something that asks for another size than at the frame before is laid out anew. Fyne's test driver leaves
// that out, so that where things stand would follow from what stood there before.
type Frames struct {
	asked map[fyne.CanvasObject]fyne.Size
	of    fyne.CanvasObject // that is to be laid out once it is come to
}

// NewFrames makes the frames of a window, of which there was none yet.
func NewFrames() *Frames { return &Frames{asked: map[fyne.CanvasObject]fyne.Size{}} }

// Settle paints frames until nothing asks for another size; false where that does not end.
func (f *Frames) Settle(o fyne.CanvasObject) bool {
	const most = 10 // two or three are usual
	for range most {
		if !f.frame(o, nil) {
			return true
		}
	}
	return false
}

// frame lays out an object that stands in another, and what shows in it; it tells whether anything asks for
// another size.
func (f *Frames) frame(o, in fyne.CanvasObject) (another bool) {
	if !o.Visible() {
		return false
	}
	var inner []fyne.CanvasObject
	lay := func() {}
	switch o := o.(type) {
	case *fyne.Container:
		inner = o.Objects
		if o.Layout != nil {
			lay = func() { o.Layout.Layout(o.Objects, o.Size()) }
		}
	case fyne.Widget:
		r := test.WidgetRenderer(o)
		inner, lay = r.Objects(), func() { r.Layout(o.Size()) }
	}
	for _, i := range inner {
		another = f.frame(i, o) || another
	}
	if f.of == o {
		lay()
		f.of = nil
	}
	if least := o.MinSize(); f.asked[o] != least {
		f.asked[o] = least
		if f.of = in; in == nil {
			lay()
		}
		return true
	}
	return another
}

// Wake has the toolkit look at the clock. It does so only as it takes a picture, and then lets go what it saw last
// more than a minute before, by the time it knew: after a long test without pictures what was made a moment ago too,
// which would be in the picture as if never laid out.
func Wake() { test.NewCanvas().Capture() }

// clock is what the toolkit tells by how long something has not been drawn; it keeps that for tests.
//
//go:linkname clock fyne.io/fyne/v2/internal/cache.timeNow
var clock func() time.Time

// shaper is what the toolkit sets text with. It remembers every font that it ever met, and the toolkit reads its fonts anew
// for every app of a test.
//
//go:linkname shaper fyne.io/fyne/v2/internal/painter.shaper
var shaper *shaping.HarfbuzzShaper

// Drop has the toolkit let go of all that it has drawn, as it does with what it has not drawn for a minute: of the windows
// of a test that has ended, which would fill the memory.
func Drop() {
	before := clock
	clock = func() time.Time { return before().Add(time.Hour) }
	Wake()
	*shaper = shaping.HarfbuzzShaper{}
}
