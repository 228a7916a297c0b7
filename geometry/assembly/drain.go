package assembly

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Sizes of the generic drain that a job does not state. Common practice, no
// source.
const (
	shellMM     = part.TrapWallMM // wall of channel and trap
	coverMM     = 5               // thickness of the cover
	coverGapMM  = 3               // gap round the cover
	slotWidthMM = 6
	slotPitchMM = 22
)

func upright(p plan.Point) mgl64.Vec3 { return mgl64.Vec3{p.X(), p.Y(), 0} }

// point is a place in plan given along and across the drain from its centre.
func (b *builder) point(u, v float64) plan.Point {
	along := b.layout.DrainAlong
	return b.layout.DrainCentre.Add(along.Mul(u)).Add(plan.Left(along).Mul(v))
}

// rectangle in the drain's own directions between two corners.
func (b *builder) rectangle(u0, v0, u1, v1 float64) plan.Region {
	return plan.FromRing(plan.Ring{b.point(u0, v0), b.point(u1, v0), b.point(u1, v1), b.point(u0, v1)})
}

// drainAndTrap makes the channel with its cover, and the trap with its dip
// tube and the water of its seal. All are made of plates, so that the outlet
// and the throat are real holes.
func (b *builder) drainAndTrap() {
	h, d := b.heights, b.job.Drain
	halfU, halfV := b.job.DrainLengthMM()/2, d.WidthMM/2
	trap := h.Trap(&b.job, &b.layout)
	// The dip hangs from the throat's edge.
	throat := b.inTrap(trap.DipAlong, trap.DipAcross)
	outer := b.rectangle(-halfU, -halfV, halfU, halfV)
	inner := b.rectangle(-halfU+shellMM, -halfV+shellMM, halfU-shellMM, halfV-shellMM)
	lip := h.TileMM - coverMM
	channelUnder := math.Max(h.ChannelMM, h.TrapMM+4*shellMM)
	channel := message.Of("shape.drain-channel")
	if lip-channelUnder > 2*shellMM {
		b.add(Part{ID: "channel", Name: message.Of("part.channel"), Material: material.Metal, Stage: buildup.StageFormer, Precedence: precedenceTrap, From: "drain.channelDepthMM",
			Shape: solid.Compound{solid.Block(b.without(outer, throat, channel), channelUnder, channelUnder+shellMM),
				solid.Block(b.without(outer, inner, channel), channelUnder+shellMM, lip)}})
	}
	b.cover(lip)
	b.trap(trap, channelUnder, throat)
}

// inTrap is a rectangle along the way to the outlet and to the left of it, from the
// trap's middle.
func (b *builder) inTrap(along, across plan.Interval) plan.Region {
	l := b.layout
	at := func(u, v float64) plan.Point {
		return l.TrapCentre.Add(l.OutletTo.Mul(u)).Add(plan.Left(l.OutletTo).Mul(v))
	}
	return plan.FromRing(plan.Ring{at(along.From, across.From), at(along.To, across.From), at(along.To, across.To), at(along.From, across.To)})
}

// slots are the slots across the cover: their half length and how many.
func slots(halfU, halfV float64) (reach float64, n int) {
	const rimMM = 9
	reach = halfV - rimMM
	if reach < 4 {
		return 0, 0
	}
	return reach, max(0, int((2*halfU-2*slotPitchMM)/slotPitchMM))
}

// coverHalves are the half length and half width of the cover.
func coverHalves(j job.Job) (halfU, halfV float64) {
	halfU, halfV = j.DrainLengthMM()/2, j.Drain.WidthMM/2
	return halfU - coverGapMM, halfV - coverGapMM
}

// Gap round the tile of a cover that carries one, and the thickness of its tray.
// Common practice, no source.
const (
	insertGapMM  = 6
	insertTrayMM = 2
)

// cover lays the drain's cover from its underside up to the tile: a slotted
// plate, or a tray with a tile in it.
func (b *builder) cover(lip float64) {
	top := b.heights.TileMM
	part := Part{ID: "cover", Name: message.Of("part.cover"), Material: material.Metal, Stage: buildup.StageTile, Precedence: precedenceTrap, From: "drain.coverLeastMM"}
	if b.job.Style.Cover != job.CoverTileInsert {
		part.Shape = solid.Block(b.coverPlate(), lip, top)
		b.add(part)
		return
	}
	u, v := coverHalves(b.job)
	u, v = u+coverGapMM-insertGapMM, v+coverGapMM-insertGapMM
	plate := b.sheet(b.rectangle(-u, -v, u, v), message.Of("shape.drain-cover"))
	part.Shape = solid.Block(plate, lip-insertTrayMM, lip)
	b.add(part)
	b.add(Part{ID: "cover-tile", Name: message.Of("part.cover-tile"), Material: material.Tile, Stage: buildup.StageTile, Precedence: precedenceTrap, From: "style.cover",
		Shape: solid.Block(plate, lip, top), Finish: &b.job.Layers.Shower})
}

// CoverOpenings are the perimeter water comes over to the cover and the open
// area it goes through: the slots and the gap round the plate.
func CoverOpenings(j job.Job) (perimeterMM, areaMM2 float64) {
	u, v := coverHalves(j)
	if j.Style.Cover == job.CoverTileInsert {
		perimeterMM = 4 * (u + v + 2*coverGapMM)
		return perimeterMM, perimeterMM * insertGapMM
	}
	reach, n := slots(u, v)
	perimeterMM = 4 * (u + v + 2*coverGapMM)
	return perimeterMM, float64(n)*slotWidthMM*2*reach + perimeterMM*coverGapMM
}

// coverPlate is the cover with its slots: a rim along each long side, and bars
// between and beside the slots.
func (b *builder) coverPlate() solid.Sheet {
	what := message.Of("shape.drain-cover")
	halfU, halfV := coverHalves(b.job)
	plate := b.rectangle(-halfU, -halfV, halfU, halfV)
	reach, n := slots(halfU, halfV)
	if n == 0 {
		return b.sheet(plate, what)
	}
	// The corners of the rims along the slots from left to right, as indexes: the
	// plate's own four come first, then each slot's, clockwise from its upper left.
	lower, upper := make([]int, 0, 2*n), make([]int, 0, 2*n)
	for k := range n {
		u := (float64(k) - float64(n-1)/2) * slotPitchMM
		slot := b.rectangle(u-slotWidthMM/2, -reach, u+slotWidthMM/2, reach)
		plate[0].Holes = append(plate[0].Holes, slot[0].Outer.Reversed())
		first := 4 + 4*k
		upper, lower = append(upper, first, first+1), append(lower, first+3, first+2)
	}
	last := 2*n - 1
	triangles := [][3]int{{0, 1, lower[last]}, {3, upper[last], 2}, {0, lower[0], upper[0]}, {0, upper[0], 3},
		{lower[last], 1, 2}, {lower[last], 2, upper[last]}}
	for i := range last {
		triangles = append(triangles, [3]int{0, lower[i+1], lower[i]}, [3]int{3, upper[i], upper[i+1]})
		if between := i%2 == 1; between {
			triangles = append(triangles, [3]int{lower[i], lower[i+1], upper[i+1]}, [3]int{lower[i], upper[i+1], upper[i]})
		}
	}
	return solid.CoverBy(b.shaper, plate[0], triangles, what)
}

// trap makes the body up to a level, with the dip tube from the throat, and the water
// in it.
func (b *builder) trap(t level.Trap, top float64, throat plan.Region) {
	l := b.layout
	half, in := t.HalfMM+shellMM, t.HalfMM
	to := l.OutletTo
	pipe := b.job.Waste.Pipe
	what := message.Of("shape.trap")
	shape := solid.Compound{solid.Block(b.sheet(l.Trap, what), t.UnderMM, t.FloorMM)}
	// Three sides as one bent plate, the outlet's side as a plate with a hole.
	side := plan.Left(to)
	centre := l.TrapCentre
	at := func(u, v float64) plan.Point { return centre.Add(to.Mul(u)).Add(side.Mul(v)) }
	bent := plan.FromRing(plan.Ring{at(-half, -half), at(in, -half), at(in, -in), at(-in, -in), at(-in, in), at(in, in), at(in, half), at(-half, half)})
	shape = append(shape, solid.Block(b.sheet(bent, what), t.FloorMM, top))
	face := plan.Rectangle(plan.Point{-half, t.FloorMM}, plan.Point{half, top})
	axis := b.heights.OutletMM + pipe.BoreMM/2
	outlet := plan.FromRing(plan.Circle(plan.Point{0, axis}, pipe.BoreMM/2, solid.ChordErrorMM))
	// The frame runs along the plate so that its third axis is the outlet's.
	shape = append(shape, solid.Prism{Frame: solid.UprightFrame(upright(centre.Add(to.Mul(in))), side),
		Sheet: b.without(face, outlet, what), Bottom: solid.Level(0), Top: solid.Level(shellMM)})
	tube := b.subtract(throat, inner(throat, shellMM), what)
	if top-t.DipMM > shellMM {
		shape = append(shape, solid.Block(b.sheet(tube, what), t.DipMM, top))
	}
	across := plan.Interval{From: -in, To: in}
	whole := b.inTrap(across, across)
	before, chamberUnder := whole, t.FloorMM
	if weir := math.Min(t.WeirMM, top); math.Min(t.InnerWeirMM, weir-b.heights.OutletMM) > plan.HairMM {
		plate, chamber := plan.Interval{From: t.PlateMM, To: t.PlateMM + shellMM}, plan.Interval{From: t.PlateMM + shellMM, To: in}
		before, chamberUnder = b.inTrap(plan.Interval{From: -in, To: t.PlateMM}, across), math.Max(t.FloorMM, b.heights.OutletMM-shellMM)
		shape = append(shape, solid.Block(b.sheet(b.inTrap(plate, across), what), chamberUnder, weir))
		if b.heights.OutletMM-chamberUnder > plan.HairMM {
			shape = append(shape, solid.Block(b.sheet(b.inTrap(chamber, across), what), chamberUnder, b.heights.OutletMM))
		}
	}
	b.add(Part{ID: "trap", Name: message.Of("part.trap"), Material: material.Plastic, Stage: buildup.StageWaste, Precedence: precedenceTrap, From: "drain.trapDepthMM", Shape: shape})
	b.seal(t, top, whole, before, chamberUnder, tube)
	b.trapBed()
}

// trapBed is what the trap is bedded on where room is left for it.
func (b *builder) trapBed() {
	j, h := b.job, b.heights
	if j.Base.Support != job.OnFloor || j.Drain.BedUnderMM <= 0 {
		return
	}
	b.addPrism("trap-bed", message.Of("part.trap-bed"), material.Adhesive, buildup.StageWaste, precedenceAdhesive, "drain.bedUnderMM",
		b.sheet(b.layout.Trap, message.Of("shape.trap")), solid.Surface{h.Ground}, solid.Level(h.TrapMM))
}

// seal fills the body with water up to a level at most: the whole of it as far as the
// chamber behind a weir, over that what lies before the weir, beside the dip's tube.
func (b *builder) seal(t level.Trap, top float64, whole, before plan.Region, chamberUnder float64, tube plan.Region) {
	what := message.Of("shape.trap-water")
	surface := math.Min(t.WaterMM, top)
	var wet solid.Compound
	from := t.FloorMM
	for _, to := range []float64{math.Min(chamberUnder, t.DipMM), math.Max(chamberUnder, t.DipMM), surface} {
		to = math.Min(to, surface)
		if to-from <= plan.HairMM {
			continue
		}
		region := whole
		if from >= chamberUnder {
			region = before
		}
		if from >= t.DipMM {
			region = b.subtract(region, tube, what)
		}
		wet = append(wet, solid.Block(b.sheet(region, what), from, to))
		from = to
	}
	if len(wet) > 0 {
		b.add(Part{ID: "seal", Name: message.Of("part.seal"), Material: material.Water, Stage: buildup.StageWaste, Precedence: precedencePipe, From: "drain.sealMM", Shape: wet})
	}
}

// inner is a rectangle drawn in by the given amount, which is less than half its
// sides: the smallest drain and the smallest trap leave that much.
func inner(r plan.Region, by float64) plan.Region {
	o := r[0].Outer
	u, v := o[1].Sub(o[0]).Normalize().Mul(by), o[3].Sub(o[0]).Normalize().Mul(by)
	return plan.FromRing(plan.Ring{o[0].Add(u).Add(v), o[1].Sub(u).Add(v), o[2].Sub(u).Sub(v), o[3].Add(u).Sub(v)})
}
