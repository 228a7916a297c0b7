package edit

import (
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// WayOutside says how a waste that leaves through a wall goes on outside as it usually does in the
// job's country, which is assumed. Nothing where that is stated, or where the waste goes another way.
func WayOutside() Edit {
	l, _ := job.FindList(job.BeyondKey)
	e := AddItem(l)
	add := e.apply
	e.apply = func(j *job.Job) {
		if j.Waste.Exit.Kind == job.ExitWall {
			add(j)
		}
	}
	return e
}

// addWayOutside adds the way outside.
func addWayOutside(l job.List) Edit {
	return Of(message.Of(l.AddLabel()), func(j *job.Job) {
		before := j.Waste.Beyond
		l.Add(j)
		if b := j.Waste.Beyond; b != nil && before == nil {
			b.Joins = usualJoin(j.Region)
		}
	})
}

// usualJoin is what a shower's waste joins outside a wall in a region: a gully where codes let one
// take it, else a drain in the ground. Common practice, no source.
func usualJoin(region string) job.JoinKind {
	country, _, _ := strings.Cut(region, "-")
	switch country {
	case "UK", "IE", "AU", "NZ":
		return job.JoinGully
	}
	return job.JoinDrain
}
