package takeoff

import (
	"underfall/geometry/assembly"
	"underfall/geometry/guide"
	"underfall/geometry/material"
	"underfall/geometry/message"
)

// mortars are screeds, ramps and formers of mortar, and levelling compound.
func (b *builder) mortars() {
	l := b.spread(Line{Group: Mortars, Item: message.Of("order.mortar")}, b.of(material.Mortar), guide.MortarYield)
	b.add(b.packed(l, guide.Mortar, ""))
	l = b.spread(Line{Group: Mortars, Item: message.Of("order.levelling")}, b.of(material.Levelling), guide.LevellingYield)
	b.add(b.packed(l, guide.Levelling, ""))
}

// wedgeMM is from which difference on a bed is told as a wedge.
const wedgeMM = 0.25

// adhesives are what boards and tiles are bedded in, by the true volume of their beds; one for all.
func (b *builder) adhesives() {
	l := Line{Group: Adhesive, Item: message.Of("order.adhesive")}
	if bed, ok := b.h.Bed(b.j, b.l); ok && bed.Greatest.ThicknessMM-bed.Least.ThicknessMM > wedgeMM && !b.j.Base.Screed {
		l.How = append(l.How, message.Of("order.how.wedge", message.Layer("least", bed.Least.ThicknessMM), message.Layer("greatest", bed.Greatest.ThicknessMM)))
	}
	parts := b.take(func(p *assembly.Part) bool { return p.Material == material.Adhesive || p.Material == material.TileBed })
	b.add(b.packed(b.spread(l, parts, guide.AdhesiveYield), guide.Adhesive, ""))
}
