package search

import (
	"context"
	"math"
	"slices"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// Flat is what holds a run flatter than is usual.
type Flat struct {
	Fall     float64    // that is usual
	HigherMM float64    // by how much higher the base comes with that
	Stops    *rule.Rule // what stops the run with that; nil where nothing does
}

// fineFall is how finely a pipe's fall is set: half a millimetre on a metre. Common practice, no source.
const fineFall = 0.0005

// steepen lets the runs found that fall less than usual fall as steeply as costs nothing in any other way, and finds out what it
// would take to let them fall as usual.
func (s *Outcome) steepen(ctx context.Context, j job.Job, pack rule.Pack) error {
	usual := slices.Max(fallsToTry(j, pack))
	for i := range s.Found {
		if ctx.Err() != nil {
			return nil
		}
		a := &s.Found[i]
		if a.Job.Waste.Gradient >= usual-sameFall {
			continue
		}
		laid, err := place(a.Job, pack)
		if err != nil {
			return err
		}
		var m measure.Measurer
		s.steepest(a, &m, laid, usual)
		a.Flat = flatOf(a, &m, laid.WithGradient(usual), usual)
	}
	found := s.Found
	s.Found = nil
	for _, a := range found { // one that is as good as another now goes
		s.keep(a)
	}
	inOrder(s.Found, usual)
	return nil
}

// steepest halves what lies between a run's fall and the usual one, and takes what is nowhere worse than the run.
func (s *Outcome) steepest(a *Alternative, m *measure.Measurer, laid stage.Placed, usual float64) {
	t := Outcome{stated: s.stated, thorough: true}
	from := a.Job.Waste.Gradient
	least, most := 0, int(math.Ceil((usual-from)/fineFall)) // what does, and what does not, in steps over where it begins
	for most-least > 1 {
		mid := (least + most) / 2
		_, b, ok := t.assess(m, laid.WithGradient(math.Floor(from/fineFall+float64(mid)+wholeStep)*fineFall))
		if !ok || a.better(&b) {
			most = mid
			continue
		}
		least = mid
		b.Job = b.Job.Clone()
		b.Change = edit.UseRun(edit.RunOf(b.Job))
		*a = b
	}
}

// wholeStep is what rounding leaves of a whole number of steps.
const wholeStep = 1e-6

// flatOf is what it takes to let a run fall as usual, as which it is placed.
func flatOf(a *Alternative, m *measure.Measurer, p stage.Placed, usual float64) *Flat {
	m.Place(p)
	f := &Flat{Fall: usual, HigherMM: m.Heights.RaiseMM() - a.RaiseMM}
	if rules := stopping(m, p.Pack, len(p.Run.Trouble) > 0); len(rules) > 0 {
		f.Stops = rules[0]
	}
	return f
}
