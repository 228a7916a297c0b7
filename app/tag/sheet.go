package tag

import (
	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/theme"
)

// sheet lays out what stands on a tag: what it is called with what closes it, its fields, what is said and what else
// can be done, which stands beside the name where there is room. Any of them may be nil.
type sheet struct {
	title        *control.Text
	closing      *control.Press
	fields, ways []fyne.CanvasObject
	says         *control.Text
	within       func() float32 // how wide it was last laid out
}

// objects are all that stand on it.
func (s *sheet) objects() (out []fyne.CanvasObject) {
	if s.title != nil {
		out = append(out, s.title, s.closing)
	}
	out = append(out, s.fields...)
	if s.says != nil {
		out = append(out, s.says)
	}
	return append(out, s.ways...)
}

// MinSize is as wide as the widest, and as high as all in the width it was last laid out in.
func (s *sheet) MinSize([]fyne.CanvasObject) fyne.Size {
	wide := float32(0)
	for _, o := range s.fields {
		if o.Visible() {
			wide = max(wide, o.MinSize().Width)
		}
	}
	for _, o := range s.ways {
		wide = max(wide, o.MinSize().Width)
	}
	return fyne.NewSize(wide, s.arrange(max(wide, s.within())))
}

// Layout places all of it.
func (s *sheet) Layout(_ []fyne.CanvasObject, size fyne.Size) { s.arrange(size.Width) }

// arrange places all of it in a width and tells how high that comes.
func (s *sheet) arrange(width float32) (y float32) {
	beside := false
	if s.title != nil {
		y, beside = s.head(width)
	}
	next := func() {
		if y > 0 {
			y += theme.Space2
		}
	}
	y = s.rows(width, y)
	if s.says != nil {
		next()
		y += put(s.says, 0, y, width)
	}
	if len(s.ways) == 0 || beside {
		return y
	}
	next()
	x, high := float32(0), float32(0)
	for _, o := range s.ways {
		own := o.MinSize()
		if x > 0 && x+own.Width > width {
			x, y, high = 0, y+high+theme.BetweenTwo, 0
		}
		put(o, x, y, own.Width)
		x, high = x+own.Width+theme.BetweenTwo, max(high, own.Height)
	}
	return y + high
}

// head places the name and what closes the tag; it tells how high that comes, and whether what else can be done has
// found room beside them.
func (s *sheet) head(width float32) (high float32, beside bool) {
	closing := s.closing.MinSize()
	ways := float32(0)
	for _, o := range s.ways {
		ways += o.MinSize().Width + theme.BetweenTwo
	}
	beside = ways > 0 && s.title.WidestLine()+theme.Space3+ways+closing.Width <= width
	name := width - closing.Width
	if beside {
		name -= ways
	}
	s.title.Resize(fyne.NewSize(name, 1))
	high = max(s.title.MinSize().Height, closing.Height)
	middle := func(o fyne.CanvasObject, x, wide float32) float32 {
		own := o.MinSize().Height
		o.Move(fyne.NewPos(x, (high-own)/2))
		o.Resize(fyne.NewSize(wide, own))
		return x + wide
	}
	x := middle(s.title, 0, name)
	if beside {
		for _, o := range s.ways {
			x = middle(o, x, o.MinSize().Width) + theme.BetweenTwo
		}
	}
	middle(s.closing, x, closing.Width)
	return high, beside
}

// rows places the fields from a height on, as many beside each other as there is room for; it tells where they end.
func (s *sheet) rows(width, y float32) float32 {
	var there []fyne.CanvasObject
	for _, o := range s.fields {
		if o.Visible() {
			there = append(there, o)
		}
	}
	for len(there) > 0 {
		if y > 0 {
			y += theme.Space2
		}
		n := len(there)
		cell := func() float32 { return (width - theme.Space2*float32(n-1)) / float32(n) }
		for n > 1 && widest(there[:n]) > cell() {
			n--
		}
		high, x := float32(0), float32(0)
		for _, o := range there[:n] {
			high = max(high, put(o, x, y, cell()))
			x += cell() + theme.Space2
		}
		y, there = y+high, there[n:]
	}
	return y
}

// widest is how wide the widest has to be.
func widest(all []fyne.CanvasObject) (wide float32) {
	for _, o := range all {
		wide = max(wide, o.MinSize().Width)
	}
	return wide
}

// put places an object in a width and tells how high it is.
func put(o fyne.CanvasObject, x, y, wide float32) float32 {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(wide, o.MinSize().Height)) // which tells a text that wraps how high it is
	o.Resize(fyne.NewSize(wide, o.MinSize().Height))
	return o.MinSize().Height
}
