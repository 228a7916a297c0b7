package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// grip is the border between two regions, to be dragged; pressed twice it goes back to where
// it usually is.
type grip struct {
	widget.BaseWidget
	upright bool // what it parts lies over each other
	moved   func(by float32)
	reset   func()
	over    bool
	line    *canvas.Rectangle
}

func newGrip(upright bool, moved func(float32), reset func()) *grip {
	g := &grip{upright: upright, moved: moved, reset: reset, line: canvas.NewRectangle(color.Transparent)}
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer draws the line that shows under the pointer.
func (g *grip) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(gripLine{g}, g.line))
}

// gripLine draws the line in the middle of the grip.
type gripLine struct{ of *grip }

// MinSize is nothing: the frame says how large it is.
func (gripLine) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout puts the line in the middle, two units thick.
func (l gripLine) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	line := objects[0].(*canvas.Rectangle)
	line.FillColor = color.Transparent
	if l.of.over {
		line.FillColor = fynetheme.Color(fynetheme.ColorNamePrimary)
	}
	const thick, long = 2, 40
	if l.of.upright {
		line.Move(fyne.NewPos(s.Width/2-long/2, s.Height/2-1))
		line.Resize(fyne.NewSize(long, thick))
	} else {
		line.Move(fyne.NewPos(s.Width/2-1, s.Height/2-long/2))
		line.Resize(fyne.NewSize(thick, long))
	}
}

// Cursor says which way it goes.
func (g *grip) Cursor() desktop.Cursor {
	if g.upright {
		return desktop.VResizeCursor
	}
	return desktop.HResizeCursor
}

// Dragged moves the border.
func (g *grip) Dragged(e *fyne.DragEvent) {
	if g.upright {
		g.moved(e.Dragged.DY)
	} else {
		g.moved(e.Dragged.DX)
	}
}

// DragEnd has nothing to do.
func (g *grip) DragEnd() {}

// DoubleTapped brings the usual place back.
func (g *grip) DoubleTapped(*fyne.PointEvent) { g.reset() }

// MouseIn shows the line.
func (g *grip) MouseIn(*desktop.MouseEvent) { g.over = true; g.Refresh() }

// MouseMoved has nothing to do.
func (g *grip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut hides it.
func (g *grip) MouseOut() { g.over = false; g.Refresh() }
