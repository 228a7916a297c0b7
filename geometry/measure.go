package geometry

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/hydraulic"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// measurer collects measurements of a result.
type measurer struct {
	Result
	out []rule.Measurement
}

// measure takes every measurement a rule may speak of, from exact geometry.
func measure(r Result) []rule.Measurement {
	m := &measurer{Result: r}
	m.run()
	m.exit()
	m.trap()
	m.joistCuts()
	m.strength()
	m.base()
	m.falls()
	m.steps()
	m.drain()
	m.water()
	m.cautions()
	return m.out
}

func (m *measurer) add(quantity, subject string, value float64, at mgl64.Vec3, tags ...string) *rule.Measurement {
	m.out = append(m.out, rule.Measurement{Quantity: quantity, Subject: subject, Value: value, At: at, Box: solid.Around(at, 60),
		Facts: pipeFacts(m.Job.Waste.NominalMM), Tags: append(tags, m.tags()...)})
	return &m.out[len(m.out)-1]
}

// tags are the circumstances of the whole job.
func (m *measurer) tags() []string {
	tags := pipeTags(m.Job)
	if m.Job.Accessible {
		tags = append(tags, "accessible")
	}
	return append(tags, string(m.Job.Floor.Kind), "fall-"+string(m.Job.Former.Fall))
}

func lift(p plan.Point, z float64) mgl64.Vec3 { return mgl64.Vec3{p.X(), p.Y(), z} }

// onRun is the point of the pipe's axis at a distance along the run.
func (m *measurer) onRun(at float64) mgl64.Vec3 {
	r := m.Heights.Run
	return lift(r.PointAt(at), r.InvertAt(at)+r.PipeAt(at).BoreMM/2)
}

func (m *measurer) run() {
	r := m.Heights.Run
	for _, t := range r.Trouble {
		at := lift(t.At, m.Heights.OutletMM)
		switch t.Kind {
		case waste.NoBend:
			m.add("run.turn-off", t.Piece, math.Abs(t.Value-nearestBend(t)), at)
		case waste.NoRoom:
			m.add("run.leg-short", t.Piece, t.Limit-t.Value, at)
		case waste.NoPlace:
			m.add("run.fitting-misplaced", t.Piece, t.Value, at)
		case waste.NothingLeft:
			m.add("run.nothing", "Waste run", 0, at)
		}
	}
	if len(r.Pieces) == 0 {
		return
	}
	middle := m.onRun(r.LengthMM / 2)
	for _, p := range r.Pieces {
		if p.Kind == waste.Drop || p.LengthMM() < 1e-6 {
			continue
		}
		at := m.onRun((p.FromMM + p.ToMM) / 2)
		var tags []string
		if p.Kind == waste.Extender {
			tags = append(tags, "extender")
		}
		if p.Kind == waste.Reducer {
			if p.Reversed {
				rise := p.Pipe.BoreMM - p.After.BoreMM
				m.add("reducer.rise", p.Name(), math.Max(0, rise), at)
				m.add("reducer.loss", p.Name(), math.Max(0, -rise), at)
			}
			continue
		}
		m.add("pipe.gradient", p.Name(), p.Gradient(), at, tags...).Facts = pipeFacts(p.Pipe.NominalMM)
	}
	m.add("run.length", "Waste run", r.LengthMM, middle)
	m.add("run.bends", "Waste run", float64(r.Bends), middle)
	m.add("run.fall-in-bores", "Waste run", (r.InvertAt(0)-r.InvertAt(r.ExitAtMM))/m.Job.Waste.BoreMM, middle)
	m.add("trap.size", "Trap and waste", m.Job.Waste.NominalMM, m.onRun(0))
	m.cover()
	m.underside()
	m.wallGaps()
	m.pipeFlow()
}

// nearestBend is the turn a trouble's corner should make.
func nearestBend(t waste.Trouble) float64 {
	if t.Piece == "Trap outlet" {
		return 0
	}
	return t.Limit
}

// cover measures what lies over the pipe, and how much of it lies bare.
//
// Method: the run is clipped to the raised floors; crown and floor are straight
// over each stretch, so the least cover is at an end of one. Exact.
func (m *measurer) cover() {
	h, r := m.Heights, m.Heights.Run
	exposed, exposedAt := 0.0, mgl64.Vec3{}
	for _, p := range r.Pieces {
		if p.Kind == waste.Drop || p.FromMM >= r.ExitAtMM {
			continue
		}
		worst, at := math.Inf(1), 0.0
		s := p.FromMM
		for i := 1; i < len(p.Path); i++ {
			a, b := p.Path[i-1], p.Path[i]
			length := b.Sub(a).Len()
			if to := math.Min(length, r.ExitAtMM-s); length > 1e-9 && to > 1e-9 {
				u := b.Sub(a).Mul(1 / length)
				crown := func(t float64) float64 { return r.InvertAt(s+t) + p.Pipe.BoreMM + p.Pipe.WallMM() }
				for _, iv := range m.stretches(a, u, to) {
					if math.IsNaN(iv.topMM) {
						// Below the structural floor nothing needs to cover it.
						if bare := above(crown(iv.From)-h.Survey.Floor.At(a.Add(u.Mul(iv.From))), crown(iv.To)-h.Survey.Floor.At(a.Add(u.Mul(iv.To))), iv.To-iv.From); bare > 0 {
							exposed += bare
							exposedAt = m.onRun(s + (iv.From+iv.To)/2)
						}
						continue
					}
					for _, t := range []float64{iv.From, iv.To} {
						if c := iv.topMM - crown(t); c < worst {
							worst, at = c, s+t
						}
					}
				}
			}
			s += length
		}
		if !math.IsInf(worst, 1) {
			m.add("pipe.cover", p.Name(), worst, m.onRun(at))
			if q := r.PointAt(at); m.Layout.FallArea.Contains(q, 0) {
				m.add("pipe.former-over", p.Name(), h.FlangeMM+m.Layout.Fall.At(q)-h.FormerMM, m.onRun(at))
			}
		}
	}
	m.add("pipe.exposed", "Waste run", exposed, exposedAt)
}

// stretch is a part of a line under one raised floor, whose base's top is at
// topMM; not a number where there is none.
type stretch struct {
	plan.Interval
	topMM float64
}

// stretches divides a line from a, as long as given, by the raised floors over
// it.
func (m *measurer) stretches(a, u plan.Point, length float64) []stretch {
	h := m.Heights
	within := func(region plan.Region) []plan.Interval {
		var out []plan.Interval
		for _, iv := range region.Clip(a, u) {
			if from, to := math.Max(0, iv.From), math.Min(length, iv.To); to-from > 1e-6 {
				out = append(out, plan.Interval{From: from, To: to})
			}
		}
		return out
	}
	// fill covers what is left of the line between others.
	var out []stretch
	fill := func(gaps, by []plan.Interval, top float64) (left []plan.Interval) {
		for _, g := range gaps {
			at := g.From
			for _, iv := range by {
				from, to := math.Max(at, iv.From), math.Min(g.To, iv.To)
				if to-from <= 1e-6 {
					continue
				}
				if from-at > 1e-6 {
					left = append(left, plan.Interval{From: at, To: from})
				}
				out = append(out, stretch{plan.Interval{From: from, To: to}, top})
				at = to
			}
			if g.To-at > 1e-6 {
				left = append(left, plan.Interval{From: at, To: g.To})
			}
		}
		return left
	}
	left := fill([]plan.Interval{{From: 0, To: length}}, within(m.Layout.FallArea), h.BaseTopMM)
	if !math.IsNaN(h.RoomTopMM) {
		left = fill(left, within(m.Layout.Room), h.RoomTopMM-m.Job.Layers.Room.ThicknessMM())
	}
	for _, iv := range left {
		out = append(out, stretch{iv, math.NaN()})
	}
	return out
}

// above is how much of a length lies above zero when a height runs straight
// from a to b over it.
func above(a, b, length float64) float64 {
	switch {
	case a <= 0 && b <= 0:
		return 0
	case a >= 0 && b >= 0:
		return length
	}
	return length * math.Max(a, b) / (math.Max(a, b) - math.Min(a, b))
}

// underside measures how far pipes reach into or below the structure.
func (m *measurer) underside() {
	r, floor := m.Heights.Run, m.Heights.Survey.Floor
	letIn := m.Job.Base.Support == job.BetweenJoists
	depth := m.Job.Floor.Deck.ThicknessMM + m.Job.Floor.Joists.DepthMM
	for _, p := range r.Pieces {
		if p.FromMM >= r.ExitAtMM {
			continue
		}
		worst, at := math.Inf(-1), 0.0
		for _, s := range []float64{p.FromMM, math.Min(p.ToMM, r.ExitAtMM)} {
			if into := floor.At(r.PointAt(s)) - (r.InvertAt(s) - p.Pipe.WallMM()); into > worst {
				worst, at = into, s
			}
		}
		if letIn {
			m.add("pipe.below-joists", p.Name(), math.Max(0, worst-depth), m.onRun(at))
		} else {
			m.add("pipe.into-floor", p.Name(), math.Max(0, worst), m.onRun(at))
		}
	}
}

// wallGaps measures the clear gap of every straight that runs along a wall,
// but for the one that leaves through it.
func (m *measurer) wallGaps() {
	r := m.Heights.Run
	for _, p := range r.Pieces {
		if p.Kind != waste.Straight || p.FromMM >= r.ExitAtMM {
			continue
		}
		a, b := p.Path[0], p.Path[len(p.Path)-1]
		along := b.Sub(a).Normalize()
		for _, w := range m.Layout.Walls {
			if math.Abs(plan.Cross(along, w.Along)) > 0.1 {
				continue
			}
			s, t := a.Sub(w.A).Dot(w.Along), b.Sub(w.A).Dot(w.Along)
			if math.Max(s, t) < 0 || math.Min(s, t) > w.LengthMM {
				continue
			}
			inside := func(q plan.Point) float64 { return -q.Sub(w.A).Dot(w.Outward) }
			if gap := math.Min(inside(a), inside(b)) - p.Pipe.OutsideDiameterMM/2; gap < 500 && gap > -p.Pipe.OutsideDiameterMM {
				m.add("pipe.wall-gap", fmt.Sprintf("%s, wall %d", p.Name(), w.Index+1), gap, m.onRun((p.FromMM+p.ToMM)/2))
			}
		}
	}
}

// pipeFlow holds the shower's flow against the flattest piece running full.
func (m *measurer) pipeFlow() {
	flow := m.Job.Water.TotalLPS()
	worst, where := 0.0, waste.Piece{}
	for _, p := range m.Heights.Run.Pieces {
		if p.Kind == waste.Drop || p.Kind == waste.Reducer || p.LengthMM() < 1e-6 {
			continue
		}
		full, _ := hydraulic.ColebrookWhite(p.Pipe.BoreMM, 1, p.Gradient())
		if full <= 0 {
			continue // a backfall has its own finding
		}
		if share := flow / full; share > worst*(1+1e-9) {
			worst, where = share, p
		}
	}
	if worst > 0 {
		m.add("pipe.flow-share", where.Name(), worst, m.onRun((where.FromMM+where.ToMM)/2))
	}
}

func (m *measurer) exit() {
	r, e := m.Heights.Run, m.Job.Waste.Exit
	if len(r.Pieces) == 0 {
		return
	}
	pipe := r.Outgoing()
	at := m.onRun(r.ExitAtMM)
	if e.InvertMM != nil {
		m.add("exit.too-low", "Exit", math.Max(0, *e.InvertMM-r.InvertAt(r.ExitAtMM)), at)
	}
	if e.Kind == job.ExitFloor {
		overlap := 0.0
		for _, js := range m.Layout.Joists {
			off := math.Abs(r.Exit.Sub(js.Origin).Dot(plan.Left(js.Along)))
			overlap = math.Max(overlap, js.WidthMM/2+pipe.OutsideDiameterMM/2+joist.ClearanceMM-off)
		}
		m.add("exit.in-joist", "Drop through the floor", overlap, at)
	}
	if e.Kind != job.ExitWall {
		return
	}
	w, wall := m.Layout.Walls[e.Wall], m.Job.Room.Walls[e.Wall]
	if wall.OutsideGroundMM != nil {
		out := m.onRun(r.LengthMM)
		m.add("exit.above-ground", "Exit", r.InvertAt(r.LengthMM)-pipe.WallMM()-*wall.OutsideGroundMM, out)
	}
	half := pipe.OutsideDiameterMM / 2
	m.add("exit.off-corner", "Exit", math.Min(e.OffsetMM, w.LengthMM-e.OffsetMM)-half-8, at)
	if wall.Kind == job.WallStud {
		m.add("exit.in-stud", fmt.Sprintf("Exit, wall %d", e.Wall+1), studOverlap(wall, e.OffsetMM, half), at)
	}
}

// studOverlap is how far a hole of the given half width reaches into the
// nearest stud; 0 when it is clear.
func studOverlap(w job.Wall, atMM, halfMM float64) float64 {
	k := math.Round((atMM - w.FirstStudMM) / w.StudSpacingMM)
	stud := w.FirstStudMM + math.Max(0, k)*w.StudSpacingMM
	return math.Max(0, w.StudWidthMM/2+halfMM-math.Abs(atMM-stud))
}

func (m *measurer) trap() {
	h, l, d := m.Heights, m.Layout, m.Job.Drain
	at := lift(l.TrapCentre, h.TrapMM)
	m.add("trap.seal", "Trap", d.SealMM, at)
	share := math.Inf(1)
	if d.CapacityLPS > 0 {
		share = m.Job.Water.TotalLPS() / d.CapacityLPS
	}
	m.add("trap.flow-share", "Trap", share, at)
	floor := m.Heights.Survey.Floor
	worst := math.Inf(-1)
	for _, poly := range l.Trap {
		for _, q := range poly.Outer {
			worst = math.Max(worst, floor.At(q)-h.TrapMM)
		}
	}
	if m.Job.Base.Support != job.BetweenJoists {
		m.add("trap.into-floor", "Trap", math.Max(0, worst), at)
		return
	}
	deck, depth := m.Job.Floor.Deck.ThicknessMM, m.Job.Floor.Joists.DepthMM
	m.add("trap.below-joists", "Trap", math.Max(0, worst-deck-depth), at)
	if worst <= deck {
		return
	}
	for _, js := range l.Joists {
		// How far the trap reaches into the joist, square to it, when they
		// meet at all.
		if area := js.Footprint.Intersect(l.Trap).Area(); area > 1 {
			low, high := math.Inf(1), math.Inf(-1)
			for _, q := range l.Trap[0].Outer {
				v := q.Sub(js.Origin).Dot(plan.Left(js.Along))
				low, high = math.Min(low, v), math.Max(high, v)
			}
			overlap := math.Min(high, js.WidthMM/2) - math.Max(low, -js.WidthMM/2)
			m.add("trap.in-joist", fmt.Sprintf("Joist %d", js.Number), overlap, at)
		}
	}
}

// strength holds the joists against the load of the new floor, whole and at
// every cut.
func (m *measurer) strength() {
	if m.Job.Floor.Kind != job.FloorTimber || len(m.Layout.Joists) == 0 {
		return
	}
	b := joist.BeamOf(m.Job, m.Layout, m.Heights)
	js := m.Layout.Joists[len(m.Layout.Joists)/2]
	middle := js.Origin.Add(js.Along.Mul((js.FromMM + js.ToMM) / 2))
	at := lift(middle, joist.TopMM(m.Job, m.Heights, js, middle))
	m.add("joist.bending-share", "Joists, uncut", b.BendingShare(b.Whole(b.SpanMM/2)), at)
	m.add("joist.shear-share", "Joists, uncut", b.ShearShare(b.Whole(0)), at)
	m.add("joist.stiffness", "Joists", b.SpanMM/b.DeflectionMM(b.LiveKNM), at)
	m.add("joist.final-stiffness", "Joists", b.SpanMM/b.FinalDeflectionMM(), at)
	if _, known := joist.GradeOf(m.Job.Floor.Joists.Grade); !known {
		m.add("joist.grade-unknown", "Joists", 1, at)
	}
	for _, c := range m.Joists {
		subject := fmt.Sprintf("Joist %d, %s", c.Joist.Number, c.Piece)
		place := lift(c.At, (c.EntryLevelMM+c.ExitLevelMM)/2)
		net := b.NetAt(c)
		m.add("joist.bending-share", subject, b.BendingShare(net), place)
		m.add("joist.shear-share", subject, b.ShearShare(net), place)
	}
}

func (m *measurer) joistCuts() {
	cuts := m.Joists
	if len(cuts) > 0 && m.Job.Floor.Joists.Engineered {
		m.add("joist.engineered-cut", "Joists", float64(len(cuts)), lift(cuts[0].At, cuts[0].TopMM))
	}
	for i, c := range cuts {
		at := lift(c.At, (c.EntryLevelMM+c.ExitLevelMM)/2)
		subject := fmt.Sprintf("Joist %d, %s", c.Joist.Number, c.Piece)
		m.add("joist.cut-depth", subject, c.DepthMM(), at)
		switch c.Kind {
		case joist.Hole:
			m.add("joist.hole-size", subject, (c.CutHighMM()-c.CutLowMM())/c.DepthMM(), at)
			m.add("joist.hole-zone", subject, c.ZoneShare(), at)
			m.add("joist.hole-edge", subject, math.Min(c.TopMM-c.CutHighMM(), c.CutLowMM()-c.BottomMM), at)
			m.add("joist.hole-off-axis", subject, math.Abs((c.EntryLevelMM+c.ExitLevelMM)-(c.TopMM+c.BottomMM))/2/c.DepthMM(), at)
		case joist.Notch:
			m.add("joist.notch-depth", subject, (c.TopMM-c.CutLowMM())/c.DepthMM(), at)
			m.add("joist.notch-zone", subject, c.ZoneShare(), at)
			m.add("joist.notch-length", subject, c.LengthMM()/c.DepthMM(), at)
		case joist.Severed:
			m.add("joist.severed", subject, math.Min(c.CutHighMM(), c.TopMM)-c.BottomMM, at)
		}
		for _, o := range cuts[:i] {
			if o.Joist.Number != c.Joist.Number {
				continue
			}
			gap := math.Abs(o.MiddleMM() - c.MiddleMM())
			if o.Kind == joist.Hole && c.Kind == joist.Hole {
				m.add("joist.hole-spacing", subject, gap/(2*math.Max(o.RadiusMM, c.RadiusMM)), at)
			} else {
				m.add("joist.notch-to-hole", subject, gap-(o.LengthMM()+c.LengthMM())/2, at)
			}
		}
	}
}

func (m *measurer) base() {
	h, j, l := m.Heights, m.Job, m.Layout
	at := lift(l.FallArea.Centroid(), h.BaseTopMM)
	thickness := h.BaseThicknessMM(j)
	m.add("base.thickness", "Base", thickness, at)
	if j.Base.Support == job.OnFloor {
		m.add("base.thin-by", "Base", math.Max(0, j.Base.MinThicknessMM-thickness), at)
	} else {
		m.add("base.thin-by", "Base", math.Max(0, h.FloorHighMM-j.Floor.Deck.ThicknessMM-h.BaseTopMM), at)
	}
	governing := h.Governing()
	m.add("base.too-low", "Base: "+governing.Name, math.Max(0, governing.BaseTopMM-h.BaseTopMM), governing.At)
	if j.Base.Moulded {
		m.add("base.uneven-cut", "Base board", math.Abs(unevenCut(j)), at)
	}
	if h.Survey.WorstIndex >= 0 {
		spot := j.SpotLevels[h.Survey.WorstIndex]
		m.add("floor.residual", fmt.Sprintf("Spot level %d", h.Survey.WorstIndex+1), h.Survey.WorstResidualMM, lift(spot.At, spot.LevelMM))
	}
}

// unevenCut is the difference between the cuts at the end and at the start of
// a moulded board. A shower longer than the board is extended, not cut.
func unevenCut(j job.Job) float64 {
	start, end := BaseCuts(j)
	return end - start
}

// BaseCuts is what is trimmed off a base board at its start and its end to fit
// the shower's width: equally unless the job says otherwise; nothing when the
// shower is longer than the board.
func BaseCuts(j job.Job) (startMM, endMM float64) {
	spare := math.Max(0, j.Base.BoardLengthMM-j.Shower.WidthMM)
	start := spare / 2
	if j.Base.CutAtStartMM != nil {
		start = math.Min(spare, *j.Base.CutAtStartMM)
	}
	return start, spare - start
}

func (m *measurer) falls() {
	l, h, j := m.Layout, m.Heights, m.Job
	cells := l.Fall.Cells(l.FallArea.Subtract(l.Drain))
	n := 0
	for i, cell := range cells {
		// The level strip behind a wall drain has a finding of its own.
		if len(cell) == 0 || i == 0 {
			continue
		}
		n++
		centre := cell.Centroid()
		m.add("floor.fall", fmt.Sprintf("Plane %d", n), l.Fall[i].Gradient(), lift(centre, h.ShowerAt(l, centre)))
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range l.Corners {
		low, high = math.Min(low, h.Survey.Floor.At(c)), math.Max(high, h.Survey.Floor.At(c))
	}
	m.add("floor.out-of-level", "Structural floor", high-low, lift(l.FallArea.Centroid(), h.FloorHighMM))
	at := lift(l.DrainEdge, h.FlangeMM)
	m.add("former.thin-by", "Former", math.Max(0, j.Drain.LeastFormerMM-j.Former.ThicknessAtDrainMM), at)
	side := math.Min(j.Shower.WidthMM, j.Shower.DepthMM)
	middle := lift(l.Shower.Centroid(), h.TileMM)
	m.add("shower.least-side", "Shower", side, middle)
	m.add("shower.area", "Shower", l.Shower.Area(), middle)
}

func (m *measurer) steps() {
	h, j, l := m.Heights, m.Job, m.Layout
	for _, e := range h.Edges(j, l) {
		p := e.Edge.Middle()
		m.add("step.edge", sideLabel(e.Edge.Side), math.Abs(e.WorstStepMM()), lift(p, e.ShowerA))
		if j.Room.Edge == job.EdgeRamp && j.Room.RampRunMM > 0 {
			m.add("step.ramp", sideLabel(e.Edge.Side), h.RampSurface(j, l, e.Edge)[0].Gradient(), lift(p, e.RoomA))
		}
	}
	for _, d := range l.Doors {
		p := d.Middle()
		m.add("step.door", fmt.Sprintf("Doorway %d", d.Index+1), math.Abs(h.DoorStepMM(j, l, d)), lift(p, h.FinishedAt(j, l, p)))
		if len(d.Sweep) == 0 {
			continue
		}
		door := j.Room.Doorways[d.Index]
		gap, at := m.leafGap(d, door.NeighbourFFLMM+door.LeafGapMM)
		m.add("door.leaf-gap", fmt.Sprintf("Doorway %d", d.Index+1), gap, at)
	}
}

func sideLabel(s layout.Side) string {
	return map[layout.Side]string{layout.Back: "Back edge", layout.Right: "Right edge", layout.Front: "Front edge", layout.Left: "Left edge"}[s]
}

// leafGap is the least height between the underside of a leaf and the finished
// floor it sweeps over. Floors are planes: the least is over a corner of the
// parts of the sweep.
func (m *measurer) leafGap(d layout.Doorway, leafMM float64) (gap float64, at mgl64.Vec3) {
	gap = math.Inf(1)
	over := func(region plan.Region) {
		for _, poly := range region {
			c := poly.Outer
			middle := (plan.Region{poly}).Centroid()
			for _, p := range c {
				// Just inside, so that a corner on the shower's edge is judged
				// by the floor the part lies on.
				q := p.Add(middle.Sub(p).Mul(1e-6))
				z := m.Heights.FinishedAt(m.Job, m.Layout, q)
				if g := leafMM - z; g < gap {
					gap, at = g, lift(q, z)
				}
			}
		}
	}
	over(d.Sweep.Subtract(m.Layout.FallArea))
	over(d.Sweep.Intersect(m.Layout.FallArea))
	return gap, at
}

func (m *measurer) drain() {
	h, j, l := m.Heights, m.Job, m.Layout
	at := lift(l.DrainCentre, h.TileMM)
	need := h.TileMM - h.FlangeMM
	m.add("cover.short-by", "Drain cover", math.Max(0, need-j.Drain.CoverGreatestMM), at)
	m.add("cover.proud-by", "Drain cover", math.Max(0, j.Drain.CoverLeastMM-need), at)
	if j.Former.Fall.Linear() && j.Former.Fall != job.FallMid && m.drainAtWall() {
		spare := j.Drain.WallClearanceMM - j.Layers.Wall.ThicknessMM()
		m.add("drain.strip", "Drain", math.Max(0, spare), at)
		m.add("drain.under-wall", "Drain", math.Max(0, -spare), at)
	}
}

// drainAtWall tells whether the side the drain stands at has a wall along the
// drain.
func (m *measurer) drainAtWall() bool {
	side := map[job.FallKind]layout.Side{job.FallBack: layout.Back, job.FallLeft: layout.Left, job.FallRight: layout.Right, job.FallFront: layout.Front}[m.Job.Former.Fall]
	for _, e := range m.Layout.Edges {
		if e.Side == side && e.Wall >= 0 {
			return true
		}
	}
	return false
}

// water holds what the floor and the pipes do with the shower's water.
func (m *measurer) water() {
	w := m.Water
	if w.FlowLPS <= 0 {
		return
	}
	at := lift(m.Layout.DrainCentre, m.Heights.TileMM)
	if w.InletLPS > 0 {
		m.add("inlet.flow-share", "Drain cover", w.FlowLPS/w.InletLPS, at)
	}
	slowest, where := math.Inf(1), waste.Piece{}
	for _, p := range w.Pieces {
		if p.Piece.Gradient() > 0 && p.VelocityMPS < slowest-1e-9 {
			slowest, where = p.VelocityMPS, p.Piece
		}
	}
	if !math.IsInf(slowest, 1) {
		m.add("pipe.velocity", where.Name(), slowest, m.onRun((where.FromMM+where.ToMM)/2))
	}
	if !math.IsInf(w.Reserve.Minutes, 1) {
		m.add("water.reserve", w.Reserve.Where, w.Reserve.Minutes, w.Reserve.At)
	}
}

// Electrical zone 1 without a tray reaches this far from the outlet's centre
// and this high: BS 7671 701.32.3.
const zoneOneHeightMM = 2250

func (m *measurer) cautions() {
	h, l := m.Heights, m.Layout
	middle := l.Shower.Centroid()
	floor := lift(middle, h.ShowerAt(l, middle))
	m.add("caution.electrics", "Shower", zoneOneHeightMM, floor)
	if len(m.Joists) > 0 || m.Job.Floor.Kind == job.FloorTimber {
		at := lift(middle, h.FloorHighMM)
		if len(m.Joists) > 0 {
			at = lift(m.Joists[0].At, m.Joists[0].TopMM)
		}
		m.add("caution.structure", "Timber floor", float64(len(m.Joists)), at)
	}
	if m.Job.Waste.Exit.Kind != job.ExitPipe && len(h.Run.Pieces) > 0 {
		m.add("caution.services", "Exit", 1, m.onRun(h.Run.ExitAtMM))
	}
	for _, c := range []struct{ quantity, subject string }{{"caution.dust", "Tile and boards"}, {"caution.solvent", "Waste run"},
		{"caution.gas", "Trap"}, {"caution.slip", "Floor tile"}, {"caution.scald", "Shower"}, {"caution.covering", "Waste run and membrane"}} {
		m.add(c.quantity, c.subject, 1, floor)
	}
}
