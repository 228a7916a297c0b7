package job

import "underfall/geometry/message"

// LeadsTo says where the job's run goes out.
func (j *Job) LeadsTo() message.Message {
	e := j.Waste.Exit
	switch e.Kind {
	case ExitWall:
		return message.Of("run.through-wall", j.Room.Wall("wall", e.Wall), message.Along("far", e.OffsetMM),
			message.AtCorner("corner", j.Room.Corner(e.Wall)))
	case ExitFloor:
		return message.Of("run.through-floor")
	case ExitStack:
		return message.Of("run.to-stack", message.No("stack", e.Stack+1))
	case ExitPump:
		return message.Of("run.to-pump")
	}
	if i, ok := j.Room.PipeEndAt(e); ok {
		return message.Of("run.to-pipe-end", message.No("end", i+1))
	}
	return message.Of("run.to-existing-pipe")
}
