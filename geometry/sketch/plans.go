package sketch

import (
	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// roomPlan is a room with a doorway, a window and a shower beside a corner, its drain and its way
// out, seen from above.
func roomPlan() base {
	draw := func() section.Drawing {
		return section.Drawing{
			Areas: []section.Area{
				seen(material.Tile, box(80, 58, 140, 98)...),
				seen(material.Metal, box(90, 88, 130, 93)...),
				cut(material.Masonry, box(38, 14, 50, 98)...),
				cut(material.Masonry, []plan.Point{{38, 98}, {152, 98}, {152, 110}, {38, 110}}...),
				cut(material.Masonry, box(178, 98, 212, 110)...),
				cut(material.Masonry, box(200, 14, 212, 98)...),
				cut(material.Masonry, box(38, 2, 130, 14)...),
				cut(material.Masonry, box(166, 2, 212, 14)...),
				seen(material.Plastic, box(50, 89, 90, 92)...),
			},
			Lines: []section.Line{
				line(box(152, 102, 178, 106)...), line(plan.Point{152, 104}, plan.Point{178, 104}),
				line(plan.Point{130, 2}, plan.Point{130, -30}), line(plan.Point{130, 8}, plan.Point{166, 8}),
				dashed(plan.Point{110, 58}, plan.Point{110, 98}),
			},
		}
	}
	return base{draw, with(map[string]measure{
		"room.outline[0],room.walls.lengthMM":             level(50, 200, 26),
		"room.outline[1]":                                 upright(60, 14, 98),
		"room.walls.thicknessMM":                          level(200, 212, 60),
		"room.doorways.offsetMM":                          level(50, 130, 20),
		"room.doorways.widthMM,room.doorways.leafKeepsMM": level(130, 166, 20),
		"room.windows.offsetMM":                           level(50, 152, 80),
		"room.windows.widthMM":                            level(152, 178, 92),
		"room.windows.revealMM":                           upright(165, 98, 104),
		"shower.offsetMM":                                 level(50, 80, 74),
		"shower.widthMM":                                  level(80, 140, 50),
		"shower.depthMM":                                  upright(150, 58, 98),
		"shower.screens.offsetMM":                         level(80, 92, 58),
		"shower.screens.widthMM":                          level(92, 132, 58),
		"drain.lengthMM,drain.soldLengthsMM":              level(90, 130, 82),
		"drain.widthMM":                                   upright(120, 88, 93),
		"drain.wallClearanceMM":                           upright(124, 93, 98),
		"drain.offsetMM,drain.trapOffsetMM":               level(110, 130, 76),
		"drain.forwardMM":                                 upright(116, 90, 98),
		"waste.exit.offsetMM":                             upright(56, 90, 98),
		"waste.exit.at[0],waste.waypoints[0]":             level(50, 90, 90),
		"waste.exit.at[1],waste.waypoints[1]":             upright(90, 14, 90),
		"room.fixtures.offsetMM":                          upright(194, 14, 40),
		"waste.beyond.lengthMM":                           level(12, 38, 90),
	})}
}

// joistPlan is a floor of joists from above.
func joistPlan() base {
	draw := func() section.Drawing {
		d := section.Drawing{Areas: []section.Area{
			cut(material.Masonry, box(38, 10, 50, 102)...), cut(material.Masonry, box(200, 10, 212, 102)...),
		}}
		for _, y := range []float64{24, 46, 68, 90} {
			d.Areas = append(d.Areas, seen(material.Timber, box(44, y-4, 206, y+4)...))
			d.Lines = append(d.Lines, dashed(plan.Point{50, y}, plan.Point{200, y}))
		}
		return d
	}
	return base{draw, with(map[string]measure{
		"floor.joists.directionDeg":                                             level(80, 170, 57),
		"floor.joists.supportsMM":                                               level(50, 200, 35),
		"floor.joists.trims.fromMM":                                             level(50, 100, 57),
		"floor.joists.trims.toMM":                                               level(50, 150, 57),
		"base.nogginSpacingMM":                                                  level(90, 150, 57),
		"floor.joists.trims.joist,floor.joists.trims.further":                   upright(130, 24, 90),
		"base.boardLengthMM,base.keepZoneMM,base.cutAtStartMM,former.longestMM": level(60, 180, 79),
		"base.boardWidthMM,former.widestMM":                                     upright(120, 24, 68),
	})}
}

// readingsPlan is the floor with the places where its level was read.
func readingsPlan() base {
	draw := func() section.Drawing {
		d := section.Drawing{
			Areas: []section.Area{
				cut(material.Masonry, box(38, 10, 50, 100)...), cut(material.Masonry, box(38, 100, 212, 110)...),
				cut(material.Masonry, box(200, 10, 212, 100)...), seen(material.Concrete, box(50, 10, 200, 100)...),
			},
		}
		for _, at := range []plan.Point{{70, 84}, {120, 84}, {178, 84}, {70, 32}, {124, 40}, {178, 32}} {
			d.Lines = append(d.Lines, heavy(at, at.Add(plan.Point{-5, 8}), at.Add(plan.Point{5, 8}), at))
		}
		return d
	}
	return base{draw, with(map[string]measure{
		"spotLevels.at[0],laser.readings.at[0]":                   level(50, 124, 40),
		"spotLevels.at[1],laser.readings.at[1]":                   upright(124, 10, 40),
		"room.stacks.at[0],room.pipeEnds.at[0],shower.head.at[0]": level(38, 70, 32),
		"room.stacks.at[1],room.pipeEnds.at[1],shower.head.at[1]": upright(178, 10, 32),
	})}
}

// tileGrid are tiles with their joints.
func tileGrid() base {
	draw := func() section.Drawing {
		d := section.Drawing{}
		for x := 20.0; x < 220; x += 54 {
			for y := 6.0; y < 100; y += 36 {
				d.Areas = append(d.Areas, seen(material.Tile, box(x, y, x+48, y+30)...))
			}
		}
		return d
	}
	return base{draw, finishes(map[string]measure{
		"tileLengthMM": level(74, 122, 57),
		"tileWidthMM":  upright(98, 42, 72),
		"jointMM":      level(122, 128, 57),
	})}
}
