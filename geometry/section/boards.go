package section

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/boarding"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

const (
	// apartMM is between the layers and the sheets of a cutting plan, headMM over each for what it
	// is called and the wall behind it.
	apartMM, headMM = 300.0, 190.0
	// titleMM is at least kept for what a layer is called, beside the one before.
	titleMM = 1800.0
	// shapeOfPaper is how much wider than high a cutting plan is to be.
	shapeOfPaper = 1.6
)

// BoardsOf draws the cutting plan: each layer of boards as it is laid, the lowest first, its
// pieces numbered, below the sheets that they are sawn from, but for whole ones, and beside all of
// it their sizes.
func BoardsOf(r geometry.Result) Drawing {
	d := Drawing{Cut: solid.HorizontalCut(r.Heights.TileMM + 1000)}
	p, err := r.Boarding()
	s := boards{Drawing: &d, r: &r}
	for i := range p.Layers {
		s.layer(&p.Layers[i])
	}
	for i := range p.Stocks {
		s.stock(&p, i)
	}
	s.place()
	d.bound()
	d.High = plan.Point{d.High.X(), math.Max(0, d.High.Y())} // with what stands over the first row
	s.list(&p)
	d.Fault = Fault(err, FaultOfRun)
	return d
}

// BoardLayer draws one layer of a cutting plan as it is laid, by its index, large enough to saw by: each piece with its number
// and its size, what is sawn out of it, and how large the layer is.
func BoardLayer(r geometry.Result, p *boarding.Plan, layer int) Drawing {
	return boardsApart(r, 0, func(s *boards) { s.layer(&p.Layers[layer]) })
}

// BoardSheets draws the sheets of one stock of a cutting plan, by its index, with what is sawn from them, but for those that are laid
// as they come; nothing where all of them are. They stand so many in a row, or with 0 as many as has them drawn largest.
func BoardSheets(r geometry.Result, p *boarding.Plan, stock, inRow int) Drawing {
	return boardsApart(r, inRow, func(s *boards) { s.stock(p, stock) })
}

// boardsApart are some of a cutting plan's blocks in a drawing of their own, so many in a row.
func boardsApart(r geometry.Result, inRow int, some func(*boards)) Drawing {
	d := Drawing{Cut: solid.HorizontalCut(r.Heights.TileMM + 1000)}
	s := boards{Drawing: &d, r: &r, apart: true, inRow: inRow}
	some(&s)
	s.place()
	d.bound()
	return d
}

// boards is a cutting plan being drawn.
type boards struct {
	*Drawing
	r      *geometry.Result
	blocks []block
	// apart tells that what is drawn has a drawing to itself, which says elsewhere what it is of.
	apart bool
	// inRow is how many of one size stand in a row of that; 0 for as many as has them drawn largest.
	inRow int
}

// block is a part of a cutting plan, so wide and deep, that is drawn with its lower left corner at a
// place; begins tells that it begins a row.
type block struct {
	wideMM, deepMM float64
	begins         bool
	draw           func(corner plan.Point)
}

// place draws the blocks in rows, as wide as gives all of them the shape of paper.
func (s *boards) place() {
	head, between := headMM, apartMM
	row := 0.0
	if s.apart {
		head, between = 0, apartMM/2
		if row = s.widest(between); s.inRow > 0 && len(s.blocks) > 0 {
			row = float64(s.inRow)*(s.blocks[0].wideMM+between) - between
		}
	} else {
		area := 0.0
		for _, b := range s.blocks {
			area += (b.wideMM + between) * (b.deepMM + head + between)
			row = math.Max(row, b.wideMM)
		}
		row = math.Max(row, math.Sqrt(area*shapeOfPaper))
	}
	at, deep := plan.Point{}, 0.0
	for _, b := range s.blocks {
		if deep > 0 && (b.begins || at.X()+b.wideMM > row) {
			at, deep = plan.Point{0, at.Y() - deep - between}, 0
		}
		b.draw(plan.Point{at.X(), at.Y() - head - b.deepMM})
		at, deep = at.Add(plan.Point{b.wideMM + between, 0}), math.Max(deep, head+b.deepMM)
	}
}

// widest is how wide the rows are that blocks, of one size, are drawn largest in.
func (s *boards) widest(between float64) (rowMM float64) {
	least := math.Inf(1)
	for columns := 1; columns <= len(s.blocks); columns++ {
		wide, deep := s.blocks[0].wideMM+between, s.blocks[0].deepMM+between
		rows := (len(s.blocks) + columns - 1) / columns
		if size := math.Max(float64(columns)*wide, shapeOfPaper*float64(rows)*deep); size < least {
			least, rowMM = size, float64(columns)*wide
		}
	}
	return rowMM
}

// head writes what a block is called over its upper left corner.
// The first of the texts that there is room for.
func (s *boards) head(lowerLeft plan.Point, deepMM float64, texts ...message.Message) {
	if s.apart {
		return
	}
	at := lowerLeft.Add(plan.Point{0, deepMM + headMM*0.7})
	s.Names = append(s.Names, Name{Texts: texts, Places: []NameAt{{at, plan.Point{1, 0}}}, First: true})
}

// layer draws one layer as it lies in plan.
func (s *boards) layer(l *boarding.Layer) {
	low, high, ok := l.Region.Bounds()
	if !ok {
		return
	}
	size := high.Sub(low)
	thickness := message.Layer("thickness", l.BoardMM)
	titles := []message.Message{
		message.Of("boards.layer", message.In("layer", l.Name), thickness), message.Of("boards.thickness", thickness)}
	of := material.BaseBoard
	if l.Former {
		of, titles = material.FormerBody, []message.Message{l.Name}
	}
	wide := math.Max(size.X(), titleMM)
	if s.apart {
		wide = size.X()
	}
	s.blocks = append(s.blocks, block{wide, size.Y(), false, func(corner plan.Point) {
		by := corner.Sub(low)
		s.head(corner, size.Y(), titles...)
		s.Areas = append(s.Areas, Area{PartID: "boards", Name: l.Name, Material: of, Region: moved(l.Region, by)})
		for i := range l.Pieces {
			b := &l.Pieces[i]
			s.piece(moved(b.Region, by), b, of, l)
		}
		s.walls(low, high, by)
		if s.apart {
			s.measured(l, low.Add(by), high.Add(by))
		}
	}})
}

// measured says how large a layer between two corners is, and what is sawn out of its pieces.
func (s *boards) measured(l *boarding.Layer, low, high plan.Point) {
	lowerRight := plan.Point{high.X(), low.Y()}
	s.Dimensions = append(s.Dimensions,
		Dimension{From: low, To: lowerRight, Text: length(high.X() - low.X()), Row: 1, Side: plan.Point{0, -1}},
		Dimension{From: lowerRight, To: high, Text: length(high.Y() - low.Y()), Row: 1, Side: plan.Point{1, 0}})
	from, _, _ := l.Region.Bounds()
	for i := range l.Pieces {
		b := &l.Pieces[i]
		for _, c := range b.Cuts {
			at := b.CornerMM.Add(c.AtMM).Add(c.SizeMM.Mul(0.5))
			place := b.Along.Mul(at.X()).Add(plan.Left(b.Along).Mul(at.Y())).Sub(from).Add(low)
			size := message.Of("boards.sawn-out", message.MM("long", c.SizeMM.X()), message.MM("wide", c.SizeMM.Y()))
			s.Names = append(s.Names, Name{Texts: []message.Message{size}, Small: true,
				Places: []NameAt{{At: place}, {place, plan.Point{1, 0}}, {place, plan.Point{-1, 0}}}})
		}
	}
}

// piece draws a piece, with its number in it and its size.
func (s *boards) piece(region plan.Region, b *boarding.Piece, of material.Material, l *boarding.Layer) {
	s.Areas = append(s.Areas, Area{PartID: "boards", Name: l.Name, Material: of, Region: region})
	s.outlined(region)
	full := b.Message(l.Former)
	if s.apart {
		full = message.Of("boards.piece", message.No("n", b.Number), message.MM("length", b.LengthMM), message.MM("width", b.WidthMM))
	}
	s.called(region, full, b.Number)
}

// outlined draws the outline of a piece.
func (s *boards) outlined(r plan.Region) {
	for _, p := range r {
		for _, ring := range p.Rings() {
			s.Lines = append(s.Lines, Line{closed(ring), Medium, false, "board"})
		}
	}
}

// called writes a piece's number and size in it, or the number where there is no room for both.
func (s *boards) called(r plan.Region, full message.Message, number int) {
	n := Name{Texts: []message.Message{full, message.Of("boards.number", message.No("n", number))}, In: r, Small: !s.apart}
	for _, at := range placesIn(r) {
		n.Places = append(n.Places, NameAt{At: at})
	}
	// A strip has its number beside it.
	const stripMM = 70
	if low, high, _ := r.Bounds(); math.Min(high.X()-low.X(), high.Y()-low.Y()) < stripMM {
		middle := low.Add(high).Mul(0.5)
		n.Texts, n.In = n.Texts[1:], nil
		n.Places = []NameAt{{plan.Point{high.X(), middle.Y()}, plan.Point{1, 0}}, {plan.Point{low.X(), middle.Y()}, plan.Point{-1, 0}},
			{plan.Point{middle.X(), high.Y()}, plan.Point{0, 1}}, {plan.Point{middle.X(), low.Y()}, plan.Point{0, -1}}}
	}
	s.Names = append(s.Names, n)
}

// list writes the sizes of all pieces to the right of what is drawn, with room beside it for the
// columns of a view of the usual size; those of a former are longer.
func (s *boards) list(p *boarding.Plan) {
	const greatest, boardShare, formerShare = 28, 0.34, 0.55
	high := s.High.Y() - s.Low.Y()
	share := 0.0
	for i := range p.Layers {
		l := &p.Layers[i]
		for k := range l.Pieces {
			b := &l.Pieces[k]
			s.List.Lines = append(s.List.Lines, ListLine{b.Message(l.Former), b.Number})
			for _, c := range b.Cuts {
				s.List.Lines = append(s.List.Lines, ListLine{message.Of("boards.less", message.In("cut", c.Message())), b.Number})
			}
			if share = math.Max(share, boardShare); l.Former || len(b.Cuts) > 0 {
				share = formerShare
			}
		}
	}
	if n := len(s.List.Lines); n > 0 {
		s.List.At, s.List.HighMM = plan.Point{s.High.X() + apartMM, s.High.Y()}, high
		s.High = plan.Point{s.List.At.X() + float64((n+greatest-1)/greatest)*share*high, s.High.Y()}
	}
	s.FocusLow, s.FocusHigh = s.Low, s.High
}

// placesIn are places in a region, the roomiest first: its middle where that lies in it, and the
// middles of stretches across it.
func placesIn(r plan.Region) (out []plan.Point) {
	if c := r.Centroid(); r.Contains(c, 0) {
		out = append(out, c)
	}
	out = append(out, middlesAcross(r, 0.5, 0.25, 0.75, 0.1, 0.9)...)
	if len(out) == 0 {
		out = append(out, r[0].Outer[0])
	}
	return out
}

// walls draws and names the walls that a layer lies at, so that one sees which way it goes.
func (s *boards) walls(low, high, by plan.Point) {
	const nearMM, offMM = 40.0, 18.0
	box := plan.Rectangle(low.Sub(plan.Point{nearMM, nearMM}), high.Add(plan.Point{nearMM, nearMM}))
	for i := range s.r.Layout.Walls {
		w := &s.r.Layout.Walls[i]
		for _, iv := range box.Clip(w.A, w.Along) {
			from, to := math.Max(0, iv.From), math.Min(w.LengthMM, iv.To)
			if to-from < 2*nearMM {
				continue
			}
			off := by.Add(w.Outward.Mul(offMM))
			a, b := w.At(from).Add(off), w.At(to).Add(off)
			s.Lines = append(s.Lines, Line{[]plan.Point{a, b}, Heavy, false, "wall"})
			s.Names = append(s.Names, Name{Texts: []message.Message{message.Of("part.wall", w.Name())},
				Places: []NameAt{{a.Add(b).Mul(0.5), w.Outward}}, Small: true})
		}
	}
}

// stock draws the sheets of one thickness with the pieces that are sawn from them, and says how
// many are laid as they come.
func (s *boards) stock(p *boarding.Plan, index int) {
	of := &p.Stocks[index]
	on := make([][]*boarding.Piece, of.Sheets)
	layerOf := map[*boarding.Piece]*boarding.Layer{}
	for i := range p.Layers {
		l := &p.Layers[i]
		for k := range l.Pieces {
			if b := &l.Pieces[k]; l.Stock == index {
				on[b.Sheet-1], layerOf[b] = append(on[b.Sheet-1], b), l
			}
		}
	}
	sawn := slices.DeleteFunc(slices.Clone(on), func(pieces []*boarding.Piece) bool { return len(pieces) == 1 && of.Whole(pieces[0]) })
	title := message.Of("boards.stock", message.N("n", of.Sheets), message.MM("length", of.LengthMM), message.MM("width", of.WidthMM),
		message.Layer("thickness", of.ThicknessMM), message.No("whole", of.Sheets-len(sawn)))
	for i, pieces := range sawn {
		s.blocks = append(s.blocks, block{of.LengthMM, of.WidthMM, i == 0, func(corner plan.Point) {
			if i == 0 {
				s.head(corner, of.WidthMM, title)
			}
			sheet := plan.Rectangle(corner, corner.Add(plan.Point{of.LengthMM, of.WidthMM}))
			s.Areas = append(s.Areas, Area{PartID: "sheet", Name: message.Of("boards.left-over"), Material: material.Adhesive, Region: sheet})
			s.numbered(corner, of, pieces[0].Sheet)
			for _, b := range pieces {
				s.piece(b.Sawn(corner.Add(b.OnSheetMM)), b, material.BaseBoard, layerOf[b])
			}
		}})
	}
	if len(sawn) == 0 && of.Sheets > 0 {
		s.blocks = append(s.blocks, block{of.LengthMM, 0, true, func(corner plan.Point) { s.head(corner, 0, title) }})
	}
}

// numbered says which of its stock a sheet is: over its upper left corner, or under its lower one where what its stock is called stands
// over the first.
func (s *boards) numbered(corner plan.Point, of *boarding.Stock, number int) {
	const inMM = 110 // half of the text, about
	over := NameAt{corner.Add(plan.Point{inMM, of.WidthMM}), plan.Point{0, 1}}
	under := NameAt{corner.Add(plan.Point{inMM, 0}), plan.Point{0, -1}}
	places := []NameAt{under, over}
	if s.apart {
		places = []NameAt{over, under}
	}
	s.Names = append(s.Names, Name{Texts: []message.Message{message.Of("boards.sheet", message.No("n", number))}, Places: places,
		Small: true, First: true})
}

// moved is a region moved.
func moved(r plan.Region, by plan.Point) plan.Region { return r.EachCorner(by.Add) }
