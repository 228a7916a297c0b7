package assembly

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// leastStripMM is the narrowest strip of board that is left beside a cut. Common
// practice, no source.
const leastStripMM = 20

// toWalls is a rectangle of a cut, drawn on to the edge of the floor where no more than a
// strip would be left there.
func (b *builder) toWalls(r plan.Region) plan.Region {
	if len(r) == 0 {
		return r
	}
	ring := append(plan.Ring(nil), r[0].Outer...)
	middle := r.Centroid()
	for i := range ring {
		k := (i + 1) % len(ring)
		side := ring[i].Add(ring[k]).Mul(0.5)
		out := plan.Left(ring[k].Sub(ring[i]).Normalize())
		if out.Dot(side.Sub(middle)) < 0 {
			out = out.Mul(-1)
		}
		for _, iv := range b.layout.FallArea.Clip(side, out) {
			if iv.From <= 0 && iv.To > 0 && iv.To < leastStripMM {
				ring[i], ring[k] = ring[i].Add(out.Mul(iv.To)), ring[k].Add(out.Mul(iv.To))
			}
		}
	}
	return plan.FromRing(ring)
}

// channels is what is sawn out of the base for the trap and the pipe: as wide as the
// widest socket or nut along the run, with the saw margin each side. The cut goes
// through the full height: a saw does not stop half way.
func (b *builder) channels() plan.Region {
	margin := b.job.Base.SawMarginMM
	out := b.toWalls(grown(b.layout.Trap, margin))
	run := &b.heights.Run
	path := run.BodyPath()
	if len(path) > 0 && b.job.Waste.Exit.Kind == job.ExitFloor {
		// Pipe and socket stand round the exit.
		path = append(path, run.Exit.Add(run.ExitTo.Mul(run.Pieces[len(run.Pieces)-1].RadiusMM())))
	}
	if old := OldPipeMM(b.layout.Room, run); len(path) > 0 && b.job.Waste.Exit.Kind == job.ExitPipe && old > plan.HairMM {
		path = append(path, run.Exit.Add(run.ExitTo.Mul(old)))
	}
	if len(path) > 1 {
		what := message.Of("shape.channel")
		out = b.shaper.Union(out, b.shaper.Corridor(path, TroughMM(&b.job, &b.heights)/2, margin, what), what)
	}
	return out
}

// roomChannel is what of that is sawn out in the room: only round the trap where the run goes on under its floor.
func (b *builder) roomChannel() plan.Region {
	if b.heights.UnderRoomFloor(&b.layout) {
		return b.toWalls(grown(b.layout.Trap, b.job.Base.SawMarginMM))
	}
	return b.channel
}

// precedenceOf is which of two overlapping parts a section shows, by what a
// layer is made of.
func precedenceOf(m material.Material) int {
	switch m {
	case material.Adhesive:
		return precedenceAdhesive
	case material.BaseBoard:
		return precedenceBase
	case material.FormerBody:
		return precedenceFormer
	case material.Tile:
		return precedenceTile
	}
	return precedenceLayer
}

// called is what the body of a layer is called, and the part of the job it comes from; ofKind is how manieth
// of its kind it is in a stack of boards, 0 for none of one.
func called(l buildup.Layer, ofKind int) (id string, name message.Message, from string) {
	facts := l.Kind.Facts()
	id, name = l.Kind.PartID(l.Number, ofKind), message.Of(facts.PartName)
	if ofKind > 0 && l.Kind.InStack() {
		name = message.Of("part.numbered", message.In("part", name), message.No("n", ofKind))
	}
	if !l.Kind.Listed() {
		return id, name, facts.Key
	}
	return id,
		message.Of(facts.PartName, message.In("layer", message.Of(l.Name)), message.No("n", l.Number)),
		fmt.Sprintf("%s[%d].thicknessMM", facts.Key, l.Number-1)
}

// lay adds the bodies of a zone's layers that come at a stage; sheets gives what
// each covers.
func (b *builder) lay(z buildup.Zone, stage buildup.Stage, sheets func(buildup.Layer) solid.Sheet) {
	defer func() { b.recess = nil }()
	laid := map[buildup.Kind]int{}
	for i, l := range z.Layers {
		facts := l.Kind.Facts()
		if facts.Stage != stage {
			continue
		}
		if b.recess = nil; l.Kind.OfShowerBase() && b.heights.ChannelMM < b.heights.FlangeMM {
			b.recess = b.toWalls(grown(b.layout.Drain, b.job.Base.SawMarginMM))
		}
		laid[l.Kind]++
		id, name, from := called(l, laid[l.Kind])
		if i > 0 && l.Kind == buildup.RoomBed && len(z.Layers[i-1].Without) > 0 {
			b.roomBed(l, z.Layers[i-1], sheets(l).Region())
			continue
		}
		if l.Kind == buildup.ShowerBed && len(b.lying) > 0 {
			b.showerBed(l, sheets(l).Region())
			continue
		}
		b.addPrism(id, name, l.Material, stage, precedenceOf(facts.Material), from, sheets(l), l.Bottom, l.Top)
		if facts.Material == material.Tile {
			finish := &b.job.Layers.Room
			if l.Kind == buildup.ShowerTile {
				finish = &b.job.Layers.Shower
			}
			b.finish(id, finish)
		}
	}
}

// roomBed is the bed of the room's tile, which lies lower where the tanking under it does
// not reach.
func (b *builder) roomBed(bed, tanking buildup.Layer, region plan.Region) {
	facts, what := bed.Kind.Facts(), message.Of("shape.untanked")
	var shape solid.Compound
	if beyond := b.sheet(b.intersect(region, b.layout.Untanked, what), what); stands(beyond, tanking.Bottom, bed.Top) {
		shape = append(shape, solid.Upright(beyond, tanking.Bottom, bed.Top))
	}
	if tanked := b.without(region, b.layout.Untanked, what); stands(tanked, bed.Bottom, bed.Top) {
		shape = append(shape, solid.Upright(tanked, bed.Bottom, bed.Top))
	}
	if len(shape) == 0 {
		return
	}
	b.add(Part{ID: facts.PartID, Name: message.Of(facts.PartName), Material: bed.Material, Stage: facts.Stage,
		Precedence: precedenceOf(facts.Material), From: facts.Key, Shape: shape})
}

// shower and room are the first and the last zone of the floor.
func (b *builder) shower() buildup.Zone { return b.floor.Zones[0] }

func (b *builder) base() {
	j, l, h := b.job, b.layout, b.heights
	between := b.boards
	if j.Base.Support == job.BetweenJoists {
		var joists plan.Region
		for _, js := range l.Joists {
			joists = append(joists, js.Footprint...)
		}
		what := message.Of("shape.base-between-joists")
		boards := b.subtract(b.boards.Region(), joists, what)
		for i := range l.Joists {
			boards = b.besideEach(boards, b.slivers(&l.Joists[i]), what)
		}
		between = b.sheet(sawable(boards, joistsAlong(&l)), what)
		defer b.battens(between, h.LedgerTopMM(&j))
	}
	var whole solid.Sheet
	if len(j.Floor.Existing)+len(j.UnderBase()) > 0 {
		what := message.Of("shape.under-base")
		whole = b.without(b.round(l.FallArea, what), b.dropHole(), what)
	}
	b.lay(b.shower(), buildup.StageBare, func(buildup.Layer) solid.Sheet { return whole })
	b.lay(b.shower(), buildup.StageBase, func(l buildup.Layer) solid.Sheet {
		switch {
		case len(l.Without) > 0:
			return between
		case l.Kind == buildup.BaseCourse:
			return whole
		}
		return b.boards
	})
	if !math.IsNaN(h.RoomTopMM) {
		what := message.Of("shape.room-base")
		rest := b.without(b.besidePump(b.round(l.Rest, what), what), b.roomChannel(), what)
		b.lay(b.floor.Zones[len(b.floor.Zones)-1], buildup.StageBase, func(buildup.Layer) solid.Sheet { return rest })
	}
}

// noggins are those across the bays of the opening, between ledgers from one level to another;
// under the deck they follow it.
func (b *builder) noggins(ledgers plan.Region, lowMM, highMM float64) {
	opening, ok := joist.OpeningOf(&b.job, &b.layout, &b.heights)
	if !ok {
		return
	}
	deck := solid.Surface{b.heights.Survey.Floor.Raised(-b.job.Floor.Deck.ThicknessMM)}
	joistTop := b.heights.JoistTopMM(&b.job)
	var trimmed plan.Region
	for _, js := range b.layout.Joists {
		if js.Trimmed() {
			trimmed = append(trimmed, js.Footprint...)
		}
	}
	for i, n := range opening.Noggins {
		top := solid.Level(joistTop - n.TopMM)
		if n.UnderDeck {
			top = deck
		}
		what := message.Of("part.noggin", message.No("n", i+1))
		region := b.intersect(plan.FromRing(n.Ring), b.layout.Room, message.Of("shape.noggins"))
		if len(trimmed) > 0 {
			region = b.subtract(region, trimmed, message.Of("shape.noggins"))
		}
		if at := top.At(n.Ring[0]); at > lowMM && at-n.DepthMM < highMM && ledgers.Overlap(region) {
			region = b.subtract(region, ledgers, message.Of("shape.noggins"))
		}
		b.addPrism(fmt.Sprintf("noggin-%d", i+1), what, material.Timber, buildup.StageBase, precedenceFloor, "base.nogginSpacingMM",
			b.sheet(region, message.Of("shape.noggins")), top.Raised(-n.DepthMM), top)
	}
}

func (b *builder) former() {
	b.trough()
	what := message.Of("shape.former")
	open := b.sheet(b.round(b.layout.OpenFloor, what), what)
	for _, stage := range []buildup.Stage{buildup.StageFormer, buildup.StageTanking} {
		b.lay(b.shower(), stage, func(l buildup.Layer) solid.Sheet {
			if l.Kind.Facts().Extent == buildup.BesideChannel {
				return b.boards
			}
			return open
		})
	}
}

// wallLayer is one layer on the shower's walls.
type wallLayer struct {
	id         string
	name       message.Message
	thickness  float64
	material   material.Material
	stage      buildup.Stage
	precedence int
	from       string
}

// wallLayers are the layers on the shower's walls, from the bare wall out; those of
// nothing are none.
func (b *builder) wallLayers(wall message.Letter) []wallLayer {
	f := &b.job.Layers.Wall
	var out []wallLayer
	for i, c := range f.Under {
		name, of := buildup.CourseFacts(c.Kind)
		out = append(out, wallLayer{fmt.Sprintf("wall-course-%d", i+1),
			message.Of("part.wall-course", message.In("layer", message.Of(name)), message.Wall("wall", wall), message.No("n", i+1)),
			c.ThicknessMM, of, buildup.StageTanking, precedenceLayer, fmt.Sprintf("layers.wall.under[%d].thicknessMM", i)})
	}
	named := func(id message.ID) message.Message { return message.Of(id, message.Wall("wall", wall)) }
	out = append(out,
		wallLayer{wallTankingID, named("part.wall-tanking"), f.Tanking.ThicknessMM,
			material.Membrane, buildup.StageTanking, precedenceLayer, "layers.wall.tanking.thicknessMM"},
		wallLayer{wallBedID, named("part.wall-bed"), f.Bed.ThicknessMM,
			material.TileBed, buildup.StageWallTile, precedenceLayer, "layers.wall.bed.thicknessMM"},
		wallLayer{"wall-tile", named("part.wall-tile"), f.Tile.ThicknessMM,
			material.Tile, buildup.StageWallTile, precedenceTile, "layers.wall.tile.thicknessMM"})
	return slices.DeleteFunc(out, func(l wallLayer) bool { return l.thickness <= 0 })
}

// The layers that the height of the tanking shapes.
const (
	wallTankingID = "wall-tanking"
	wallBedID     = "wall-bed"
)

// onWall is a layer on a wall: where on its face, how far in front of the bare wall and
// how thick.
type onWall struct {
	wall                 layout.Wall
	face                 plan.Region
	insetMM, thicknessMM float64
}

// onWall is the body of a layer on a wall, with the wall's openings and holes; none where
// there is nothing of it.
func (b *builder) onWall(l onWall, what message.Message) solid.Compound {
	if len(l.face) == 0 {
		return nil
	}
	if len(b.layout.Ceiling) > 1 {
		l.face = b.intersect(l.face, b.underCeiling(l.wall, 0, l.wall.LengthMM, b.wallFootMM()), what)
	}
	profile := b.wallProfile(l.wall, l.face, what)
	if profile.Empty() {
		return nil
	}
	// The frame's third axis points out of the room.
	origin := l.wall.A.Sub(l.wall.Outward.Mul(l.insetMM + l.thicknessMM))
	if plan.Left(l.wall.Along).Dot(l.wall.Outward) > 0 {
		origin = origin.Add(l.wall.Outward.Mul(l.thicknessMM))
	}
	frame := solid.UprightFrame(upright(origin), l.wall.Along)
	return solid.Compound{solid.Prism{Frame: frame, Sheet: profile, Bottom: solid.Level(0), Top: solid.Level(l.thicknessMM)}}
}

// wallFinishes lays courses, tanking, bed and tile on the shower's walls. They start on
// the floor's tanking: the wall is tiled first and its tile runs down behind a
// wall drain.
func (b *builder) wallFinishes() {
	shower := &b.job.Layers.Shower
	floor := b.layout.Fall.Raised(b.heights.FlangeMM + shower.UnderMM() + shower.Tanking.ThicknessMM)
	head := math.Min(b.job.Room.HeightMM, b.heights.TileMM+b.job.Layers.WallTiledToMM)
	tanked := math.Min(b.job.Room.HeightMM, b.heights.TileMM+b.job.Layers.TankedToMM())
	stretches := b.layout.FinishedWalls(&b.job)
	for k, fw := range stretches {
		inset := 0.0
		from, to := b.mitred(stretches, k)
		tanking := 0.0 // that the bed takes up over it
		for _, layer := range b.wallLayers(fw.Wall.Letter) {
			on := onWall{fw.Wall, aboveFloor(fw.Wall, from, to, floor, head), inset, layer.thickness}
			under := on
			switch {
			case layer.id == wallTankingID:
				on.face, tanking = aboveFloor(fw.Wall, from, to, floor, tanked), layer.thickness
			case layer.id == wallBedID && tanked < head && tanking > 0:
				on.face = aboveFloor(fw.Wall, from, to, floor, tanked)
				under.face = b.subtract(under.face, on.face, layer.name)
				under.insetMM, under.thicknessMM = inset-tanking, layer.thickness+tanking
			}
			shape := b.onWall(on, layer.name)
			if under.insetMM < inset {
				shape = append(shape, b.onWall(under, layer.name)...)
			}
			if len(shape) > 0 {
				part := Part{ID: fmt.Sprintf("%s-%d", layer.id, k+1), Name: layer.name, Material: layer.material,
					Stage: layer.stage, Precedence: layer.precedence, From: layer.from, Shape: shape, Wall: fw.Wall.Index + 1}
				if len(shape) == 1 {
					part.Shape = shape[0]
				}
				if layer.material == material.Tile {
					part.Finish = &b.job.Layers.Wall
				}
				b.add(part)
			}
			inset += layer.thickness
		}
		start, end := fw.Wall.At(from), fw.Wall.At(to)
		in, joint := fw.Wall.Outward.Mul(-inset), fw.Wall.Outward.Mul(-inset-b.job.Layers.JointMM())
		if b.job.Layers.JointMM() > 0 {
			b.wallJoints = append(b.wallJoints, plan.FromRing(plan.Ring{start.Add(in), end.Add(in), end.Add(joint), start.Add(joint)}))
		}
		b.wallFinish = append(b.wallFinish, plan.Strip(start, end, in))
	}
}

// mitred is the stretch that is left of the k-th finished wall where a finished
// neighbour that comes earlier in the list takes the corner.
func (b *builder) mitred(all []layout.Stretch, k int) (from, to float64) {
	from, to = all[k].From, all[k].To
	w := all[k].Wall
	for _, o := range all[:k] {
		if o.Wall.Index == w.Index {
			continue
		}
		for _, end := range []*float64{&from, &to} {
			p := w.At(*end)
			if plan.DistanceToSegment(p, o.Wall.At(o.From), o.Wall.At(o.To)) > 1 {
				continue
			}
			inward := plan.Point(o.Wall.Outward.Mul(-1))
			along := w.Along
			if end == &to {
				along = along.Mul(-1)
			}
			if c := inward.Dot(along); c > 0.2 {
				shift := b.job.Layers.Wall.ThicknessMM() / c
				if end == &to {
					shift = -shift
				}
				*end += shift
			}
		}
	}
	return from, to
}

// aboveFloor is the face of a wall from the falling floor up to a head, in
// (distance along, level). The floor along a wall is a chain of straights.
func aboveFloor(w layout.Wall, from, to float64, floor solid.Surface, head float64) plan.Region {
	if to-from < 1 {
		return nil
	}
	// Where two planes of the floor cross along the wall.
	at := []float64{from, to}
	for i := range floor {
		for k := i + 1; k < len(floor); k++ {
			d := func(s float64) float64 { return floor[i].At(w.At(s)) - floor[k].At(w.At(s)) }
			if a, c := d(from), d(to); a*c < 0 {
				at = append(at, from+(to-from)*a/(a-c))
			}
		}
	}
	sort.Float64s(at)
	ring := plan.Ring{{to, head}, {from, head}}
	for _, s := range at {
		// A floor that climbs over the head leaves no wall to finish there.
		ring = append(ring, plan.Point{s, math.Min(head, floor.At(w.At(s)))})
	}
	if ring = ring.WithoutCollinear(); len(ring) < 3 || math.Abs(ring.SignedArea()) < 1 {
		return nil
	}
	return plan.FromRing(ring)
}

func (b *builder) floorFinishes() {
	defer b.kerb()
	what := message.Of("shape.shower-tile")
	region := b.round(b.layout.OpenFloor, what)
	for _, finish := range b.wallFinish {
		region = b.subtract(region, finish, message.Of("shape.shower-tile-within-wall"))
	}
	region = b.screenStops(region)
	whole := b.sheet(region, what)
	gaps := slices.Concat(b.wallJoints, b.roundStacks(b.layout.OpenFloor), b.fieldJoints())
	tile := b.jointed("shower", b.shower(), buildup.ShowerTile, whole, gaps, what)
	b.lay(b.shower(), buildup.StageTile, func(l buildup.Layer) solid.Sheet {
		if l.Kind == buildup.ShowerTile {
			return tile
		}
		return whole
	})
}

// kerb stands on the tile along the open edges, between the walls' finishes.
func (b *builder) kerb() {
	top, ok := b.heights.KerbTop(&b.job, &b.layout)
	if !ok {
		return
	}
	what := message.Of("shape.kerb")
	region := b.round(b.layout.Kerb, what)
	for _, finish := range b.wallFinish {
		region = b.subtract(region, finish, what)
	}
	b.addPrism("kerb", message.Of("part.kerb"), material.Tile, buildup.StageTile, precedenceTile, "shower.kerb.heightMM",
		b.sheet(region, what), b.layout.Fall.Raised(b.heights.TileMM), solid.Level(top))
	b.finish("kerb", &b.job.Layers.Shower)
}

// finish marks the last part, when it is the one named, with its tile.
func (b *builder) finish(id string, f *job.Finish) {
	if n := len(b.parts); n > 0 && b.parts[n-1].ID == id {
		b.parts[n-1].Finish = f
	}
}
