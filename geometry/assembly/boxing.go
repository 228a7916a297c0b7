package assembly

import (
	"fmt"

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

// boxing are the boxes over the run, from the floor that it lies on up: sides and a lid.
// Where the pipe comes in or goes on, they are open.
func (b *builder) boxing() {
	what := message.Of("shape.boxing")
	foot := solid.Surface{b.heights.Beside}
	for i := range b.boxes {
		box := &b.boxes[i]
		lid, top := solid.Level(box.LidMM), solid.Level(box.TopMM())
		var shape solid.Compound
		if sides := b.without(box.outer, box.inner, what); stands(sides, foot, lid) {
			shape = append(shape, solid.Upright(sides, foot, lid))
		}
		if whole := b.sheet(box.outer, what); stands(whole, lid, top) {
			shape = append(shape, solid.Upright(whole, lid, top))
		}
		if len(shape) > 0 {
			b.add(Part{ID: fmt.Sprintf("boxing-%d", i+1), Name: message.Of("part.boxing"), Material: material.Lining, Stage: buildup.StageTile,
				Precedence: precedenceLayer, From: "waste.boxing", Shape: shape})
		}
	}
}
