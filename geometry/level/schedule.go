package level

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// Layer is one layer of the build-up at a plan point.
type Layer struct {
	Name     string
	BottomMM float64
	TopMM    float64
}

// ThicknessMM of the layer.
func (l Layer) ThicknessMM() float64 { return l.TopMM - l.BottomMM }

// Stack is the build-up at one plan point from the structural floor up.
type Stack []Layer

// Top is the finished level.
func (s Stack) Top() float64 { return s[len(s)-1].TopMM }

// Combine adds up independent tolerances: at worst their sum, statistically the
// root of the sum of squares. Source: JCGM 100:2008 (GUM), equation 10.
func Combine(tolerances []float64) (worst, statistical float64) {
	for _, t := range tolerances {
		worst += math.Abs(t)
		statistical += t * t
	}
	return worst, math.Sqrt(statistical)
}

// StackAt is the build-up at a plan point of the room. Thicknesses are plumb;
// at falls up to 1:20 they differ from those square to the tile by 0.13 %.
func (h Heights) StackAt(j job.Job, l layout.Layout, p plan.Point) Stack {
	floor := h.Survey.Floor.At(p)
	s := Stack{{"Structural floor", floor, floor}}
	add := func(name string, top float64) {
		if bottom := s.Top(); top-bottom > 1e-9 {
			s = append(s, Layer{name, bottom, top})
		}
	}
	finish := func(kind string, f job.Finish) {
		add(kind+" tanking", s.Top()+f.Tanking.ThicknessMM)
		add(kind+" tile bed", s.Top()+f.Bed.ThicknessMM)
		add(kind+" tile", s.Top()+f.Tile.ThicknessMM)
	}
	if l.FallArea.Contains(p, 1e-6) {
		if j.Base.Support == job.OnFloor {
			add("Adhesive under base", h.BaseUnderMM)
		}
		add("Base", h.BaseTopMM)
		add("Bed under former", h.FormerMM)
		add("Former", h.FlangeMM+l.Fall.At(p))
		finish("Shower", j.Layers.Shower)
		return s
	}
	switch {
	case !math.IsNaN(h.RoomTopMM):
		add("Room base", h.RoomTopMM-j.Layers.Room.ThicknessMM())
		finish("Room", j.Layers.Room)
	case j.Floor.KeepsFinish():
		add("Existing finish", floor+j.Floor.FinishThicknessMM)
	default:
		finish("Room", j.Layers.Room)
	}
	return s
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

// Row is one line of the schedule of levels.
type Row struct {
	Label string
	Kind  RowKind
	Value float64
	// Worst and Statistical are how far the value may be off, in its own unit.
	Worst, Statistical float64
	At                 mgl64.Vec3
	Stack              Stack
}

// EdgeLevels are the finished levels along one open edge.
type EdgeLevels struct {
	Edge layout.Edge
	// ShowerA, ShowerB are the tile inside at the two ends; RoomA and RoomB the
	// floor just outside.
	ShowerA, ShowerB, RoomA, RoomB float64
}

// Tapered tells whether the edge makes a cheek: higher at one end.
func (e EdgeLevels) Tapered() bool { return math.Abs(e.ShowerA-e.ShowerB) > 0.05 }

// WorstStepMM is the step with the greatest size along the edge, signed: the
// rise from the room into the shower.
func (e EdgeLevels) WorstStepMM() float64 {
	a, b := e.ShowerA-e.RoomA, e.ShowerB-e.RoomB
	if math.Abs(b) > math.Abs(a) {
		return b
	}
	return a
}

// Edges are the levels along every open edge. A ramp's top is level with the
// lower end of its edge.
func (h Heights) Edges(j job.Job, l layout.Layout) []EdgeLevels {
	if j.Former.Fall == job.FallRoom {
		return nil
	}
	var out []EdgeLevels
	for _, e := range l.OpenEdges() {
		x := EdgeLevels{Edge: e, ShowerA: h.ShowerAt(l, e.A), ShowerB: h.ShowerAt(l, e.B), RoomA: h.RoomAt(j, e.A), RoomB: h.RoomAt(j, e.B)}
		if len(e.Ramp) > 0 {
			s := h.RampSurface(j, l, e)
			x.RoomA, x.RoomB = s.At(e.A), s.At(e.B)
		}
		out = append(out, x)
	}
	return out
}

// DoorStepMM is the rise from the neighbour's floor to the room's at a doorway.
func (h Heights) DoorStepMM(j job.Job, l layout.Layout, d layout.Doorway) float64 {
	return h.FinishedAt(j, l, d.Middle().Sub(d.Wall.Outward.Mul(0.5))) - j.Room.Doorways[d.Index].NeighbourFFLMM
}

// sideName is the side with a capital.
func sideName(s layout.Side) string { return strings.ToUpper(string(s[:1])) + string(s[1:]) }

// Schedule lists the levels a fitter and a tiler need, from the floor up and
// from the drain outwards.
func (h Heights) Schedule(j job.Job, l layout.Layout) []Row {
	var rows []Row
	at := func(p plan.Point, z float64) mgl64.Vec3 { return mgl64.Vec3{p.X(), p.Y(), z} }
	add := func(label string, z float64, p plan.Point) {
		rows = append(rows, Row{Label: label, Kind: IsLevel, Value: z, At: at(p, z)})
	}
	stacked := func(label string, p plan.Point) {
		s := h.StackAt(j, l, p)
		rows = append(rows, Row{Label: label, Kind: IsLevel, Value: s.Top(), At: at(p, s.Top()), Stack: s})
	}
	step := func(label string, rise float64, p plan.Point, z float64) {
		rows = append(rows, Row{Label: label, Kind: IsStep, Value: rise, At: at(p, z)})
	}
	middle := l.FallArea.Centroid()
	add("Structural floor, highest under the shower", h.FloorHighMM, middle)
	if j.Base.Support == job.OnFloor {
		add("Base, underside", h.BaseUnderMM, middle)
	}
	add("Base, top", h.BaseTopMM, middle)
	add("Trap, underside", h.TrapMM, l.TrapCentre)
	add("Trap outlet, invert", h.OutletMM, l.Outlet)
	for _, p := range h.Run.Pieces {
		if p.FromMM > h.Run.ExitAtMM || p.Kind == "drop" {
			break
		}
		end := math.Min(p.ToMM, h.Run.ExitAtMM)
		add(p.Name()+", invert at end", h.Run.InvertAt(end), h.Run.PointAt(end))
	}
	rows = append(rows, h.pipeRows(j, l)...)
	add("Exit, invert", h.Run.InvertAt(h.Run.ExitAtMM), h.Run.Exit)
	add("Exit, crown", h.Run.InvertAt(h.Run.ExitAtMM)+h.Run.PipeAt(h.Run.ExitAtMM).BoreMM, h.Run.Exit)
	add("Drain flange", h.FlangeMM, l.DrainEdge)
	stacked("Tile at the drain", l.DrainEdge)
	add("Cover of the drain, set to", h.TileMM, l.DrainCentre)
	rows = append(rows, h.planeRows(l)...)
	for _, e := range h.Edges(j, l) {
		name := sideName(e.Edge.Side) + " edge"
		if e.Tapered() {
			low, high := e.Edge.A, e.Edge.B
			if e.ShowerA > e.ShowerB {
				low, high = high, low
			}
			stacked(sideName(e.Edge.Side)+" cheek, low end", low)
			stacked(sideName(e.Edge.Side)+" cheek, high end", high)
		} else {
			stacked(name+", tile", e.Edge.Middle())
		}
		step(name+", step", e.WorstStepMM(), e.Edge.Middle(), e.ShowerA)
	}
	if j.Former.Fall != job.FallRoom {
		if p, ok := roomPoint(l); ok {
			stacked("Room, finished floor", p)
		}
	}
	for _, d := range l.Doors {
		name := fmt.Sprintf("Doorway %d", d.Index+1)
		p := d.Middle().Sub(d.Wall.Outward.Mul(0.5))
		stacked(name+", finished floor", p)
		step(name+", step", h.DoorStepMM(j, l, d), p, h.FinishedAt(j, l, p))
	}
	return rows
}

// planeRows are the falls of the tiled planes.
func (h Heights) planeRows(l layout.Layout) []Row {
	var rows []Row
	for i, p := range l.Planes {
		c := p.Region.Centroid()
		rows = append(rows, Row{Label: fmt.Sprintf("Plane %d, fall", i+1), Kind: IsFall, Value: p.Gradient(), At: mgl64.Vec3{c.X(), c.Y(), h.ShowerAt(l, c)}})
	}
	return rows
}

// pipeRows are the falls of the pieces of the run, and the least cover over
// them: up to the base's top, and the former's thickness there.
func (h Heights) pipeRows(j job.Job, l layout.Layout) []Row {
	var rows []Row
	cover, former := Row{Label: "Least cover over the pipe, to the base's top", Kind: IsDepth, Value: math.Inf(1)},
		Row{Label: "Former over the pipe, least", Kind: IsDepth, Value: math.Inf(1)}
	for _, p := range h.Run.Pieces {
		if p.FromMM >= h.Run.ExitAtMM || p.LengthMM() < 1e-6 {
			continue
		}
		q := p.Middle()
		rows = append(rows, Row{Label: p.Name() + ", fall", Kind: IsFall, Value: p.Gradient(), At: mgl64.Vec3{q.X(), q.Y(), (p.FromInvertMM + p.ToInvertMM) / 2}})
		for _, s := range []float64{p.FromMM, math.Min(p.ToMM, h.Run.ExitAtMM)} {
			q := h.Run.PointAt(s)
			top, covered := h.CoverTopMM(j, l, q)
			if !covered {
				continue
			}
			crown := h.Run.InvertAt(s) + p.Pipe.BoreMM + p.Pipe.WallMM()
			at := mgl64.Vec3{q.X(), q.Y(), crown}
			if top-crown < cover.Value {
				cover.Value, cover.At = top-crown, at
			}
			if t := h.FlangeMM + l.Fall.At(q) - h.FormerMM; l.FallArea.Contains(q, 1e-6) && t < former.Value {
				former.Value, former.At = t, at
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

// CoverTopMM is the top of the base over a plan point; covered is false where
// there is no raised floor.
func (h Heights) CoverTopMM(j job.Job, l layout.Layout, p plan.Point) (mm float64, covered bool) {
	if l.FallArea.Contains(p, 1e-6) {
		return h.BaseTopMM, true
	}
	if !math.IsNaN(h.RoomTopMM) && l.Room.Contains(p, 1e-6) {
		return h.RoomTopMM - j.Layers.Room.ThicknessMM(), true
	}
	return 0, false
}

// roomPoint is a point of the room's floor well outside the shower.
func roomPoint(l layout.Layout) (plan.Point, bool) {
	rest := l.Rest
	if len(rest) == 0 {
		return plan.Point{}, false
	}
	if c := rest.Centroid(); rest.Contains(c, 0) {
		return c, true
	}
	// The middle of the longest stretch across the floor, half way up its box.
	best, at := 0.0, plan.Point{}
	low, high, _ := rest.Bounds()
	for k := 1; k < 8; k++ {
		y := low.Y() + (high.Y()-low.Y())*float64(k)/8
		for _, iv := range rest.Clip(plan.Point{0, y}, plan.Point{1, 0}) {
			if iv.To-iv.From > best {
				best, at = iv.To-iv.From, plan.Point{(iv.From + iv.To) / 2, y}
			}
		}
	}
	return at, best > 0
}
