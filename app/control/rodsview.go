package control

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// CreateRenderer draws the rods.
func (r *Rods) CreateRenderer() fyne.WidgetRenderer {
	v := &rodsRenderer{r: r}
	v.blocks = canvas.NewRaster(v.paint)
	v.arrange()
	return v
}

type rodsRenderer struct {
	r      *Rods
	blocks *canvas.Raster
	// texts are made once: one that is new has all laid out again at the next frame. So many of them are
	// used while they are arranged.
	texts []*canvas.Text
	used  int
	// at and letters are how the rods stand and what is written at them, as they were arranged last.
	at      place
	letters rodLettering
}

func (v *rodsRenderer) Destroy() {}

// MinSize has room for the least set: which is shown follows from the room there is.
func (v *rodsRenderer) MinSize() fyne.Size {
	t := v.r.theme()
	var least RodSet
	if n := len(v.r.sets); n > 0 {
		least = v.r.sets[n-1]
	}
	n := float32(len(least.Rods))
	wide := n*t.Unit(rodWide) + (n+1)*t.Unit(leastGap) + float32(len(least.Steps))*t.Unit(stepWide)
	const stacks = 80 // units high at least
	return fyne.NewSize(wide, t.Unit(figureHigh+nameHigh+stacks))
}

func (v *rodsRenderer) Layout(size fyne.Size) {
	v.blocks.Resize(size)
	v.arrange()
}

func (v *rodsRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{v.blocks}
	for _, t := range v.texts {
		out = append(out, t)
	}
	return out
}

func (v *rodsRenderer) Refresh() {
	v.arrange()
	v.blocks.Refresh()
	canvas.Refresh(v.r)
}

// arrange puts the texts where they belong.
func (v *rodsRenderer) arrange() {
	r := v.r
	v.used = 0
	defer func() { v.texts = v.texts[:v.used] }()
	size := r.BaseWidget.Size()
	if size.Width == 0 || len(r.rods) == 0 {
		return
	}
	v.at = r.room()
	v.letters = v.lettered(&v.at)
	for _, text := range v.letters.texts {
		v.say(text)
	}
}

// role is the colour of a step: of ink where it is meant, of warning where one trips.
func (b *Between) role() theme.Role {
	switch b.Kind {
	case theme.Lip:
		return theme.Tight
	case theme.Flush:
		return theme.Sound
	}
	return theme.Ink
}

// stepAt is where a step begins and ends, from above.
func (v *rodsRenderer) stepAt(p *place, s *Between) (high, low float32) {
	return p.base - float32(v.r.rods[s.High].topMM()*p.perMM), p.base - float32(v.r.rods[s.Low].topMM()*p.perMM)
}

// say puts a text where it has found room.
func (v *rodsRenderer) say(text rodText) {
	if v.used == len(v.texts) {
		v.texts = append(v.texts, canvas.NewText("", nil))
	}
	t, c := v.r.theme(), v.texts[v.used]
	v.used++
	c.Text, c.Color = text.text, t.Role(text.role)
	c.TextSize, c.TextStyle = t.Text(text.size), fyne.TextStyle{Bold: text.bold}
	own := c.MinSize()
	c.Move(text.middle.SubtractXY(own.Width/2, own.Height/2))
	c.Resize(own)
}

// bare is the line of a floor of which nothing is known but how high it lies: without one its figure would stand at nothing.
func (v *rodsRenderer) bare(p *place, rod int) (from, to placing.Point, ok bool) {
	y := float64(p.base) - v.r.rods[rod].topMM()*p.perMM
	x := float64(p.x[rod])
	return placing.Point{x, y}, placing.Point{x + float64(v.r.theme().Unit(rodWide)), y}, len(v.r.rods[rod].Layers) == 0
}

// paint draws the blocks, the floors they stand on, and the step.
func (v *rodsRenderer) paint(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r, t := v.r, v.r.theme()
	size := r.BaseWidget.Size()
	if size.Width == 0 || len(r.rods) == 0 {
		return img
	}
	p := &v.at
	pixels := float64(w) / float64(size.Width)
	v.stacks(img, p, pixels)
	pen := theme.NewPen(img, pixels)
	const floorWide = 1.6
	ink := t.Role(theme.Ink)
	pen.Line(ink, floorWide, [2]float64{1, float64(p.base)}, [2]float64{float64(size.Width) - 1, float64(p.base)})
	for i := range r.rods {
		if from, to, ok := v.bare(p, i); ok {
			pen.Line(ink, floorWide, from, to)
		}
	}
	for _, lead := range v.letters.leads {
		pen.Line(ink, 0.8, lead[0], lead[1])
	}
	for k := range r.steps {
		v.paintStep(pen, p, k, v.letters.inArrow[k])
	}
	v.mark(pen, p)
	return img
}

// stacks draws the blocks as the drawings do.
func (v *rodsRenderer) stacks(img *image.RGBA, p *place, pixels float64) {
	r, t := v.r, v.r.theme()
	perMM := p.perMM * pixels
	size := img.Bounds().Size()
	// Level nought of the drawing lies at the base, its left side at the picture's.
	view := paint.View{PixelsPerMM: perMM, Width: size.X, Height: size.Y,
		Centre: plan.Point{float64(size.X) / 2 / perMM, (float64(p.base)*pixels - float64(size.Y)/2) / perMM}}
	wide := float64(t.Unit(rodWide)) * pixels / perMM
	var areas []section.Area
	for i := range r.rods {
		x, z := float64(p.x[i])*pixels/perMM, r.rods[i].FromMM
		for _, l := range r.rods[i].Layers {
			areas = append(areas, section.Area{PartID: l.ID, Material: l.Material, Colour: l.Colour, FallDeg: l.FallDeg, Cut: true,
				Region: plan.Rectangle(plan.Point{x, z}, plan.Point{x + wide, z + l.MM})})
			z += l.MM
		}
	}
	paint.Areas(img, areas, view, t.PaintStyle(pixels*float64(t.Unit(1)), unit.Metric, r.chosen))
}

// paintStep draws the step: from the higher rod across, and down to the lower one, open where its figure stands in it.
func (v *rodsRenderer) paintStep(pen *theme.Pen, p *place, k int, inArrow bool) {
	s, t := &v.r.steps[k], v.r.theme()
	ink := t.Role(s.role())
	high, low := v.stepAt(p, s)
	wide := t.Unit(rodWide)
	const over = 10
	x := float64(p.stepX[k])
	line := func(rod int, y float32) {
		pen.Dashed(ink, 1, 4, 3, [2]float64{float64(p.x[rod] + wide), float64(y)}, [2]float64{x + over, float64(y)})
	}
	line(s.High, high)
	line(s.Low, low)
	if s.Kind == theme.Flush {
		return
	}
	gap := float64(t.Unit(22)) // round the figure
	middle := float64(high+low) / 2
	if inArrow {
		pen.Arrow(ink, [2]float64{x, middle - gap}, [2]float64{x, float64(high) + 1}, false)
		pen.Arrow(ink, [2]float64{x, middle + gap}, [2]float64{x, float64(low) - 1}, false)
		return
	}
	const heads = 14 // under it there is no room for two heads
	pen.Arrow(ink, [2]float64{x, float64(low) - 1}, [2]float64{x, float64(high) + 1}, low-high > heads)
}

// mark draws a frame round the block the arrows are at.
func (v *rodsRenderer) mark(pen *theme.Pen, p *place) {
	r, t := v.r, v.r.theme()
	if !r.focused || r.layers() == 0 {
		return
	}
	top, bottom := r.span(p, r.atRod, r.atLayer)
	const out = 2
	x0, x1 := float64(p.x[r.atRod])-out, float64(p.x[r.atRod]+t.Unit(rodWide))+out
	y0, y1 := float64(top)-out, float64(bottom)+out
	corners := [][2]float64{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
	pen.Line(t.Role(theme.Press), theme.FocusWidth, corners...)
}
