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

// DoorRise is the rise over a doorway, from the floor beyond it to the floor inside: over its water stop, if it has
// one, which also stands over the floor inside.
func DoorRise(beyondMM, finishedMM, stopMM float64) message.Rise {
	rise := message.Rise{FromMM: beyondMM, ToMM: finishedMM + stopMM}
	if math.Abs(rise.MM()) < stopMM {
		rise.FromMM = finishedMM
	}
	return rise
}

// doorRiseAt is the rise over a doorway where the floor inside is at a place.
func (f *Floor) doorRiseAt(d layout.Doorway, p plan.Point) message.Rise {
	return DoorRise(f.job.Room.Doorways[d.Index].NeighbourFFLMM, f.FinishedMM(p), f.job.DoorStopMM())
}

// DoorWorst is where along a doorway, just inside the room, the step is greatest, up or down; the middle
// where it is as great all along.
func (f *Floor) DoorWorst(d layout.Doorway) plan.Point {
	var worst plan.Point
	greatestMM := math.Inf(-1)
	for _, p := range f.DoorPlaces(d) {
		if mm := math.Abs(f.doorRiseAt(d, p).MM()); mm > greatestMM+plan.HairMM {
			worst, greatestMM = p, mm
		}
	}
	return worst
}

// DoorStep is the greatest rise along a doorway.
func (f *Floor) DoorStep(d layout.Doorway) message.Rise { return f.doorRiseAt(d, f.DoorWorst(d)) }

// DoorStepMM is how high that is.
func (f *Floor) DoorStepMM(d layout.Doorway) float64 {
	return f.DoorStep(d).MM()
}
