package assembly

import (
	"math"

	"underfall/geometry/buildup"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// sawable is a region without the pieces of it that are too narrow to be sawn and fixed, across a
// direction: they are left out.
func sawable(r plan.Region, along plan.Point) plan.Region {
	var out plan.Region
	for _, p := range r {
		if from, to := (plan.Region{p}).Reach(plan.Left(along)); to-from >= leastStripMM {
			out = append(out, p)
		}
	}
	return out
}

// slivers are strips too narrow to be sawn, between a joist and what is left out for pipe and
// trap beside it: no board is put in there.
func (b *builder) slivers(js *layout.Joist) plan.Region {
	what, across := message.Of("shape.base-between-joists"), plan.Left(js.Along)
	var out plan.Region
	for _, p := range js.Footprint {
		from, to := acrossOf(p, js.Origin, js.Along)
		for _, side := range [2]plan.Point{across, across.Mul(-1)} {
			at := func(u, v float64) plan.Point { return js.Origin.Add(js.Along.Mul(u)).Add(side.Mul(js.WidthMM/2 + v)) }
			beside := plan.FromRing(plan.Ring{at(from, 0), at(to, 0), at(to, leastStripMM), at(from, leastStripMM)})
			if !b.channel.Overlap(beside) {
				continue
			}
			for _, cut := range b.intersect(b.channel, beside, what) {
				low, high := acrossOf(cut, js.Origin, js.Along)
				out = append(out, plan.FromRing(plan.Ring{at(low, 0), at(high, 0), at(high, leastStripMM), at(low, leastStripMM)})...)
			}
		}
	}
	return out
}

// acrossOf is from where to where a shape reaches in a direction, from an origin.
func acrossOf(p plan.Polygon, origin, direction plan.Point) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, q := range p.Outer {
		v := q.Sub(origin).Dot(direction)
		from, to = math.Min(from, v), math.Max(to, v)
	}
	return from, to
}

// besideEach is a region less pieces that it meets, one after another: they touch each other,
// in the corners of an opening, and together are no shape to take out.
func (b *builder) besideEach(region, pieces plan.Region, what message.Message) plan.Region {
	for _, p := range pieces {
		if piece := (plan.Region{p}); region.Overlap(piece) {
			region = b.subtract(region, piece, what)
		}
	}
	return region
}

// alongside puts more pieces beside those that are there, each as far as it is not taken.
func (b *builder) alongside(pieces, more plan.Region, what message.Message) plan.Region {
	for _, p := range more {
		pieces = append(pieces, b.besideEach(plan.Region{p}, pieces, what)...)
	}
	return pieces
}

// battens are the ledgers that carry the boards between the joists, their tops at a
// level, and the noggins.
func (b *builder) battens(between solid.Sheet, topMM float64) {
	j := b.job
	// Ledgers in a narrow bay leave each other room.
	wide, deep := j.Base.Ledger()
	batten := math.Min(wide, (j.Floor.Joists.SpacingMM-j.Floor.Joists.WidthMM)/2-1)
	var battens plan.Region
	what := message.Of("shape.battens")
	for i := range b.layout.Joists {
		js := &b.layout.Joists[i]
		for _, side := range grown(js.Footprint, batten) {
			beside := b.ledger(js, b.intersect(between.Region(), plan.Region{side}, what), batten)
			battens = b.alongside(battens, beside, what)
		}
	}
	battens = b.alongside(battens, b.wallLedgers(between.Region(), batten), what)
	b.addPrism("battens", message.Of("part.battens"), material.Timber, buildup.StageBase, precedenceFloor, "base.support",
		b.sheet(battens, what), solid.Level(topMM-deep), solid.Level(topMM))
	b.noggins(battens, topMM-deep, topMM)
}

// ledger is what lies beside a joist under the boards, whole: beside one that stands outside
// the shower's edge it reaches on to the joist, doubled where the boards would else have too
// little to lie on. What is too narrow to be sawn is left out.
func (b *builder) ledger(js *layout.Joist, under plan.Region, wideMM float64) plan.Region {
	what, across := message.Of("shape.battens"), plan.Left(js.Along)
	var out plan.Region
	for _, p := range under {
		low, high := acrossOf(p, js.Origin, across)
		side := 1.0
		if low+high < 0 {
			side, low = -1, -high
		}
		face := js.WidthMM / 2
		if low-face < plan.HairMM {
			out = append(out, sawable(plan.Region{p}, js.Along)...)
			continue
		}
		reach := wideMM
		for reach-(low-face) < leastStripMM {
			reach += wideMM
		}
		from, to := acrossOf(p, js.Origin, js.Along)
		at := func(u, v float64) plan.Point { return js.Origin.Add(js.Along.Mul(u)).Add(across.Mul(side * v)) }
		beside := plan.FromRing(plan.Ring{at(from, face), at(to, face), at(to, face+reach), at(from, face+reach)})
		whole := b.intersect(beside, b.layout.Room, what)
		if b.channel.Overlap(whole) {
			whole = b.subtract(whole, b.channel, what)
		}
		for i := range b.layout.Joists {
			if o := b.layout.Joists[i].Footprint; o.Overlap(whole) {
				whole = b.subtract(whole, o, what)
			}
		}
		out = append(out, whole...)
	}
	return out
}

// wallLedgers carry the boards on the wall's side of a bay beside a wall, fixed to it.
func (b *builder) wallLedgers(between plan.Region, wideMM float64) plan.Region {
	var out plan.Region
	what := message.Of("shape.battens")
	for _, e := range b.layout.Edges {
		if e.Wall < 0 {
			continue
		}
		w := &b.layout.Walls[e.Wall]
		along := joistsAlong(&b.layout)
		if math.Abs(w.Along.Dot(along)) < 1-plan.HairMM {
			continue // the boards run out at it, from joist to joist
		}
		beside := plan.Strip(e.A, e.B, w.Outward.Mul(-wideMM))
		out = append(out, sawable(b.intersect(between, beside, what), along)...)
	}
	return out
}

// joistsAlong is the way the joists run.
func joistsAlong(l *layout.Layout) plan.Point {
	if len(l.Joists) == 0 {
		return plan.Point{1, 0}
	}
	return l.Joists[0].Along
}
