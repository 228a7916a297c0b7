package section

import (
	"fmt"
	"math"

	"underfall/geometry"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// boxingInPlan draws the boxes over the run, each with its name.
func (k *sketch) boxingInPlan(d *Drawing, r geometry.Result) {
	boxes := r.Heights.Boxes(&r.Settled, &r.Layout)
	for i := range boxes {
		region := k.shape(nil, func(sh *plan.Shaper) plan.Region {
			outer, _ := boxes[i].InPlan(sh, &r.Layout, message.Of("shape.boxing"))
			return outer
		})
		if len(region) == 0 {
			continue
		}
		d.Areas = append(d.Areas, Area{PartID: "boxing", Name: message.Of("part.boxing"), Material: material.Lining, Region: region})
		for _, p := range region {
			d.Lines = append(d.Lines, Line{closed(p.Outer), Medium, false, "boxing"})
		}
		d.Marks = append(d.Marks, Mark{At: region.Centroid(), Of: MarkBoxing})
	}
}

// boxAlong are the stretches of the cut within a box over the run.
func (d *Drawing) boxAlong(r *geometry.Result, b *level.Box) []plan.Interval {
	var in []plan.Interval
	for _, leg := range b.Legs() {
		in = append(in, d.along(plan.FromRing(leg))...)
	}
	floor := d.along(r.Layout.Rest)
	return plan.Without(floor, plan.Without(floor, in))
}

// besideBoxes are stretches of the room's floor less what boxes over the run stand on.
func (d *Drawing) besideBoxes(r *geometry.Result, floor []plan.Interval) []plan.Interval {
	boxes := r.Heights.Boxes(&r.Settled, &r.Layout)
	for i := range boxes {
		floor = plan.Without(floor, d.boxAlong(r, &boxes[i]))
	}
	return floor
}

// boxing names the boxes over the run that the cut goes through.
func (d *Drawing) boxing(r *geometry.Result) {
	boxes := r.Heights.Boxes(&r.Settled, &r.Layout)
	for i := range boxes {
		for _, iv := range d.boxAlong(r, &boxes[i]) {
			// In sight.
			from, to := math.Max(iv.From, d.FocusLow.X()), math.Min(iv.To, d.FocusHigh.X())
			if to < from {
				from, to = iv.From, iv.To
			}
			d.Marks = append(d.Marks, Mark{At: plan.Point{(from + to) / 2, boxes[i].TopMM()}, Of: MarkBoxing})
		}
	}
}

// boxing draws the lids of the boxes over the run, along it, with the tanking that goes over them.
func (g *long) boxing() {
	boxes := g.r.Heights.Boxes(&g.r.Settled, &g.r.Layout)
	for i := range boxes {
		b := &boxes[i]
		to := b.ToMM
		if b.Closed {
			to += b.HalfMM()
		}
		g.area("boxing", message.Of("part.boxing"), material.Lining, true, []float64{b.FromMM, to}, atLevel(b.LidMM), atLevel(b.TopMM()))
		if _, tanked := partOf(g.r.Assembly, fmt.Sprintf("boxing-tanking-%d", i+1)); tanked {
			thick := math.Min(g.r.Settled.Layers.Room.Tanking.ThicknessMM, b.BoardMM/2)
			for _, iv := range plan.Without([]plan.Interval{{From: b.FromMM, To: to}}, g.within(g.r.Layout.Untanked)) {
				g.area("boxing-tanking", message.Of("part.boxing-tanking"), material.Membrane, true, []float64{iv.From, iv.To}, atLevel(b.TopMM()-thick), atLevel(b.TopMM()))
			}
		}
		g.Marks = append(g.Marks, Mark{At: g.at((b.FromMM+b.ToMM)/2, b.TopMM()), Of: MarkBoxing})
	}
}

// within are the stretches of the run that lie in a region in plan.
func (g *long) within(region plan.Region) (out []plan.Interval) {
	for _, p := range g.r.Heights.Run.Pieces {
		for s := range p.Stretches {
			for _, iv := range region.Clip(s.A, s.Along()) {
				if from, to := math.Max(0, iv.From), math.Min(s.LengthMM, iv.To); to > from {
					out = append(out, plan.Interval{From: s.FromMM + from, To: s.FromMM + to})
				}
			}
		}
	}
	return out
}
