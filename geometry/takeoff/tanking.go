package takeoff

import (
	"slices"

	"underfall/geometry/assembly"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

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
		put(&floor, func(a message.Arg) message.Message { return message.Of("order.how.tanked-kerb", a) }, b.kerbSideMM2())
		put(&floor, func(a message.Arg) message.Message { return message.Of("order.how.tanked-faces", a) }, b.r.Sealing.FacesMM2)
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

// product is the tanking of the places that one product is laid in: liquid by its dry thickness,
// sheets with their laps.
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

// kerbSideMM2 is the side of the kerb towards the shower, as high as it is on the average; 0 without one. Its
// other side is among the faces of the open edges.
func (b *builder) kerbSideMM2() float64 {
	for i := range b.r.Assembly.Parts {
		if p := &b.r.Assembly.Parts[i]; p.ID == "kerb" {
			return p.Shape.Volume() / b.j.Shower.Kerb.WidthMM
		}
	}
	return 0
}

// primed is a place that takes primer.
type primed struct {
	where message.ID
	mm2   float64
}

// primer goes where the substrate asks for it: on concrete, deck, screed, mortar, bare walls and
// levelling compound, under tanking or a bed that lies on them. Foam, tile backer, mats and boards ask
// for none. Where the job has a layer of primer, that counts. Common practice, no source.
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
		_, boards := b.h.RoomBase(j, b.l)
		boards = boards && !j.Base.Screed
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

// idOf is the id of a layer's part; empty where none was chosen.
func idOf(l *part.Layer) string {
	if l == nil {
		return ""
	}
	return l.ID
}
