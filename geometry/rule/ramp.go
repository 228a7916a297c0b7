package rule

import (
	"fmt"
	"maps"

	"underfall/geometry/source"
	"underfall/geometry/unit"
)

// Ramps is how steep a region lets ramps be, by how long they are. Zero where it says
// nothing.
type Ramps struct {
	// Goings, shortest first.
	Goings []Going `json:"goings,omitempty"`
	// Between tells that slopes between two goings count for the lengths between them.
	Between bool          `json:"between,omitempty"`
	Source  source.Source `json:"source,omitzero"`
}

// Going is a length of ramp, measured level, and the slope it may have: one in In.
type Going struct {
	ToMM float64 `json:"toMM"`
	In   float64 `json:"in"`
}

// Any tells whether the region says anything of ramps.
func (r Ramps) Any() bool { return len(r.Goings) > 0 }

// RunMM is the length, measured level, of the shortest ramp that may climb a rise, mm.
// Over a longer rise than the longest going climbs, flights of that slope follow one
// another; their landings are not in it.
//
// Method: within a going the length is rise × In. Between two goings from a to b, one in
// m to one in n, In grows straight with the length, k = (n − m)/(b − a), and length =
// rise × (m + k × (length − a)) gives rise × (m − k × a)/(1 − k × rise).
func (r Ramps) RunMM(riseMM float64) float64 {
	if riseMM <= 0 || !r.Any() {
		return 0
	}
	for i, g := range r.Goings {
		if riseMM*g.In > g.ToMM {
			continue
		}
		if i == 0 || !r.Between {
			return riseMM * g.In
		}
		before := r.Goings[i-1]
		k := (g.In - before.In) / (g.ToMM - before.ToMM)
		return riseMM * (before.In - k*before.ToMM) / (1 - k*riseMM)
	}
	return riseMM * r.Goings[len(r.Goings)-1].In
}

// check looks at what a pack says of ramps: longer ones flatter, and all of that with its
// source.
func (r Ramps) check() error {
	if !r.Any() {
		return nil
	}
	const steepest, flattest, longestMM = 4, 100, 100000
	last := Going{}
	for _, g := range r.Goings {
		if !(g.In >= steepest && g.In <= flattest && g.ToMM <= longestMM && g.ToMM > last.ToMM && g.In >= last.In) {
			return fmt.Errorf("a ramp of up to %v mm at 1:%v is none, or out of order", g.ToMM, g.In)
		}
		last = g
	}
	return r.Source.Check()
}

// withRamps are the rules with the goings as figures of those that they count for: going1
// and slope1 of the shortest, and so on.
func (r Ramps) withRamps(rules []Rule) []Rule {
	for i := range rules {
		if rules[i].Quantity != "ramp.short-by" {
			continue
		}
		figures := maps.Clone(rules[i].Figures)
		if figures == nil {
			figures = map[string]Figure{}
		}
		for k, g := range r.Goings {
			figures[fmt.Sprintf("going%d", k+1)] = Figure{g.ToMM, unit.Along}
			figures[fmt.Sprintf("slope%d", k+1)] = Figure{1 / g.In, unit.Slope}
		}
		rules[i].Figures = figures
	}
	return rules
}
