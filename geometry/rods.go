package geometry

import (
	"image/color"
	"math"

	"underfall/geometry/buildup"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// Rod is the build-up at one place as a fitter marks it on a batten: every layer from the
// structural floor up.
type Rod struct {
	// Of is drain, way in, room, doorway, the water stop in it, beyond it, or a point.
	Of RodOf
	// At is where it stands, on plan.
	At plan.Point
	// Layers are from the structural floor up; none of a floor beyond a doorway, of which
	// the finished level alone is stated, nor of a water stop.
	Layers buildup.Stack
	// LevelMM is the finished level over the datum; Assumed tells that nobody has stated it.
	LevelMM float64
	Assumed bool
}

// Name is the id of what the rod is called: its place, and that its level is assumed.
func (r *Rod) Name() message.ID {
	if r.Assumed {
		return (r.Of + "-assumed").Name()
	}
	return r.Of.Name()
}

// RodOf is the place that a rod is of.
type RodOf string

// The places of rods, in the order they are shown in.
const (
	RodDrain   RodOf = "drain"
	RodWayIn   RodOf = "way-in" // just inside the open edge, where its step is looked at
	RodRoom    RodOf = "room"   // just outside it
	RodDoorway RodOf = "doorway"
	RodStop    RodOf = "stop"   // the water stop in the doorway
	RodBeyond  RodOf = "beyond" // the doorway
	RodPoint   RodOf = "point"  // any point
)

// Name is the id of what the place is called.
func (o RodOf) Name() message.ID { return message.ID("rod." + string(o)) }

// RodIDs are the ids of the names of all places of rods.
func RodIDs() []message.ID {
	beyond := Rod{Of: RodBeyond, Assumed: true}
	return append(message.Names([]RodOf{RodDrain, RodWayIn, RodRoom, RodDoorway, RodStop, RodBeyond, RodPoint}), beyond.Name())
}

// RodStep is the step between the floors of two rods, by their indexes; MM is the rise from
// the first to the second.
type RodStep struct {
	From, To int
	Step
}

// Rods are the build-ups at the places that heights are asked for, with the greatest step
// of the open edges one can walk over and the greatest at a doorway, if it is one at all.
// There are none of a job that could not be worked out.
func (r Result) Rods() (rods []Rod, steps []RodStep) {
	if len(r.Problems) > 0 {
		return nil, nil
	}
	put := func(of RodOf, p plan.Point) int {
		s := r.Floor.BesideJoists(p) // an edge may lie along a joist
		rods = append(rods, Rod{Of: of, At: p, Layers: s, LevelMM: s.TopMM()})
		return len(rods) - 1
	}
	// A hair off the edge a level may be read otherwise than at the edge, where the step is.
	beside := func(of RodOf, p plan.Point, edgeMM float64) int {
		i := put(of, p)
		if math.Abs(rods[i].LevelMM-edgeMM) < besideMM {
			rods[i].LevelMM = edgeMM
		}
		return i
	}
	put(RodDrain, r.Layout.DrainEdge)
	edge, door := r.WayIn(), WorstStep(r.Steps(), rule.Doorway)
	floor := -1 // the rod of the floor at the doorway
	if edge != nil {
		in, out := r.besideEdge(edge.Where.Number - 1)
		a, b := beside(RodWayIn, in, edge.Rise.ToMM), beside(RodRoom, out, edge.Rise.FromMM)
		steps = append(steps, RodStep{b, a, *edge})
		floor = b
	}
	if door == nil || door.Kind == Flush {
		return rods, steps
	}
	for k := range r.Layout.Doors {
		d := &r.Layout.Doors[k]
		if d.Index != door.Where.Number-1 {
			continue
		}
		at := r.Floor.DoorWorst(*d)
		if inside := r.Floor.FinishedMM(at); floor < 0 || math.Abs(inside-rods[floor].LevelMM) > sameFloorMM {
			floor = put(RodDoorway, at)
		}
		on := plan.NearestOnSegment(at, d.A, d.B)
		rods = append(rods, Rod{Of: RodBeyond, At: on, LevelMM: r.Settled.Room.Doorways[d.Index].NeighbourFFLMM,
			Assumed: r.Settled.BeyondOpen(d.Index)})
		step := RodStep{len(rods) - 1, floor, *door}
		if door.OverStop {
			rods = append(rods, Rod{Of: RodStop, At: on, LevelMM: door.Rise.ToMM})
			if step.To = len(rods) - 1; door.Rise.FromMM != rods[step.From].LevelMM {
				step.From = floor
			}
		}
		steps = append(steps, step)
	}
	return rods, steps
}

// RodAt is the build-up at any point of the room; an error says why there is none.
func (r Result) RodAt(p plan.Point) (Rod, error) {
	switch {
	case len(r.Problems) > 0:
		return Rod{}, message.Fail("datum.no-floor")
	case p != p || !r.Layout.Room.Contains(p, 0):
		return Rod{}, message.Fail("rod.outside-room")
	}
	s := r.Floor.At(p)
	return Rod{Of: RodPoint, At: p, Layers: s, LevelMM: s.TopMM()}, nil
}

// RodLayer is a layer of a rod as it is shown.
type RodLayer struct {
	// Key is that of the layer's kind, which its field is found by, Part the id of its body.
	Key, Part string
	// Text is its name with its thickness, told so that all of a rod add up.
	Text            message.Message
	BottomMM, TopMM float64
	Material        material.Material
	// Colour is its own, of a finish; zero for its material's.
	Colour color.RGBA
}

// LayersOf are the layers of a rod as they are shown, from the structural floor up.
func (r Result) LayersOf(rod Rod) (out []RodLayer) {
	chain := rod.Layers.Chain()
	finish := &r.Settled.Layers.Room
	if r.Layout.FallArea.Contains(rod.At, 0) {
		finish = &r.Settled.Layers.Shower
	}
	laid := map[buildup.Kind]int{}
	ramp := r.Floor.Zones[r.Floor.ZoneAt(rod.At)].Edge // under no ramp below nought
	for i := 1; i < len(rod.Layers); i++ {
		c := &rod.Layers[i]
		laid[c.Kind]++
		l := RodLayer{Key: c.Kind.Facts().Key, Part: c.Kind.PartID(c.Number, laid[c.Kind]), Text: message.Of("rod.layer", message.In("layer", message.Of(c.Name)), chain.Part("mm", i)),
			BottomMM: c.BottomMM, TopMM: c.TopMM, Material: c.Material}
		if ramp >= 0 {
			l.Part = buildup.OnRamp(c.Kind.PartID(c.Number, 0), ramp)
		}
		if colour, ok := material.ParseColour(finish.Colour); ok && c.Material == material.Tile {
			l.Colour = colour
		}
		out = append(out, l)
	}
	return out
}

// sameFloorMM is how near two levels of the room's floor are shown by one rod: half of the
// whole millimetre that levels are told in.
const sameFloorMM = 0.5

// WorstStep is the greatest of the steps at a kind of place, OpenEdge or Doorway; nil without one.
func WorstStep(steps []Step, of rule.Thing) *Step {
	var worst *Step
	for i := range steps {
		if s := &steps[i]; s.Where.Of == of && (worst == nil || math.Abs(s.MM) > math.Abs(worst.MM)) {
			worst = s
		}
	}
	return worst
}

// besideMM is how far off an edge the build-ups beside it are taken: enough to be on one
// side for sure, too little for a fall to matter.
const besideMM = 0.01

// besideEdge are the places just inside and just outside an open edge, by its index, where
// its step is looked at.
func (r *Result) besideEdge(edge int) (in, out plan.Point) {
	for i, e := range r.Heights.Edges(&r.Settled, &r.Layout) {
		if i != edge {
			continue
		}
		at, _ := e.StepNear(r.Layout.TrapCentre, r.Settled.Units)
		// Off the edge's ends, where a wall stands.
		if middle := e.Edge.Middle().Sub(at); middle.Len() > besideMM {
			at = at.Add(middle.Normalize().Mul(besideMM))
		}
		along := e.Edge.B.Sub(e.Edge.A).Normalize()
		across := plan.Point{-along.Y(), along.X()}
		if across.Dot(r.Layout.FallArea.Centroid().Sub(at)) < 0 {
			across = across.Mul(-1)
		}
		return at.Add(across.Mul(besideMM)), at.Sub(across.Mul(besideMM))
	}
	return in, out
}
