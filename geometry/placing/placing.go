// Package placing finds room for the labels of a drawing on a picture: each label says where it may
// stand and how good each place is, and gets the one that costs least with all the others. No text
// meets another, anything that can be dragged, a line that is laid over the picture, or the rim; ink
// is covered only where all else costs more. The same labels always come to stand in the same places.
package placing

import (
	"cmp"
	"math"
	"slices"
)

// Candidate is a place where a label may stand.
type Candidate struct {
	// Boxes are what its texts take; nothing else of other labels is in them.
	Boxes []Box
	// Leader leads to what it speaks of: through no other label.
	Leader []Straight
	// Marks stand at what it speaks of: what leads to others runs over them only where all else costs more, as it
	// would seem to lead there.
	Marks []Box
	// Cost is how much worse than the best place it is by itself, in points of length.
	Cost float64
}

// Label is something to write.
type Label struct {
	Candidates []Candidate
	// More is what a candidate costs besides its Cost, worked out only of those that are asked about; nil for nothing.
	More func(candidate int) float64
	// Own is ink of its own, on which it may stand.
	Own []Straight
	// OffCut has it keep off what is cut, which it does not name.
	OffCut bool
	// LeaveOut is what it costs to leave it out: a label stands only where it costs less.
	LeaveOut float64
}

// Scene is what labels have to keep off.
type Scene struct {
	// Picture has all of every text in it.
	Picture Box
	// Handles can be dragged: no text lies on one. Near are what is pressed for each of them,
	// which is larger: a text there costs.
	Handles, Near []Box
	// Taken is what lies over the picture: no text lies on it, and nothing leads through it.
	Taken []Box
	// Over are straights laid over the picture, Aside is how far every text stays off them.
	Over  []Straight
	Aside float64
	// Ink is what is drawn, by how bad it is to cover it; Cut is where something is cut.
	Ink, Cut *Cover
}

// OwnWeight is what ink of a label's own is put into Scene.Ink with.
const OwnWeight = 10

// What things cost, in points of length of a leader.
const (
	nearCost  = 25   // a text where a handle is pressed
	underCost = 8    // a leader that passes under a handle
	crossCost = 30   // two leaders that cross
	markCost  = 25   // a leader over the mark of another
	alongCost = 60   // two leaders that run along each other
	bodyCost  = 0.15 // a pixel of a leader through what is cut
)

// cutCells is how much of what is cut, in cells, a text may seem to touch that keeps off it: what
// rounding to cells comes to.
const cutCells = 0.5

// none is the choice of a label that is left out.
const none = -1

// Place gives every label one of its candidates, by its index, or −1 where it is left out. Labels are
// given in the order of their worth.
//
// Method: one label after the other takes the cheapest candidate that keeps off those placed before;
// then, in two rounds, one that is left out or stands badly takes a place from another that does
// nearly as well elsewhere.
func Place(s *Scene, labels []Label) []int {
	p := begin(s, labels)
	for i := range labels {
		p.chosen[i], _ = p.best(i, none)
	}
	const rounds = 2
	for range rounds {
		for i := range labels {
			p.improve(i)
		}
	}
	return p.chosen
}

// Keep gives every label the candidate that it had before, where that can still stand with those given theirs
// already, and else the cheapest that can: what is drawn while something is dragged. As many labels as before
// are the same ones; of more or fewer, all are placed afresh.
func Keep(s *Scene, labels []Label, before []int) []int {
	if len(before) != len(labels) {
		return Place(s, labels)
	}
	p := begin(s, labels)
	for i, k := range before {
		if k != none && k < len(labels[i].Candidates) && !math.IsInf(p.with(i, k, none, math.Inf(1)), 1) {
			p.chosen[i] = k
		}
	}
	for i, k := range before {
		if k != none && p.chosen[i] == none {
			p.chosen[i], _ = p.best(i, none)
		}
	}
	return p.chosen
}

// begin has none of the labels placed.
func begin(s *Scene, labels []Label) placer {
	p := placer{scene: s, labels: labels, chosen: make([]int, len(labels)), costs: make([][]float64, len(labels)),
		place: make([][]float64, len(labels)), order: make([][]int, len(labels)), reach: make([][]Box, len(labels))}
	for i := range labels {
		p.chosen[i] = none
		p.costs[i] = make([]float64, len(labels[i].Candidates))
		p.reach[i] = make([]Box, len(labels[i].Candidates))
		p.place[i] = make([]float64, len(labels[i].Candidates))
		for k := range p.costs[i] {
			p.costs[i][k], p.place[i][k] = math.NaN(), math.NaN()
		}
	}
	return p
}

// inOrder are a label's candidates, the cheapest first.
func (p *placer) inOrder(i int) []int {
	if p.order[i] == nil {
		order := make([]int, len(p.labels[i].Candidates))
		for k := range order {
			order[k] = k
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p.placeCost(i, a), p.placeCost(i, b)) })
		p.order[i] = order
	}
	return p.order[i]
}

type placer struct {
	scene  *Scene
	labels []Label
	chosen []int
	costs  [][]float64 // of candidates by themselves; NaN where not yet known
	place  [][]float64 // of their places, with no regard to what is drawn; NaN where not yet known
	order  [][]int     // of a label's candidates, the cheapest first; nil where not yet asked for
	// reach is how far candidates can matter to others; the zero box where not yet known.
	reach [][]Box
}

// placeCost is what the place of a candidate costs, with no regard to what is drawn.
func (p *placer) placeCost(i, k int) float64 {
	if known := p.place[i][k]; !math.IsNaN(known) {
		return known
	}
	l := &p.labels[i]
	cost := l.Candidates[k].Cost
	if l.More != nil {
		cost += l.More(k)
	}
	p.place[i][k] = cost
	return cost
}

// alone is what a candidate costs with no other label there; +Inf where it cannot stand.
func (p *placer) alone(i, k int) float64 {
	if known := p.costs[i][k]; !math.IsNaN(known) {
		return known
	}
	l, c := &p.labels[i], &p.labels[i].Candidates[k]
	cost := p.placeCost(i, k)
	for _, b := range c.Boxes {
		if !p.stands(b) || l.OffCut && p.scene.Cut.In(b) > cutCells {
			cost = math.Inf(1)
			break
		}
		ink := p.scene.Ink.In(b)
		for _, own := range l.Own {
			ink -= p.scene.Ink.ofLine(own, b, OwnWeight)
		}
		cost += math.Max(0, ink)
		for _, near := range p.scene.Near {
			if near.Overlaps(b) {
				cost += nearCost
			}
		}
	}
	for _, leader := range c.Leader {
		if slices.ContainsFunc(p.scene.Taken, leader.Meets) {
			cost = math.Inf(1)
		}
		for _, handle := range p.scene.Handles {
			if leader.Meets(handle) && !slices.ContainsFunc(c.Marks, handle.Overlaps) {
				cost += underCost
			}
		}
		cost += bodyCost * p.scene.Cut.cell * p.scene.Cut.on(leader)
	}
	p.costs[i][k] = cost
	return cost
}

// stands tells whether a text may stand in a box, whatever other labels there are.
func (p *placer) stands(b Box) bool {
	s := p.scene
	if !b.Within(s.Picture) || slices.ContainsFunc(s.Handles, b.Overlaps) || slices.ContainsFunc(s.Taken, b.Overlaps) {
		return false
	}
	beside := b.Grown(s.Aside)
	return !slices.ContainsFunc(s.Over, func(o Straight) bool { return o.Meets(beside) })
}

// between is what two placed candidates cost each other; +Inf where they cannot both stand.
func between(a, b *Candidate) (cost float64) {
	for _, x := range a.Boxes {
		if slices.ContainsFunc(b.Boxes, x.Overlaps) || slices.ContainsFunc(b.Leader, func(l Straight) bool { return l.Meets(x) }) {
			return math.Inf(1)
		}
	}
	for _, l := range a.Leader {
		if slices.ContainsFunc(b.Boxes, l.Meets) {
			return math.Inf(1)
		}
		for _, o := range b.Leader {
			switch {
			case l.crosses(o):
				cost += crossCost
			case l.Along(o):
				cost += alongCost
			}
		}
	}
	return cost + overMarks(a.Leader, b.Marks) + overMarks(b.Leader, a.Marks)
}

// overMarks is what a leader costs that runs over marks of another label.
func overMarks(leader []Straight, marks []Box) (cost float64) {
	for _, m := range marks {
		if slices.ContainsFunc(leader, func(l Straight) bool { return l.Meets(m) }) {
			cost += markCost
		}
	}
	return cost
}

// reachOf is the box that others keep out of to have nothing to do with a candidate.
func (p *placer) reachOf(i, k int) Box {
	if known := p.reach[i][k]; known != (Box{}) {
		return known
	}
	c := &p.labels[i].Candidates[k]
	all := Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
	include := func(a, b Point) {
		for k := range 2 {
			all.Low[k] = math.Min(all.Low[k], math.Min(a[k], b[k]))
			all.High[k] = math.Max(all.High[k], math.Max(a[k], b[k]))
		}
	}
	for _, b := range c.Boxes {
		include(b.Low, b.High)
	}
	for _, m := range c.Marks {
		include(m.Low, m.High)
	}
	for _, l := range c.Leader {
		include(l[0], l[1])
	}
	p.reach[i][k] = all.Grown(besidePixels)
	return p.reach[i][k]
}

// between is what two labels cost each other where they stand; +Inf where they cannot both.
func (p *placer) between(i, k, j, at int) float64 {
	if !p.reachOf(i, k).Overlaps(p.reachOf(j, at)) {
		return 0
	}
	return between(&p.labels[i].Candidates[k], &p.labels[j].Candidates[at])
}

// with is what a candidate costs among the labels that are placed, one of them left out of account;
// no more than a limit is looked for.
func (p *placer) with(i, k, without int, limit float64) float64 {
	cost := p.alone(i, k)
	for j, at := range p.chosen {
		if cost >= limit {
			return cost
		}
		if j != i && j != without && at != none {
			cost += p.between(i, k, j, at)
		}
	}
	return cost
}

// best is the cheapest candidate of a label among those that are placed, without one of them, and
// what it costs: none, and what that costs, where leaving it out is cheaper.
func (p *placer) best(i, without int) (k int, cost float64) {
	k, cost, _ = p.bestBelow(i, without, math.Inf(1))
	return k, cost
}

// bestBelow is the best, where it costs less than a limit: found is false, and nothing else told, where it does not.
func (p *placer) bestBelow(i, without int, limit float64) (k int, cost float64, found bool) {
	k, cost = none, p.labels[i].LeaveOut
	if found = cost < limit; !found {
		cost = limit
	}
	for _, try := range p.inOrder(i) {
		if p.placeCost(i, try) >= cost {
			break
		}
		if c := p.with(i, try, without, cost); c < cost {
			k, cost, found = try, c, true
		}
	}
	return k, cost, found
}

// now is what a label costs where it is.
func (p *placer) now(i int) float64 {
	if p.chosen[i] == none {
		return p.labels[i].LeaveOut
	}
	return p.with(i, p.chosen[i], none, math.Inf(1))
}

// improve looks for a better place for a label: a free one, or one that another gives up for less
// than is won.
func (p *placer) improve(i int) {
	const goodEnough, tries = 12, 80
	was := p.now(i)
	if was <= goodEnough {
		return
	}
	old := p.chosen[i]
	best := move{win: 1e-6}
	for n, k := range p.inOrder(i) {
		if n >= tries || p.placeCost(i, k) >= was {
			break
		}
		if alone := p.alone(i, k); alone >= was {
			continue
		}
		j, ok := p.inTheWay(i, k)
		if !ok {
			continue
		}
		if j == none {
			if win := was - p.with(i, k, none, was); win > best.win {
				best = move{win, k, none, none}
			}
			continue
		}
		here := p.with(i, k, j, was)
		if here >= was {
			continue
		}
		before := p.now(j)
		p.chosen[i] = k
		const hair = 1e-6 // more than sums are rounded by
		other, after, found := p.bestBelow(j, none, was-here+before-best.win+hair)
		if p.chosen[i] = old; !found {
			continue
		}
		if win := was - here - (after - before); win > best.win {
			best = move{win, k, j, other}
		}
	}
	if best.win > 1e-6 {
		p.chosen[i] = best.to
		if best.other != none {
			p.chosen[best.other] = best.otherTo
		}
	}
}

// move is a label to another place, and another out of its way, with what is won by it.
type move struct {
	win            float64
	to             int
	other, otherTo int
}

// inTheWay is the one label that a candidate cannot stand with, none where it can with all; ok is
// false where there are several.
func (p *placer) inTheWay(i, k int) (j int, ok bool) {
	j = none
	for o, at := range p.chosen {
		if o == i || at == none || !math.IsInf(p.between(i, k, o, at), 1) {
			continue
		}
		if j != none {
			return none, false
		}
		j = o
	}
	return j, true
}
