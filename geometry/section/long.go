package section

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/waste"
)

// long is a long section being drawn: lengths along the run across, levels
// times the drawing's rise up.
type long struct {
	*Drawing
	r geometry.Result
}

// LongOf draws the waste run developed along its axis: the pipe with its
// inverts and falls, the water in it, the floor and base it lies in, the
// joists it meets and the wall it goes through. Heights are exaggerated by the
// drawing's Rise.
func LongOf(r geometry.Result) Drawing {
	d := Drawing{Rise: riseOf(r)}
	run := r.Heights.Run
	if len(run.Pieces) == 0 {
		return d
	}
	g := &long{&d, r}
	g.floor()
	g.joists()
	g.trap()
	g.pipe()
	d.bound()
	g.nodes()
	g.dimensions()
	g.pieceNames()
	d.timberNotes(r)
	d.wallLetters()
	margin := (d.High.Y() - d.Low.Y()) / 8
	d.FocusLow, d.FocusHigh = d.Low.Sub(plan.Point{40, 1.5 * margin}), d.High.Add(plan.Point{40, margin})
	return d
}

// riseOf is how many times taller than long the long section is drawn, as long
// sections of drains are: as much as lets it be two and a half times as long as tall: with its rows of lengths and
// labels it then fills what a window has for it. It is twice as tall already where that leaves it twice as long as tall.
func riseOf(r geometry.Result) float64 {
	h := r.Heights
	low := math.Min(h.TrapMM, h.Run.InvertAt(h.Run.LengthMM)) - longBelowMM
	way, ground := r.Settled.Waste.WayOut(), level.GroundOutsideMM(&r.Settled, &r.Heights.Run)
	switch {
	case way != nil && way.Joins == job.JoinGully:
		if _, foot, known := gullyLevels(way, ground); known {
			low = math.Min(low, foot)
		}
	case way != nil && way.Joins == job.JoinDrain && ground != nil:
		low = math.Min(low, *ground-longBelowMM)
	}
	length, height := h.Run.LengthMM+r.Settled.Drain.TrapSizeMM, h.TileMM+longBelowMM-low
	const longer, twice = 2.5, 2
	for _, rise := range []float64{10, 8, 5, 4, 3} {
		if height*rise <= length/longer {
			return rise
		}
	}
	if height*twice <= length/twice { // else a fall is hardly seen
		return twice
	}
	return 1
}

// at is the point of the drawing at a distance along the run and a level.
func (g *long) at(s, z float64) plan.Point { return plan.Point{s, z * g.Rise} }

// nothingMM2 is an area that is not drawn: two lines of levels on one another.
const nothingMM2 = 1e-6

// area adds what lies between two lines of levels over the same distances.
func (g *long) area(id string, name message.Message, m material.Material, cut bool, at []float64, low, high func(s float64) float64) {
	var ring plan.Ring
	for _, s := range at {
		ring = append(ring, g.at(s, low(s)))
	}
	for i := len(at) - 1; i >= 0; i-- {
		ring = append(ring, g.at(at[i], high(at[i])))
	}
	if region := plan.FromRing(ring); region.Area() > nothingMM2 {
		g.Areas = append(g.Areas, Area{PartID: id, Name: name, Material: m, Region: region, Cut: cut})
	}
}

// atLevel is the same level everywhere.
func atLevel(z float64) func(float64) float64 { return func(float64) float64 { return z } }

// Depth of structure shown under the floor, and length shown before the trap.
const (
	longBelowMM  = 60
	longBeforeMM = 40
)

// place is the plan point at a distance along the run, before it and past its end too.
func (g *long) place(s float64) plan.Point {
	l, run := &g.r.Layout, &g.r.Heights.Run
	switch past := s - run.LengthMM; {
	case s < 0:
		return l.Outlet.Add(l.OutletTo.Mul(s))
	case past > 0 && run.Wall == 0:
		return run.PointAt(run.LengthMM).Add(run.ExitTo.Mul(past))
	}
	return run.PointAt(s)
}

// belowMM is how deep the structure is shown under the floor.
func (g *long) belowMM() float64 { return g.r.Settled.SetDown() + longBelowMM }

// lowMM and highMM are how far down and up what stands upright is drawn.
func (g *long) lowMM() float64 {
	run := &g.r.Heights.Run
	return run.InvertAt(run.LengthMM) - run.Outgoing().WallMM() - longBelowMM
}

func (g *long) highMM() float64 {
	high := g.r.Heights.TileMM
	if p := g.r.Settled.Waste.IntoPump(); p != nil {
		high = math.Max(high, g.pumpFootMM(p)+p.HeightMM)
	}
	return high + longBelowMM
}

// joists draws every joist that the drawing passes over or through: one that a bend goes
// along in one piece.
func (g *long) joists() {
	r, h := &g.r, &g.r.Heights
	run := &h.Run
	before := -r.Settled.Drain.TrapSizeMM - longBeforeMM
	for _, js := range r.Layout.Joists {
		var crossed []plan.Interval
		cross := func(s waste.Stretch) {
			from, to, ok := js.Crosses(s.A, s.B)
			if !ok {
				return
			}
			iv := plan.Interval{From: s.FromMM + from*s.LengthMM, To: s.FromMM + to*s.LengthMM}
			if n := len(crossed); n > 0 && iv.From <= crossed[n-1].To+plan.HairMM {
				crossed[n-1].To = math.Max(crossed[n-1].To, iv.To)
				return
			}
			crossed = append(crossed, iv)
		}
		cross(waste.Stretch{A: g.place(before), B: g.place(0), FromMM: before, LengthMM: -before})
		for _, p := range run.Pieces {
			p.Stretches(func(s waste.Stretch) bool { cross(s); return true })
		}
		if past := g.pastMM(); past > 0 {
			cross(waste.Stretch{A: g.place(run.LengthMM), B: g.place(run.LengthMM + past), FromMM: run.LengthMM, LengthMM: past})
		}
		for _, iv := range crossed {
			top := joist.TopMM(&r.Settled, h, &js, g.place((iv.From+iv.To)/2))
			g.area(js.ID(), js.Name(), material.Timber, true, []float64{iv.From, iv.To}, atLevel(top-r.Settled.Floor.Joists.DepthMM), atLevel(top))
		}
	}
}

// trap draws the trap with its dip and weir and the water that they hold, as it lies on
// the way to its outlet.
func (g *long) trap() {
	const wall = part.TrapWallMM
	h := g.r.Heights
	t := h.Trap(&g.r.Settled, &g.r.Layout)
	half := g.r.Settled.Drain.TrapSizeMM / 2
	// From the trap's middle, which lies half its size before the run.
	plate := func(name message.ID, from, to, low, high float64) {
		if high > low {
			g.area("trap", message.Of(name), material.Plastic, false, []float64{from - half, to - half}, atLevel(low), atLevel(high))
		}
	}
	plate("part.trap", -half, half, t.UnderMM, h.FlangeMM)
	// The water ends before the weir, and under the chamber behind it.
	behind, chamber := t.HalfMM, t.WaterMM
	if t.InnerWeirMM > plan.HairMM {
		behind, chamber = t.PlateMM, math.Max(t.FloorMM, h.OutletMM-wall)
		plate("part.trap-weir", t.PlateMM, t.PlateMM+wall, chamber, t.WeirMM)
		plate("part.trap-weir", t.PlateMM+wall, t.HalfMM, chamber, h.OutletMM)
	}
	step := behind - half
	surface := func(s float64) float64 {
		if s > step {
			return chamber
		}
		return t.WaterMM
	}
	g.area("trap-water", message.Of("part.seal"), material.Water, false,
		[]float64{-t.HalfMM - half, step, step + plan.HairMM, t.HalfMM - half}, atLevel(t.FloorMM), surface)
	for _, from := range [2]float64{t.DipAlong.From, t.DipAlong.To - wall} {
		plate("part.trap-dip", from, from+wall, t.DipMM, h.FlangeMM)
	}
}

// pipe draws the pieces, with the water in them at the shower's flow: in a reducer it goes
// over from as deep as it stands before to as deep as after.
func (g *long) pipe() {
	h := g.r.Heights
	for i, p := range h.Run.Pieces {
		if end := h.Run.LevelEndMM(&g.r.Settled.Waste); i == len(h.Run.Pieces)-1 && end < p.ToMM {
			// As far as the bend that turns it down.
			to := math.Max(p.FromMM, end)
			p.ToInvertMM, p.ToMM = h.Run.InvertAt(to), to
		}
		ends := []float64{p.FromMM, p.ToMM}
		if p.Kind == waste.Drop || p.LengthMM() < plan.HairMM {
			continue
		}
		invert := func(s float64) float64 {
			return p.FromInvertMM + (p.ToInvertMM-p.FromInvertMM)*(s-p.FromMM)/p.LengthMM()
		}
		id := fmt.Sprintf("pipe-%d", p.Number)
		if p.Kind == waste.Joint {
			id = "pipe-0"
		}
		// Its wall below and its wall above, with the bore between.
		var below, above plan.Ring
		edges := profileOf(&p)
		for _, e := range edges {
			below = append(below, g.at(e.atMM, invert(e.atMM)-e.belowMM))
			above = append(above, g.at(e.atMM, invert(e.atMM)+e.aboveMM-e.belowMM))
		}
		for _, e := range slices.Backward(edges) {
			below = append(below, g.at(e.atMM, invert(e.atMM)))
			above = append(above, g.at(e.atMM, invert(e.atMM)+e.aboveMM))
		}
		g.Areas = append(g.Areas, Area{PartID: id, Name: p.Name().Message(), Material: material.Plastic, Region: append(plan.FromRing(below), plan.FromRing(above)...)})
		if from, to := g.depthsMM(&p); from > 0 || to > 0 {
			g.area(id+"-water", message.Of("part.pipe-water"), material.Water, false, ends, invert, func(s float64) float64 {
				return invert(s) + from + (to-from)*(s-p.FromMM)/p.LengthMM()
			})
		}
	}
}

// depthsMM are how deep the water stands at both ends of a piece: in the trap's joint as in
// the pipe after it, in a piece that tapers as in those beside it.
func (g *long) depthsMM(p *waste.Piece) (from, to float64) {
	if !p.Tapers() {
		for _, w := range g.r.Water.Pieces {
			if w.Piece.Number == p.Number {
				return w.DepthShare * p.Pipe.BoreMM, w.DepthShare * p.Pipe.BoreMM
			}
		}
		return 0, 0
	}
	for _, w := range g.r.Water.Pieces {
		depth := w.DepthShare * w.Piece.Pipe.BoreMM
		if w.Piece.Number < p.Number {
			from, to = depth, depth
		}
		if w.Piece.Number == p.Number+1 {
			if to = depth; from == 0 {
				from = depth
			}
		}
	}
	return from, to
}

// nodes marks the inverts at every change and at the ends, and the crown where
// the cover is least.
func (g *long) nodes() {
	r, h := g.r, g.r.Heights
	run := h.Run
	mark := func(s float64) {
		z := run.InvertAt(s)
		g.Marks = append(g.Marks, Mark{At: g.at(s, z), Of: MarkInvert, LevelMM: z})
	}
	g.Marks = append(g.Marks, outletMark(&r, g.at(0, run.InvertAt(0))))
	for _, p := range run.Pieces[1:] {
		if p.FromMM < run.ExitAtMM-1 && (p.Kind == waste.Bend || p.InLine()) {
			mark(p.FromMM)
		}
		if p.ToMM < run.ExitAtMM-1 && p.InLine() {
			mark(p.ToMM)
		}
	}
	mark(run.ExitAtMM)
	if r.Settled.Waste.WayOut() != nil {
		mark(run.LevelEndMM(&r.Settled.Waste))
	}
	if core, m, ok := coreMark(&r); ok {
		middle := (run.WallAtMM + run.OuterFaceAtMM(r.Layout.Walls[core.Wall-1].ThicknessMM, r.Layout.Walls[core.Wall-1].Outward)) / 2
		m.At = g.at(middle, core.CentreMM)
		g.Marks = append(g.Marks, m)
	}
	crown := run.InvertAt(run.ExitAtMM) + run.PipeAt(run.ExitAtMM).BoreMM
	g.Marks = append(g.Marks, Mark{At: g.at(run.ExitAtMM, crown), Of: MarkCrown, LevelMM: crown})
	for _, row := range r.Schedule {
		if row.ID.Of == buildup.PipeCover {
			at := run.Nearest(planOf(row.At))
			g.Marks = append(g.Marks, Mark{At: g.at(at, row.At.Z()), Of: MarkLeastCover, ThicknessMM: row.Value})
		}
	}
	g.stops()
	if r.Settled.Waste.Exit.Kind != job.ExitFloor {
		g.Handles = append(g.Handles, Handle{g.at(run.ExitAtMM, run.InvertAt(run.ExitAtMM)), edit.Handle{Kind: edit.HandleExitLevel}})
	}
	for _, p := range run.Pieces {
		if p.InLine() {
			g.Handles = append(g.Handles, Handle{g.at(p.FromMM, p.FromInvertMM+p.Pipe.BoreMM/2), edit.Handle{Kind: edit.HandleFitting, Index: p.Fitting}})
		}
	}
}

// stops marks where the run clashes with something, or cuts joists as it may not: once
// for each of the rules.
func (g *long) stops() {
	told := map[string]bool{}
	for _, f := range g.r.Findings {
		by := strings.HasPrefix(f.Rule.Quantity, "clash.") || strings.HasPrefix(f.Rule.Quantity, "joist.")
		if f.Rule.Severity != rule.Stop || !by || told[f.Rule.ID] {
			continue
		}
		told[f.Rule.ID] = true
		at := f.Measurement.At
		g.Marks = append(g.Marks, Mark{At: g.at(g.r.Heights.Run.Nearest(planOf(at)), at.Z()), Of: MarkStop, Said: f.Rule.Heading(), Under: true})
	}
}

// endMM is how far along the run it is dimensioned: to its exit, or to where it is known
// to join outside.
func (g *long) endMM() float64 {
	if g.r.Settled.Waste.WayOut() != nil {
		return g.r.Heights.Run.LengthMM
	}
	return g.r.Heights.Run.ExitAtMM
}

// dimensions writes every piece's length and fall under the drawing, that of a drop to its middle, and the
// whole run below that.
func (g *long) dimensions() {
	r := g.r
	run := r.Heights.Run
	below := plan.Point{0, -1}
	_, exact := r.Settled.Waste.Exit.Level.ExactlyMM()
	at := []float64{0}
	for _, p := range run.Pieces {
		at = append(at, math.Max(at[len(at)-1], math.Min(p.ToMM, g.endMM())))
	}
	drops, end := run.Pieces[len(run.Pieces)-1].Kind == waste.Drop, g.endMM()
	if drops {
		end = g.dropAtMM()
	}
	chain := chainOf(append(at, end))
	for i, p := range run.Pieces {
		from, to := at[i], at[i+1]
		if to-from < 1 {
			continue
		}
		text, key := message.Of("dimension.length", message.InFeet(chain.Part("length", i))), ""
		if p.Kind == waste.Straight && !exact {
			key = "waste.gradient"
		}
		if p.Kind != waste.Bend && p.Kind != waste.Joint && !p.Tapers() {
			text = message.Of("dimension.length-and-fall", message.InFeet(chain.Part("length", i)), message.Slope("fall", p.Gradient()))
		}
		g.Dimensions = append(g.Dimensions, Dimension{From: plan.Point{from, g.Low.Y()}, To: plan.Point{to, g.Low.Y()},
			Text: text, Row: 1, Side: below, Key: key})
	}
	if drops {
		text := message.Of("dimension.length", message.InFeet(chain.Part("length", len(run.Pieces))))
		g.Dimensions = append(g.Dimensions, Dimension{From: plan.Point{run.LengthMM, g.Low.Y()}, To: plan.Point{end, g.Low.Y()},
			Text: text, Row: 1, Side: below})
	}
	g.Dimensions = append(g.Dimensions, Dimension{From: plan.Point{0, g.Low.Y()}, To: plan.Point{end, g.Low.Y()},
		Text: message.Of("dimension.length", message.InFeet(chain.All("length"))), Row: 2, Side: below})
	g.seal(r, -r.Settled.Drain.TrapSizeMM, plan.Point{-1, 0})
}
