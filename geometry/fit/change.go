package fit

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// tryout tries changes on the floor as it is against one finding.
type tryout struct {
	before geometry.Result
	f      rule.Finding
	// lettingGo tells that a change may move what is held.
	lettingGo bool
	// found are what ends the finding at no more height, most at most; higher those that the whole floor comes up for, and worse
	// those that leave the job worse than it was.
	found, higher, worse []Remedy
	most                 int
	// atAnyHeight tells that a remedy that the floor comes up for is as good as another.
	atAnyHeight bool
}

// take keeps a remedy that is one; full tells that no more are wanted.
func (x *tryout) take(r Remedy, ok bool) (full bool) {
	switch {
	case ok && r.Worse:
		x.worse = append(x.worse, r)
	case ok && !x.atAnyHeight && r.After.Heights.RaiseMM() > x.before.Heights.RaiseMM()+noticedMM:
		x.higher = append(x.higher, r)
	case ok && len(x.found) < x.most:
		x.found = append(x.found, r)
	}
	return len(x.found) >= x.most
}

// noticedMM is by how much a floor comes up before anybody calls it higher. Common practice, no source.
const noticedMM = 0.5

// all are the remedies found, as many as are wanted: those that the floor comes up for after those that leave it as low, and those
// that leave the job worse last.
func (x *tryout) all() []Remedy {
	all := slices.Concat(x.found, x.higher, x.worse)
	return all[:min(len(all), x.most)]
}

// with is the floor with a change made; ok tells that the finding is gone, and nothing new
// stops the job. One that cannot be worked out then has problems and brings nothing; one that
// moves what is held, and may not, is not worked out.
func (x *tryout) with(e edit.Edit, does message.Message) (r Remedy, ok bool) {
	to := e.Apply(x.before.Stated)
	held := x.before.Stated.Moved(&to, job.Held)
	if len(held) > 0 && !x.lettingGo {
		return r, false
	}
	e = edit.LettingGo(e, held...)
	r = Remedy{Edit: e, Does: does, LetsGo: held, After: geometry.EvaluateAfter(x.before, e.Apply(x.before.Stated), x.before.Pack)}
	if len(r.After.Problems) > 0 {
		return r, false
	}
	r.Chance = r.After.Answer(nil).Chance
	r.New, r.Gone = less(r.After.Findings, x.before.Findings), less(x.before.Findings, r.After.Findings)
	ok = r.ends(x.before, x.f)
	r.Worse = ok && worse(x.before, r.After)
	return r, ok
}

// change is one that needs no number.
type change struct {
	edit edit.Edit
	does message.Message
}

// changesOf are changes without a number that may end what is found of a quantity, in the
// order in which they are tried.
func changesOf(j job.Job, quantity string) []change {
	higher := change{edit.Height(job.HeightSafe, 0), message.Of("remedy.safe-height")}
	larger := change{edit.LargerPipe(), message.Of("remedy.larger-pipe")}
	vent := change{edit.VentAtTrap(), message.Of("remedy.vent")}
	straight := change{edit.SimplestRun(), message.Of("remedy.straight")}
	switch quantity {
	case "base.too-low", "base.thin-by", "base.clear-short-by", "base.under-stack-by", "base.over-stacks-by",
		"pipe.into-floor", "trap.into-floor", "exit.too-low", "exit.above-ground":
		if j.Base.Height != job.HeightSafe {
			return []change{higher}
		}
	case "run.length", "run.bends":
		if len(j.Waste.Waypoints) > 0 {
			return []change{straight, larger, vent}
		}
		return []change{larger, vent}
	case "run.turn-off", "run.leg-short":
		if len(j.Waste.Waypoints) > 0 {
			return []change{straight}
		}
	case "step.edge":
		return append(letIn(j), edges(j)...)
	case "step.ramp", "ramp.room-short-by", "room.headroom":
		return letIn(j)
	case "exit.over-stated":
		if mm, ok := j.Waste.Exit.Level.InvertMM(); ok {
			return []change{{edit.ExitLevel(job.Exactly(mm)), message.Of("remedy.exit-exactly", message.At("level", mm))}}
		}
	case "core.axis-height":
		if w := j.Waste.Exit.Wall; w < len(j.Room.Walls) && j.Room.Walls[w].OutsideGroundMM != nil {
			return []change{{edit.DrillFromOutside(), message.Of("remedy.drill-outside")}}
		}
	case "trap.seal-left", "pipe.flow-share", "pipe.smooth-share":
		return []change{larger, vent}
	case "trap.size":
		return []change{larger}
	case "survey.open", "survey.out-of-square", "survey.readings-apart":
		return surveyed(j, quantity)
	}
	return nil
}

// idleOpenings is leaving whole the joists that are cut out for nothing, all of them, where that is what is found.
func idleOpenings(r geometry.Result, quantity string) []change {
	const idle = "joist.trimmed-idle"
	if quantity != idle {
		return nil
	}
	var of []rule.Subject
	for _, f := range r.Findings {
		if f.Rule.Quantity == idle {
			of = append(of, f.Measurement.Subject)
		}
	}
	return []change{{edit.CloseOpenings(of), message.Of("remedy.close-openings")}}
}

// letIn is letting a base that stands on joists in between them.
func letIn(j job.Job) []change {
	if j.Floor.Kind != job.FloorTimber || j.Base.Support == job.BetweenJoists {
		return nil
	}
	return []change{{edit.Support(job.BetweenJoists), message.Of("remedy.let-in")}}
}

// edges are the other ways for the open edge to meet the room in which it is no step.
func edges(j job.Job) (out []change) {
	for _, to := range []struct {
		kind job.EdgeKind
		does message.ID
	}{{job.EdgeRamp, "remedy.edge-ramp"}, {job.EdgeRaiseRoom, "remedy.edge-raise-room"}} {
		if j.Room.Edge != to.kind {
			out = append(out, change{edit.Edge(to.kind), message.Of(to.does)})
		}
	}
	return out
}

// surveyed are changes that end what does not come out of what was measured of the room or read of its floor.
func surveyed(j job.Job, quantity string) (out []change) {
	cures := func(all []edit.Edit) {
		for _, e := range all {
			out = append(out, change{e, e.What})
		}
	}
	switch taken, ok := j.Room.Taken(); {
	case quantity == "survey.readings-apart":
		for _, d := range j.Laser.Doubts() {
			cures(edit.DoubtCures(d))
		}
	case ok && quantity == "survey.open" && taken.Fit.Blunder != nil:
		cures(edit.BlunderCures(j, *taken.Fit.Blunder))
	case ok && quantity == "survey.out-of-square":
		out = append(out, change{edit.DrawSquare(), message.Of("remedy.draw-square")})
	}
	return out
}

// Adjust is the least change of a number, or another of the floor's ways to be built, that
// a finding goes away by; ok is false where none of those tried does.
func Adjust(before geometry.Result, f rule.Finding) (r Remedy, ok bool) {
	x := tryout{before: before, f: f, most: 1}
	x.adjust()
	if all := x.all(); len(all) > 0 {
		return all[0], true
	}
	return Remedy{}, false
}

// adjust finds numbers, and other ways for the floor to be built, that end the finding.
func (x *tryout) adjust() {
	before, f := x.before, x.f
	if len(before.Problems) > 0 || f.Rule.Compare == rule.Present {
		return
	}
	for _, k := range knobsOf(&before, f) {
		if x.take(x.byKnob(k)) {
			return
		}
	}
	for _, c := range append(changesOf(before.Stated, f.Rule.Quantity), idleOpenings(before, f.Rule.Quantity)...) {
		if x.take(x.with(c.edit, c.does)) {
			return
		}
	}
}
