package assembly

import (
	"fmt"
	"math"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// doorStops are the water stops at the doorways, in the reveals: over each of the floors along a doorway as high, and from the
// structure under that up.
func (b *builder) doorStops() {
	stop := b.job.DoorStopMM()
	for _, d := range b.layout.Doors {
		if stop == 0 {
			return
		}
		sill := math.Min(0, b.job.Room.Doorways[d.Index].NeighbourFFLMM)
		name := message.Of("part.door-stop", message.No("n", d.Index+1))
		out := d.Wall.Outward.Mul(layout.StopMM)
		rest := plan.Strip(d.A, d.B, out)
		var along []tier
		for i := range b.floor.Zones {
			zone, over := &b.floor.Zones[i], rest
			if i < len(b.floor.Zones)-1 {
				over = b.intersect(rest, zone.Region.EachCorner(out.Mul(2).Add), name)
			}
			from := zone.Start
			for _, p := range over {
				for _, corner := range p.Outer {
					if from.At(corner) < sill {
						from = solid.Level(sill)
					}
				}
			}
			along = append(along, tier{over, from, zone.Top().Raised(stop)})
			rest = b.subtract(rest, over, name)
		}
		if shape := b.tiers(along, name); len(shape) > 0 {
			b.add(Part{ID: fmt.Sprintf("door-stop-%d", d.Index+1), Name: name, Material: material.Metal, Stage: buildup.StageTanking,
				Precedence: precedenceLayer, From: "layers.tanking.doorStopMM", Shape: shape})
		}
	}
}

// screenStops are the water stops along the fixed panes, angles on the tanking: a leg that stands in
// the shower's bed and tile, and one that lies in the bed under the pane. It gives what the
// standing ones leave of a region.
func (b *builder) screenStops(region plan.Region) plan.Region {
	stop := b.job.ScreenStopMM()
	if stop == 0 {
		return region
	}
	shower := &b.job.Layers.Shower
	foot := b.layout.Fall.Raised(b.heights.FlangeMM + shower.UnderMM() + shower.Tanking.ThicknessMM)
	for _, x := range b.layout.Screens {
		of := &b.job.Shower.Screens[x.Index]
		if of.Kind != job.ScreenPane {
			continue
		}
		name := message.Of("part.screen-stop", message.No("n", x.Index+1))
		leg := b.intersect(x.Stop(of.ThicknessMM), region, name)
		if len(leg) == 0 {
			continue
		}
		region = b.subtract(region, leg, name)
		lies := b.intersect(x.StopLies(of.ThicknessMM), region, name)
		b.lying = b.shaper.Union(b.lying, lies, name)
		shape := b.tiers([]tier{{leg, foot, b.layout.Fall.Raised(b.heights.TileMM + stop)}, {lies, foot, foot.Raised(b.lyingMM())}}, name)
		b.add(Part{ID: fmt.Sprintf("screen-stop-%d", x.Index+1), Name: name, Material: material.Metal, Stage: buildup.StageTanking,
			Precedence: precedenceLayer, From: "layers.tanking.screenStopMM", Shape: shape})
	}
	return region
}

// showerBed is the bed of the shower's tile, which goes over the lying legs of water stops.
func (b *builder) showerBed(bed buildup.Layer, region plan.Region) {
	facts, what := bed.Kind.Facts(), message.Of("shape.water-stop")
	id, name, from := called(bed, 0)
	shape := b.tiers([]tier{{b.subtract(region, b.lying, what), bed.Bottom, bed.Top},
		{b.intersect(region, b.lying, what), bed.Bottom.Raised(b.lyingMM()), bed.Top}}, what)
	if len(shape) > 0 {
		b.add(Part{ID: id, Name: name, Material: bed.Material, Stage: facts.Stage, Precedence: precedenceOf(facts.Material), From: from, Shape: shape})
	}
}

// lyingMM is how thick the lying leg of a water stop is drawn: in the lower half of its bed.
func (b *builder) lyingMM() float64 {
	const mostMM = 1
	return math.Min(mostMM, b.job.Layers.Shower.Bed.ThicknessMM/2)
}
