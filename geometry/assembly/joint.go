package assembly

import (
	"slices"

	"underfall/geometry/buildup"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// jointed is the part of a sheet that tile takes beside the gaps of its joints, which get
// their sealant, as thick as the tile.
func (b *builder) jointed(
	id string, z buildup.Zone, tile buildup.Kind, whole solid.Sheet, gaps []plan.Region, what message.Message,
) solid.Sheet {
	if len(gaps) == 0 {
		return whole
	}
	region, sealing := whole.Region(), message.Of("shape.sealant")
	var filled []solid.Sheet
	for _, gap := range gaps {
		if in := b.intersect(region, gap, sealing); len(in) > 0 {
			filled = append(filled, b.sheet(in, sealing))
			region = b.subtract(region, gap, what)
		}
	}
	for _, l := range z.Layers {
		if l.Kind != tile {
			continue
		}
		var shape solid.Compound
		for _, sheet := range filled {
			if stands(sheet, l.Bottom, l.Top) {
				shape = append(shape, solid.Upright(sheet, l.Bottom, l.Top))
			}
		}
		if len(shape) > 0 {
			name := message.ID("part.shower-sealant")
			if tile == buildup.RoomTile {
				name = "part.room-sealant"
			}
			b.add(Part{ID: "sealant-" + id, Name: message.Of(name), Material: material.Sealant,
				Stage: buildup.StageTile, Precedence: precedenceTile, From: "layers.joints.perimeterMM", Shape: shape})
		}
	}
	return b.sheet(region, what)
}

// roundStacks are the gaps of tile round the stacks that stand on a floor, the stacks within
// them.
func (b *builder) roundStacks(floor plan.Region) []plan.Region {
	mm := b.job.Layers.JointMM()
	if mm == 0 {
		return nil
	}
	var out []plan.Region
	for _, s := range b.layout.StandingOn(floor) {
		out = append(out, plan.FromRing(plan.Circle(s.At, s.RadiusMM+mm, solid.ChordErrorMM)))
	}
	return out
}

// fieldJoints are the gaps of the movement joints across the floor. They go on past their
// ends by their width, so that no corner of tile is left to touch another at a crease's foot.
func (b *builder) fieldJoints() []plan.Region {
	mm := b.job.Layers.JointMM()
	if mm == 0 || b.job.Layers.Joints.GreatestFieldMM == 0 {
		return nil
	}
	var out []plan.Region
	for _, x := range b.layout.FieldsOf(&b.job).Joints {
		along := x.B.Sub(x.A).Normalize()
		a, b, half := x.A.Sub(along.Mul(mm)), x.B.Add(along.Mul(mm)), plan.Left(along).Mul(mm/2)
		out = append(out, plan.FromRing(plan.Ring{a.Add(half), b.Add(half), b.Sub(half), a.Sub(half)}))
	}
	return out
}

// roomJoints are the gaps of the room's tile: along the bare walls, round stacks, along boxes
// over the run, across the floor, and along the shower's open edges where one is stated.
func (b *builder) roomJoints() []plan.Region {
	mm := b.job.Layers.JointMM()
	if mm == 0 {
		return nil
	}
	var out []plan.Region
	for _, w := range b.layout.Walls {
		out = append(out, plan.Strip(w.A, w.B, w.Outward.Mul(-mm)))
	}
	for _, e := range b.layout.OpenEdges() {
		if b.job.Layers.Joints.AtEdge {
			out = append(out, plan.Strip(e.A, e.B, b.layout.Outward(e).Mul(mm)))
		}
	}
	return slices.Concat(out, b.roundStacks(b.layout.Rest), b.roundBoxes(), b.fieldJoints())
}
