package fit

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// raisedRoom says what a room that comes up with the change is raised with, over how much floor, and what comes up along with
// it; empty where none does.
func (r Remedy) raisedRoom(before geometry.Result) message.Message {
	if before.Settled.Room.Edge == job.EdgeRaiseRoom || r.After.Settled.Room.Edge != job.EdgeRaiseRoom {
		return message.Message{}
	}
	was, is := roomFloor(before), roomFloor(r.After)
	if is == nil {
		return message.Message{}
	}
	made := message.List{}
	for i := len(is.Stack) - 1; i >= 1; i-- {
		l := is.Stack[i]
		had := was != nil && slices.ContainsFunc(was.Stack, func(o buildup.Course) bool { return o.Name == l.Name })
		if !had {
			thick := message.Layer("thickness", l.ThicknessMM())
			made.Items = append(made.Items, message.Of("remedy.room-layer", thick, message.In("layer", message.Of(l.Name))))
		}
	}
	if len(made.Items) == 0 {
		return message.Message{}
	}
	area := r.After.Layout.Room.Area() - r.After.Layout.FallArea.Area()
	return message.Of("remedy.room-takes", message.Arg{Name: "area", Value: message.Area{MM2: area}}, message.Arg{Name: "made", Value: made})
}

// roomFloor is the row of the room's finished floor; nil where there is none.
func roomFloor(r geometry.Result) *buildup.Row {
	for i := range r.Schedule {
		if r.Schedule[i].ID.Of == buildup.RoomFloor {
			return &r.Schedule[i]
		}
	}
	return nil
}
