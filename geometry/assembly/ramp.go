package assembly

import (
	"slices"

	"underfall/geometry/buildup"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// rampFacet is a part of a ramp that one plane carries, and its place on the room's floor.
type rampFacet struct {
	zone   buildup.Zone
	region plan.Region
}

// room lays the floor outside the shower: the ramps first, as they take their
// place from the rest. A raised base in the room is laid before.
func (b *builder) room() {
	what := message.Of("shape.room-finish")
	rest := b.besidePump(b.round(b.layout.Rest, what), what)
	zones := b.floor.Zones[1:]
	for i, e := range b.layout.OpenEdges() {
		var facets []rampFacet
		at := message.In("at", message.Of(e.Side.At()))
		for _, z := range zones {
			if z.Edge == i {
				region := b.apart(z, rest, message.Of("shape.ramp", at))
				rest = b.subtract(rest, region, message.Of("shape.room-beside-ramp"))
				facets = append(facets, rampFacet{z, region})
			}
		}
		if len(facets) > 0 {
			b.layRamp(i, at, facets)
		}
	}
	if len(zones) == 0 {
		return
	}
	last := zones[len(zones)-1]
	sheet := b.sheet(rest, what)
	found := b.found(rest, sheet, what)
	b.lay(last, buildup.StageBare, func(buildup.Layer) solid.Sheet { return found })
	tile := b.jointed("room", last, buildup.RoomTile, sheet, b.roomJoints(), what)
	for _, stage := range []buildup.Stage{buildup.StageTanking, buildup.StageTile} {
		b.lay(last, stage, func(l buildup.Layer) solid.Sheet {
			if l.Kind == buildup.RoomTile {
				return tile
			}
			if len(l.Without) > 0 {
				return b.without(rest, b.layout.Untanked, message.Of("shape.untanked"))
			}
			return sheet
		})
	}
}

// apart is the place of a part of a ramp on the floor, round what stands there: as it was
// cut, or where the cut left pieces joined along it, in pieces of their own.
func (b *builder) apart(z buildup.Zone, rest plan.Region, what message.Message) plan.Region {
	region := z.Region
	for _, p := range z.Region {
		if _, _, joined := p.Outer.CrossingEdges(); joined || len(p.Holes) > 0 {
			region = b.intersect(z.Region, rest, what)
			break
		}
	}
	base := z.Layers[slices.IndexFunc(z.Layers, func(l buildup.Layer) bool { return l.Kind == buildup.RampBase })]
	// Corners that were put on the grid may lie a hair past the foot; others on it, but for
	// rounding.
	const roundingMM = 1e-9
	return b.besideBoxes(b.round(region, what)).Where(func(p plan.Point) float64 { return base.Top.At(p) - base.Bottom.At(p) + roundingMM })
}

// found is where layers found on the floor lie in a place: not where the waste drops.
func (b *builder) found(region plan.Region, whole solid.Sheet, what message.Message) solid.Sheet {
	if len(b.job.Floor.Existing) == 0 {
		return whole
	}
	return b.without(region, b.dropHole(), what)
}

// layRamp adds the layers of the ramp at an open edge: one body each, of as many parts as
// the ramp has planes.
func (b *builder) layRamp(edge int, at message.Arg, facets []rampFacet) {
	what := message.Of("shape.ramp", at)
	whole := make([]solid.Sheet, len(facets))
	for k, f := range facets {
		whole[k] = b.sheet(f.region, what)
	}
	for i, of := range facets[0].zone.Layers {
		facts := of.Kind.Facts()
		var shape solid.Compound
		for k, f := range facets {
			l, sheet := f.zone.Layers[i], whole[k]
			switch {
			case facts.Extent == buildup.BesideChannel:
				sheet = b.without(f.region, b.roomChannel(), what)
			case facts.Stage == buildup.StageBare:
				sheet = b.found(f.region, sheet, what)
			}
			if stands(sheet, l.Bottom, l.Top) {
				shape = append(shape, solid.Upright(sheet, l.Bottom, l.Top))
			}
		}
		if len(shape) == 0 {
			continue
		}
		id, name, from := called(of, 0)
		p := Part{ID: buildup.OnRamp(id, edge), Name: message.Of("part.at-edge", message.In("part", name), at),
			Material: of.Material, Stage: facts.Stage, Precedence: precedenceOf(facts.Material), From: from, Shape: shape}
		if facts.Material == material.Tile {
			p.Finish = &b.job.Layers.Room
		}
		b.add(p)
	}
}
