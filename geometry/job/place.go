package job

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// places are the parts of a job that are no single number, in the words of the
// trade, by their path in a file; # stands for which of several.
func places() map[string]string {
	return map[string]string{
		"version": "Version of the file", "name": "Name", "notes": "Notes", "region": "Country", "units": "Units",
		"room": "Room", "room.outline": "Corners of the room", "room.outline[#]": "Corner # of the room", "room.edge": "Open edge",
		"room.walls": "Walls", "room.walls[#]": "Wall #", "room.walls[#].kind": "Wall #, kind", "room.walls[#].thicknessMM": "Wall #, thickness",
		"room.walls[#].studSpacingMM": "Wall #, stud spacing", "room.walls[#].firstStudMM": "Wall #, first stud", "room.walls[#].studWidthMM": "Wall #, stud width",
		"room.walls[#].outsideGroundMM": "Wall #, ground outside",
		"room.doorways":                 "Doorways", "room.doorways[#]": "Doorway #", "room.doorways[#].widthMM": "Doorway #, width", "room.doorways[#].offsetMM": "Doorway #, from the corner",
		"room.doorways[#].neighbourFFLMM": "Doorway #, floor beyond", "room.doorways[#].leafGapMM": "Doorway #, gap under the leaf", "room.doorways[#].leaf": "Doorway #, leaf",
		"floor": "Structural floor", "floor.joists": "Joists", "floor.joists.supportsMM": "Supports of the joists", "floor.joists.supportsMM[#]": "Support # of the joists", "floor.joists.grade": "Strength class",
		"spotLevels": "Laser levels", "spotLevels[#]": "Laser level #",
		"shower": "Shower area", "shower.wall": "Back wall of the shower",
		"base": "Base", "base.support": "What the base stands on", "base.height": "What sets the height of the base", "base.cutAtStartMM": "Board, trimmed at the start",
		"former": "Former", "former.fall": "How the floor falls",
		"drain": "Drain and trap", "drain.forwardMM": "Drain, from the back wall", "drain.capacityCurve": "Trap data", "drain.capacityCurve[#]": "Trap data, line #",
		"waste": "Waste run", "waste.exit": "Exit", "waste.exit.kind": "Exit", "waste.exit.wall": "Exit, wall", "waste.exit.at": "Exit in plan", "waste.exit.level": "Level of the exit",
		"waste.waypoints": "Turns of the run", "waste.waypoints[#]": "Turn # of the run", "waste.fittings": "In-line fittings", "waste.fittings[#]": "Fitting #",
		"layers": "Finishes", "layers.shower": "Finish of the shower", "layers.room": "Finish of the room", "layers.wall": "Finish of the walls",
		"water": "Water", "water.showerFlowsLPS": "Flows", "water.showerFlowsLPS[#]": "Flow #",
		"tolerances": "Tolerances", "asBuilt": "As built", "style": "Looks",
	}
}

// placeOf is where in a job a path of its file leads, in words: the place
// itself or the nearest one around it that has a word; “The job” for none.
func placeOf(path string) string {
	for at := path; at != ""; at = at[:max(strings.LastIndexByte(at, '.'), strings.LastIndexByte(at, '['), 0)] {
		if p, ok := Find(at); ok {
			return string(p.Group) + ": " + p.Label
		}
		for i, m := range new(AsBuilt).Levels() {
			if at == "asBuilt."+m.Field {
				return "As built: " + new(AsBuilt).Levels()[i].Label
			}
		}
		which := ""
		pattern := regexp.MustCompile(`\[\d+\]`).ReplaceAllStringFunc(at, func(index string) string {
			n, _ := strconv.Atoi(index[1 : len(index)-1])
			which = strconv.Itoa(n + 1)
			return "[#]"
		})
		if word, ok := places()[pattern]; ok {
			return strings.ReplaceAll(word, "#", which)
		}
	}
	return "The job"
}

// Place is where in the job the problem lies, in words.
func (p Problem) Place() string { return placeOf(p.Path) }

// Error says where it is and what is wrong.
func (p Problem) Error() string { return fmt.Sprintf("%s: %s", p.Place(), p.Reason) }
