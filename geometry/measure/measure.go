// Package measure takes every measurement of a job that a rule may speak of: of
// levels, the run, joists, bodies in each other's way, and the water.
package measure

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/asbuilt"
	"underfall/geometry/buildup"
	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
	"underfall/geometry/waste"
)

// Measurer measures one levelled job after another. What it gives is good until
// it is asked for more.
type Measurer struct {
	stage.Levelled
	out []rule.Measurement
	// Circumstances every measurement carries.
	tags          []string
	facts         map[string]float64
	circumstances circumstances
	// tagged are the tags of measurements that carry some of their own besides.
	tagged [][]string
	// What is worked out of the job when it is first asked for.
	floor     *buildup.Floor
	crossings []joist.Crossing
	crossed   bool
	facets    []level.RampFacet
	faceted   bool
	// plan is what is known of the job's plan; it holds for all that are the same
	// in plan.
	plan  inPlan
	pairs *clash.Table
	// withoutPlaces leaves out where on the run measurements are taken.
	withoutPlaces bool
	// Bodies of joists, of parts of the deck and of pieces of the run, each made when
	// it is first asked for.
	joistBodies, deckBodies kept[clash.Prism]
	pieceBodies             kept[[]clash.Cylinder]
	drainMade               bool
	// room is used again from one job to the next.
	room struct {
		left                       []plan.Interval
		clipped                    []clash.Cylinder
		nearJoists                 []*layout.Joist
		crossings                  []joist.Crossing
		trap, channel, under, door clash.Prism
		stud                       clash.Prism
		floor                      buildup.Floor
	}
}

// Begin takes up another job.
func (m *Measurer) Begin(l stage.Levelled) {
	if !l.SamePlan(&m.Levelled) {
		m.plan.forget()
	}
	m.Levelled = l
	m.renew()
}

// Place takes up another job that is not levelled yet, in the room the last one had.
func (m *Measurer) Place(p stage.Placed) {
	if !p.SamePlan(&m.Levelled) {
		m.plan.forget()
	}
	p.LevelIn(&m.Levelled)
	m.renew()
}

// Change changes levels of the job in place; all else must stay where it is in plan.
func (m *Measurer) Change(by func(l *stage.Levelled)) {
	by(&m.Levelled)
	m.renew()
}

// renew forgets what was worked out of the job as it was.
func (m *Measurer) renew() {
	if c := circumstancesOf(m.Pack, &m.Settled); m.tags == nil || c != m.circumstances {
		m.circumstances, m.tags, m.facts = c, jobTags(m.Pack, &m.Settled), stage.PipeFacts(m.Settled.Waste.NominalMM)
		m.tagged = m.tagged[:0]
	}
	m.out = m.out[:0]
	m.floor, m.crossings, m.crossed = nil, nil, false
	m.facets, m.faceted = nil, false
	if len(m.Layout.Ramps) > 0 {
		m.plan.forgetZones()
	}
	m.joistBodies.forget()
	m.deckBodies.forget()
	m.pieceBodies.forget()
	m.drainMade = false
}

// WithPlaces says whether measurements of the run have their place. Leaving it out
// is for who looks at values alone.
func (m *Measurer) WithPlaces(on bool) { m.withoutPlaces = !on }

// Crossings are the places where the run cuts joists.
func (m *Measurer) Crossings() []joist.Crossing {
	if !m.crossed {
		if !m.plan.passed {
			m.plan.passages, m.plan.passed = joist.Passages(&m.Layout, &m.Heights.Run), true
		}
		m.crossings, m.crossed = joist.AppendCuts(m.room.crossings[:0], &m.Settled, &m.Layout, &m.Heights, m.plan.passages), true
		m.room.crossings = m.crossings
	}
	return m.crossings
}

// buildUp is the floor's layers.
func (m *Measurer) buildUp() *buildup.Floor {
	if m.floor == nil {
		m.room.floor.Set(&m.Settled, &m.Layout, &m.Heights)
		m.floor = &m.room.floor
	}
	return m.floor
}

// factsOf are the facts of a size of pipe.
func (m *Measurer) factsOf(nominalMM float64) map[string]float64 {
	if nominalMM == m.Settled.Waste.NominalMM {
		return m.facts
	}
	return stage.PipeFacts(nominalMM)
}

// circumstances is what the tags and facts of a job's measurements follow from.
type circumstances struct {
	accessible, ceiling   bool
	floor                 job.FloorKind
	fall                  job.FallKind
	nominalMM, unventedMM float64
}

func circumstancesOf(pack rule.Pack, j *job.Job) circumstances {
	return circumstances{j.Accessible, j.Floor.CeilingBelow, j.Floor.Kind, j.Former.Fall, j.Waste.NominalMM, stage.UnventedMM(pack, j)}
}

// All takes every measurement of a job whose layers, cuts, water and sealing are known.
func All(l stage.Levelled, floor buildup.Floor, crossings []joist.Crossing, w Water, s Sealing) []rule.Measurement {
	m := Measurer{out: make([]rule.Measurement, 0, 96)}
	m.Begin(l)
	m.floor, m.crossings, m.crossed = &floor, crossings, true
	m.levels()
	m.stack()
	m.deck()
	m.opening()
	m.headroom()
	m.surveyed()
	m.fixtures()
	m.strength()
	m.freeEnds()
	m.lie(w)
	m.screens()
	m.kerb()
	m.stated()
	m.head()
	m.water(w)
	m.asBuilt()
	m.sealing(s)
	m.cautions()
	m.layerCautions()
	m.callWalls()
	return m.out
}

// callWalls says of what is of a wall what people call that.
func (m *Measurer) callWalls() {
	for i := range m.out {
		letter := m.out[i].Subject.WallLetter()
		if at := slices.IndexFunc(m.Layout.Walls, func(w layout.Wall) bool { return w.Letter == letter }); at >= 0 {
			m.out[i].Called = m.Layout.Walls[at].Called
		}
	}
}

// taken is what a part of the measurements comes to.
func (m *Measurer) taken(parts ...func()) []rule.Measurement {
	m.out = m.out[:0]
	for _, part := range parts {
		part()
	}
	return m.out
}

// Levels takes the measurements that levels alone decide.
func (m *Measurer) Levels() []rule.Measurement { return m.taken(m.levels) }

// BesideRun takes them with what else of the room and the shower may stop a job whichever way its run goes.
func (m *Measurer) BesideRun() []rule.Measurement {
	return m.taken(m.levels, m.headroom, m.fixtures, m.screens, m.kerb, m.head)
}

func (m *Measurer) levels() {
	m.run()
	m.exit()
	m.trap()
	m.joistCuts()
	m.cutOuts()
	m.clashes()
	m.base()
	m.falls()
	m.steps()
	m.drain()
}

// Run measures the run by itself.
func (m *Measurer) Run() []rule.Measurement { return m.taken(m.run) }

// Lengths measures the run as a whole: its length and bends. They have no place.
func (m *Measurer) Lengths() []rule.Measurement {
	return m.taken(func() { m.lengths(mgl64.Vec3{}) })
}

// BesidesRun measures what depends on the run besides its own pieces.
func (m *Measurer) BesidesRun() []rule.Measurement {
	return m.taken(m.exit, m.trap, m.joistCuts, m.base)
}

// Clashes holds the run and the drain against what is in their way.
func (m *Measurer) Clashes() []rule.Measurement { return m.taken(m.clashes) }

// asBuilt holds measured levels against each other.
func (m *Measurer) asBuilt() {
	for _, c := range m.Contradictions {
		m.add("built.contradiction", rule.Subject{Of: rule.BuiltLevel, Which: c.What}, c.ByMM, c.At)
	}
	for _, i := range m.DoNow {
		if !i.Possible && i.Kind == buildup.IsDepth {
			m.add("built.out-of-reach", rule.Subject{Of: rule.OffPlan, Which: offPlan(i)}, math.Abs(i.Value-i.Planned), i.At)
		}
	}
}

// offPlan is what lies too high or too low for what comes next: where that would have
// to be thinner than planned, too high.
func offPlan(i asbuilt.Instruction) message.ID {
	thinner := i.Value < i.Planned
	for _, o := range [...]struct{ next, high, low message.ID }{
		{"now.former-bed", "off.base-high", "off.base-low"},
		{"now.tile-bed-at-drain", "off.former-high", "off.former-low"},
		{"now.tile-bed-at-high-end", "off.high-end-high", "off.high-end-low"},
		// The cover rises with the tile.
		{"now.cover-over-flange", "off.tile-low", "off.tile-high"},
	} {
		if o.next == i.What && thinner {
			return o.high
		} else if o.next == i.What {
			return o.low
		}
	}
	return i.What
}

func (m *Measurer) add(quantity string, subject rule.Subject, value float64, at mgl64.Vec3, tags ...string) *rule.Measurement {
	m.out = append(m.out, rule.Measurement{Quantity: quantity, Subject: subject, Value: value, At: at,
		Facts: m.facts, Tags: m.tagsWith(tags)})
	return &m.out[len(m.out)-1]
}

// share adds a length as a share of another, by which rules allow it; it is told as the length that it is.
func (m *Measurer) share(quantity string, subject rule.Subject, mm, ofMM float64, at mgl64.Vec3) *rule.Measurement {
	out := m.add(quantity, subject, mm/ofMM, at)
	out.OfMM = ofMM
	return out
}

func (m *Measurer) falls() {
	l, h, j := &m.Layout, &m.Heights, &m.Settled
	// What lies level beside and behind a drain has a measurement of its own.
	for i, p := range l.Planes {
		centre := m.planeMiddle(i)
		m.add("floor.fall", rule.Subject{Of: rule.Plane, Number: i + 1}, p.Gradient(), centre.Vec3(h.TileMM+p.At(centre)))
	}
	if len(l.Planes) == 0 {
		m.add("floor.fall", rule.Subject{Of: rule.Plane, Number: 1}, 0, m.fallMiddle().Vec3(h.TileMM))
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range l.Corners {
		low, high = min(low, h.Survey.Floor.At(c)), max(high, h.Survey.Floor.At(c))
	}
	m.add("floor.out-of-level", of(rule.StructuralFloor), high-low, m.fallMiddle().Vec3(h.FloorHighMM))
	at := l.DrainEdge.Vec3(h.FlangeMM)
	m.add("former.thin-by", of(rule.Former), max(0, j.Drain.LeastFormerMM-j.Former.ThicknessAtDrainMM), at)
	if over, limited := overPieceMM(j); limited {
		m.add("former.over-piece-by", of(rule.Former), over, m.fallMiddle().Vec3(h.FlangeMM))
	}
	width, depth := m.finishedSize()
	middle := l.Shower.Centroid().Vec3(h.TileMM)
	m.add("shower.least-side", of(rule.TheShower), min(width, depth), middle)
	m.add("shower.longest-side", of(rule.TheShower), max(width, depth), middle)
	m.add("shower.area", of(rule.TheShower), l.Shower.Area()*width*depth/(j.Shower.WidthMM*j.Shower.DepthMM), middle)
}

// finishedSize is the shower's width and depth between the finish of its walls: a side
// counts as a wall's where one stands along any of it.
func (m *Measurer) finishedSize() (widthMM, depthMM float64) {
	between := func(mm float64, sides ...layout.Side) float64 {
		for _, side := range sides {
			if m.atWall(side) {
				mm = max(0, mm-m.Settled.Layers.Wall.ThicknessMM())
			}
		}
		return mm
	}
	s := &m.Settled.Shower
	return between(s.WidthMM, layout.Left, layout.Right), between(s.DepthMM, layout.Back, layout.Front)
}

func (m *Measurer) steps() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	for i, e := range h.Edges(j, l) {
		closed := !l.WalkedOver(i)
		if closed && len(l.Ramps) > 0 {
			continue // the ramp leads elsewhere, and glass closes this one
		}
		p, edge := e.Edge.Middle(), rule.Subject{Of: rule.OpenEdge, Number: i + 1, Which: e.Edge.Side.Edge().ID}
		var tags []string
		if closed {
			tags = append(tags, tagClosed)
		}
		if e.WorstStepMM() < 0 {
			tags = append(tags, TagDown)
		}
		_, rise := e.StepNear(l.TrapCentre, j.Units)
		m.add("step.edge", edge, math.Abs(e.WorstStepMM()), p.Vec3(h.ShowerAt(l, p)), tags...).Rise = rise
	}
	m.ramps()
	for k := range l.Doors {
		d := &l.Doors[k]
		rise, at := m.doorRise(k)
		m.add("step.door", rule.Subject{Of: rule.Doorway, Number: d.Index + 1}, math.Abs(rise.MM()), at).Rise = rise
		if len(d.Sweep) == 0 {
			continue
		}
		door := j.Room.Doorways[d.Index]
		gap, at := m.leafGap(d.Index, door.NeighbourFFLMM+door.LeafGapMM)
		m.add("door.leaf-gap", rule.Subject{Of: rule.Doorway, Number: d.Index + 1}, gap, at)
	}
}

// doorRise is the greatest step along a doorway, given by its place in the layout, as buildup.DoorRise has it. It gives
// the finished floor where that is, on the wall's face.
func (m *Measurer) doorRise(door int) (worst message.Rise, at mgl64.Vec3) {
	d := &m.Layout.Doors[door]
	beyondMM, stopMM := m.Settled.Room.Doorways[d.Index].NeighbourFFLMM, m.Settled.DoorStopMM()
	for i, p := range m.doorPlaces(door) {
		finished := m.finishedAt(p)
		rise := buildup.DoorRise(beyondMM, finished, stopMM)
		if i == 0 || math.Abs(rise.MM()) > math.Abs(worst.MM())+plan.HairMM {
			worst, at = rise, plan.NearestOnSegment(p.at, d.A, d.B).Vec3(finished)
		}
	}
	return worst, at
}

// leafGap is the least height between the underside of a leaf and the finished
// floor it sweeps over. Floors are planes: the least is over a corner of the
// parts of the sweep.
func (m *Measurer) leafGap(door int, leafMM float64) (gap float64, at mgl64.Vec3) {
	gap = math.Inf(1)
	for _, c := range m.leafCorners() {
		if c.door != door {
			continue
		}
		z := m.finishedAt(c.floorPlace)
		if g := leafMM - z; g < gap {
			gap, at = g, c.at.Vec3(z)
		}
	}
	if m.Heights.RampSlope > 0 {
		m.highestUnder(&m.Layout.Doors[door], func(p plan.Point, z float64) {
			if g := leafMM - z; g < gap {
				gap, at = g, p.Vec3(z)
			}
		})
	}
	return gap, at
}

// finishedAt is the finished level at a place.
func (m *Measurer) finishedAt(p floorPlace) float64 { return m.buildUp().FinishedIn(p.zone, p.at) }

func (m *Measurer) drain() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	at := l.DrainCentre.Vec3(h.TileMM)
	need := h.TileMM - h.FlangeMM
	m.add("cover.short-by", of(rule.DrainCover), max(0, need-j.Drain.CoverGreatestMM), at)
	m.add("cover.proud-by", of(rule.DrainCover), max(0, j.Drain.CoverLeastMM-need), at)
	if side, one := layout.DrainSide(j.Former.Fall); one && m.atWall(side) {
		spare := j.Drain.WallClearanceMM - j.Layers.Wall.ThicknessMM()
		m.add("drain.strip", of(rule.Drain), max(0, spare), at)
		under := m.add("drain.under-wall", of(rule.Drain), max(0, -spare), at)
		under.NeedsMM, under.HasMM = j.Layers.Wall.ThicknessMM(), j.Drain.WallClearanceMM
	}
}

// atWall tells whether a wall stands along any of a side of the shower.
func (m *Measurer) atWall(side layout.Side) bool {
	for _, e := range m.Layout.Edges {
		if e.Side == side && e.Wall >= 0 {
			return true
		}
	}
	return false
}

// lie takes how the tile lies on the planes of the floor. What holds of several alike is
// told at the drain, which they fall to.
func (m *Measurer) lie(w Water) {
	at := m.Layout.DrainCentre.Vec3(m.Heights.TileMM)
	m.add("floor.level-area", of(rule.LevelFloor), w.Level.AreaMM2, at)
	if len(w.Creases) > 0 {
		least := math.Inf(1)
		for _, c := range w.Creases {
			least = min(least, c.Slope)
		}
		m.add("floor.crease-fall", of(rule.Creases), least, at)
	}
	if f, ok := SmallestFit(w.Tiles); ok {
		m.add("floor.tile-over-plane", rule.Subject{Of: rule.TileOnPlane, Number: int(f.LengthMM + plan.HairMM)}, f.OverMM, at)
	}
}

// water takes what the floor and the pipes do with the shower's water.
func (m *Measurer) water(w Water) {
	at := m.Layout.DrainCentre.Vec3(m.Heights.TileMM)
	m.add("water.flow", of(rule.TheShower), w.FlowLPS, at)
	if w.FlowLPS <= 0 {
		return
	}
	if w.InletLPS > 0 {
		m.add("inlet.flow-share", of(rule.DrainCover), w.FlowLPS/w.InletLPS, at)
	}
	if w.ChannelRoomMM > 0 {
		m.add("channel.fill-share", of(rule.Drain), w.ChannelMM/w.ChannelRoomMM, at)
	}
	slowest, where := math.Inf(1), (*waste.Piece)(nil)
	for i := range w.Pieces {
		p := &w.Pieces[i]
		if p.Piece.Gradient() > 0 && p.VelocityMPS < slowest*(1-sameShare) {
			slowest, where = p.VelocityMPS, &p.Piece
		}
	}
	if !math.IsInf(slowest, 1) {
		m.add("pipe.velocity", ofPiece(where), slowest, m.onRun((where.FromMM+where.ToMM)/2))
	}
	m.add("trap.seal-left", of(rule.Trap), w.SealLeftMM, m.Layout.TrapCentre.Vec3(m.Heights.TrapMM))
	stands := w.Trap.StandsMM
	if w.Trap.Drowned {
		stands = math.Inf(1)
	}
	m.add("trap.water-stands", of(rule.DrainCover), stands, at)
	m.add("floor.least-fall", of(rule.ShowerTile), w.Evenness.LeastFall, m.Layout.Shower.Centroid().Vec3(m.Heights.TileMM))
	if !math.IsInf(w.Reserve.Minutes, 1) {
		m.add("water.reserve", w.Reserve.Where, w.Reserve.Minutes, w.Reserve.At)
	}
}

func (m *Measurer) cautions() {
	h, l := &m.Heights, &m.Layout
	middle := l.Shower.Centroid()
	floor := middle.Vec3(h.ShowerAt(l, middle))
	m.add("caution.electrics", of(rule.TheShower), 1, floor)
	if len(m.Crossings()) > 0 || m.Settled.Floor.Kind == job.FloorTimber {
		at := middle.Vec3(h.FloorHighMM)
		if len(m.Crossings()) > 0 {
			at = m.Crossings()[0].At.Vec3(m.Crossings()[0].TopMM)
		}
		m.add("caution.structure", of(rule.TimberFloor), float64(len(m.Crossings())), at)
	}
	if len(h.Run.Pieces) > 0 && (h.Run.Wall > 0 || m.Settled.Waste.Exit.Kind == job.ExitFloor) {
		m.add("caution.services", of(rule.Exit), 1, m.onRun(h.Run.ExitAtMM))
	}
	m.outside()
	m.slabDrop(h.Run.Exit)
	for _, c := range []struct {
		quantity string
		of       rule.Thing
	}{{"caution.dust", rule.TileAndBoards}, {"caution.solvent", rule.WasteRun},
		{"caution.gas", rule.Trap}, {"caution.slip", rule.FloorTile}, {"caution.scald", rule.TheShower},
		{"caution.covering", rule.WasteRunAndMembrane}} {
		if c.of != rule.WasteRun || mayBeWelded(&m.Settled) {
			m.add(c.quantity, of(c.of), 1, floor)
		}
	}
}

// mayBeWelded tells whether a joint of the waste is welded by solvent, or nothing stated rules that out.
func mayBeWelded(j *job.Job) bool {
	if j.Parts.Pipe == nil || j.Parts.Pipe.Joint == part.Solvent || j.Waste.Exit.Kind == job.ExitPump {
		return true
	}
	if j.Parts.Drain == nil {
		return false
	}
	o, ok := j.Parts.Drain.Outlet(j.Drain.OutletNominalMM)
	return ok && o.Joint == part.Solvent
}
