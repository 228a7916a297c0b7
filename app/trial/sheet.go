package trial

import (
	"image"
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry"
)

// painted is a drawing as pixels, with where the run as it was comes to stand, in Fyne's units.
type painted struct {
	image image.Image
	old   []fyne.Position
}

// paintOn paints a drawing for a sheet of a size; nothing where there is no drawing.
func paintOn(p *paint.Painter, d drawn, size fyne.Size, style paint.Style, inks inks) painted {
	pixels := style.Scale
	width, height := int(float64(size.Width)*pixels), int(float64(size.Height)*pixels)
	if width < 2 || height < 2 || len(d.Areas)+len(d.Lines) == 0 {
		return painted{}
	}
	v := paint.FitTo(&d.Drawing, width, height, pixels)
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	out := painted{image: img}
	style.Chosen = d.timbers
	p.Draw(img, d.Drawing, v, style, ringsOn(d.rings, v, style, inks)...)
	for _, q := range d.old {
		x, y := v.ToPixel(q)
		out.old = append(out.old, fyne.NewPos(float32(x/pixels), float32(y/pixels)))
	}
	return out
}

// inks are the colours of what stands one way or the other, and of the sheets that it is told on.
type inks map[geometry.Standing][2]color.RGBA

func inksOf(t *theme.Theme) inks {
	out := inks{}
	for _, s := range []geometry.Standing{geometry.Sound, geometry.Tight, geometry.NotKnown, geometry.Stops} {
		mark, ground := theme.OfStanding(s)
		out[s] = [2]color.RGBA{color.RGBA(t.Role(mark)), color.RGBA(t.Role(ground))}
	}
	return out
}

// ringsOn are rings as they stand on a sheet: one that lies largely in another's is left out, and one that lies off the
// sheet, which would only be led to from its rim.
func ringsOn(rings []ring, v paint.View, style paint.Style, inks inks) (out []paint.Pin) {
	const apart = 1.5 * paint.RingRadius
	for _, r := range rings {
		pin := paint.Pin{Ring: true, Ink: inks[r.standing][0], Ground: inks[r.standing][1]}
		if !r.says.IsZero() {
			pin.Label = style.Book.Say(r.says)
		}
		pin.At[0], pin.At[1] = v.ToPixel(r.at)
		if pin.At[0] < 0 || pin.At[0] > float64(v.Width) || pin.At[1] < 0 || pin.At[1] > float64(v.Height) {
			continue
		}
		covers := func(o paint.Pin) bool { return math.Hypot(o.At[0]-pin.At[0], o.At[1]-pin.At[1]) < apart*style.Scale }
		if !slices.ContainsFunc(out, covers) {
			out = append(out, pin)
		}
	}
	return out
}

// sheet shows a painted drawing, with the run as it was broken and grey. Another that is shown comes through the one
// before.
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

// layOver lays the old run over the picture.
func (s *sheet) layOver() {
	s.over.RemoveAll()
	for i := 1; i < len(s.shows.old); i++ {
		s.broken(s.shows.old[i-1], s.shows.old[i])
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
