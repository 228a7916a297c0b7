package geometry

import (
	"math"
	"strconv"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/clash"
	"underfall/geometry/job"
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
	// Circumstances every measurement carries.
	tags          []string
	facts         map[string]float64
	circumstances circumstances
	// joists are the bodies of those that were looked at.
	joists map[int]clash.Prism
	// room is used again from one stretch of the run to the next.
	room struct {
		left      []plan.Interval
		stretches []stretch
	}
}

func newMeasurer(r Result) *measurer {
	m := &measurer{out: make([]rule.Measurement, 0, 96)}
	m.begin(r)
	return m
}

// begin measures another result, with the room there is for measurements: those
// taken before are gone.
func (m *measurer) begin(r Result) {
	if c := circumstancesOf(r.Settled); m.tags == nil || c != m.circumstances {
		m.circumstances, m.tags, m.facts = c, jobTags(r.Settled), pipeFacts(r.Settled.Waste.NominalMM)
	}
	m.Result, m.out = r, m.out[:0]
	clear(m.joists)
}

// factsOf are the facts of a size of pipe.
func (m *measurer) factsOf(nominalMM float64) map[string]float64 {
	if nominalMM == m.Settled.Waste.NominalMM {
		return m.facts
	}
	return pipeFacts(nominalMM)
}

// circumstances is what the tags and facts of a job's measurements follow from.
type circumstances struct {
	ventilated, accessible, ceiling bool
	floor                           job.FloorKind
	fall                            job.FallKind
	nominalMM                       float64
}

func circumstancesOf(j job.Job) circumstances {
	return circumstances{j.Waste.Ventilated, j.Accessible, j.Floor.CeilingBelow, j.Floor.Kind, j.Former.Fall, j.Waste.NominalMM}
}

// measure takes every measurement a rule may speak of, from exact geometry.
func measure(r Result) []rule.Measurement {
	m := newMeasurer(r)
	m.heights()
	m.strength()
	m.water()
	m.asBuilt()
	m.cautions()
	return m.out
}

// heights takes the measurements that heights alone decide.
func (m *measurer) heights() {
	m.run()
	m.exit()
	m.trap()
	m.joistCuts()
	m.clashes()
	m.base()
	m.falls()
	m.steps()
	m.drain()
}

// asBuilt holds measured levels against each other.
func (m *measurer) asBuilt() {
	for _, c := range m.Contradictions {
		m.add("built.contradiction", c.What, c.ByMM, c.At)
	}
	for _, i := range m.DoNow {
		if !i.Possible && i.Kind == buildup.IsDepth {
			m.add("built.out-of-reach", i.What, math.Abs(i.Value-i.Planned), i.At)
		}
	}
}

func (m *measurer) add(quantity, subject string, value float64, at mgl64.Vec3, tags ...string) *rule.Measurement {
	m.out = append(m.out, rule.Measurement{Quantity: quantity, Subject: subject, Value: value, At: at, Box: solid.Around(at, 60),
		Facts: m.facts, Tags: m.tags})
	if len(tags) > 0 {
		m.out[len(m.out)-1].Tags = append(tags, m.tags...)
	}
	return &m.out[len(m.out)-1]
}

// jobTags are the circumstances of the whole job.
func jobTags(j job.Job) []string {
	tags := pipeTags(j)
	if j.Accessible {
		tags = append(tags, "accessible")
	}
	if j.Floor.CeilingBelow {
		tags = append(tags, "ceiling")
	}
	return append(tags, string(j.Floor.Kind), "fall-"+string(j.Former.Fall))
}

func lift(p plan.Point, z float64) mgl64.Vec3 { return mgl64.Vec3{p.X(), p.Y(), z} }

func (m *measurer) base() {
	h, j, l := m.Heights, m.Settled, m.Layout
	at := lift(l.FallArea.Centroid(), h.BaseTopMM)
	thickness := h.BaseThicknessMM(j)
	m.add("base.thickness", "Base", thickness, at)
	if j.Base.Support == job.OnFloor {
		m.add("base.thin-by", "Base", math.Max(0, j.Base.MinThicknessMM-thickness), at)
	} else {
		m.add("base.thin-by", "Base", math.Max(0, h.JoistTopMM(j)-h.BaseTopMM), at)
	}
	governing := h.Governing()
	m.add("base.too-low", "Base: "+governing.Name, math.Max(0, governing.BaseTopMM-h.BaseTopMM), governing.At)
	if j.Base.Moulded {
		m.add("base.uneven-cut", "Base board", math.Abs(unevenCut(j)), at)
	}
	if h.Survey.WorstIndex >= 0 {
		spot := j.SpotLevels[h.Survey.WorstIndex]
		m.add("floor.residual", "Spot level "+strconv.Itoa(h.Survey.WorstIndex+1), h.Survey.WorstResidualMM, lift(spot.At, spot.LevelMM))
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
	l, h, j := m.Layout, m.Heights, m.Settled
	// The level strip behind a wall drain has a finding of its own.
	for i, p := range l.Planes {
		centre := p.Region.Centroid()
		m.add("floor.fall", "Plane "+strconv.Itoa(i+1), p.Gradient(), lift(centre, h.ShowerAt(l, centre)))
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
	h, j, l := m.Heights, m.Settled, m.Layout
	for _, e := range h.Edges(j, l) {
		p := e.Edge.Middle()
		m.add("step.edge", sideLabel(e.Edge.Side), math.Abs(e.WorstStepMM()), lift(p, e.ShowerA))
		if j.Room.Edge == job.EdgeRamp && j.Room.RampRunMM > 0 {
			m.add("step.ramp", sideLabel(e.Edge.Side), h.RampSurface(j, l, e.Edge)[0].Gradient(), lift(p, e.RoomA))
		}
	}
	for _, d := range l.Doors {
		p := d.Middle()
		m.add("step.door", "Doorway "+strconv.Itoa(d.Index+1), math.Abs(m.Floor.DoorStepMM(d)), lift(p, m.Floor.FinishedMM(p)))
		if len(d.Sweep) == 0 {
			continue
		}
		door := j.Room.Doorways[d.Index]
		gap, at := m.leafGap(d, door.NeighbourFFLMM+door.LeafGapMM)
		m.add("door.leaf-gap", "Doorway "+strconv.Itoa(d.Index+1), gap, at)
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
				z := m.Floor.FinishedMM(q)
				if g := leafMM - z; g < gap {
					gap, at = g, lift(q, z)
				}
			}
		}
	}
	over(d.SweepRoom)
	over(d.SweepFall)
	return gap, at
}

func (m *measurer) drain() {
	h, j, l := m.Heights, m.Settled, m.Layout
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
	side := map[job.FallKind]layout.Side{job.FallBack: layout.Back, job.FallLeft: layout.Left, job.FallRight: layout.Right, job.FallFront: layout.Front}[m.Settled.Former.Fall]
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
	at := lift(m.Layout.DrainCentre, m.Heights.TileMM)
	m.add("water.flow", "Shower", w.FlowLPS, at)
	if w.FlowLPS <= 0 {
		return
	}
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
	m.add("trap.seal-left", "Trap", w.SealLeftMM, lift(m.Layout.TrapCentre, m.Heights.TrapMM))
	stands := w.Trap.StandsMM
	if w.Trap.Drowned {
		stands = math.Inf(1)
	}
	m.add("trap.water-stands", "Drain cover", stands, at)
	m.add("floor.least-fall", "Shower tile", w.Evenness.LeastFall, lift(m.Layout.Shower.Centroid(), m.Heights.TileMM))
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
	if len(m.Joists) > 0 || m.Settled.Floor.Kind == job.FloorTimber {
		at := lift(middle, h.FloorHighMM)
		if len(m.Joists) > 0 {
			at = lift(m.Joists[0].At, m.Joists[0].TopMM)
		}
		m.add("caution.structure", "Timber floor", float64(len(m.Joists)), at)
	}
	if m.Settled.Waste.Exit.Kind != job.ExitPipe && len(h.Run.Pieces) > 0 {
		m.add("caution.services", "Exit", 1, m.onRun(h.Run.ExitAtMM))
	}
	for _, c := range []struct{ quantity, subject string }{{"caution.dust", "Tile and boards"}, {"caution.solvent", "Waste run"},
		{"caution.gas", "Trap"}, {"caution.slip", "Floor tile"}, {"caution.scald", "Shower"}, {"caution.covering", "Waste run and membrane"}} {
		m.add(c.quantity, c.subject, 1, floor)
	}
}
