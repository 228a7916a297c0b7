package job

import (
	"maps"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"underfall/geometry/message"
)

// places are the parts of a job that are no single number, by their path in a
// file; # stands for which of several.
var places = sync.OnceValue(func() map[string]message.ID {
	all := roomPlaces()
	maps.Copy(all, builtPlaces())
	return all
})

// roomPlaces are the job itself, and the room and what is in its walls.
func roomPlaces() map[string]message.ID {
	return map[string]message.ID{
		"version":                         "place.version",
		"state":                           "place.state",
		"edition":                         "place.edition",
		"name":                            "place.name",
		"notes":                           "place.notes",
		"region":                          "place.country",
		"units":                           "place.units",
		"room":                            "place.room",
		"room.outline":                    "place.corners",
		"room.outline[#]":                 "place.corner",
		"room.tape":                       "place.tape",
		"room.edge":                       "place.open-edge",
		"room.walls":                      "place.walls",
		"room.walls[#]":                   "place.wall",
		"room.walls[#].kind":              "place.wall-kind",
		"room.walls[#].thicknessMM":       "place.wall-thickness",
		"room.walls[#].studSpacingMM":     "place.wall-stud-spacing",
		"room.walls[#].firstStudMM":       "place.wall-first-stud",
		"room.walls[#].studWidthMM":       "place.wall-stud-width",
		"room.walls[#].solePlateMM":       "place.wall-sole-plate",
		"room.walls[#].innerLeafMM":       "place.wall-inner-leaf",
		"room.walls[#].cavityMM":          "place.wall-cavity",
		"room.walls[#].outsideGroundMM":   "place.wall-ground",
		"room.walls[#].dampCourseMM":      "place.wall-damp-course",
		"room.doorways":                   "place.doorways",
		"room.doorways[#]":                "place.doorway",
		"room.doorways[#].widthMM":        "place.doorway-width",
		"room.doorways[#].heightMM":       "place.doorway-height",
		"room.doorways[#].neighbourFFLMM": "place.doorway-floor-beyond",
		"room.doorways[#].leafGapMM":      "place.doorway-gap",
		"room.doorways[#].wall":           "place.doorway-wall",
		"room.doorways[#].hingeAtStart":   "place.doorway-hinge",
		"room.doorways[#].leaf":           "place.doorway-leaf",
	}
}

// builtPlaces are the floor below and all that is built on it.
func builtPlaces() map[string]message.ID {
	return map[string]message.ID{
		"floor":                      "place.floor",
		"floor.joists":               "place.joists",
		"floor.joists.supportsMM":    "place.joist-supports",
		"floor.joists.supportsMM[#]": "place.joist-support",
		"floor.joists.grade":         "place.strength-class",
		"spotLevels":                 "place.laser-levels",
		"spotLevels[#]":              "place.laser-level",
		"shower":                     "place.shower",
		"shower.wall":                "place.shower-wall",
		"base":                       "place.base",
		"base.support":               "place.base-support",
		"base.height":                "place.base-height",
		"base.boardsMM":              "place.boards",
		"base.boardsMM[#]":           "place.board",
		"base.cutAtStartMM":          "place.board-trimmed",
		"former":                     "place.former",
		"former.fall":                "place.fall",
		"drain":                      "place.drain",
		"drain.forwardMM":            "place.drain-forward",
		"drain.soldLengthsMM":        "place.sold-lengths",
		"drain.soldLengthsMM[#]":     "place.sold-length",
		"drain.capacityCurve":        "place.trap-data",
		"drain.capacityCurve[#]":     "place.trap-data-line",
		"waste":                      "place.waste",
		"waste.exit":                 "place.exit",
		"waste.exit.kind":            "place.exit",
		"waste.exit.wall":            "place.exit-wall",
		"waste.exit.at":              "place.exit-at",
		"waste.exit.level":           "place.exit-level",
		"waste.waypoints":            "place.turns",
		"waste.waypoints[#]":         "place.turn",
		"waste.fittings":             "place.fittings",
		"waste.fittings[#]":          "place.fitting",
		"layers":                     "place.layers",
		"layers.shower":              "place.shower-finish",
		"layers.room":                "place.room-finish",
		"layers.wall":                "place.wall-finish",
		"water":                      "place.water",
		"water.showerFlowsLPS":       "place.flows",
		"water.showerFlowsLPS[#]":    "place.flow",
		"tolerances":                 "place.tolerances",
		"asBuilt":                    "place.as-built",
		"style":                      "place.style",
		"picture":                    "place.picture",
		"standings":                  "place.standings",
	}
}

// PlaceOf is where in a job a path of its file leads: the place itself or the
// nearest one around it that has a name; the whole job for none.
func (j *Job) PlaceOf(key string) message.Message { return placeOf(key, j) }

// PlaceInFile is the same where there is no job, as of a file that gives none: walls and corners are
// numbered as the file lists them.
func PlaceInFile(key string) message.Message { return placeOf(key, nil) }

// whichOf tells one of several places from the others: a wall or a corner of a room by its letters.
func whichOf(pattern string, index int, in *Job) message.Arg {
	wall, corner := strings.HasPrefix(pattern, WallsKey), strings.HasPrefix(pattern, OutlineKey)
	switch {
	case wall && in != nil:
		return in.Room.Wall("wall", index)
	case wall:
		return message.No("wall", index+1)
	case corner && in != nil:
		return message.AtCorner("corner", in.Room.Corner(index))
	case corner:
		return message.No("corner", index+1)
	}
	return message.No("n", index+1)
}

func placeOf(key string, in *Job) message.Message {
	for at := key; at != ""; at = at[:max(strings.LastIndexByte(at, '.'), strings.LastIndexByte(at, '['), 0)] {
		if p, ok := Find(at); ok {
			return p.in(in)
		}
		for _, m := range new(AsBuilt).Levels() {
			if at == BuiltKey(m.Field) {
				return m.Message()
			}
		}
		if place, ok := placeInList(at, in); ok {
			return place
		}
		n := -1
		pattern := regexp.MustCompile(`\[\d+\]`).ReplaceAllStringFunc(at, func(index string) string {
			n, _ = strconv.Atoi(index[1 : len(index)-1])
			return "[#]"
		})
		if id, ok := places()[pattern]; ok {
			if n < 0 {
				return message.Of(id)
			}
			return message.Of(id, whichOf(pattern, n, in))
		}
	}
	return message.Of("place.job")
}
