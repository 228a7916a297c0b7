package edit

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Snap is where something falls into place that is dragged near to it.
type Snap struct {
	// At is where it is dragged to then, in the place of the point it was dragged to.
	At plan.Point
	// Onto are the one or two lines that it falls onto.
	Onto []Guide
}

// Guide is a line that what is dragged falls onto.
type Guide struct {
	// Name says which line it is: the middle of wall C.
	Name message.Message
	// From is what gives the line, To what has come to lie on it.
	From, To plan.Point
	along    plan.Point
	// middle tells that it is for the middle of what is dragged, not for its sides.
	middle bool
}

// freedom is how something can be dragged: along one direction, or anywhere where that is zero; and what of it
// falls onto guides, from where it is taken hold of.
type freedom struct {
	along  plan.Point
	middle plan.Point
	sides  []plan.Point
}

// SnapTo is the place near to a point that what a handle moves falls into, within reach; ok is false where there is
// none. The layout is that of the job.
//
// Method: each guide is met along the one direction that the thing moves in; the nearest counts. What moves freely
// falls onto the nearest guide, and onto the next that crosses it where both meet within reach.
func SnapTo(j *job.Job, l *layout.Layout, h Handle, to plan.Point, reachMM float64) (s Snap, ok bool) {
	f, ok := h.freedom(j, l, to)
	if !ok {
		return s, false
	}
	var guides []Guide
	for _, g := range guidesFor(j, l, h) {
		if g.along = g.along.Normalize(); g.along == g.along {
			guides = append(guides, g)
		}
	}
	if f.along != (plan.Point{}) {
		return snapAlong(f, guides, to, reachMM)
	}
	return snapFreely(j, f, guides, to, reachMM)
}

// refs are what of the thing falls onto a guide.
func (f freedom) refs(g Guide) []plan.Point {
	if g.middle || len(f.sides) == 0 {
		return []plan.Point{f.middle}
	}
	return f.sides
}

func cross(a, b plan.Point) float64 { return a.X()*b.Y() - a.Y()*b.X() }

// leastSine is how far from each other the directions of two lines are at least that are to meet: 30°.
const leastSine = 0.5

// snapAlong falls onto the nearest guide along the one way it can move.
func snapAlong(f freedom, guides []Guide, to plan.Point, reachMM float64) (s Snap, ok bool) {
	best := reachMM
	for _, g := range guides {
		sine := cross(f.along, g.along)
		if math.Abs(sine) < leastSine {
			continue
		}
		for _, ref := range f.refs(g) {
			t := -cross(to.Add(ref).Sub(g.From), g.along) / sine
			if math.Abs(t) < best-plan.HairMM {
				best, ok = math.Abs(t), true
				s.At = to.Add(f.along.Mul(t))
				g.To = s.At.Add(ref)
				s.Onto = []Guide{g}
			}
		}
	}
	return s, ok
}

// snapFreely falls onto the nearest guide, and onto another where both meet near by; along a single guide it goes on in
// coarse steps from what gives that.
func snapFreely(j *job.Job, f freedom, guides []Guide, to plan.Point, reachMM float64) (s Snap, ok bool) {
	at := to.Add(f.middle)
	first, second := -1, -1
	off := func(i int) float64 { return math.Abs(cross(at.Sub(guides[i].From), guides[i].along)) }
	for i := range guides {
		if o := off(i); o < reachMM && (first < 0 || o < off(first)-plan.HairMM) {
			first = i
		}
	}
	if first < 0 {
		return s, false
	}
	g := guides[first]
	p := g.From.Add(g.along.Mul(rounding(Coarse.StepMM(j.Units)).mm(at.Sub(g.From).Dot(g.along))))
	for i := range guides {
		if math.Abs(cross(g.along, guides[i].along)) >= leastSine && off(i) < reachMM && (second < 0 || off(i) < off(second)-plan.HairMM) {
			second = i
		}
	}
	s.Onto = []Guide{g}
	if second >= 0 {
		if t, _, meet := plan.MeetLines(g.From, g.along, guides[second].From, guides[second].along); meet {
			p = g.From.Add(g.along.Mul(t))
			s.Onto = append(s.Onto, guides[second])
		}
	}
	for i := range s.Onto {
		s.Onto[i].To = p
	}
	s.At = p.Sub(f.middle)
	return s, true
}

// freedom of a handle that is dragged to a point; false for what falls into no place.
func (h Handle) freedom(j *job.Job, l *layout.Layout, to plan.Point) (f freedom, ok bool) {
	half := func(along plan.Point, longMM float64) []plan.Point {
		return []plan.Point{along.Mul(-longMM / 2), along.Mul(longMM / 2)}
	}
	switch h.Kind {
	case HandleDoorway, HandleWindow, HandleFixture:
		w := h.ledTo(j, l, to)
		if w == nil {
			return f, false
		}
		_, _, longMM, _ := h.atWall(j)
		return freedom{along: w.Along, sides: half(w.Along, longMM)}, true
	case HandleExit:
		switch j.Waste.Exit.Kind {
		case job.ExitWall:
			if w := nearestWall(l, to); w != nil {
				return freedom{along: w.Along}, true
			}
			return f, false
		case job.ExitStack:
			return f, false
		}
		return f, true
	case HandleDepth:
		return freedom{along: l.Into}, true
	case HandleRight, HandleLeft:
		return freedom{along: l.ToRight}, true
	case HandleShower:
		return freedom{along: l.ToRight, sides: half(l.ToRight, j.Shower.WidthMM)}, true
	case HandleDrain:
		if j.Former.Fall.Linear() && j.Former.Fall != job.FallMid {
			return freedom{along: l.DrainAlong, sides: half(l.DrainAlong, j.DrainLengthMM())}, true
		}
		return f, true
	case HandleSide:
		if h.Index < 0 || h.Index >= len(l.Walls) {
			return f, false
		}
		w := &l.Walls[h.Index]
		return freedom{along: w.Outward, middle: w.Outward.Mul(-w.ThicknessMM)}, true
	case HandleJoist:
		if h.Index < 0 || h.Index >= len(l.Joists) {
			return f, false
		}
		across := plan.Left(l.Joists[h.Index].Along)
		return freedom{along: across, sides: half(across, l.Joists[h.Index].WidthMM)}, true
	case HandleCorner, HandleStack, HandlePipeEnd, HandleTurn, HandleLevel, HandleReading:
		return f, true
	}
	return f, false
}

// nearestWall is the wall that is nearest to a point; nil of a room without walls.
func nearestWall(l *layout.Layout, p plan.Point) (near *layout.Wall) {
	best := math.Inf(1)
	for i := range l.Walls {
		if mm := plan.DistanceToSegment(p, l.Walls[i].A, l.Walls[i].B); mm < best {
			best, near = mm, &l.Walls[i]
		}
	}
	return near
}

// isOf tells whether the handle is of one of some kinds.
func (h Handle) isOf(kinds ...HandleKind) bool { return slices.Contains(kinds, h.Kind) }

// guidesFor are the lines that what a handle moves may fall onto, what one thinks of first before others.
func guidesFor(j *job.Job, l *layout.Layout, h Handle) (out []Guide) {
	out = append(out, wallGuides(j, l, h)...)
	for i := range l.Doors {
		if d := &l.Doors[i]; h != (Handle{HandleDoorway, i}) {
			name := message.Of("snap.post", message.In("opening", message.Of("place.doorway", message.No("n", i+1))))
			out = append(out, reveals(name, d.A, d.B, d.Wall.Outward)...)
		}
	}
	for i, o := range j.Room.Windows {
		if h != (Handle{HandleWindow, i}) && o.Wall >= 0 && o.Wall < len(l.Walls) {
			w := &l.Walls[o.Wall]
			name := message.Of("snap.post", message.In("opening", message.Of("item.room.windows", message.No("n", i+1))))
			out = append(out, reveals(name, w.At(o.OffsetMM), w.At(o.OffsetMM+o.WidthMM), w.Outward)...)
		}
	}
	out = append(out, showerGuides(j, l, h)...)
	out = append(out, runGuides(j, l, h)...)
	return append(out, joistGuides(l, h)...)
}

// reveals are the lines out from the two sides of an opening.
func reveals(name message.Message, a, b, along plan.Point) []Guide {
	return []Guide{{Name: name, From: a, along: along}, {Name: name, From: b, along: along}}
}

// inLine and middleOf name lines along something and through its middle.
func inLine(what message.Message) message.Message {
	return message.Of("snap.in-line", message.In("what", what))
}

func middleOf(what message.Message) message.Message {
	return message.Of("snap.middle-of", message.In("what", what))
}

// wallGuides are the middles of walls, and for what goes with walls their faces and the other corners.
func wallGuides(j *job.Job, l *layout.Layout, h Handle) (out []Guide) {
	n := len(l.Walls)
	room := h.isOf(HandleCorner, HandleSide)
	for i := range l.Walls {
		w := &l.Walls[i]
		switch {
		case !room:
			out = append(out, Guide{Name: middleOf(message.Of("part.wall", w.Name())), From: w.At(w.LengthMM / 2), along: w.Outward, middle: true})
		case h.Kind == HandleCorner && i != h.Index:
			name := inLine(message.Of("place.corner", message.AtCorner("corner", j.Room.Corner(i))))
			for _, along := range [...]plan.Point{l.ToRight, l.Into} {
				out = append(out, Guide{Name: name, From: w.A, along: along})
			}
		}
		own := room && (i == h.Index || h.Kind == HandleCorner && (i == (h.Index+n-1)%n || i == h.Index))
		if !own && h.isOf(HandleSide, HandleDepth, HandleRight, HandleLeft, HandleJoist) {
			out = append(out, Guide{Name: inLine(message.Of("part.wall", w.Name())), From: w.A, along: w.Along})
		}
	}
	return out
}

// showerGuides are the edges and the middle of the shower, and of the drain.
func showerGuides(j *job.Job, l *layout.Layout, h Handle) (out []Guide) {
	if h.isOf(HandleDepth, HandleRight, HandleLeft, HandleShower) {
		return nil
	}
	c := l.Corners
	if j.Former.Fall != job.FallRoom {
		if h.Kind != HandleDrain {
			for _, e := range [...]struct {
				side layout.Side
				a, b plan.Point
			}{{layout.Right, c[1], c[2]}, {layout.Front, c[3], c[2]}, {layout.Left, c[0], c[3]}} {
				out = append(out, Guide{Name: inLine(e.side.Edge()), From: e.a, along: e.b.Sub(e.a)})
			}
		}
		middle := c[0].Add(c[2]).Mul(0.5)
		for _, along := range [...]plan.Point{l.Into, l.ToRight} {
			out = append(out, Guide{Name: middleOf(message.Of("place.shower")), From: middle, along: along, middle: true})
		}
	}
	if h.Kind != HandleDrain {
		for _, along := range [...]plan.Point{plan.Left(l.DrainAlong), l.DrainAlong} {
			out = append(out, Guide{Name: inLine(message.Of("part.drain")), From: l.DrainCentre, along: along})
		}
	}
	return out
}

// runGuides are, for what belongs to the waste, the way straight out of the trap, the stacks and pipe ends, and for a turn
// the ways at 45° and square from the turns beside it.
func runGuides(j *job.Job, l *layout.Layout, h Handle) (out []Guide) {
	if !h.isOf(HandleExit, HandleTurn, HandleStack, HandlePipeEnd) {
		return nil
	}
	if h.Kind == HandleTurn {
		run := waste.Lay(*j, *l)
		turns := Turns(*j, run)
		if h.Index >= 0 && h.Index < len(turns) && len(run.Corners) > 1 {
			corners := withEnds(turns, run)
			for _, p := range [...]plan.Point{corners[h.Index], corners[h.Index+2]} {
				diagonal, square := message.Of("snap.diagonal"), message.Of("snap.square")
				out = append(out, Guide{Name: square, From: p, along: l.ToRight}, Guide{Name: square, From: p, along: l.Into},
					Guide{Name: diagonal, From: p, along: l.ToRight.Add(l.Into)}, Guide{Name: diagonal, From: p, along: l.ToRight.Sub(l.Into)})
			}
		}
		return out
	}
	out = append(out, Guide{Name: message.Of("snap.outlet"), From: l.Outlet, along: l.OutletTo, middle: true})
	point := func(name message.Message, at plan.Point) {
		for _, along := range [...]plan.Point{l.ToRight, l.Into} {
			out = append(out, Guide{Name: inLine(name), From: at, along: along, middle: true})
		}
	}
	for i := range l.Stacks {
		if h != (Handle{HandleStack, i}) {
			point(message.Of("item.room.stacks", message.No("n", i+1)), l.Stacks[i].At)
		}
	}
	for i, p := range j.Room.PipeEnds {
		if h != (Handle{HandlePipeEnd, i}) {
			point(message.Of("item.room.pipeEnds", message.No("n", i+1)), p.At)
		}
	}
	return out
}

// joistGuides are the middles between joists, for what is to go down between them.
func joistGuides(l *layout.Layout, h Handle) (out []Guide) {
	if !h.isOf(HandleDrain, HandleExit, HandleTurn, HandleStack, HandlePipeEnd) {
		return nil
	}
	var before *layout.Joist
	for i := range l.Joists {
		js := &l.Joists[i]
		if js.Member == layout.SecondJoist || js.Member == layout.Trimmer || before != nil && js.Number == before.Number {
			continue
		}
		if before != nil {
			a, b := before.Number, js.Number
			out = append(out, Guide{Name: message.Of("snap.between-joists", message.No("a", min(a, b)), message.No("b", max(a, b))),
				From: before.Origin.Add(js.Origin).Mul(0.5), along: js.Along, middle: true})
		}
		before = js
	}
	return out
}
