package measure

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/stage"
)

// insideMM is how far inside a wall, or out from a box, it is looked what lies there.
const insideMM = 0.5

// boxing takes the floor's tanking up and over boxes round the run, as far as the floor about
// them is tanked, and the joint of the room's tile round them.
func (s *Sealing) boxing(r *stage.Levelled, boxes []level.Box, roomTanked bool) {
	j, l, h := &r.Settled, &r.Layout, &r.Heights
	for i := range boxes {
		b := &boxes[i]
		for _, f := range b.Faces(l) {
			if j.RoomFinished() {
				s.SealantFloorMM += f.LengthMM()
			}
			if roomTanked {
				s.tankFace(r, f, b.TopMM())
			}
		}
		if !roomTanked {
			continue
		}
		for _, part := range b.Parts() {
			region := plan.FromRing(part)
			if b.TopMM() > tankedAt(j, h, region.Centroid()) {
				on := plan.SharedArea(region, l.Rest) - plan.SharedArea(region, l.Untanked)
				s.TankedFloorMM2 -= on
				s.BoxingMM2 += on
			}
		}
	}
}

// tankedAt is the top of the tanking of the room's floor.
func tankedAt(j *job.Job, h *level.Heights, p plan.Point) float64 {
	return h.RoomAt(j, p) - j.Layers.Room.Bed.ThicknessMM - j.Layers.Room.Tile.ThicknessMM
}

// tankFace takes the tanking up one face of a box, with tape along its foot and up the walls
// that it ends at.
func (s *Sealing) tankFace(r *stage.Levelled, f level.Face, topMM float64) {
	j, l, h := &r.Settled, &r.Layout, &r.Heights
	u := f.B.Sub(f.A).Normalize()
	whole := []plan.Interval{{From: 0, To: f.LengthMM()}}
	for _, iv := range plan.Without(whole, l.Untanked.Clip(f.A.Add(f.Out.Mul(insideMM)), u)) {
		from, to := f.A.Add(u.Mul(iv.From)), f.A.Add(u.Mul(iv.To))
		high := topMM - tankedAt(j, h, from.Add(to).Mul(0.5))
		if high <= 0 {
			continue
		}
		s.BoxingMM2 += high * (iv.To - iv.From)
		s.TapeBoxingMM += iv.To - iv.From
		for _, end := range [2]plan.Point{from, to} {
			if atWall(l, end) {
				s.TapeBoxingMM += math.Max(0, topMM-tankedAt(j, h, end))
			}
		}
	}
}

// atWall tells whether a place lies at a wall of the room.
func atWall(l *layout.Layout, p plan.Point) bool {
	for i := range l.Walls {
		w := &l.Walls[i]
		if plan.DistanceToSegment(p, w.A, w.B) < insideMM {
			return true
		}
	}
	return false
}

// atBoxes are the stretches of a wall that boxes round the run stand at.
func atBoxes(w *layout.Wall, boxes []level.Box) (out []plan.Interval) {
	line := w.A.Sub(w.Outward.Mul(insideMM))
	for i := range boxes {
		for _, part := range boxes[i].Parts() {
			out = append(out, plan.FromRing(part).Clip(line, w.Along)...)
		}
	}
	return out
}
