package takeoff

import (
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/solid"
)

// mortars are screeds, ramps and formers of mortar, and levelling compound.
func (b *builder) mortars() {
	l := b.spread(Line{Group: Mortars, Item: message.Of("order.mortar")}, b.of(material.Mortar), 0, guide.MortarYield)
	b.add(b.packed(l, guide.Mortar, ""))
	l = Line{Group: Mortars, Item: message.Of("order.levelling")}
	levelling := b.of(material.Levelling)
	for _, p := range levelling {
		if s, ok := p.Shape.(solid.Prism); ok && p.ID == buildup.RoomLevelling.Facts().PartID {
			least, greatest := solid.Between(s.Sheet.Region(), s.Bottom, s.Top)
			l.How = append(l.How, message.Of("order.how.levelled", message.In("part", p.Name),
				message.Layer("least", least), message.Layer("greatest", greatest)))
		}
	}
	l = b.spread(l, levelling, 0, guide.LevellingYield)
	b.add(b.packed(l, guide.Levelling, ""))
}

// wedgeMM is from which difference on a bed is told as a wedge.
const wedgeMM = 0.25

// adhesives are what boards, mats and tiles are bedded in: the true volume of their beds, and what
// goes under mats and boards that the job gives no bed. One for all.
func (b *builder) adhesives() {
	l := Line{Group: Adhesive, Item: message.Of("order.adhesive")}
	if bed, ok := b.h.Bed(b.j, b.l); ok && bed.Greatest.ThicknessMM-bed.Least.ThicknessMM > wedgeMM && !b.j.Base.Screed {
		l.How = append(l.How, message.Of("order.how.wedge", message.Layer("least", bed.Least.ThicknessMM), message.Layer("greatest", bed.Greatest.ThicknessMM)))
	}
	mm2, thick := 0.0, b.figure(guide.BeddingMM).Value
	for i := range b.r.Assembly.Parts {
		p := &b.r.Assembly.Parts[i]
		if p.Material == material.Decoupling || p.Material == material.Overlay && !b.screwed(p) {
			mm2 += areaMM2([]*assembly.Part{p})
		}
	}
	if mm2 > 0 {
		l.How = append(l.How, message.Of("order.how.bedding", area("area", mm2), message.Layer("thick", thick)))
	}
	more := mm2 * thick
	for _, on := range job.Wheres() {
		for _, c := range b.besides(on) {
			bed := b.j.Finish(on).Bed.ThicknessMM
			more += c.mm2 * bed
			of := message.In("of", message.Of(c.how, area("area", c.mm2)))
			l.How = append(l.How, message.Of("order.how.bed-besides", of, message.Layer("thick", bed)))
		}
	}
	parts := b.take(func(p *assembly.Part) bool { return p.Material == material.Adhesive || p.Material == material.TileBed })
	b.add(b.packed(b.spread(l, parts, more/mm3InLitre, guide.AdhesiveYield), guide.Adhesive, ""))
}
