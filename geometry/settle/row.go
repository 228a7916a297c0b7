package settle

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/plan"
)

// row is what takes stretches of one wall.
type row struct {
	spans    []span
	lengthMM float64
	keep     apart
	was      []float64 // where each began
	places   [][]float64
	best     []float64
	bestMM   float64
	tried    int
}

func rowOf(spans []span, lengthMM float64, keep apart) *row {
	r := &row{spans: spans, lengthMM: lengthMM, keep: keep, was: make([]float64, len(spans)), bestMM: math.Inf(1)}
	for i, p := range spans {
		r.was[i] = p.fromMM
	}
	return r
}

// mostTried is how many places are looked at in all, more than three things in one another's way need, and
// mostBetween how many sums of what may lie between a thing and what it is pushed against.
const (
	mostTried   = 20_000
	mostBetween = 81
)

// mostExplored is how many things of a wall are arranged in every way; of more only the first arrangement
// that does is found, so that a drag is not held up by a wall that no bathroom has.
const mostExplored = 8

// lie moves the stretches into their wall and apart so that all movements together are the least; false
// where that cannot be.
func (r *row) lie() bool {
	if r.lies() {
		return true
	}
	if r.sweep(); len(r.spans) <= mostExplored {
		r.places = make([][]float64, len(r.spans))
		for i := range r.spans {
			r.places[i] = r.placesOf(i)
		}
		r.explore(0, 0)
	}
	if r.best == nil {
		return r.back()
	}
	for i := range r.spans {
		r.spans[i].fromMM = r.best[i]
	}
	return true
}

// sweep pushes everything that moves on along the wall in the order that it stands in, and back from its
// end: a first arrangement, if that is one.
func (r *row) sweep() {
	order := make([]int, len(r.spans))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(2*r.spans[a].fromMM+r.spans[a].longMM, 2*r.spans[b].fromMM+r.spans[b].longMM)
	})
	push := func(i int, by func(p *span, o span)) {
		for _, k := range order {
			p, o := &r.spans[i], r.spans[k]
			if k == i {
				return
			}
			if p.moves && p.meets(o) && r.keep(*p, o) {
				by(p, o)
			}
		}
	}
	for _, i := range order {
		push(i, func(p *span, o span) { p.fromMM = o.toMM() })
	}
	slices.Reverse(order)
	for _, i := range order {
		if p := &r.spans[i]; p.moves {
			p.fromMM = clamp(p.fromMM, 0, math.Max(0, r.lengthMM-p.longMM))
		}
		push(i, func(p *span, o span) { p.fromMM = o.fromMM - p.longMM })
	}
	if r.lies() {
		r.bestMM, r.best = 0, make([]float64, len(r.spans))
		for i, p := range r.spans {
			r.bestMM += math.Abs(p.fromMM - r.was[i])
			r.best[i] = p.fromMM
		}
	}
	r.back()
}

// lies tells whether everything lies in the wall and apart as it is.
func (r *row) lies() bool {
	for i := range r.spans {
		if !r.inWall(i) || !r.clear(i) {
			return false
		}
	}
	return true
}

func (r *row) inWall(i int) bool {
	p := &r.spans[i]
	return p.kind == showerSpan || p.toMM() <= r.lengthMM+plan.HairMM && p.fromMM >= -plan.HairMM
}

// clear tells whether a stretch is apart from those before it.
func (r *row) clear(i int) bool {
	for _, o := range r.spans[:i] {
		if r.spans[i].meets(o) && r.keep(r.spans[i], o) {
			return false
		}
	}
	return true
}

// back has everything where it was.
func (r *row) back() bool {
	for i := range r.spans {
		r.spans[i].fromMM = r.was[i]
	}
	return false
}

// placesOf are the places that a stretch may come to in a best arrangement, the nearest first. Of the best
// arrangements one has everything that moves touch something that does not, or an end of the wall, directly
// or with others that move in between.
func (r *row) placesOf(i int) []float64 {
	p := r.spans[i]
	if !p.moves {
		return []float64{p.fromMM}
	}
	between, either := []float64{0}, r.someMayMeet()
	for k, o := range r.spans {
		if k != i && o.moves && len(between) < mostBetween {
			for _, mm := range between {
				if between = append(between, mm+o.longMM); either {
					between = append(between, mm-o.longMM)
				}
			}
		}
	}
	var out []float64
	add := func(at float64) {
		if at >= -plan.HairMM && at+p.longMM <= r.lengthMM+plan.HairMM {
			out = append(out, clamp(at, 0, math.Max(0, r.lengthMM-p.longMM)))
		}
	}
	add(p.fromMM)
	edges := []float64{0, r.lengthMM}
	for k, o := range r.spans {
		if k != i {
			edges = append(edges, o.fromMM, o.toMM())
		}
	}
	for _, mm := range between {
		for _, edge := range edges {
			add(edge + mm)
			add(edge - p.longMM - mm)
			if either {
				add(edge - p.longMM + mm)
			}
		}
	}
	slices.SortFunc(out, func(a, b float64) int {
		return cmp.Or(cmp.Compare(math.Abs(a-p.fromMM), math.Abs(b-p.fromMM)), cmp.Compare(a, b))
	})
	return slices.Compact(out)
}

// someMayMeet tells whether there are things that need not be kept apart, so that others may lie between
// a thing and what it is pushed against on either side.
func (r *row) someMayMeet() bool {
	for i, p := range r.spans {
		for _, o := range r.spans[:i] {
			if !r.keep(p, o) {
				return true
			}
		}
	}
	return false
}

// explore puts the stretches from one on in all their places, while there is less movement than in the best
// arrangement so far.
func (r *row) explore(i int, movedMM float64) {
	if i == len(r.spans) {
		r.bestMM, r.best = movedMM, make([]float64, len(r.spans))
		for k, p := range r.spans {
			r.best[k] = p.fromMM
		}
		return
	}
	p := &r.spans[i]
	for _, at := range r.places[i] {
		sum := movedMM + math.Abs(at-r.was[i])
		if r.tried++; sum >= r.bestMM-plan.HairMM || r.tried > mostTried {
			break
		}
		if p.fromMM = at; r.inWall(i) && r.clear(i) {
			r.explore(i+1, sum)
		}
	}
	p.fromMM = r.was[i]
}
