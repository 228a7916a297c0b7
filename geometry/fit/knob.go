package fit

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/tolerance"
	"underfall/geometry/unit"
)

// knob is a number of a job that may be turned to end a finding.
type knob struct {
	kind            unit.Kind
	least, greatest float64
	step            float64 // what it is turned by
	// spread is how far what is built may be off it, held by 95 of 100; 0 where nothing is.
	spread float64
	// usual are the only values it is turned to, where there are some; first the first tried.
	usual []float64
	// steps are what the trade sets it to, where there are some, and stepped tells that there are.
	steps   rule.StepsOf
	stepped bool
	at      func(*job.Job) float64
	turn    func(value float64) edit.Edit
	// says is what turning it to a value does.
	says func(value float64) message.Message
}

// setting says by an id that a number is set to a value.
func setting(id message.ID, kind unit.Kind) func(value float64) message.Message {
	return func(value float64) message.Message {
		return message.Of(id, message.Arg{Name: "value", Value: unit.Value(value, kind)})
	}
}

// How much more than it lacks the way out is put up at most, and in what steps: a base that comes up by the next stack of boards has
// the pipe fall more, and so leave lower outside. Common practice, no source.
const moreUpMM, mostMoreUpMM = 5, 20

// wayOut is the knob of how low the waste may leave, which the floor then comes up for, by so much. False where it does
// not go out through a wall, or at a level that is stated.
func wayOut(before *geometry.Result, lackMM float64) (k knob, ok bool) {
	run := &before.Heights.Run
	_, exact := before.Stated.Waste.Exit.Level.ExactlyMM()
	if before.Stated.Waste.Exit.Kind != job.ExitWall || exact || len(run.Pieces) == 0 || !(lackMM > 0) {
		return k, false
	}
	now := run.InvertAt(run.ExitAtMM)
	steps, _ := before.Pack.Steps.Of("waste.exit.level", before.Stated.Units)
	var levels []float64
	for more := 0.0; more <= mostMoreUpMM; more += moreUpMM {
		levels = append(levels, steps.From(now+lackMM+more, true, 1)...)
	}
	return knob{
		usual: levels,
		at:    func(*job.Job) float64 { return now },
		turn:  func(v float64) edit.Edit { return edit.ExitLevel(job.Exactly(v)) },
		says:  func(v float64) message.Message { return message.Of("remedy.way-out-up", message.At("level", v)) },
	}, true
}

// overDampMM is how much higher a hole lies that clears the damp-proof course of its wall to the upper side, by as much as a finding
// asks for: one whose middle lies under it has that to come up besides, twice as it is measured from the course.
func overDampMM(before *geometry.Result, f rule.Finding) float64 {
	lack := f.Nearest() - f.Measurement.Value
	core, ok := before.Heights.Core(&before.Settled, &before.Layout)
	if !ok {
		return 0
	}
	if course := before.Settled.Room.Walls[core.Wall-1].DampCourseMM; course != nil && core.CentreMM < *course {
		lack += 2 * (*course - core.CentreMM)
	}
	return lack
}

// parameter is the knob of a single number, which says by an id what it does; ok is false where the job does
// not use it.
func parameter(before *geometry.Result, key string, does message.ID) (k knob, ok bool) {
	j := before.Stated
	p, ok := job.Find(key)
	if !ok || !p.Uses(j) {
		return k, false
	}
	k = knob{
		kind: p.Kind, least: p.Least, greatest: p.Greatest, step: p.Step,
		at:   func(j *job.Job) float64 { return p.Get(*j) },
		turn: func(v float64) edit.Edit { return edit.Number(p, v) },
		says: setting(does, p.Kind),
	}
	k.steps, k.stepped = before.Pack.Steps.Of(key, j.Units)
	return k, true
}

// listed is the knob of a length of the only thing of a list; from is its value where the
// thing is not there.
func listed(before *geometry.Result, key, entry string, does message.ID, from func(*job.Job) float64) (k knob, ok bool) {
	for _, l := range job.Lists() {
		if l.Key != key {
			continue
		}
		for _, e := range l.Entries() {
			if e.Key != entry || e.Number == nil {
				continue
			}
			n := e.Number
			k = knob{
				kind: n.Kind, least: n.Least, greatest: n.Greatest, step: n.Step, at: from, says: setting(does, n.Kind),
				turn: func(v float64) edit.Edit {
					set := edit.ItemNumber(l, 0, e, &v)
					return edit.Of(set.What, func(j *job.Job) {
						if l.Count(j) == 0 {
							l.Add(j)
						}
						*j = set.Apply(*j)
					})
				},
			}
			k.steps, k.stepped = before.Pack.Steps.Of(key+"."+entry, before.Stated.Units)
			return k, true
		}
	}
	return k, false
}

// knobsOf are the numbers that may end a finding, in the order in which they
// are tried: what is cheap to change first.
func knobsOf(before *geometry.Result, f rule.Finding) []knob {
	var out []knob
	j := before.Stated
	of := func(key string, does message.ID) {
		if k, ok := parameter(before, key, does); ok {
			out = append(out, k)
		}
	}
	in := func(key, entry string, does message.ID, from func(*job.Job) float64) {
		if k, ok := listed(before, key, entry, does, from); ok {
			out = append(out, k)
		}
	}
	switch f.Rule.Quantity {
	case "pipe.gradient", "pipe.flow-share", "pipe.smooth-share", "pipe.velocity", "run.drop":
		of("waste.gradient", "remedy.pipe-fall")
		spread(out, j.Tolerances.PipeMM, math.Max(before.Heights.Run.ExitAtMM, tolerance.PipeOverMM))
	case "floor.fall", "floor.crease-fall", "floor.least-fall":
		of("former.slope", "remedy.floor-fall")
		if _, rise := before.Layout.HighEnd(); j.Former.Slope > 0 && rise > 0 {
			spread(out, j.Tolerances.FallMM, rise/j.Former.Slope)
		}
	case "drain.strip":
		of("drain.wallClearanceMM", "remedy.drain-off-wall")
	case "shower.least-side", "shower.longest-side", "shower.area", "shower.way-in":
		of("shower.depthMM", "remedy.shower-depth")
		of("shower.widthMM", "remedy.shower-width")
	case "head.to-open":
		of("shower.depthMM", "remedy.shower-depth")
	case "core.over-slab", "core.axis-height":
		if k, ok := wayOut(before, f.Nearest()-f.Measurement.Value); ok {
			out = append(out, k)
		}
	case "core.damp-gap":
		if k, ok := wayOut(before, overDampMM(before, f)); ok {
			out = append(out, k)
		}
	case "exit.off-corner", "exit.in-stud", "core.opening-gap", "exit.in-joist":
		of("waste.exit.offsetMM", "remedy.way-out-along")
	case "ramp.short-by":
		of("room.rampRunMM", "remedy.ramp-run")
	case "base.thin-by", "base.too-low", "base.clear-short-by":
		of(job.BaseHeightKey, "remedy.base-height")
	case "tanking.wall-to", "kerb.under-tanking", "tanking.over-head":
		in("layers.tanking", "wallToMM", "remedy.tank-walls", func(j *job.Job) float64 { return j.Layers.TankedToMM() })
	case "tanking.beyond", "tanking.from-head":
		in("layers.tanking", "beyondMM", "remedy.tank-beyond", func(j *job.Job) float64 { mm, _ := j.TankedBeyondMM(); return mm })
	case "tanking.upturn":
		in("layers.tanking", "upturnMM", "remedy.tank-upturn", func(j *job.Job) float64 { mm, _ := j.UpturnMM(); return mm })
	case "joint.perimeter":
		in("layers.joints", "perimeterMM", "remedy.wall-gap", func(j *job.Job) float64 {
			if j.Layers.Joints == nil {
				return 0
			}
			return j.Layers.Joints.PerimeterMM
		})
	case "deck.edge-loose", "board.span":
		if k, ok := parameter(before, "base.nogginSpacingMM", "remedy.noggins"); ok {
			k.usual = slices.Clone(k.steps.Values)
			slices.Reverse(k.usual) // the widest is the least to put in
			out = append(out, k)
		}
	}
	return out
}

// spread gives knobs of falls how far they may be off: so many millimetres over a length.
func spread(knobs []knob, mm, overMM float64) {
	for i := range knobs {
		knobs[i].spread = mm / overMM
	}
}

// safely is a value moved on by what 95 of 100 builds stay within, to the next half
// millimetre on a metre.
func (k knob) safely(at, way float64) float64 {
	const sigmas, halfMM = 1.645, 0.0005
	margin := sigmas * k.spread / tolerance.SigmasInTolerance
	if way > 0 {
		return math.Ceil((at+margin)/halfMM-1e-9) * halfMM
	}
	return math.Floor((at-margin)/halfMM+1e-9) * halfMM
}

// rounded is a value as finely as it is set: a fall as finely as limits of codes are
// written, which are no round numbers of its step.
func (k knob) rounded(at float64) float64 {
	const slopesInOne = 1e9
	if k.kind == unit.Slope {
		return math.Round(at*slopesInOne) / slopesInOne
	}
	return math.Round(at/k.step) * k.step
}

// triesOfKnob is how many values of a number are tried at most, the first to see which way
// it works.
const triesOfKnob = 5

// byKnob turns a number as little as ends a finding, one way or the other; one with usual
// values to the first of those that does.
func (x *tryout) byKnob(k knob) (Remedy, bool) {
	now := k.at(&x.before.Stated)
	for _, at := range k.usual {
		if r, ok := x.with(k.turn(at), k.says(at)); ok && at != now {
			return r, true
		}
	}
	if len(k.usual) > 0 {
		return Remedy{}, false
	}
	for _, way := range [2]float64{1, -1} {
		if t, ok := x.turned(k, now, way); ok {
			return x.onStep(k, t, way), true
		}
	}
	return Remedy{}, false
}

// turn is a number turned to a value that ends a finding.
type turn struct {
	Remedy
	at float64
	// limit is where the number just ends the finding, if that is known.
	limit float64
	known bool
}

// turned turns a number one way: one step to see how it works, then as far as that leads to
// the limit, and on by steps while that is not enough.
func (x *tryout) turned(k knob, now, way float64) (turn, bool) {
	step := way * k.step
	at := math.Round(now/k.step)*k.step + step
	var limit float64
	var known bool
	to := func(at float64, r Remedy) (turn, bool) {
		return turn{r.keeping(k, (at-limit)*way, known), at, limit, known}, true
	}
	for try := range triesOfKnob {
		if at < k.least || at > k.greatest || math.IsNaN(at) {
			break
		}
		r, ok := x.with(k.turn(at), k.says(at))
		if try == 0 {
			limit, known = x.led(k, r, now, at, step)
		}
		if ok {
			return to(at, r)
		}
		if try > 0 {
			at += step
			continue
		}
		if at = limit; !known {
			break
		}
		if safe := k.rounded(k.safely(at, way)); k.spread > 0 && safe >= k.least && safe <= k.greatest {
			if r, ok := x.with(k.turn(safe), k.says(safe)); ok {
				return to(safe, r)
			}
		}
	}
	return turn{}, false
}

// stepsTried is how many of the values that the trade sets a number to are tried at most, from the least
// that ends a finding on.
const stepsTried = 3

// onStep is a number turned on, the same way, to the next value that the trade sets it to: to the first that
// ends the finding and leaves the job no worse, where there is one; as it is turned otherwise.
func (x *tryout) onStep(k knob, t turn, way float64) Remedy {
	if !k.stepped {
		return t.Remedy
	}
	best, found := t.Remedy, false
	for _, at := range k.steps.From(t.at, way > 0, stepsTried) {
		if at < k.least || at > k.greatest {
			break
		}
		r, ok := x.with(k.turn(at), k.says(at))
		if !ok {
			continue
		}
		r = r.keeping(k, (at-t.limit)*way, t.known)
		if !r.Worse {
			return r
		}
		if t.Worse && !found {
			best, found = r, true
		}
	}
	return best
}

// keeping is a remedy whose chance is no greater than that of a number set so far within its limit to
// stay within it once built, where that is known.
func (r Remedy) keeping(k knob, within float64, known bool) Remedy {
	if known && k.spread > 0 {
		sigma := k.spread / tolerance.SigmasInTolerance
		r.Chance = min(r.Chance, math.Erfc(-within/sigma/math.Sqrt2)/2)
	}
	return r
}

// led is how far a number leads to the limit, by what the first step from now came to; ok is
// false where it leads away, or nowhere.
func (x *tryout) led(k knob, r Remedy, now, at, step float64) (to float64, ok bool) {
	limit, value := x.f.Nearest(), x.f.Measurement.Value
	came, there := r.After.MeasurementOf(x.f.Measurement.Quantity, x.f.Measurement.Subject)
	by := came.Value - value
	if !there || by == 0 || math.IsNaN(by) || math.IsInf(by, 0) || (limit-value)/by < 0 {
		return 0, false
	}
	steps := (limit - value) / by * (at - now) / step
	if k.kind != unit.Slope {
		steps = math.Ceil(steps - 1e-9)
	}
	return k.rounded(now + steps*step), true
}
