package answer

import (
	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/theme"
)

// figuresRow sets figures beside each other, their numbers as large as all of them have room for:
// inches with their fractions take more than millimetres.
type figuresRow struct {
	control.Columns
	values []*control.Text
}

// figureSizes are the sizes of the numbers, the largest first.
func figureSizes() []float32 { return []float32{theme.TextFigure, theme.TextHeadline, theme.TextBody} }

func (r figuresRow) size(to float32) {
	for _, v := range r.values {
		v.TextSize = to
	}
}

// MinSize is as wide as with the smallest numbers, and as high as they are now.
func (r figuresRow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	s, now := r.Columns.MinSize(objects), r.values[0].TextSize
	r.size(figureSizes()[len(figureSizes())-1])
	s.Width = r.Columns.MinSize(objects).Width
	r.size(now)
	return s
}

// Layout takes the largest size that goes in.
func (r figuresRow) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	now := r.values[0].TextSize
	for _, size := range figureSizes() {
		if r.size(size); r.Columns.MinSize(objects).Width <= s.Width {
			break
		}
	}
	if r.values[0].TextSize != now {
		for _, v := range r.values {
			v.Refresh()
		}
	}
	r.Columns.Layout(objects, s)
}

// underlined sets a line under a text, in what the text takes.
type underlined struct{}

// MinSize is the text's.
func (underlined) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout sets the line.
func (underlined) Layout(o []fyne.CanvasObject, s fyne.Size) {
	least := o[0].MinSize()
	o[0].Resize(s)
	o[1].Move(fyne.NewPos(0, least.Height-theme.FocusWidth))
	o[1].Resize(fyne.NewSize(min(least.Width, s.Width), theme.FocusWidth))
}

// settleMoved has what moved underlined for a while, and nothing where nothing is to move.
func (p *Plate) settleMoved(moved bool) {
	if !moved {
		return
	}
	p.moved++
	now := p.moved
	end := func() {
		if p.moved != now {
			return
		}
		for i := range p.figures {
			p.figures[i].under.Hide()
		}
	}
	if p.after == nil || !theme.Of(p).Moves() {
		end()
		return
	}
	p.after(theme.MarkTime, end)
}
