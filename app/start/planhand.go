package start

import (
	"math"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// grip is what is held of the plan.
type grip struct {
	kind gripKind
	at   plan.Point
	// corner is the one at the end of a wall.
	corner int
}

// gripKind is what a grip moves.
type gripKind uint8

// The grips.
const (
	gripNone  gripKind = iota
	gripBody           // the shower as it is
	gripFront          // how deep it is
	gripStart          // its side nearer to where its wall begins
	gripEnd            // its side nearer to where its wall ends
	gripDoor
	gripCorner // of a drawn room
)

// Distances at which something is hit, in Fyne's units: a fingertip has 44 to press.
const (
	hitGrip = 22
	hitWall = 14
)

// grips are the small squares to be dragged: the open sides of the shower, the door.
func (p *planBoard) grips() []grip {
	var out []grip
	if p.closes() {
		out = p.showerGrips()
	}
	from, to := p.door()
	f := p.faces()[0]
	out = append(out, grip{kind: gripDoor, at: f.at((from+to)/2, f.thickMM/2)})
	if p.drawn() {
		for i, f := range p.faces() {
			out = append(out, grip{gripCorner, f.b, i})
		}
	}
	return out
}

// showerGrips are those of the shower's open sides.
func (p *planBoard) showerGrips() []grip {
	st, c := p.shower()
	middle := func(a, b plan.Point) plan.Point { return a.Add(b).Mul(0.5) }
	out := []grip{{kind: gripFront, at: middle(c[2], c[3])}}
	long := p.faces()[st.Wall].longMM
	if st.OffsetMM > 1 {
		out = append(out, grip{kind: gripStart, at: middle(c[0], c[3])})
	}
	if st.OffsetMM+st.LongMM < long-1 {
		out = append(out, grip{kind: gripEnd, at: middle(c[1], c[2])})
	}
	return out
}

// Tapped answers by what is there: a corner, a wall, else a place in the room.
func (p *planBoard) Tapped(e *fyne.PointEvent) {
	control.FocusOn(p)
	s := p.scale()
	for i, f := range p.faces() {
		if at := s.to(f.b); near(at, e.Position, hitGrip) && p.practice.TakesShower(p.sheet, i) {
			p.corner(i)
			return
		}
	}
	q := s.from(e.Position)
	for i, f := range p.faces() {
		off := q.Sub(f.a)
		along, out := off.Dot(f.along), off.Dot(f.out)
		if along > 0 && along < f.longMM && out > -hitWall/2/s.perMM && out < max(f.thickMM, hitWall/s.perMM)+hitWall/s.perMM {
			p.wall(i)
			return
		}
	}
	if plan.FromRing(p.practice.Outline(p.sheet)).Contains(q, 0) {
		p.place(q)
	}
}

func near(a, b fyne.Position, within float32) bool {
	return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) <= float64(within)
}

// Dragged moves what is held.
func (p *planBoard) Dragged(e *fyne.DragEvent) {
	s := p.scale()
	if p.held.kind == gripNone {
		start := e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY)
		p.held, p.from, p.fixed, p.grabbed = p.hit(start), p.sheet, s, s.from(start)
		if p.held.kind == gripNone {
			return
		}
	}
	p.drag(p.dragged(p.fixed.from(e.Position)))
}

// DragEnd lets go.
func (p *planBoard) DragEnd() {
	if p.held.kind != gripNone {
		p.held = grip{}
		p.dropped()
		p.Refresh()
	}
}

// hit is what lies at a place to be dragged.
func (p *planBoard) hit(at fyne.Position) grip {
	s := p.scale()
	for _, g := range p.grips() {
		if near(s.to(g.at), at, hitGrip) {
			return g
		}
	}
	_, c := p.shower()
	if q := s.from(at); p.closes() && plan.FromRing(c[:]).Contains(q, 0) {
		return grip{kind: gripBody, at: q}
	}
	return grip{}
}

// step is what drags are rounded to: ten millimetres, or half an inch.
func (p *planBoard) rounded(mm float64) float64 {
	to := 10.0
	if p.sheet.Units == unit.Imperial {
		to = 12.7
	}
	return math.Round(mm/to) * to
}

// dragged is the sheet with what is held brought to a place.
func (p *planBoard) dragged(to plan.Point) question.Sheet {
	s := p.from
	st := p.practice.Stand(s)
	faces := p.faces()
	f := faces[st.Wall]
	off := to.Sub(f.a)
	least, _ := question.ShowerLong.Bounds()
	switch p.held.kind {
	case gripFront:
		return s.With(question.ShowerDeep, question.Given(min(max(p.rounded(-off.Dot(f.out)), least), st.MostDeepMM)))
	case gripEnd:
		return p.lengthened(s, st, off.Dot(f.along)-st.OffsetMM, st.FreeFromMM+st.MostLongMM-st.OffsetMM, false)
	case gripStart:
		end := st.OffsetMM + st.LongMM
		return p.lengthened(s, st, end-off.Dot(f.along), end-st.FreeFromMM, true)
	case gripDoor:
		a := faces[0]
		wide, _ := p.practice.Door(s)
		from := to.Sub(a.a).Dot(a.along) - wide/2
		return s.With(question.DoorFrom, question.Given(min(max(p.rounded(from), 0), a.longMM-wide)))
	case gripBody:
		return p.carried(s, st, to)
	case gripCorner:
		return s.MoveCorner(p.held.corner, p.squared(p.held.corner, to))
	}
	return s
}

// lengthened is the sheet with another length of the shower; where its start is dragged, its end stays.
func (p *planBoard) lengthened(s question.Sheet, st question.Stand, mm, most float64, start bool) question.Sheet {
	least, _ := question.ShowerLong.Bounds()
	mm = min(max(p.rounded(mm), least), most)
	s = s.With(question.ShowerLong, question.Given(mm))
	if start && st.Corner < 0 {
		s = s.With(question.ShowerFrom, question.Given(st.OffsetMM+st.LongMM-mm))
	}
	return s
}

// squared is a place for the corner at the end of a wall: straight across from, or up from, a corner
// beside it where it comes near that.
func (p *planBoard) squared(wall int, to plan.Point) plan.Point {
	ring := p.practice.Outline(p.from)
	n := len(ring)
	near := snapUnits / 2 / p.scale().perMM
	at := plan.Point{p.rounded(to.X()), p.rounded(to.Y())}
	for _, beside := range []plan.Point{ring[wall], ring[(wall+2)%n]} {
		for k := range at {
			if math.Abs(to[k]-beside[k]) < near {
				at[k] = beside[k]
			}
		}
	}
	return at
}

// snapUnits is how near to a corner a shower that is carried along its wall goes into it.
const snapUnits = 24

// carried is the sheet with the shower carried to a place: along the nearest wall, into its corner
// where it comes near.
func (p *planBoard) carried(s question.Sheet, st question.Stand, to plan.Point) question.Sheet {
	faces := p.faces()
	n := len(faces)
	best, nearest := st.Wall, math.Inf(1)
	for i, f := range faces {
		off := to.Sub(f.a)
		if in := -off.Dot(f.out); in >= 0 && in < nearest && off.Dot(f.along) > 0 && off.Dot(f.along) < f.longMM {
			best, nearest = i, in
		}
	}
	f := faces[best]
	wasAlong := p.grabbed.Sub(faces[st.Wall].a).Dot(faces[st.Wall].along) - st.OffsetMM
	if best != st.Wall {
		wasAlong = st.LongMM / 2
	}
	long := min(st.LongMM, f.longMM)
	from := to.Sub(f.a).Dot(f.along) - wasAlong
	s.Shower.Turned, s.Shower.From = false, question.Length{}
	corner := -1
	switch snap := snapUnits / p.scale().perMM; {
	case from < snap:
		corner = (best + n - 1) % n
	case from+long > f.longMM-snap:
		corner = best
	}
	if corner >= 0 && p.practice.TakesShower(s, corner) {
		s.Shower.Stands, s.Shower.Wall = question.InCorner, corner
		if p.practice.Stand(s).Wall != best {
			s.Shower.Turned = true
		}
		return s
	}
	s.Shower.Stands, s.Shower.Wall = question.AtWall, best
	return s.With(question.ShowerFrom, question.Given(min(max(p.rounded(from), 0), max(f.longMM-long, 0))))
}

// FocusGained shows that keys go to the plan.
func (p *planBoard) FocusGained() { p.focused = true; p.Refresh() }

// FocusLost shows that they do not.
func (p *planBoard) FocusLost() { p.focused, p.letter = false, -1; p.Refresh() }

// TypedRune takes a letter for a wall; a second one beside it makes the corner of the two.
func (p *planBoard) TypedRune(r rune) {
	n := len(p.faces())
	for i := range n {
		if letter := []rune(question.Letter(i))[0]; r != letter && r != letter+'a'-'A' {
			continue
		}
		if was := p.letter; was >= 0 {
			p.letter = -1
			if (was+1)%n == i && p.practice.TakesShower(p.sheet, was) {
				p.corner(was)
				return
			}
			if (i+1)%n == was && p.practice.TakesShower(p.sheet, i) {
				p.corner(i)
				return
			}
		}
		p.letter = i
		p.Refresh()
		return
	}
}

// TypedKey presses the wall whose letter was typed.
func (p *planBoard) TypedKey(e *fyne.KeyEvent) {
	switch {
	case (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter || e.Name == fyne.KeySpace) && p.letter >= 0:
		wall := p.letter
		p.letter = -1
		p.wall(wall)
	case p.keys.Plain != nil:
		p.keys.Plain(e)
	}
}

// TypedShortcut hands the window's shortcuts on.
func (p *planBoard) TypedShortcut(s fyne.Shortcut) { p.keys.Typed(s) }
