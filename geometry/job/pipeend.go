package job

import "underfall/geometry/plan"

// PipeEnd is the end of a pipe that the survey found, which the waste may lead to.
type PipeEnd struct {
	At plan.Point `json:"at"`
	// InvertMM is the level of its invert; nil when it is not known.
	InvertMM *float64 `json:"invertMM,omitempty"`
	// NominalMM is its size; 0 when it is not known.
	NominalMM float64 `json:"nominalMM,omitempty"`
}

// PipeEndsKey is where pipe ends are in the job's file.
const PipeEndsKey = "room.pipeEnds"

// mostPipeEnds is how many pipe ends a job may have.
const mostPipeEnds = 20

// usualPipeEnd is the one that the waste leads to, where that is a pipe; else one of
// unknown size and level where a stack would stand.
func usualPipeEnd(j *Job) PipeEnd {
	e := j.Waste.Exit
	if e.Kind != ExitPipe {
		return PipeEnd{At: UsualStack(j).At}
	}
	end := PipeEnd{At: e.At, NominalMM: e.NominalMM}
	if mm, known := e.Level.ExactlyMM(); known {
		end.InvertMM = &mm
	}
	return end
}

// Exit is of a waste that leads into the pipe: at its level, where that is known.
func (p PipeEnd) Exit() Exit {
	e := Exit{Kind: ExitPipe, At: p.At, NominalMM: p.NominalMM}
	if p.InvertMM != nil {
		e.Level = Exactly(*p.InvertMM)
	}
	return e
}

// PipeEndAt is the index of the pipe end that a waste leads to; ok is false where it leads
// to none of them.
func (r Room) PipeEndAt(e Exit) (i int, ok bool) {
	for i, p := range r.PipeEnds {
		if e.Kind == ExitPipe && e.At == p.At {
			return i, true
		}
	}
	return 0, false
}
