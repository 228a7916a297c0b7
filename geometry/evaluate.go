// Package geometry evaluates a job: from what was stated to parts, levels, the
// waste run and findings. Evaluate is pure: the same job and pack give the
// same result, nothing is read or written, and calls may run in parallel.
package geometry

import (
	"errors"
	"fmt"

	"underfall/geometry/build"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/waste"
)

// Result is everything worked out from one job.
type Result struct {
	// Stated is the job as it was given. Whatever changes the job starts from it.
	Stated job.Job
	// Settled is the job with what has been measured as built in the place of
	// what was planned. All else in the result is worked out from it; nothing of
	// it may be stated again.
	Settled  job.Job
	Pack     rule.Pack
	Layout   layout.Layout
	Heights  level.Heights
	Joists   []joist.Crossing
	Assembly build.Assembly
	Floor    buildup.Floor
	Schedule []buildup.Row
	// DoNow follows from what has been measured as built; Contradictions are
	// measured levels that cannot be.
	DoNow          []Instruction
	Contradictions []Contradiction
	Water          Water
	Measured       []rule.Measurement
	Findings       []rule.Finding
	// Regrids names the shapes that only came out right on another grid than the
	// usual one; corners of coarse ones may lie that much off.
	Regrids []plan.Regrid
	// Problems says why the job could not be evaluated; everything else but
	// the jobs and the pack is then empty.
	Problems job.Problems
}

// Evaluate works out a job under a region's rules. A job that means nothing
// gives a result with Problems; a job that does not comply gives Findings.
func Evaluate(j job.Job, pack rule.Pack) Result { return evaluate(j, pack, &plan.Shaper{}) }

func evaluate(j job.Job, pack rule.Pack, sh *plan.Shaper) (r Result) {
	refused := func(p job.Problems) Result { return Result{Stated: j, Settled: j, Pack: pack, Problems: p} }
	// A fault in the program must not take the user's work with it.
	defer func() {
		if fault := recover(); fault != nil {
			r = refused(job.Problems{{Path: "job", Reason: fmt.Sprintf("cannot be worked out as it stands; change the last value a little (%v)", fault)}})
		}
	}()
	if p := j.Validate(); len(p) > 0 {
		return refused(p)
	}
	l := layout.Of(j, sh)
	if problems := misshapen(sh); problems != nil {
		return refused(problems)
	}
	r = settled(j, l, waste.Lay(j, l), pack)
	r.Floor = buildup.Of(r.Settled, r.Layout, r.Heights)
	r.Joists = joist.Find(r.Settled, r.Layout, r.Heights)
	r.Assembly = build.Assemble(r.Settled, r.Layout, r.Heights, r.Floor, r.Joists, sh)
	if problems := misshapen(sh); problems != nil {
		return refused(problems)
	}
	r.Regrids = sh.Regrids()
	r.Schedule = r.Floor.Schedule()
	r.Schedule = r.spreadRows()
	r.Water = water(r)
	r.Measured = measure(r)
	r.Findings = pack.Judge(r.Measured)
	return r
}

// settled works out the heights of a job whose run is laid, with what has been
// measured as built in place.
func settled(j job.Job, l layout.Layout, run waste.Run, pack rule.Pack) Result {
	r := Result{Stated: j, Settled: j, Pack: pack, Layout: l}
	least, _, _ := pack.Limit("pipe.gradient", rule.AtLeast, pipeFacts(j.Waste.NominalMM), pipeTags(j)...)
	r.Heights = level.Solve(j, l, run, least)
	if j.AsBuilt.Any() {
		b := withMeasured(j, l, r.Heights)
		r.Layout = l.WithSlope(j.Former.Slope, b.job.Former.Slope)
		r.Settled, r.DoNow, r.Contradictions = b.job, b.instructions, b.contradictions
		r.Heights = level.Solve(b.job, r.Layout, run, least)
	}
	return r
}

// misshapen is the refusal of a job one of whose shapes could not be worked
// out; nil when all could. Where corners fall differently the shape mostly can.
func misshapen(sh *plan.Shaper) job.Problems {
	var f *plan.Failure
	if !errors.As(sh.Err(), &f) {
		return nil
	}
	return job.Problems{{Path: "job", Reason: "cannot be worked out: " + f.What + " cannot be cut to shape. Move what meets there by a few millimetres: the shower, the drain, the waste or a doorway"}}
}

// Stops tells whether any finding stops the job.
func (r Result) Stops() bool {
	return len(r.Problems) > 0 || len(r.Findings) > 0 && r.Findings[0].Rule.Severity == rule.Stop
}

func pipeFacts(nominalMM float64) map[string]float64 {
	return map[string]float64{"nominalMM": nominalMM}
}

// tagVentilated marks a run with a vent.
const tagVentilated = "ventilated"

// pipeTags are the circumstances of the whole run.
func pipeTags(j job.Job) []string {
	var tags []string
	if j.Waste.Ventilated {
		tags = append(tags, tagVentilated)
	}
	return tags
}
