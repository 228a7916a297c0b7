package assembly

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// stackWallMM is the wall that a stack is drawn with. Common practice, no source.
const stackWallMM = 3

// standing are the bodies that stand in the room or outside it and were there before.
func (b *builder) standing() {
	b.pump()
	for i, s := range b.layout.Stacks {
		line := []mgl64.Vec3{s.At.Vec3(b.wallFootMM()), s.At.Vec3(math.Max(b.layout.CeilingAt(s.At), b.wallFootMM()+leastWallMM))}
		b.add(Part{ID: fmt.Sprintf("stack-%d", i+1), Name: message.Of("part.stack", message.No("n", i+1)), Material: material.Plastic, Stage: buildup.StageBare,
			Precedence: precedencePipe, From: fmt.Sprintf("room.stacks[%d]", i), Shape: tube(2*s.RadiusMM, 2*(s.RadiusMM-stackWallMM), line...)[0]})
	}
}

// pump is the box of the pump that the run leads into, on the finished floor.
func (b *builder) pump() {
	p, run := b.job.Waste.Pump, &b.heights.Run
	if b.job.Waste.Exit.Kind != job.ExitPump || p == nil || len(run.Pieces) == 0 {
		return
	}
	box := layout.PumpBox(*p, run.Exit, run.ExitTo)
	region := plan.FromRing(box)
	foot := b.floor.FinishedMM(region.Centroid())
	what := message.Of("part.pump")
	b.add(Part{ID: "pump", Name: what, Material: material.Plastic, Stage: buildup.StageTile, Precedence: precedenceTrap, From: "waste.pump",
		Shape: solid.Block(b.sheet(region, what), foot, foot+p.HeightMM)})
}

// round is a region of the floor less the stacks that stand on it. One that stands across
// the region's edge, in a wall or under a ramp's foot, is left in it: the floor is then cut
// to it by eye.
func (b *builder) round(region plan.Region, what message.Message) plan.Region {
	const besideMM = 1
	for _, s := range b.layout.Stacks {
		if region.Contains(s.At, 0) && edgeMM(region, s.At) > s.RadiusMM+besideMM {
			region = b.subtract(region, plan.FromRing(plan.Circle(s.At, s.RadiusMM, solid.ChordErrorMM)), what)
		}
	}
	return region
}

// edgeMM is how far a place is from the nearest edge of a region.
func edgeMM(region plan.Region, at plan.Point) float64 {
	least := math.Inf(1)
	for _, p := range region {
		for _, ring := range p.Rings() {
			for i, q := range ring {
				least = math.Min(least, plan.DistanceToSegment(at, q, ring[(i+1)%len(ring)]))
			}
		}
	}
	return least
}
