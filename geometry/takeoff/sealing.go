package takeoff

import (
	"math"

	"underfall/geometry/guide"
	"underfall/geometry/material"
	"underfall/geometry/message"
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

// collars are those of drain and stacks, and of a head's pipe; a mixer's pipes no job states.
func (b *builder) collars() {
	count := func(item, how message.Message, n int) {
		b.add(Line{Group: Sealing, Item: item, Needed: count(n), How: []message.Message{how}})
	}
	count(message.Of("order.collar-drain"), message.Of("order.how.collar-drain"), 1)
	count(message.Of("order.collar-stack"), message.Of("order.how.collar-stack"), b.r.Sealing.Collars-1)
	if b.j.Shower.Head != nil {
		count(message.Of("order.collar-pipe"), message.Of("order.how.collar-head"), 1)
	}
}

// sealant is by the length and the section of the joints. Where no joint is stated the usual gap along
// the shower's walls and in their corners counts: no tile is grouted there.
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
