package search

import (
	"context"
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// pump says whether a pump in the room would let a run through where nothing else does.
func (s *Outcome) pump(ctx context.Context, j job.Job, pack rule.Pack, grid Grid) error {
	if j.Waste.Exit.Kind == job.ExitPump {
		return nil
	}
	var sub Outcome
	sub.stated = s.stated
	grid.MostBends, grid.TrapsMM = min(2, grid.MostBends), nil
	if err := sub.search(ctx, j, pack, thinned(pumpExits(j)), grid, nil, func(float64) {}); err != nil {
		return err
	}
	s.Tried += sub.Tried
	if len(sub.Found) > 0 {
		s.Relaxations = append(s.Relaxations, Relaxation{message.Of("relaxation.pump"), sub.Found[0]})
	}
	return nil
}

// pumpExits are places for a pump's inlet on the floor beside the shower, over a grid.
func pumpExits(j job.Job) (out []job.Exit) {
	const stepMM = 300
	room, shower := plan.FromRing(j.Room.Outline), j.ShowerCorners()
	low, high, _ := room.Bounds()
	for x := low.X() + stepMM; x < high.X(); x += stepMM {
		for y := low.Y() + stepMM; y < high.Y(); y += stepMM {
			p := plan.Point{math.Round(x), math.Round(y)}
			if room.Contains(p, 0) && !plan.FromRing(shower[:]).Contains(p, 0) {
				out = append(out, job.Exit{Kind: job.ExitPump, At: p})
			}
		}
	}
	return out
}
