package edit

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// atWall is where along which wall something is stated, and how long it is there; false for what is at none.
func (h Handle) atWall(j *job.Job) (wall *int, offsetMM *float64, longMM float64, ok bool) {
	if h.Index < 0 {
		return nil, nil, 0, false
	}
	room := &j.Room
	switch {
	case h.Kind == HandleDoorway && h.Index < len(room.Doorways):
		d := &room.Doorways[h.Index]
		return &d.Wall, &d.OffsetMM, d.WidthMM, true
	case h.Kind == HandleWindow && h.Index < len(room.Windows):
		w := &room.Windows[h.Index]
		return &w.Wall, &w.OffsetMM, w.WidthMM, true
	case h.Kind == HandleFixture && h.Index < len(room.Fixtures):
		f := &room.Fixtures[h.Index]
		return &f.Wall, &f.OffsetMM, f.WidthMM, true
	}
	return nil, nil, 0, false
}

// ledTo is the wall that something at a wall comes to when it is dragged to a point: the nearest that is long enough
// for it, its own where another is as near. Nil where it is at none.
func (h Handle) ledTo(j *job.Job, l *layout.Layout, to plan.Point) *layout.Wall {
	wall, _, longMM, ok := h.atWall(j)
	if !ok || *wall < 0 || *wall >= len(l.Walls) {
		return nil
	}
	at := &l.Walls[*wall]
	off := func(w *layout.Wall) float64 { return plan.DistanceToSegment(to, w.A, w.B) }
	for i := range l.Walls {
		if w := &l.Walls[i]; w.LengthMM >= longMM && off(w) < off(at)-plan.HairMM {
			at = w
		}
	}
	return at
}

// dragAtWall moves by its middle what is at a wall, along that or to another that comes nearer.
func dragAtWall(j *job.Job, l *layout.Layout, h Handle, to plan.Point, r rounding) {
	at := h.ledTo(j, l, to)
	if at == nil {
		return
	}
	wall, offsetMM, longMM, _ := h.atWall(j)
	most := math.Max(0, at.LengthMM-longMM)
	*wall, *offsetMM = at.Index, math.Max(0, math.Min(most, r.mm(to.Sub(at.A).Dot(at.Along)-longMM/2)))
}

// dragJoist moves all joists so that the middle of one comes to a point; the first is measured to that one of
// them that lies nearest to where it is measured from.
func dragJoist(j *job.Job, l *layout.Layout, index int, to plan.Point, r rounding) {
	if index < 0 || index >= len(l.Joists) || !(j.Floor.Joists.SpacingMM > 0) {
		return
	}
	js, f := &l.Joists[index], &j.Floor.Joists
	firstMM := r.mm(f.FirstOffsetMM + to.Sub(js.Origin).Dot(plan.Left(js.Along)))
	f.FirstOffsetMM = rounding(0).mm(firstMM - f.SpacingMM*math.Floor(firstMM/f.SpacingMM))
}
