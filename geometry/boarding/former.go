package boarding

import (
	"math"

	"underfall/geometry/assembly"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// former lays a former of boards: on each plane of the fall whole ones from its low side up, as
// long and as wide as they come, and what lies level beside the drain by itself.
func (g *layers) former(p *assembly.Part, region plan.Region, bottom, top solid.Surface) {
	layer := Layer{Name: p.Name, Region: region, Former: true, Along: g.l.ToRight}
	layer.Across = plan.Left(layer.Along)
	_, layer.ThicknessMM = solid.Between(region, bottom, top)
	orEndless := func(mm float64) float64 {
		if mm == 0 {
			return math.Inf(1)
		}
		return mm
	}
	limit := size{orEndless(g.j.Former.LongestMM), orEndless(g.j.Former.WidestMM)}
	rest := region
	for i := range g.l.Planes {
		plane := &g.l.Planes[i]
		up := plan.Point{plane.SlopeX, plane.SlopeY}
		if up.Len() == 0 {
			continue
		}
		on := Layer{Along: up.Normalize()}
		on.Across = plan.Left(on.Along)
		f := field{layer: &on, limit: limit, sh: g.sh}
		f.whole(g.sh.Intersect(region, plane.Region, what()))
		rest = g.sh.Subtract(rest, plane.Region, what())
		layer.take(&on)
	}
	level := Layer{Along: layer.Along, Across: layer.Across}
	f := field{layer: &level, limit: limit, sh: g.sh}
	f.whole(rest)
	layer.take(&level)
	layer.Stock = -1
	g.laid(layer, bottom, top)
}

// take takes over what is laid of a part of it.
func (l *Layer) take(part *Layer) {
	l.Pieces, l.Strips, l.TooMany = append(l.Pieces, part.Pieces...), l.Strips+part.Strips, l.TooMany || part.TooMany
}

// whole puts boards over a region one after the other from its start, in rows, none staggered.
func (f *field) whole(region plan.Region) {
	if len(region) == 0 {
		return
	}
	u0, u1 := region.Reach(f.layer.Along)
	v0, v1 := region.Reach(f.layer.Across)
	if f.layer.TooMany = f.tooMany(u1-u0, v1-v0); f.layer.TooMany {
		return
	}
	for _, row := range rows(v0, v1, math.Min(f.limit.wide, v1-v0)) {
		for from := u0; u1-from > plan.HairMM; from += f.limit.long {
			f.piece(region, from, math.Min(u1, from+f.limit.long), row)
		}
	}
}
