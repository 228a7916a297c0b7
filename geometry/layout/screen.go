package layout

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// setBackMM is how far inside the open edge the face of a screen stands, clear of the edge's
// trim. Common practice, no source.
const setBackMM = 22

// Screen is a screen in plan.
type Screen struct {
	Index int
	Side  Side
	// A and B are its ends on the line of its side, A the one that its offset counts to;
	// Out points out of the shower.
	A, B, Out plan.Point
	// Glass is where it stands, closed. Sweep is the floor that the leaf of a door passes
	// over, outside the shower or in it, whether there is room or not; nil for other screens.
	Glass, Sweep plan.Region
	// Creases are the places strictly between the ends of its foot at which another plane of
	// the floor begins to carry it.
	Creases []plan.Point
	// On are its stretches along open edges, from A on. OffMM is how much of it stands at a
	// wall or past its side, OverMM how much of it where a screen before it stands.
	On            []plan.Interval
	OffMM, OverMM float64
	keepsMM       float64 // of the way through it when it is open
	opens         bool
}

// Foot are the ends of its inner face on the floor that it stands on, beside A and B.
func (s Screen) Foot() (a, b plan.Point) {
	back := s.Out.Mul(-setBackMM)
	return s.A.Add(back), s.B.Add(back)
}

// StopMM is how thick the leg of a water stop is.
// Common practice, no source.
const StopMM = 3

// Stop is where the leg of a water stop along a fixed pane goes: at its outer face, as far
// as it stands on open edges. There is none at a wall.
func (s Screen) Stop(thicknessMM float64) plan.Region {
	return s.alongOpen(s.Out.Mul(thicknessMM-setBackMM), s.Out.Mul(StopMM))
}

// StopLiesMM is how wide the lying leg of a water stop is. Common practice, no source.
const StopLiesMM = 20

// StopLies is where it goes: from the standing one into the shower.
func (s Screen) StopLies(thicknessMM float64) plan.Region {
	return s.alongOpen(s.Out.Mul(thicknessMM-setBackMM), s.Out.Mul(-StopLiesMM))
}

// OnMM is how much of it stands on open edges.
func (s Screen) OnMM() (mm float64) {
	for _, on := range s.On {
		mm += on.To - on.From
	}
	return mm
}

// alongOpen are strips beside its stretches along open edges.
func (s Screen) alongOpen(from, aside plan.Point) plan.Region {
	along, start := s.B.Sub(s.A).Normalize(), s.A.Add(from)
	var out plan.Region
	for _, on := range s.On {
		out = append(out, plan.Strip(start.Add(along.Mul(on.From)), start.Add(along.Mul(on.To)), aside)...)
	}
	return out
}

// Way is a stretch of an open edge that one passes through, or water.
type Way struct {
	Edge int // of the open edges, from nought
	Side Side
	A, B plan.Point
	// WidthMM is what is clear of it, less the leaves that stand in it when open.
	WidthMM float64
}

// Middle of the way.
func (w Way) Middle() plan.Point { return w.A.Add(w.B).Mul(0.5) }

// quarter is the quarter of a disc that a leaf passes over, from its closed place towards
// a direction square to it.
func quarter(hinge, free, to plan.Point) plan.Ring {
	const steps = 24
	u, v := free.Sub(hinge), to.Mul(free.Sub(hinge).Len())
	ring := plan.Ring{hinge}
	for k := range steps + 1 {
		s, c := math.Sincos(math.Pi / 2 * float64(k) / steps)
		ring = append(ring, hinge.Add(u.Mul(c)).Add(v.Mul(s)))
	}
	return ring
}

// screens places those of the job along their sides.
func (l *Layout) screens(j job.Job) {
	for i, s := range j.Shower.Screens {
		a, u, out := l.fromLeft(Side(s.Side))
		x := Screen{Index: i, Side: Side(s.Side), A: a.Add(u.Mul(s.OffsetMM)), B: a.Add(u.Mul(s.OffsetMM + s.WidthMM)), Out: out,
			keepsMM: s.OpenKeepsMM(), opens: s.Opens()}
		back := out.Mul(-setBackMM)
		x.Glass = plan.Strip(x.A.Add(back), x.B.Add(back), out.Mul(s.ThicknessMM))
		if s.Kind == job.ScreenDoor {
			hinge, free := x.A, x.B
			if s.HingeAtEnd {
				hinge, free = free, hinge
			}
			to := out
			if s.OpensIn {
				to = out.Mul(-1)
			}
			x.Sweep = plan.FromRing(quarter(hinge, free, to))
		}
		for _, e := range l.open {
			if from, to := x.along(e); to > from {
				first, last := e.A.Sub(x.A).Dot(u), e.B.Sub(x.A).Dot(u)
				x.On = append(x.On, plan.Interval{From: math.Max(0, math.Min(first, last)), To: math.Min(s.WidthMM, math.Max(first, last))})
			}
		}
		x.OffMM = s.WidthMM - x.OnMM()
		for _, o := range l.Screens {
			if o.Side == x.Side {
				from, to := shared(a, u, x, o)
				x.OverMM = math.Max(x.OverMM, to-from)
			}
		}
		x.Creases = l.creasesAlong(x.Foot())
		l.Screens = append(l.Screens, x)
	}
}

// fromLeft is where offsets along a side count from, the way they count, and the way out
// of the shower across the side.
func (l *Layout) fromLeft(s Side) (from, along, out plan.Point) {
	c := l.Corners
	switch s {
	case Back:
		return c[0], l.ToRight, l.Into.Mul(-1)
	case Right:
		return c[1], l.Into, l.ToRight
	case Front:
		return c[3], l.ToRight, l.Into
	}
	return c[0], l.Into, l.ToRight.Mul(-1)
}

// along is from where to where a screen stands along an edge, from the edge's first end;
// to is less than from where it stands elsewhere.
func (x Screen) along(e Edge) (from, to float64) {
	if x.Side != e.Side {
		return 0, -1
	}
	u := e.B.Sub(e.A).Normalize()
	p, q := x.A.Sub(e.A).Dot(u), x.B.Sub(e.A).Dot(u)
	return math.Max(0, math.Min(p, q)), math.Min(e.LengthMM(), math.Max(p, q))
}

// shared is the stretch along a side on which two screens stand.
func shared(a, u plan.Point, x, o Screen) (from, to float64) {
	at := func(p plan.Point) float64 { return p.Sub(a).Dot(u) }
	return math.Max(at(x.A), at(o.A)), math.Min(at(x.B), at(o.B))
}

// Ways are the stretches of the open edges that one can pass: beside fixed panes, and
// through doors and panels, less what the open leaf keeps of them.
func (l Layout) Ways() []Way { return l.beside(func(s Screen) bool { return !s.opens }) }

// Unscreened are the stretches of the open edges without any screen.
func (l Layout) Unscreened() []Way { return l.beside(func(Screen) bool { return true }) }

// beside are the stretches of the open edges without the screens that stop what passes.
func (l Layout) beside(stops func(Screen) bool) (out []Way) {
	for i, e := range l.open {
		u := e.B.Sub(e.A).Normalize()
		var stopped []plan.Interval
		for _, s := range l.Screens {
			if from, to := s.along(e); stops(s) && to > from {
				stopped = append(stopped, plan.Interval{From: from, To: to})
			}
		}
		slices.SortFunc(stopped, func(a, b plan.Interval) int { return cmp.Compare(a.From, b.From) })
		at := 0.0
		add := func(to float64) {
			if to-at > leastWayMM {
				w := Way{i, e.Side, e.A.Add(u.Mul(at)), e.A.Add(u.Mul(to)), to - at}
				for _, s := range l.Screens {
					if from, until := s.along(e); !stops(s) && math.Min(until, to) > math.Max(from, at) {
						w.WidthMM -= s.keepsMM
					}
				}
				out = append(out, w)
			}
		}
		for _, s := range stopped {
			add(s.From)
			at = math.Max(at, s.To)
		}
		add(e.LengthMM())
	}
	return out
}

// leastWayMM is under which a gap beside a screen is a joint, no way for anybody or
// anything but drops.
const leastWayMM = 20

// kerb is the strip along the inside of the open edges, as wide as the kerb, but for the
// drain.
func (l *Layout) kerb(j job.Job, sh *plan.Shaper) {
	k := j.Shower.Kerb
	if k == nil || j.Former.Fall == job.FallRoom {
		return
	}
	what := message.Of("shape.kerb")
	for _, e := range l.open {
		in := l.Outward(e).Mul(-k.WidthMM)
		strip := sh.Intersect(plan.Strip(e.A, e.B, in), l.OpenFloor, what)
		l.Kerb = sh.Union(l.Kerb, strip, what)
	}
}
