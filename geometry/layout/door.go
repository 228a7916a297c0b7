package layout

import (
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Beyond is what a leaf that opens outwards passes over outside the room, from its hinge on the
// outer face of the wall; ok is false for any other leaf.
func (d Doorway) Beyond(j *job.Job) (swing plan.Ring, ok bool) {
	stated := &j.Room.Doorways[d.Index]
	if stated.Leaf != job.LeafOut {
		return nil, false
	}
	out := d.Wall.Outward.Mul(d.Wall.ThicknessMM)
	hinge, free := d.A.Add(out), d.B.Add(out)
	if !stated.HingeAtStart {
		hinge, free = free, hinge
	}
	return quarter(hinge, free, d.Wall.Outward), true
}
