package question

import (
	"fmt"

	"underfall/geometry/job"
)

// stand says of a job's inputs which the sheet does not know and which the country's practice stands
// in for: those that move a level, or say where something is. What was answered is stated.
func (p Practice) stand(j *job.Job, s Sheet) {
	assumed := func(is bool, keys ...string) {
		for _, key := range keys {
			if is {
				j.SetStanding(key, job.Assumed)
			}
		}
	}
	notKnown := func(is bool, key string) {
		if is {
			j.SetStanding(key, job.NotKnown)
		}
	}
	assumed(!p.RoomKnown(s), "room.outline")
	assumed(!s.Door.Wide.Given, "room.doorways[0].widthMM")
	assumed(!s.Door.From.Given, "room.doorways[0].offsetMM")
	assumed(true, "room.doorways[0].neighbourFFLMM", "room.heightMM")

	notKnown(s.Floor.Is == FloorNotKnown, "floor.kind")
	notKnown(s.Floor.Is == Timber && s.Floor.Runs == RunsNotKnown, "floor.joists.directionDeg")
	// Of the kind of floor that it is not said to be all is assumed as well: a floor may turn out to be that, and nobody has
	// typed its numbers.
	timber := s.Floor.Is == Timber
	assumed(!timber, "floor.joists.directionDeg")
	assumed(!timber || !s.Floor.Deep.Given, "floor.joists.depthMM")
	assumed(!timber || !s.Floor.Every.Given, "floor.joists.spacingMM")
	assumed(!timber || !s.Floor.Wide.Given, "floor.joists.widthMM")
	assumed(true, "floor.joists.firstOffsetMM", "floor.deck.thicknessMM", "floor.slabThicknessMM", "base.support")

	assumed(s.Shower.Stands == StandsUsually, "shower.wall")
	assumed(!s.Shower.Long.Given, "shower.widthMM")
	assumed(!s.Shower.Deep.Given, "shower.depthMM")

	notKnown(s.Water.To == GoesNotKnown, "waste.exit.kind")
	assumed(s.Water.To == GoesAssumed, "waste.exit.kind")
	for wall := range j.Room.Walls {
		for _, of := range []string{"kind", "thicknessMM", "outsideGroundMM"} {
			assumed(p.IsOutside(s, wall), fmt.Sprintf("room.walls[%d].%s", wall, of))
		}
	}
	stated := func(is bool, key string) { // what was put up for the water is assumed so far
		if j.SetStanding(key, job.Assumed); is {
			j.SetStanding(key, job.Stated)
		}
	}
	if j.Waste.Beyond != nil {
		stated(s.Asked(JoinFar), joinsKey)
		stated(s.Asked(JoinFar) && s.Water.Far.Given, joinFarKey)
		notKnown(s.Water.Joins == JoinsNotKnown, joinsKey)
	}
	if s.Asked(WaterAlong) {
		stated(s.Water.Along.Given, placeKey(j)+"[0]")
		stated(s.Water.Away.Given, placeKey(j)+"[1]")
	}
	notKnown(s.Water.To == GoesIntoPipe && !s.Water.Deep.Given, "room.pipeEnds[0].invertMM")
	assumed(j.Waste.Boxing != nil, "waste.boxing")
	assumed(true, "drain.trapDepthMM", "layers.shower.tile.thicknessMM", "layers.room.tile.thicknessMM")
}

// Where a job's file has what the water joins outside, and how far from the wall.
const (
	joinsKey   = job.JoinsKey
	joinFarKey = job.BeyondKey + ".lengthMM"
)

// placeKey is where a job's file has the place of the pipe or the stack that the waste leads to.
func placeKey(j *job.Job) string {
	if len(j.Room.PipeEnds) > 0 {
		return "room.pipeEnds[0].at"
	}
	return "room.stacks[0].at"
}
