package section

import (
	"math"

	"underfall/geometry/assembly"
	"underfall/geometry/edit"
	"underfall/geometry/job"
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

// What of the floor is left out somewhere along the drawing.
type left uint8

const (
	leftNothing   left = iota
	leftFloor          // all that lies on the structure, round a pump that stands on it
	leftStructure      // all up to the base, in the hole that the run drops through
	leftAll            // everything, where a stack stands
)

// standsMM is how much past the run's end the stack or the pump takes that it leads into; nought
// for others.
func (g *long) standsMM() float64 {
	w := &g.r.Settled.Waste
	if p := w.IntoPump(); p != nil {
		return p.LengthMM
	}
	if w.Exit.Kind == job.ExitStack {
		return g.r.Settled.Room.Stacks[w.Exit.Stack].OutsideMM
	}
	return 0
}

// pastMM is how far past its end what the run ends in is drawn, in the room.
func (g *long) pastMM() float64 {
	run, exit, stands := &g.r.Heights.Run, g.r.Settled.Waste.Exit.Kind, g.standsMM()
	past := 0.0
	switch {
	case run.Wall > 0:
	case exit == job.ExitFloor:
		past = g.dropAtMM() - run.LengthMM + g.holeMM()/2 + longPastMM
	case exit == job.ExitPipe:
		past = assembly.OldPipeMM(g.r.Layout.Room, run)
	case stands > 0:
		past = stands + longPastMM
	}
	for _, iv := range g.r.Layout.Room.Clip(run.PointAt(run.LengthMM), run.ExitTo) {
		if iv.From <= 0 && iv.To > 0 {
			return math.Min(past, iv.To)
		}
	}
	return 0
}

// changes are the distances past the run's end at which something ends there.
func (g *long) changes(toMM float64) []float64 {
	run := &g.r.Heights.Run
	out := []float64{math.Min(g.channelEndMM(), toMM)}
	if g.r.Settled.Waste.Exit.Kind == job.ExitFloor {
		half := g.holeMM() / 2
		return append(out, g.dropAtMM()-half, g.dropAtMM()+half)
	}
	if stands := g.standsMM(); stands > 0 {
		out = append(out, run.LengthMM+stands)
	}
	return out
}

// channelEndMM is where what is sawn out of the base along the run ends.
func (g *long) channelEndMM() float64 {
	run := &g.r.Heights.Run
	if run.Wall > 0 {
		return math.Inf(1)
	}
	end := run.LengthMM + g.r.Settled.Base.SawMarginMM
	switch g.r.Settled.Waste.Exit.Kind {
	case job.ExitPipe:
		end += assembly.OldPipeMM(g.r.Layout.Room, run)
	case job.ExitFloor:
		end += g.dropAtMM() - run.LengthMM + run.Pieces[len(run.Pieces)-1].RadiusMM()
	}
	return end
}

// leftOut is what is left out of the floor there.
func (g *long) leftOut(s float64) left {
	w, run := &g.r.Settled.Waste, &g.r.Heights.Run
	stands := s > run.LengthMM && s < run.LengthMM+g.standsMM()
	switch p := w.IntoPump(); {
	case w.Exit.Kind == job.ExitFloor && math.Abs(s-g.dropAtMM()) < g.holeMM()/2:
		return leftStructure
	case stands && p != nil && p.OnStructure:
		return leftFloor
	case stands && w.Exit.Kind == job.ExitStack && run.Wall == 0:
		return leftAll
	}
	return leftNothing
}

// dropAtMM is where along the drawing the pipe of a drop through the floor stands, and
// holeMM the hole through the floor for it.
func (g *long) dropAtMM() float64 {
	run := &g.r.Heights.Run
	return run.LengthMM + run.Exit.Sub(run.PointAt(run.LengthMM)).Len()
}

func (g *long) holeMM() float64 {
	return 2 * assembly.DropHoleRadiusMM(&g.r.Heights.Run, g.r.Settled.Waste.HoleRoomMM)
}

// atLevel is the same level everywhere.
func atLevel(z float64) func(float64) float64 { return func(float64) float64 { return z } }

// wall draws the wall that the run goes out through, or that it ends in.
func (g *long) wall() {
	r, run := &g.r, &g.r.Heights.Run
	if run.Wall == 0 {
		return
	}
	w := r.Settled.Room.Walls[run.Wall-1]
	of := material.Masonry
	if w.Kind == job.WallStud {
		of = material.StudWall
	}
	outer := math.Max(run.WallAtMM+1, run.OuterFaceAtMM(w.ThicknessMM, r.Layout.Walls[run.Wall-1].Outward))
	reach := run.Outgoing().WallMM() + r.Settled.Waste.HoleRoomMM
	foot := g.lowMM()
	ground := w.OutsideGroundMM
	if way := r.Settled.Waste.WayOut(); ground != nil && way != nil && way.Joins == job.JoinGully && way.GratingMM != nil {
		foot = math.Min(foot, *ground-longBelowMM) // down to the gully
	}
	low, high := atLevel(foot), atLevel(g.highMM())
	add := func(from, to float64, bottom, top func(float64) float64) {
		if to > from {
			g.area("wall", message.Of("part.wall", message.No("n", run.Wall)), of, true, []float64{from, to}, bottom, top)
		}
	}
	// Below and above the hole for the pipe, up to a stack that stands in the wall; above
	// it beside a vent.
	to := outer
	if e := r.Settled.Waste.Exit; e.Kind == job.ExitStack && run.ExitAtMM < outer {
		to = run.ExitAtMM
		add(to+r.Settled.Room.Stacks[e.Stack].OutsideMM, outer, low, high)
	}
	under, over := func(s float64) float64 { return run.InvertAt(s) - reach }, func(s float64) float64 { return run.InvertAt(s) + run.Outgoing().BoreMM + reach }
	add(run.WallAtMM, to, low, under)
	_, in := r.Settled.StackAsVent(run.LengthMM)
	if at, ok := ventAt(r); ok && !in && at > run.WallAtMM && at < to {
		half := r.Settled.Waste.Vent.NominalMM / 2
		add(run.WallAtMM, at-half, over, high)
		add(at+half, to, over, high)
	} else {
		add(run.WallAtMM, to, over, high)
	}
	if ground != nil && *ground > foot {
		g.ground(outer, *ground)
	}
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

// upright draws what stands at the run's end, or on it: the stack, gully or pump that it
// leads into, the pipe that it drops in, and its vent.
func (g *long) upright() {
	r, run := &g.r, &g.r.Heights.Run
	w := &r.Settled.Waste
	switch e := w.Exit; e.Kind {
	case job.ExitStack:
		s := r.Settled.Room.Stacks[e.Stack]
		g.stack(message.Of("part.stack", message.No("n", e.Stack+1)), run.ExitAtMM, s.OutsideMM)
		g.Marks = append(g.Marks, Mark{At: g.at(run.ExitAtMM+s.OutsideMM/2, g.lowMM()), Of: MarkBranch, Number: e.Stack + 1, Size: sizeOf(r, s.NominalMM), Branch: sizeOf(r, run.Outgoing().NominalMM), Under: true})
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
	if way := w.WayOut(); way != nil {
		switch way.Joins {
		case job.JoinGully:
			g.gully(way)
		case job.JoinStack:
			g.stack(message.Of("part.stack-outside"), run.LengthMM, outsideMM)
			g.Marks = append(g.Marks, Mark{At: g.at(run.LengthMM+outsideMM/2, g.lowMM()), Of: MarkStackOutside, Under: true})
		case job.JoinDrain:
			g.turnDown("way-down", message.Of("part.way-down"), run.LengthMM, run.Outgoing(), g.lowMM())
			g.Marks = append(g.Marks, Mark{At: g.at(run.LengthMM, g.lowMM()), Of: MarkDrain, Under: true})
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
			g.area("vent", message.Of("part.vent"), material.Plastic, false, side, atLevel(run.InvertAt(at)+run.PipeAt(at).BoreMM), atLevel(g.highMM()))
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
	g.Marks = append(g.Marks, Mark{At: g.at((near+far)/2, top), Of: MarkPump}, Mark{At: g.at(near+pumpWallMM, inlet), Of: MarkPumpInlet, LevelMM: inlet, Under: true})
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
		of := material.Masonry
		if g.r.Settled.Room.Walls[w.Index].Kind == job.WallStud {
			of = material.StudWall
		}
		face, name := to, message.Of("part.wall", message.No("n", w.Index+1))
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

// gullyLevels are the levels of a gully's top and foot, as far as they are known.
func gullyLevels(way *job.Beyond) (topMM, footMM float64, known bool) {
	switch {
	case way.GratingMM != nil && way.WaterMM != nil:
		return *way.GratingMM, math.Min(*way.GratingMM, *way.WaterMM) - gullyBelowMM, true
	case way.GratingMM != nil:
		return *way.GratingMM, *way.GratingMM - gullyMM, true
	case way.WaterMM != nil:
		return *way.WaterMM + gullyMM/2, *way.WaterMM - gullyBelowMM, true
	}
	return 0, 0, false
}

// gully draws a gully about the run's end, with its grating and water, and the bend that
// turns the pipe down into it.
func (g *long) gully(way *job.Beyond) {
	run := &g.r.Heights.Run
	end, half, pipe := run.LengthMM, gullyMM/2.0, run.Outgoing()
	top, foot, known := gullyLevels(way)
	if !known {
		top, foot = g.lowMM()+gullyMM, g.lowMM()
	}
	if way.WaterMM != nil {
		g.area("gully-water", message.Of("part.gully-water"), material.Water, false, []float64{end - half, end + half}, atLevel(foot), atLevel(*way.WaterMM))
	}
	if way.GratingMM != nil {
		hole := pipe.OutsideDiameterMM / 2
		if way.DownToMM == nil || *way.DownToMM > top {
			hole = 0
		}
		g.Lines = append(g.Lines, Line{[]plan.Point{g.at(end-half, top), g.at(end-hole, top)}, Heavy, false, "grating"},
			Line{[]plan.Point{g.at(end+hole, top), g.at(end+half, top)}, Heavy, false, "grating"})
	}
	g.Lines = append(g.Lines, Line{[]plan.Point{g.at(end-half, top), g.at(end-half, foot), g.at(end+half, foot), g.at(end+half, top)}, Medium, false, "gully"})
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
		g.Areas = append(g.Areas, Area{id, name, material.Plastic, plan.FromRing(ring), false, false})
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
