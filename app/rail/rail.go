// Package rail is the room of the window along its foot: the stations of the work in their
// order, how each stands, and its facts in a line.
package rail

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/unit"
)

// Rail shows the stations. A station that is pressed is asked to be opened.
type Rail struct {
	widget.BaseWidget
	stations []*stop
	open     int // which is open; -1 for none
}

// New makes the rail for so many stations; open is called with the index of one that is
// pressed.
func New(n int, open func(station int)) *Rail {
	r := &Rail{open: -1}
	for i := range n {
		s := &stop{number: i, of: r, pressed: open}
		s.ExtendBaseWidget(s)
		r.stations = append(r.stations, s)
	}
	r.ExtendBaseWidget(r)
	return r
}

// Tell shows how the stations stand.
func (r *Rail) Tell(stations []geometry.StationFacts, u unit.System) {
	for i, s := range r.stations {
		if i >= len(stations) {
			break
		}
		s.standing = stations[i].Standing
		s.name, s.facts = theme.Word(stations[i].Station.ID()), theme.Bare(stations[i].Facts, u)
		s.Refresh()
	}
}

// Open marks the station that is open; -1 for none.
func (r *Rail) Open(station int) {
	r.open = station
	for _, s := range r.stations {
		s.Refresh()
	}
}

// CreateRenderer sets the stations beside each other.
func (r *Rail) CreateRenderer() fyne.WidgetRenderer {
	return &railRenderer{r, canvas.NewRectangle(nil), canvas.NewRectangle(nil)}
}

type railRenderer struct {
	of         *Rail
	back, edge *canvas.Rectangle
}

func (r *railRenderer) Destroy() {}

func (r *railRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.back, r.edge}
	for _, s := range r.of.stations {
		out = append(out, s)
	}
	return out
}

func (r *railRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 50) }

func (r *railRenderer) Layout(s fyne.Size) {
	r.back.Resize(s)
	r.edge.Resize(fyne.NewSize(s.Width, 1))
	w := s.Width / float32(len(r.of.stations))
	for i, o := range r.of.stations {
		o.Move(fyne.NewPos(float32(i)*w, 0))
		o.Resize(fyne.NewSize(w, s.Height))
	}
	r.Refresh()
}

func (r *railRenderer) Refresh() {
	r.back.FillColor = fynetheme.Color(fynetheme.ColorNameInputBackground)
	r.edge.FillColor = fynetheme.Color(fynetheme.ColorNameSeparator)
	r.back.Refresh()
	r.edge.Refresh()
}

// stop is one station on the rail.
type stop struct {
	widget.BaseWidget
	number      int
	of          *Rail
	pressed     func(int)
	name, facts string
	standing    geometry.Standing
	focused     bool
	over        bool
}

// Tapped opens the station.
func (s *stop) Tapped(*fyne.PointEvent) { s.pressed(s.number) }

// FocusGained shows that keys go to it.
func (s *stop) FocusGained() { s.focused = true; s.Refresh() }

// FocusLost shows that they do not.
func (s *stop) FocusLost() { s.focused = false; s.Refresh() }

// TypedRune is not for it.
func (s *stop) TypedRune(rune) {}

// TypedKey opens it on Enter and Space, and goes along the rail on the arrows.
func (s *stop) TypedKey(e *fyne.KeyEvent) {
	to := s.number
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		s.pressed(s.number)
		return
	case fyne.KeyLeft:
		to--
	case fyne.KeyRight:
		to++
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil && to != s.number && to >= 0 && to < len(s.of.stations) {
		c.Focus(s.of.stations[to])
	}
}

// MouseIn shows that it can be pressed.
func (s *stop) MouseIn(*desktop.MouseEvent) { s.over = true; s.Refresh() }

// MouseMoved has nothing to do.
func (s *stop) MouseMoved(*desktop.MouseEvent) {}

// MouseOut shows it as it was.
func (s *stop) MouseOut() { s.over = false; s.Refresh() }

// CreateRenderer draws the station.
func (s *stop) CreateRenderer() fyne.WidgetRenderer {
	r := &stopRenderer{of: s, back: canvas.NewRectangle(nil), mark: canvas.NewRectangle(nil), end: canvas.NewRectangle(nil),
		name: canvas.NewText("", nil), facts: canvas.NewText("", nil)}
	r.name.TextStyle.Bold, r.name.TextSize, r.facts.TextSize = true, 14, 12
	r.Refresh()
	return r
}

type stopRenderer struct {
	of              *stop
	back, mark, end *canvas.Rectangle
	name, facts     *canvas.Text
}

func (r *stopRenderer) Destroy() {}

func (r *stopRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.mark, r.end, r.name, r.facts}
}

func (r *stopRenderer) MinSize() fyne.Size { return fyne.NewSize(60, 50) }

// Places within a station.
const (
	markThick   = 4
	stopLeft    = 12
	stopNameTop = 10
	factsFrom   = 60 // the least height of a rail that shows the facts of every station
)

func (r *stopRenderer) Layout(s fyne.Size) {
	r.back.Resize(s)
	r.mark.Resize(fyne.NewSize(s.Width, markThick))
	r.end.Move(fyne.NewPos(s.Width-1, 0))
	r.end.Resize(fyne.NewSize(1, s.Height))
	r.name.Move(fyne.NewPos(stopLeft, stopNameTop))
	r.facts.Move(fyne.NewPos(stopLeft, stopNameTop+22))
	r.fit()
}

// fit shortens texts to the station's width.
func (r *stopRenderer) fit() {
	s, width := r.of, r.of.Size().Width-2*stopLeft
	r.name.Text = shortened(s.name, r.name, width)
	r.facts.Text = ""
	if r.of.Size().Height >= factsFrom || s.of.open == s.number {
		r.facts.Text = shortened(s.facts, r.facts, width)
	}
	r.name.Refresh()
	r.facts.Refresh()
}

func (r *stopRenderer) Refresh() {
	s := r.of
	var ground, mark color.Color = color.Transparent, color.Transparent
	if s.of.open == s.number {
		ground, mark = fynetheme.Color(fynetheme.ColorNameSelection), fynetheme.Color(fynetheme.ColorNamePrimary)
	} else if s.over {
		ground = fynetheme.Color(fynetheme.ColorNameHover)
	}
	r.back.FillColor, r.mark.FillColor, r.end.FillColor = ground, mark, fynetheme.Color(fynetheme.ColorNameSeparator)
	r.back.StrokeWidth = 0
	if s.focused {
		r.back.StrokeWidth, r.back.StrokeColor = 2, fynetheme.Color(fynetheme.ColorNamePrimary)
	}
	r.name.Color, r.facts.Color = fynetheme.Color(fynetheme.ColorNameForeground), fynetheme.Color(fynetheme.ColorNamePlaceHolder)
	r.fit()
	for _, o := range []*canvas.Rectangle{r.back, r.mark, r.end} {
		o.Refresh()
	}
}

// shortened is as much of a text as goes into a width.
func shortened(s string, like *canvas.Text, width float32) string {
	fits := func(s string) bool { return fyne.MeasureText(s, like.TextSize, like.TextStyle).Width <= width }
	if fits(s) {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && !fits(string(r)+"…") {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}
