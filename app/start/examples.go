package start

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/theme"
)

// exampleWide and exampleHigh are the least that an example's picture is, in units.
const exampleWide, exampleHigh = 112, 92

// exampleCards are pictures to be pressed, each with what it is and comes to.
func (f *Front) exampleCards() []fyne.CanvasObject {
	var all []fyne.CanvasObject
	for i, e := range f.o.Examples {
		pic := fyne.CanvasObject(planSketch(e.Plan).object(exampleWide, exampleHigh))
		if e.Picture != nil {
			img := canvas.NewImageFromImage(e.Picture)
			img.FillMode = canvas.ImageFillCover
			img.SetMinSize(fyne.NewSize(exampleWide, exampleHigh))
			pic = img
		}
		name := boldly(e.Name, theme.TextSecond, theme.Ink)
		about := paragraph(e.About, theme.TextCaption, theme.Caption)
		all = append(all, newChoice(f.o.Keys, e.Name, stacked(2, pic, name, about), func() { f.o.Example(i) }))
	}
	return all
}

// cards sets cards of one width beside and under each other; those beside each other are of one height.
type cards struct{}

// Widths of cards: as many stand beside each other as are at least so wide, two at least.
const (
	leastCard  = 190
	fewBeside  = 2
	exampleGap = theme.Space2
)

// beside is how many cards stand beside each other, and how wide each is.
func (cards) beside(width float32) (n int, each float32) {
	n = max(int((width+exampleGap)/(leastCard+exampleGap)), fewBeside)
	return n, (width - float32(n-1)*exampleGap) / float32(n)
}

// Layout places them.
func (c cards) Layout(o []fyne.CanvasObject, s fyne.Size) { c.place(o, s.Width) }

// place places them at a width, and tells how high they are together.
func (c cards) place(o []fyne.CanvasObject, width float32) (high float32) {
	n, each := c.beside(width)
	for first := 0; first < len(o); first += n {
		row := o[first:min(first+n, len(o))]
		tall := float32(0)
		for _, card := range row {
			// Text that wraps tells how high it is once it has its width.
			card.Resize(fyne.NewSize(each, card.MinSize().Height))
			tall = max(tall, card.MinSize().Height)
		}
		for k, card := range row {
			card.Move(fyne.NewPos(float32(k)*(each+exampleGap), high))
			card.Resize(fyne.NewSize(each, tall))
		}
		high += tall + exampleGap
	}
	return max(high-exampleGap, 0)
}

// MinSize is that at the width they have.
func (c cards) MinSize(o []fyne.CanvasObject) fyne.Size {
	const least = fewBeside*exampleWide + exampleGap
	if len(o) == 0 {
		return fyne.NewSize(least, 0)
	}
	n := 1
	for n < len(o) && o[n].Position().Y == o[0].Position().Y && o[n].Position().X > 0 {
		n++
	}
	high := float32(0)
	for first := 0; first < len(o); first += n {
		tall := float32(0)
		for _, card := range o[first:min(first+n, len(o))] {
			tall = max(tall, card.MinSize().Height)
		}
		high += tall + exampleGap
	}
	return fyne.NewSize(least, high-exampleGap)
}
