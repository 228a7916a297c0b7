package takeoff

import (
	"math"
	"slices"

	"underfall/geometry/assembly"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
)

// place is one place's tile.
type place struct {
	on     job.Where
	finish job.Finish
	item   func(...message.Arg) message.Message
	hexes  func(...message.Arg) message.Message // the same where its tiles are hexagons
	parts  []*assembly.Part
	mm2    float64
	how    []message.Message
}

// tiles are those of the shower's floor with kerb and cover, of the room and of the walls, and the
// grout of their joints.
func (b *builder) tiles() {
	kerb := b.take(func(p *assembly.Part) bool { return p.ID == "kerb" })
	places := []place{
		{on: job.OnShower, finish: b.j.Finish(job.OnShower),
			item:  func(a ...message.Arg) message.Message { return message.Of("order.tile-shower", a...) },
			hexes: func(a ...message.Arg) message.Message { return message.Of("order.hexagons-shower", a...) },
			parts: b.take(func(p *assembly.Part) bool {
				return p.Material == material.Tile && (p.ID == "tile" || p.ID == "cover-tile")
			})},
		{on: job.OnWall, finish: b.j.Finish(job.OnWall),
			item:  func(a ...message.Arg) message.Message { return message.Of("order.tile-wall", a...) },
			hexes: func(a ...message.Arg) message.Message { return message.Of("order.hexagons-wall", a...) },
			parts: b.take(named("wall-tile-"))},
		{on: job.OnRoom, finish: b.j.Finish(job.OnRoom),
			item:  func(a ...message.Arg) message.Message { return message.Of("order.tile-room", a...) },
			hexes: func(a ...message.Arg) message.Message { return message.Of("order.hexagons-room", a...) },
			parts: b.of(material.Tile)},
	}
	for i := range places {
		p := &places[i]
		if p.mm2 = areaMM2(p.parts); p.mm2 > 0 {
			p.how = append(p.how, message.Of("order.how.tiled", area("area", p.mm2)))
		}
		for _, c := range b.besides(p.on) {
			p.mm2 += c.mm2
			p.how = append(p.how, message.Of(c.how, area("area", c.mm2)))
		}
		b.tile(p)
	}
	if len(kerb) > 0 {
		b.kerb(kerb)
	}
	b.grout(places)
}

// covered is something that tile covers, and how that is told.
type covered struct {
	mm2 float64
	how message.ID
}

// besides is what a place's tile covers that no body of it lies on: the shower's goes down the faces of its open
// edges and over a kerb, whose top takes as much as it leaves of the floor; the room's goes round boxes over
// the run.
func (b *builder) besides(on job.Where) (out []covered) {
	switch on {
	case job.OnShower:
		faces, _ := b.h.FacesMM2(b.j, b.l)
		out = []covered{{b.kerbSideMM2(), "order.how.tiled-kerb"}, {faces, "order.how.tiled-faces"}}
	case job.OnRoom:
		sides, tops := b.h.BoxesMM2(b.j, b.l)
		out = []covered{{sides, "order.how.tiled-box-sides"}, {tops, "order.how.tiled-box-tops"}}
	}
	return slices.DeleteFunc(out, func(c covered) bool { return c.mm2 <= 0 })
}

// kerb is the upstand itself: blocks or boards, by its length.
func (b *builder) kerb(parts []*assembly.Part) {
	k := b.j.Shower.Kerb
	l := Line{Group: Boards, Item: message.Of("order.kerb", message.MM("width", k.WidthMM), message.MM("height", k.HeightMM)),
		Needed: guide.Amount{Measure: guide.Length, Value: areaMM2(parts) / k.WidthMM}, Bodies: ids(parts),
		How: []message.Message{message.Of("order.how.kerb")}}
	b.add(l)
}

// smallMM is under which tile comes on sheets, and is not counted one by one. Common practice, no source.
const smallMM = 60

// tile is the line of a place's tile: by its area, and how many whole ones that makes.
func (b *builder) tile(p *place) {
	f := &p.finish
	allowed := b.figure(allowance(f.Bond))
	l := Line{Group: Tile, Needed: guide.Amount{Measure: guide.Area, Value: p.mm2 * (1 + allowed.Value)},
		Bodies: ids(p.parts), How: p.how, Source: allowed.Source}
	l.Item = p.item(message.MM("length", f.TileLengthMM), message.MM("width", f.TileWidthMM), message.Layer("thick", f.Tile.ThicknessMM))
	if f.Bond == job.BondHexagon {
		l.Item = p.hexes(message.MM("across", f.TileLengthMM), message.Layer("thick", f.Tile.ThicknessMM))
	}
	if math.Min(f.TileLengthMM, f.TileWidthMM) <= smallMM {
		l.How = append(l.How, message.Of("order.how.tile-sheets", share("allowance", allowed.Value)))
		b.add(l)
		return
	}
	spare := b.figure(guide.TileSpare)
	l.How = append(l.How, message.Of("order.how.tile", share("allowance", allowed.Value), message.N("n", int(spare.Value))))
	module, _ := joints(f)
	l = l.in(guide.Tile, module)
	l.Packs += int(spare.Value)
	l.Left.Value += spare.Value * module
	b.add(l)
}

// allowance is the guide value of a bond.
func allowance(bond job.Bond) guide.Key {
	switch bond {
	case job.BondHalf:
		return guide.TileHalf
	case job.BondThird:
		return guide.TileThird
	case job.BondHerringbone:
		return guide.TileHerringbone
	case job.BondHexagon:
		return guide.TileHexagon
	}
	return guide.TileStack
}

// joints are the area that a tile takes with half the joints round it, and the share of it that is
// joint. A hexagon is as wide across its flats as the tile is long: its area is √3/2 of the square of
// that.
func joints(f *job.Finish) (moduleMM2, jointShare float64) {
	if f.Bond == job.BondHexagon {
		long, with := f.TileLengthMM, f.TileLengthMM+f.JointMM
		return math.Sqrt(3) / 2 * with * with, 1 - long*long/(with*with)
	}
	moduleMM2 = (f.TileLengthMM + f.JointMM) * (f.TileWidthMM + f.JointMM)
	return moduleMM2, 1 - f.TileLengthMM*f.TileWidthMM/moduleMM2
}

// grout fills the joints as deep as the tile; that of one colour together.
func (b *builder) grout(places []place) {
	y, loss := b.figure(guide.GroutYield), b.figure(guide.SpreadLoss)
	var colours []string
	for i := range places {
		if c := places[i].finish.GroutColour; places[i].mm2 > 0 && !slices.Contains(colours, c) {
			colours = append(colours, c)
		}
	}
	for _, c := range colours {
		l := Line{Group: Tile, Item: message.Of("order.grout"), Source: y.Source}
		if c != "" {
			l.Item = message.Of("order.grout-coloured", message.In("colour", colour(c)))
		}
		in := 0.0
		for i := range places {
			p := &places[i]
			if p.finish.GroutColour != c || p.mm2 == 0 {
				continue
			}
			f := &p.finish
			_, part := joints(f)
			mm3 := p.mm2 * part * f.Tile.ThicknessMM
			in += mm3 / mm3InLitre
			l.How = append(l.How, message.Of("order.how.grout", area("area", p.mm2),
				message.MM("length", f.TileLengthMM), message.MM("width", f.TileWidthMM),
				message.Layer("joint", f.JointMM), message.Layer("deep", f.Tile.ThicknessMM), volume("volume", mm3/mm3InLitre)))
		}
		l.Needed = guide.Amount{Measure: guide.Mass, Value: in * y.Value * (1 + loss.Value)}
		yield := message.Arg{Name: "yield", Value: message.Yield{KGPerLitre: y.Value}}
		l.How = append(l.How, message.Of("order.how.spread", volume("volume", in), yield, share("loss", loss.Value)))
		b.add(b.packed(l, guide.Grout, ""))
	}
}

// colour is what a colour is called; its number where it has no name.
func colour(of string) message.Message {
	if word, ok := job.ColourWord(of); ok {
		return word
	}
	return message.Text(of)
}
