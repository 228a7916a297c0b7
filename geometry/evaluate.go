// Package geometry evaluates a job: from what was stated to parts, levels, the
// waste run and findings. Evaluate is pure: the same job and pack give the
// same result, nothing is read or written, and calls may run in parallel.
//
// A job goes through four stages, each a type of its own: stage.Placed,
// stage.Levelled, Built and Judged.
package geometry

import (
	"context"
	"fmt"
	"reflect"
	"slices"

	"underfall/geometry/assembly"
	"underfall/geometry/boarding"
	"underfall/geometry/buildup"
	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/parallel"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// Built is a levelled job as it stands when it is done: layers, cuts and bodies.
type Built struct {
	stage.Levelled
	Floor    buildup.Floor
	Joists   []joist.Crossing
	Schedule []buildup.Row
	Assembly assembly.Assembly
	// Raises are the heights that the base may have.
	Raises stage.Raises
	// Regrids names the shapes that only came out right on another grid than the
	// usual one; corners of coarse ones may lie that much off.
	Regrids []plan.Regrid
}

// Judged is what is measured of a built job, and what the rules say of it.
type Judged struct {
	Water    measure.Water
	Sealing  measure.Sealing
	Measured []rule.Measurement
	Findings []rule.Finding
	// Cautions are the standing ones of the work, in its order.
	Cautions []rule.Finding
}

// bodiesOf tells whether a built job has the bodies of a levelled one: its plan, its
// levels and all else that they are made of.
func (b *Built) bodiesOf(l stage.Levelled) bool {
	return len(b.Assembly.Parts) > 0 && assembly.Same(b.Settled, l.Settled) &&
		b.Heights.Same(&l.Heights) && reflect.DeepEqual(b.Layout, l.Layout)
}

// buildAndJudge takes a levelled job through the last two stages. What is measured
// needs layers and cuts and no bodies, so both go side by side. Where the shaper
// fails parts are missing and what comes out must not be used. The error is a fault
// of the program.
func buildAndJudge(before Built, l stage.Levelled, sh *plan.Shaper) (b Built, j Judged, err error) {
	b = Built{Levelled: l, Floor: l.BuildUp(), Joists: l.Crossings()}
	tasks := []func() error{
		func() (err error) {
			if before.bodiesOf(l) {
				b.Assembly, b.Regrids = before.Assembly, before.Regrids
				return nil
			}
			b.Assembly, err = assembly.Assemble(l.Settled, l.Layout, l.Heights, b.Floor, b.Joists, sh)
			b.Regrids = sh.Regrids()
			return err
		},
		func() error {
			b.Raises = l.Raises()
			return nil
		},
		func() error {
			b.Schedule = chance.Spread(l, b.Floor.Schedule())
			return nil
		},
		func() error {
			j.Water, j.Sealing = measure.WaterOf(l), measure.SealingOf(l)
			j.Measured = measure.All(l, b.Floor, b.Joists, j.Water, j.Sealing)
			j.Findings, j.Cautions = l.Pack.Judge(j.Measured), l.Pack.Cautions(j.Measured)
			return nil
		},
	}
	err = parallel.Each(context.Background(), len(tasks), func(i int) error { return tasks[i]() })
	return b, j, err
}

// Result is everything worked out from one job.
type Result struct {
	// Stated is the job as it was given. Whatever changes the job starts from it.
	Stated job.Job
	// Problems says why the job could not be evaluated; everything else but
	// the jobs and the pack is then empty.
	Problems job.Problems
	Built
	Judged
	// placed is the first stage, for the next result to begin with.
	placed stage.Placed
}

// Evaluate works out a job under a region's rules. A job that means nothing
// gives a result with Problems; a job that does not comply gives Findings.
func Evaluate(j job.Job, pack rule.Pack) Result { return evaluate(Result{}, j, pack, &plan.Shaper{}) }

// EvaluateAfter is Evaluate for a job that follows on one whose result is there:
// what the change does not touch is taken over from it and not worked out again.
func EvaluateAfter(before Result, j job.Job, pack rule.Pack) Result {
	return evaluate(before, j, pack, &plan.Shaper{})
}

func evaluate(before Result, j job.Job, pack rule.Pack, sh *plan.Shaper) (r Result) {
	refused := func(p job.Problems) Result {
		return Result{Stated: j, Problems: p, Built: Built{Levelled: stage.Levelled{Settled: j, Pack: pack}}}
	}
	// A fault in the program must not take the user's work with it.
	defer func() {
		if fault := recover(); fault != nil {
			r = refused(faulty(fault))
		}
	}()
	if p := j.Validate(); len(p) > 0 {
		return refused(p)
	}
	placed := stage.PlaceAfter(before.placed, j, pack, sh)
	if p := stage.Misshapen(sh); p != nil {
		return refused(p)
	}
	built, judged, err := buildAndJudge(before.Built, placed.Level(), sh)
	if err != nil {
		return refused(faulty(err))
	}
	if p := stage.Misshapen(sh); p != nil {
		return refused(p)
	}
	return Result{Stated: j, Built: built, Judged: judged, placed: placed}
}

// faulty is the refusal of a job that the program breaks on.
func faulty(fault any) job.Problems {
	if f, ok := fault.(*parallel.Fault); ok {
		fault = f.What
	}
	return job.Problems{{What: message.Of("problem.faulty", message.Name("fault", fmt.Sprint(fault)))}}
}

// Cutting is what is cut out of joists between trimmers, and put in for it.
func (r Result) Cutting() joist.Cutting { return joist.CuttingOf(&r.Settled, &r.Layout) }

// Boarding is how the boards are laid and sawn; the error tells a shape that failed.
func (r Result) Boarding() (boarding.Plan, error) {
	return boarding.Of(&r.Settled, &r.Layout, &r.Heights, &r.Assembly)
}

// MeasurementOf is what was measured of a thing; ok is false where that was not.
func (r Result) MeasurementOf(quantity string, of rule.Subject) (m rule.Measurement, ok bool) {
	i := slices.IndexFunc(r.Measured, func(m rule.Measurement) bool { return m.Quantity == quantity && m.Subject == of })
	if i < 0 {
		return m, false
	}
	return r.Measured[i], true
}

// Stops tells whether any finding stops the job.
func (r Result) Stops() bool {
	return len(r.Problems) > 0 || len(r.Findings) > 0 && r.Findings[0].Rule.Severity == rule.Stop
}
