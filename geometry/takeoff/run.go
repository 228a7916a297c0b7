package takeoff

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// pipeKind is pipe that is bought together: of one system and size.
type pipeKind struct {
	nominalMM float64
	// other tells that it is not of the system that the job names; discharge that a pump presses through it.
	other, discharge bool
}

// fitting is a kind of fitting by what it is called.
type fitting struct {
	item   message.Message
	n      int
	bodies []string
	hows   []message.Message
}

// running gathers what the run takes.
type running struct {
	*builder
	kinds    []pipeKind
	pieces   map[pipeKind][]Piece // pipe to be cut
	bodies   map[pipeKind][]string
	clips    map[pipeKind]int
	sockets  map[pipeKind]int
	fittings []fitting
	other    bool // past an adaptor to pipe of another system
}

// run is the waste with its fittings, clips and what makes its joints.
func (b *builder) run() {
	g := &running{builder: b, pieces: map[pipeKind][]Piece{}, bodies: map[pipeKind][]string{},
		clips: map[pipeKind]int{}, sockets: map[pipeKind]int{}}
	pieces := b.h.Run.Pieces
	for i := range pieces {
		g.piece(pieces, i)
	}
	if len(pieces) > 0 {
		g.joins(&pieces[len(pieces)-1])
		g.wayDown()
	}
	g.upright("vent", func() float64 { return b.j.Waste.Vent.NominalMM })
	g.upright("discharge", func() float64 { return b.j.Waste.Pump.DischargeNominalMM })
	g.pipe()
	g.list()
	g.jointing()
}

// kind is the pipe of a size, as the run is there.
func (g *running) kind(nominalMM float64) pipeKind {
	return pipeKind{nominalMM: nominalMM, other: g.other}
}

// know puts a kind of pipe among those there are.
func (g *running) know(k pipeKind) {
	if !slices.Contains(g.kinds, k) {
		g.kinds = append(g.kinds, k)
	}
}

// needs is a stretch of pipe with clips, to be cut in one or in several lengths.
func (g *running) needs(k pipeKind, spacing guide.Key, lengths ...Piece) {
	whole := 0.0
	for _, p := range lengths {
		whole += p.MM
	}
	if whole < unitMM {
		return
	}
	g.know(k)
	g.pieces[k] = append(g.pieces[k], lengths...)
	apart := g.t.Figure(spacing, g.j.Region, k.nominalMM).Value
	g.clips[k] += max(1, int(math.Ceil(whole/apart-noneLess)))
}

// coupled counts couplings of straight pipe.
func (g *running) coupled(k pipeKind, n int, how message.ID) {
	for range n {
		g.fit(message.Of("order.coupling", g.size("size", k)), message.Of(how), nil)
		g.joint(k, 2)
	}
}

// joint counts sockets of pipe.
func (g *running) joint(k pipeKind, n int) {
	g.know(k)
	g.sockets[k] += n
}

// fit counts a fitting, and the bodies that it makes.
func (g *running) fit(item, how message.Message, bodies []string) {
	name := item.String()
	i := slices.IndexFunc(g.fittings, func(f fitting) bool { return f.item.String() == name })
	if i < 0 {
		i, g.fittings = len(g.fittings), append(g.fittings, fitting{item: item})
	}
	g.fittings[i].n++
	if said := how.String(); !slices.ContainsFunc(g.fittings[i].hows, func(m message.Message) bool { return m.String() == said }) {
		g.fittings[i].hows = append(g.fittings[i].hows, how)
	}
	g.fittings[i].bodies = append(g.fittings[i].bodies, bodies...)
}

// body takes the body of a piece of the run.
func (g *running) body(p *waste.Piece) []string {
	id := "run-" + string(p.Kind) + "-" + strconv.Itoa(p.Number)
	return ids(g.take(func(x *assembly.Part) bool { return x.ID == id }))
}

// piece is one piece of the run. Straight pipe goes into the sockets at its ends, as deep as they are;
// where two fittings meet without any, a short piece joins their sockets.
func (g *running) piece(pieces []waste.Piece, i int) {
	p := &pieces[i]
	size := g.kind(p.Pipe.NominalMM)
	before, after := g.ends(pieces, i)
	own, _ := p.Sockets()
	if p.Kind == waste.Straight {
		g.straight(p, size, before, after)
		g.bodies[size] = append(g.bodies[size], g.body(p)...)
		return
	}
	if i > 0 && pieces[i-1].Kind != waste.Straight && before > 0 && own > 0 {
		between := message.Of("order.piece.between", message.In("from", pieces[i-1].Name().Message()), message.In("to", p.Name().Message()))
		g.needs(size, guide.ClipSpacingMM, Piece{What: between, MM: before + own})
	}
	nominal := g.size("size", size)
	switch p.Kind {
	case waste.Joint:
		if g.sameJoint(size) {
			g.joint(size, 1)
		}
	case waste.Bend:
		item := message.Of("order.bend-45", nominal)
		if p.NearestDeg == 90 {
			item = message.Of("order.bend-90", nominal)
		}
		g.fit(item, message.Of("order.how.fitting"), g.body(p))
		g.joint(size, 2)
	case waste.Reducer:
		g.fit(message.Of("order.reducer", nominal, g.size("to", g.kind(p.After.NominalMM))), message.Of("order.how.reducer"), g.body(p))
		g.joint(size, 1)
		g.joint(g.kind(p.After.NominalMM), 1)
	case waste.Adaptor:
		to := pipeKind{nominalMM: p.After.NominalMM, other: true}
		g.fit(message.Of("order.adaptor", nominal, g.size("to", to)), message.Of("order.how.fitting"), g.body(p))
		g.joint(size, 1)
		g.other = true
	case waste.FallingPiece:
		fall, long := message.Slope("fall", math.Abs(p.OwnSlope)), message.MM("long", p.LengthMM())
		g.fit(message.Of("order.falling-piece", nominal, fall, long), message.Of("order.how.fitting"), g.body(p))
		g.joint(size, 2)
	case waste.Drop:
		g.drop(p, size)
	}
}

// ends are how deep the sockets are that a piece of the run goes into at its ends.
func (b *builder) ends(pieces []waste.Piece, i int) (before, after float64) {
	if i > 0 {
		_, before = pieces[i-1].Sockets()
	}
	switch p := &pieces[i]; {
	case i+1 < len(pieces):
		after, _ = pieces[i+1].Sockets()
	case p.Kind == waste.Straight && b.joinsInto():
		after = p.Pipe.InsertionMM
	}
	return before, after
}

// Thread is how a straight of the run is got through the holes in joists.
type Thread struct {
	Piece *waste.Piece
	// FromOutside tells that it is pushed in whole through the hole in the wall; else it goes in from the room, with so many couplings
	// between joists, in one length where there are none.
	FromOutside bool
	Couplings   int
}

// Threads are the straights of a run that go through holes in joists, of a job that could be worked out.
func Threads(r *geometry.Result) (out []Thread) {
	if len(r.Problems) > 0 {
		return nil
	}
	b := &builder{r: r, j: &r.Settled, l: &r.Layout, h: &r.Heights}
	for i := range b.h.Run.Pieces {
		p := &b.h.Run.Pieces[i]
		if p.Kind != waste.Straight || !joist.Holed(r.Joists, p) {
			continue
		}
		before, after := b.ends(b.h.Run.Pieces, i)
		at := joist.CouplingsMM(b.l, &b.h.Run, r.Joists, p, before, after)
		out = append(out, Thread{Piece: p, FromOutside: joist.FromOutside(&b.h.Run, p), Couplings: len(at)})
	}
	return out
}

// straight is a straight of pipe that goes so far into what it joins at its ends, in the lengths that it is put in by between joists.
func (g *running) straight(p *waste.Piece, size pipeKind, before, after float64) {
	at := joist.CouplingsMM(g.l, &g.h.Run, g.r.Joists, p, before, after)
	rise := math.Hypot(1, p.Gradient()) // a length for what it takes in plan
	var lengths []Piece
	add := func(seen, in float64) {
		what := p.Name().Message()
		if len(at) > 0 {
			what = message.Of("order.piece.part", message.In("pipe", what), message.No("n", len(lengths)+1))
		}
		lengths = append(lengths, Piece{What: what, SeenMM: seen, MM: math.Max(unitMM, seen+in)}) // however short, it is there
	}
	from, in := p.FromMM, before
	for _, to := range at {
		add((to-from)*rise, in)
		from, in = to, 0
	}
	add((p.ToMM-from)*rise, in+after)
	if run := &g.h.Run; run.Wall > 0 && p.ToMM > run.WallAtMM {
		lengths[len(lengths)-1].PastMM = (p.ToMM - math.Max(from, run.WallAtMM)) * rise
	}
	g.needs(size, guide.ClipSpacingMM, lengths...)
	g.coupled(size, len(at), "order.how.coupling-joists")
}

// drop is the bend that turns the run down through the floor, and the pipe in it as far as it is drawn.
func (g *running) drop(p *waste.Piece, size pipeKind) {
	foot := math.Inf(1)
	bodies := g.take(func(x *assembly.Part) bool { return x.ID == "run-drop-"+strconv.Itoa(p.Number) })
	for _, x := range bodies {
		for _, at := range tubeEnds(x.Shape) {
			foot = math.Min(foot, at.Z())
		}
	}
	g.fit(message.Of("order.bend-90", g.size("size", size)), message.Of("order.how.drop"), ids(bodies))
	g.joint(size, 2)
	face := p.FromInvertMM + p.Pipe.BoreMM/2 - waste.FaceMM(p.Pipe)
	deep, _ := p.Sockets()
	if !math.IsInf(foot, 1) {
		g.needs(size, guide.UprightSpacingMM, Piece{What: message.Of("order.piece.down", message.In("from", p.Name().Message())), SeenMM: face - foot, MM: face - foot + deep})
	}
}

// tubeEnds are the ends of the tubes of a body.
func tubeEnds(s solid.Shape) (out []mgl64.Vec3) {
	switch s := s.(type) {
	case solid.Tube:
		return []mgl64.Vec3{s.Path[0], s.Path[len(s.Path)-1]}
	case solid.Compound:
		for _, x := range s {
			out = append(out, tubeEnds(x)...)
		}
	}
	return out
}

// joinsInto tells whether the run ends in a socket of what it joins: a stack's branch, an existing
// pipe, a pump.
func (b *builder) joinsInto() bool {
	return b.j.Waste.Exit.Kind != job.ExitWall && b.j.Waste.Exit.Kind != job.ExitFloor || b.stackOutside()
}

// stackOutside tells whether the run joins a stack outside the wall that it goes out through.
func (b *builder) stackOutside() bool {
	way := b.j.Waste.WayOut()
	return way != nil && way.Joins == job.JoinStack
}

// joins is the fitting by which the run joins what is there.
func (g *running) joins(last *waste.Piece) {
	size := g.kind(last.After.NominalMM)
	nominal := g.size("size", size)
	switch g.j.Waste.Exit.Kind {
	case job.ExitWall:
		if g.stackOutside() {
			g.fit(message.Of("order.branch-outside", nominal), message.Of("order.how.branch"), nil)
			g.joint(size, 1)
		}
	case job.ExitStack:
		stack := g.j.Room.Stacks[g.j.Waste.Exit.Stack]
		g.fit(message.Of("order.branch", nominal, message.MM("stack", stack.OutsideMM)), message.Of("order.how.branch"), nil)
		g.joint(size, 1)
	case job.ExitPipe:
		if last.Kind != waste.Adaptor {
			g.fit(message.Of("order.connector", nominal), message.Of("order.how.connector"), nil)
			g.joint(size, 1)
		}
	}
	v := g.j.Waste.Vent
	if v == nil {
		return
	}
	if _, in := g.j.StackAsVent(g.h.Run.LengthMM); !in {
		size := g.kind(g.h.Run.PipeAt(v.AtMM).NominalMM)
		g.fit(message.Of("order.vent-branch", g.size("size", size), g.size("vent", g.kind(v.NominalMM))), message.Of("order.how.vent"), nil)
	}
}

// wayDown is the bend that turns the run down outside, and the pipe on from there as far as it is stated.
func (g *running) wayDown() {
	w := &g.j.Waste
	if !w.TurnsDown() {
		return
	}
	pipe := g.h.Run.Outgoing()
	size := g.kind(pipe.NominalMM)
	g.fit(message.Of("order.bend-90", g.size("size", size)), message.Of("order.how.outside"), nil)
	g.joint(size, 2)
	if to, known := level.DownToMM(g.j, &g.h.Run); known {
		face := waste.FaceMM(pipe)
		seen := g.h.Run.InvertAt(g.h.Run.LengthMM-face) + pipe.BoreMM/2 - face - to
		if seen > 0 {
			g.needs(size, guide.UprightSpacingMM, Piece{What: message.Of("order.piece.outside"), SeenMM: seen, MM: seen + pipe.InsertionMM})
		}
	}
}

// upright is a pipe of its own that stands up: a vent, a pump's discharge.
func (g *running) upright(id string, nominalMM func() float64) {
	for _, p := range g.take(func(p *assembly.Part) bool { return p.ID == id }) {
		low, high := math.Inf(1), math.Inf(-1)
		for _, at := range tubeEnds(p.Shape) {
			low, high = math.Min(low, at.Z()), math.Max(high, at.Z())
		}
		k := pipeKind{nominalMM: nominalMM(), other: true, discharge: id == "discharge"}
		if s := g.j.Parts.Pipe; s != nil && id == "vent" {
			_, sold := s.Size(k.nominalMM)
			k.other = !sold
		}
		g.needs(k, guide.UprightSpacingMM, Piece{What: p.Name, SeenMM: high - low, MM: high - low})
		g.bodies[k] = append(g.bodies[k], p.ID)
	}
}

// system is what pipe of a kind is sold as; nil where the job does not say.
func (g *running) system(k pipeKind) *part.PipeSystem {
	if k.other {
		return nil
	}
	return g.j.Parts.Pipe
}

// sameJoint tells whether the trap's outlet is jointed as the pipe is: welded, or pushed into a ring.
func (g *running) sameJoint(k pipeKind) bool {
	d := g.j.Parts.Drain
	if d == nil || g.system(k) == nil {
		return false
	}
	o, ok := d.Outlet(k.nominalMM)
	return ok && o.Joint == g.system(k).Joint
}

// called is what pipe of a kind is called.
func (g *running) called(k pipeKind) message.Message {
	s := g.system(k)
	switch {
	case k.discharge && k.nominalMM > 0:
		return message.Of("order.pipe-discharge", message.Nominal("size", k.nominalMM))
	case s == nil && k.nominalMM == 0:
		return message.Of("order.pipe-unknown")
	case s == nil:
		return message.Of("order.pipe-plain", message.Nominal("size", k.nominalMM))
	}
	if z, ok := s.Size(k.nominalMM); ok {
		return message.Of("order.pipe", message.In("system", part.Name(*s)), message.In("size", z.Name()))
	}
	return message.Of("order.pipe-plain", message.Nominal("size", k.nominalMM))
}

// size is what the size of pipe is called: as its system does, or by its nominal size.
func (g *running) size(name string, k pipeKind) message.Arg {
	if s := g.system(k); s != nil {
		if z, ok := s.Size(k.nominalMM); ok {
			return message.In(name, z.Name())
		}
	}
	return message.Nominal(name, k.nominalMM)
}

// pipe are the lengths that pipe is cut from, and the couplings where no length is long enough.
func (g *running) pipe() {
	slices.SortFunc(g.kinds, func(a, b pipeKind) int { return cmp.Compare(a.nominalMM, b.nominalMM) })
	for _, k := range g.kinds {
		if len(g.pieces[k]) == 0 {
			continue
		}
		usual, _ := g.t.Pack(guide.Pipe, g.j.Region, "")
		stock, from := usual.Holds, usual.Source
		if s := g.system(k); s != nil && s.StockMM > 0 {
			stock, from = s.StockMM, g.derived
		}
		l, joins := Line{Group: Pipe, Item: g.called(k), Bodies: g.bodies[k], Source: from, Pieces: g.pieces[k]}.cut(nil, stock)
		l.How = append(l.How, message.Of("order.how.insertion"))
		g.add(l)
		g.coupled(k, joins, "order.how.coupling")
	}
}

// list are the fittings as they were counted.
func (g *running) list() {
	for _, f := range g.fittings {
		g.add(Line{Group: Fittings, Item: f.item, Needed: count(f.n), Bodies: f.bodies, How: f.hows})
	}
	for _, k := range g.kinds {
		if g.clips[k] > 0 {
			f := g.t.Figure(guide.ClipSpacingMM, g.j.Region, k.nominalMM)
			g.add(Line{Group: Fixings, Item: message.Of("order.clips", g.size("size", k)), Needed: count(g.clips[k]),
				How: []message.Message{message.Of("order.how.clips", message.MM("apart", f.Value))}, Source: f.Source})
		}
	}
}

// jointing are cleaner or primer, as is usual in the region, and cement of welded joints, and lubricant of those with a ring, by their
// sizes.
func (g *running) jointing() {
	put := func(item message.Message, of guide.Key, pack guide.Item, joint part.Joint) {
		l := Line{Group: Fittings, Item: item, Needed: guide.Amount{Measure: guide.Liquid}}
		for _, k := range g.kinds {
			s := g.system(k)
			if s == nil || s.Joint != joint || g.sockets[k] == 0 {
				continue
			}
			f := g.t.Figure(of, g.j.Region, k.nominalMM)
			l.Needed.Value += float64(g.sockets[k]) * f.Value
			l.Source = f.Source
			l.How = append(l.How, message.Of("order.how.joints", message.N("n", g.sockets[k]), g.size("size", k),
				message.Arg{Name: "each", Value: message.Liquid{Litres: f.Value}}))
		}
		g.add(g.packed(l, pack, ""))
	}
	before := message.Of("order.cleaner")
	if g.t.Figure(guide.WeldPrimer, g.j.Region, 0).Value > 0 {
		before = message.Of("order.weld-primer")
	}
	put(before, guide.CleanerJoint, guide.Cleaner, part.Solvent)
	put(message.Of("order.cement"), guide.CementJoint, guide.Cement, part.Solvent)
	put(message.Of("order.lubricant"), guide.LubricantJoint, guide.Lubricant, part.PushFit)
}
