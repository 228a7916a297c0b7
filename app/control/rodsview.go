package control

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/paint"
	"underfall/app/theme"
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
}

func (v *rodsRenderer) Destroy() {}

func (v *rodsRenderer) MinSize() fyne.Size {
	t, r := v.r.theme(), v.r
	n := float32(len(r.rods))
	wide := n*t.Unit(rodWide) + (n+1)*t.Unit(leastGap) + float32(len(r.steps))*t.Unit(stepWide)
	const least = 80 // of the stacks
	return fyne.NewSize(wide, t.Unit(figureHigh+nameHigh+least))
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
	r, t := v.r, v.r.theme()
	v.used = 0
	defer func() { v.texts = v.texts[:v.used] }()
	size := r.BaseWidget.Size()
	if size.Width == 0 || len(r.rods) == 0 {
		return
	}
	p := r.room()
	wide := t.Unit(rodWide)
	ground := t.Unit(figureHigh) + float32((p.topMM-p.bottomMM)*p.perMM)
	figure := v.figureSize(&p)
	for i := range r.rods {
		middle := p.x[i] + wide/2
		top := p.base - float32(r.rods[i].topMM()*p.perMM)
		v.say(r.rods[i].Level, figure, true, theme.Ink, middle, top-t.Unit(figureHigh)/2)
		v.say(r.rods[i].Name, theme.TextCaption, false, theme.Ink, middle, ground+t.Unit(nameHigh)/2)
	}
	for _, w := range v.named(&p) {
		text := v.say(w.text, theme.TextLayer, false, theme.Ink, 0, w.y)
		text.Move(fyne.NewPos(p.x[r.worded]+wide+t.Unit(theme.Space2), text.Position().Y))
	}
	for k := range r.steps {
		s := &r.steps[k]
		high, low := v.stepAt(&p, s)
		middle := (high + low) / 2
		if s.Figure == "" || low-high < t.Unit(70) { // beside the arrow there is no room in it
			middle = low + t.Unit(18)
			if middle+t.Unit(18) > size.Height {
				middle = high - t.Unit(22)
			}
		}
		v.say(s.Word, theme.TextCaption, s.Figure == "", s.role(), p.stepX[k], middle-t.Unit(8))
		v.say(s.Figure, theme.TextTray, true, s.role(), p.stepX[k], middle+t.Unit(9))
	}
}

// figureSize is how large figures over the rods can be without two beside each other meeting.
func (v *rodsRenderer) figureSize(p *place) float32 {
	t := v.r.theme()
	for i := 1; i < len(v.r.rods); i++ {
		room := 2 * (p.x[i] - p.x[i-1]) // of half of each of the two
		need := wide(v.r.rods[i-1].Level, t.Text(theme.TextField), true) + wide(v.r.rods[i].Level, t.Text(theme.TextField), true)
		if need+2*t.Unit(theme.Space1) > room {
			return theme.TextLayer
		}
	}
	return theme.TextField
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

// say puts a text with its middle at a place, within the width there is.
func (v *rodsRenderer) say(text string, size float32, bold bool, role theme.Role, x, y float32) *canvas.Text {
	t := v.r.theme()
	if v.used == len(v.texts) {
		v.texts = append(v.texts, canvas.NewText("", nil))
	}
	c := v.texts[v.used]
	v.used++
	c.Text, c.Color = text, t.Role(role)
	c.TextSize, c.TextStyle = t.Text(size), fyne.TextStyle{Bold: bold}
	own := c.MinSize()
	x = max(0, min(x-own.Width/2, v.r.BaseWidget.Size().Width-own.Width))
	c.Move(fyne.NewPos(x, y-own.Height/2))
	c.Resize(own)
	return c
}

// wordOf is the name of a layer and where it stands.
type wordOf struct {
	text string
	y    float32
	of   float32 // the middle of the layer's block
}

// named are the names of the layers that have room: the thicker first, none over another.
func (v *rodsRenderer) named(p *place) (out []wordOf) {
	r, t := v.r, v.r.theme()
	if p.words == 0 {
		return nil
	}
	layers := r.rods[r.worded].Layers
	apart := t.Unit(theme.TextLayer + 3)
	done := make([]bool, len(layers))
	for range layers {
		next := -1
		for i, l := range layers {
			if !done[i] && l.Name != "" && (next < 0 || l.MM > layers[next].MM) {
				next = i
			}
		}
		if next < 0 {
			break
		}
		done[next] = true
		top, bottom := r.span(p, r.worded, next)
		of, free := (top+bottom)/2, true
		y := of
		if of < p.base { // the floor's line runs through no word
			y = min(of, p.base-apart/2-1)
		}
		for _, w := range out {
			free = free && (w.y-y >= apart || y-w.y >= apart)
		}
		if free {
			out = append(out, wordOf{layers[next].Name, y, of})
		}
	}
	return out
}

// paint draws the blocks, the floor they stand on, and the step.
func (v *rodsRenderer) paint(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r, t := v.r, v.r.theme()
	size := r.BaseWidget.Size()
	if size.Width == 0 || len(r.rods) == 0 {
		return img
	}
	p := r.room()
	pixels := float64(w) / float64(size.Width)
	v.stacks(img, &p, pixels)
	pen := theme.NewPen(img, pixels)
	ink := t.Role(theme.Ink)
	pen.Line(ink, 1.6, [2]float64{1, float64(p.base)}, [2]float64{float64(size.Width) - 1, float64(p.base)})
	for _, word := range v.named(&p) {
		x := float64(p.x[r.worded] + t.Unit(rodWide))
		pen.Line(ink, 0.8, [2]float64{x, float64(word.of)}, [2]float64{x + float64(t.Unit(theme.Space2)) - 2, float64(word.y)})
	}
	for k := range r.steps {
		v.paintStep(pen, &p, k)
	}
	v.mark(pen, &p)
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

// paintStep draws the step: from the higher rod across, and down to the lower one.
func (v *rodsRenderer) paintStep(pen *theme.Pen, p *place, k int) {
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
	if s.Figure != "" && float64(low-high) >= float64(t.Unit(70)) {
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
