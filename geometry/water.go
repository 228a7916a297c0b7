package geometry

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/build"
	"underfall/geometry/hydraulic"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// PieceFlow is the shower's water in one piece of the run.
type PieceFlow struct {
	Piece waste.Piece
	hydraulic.Flow
}

// Reserve is what the floor holds when the waste is blocked.
type Reserve struct {
	Litres float64
	// SpillMM is the level at which the water goes over, Where the place it
	// does so first.
	SpillMM float64
	Where   string
	At      mgl64.Vec3
	// Minutes until then at the shower's flow; infinite without flow or lip.
	Minutes float64
}

// Water is how the floor and the run carry the shower's water.
type Water struct {
	FlowLPS float64
	Pieces  []PieceFlow
	// InletLPS is what the drain's cover takes in under InletHeadMM of water.
	InletLPS    float64
	InletHeadMM float64
	InletWeir   bool
	Film        hydraulic.Film
	Reserve     Reserve
}

// coverHeadMM is the depth of water over the cover that is taken as the most:
// the head of the European flow test; from memory.
const coverHeadMM = 20

// water works out the flow in a result that has its heights.
func water(r Result) Water {
	w := Water{FlowLPS: r.Job.Water.TotalLPS(), InletHeadMM: coverHeadMM}
	for _, p := range r.Heights.Run.Pieces {
		if p.Kind != waste.Drop && p.Kind != waste.Reducer && p.LengthMM() > 1e-6 {
			w.Pieces = append(w.Pieces, PieceFlow{p, hydraulic.InPipe(p.Pipe.BoreMM, p.Gradient(), w.FlowLPS)})
		}
	}
	perimeter, area := build.CoverOpenings(r.Job)
	w.InletLPS, w.InletWeir = hydraulic.GrateLPS(perimeter, area, coverHeadMM)
	w.Film = hydraulic.OnTile(w.FlowLPS, filmWidthMM(r.Job), r.Job.Former.Slope)
	w.Reserve = reserve(r, w.FlowLPS)
	return w
}

// filmWidthMM is the width the water comes down on: along the drain for a
// linear one, round it for a point.
func filmWidthMM(j job.Job) float64 {
	if !j.Former.Fall.Linear() {
		return 4 * j.Drain.WidthMM
	}
	if j.Former.Fall == job.FallMid {
		return 2 * j.Drain.LengthMM
	}
	return j.Drain.LengthMM
}

// reserve finds the lowest place over which water leaves the falling floor and
// what is held below it.
//
// Method: along every open edge, and at doorways of a floor that falls as a
// whole, water goes over at the higher of the two floors that meet there; both
// are straight between corners and creases, so the lowest place is one of
// those. The volume is the sum over the floor's planes of area times depth at
// the centroid: exact.
func reserve(r Result, flowLPS float64) Reserve {
	out := Reserve{SpillMM: math.Inf(1), Minutes: math.Inf(1)}
	spill := func(where string, p plan.Point, other float64) {
		z := math.Max(r.Heights.ShowerAt(r.Layout, p), other)
		if z < out.SpillMM-1e-9 {
			out.SpillMM, out.Where, out.At = z, where, lift(p, z)
		}
	}
	if r.Job.Former.Fall == job.FallRoom {
		for _, d := range r.Layout.Doors {
			ffl := r.Job.Room.Doorways[d.Index].NeighbourFFLMM
			for _, p := range creases(r.Layout.Fall, d.A, d.B) {
				spill(fmt.Sprintf("Doorway %d", d.Index+1), p, ffl)
			}
		}
	} else {
		for _, e := range r.Layout.OpenEdges() {
			for _, p := range creases(r.Layout.Fall, e.A, e.B) {
				spill(sideLabel(e.Side), p, r.Heights.RoomAt(r.Job, p))
			}
		}
	}
	if math.IsInf(out.SpillMM, 1) {
		return out
	}
	out.Litres = heldBelow(r, out.SpillMM) / 1e6
	if flowLPS > 0 {
		out.Minutes = out.Litres / flowLPS / 60
	}
	return out
}

// creases are the ends of a line and where planes of the floor meet along it.
func creases(s solid.Surface, a, b plan.Point) []plan.Point {
	out := []plan.Point{a, b}
	for i := range s {
		for k := i + 1; k < len(s); k++ {
			da, db := s[i].At(a)-s[k].At(a), s[i].At(b)-s[k].At(b)
			if da*db < 0 {
				out = append(out, a.Add(b.Sub(a).Mul(da/(da-db))))
			}
		}
	}
	return out
}

// heldBelow is the volume between the finished floor and a level, mm³.
func heldBelow(r Result, levelMM float64) float64 {
	floor := r.Layout.Fall.Raised(r.Heights.TileMM)
	// The surface of the water is one more plane over the floor: where it is
	// the highest of all, there is water.
	surface := append(append(solid.Surface(nil), floor...), solid.Plane{Level: levelMM})
	held := 0.0
	wet := surface.Cells(r.Layout.FallArea)[len(floor)]
	for i, cell := range floor.Cells(wet) {
		if a := cell.Area(); a > 0 {
			held += a * (levelMM - floor[i].At(cell.Centroid()))
		}
	}
	return held
}
