package takeoff

import (
	"math"
	"slices"
	"strconv"

	"underfall/geometry/assembly"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// timber is what trims openings in joists and carries boards let in, with hangers and screws.
func (b *builder) timber() {
	var all sawn
	b.trimming(&all)
	screws := b.ledgers(&all) + b.noggins(&all)
	for _, s := range all {
		b.bars(Line{Group: Timber, Item: section(s.wideMM, s.deepMM), Bodies: s.bodies, How: s.how}, s.stock, s.piecesMM)
	}
	screw := b.figure(guide.LedgerScrewMM)
	b.add(b.packed(Line{Group: Fixings, Item: message.Of("order.timber-screws"), Needed: guide.Amount{Measure: guide.Count, Value: screws},
		How: []message.Message{message.Of("order.how.timber-screws", message.MM("apart", screw.Value), message.No("each", int(b.figure(guide.NogginScrews).Value)))}, Source: screw.Source}, guide.TimberScrews, ""))
	b.boardScrews()
}

// section is what timber of a section is called.
func section(widthMM, depthMM float64) message.Message {
	return message.Of("order.timber", message.MM("width", widthMM), message.MM("depth", depthMM))
}

// sawnTimber is timber of one section, all of it sawn from one stock.
type sawnTimber struct {
	wideMM, deepMM float64
	stock          guide.Item
	piecesMM       []float64
	bodies         []string
	how            []message.Message
}

// sawn is timber by its section.
type sawn []*sawnTimber

// of is that of a section, which a stock has unless there is some already.
func (all *sawn) of(wideMM, deepMM float64, stock guide.Item, how message.Message) *sawnTimber {
	i := slices.IndexFunc(*all, func(s *sawnTimber) bool { return math.Abs(s.wideMM-wideMM)+math.Abs(s.deepMM-deepMM) < nearMM })
	if i < 0 {
		i, *all = len(*all), append(*all, &sawnTimber{wideMM: wideMM, deepMM: deepMM, stock: stock})
	}
	s := (*all)[i]
	if !slices.ContainsFunc(s.how, func(m message.Message) bool { return m.ID == how.ID }) {
		s.how = append(s.how, how)
	}
	return s
}

// trimming are trimmers and second joists, with their hangers.
func (b *builder) trimming(all *sawn) {
	width, depth := b.j.Floor.Joists.WidthMM, b.j.Floor.Joists.DepthMM
	if bodies := ids(b.take(ofTrimming)); len(bodies) > 0 {
		s := all.of(width, depth, guide.Timber, message.Of("order.how.trimming"))
		s.bodies = bodies
		for i := range b.l.Joists {
			if js := &b.l.Joists[i]; js.Member == layout.SecondJoist || js.Member == layout.Trimmer {
				s.piecesMM = append(s.piecesMM, js.LengthMM())
			}
		}
	}
	if n := b.r.Cutting().Hangers; n > 0 {
		b.add(Line{Group: Timber, Item: message.Of("order.hangers", message.MM("width", width)), Needed: count(n),
			How: []message.Message{message.Of("order.how.hangers")}})
	}
}

// ledgers are those on the joists' flanks; it gives their screws.
func (b *builder) ledgers(all *sawn) (screws float64) {
	wide, deep := b.j.Base.Ledger()
	wide = math.Min(wide, (b.j.Floor.Joists.SpacingMM-b.j.Floor.Joists.WidthMM)/2-1) // ledgers in a narrow bay leave each other room
	for _, p := range b.take(named("battens")) {
		s := all.of(wide, deep, guide.Ledger, message.Of("order.how.ledgers"))
		s.bodies = append(s.bodies, p.ID)
		for _, r := range regions(p.Shape) {
			for _, poly := range r {
				one := plan.Region{poly}
				low, high := one.Reach(b.l.JoistAlong)
				left, right := one.Reach(plan.Left(b.l.JoistAlong))
				long := math.Max(high-low, right-left)
				// What is wider than one is several beside each other.
				n := max(1, int(math.Round(one.Area()/long/wide)))
				s.piecesMM = append(s.piecesMM, slices.Repeat([]float64{long}, n)...)
				screws += float64(n * screwsAlong(long, b.figure(guide.LedgerScrewMM).Value))
			}
		}
	}
	return screws
}

// noggins are those across the bays of an opening; it gives their screws.
func (b *builder) noggins(all *sawn) (screws float64) {
	opening, ok := joist.OpeningOf(b.j, b.l, b.h)
	if !ok {
		return 0
	}
	for i, n := range opening.Noggins {
		id := "noggin-" + strconv.Itoa(i+1)
		for _, p := range b.take(func(p *assembly.Part) bool { return p.ID == id }) {
			from, to := plan.FromRing(n.Ring).Reach(b.l.JoistAlong)
			s := all.of(to-from, n.DepthMM, guide.Ledger, message.Of("order.how.noggins"))
			for _, r := range regions(p.Shape) {
				s.piecesMM = append(s.piecesMM, r.Area()/(to-from))
			}
			s.bodies = append(s.bodies, id)
			screws += b.figure(guide.NogginScrews).Value
		}
	}
	return screws
}

// boardScrews fix courses of boards: so far apart both ways, on studs and on a deck.
func (b *builder) boardScrews() {
	for _, of := range []struct {
		material material.Material
		apart    guide.Key
		item     func() message.Message
	}{
		{material.Overlay, guide.OverlayScrewMM, func() message.Message { return message.Of("order.overlay-screws") }},
		{material.Lining, guide.LiningScrewMM, func() message.Message { return message.Of("order.lining-screws") }},
	} {
		var parts []*assembly.Part
		for i := range b.r.Assembly.Parts {
			if p := &b.r.Assembly.Parts[i]; p.Material == of.material && b.screwed(p) && !named("boxing-")(p) {
				parts = append(parts, p)
			}
		}
		f := b.figure(of.apart)
		mm2 := areaMM2(parts)
		l := Line{Group: Fixings, Item: of.item(), Needed: count(int(math.Ceil(mm2 / (f.Value * f.Value)))), Source: f.Source}
		if mm2 > 0 {
			l.How = append(l.How, message.Of("order.how.board-screws", area("area", mm2), message.MM("apart", f.Value)))
		}
		if n := b.boxScrews(f.Value); of.material == material.Lining && n > 0 {
			l.Needed.Value += float64(n)
			l.How = append(l.How, message.Of("order.how.box-screws", message.N("n", n), message.MM("apart", f.Value)))
		}
		b.add(b.packed(l, guide.BoardScrews, ""))
	}
}

// screwsAlong is how many screws stand along a length, so far apart, with one at the end.
func screwsAlong(longMM, apartMM float64) int { return int(math.Ceil(longMM/apartMM-noneLess)) + 1 }

// boxScrews are those of boxes over the run, so far apart: along both long edges of every side and of every straight of the lid.
func (b *builder) boxScrews(apartMM float64) (n int) {
	edges := func(longMM float64) int { return 2 * screwsAlong(longMM, apartMM) }
	boxes := b.h.Boxes(b.j, b.l)
	for i := range boxes {
		for _, f := range boxes[i].Faces(b.l) {
			n += edges(f.LengthMM())
		}
		for k := range len(boxes[i].Path) - 1 {
			n += edges(boxes[i].Path[k+1].Sub(boxes[i].Path[k]).Len())
		}
	}
	return n
}

// screwed tells whether a course of boards is screwed: on a wall, on the boxing, and on a deck; on a
// slab it is bedded.
func (b *builder) screwed(p *assembly.Part) bool {
	return p.Wall > 0 || named("boxing-")(p) || b.j.Floor.Kind == job.FloorTimber
}
