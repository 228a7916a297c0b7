package measure

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// besideMM is how much farther off than it must be a body is for the gap not to
// be worth a number.
const besideMM = 20

// hold measures how a body lies to what is in its way, unless they are far apart.
// A pair that is to be held against nothing gives no number, which no rule passes.
func (m *Measurer) hold(quantity string, body, fixed clash.Kind, of rule.Subject, is clash.Meeting) {
	pair, ok := clash.Between(body, fixed)
	if !ok {
		is.GapMM = math.NaN()
	}
	if !(is.GapMM >= pair.ClearMM+besideMM) {
		m.add(quantity, of, is.GapMM, is.At)
	}
}

// clashes holds the run and the drain's channel against joists and floor. A pipe
// through a joist is measured as a cut; what leaves through wall or floor, with
// the exit; the trap, with the trap.
func (m *Measurer) clashes() {
	for _, p := range m.Heights.Run.Pieces {
		if p.Kind != waste.Drop {
			m.besideJoists(p)
		}
	}
	h, l := m.Heights, m.Layout
	if len(l.Drain) == 0 || m.Settled.Drain.ChannelDepthMM <= 0 {
		return
	}
	channel := clash.NewPrism(l.Drain[0].Outer, solid.Plane{Level: h.ChannelMM}, solid.Plane{Level: h.FlangeMM})
	for _, js := range m.nearJoists(l.Drain[0].Outer, h.ChannelMM, h.FlangeMM, besideMM) {
		m.hold("clash.drain-gap", clash.Channel, clash.Joist, rule.Subject{Of: rule.DrainChannelByJoist, Number: js.Number}, channel.Gap(m.joistBody(js)))
	}
	if m.Settled.Base.Support == job.OnFloor {
		m.hold("clash.drain-gap", clash.Channel, clash.Floor, of(rule.DrainChannelByFloor), channel.Gap(m.floorBody(l.Drain[0].Outer)))
	}
}

// kindOf is what a piece of the run is to what is in its way.
func kindOf(p waste.Piece) clash.Kind {
	if p.Kind == waste.Straight {
		return clash.Pipe
	}
	return clash.Fitting
}

// besideJoists holds a piece of the run against the joists near it.
func (m *Measurer) besideJoists(p waste.Piece) {
	kind := kindOf(p)
	pair, _ := clash.Between(kind, clash.Joist)
	radius := p.RadiusMM()
	low := math.Min(p.FromInvertMM, p.ToInvertMM) + math.Min(p.Pipe.BoreMM, p.After.BoreMM)/2 - radius
	high := math.Max(p.FromInvertMM, p.ToInvertMM) + math.Max(p.Pipe.BoreMM, p.After.BoreMM)/2 + radius
	var bodies []clash.Cylinder
	for _, js := range m.nearJoists(p.Path, low, high, radius+pair.ClearMM+besideMM) {
		if pair.Through && passes(js, p) {
			continue
		}
		if bodies == nil {
			bodies = pieceBodies(p)
		}
		if len(bodies) > 0 {
			m.hold("clash.joist-gap", kind, clash.Joist, pieceBy(rule.PieceByJoist, p, js.Number), nearest(bodies, m.joistBody(js), pair.ClearMM+besideMM))
		}
	}
}

// nearJoists are the joists within reach of a path between two levels.
func (m *Measurer) nearJoists(path []plan.Point, lowMM, highMM, reachMM float64) []layout.Joist {
	l := m.Layout
	if len(l.Joists) == 0 {
		return nil
	}
	across := plan.Left(l.JoistAlong)
	from, to := math.Inf(1), math.Inf(-1)
	for _, q := range path {
		v := q.Sub(l.JoistOrigin).Dot(across)
		from, to = math.Min(from, v), math.Max(to, v)
	}
	var out []layout.Joist
	for _, js := range l.Joists {
		if v := js.Origin.Sub(l.JoistOrigin).Dot(across); v-js.WidthMM/2 > to+reachMM || v+js.WidthMM/2 < from-reachMM {
			continue
		}
		top, bottom := math.Inf(-1), math.Inf(1)
		for _, q := range path {
			z := joist.TopMM(m.Settled, m.Heights, js, q)
			top, bottom = math.Max(top, z), math.Min(bottom, z)
		}
		slack := m.Heights.Survey.Floor.Gradient() * reachMM
		if lowMM <= top+slack+reachMM && highMM >= bottom-slack-reachMM-m.Settled.Floor.Joists.DepthMM {
			out = append(out, js)
		}
	}
	return out
}

// passes tells whether the middle of a piece goes into a joist in plan: it is
// then a cut, or over or under it.
func passes(js layout.Joist, p waste.Piece) bool {
	for i := 1; i < len(p.Path); i++ {
		if _, _, ok := js.Crosses(p.Path[i-1], p.Path[i]); ok {
			return true
		}
	}
	return false
}

// joistBody is a joist without its cuts.
func (m *Measurer) joistBody(js layout.Joist) clash.Prism {
	if p, ok := m.joists[js.Number]; ok {
		return p
	}
	half := plan.Left(js.Along).Mul(js.WidthMM / 2)
	a, b := js.Origin.Add(js.Along.Mul(js.FromMM)), js.Origin.Add(js.Along.Mul(js.ToMM))
	from, to := joist.TopMM(m.Settled, m.Heights, js, a), joist.TopMM(m.Settled, m.Heights, js, b)
	top := solid.Through(a, from, js.Along, (to-from)/(js.ToMM-js.FromMM))
	p := clash.NewPrism(plan.Ring{a.Sub(half), b.Sub(half), b.Add(half), a.Add(half)}, top.Raised(-m.Settled.Floor.Joists.DepthMM), top)
	if m.joists == nil {
		m.joists = map[int]clash.Prism{}
	}
	m.joists[js.Number] = p
	return p
}

// floorBody is the structural floor about a part of the plan, so thick that what
// is in it comes out at its top.
func (m *Measurer) floorBody(about plan.Ring) clash.Prism {
	const asideMM, thickMM = 1000, 10000
	low, high, _ := plan.Region{{Outer: about}}.Bounds()
	aside := plan.Point{asideMM, asideMM}
	low, high = low.Sub(aside), high.Add(aside)
	floor := m.Heights.Survey.Floor
	return clash.NewPrism(plan.Ring{low, {high.X(), low.Y()}, high, {low.X(), high.Y()}}, floor.Raised(-thickMM), floor)
}

// pieceBodies are the cylinders that make up a piece of the run but a drop; a
// bend has one for each side of its polygon, drawn on to meet its neighbours on
// the outside.
func pieceBodies(p waste.Piece) []clash.Cylinder {
	at := p.FromMM
	var path []mgl64.Vec3
	for i, q := range p.Path {
		if i > 0 {
			at += q.Sub(p.Path[i-1]).Len()
		}
		share := 0.0
		if p.LengthMM() > 0 {
			share = (at - p.FromMM) / p.LengthMM()
		}
		invert := p.FromInvertMM + (p.ToInvertMM-p.FromInvertMM)*share
		path = append(path, q.Vec3(invert+(p.Pipe.BoreMM+(p.After.BoreMM-p.Pipe.BoreMM)*share)/2))
	}
	return cylinders(path, p.RadiusMM())
}

// cylinders stand along a path.
func cylinders(path []mgl64.Vec3, radiusMM float64) []clash.Cylinder {
	var out []clash.Cylinder
	for i := 1; i < len(path); i++ {
		if path[i].Sub(path[i-1]).Len() > 1e-6 {
			out = append(out, clash.Cylinder{From: path[i-1], To: path[i], RadiusMM: radiusMM})
		}
	}
	for i := 1; i < len(out); i++ {
		u, v := out[i-1].To.Sub(out[i-1].From).Normalize(), out[i].To.Sub(out[i].From).Normalize()
		// The tangent of half the turn.
		on := radiusMM * u.Cross(v).Len() / (1 + u.Dot(v))
		out[i-1].To = out[i-1].To.Add(u.Mul(on))
		out[i].From = out[i].From.Sub(v.Mul(on))
	}
	return out
}

// dropBodies are the bend that turns the run down at an exit through the floor,
// and the pipe down from it.
func (m *Measurer) dropBodies(p waste.Piece) []clash.Cylinder {
	r, radius := m.Heights.Run, m.Settled.Waste.Bend90FaceMM
	axis := p.FromInvertMM + p.Pipe.BoreMM/2
	start := r.Exit.Sub(r.ExitTo.Mul(radius))
	const steps, downMM = 12, 3000
	var path []mgl64.Vec3
	for k := range steps + 1 {
		s, c := math.Sincos(math.Pi / 2 * float64(k) / steps)
		path = append(path, start.Add(r.ExitTo.Mul(radius*s)).Vec3(axis-radius*(1-c)))
	}
	return cylinders(append(path, r.Exit.Vec3(axis-radius-downMM)), p.RadiusMM())
}

// dropInJoist is how much closer to a joist than it may the drop comes; not a
// number where nothing says how close that is.
func (m *Measurer) dropInJoist(drop waste.Piece) float64 {
	due, ok := clash.Between(clash.Fitting, clash.Joist)
	if !ok {
		return math.NaN()
	}
	r, bodies, overlap := m.Heights.Run, m.dropBodies(drop), 0.0
	path := []plan.Point{r.Exit.Sub(r.ExitTo.Mul(m.Settled.Waste.Bend90FaceMM)), r.Exit}
	top := drop.FromInvertMM + drop.Pipe.BoreMM/2 + drop.RadiusMM()
	for _, js := range m.nearJoists(path, math.Inf(-1), top, drop.RadiusMM()+besideMM) {
		overlap = math.Max(overlap, due.ClearMM-nearest(bodies, m.joistBody(js), due.ClearMM).GapMM)
	}
	return overlap
}

// nearest holds bodies against a prism and gives the worst that is less than a
// gap; an endless one where there is none.
func nearest(bodies []clash.Cylinder, p clash.Prism, lessThanMM float64) clash.Meeting {
	worst := clash.Meeting{GapMM: math.Inf(1)}
	bounds, first := make([]float64, len(bodies)), 0
	for i, b := range bodies {
		if bounds[i] = b.AtLeast(p); bounds[i] < bounds[first] {
			first = i
		}
	}
	// The one with the least bound comes first: it mostly spares the others.
	for k := range bodies {
		i := (first + k) % len(bodies)
		if bounds[i] < math.Min(worst.GapMM, lessThanMM) {
			if g := bodies[i].Gap(p); g.GapMM < worst.GapMM {
				worst = g
			}
		}
	}
	return worst
}

// studOverlap is how far the run reaches into a stud of the wall it leaves
// through; 0 when it is clear.
func (m *Measurer) studOverlap(w layout.Wall, wall job.Wall) float64 {
	r := m.Heights.Run
	overlap := 0.0
	for _, p := range r.Pieces {
		if p.ToMM <= r.ExitAtMM+1e-6 && r.LengthMM > r.ExitAtMM+1e-6 {
			continue
		}
		if _, ok := clash.Between(kindOf(p), clash.Stud); !ok {
			return math.NaN()
		}
		from, to := math.Inf(1), math.Inf(-1)
		for _, at := range []float64{math.Max(p.FromMM, r.ExitAtMM), p.ToMM} {
			s := r.PointAt(at).Sub(w.A).Dot(w.Along)
			from, to = math.Min(from, s), math.Max(to, s)
		}
		bodies := pieceBodies(p)
		reach := p.RadiusMM() + wall.StudWidthMM/2
		first := math.Max(0, math.Ceil((from-reach-wall.FirstStudMM)/wall.StudSpacingMM))
		for k := first; len(bodies) > 0 && wall.FirstStudMM+k*wall.StudSpacingMM <= to+reach; k++ {
			a, b := w.At(wall.FirstStudMM+k*wall.StudSpacingMM-wall.StudWidthMM/2), w.At(wall.FirstStudMM+k*wall.StudSpacingMM+wall.StudWidthMM/2)
			out := w.Outward.Mul(w.ThicknessMM)
			const upAndDownMM = 3000
			level := r.InvertAt(r.ExitAtMM)
			stud := clash.NewPrism(plan.Ring{a, b, b.Add(out), a.Add(out)}, solid.Plane{Level: level - upAndDownMM}, solid.Plane{Level: level + upAndDownMM})
			overlap = math.Max(overlap, -nearest(bodies, stud, 0).GapMM)
		}
	}
	return overlap
}
