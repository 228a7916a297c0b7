package settle

import (
	"fmt"
	"math"

	"underfall/geometry/job"
)

// trims keeps the openings in joists where joists are, after the room or its joists have changed: at the
// joist nearest to theirs, as little along it as must be.
func (s *settler) trims() {
	trims := s.job.Floor.Joists.Trims
	if len(trims) == 0 || !s.changed("room.outline", "floor.joists") || s.job.Floor.Kind != job.FloorTimber {
		return
	}
	for i := range trims {
		key := fmt.Sprintf("%s[%d]", job.TrimsKey, i)
		if !s.free(key+".joist", key+".further", key+".fromMM", key+".toMM") || !s.troubled(key) {
			continue
		}
		s.moveTrim(i, key)
	}
}

// troubled tells whether a job means nothing for what is within a path.
func (s *settler) troubled(key string) bool {
	for _, p := range s.job.Validate() {
		if within(p.Key, key) {
			return true
		}
	}
	return false
}

// moveTrim looks for the nearest place for an opening.
func (s *settler) moveTrim(i int, key string) {
	trim := &s.job.Floor.Joists.Trims[i]
	was := *trim
	lines := s.job.JoistLines().Lines
	for off := range len(lines) + 1 {
		for _, n := range [2]int{was.Joist - off, was.Joist + off} {
			if n < 1 || n > len(lines) {
				continue
			}
			for _, t := range alongJoist(was, n, lines[n-1].LengthMM(), s.job.Floor.Joists.WidthMM+job.LeastPieceMM) {
				if *trim = t; !s.troubled(key) {
					return
				}
			}
		}
	}
	*trim = was
}

// alongJoist are places for an opening in a joist, the least moved first: as it was, at the joist's
// end or start, or as near to one as a piece between allows, and shorter.
func alongJoist(was job.Trim, joist int, lengthMM, leastMM float64) (out []job.Trim) {
	long := was.ToMM - was.FromMM
	add := func(from, to float64) {
		t := was
		t.Joist, t.FromMM, t.ToMM = joist, math.Max(0, math.Round(from)), math.Min(lengthMM, math.Round(to))
		out = append(out, t)
	}
	out = append(out, job.Trim{Joist: joist, Further: was.Further, FromMM: was.FromMM, ToMM: was.ToMM})
	last := math.Floor(lengthMM - leastMM)
	add(last-long, last)
	add(math.Max(was.FromMM, leastMM), last)
	add(math.Ceil(leastMM), math.Ceil(leastMM)+long)
	out = append(out, job.Trim{Joist: joist, Further: was.Further, FromMM: was.FromMM, ToMM: lengthMM})
	return out
}
