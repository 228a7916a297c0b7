package tag

import (
	"fyne.io/fyne/v2"
	"underfall/app/theme"
)

// pairs lays what is there two beside each other, one under the other where one of them needs more than half
// of the width.
type pairs struct{ wide func() float32 }

// MinSize is as wide as the widest, and as high as all in the width there is.
func (p pairs) MinSize(objects []fyne.CanvasObject) (s fyne.Size) {
	for _, o := range objects {
		if o.Visible() {
			s.Width = max(s.Width, o.MinSize().Width)
		}
	}
	s.Height = p.arrange(objects, max(s.Width, p.wide()))
	return s
}

// Layout places them.
func (p pairs) Layout(objects []fyne.CanvasObject, size fyne.Size) { p.arrange(objects, size.Width) }

// arrange places them in a width and tells how high that comes.
func (p pairs) arrange(objects []fyne.CanvasObject, width float32) (y float32) {
	half := (width - theme.Space2) / 2
	put := func(o fyne.CanvasObject, x, wide float32) float32 {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(wide, o.MinSize().Height)) // which tells a text that wraps how high it is
		o.Resize(fyne.NewSize(wide, o.MinSize().Height))
		return o.MinSize().Height
	}
	var there []fyne.CanvasObject
	for _, o := range objects {
		if o.Visible() {
			there = append(there, o)
		}
	}
	for i := 0; i < len(there); i++ {
		if y > 0 {
			y += theme.Space2
		}
		if i+1 < len(there) && there[i].MinSize().Width <= half && there[i+1].MinSize().Width <= half {
			high := put(there[i], 0, half)
			y += max(high, put(there[i+1], half+theme.Space2, half))
			i++
			continue
		}
		y += put(there[i], 0, width)
	}
	return y
}
