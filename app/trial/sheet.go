package trial

import (
	"image"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

// painted is a drawing as pixels, with where what lies over it comes to stand, in Fyne's units.
type painted struct {
	image   image.Image
	circles []fyne.Position
	old     []fyne.Position
}

// paintOn paints a drawing for a sheet of a size; nothing where there is no drawing.
func paintOn(p *paint.Painter, d drawn, size fyne.Size, style paint.Style) painted {
	pixels := style.Scale
	width, height := int(float64(size.Width)*pixels), int(float64(size.Height)*pixels)
	if width < 2 || height < 2 || len(d.Areas)+len(d.Lines) == 0 {
		return painted{}
	}
	v := paint.FitTo(&d.Drawing, width, height, pixels)
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	out := painted{image: img}
	at := func(q plan.Point) fyne.Position {
		x, y := v.ToPixel(q)
		return fyne.NewPos(float32(x/pixels), float32(y/pixels))
	}
	for _, q := range d.circles {
		place := at(q)
		if !slices.ContainsFunc(out.circles, func(c fyne.Position) bool { return within(c, place, 1.5*circleRadius) }) {
			out.circles = append(out.circles, place)
			x, y := v.ToPixel(q)
			style.Taken = append(style.Taken, placing.Around(placing.Point{x, y}, 2*circleRadius*pixels, 2*circleRadius*pixels))
		}
	}
	p.Draw(img, d.Drawing, v, style)
	for _, q := range d.old {
		out.old = append(out.old, at(q))
	}
	return out
}

// circleRadius is that of the circles round what is hit; one that lies largely in another's is left out.
const circleRadius = 16

// within tells whether two places are no farther apart than a reach.
func within(a, b fyne.Position, reach float64) bool {
	return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) < reach
}

// sheet shows a painted drawing, with what is hit circled and the run as it was broken and grey. Another that is
// shown comes through the one before.
type sheet struct {
	widget.BaseWidget
	theme         *theme.Theme
	resized       func()
	picture, past *canvas.Image
	over          *fyne.Container
	fade          *fyne.Animation
	shows         painted
}

func newSheet(t *theme.Theme, resized func()) *sheet {
	picture := func() *canvas.Image {
		return &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
	}
	s := &sheet{theme: t, resized: resized, picture: picture(), past: picture(), over: container.NewWithoutLayout()}
	s.past.Hide()
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer lays what is told over the picture.
func (s *sheet) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(s.picture, s.past, s.over))
}

// MinSize lets the drawing be small.
func (s *sheet) MinSize() fyne.Size { return fyne.NewSize(120, 80) }

// Resize has it painted anew.
func (s *sheet) Resize(size fyne.Size) {
	if size == s.Size() {
		return
	}
	s.BaseWidget.Resize(size)
	s.resized()
}

// show shows a painting; fading, where things may move, it comes slowly out of what was shown.
func (s *sheet) show(p painted, fading bool) {
	if s.fade != nil {
		s.fade.Stop()
		s.past.Hide()
	}
	if fading && s.theme.Moves() && s.picture.Image != nil && p.image != nil {
		s.past.Image, s.past.Translucency = s.picture.Image, 0
		s.past.Show()
		s.fade = fyne.NewAnimation(theme.FadeTime, func(done float32) {
			s.past.Translucency = float64(done)
			s.past.Hidden = done == 1
			s.past.Refresh()
		})
		s.fade.Start()
	}
	s.shows, s.picture.Image = p, p.image
	s.picture.Refresh()
	s.layOver()
}

// layOver lays circles and the old run over the picture.
func (s *sheet) layOver() {
	const radius, wide = circleRadius, 3
	s.over.RemoveAll()
	for i := 1; i < len(s.shows.old); i++ {
		s.broken(s.shows.old[i-1], s.shows.old[i])
	}
	for _, at := range s.shows.circles {
		c := canvas.NewCircle(nil)
		c.StrokeColor, c.StrokeWidth = s.theme.Role(theme.Stops), wide
		c.Resize(fyne.NewSquareSize(2 * radius))
		c.Move(at.SubtractXY(radius, radius))
		s.over.Add(c)
	}
	s.over.Refresh()
}

// broken lays a broken grey line over the picture.
func (s *sheet) broken(from, to fyne.Position) {
	const dash, gap, wide = 7, 4, 5
	long := math.Hypot(float64(to.X-from.X), float64(to.Y-from.Y))
	along := func(at float64) fyne.Position {
		share := float32(math.Min(1, at/long))
		return fyne.NewPos(from.X+(to.X-from.X)*share, from.Y+(to.Y-from.Y)*share)
	}
	for at := 0.0; at < long; at += dash + gap {
		l := canvas.NewLine(s.theme.Role(theme.Edge))
		l.StrokeWidth = wide
		l.Position1, l.Position2 = along(at), along(at+dash)
		s.over.Add(l)
	}
}
