package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// frame lays the window's regions out by how wide the window is: the drawings in the
// middle, the answer at the right, the order of work as a rail along the foot, and a tray
// of fields at the left when one is open.
type frame struct {
	top, tray, plan, picture, section, rods, answer, readout, rail *fyne.Container
	across, upright                                                *grip
	// planShare is how much of the upper drawings' width the plan takes, upperShare how much
	// of the drawings' height the upper ones do; nought for the usual.
	planShare, upperShare float32
	trayOpen, trayFields  bool
	// onePane is which of plan and picture a small window shows.
	onePane pane
	all     *fyne.Container
}

// pane is a drawing's place in the window.
type pane int

// The places of drawings.
const (
	panePlan pane = iota
	panePicture
	paneSection
)

// Widths at which the layout changes, and sizes of the regions, in Fyne's units.
const (
	mediumFrom, wideFrom, hugeFrom = 1180, 1600, 2560
	frameEdge, frameGap            = 12, 8
	topHeight, readoutHeight       = 48, 24
	trayWidth                      = 344
)

// measures are the sizes of the regions for a width.
type measures struct {
	rail, tray, fields, answer, rods float32 // fields is the width of the tray with a station's fields
	planShare, upperShare            float32
	both                             bool // plan and picture beside each other
	over                             bool // the tray lies over the drawings
}

// measuresFor a width of the window.
func measuresFor(width float32) measures {
	switch {
	case width < mediumFrom:
		return measures{rail: 56, tray: trayWidth, fields: 300, answer: 300, rods: 200, planShare: 1, upperShare: 0.55, over: true}
	case width < wideFrom:
		return measures{rail: 64, tray: trayWidth, fields: 300, answer: 340, rods: 264, planShare: 0.48, upperShare: 0.55, both: true}
	case width < hugeFrom:
		return measures{rail: 64, tray: trayWidth, fields: 316, answer: 420, rods: 360, planShare: 0.5, upperShare: 0.56, both: true}
	}
	return measures{rail: 64, tray: trayWidth, fields: 316, answer: 480, rods: 360, planShare: 0.5, upperShare: 0.56, both: true}
}

// newFrame makes the layout; the regions are filled by whoever makes the window. They stand in
// the order that they are read in, which Tab follows.
func newFrame() *frame {
	f := &frame{}
	var objects []fyne.CanvasObject
	for _, region := range []**fyne.Container{&f.top, &f.plan, &f.picture, &f.section, &f.rods, &f.answer, &f.readout, &f.rail, &f.tray} {
		*region = container.NewStack()
		clip := container.NewClip(*region)
		clip.ExtendBaseWidget(clip) // without, it lays nothing out before it is painted
		objects = append(objects, clip)
	}
	f.across = newGrip(false, func(by float32) { f.moveShare(&f.planShare, by, false) }, func() { f.planShare = 0; f.all.Refresh() })
	f.upright = newGrip(true, func(by float32) { f.moveShare(&f.upperShare, by, true) }, func() { f.upperShare = 0; f.all.Refresh() })
	objects = append(objects, f.across, f.upright)
	f.all = container.New(f, objects...)
	return f
}

// moveShare moves the border between drawings.
func (f *frame) moveShare(share *float32, by float32, upright bool) {
	m, s := measuresFor(f.all.Size().Width), f.drawingsSize(f.all.Size())
	whole := s.Width
	if *share == 0 {
		*share = m.planShare
	}
	if upright {
		whole = s.Height
		if f.upperShare == 0 {
			*share = m.upperShare
		}
	}
	const least = 0.2
	*share = min(max(*share+by/whole, least), 1-least)
	f.all.Refresh()
}

// trayWidth is how wide the tray is: lists take more than fields.
func (f *frame) trayWidth(m measures) float32 {
	if f.trayFields {
		return m.fields
	}
	return m.tray
}

// openTray shows the tray or not, with fields or a list in it.
func (f *frame) openTray(open, fields bool) {
	f.trayOpen, f.trayFields = open, fields
	f.all.Refresh()
}

// show brings a drawing's place into sight, where there is not room for all.
func (f *frame) show(p pane) {
	if p != paneSection {
		f.onePane = p
		f.all.Refresh()
	}
}

// MinSize is what the window may be made as small as.
func (f *frame) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1024, 656) }

// drawingsSize is what the drawings have together.
func (f *frame) drawingsSize(all fyne.Size) fyne.Size {
	m := measuresFor(all.Width)
	w := all.Width - 2*frameEdge - frameGap - m.answer
	if f.trayOpen && !m.over {
		w -= f.trayWidth(m) + frameGap
	}
	return fyne.NewSize(w, all.Height-topHeight-readoutHeight-m.rail-frameGap)
}

// Layout places the regions.
func (f *frame) Layout(objects []fyne.CanvasObject, all fyne.Size) {
	m, s := measuresFor(all.Width), f.drawingsSize(all)
	place := func(i int, x, y, w, h float32) {
		objects[i].Move(fyne.NewPos(x, y))
		objects[i].Resize(fyne.NewSize(max(w, 0), max(h, 0)))
	}
	const top, plan, picture, section, rods, answer, readout, rail, tray, across, upright = 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10
	x := all.Width - frameEdge - m.answer - frameGap - s.Width
	place(top, 0, 0, all.Width, topHeight)
	place(rail, 0, all.Height-m.rail, all.Width, m.rail)
	place(readout, frameEdge, all.Height-m.rail-readoutHeight, all.Width-2*frameEdge, readoutHeight)
	place(answer, all.Width-frameEdge-m.answer, topHeight+4, m.answer, all.Height-topHeight-m.rail-4-readoutHeight)
	place(tray, frameEdge, topHeight+4, f.trayWidth(m), all.Height-topHeight-m.rail-4-readoutHeight)
	share := func(set, usual float32) float32 {
		if set > 0 {
			return set
		}
		return usual
	}
	upper := s.Height * share(f.upperShare, m.upperShare)
	lower := s.Height - upper - frameGap
	y := float32(topHeight + 4)
	if m.both {
		w := (s.Width - frameGap) * share(f.planShare, m.planShare)
		place(plan, x, y, w, upper-4)
		place(picture, x+w+frameGap, y, s.Width-w-frameGap, upper-4)
		place(across, x+w-2, y, 12, upper-4)
	} else {
		place(plan, x, y, s.Width, upper-4)
		place(picture, x, y, s.Width, upper-4)
	}
	place(section, x, topHeight+upper+frameGap, s.Width-m.rods-frameGap, lower)
	place(rods, x+s.Width-m.rods, topHeight+upper+frameGap, m.rods, lower)
	place(upright, x, topHeight+upper-2, s.Width, 12)
	seen := func(i int, on bool) {
		if on {
			objects[i].Show()
		} else {
			objects[i].Hide()
		}
	}
	seen(tray, f.trayOpen)
	seen(across, m.both)
	seen(plan, m.both || f.onePane == panePlan)
	seen(picture, m.both || f.onePane == panePicture)
}

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
	g := &grip{upright: upright, moved: moved, reset: reset, line: canvas.NewRectangle(nil)}
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
	line.FillColor = nil
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
