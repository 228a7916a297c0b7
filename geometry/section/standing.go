package section

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/level"
	"underfall/geometry/plan"
)

// screens draws the glass that the cut goes through, its lower edge as it is cut, as far up
// as the drawing goes.
func (d *Drawing) screens(r geometry.Result) {
	for i := range r.Layout.Screens {
		s := &r.Layout.Screens[i]
		glass := r.Heights.GlassOf(&r.Settled, &r.Layout, s)
		for _, iv := range d.along(s.Glass) {
			ring := plan.Ring{{iv.From, glass.LevelAt(d.planAt(iv.From))}}
			for _, x := range d.squareTo(glass) {
				if x > iv.From && x < iv.To {
					ring = append(ring, plan.Point{x, glass.LevelAt(d.planAt(x))})
				}
			}
			ring = append(ring, plan.Point{iv.To, glass.LevelAt(d.planAt(iv.To))})
			high := math.Min(glass.TopMM, d.High.Y())
			if high > glass.Lowest().LevelMM {
				ring = append(ring, plan.Point{iv.To, high}, plan.Point{iv.From, high})
				d.Lines = append(d.Lines, Line{closed(ring), Thin, false, "screen"})
			}
		}
	}
}

// squareTo are the places along the cut, in order, that lie beside the bends of a screen's
// lower edge.
func (d *Drawing) squareTo(glass level.Glass) (out []float64) {
	a, b := glass.Foot[0].At, glass.Foot[len(glass.Foot)-1].At
	u, from := b.Sub(a).Normalize(), d.planAt(0)
	c := d.planAt(1).Sub(from).Dot(u)
	if math.Abs(c) < plan.HairMM {
		return nil
	}
	for _, p := range glass.Foot[1 : len(glass.Foot)-1] {
		out = append(out, p.At.Sub(from).Dot(u)/c)
	}
	slices.Sort(out)
	return out
}

// fixtures draws the outlines of what stands or hangs in the room where the cut goes
// through it, as far up as the drawing goes.
func (d *Drawing) fixtures(r geometry.Result) {
	for i, ring := range r.Layout.Fixtures {
		f, box := r.Settled.Room.Fixtures[i], plan.FromRing(ring)
		low := r.Floor.FinishedMM(box.Centroid()) + f.UnderMM
		high := math.Min(low+f.HeightMM, d.High.Y())
		for _, iv := range d.along(box) {
			if high > low {
				d.Lines = append(d.Lines, Line{closed(plan.Ring{{iv.From, low}, {iv.To, low}, {iv.To, high}, {iv.From, high}}), Medium, false, "fixture"})
				d.Marks = append(d.Marks, Mark{At: plan.Point{(iv.From + iv.To) / 2, (low + high) / 2}, Of: fixtureMark(f.Kind)})
			}
		}
	}
}

// ceiling draws the ceiling over the room, and names one that slopes.
func (d *Drawing) ceiling(r geometry.Result) {
	for _, iv := range d.along(r.Layout.Room) {
		var line []plan.Point
		for _, p := range r.Layout.CeilingBetween(d.planAt(iv.From), d.planAt(iv.To)) {
			line = append(line, plan.Point{iv.From + p.X(), p.Y()})
		}
		d.Lines = append(d.Lines, Line{line, Medium, false, "ceiling"})
		if len(r.Layout.Ceiling) < 2 {
			continue
		}
		longest := 1
		for i := range line[1:] {
			if line[i+1].Sub(line[i]).Len() > line[longest].Sub(line[longest-1]).Len() {
				longest = i + 1
			}
		}
		d.Marks = append(d.Marks, Mark{At: line[longest-1].Add(line[longest]).Mul(0.5), Of: MarkCeiling})
	}
}
