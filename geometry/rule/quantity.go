package rule

import (
	"maps"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// QuantityName is what people call a quantity, by its key.
func QuantityName(key string) message.ID { return message.ID("quantity." + key) }

// QuantityNames are what people call all quantities.
func QuantityNames() []message.ID {
	var out []message.ID
	for _, key := range slices.Sorted(maps.Keys(Quantities())) {
		out = append(out, QuantityName(key))
	}
	return out
}

// Quantities are all the quantities a rule may limit, by key, with what they are
// measured in. Values that should be nothing are measured as the amount there is too
// much or too little.
func Quantities() map[string]unit.Kind {
	return map[string]unit.Kind{
		"pipe.gradient":         unit.Slope,
		"pipe.cover":            unit.Length,
		"pipe.former-over":      unit.Length,
		"pipe.exposed":          unit.Length,
		"pipe.wall-gap":         unit.Length,
		"pipe.into-floor":       unit.Length,
		"pipe.below-joists":     unit.Length,
		"pipe.flow-share":       unit.Ratio,
		"pipe.velocity":         unit.Speed,
		"inlet.flow-share":      unit.Ratio,
		"water.reserve":         unit.Time,
		"reducer.rise":          unit.Length,
		"reducer.loss":          unit.Length,
		"run.length":            unit.Length,
		"run.bends":             unit.Count,
		"beyond.unknown":        unit.Count,
		"gully.under-grating":   unit.Length,
		"gully.over-water":      unit.Length,
		"vent.distance":         unit.Length,
		"vent.size":             unit.Nominal,
		"vent.past-end":         unit.Length,
		"run.fall-in-bores":     unit.Count,
		"run.turn-off":          unit.Angle,
		"run.leg-short":         unit.Length,
		"run.fitting-misplaced": unit.Length,
		"run.nothing":           unit.Count,
		"exit.above-ground":     unit.Length,
		"exit.in-stud":          unit.Length,
		"exit.off-corner":       unit.Length,
		"exit.too-low":          unit.Length,
		"exit.too-high":         unit.Length,
		"exit.narrower":         unit.Length,
		"exit.above-outlet":     unit.Length,
		"pipe.unruled":          unit.Count,
		"water.flow":            unit.Flow,
		"exit.in-joist":         unit.Length,
		"trap.in-joist":         unit.Length,
		"clash.joist-gap":       unit.Length,
		"clash.drain-gap":       unit.Length,
		"clash.run-gap":         unit.Length,
		"clash.wall-gap":        unit.Length,
		"clash.deck-gap":        unit.Length,
		"clash.door-gap":        unit.Length,
		"clash.stack-gap":       unit.Length,
		"stack.in-shower":       unit.Length,
		"stack.narrower":        unit.Length,
		"stack.flow":            unit.Flow,
		"stack.above-foot":      unit.Length,
		"stack.off-opposed":     unit.Length,
		"trap.into-floor":       unit.Length,
		"trap.below-joists":     unit.Length,
		"trap.seal":             unit.Length,
		"trap.flow-share":       unit.Ratio,
		"trap.seal-left":        unit.Length,
		"trap.water-stands":     unit.Length,
		"floor.least-fall":      unit.Slope,
		"trap.size":             unit.Nominal,
		"joist.hole-size":       unit.Ratio,
		"joist.hole-zone":       unit.Ratio,
		"joist.hole-off-axis":   unit.Ratio,
		"joist.hole-edge":       unit.Length,
		"joist.hole-spacing":    unit.Count,
		"joist.notch-depth":     unit.Ratio,
		"joist.notch-zone":      unit.Ratio,
		"joist.notch-length":    unit.Ratio,
		"joist.notch-to-hole":   unit.Length,
		"joist.cut-depth":       unit.Length,
		"joist.severed":         unit.Length,
		"joist.bending-share":   unit.Ratio,
		"joist.shear-share":     unit.Ratio,
		"joist.stiffness":       unit.Count,
		"joist.final-stiffness": unit.Count,
		"joist.grade-unknown":   unit.Count,
		"joist.engineered-cut":  unit.Count,
		"base.thickness":        unit.Length,
		"base.thin-by":          unit.Length,
		"base.too-low":          unit.Length,
		"base.clear-short-by":   unit.Length,
		"base.keep-zone-cut":    unit.Length,
		"base.over-stacks-by":   unit.Length,
		"base.under-stack-by":   unit.Length,
		"former.over-piece-by":  unit.Length,
		"former.thin-by":        unit.Length,
		"floor.fall":            unit.Slope,
		"floor.level-area":      unit.Area,
		"floor.crease-fall":     unit.Slope,
		"floor.tile-over-plane": unit.Length,
		"floor.residual":        unit.Length,
		"floor.out-of-level":    unit.Length,
		"step.edge":             unit.Length,
		"step.ramp":             unit.Slope,
		"step.door":             unit.Length,
		"ramp.short-by":         unit.Length,
		"ramp.room-short-by":    unit.Length,
		"ramp.foot-lip":         unit.Length,
		"ramp.under-leaf":       unit.Area,
		"door.leaf-gap":         unit.Length,
		"cover.short-by":        unit.Length,
		"cover.proud-by":        unit.Length,
		"drain.strip":           unit.Length,
		"drain.under-wall":      unit.Length,
		"shower.area":           unit.Area,
		"shower.least-side":     unit.Length,
		"built.contradiction":   unit.Length,
		"built.out-of-reach":    unit.Length,
		"caution.electrics":     unit.Length,
		"caution.structure":     unit.Count,
		"caution.dust":          unit.Count,
		"caution.solvent":       unit.Count,
		"caution.services":      unit.Count,
		"caution.gas":           unit.Count,
		"caution.slip":          unit.Count,
		"caution.scald":         unit.Count,
		"caution.covering":      unit.Count,
		"caution.membrane":      unit.Count,
		"caution.heating":       unit.Area,
		"joint.perimeter":       unit.Length,
		"joint.field":           unit.Length,
		"caution.set-down":      unit.Length,
		"tanking.wall-to":       unit.Length,
		"tanking.beyond":        unit.Length,

		// The trap's water.
		"trap.water-short-by":    unit.Length,
		"trap.weir-over-channel": unit.Length,
		"trap.outlet-over-weir":  unit.Length,
		"trap.inner-weir":        unit.Length,
		"trap.passage-share":     unit.Ratio,
		"trap.outlet-mismatch":   unit.Length,
	}
}
