package control

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry"
)

// The widths of a vial, in units.
const (
	VialPlate   = 58
	VialCard    = 44
	VialStation = 30
	VialRow     = 26
)

// Vial tells how something stands; when that changes its bubble glides to its new place.
type Vial struct {
	widget.BaseWidget
	width    float64
	standing geometry.Standing
	mark     theme.Mark
	label    string
	glide    *fyne.Animation
}

// NewVial makes a vial of a width.
func NewVial(width float64) *Vial {
	v := &Vial{width: width, mark: theme.VialOf("")}
	v.ExtendBaseWidget(v)
	return v
}

// Standing is what it tells now.
func (v *Vial) Standing() geometry.Standing { return v.standing }

// Set tells a standing, called by a word.
func (v *Vial) Set(s geometry.Standing, word string) {
	v.label = word
	if s == v.standing {
		return
	}
	from := theme.BubbleAt(v.mark.Kind)
	if v.mark.Of != 0 {
		from = v.mark.Of
	}
	v.standing, v.mark = s, theme.VialOf(s)
	if v.glide != nil {
		v.glide.Stop()
		v.glide = nil
	}
	to := theme.BubbleAt(v.mark.Kind)
	if from > 0 && to > 0 && theme.Of(v).Moves() && fyne.CurrentApp().Driver().CanvasForObject(v) != nil {
		v.glide = fyne.NewAnimation(theme.GlideTime, func(done float32) {
			v.mark.Of = from + int(float32(to-from)*done)
			if done == 1 {
				v.mark.Of = 0
			}
			v.Refresh()
		})
		v.glide.Start()
	}
	v.Refresh()
}

// AccessibilityLabel is how it stands.
func (v *Vial) AccessibilityLabel() string { return v.label }

// AccessibilityRole tells that it says something.
func (v *Vial) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// CreateRenderer draws the vial.
func (v *Vial) CreateRenderer() fyne.WidgetRenderer {
	return newMarkRenderer(v, func() theme.Mark { return v.mark }, v.width, func() {
		if v.glide != nil {
			v.glide.Stop()
		}
	})
}

// markRenderer shows a mark at its size, in the middle of the height there is.
type markRenderer struct {
	of     fyne.Widget
	mark   func() theme.Mark
	width  float64
	raster *canvas.Raster
	end    func()
}

func newMarkRenderer(of fyne.Widget, mark func() theme.Mark, width float64, end func()) *markRenderer {
	return &markRenderer{of, mark, width, picture(of, mark, width), end}
}

func (r *markRenderer) Destroy() { r.end() }

func (r *markRenderer) MinSize() fyne.Size { return markSize(theme.Of(r.of), r.mark(), r.width) }

func (r *markRenderer) Layout(size fyne.Size) {
	own := r.MinSize()
	r.raster.Resize(own)
	r.raster.Move(fyne.NewPos(0, (size.Height-own.Height)/2))
}

func (r *markRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.raster} }

func (r *markRenderer) Refresh() {
	r.Layout(r.of.Size())
	r.raster.Refresh()
}

// Sign is a mark by itself: a riser, a wall's letter, a chance.
type Sign struct {
	widget.BaseWidget
	mark  theme.Mark
	width float64
	label string
}

// NewSign makes a mark of a width, its usual one for 0, called by a text.
func NewSign(m theme.Mark, width float64, label string) *Sign {
	s := &Sign{}
	s.ExtendBaseWidget(s)
	s.set(m, width, label)
	return s
}

func (s *Sign) set(m theme.Mark, width float64, label string) {
	if width == 0 {
		width, _ = m.Natural()
	}
	s.mark, s.width, s.label = m, width, label
}

// Set shows another mark.
func (s *Sign) Set(m theme.Mark, label string) {
	if m != s.mark || label != s.label {
		s.mark, s.label = m, label
		s.Refresh()
	}
}

// AccessibilityLabel says what it shows.
func (s *Sign) AccessibilityLabel() string { return s.label }

// AccessibilityRole tells that it says something.
func (s *Sign) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// CreateRenderer draws the mark.
func (s *Sign) CreateRenderer() fyne.WidgetRenderer {
	return newMarkRenderer(s, func() theme.Mark { return s.mark }, s.width, func() {})
}

// stripHigh is how high a strip is, in units.
const stripHigh = 18

// Strip is a chance as wide as the room there is, and no higher for it.
type Strip struct {
	widget.BaseWidget
	mark  theme.Mark
	label string
}

// NewStrip makes a strip that is empty.
func NewStrip() *Strip {
	s := &Strip{mark: theme.ChanceOf(0)}
	s.ExtendBaseWidget(s)
	return s
}

// Set shows so many in a hundred, called by a text.
func (s *Strip) Set(inHundred int, label string) {
	if m := theme.ChanceOf(inHundred); m != s.mark || label != s.label {
		s.mark, s.label = m, label
		s.Refresh()
	}
}

// AccessibilityLabel says what it shows.
func (s *Strip) AccessibilityLabel() string { return s.label }

// AccessibilityRole tells that it says something.
func (s *Strip) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// CreateRenderer draws the strip, for the pixels there are.
func (s *Strip) CreateRenderer() fyne.WidgetRenderer {
	r := canvas.NewRaster(nil)
	r.Generator = func(w, h int) image.Image {
		m, wide := s.mark, float64(s.BaseWidget.Size().Width)
		m.Long = float64(w) / float64(h)
		return theme.Of(s).Picture(m, wide, float64(w)/wide)
	}
	r.SetMinSize(fyne.NewSize(0, theme.Of(s).Unit(stripHigh)))
	return widget.NewSimpleRenderer(r)
}
