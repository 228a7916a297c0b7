package tag

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// ground lies under what is on a tag, so that what is pressed beside a field is not pressed through the tag.
type ground struct{ widget.BaseWidget }

func newGround() *ground {
	g := &ground{}
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer draws nothing.
func (g *ground) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(nil))
}

// All of what a pointer does ends here.

func (g *ground) Tapped(*fyne.PointEvent)          {}
func (g *ground) TappedSecondary(*fyne.PointEvent) {}
func (g *ground) MouseDown(*desktop.MouseEvent)    {}
func (g *ground) MouseUp(*desktop.MouseEvent)      {}
func (g *ground) MouseIn(*desktop.MouseEvent)      {}
func (g *ground) MouseMoved(*desktop.MouseEvent)   {}
func (g *ground) MouseOut()                        {}
func (g *ground) Dragged(*fyne.DragEvent)          {}
func (g *ground) DragEnd()                         {}
func (g *ground) Scrolled(*fyne.ScrollEvent)       {}
