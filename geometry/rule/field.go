package rule

import "fmt"

// Field is the path in a job's file of the one number, list or thing that a measurement is of, or follows
// from so directly that who wants it otherwise looks there; empty where several decide it.
func (m Measurement) Field() string {
	switch m.Quantity {
	case "doorway.height":
		return fmt.Sprintf("room.doorways[%d].heightMM", m.Subject.Number-1)
	case "survey.readings-apart":
		return fmt.Sprintf("laser.readings[%d].downMM", m.Subject.Number-1)
	case "door.leaf-gap":
		return fmt.Sprintf("room.doorways[%d].leafGapMM", m.Subject.Number-1)
	}
	return map[string]string{
		"pipe.gradient":        "waste.gradient",
		"floor.fall":           "former.slope",
		"floor.least-fall":     "former.slope",
		"survey.assumed":       "room.tape.lengths",
		"survey.open":          "room.tape.lengths",
		"survey.out-of-square": "room.tape.lengths",
		"trap.seal":            "drain.sealMM",
		"trap.flow-share":      "drain.capacityLPS",
		"trap.passage-share":   "drain.passageMM",
		"drain.room-short-by":  "drain.lengthMM",
		"drain.under-wall":     "drain.wallClearanceMM",
		"step.ramp":            "room.rampRunMM",
		"ramp.short-by":        "room.rampRunMM",
		"ramp.room-short-by":   "room.rampRunMM",
		"head.under-ceiling":   "shower.head.heightMM",
		"joist.free-end":       "floor.joists.supportsMM",
		"joist.free-end-share": "floor.joists.supportsMM",
		"water.flow":           "water.showerFlowsLPS",
		"beyond.unknown":       "waste.beyond",
		"beyond.assumed":       "waste.beyond",
		"gully.under-ground":   "waste.beyond",
		"gully.way-down-open":  "waste.beyond",
	}[m.Quantity]
}

// RestsOn are the paths in a job's file of where things lie that a measurement hangs on: what is found is another where they
// lie elsewhere.
func (m Measurement) RestsOn() []string {
	switch m.Quantity {
	case "trap.in-joist", "exit.in-joist", "clash.joist-gap":
		return []string{"floor.joists.firstOffsetMM", "floor.joists.directionDeg"}
	}
	return nil
}
