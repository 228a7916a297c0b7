package sketch

import (
	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// joistSection are joists under their deck, cut across, beside a wall.
func joistSection() base {
	draw := func() section.Drawing {
		return section.Drawing{Areas: []section.Area{
			cut(material.Masonry, box(20, 4, 36, 108)...),
			cut(material.Deck, box(36, 74, 236, 82)...),
			cut(material.Timber, box(64, 18, 78, 74)...), cut(material.Timber, box(128, 18, 142, 74)...),
			cut(material.Timber, box(192, 18, 206, 74)...),
			cut(material.Timber, box(78, 42, 88, 54)...), cut(material.Timber, box(118, 42, 128, 54)...),
			cut(material.BaseBoard, box(78, 54, 128, 72)...),
		}}
	}
	return base{draw, with(map[string]measure{
		"floor.joists.depthMM":       upright(222, 18, 74),
		"floor.joists.widthMM":       level(192, 206, 12),
		"floor.joists.spacingMM":     level(135, 199, 32),
		"floor.joists.firstOffsetMM": level(36, 71, 32),
		"floor.deck.thicknessMM":     upright(168, 74, 82),
		"base.ledgerWidthMM":         level(78, 88, 36),
		"base.ledgerDepthMM":         upright(104, 42, 54),
	})}
}

// floorSection is a raised shower floor beside the room's, cut along its fall.
func floorSection() base {
	draw := func() section.Drawing {
		return section.Drawing{
			Areas: []section.Area{
				cut(material.Concrete, box(8, 4, 242, 22)...),
				cut(material.Masonry, box(8, 22, 24, 108)...),
				cut(material.Adhesive, box(40, 22, 160, 26)...),
				cut(material.BaseBoard, box(40, 26, 160, 58)...),
				cut(material.FormerBody, []plan.Point{{40, 58}, {160, 58}, {160, 78}, {40, 68}}...),
				cut(material.Tile, []plan.Point{{40, 68}, {160, 78}, {160, 84}, {40, 74}}...),
				cut(material.Plastic, box(26, 34, 38, 74)...),
				cut(material.Tile, box(162, 22, 242, 28)...),
			},
			Lines: []section.Line{dashed(plan.Point{160, 84}, plan.Point{236, 28}), line(plan.Point{24, 104}, plan.Point{242, 104})},
		}
	}
	return base{draw, with(map[string]measure{
		"room.rampRunMM":                             level(160, 236, 92),
		"room.doorways.neighbourFFLMM":               upright(226, 22, 28),
		"room.doorways.heightMM,room.heightMM":       upright(226, 22, 104),
		"room.doorways.leafGapMM":                    upright(226, 28, 36),
		"former.slope,former.endSlope":               upright(166, 74, 84),
		"former.thicknessAtDrainMM":                  upright(48, 58, 68),
		"former.bedMM":                               upright(100, 58, 62),
		"base.heightMM,base.boardsMM":                upright(90, 22, 58),
		"base.minThicknessMM":                        upright(90, 26, 58),
		"base.adhesiveMM":                            upright(90, 22, 26),
		"base.betweenLeastMM,base.betweenGreatestMM": upright(90, 40, 44),
		"base.sawMarginMM":                           level(38, 40, 46),
		"floor.slabThicknessMM":                      upright(200, 4, 22),
		"floor.setDownMM":                            upright(200, 12, 22),
		"layers.shower.tile.thicknessMM":             upright(120, 74.7, 80.7),
		"layers.shower.tanking.thicknessMM,layers.shower.bed.thicknessMM":                          upright(120, 72, 76),
		"layers.room.tile.thicknessMM":                                                             upright(200, 22, 28),
		"layers.room.tanking.thicknessMM,layers.room.bed.thicknessMM":                              upright(200, 22, 25),
		"layers.wall.tile.thicknessMM,layers.wall.bed.thicknessMM,layers.wall.tanking.thicknessMM": level(24, 27, 94),
		"layers.wallTiledToMM":                              upright(30, 74, 104),
		"shower.kerb.heightMM":                              upright(150, 83, 95),
		"shower.kerb.widthMM":                               level(146, 160, 92),
		"shower.head.heightMM":                              upright(100, 79, 104),
		"shower.screens.heightMM":                           upright(150, 83, 104),
		"shower.screens.gapMM":                              upright(150, 83, 88),
		"floor.existing.thicknessMM,base.under.thicknessMM": upright(200, 22, 28),
		"asBuilt.baseTopMM":                                 upright(110, 22, 58),
		"asBuilt.formerAtDrainMM":                           upright(44, 22, 68),
		"asBuilt.formerAtEdgeMM":                            upright(156, 22, 78),
		"asBuilt.tileAtDrainMM":                             upright(44, 22, 74),
		"asBuilt.outletInvertMM":                            upright(32, 22, 38),
	})}
}

// unevenFloor is a floor with a rise, cut, with a staff on it and the level that it is read from.
func unevenFloor() base {
	draw := func() section.Drawing {
		return section.Drawing{
			Areas: []section.Area{
				cut(material.Concrete, []plan.Point{{8, 8}, {242, 8}, {242, 44}, {206, 62}, {160, 72}, {110, 56}, {60, 40}, {8, 40}}...),
			},
			Lines: []section.Line{dashed(plan.Point{8, 40}, plan.Point{242, 40}), heavy(plan.Point{160, 72}, plan.Point{160, 108}),
				heavy(plan.Point{40, 40}, plan.Point{40, 108}), line(plan.Point{30, 98}, plan.Point{170, 98})},
		}
	}
	return base{draw, with(map[string]measure{
		"spotLevels.levelMM": upright(160, 40, 72),
		"spotLevels.toleranceMM,laser.readings.toleranceMM": upright(160, 69, 75),
		"laser.readings.downMM":                             upright(160, 72, 98),
		"laser.setUps.downMM":                               upright(40, 40, 98),
	})}
}

// trapSection is a drain with its trap, cut along the pipe.
func trapSection() base {
	draw := func() section.Drawing {
		return section.Drawing{
			Areas: []section.Area{
				cut(material.Concrete, box(8, 2, 242, 14)...),
				cut(material.BaseBoard, box(8, 14, 88, 74)...), cut(material.BaseBoard, box(176, 60, 242, 74)...),
				cut(material.FormerBody, box(8, 74, 76, 90)...), cut(material.FormerBody, box(170, 74, 242, 90)...),
				cut(material.Tile, box(8, 90, 92, 97)...), cut(material.Tile, box(154, 90, 242, 97)...),
				cut(material.Metal, box(94, 96, 152, 100)...),
				cut(material.Plastic, []plan.Point{{84, 84}, {92, 84}, {92, 22}, {154, 22}, {154, 28}, {96, 28}, {96, 84}, {96, 90}, {84, 90}}...),
				cut(material.Plastic, []plan.Point{{150, 90}, {150, 56}, {216, 56}, {216, 60}, {162, 60}, {162, 90}}...),
				cut(material.Plastic, box(150, 28, 216, 32)...),
				seen(material.Water, box(96, 28, 150, 58)...),
				cut(material.Plastic, box(120, 38, 126, 88)...),
			},
			Lines: []section.Line{line(plan.Point{216, 28}, plan.Point{216, 60}), line(plan.Point{96, 58}, plan.Point{150, 58})},
		}
	}
	return base{draw, with(map[string]measure{
		"drain.trapDepthMM":                               upright(110, 22, 90),
		"drain.outletInvertDepthMM":                       upright(186, 32, 90),
		"drain.weirDepthMM":                               upright(136, 58, 90),
		"drain.sealMM":                                    upright(136, 38, 58),
		"drain.passageMM":                                 upright(123, 28, 38),
		"drain.channelDepthMM":                            upright(104, 80, 90),
		"drain.trapSizeMM":                                level(92, 154, 18),
		"drain.bedUnderMM":                                upright(124, 14, 22),
		"drain.coverLeastMM,drain.coverGreatestMM":        upright(160, 90, 100),
		"drain.leastFormerMM":                             upright(80, 74, 84),
		"drain.outletJointMM,drain.outletJointOutsideMM":  level(154, 216, 46),
		"drain.outletNominalMM,drain.outletTurnDeg":       upright(204, 32, 56),
		"drain.capacityHeadMM,drain.capacityCurve.headMM": upright(134, 100, 108),
	})}
}

// wallSection is the pipe on its way out through a wall, cut along it.
func wallSection() base {
	draw := func() section.Drawing {
		return section.Drawing{
			Areas: []section.Area{
				cut(material.Concrete, box(14, 4, 178, 22)...),
				cut(material.Masonry, []plan.Point{{150, 22}, {150, 30}, {184, 26}, {184, 4}, {178, 4}, {178, 22}}...),
				cut(material.Masonry, []plan.Point{{150, 56}, {184, 52}, {184, 108}, {150, 108}}...),
				seen(material.Plastic, []plan.Point{{30, 50}, {210, 30}, {210, 46}, {30, 66}}...),
				seen(material.Plastic, []plan.Point{{66, 43}, {86, 41}, {86, 65}, {66, 67}}...),
			},
			Lines: []section.Line{dashed(plan.Point{30, 50}, plan.Point{150, 50}), line(plan.Point{184, 12}, plan.Point{246, 12})},
		}
	}
	// The bottom of the pipe lies 50 high at x = 30 and 30 at x = 210.
	return base{draw, with(map[string]measure{
		"waste.exit.level.invertMM,asBuilt.exitInvertMM": upright(150, 22, 36.7),
		"waste.gradient": upright(140, 37.8, 50),
		"waste.outsideDiameterMM,waste.nominalMM,waste.boreMM": upright(110, 41.1, 57.1),
		"waste.socketOutsideMM":                                upright(76, 42, 66),
		"waste.insertionMM":                                    level(66, 86, 74),
		"waste.bend45FaceMM,waste.bend90FaceMM":                level(30, 66, 74),
		"waste.clearUnderMM":                                   upright(76, 22, 42),
		"waste.holeRoomMM":                                     upright(166, 51, 54),
		"waste.exit.nominalMM":                                 upright(204, 30.7, 46.7),
		"waste.drill.leastAxisMM":                              upright(144, 22, 45),
		"room.walls.outsideGroundMM":                           upright(226, 12, 22),
		"room.walls.dampCourseMM":                              upright(196, 22, 62),
		"room.walls.innerLeafMM":                               level(150, 162, 84),
		"room.walls.cavityMM":                                  level(162, 172, 84),
		"room.windows.sillMM":                                  upright(140, 22, 78),
		"room.windows.heightMM":                                upright(140, 78, 104),
	})}
}
