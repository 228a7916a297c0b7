// Package stage takes a job through the stages that all its answers begin with:
// placed in plan, then levelled. Evaluate, the search for runs and the chances go
// through these same stages, each from the one it has to begin with anew.
package stage

import (
	"errors"
	"math"

	"underfall/geometry/asbuilt"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/waste"
)

// Placed is a job with everything in its place in plan: nothing has a level yet.
type Placed struct {
	Job    job.Job
	Pack   rule.Pack
	Layout layout.Layout
	// Run is laid, without levels.
	Run waste.Run
	// leastGradient is the flattest pipe the pack allows; 0 when it says nothing.
	leastGradient float64
}

// Place works out the plan of a valid job. Where the shaper fails what comes out
// must not be used.
func Place(j job.Job, pack rule.Pack, sh *plan.Shaper) Placed {
	return Placed{Pack: pack, Layout: layout.Of(j, sh)}.WithRun(j)
}

// PlaceAfter is Place for a job that follows on one that was placed: its layout is
// taken over where the change does not touch it.
func PlaceAfter(before Placed, j job.Job, pack rule.Pack, sh *plan.Shaper) Placed {
	if before.Layout.Room == nil || !layout.Same(before.Job, j) {
		return Place(j, pack, sh)
	}
	return Placed{Pack: pack, Layout: before.Layout}.WithRun(j)
}

// WithRun is the stage for a job that differs in its run alone: exit, turns,
// fittings, fall and size of the pipe. All else keeps its place.
func (p Placed) WithRun(j job.Job) Placed {
	p.Job, p.Run = j, waste.Lay(j, p.Layout)
	p.leastGradient, _ = GradientLimit(p.Pack, j, rule.AtLeast)
	return p
}

// WithGradient is the stage for the same job with another stated fall of its pipe.
func (p Placed) WithGradient(slope float64) Placed {
	p.Job.Waste.Gradient = slope
	return p
}

// WithHeight is the stage for the same job with its base at another of the heights that
// are worked out.
func (p Placed) WithHeight(m job.HeightMode) Placed {
	p.Job.Base.Height = m
	return p
}

// Levelled is a job whose every level is known.
type Levelled struct {
	// Settled is the job with what has been measured as built in the place of
	// what was planned. Nothing of it may be stated again.
	Settled job.Job
	Pack    rule.Pack
	// Layout has the fall as built.
	Layout  layout.Layout
	Heights level.Heights
	// DoNow follows from what has been measured as built; Contradictions are
	// measured levels that cannot be. Empty where nothing has been measured.
	DoNow          []asbuilt.Instruction
	Contradictions []asbuilt.Contradiction

	run           waste.Run
	leastGradient float64
	// safeTop is the level to which a base that is to be safe comes up at least.
	safeTop float64
}

// Level works out the heights of a placed job, with what has been measured as
// built in place.
func (p Placed) Level() Levelled {
	var l Levelled
	p.LevelIn(&l)
	return l
}

// LevelIn makes a levelled job this one, as Level does, in the room it has.
func (p *Placed) LevelIn(l *Levelled) {
	l.Settled, l.Pack, l.Layout, l.run, l.leastGradient = p.Job, p.Pack, p.Layout, p.Run, p.leastGradient
	l.DoNow, l.Contradictions, l.safeTop = nil, nil, math.Inf(-1)
	l.Settled.AsBuilt = job.AsBuilt{} // what is planned was so before anything could be measured
	l.Relevel()
	if p.Job.Base.Height == job.HeightSafe {
		l.safeTop = l.safeTopMM(l.Shortage())
		l.Relevel()
	}
	if !p.Job.AsBuilt.Any() {
		return
	}
	b := asbuilt.Settle(p.Job, p.Layout, l.Heights)
	l.DoNow, l.Contradictions = b.Instructions, b.Contradictions
	l.Settled, l.Layout = b.Job, p.Layout.WithSlope(p.Job.Former.Slope, b.Job.Former.Slope)
	l.Relevel()
}

// Apart is the levelled job without heights, which Relevel then gives it in a room
// of its own: for its settled job to be changed over and over.
func (l Levelled) Apart() Levelled {
	l.Heights = level.Heights{}
	return l
}

// Relevel works out the heights anew after the settled job, or its layout's fall,
// was changed in place. What was measured as built is in the settled job already and
// is not looked at again. The heights it had are gone: for a job that has been set
// apart.
func (l *Levelled) Relevel() {
	l.Heights.Solve(&l.Settled, &l.Layout, &l.run, l.leastGradient, l.safeTop)
	if l.Settled.Room.RampRunMM == 0 && l.Pack.Ramps.Any() {
		l.Heights.LayRamp(&l.Settled, &l.Layout, l.Pack.Ramps.RunMM)
	}
}

// SamePlan tells whether all of two levelled jobs is in the same place in plan, as
// they come of one placed job.
func (l *Levelled) SamePlan(o *Levelled) bool { return sameRun(&l.run, &o.run) }

// SamePlan tells whether a levelled job comes of this placed one.
func (p *Placed) SamePlan(o *Levelled) bool { return sameRun(&p.Run, &o.run) }

func sameRun(a, b *waste.Run) bool {
	return len(a.Pieces) > 0 && len(a.Pieces) == len(b.Pieces) && &a.Pieces[0] == &b.Pieces[0]
}

// BuildUp is the floor's layers at these levels.
func (l *Levelled) BuildUp() buildup.Floor { return buildup.Of(l.Settled, l.Layout, l.Heights) }

// Crossings are the places where the run cuts joists at these levels.
func (l *Levelled) Crossings() []joist.Crossing {
	return joist.Find(l.Settled, l.Layout, l.Heights)
}

// TagVentilated marks the measurements of a run with a vent.
const TagVentilated = "ventilated"

// PipeFacts are what rules may ask of a pipe: its nominal size.
func PipeFacts(nominalMM float64) map[string]float64 {
	return map[string]float64{"nominalMM": nominalMM}
}

// UnventedMM is how far along the run, from the trap, no vent serves it: as far as its
// vent, nothing where that is as near to the trap as the pack asks, endless without one.
func UnventedMM(pack rule.Pack, j *job.Job) float64 {
	if j.Waste.Vent == nil {
		return math.Inf(1)
	}
	at := j.Waste.Vent.AtMM
	if near, _, ok := pack.Limit("vent.distance", rule.AtMost, PipeFacts(j.Waste.NominalMM)); ok && at <= near {
		return 0
	}
	return at
}

// PipeTags are the circumstances of the whole run.
func PipeTags(pack rule.Pack, j *job.Job) []string {
	if UnventedMM(pack, j) == 0 {
		return []string{TagVentilated}
	}
	return nil
}

// GradientLimit is the strictest limit of a pack on the fall of the pipe a job
// begins with; ok is false when the pack has none.
func GradientLimit(pack rule.Pack, j job.Job, c rule.Compare) (slope float64, ok bool) {
	slope, _, ok = pack.Limit("pipe.gradient", c, PipeFacts(j.Waste.NominalMM), PipeTags(pack, &j)...)
	return slope, ok
}

// Misshapen is the refusal of a job one of whose shapes could not be worked
// out; nil when all could. Where corners fall differently the shape mostly can.
func Misshapen(sh *plan.Shaper) job.Problems {
	var f *plan.Failure
	if !errors.As(sh.Err(), &f) {
		return nil
	}
	return job.Problems{{What: message.Of("problem.misshapen", message.In("what", f.What))}}
}
