package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Group is a row of things to press that Tab takes as one: from any of them it goes on to what
// comes after them all, and the arrows to the left and right go from one to the next.
type Group struct{ members []fyne.Focusable }

// Grouped is what can be one of a group. It accepts Tab as one of a group, and asks the group
// first about every key.
type Grouped interface {
	fyne.Focusable
	fyne.Tabbable
	Join(g *Group)
}

// GroupOf makes one group of what is in a container, also where it stands in containers inside.
func GroupOf(c *fyne.Container) *Group {
	g := &Group{}
	g.take(c)
	return g
}

func (g *Group) take(c *fyne.Container) {
	for _, o := range c.Objects {
		switch o := o.(type) {
		case Grouped:
			g.Add(o)
		case *fyne.Container:
			g.take(o)
		}
	}
}

// Add takes one more into the group, after the others.
func (g *Group) Add(m Grouped) {
	g.members = append(g.members, m)
	m.Join(g)
}

// Key does what a key stands for in a group, typed at one of it; it tells whether it stands for
// anything. There is no group where it is nil.
func (g *Group) Key(k *fyne.KeyEvent, at fyne.Focusable, keys *Keys) bool {
	object, ok := at.(fyne.CanvasObject)
	if g == nil || !ok {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(object)
	if c == nil {
		return false
	}
	switch k.Name {
	case fyne.KeyTab:
		g.leave(c, keys.Shifted())
	case fyne.KeyLeft:
		g.step(c, at, -1)
	case fyne.KeyRight:
		g.step(c, at, 1)
	default:
		return false
	}
	return true
}

// leave goes on to what is next, or before, outside of the group.
func (g *Group) leave(c fyne.Canvas, back bool) {
	for range g.members {
		if back {
			c.FocusPrevious()
		} else {
			c.FocusNext()
		}
		if g.index(c.Focused()) < 0 {
			return
		}
	}
}

// step goes to the next of the group in a direction that can be pressed.
func (g *Group) step(c fyne.Canvas, at fyne.Focusable, by int) {
	for i := g.index(at) + by; i >= 0 && i < len(g.members); i += by {
		m := g.members[i]
		if d, can := m.(fyne.Disableable); can && d.Disabled() {
			continue
		}
		if m.(fyne.CanvasObject).Visible() {
			c.Focus(m)
			return
		}
	}
}

// index is where one stands in the group; −1 for one that does not.
func (g *Group) index(of fyne.Focusable) int {
	for i, m := range g.members {
		if m == of {
			return i
		}
	}
	return -1
}

// shifted tells whether Shift is down.
func (k *Keys) Shifted() bool {
	if k.Shift != nil {
		return k.Shift()
	}
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	return ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
}
