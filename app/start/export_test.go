package start

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/geometry/plan"
	"underfall/geometry/question"
)

// onBoard is where a place of the plan is in the window, for tests to press.
func (s *Sheet) onBoard(at fyne.Position) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(s.board).Add(at)
}

// CornerAt is where the ring of a corner is.
func (s *Sheet) CornerAt(wall int) fyne.Position {
	return s.onBoard(s.board.scale().to(s.board.faces()[wall].b))
}

// WallAt is where a wall's letter is.
func (s *Sheet) WallAt(wall int) fyne.Position {
	return s.onBoard((&overlay{p: s.board, s: s.board.scale()}).lettersAt()[wall])
}

// PlaceAt is where a place of the room is.
func (s *Sheet) PlaceAt(alongMM, awayMM float64) fyne.Position {
	return s.onBoard(s.board.scale().to(plan.Point{alongMM, awayMM}))
}

// DoorAt is where the door is held.
func (s *Sheet) DoorAt() fyne.Position {
	for _, g := range s.board.grips() {
		if g.kind == gripDoor {
			return s.onBoard(s.board.scale().to(g.at))
		}
	}
	return fyne.Position{}
}

// FocusField has the keys go to the field of a length.
func (s *Sheet) FocusField(e question.Entry) {
	for _, f := range s.fields {
		if f.e == e {
			f.field.Focus()
		}
	}
}

// Refused is what a field says of what it did not take.
func (s *Sheet) Refused(e question.Entry) string {
	for _, f := range s.fields {
		if f.e == e {
			return f.field.Refused()
		}
	}
	return ""
}

// Cases are those of the first answer that is shown.
func (s *Sheet) Cases() []Case { return s.first.Cases }

// PressWork puts the job on the desk.
func (s *Sheet) PressWork() { s.work() }

// GoThrough shows what is assumed.
func (s *Sheet) GoThrough() { s.goThrough() }

// ChooseRegion chooses a country.
func (s *Sheet) ChooseRegion(region string) { s.chooseRegion(region) }

// Shown are the paths of the rows that are shown.
func (f *Front) Shown() []string {
	var out []string
	for _, r := range f.list.shown {
		out = append(out, r.job.Path)
	}
	return out
}

// FocusRow has the keys go to a row.
func (f *Front) FocusRow(i int) { f.list.focusOn(i) }

// Menu is what the menu of a row says.
func (f *Front) Menu(i int) (items []string) {
	for _, m := range f.list.shown[i].menu().Items {
		if !m.IsSeparator {
			items = append(items, m.Label)
		}
	}
	return items
}

// PressRight presses the right button on a row.
func (f *Front) PressRight(i int) {
	f.list.shown[i].TappedSecondary(&fyne.PointEvent{AbsolutePosition: fyne.NewPos(200, 300)})
}

// OutOfRow are the texts that reach out of a row.
func (f *Front) OutOfRow(i int) (out []string) {
	r := f.list.shown[i]
	top := fyne.CurrentApp().Driver().AbsolutePositionForObject(r).Y
	for _, part := range r.inside.(*fyne.Container).Objects {
		c, ok := part.(*fyne.Container)
		if !ok {
			continue
		}
		for _, o := range c.Objects {
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y - top
			if t, ok := o.(*control.Text); ok && (at < 0 || at+t.MinSize().Height > r.Size().Height) {
				out = append(out, t.Text)
			}
		}
	}
	return out
}

// Assumed are the inputs that are counted as assumed.
func (s *Sheet) Assumed() []string { return s.first.Assumed }

// PressSo says in the list of what is open that an input is so.
func (s *Sheet) PressSo(key string) { s.list.rows[key].so.Tapped(nil) }

// Questions are the six, as they stand under each other.
func (s *Sheet) Questions() []fyne.CanvasObject { return s.each }

// Column is how wide the questions are at least, and how much room there is for them.
func (s *Sheet) Column() (leastWide, wide float32) {
	return s.scroll.Content.MinSize().Width, s.scroll.Size().Width
}

// QuestionsAt is where the questions begin that are in sight, QuestionsHigh how high they are.
func (s *Sheet) QuestionsAt() fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(s.scroll)
}

// QuestionsHigh is how high the part of the questions is that is in sight.
func (s *Sheet) QuestionsHigh() float32 { return s.scroll.Size().Height }

// Pictured tells whether a small picture stands beside a look that tells of an input.
func Pictured(key string) bool {
	_, ok := lookSketch(key)
	return ok
}

// LettersOffArrow tells whether no wall's letter lies on the arrow out of the room, with the water running by some corners.
func (s *Sheet) LettersOffArrow(run ...plan.Point) bool {
	s.board.run = run
	o := &overlay{p: s.board, s: s.board.scale()}
	o.water()
	for i := range s.board.faces() {
		if boxAt(o.lettersAt()[i], fyne.NewSize(22, 22)).Overlaps(o.taken[0]) {
			return false
		}
	}
	return true
}

// WayOutSaid tells whether an arrow out through a wall is told beside it, off the arrow.
func (s *Sheet) WayOutSaid() (off bool) {
	o := &overlay{p: s.board, s: s.board.scale()}
	o.water()
	return len(o.taken) == 2 && !o.taken[0].Overlaps(o.taken[1])
}

// ScrolledBy is how far the questions are scrolled down.
func (s *Sheet) ScrolledBy() float32 { return s.scroll.Offset.Y }

// HasKeys is the length whose field has the keys; empty where none has.
func (s *Sheet) HasKeys(c fyne.Canvas) question.Entry {
	for _, f := range s.fields {
		for _, o := range f.field.Inside() {
			if has, ok := o.(fyne.Focusable); ok && has == c.Focused() {
				return f.e
			}
		}
	}
	return ""
}

// Box is a place in the window.
type Box struct{ X, Width float32 }

func boxOf(o fyne.CanvasObject) Box {
	return Box{X: fyne.CurrentApp().Driver().AbsolutePositionForObject(o).X, Width: o.Size().Width}
}

// ExamplePlaces is where the examples stand.
func (f *Front) ExamplePlaces() (all []Box) {
	for _, o := range f.worked.Objects {
		all = append(all, boxOf(o))
	}
	return all
}

// CasePlaces is where the cards of a first answer stand, and how far the plan over them reaches.
func (s *Sheet) CasePlaces() (all []Box, plan Box) {
	var in func(o fyne.CanvasObject)
	in = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *container.Scroll:
			for _, c := range o.Content.(*fyne.Container).Objects {
				all = append(all, boxOf(c))
			}
		case *fyne.Container:
			for _, c := range o.Objects {
				in(c)
			}
		}
	}
	in(s.answers)
	return all, boxOf(s.answers)
}

// LettersOver are walls whose letters lie over each other.
func (s *Sheet) LettersOver() (over []string) {
	all := (&overlay{p: s.board, s: s.board.scale()}).lettersAt()
	for i, a := range all {
		for k, b := range all[:i] {
			if math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) < 2*letterRadius {
				over = append(over, question.Letter(k)+question.Letter(i))
			}
		}
	}
	return over
}
