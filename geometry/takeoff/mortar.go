package takeoff

import (
	"underfall/geometry/guide"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// mortars are screeds, ramps and formers of mortar, and levelling compound.
func (b *builder) mortars() {
	l := b.spread(Line{Group: Mortars, Item: message.Of("order.mortar")}, b.of(material.Mortar), guide.MortarYield)
	b.add(b.packed(l, guide.Mortar, ""))
	l = b.spread(Line{Group: Mortars, Item: message.Of("order.levelling")}, b.of(material.Levelling), guide.LevellingYield)
	b.add(b.packed(l, guide.Levelling, ""))
}

// adhesives are what boards and tiles are bedded in, by the true volume of their beds.
func (b *builder) adhesives() {
	l := Line{Group: Adhesive, Item: message.Of("order.board-adhesive")}
	if bed, ok := b.h.Bed(b.j, b.l); ok && bed.Greatest.ThicknessMM > 0 && !b.j.Base.Screed {
		l.How = append(l.How, message.Of("order.how.wedge", message.Layer("least", bed.Least.ThicknessMM), message.Layer("greatest", bed.Greatest.ThicknessMM)))
	}
	l = b.spread(l, b.of(material.Adhesive), guide.AdhesiveYield)
	b.add(b.packed(l, guide.BoardAdhesive, ""))
	l = b.spread(Line{Group: Adhesive, Item: message.Of("order.tile-adhesive")}, b.of(material.TileBed), guide.AdhesiveYield)
	b.add(b.packed(l, guide.TileAdhesive, idOf(b.j.Parts.Shower.Bed)))
}

// idOf is the id of a layer's part; empty where none was chosen.
func idOf(l *part.Layer) string {
	if l == nil {
		return ""
	}
	return l.ID
}
