package level

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// GlassPlace is a place along the glass of a screen and the level of its lower edge there.
type GlassPlace struct {
	At      plan.Point
	LevelMM float64
}

// Glass is the glass of a screen as it is cut: its lower edge as far over the floor it
// stands on as its gap says, its top level.
type Glass struct {
	// Foot is its lower edge from one end to the other, straight between its places.
	Foot  []GlassPlace
	TopMM float64
}

// GlassOf is the glass of a screen of the layout.
func (h *Heights) GlassOf(j *job.Job, l *layout.Layout, x *layout.Screen) Glass {
	of := &j.Shower.Screens[x.Index]
	a, b := x.Foot()
	g := Glass{TopMM: math.Max(h.ShowerAt(l, a), h.ShowerAt(l, b)) + of.HeightMM}
	top, kerb := h.KerbTop(j, l)
	put := func(p plan.Point) {
		on := h.ShowerAt(l, p)
		if kerb {
			on = top
		}
		g.Foot = append(g.Foot, GlassPlace{p, on + of.GapMM})
	}
	put(a)
	for _, p := range x.Creases {
		put(p)
	}
	put(b)
	return g
}

// LevelAt is its lower edge beside a place in plan; beyond its ends as at them.
func (g Glass) LevelAt(p plan.Point) float64 {
	first, last := g.Foot[0], g.Foot[len(g.Foot)-1]
	u := last.At.Sub(first.At).Normalize()
	along := func(q plan.Point) float64 { return q.Sub(first.At).Dot(u) }
	s := math.Max(0, math.Min(along(last.At), along(p)))
	for i, q := range g.Foot[1:] {
		before := g.Foot[i]
		if from, to := along(before.At), along(q.At); s <= to && to > from {
			return before.LevelMM + (q.LevelMM-before.LevelMM)*(s-from)/(to-from)
		}
	}
	return last.LevelMM
}

// Lowest is the lowest place of its lower edge, the first of several as low.
func (g Glass) Lowest() GlassPlace {
	low := g.Foot[0]
	for _, p := range g.Foot[1:] {
		if p.LevelMM < low.LevelMM-plan.HairMM {
			low = p
		}
	}
	return low
}

// DropMM is how far its lower edge is out of level.
func (g Glass) DropMM() float64 {
	high := math.Inf(-1)
	for _, p := range g.Foot {
		high = math.Max(high, p.LevelMM)
	}
	return high - g.Lowest().LevelMM
}

// TallMM is its height where it is highest.
func (g Glass) TallMM() float64 { return g.TopMM - g.Lowest().LevelMM }
