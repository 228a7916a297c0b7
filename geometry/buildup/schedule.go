package buildup

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// Combine adds up independent tolerances: at worst their sum, statistically the
// root of the sum of squares. Source: JCGM 100:2008 (GUM), equation 10.
func Combine(tolerances []float64) (worst, statistical float64) {
	for _, t := range tolerances {
		worst += math.Abs(t)
		statistical += t * t
	}
	return worst, math.Sqrt(statistical)
}

// RowKind is what a row's value is.
type RowKind string

// The kinds of row.
const (
	IsLevel RowKind = "level" // height above the datum, mm
	IsStep  RowKind = "step"  // rise from the room or the neighbour to the floor in question, mm, negative down
	IsFall  RowKind = "fall"  // rise over run
	IsDepth RowKind = "depth" // thickness or cover, mm
)

// RowOf is what a row of the schedule is about.
type RowOf int

// What rows are about, in the order of the schedule.
const (
	FloorHigh RowOf = iota
	BaseUnder
	BaseTop
	TrapUnder
	OutletInvert
	PieceInvert // of a piece of the run, by its index
	PieceFall
	PipeCover
	FormerOverPipe
	ExitInvert
	ExitCrown
	Flange
	TileAtDrain
	CoverSet
	PlaneFall // of a plane, by its index
	EdgeLow   // of an open edge, by its index
	EdgeHigh
	EdgeTile
	EdgeStep
	RoomFloor
	DoorFloor // of a doorway, by its index
	DoorStep
)

// RowID tells the rows of schedules apart: the same one of a job whose numbers
// have shifted has the same.
type RowID struct {
	Of     RowOf
	Number int // of several; 0 for the only one
}

// Row is one line of the schedule of levels.
type Row struct {
	ID    RowID
	Label string
	Kind  RowKind
	Value float64
	// Worst and Statistical are how far the value may be off, in its own unit.
	Worst, Statistical float64
	At                 mgl64.Vec3
	Stack              Stack
}

// DoorStepMM is the rise from the neighbour's floor to the room's at a doorway.
func (f Floor) DoorStepMM(d layout.Doorway) float64 {
	return f.FinishedMM(d.Middle().Sub(d.Wall.Outward.Mul(0.5))) - f.job.Room.Doorways[d.Index].NeighbourFFLMM
}

// sideName is the side with a capital.
func sideName(s layout.Side) string { return strings.ToUpper(string(s[:1])) + string(s[1:]) }

// Schedule lists the levels a fitter and a tiler need, from the floor up and
// from the drain outwards.
func (f Floor) Schedule() []Row { return f.AppendSchedule(nil) }

// AppendSchedule is Schedule, added to the rows given.
func (f Floor) AppendSchedule(rows []Row) []Row {
	j, l, h := f.job, f.layout, f.heights
	add := func(of RowOf, n int, label string, z float64, p plan.Point) {
		rows = append(rows, Row{ID: RowID{of, n}, Label: label, Kind: IsLevel, Value: z, At: p.Vec3(z)})
	}
	stacked := func(of RowOf, n int, label string, p plan.Point) {
		s := f.At(p)
		rows = append(rows, Row{ID: RowID{of, n}, Label: label, Kind: IsLevel, Value: s.TopMM(), At: p.Vec3(s.TopMM()), Stack: s})
	}
	step := func(of RowOf, n int, label string, rise float64, p plan.Point, z float64) {
		rows = append(rows, Row{ID: RowID{of, n}, Label: label, Kind: IsStep, Value: rise, At: p.Vec3(z)})
	}
	middle := l.FallArea.Centroid()
	add(FloorHigh, 0, "Structural floor, highest under the shower", h.FloorHighMM, middle)
	if j.Base.Support == job.OnFloor {
		add(BaseUnder, 0, "Base, underside", h.BaseUnderMM, middle)
	}
	add(BaseTop, 0, "Base, top", h.BaseTopMM, middle)
	add(TrapUnder, 0, "Trap, underside", h.TrapMM, l.TrapCentre)
	add(OutletInvert, 0, "Trap outlet, invert", h.OutletMM, l.Outlet)
	for i, p := range h.Run.Pieces {
		if p.FromMM > h.Run.ExitAtMM || p.Kind == "drop" {
			break
		}
		end := math.Min(p.ToMM, h.Run.ExitAtMM)
		add(PieceInvert, i, p.Name()+", invert at end", h.Run.InvertAt(end), h.Run.PointAt(end))
	}
	rows = append(rows, f.pipeRows()...)
	add(ExitInvert, 0, "Exit, invert", h.Run.InvertAt(h.Run.ExitAtMM), h.Run.Exit)
	add(ExitCrown, 0, "Exit, crown", h.Run.InvertAt(h.Run.ExitAtMM)+h.Run.PipeAt(h.Run.ExitAtMM).BoreMM, h.Run.Exit)
	add(Flange, 0, "Drain flange", h.FlangeMM, l.DrainEdge)
	stacked(TileAtDrain, 0, "Tile at the drain", l.DrainEdge)
	add(CoverSet, 0, "Cover of the drain, set to", h.TileMM, l.DrainCentre)
	rows = append(rows, f.planeRows()...)
	for i, e := range h.Edges(j, l) {
		name := sideName(e.Edge.Side) + " edge"
		if e.Tapered() {
			low, high := e.Edge.A, e.Edge.B
			if e.ShowerA > e.ShowerB {
				low, high = high, low
			}
			stacked(EdgeLow, i, sideName(e.Edge.Side)+" cheek, low end", low)
			stacked(EdgeHigh, i, sideName(e.Edge.Side)+" cheek, high end", high)
		} else {
			stacked(EdgeTile, i, name+", tile", e.Edge.Middle())
		}
		step(EdgeStep, i, name+", step", e.WorstStepMM(), e.Edge.Middle(), h.ShowerAt(l, e.Edge.Middle()))
	}
	if j.Former.Fall != job.FallRoom {
		if p, ok := f.roomPoint(); ok {
			stacked(RoomFloor, 0, "Room, finished floor", p)
		}
	}
	for _, d := range l.Doors {
		name := fmt.Sprintf("Doorway %d", d.Index+1)
		p := d.Middle().Sub(d.Wall.Outward.Mul(0.5))
		stacked(DoorFloor, d.Index, name+", finished floor", p)
		step(DoorStep, d.Index, name+", step", f.DoorStepMM(d), p, f.FinishedMM(p))
	}
	return rows
}

// planeRows are the falls of the tiled planes.
func (f Floor) planeRows() []Row {
	l, h := f.layout, f.heights
	var rows []Row
	for i, p := range l.Planes {
		c := p.Region.Centroid()
		rows = append(rows, Row{ID: RowID{PlaneFall, i}, Label: fmt.Sprintf("Plane %d, fall", i+1), Kind: IsFall, Value: p.Gradient(), At: mgl64.Vec3{c.X(), c.Y(), h.ShowerAt(l, c)}})
	}
	return rows
}

// pipeRows are the falls of the pieces of the run, and the least cover over
// them: up to the base's top, and the former's thickness there.
func (f Floor) pipeRows() []Row {
	h := f.heights
	var rows []Row
	cover, former := Row{ID: RowID{Of: PipeCover}, Label: "Least cover over the pipe, to the base's top", Kind: IsDepth, Value: math.Inf(1)},
		Row{ID: RowID{Of: FormerOverPipe}, Label: "Former over the pipe, least", Kind: IsDepth, Value: math.Inf(1)}
	for i, p := range h.Run.Pieces {
		if p.FromMM >= h.Run.ExitAtMM || p.LengthMM() < 1e-6 {
			continue
		}
		q := p.Middle()
		rows = append(rows, Row{ID: RowID{PieceFall, i}, Label: p.Name() + ", fall", Kind: IsFall, Value: p.Gradient(), At: mgl64.Vec3{q.X(), q.Y(), (p.FromInvertMM + p.ToInvertMM) / 2}})
		for _, s := range []float64{p.FromMM, math.Min(p.ToMM, h.Run.ExitAtMM)} {
			q := h.Run.PointAt(s)
			crown := h.Run.InvertAt(s) + p.AboveInvertMM(s)
			at := mgl64.Vec3{q.X(), q.Y(), crown}
			for _, layer := range f.LayersAt(q) {
				switch top := layer.Top.At(q); layer.Kind {
				case Base, RoomBase:
					if top-crown < cover.Value {
						cover.Value, cover.At = top-crown, at
					}
				case Former:
					if t := top - layer.Bottom.At(q); t < former.Value {
						former.Value, former.At = t, at
					}
				}
			}
		}
	}
	for _, r := range []Row{cover, former} {
		if !math.IsInf(r.Value, 1) {
			rows = append(rows, r)
		}
	}
	return rows
}

// roomPoint is a point of the room's floor well outside the shower and its
// ramps; ok is false where there is none.
func (f Floor) roomPoint() (at plan.Point, ok bool) {
	rest := f.layout.Rest
	if len(rest) == 0 {
		return plan.Point{}, false
	}
	onRamp := func(p plan.Point) bool { return f.zone(p).Edge >= 0 }
	if c := rest.Centroid(); rest.Contains(c, 0) && !onRamp(c) {
		return c, true
	}
	// The middle of the longest stretch across the floor that is no ramp.
	best := 0.0
	low, high, _ := rest.Bounds()
	const lines, places = 12, 12
	for k := 1; k < lines; k++ {
		y := low.Y() + (high.Y()-low.Y())*float64(k)/lines
		for _, iv := range rest.Clip(plan.Point{0, y}, plan.Point{1, 0}) {
			for i := 1; i < places; i++ {
				x := iv.From + (iv.To-iv.From)*float64(i)/places
				// How far it is to the nearer end of the stretch.
				clear := math.Min(x-iv.From, iv.To-x)
				if p := (plan.Point{x, y}); clear > best && !onRamp(p) {
					best, at = clear, p
				}
			}
		}
	}
	return at, best > 0
}
