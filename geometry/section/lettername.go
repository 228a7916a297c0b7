package section

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

// Sizes of discs with a letter, in points.
const (
	discRadius = 10
	discText   = 12
	discBroad  = 19 // how broad a wall must be to have its disc in it
	ringText   = 10
)

// DotPoints is half the dot at a place, in points.
const DotPoints = 1.8

// names asks for room for those of a worth, in their order; what is looked at has the first.
func (l *letterer) names(d *Seen, first bool) {
	for i := range d.Names {
		switch n := &d.Names[i]; {
		case (n.First || l.looksAt(n)) != first:
		case n.Disc != 0:
			l.disc(d, n)
		case n.Ring != (message.Corner{}):
			l.ringed(d, n)
		case first && l.looksAt(n):
			l.lookedAt(d, n)
		default:
			l.name(d, n)
		}
	}
}

// looksAt tells whether a name is of the part that is looked at.
func (l *letterer) looksAt(n *Name) bool {
	return n.PartID != "" && slices.Contains(l.Chosen, n.PartID)
}

// name asks for room for one of a name's texts, the fullest that can be, at one of its places; one
// without room comes when one zooms in.
func (l *letterer) name(d *Seen, n *Name) {
	const textCost, smallCost, placeCost = 12, 8, 0.3
	sizes, label := []float64{TextPoints * l.Scale}, placing.Label{LeaveOut: couldCost}
	switch {
	case n.Small:
		sizes[0] = l.small(smallShare)
	case n.Thing:
		sizes, label.LeaveOut = append(sizes, l.small(smallShare)), standCost
	}
	var texts []Text
	var dots []placing.Point
	for smaller, size := range sizes {
		for i, m := range n.Texts {
			width := l.Measure(m, size)
			for k, place := range n.Places {
				t := l.text(m, l.beside(d, place, n.Dot || !n.Small, width, size), width, size)
				if len(n.In) > 0 && !d.within(t.Box, n.In) {
					continue
				}
				c := placing.Candidate{Boxes: []placing.Box{t.Box}, Cost: smallCost*float64(smaller) + textCost*float64(i) + placeCost*float64(k)}
				at := d.To(place.At)
				if n.Dot {
					c.Boxes = append(c.Boxes, placing.Around(at, 2*DotPoints*l.Scale, 2*DotPoints*l.Scale))
				}
				label.Candidates, texts, dots = append(label.Candidates, c), append(texts, t), append(dots, at)
			}
		}
	}
	l.add(label, func(k int, out *Lettering) {
		out.Texts = append(out.Texts, texts[k])
		if n.Dot {
			out.Dots = append(out.Dots, dots[k])
		}
	})
}

// lookedAt asks for room for the name of what is looked at: beside it, or led out of it to wherever there is room.
func (l *letterer) lookedAt(d *Seen, n *Name) {
	const textCost, placeCost, outCost, farCost = 4, 0.3, 20, 0.25
	size := TextPoints * l.Scale
	label := placing.Label{LeaveOut: mustCost}
	var put []func(out *Lettering)
	try := func(t Text, leader []placing.Straight, cost float64) {
		t.Look = LookLit
		label.Candidates = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{t.Box}, Leader: leader, Cost: cost})
		put = append(put, func(out *Lettering) {
			out.Texts = append(out.Texts, t)
			for _, line := range leader {
				out.Notes = append(out.Notes, NoteLines{leader, []placing.Point{line[0]}})
			}
		})
	}
	for i, m := range n.Texts {
		width := l.Measure(m, size)
		for k, place := range n.Places {
			cost := textCost*float64(i) + placeCost*float64(k)
			try(l.text(m, l.beside(d, place, true, width, size), width, size), nil, cost)
			at := d.To(place.At)
			for _, way := range [...]placing.Point{{0, 1}, {0, -1}, {1, 0}, {-1, 0}, {0.7, 0.7}, {-0.7, 0.7}, {0.7, -0.7}, {-0.7, -0.7}} {
				for _, far := range [...]float64{24, 44, 70, 100, 140} {
					foot := placing.Point{at[0] + way[0]*far*l.Scale, at[1] + way[1]*far*l.Scale}
					middle := placing.Point{foot[0] + sign(way[0])*math.Ceil(math.Abs(way[0]))*width/2, foot[1] + way[1]*size/2}
					try(l.text(m, middle, width, size), []placing.Straight{{at, foot}}, cost+outCost+farCost*far)
				}
			}
		}
	}
	l.add(label, func(k int, out *Lettering) { put[k](out) })
}

// beside is the middle of a text at a place, past what can be dragged there or close to it.
func (l *letterer) beside(d *Seen, place NameAt, past bool, width, size float64) placing.Point {
	at := d.To(place.At)
	if place.Side.Len() == 0 {
		return at
	}
	way := d.way(place.At, place.Side)
	reach := math.Max(math.Abs(way[0]), math.Abs(way[1]))
	gap := gapPoints * l.Scale
	if past {
		gap = (gripPoints + patchPoints + 1) * l.Scale
	}
	return placing.Point{at[0] + way[0]/reach*(width/2+gap), at[1] + way[1]/reach*(size/2+gap)}
}

// within tells whether a box lies in a region of the drawing.
func (d *Seen) within(b placing.Box, region plan.Region) bool {
	for _, x := range [2]float64{b.Low[0], b.High[0]} {
		for _, y := range [2]float64{b.Low[1], b.High[1]} {
			if !region.Contains(d.Back(placing.Point{x, y}), 0) {
				return false
			}
		}
	}
	return true
}

// disc asks for room for the letter of a wall: on it where it is broad enough, else beside it, and
// where there is no room there on it all the same, wherever it shows.
func (l *letterer) disc(d *Seen, n *Name) {
	const placeCost, narrowCost, alongCost = 0.5, 20, 25
	size := l.sized(discText)
	disc := Disc{Letters: n.Disc.String(), Size: size}
	disc.Radius = math.Max(discRadius*l.Scale, l.Measure(message.Text(disc.Letters), size)/2+gapPoints*l.Scale)
	broad := n.BroadMM*d.PixelsPerMM >= discBroad*l.Scale
	label := placing.Label{LeaveOut: mustCost}
	var at []placing.Point
	put := func(p placing.Point, cost float64) {
		label.Candidates = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{placing.Around(p, 2*disc.Radius, 2*disc.Radius)}, Cost: cost})
		at = append(at, p)
	}
	for k, place := range n.Places {
		cost := placeCost * float64(k)
		if place.Side.Len() == 0 && !broad {
			cost += narrowCost
		}
		put(l.off(d, place, disc.Radius), cost)
	}
	line := d.straight(n.Line[0], n.Line[1])
	if from, to := line.Within(l.scene.Picture); from < to {
		for k, share := range [...]float64{0.5, 0.3, 0.7, 0.15, 0.85, 0.06, 0.94} {
			t := from + share*(to-from)
			put(placing.Point{line[0][0] + t*(line[1][0]-line[0][0]), line[0][1] + t*(line[1][1]-line[0][1])}, alongCost+placeCost*float64(k))
		}
	}
	l.add(label, func(k int, out *Lettering) {
		disc := disc
		disc.At = at[k]
		out.Discs = append(out.Discs, disc)
	})
}

// off is the middle of a disc at a place, past its side.
func (l *letterer) off(d *Seen, place NameAt, radius float64) placing.Point {
	at, off := d.To(place.At), radius+gapPoints*l.Scale
	if place.Side.Len() == 0 {
		return at
	}
	way := d.way(place.At, place.Side)
	return placing.Point{at[0] + way[0]*off, at[1] + way[1]*off}
}

// ringed asks for room for the letters of a corner in a ring, a little farther off where there is none at it.
func (l *letterer) ringed(d *Seen, n *Name) {
	const placeCost, fartherPoints, fartherCost = 2, 8, 3
	size := l.sized(ringText)
	disc := Disc{Letters: n.Ring.String(), Size: size, Ring: true}
	disc.Radius = math.Max(discRadius*l.Scale, l.Measure(message.Text(disc.Letters), size)/2+gapPoints/2*l.Scale)
	label := placing.Label{LeaveOut: ringCost}
	var at []placing.Point
	for farther := range 5 {
		for k, place := range n.Places {
			p := l.off(d, place, disc.Radius+float64(farther*fartherPoints)*l.Scale)
			label.Candidates = append(label.Candidates, placing.Candidate{
				Boxes: []placing.Box{placing.Around(p, 2*disc.Radius, 2*disc.Radius)}, Cost: float64(placeCost*k + farther*fartherCost)})
			at = append(at, p)
		}
	}
	l.add(label, func(k int, out *Lettering) {
		disc := disc
		disc.At = at[k]
		out.Discs = append(out.Discs, disc)
	})
}
