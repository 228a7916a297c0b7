package search

import (
	"context"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// pump says whether a pump in the room would let a run through where nothing else does.
func (s *Outcome) pump(ctx context.Context, j job.Job, pack rule.Pack, grid Grid) error {
	if j.Waste.Exit.Kind == job.ExitPump {
		return nil
	}
	placed, err := place(j, pack)
	if err != nil {
		return err
	}
	var sub Outcome
	sub.stated = s.stated
	exits := pumpExits(placed.Layout)
	if len(exits) == 0 {
		return nil
	}
	grid.MostBends, grid.TrapsMM = min(2, grid.MostBends), nil
	if err := sub.search(ctx, j, pack, thinned(exits), grid, nil, func(float64) {}); err != nil {
		return err
	}
	s.Tried += sub.Tried
	if len(sub.Found) > 0 {
		s.Relaxations = append(s.Relaxations, Relaxation{What: message.Of("relaxation.pump"), Best: sub.Found[0]})
	}
	return nil
}

// pumpExits are places for a pump's inlet: along the shower's open edges, for a pipe that
// comes out from under its floor is led no farther.
func pumpExits(l layout.Layout) (out []job.Exit) {
	const stepMM, clearMM = 150, 120
	for _, e := range l.OpenEdges() {
		along := e.B.Sub(e.A).Normalize()
		for at := float64(clearMM); at <= e.LengthMM()-clearMM; at += stepMM {
			out = append(out, job.Exit{Kind: job.ExitPump, At: e.A.Add(along.Mul(at))})
		}
	}
	return out
}
