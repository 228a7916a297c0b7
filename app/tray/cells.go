package tray

import (
	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/theme"
)

// cells lays the line of a thing out: its name first, then its figures, so many beside each other, and at
// the end the button that takes it away, where there is one. Of a line without a name the figures have
// the whole width.
type cells struct {
	width float32 // that it was laid out in last; 0 before
}

// How wide the name of a line, its button and a figure are at least, in units, and how many figures stand
// beside each other.
const (
	cellName    = 30
	cellRemove  = 36
	cellLeast   = 72
	cellsAcross = 2
)

// MinSize is the least width, and the height in the width there is.
func (c *cells) MinSize(objects []fyne.CanvasObject) fyne.Size {
	unit := theme.Of(objects[0]).Unit
	least := unit(cellName+cellRemove+cellsAcross*cellLeast) + (cellsAcross+1)*theme.Space1
	return fyne.NewSize(least, c.arrange(objects, max(least, c.width)))
}

// Layout places them.
func (c *cells) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	c.width = size.Width
	c.arrange(objects, size.Width)
}

// arrange places what is there in a width and tells how high it comes.
func (c *cells) arrange(objects []fyne.CanvasObject, width float32) (high float32) {
	unit := theme.Of(objects[0]).Unit
	name, figures := objects[0].(*control.Text), objects[1:]
	left, right := float32(0), width
	if name.Text != "" {
		left = unit(cellName)
	}
	if remove, is := figures[len(figures)-1].(*control.Press); is {
		figures = figures[:len(figures)-1]
		high = remove.MinSize().Height // and as wide
		right -= high
		remove.Move(fyne.NewPos(right, 0))
		remove.Resize(fyne.NewSize(high, high))
	}
	name.Move(fyne.NewPos(0, max(0, (high-name.MinSize().Height)/2)))
	name.Resize(fyne.NewSize(left, name.MinSize().Height))
	wide := (right - left - (cellsAcross-1)*theme.Space1) / cellsAcross
	x, y, line := left, float32(0), float32(0)
	for _, o := range figures {
		if !o.Visible() {
			continue
		}
		if x+wide > right+1 {
			x, y, line = left, y+line+theme.Space1, 0
		}
		o.Resize(fyne.NewSize(wide, o.MinSize().Height))
		size := fyne.NewSize(wide, o.MinSize().Height)
		o.Move(fyne.NewPos(x, y))
		o.Resize(size)
		x, line = x+wide+theme.Space1, max(line, size.Height)
	}
	return max(high, y+line)
}
