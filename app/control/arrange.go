package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// Column sets what shows one under the other, each as high as it needs to be at the width
// there is, Gap units apart.
type Column struct{ Gap float32 }

// MinSize holds them all.
func (c Column) MinSize(objects []fyne.CanvasObject) (s fyne.Size) {
	for _, o := range objects {
		if o.Visible() {
			m := o.MinSize()
			if s.Height > 0 {
				s.Height += c.Gap
			}
			s.Width, s.Height = max(s.Width, m.Width), s.Height+m.Height
		}
	}
	return s
}

// Layout sets each under the one before.
func (c Column) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		// Text says how high it is once it knows how wide.
		o.Resize(fyne.NewSize(s.Width, o.MinSize().Height))
		o.Resize(fyne.NewSize(s.Width, o.MinSize().Height))
		o.Move(fyne.NewPos(0, y))
		y += o.MinSize().Height + c.Gap
	}
}

// Columns sets what shows beside each other, each as wide as the others, Gap units apart.
type Columns struct{ Gap float32 }

// MinSize holds them all.
func (c Columns) MinSize(objects []fyne.CanvasObject) (s fyne.Size) {
	n := float32(0)
	for _, o := range objects {
		if o.Visible() {
			m := o.MinSize()
			s.Width, s.Height = max(s.Width, m.Width), max(s.Height, m.Height)
			n++
		}
	}
	s.Width = s.Width*n + c.Gap*max(n-1, 0)
	return s
}

// Layout sets each beside the one before.
func (c Columns) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	n := float32(0)
	for _, o := range objects {
		if o.Visible() {
			n++
		}
	}
	x, width := float32(0), (s.Width-c.Gap*max(n-1, 0))/max(n, 1)
	for _, o := range objects {
		if o.Visible() {
			o.Move(fyne.NewPos(x, 0))
			o.Resize(fyne.NewSize(width, s.Height))
			x += width + c.Gap
		}
	}
}

// Rule is a thin line between two things one under the other.
type Rule struct{ widget.BaseWidget }

// NewRule makes one.
func NewRule() *Rule {
	r := &Rule{}
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer draws the line.
func (r *Rule) CreateRenderer() fyne.WidgetRenderer {
	x := &ruleRenderer{of: r, line: canvas.NewRectangle(nil)}
	x.Refresh()
	return x
}

type ruleRenderer struct {
	of   *Rule
	line *canvas.Rectangle
}

func (r *ruleRenderer) Destroy()                     {}
func (r *ruleRenderer) Layout(s fyne.Size)           { r.line.Resize(s) }
func (r *ruleRenderer) MinSize() fyne.Size           { return fyne.NewSize(1, theme.EdgeWidth) }
func (r *ruleRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.line} }

func (r *ruleRenderer) Refresh() {
	r.line.FillColor = theme.Of(r.of).Role(theme.Line)
	r.line.Refresh()
}

// Flow sets what shows beside each other at its own size, on a further line where the width is
// used up, Gap units apart.
type Flow struct{ Gap float32 }

// MinSize holds them at the width they were last laid out in; until then in one line each.
func (f Flow) MinSize(objects []fyne.CanvasObject) (s fyne.Size) {
	bottom := float32(0)
	for _, o := range objects {
		if o.Visible() {
			m := o.MinSize()
			s.Width = max(s.Width, m.Width)
			bottom = max(bottom, o.Position().Y+m.Height)
		}
	}
	s.Height = bottom
	return s
}

// Layout sets them line by line.
func (f Flow) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	x, y, high := float32(0), float32(0), float32(0)
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		if x > 0 && x+m.Width > s.Width {
			x, y, high = 0, y+high+f.Gap, 0
		}
		o.Move(fyne.NewPos(x, y))
		o.Resize(m)
		x, high = x+m.Width+f.Gap, max(high, m.Height)
	}
}

// Ends sets two objects at the two ends of a line, Gap units apart at least; where the width is not
// enough for both, one under the other, each as wide as the line.
type Ends struct{ Gap float32 }

// fits tells whether both go into a width.
func (e Ends) fits(objects []fyne.CanvasObject, width float32) bool {
	return !objects[0].Visible() || objects[0].MinSize().Width+e.Gap+objects[1].MinSize().Width <= width
}

// MinSize is as high as they need at the width they were last laid out in, and as wide as the wider.
func (e Ends) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	if !objects[0].Visible() {
		return b
	}
	s := fyne.NewSize(max(a.Width, b.Width), max(a.Height, b.Height))
	if objects[1].Position().Y > 0 {
		s.Height = a.Height + e.Gap + b.Height
	}
	return s
}

// Layout sets them.
func (e Ends) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	y := float32(0)
	if !e.fits(objects, s.Width) {
		y = a.Height + e.Gap
		a.Width, b.Width = s.Width, s.Width
	}
	objects[0].Move(fyne.Position{})
	objects[0].Resize(a)
	objects[1].Move(fyne.NewPos(s.Width-b.Width, y))
	objects[1].Resize(b)
}

// Head sets the first at the left of a line and the others that show at its right, Gap units apart, each
// at its own width; where there is not room for all, the first Yield are left out one after the other, until there is.
type Head struct {
	Gap   float32
	Yield int
}

// wide is how wide those that show take beside each other, of which the first so many are left out.
func (h Head) wide(objects []fyne.CanvasObject, out int) (width float32) {
	for i, o := range objects {
		if i >= out && (i < h.Yield || o.Visible()) {
			width += o.MinSize().Width + h.Gap
		}
	}
	return max(0, width-h.Gap)
}

// MinSize is without those that may be left out.
func (h Head) MinSize(objects []fyne.CanvasObject) fyne.Size {
	high := float32(0)
	for _, o := range objects[h.Yield:] {
		if o.Visible() {
			high = max(high, o.MinSize().Height)
		}
	}
	return fyne.NewSize(h.wide(objects, h.Yield), high)
}

// Layout sets them.
func (h Head) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	out := 0
	for out < h.Yield && h.wide(objects, out) > s.Width {
		out++
	}
	for i, o := range objects[:h.Yield] {
		if i < out {
			o.Hide()
		} else {
			o.Show()
		}
	}
	x := float32(0)
	for i, o := range objects {
		if !o.Visible() {
			continue
		}
		if i == 1 || i > 0 && x == 0 {
			x = s.Width - h.wide(objects, i)
		}
		m := o.MinSize()
		o.Move(fyne.NewPos(x, (s.Height-m.Height)/2))
		o.Resize(m)
		x += m.Width + h.Gap
	}
}
