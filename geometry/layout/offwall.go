package layout

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/plan"
)

// OffWall is how far a place lies off the face of a wall, and how far along it from its first end.
type OffWall struct {
	Wall           *Wall
	OffMM, AlongMM float64
}

// OffTwoWalls is how far a place of the room lies from the nearest wall beside it and from the nearest one that stands
// across to that; walls that it lies nearer to than the least are passed over. There is one or none where no wall is
// beside it.
func (l *Layout) OffTwoWalls(p plan.Point, leastMM float64) []OffWall {
	const acrossCos = 0.5
	var walls []OffWall
	for i := range l.Walls {
		w := &l.Walls[i]
		off, at := w.A.Sub(p).Dot(w.Outward), p.Sub(w.A).Dot(w.Along)
		if off > leastMM && at >= -plan.HairMM && at <= w.LengthMM+plan.HairMM {
			walls = append(walls, OffWall{w, off, at})
		}
	}
	slices.SortStableFunc(walls, func(a, b OffWall) int { return cmp.Compare(a.OffMM, b.OffMM) })
	for i := 1; i < len(walls); i++ {
		if math.Abs(walls[i].Wall.Along.Dot(walls[0].Wall.Along)) <= acrossCos {
			return []OffWall{walls[0], walls[i]}
		}
	}
	return walls[:min(1, len(walls))]
}
