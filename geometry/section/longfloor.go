package section

import (
	"math"
	"slices"

	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// stations are the distances between two places of the run, or past its end, at which
// something may change: ends of pieces and their corners, and the edges of the floors.
func (g *long) stations(from, to float64, more ...float64) []float64 {
	run := &g.r.Heights.Run
	out := append([]float64{from, to}, more...)
	regions := []plan.Region{g.r.Layout.FallArea, g.r.Layout.Room}
	for _, z := range g.r.Floor.Zones {
		if z.Edge >= 0 {
			regions = append(regions, z.Region)
		}
	}
	add := func(s waste.Stretch) {
		for _, region := range regions {
			for _, iv := range region.Clip(s.A, s.Along()) {
				for _, t := range []float64{iv.From, iv.To} {
					if t > 0 && t < s.LengthMM {
						out = append(out, s.FromMM+t)
					}
				}
			}
		}
		out = append(out, s.FromMM+s.LengthMM)
	}
	for _, p := range run.Pieces {
		for s := range p.Stretches {
			add(s)
		}
	}
	if past := to - run.LengthMM; past > 0 {
		end := run.PointAt(run.LengthMM)
		add(waste.Stretch{A: end, B: end.Add(run.ExitTo.Mul(past)), FromMM: run.LengthMM, LengthMM: past})
	}
	slices.Sort(out)
	return slices.DeleteFunc(slices.Compact(out), func(s float64) bool { return s < from || s > to })
}

// floor draws the structural floor, the raised floors and the wall gone through.
func (g *long) floor() {
	r, h, l := g.r, g.r.Heights, g.r.Layout
	run := &g.r.Heights.Run
	before := -r.Settled.Drain.TrapSizeMM - longBeforeMM
	floor := func(s float64) float64 { return h.Survey.Floor.At(g.place(s)) }
	to, more := run.InRoomMM(), []float64(nil)
	if past := g.pastMM(); past > 0 {
		to = run.LengthMM + past
		more = g.changes(to)
	}
	at := append([]float64{before}, g.stations(0, to, more...)...)
	letIn := r.Settled.Base.Support == job.BetweenJoists
	// What has the same layers from one station to the next is drawn as one.
	middleAt := func(i int) float64 { return (at[i-1] + at[i]) / 2 }
	same := func(s, t float64) bool {
		p, q := g.place(s), g.place(t)
		kinds := func(a, b buildup.Layer) bool { return a.Kind == b.Kind }
		return g.leftOut(s) == g.leftOut(t) && r.Floor.ZoneAt(p) == r.Floor.ZoneAt(q) && slices.EqualFunc(g.drawn(s), g.drawn(t), kinds)
	}
	for i, from := 1, 0; i < len(at); i++ {
		middle := middleAt(i)
		if i+1 < len(at) && same(middle, middleAt(i+1)) {
			continue
		}
		ends := at[from : i+1]
		from = i
		out, p := g.leftOut(middle), g.place(middle)
		under := func(mm float64) func(float64) float64 { return func(s float64) float64 { return floor(s) - mm } }
		switch {
		case out >= leftStructure:
		case r.Settled.Floor.Kind != job.FloorTimber:
			down := h.Survey.Floor.At(p) - h.StructureAt(&r.Settled, &l, p)
			g.area("slab", message.Of("part.slab"), material.Concrete, true, ends, under(g.belowMM()), under(down))
		case l.Room.Contains(p, 0) && !(letIn && l.FallArea.Contains(p, 0)):
			g.area("deck", message.Of("part.deck"), material.Deck, true, ends, under(r.Settled.Floor.Deck.ThicknessMM), floor)
		}
		g.layers(middle, ends)
	}
	g.wall()
	g.upright()
	g.boxing()
}

// drawn are the floor's layers that are drawn at a distance along the drawing: of an
// unraised floor beside the shower only what was found, but all past the run's end.
func (g *long) drawn(s float64) []buildup.Layer {
	layers := g.r.Floor.LayersAt(g.place(s))
	raised := slices.ContainsFunc(layers, func(l buildup.Layer) bool { return l.Kind.TopsBase() })
	out, past := g.leftOut(s), s > g.r.Heights.Run.LengthMM
	return slices.DeleteFunc(layers, func(l buildup.Layer) bool {
		return out == leftFloor || out == leftAll || out == leftStructure && l.Kind.Facts().Stage <= buildup.StageBase ||
			!raised && !past && l.Kind != buildup.Existing
	})
}

// layers draws the floor's layers over a stretch of the run about a middle: those of a
// stage as one, being too thin to tell apart here, less what is sawn out along the run.
func (g *long) layers(middle float64, ends []float64) {
	layers := g.drawn(middle)
	from := 0
	for i, layer := range layers {
		facts := layer.Kind.Facts()
		if i+1 < len(layers) && sameFace(layers[i+1].Kind, layer.Kind) {
			continue
		}
		bottom, top := layers[from].Bottom, layer.Top
		from = i + 1
		stretches := [][]float64{ends}
		if facts.Extent == buildup.BesideChannel && !(layer.Kind.BesideShower() && g.r.Heights.UnderRoomFloor(&g.r.Layout)) {
			// Sawn out all along the run.
			stretches = g.besideChannel(ends)
		}
		id := layer.Kind.PartID(layer.Number, 0)
		for _, ends := range stretches {
			g.area(id, message.Of(layer.Name), layer.Material, true, ends,
				func(s float64) float64 { return bottom.At(g.place(s)) }, func(s float64) float64 { return top.At(g.place(s)) })
		}
	}
}

// sameFace tells whether two layers are drawn as one: unless they are stated in a list, those of one stage, or of the
// finish, that are sawn out alike.
func sameFace(k, o buildup.Kind) bool {
	if k.Listed() && k.Facts().Stage < buildup.StageTanking || o.Listed() && o.Facts().Stage < buildup.StageTanking {
		return false
	}
	finish := func(f buildup.Facts) bool { return f.Stage >= buildup.StageTanking }
	a, b := k.Facts(), o.Facts()
	return (a.Stage == b.Stage || finish(a) && finish(b)) && (a.Extent == buildup.BesideChannel) == (b.Extent == buildup.BesideChannel)
}

// besideChannel are the parts of a stretch before and past what is sawn out along the run.
func (g *long) besideChannel(ends []float64) [][]float64 {
	end := g.channelEndMM()
	return [][]float64{
		slices.DeleteFunc(slices.Clone(ends), func(s float64) bool { return s > 0 }),
		slices.DeleteFunc(slices.Clone(ends), func(s float64) bool { return s < end }),
	}
}

// What of the floor is left out somewhere along the drawing.
type left uint8

const (
	leftNothing   left = iota
	leftFloor          // all that lies on the structure, round a pump that stands on it
	leftStructure      // all up to the base, in the hole that the run drops through
	leftAll            // everything, where a stack stands
)

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

// dropAtMM is where along the drawing the pipe of a drop through the floor stands, and
// holeMM the hole through the floor for it.
func (g *long) dropAtMM() float64 {
	run := &g.r.Heights.Run
	return run.LengthMM + run.Exit.Sub(run.PointAt(run.LengthMM)).Len()
}

func (g *long) holeMM() float64 {
	return 2 * assembly.DropHoleRadiusMM(&g.r.Heights.Run, g.r.Settled.Waste.HoleRoomMM)
}
