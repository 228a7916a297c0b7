package job

import "underfall/geometry/message"

// Nought says what 0 stands for where the number of a job is 0 and that is no measure; nothing of
// any other.
func (p Parameter) Nought(j Job) message.Message {
	if p.Get(j) != 0 {
		return message.Message{}
	}
	switch p.Key {
	case "drain.lengthMM":
		return message.Of("nought.drain-length", message.MM("length", j.DrainLengthMM()))
	case "room.rampRunMM":
		return message.Of("nought.ramp-run")
	case "former.endSlope":
		return message.Of("nought.main-fall")
	case "former.longestMM", "former.widestMM":
		return message.Of("nought.any")
	case "base.nogginSpacingMM", "base.keepZoneMM", "floor.setDownMM":
		return message.Of("nought.none")
	case "base.ledgerWidthMM", "base.ledgerDepthMM", "base.boardWidthMM":
		return message.Of("nought.usual")
	case "drain.capacityLPS", "waste.exit.nominalMM", "floor.joists.bearingMM":
		return message.Of("nought.unknown")
	}
	return message.Message{}
}
