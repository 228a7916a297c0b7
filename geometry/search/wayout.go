package search

import (
	"cmp"
	"context"
	"slices"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// WayOut is where runs lead out, as people tell ways out apart: through which wall, into which
// stack, down which pipe.
type WayOut struct {
	Kind        job.ExitKind
	Wall, Stack int
	At          plan.Point
}

// WayOutOf is the one of an exit.
func WayOutOf(e job.Exit) WayOut {
	switch e.Kind {
	case job.ExitWall:
		return WayOut{Kind: e.Kind, Wall: e.Wall}
	case job.ExitStack:
		return WayOut{Kind: e.Kind, Stack: e.Stack}
	}
	return WayOut{Kind: e.Kind, At: e.At}
}

// mostOfOneWay is at how many places of a way out it is found out what stops the runs there.
const mostOfOneWay = 5

// findClosed finds out what stops the runs by each further way out that none of those found goes by, nor any that a change lets through.
func (s *Outcome) findClosed(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid) error {
	var all []*hindering
	for _, group := range s.notFound(exits) {
		h, err := s.hinder(ctx, j, pack, spreadOver(group, mostOfOneWay), grid)
		if err != nil {
			return err
		}
		if h != nil {
			all = append(all, h)
		}
	}
	slices.SortStableFunc(all, func(a, b *hindering) int {
		if a.Nearest == nil || b.Nearest == nil { // those with none last
			return -cmp.Compare(a.Tried, b.Tried)
		}
		return cmp.Or(cmp.Compare(a.fewest, b.fewest), cmp.Compare(a.Nearest.asksMM(false), b.Nearest.asksMM(false)))
	})
	for _, h := range all {
		s.Closed = append(s.Closed, h.Hindrance)
	}
	return nil
}

// all are the runs found, as the job stands and with changes.
func (s *Outcome) all() []Alternative {
	out := slices.Clone(s.Found)
	for _, c := range s.Cheap {
		out = append(out, c.Best)
	}
	for _, r := range s.Relaxations {
		out = append(out, r.Best)
	}
	return out
}

// notFound are the exits besides the stated one by ways out that no run found goes by, those of each
// way out together.
func (s *Outcome) notFound(exits []job.Exit) (out [][]job.Exit) {
	at, gone := map[WayOut]int{}, map[WayOut]bool{}
	for _, a := range s.all() {
		gone[WayOutOf(a.Job.Waste.Exit)] = true
	}
	for _, e := range exits {
		way := WayOutOf(e)
		if edit.SamePlace(e, s.stated) || gone[way] {
			continue
		}
		i, known := at[way]
		if !known {
			i, at[way] = len(out), len(out)
			out = append(out, nil)
		}
		out[i] = append(out[i], e)
	}
	return out
}

// spreadOver is so many of some exits at most, from the first to the last.
func spreadOver(exits []job.Exit, most int) (out []job.Exit) {
	if len(exits) <= most {
		return exits
	}
	for k := range most {
		out = append(out, exits[k*(len(exits)-1)/(most-1)])
	}
	return out
}
