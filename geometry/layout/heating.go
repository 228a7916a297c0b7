package layout

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// lowFixtureMM is how far over the floor a fixture must hang for a mat to lie under it: what
// lies closer holds the heat in. Common practice, no source.
const lowFixtureMM = 100

// heated finds where a heating mat lies: its zone less what it keeps off.
func (l *Layout) heated(j job.Job, sh *plan.Shaper) {
	shower, room := j.Heated()
	if !shower && !room {
		return
	}
	var free []plan.Region
	for _, s := range l.Stacks {
		free = append(free, plan.FromRing(plan.Circle(s.At, s.RadiusMM, solid.ChordErrorMM)))
	}
	for _, f := range j.Room.Fixtures {
		if f.UnderMM < lowFixtureMM {
			free = append(free, plan.FromRing(j.Room.Footprint(f)))
		}
	}
	free = append(free, l.offHeating(j.Layers.Heating)...)
	for _, zone := range []struct {
		heated bool
		region plan.Region
	}{{shower, l.FallArea}, {room, l.Rest}} {
		if zone.heated {
			l.Heated = append(l.Heated, without(zone.region, free, sh)...)
		}
	}
}

// offHeating is what a mat keeps off as stated: strips along the walls and the drain with
// what is round it.
func (l *Layout) offHeating(h *job.Heating) []plan.Region {
	fromDrain, margin := 0.0, 0.0
	if h != nil {
		fromDrain, margin = h.FromDrainMM, h.MarginMM
	}
	half := func(along plan.Point) float64 {
		reach := 0.0
		for _, p := range l.Drain {
			for _, q := range p.Outer {
				reach = max(reach, q.Sub(l.DrainCentre).Dot(along))
			}
		}
		return reach + fromDrain
	}
	across := plan.Left(l.DrainAlong)
	free := []plan.Region{rectangle(l.DrainCentre, l.DrainAlong, across, half(l.DrainAlong), half(across))}
	for _, w := range l.Walls {
		if margin > 0 {
			free = append(free, plan.Strip(w.At(-margin), w.At(w.LengthMM+margin), w.Outward.Mul(-margin)))
		}
	}
	return free
}

// without is a region less others that are kept free.
func without(region plan.Region, free []plan.Region, sh *plan.Shaper) plan.Region {
	for _, f := range free {
		region = sh.Subtract(region, f, message.Of("shape.heated"))
	}
	return region
}
