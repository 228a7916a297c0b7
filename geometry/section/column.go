package section

import (
	"math"
	"strings"

	"underfall/geometry/buildup"
	"underfall/geometry/plan"
)

// column is what an upright line through a section meets: the areas in the order they are
// drawn, with the stretches of the line in each.
type column []columnPart

type columnPart struct {
	partID string
	in     []plan.Interval
}

// column at a distance along the cut.
func (d *Drawing) column(x float64) column {
	var out column
	for _, a := range d.Areas {
		if in := a.Region.Clip(plan.Point{x, 0}, plan.Point{0, 1}); len(in) > 0 {
			out = append(out, columnPart{a.PartID, in})
		}
	}
	return out
}

// at is the part that is seen at a level; empty for none.
func (c column) at(level float64) string {
	for i := len(c) - 1; i >= 0; i-- {
		for _, iv := range c[i].in {
			if level >= iv.From && level <= iv.To {
				return c[i].partID
			}
		}
	}
	return ""
}

// cut tells whether the line goes through a layer's body half way up it.
func (c column) cut(layer *buildup.Course) bool {
	of := layer.Kind.Facts().PartID
	id := c.at((layer.BottomMM + layer.TopMM) / 2)
	return id == of || strings.HasPrefix(id, of+"-")
}

// intoMM is how far into the structure it is pointed at; a deck is thicker.
const intoMM = 8

// structure tells whether the line goes through the structural floor under a level: its
// slab or its deck, or a joist that is bare.
func (c column) structure(topMM float64) bool {
	id := c.at(topMM - intoMM)
	return id == "slab" || id == "deck" || strings.HasPrefix(id, "joist-")
}

// nearest is the place from low to high nearest to x that serves, looked for in steps; ok
// is false where none does.
func nearest(x, low, high float64, serves func(x float64) bool) (at float64, ok bool) {
	const stepMM = 10
	for off := 0.0; x-off >= low || x+off <= high; off += stepMM {
		for _, at := range [2]float64{x - off, x + off} {
			if at >= low && at <= high && serves(at) {
				return at, true
			}
		}
	}
	return math.NaN(), false
}
