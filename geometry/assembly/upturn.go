package assembly

import (
	"fmt"
	"math"
	"slices"

	"underfall/geometry/buildup"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// upturns are the tanking that turns up the walls beside the shower, as far as it shows over
// the finished floor: not where ramps lie at the wall or the floor is not tanked.
func (b *builder) upturns() {
	up, _ := b.job.UpturnMM()
	if up == 0 {
		return
	}
	for _, w := range b.layout.Walls {
		var shape []plan.Region
		for _, iv := range b.besideShower(w) {
			start, end := b.heights.RoomAt(&b.job, w.At(iv.From)), b.heights.RoomAt(&b.job, w.At(iv.To))
			shape = append(shape, plan.FromRing(plan.Ring{{iv.From, start}, {iv.To, end}, {iv.To, end + up}, {iv.From, start + up}}))
		}
		shape = append(shape, b.overBoxes(w, up)...)
		name := message.Of("part.room-upturn", w.Name())
		body := b.onWall(onWall{w, slices.Concat(shape...), 0, b.job.Layers.Room.Tanking.ThicknessMM}, name)
		if len(body) > 0 {
			b.add(Part{ID: fmt.Sprintf("room-upturn-%d", w.Index+1), Name: name, Material: material.Membrane, Stage: buildup.StageTanking,
				Precedence: precedenceLayer, From: "layers.tanking.upturnMM", Shape: body, Wall: w.Index + 1})
		}
	}
}

// overBoxes are the stretches of the upturn over boxes round the run that the tanking goes up and
// over.
func (b *builder) overBoxes(w layout.Wall, upMM float64) (out []plan.Region) {
	const insideMM = 0.5
	line := w.A.Sub(w.Outward.Mul(insideMM))
	thick := b.job.Layers.Room.Tanking.ThicknessMM
	dry := b.layout.Untanked.Clip(line, w.Along)
	for i := range b.boxes {
		top := b.boxes[i].TopMM()
		for _, iv := range plan.Without(b.boxes[i].outer.Clip(line, w.Along), dry) {
			iv.From, iv.To = math.Max(iv.From, thick), math.Min(iv.To, w.LengthMM-thick)
			if iv.To-iv.From > insideMM {
				out = append(out, plan.Rectangle(plan.Point{iv.From, top}, plan.Point{iv.To, top + upMM}))
			}
		}
	}
	return out
}

// besideShower are the stretches of a wall along the room's own tanked floor, clear of
// corners by the tanking's thickness.
func (b *builder) besideShower(w layout.Wall) (out []plan.Interval) {
	const insideMM, leastMM = 0.5, 1
	thick := b.job.Layers.Room.Tanking.ThicknessMM
	line := w.A.Sub(w.Outward.Mul(insideMM))
	taken := b.layout.Untanked.Clip(line, w.Along)
	for _, z := range b.floor.Zones {
		if z.Edge >= 0 {
			taken = append(taken, z.Region.Clip(line, w.Along)...)
		}
	}
	for i := range b.boxes {
		taken = append(taken, b.boxes[i].outer.Clip(line, w.Along)...)
	}
	for _, iv := range b.layout.Rest.Clip(line, w.Along) {
		for _, f := range plan.Without([]plan.Interval{{From: iv.From + thick, To: iv.To - thick}}, taken) {
			if f.To-f.From > leastMM {
				out = append(out, f)
			}
		}
	}
	return out
}
