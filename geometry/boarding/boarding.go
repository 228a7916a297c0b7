// Package boarding works out how boards are laid and sawn: those of the base, of a raised room's
// base, what is let in between joists, and a former of boards.
package boarding

import (
	"math"
	"slices"

	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Piece is one board as it is sawn.
type Piece struct {
	Number int // from one, over all layers
	// Region is its outline in plan, of one polygon; CornerMM where the rectangle that it is
	// sawn from begins, along its direction and across to the left.
	Region   plan.Region
	CornerMM plan.Point
	// Along is the direction that its length lies in: that of its layer, of a former up the plane that it is on.
	Along plan.Point
	// LengthMM along that and WidthMM across are the rectangle's. Notched tells that the
	// piece is less than that.
	LengthMM, WidthMM float64
	Notched           bool
	// Cuts are what is sawn out of a notched piece; none where it is cut askew.
	Cuts []Cut
	// ThinMM and ThickMM are how thick it is at its thinnest and its thickest.
	ThinMM, ThickMM float64
	// Sheet is the one of its stock that it is sawn from, from one, and OnSheetMM where on it
	// its corner lies; 0 for a piece of a former, which has a board to itself.
	Sheet     int
	OnSheetMM plan.Point
}

// Layer is one layer of boards.
type Layer struct {
	Name message.Message
	// Along is the direction its rows run in, Across square to it to the left.
	Along, Across plan.Point
	Region        plan.Region // all of it
	ThicknessMM   float64     // of its place, at its thickest
	// BoardMM is how thick the boards are that it is laid of, as they are sold: less than its place
	// where they are packed up in their bed.
	BoardMM float64
	Former  bool
	Pieces  []Piece
	// Loose is how many end joints of boards on or between joists lie on no joist and no
	// noggin; 0 on a floor, which carries all of them.
	Loose int
	// Strips are how many places are too narrow for board, and are filled.
	Strips int
	// Stock is which the pieces are sawn from, by its index.
	Stock int
	// TooMany tells that the boards are too small for so large a floor to be laid out.
	TooMany bool
}

// Stock is the sheets of one thickness.
type Stock struct {
	ThicknessMM, LengthMM, WidthMM float64
	// AtHand tells that boards of that thickness are among those at hand.
	AtHand bool
	Sheets int
	// LeftMM2 is what is left of them when all pieces are sawn, what the saw takes included.
	LeftMM2 float64
}

// Plan is how all boards of a floor are laid and sawn.
type Plan struct {
	Layers []Layer
	Stocks []Stock
}

const (
	// leastEndMM is the shortest piece at an end of a row, leastRipMM the narrowest row, where
	// another way of laying them avoids it. Common practice, no source.
	leastEndMM, leastRipMM = 150, 100
	// staggerShare is how far the end joints of a row keep from those of the row before, as a
	// share of a board. Common practice, no source.
	staggerShare = 0.25
	// mostPieces is how many pieces a layer may have to be laid out.
	mostPieces = 400
	// leastBoardMM is the smallest side of a board that is laid out.
	leastBoardMM = 50
	// leastPieceMM is under which a gap is dust. Common practice, no source.
	leastPieceMM = 2
)

// layers gathers what is laid, of one job.
type layers struct {
	j     *job.Job
	l     *layout.Layout
	h     *level.Heights
	sh    *plan.Shaper
	out   Plan
	limit size
}

// size is how large a board is.
type size struct{ long, wide float64 }

// Of is how the boards of a job's bodies are laid; the error tells a shape that failed, what
// could be laid is there all the same.
func Of(j *job.Job, l *layout.Layout, h *level.Heights, a *assembly.Assembly) (Plan, error) {
	var sh plan.Shaper
	g := &layers{j: j, l: l, h: h, sh: &sh}
	g.limit.long, g.limit.wide = j.Base.BoardSize()
	for i := range a.Parts {
		p := &a.Parts[i]
		region, bottom, top, ok := outline(p.Shape)
		if !ok || len(region) == 0 {
			continue
		}
		switch p.Material {
		case material.BaseBoard:
			g.boards(p, region, bottom, top)
		case material.FormerBody:
			g.former(p, region, bottom, top)
		}
	}
	n := 0
	for i := range g.out.Layers {
		for k := range g.out.Layers[i].Pieces {
			n++
			g.out.Layers[i].Pieces[k].Number = n
		}
	}
	g.saw()
	return g.out, sh.Err()
}

// outline is what a body takes in plan, with its underside and its top; one cut back in its top for
// the drain is two bodies one on the other.
func outline(s solid.Shape) (region plan.Region, bottom, top solid.Surface, ok bool) {
	switch s := s.(type) {
	case solid.Prism:
		return s.Sheet.Region(), s.Bottom, s.Top, true
	case solid.Compound:
		if len(s) == 0 {
			return nil, nil, nil, false
		}
		region, bottom, top, ok = outline(s[0])
		if _, _, upper, more := outline(s[len(s)-1]); more {
			top = upper
		}
		return region, bottom, top, ok
	}
	return nil, nil, nil, false
}

// boards lays a layer of boards of the base.
func (g *layers) boards(p *assembly.Part, region plan.Region, bottom, top solid.Surface) {
	layer := Layer{Name: p.Name, Region: region, Along: g.l.ToRight}
	_, layer.ThicknessMM = solid.Between(region, bottom, top)
	letIn := g.j.Base.Support == job.BetweenJoists && g.l.FallArea.Contains(region.Centroid(), plan.HairMM)
	between := letIn && p.ID == buildup.BaseBetweenJoists.Facts().PartID
	var f field
	switch {
	case between:
		layer.Along = g.l.JoistAlong
		f.borne, f.bearers = true, g.noggins()
	case letIn:
		layer.Along = plan.Left(g.l.JoistAlong)
		f.borne, f.bearers = true, g.joists(layer.Along)
	case g.j.Base.KeepZoneMM > 0:
		spare := math.Max(0, g.limit.long-g.j.Shower.WidthMM)
		f.kept, f.trimMM = true, spare/2
		if at := g.j.Base.CutAtStartMM; at != nil {
			f.trimMM = math.Min(spare, *at)
		}
	default:
		// Each layer of a stack lies across the one below.
		layer.Along = longer(region, g.l.ToRight, g.l.Into)
		if below := g.below(region); below != nil && below.Along == layer.Along {
			layer.Along = g.l.Into
			if below.Along == g.l.Into {
				layer.Along = g.l.ToRight
			}
		}
	}
	layer.Across = plan.Left(layer.Along)
	f.layer, f.limit, f.sh = &layer, g.limit, g.sh
	if between {
		for _, bay := range region {
			f.lay(plan.Region{bay})
			f.before = nil
		}
	} else {
		f.lay(region)
	}
	layer.BoardMM = g.soldMM(layer.ThicknessMM)
	layer.Stock = g.stock(layer.BoardMM)
	g.laid(layer, bottom, top)
}

// laid takes a layer whose pieces are laid, and tells how thick each is between two surfaces.
func (g *layers) laid(layer Layer, bottom, top solid.Surface) {
	for i := range layer.Pieces {
		layer.Pieces[i].ThinMM, layer.Pieces[i].ThickMM = solid.Between(layer.Pieces[i].Region, bottom, top)
	}
	g.out.Layers = append(g.out.Layers, layer)
}

// below is the layer of boards laid last under a region; nil without one.
func (g *layers) below(region plan.Region) *Layer {
	for i := range g.out.Layers {
		if l := &g.out.Layers[len(g.out.Layers)-1-i]; !l.Former && plan.SharedArea(l.Region, region) > region.Area()/2 {
			return l
		}
	}
	return nil
}

// longer is the one of two directions that a region reaches farther in.
func longer(r plan.Region, u, v plan.Point) plan.Point {
	from, to := r.Reach(u)
	low, high := r.Reach(v)
	if high-low > to-from+plan.HairMM {
		return v
	}
	return u
}

// stock is the index of the sheets of a thickness.
func (g *layers) stock(thicknessMM float64) int {
	i := slices.IndexFunc(g.out.Stocks, func(s Stock) bool { return math.Abs(s.ThicknessMM-thicknessMM) < sameThicknessMM })
	if i < 0 {
		i = len(g.out.Stocks)
		at := g.j.Base.BoardsMM
		g.out.Stocks = append(g.out.Stocks, Stock{ThicknessMM: thicknessMM, LengthMM: g.limit.long, WidthMM: g.limit.wide,
			AtHand: len(at) == 0 || slices.Contains(at, thicknessMM)})
	}
	return i
}

const (
	// sameThicknessMM is within which sheets are as thick.
	sameThicknessMM = 0.05
	// packedMM is how much thinner than its place a board may be that is packed up in its bed.
	// Common practice, no source.
	packedMM = 10
)

// soldMM is the thickness at hand that the boards of a place are: its own, or the next thinner that their bed
// can make up for; its own where there is none.
func (g *layers) soldMM(thickMM float64) float64 {
	sold := thickMM
	for _, mm := range g.j.Base.BoardsMM { // thinnest first
		if mm <= thickMM+sameThicknessMM && thickMM-mm <= packedMM {
			sold = mm
		}
	}
	return sold
}

// Packed tells whether the boards of a layer are packed up to their place.
func (l *Layer) Packed() bool { return !l.Former && l.BoardMM < l.ThicknessMM-sameThicknessMM }

// joists are the middles of the joists as distances in a direction.
func (g *layers) joists(along plan.Point) (at []float64) {
	for i := range g.l.Joists {
		if js := &g.l.Joists[i]; js.Member != layout.Trimmer {
			at = append(at, js.Origin.Dot(along))
		}
	}
	slices.Sort(at)
	return at
}

// noggins are the middles of the noggins under boards let in, as distances along the joists.
func (g *layers) noggins() (at []float64) {
	opening, ok := joist.OpeningOf(g.j, g.l, g.h)
	if !ok {
		return nil
	}
	for _, n := range opening.Noggins {
		if !n.UnderDeck {
			from, to := plan.FromRing(n.Ring).Reach(g.l.JoistAlong)
			at = append(at, (from+to)/2)
		}
	}
	slices.Sort(at)
	return at
}
