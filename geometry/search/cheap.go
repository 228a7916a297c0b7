package search

import (
	"cmp"
	"context"
	"math"
	"slices"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
)

// Cheap is a change that costs little: another part of the shelf, the drain moved along its side or to another one, the outlet turned.
type Cheap struct {
	What message.Message
	// Best makes the change and lays the run.
	Best Alternative
	// GainMM is by how much lower the base comes than with the best run there is without it to the
	// same exit; 0 where there is none, and the change is what lets one through.
	GainMM float64
}

// swap is one change that costs little, and what it is called.
type swap struct {
	change edit.Edit
	what   message.Message
}

// worthMM is how much lower a run must come to be worth telling. Common practice, no source.
const worthMM = 1

// mostCheap is how many changes that cost little are told at most.
const mostCheap = 4

// cheapen tries what costs little before anything else is: it keeps what lets a run through to the
// stated exit, or lets the base come lower than any run there does as the job stands. Where no run
// goes anywhere it looks at the other exits as well.
func (s *Outcome) cheapen(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid) error {
	tries, base := s.asStated(exits), math.Inf(1)
	if len(s.Found) == 0 {
		tries = thinned(exits)
	}
	for i := range s.Found {
		if a := &s.Found[i]; !a.MovesExit {
			base = math.Min(base, a.lowMM())
		}
	}
	s.turnsOutlet(&j)
	for _, c := range swaps(&j, &grid.Shelf) {
		k := c.change.Apply(j)
		if ctx.Err() != nil {
			return nil
		}
		if len(j.Moved(&k, job.Held)) > 0 || len(k.Validate()) > 0 {
			continue
		}
		// A waste that goes straight out moves along with its drain, by as much as its outlet lies elsewhere.
		t, at := Outcome{stated: k.Waste.Exit}, slices.Clone(tries)
		for i := range at {
			if edit.SamePlace(at[i], s.stated) {
				at[i] = k.Waste.Exit
			}
		}
		beside := func() error { return t.findBesides(k, pack) }
		if err := t.search(ctx, k, pack, at, grid.plain(), beside, func(float64) {}); err != nil {
			return err
		}
		s.Tried += t.Tried
		if len(t.Found) == 0 {
			continue
		}
		if t.stopsMore(s) {
			continue
		}
		best := slices.MinFunc(t.Found, func(a, b Alternative) int { return cmp.Compare(a.lowMM(), b.lowMM()) })
		best.Change = edit.All(best.Change.What, c.change, best.Change)
		s.cheap(Cheap{What: c.what, Best: best}, base)
	}
	slices.SortStableFunc(s.Cheap, func(a, b Cheap) int {
		return cmp.Or(-cmp.Compare(a.GainMM, b.GainMM), cmp.Compare(a.Best.lowMM(), b.Best.lowMM()))
	})
	s.Cheap = s.Cheap[:min(len(s.Cheap), mostCheap)]
	return nil
}

// stopsMore tells whether something stops a job whichever way its run goes that does not stop another.
func (s *Outcome) stopsMore(than *Outcome) bool {
	return slices.ContainsFunc(s.Besides, func(f rule.Finding) bool {
		return !slices.ContainsFunc(than.Besides, func(o rule.Finding) bool { return o.Rule.ID == f.Rule.ID })
	})
}

// cheap keeps a change that is worth it beside a lowest base without it; infinite where no run goes.
func (s *Outcome) cheap(c Cheap, baseMM float64) {
	if !math.IsInf(baseMM, 1) {
		if c.GainMM = baseMM - c.Best.lowMM(); c.GainMM < worthMM {
			return
		}
	}
	s.Cheap = append(s.Cheap, c)
}

// lowMM is how high a run's base comes: at the height that is asked for, or at least where that is
// stated.
func (a *Alternative) lowMM() float64 {
	if a.Job.Base.Height == job.HeightChosen {
		return a.BareMM
	}
	return a.RaiseMM
}

// turnsOutlet keeps the run found to the stated exit that comes lowest with the outlet turned, where that gains on the
// runs with the outlet as it points.
func (s *Outcome) turnsOutlet(j *job.Job) {
	asItIs, turned := math.Inf(1), (*Alternative)(nil)
	for i := range s.Found {
		switch a := &s.Found[i]; {
		case a.MovesExit:
		case job.AngleDeg(a.Job.Drain.OutletTurnDeg) == job.AngleDeg(j.Drain.OutletTurnDeg):
			asItIs = math.Min(asItIs, a.lowMM())
		case turned == nil || a.lowMM() < turned.lowMM():
			turned = a
		}
	}
	if turned != nil && !math.IsInf(asItIs, 1) { // else every run found to the exit has it turned
		s.cheap(Cheap{What: edit.OutletTo(turned.Job.Drain.OutletTurnDeg), Best: *turned}, asItIs)
	}
}

// swaps are what costs little to have otherwise: parts of a shelf that may stand in for those of a job, which are another drain
// with its trap, another system of pipe, another size of the pipe; and the drain elsewhere.
func swaps(j *job.Job, shelf *part.Shelf) []swap {
	return append(partSwaps(j, shelf), drainSwaps(j)...)
}

// drainSwaps are the drain at the other sides of the shower, and moved along its own as far as there is room; its trap
// goes along with it.
func drainSwaps(j *job.Job) (out []swap) {
	fall := j.Former.Fall
	if _, atSide := layout.DrainSide(fall); !atSide {
		return nil
	}
	for _, side := range [...]job.FallKind{job.FallBack, job.FallLeft, job.FallRight, job.FallFront} {
		if side != fall {
			out = append(out, swap{edit.Fall(side), drainAt(side)})
		}
	}
	reach := math.Floor((j.DrainSideMM()-j.DrainLengthMM())/2/drainStepMM) * drainStepMM
	for _, offset := range [...]float64{reach, -reach} {
		by := offset - j.Drain.OffsetMM
		if reach < drainStepMM || math.Abs(by) < drainStepMM {
			continue
		}
		out = append(out, swap{edit.MoveDrain(by), drainMoved(fall, by)})
	}
	return out
}

// drainStepMM is in what steps a drain is moved along its side. Common practice, no source.
const drainStepMM = 10

// drainAt says at which side of the shower a drain is, by the fall to it.
func drainAt(fall job.FallKind) message.Message {
	switch fall {
	case job.FallLeft:
		return message.Of("cheap.drain-left")
	case job.FallRight:
		return message.Of("cheap.drain-right")
	case job.FallFront:
		return message.Of("cheap.drain-front")
	}
	return message.Of("cheap.drain-back")
}

// drainMoved says which way a drain is moved along its side, by its fall and how far to the right or the front.
func drainMoved(fall job.FallKind, byMM float64) message.Message {
	by := message.Along("by", math.Abs(byMM))
	switch {
	case fall.Sideways() && byMM > 0:
		return message.Of("cheap.drain-to-front", by)
	case fall.Sideways():
		return message.Of("cheap.drain-to-back", by)
	case byMM > 0:
		return message.Of("cheap.drain-to-right", by)
	}
	return message.Of("cheap.drain-to-left", by)
}

// partSwaps are the parts that may stand in for others.
func partSwaps(j *job.Job, shelf *part.Shelf) (out []swap) {
	for _, key := range [...]string{"parts.drain", "parts.pipe"} {
		in, ok := job.FindInput(key)
		if !ok {
			continue
		}
		for _, p := range in.Choice.Parts(j, shelf) {
			if id := p.Of().ID; id != in.Choice.At(j) {
				out = append(out, swap{edit.Choose(in, id, edit.Outside{Shelf: *shelf}), message.Of("cheap.part", message.In("part", part.Name(p)))})
			}
		}
	}
	if pipe := j.Parts.Pipe; pipe != nil {
		for _, z := range pipe.Sizes {
			if z.NominalMM != j.Waste.NominalMM {
				what := message.Of("cheap.size", message.Nominal("size", z.NominalMM), message.Nominal("stated", j.Waste.NominalMM))
				out = append(out, swap{edit.UsePipe(*pipe, z.NominalMM), what})
			}
		}
	}
	return out
}
