package measure

import (
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// tagHead marks measurements of a shower whose head is stated; tagStone those of a floor that
// carries stone; tagClosed those of an open edge that panes leave no way over, TagDown those
// of one that is stepped down over into the shower; tagGully those of a waste into a gully.
const (
	tagHead   = "head"
	tagStone  = "stone"
	tagClosed = "closed"
	TagDown   = "down"
	tagGully  = "gully"
)

// tagsWith are the tags of a measurement that carries some of its own: those, then the job's.
// Samples ask for the same ones over and over: each list is made once.
func (m *Measurer) tagsWith(own []string) []string {
	if len(own) == 0 {
		return m.tags
	}
	for _, have := range m.tagged {
		if n := len(have) - len(m.tags); slices.Equal(have[:n], own) {
			return have
		}
	}
	all := slices.Concat(own, m.tags)
	m.tagged = append(m.tagged, all)
	return all
}

// jobTags are the circumstances of the whole job.
func jobTags(pack rule.Pack, j *job.Job) []string {
	tags := stage.PipeTags(pack, j)
	if j.Accessible {
		tags = append(tags, "accessible")
	}
	if j.Floor.CeilingBelow {
		tags = append(tags, "ceiling")
	}
	return append(tags, string(j.Floor.Kind), "fall-"+string(j.Former.Fall))
}
