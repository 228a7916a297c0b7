package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// mostContours is how many lines of equal thickness a map of the bed shows at most.
const mostContours = 12

// aroundBedMM is how much is shown round the base.
const aroundBedMM = 250

// BedOf draws the map of the bed under the base: how thick it is at the corners and at
// the readings, and lines along which it is as thick. Of a base that is let in there is
// nothing to draw but the room.
func BedOf(r geometry.Result) Drawing {
	var k sketch
	l, h := r.Layout, r.Heights
	d := Drawing{Cut: solid.HorizontalCut(h.TileMM + 1000)}
	d.Areas = append(d.Areas, Area{PartID: "room", Name: message.Of("part.room"), Material: material.Screed, Region: l.Room}, Area{PartID: "shower", Name: message.Of("part.adhesive"), Material: material.Adhesive, Region: l.FallArea})
	d.Areas = append(d.Areas, k.areas(r.Assembly, d.Cut, buildup.StageBare)...)
	if bed, ok := h.Bed(&r.Settled, &l); ok {
		for _, p := range bed.Places {
			of := MarkBed
			if p.Reading > 0 {
				of = MarkBedRead
			}
			d.Marks = append(d.Marks, Mark{At: p.At, Of: of, ThicknessMM: p.ThicknessMM})
		}
		d.contours(l.FallArea, h.Ground, h.BaseUnderMM)
	}
	d.bound()
	// The base is what is looked at.
	if low, high, ok := l.FallArea.Bounds(); ok {
		around := plan.Point{aroundBedMM, aroundBedMM}
		d.FocusLow, d.FocusHigh = low.Sub(around), high.Add(around)
	}
	d.Fault = Fault(k.err, FaultOfRun)
	return d
}

// contours are the lines along which the bed over a plane is a round number of
// millimetres thick.
func (d *Drawing) contours(area plan.Region, floor solid.Plane, underMM float64) {
	if floor.Gradient() < levelSlope {
		return
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, poly := range area {
		for _, q := range poly.Outer {
			z := underMM - floor.At(q)
			low, high = math.Min(low, z), math.Max(high, z)
		}
	}
	step := 1.0
	for _, s := range []float64{1, 2, 5, 10, 20, 50} {
		if step = s; (high-low)/step <= mostContours {
			break
		}
	}
	down := plan.Point{floor.SlopeX, floor.SlopeY}.Normalize()
	along, middle := plan.Left(down), area.Centroid()
	for t := math.Ceil(low/step) * step; t <= high; t += step {
		// Where the bed is t thick, straight up or down the floor from its middle.
		at := middle.Add(down.Mul((underMM - t - floor.At(middle)) / floor.Gradient()))
		for _, iv := range area.Clip(at, along) {
			d.Lines = append(d.Lines, Line{[]plan.Point{at.Add(along.Mul(iv.From)), at.Add(along.Mul(iv.To))}, Thin, true, "bed"})
		}
	}
}
