package measure

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/hydraulic"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
	"underfall/geometry/waste"
)

// onRun is the point of the pipe's axis at a distance along the run.
func (m *Measurer) onRun(at float64) mgl64.Vec3 {
	if m.withoutPlaces {
		return mgl64.Vec3{}
	}
	r := &m.Heights.Run
	return r.PointAt(at).Vec3(r.InvertAt(at) + r.PipeAt(at).BoreMM/2)
}

func (m *Measurer) run() {
	r := &m.Heights.Run
	for _, t := range r.Trouble {
		at := t.At.Vec3(m.Heights.OutletMM)
		switch t.Kind {
		case waste.NoBend:
			m.add("run.turn-off", m.inTrouble(t), math.Abs(t.Value-nearestBend(t)), at)
		case waste.NoRoom:
			short := m.add("run.leg-short", m.inTrouble(t), t.Limit-t.Value, at)
			short.NeedsMM, short.HasMM = t.Limit, t.Value
		case waste.NoPlace:
			m.add("run.fitting-misplaced", m.inTrouble(t), t.Value, at)
		case waste.NothingLeft:
			m.add("run.nothing", of(rule.WasteRun), 0, at)
		}
	}
	if len(r.Pieces) == 0 {
		return
	}
	middle := m.onRun(r.LengthMM / 2)
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if p.Kind == waste.Drop || p.Kind == waste.Joint || p.LengthMM() < joinMM {
			continue // a joint falls as the pipe after it
		}
		at := m.onRun((p.FromMM + p.ToMM) / 2)
		var tags []string
		if p.Kind == waste.FallingPiece {
			tags = append(tags, "falling-piece")
		}
		if m.partlyVented() && p.FromMM >= m.circumstances.unventedMM-joinMM {
			tags = append(tags, stage.TagVentilated)
		}
		if p.Tapers() {
			if p.Reversed {
				rise := p.Pipe.BoreMM - p.After.BoreMM
				m.add("reducer.rise", ofPiece(p), max(0, rise), at)
				m.add("reducer.loss", ofPiece(p), max(0, -rise), at)
			}
			continue
		}
		gradient := m.add("pipe.gradient", ofPiece(p), p.Gradient(), at, tags...)
		gradient.Facts = m.factsOf(p.Pipe.NominalMM)
	}
	m.lengths(middle)
	ends, run := r.ExitAtMM, of(rule.WasteRun)
	if m.partlyVented() && m.circumstances.unventedMM < ends {
		ends, run = m.circumstances.unventedMM, of(rule.WasteRunToVent)
	}
	m.add("run.fall-in-bores", run, (r.InvertAt(0)-r.InvertAt(ends))/m.Settled.Waste.BoreMM, middle)
	m.add("run.drop", run, r.InvertAt(0)-r.InvertAt(ends), middle)
	m.narrows(middle)
	m.vent()
	size := m.add("trap.size", of(rule.TrapAndWaste), m.Settled.Waste.NominalMM, m.onRun(0))
	size.Facts = map[string]float64{"flowLPS": m.Settled.Water.TotalLPS()}
	m.add("pipe.unruled", of(rule.WasteRun), unruled(m.Pack, m.Settled.Waste.NominalMM), middle)
	m.cover()
	m.underside()
	m.wallGaps()
	m.pipeFlow()
}

// narrows measures by how much the run's pipe is smaller anywhere than before, and than
// where it leaves the trap; and how far it goes on from there before it first gets larger.
func (m *Measurer) narrows(at mgl64.Vec3) {
	first := m.Settled.Waste.NominalMM
	widest, smallest, by := first, first, 0.0
	for i := range m.Heights.Run.Pieces {
		if p := &m.Heights.Run.Pieces[i]; p.Tapers() {
			after := p.After.NominalMM
			if after > first && widest == first {
				m.add("run.tail", of(rule.WasteRun), p.FromMM, m.onRun(p.FromMM))
			}
			by, widest, smallest = max(by, widest-after), max(widest, after), min(smallest, after)
		}
	}
	m.add("run.narrows-by", of(rule.WasteRun), by, at)
	m.add("run.under-trap-by", of(rule.WasteRun), first-smallest, at)
}

// vent measures the vent of the run, and where none is stated and no stack joined that is
// one.
func (m *Measurer) vent() {
	v, length := m.Settled.Waste.Vent, m.Heights.Run.LengthMM
	if v == nil {
		if m.Settled.Waste.Exit.Kind != job.ExitStack {
			m.add("vent.none", of(rule.WasteRun), 1, m.onRun(length))
		}
		return
	}
	at := m.onRun(min(v.AtMM, length))
	m.add("vent.distance", of(rule.Vent), v.AtMM, at)
	m.add("vent.size", of(rule.Vent), v.NominalMM, at)
	m.add("vent.past-end", of(rule.Vent), max(0, v.AtMM-length), at)
	if _, in := m.Settled.StackAsVent(length); in {
		return // it stands where the stack does
	}
	if p := m.Heights.Run.PointAt(min(v.AtMM, length)); m.Layout.FallArea.Contains(p, 0) {
		m.add("vent.in-shower", of(rule.Vent), m.intoFloor(p, v.NominalMM/2), at)
	} else if m.Layout.Room.Contains(p, 0) {
		m.add("vent.off-wall", of(rule.Vent), m.Layout.Room.EdgeMM(p), at)
	}
}

// partlyVented tells that a vent serves the run from some way along it only.
func (m *Measurer) partlyVented() bool {
	return m.circumstances.unventedMM > 0 && m.circumstances.unventedMM < m.Heights.Run.LengthMM-joinMM
}

// lengths measures the run as a whole, its length held against the pipe it ends
// in, and where a reducer changes the size each size by itself. What no vent serves is
// measured as far as that.
func (m *Measurer) lengths(middle mgl64.Vec3) {
	r := &m.Heights.Run
	m.add("run.bends", of(rule.WasteRun), float64(r.Bends), middle)
	last, ends := r.Outgoing().NominalMM, r.LengthMM
	if m.partlyVented() {
		m.add("run.length", of(rule.WasteRun), ends, middle, stage.TagVentilated).Facts = m.factsOf(last)
		ends = m.circumstances.unventedMM
		last = r.PipeAt(ends).NominalMM
		m.add("run.length", of(rule.WasteRunToVent), ends, middle).Facts = m.factsOf(last)
	} else {
		m.add("run.length", of(rule.WasteRun), ends, middle).Facts = m.factsOf(last)
	}
	if last == m.Settled.Waste.NominalMM {
		return
	}
	bySize := map[float64]float64{}
	var sizes []float64
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if _, ok := bySize[p.Pipe.NominalMM]; !ok && p.FromMM < ends {
			sizes = append(sizes, p.Pipe.NominalMM)
		}
		bySize[p.Pipe.NominalMM] += max(0, min(p.ToMM, ends)-p.FromMM)
	}
	for _, s := range sizes {
		m.add("run.length", rule.Subject{Of: rule.WasteRunOfSize, Number: int(math.Round(s))}, bySize[s], middle).Facts = stage.PipeFacts(s)
	}
}

// unruled is 1 when a pack limits the gradient of some pipe sizes but not of
// this one.
func unruled(p rule.Pack, nominalMM float64) float64 {
	bySize := false
	for _, r := range p.Rules {
		if between, ok := r.When.Facts["nominalMM"]; ok && r.Quantity == "pipe.gradient" {
			if nominalMM >= between[0] && nominalMM <= between[1] {
				return 0
			}
			bySize = true
		}
	}
	if bySize {
		return 1
	}
	return 0
}

// nearestBend is the turn a trouble's corner should make.
func nearestBend(t waste.Trouble) float64 {
	if t.Number == 0 {
		return 0
	}
	return t.Limit
}

// of is the only thing of its kind.
func of(t rule.Thing) rule.Subject { return rule.Subject{Of: t} }

// ofPiece is a piece of the run.
func ofPiece(p *waste.Piece) rule.Subject { return pieceBy(rule.Piece, p, 0) }

// pieceBy is a piece of the run by what it meets, which has a number.
func pieceBy(t rule.Thing, p *waste.Piece, number int) rule.Subject {
	return rule.Subject{Of: t, Number: number, Piece: p.Name()}
}

// inTrouble is what cannot be put together as stated.
func (m *Measurer) inTrouble(t waste.Trouble) rule.Subject {
	switch t.Kind {
	case waste.NoRoom:
		return rule.Subject{Of: rule.Leg, Piece: t.From, Number: t.To.Number, Which: t.To.ID}
	case waste.NoPlace:
		return rule.Subject{Of: rule.InLineFitting, Number: t.Number, Which: fittingName(m.Settled.Waste.Fittings[t.Number-1].Kind)}
	}
	if t.Number == 0 {
		return of(rule.TrapOutlet)
	}
	return rule.Subject{Of: rule.Piece, Piece: t.From}
}

// fittingName is what people call an in-line fitting that is not laid.
func fittingName(k job.FittingKind) message.ID {
	switch k {
	case job.FittingReducer:
		return "fitting.reducer"
	case job.FittingAdaptor:
		return "fitting.adaptor"
	}
	return "fitting.falling-piece"
}

// cover measures what lies over the pipe, and how much of it lies bare.
//
// Method: the run is clipped to the raised floors; crown and floor are straight
// over each stretch, so the least cover is at an end of one. Exact.
func (m *Measurer) cover() {
	m.findStretches()
	h, r := &m.Heights, &m.Heights.Run
	exposed, exposedAt := 0.0, 0.0
	longest, lies := stretch{}, rule.Lies{}
	k := 0
	for i := range r.Pieces {
		p := &r.Pieces[i]
		worst, at := math.Inf(1), 0.0
		for ; k < len(m.plan.stretches) && m.plan.stretches[k].piece == i; k++ {
			t := &m.plan.stretches[k]
			from, to := r.InvertAt(t.fromMM)+p.AboveInvertMM(t.fromMM), r.InvertAt(t.toMM)+p.AboveInvertMM(t.toMM)
			top := h.BaseTopMM
			switch t.under {
			case noFloor:
				// Below what stays on the structural floor nothing needs to cover it.
				bare := above(from-h.Beside.At(t.from), to-h.Beside.At(t.to), t.toMM-t.fromMM)
				if bare -= m.underRamps(t, from, to, bare); bare > joinMM {
					exposed += bare
					exposedAt = (t.fromMM + t.toMM) / 2
					if t.toMM-t.fromMM > longest.toMM-longest.fromMM {
						longest = *t
					}
				}
				continue
			case raisedRoom:
				top = h.RoomTopMM - m.Settled.Layers.Room.ThicknessMM()
			}
			if c := top - from; c < worst {
				worst, at = c, t.fromMM
			}
			if c := top - to; c < worst {
				worst, at = c, t.toMM
			}
		}
		if !math.IsInf(worst, 1) {
			m.add("pipe.cover", ofPiece(p), worst, m.onRun(at))
			if q := r.PointAt(at); m.Layout.FallArea.Contains(q, 0) {
				m.add("pipe.former-over", ofPiece(p), h.FlangeMM+m.Layout.Fall.At(q)-h.FormerMM, m.onRun(at))
			}
		}
	}
	if m.Settled.Waste.Boxing != nil {
		exposed = m.boxed(exposed)
	}
	if exposed > joinMM && longest.toMM > longest.fromMM {
		p := &r.Pieces[longest.piece]
		top := max(r.InvertAt(longest.fromMM)+p.AboveInvertMM(longest.fromMM), r.InvertAt(longest.toMM)+p.AboveInvertMM(longest.toMM))
		lies = m.lies(longest.fromMM, longest.toMM, 2*p.RadiusMM(), top)
	}
	m.add("pipe.exposed", of(rule.WasteRun), exposed, m.onRun(exposedAt)).Lies = lies
}

// raised is what raised floor there is over a part of the run.
type raised uint8

// What there may be.
const (
	shower raised = iota
	raisedRoom
	noFloor
)

// stretch is a straight part of a piece of the run, by its index, under one raised
// floor: its ends as distances along the run and in plan.
type stretch struct {
	piece        int
	under        raised
	fromMM, toMM float64
	from, to     plan.Point
}

// findStretches divides the run as far as its exit by the raised floors over it,
// unless the plan is the one that it divided last.
func (m *Measurer) findStretches() {
	if m.plan.divided {
		return
	}
	m.plan.divided, m.plan.stretches = true, m.plan.stretches[:0]
	r := &m.Heights.Run
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if p.Kind == waste.Drop || p.FromMM >= r.InRoomMM() {
			continue
		}
		if to := min(p.ToMM, r.InRoomMM()); m.withinShower(p) {
			m.plan.stretches = append(m.plan.stretches, stretch{i, shower, p.FromMM, to, p.Path[0], p.PointAt(to)})
			continue
		}
		for s := range p.Stretches {
			if to := min(s.LengthMM, r.InRoomMM()-s.FromMM); to > joinMM {
				m.divide(i, s.FromMM, s.A, s.Along(), to)
			}
		}
	}
}

// withinShower tells whether all of a piece lies under a falling floor without
// corners that point inwards: its crown, and what covers it, are then straight
// along it, bend or not.
func (m *Measurer) withinShower(p *waste.Piece) bool {
	if len(m.Layout.FallArea) != 1 || len(m.Layout.FallArea[0].Holes) > 0 {
		return false
	}
	ring := m.Layout.FallArea[0].Outer
	turn := 1.0
	if ring.SignedArea() < 0 {
		turn = -1
	}
	for i, a := range ring {
		b, c := ring[(i+1)%len(ring)], ring[(i+2)%len(ring)]
		along := b.Sub(a)
		if turn*plan.Cross(along, c.Sub(b)) < 0 {
			return false
		}
		for _, q := range p.Path {
			if turn*plan.Cross(along, q.Sub(a)) < 0 {
				return false
			}
		}
	}
	return true
}

// divide adds the stretches of a line that begins at a distance along the run.
func (m *Measurer) divide(piece int, startMM float64, a, u plan.Point, lengthMM float64) {
	within := func(region plan.Region) []plan.Interval {
		in := region.Clip(a, u)
		out := in[:0]
		for _, iv := range in {
			if from, to := max(0, iv.From), min(lengthMM, iv.To); to-from > joinMM {
				out = append(out, plan.Interval{From: from, To: to})
			}
		}
		return out
	}
	add := func(iv plan.Interval, under raised) {
		m.plan.stretches = append(m.plan.stretches, stretch{piece, under, startMM + iv.From, startMM + iv.To, a.Add(u.Mul(iv.From)), a.Add(u.Mul(iv.To))})
	}
	// fill covers what is left of the line between others.
	fill := func(left, gaps, by []plan.Interval, under raised) []plan.Interval {
		for _, g := range gaps {
			at := g.From
			for _, iv := range by {
				from, to := max(at, iv.From), min(g.To, iv.To)
				if to-from <= joinMM {
					continue
				}
				if from-at > joinMM {
					left = append(left, plan.Interval{From: at, To: from})
				}
				add(plan.Interval{From: from, To: to}, under)
				at = to
			}
			if g.To-at > joinMM {
				left = append(left, plan.Interval{From: at, To: g.To})
			}
		}
		return left
	}
	left := fill(m.room.left[:0], []plan.Interval{{From: 0, To: lengthMM}}, within(m.Layout.FallArea), shower)
	m.room.left = left
	if !math.IsNaN(m.Heights.RoomTopMM) {
		left = fill(nil, left, within(m.Layout.Room), raisedRoom)
	}
	for _, iv := range left {
		add(iv, noFloor)
	}
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
	return length * max(a, b) / (max(a, b) - min(a, b))
}

// underside measures how far pipes reach into or below the structure.
func (m *Measurer) underside() {
	h, r, floor := &m.Heights, &m.Heights.Run, m.Heights.Survey.Floor
	letIn := m.Settled.Base.Support == job.BetweenJoists
	depth := m.Settled.Floor.Deck.ThicknessMM + m.Settled.Floor.Joists.DepthMM
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if p.FromMM >= r.InRoomMM() {
			continue
		}
		worst, at := math.Inf(-1), 0.0
		over := func(s, high float64) {
			if into := high - (r.InvertAt(s) - p.BelowInvertMM(s)); into > worst {
				worst, at = into, s
			}
		}
		for _, s := range []float64{p.FromMM, min(p.ToMM, r.InRoomMM())} {
			if q := p.PointAt(s); letIn {
				over(s, floor.At(q))
			} else {
				over(s, h.HighAt(&m.Layout, q))
			}
		}
		for s, q := range h.Kerbs(&m.Settled, &m.Layout, p, r.InRoomMM()) {
			over(s, h.KerbAt(q))
		}
		if letIn {
			m.add("pipe.below-joists", ofPiece(p), max(0, worst-depth), m.onRun(at))
		} else {
			m.add("pipe.into-floor", ofPiece(p), max(0, worst), m.onRun(at))
		}
	}
}

// wallGaps measures the clear gap of every straight that runs along a wall,
// but for the one that leaves through it.
func (m *Measurer) wallGaps() {
	r := &m.Heights.Run
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if p.Kind != waste.Straight || p.FromMM >= r.InRoomMM() {
			continue
		}
		a, b := p.Path[0], p.Path[len(p.Path)-1]
		along := b.Sub(a).Normalize()
		for _, w := range m.Layout.Walls {
			if math.Abs(plan.Cross(along, w.Along)) > 0.1 {
				continue
			}
			s, t := a.Sub(w.A).Dot(w.Along), b.Sub(w.A).Dot(w.Along)
			if max(s, t) < 0 || min(s, t) > w.LengthMM {
				continue
			}
			inside := func(q plan.Point) float64 { return -q.Sub(w.A).Dot(w.Outward) }
			if gap := min(inside(a), inside(b)) - p.Pipe.OutsideDiameterMM/2; gap < 500 && gap > -p.Pipe.OutsideDiameterMM {
				m.add("pipe.wall-gap", pieceBy(rule.PieceByWall, p, int(w.Letter)), gap, m.onRun((p.FromMM+p.ToMM)/2))
			}
		}
	}
}

// sameShare is by how much a share must be larger to count as such: the first of
// pieces that are alike is named, whatever rounding makes of them.
const sameShare = 1e-9

// pipeFlow holds what the run has to carry against the flattest piece running full, as rough as
// pipes get in use and however smooth.
func (m *Measurer) pipeFlow() {
	rough := func(boreMM, slope float64) float64 {
		full, _ := hydraulic.ColebrookWhite(boreMM, 1, slope)
		return full
	}
	m.flowShare("pipe.flow-share", rough)
	m.flowShare("pipe.smooth-share", hydraulic.SmoothFullLPS)
}

// flowShare is what the run has to carry as a share of the least that a piece carries.
func (m *Measurer) flowShare(quantity string, carries func(boreMM, slope float64) float64) {
	flow := m.Settled.Water.RunLPS()
	worst, where := 0.0, (*waste.Piece)(nil)
	for i := range m.Heights.Run.Pieces {
		p := &m.Heights.Run.Pieces[i]
		if p.Kind == waste.Drop || p.Kind == waste.Joint || p.Tapers() || p.LengthMM() < joinMM {
			continue
		}
		full := carries(p.Pipe.BoreMM, p.Gradient())
		if full <= 0 {
			continue // a backfall has its own finding
		}
		if share := flow / full; share > worst*(1+sameShare) {
			worst, where = share, p
		}
	}
	if worst > 0 {
		m.add(quantity, ofPiece(where), worst, m.onRun((where.FromMM+where.ToMM)/2))
	}
}
