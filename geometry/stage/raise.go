package stage

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/tolerance"
)

// Raise is a height that the base may have.
type Raise struct {
	TopMM float64     // level of the base's top
	Stack level.Stack // what it is made of
	// Given tells that the boards at hand give it; where none do, TopMM is what is
	// needed.
	Given bool
	// Fits is the share of builds in which everything fits, as far as straight lines
	// tell; of one that is Counted the share that comes right, as builds were sampled.
	Fits    float64
	Counted bool
}

// Raises are the heights a base may have, and why.
type Raises struct {
	// Bare is where everything just fits; Buildable the next stack over what leaves
	// room under trap and pipe; Safe the next at which 95 of 100 builds fit. Now is
	// the height it has.
	Bare, Buildable, Safe, Now Raise
	// SetBy is what the buildable height follows from.
	SetBy level.Constraint
}

// As are the heights with the share of builds that come right, as counted, at all that are as high
// as the base is.
func (r Raises) As(counted float64) Raises {
	for _, raise := range [...]*Raise{&r.Bare, &r.Buildable, &r.Safe, &r.Now} {
		if math.Abs(raise.TopMM-r.Now.TopMM) <= plan.HairMM {
			raise.Fits, raise.Counted = counted, true
		}
	}
	return r
}

// Shortage estimates by how much the base lies too low for what must fit, in builds that
// come out as they may.
func (l *Levelled) Shortage() tolerance.Shortage {
	return tolerance.Estimate(&l.Settled, &l.Layout, &l.Heights, func(k *job.Job, layout *layout.Layout, h *level.Heights) {
		h.Solve(k, layout, &l.run, l.leastGradient, math.Inf(-1))
	})
}

// safeTopMM is the level of the base's top at which everything fits in 95 of 100 builds.
func (l *Levelled) safeTopMM(short tolerance.Shortage) float64 {
	return l.Heights.BaseTopMM + short.HigherMM(tolerance.SafeShare)
}

// Raises works out the heights that the base may have.
func (l *Levelled) Raises() Raises {
	h, shortage := &l.Heights, l.Shortage()
	foot := h.FootMM(&l.Settled)
	fits := func(top float64) float64 { return shortage.Fits(top - h.BaseTopMM) }
	next := func(top float64) Raise {
		height, stack, ok := level.NextHeight(&l.Settled.Base, top-foot)
		if ok {
			top = foot + height
		}
		return Raise{TopMM: top, Stack: stack, Given: ok, Fits: fits(top)}
	}
	var r Raises
	bare := h.LeastBaseTopMM()
	stack, given := level.StackOf(&l.Settled.Base, bare-foot)
	r.Bare = Raise{TopMM: bare, Stack: stack, Given: given, Fits: fits(bare)}
	var clear float64
	r.SetBy, clear = h.ClearTop()
	r.Buildable = next(clear)
	r.Safe = next(math.Max(clear, l.safeTopMM(shortage)))
	_, given = level.StackOf(&l.Settled.Base, h.BaseTopMM-foot)
	r.Now = Raise{TopMM: h.BaseTopMM, Stack: h.Stack, Given: given || len(l.Settled.Base.BoardsMM) == 0, Fits: fits(h.BaseTopMM)}
	return r
}
