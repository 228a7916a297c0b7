package rule

import "underfall/geometry/unit"

// Quantity is something Underfall measures in every job it occurs in.
type Quantity struct {
	Meaning string
	Unit    unit.Quantity
}

// Quantities are all the quantities a rule may limit, by key. Values that
// should be nothing are measured as the amount there is too much or too little.
func Quantities() map[string]Quantity {
	return map[string]Quantity{
		"pipe.gradient":         {"Fall of a piece of the waste run, positive down", unit.Slope},
		"pipe.cover":            {"From the crown of a pipe up to the top of the base over it", unit.Length},
		"pipe.former-over":      {"Former thickness over the pipe", unit.Length},
		"pipe.exposed":          {"Length of pipe that no raised floor covers", unit.Length},
		"pipe.wall-gap":         {"From a pipe running along a wall to the wall's bare face", unit.Length},
		"pipe.into-floor":       {"Depth a pipe reaches into the structural floor", unit.Length},
		"pipe.below-joists":     {"Depth a pipe reaches below the joists", unit.Length},
		"pipe.flow-share":       {"Shower flow against what the pipe carries at the design filling", unit.Ratio},
		"reducer.rise":          {"Rise of the invert at a reducer the wrong way round", unit.Length},
		"reducer.loss":          {"Height lost at a reducer the wrong way round", unit.Length},
		"run.length":            {"Developed length from trap to exit", unit.Length},
		"run.bends":             {"Bends from trap to exit", unit.Count},
		"run.fall-in-bores":     {"Total fall from trap to exit in pipe bores", unit.Count},
		"run.turn-off":          {"Turn of the run off the nearest fitting's angle", unit.Angle},
		"run.leg-short":         {"Length missing in a leg for its bends", unit.Length},
		"run.fitting-misplaced": {"Distance at which an in-line fitting was asked for and does not fit", unit.Length},
		"run.nothing":           {"Outlet and exit in one place", unit.Count},
		"exit.above-ground":     {"From the ground outside up to the underside of the pipe", unit.Length},
		"exit.in-stud":          {"Overlap of the hole through a wall with a stud", unit.Length},
		"exit.off-corner":       {"From the hole through a wall to the nearest corner", unit.Length},
		"exit.too-low":          {"Height missing at the exit", unit.Length},
		"exit.in-joist":         {"Overlap of a drop through the floor with a joist", unit.Length},
		"trap.in-joist":         {"Overlap of the trap body with a joist, in plan", unit.Length},
		"trap.into-floor":       {"Depth the trap reaches into the structural floor", unit.Length},
		"trap.below-joists":     {"Depth the trap reaches below the joists", unit.Length},
		"trap.seal":             {"Depth of the trap's seal", unit.Length},
		"trap.flow-share":       {"Shower flow against the trap's capacity", unit.Ratio},
		"trap.size":             {"Nominal size of trap and waste", unit.Length},
		"joist.hole-size":       {"Hole diameter against joist depth", unit.Ratio},
		"joist.hole-zone":       {"Hole's distance from the nearest support against the span", unit.Ratio},
		"joist.hole-off-axis":   {"Hole's centre off the neutral axis against joist depth", unit.Ratio},
		"joist.hole-edge":       {"Wood left above or below a hole", unit.Length},
		"joist.hole-spacing":    {"Between hole centres in one joist, in diameters", unit.Count},
		"joist.notch-depth":     {"Notch depth against joist depth", unit.Ratio},
		"joist.notch-zone":      {"Notch's distance from the nearest support against the span", unit.Ratio},
		"joist.notch-length":    {"Notch length against joist depth", unit.Ratio},
		"joist.notch-to-hole":   {"Between a notch and a hole in one joist", unit.Length},
		"joist.cut-depth":       {"Depth of a joist that is cut", unit.Length},
		"joist.severed":         {"Depth of joist cut that is neither hole nor top notch", unit.Length},
		"joist.engineered-cut":  {"Cuts in an engineered joist", unit.Count},
		"base.thickness":        {"Thickness of the base", unit.Length},
		"base.thin-by":          {"Thickness the base lacks against the thinnest board", unit.Length},
		"base.too-low":          {"Height the base lacks for the waste to work", unit.Length},
		"base.uneven-cut":       {"Difference between the cuts at the two ends of a moulded board", unit.Length},
		"former.thin-by":        {"Former thickness missing under the drain's flange", unit.Length},
		"floor.fall":            {"Fall of a plane of the tiled floor", unit.Slope},
		"floor.residual":        {"Greatest distance of a spot level from the best plane", unit.Length},
		"floor.out-of-level":    {"Fall of the structural floor over the shower", unit.Length},
		"step.edge":             {"Step at an open edge of the shower, up or down", unit.Length},
		"step.ramp":             {"Slope of the ramp at the open edge", unit.Slope},
		"step.door":             {"Step at a doorway, up or down", unit.Length},
		"door.leaf-gap":         {"Clear height left under a door leaf", unit.Length},
		"cover.short-by":        {"Height the cover lacks to reach the tile", unit.Length},
		"cover.proud-by":        {"Height the cover stands over the tile at its lowest", unit.Length},
		"drain.strip":           {"Level strip between a wall drain and the finished wall", unit.Length},
		"drain.under-wall":      {"Overlap of the finished wall over a wall drain", unit.Length},
		"shower.area":           {"Area of the shower floor in mm²", unit.Count},
		"shower.least-side":     {"Shorter side of the shower", unit.Length},
		"caution.electrics":     {"Electrical zones round the shower", unit.Length},
		"caution.structure":     {"Structure is cut or loaded", unit.Count},
		"caution.dust":          {"Tile, board or concrete is cut", unit.Count},
		"caution.solvent":       {"Pipes may be solvent welded", unit.Count},
		"caution.services":      {"Floor or wall is opened", unit.Count},
		"caution.gas":           {"Drain gas is held back by the trap alone", unit.Count},
		"caution.slip":          {"The floor is walked on wet", unit.Count},
		"caution.scald":         {"Hot water is mixed", unit.Count},
		"caution.covering":      {"Pipes and membrane are covered for good", unit.Count},
	}
}
