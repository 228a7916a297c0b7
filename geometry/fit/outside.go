package fit

import (
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// reckonOutside is reckoning with the way outside that is usual where the job is, as long as nobody
// says how the waste goes on.
func (x *tryout) reckonOutside() (Remedy, bool) {
	r, ok := x.with(edit.WayOutside(), message.Message{})
	if b := r.After.Stated.Waste.Beyond; ok && b != nil {
		r.Does = message.Of("remedy.reckon-with", message.In("what", wayOutside(b)))
	}
	return r, ok
}

// confirmOutside is saying that what is assumed of the way outside is so.
func (x *tryout) confirmOutside() (Remedy, bool) {
	b := x.before.Stated.Waste.Beyond
	if b == nil {
		return Remedy{}, false
	}
	return x.with(edit.ConfirmUnder(job.BeyondKey), message.Of("remedy.as-assumed", message.In("what", wayOutside(b))))
}

// wayOutside says what the waste joins outside, and how far from the wall.
func wayOutside(b *job.Beyond) message.Message {
	length := message.Along("length", b.LengthMM)
	switch b.Joins {
	case job.JoinStack:
		return message.Of("remedy.joins-stack", length)
	case job.JoinDrain:
		return message.Of("remedy.joins-drain", length)
	}
	return message.Of("remedy.joins-gully", length)
}
