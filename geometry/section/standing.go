package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/plan"
)

// screens draws the glass that the cut goes through, as far up as the drawing goes.
func (d *Drawing) screens(r geometry.Result) {
	for i, s := range r.Layout.Screens {
		of := r.Settled.Shower.Screens[i]
		ends := [2]float64{r.Heights.ShowerAt(&r.Layout, s.A), r.Heights.ShowerAt(&r.Layout, s.B)}
		for _, iv := range d.along(s.Glass) {
			at := d.Cut.Space(plan.Point{(iv.From + iv.To) / 2, 0})
			low := r.Heights.ShowerAt(&r.Layout, planOf(at)) + of.GapMM
			if top, ok := r.Heights.KerbTop(&r.Settled, &r.Layout); ok {
				low = math.Max(low, top+of.GapMM)
			}
			high := math.Min(math.Max(ends[0], ends[1])+of.HeightMM, d.High.Y())
			if high > low {
				d.Lines = append(d.Lines, Line{closed(plan.Ring{{iv.From, low}, {iv.To, low}, {iv.To, high}, {iv.From, high}}), Thin, false, "screen"})
			}
		}
	}
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

// ceiling draws a ceiling that slopes.
func (d *Drawing) ceiling(r geometry.Result) {
	if len(r.Layout.Ceiling) < 2 {
		return
	}
	for _, iv := range d.along(r.Layout.Room) {
		var line []plan.Point
		for _, p := range r.Layout.CeilingBetween(d.planAt(iv.From), d.planAt(iv.To)) {
			line = append(line, plan.Point{iv.From + p.X(), p.Y()})
		}
		d.Lines = append(d.Lines, Line{line, Medium, false, "ceiling"})
	}
}
