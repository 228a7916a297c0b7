package section

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// besidePipe draws the waste run of a result broken, as it lies behind an upright cut along it or before that, where the cut
// is moved so far off the first leg that it does not go through the pipe; how far off it lies stands at it.
func (d *Drawing) besidePipe(r *geometry.Result) {
	run := &r.Heights.Run
	if len(run.Corners) < 2 || len(run.Pieces) == 0 {
		return
	}
	side := func(p plan.Point) float64 { return d.Cut.Side(mgl64.Vec3{p.X(), p.Y()}) }
	a, b := side(run.Corners[0]), side(run.Corners[1])
	off := math.Min(math.Abs(a), math.Abs(b))
	if a*b <= 0 || off < run.PipeAt(0).OutsideDiameterMM/2 {
		return
	}
	for i := range run.Pieces {
		d.Lines = append(d.Lines, Line{d.pieceBeside(run, &run.Pieces[i]), Thin, true, "run"})
	}
	of := MarkPipeBehind
	if a > 0 {
		of = MarkPipeBefore
	}
	leg := run.Corners[1].Sub(run.Corners[0]).Len()
	middle := run.PointAt(leg / 2)
	at := d.Cut.Flat(mgl64.Vec3{middle.X(), middle.Y(), run.InvertAt(leg / 2)})
	d.Marks = append(d.Marks, Mark{At: at, Of: of, ThicknessMM: off, Under: true})
}

// pieceBeside is the outline of a piece of the run, seen square to the cut.
func (d *Drawing) pieceBeside(run *waste.Run, p *waste.Piece) []plan.Point {
	var low, high []plan.Point
	add := func(atMM float64, in plan.Point) {
		pipe := run.PipeAt(atMM)
		foot := d.Cut.Flat(mgl64.Vec3{in.X(), in.Y(), run.InvertAt(atMM) - pipe.WallMM()})
		low, high = append(low, foot), append(high, foot.Add(plan.Point{0, pipe.OutsideDiameterMM}))
	}
	add(p.FromMM, p.Path[0])
	for s := range p.Stretches {
		add(s.FromMM+s.LengthMM, s.B)
	}
	slices.Reverse(high)
	return append(append(low, high...), low[0])
}
