package stage

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/tolerance"
)

// InHundred is a share of builds as so many in a hundred, rounded down: none is told to
// be safer than it is.
func InHundred(share float64) int { return int(math.Floor(100*share + plan.HairMM)) }

// sum is lengths one after the other: 60 + 10.
func sum(lengthsMM []float64) message.Message {
	out := message.Of("heights.length", message.Layer("length", lengthsMM[len(lengthsMM)-1]))
	for i := len(lengthsMM) - 2; i >= 0; i-- {
		out = message.Of("heights.plus", message.Layer("first", lengthsMM[i]), message.In("rest", out))
	}
	return out
}

// Made says how high a base is over the floor, what it is made of, and what it stands on
// that is not the structural floor.
func (l *Levelled) Made(r Raise) message.Message {
	made := l.itself(r)
	if !r.Given {
		return made
	}
	down := l.Settled.SetDown()
	if under := l.Settled.OnStructureMM() + down; under > 0 {
		made = message.Of("heights.on-layers", message.In("made", made), message.Layer("under", under))
	}
	if down > 0 {
		made = message.Of("heights.from-set-down", message.In("made", made), message.Layer("down", down))
	}
	return made
}

// itself says what a base is made of.
func (l *Levelled) itself(r Raise) message.Message {
	raise := l.raised("raise", r.TopMM)
	letIn := l.Settled.Base.Support == job.BetweenJoists
	boards := r.Stack.BoardsMM()
	switch {
	case !r.Given:
		return message.Of("heights.not-given", raise)
	case letIn && math.Abs(r.TopMM-l.Heights.FootMM(&l.Settled)) < plan.HairMM:
		return message.Of("heights.on-joists", raise)
	case len(boards) == 0:
		return message.Of("heights.in-one-piece", raise)
	}
	var beds []float64
	if !letIn && l.Settled.Base.AdhesiveMM > 0 {
		beds = append(beds, l.Settled.Base.AdhesiveMM)
	}
	for range len(boards) - 1 {
		beds = append(beds, r.Stack.BetweenMM)
	}
	if len(beds) == 0 {
		return message.Of("heights.as-boards", raise, message.In("boards", sum(boards)))
	}
	return message.Of("heights.as-boards-with-beds", raise, message.In("boards", sum(boards)), message.In("beds", sum(beds)))
}

// raised is how far a base with its top at a level comes over the structural floor, with its sign where it stays under that.
func (l *Levelled) raised(name string, topMM float64) message.Arg {
	rise := l.Heights.RiseTo(topMM)
	rise.Signed = topMM < l.Heights.FloorHighMM
	return message.Arg{Name: name, Value: rise}
}

// bareLine says the least height, as its raise over the highest spot of the structural floor, and what sets it.
func (l *Levelled) bareLine(r Raises) message.Message {
	return message.Of("heights.bare", l.raised("bare", r.Bare.TopMM),
		message.In("by", l.Heights.Governing().Reason().Message()))
}

// buildableLine says the height that leaves room under trap and pipe, and what sets that where it is not what sets the bare one.
func (l *Levelled) buildableLine(r Raises) message.Message {
	made, by := message.In("made", l.Made(r.Buildable)), message.In("by", r.SetBy.Reason().Message())
	switch {
	case r.SetBy.ClearMM > 0:
		return message.Of("heights.buildable-clear", made, by, message.Layer("clear", r.SetBy.ClearMM))
	case l.Heights.Governing().Reason() != r.SetBy.Reason():
		return message.Of("heights.buildable-by", made, by)
	}
	return message.Of("heights.buildable", made)
}

// fallsShort tells that a height at which trap and pipe fit as far as straight lines tell does not come right so often as
// counted: something else goes wrong besides.
func (r Raise) fallsShort() bool { return r.Counted && r.Fits < tolerance.SafeShare }

// safeLine says the height that comes right in nearly all builds; one that does not as counted is not called safe.
func (l *Levelled) safeLine(r Raises) message.Message {
	share := message.In("share", r.Safe.share())
	switch {
	case !r.Safe.Given:
		return message.Of("heights.safe-none")
	case r.Safe.fallsShort() && r.Safe.TopMM == r.Buildable.TopMM:
		return message.Of("heights.room-as-it-is", share)
	case r.Safe.fallsShort():
		return message.Of("heights.room", message.In("made", l.Made(r.Safe)), share)
	case r.Safe.TopMM == r.Buildable.TopMM:
		return message.Of("heights.safe-as-it-is", share)
	}
	return message.Of("heights.safe", message.In("made", l.Made(r.Safe)), share)
}

// HeightLines say what heights the base may have, a line each: the three of them, the one
// it has where that is not the safe one, and the bed under it where that is not even.
func (l *Levelled) HeightLines(r Raises) []message.Message {
	out := []message.Message{l.bareLine(r), l.buildableLine(r), l.safeLine(r)}
	if math.Abs(r.Now.TopMM-r.Safe.TopMM) > plan.HairMM {
		out = append(out, l.nowLine(r))
	}
	const evenMM = 0.5 // as finely as layers are told
	if bed, ok := l.Heights.Bed(&l.Settled, &l.Layout); ok && bed.Greatest.ThicknessMM-bed.Least.ThicknessMM >= evenMM {
		const mm3InLitre = 1e6
		out = append(out, message.Of("heights.bed", message.Layer("least", bed.Least.ThicknessMM), message.Layer("greatest", bed.Greatest.ThicknessMM),
			message.Arg{Name: "volume", Value: message.Volume{Litres: bed.VolumeMM3 / mm3InLitre}}))
	}
	return out
}

// share says in how many builds a height does: about, where that is no count.
func (r Raise) share() message.Message {
	n := message.No("n", InHundred(r.Fits))
	if r.Counted {
		return message.Of("heights.comes-right", n)
	}
	return message.Of("heights.about", n)
}

// nowLine says the height the base has.
func (l *Levelled) nowLine(r Raises) message.Message {
	return message.Of("heights.now", message.In("made", l.Made(r.Now)), message.In("share", r.Now.share()))
}

// Sampled says that the height is safe after all, or is not, by the share of builds that come
// right as counted: nothing where that bears out what was estimated, or the safe height itself is told not to be.
func (r Raises) Sampled(counted float64) message.Message {
	estimated, safe := r.Now.Fits >= tolerance.SafeShare, counted >= tolerance.SafeShare
	switch {
	case estimated && !safe && math.Abs(r.Now.TopMM-r.Safe.TopMM) > plan.HairMM:
		return message.Of("heights.not-safe-after-all")
	case !estimated && safe:
		return message.Of("heights.safe-after-all")
	}
	return message.Message{}
}
