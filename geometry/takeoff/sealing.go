package takeoff

import (
	"math"
	"slices"

	"underfall/geometry/assembly"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// sealing is tanking, primer, tape with its corners and collars, and sealant.
func (b *builder) sealing() {
	b.tanking()
	b.primer()
	b.tape()
	b.collars()
	b.sealant()
	if mm := b.r.Sealing.EdgeStripMM; mm > 0 {
		l := Line{Group: Sealing, Item: message.Of("order.edge-strip"), Needed: guide.Amount{Measure: guide.Length, Value: mm}, How: []message.Message{message.Of("order.how.edge-strip")}}
		b.add(b.packed(l, guide.EdgeStrip, ""))
	}
}

// tanked is one place's tanking.
type tanked struct {
	thickMM float64
	of      *part.Layer
	parts   []*assembly.Part
	mm2     float64
	how     []message.Message
}

// tanking is that of floor, room and walls; those of one product together.
func (b *builder) tanking() {
	f := &b.j.Layers
	floor := tanked{thickMM: f.Shower.Tanking.ThicknessMM, of: b.j.Parts.Shower.Tanking, parts: b.take(func(p *assembly.Part) bool { return p.ID == "tanking" })}
	walls := tanked{thickMM: f.Wall.Tanking.ThicknessMM, of: b.j.Parts.Wall.Tanking, parts: b.take(named("wall-tanking-"))}
	room := tanked{thickMM: f.Room.Tanking.ThicknessMM, of: b.j.Parts.Room.Tanking, parts: b.of(material.Membrane)}
	put := func(t *tanked, id func(message.Arg) message.Message, mm2 float64) {
		if mm2 > 0 {
			t.mm2 += mm2
			t.how = append(t.how, id(area("area", mm2)))
		}
	}
	put(&floor, func(a message.Arg) message.Message { return message.Of("order.how.tanked-floor", a) }, areaMM2(floor.parts))
	if floor.thickMM > 0 {
		put(&floor, func(a message.Arg) message.Message { return message.Of("order.how.tanked-kerb", a) }, b.kerbSidesMM2())
	}
	put(&walls, func(a message.Arg) message.Message { return message.Of("order.how.tanked-walls", a) }, areaMM2(walls.parts))
	put(&walls, func(a message.Arg) message.Message { return message.Of("order.how.tanked-reveals", a) }, b.r.Sealing.RevealsMM2)
	flat := slices.DeleteFunc(slices.Clone(room.parts), named("room-upturn-", "boxing-tanking-"))
	put(&room, func(a message.Arg) message.Message { return message.Of("order.how.tanked-room", a) }, areaMM2(flat))
	put(&room, func(a message.Arg) message.Message { return message.Of("order.how.tanked-upturn", a) }, b.r.Sealing.UpturnMM2)
	put(&room, func(a message.Arg) message.Message { return message.Of("order.how.tanked-boxing", a) }, b.r.Sealing.BoxingMM2)
	var products [][]tanked
	for _, t := range []tanked{floor, walls, room} {
		if len(t.parts) == 0 {
			continue
		}
		i := slices.IndexFunc(products, func(o []tanked) bool { return idOf(o[0].of) == idOf(t.of) && o[0].thickMM == t.thickMM })
		if i < 0 {
			products = append(products, []tanked{t})
			continue
		}
		products[i] = append(products[i], t)
	}
	for _, p := range products {
		b.product(p)
	}
}

// product is the tanking of the places that one product is laid in: liquid by its dry thickness, sheets with their laps.
func (b *builder) product(of []tanked) {
	l, mm2 := Line{Group: Sealing}, 0.0
	for _, t := range of {
		mm2 += t.mm2
		l.How = append(l.How, t.how...)
		l.Bodies = append(l.Bodies, ids(t.parts)...)
	}
	first := of[0]
	thick := message.Fine("thick", first.thickMM)
	name := message.Of("order.tanking-plain")
	if first.of != nil {
		name = part.Name(*first.of)
	}
	l.Item = message.Of("order.tanking", message.In("name", name), thick)
	item := guide.Item(idOf(first.of))
	if item == guide.TankingLiquid {
		y, loss := b.figure(guide.TankingYield), b.figure(guide.SpreadLoss)
		in := mm2 * first.thickMM / mm3InLitre
		l.Needed, l.Source = guide.Amount{Measure: guide.Mass, Value: in * y.Value * (1 + loss.Value)}, y.Source
		l.How = append(l.How, message.Of("order.how.coats", area("area", mm2), thick, message.Arg{Name: "yield", Value: message.Yield{KGPerLitre: y.Value}}, share("loss", loss.Value)))
	} else {
		lap := b.figure(guide.SheetLap)
		l.Needed, l.Source = guide.Amount{Measure: guide.Area, Value: mm2 * (1 + lap.Value)}, lap.Source
		l.How = append(l.How, message.Of("order.how.lapped", area("area", mm2), share("lap", lap.Value)))
	}
	b.add(b.packed(l, item, idOf(first.of)))
}

// kerbSidesMM2 are both sides of the kerb, as high as it is on the average; 0 without one.
func (b *builder) kerbSidesMM2() float64 {
	for i := range b.r.Assembly.Parts {
		if p := &b.r.Assembly.Parts[i]; p.ID == "kerb" {
			return 2 * p.Shape.Volume() / b.j.Shower.Kerb.WidthMM
		}
	}
	return 0
}

// primed is a place that takes primer.
type primed struct {
	where message.ID
	mm2   float64
}

// primer goes where the substrate asks for it: on concrete, deck, screed, mortar, bare walls and levelling compound, under
// tanking or a bed that lies on them. Foam, tile backer, mats and boards ask for none. Where the job has a layer of primer, that counts.
// Common practice, no source.
func (b *builder) primer() {
	cover, loss := b.figure(guide.PrimerCoverage), b.figure(guide.SpreadLoss)
	parts := b.of(material.Primer)
	l := Line{Group: Sealing, Item: message.Of("order.primer"), Bodies: ids(parts), Source: cover.Source}
	mm2 := 0.0
	for _, p := range parts {
		a := areaMM2([]*assembly.Part{p})
		mm2 += a
		l.How = append(l.How, message.Of("order.how.area", message.In("part", p.Name), area("area", a)))
	}
	for _, p := range b.primedPlaces() {
		if p.mm2 > 0 {
			mm2 += p.mm2
			l.How = append(l.How, message.Of(p.where, area("area", p.mm2)))
		}
	}
	l.Needed = guide.Amount{Measure: guide.Liquid, Value: mm2 / mm2InM2 * cover.Value * (1 + loss.Value)}
	l.How = append(l.How, message.Of("order.how.primer", area("area", mm2), message.Arg{Name: "coverage", Value: message.Coverage{LitresPerM2: cover.Value}}, share("loss", loss.Value)))
	b.add(b.packed(l, guide.Primer, ""))
}

// primedPlaces are those where no layer of primer is stated and what lies under tanking or bed asks for it.
func (b *builder) primedPlaces() []primed {
	j := b.j
	onto := func(ids ...string) (mm2 float64) {
		for i := range b.r.Assembly.Parts {
			if p := &b.r.Assembly.Parts[i]; slices.Contains(ids, p.ID) {
				mm2 += areaMM2([]*assembly.Part{p})
			}
		}
		return mm2
	}
	var out []primed
	if j.Base.Support == job.OnFloor && !j.Base.Screed && b.asks(j.Base.Under, true) {
		out = append(out, primed{"order.how.primed-base", onto("adhesive")})
	}
	if b.asks(j.Layers.Shower.Under, j.Former.Mortar) {
		out = append(out, primed{"order.how.primed-former", onto("tanking")})
	}
	if j.RoomFinished() && j.Former.Fall != job.FallRoom {
		boards := !math.IsNaN(b.h.RoomTopMM) && !j.Base.Screed
		if b.asks(j.Layers.Room.Under, !boards) {
			mm2 := 0.0
			for i := range b.r.Assembly.Parts {
				if p := &b.r.Assembly.Parts[i]; named("room-bed")(p) {
					mm2 += areaMM2([]*assembly.Part{p})
				}
			}
			out = append(out, primed{"order.how.primed-room", mm2})
		}
	}
	if b.asks(j.Layers.Wall.Under, true) {
		mm2 := 0.0
		for i := range b.r.Assembly.Parts {
			if p := &b.r.Assembly.Parts[i]; named("wall-tile-")(p) {
				mm2 += areaMM2([]*assembly.Part{p})
			}
		}
		out = append(out, primed{"order.how.primed-walls", mm2})
	}
	return out
}

// asks tells whether what is laid on courses asks for primer, where what they lie on does or does not.
func (b *builder) asks(courses []job.Course, ground bool) bool {
	for _, c := range courses {
		switch c.Kind {
		case job.CoursePrimer:
			return false // stated by itself
		case job.CourseScreed, job.CourseLevelling:
			ground = true
		case job.CourseInsulation, job.CourseOverlay, job.CourseDecoupling, job.CourseHeating, job.CourseLining:
			ground = false
		}
	}
	return ground
}

// legs are how many tapes meet in a corner piece.
const legs = 3

// tape is sealing tape along all that is taped, its laps on corner pieces, and where a roll ends.
func (b *builder) tape() {
	s := &b.r.Sealing
	inside, outside := b.corners()
	lap := b.figure(guide.TapeLapMM)
	laps := float64(legs*(inside+outside)) * lap.Value
	l := Line{Group: Sealing, Item: message.Of("order.tape"), Needed: guide.Amount{Measure: guide.Length}, Source: lap.Source}
	if s.TapeMM() > 0 {
		l.Needed.Value = s.TapeMM() + laps
		if p, ok := b.t.Pack(guide.Tape, b.j.Region, ""); ok && p.Measure == guide.Length && p.Holds > lap.Value {
			// Each further roll laps the one before.
			if n := math.Ceil((l.Needed.Value-lap.Value)/(p.Holds-lap.Value)-noneLess) - 1; n > 0 {
				l.Needed.Value += n * lap.Value
				laps += n * lap.Value
			}
		}
	}
	l.How = []message.Message{message.Of("order.how.tape", stretches(
		stretch{s.TapeFloorMM, func(a message.Arg) message.Message { return message.Of("order.how.at-floor", a) }},
		stretch{s.TapeCornersMM, func(a message.Arg) message.Message { return message.Of("order.how.in-corners", a) }},
		stretch{s.TapeEdgesMM, func(a message.Arg) message.Message { return message.Of("order.how.at-edges", a) }},
		stretch{s.TapeOpeningsMM, func(a message.Arg) message.Message { return message.Of("order.how.round-openings", a) }},
		stretch{s.TapeBoxingMM, func(a message.Arg) message.Message { return message.Of("order.how.round-boxing", a) }},
		stretch{laps, func(a message.Arg) message.Message { return message.Of("order.how.in-laps", a) }}))}
	b.add(b.packed(l, guide.Tape, ""))
	b.add(Line{Group: Sealing, Item: message.Of("order.corner-inside"), Needed: guide.Amount{Measure: guide.Count, Value: float64(inside)},
		How: []message.Message{message.Of("order.how.corner-inside")}})
	b.add(Line{Group: Sealing, Item: message.Of("order.corner-outside"), Needed: guide.Amount{Measure: guide.Count, Value: float64(outside)},
		How: []message.Message{message.Of("order.how.corner-outside")}})
}

// windowCorners are those of a window's reveal.
const windowCorners = 4

// corners are the pieces for corners where tanked walls meet at a tanked floor, by whether they lie inside or stand out; what
// stands out is a corner of walls into the room, one of the base that stands up at two open edges, and one of a window's reveal.
func (b *builder) corners() (inside, outside int) {
	for i := range b.l.Walls {
		w, next := &b.l.Walls[i], &b.l.Walls[(i+1)%len(b.l.Walls)]
		if !b.tapedAt(w, w.LengthMM) || !b.tapedAt(next, 0) {
			continue
		}
		switch turn := next.Along.Dot(w.Outward); {
		case turn < -plan.HairMM:
			inside++
		case turn > plan.HairMM:
			outside++
		}
	}
	open := b.l.OpenEdges()
	for i := range open {
		for k := range open {
			at := open[i].B
			if i != k && open[k].A.Sub(at).Len() < nearMM && open[k].Side != open[i].Side && b.stepsUp(open[i]) && b.stepsUp(open[k]) {
				outside++
			}
		}
	}
	return inside, outside + windowCorners*len(b.r.Sealing.Windows)
}

const (
	// nearMM is within which two places are one, levelMM within which floors are level with each other.
	nearMM, levelMM = 1, 2
)

// stepsUp tells whether the shower's floor stands over what is beside it at an open edge: the room's floor, or a ramp's.
func (b *builder) stepsUp(e layout.Edge) bool {
	at := e.Middle()
	return b.h.ShowerAt(b.l, at)-b.r.Floor.FinishedMM(at.Add(b.l.Outward(e).Mul(nearMM))) > levelMM
}

// tapedAt tells whether tape runs along the foot of a wall at an end of it: where the shower's finish goes so far, or the room's floor is
// tanked there.
func (b *builder) tapedAt(w *layout.Wall, atMM float64) bool {
	for _, iv := range b.finished(w) {
		if math.Abs(iv.From-atMM) < nearMM || math.Abs(iv.To-atMM) < nearMM {
			return b.j.Layers.Wall.Tanking.ThicknessMM > 0
		}
	}
	beyond, all := b.j.TankedBeyondMM()
	if !all && beyond == 0 || b.j.Former.Fall == job.FallRoom {
		return false
	}
	inward := w.Along.Mul(nearMM)
	if atMM > nearMM {
		inward = inward.Mul(-1)
	}
	return !b.l.Untanked.Contains(w.At(atMM).Add(inward).Sub(w.Outward.Mul(nearMM)), 0)
}

// finished are the stretches of a wall that are finished as the shower's.
func (b *builder) finished(w *layout.Wall) (out []plan.Interval) {
	if b.j.Former.Fall == job.FallRoom {
		return []plan.Interval{{From: 0, To: w.LengthMM}}
	}
	for _, e := range b.l.Edges {
		if e.Wall == w.Index {
			from, to := e.A.Sub(w.A).Dot(w.Along), e.B.Sub(w.A).Dot(w.Along)
			out = append(out, plan.Interval{From: math.Max(0, math.Min(from, to)), To: math.Min(w.LengthMM, math.Max(from, to))})
		}
	}
	return out
}

// collars are those of drain and stacks, and of a head's pipe; a mixer's pipes no job states.
func (b *builder) collars() {
	count := func(item, how message.Message, n int) {
		b.add(Line{Group: Sealing, Item: item, Needed: guide.Amount{Measure: guide.Count, Value: float64(n)}, How: []message.Message{how}})
	}
	count(message.Of("order.collar-drain"), message.Of("order.how.collar-drain"), 1)
	count(message.Of("order.collar-stack"), message.Of("order.how.collar-stack"), b.r.Sealing.Collars-1)
	if b.j.Shower.Head != nil {
		count(message.Of("order.collar-pipe"), message.Of("order.how.collar-head"), 1)
	}
}

// sealant is by the length and the section of the joints. Where no joint is stated the usual gap along the shower's walls and in
// their corners counts: no tile is grouted there.
func (b *builder) sealant() {
	s := &b.r.Sealing
	parts := b.of(material.Sealant)
	gap, mm := s.JointMM, s.SealantMM()
	usual := b.figure(guide.JointGapMM)
	how := []message.Message{message.Of("order.how.sealant", stretches(
		stretch{s.SealantFloorMM, func(a message.Arg) message.Message { return message.Of("order.how.along-walls", a) }},
		stretch{s.SealantCornersMM, func(a message.Arg) message.Message { return message.Of("order.how.in-corners", a) }},
		stretch{s.SealantEdgesMM, func(a message.Arg) message.Message { return message.Of("order.how.at-edges", a) }},
		stretch{s.SealantFieldsMM, func(a message.Arg) message.Message { return message.Of("order.how.across-floor", a) }}))}
	if gap == 0 {
		gap, mm = usual.Value, s.TapeFloorMM+s.TapeCornersMM
		how = []message.Message{message.Of("order.how.no-joints", message.Layer("gap", gap), message.OfStock("floor", s.TapeFloorMM), message.OfStock("corners", s.TapeCornersMM))}
	}
	f := &b.j.Layers
	tile := math.Max(f.Shower.Tile.ThicknessMM, math.Max(f.Room.Tile.ThicknessMM, f.Wall.Tile.ThicknessMM))
	depth := math.Min(math.Max(b.figure(guide.JointDepthLeastMM).Value, gap*b.figure(guide.JointDepthShare).Value), tile)
	loss := b.figure(guide.SpreadLoss)
	how = append(how, message.Of("order.how.section", message.Layer("gap", gap), message.Layer("depth", depth), share("loss", loss.Value)))
	l := Line{Group: Sealing, Item: message.Of("order.sealant"), Needed: guide.Amount{Measure: guide.Liquid, Value: mm * gap * depth / mm3InLitre * (1 + loss.Value)},
		How: how, Bodies: ids(parts), Source: usual.Source}
	b.add(b.packed(l, guide.Sealant, ""))
	if tile > depth {
		cut := b.figure(guide.CuttingLoss)
		b.add(b.packed(Line{Group: Sealing, Item: message.Of("order.backing", message.Layer("gap", gap)), Needed: guide.Amount{Measure: guide.Length, Value: mm * (1 + cut.Value)},
			How: []message.Message{message.Of("order.how.backing", message.OfStock("length", mm), message.Layer("depth", depth), message.Layer("tile", tile))}, Source: cut.Source}, guide.Backing, ""))
	}
}

// idOf is the id of a layer's part; empty where none was chosen.
func idOf(l *part.Layer) string {
	if l == nil {
		return ""
	}
	return l.ID
}
