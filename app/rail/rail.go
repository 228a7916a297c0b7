// Package rail is the room of the window along its foot: the stations of the work in their
// order, how each stands, and its facts in a line.
package rail

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Rail shows the stations. A station that is pressed is asked to be opened.
type Rail struct {
	widget.BaseWidget
	stations []*stop
	open     int // which is open; -1 for none
}

// New makes the rail for so many stations, which Tab takes as one; open is called with the index of one that is
// pressed.
func New(keys *control.Keys, n int, open func(station int)) *Rail {
	r := &Rail{open: -1}
	all := &control.Group{}
	for i := range n {
		s := &stop{number: i, of: r, keys: keys, pressed: open}
		s.ExtendBaseWidget(s)
		all.Add(s)
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
		standing, name, facts := stations[i].Standing, theme.Word(stations[i].Station.ID()), theme.Bare(stations[i].Facts, u)
		if s.standing != standing || s.name != name || s.facts != facts {
			s.station, s.standing, s.name, s.facts = stations[i].Station, standing, name, facts
			s.Refresh()
		}
	}
}

// Try shows what is tried, and how that stands, at the stations that it is another at; none while nothing is tried.
func (r *Rail) Try(tried []geometry.StationFacts, u unit.System) {
	for _, s := range r.stations {
		was := s.trying
		s.trying = trying{}
		if i := slices.IndexFunc(tried, func(f geometry.StationFacts) bool { return f.Station == s.station }); i >= 0 {
			s.trying = trying{true, tried[i].Standing, theme.Bare(message.Of("rail.trying", message.In("facts", tried[i].Facts)), u)}
		}
		if s.trying != was {
			s.Refresh()
		}
	}
}

// Trying tells whether a station shows what is tried.
func (r *Rail) Trying(station int) bool { return r.stations[station].trying.on }

// Open marks the station that is open; -1 for none.
func (r *Rail) Open(station int) {
	r.open = station
	for _, s := range r.stations {
		s.Refresh()
	}
}

// Inside are the stations.
func (r *Rail) Inside() (out []fyne.CanvasObject) {
	for _, s := range r.stations {
		out = append(out, s)
	}
	return out
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
	for _, s := range r.of.stations {
		s.Refresh()
	}
	r.back.FillColor, r.edge.FillColor = theme.Of(r.of).Role(theme.Sheet), theme.Of(r.of).Role(theme.Line)
	r.back.Refresh()
	r.edge.Refresh()
}

// stop is one station on the rail.
type stop struct {
	widget.BaseWidget
	number      int
	of          *Rail
	keys        *control.Keys
	group       *control.Group
	pressed     func(int)
	station     job.Station
	name, facts string
	standing    geometry.Standing
	trying      trying // shown in the place of its own
	focused     bool
	over        bool
}

// trying is how what is tried at a station stands, and its facts, while it is on.
type trying struct {
	on       bool
	standing geometry.Standing
	facts    string
}

// says is what the station shows: what is tried there before its own. While a press would put that back, it
// says so.
func (s *stop) says() (standing geometry.Standing, facts string) {
	switch {
	case !s.trying.on:
		return s.standing, s.facts
	case s.over || s.focused:
		return s.trying.standing, theme.Word("trial.put-back")
	}
	return s.trying.standing, s.trying.facts
}

// Tapped opens the station.
func (s *stop) Tapped(*fyne.PointEvent) { s.pressed(s.number) }

// FocusGained shows that keys go to it.
func (s *stop) FocusGained() { s.focused = true; s.Refresh() }

// FocusLost shows that they do not.
func (s *stop) FocusLost() { s.focused = false; s.Refresh() }

// TypedRune is not for it.
func (s *stop) TypedRune(rune) {}

// TypedKey opens it on Enter and Space; other keys are the rail's or the window's.
func (s *stop) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		s.pressed(s.number)
	default:
		if !s.group.Key(e, s, s.keys) && s.keys.Plain != nil {
			s.keys.Plain(e)
		}
	}
}

// TypedShortcut hands the window's shortcuts on.
func (s *stop) TypedShortcut(k fyne.Shortcut) { s.keys.Typed(k) }

// Join takes it into the group of all stations.
func (s *stop) Join(g *control.Group) { s.group = g }

// AcceptsTab has Tab go past the other stations.
func (s *stop) AcceptsTab() bool { return true }

// MouseIn shows that it can be pressed.
func (s *stop) MouseIn(*desktop.MouseEvent) { s.over = true; s.Refresh() }

// MouseMoved has nothing to do.
func (s *stop) MouseMoved(*desktop.MouseEvent) {}

// MouseOut shows it as it was.
func (s *stop) MouseOut() { s.over = false; s.Refresh() }

// CreateRenderer draws the station.
func (s *stop) CreateRenderer() fyne.WidgetRenderer {
	r := &stopRenderer{of: s, back: canvas.NewRectangle(nil), mark: canvas.NewRectangle(nil), end: canvas.NewRectangle(nil),
		vial: control.NewVial(control.VialStation), name: control.NewText("").Styled(theme.TextBody, true, theme.Ink),
		facts: control.NewWrapped("").Styled(theme.TextCaption, false, theme.Caption)}
	r.Refresh()
	return r
}

type stopRenderer struct {
	of              *stop
	back, mark, end *canvas.Rectangle
	vial            *control.Vial
	name, facts     *control.Text
}

func (r *stopRenderer) Destroy() {}

func (r *stopRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.mark, r.end, r.vial, r.name, r.facts}
}

func (r *stopRenderer) MinSize() fyne.Size { return fyne.NewSize(60, 50) }

// Places within a station.
const (
	markThick = 4
	stopLeft  = 10
	nameTop   = 8
	factsTop  = 28
	besides   = 6  // between vial and name
	factsFrom = 60 // the least height of a rail that shows the facts of every station
)

func (r *stopRenderer) Layout(s fyne.Size) {
	r.back.Resize(s)
	r.mark.Resize(fyne.NewSize(s.Width, markThick))
	r.end.Move(fyne.NewPos(s.Width-1, 0))
	r.end.Resize(fyne.NewSize(1, s.Height))
	v := r.vial.MinSize()
	r.name.Styled(theme.TextBody, true, theme.Ink)
	if r.name.MinSize().Width > s.Width-stopLeft-v.Width-besides {
		r.name.Styled(theme.TextCaption, true, theme.Ink)
	}
	n := r.name.MinSize()
	r.vial.Resize(v)
	r.vial.Move(fyne.NewPos(stopLeft, nameTop+(n.Height-v.Height)/2))
	r.name.Resize(n)
	r.name.Move(fyne.NewPos(stopLeft+v.Width+besides, nameTop))
	r.facts.Resize(fyne.NewSize(s.Width-2*stopLeft, s.Height-factsTop))
	if r.of.trying.on && r.facts.MinSize().Height > s.Height-factsTop { // the word before the facts is one line too many
		r.facts.SetText(theme.Word("trial.trying"))
	}
	r.facts.Move(fyne.NewPos(stopLeft, factsTop))
	if s.Height >= factsFrom || r.of.of.open == r.of.number || r.of.trying.on {
		r.facts.Show()
	} else {
		r.facts.Hide()
	}
}

func (r *stopRenderer) Refresh() {
	s, t := r.of, theme.Of(r.of)
	var ground, mark color.Color = color.Transparent, color.Transparent
	if s.of.open == s.number || s.trying.on {
		ground, mark = t.Role(theme.PressGround), t.Role(theme.Press)
	} else if s.over {
		ground = t.Role(theme.Sunk)
	}
	r.back.FillColor, r.mark.FillColor, r.end.FillColor = ground, mark, t.Role(theme.Line)
	r.back.StrokeWidth = 0
	if s.focused {
		r.back.StrokeWidth, r.back.StrokeColor = theme.FocusWidth, t.Role(theme.Press)
	}
	standing, facts := s.says()
	word := ""
	if standing != "" {
		word = theme.Word(standing.Name())
	}
	r.vial.Set(standing, word)
	if r.name.Text != s.name {
		r.name.SetText(s.name)
	}
	if r.facts.Text != facts {
		r.facts.SetText(facts)
	}
	for _, o := range []*canvas.Rectangle{r.back, r.mark, r.end} {
		o.Refresh()
	}
	r.vial.Refresh()
	r.name.Refresh()
	r.facts.Refresh()
	r.Layout(s.Size())
}

// AccessibilityLabel says the station and its facts, or what is tried there and that a press puts it back.
func (s *stop) AccessibilityLabel() string {
	if s.trying.on {
		return s.name + ": " + s.trying.facts + ". " + theme.Word("trial.put-back")
	}
	return s.name + ": " + s.facts
}

// AccessibilityRole tells that it can be pressed.
func (s *stop) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }
