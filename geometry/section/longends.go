package section

import (
	"math"

	"underfall/geometry/assembly"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Lengths that are drawn so where they are not known. Common practice, no source.
const (
	longPastMM   = 60  // of the floor past what the run ends in
	gullyMM      = 150 // across a gully
	gullyBelowMM = 75  // from its water to its foot
	outsideMM    = 110 // across a stack outside
	pumpWallMM   = 4   // of a pump's box
)

// upright draws what stands at the run's end, or on it: the stack, gully or pump that it
// leads into, the pipe that it drops in, and its vent.
func (g *long) upright() {
	r, run := &g.r, &g.r.Heights.Run
	w := &r.Settled.Waste
	switch e := w.Exit; e.Kind {
	case job.ExitStack:
		s := r.Settled.Room.Stacks[e.Stack]
		g.stack(message.Of("part.stack", message.No("n", e.Stack+1)), run.ExitAtMM, s.OutsideMM)
		g.Marks = append(g.Marks, Mark{At: g.at(run.ExitAtMM+s.OutsideMM/2, g.lowMM()), Of: MarkBranch, Number: e.Stack + 1,
			Size: sizeOf(r, s.NominalMM), Branch: sizeOf(r, run.Outgoing().NominalMM), Under: true})
	case job.ExitFloor:
		drop := &run.Pieces[len(run.Pieces)-1]
		at := g.dropAtMM()
		foot := math.Min(g.lowMM(), r.Heights.Survey.Floor.At(g.place(at))-g.belowMM()) - longPastMM/2
		g.turnDown("drop", drop.Name().Message(), at, drop.Pipe, foot)
		g.Marks = append(g.Marks, Mark{At: g.at(at, foot), Of: MarkHole, ThicknessMM: g.holeMM(), Under: true})
	case job.ExitPipe:
		g.oldPipe(e.NominalMM)
	}
	if p := w.IntoPump(); p != nil {
		g.pump(p)
	}
	if way := w.WayOut(); way != nil && !joinKnown(&g.r.Settled) {
		g.Marks = append(g.Marks, Mark{At: g.at(run.LengthMM, g.lowMM()), Of: MarkJoinNotKnown, Under: true})
	} else if way != nil {
		switch way.Joins {
		case job.JoinGully:
			g.gully(way)
		case job.JoinStack:
			g.stack(message.Of("part.stack-outside"), run.LengthMM, outsideMM)
			g.Marks = append(g.Marks, Mark{At: g.at(run.LengthMM+outsideMM/2, g.lowMM()), Of: MarkStackOutside, Under: true})
		case job.JoinDrain:
			foot := g.lowMM()
			if ground := g.groundMM(); ground != nil {
				foot = math.Min(foot, *ground-longBelowMM)
			}
			g.turnDown("way-down", message.Of("part.way-down"), run.LengthMM, run.Outgoing(), foot)
			g.Marks = append(g.Marks, Mark{At: g.at(run.LengthMM, foot), Of: MarkDrain, Under: true})
		}
	}
	g.vent()
}

// vent draws the vent of the run: a stack that it joins goes on up as one.
func (g *long) vent() {
	r, run := &g.r, &g.r.Heights.Run
	at, ok := ventAt(r)
	if !ok {
		return
	}
	size := r.Settled.Waste.Vent.NominalMM
	if s, in := r.Settled.StackAsVent(run.LengthMM); in {
		at = run.ExitAtMM + s.OutsideMM/2
	} else {
		half := size / 2
		bore := half * assembly.BoreShare
		for _, side := range [2][]float64{{at - half, at - bore}, {at + bore, at + half}} {
			g.area("vent", message.Of("part.vent"), material.Plastic, false, side,
				atLevel(run.InvertAt(at)+run.PipeAt(at).BoreMM), atLevel(g.highMM()))
		}
	}
	g.Marks = append(g.Marks, Mark{At: g.at(at, g.highMM()), Of: MarkVent, Size: sizeOf(r, size)})
	g.Handles = append(g.Handles, Handle{g.at(at, g.highMM()), edit.Handle{Kind: edit.HandleVent}})
}

// stack draws the walls of a stack that the run joins at a distance along it, with the
// opening of its branch.
func (g *long) stack(name message.Message, nearMM, outsideMM float64) {
	run := &g.r.Heights.Run
	far, pipe := nearMM+outsideMM, run.Outgoing()
	wall := func(from, low, high float64) {
		g.area("stack", name, material.Plastic, false, []float64{from, from + assembly.StackWallMM}, atLevel(low), atLevel(high))
	}
	invert := run.InvertAt(nearMM)
	wall(nearMM, g.lowMM(), invert-pipe.WallMM())
	wall(nearMM, invert+pipe.BoreMM+pipe.WallMM(), g.highMM())
	wall(far-assembly.StackWallMM, g.lowMM(), g.highMM())
}

// pumpFootMM is the level that a pump stands on.
func (g *long) pumpFootMM(p *job.Pump) float64 {
	inlet, _ := g.r.Heights.PumpInletMM(&g.r.Settled, &g.r.Layout, &g.r.Heights.Run)
	return inlet - p.InletMM
}

// pump draws the box of a pump, open where the run comes in, and its discharge pipe as far
// up as the drawing goes.
func (g *long) pump(p *job.Pump) {
	run := &g.r.Heights.Run
	near, foot := run.ExitAtMM, g.pumpFootMM(p)
	far, top, inlet := near+p.LengthMM, foot+p.HeightMM, foot+p.InletMM
	plate := func(from, to, low, high float64) {
		if high > low {
			g.area("pump", message.Of("part.pump"), material.Plastic, false, []float64{from, to}, atLevel(low), atLevel(high))
		}
	}
	plate(near, far, foot, foot+pumpWallMM)
	plate(near, far, top-pumpWallMM, top)
	plate(far-pumpWallMM, far, foot+pumpWallMM, top-pumpWallMM)
	plate(near, near+pumpWallMM, foot+pumpWallMM, inlet)
	plate(near, near+pumpWallMM, math.Max(foot+pumpWallMM, inlet+run.Outgoing().BoreMM), top-pumpWallMM)
	g.Marks = append(g.Marks, Mark{At: g.at((near+far)/2, top), Of: MarkPump},
		Mark{At: g.at(near+pumpWallMM, inlet), Of: MarkPumpInlet, LevelMM: inlet, Under: true})
	size, middle := p.DischargeNominalMM, near+0.8*p.LengthMM
	half := math.Max(size, 20) / 2
	plate(middle-half, middle-half*assembly.BoreShare, top, g.highMM())
	plate(middle+half*assembly.BoreShare, middle+half, top, g.highMM())
	if p.DischargeMM != nil {
		g.Marks = append(g.Marks, Mark{At: g.at(middle, g.highMM()), Of: MarkDischarge, Size: sizeOf(&g.r, size), LevelMM: *p.DischargeMM})
	}
}

// oldPipe draws the beginning of the existing pipe that the run joins, falling on as the
// run does, and the wall that it goes into.
func (g *long) oldPipe(nominalMM float64) {
	run := &g.r.Heights.Run
	last, end, pipe := &run.Pieces[len(run.Pieces)-1], run.LengthMM, run.Outgoing()
	to := end + assembly.OldPipeMM(g.r.Layout.Room, run)
	if to-end < plan.HairMM {
		return
	}
	invert := func(s float64) float64 { return last.ToInvertMM - last.Gradient()*(s-end) }
	over := func(by float64) func(float64) float64 { return func(s float64) float64 { return invert(s) + by } }
	for _, w := range g.r.Layout.Walls {
		at, on, ok := plan.MeetLines(run.Exit, run.ExitTo, w.A, w.Along)
		if !ok || at < 0 || math.Abs(end+at-to) > plan.HairMM || on < 0 || on > w.LengthMM {
			continue
		}
		of := assembly.WallMaterial(g.r.Settled.Room.Walls[w.Index].Kind)
		face, name := to, message.Of("part.wall", w.Name())
		to += w.ThicknessMM
		g.area("wall", name, of, true, []float64{face, to}, atLevel(g.lowMM()), over(-pipe.WallMM()))
		g.area("wall", name, of, true, []float64{face, to}, over(pipe.BoreMM+pipe.WallMM()), atLevel(g.highMM()))
		break
	}
	ends, name := []float64{end, to}, message.Of("part.old-pipe")
	g.area("old-pipe", name, material.Plastic, false, ends, over(-pipe.WallMM()), invert)
	g.area("old-pipe", name, material.Plastic, false, ends, over(pipe.BoreMM), over(pipe.BoreMM+pipe.WallMM()))
	g.Marks = append(g.Marks, Mark{At: g.at((end+to)/2, invert((end+to)/2)), Of: MarkOldPipe, Size: sizeOf(&g.r, nominalMM), Under: true})
}

// groundMM is the level of the ground outside the wall that the run goes out through; nil where none is stated.
func (g *long) groundMM() *float64 { return level.GroundOutsideMM(&g.r.Settled, &g.r.Heights.Run) }

// gullyLevels are the levels of a gully's top and foot, as far as they are known.
// One of which neither grating nor water is stated ends at the ground there, where that is stated.
func gullyLevels(way *job.Beyond, ground *float64) (topMM, footMM float64, known bool) {
	switch {
	case way.GratingMM != nil && way.WaterMM != nil:
		return *way.GratingMM, math.Min(*way.GratingMM, *way.WaterMM) - gullyBelowMM, true
	case way.GratingMM != nil:
		return *way.GratingMM, *way.GratingMM - gullyMM, true
	case way.WaterMM != nil:
		return *way.WaterMM + gullyMM/2, *way.WaterMM - gullyBelowMM, true
	case ground != nil:
		return *ground, *ground - gullyMM, true
	}
	return 0, 0, false
}

// gully draws a gully about the run's end, with its grating and water, and the bend that
// turns the pipe down into it.
func (g *long) gully(way *job.Beyond) {
	run := &g.r.Heights.Run
	end, half, pipe := run.LengthMM, gullyMM/2.0, run.Outgoing()
	top, foot, known := gullyLevels(way, g.groundMM())
	if !known {
		top, foot = g.lowMM()+gullyMM, g.lowMM()
	}
	if way.WaterMM != nil {
		g.area("gully-water", message.Of("part.gully-water"), material.Water, false, []float64{end - half, end + half},
			atLevel(foot), atLevel(*way.WaterMM))
	}
	if way.GratingMM != nil {
		hole := pipe.OutsideDiameterMM / 2
		if way.DownToMM == nil || *way.DownToMM > top {
			hole = 0
		}
		g.Lines = append(g.Lines, Line{[]plan.Point{g.at(end-half, top), g.at(end-hole, top)}, Heavy, false, "grating"},
			Line{[]plan.Point{g.at(end+hole, top), g.at(end+half, top)}, Heavy, false, "grating"})
	}
	tank := []plan.Point{g.at(end-half, top), g.at(end-half, foot), g.at(end+half, foot), g.at(end+half, top)}
	g.Lines = append(g.Lines, Line{tank, Medium, false, "gully"})
	g.Marks = append(g.Marks, Mark{At: g.at(end, foot), Of: MarkGully, Under: true})
	if way.DownToMM != nil {
		g.turnDown("way-down", message.Of("part.way-down"), end, pipe, *way.DownToMM)
		g.Marks = append(g.Marks, Mark{At: g.at(end, run.InvertAt(end)+pipe.BoreMM), Of: MarkWayDown, LevelMM: *way.DownToMM})
	}
}

// turnDown draws a bend of 90° whose lower leg stands at a distance along the drawing, with
// its sockets, and the pipe on from there down to a level.
func (g *long) turnDown(id string, name message.Message, atMM float64, pipe part.Pipe, toMM float64) {
	face := waste.FaceMM(pipe)
	from := atMM - face
	axis := g.r.Heights.Run.InvertAt(from) + pipe.BoreMM/2
	toMM = math.Min(toMM, axis-face)
	add := func(ring plan.Ring) {
		g.Areas = append(g.Areas, Area{PartID: id, Name: name, Material: material.Plastic, Region: plan.FromRing(ring)})
	}
	arc := func(radius float64) (out plan.Ring) {
		const steps = 12
		for k := range steps + 1 {
			sin, cos := math.Sincos(math.Pi / 2 * float64(k) / steps)
			out = append(out, g.at(from+radius*sin, axis-face+radius*cos))
		}
		return out
	}
	wall := func(inner, outer float64) {
		ring := append(arc(outer), g.at(from+outer, toMM), g.at(from+inner, toMM))
		back := arc(inner)
		for i := len(back) - 1; i >= 0; i-- {
			ring = append(ring, back[i])
		}
		add(ring)
	}
	bore, outside := pipe.BoreMM/2, pipe.OutsideDiameterMM/2
	wall(face+bore, face+outside)
	wall(face-outside, face-bore)
	if stands, deep := pipe.SocketMM(), math.Min(pipe.InsertionMM, face/2); stands > 0 && deep > plan.HairMM {
		for _, side := range [2]float64{-1, 1} {
			near, far := side*outside, side*(outside+stands)
			add(plan.Ring{g.at(from, axis+near), g.at(from+deep, axis+near), g.at(from+deep, axis+far), g.at(from, axis+far)})
			add(plan.Ring{g.at(atMM+near, axis-face), g.at(atMM+far, axis-face), g.at(atMM+far, axis-face+deep), g.at(atMM+near, axis-face+deep)})
		}
	}
}
