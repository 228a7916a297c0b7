package control

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/theme"
)

// Steps is a rod with a tick for each of a few steps that come one after the other, and a knob at the one
// that has been come to, which stands named behind it.
type Steps struct {
	focus
	About string // what is stepped through, before the rod
	names []string
	at    int
	// OnMoved is told of another step, by whoever moves it.
	OnMoved func(at int)
}

// NewSteps makes one that stands at the last of some named steps.
func NewSteps(keys *Keys, about string, names []string, moved func(at int)) *Steps {
	s := &Steps{About: about, names: names, at: len(names) - 1, OnMoved: moved}
	s.begin(s, keys)
	return s
}

// At is the step it stands at, and Name what that is called.
func (s *Steps) At() int { return s.at }

// Name is what the step it stands at is called.
func (s *Steps) Name() string { return s.names[s.at] }

// Set brings it to a step without telling of it.
func (s *Steps) Set(at int) {
	if at != s.at {
		s.at = at
		s.Refresh()
	}
}

// GoTo goes to a step, or as far as there are steps, and tells of it.
func (s *Steps) GoTo(to int) {
	if to = max(0, min(len(s.names)-1, to)); to != s.at {
		s.Set(to)
		s.OnMoved(to)
	}
}

// AccessibilityLabel says what is come to.
func (s *Steps) AccessibilityLabel() string { return s.About + ": " + s.Name() }

// AccessibilityRole is the nearest there is.
func (s *Steps) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleContainer }

// TypedKey goes from step to step; other keys are handed on.
func (s *Steps) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyLeft, fyne.KeyDown:
		s.GoTo(s.at - 1)
	case fyne.KeyRight, fyne.KeyUp:
		s.GoTo(s.at + 1)
	default:
		s.pass(k)
	}
}

// MouseDown comes to the step under the pointer.
func (s *Steps) MouseDown(e *desktop.MouseEvent) { s.moveTo(e.Position.X) }

// MouseUp does nothing.
func (s *Steps) MouseUp(*desktop.MouseEvent) {}

// Dragged comes to the step that is nearest to the pointer.
func (s *Steps) Dragged(e *fyne.DragEvent) { s.moveTo(e.Position.X) }

// DragEnd does nothing.
func (s *Steps) DragEnd() {}

// moveTo comes to the step nearest to a place on it.
func (s *Steps) moveTo(x float32) {
	from, long := s.rod(s.Size().Width)
	if long > 0 {
		s.GoTo(int(math.Round(float64((x - from) / long * float32(len(s.names)-1)))))
	}
}

// stepWidth is the least there is between two ticks, knobRadius how large the knob is, in units.
const (
	stepWidth  = 14
	knobRadius = 8
)

// about and named are how wide the text before the rod and the longest name behind it are.
func (s *Steps) about() float32 {
	return wide(s.About, s.theme().Text(theme.TextSecond), true) + s.theme().Unit(theme.Space3)
}

// least is the least width of all but the text before the rod, which is left out where there is not room for both.
func (s *Steps) least() float32 {
	t := s.theme()
	return 2*t.Unit(theme.Space2) + 2*t.Unit(knobRadius) + t.Unit(theme.Space3) + t.Unit(stepWidth)*float32(len(s.names)-1) + s.named()
}

func (s *Steps) named() (width float32) {
	for _, n := range s.names {
		width = max(width, wide(n, s.theme().Text(theme.TextSecond), false))
	}
	return width
}

// rod is where the rod begins, in the width there is, and how long it is.
func (s *Steps) rod(width float32) (from, long float32) {
	t := s.theme()
	from = t.Unit(theme.Space2) + t.Unit(knobRadius)
	if width >= s.least()+s.about() {
		from += s.about()
	}
	return from, width - from - t.Unit(knobRadius) - t.Unit(theme.Space3) - s.named() - t.Unit(theme.Space2)
}

// CreateRenderer draws it.
func (s *Steps) CreateRenderer() fyne.WidgetRenderer {
	r := &stepsRenderer{s: s, rod: canvas.NewLine(nil), knob: canvas.NewCircle(nil), ring: canvas.NewRectangle(nil), about: NewText(s.About), name: NewText("")}
	for range s.names {
		r.ticks = append(r.ticks, canvas.NewLine(nil))
	}
	r.Refresh()
	return r
}

type stepsRenderer struct {
	s           *Steps
	rod         *canvas.Line
	ticks       []*canvas.Line
	knob        *canvas.Circle
	ring        *canvas.Rectangle
	about, name *Text
}

func (r *stepsRenderer) Destroy() {}

func (r *stepsRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.ring, r.about, r.rod}
	for _, t := range r.ticks {
		out = append(out, t)
	}
	return append(out, r.knob, r.name)
}

func (r *stepsRenderer) MinSize() fyne.Size {
	t := r.s.theme()
	return fyne.NewSize(r.s.least(), t.High(theme.SmallHeight))
}

func (r *stepsRenderer) Layout(size fyne.Size) {
	t := r.s.theme()
	from, long := r.s.rod(size.Width)
	y := size.Height / 2
	text := func(o *Text, x, width float32) {
		high := o.MinSize().Height
		o.Move(fyne.NewPos(x, y-high/2))
		o.Resize(fyne.NewSize(width, high))
	}
	text(r.about, t.Unit(theme.Space2), r.s.about())
	r.about.Hidden = size.Width < r.s.least()+r.s.about()
	named := r.s.named()
	text(r.name, size.Width-t.Unit(theme.Space2)-named, named)
	r.rod.Position1, r.rod.Position2 = fyne.NewPos(from, y), fyne.NewPos(from+long, y)
	at := func(i int) float32 { return from + long*float32(i)/float32(max(1, len(r.ticks)-1)) }
	const tick = 5
	for i, l := range r.ticks {
		l.Position1, l.Position2 = fyne.NewPos(at(i), y-t.Unit(tick)), fyne.NewPos(at(i), y+t.Unit(tick))
	}
	radius := t.Unit(knobRadius)
	r.knob.Move(fyne.NewPos(at(r.s.at)-radius, y-radius))
	r.knob.Resize(fyne.NewSize(2*radius, 2*radius))
	r.ring.Move(fyne.NewPos(1, 1))
	r.ring.Resize(size.SubtractWidthHeight(2, 2))
}

func (r *stepsRenderer) Refresh() {
	t := r.s.theme()
	press, later := t.Role(theme.Press), t.Role(theme.Edge)
	r.about.Styled(theme.TextSecond, true, theme.Ink).SetText(r.s.About)
	r.name.Styled(theme.TextSecond, false, theme.Ink).SetText(r.s.Name())
	r.rod.StrokeColor, r.rod.StrokeWidth = press, theme.FocusWidth
	for i, l := range r.ticks {
		l.StrokeColor, l.StrokeWidth = press, theme.FocusWidth
		if i > r.s.at {
			l.StrokeColor = later
		}
	}
	r.knob.FillColor = press
	if r.s.hovered {
		r.knob.FillColor = over(press, t.Role(theme.OnPress), 3*hoverStrength)
	}
	r.ring.FillColor, r.ring.StrokeColor, r.ring.StrokeWidth, r.ring.CornerRadius = color.Transparent, color.Transparent, theme.FocusWidth, t.Unit(theme.Radius)
	if r.s.focused {
		r.ring.StrokeColor = press
	}
	r.Layout(r.s.BaseWidget.Size())
	canvas.Refresh(r.s)
}
