package measure

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/clash"
	"underfall/geometry/hydraulic"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

func (m *Measurer) trap() {
	h, l := &m.Heights, &m.Layout
	at := l.TrapCentre.Vec3(h.TrapMM)
	m.trapWater(at)
	outlet := outletOf(&m.Levelled)
	capacity := outlet.LPS(job.UsualHeadMM)
	var tags []string
	if outlet.Basis() == hydraulic.FromOrifice {
		tags = append(tags, "estimated")
	}
	m.add("trap.flow-share", of(rule.Trap), m.Settled.Water.TotalLPS()/capacity, at, tags...)
	worst := math.Inf(-1)
	for _, poly := range l.Trap {
		for _, q := range poly.Outer {
			worst = max(worst, h.Ground.At(q)-h.TrapMM)
		}
	}
	if m.Settled.Base.Support != job.BetweenJoists {
		m.add("trap.into-floor", of(rule.Trap), max(0, worst+h.ProudMM), at)
		return
	}
	deck, depth := m.Settled.Floor.Deck.ThicknessMM, m.Settled.Floor.Joists.DepthMM
	m.add("trap.below-joists", of(rule.Trap), max(0, worst-deck-depth), at)
	if len(l.Trap) == 0 || h.TrapMM >= h.FlangeMM {
		return
	}
	body := m.trapBody()
	due := m.pair(clash.Trap, clash.Joist)
	if due.Meant != clash.Apart {
		due.ClearMM = math.NaN()
	}
	for _, js := range m.nearJoists(l.Trap[0].Outer, h.TrapMM, h.FlangeMM, besideMM) {
		if over := due.ClearMM - body.GapWithin(m.joistBody(js), due.ClearMM+joinMM).GapMM; !(over <= 0) {
			m.add("trap.in-joist", timberBy(rule.TrapInJoist, js), over, at)
		}
	}
}

// trapWater measures whether the trap's water has its room in the body, and its way out.
func (m *Measurer) trapWater(at mgl64.Vec3) {
	h, j := &m.Heights, &m.Settled
	t := h.Trap(j, &m.Layout)
	var tags []string
	if j.Waste.Gully() != nil {
		tags = append(tags, tagGully)
	}
	m.add("trap.seal", of(rule.Trap), t.SealMM, at, tags...)
	m.add("trap.water-short-by", of(rule.Trap), t.ShortByMM, at)
	m.add("trap.weir-over-channel", of(rule.Trap), max(0, t.WaterMM-h.ChannelMM), at)
	m.add("trap.outlet-over-weir", of(rule.Trap), t.OverWeirMM, at)
	m.add("trap.inner-weir", of(rule.Trap), t.InnerWeirMM, at)
	m.add("trap.passage-share", of(rule.Trap), math.Pi*j.Waste.BoreMM*j.Waste.BoreMM/4/t.PassageMM2(), at)
	mismatch := math.Abs(j.Drain.OutletNominalMM - j.Waste.NominalMM)
	if first := h.Run.Pieces; len(first) > 0 && first[0].Tapers() {
		mismatch = 0
	}
	m.add("trap.outlet-mismatch", of(rule.TrapOutlet), mismatch, m.Layout.Outlet.Vec3(h.OutletMM))
}

// strength holds the joists against the load of the new floor, whole and at
// every cut. Rules that name no load, as the common ones by themselves, have nothing to
// hold them against.
func (m *Measurer) strength() {
	load := joist.Imposed{KNM2: m.Pack.FloorLoad.KNM2, PointKN: m.Pack.FloorLoad.PointKN}
	if len(m.Layout.Joists) == 0 || load.KNM2 <= 0 {
		return
	}
	js := &m.Layout.Joists[m.middleJoist()]
	middle := js.Origin.Add(js.Along.Mul((js.FromMM + js.ToMM) / 2))
	at := middle.Vec3(joist.TopMM(&m.Settled, &m.Heights, js, middle))
	if m.Settled.Floor.Joists.Timber == nil {
		m.add("joist.grade-unknown", of(rule.Joists), 1, at)
	}
	if js.Trimmed() {
		// None is left that bears alone, between supports, what lies on it.
		return
	}
	b := joist.BeamOf(m.Settled, m.Layout, m.addedKNM2(), load)
	m.add("joist.bending-share", of(rule.JoistsUncut), b.BendingShare(b.Whole(b.SpanMM/2)), at)
	m.add("joist.shear-share", of(rule.JoistsUncut), b.ShearShare(b.Whole(0)), at)
	var tags []string
	layers := &m.Settled.Layers
	if layers.Shower.Surface == job.SurfaceStone || m.Settled.RoomFinished() && layers.Room.Surface == job.SurfaceStone {
		tags = append(tags, tagStone)
	}
	m.add("joist.stiffness", of(rule.Joists), b.SpanMM/b.DeflectionMM(b.LiveKNM), at, tags...)
	m.add("joist.frequency", of(rule.Joists), b.FrequencyHz(), at)
	m.add("joist.final-stiffness", of(rule.Joists), b.SpanMM/b.FinalDeflectionMM(), at)
	m.bearing(b, at)
	for i := range m.Crossings() {
		c := &m.Crossings()[i]
		if c.Joist.Trimmed() {
			continue
		}
		subject := CutOf(c)
		place := c.At.Vec3(c.LevelMM())
		net := b.NetAt(*c)
		m.add("joist.bending-share", subject, b.BendingShare(net), place)
		m.add("joist.shear-share", subject, b.ShearShare(net), place)
	}
}

// bearing measures what joists bear with on their supports, uncut, and where cuts lie there or near.
// Allowable stresses of American practice have none across the grain: there the length alone counts.
func (m *Measurer) bearing(b joist.Beam, at mgl64.Vec3) {
	contacts := joist.Contacts(&m.Settled, &m.Layout, b)
	if len(contacts) == 0 {
		return
	}
	add := func(s rule.Subject, c joist.Contact, cuts []plan.Interval, at mgl64.Vec3) {
		bears, _ := c.Left(cuts)
		m.add("joist.bearing", s, bears, at)
		if !b.Timber.Allowable {
			m.add("joist.bearing-share", s, b.BearingShare(c, cuts), at)
		}
	}
	worst := slices.MaxFunc(contacts, func(c, o joist.Contact) int { return cmp.Compare(b.BearingShare(c, nil), b.BearingShare(o, nil)) })
	add(of(rule.JoistsUncut), worst, nil, at)
	for i := range m.Crossings() {
		c := &m.Crossings()[i]
		if c.Joist.Trimmed() {
			continue
		}
		span := func(c *joist.Crossing) plan.Interval {
			return plan.Interval{From: c.MiddleMM() - c.LengthMM()/2, To: c.MiddleMM() + c.LengthMM()/2}
		}
		near := slices.IndexFunc(contacts, func(o joist.Contact) bool { return o.Near(span(c)) })
		if near < 0 {
			continue
		}
		var cuts []plan.Interval
		for k := range m.Crossings() {
			if o := &m.Crossings()[k]; o.Joist.Index == c.Joist.Index {
				cuts = append(cuts, span(o))
			}
		}
		slices.SortFunc(cuts, func(a, b plan.Interval) int { return cmp.Compare(a.From, b.From) })
		add(CutOf(c), contacts[near], cuts, c.At.Vec3(c.LevelMM()))
	}
}

// addedKNM2 is what the new floor of the shower weighs where the joist that bears most of it
// takes its share: half the way to the joists beside it. The drain's own weight is left out.
//
// Method: a part of a falling plane, on a joist or between two, weighs what it does at its
// middle for all of its area. A joist that only an edge of the shower lies on has the less to
// bear, for the area of a whole share.
func (m *Measurer) addedKNM2() float64 {
	l := &m.Layout
	across, halfMM, apartMM := plan.Left(l.JoistAlong), m.Settled.Floor.Joists.WidthMM/2, m.Settled.Floor.Joists.SpacingMM/2
	cells := []plan.Region{l.Level}
	for k := range l.Planes {
		cells = append(cells, l.Planes[k].Region)
	}
	var greatestMM2, most float64
	for i := range l.Joists {
		js := &l.Joists[i]
		if js.Member == layout.Trimmer || js.Member == layout.SecondJoist {
			continue
		}
		middle := js.Origin.Dot(across)
		areaMM2, weight := 0.0, 0.0
		for _, between := range [3][2]float64{{-apartMM, -halfMM}, {-halfMM, halfMM}, {halfMM, apartMM}} {
			for _, cell := range cells {
				part := cell.Where(func(p plan.Point) float64 { return p.Dot(across) - middle - between[0] }).
					Where(func(p plan.Point) float64 { return middle + between[1] - p.Dot(across) })
				if a := part.Area(); a > plan.HairMM {
					areaMM2 += a
					weight += a * m.buildUp().AddedKNM2(part.Centroid())
				}
			}
		}
		greatestMM2, most = max(greatestMM2, areaMM2), max(most, weight)
	}
	if greatestMM2 == 0 {
		return m.buildUp().AddedKNM2(l.FallArea.Centroid())
	}
	return most / greatestMM2
}

// middleJoist is the index of a joist amid the floor, of those that no opening takes part
// of where there are any.
func (m *Measurer) middleJoist() int {
	middle := len(m.Layout.Joists) / 2
	for off := range len(m.Layout.Joists) {
		for _, i := range [2]int{middle + off, middle - off} {
			if i >= 0 && i < len(m.Layout.Joists) && !m.Layout.Joists[i].Trimmed() {
				return i
			}
		}
	}
	return middle
}

// freeEnds measures how far joists run on at most past the first or the last line of support that is
// stated, and how much that is at most of the span behind it. None are free where the joists rest on
// the walls of the room.
func (m *Measurer) freeEnds() {
	l, supports := &m.Layout, m.Settled.Floor.Joists.SupportsMM
	if len(supports) < 2 || len(l.Joists) == 0 {
		return
	}
	const asFarMM = 0.01 // under which joists run on as far
	last := len(supports) - 1
	var free, share greatest
	for i := range l.Joists {
		js := &l.Joists[i]
		if js.Member == layout.Trimmer || js.Member == layout.SecondJoist {
			continue
		}
		end := func(hung bool, pastMM, spanMM, atMM float64) {
			if hung {
				return
			}
			p := js.Origin.Add(js.Along.Mul(atMM))
			at := p.Vec3(joist.TopMM(&m.Settled, &m.Heights, js, p))
			free.of(max(0, pastMM), asFarMM, at)
			share.of(max(0, pastMM)/spanMM, asFarMM/spanMM, at)
		}
		end(js.HungStart, supports[0]-js.FromMM, supports[1]-supports[0], js.FromMM)
		end(js.HungEnd, js.ToMM-supports[last], supports[last]-supports[last-1], js.ToMM)
	}
	if free.n > 0 {
		m.add("joist.free-end", of(rule.JoistEnds), free.value, free.at)
		m.add("joist.free-end-share", of(rule.JoistEnds), share.value, share.at)
	}
}

// greatest is the greatest of values and its place; of several that are the same, in their middle.
type greatest struct {
	value float64
	at    mgl64.Vec3
	n     float64
}

// of takes a value in, which is the same as one that differs by no more than so much.
func (g *greatest) of(value, same float64, at mgl64.Vec3) {
	switch {
	case g.n == 0 || value > g.value+same:
		*g = greatest{value, at, 1}
	case value >= g.value-same:
		g.at, g.n = g.at.Mul(g.n/(g.n+1)).Add(at.Mul(1/(g.n+1))), g.n+1
	}
}

// engineeredCut counts the cuts in joists that must not be cut: those of the run, and those
// cut out.
func (m *Measurer) engineeredCut(cuts []joist.Crossing) {
	out := m.Layout.CutOuts
	n := float64(len(cuts) + len(out))
	switch {
	case len(cuts) > 0:
		m.add("joist.engineered-cut", of(rule.Joists), n, cuts[0].At.Vec3(cuts[0].TopMM))
	case len(out) > 0:
		m.add("joist.engineered-cut", of(rule.Joists), n, m.cutOutAt(&out[0]))
	}
}

func (m *Measurer) joistCuts() {
	cuts := m.Crossings()
	if m.Settled.Floor.Joists.Engineered {
		m.engineeredCut(cuts)
	}
	for i := range cuts {
		c := &cuts[i]
		at := c.At.Vec3(c.LevelMM())
		subject := CutOf(c)
		m.add("joist.cut-depth", subject, c.DepthMM(), at)
		switch c.Kind {
		case joist.Hole:
			m.share("joist.hole-size", subject, c.SizeMM(), c.DepthMM(), at)
			m.share("joist.hole-zone", subject, c.SupportMM, c.SpanMM, at)
			m.add("joist.hole-edge", subject, min(c.TopMM-c.CutHighMM(), c.CutLowMM()-c.BottomMM), at)
			m.share("joist.hole-off-axis", subject, math.Abs((c.EntryLevelMM+c.ExitLevelMM)-(c.TopMM+c.BottomMM))/2, c.DepthMM(), at)
		case joist.Notch:
			depth := m.share("joist.notch-depth", subject, c.TopMM-c.CutLowMM(), c.DepthMM(), at)
			depth.Facts = map[string]float64{"zoneShare": c.ZoneShare()}
			m.share("joist.notch-zone", subject, c.SupportMM, c.SpanMM, at)
			m.share("joist.notch-length", subject, c.LengthMM(), c.DepthMM(), at)
		case joist.Severed:
			m.add("joist.severed", subject, min(c.CutHighMM(), c.TopMM)-c.BottomMM, at)
		}
		// Held against the nearest of the cuts before it in the same joist.
		apart, larger, between := math.Inf(1), 1.0, math.Inf(1)
		for k := range cuts[:i] {
			o := &cuts[k]
			if o.Joist.Index != c.Joist.Index {
				continue
			}
			gap := math.Abs(o.MiddleMM() - c.MiddleMM())
			if o.Kind == joist.Hole && c.Kind == joist.Hole {
				if of := max(o.SizeMM(), c.SizeMM()); gap/of < apart/larger {
					apart, larger = gap, of
				}
			} else {
				between = min(between, gap-(o.LengthMM()+c.LengthMM())/2)
			}
		}
		if !math.IsInf(apart, 1) {
			m.share("joist.hole-spacing", subject, apart, larger, at)
		}
		if !math.IsInf(between, 1) {
			m.add("joist.notch-to-hole", subject, between, at)
			m.share("joist.notch-to-hole-depths", subject, between, c.DepthMM(), at)
		}
	}
}
