package settle

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// supportByWallMM is how near to the far wall a support of the joists bears them there. Common practice, no source.
const supportByWallMM = 150

const supportsKey = job.JoistsKey + ".supportsMM"

// supports has what bears the joists at the wall that they run to, or beyond it, go along with that wall: it is told from
// the wall at their start.
func (s *settler) supports() {
	at := s.job.Floor.Joists.SupportsMM
	if len(at) < 2 || s.job.Floor.Kind != job.FloorTimber || s.before.Floor.Kind != job.FloorTimber || !s.changed("room.outline") ||
		s.changed(job.JoistsKey) || !s.free(supportsKey) {
		return
	}
	was, is := s.before.JoistLines().LengthMM, s.job.JoistLines().LengthMM
	last := len(at) - 1
	if at[last] < was-supportByWallMM || math.Abs(is-was) < job.AtWallMM {
		return
	}
	moved := at[last] + is - was
	if moved <= at[last-1] {
		return // the wall has come in past what bears them before it
	}
	s.job.Floor.Joists.SupportsMM = append(slices.Clone(at[:last]), moved)
}

// tellSupport says how far the last support of the joists was and is from the wall that they are told from.
func (s *settler) tellSupport() message.Message {
	last := func(j *job.Job) float64 { return j.Floor.Joists.SupportsMM[len(j.Floor.Joists.SupportsMM)-1] }
	return message.Of("moved.last-support", message.Along("before", last(s.before)), message.Along("after", last(&s.job)),
		message.Wall("wall", s.job.AlongJoistsFrom()))
}
