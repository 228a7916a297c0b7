package search

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// WayOut is where a job's run goes out.
func WayOut(j job.Job) message.Message {
	e := j.Waste.Exit
	switch e.Kind {
	case job.ExitWall:
		return message.Of("run.through-wall", message.No("wall", e.Wall+1), message.MM("far", e.OffsetMM))
	case job.ExitFloor:
		return message.Of("run.through-floor")
	case job.ExitStack:
		return message.Of("run.to-stack", message.No("stack", e.Stack+1))
	case job.ExitPump:
		return message.Of("run.to-pump")
	}
	if i, ok := j.Room.PipeEndAt(e); ok {
		return message.Of("run.to-pipe-end", message.No("end", i+1))
	}
	return message.Of("run.to-existing-pipe")
}
