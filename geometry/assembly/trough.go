package assembly

import (
	"math"
	"slices"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// widestMM is the half of the widest socket or nut along the run.
func widestMM(h *level.Heights) float64 {
	widest := 0.0
	for i := range h.Run.Pieces {
		widest = math.Max(widest, h.Run.Pieces[i].WidestMM())
	}
	return widest
}

// TroughMM is how wide the base is left out for the pipe.
func TroughMM(j *job.Job, h *level.Heights) float64 {
	return 2 * (widestMM(h) + j.Base.SawMarginMM)
}

// Covered tells whether the base has to be closed over the pipe before mortar is laid on it:
// boards of a former bridge the trough, and a base of mortar is filled up round the pipe.
func Covered(j *job.Job, run *waste.Run) bool {
	return j.Former.Mortar && !j.Base.Screed && len(run.Pieces) > 0
}

// UnderShower are the distances along the run between which its pieces lie under the shower;
// they follow from the plan alone.
func UnderShower(l *layout.Layout, run *waste.Run) (atMM []float64) {
	for i := range run.Pieces {
		for s := range run.Pieces[i].Stretches {
			for _, iv := range l.FallArea.Clip(s.A, s.Along()) {
				for _, t := range [2]float64{iv.From, iv.To} {
					atMM = append(atMM, s.FromMM+math.Max(0, math.Min(s.LengthMM, t)))
				}
			}
		}
	}
	return atMM
}

// CoveringMM is how thick a board is that closes the base over the pipe, where it has to be
// closed: as thick as the base, or what the highest socket under the shower leaves, of the
// places that UnderShower gives.
func CoveringMM(j *job.Job, h *level.Heights, underShowerMM []float64) float64 {
	thick := h.BaseTopMM - h.FootMM(j)
	if j.Base.Support == job.BetweenJoists {
		thick = h.BaseTopMM - h.JoistTopMM(j) + j.Base.MinThicknessMM
	}
	widest := widestMM(h)
	for _, at := range underShowerMM {
		thick = math.Min(thick, h.BaseTopMM-h.Run.InvertAt(at)-h.Run.PipeAt(at).BoreMM/2-widest)
	}
	return math.Max(0, thick)
}

// leastCoveringMM is the thinnest board that closes a trough. Common practice, no source.
const leastCoveringMM = leastWebMM

// LeastStripMM is the narrowest strip of board that is laid: what is left narrower between cuts and walls is filled with
// adhesive or mortar. Common practice, no source.
const LeastStripMM = 20

// trough closes the base over the pipe, once that is laid: a base of mortar is filled up round it,
// and mortar on boards gets a board over it, where one goes in. A former of boards lies over
// the trough as it is.
func (b *builder) trough() {
	run := &b.heights.Run
	switch {
	case len(run.Pieces) == 0:
	case Covered(&b.job, run):
		if thick := CoveringMM(&b.job, &b.heights, UnderShower(&b.layout, run)); thick >= leastCoveringMM {
			b.coverTrough(b.troughOpen(), thick)
		}
	case b.job.Base.Screed:
		for _, layer := range b.shower().Layers {
			if layer.Kind == buildup.Base {
				b.fillTrough(b.troughOpen(), layer)
			}
		}
	}
}

// troughOpen is where the base is left out for the pipe, beside the trap and the drain.
func (b *builder) troughOpen() plan.Region {
	what, margin := message.Of("shape.trough"), b.job.Base.SawMarginMM
	open := b.intersect(b.channel, b.layout.FallArea, what)
	open = b.subtract(open, b.toWalls(grown(b.layout.Trap, margin)), what)
	if b.heights.ChannelMM < b.heights.BaseTopMM {
		open = b.subtract(open, b.toWalls(grown(b.layout.Drain, margin)), what)
	}
	return open
}

// coverTrough lays a board over the pipe, its top in that of the base; what the drain leaves of the trough beside it may be
// too narrow for one.
func (b *builder) coverTrough(open plan.Region, thickMM float64) {
	top := b.heights.BaseTopMM
	what := message.Of("part.trough-board")
	if top-thickMM < b.heights.JoistTopMM(&b.job)-plan.HairMM {
		for _, js := range b.layout.Joists {
			open = b.subtract(open, js.Footprint, what)
		}
	}
	open = slices.DeleteFunc(slices.Clone(open), func(p plan.Polygon) bool {
		reach := func(along plan.Point) float64 {
			from, to := (plan.Region{p}).Reach(along)
			return to - from
		}
		return math.Min(reach(b.layout.ToRight), reach(b.layout.Into)) < LeastStripMM
	})
	b.addPrism("trough-board", what, material.BaseBoard, buildup.StageFormer, precedenceBase, "former.mortar",
		b.sheet(open, what), solid.Level(top-thickMM), solid.Level(top))
}

// fillTrough fills the trough with mortar: beside the pipe, under it and over it, but for as much
// as its widest socket takes, where it is wrapped.
func (b *builder) fillTrough(open plan.Region, base buildup.Layer) {
	run, what := &b.heights.Run, message.Of("part.trough-fill")
	widest := widestMM(&b.heights)
	var body solid.Compound
	// Only where the one lies over the other, by more than corners put on the grid may take.
	const clearMM = 2e-4
	add := func(region plan.Region, low, high solid.Surface) {
		region = b.where(region, func(p plan.Point) float64 { return high.At(p) - low.At(p) - clearMM }, what)
		if sheet := b.sheet(region, what); stands(sheet, low, high) {
			body = append(body, solid.Upright(sheet, low, high))
		}
	}
	beside := open
	for i := 1; i < len(run.Corners); i++ {
		from, to := run.Corners[i-1], run.Corners[i]
		length := to.Sub(from).Len()
		if length < 1 {
			continue
		}
		along := to.Sub(from).Mul(1 / length)
		line := b.pipeLine(from, to, along)
		pipe := b.intersect(b.shaper.Corridor([]plan.Point{from, to.Add(along.Mul(widest))}, widest, widest, what), beside, what)
		beside = b.subtract(beside, pipe, what)
		add(pipe, line.above(widest), base.Top)
		add(b.subtract(pipe, b.dropHole(), what), base.Bottom, line.below(widest))
	}
	add(b.subtract(beside, b.dropHole(), what), base.Bottom, base.Top)
	if len(body) > 0 {
		b.add(Part{ID: "trough-fill", Name: what, Material: material.Mortar, Stage: buildup.StageFormer,
			Precedence: precedenceBase, From: "base.screed", Shape: body})
	}
}

// pipeLine is the middle of the pipe along a leg of the run, as a plane that falls with it,
// and how far it rises over that plane and sinks under it.
type pipeLine struct {
	middle          solid.Plane
	overMM, underMM float64
}

func (p pipeLine) above(widestMM float64) solid.Surface {
	return solid.Surface{p.middle.Raised(p.overMM + widestMM)}
}

func (p pipeLine) below(widestMM float64) solid.Surface {
	return solid.Surface{p.middle.Raised(-p.underMM - widestMM)}
}

func (b *builder) pipeLine(from, to, along plan.Point) pipeLine {
	run := &b.heights.Run
	start, end := run.Nearest(from), run.Nearest(to)
	level := func(s float64) float64 { return run.InvertAt(s) + run.PipeAt(s).BoreMM/2 }
	out := pipeLine{middle: solid.Through(from, level(start), along, (level(end)-level(start))/to.Sub(from).Len())}
	for i := range run.Pieces {
		for _, s := range [2]float64{run.Pieces[i].FromMM, run.Pieces[i].ToMM} {
			if s >= start && s <= end {
				off := level(s) - out.middle.At(run.PointAt(s))
				out.overMM, out.underMM = math.Max(out.overMM, off), math.Max(out.underMM, -off)
			}
		}
	}
	return out
}
