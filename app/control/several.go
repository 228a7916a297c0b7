package control

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// Several are things to press beside each other in the order of their worth, one of which may be held
// down. Those that find no room stand in a list at their end.
type Several struct {
	widget.BaseWidget
	keys    *Keys
	options []Option
	listed  int // how many of the last options stand in the list alone
	chosen  string
	presses []*Press
	more    *Pick
	// before and after stand in one group with what there is to press.
	before Grouped
	after  []Grouped
	// OnPressed is told which one is pressed, also one that is held down.
	OnPressed func(id string)
}

// NewSeveral makes one without anything to press; about is what its list is called.
func NewSeveral(keys *Keys, about string, f func(id string)) *Several {
	s := &Several{keys: keys, OnPressed: f}
	s.more = NewPick(keys, about, nil, "", func(id string) {
		s.more.Set(s.more.options, "")
		s.press(id)
	})
	s.ExtendBaseWidget(s)
	return s
}

// Between has Tab take what there is to press as one with what stands before and after it.
func (s *Several) Between(before Grouped, after ...Grouped) { s.before, s.after = before, after }

func (s *Several) press(id string) {
	if s.OnPressed != nil {
		s.OnPressed(id)
	}
}

// Set changes what there is to press and which is held down; so many of the last stand in the list alone.
func (s *Several) Set(options []Option, listed int, chosen string) {
	if len(options) > 0 && slices.Equal(options, s.options) && listed == s.listed && chosen == s.chosen {
		return
	}
	s.options, s.listed, s.chosen = options, listed, chosen
	g := &Group{}
	add := func(m Grouped) {
		if m != nil {
			g.Add(m)
		}
	}
	add(s.before)
	beside := options[:len(options)-listed]
	for i, o := range beside {
		if i == len(s.presses) {
			s.presses = append(s.presses, NewPress(s.keys, "", nil))
		}
		p := s.presses[i]
		p.Text, p.Chosen, p.OnPressed = o.Text, o.ID == chosen, func() { s.press(o.ID) }
		p.Hint = func() string { return o.Hint }
		add(p)
	}
	s.presses = s.presses[:len(beside)]
	add(s.more)
	for _, m := range s.after {
		add(m)
	}
	s.Refresh()
}

// Chosen is the one that is held down; empty for none.
func (s *Several) Chosen() string { return s.chosen }

// Shown are the options that can be pressed at once; the others are in the list.
func (s *Several) Shown() (ids []string) {
	for i, p := range s.presses {
		if p.Visible() {
			ids = append(ids, s.options[i].ID)
		}
	}
	return ids
}

// Inside are what can be pressed.
func (s *Several) Inside() (out []fyne.CanvasObject) {
	for _, p := range s.presses {
		out = append(out, p)
	}
	return append(out, s.more)
}

// CreateRenderer sets them out.
func (s *Several) CreateRenderer() fyne.WidgetRenderer { return &severalRenderer{s} }

type severalRenderer struct{ s *Several }

func (r *severalRenderer) Destroy() {}

func (r *severalRenderer) MinSize() fyne.Size {
	high := r.s.more.MinSize().Height
	for _, p := range r.s.presses {
		high = max(high, p.MinSize().Height)
	}
	return fyne.NewSize(r.moreWide(), high)
}

// moreWide is how wide the list is while it is closed.
func (r *severalRenderer) moreWide() float32 {
	t := theme.Of(r.s)
	return wide(r.s.more.About, t.Text(theme.TextBody), false) + 3*t.Unit(theme.Space2) + t.Unit(pickIcon) + t.Unit(2)
}

// Layout shows as many presses as there is room for, and the list where that is not all of them.
func (r *severalRenderer) Layout(size fyne.Size) {
	s, t := r.s, theme.Of(r.s)
	gap := t.Unit(theme.BetweenTwo)
	room := func(n int) float32 {
		sum := float32(0)
		for _, p := range s.presses[:n] {
			sum += p.MinSize().Width + gap
		}
		if n < len(s.options) {
			return sum + r.moreWide()
		}
		return max(0, sum-gap)
	}
	n := len(s.presses)
	for n > 0 && room(n) > size.Width {
		n--
	}
	x := float32(0)
	for i, p := range s.presses {
		p.Hidden = i >= n
		if p.Hidden {
			continue
		}
		own := p.MinSize()
		p.Move(fyne.NewPos(x, (size.Height-own.Height)/2))
		p.Resize(own)
		x += own.Width + gap
	}
	s.more.Hidden = n == len(s.options)
	if s.more.Hidden {
		return
	}
	s.more.options = s.options[n:]
	high := t.High(theme.PressHeight)
	s.more.Move(fyne.NewPos(x, (size.Height-high)/2))
	s.more.Resize(fyne.NewSize(min(r.moreWide(), size.Width), high))
}

func (r *severalRenderer) Objects() []fyne.CanvasObject { return r.s.Inside() }

func (r *severalRenderer) Refresh() {
	for _, p := range r.s.presses {
		p.Refresh() // it says how wide it is by what it is called now
	}
	r.s.more.Refresh()
	r.Layout(r.s.BaseWidget.Size())
	canvas.Refresh(r.s)
}
