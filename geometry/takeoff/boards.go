package takeoff

import (
	"math"
	"strconv"
	"strings"

	"underfall/geometry/assembly"
	"underfall/geometry/boarding"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// baseBoards are the sheets that the base is sawn from, by their thickness, as the boards are laid.
func (b *builder) baseBoards() {
	stocks := make([]Line, len(b.boards.Stocks))
	for _, p := range b.of(material.BaseBoard) {
		layer := b.layerOf(p)
		if layer == nil || layer.TooMany {
			b.add(b.loose(p, layer))
			continue
		}
		l := &stocks[layer.Stock]
		l.Bodies = append(l.Bodies, p.ID)
		pieces, sawn := message.List{}, 0.0
		for i := range layer.Pieces {
			sawn += layer.Pieces[i].Region.Area()
			pieces.Items = append(pieces.Items, layer.Pieces[i].Message(false))
		}
		l.Needed.Value += sawn
		l.How = append(l.How, message.Of("order.how.sawn", message.In("part", p.Name), area("area", sawn), message.Arg{Name: "pieces", Value: pieces}))
		if layer.Packed() {
			l.How = append(l.How, message.Of("order.how.packed-up", message.In("part", p.Name), message.Layer("thick", layer.ThicknessMM)))
		}
	}
	for i, l := range stocks {
		s := &b.boards.Stocks[i]
		l.Group, l.Needed.Measure = Boards, guide.Area
		thick := message.Layer("thick", s.ThicknessMM)
		l.Item = message.Of("order.board", message.In("name", b.boardName()),
			message.MM("length", s.LengthMM), message.MM("width", s.WidthMM), thick)
		if p := b.j.Parts.Boards; p != nil && p.LengthMM == s.LengthMM && p.WidthMM == s.WidthMM {
			l.Item = message.Of("order.board-any", message.In("name", b.boardName()), thick) // its name says its size
		}
		if !s.AtHand {
			l.How = append(l.How, message.Of("order.how.not-at-hand", thick))
		}
		l.Form, l.Holds = guide.Sheet, guide.Amount{Measure: guide.Area, Value: s.LengthMM * s.WidthMM}
		l.Packs, l.Left = s.Sheets, guide.Amount{Measure: guide.Area, Value: s.LeftMM2}
		b.add(l)
	}
}

// loose is a line of boards that are not laid out: by their area.
func (b *builder) loose(p *assembly.Part, layer *boarding.Layer) Line {
	thick := p.Bounds().High.Z() - p.Bounds().Low.Z()
	if layer != nil {
		thick = layer.ThicknessMM
	}
	net := p.Shape.Volume() / thick
	loss := b.figure(guide.CuttingLoss)
	return Line{Group: Boards, Item: message.Of("order.board-loose", message.In("name", b.boardName()), message.Layer("thick", thick)),
		Needed: guide.Amount{Measure: guide.Area, Value: net * (1 + loss.Value)}, Bodies: []string{p.ID}, Source: loss.Source,
		How: []message.Message{message.Of("order.how.cut", area("area", net), share("loss", loss.Value))}}
}

// boardName is what the base's boards are called.
func (b *builder) boardName() message.Message {
	if p := b.j.Parts.Boards; p != nil {
		return part.Name(*p)
	}
	return message.Of("order.board-plain")
}

// layerOf is how a body of boards is laid; nil where it is not.
func (b *builder) layerOf(p *assembly.Part) *boarding.Layer {
	name := p.Name.String()
	for i := range b.boards.Layers {
		if l := &b.boards.Layers[i]; l.Name.String() == name {
			return l
		}
	}
	return nil
}

// formers are the boards with the fall in them: those that are as thick at both ends together.
func (b *builder) formers() {
	for _, p := range b.of(material.FormerBody) {
		layer := b.layerOf(p)
		if layer == nil || layer.TooMany || len(layer.Pieces) == 0 {
			b.add(b.loose(p, layer))
			continue
		}
		var order []formerBoard
		pieces := map[formerBoard][]*boarding.Piece{}
		for i := range layer.Pieces {
			x := &layer.Pieces[i]
			k := b.formerBoard(x)
			if _, seen := pieces[k]; !seen {
				order = append(order, k)
			}
			pieces[k] = append(pieces[k], x)
		}
		for i, k := range order {
			l := b.formerBoards(k, pieces[k])
			if i == 0 {
				l.Bodies = []string{p.ID}
			}
			b.add(l)
		}
	}
}

// formerBoard is a board that pieces of a former are sawn from: its fall, 0 for a level one, and how
// thick it is at its low edge.
type formerBoard struct{ slope, fromMM float64 }

const (
	// levelFormerMM is under which a piece of a former has no fall in it that anybody could see.
	levelFormerMM = 0.1
	// sameSlope is within which two falls are one: half a millimetre in a metre.
	sameSlope = 5e-4
)

// formerBoard is the board that a piece is sawn from. Boards with the job's fall begin as thick as the
// former is at the drain, and each further one where the one before it ends; a piece that goes on over
// such an end has one that begins with it.
func (b *builder) formerBoard(x *boarding.Piece) formerBoard {
	f := &b.j.Former
	half := func(mm float64) float64 { return math.Round(2*mm) / 2 }
	rise := x.ThickMM - x.ThinMM
	if rise < levelFormerMM {
		return formerBoard{0, half(x.ThickMM)}
	}
	slope := rise / x.LengthMM
	if math.Abs(slope-f.Slope) > sameSlope {
		return formerBoard{math.Round(slope/sameSlope) * sameSlope, half(x.ThinMM)}
	}
	if f.LongestMM == 0 {
		return formerBoard{f.Slope, half(f.ThicknessAtDrainMM)}
	}
	each := f.LongestMM * f.Slope
	from := f.ThicknessAtDrainMM + math.Max(0, math.Floor((x.ThinMM-f.ThicknessAtDrainMM+levelFormerMM)/each))*each
	if x.ThinMM < from-levelFormerMM || x.ThickMM > from+each+levelFormerMM {
		from = x.ThinMM
	}
	return formerBoard{f.Slope, half(from)}
}

// formerBoards are as many of one kind as it takes: pieces are sawn side by side from a board as far
// as it is wide, none behind another.
func (b *builder) formerBoards(k formerBoard, pieces []*boarding.Piece) Line {
	f := &b.j.Former
	name := message.Of("order.former-plain")
	if p := b.j.Parts.Former; p != nil {
		name = part.Name(*p)
	}
	n, widths, list := len(pieces), []float64(nil), message.List{}
	for _, x := range pieces {
		widths = append(widths, x.WidthMM)
		list.Items = append(list.Items, x.Message(true))
	}
	if f.WidestMM > 0 && n <= mostSideBySide {
		n = len(Cut(widths, f.WidestMM, boarding.SawMM).Bars)
	}
	in, thick := message.In("name", name), message.Layer("thick", k.fromMM)
	item := message.Of("order.former-any", in, thick)
	switch {
	case k.slope == 0:
		item = message.Of("order.former-level", in, thick)
	case k.slope != f.Slope:
		item = message.Of("order.former-own", message.Slope("fall", k.slope), thick)
	case f.LongestMM > 0 && f.WidestMM > 0:
		item = message.Of("order.former", in, thick, message.MM("long", f.LongestMM), message.MM("wide", f.WidestMM))
	}
	return Line{Group: Boards, Item: item, Needed: count(n),
		How: []message.Message{message.Of("order.how.pieces", message.N("n", len(pieces)), message.Arg{Name: "pieces", Value: list})}}
}

// mostSideBySide is up to how many pieces of a former it is looked how they are sawn from the fewest boards.
const mostSideBySide = 60

// sheets are courses of boards and mats, and the boards round the pipe: by their area, with what is cut off.
func (b *builder) sheets() {
	for _, of := range []struct {
		material material.Material
		item     guide.Item
		called   func(message.Arg) message.Message
		group    Group
	}{
		{material.Insulation, guide.Insulation, func(t message.Arg) message.Message { return message.Of("order.insulation", t) }, Boards},
		{material.Overlay, guide.Overlay, func(t message.Arg) message.Message { return message.Of("order.overlay", t) }, Boards},
		{material.Lining, guide.Lining, func(t message.Arg) message.Message { return message.Of("order.lining", t) }, Boards},
		{material.Decoupling, guide.Decoupling, func(t message.Arg) message.Message { return message.Of("order.decoupling", t) }, Sealing},
	} {
		// Those of one thickness are bought together.
		var order []float64
		thick := map[float64][]*assembly.Part{}
		for _, p := range b.of(of.material) {
			mm := b.thickMM(p)
			if _, ok := thick[mm]; !ok {
				order = append(order, mm)
			}
			thick[mm] = append(thick[mm], p)
		}
		loss := b.figure(guide.CuttingLoss)
		for _, mm := range order {
			net := 0.0
			l := Line{Group: of.group, Item: of.called(message.Layer("thick", mm)), Bodies: ids(thick[mm]), Source: loss.Source}
			for _, p := range thick[mm] {
				mm2 := p.Shape.Volume() / mm
				net += mm2
				l.How = append(l.How, message.Of("order.how.area", message.In("part", p.Name), area("area", mm2)))
			}
			l.How = append(l.How, message.Of("order.how.cut", area("area", net), share("loss", loss.Value)))
			l.Needed = guide.Amount{Measure: guide.Area, Value: net * (1 + loss.Value)}
			b.add(b.packed(l, of.item, ""))
		}
	}
	b.heating()
}

// thickMM is how thick a layer of boards is: as the job states it, which its body says where in the
// job it comes from.
func (b *builder) thickMM(p *assembly.Part) float64 {
	if strings.HasPrefix(p.ID, "boxing-") {
		return b.j.Waste.Boxing.BoardMM
	}
	for k, list := range b.j.Courses() {
		for i := range *list {
			if p.From == courseKey(k, i) {
				return (*list)[i].ThicknessMM
			}
		}
	}
	return p.Bounds().High.Z() - p.Bounds().Low.Z()
}

// heating is the mat, which is never cut and lies only where it may, and the compound that it is laid in.
func (b *builder) heating() {
	parts := b.of(material.Heating)
	if len(parts) == 0 {
		return
	}
	b.add(Line{Group: Fixings, Item: message.Of("order.heating"), Needed: guide.Amount{Measure: guide.Area, Value: b.r.Sealing.HeatedMM2},
		How: []message.Message{message.Of("order.how.heating")}})
	l := b.spread(Line{Group: Mortars, Item: message.Of("order.heating-compound")}, parts, 0, guide.LevellingYield)
	b.add(b.packed(l, guide.Levelling, ""))
}

// courseKey is where in a job's file the thickness of a course stands, by the place of its list among
// job.Courses and its own in it.
func courseKey(list, i int) string {
	of := [4]string{"base", "layers." + string(job.OnShower), "layers." + string(job.OnRoom), "layers." + string(job.OnWall)}[list]
	return of + ".under[" + strconv.Itoa(i) + "].thicknessMM"
}
