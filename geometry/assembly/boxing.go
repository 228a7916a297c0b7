package assembly

import (
	"fmt"
	"math"

	"underfall/geometry/buildup"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// boxed is a box over the run in plan: all that it takes, and the room within its sides.
type boxed struct {
	level.Box
	outer, inner plan.Region
}

// boxesInPlan are those over the run.
func (b *builder) boxesInPlan() (out []boxed) {
	what := message.Of("shape.boxing")
	for _, box := range b.heights.Boxes(&b.job, &b.layout) {
		outer, inner := box.InPlan(b.shaper, &b.layout, what)
		out = append(out, boxed{box, b.round(outer, what), inner})
	}
	return out
}

// besideBoxes is a region of the room's floor less the boxes over the run.
func (b *builder) besideBoxes(region plan.Region) plan.Region {
	for i := range b.boxes {
		region = b.subtract(region, b.boxes[i].outer, message.Of("shape.boxing"))
	}
	return region
}

// boxing are the boxes over the run, from the floor that it lies on up: sides and a lid, within
// them the tanking that goes up and over them in the tanked floor. Where the pipe comes in or
// goes on, they are open.
func (b *builder) boxing() {
	what := message.Of("shape.boxing")
	foot := solid.Surface{b.heights.Beside}
	for i := range b.boxes {
		box := &b.boxes[i]
		lid, top := solid.Level(box.LidMM), solid.Level(box.TopMM())
		var boards, tanking []tier
		if skin, ok := b.overBox(i); ok {
			board := b.subtract(box.outer, skin.sides, what)
			under := top.Raised(-skin.thickMM)
			boards = []tier{{b.subtract(board, box.inner, what), foot, lid}, {skin.sides, foot, skin.foot},
				{b.subtract(board, skin.lid, what), lid, top}, {skin.lid, lid, under}}
			tanking = []tier{{skin.sides, skin.foot, top}, {skin.lid, under, top}}
		} else {
			boards = []tier{{b.subtract(box.outer, box.inner, what), foot, lid}, {box.outer, lid, top}}
		}
		if shape := b.tiers(boards, what); len(shape) > 0 {
			b.add(Part{ID: fmt.Sprintf("boxing-%d", i+1), Name: message.Of("part.boxing"), Material: material.Lining, Stage: buildup.StageTile,
				Precedence: precedenceLayer, From: "waste.boxing", Shape: shape})
		}
		if shape := b.tiers(tanking, what); len(shape) > 0 {
			b.add(Part{ID: fmt.Sprintf("boxing-tanking-%d", i+1), Name: message.Of("part.boxing-tanking"), Material: material.Membrane,
				Stage: buildup.StageTile, Precedence: precedenceLayer, From: "layers.room.tanking.thicknessMM", Shape: shape})
		}
	}
}

// tier is what stands over a region from one surface up to another.
type tier struct {
	region      plan.Region
	bottom, top solid.Surface
}

// tiers are those of a body that there is something of.
func (b *builder) tiers(of []tier, what message.Message) (body solid.Compound) {
	for _, s := range of {
		if sheet := b.sheet(s.region, what); stands(sheet, s.bottom, s.top) {
			body = append(body, solid.Upright(sheet, s.bottom, s.top))
		}
	}
	return body
}

// skin is the tanking that goes up and over a box, the outermost of its boards and finish.
type skin struct {
	sides, lid plan.Region // the lid's within its sides
	foot       solid.Surface
	thickMM    float64
}

// overBox is that over one of the boxes; ok is false where none of the floor about it is tanked.
func (b *builder) overBox(i int) (s skin, ok bool) {
	box, what := &b.boxes[i], message.Of("shape.boxing")
	zone := &b.floor.Zones[len(b.floor.Zones)-1]
	for _, l := range zone.Layers {
		if l.Kind == buildup.RoomTanking {
			s.foot, ok = l.Bottom, true
		}
	}
	if beyond, all := b.job.TankedBeyondMM(); !ok || !all && beyond == 0 {
		return s, false
	}
	s.thickMM = math.Min(b.job.Layers.Room.Tanking.ThicknessMM, box.BoardMM/2)
	tanked := b.subtract(box.outer, b.layout.Untanked, what)
	for _, f := range box.Faces(&b.layout) {
		side := plan.Strip(f.A, f.B, f.Out.Mul(-s.thickMM))
		s.sides = b.shaper.Union(s.sides, b.intersect(side, tanked, what), what)
	}
	s.lid = b.subtract(tanked, s.sides, what)
	return s, s.thickMM > 0 && len(tanked) > 0
}

// roundBoxes are the gaps of the room's tile along the boxes over the run.
func (b *builder) roundBoxes() (out []plan.Region) {
	mm := b.job.Layers.JointMM()
	for i := range b.boxes {
		for _, f := range b.boxes[i].Faces(&b.layout) {
			on := f.B.Sub(f.A).Normalize().Mul(mm) // round the corners
			out = append(out, plan.Strip(f.A.Sub(on), f.B.Add(on), f.Out.Mul(mm)))
		}
	}
	return out
}
