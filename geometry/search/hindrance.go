package search

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/parallel"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// Hindrance is why no run goes to the exit that is stated, or by another way out. It is found out
// of plain runs: at the stated fall, without fittings, with two bends at most.
type Hindrance struct {
	// To is the exit that they were tried to; of a way out with several the one of the nearest run.
	To job.Exit
	// Tried counts those that lie in the room.
	Tried int
	// By are what stops them, what stops most of them first.
	By []Hinder
	// Nearest is the one that the fewest rules stop, the plainest of several, with what is
	// found of it; nil where none could be tried.
	Nearest *Alternative
	Stops   []rule.Finding
}

// Hinder is a rule that stops runs, and how many.
type Hinder struct {
	Rule rule.Rule
	Runs int
}

// reached tells whether some run goes to the stated exit.
func (s *Outcome) reached() bool {
	return slices.ContainsFunc(s.Found, func(a Alternative) bool { return !a.MovesExit })
}

// plainBends is how many bends a plain run has at most.
const plainBends = 2

// plain is the grid for plain runs alone.
func (g Grid) plain() Grid {
	g.MostBends = min(plainBends, g.MostBends)
	return g
}

// unreached are the exits that no run goes to yet and that are worth another look, with how to
// look: all, or for plain runs the stated one alone where runs go elsewhere.
func (s *Outcome) unreached(exits []job.Exit, grid Grid) ([]job.Exit, Grid) {
	if len(s.Found) == 0 {
		return exits, grid
	}
	return s.asStated(exits), grid.plain()
}

// asStated is the stated one of some exits; none where it is not among them.
func (s *Outcome) asStated(exits []job.Exit) []job.Exit {
	if i := slices.IndexFunc(exits, func(e job.Exit) bool { return edit.SamePlace(e, s.stated) }); i >= 0 {
		return exits[i : i+1]
	}
	return nil
}

// hinder finds out what stops the runs to some exits; nil where that was not to be found out.
func (s *Outcome) hinder(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid) (*hindering, error) {
	tasks, err := s.ways(ctx, j, pack, exits, grid, nil)
	if err != nil || ctx.Err() != nil || len(tasks) == 0 {
		return nil, err
	}
	measurers := sync.Pool{New: func() any { return new(measure.Measurer) }}
	parts := make([]hindering, len(tasks))
	err = parallel.Each(ctx, len(parts), func(n int) error {
		t, m := tasks[n], measurers.Get().(*measure.Measurer)
		defer measurers.Put(m)
		bends := [2]int{0, grid.plain().MostBends}
		eachRun(&j, &t, grid.Steps, bends, firstTurns(), func(corners []plan.Point) {
			if k := t.Job; ctx.Err() == nil {
				k.Waste.Waypoints = corners
				parts[n].look(s, m, t.WithRun(k))
			}
		})
		return nil
	})
	if err != nil || ctx.Err() != nil {
		return nil, err
	}
	all := hindering{Hindrance: Hindrance{To: exits[0]}}
	for i := range parts {
		all.add(&parts[i])
	}
	slices.SortStableFunc(all.By, func(a, b Hinder) int { return cmp.Or(-cmp.Compare(a.Runs, b.Runs), cmp.Compare(a.Rule.ID, b.Rule.ID)) })
	if n := all.Nearest; n != nil {
		all.To = n.Job.Waste.Exit
		s.tellNearest(&all.Hindrance, pack)
	}
	return &all, nil
}

// hindering is a hindrance being found out.
type hindering struct {
	Hindrance
	fewest int // rules that stop the nearest
}

// look takes a run in.
func (h *hindering) look(s *Outcome, m *measure.Measurer, p stage.Placed) {
	h.Tried++
	if p.Job.Base.Height == job.HeightSafe {
		m.Place(p.WithHeight(job.HeightBuildable))
	} else {
		m.Place(p)
	}
	rules := stopping(m, p.Pack, len(p.Run.Trouble) > 0)
	for _, r := range rules {
		h.count(Hinder{*r, 1})
	}
	a := s.alternative(m, p)
	a.Job, a.Governing = p.Job, m.Heights.Governing().Reason()
	h.nearer(a, len(rules))
}

// stopping are the rules that stop the run that was placed last: of one that does not go
// together those that say so.
func stopping(m *measure.Measurer, pack rule.Pack, troubled bool) (out []*rule.Rule) {
	judge := func(ms []rule.Measurement) {
		pack.EachBroken(ms, func(r *rule.Rule, _ *rule.Measurement) {
			known := slices.ContainsFunc(out, func(o *rule.Rule) bool { return o.ID == r.ID })
			if StopsRun(r) && !known {
				out = append(out, r)
			}
		})
	}
	judge(m.Run())
	if !troubled {
		judge(m.BesidesRun())
		judge(m.Clashes())
	}
	return out
}

// count adds runs that a rule stops.
func (h *hindering) count(by Hinder) {
	for i := range h.By {
		if h.By[i].Rule.ID == by.Rule.ID {
			h.By[i].Runs += by.Runs
			return
		}
	}
	h.By = append(h.By, by)
}

// nearer takes a run for the nearest if fewer rules stop it, or as many and it asks for less.
func (h *hindering) nearer(a Alternative, rules int) {
	if h.Nearest == nil || rules < h.fewest || rules == h.fewest && a.asksMM(false) < h.Nearest.asksMM(false) {
		a.Job = a.Job.Clone()
		h.Nearest, h.fewest = &a, rules
	}
}

// add takes in what was found out of other runs.
func (h *hindering) add(o *hindering) {
	h.Tried += o.Tried
	for _, by := range o.By {
		h.count(by)
	}
	if o.Nearest != nil {
		h.nearer(*o.Nearest, o.fewest)
	}
}

// tellNearest works the nearest run out at the height that its job asks for.
func (s *Outcome) tellNearest(h *Hindrance, pack rule.Pack) {
	of := h.Nearest.Job
	placed, err := place(of, pack)
	if err != nil {
		return // it was placed before
	}
	var m measure.Measurer
	m.Place(placed)
	a := s.alternative(&m, placed)
	a.Job, a.Change, a.Governing = of, edit.UseRun(edit.RunOf(of)), m.Heights.Governing().Reason()
	a.EdgeStepMM, a.JoistsCut = edgeStepMM(&m.Levelled), len(m.Crossings())
	var v verdict
	for _, take := range [...]func() []rule.Measurement{m.Run, m.BesidesRun, m.Clashes} {
		ms := take()
		v.judge(pack, ms)
		for _, f := range pack.Judge(ms) {
			if StopsRun(&f.Rule) {
				h.Stops = append(h.Stops, f)
			}
		}
	}
	a.Advisories, a.Unkept = v.advisories, v.unkept
	h.Nearest = &a
}
