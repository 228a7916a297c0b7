package section

import (
	"math"

	"underfall/geometry/assembly"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// wall draws the wall that the run goes out through, or that it ends in.
func (g *long) wall() {
	r, run := &g.r, &g.r.Heights.Run
	if run.Wall == 0 {
		return
	}
	w := r.Settled.Room.Walls[run.Wall-1]
	of := assembly.WallMaterial(w.Kind)
	outer := math.Max(run.WallAtMM+1, run.OuterFaceAtMM(w.ThicknessMM, r.Layout.Walls[run.Wall-1].Outward))
	reach := run.Outgoing().WallMM() + r.Settled.Waste.HoleRoomMM
	foot := g.lowMM()
	ground := w.OutsideGroundMM
	if way := r.Settled.Waste.WayOut(); ground != nil && way != nil && joinKnown(&r.Settled) && downToGround(way) {
		foot = math.Min(foot, *ground-longBelowMM) // down to what it goes into
	}
	low, high := atLevel(foot), atLevel(g.highMM())
	add := func(from, to float64, bottom, top func(float64) float64) {
		// As far through the wall as along the run within it.
		along := (outer - run.WallAtMM) / w.ThicknessMM
		for _, leaf := range w.Leaves() {
			a, b := math.Max(from, run.WallAtMM+leaf.FromMM*along), math.Min(to, run.WallAtMM+leaf.ToMM*along)
			if b > a {
				g.area("wall", message.Of("part.wall", r.Settled.Room.Wall("wall", run.Wall-1)), of, true, []float64{a, b}, bottom, top)
			}
		}
	}
	// Below and above the hole for the pipe, up to a stack that stands in the wall; above
	// it beside a vent.
	to := outer
	if e := r.Settled.Waste.Exit; e.Kind == job.ExitStack && run.ExitAtMM < outer {
		to = run.ExitAtMM
		add(to+r.Settled.Room.Stacks[e.Stack].OutsideMM, outer, low, high)
	}
	under := func(s float64) float64 { return run.InvertAt(s) - reach }
	over := func(s float64) float64 { return run.InvertAt(s) + run.Outgoing().BoreMM + reach }
	add(run.WallAtMM, to, low, under)
	_, in := r.Settled.StackAsVent(run.LengthMM)
	if at, ok := ventAt(r); ok && !in && at > run.WallAtMM && at < to {
		half := r.Settled.Waste.Vent.NominalMM / 2
		add(run.WallAtMM, at-half, over, high)
		add(at+half, to, over, high)
	} else {
		add(run.WallAtMM, to, over, high)
	}
	if r.Heights.ThroughLeaves(&r.Settled, &r.Layout) {
		for _, edge := range [2]func(float64) float64{under, over} {
			start, end := g.at(run.WallAtMM, edge(run.WallAtMM)), g.at(to, edge(to))
			g.Lines = append(g.Lines, Line{[]plan.Point{start, end}, Medium, false, "sleeve"})
		}
		g.flashing(outer)
	}
	if ground != nil && *ground > foot {
		g.ground(outer, *ground)
	}
}

// downToGround tells whether what the waste joins outside is drawn at the ground there: a drain, a gully but for one of which the water
// alone is stated.
func downToGround(way *job.Beyond) bool {
	return way.Joins == job.JoinDrain || way.Joins == job.JoinGully && (way.GratingMM != nil || way.WaterMM == nil)
}

// flashing draws that over the sleeve through a cavity wall to its outer face, as high as the wall is
// drawn, and the weep holes at its foot.
func (g *long) flashing(outer float64) {
	r, run := &g.r, &g.r.Heights.Run
	w := r.Settled.Room.Walls[run.Wall-1]
	profile, foot, ok := assembly.Flashing(run, r.Layout.Walls[run.Wall-1], w.Leaves(), r.Settled.Waste.HoleRoomMM)
	if high := g.highMM(); !ok || foot >= high {
		return
	}
	along := (outer - run.WallAtMM) / w.ThicknessMM
	var ring plan.Ring
	for _, p := range profile {
		ring = append(ring, g.at(run.WallAtMM+p.X()*along, math.Min(p.Y(), g.highMM())))
	}
	leaf := w.Leaves()[1]
	weep := []plan.Point{g.at(run.WallAtMM+leaf.FromMM*along, foot), g.at(outer, foot)}
	g.Areas = append(g.Areas, Area{PartID: "flashing", Name: message.Of("part.flashing"), Material: material.DampProof, Region: plan.FromRing(ring), Cut: true})
	g.Lines = append(g.Lines, Line{weep, Medium, true, "weep"})
	g.Marks = append(g.Marks, Mark{At: weep[0], Of: MarkFlashing})
}

// ground draws the ground outside, from the wall on and round what the waste goes down into.
func (g *long) ground(fromMM, z float64) {
	line := func(from, to float64) {
		if to > from {
			g.Lines = append(g.Lines, Line{[]plan.Point{g.at(from, z), g.at(to, z)}, Heavy, false, "ground"})
		}
	}
	const on = 30
	end := g.r.Heights.Run.LengthMM
	if way := g.r.Settled.Waste.WayOut(); way != nil && way.Joins != job.JoinStack {
		half := gullyMM / 2.0
		if way.Joins == job.JoinDrain {
			half = g.r.Heights.Run.Outgoing().OutsideDiameterMM / 2
		}
		line(fromMM, end-half)
		line(end+half, end+half+on)
		return
	}
	line(fromMM, end+on)
}
