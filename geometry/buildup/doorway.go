package buildup

import (
	"math"

	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

const (
	// doorInsideMM is how far inside the room a doorway's floor is looked at.
	doorInsideMM = 0.5
	// doorEndMM is how much of a doorway's width at either end counts for nothing: so far off are walls and
	// what is built between them.
	doorEndMM = 5
	// besideBorderMM is how far beside a border of two floors each of them is looked at.
	besideBorderMM = 1e-3
)

// DoorPoint is just inside the room in the middle of a doorway.
func DoorPoint(d layout.Doorway) plan.Point { return d.Middle().Sub(d.Wall.Outward.Mul(doorInsideMM)) }

// DoorPlaces are the places just inside the room along a doorway where its floor may lie highest or lowest:
// the middle, which comes first, the ends, and either side of each border of two floors.
func (f *Floor) DoorPlaces(d layout.Doorway) []plan.Point {
	middle, along := DoorPoint(d), d.B.Sub(d.A).Normalize()
	far := d.B.Sub(d.A).Len()/2 - doorEndMM
	out := []plan.Point{middle}
	put := func(mm float64) {
		if math.Abs(mm) <= far {
			out = append(out, middle.Add(along.Mul(mm)))
		}
	}
	put(-far)
	put(far)
	for i := range f.Zones {
		for _, in := range f.Zones[i].Region.Clip(middle, along) {
			put(in.From - besideBorderMM)
			put(in.From + besideBorderMM)
			put(in.To - besideBorderMM)
			put(in.To + besideBorderMM)
		}
	}
	return out
}

// DoorWorst is where along a doorway, just inside the room, the step is greatest, up or down; the middle
// where it is as great all along.
func (f *Floor) DoorWorst(d layout.Doorway) plan.Point {
	beyondMM := f.job.Room.Doorways[d.Index].NeighbourFFLMM
	var worst plan.Point
	greatestMM := math.Inf(-1)
	for _, p := range f.DoorPlaces(d) {
		if mm := math.Abs(f.FinishedMM(p) - beyondMM); mm > greatestMM+plan.HairMM {
			worst, greatestMM = p, mm
		}
	}
	return worst
}

// DoorStep is the greatest rise along a doorway, from the neighbour's floor to the room's.
func (f *Floor) DoorStep(d layout.Doorway) message.Rise {
	return message.Rise{FromMM: f.job.Room.Doorways[d.Index].NeighbourFFLMM, ToMM: f.FinishedMM(f.DoorWorst(d))}
}

// DoorStepMM is how high that is.
func (f *Floor) DoorStepMM(d layout.Doorway) float64 {
	return f.DoorStep(d).MM()
}
