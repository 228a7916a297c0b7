package control

import "fyne.io/fyne/v2"

// Behind is a layout of a text with something behind it: the text in one line where there is room for that, in
// as many as it takes beside the other where there is none.
type Behind struct{ Gap float32 }

// behind is how wide what stands behind the text is, with the gap; nothing while that is hidden.
func (b Behind) behind(o []fyne.CanvasObject) float32 {
	if !o[1].Visible() {
		return 0
	}
	return o[1].MinSize().Width + b.Gap
}

// MinSize holds the widest word beside the other.
func (b Behind) MinSize(o []fyne.CanvasObject) fyne.Size {
	s := o[0].MinSize()
	s.Width += b.behind(o)
	if o[1].Visible() {
		s.Height = max(s.Height, o[1].MinSize().Height)
	}
	return s
}

// Layout places them, each in the middle of the height.
func (b Behind) Layout(o []fyne.CanvasObject, s fyne.Size) {
	text := o[0].(*Text)
	const hair = 0.5 // of a unit, so that a text measured in one line stays in one
	wide := min(text.WidestLine()+hair, s.Width-b.behind(o))
	o[0].Resize(fyne.NewSize(wide, o[0].Size().Height)) // breaks it into lines
	high := o[0].MinSize().Height
	o[0].Resize(fyne.NewSize(wide, high))
	o[0].Move(fyne.NewPos(0, (s.Height-high)/2))
	m := o[1].MinSize()
	o[1].Resize(m)
	o[1].Move(fyne.NewPos(wide+b.Gap, (s.Height-m.Height)/2))
}
