package search

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/stage"
	"underfall/geometry/waste"
)

// noAngle is what rounding leaves of the cosine of an angle.
const noAngle = 1e-9

// turn is how a leg goes on from the one before, in eighths of a turn.
type turn int

// straight is the turn of a run of one leg.
const straight turn = 0

// bendTurns are the turns that bends make, firstTurns all that a run may begin with.
func bendTurns() []turn { return []turn{-2, -1, 1, 2} }

func firstTurns() []turn { return append(bendTurns(), straight) }

// eachChain gives the inner corners of every chain of legs from the outlet to
// an exit with a number of bends between the two given, the first turn one of some.
func eachChain(l layout.Layout, exit job.Exit, steps int, bends [2]int, first []turn, j *job.Job, found func(corners []plan.Point)) {
	from, ahead := l.Outlet, heading(l, l.OutletTo)
	to, _ := waste.Target(exit, &l)
	lasts := []int{0, 1, 2, 3, 4, 5, 6, 7}
	if exit.Kind == job.ExitWall {
		wall := l.Walls[exit.Wall]
		// Out through the wall, as square as the shower's directions allow.
		lasts = nil
		for h := range 8 {
			if direction(l, h).Dot(wall.Outward) > math.Cos(math.Pi/8)-noAngle {
				lasts = append(lasts, h)
			}
		}
	}
	rel := to.Sub(from)
	inRoom := func(corners []plan.Point) bool {
		for _, c := range corners {
			if !l.Room.Contains(c, plan.HairMM) {
				return false
			}
		}
		return true
	}
	give := func(corners []plan.Point) {
		if inRoom(corners) {
			found(corners)
		}
	}
	for _, last := range lasts {
		if bends[0] == 0 && slices.Contains(first, straight) && last == ahead && math.Abs(plan.Cross(direction(l, ahead), rel)) < 0.5 && rel.Dot(direction(l, ahead)) > 0 {
			give(nil)
		}
		chain := []int{ahead}
		var grow func()
		grow = func() {
			made := len(chain)
			if made > bends[1] {
				return
			}
			for _, t := range bendTurns() {
				if made == 1 && !slices.Contains(first, t) {
					continue
				}
				chain = append(chain, (chain[len(chain)-1]+int(t)+8)%8)
				if made >= bends[0] && chain[made] == last {
					eachLengths(l, from, rel, chain, steps, j, give)
				}
				grow()
				chain = chain[:len(chain)-1]
			}
		}
		grow()
	}
}

// eachRun gives the turns of every chain of a way for a job's waste; those that a person holds alone,
// among the simplest.
func eachRun(j *job.Job, way *stage.Placed, steps int, bends [2]int, first []turn, found func(corners []plan.Point)) {
	if j.StandingOf(turnsKey) != job.Held {
		eachChain(way.Layout, way.Job.Waste.Exit, steps, bends, first, &way.Job, found)
	} else if bends[0] == 0 {
		found(j.Waste.Waypoints)
	}
}

// direction is the unit vector of a heading: eighths of a turn from the
// shower's right.
func direction(l layout.Layout, heading int) plan.Point {
	return l.Direction(45 * float64(heading))
}

// heading is the eighth of a turn nearest to a direction.
func heading(l layout.Layout, d plan.Point) int {
	best, at := math.Inf(-1), 0
	for h := range 8 {
		if c := direction(l, h).Dot(d); c > best {
			best, at = c, h
		}
	}
	return at
}

// eachLengths gives the corners of every choice of lengths for a chain of
// headings: all but two are chosen from the grid, the last two that are not
// parallel close the chain.
func eachLengths(l layout.Layout, from, rel plan.Point, chain []int, steps int, j *job.Job, give func([]plan.Point)) {
	n := len(chain)
	dirs := make([]plan.Point, n)
	for i, h := range chain {
		dirs[i] = direction(l, h)
	}
	// The shortest leg that holds its bends, and the first the trap's joint.
	w, least := &j.Waste, make([]float64, n)
	least[0] = j.Drain.OutletJointMM
	for i := 1; i < n; i++ {
		face := w.Bend45FaceMM
		if t := (chain[i] - chain[i-1] + 8) % 8; t == 2 || t == 6 {
			face = w.Bend90FaceMM
		}
		least[i-1] += face
		least[i] += face
	}
	lengths := make([]float64, n)
	var choose func(i int, rest plan.Point)
	choose = func(i int, rest plan.Point) {
		if i == n-2 {
			a, b, ok := plan.MeetLines(plan.Point{}, dirs[n-2], rest, dirs[n-1].Mul(-1))
			if !ok || a < least[n-2]-plan.HairMM || b < least[n-1]-plan.HairMM {
				return
			}
			lengths[n-2], lengths[n-1] = a, b
			corners := make([]plan.Point, 0, n-1)
			p := from
			for k := range n - 1 {
				p = p.Add(dirs[k].Mul(lengths[k]))
				corners = append(corners, p)
			}
			give(corners)
			return
		}
		reach := rel.Len() + 400
		for k := range steps + 1 {
			lengths[i] = least[i] + (reach-least[i])*float64(k*k)/float64(steps*steps)
			choose(i+1, rest.Sub(dirs[i].Mul(lengths[i])))
		}
	}
	choose(0, rel)
}
