// Package takeoff works out what a job takes to finish: how much of everything, in what packs, what is
// left over, and where each number comes from. It reads bodies, boards and run as they were worked
// out; what a job does not say it takes from a table of guide values.
package takeoff

import (
	"math"
	"slices"
	"strings"

	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/boarding"
	"underfall/geometry/buildup"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/source"
)

// Group is a part of the list, as a merchant's counter is divided.
type Group string

// The groups.
const (
	Boards   Group = "boards"
	Mortars  Group = "mortars"
	Pipe     Group = "pipe"
	Fittings Group = "fittings"
	Drain    Group = "drain"
	Sealing  Group = "sealing"
	Adhesive Group = "adhesive"
	Tile     Group = "tile"
	Trims    Group = "trims"
	Timber   Group = "timber"
	Fixings  Group = "fixings"
	Glass    Group = "glass"
)

// Groups are all groups, in the order of the list.
func Groups() []Group {
	return []Group{Boards, Mortars, Pipe, Fittings, Drain, Sealing, Adhesive, Tile, Trims, Timber, Fixings, Glass}
}

// Name is the id of the group's heading.
func (g Group) Name() message.ID { return message.ID("order.group." + string(g)) }

// IDs are the ids that follow from the groups.
func IDs() []message.ID { return message.Names(Groups()) }

// Line is one thing to order.
type Line struct {
	Group Group
	Item  message.Message
	// Needed is what the job takes, with what is bought for cutting and spreading.
	Needed guide.Amount
	// Form and Holds are of a pack; no form where it is sold as needed, or its packs are its maker's
	// and not known.
	Form  guide.Form
	Holds guide.Amount
	Packs int
	// Left is what is left over of the packs.
	Left guide.Amount
	// How says how it was worked out, one thing a line.
	How []message.Message
	// Source is of the guide value that it hangs on; derived where it hangs on none.
	Source source.Source
	// Bodies are those of the assembly that it makes, by their ids; none for what is no body.
	Bodies []string
	// Cutting is how it is cut; no bars for what is not sold by the length.
	Cutting Cutting
	// Pieces are those that pipe is sawn into, each by its place.
	Pieces []Piece
}

// Piece is one length that is sawn of pipe.
type Piece struct {
	What message.Message
	// SeenMM is what is seen of it between the fittings at its ends, MM what it is sawn to: as much more as it goes into them.
	SeenMM, MM float64
	// PastMM is how much of it lies past the inner face of the wall that the run goes out through.
	PastMM float64
}

// Bought says how many packs are bought, and what each is; nothing where no pack is known.
func (l *Line) Bought() message.Message {
	if l.Form == "" {
		return message.Message{}
	}
	return message.Of(l.Form.Name(), message.N("n", l.Packs), l.Holds.Arg("holds"))
}

// Takeoff is everything that a job takes.
type Takeoff struct {
	Lines []Line // by group, in the order of groups
}

// Of works out what a job takes that could be evaluated; of one with problems there is nothing. The
// error tells a shape that failed.
func Of(r *geometry.Result, t *guide.Table) (Takeoff, error) {
	if len(r.Problems) > 0 {
		return Takeoff{}, nil
	}
	boards, err := r.Boarding()
	if err != nil {
		return Takeoff{}, err
	}
	b := &builder{r: r, j: &r.Settled, l: &r.Layout, h: &r.Heights, t: t, boards: &boards, derived: source.Source{Mark: source.Derived}}
	for i := range r.Assembly.Parts {
		if p := &r.Assembly.Parts[i]; bought(p) {
			b.parts = append(b.parts, p)
		}
	}
	b.baseBoards()
	b.formers()
	b.sheets()
	b.mortars()
	b.run()
	b.drain()
	b.holes()
	b.sealing()
	b.adhesives()
	b.tiles()
	b.trims()
	b.timber()
	b.glass()
	slices.SortStableFunc(b.lines, func(x, y Line) int { return slices.Index(Groups(), x.Group) - slices.Index(Groups(), y.Group) })
	return Takeoff{b.lines}, nil
}

// bought tells whether a body is of the new work: not what stood there before, but for the timber that
// trims an opening, and not the water of the trap.
func bought(p *assembly.Part) bool {
	return p.Material != material.Water && (p.Stage != buildup.StageBare || ofTrimming(p))
}

// builder gathers the lines of one job.
type builder struct {
	r       *geometry.Result
	j       *job.Job
	l       *layout.Layout
	h       *level.Heights
	t       *guide.Table
	boards  *boarding.Plan
	derived source.Source
	parts   []*assembly.Part // that no line makes yet
	lines   []Line
}

// take gives the bodies that are meant, and leaves the others for lines to come.
func (b *builder) take(meant func(*assembly.Part) bool) (out []*assembly.Part) {
	b.parts = slices.DeleteFunc(b.parts, func(p *assembly.Part) bool {
		if meant(p) {
			out = append(out, p)
			return true
		}
		return false
	})
	return out
}

// of takes the bodies of a material.
func (b *builder) of(m material.Material) []*assembly.Part {
	return b.take(func(p *assembly.Part) bool { return p.Material == m })
}

// named tells whether a body's id begins so.
func named(prefixes ...string) func(*assembly.Part) bool {
	return func(p *assembly.Part) bool {
		for _, x := range prefixes {
			if strings.HasPrefix(p.ID, x) {
				return true
			}
		}
		return false
	}
}

// ids are those of bodies.
func ids(parts []*assembly.Part) (out []string) {
	for _, p := range parts {
		out = append(out, p.ID)
	}
	return out
}

func (b *builder) figure(k guide.Key) guide.Figure { return b.t.Figure(k, b.j.Region, 0) }

// add puts a line on the list, unless nothing is needed; what is on it already becomes more.
func (b *builder) add(l Line) {
	if l.Needed.Value <= 0 {
		return
	}
	if l.Source.Mark == "" {
		l.Source = b.derived
	}
	name := l.Item.String()
	i := slices.IndexFunc(b.lines, func(o Line) bool {
		return o.Group == l.Group && o.Form == l.Form && o.Holds == l.Holds && o.Item.String() == name
	})
	if i < 0 {
		b.lines = append(b.lines, l)
		return
	}
	o := &b.lines[i]
	o.Needed.Value += l.Needed.Value
	o.Packs += l.Packs
	o.Left.Value += l.Left.Value
	o.How, o.Bodies = append(o.How, l.How...), append(o.Bodies, l.Bodies...)
	o.Pieces = append(o.Pieces, l.Pieces...)
	o.Cutting.Bars, o.Cutting.Fewest = append(o.Cutting.Bars, l.Cutting.Bars...), o.Cutting.Fewest && l.Cutting.Fewest
}

// noneLess is the share of a pack that rounding may leave.
const noneLess = 1e-9

// packed is a line with as many packs as it takes, of a part of an id or as usual.
func (b *builder) packed(l Line, item guide.Item, part string) Line {
	p, ok := b.t.Pack(item, b.j.Region, part)
	if !ok || p.Measure != l.Needed.Measure {
		return l
	}
	return l.in(p.Form, p.Holds)
}

// in is the line with as many packs as it takes of a form, which hold so much each.
func (l Line) in(form guide.Form, holds float64) Line {
	l.Form, l.Holds = form, guide.Amount{Measure: l.Needed.Measure, Value: holds}
	l.Packs = int(math.Ceil(l.Needed.Value/holds - noneLess))
	l.Left = guide.Amount{Measure: l.Needed.Measure, Value: math.Max(0, float64(l.Packs)*holds-l.Needed.Value)}
	return l
}

// cut is the line of pieces cut from lengths of a stock, with the pieces longer than that joined from
// several; joins is how many joins that makes. Pieces of pipe are cut as the line has them, each told by its name.
func (l Line) cut(piecesMM []float64, stockMM float64) (out Line, joins int) {
	named := slices.Clone(l.Pieces)
	for _, p := range l.Pieces {
		piecesMM = append(piecesMM, p.MM)
	}
	var all []float64
	for _, mm := range piecesMM {
		for ; mm > stockMM; mm -= stockMM {
			all = append(all, stockMM)
			joins++
		}
		if mm >= unitMM {
			all = append(all, mm)
		}
	}
	l.Cutting = Cut(all, stockMM, boarding.SawMM)
	l.Form, l.Holds = guide.Bar, guide.Amount{Measure: guide.Length, Value: stockMM}
	l.Packs = len(l.Cutting.Bars)
	l.Needed, l.Left = guide.Amount{Measure: guide.Length}, guide.Amount{Measure: guide.Length}
	for _, bar := range l.Cutting.Bars {
		l.Left.Value += bar.LeftMM
		var pieces message.List
		for _, mm := range bar.PiecesMM {
			l.Needed.Value += mm
			length := message.Of("order.how.length", message.Along("length", mm))
			if i := slices.IndexFunc(named, func(p Piece) bool { return math.Abs(p.MM-mm) < unitMM }); i >= 0 {
				length = message.Of("order.how.length-of", message.Along("length", mm), message.In("what", named[i].What))
				named = slices.Delete(named, i, i+1)
			}
			pieces.Items = append(pieces.Items, length)
		}
		l.How = append(l.How, message.Of("order.how.bar", message.Arg{Name: "pieces", Value: pieces}, message.Along("left", bar.LeftMM)))
	}
	if few := int(math.Ceil(l.Needed.Value/stockMM - noneLess)); few < l.Packs {
		l.How = append(l.How, message.Of("order.how.not-joined", message.N("n", few)))
	}
	if !l.Cutting.Fewest {
		l.How = append(l.How, message.Of("order.how.not-proved"))
	}
	return l, joins
}

const (
	mm3InLitre = 1e6
	mm2InM2    = 1e6
)

// litres is the volume of bodies.
func litres(parts []*assembly.Part) (sum float64) {
	for _, p := range parts {
		sum += p.Shape.Volume() / mm3InLitre
	}
	return sum
}

// regions are the outlines of a body's prisms, each in its own plane.
func regions(s solid.Shape) (out []plan.Region) {
	switch s := s.(type) {
	case solid.Prism:
		return []plan.Region{s.Sheet.Region()}
	case solid.Compound:
		for _, part := range s {
			out = append(out, regions(part)...)
		}
	}
	return out
}

// areaMM2 is the area of bodies that are layers beside each other.
func areaMM2(parts []*assembly.Part) (sum float64) {
	for _, p := range parts {
		for _, r := range regions(p.Shape) {
			sum += r.Area()
		}
	}
	return sum
}

func area(name string, mm2 float64) message.Arg {
	return message.Arg{Name: name, Value: message.Area{MM2: mm2}}
}

func share(name string, of float64) message.Arg {
	return message.Arg{Name: name, Value: message.Share(of)}
}

func volume(name string, litres float64) message.Arg {
	return message.Arg{Name: name, Value: message.Liquid{Litres: litres}}
}

// stretch is a length of something and where it lies.
type stretch struct {
	mm    float64
	where func(message.Arg) message.Message
}

// stretches are those that there are, one after the other.
func stretches(of ...stretch) message.Arg {
	var list message.List
	for _, s := range of {
		if s.mm > 0 {
			list.Items = append(list.Items, s.where(message.OfStock("length", s.mm)))
		}
	}
	return message.Arg{Name: "stretches", Value: list}
}

// howVolumes say what volume each of several bodies has, those of one name together.
func howVolumes(parts []*assembly.Part) (out []message.Message) {
	var names []string
	sums := map[string]float64{}
	said := map[string]message.Message{}
	for _, p := range parts {
		name := p.Name.String()
		if _, ok := sums[name]; !ok {
			names = append(names, name)
			said[name] = p.Name
		}
		sums[name] += p.Shape.Volume() / mm3InLitre
	}
	for _, name := range names {
		out = append(out, message.Of("order.how.body", message.In("part", said[name]), volume("volume", sums[name])))
	}
	return out
}

// spread is a line of powder that bodies are made of, and so many litres more: their volume by its
// yield, and what is lost.
func (b *builder) spread(l Line, parts []*assembly.Part, moreLitres float64, yield guide.Key) Line {
	y, loss := b.figure(yield), b.figure(guide.SpreadLoss)
	in := litres(parts) + moreLitres
	l.Needed = guide.Amount{Measure: guide.Mass, Value: in * y.Value * (1 + loss.Value)}
	l.Bodies, l.Source = ids(parts), y.Source
	l.How = append(l.How, howVolumes(parts)...)
	l.How = append(l.How, message.Of("order.how.spread", volume("volume", in),
		message.Arg{Name: "yield", Value: message.Yield{KGPerLitre: y.Value}}, share("loss", loss.Value)))
	return l
}
