package job_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// What lies along the floor or a wall is told in feet from a foot up, what stands, is thick, is sold by its size or called
// by its inches, as the distance of joists is, never: typed a second time, on purpose. Common practice, no source.
func TestWhatLiesAlongTheFloor(t *testing.T) {
	for _, path := range []string{
		"room.outline[2][0]", "room.outline[2][1]", "room.walls[1].lengthMM", "room.walls[0].firstStudMM",
		"room.doorways[0].offsetMM", "room.doorways[0].widthMM", "room.windows[0].offsetMM", "room.windows[0].widthMM",
		"room.fixtures[3].offsetMM", "room.fixtures[3].widthMM", "room.fixtures[3].depthMM", "room.stacks[0].at[0]",
		"room.pipeEnds[1].at[1]", "room.tape.lengths[0].lengthMM", "floor.joists.firstOffsetMM",
		"floor.joists.supportsMM[1]", "floor.joists.trims[0].fromMM", "floor.joists.trims[0].toMM", "shower.offsetMM",
		"shower.widthMM", "shower.depthMM", "room.rampRunMM", "shower.screens[0].offsetMM", "shower.head.at[0]",
		"drain.offsetMM", "drain.forwardMM", "drain.trapOffsetMM", "drain.wallClearanceMM", "base.keepZoneMM",
		"base.cutAtStartMM", "waste.exit.offsetMM", "waste.exit.at[0]", "waste.waypoints[0][1]", "waste.fittings[0].atMM",
		"waste.vent.atMM", "waste.beyond.lengthMM", "layers.tanking.beyondMM", "layers.joints.greatestFieldMM",
		"spotLevels[0].at[0]", "laser.readings[0].at[1]",
	} {
		if got := job.KindOf(path); got != unit.Along {
			t.Errorf("%s is told as %s", path, got)
		}
	}
	for _, path := range []string{
		"room.heightMM", "room.walls[0].thicknessMM", "room.walls[0].studSpacingMM", "room.doorways[0].heightMM",
		"room.doorways[0].neighbourFFLMM", "room.windows[0].sillMM", "room.windows[0].heightMM",
		"room.fixtures[0].heightMM", "room.stacks[0].nominalMM", "room.stacks[0].footInvertMM", "floor.joists.depthMM",
		"floor.joists.spacingMM", "floor.slabThicknessMM", "drain.lengthMM", "drain.soldLengthsMM[0]", "drain.trapDepthMM",
		"base.heightMM", "base.boardsMM[0]", "base.boardLengthMM", "base.nogginSpacingMM", "former.longestMM",
		"waste.exit.level.invertMM", "waste.nominalMM", "waste.fittings[0].lengthMM", "waste.pump.lengthMM",
		"layers.shower.tileLengthMM", "layers.wallTiledToMM", "layers.tanking.upturnMM", "shower.screens[0].widthMM",
		"shower.screens[0].heightMM", "shower.head.heightMM", "asBuilt.baseTopMM", "tolerances.floorMM",
		"spotLevels[0].levelMM", "laser.readings[0].downMM",
	} {
		if got := job.KindOf(path); got != unit.Length {
			t.Errorf("%s is told as %s", path, got)
		}
	}
	for path, want := range map[string]unit.Kind{
		"former.slope": unit.Slope, "water.showerFlowsLPS[0]": unit.Flow, "floor.joists.directionDeg": unit.Angle,
		"drain.capacityCurve[0].flowLPS": unit.Flow, "waste.fittings[0].slope": unit.Slope,
	} {
		if got := job.KindOf(path); got != want {
			t.Errorf("%s is told as %s, want %s", path, got, want)
		}
	}
}
