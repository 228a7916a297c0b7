package measure

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/hydraulic"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
	"underfall/geometry/stage"
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
	Where   rule.Subject
	At      mgl64.Vec3
	// Minutes until then at the shower's flow; infinite without flow or lip.
	Minutes float64
}

// Water is how the floor and the run carry the shower's water.
type Water struct {
	FlowLPS float64
	// RunLPS is what the run carries: with what else runs into it.
	RunLPS float64
	Pieces []PieceFlow
	// InletLPS is what the drain's cover takes in under InletHeadMM of water.
	InletLPS    float64
	InletHeadMM float64
	InletWeir   bool
	// ChannelMM is how deep water stands at the end of the drain's channel farthest from the
	// trap, and ChannelRoomMM the channel's depth below the tile; both are nothing for
	// a point drain and one without a channel.
	ChannelMM, ChannelRoomMM float64
	Film                     hydraulic.Film
	Reserve                  Reserve
	Trap                     Trap
	Outlets                  Outlets
	Evenness                 Evenness
	// Level is the tiled floor that does not fall; Creases are where planes meet, Tiles
	// what lies whole between them.
	Level   LevelFloor
	Creases []layout.Crease
	Tiles   []TileFit
	// SealMM is the seal that the trap holds, SealLeftMM what is left of it when the run
	// pulls on it.
	SealMM, SealLeftMM float64
}

// Trap is how the trap carries the shower's flow.
type Trap struct {
	// CapacityLPS is what it carries with HeadMM of water over the cover.
	CapacityLPS, HeadMM float64
	Basis               hydraulic.Basis
	// StandsMM is how deep the water stands over the cover at the shower's
	// flow; Drowned tells that it goes over the lip first.
	StandsMM float64
	Drowned  bool
}

// Outlets is which of several shower outlets can run together.
type Outlets struct {
	// CarriesLPS is what the waste carries, and Limit what limits it.
	CarriesLPS float64
	Limit      rule.Subject
	// Keep are the outlets, by index, that together use it best.
	Keep    []int
	KeepLPS float64
	// RegulateTo is what a regulator would have to hold each other outlet to so
	// that it could run as well, alone of the others; by index.
	RegulateTo map[int]float64
}

// Evenness is how much of the fall is left where the floor is made unevenly: the bed out
// of flat, the tiles' edges apart (lippage) and the former off over its fall.
type Evenness struct {
	// LeastFall is the flattest a stretch of OverMM may come out, on a plane or along a
	// crease, where water follows what planes leave; negative when it may fall back.
	// PuddleMM is then how deep water stands. OnCrease tells that a crease is flattest.
	LeastFall, OverMM, PuddleMM float64
	OnCrease                    bool
}

// WaterOf works out the flow in a levelled job.
func WaterOf(r stage.Levelled) Water {
	w := Water{FlowLPS: r.Settled.Water.TotalLPS(), RunLPS: r.Settled.Water.RunLPS(), InletHeadMM: job.UsualHeadMM}
	for _, p := range r.Heights.Run.Pieces {
		// In the trap's joint the water stands as in the pipe after it.
		if p.Kind != waste.Drop && p.Kind != waste.Joint && !p.Tapers() && p.LengthMM() > joinMM {
			w.Pieces = append(w.Pieces, PieceFlow{p, hydraulic.InPipe(p.Pipe.BoreMM, p.Gradient(), w.RunLPS)})
		}
	}
	cover := coverOf(&r.Settled)
	w.InletLPS, w.InletWeir = cover.LPS(job.UsualHeadMM)
	w.ChannelMM, w.ChannelRoomMM = channel(&r, w.FlowLPS)
	w.Film = hydraulic.OnTile(w.FlowLPS, cover.EdgeMM, r.Settled.Former.Slope)
	w.Reserve = reserve(r, w.FlowLPS)
	w.Trap = trapFlow(r, w)
	w.Outlets = outlets(r, w)
	w.Level, w.Creases = levelFloor(&r), r.Layout.Creases()
	w.Tiles = tileFits(&r, w.Creases)
	w.Evenness = evenness(r, w.Creases)
	w.SealMM = r.Heights.Trap(&r.Settled, &r.Layout).SealMM
	w.SealLeftMM = sealLeft(&r.Heights.Run, w)
	return w
}

// trapPoints are what the data sheet says of the trap.
func trapPoints(d job.Drain) []hydraulic.HeadFlow {
	var points []hydraulic.HeadFlow
	stated := hydraulic.HeadFlow{HeadMM: d.CapacityHeadMM, FlowLPS: d.CapacityLPS}
	for _, p := range d.CapacityCurve {
		if stated.FlowLPS > 0 && stated.HeadMM < p.HeadMM {
			points = append(points, stated)
			stated.FlowLPS = 0
		}
		if stated.HeadMM == p.HeadMM {
			stated.FlowLPS = 0 // the curve says it itself
		}
		points = append(points, hydraulic.HeadFlow{HeadMM: p.HeadMM, FlowLPS: p.FlowLPS})
	}
	if stated.FlowLPS > 0 {
		points = append(points, stated)
	}
	return points
}

// outletOf is the trap under its cover.
func outletOf(r *stage.Levelled) hydraulic.Outlet {
	h, j := &r.Heights, &r.Settled
	high := math.Max(h.Trap(j, &r.Layout).WeirMM, h.OutletMM+j.Waste.BoreMM/2)
	return hydraulic.Outlet{Points: trapPoints(j.Drain), BoreMM: j.Waste.BoreMM, DropMM: h.TileMM - high, Cover: coverOf(j)}
}

func trapFlow(r stage.Levelled, w Water) Trap {
	t := Trap{HeadMM: job.UsualHeadMM}
	outlet := outletOf(&r)
	t.CapacityLPS, t.Basis = outlet.LPS(job.UsualHeadMM), outlet.Basis()
	lip := 500.0
	if !math.IsInf(w.Reserve.SpillMM, 1) {
		lip = math.Max(0, w.Reserve.SpillMM-r.Heights.TileMM)
	}
	stands := outlet.StandsMM(w.FlowLPS)
	t.StandsMM, t.Drowned = min(stands, lip), stands > lip
	return t
}

// Flows and levels that differ by no more than rounding leaves are the same.
const (
	sameLPS = 1e-9
	sameMM  = 1e-9
)

// outlets finds which outlets can run together, by trying every choice: there
// are at most ten.
func outlets(r stage.Levelled, w Water) Outlets {
	o := Outlets{CarriesLPS: w.Trap.CapacityLPS, Limit: rule.Subject{Of: rule.Trap}, RegulateTo: map[int]float64{}}
	if w.InletLPS > 0 && w.InletLPS <= o.CarriesLPS+sameLPS {
		o.CarriesLPS, o.Limit = w.InletLPS, rule.Subject{Of: rule.DrainCover}
	}
	for _, p := range w.Pieces {
		full, _ := hydraulic.ColebrookWhite(p.Piece.Pipe.BoreMM, 1, p.Piece.Gradient())
		if left := r.Settled.Water.ShowerLPS(full); left < o.CarriesLPS-sameLPS {
			o.CarriesLPS, o.Limit = left, rule.Subject{Of: rule.Piece, Piece: p.Piece.Name()}
		}
	}
	flows := r.Settled.Water.ShowerFlowsLPS
	for choice := range 1 << len(flows) {
		sum := 0.0
		var keep []int
		for i, f := range flows {
			if choice&(1<<i) != 0 {
				sum += f
				keep = append(keep, i)
			}
		}
		if sum <= o.CarriesLPS+sameLPS && (sum > o.KeepLPS+sameLPS || sum > o.KeepLPS-sameLPS && len(keep) > len(o.Keep)) {
			o.Keep, o.KeepLPS = keep, sum
		}
	}
	kept := map[int]bool{}
	for _, i := range o.Keep {
		kept[i] = true
	}
	for i := range flows {
		if left := o.CarriesLPS - o.KeepLPS; !kept[i] && left > 0 {
			o.RegulateTo[i] = left
		}
	}
	return o
}

// unevenOverMM is the least length over which a bed's unevenness shows: the
// reach of a trowel. Common practice, no source.
const unevenOverMM = 300

// evenness takes three things off as far as they may be: the bed, whose tolerance is how
// flat it is, and the tile, whose tolerance is its lippage, the one way at one end of a
// stretch and the other way at the other; and the former over the whole of its fall,
// unless that was measured. They are independent: combined as the root of the sum of
// their squares.
func evenness(r stage.Levelled, creases []layout.Crease) Evenness {
	j := &r.Settled
	f := j.Layers.Shower
	e := Evenness{LeastFall: math.Inf(1), OverMM: math.Max(unevenOverMM, math.Max(f.TileLengthMM, f.TileWidthMM))}
	off := []float64{2 * f.Bed.ToleranceMM / e.OverMM, 2 * f.Tile.ToleranceMM / e.OverMM}
	if _, rise := r.Layout.HighEnd(); rise > 0 && j.AsBuilt.FormerAtEdgeMM == nil {
		off = append(off, j.Tolerances.FallMM*j.Former.Slope/rise)
	}
	_, loses := buildup.Combine(off)
	for _, p := range r.Layout.Planes {
		e.LeastFall = math.Min(e.LeastFall, p.Gradient()-loses)
	}
	for _, c := range creases {
		if left := c.Slope - loses; left < e.LeastFall {
			e.LeastFall, e.OnCrease = left, true
		}
	}
	if math.IsInf(e.LeastFall, 1) {
		e.LeastFall = 0
	}
	e.PuddleMM = math.Max(0, -e.LeastFall*e.OverMM)
	return e
}

// sealLeft is the seal that the trap holds less what a run that flows full can suck out: at
// most the fall of the stretch that runs full from the trap on. A run with air
// over the water sucks nothing. On the safe side: friction in the pipe and air
// drawn through the trap leave more.
func sealLeft(run *waste.Run, w Water) float64 {
	suction := 0.0
	if first := run.Pieces; len(first) > 0 && first[0].Kind == waste.Joint && len(w.Pieces) > 0 && w.Pieces[0].Full {
		suction = math.Max(0, first[0].FromInvertMM-first[0].ToInvertMM)
	}
	for _, p := range w.Pieces {
		if !p.Full {
			break
		}
		suction += math.Max(0, p.Piece.FromInvertMM-p.Piece.ToInvertMM)
	}
	return math.Max(0, w.SealMM-suction)
}

// channel is how deep the water stands at the end of a linear drain's channel farthest from
// the trap, which it falls into, and the room it has there below the tile.
func channel(r *stage.Levelled, flowLPS float64) (farMM, roomMM float64) {
	j, length := &r.Settled, r.Settled.DrainLengthMM()
	arm := length/2 + math.Abs(j.Drain.TrapOffsetMM) - j.Drain.TrapSizeMM/2
	if !j.Former.Fall.Linear() || j.Drain.ChannelDepthMM <= 0 || arm <= 0 {
		return 0, 0
	}
	return hydraulic.CollectorMM(flowLPS*arm/length, j.Drain.WidthMM, 0), r.Heights.TileMM - r.Heights.ChannelMM
}

// coverOf is the drain's cover as water finds it: at a wall water comes over its one long
// side, to one in the middle over both, and over its ends where the floor falls to them
// too; to a point over all four.
func coverOf(j *job.Job) hydraulic.Cover {
	round, open := assembly.CoverOpenings(*j)
	c := hydraulic.Cover{EdgeMM: round, OpeningMM2: open}
	if !j.Former.Fall.Linear() {
		return c
	}
	c.EdgeMM = j.DrainLengthMM()
	if j.Former.Fall == job.FallMid {
		c.EdgeMM *= 2
	}
	if j.Former.EndsFall() {
		c.EdgeMM += 2 * j.Drain.WidthMM
	}
	return c
}

// reserve finds the lowest place over which water leaves the falling floor and
// what is held below it.
//
// Method: along every open edge, and at doorways of a floor that falls as a
// whole, water goes over at the higher of the two floors that meet there; both
// are straight between corners and creases, so the lowest place is one of
// those. The volume is the sum over the floor's planes of area times depth at
// the centroid: exact.
func reserve(r stage.Levelled, flowLPS float64) Reserve {
	out := Reserve{SpillMM: math.Inf(1), Minutes: math.Inf(1)}
	spill := func(where rule.Subject, p plan.Point, other float64) {
		z := math.Max(r.Heights.ShowerAt(&r.Layout, p), other)
		if z < out.SpillMM-sameMM {
			out.SpillMM, out.Where, out.At = z, where, p.Vec3(z)
		}
	}
	if r.Settled.Former.Fall == job.FallRoom {
		for _, d := range r.Layout.Doors {
			ffl := r.Settled.Room.Doorways[d.Index].NeighbourFFLMM
			for _, p := range creases(r.Layout.Fall, d.A, d.B) {
				stop := r.Heights.ShowerAt(&r.Layout, p) + r.Settled.DoorStopMM()
				spill(rule.Subject{Of: rule.SpillsAt, Number: d.Index + 1}, p, math.Max(ffl, stop))
			}
		}
	} else {
		for _, e := range r.Layout.OpenEdges() {
			for _, p := range creases(r.Layout.Fall, e.A, e.B) {
				other := r.Heights.RoomAt(&r.Settled, p)
				if top, ok := r.Heights.KerbTop(&r.Settled, &r.Layout); ok {
					other = math.Max(other, top)
				}
				spill(rule.Subject{Of: rule.SpillsAt, Which: e.Side.Edge().ID}, p, other)
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
func heldBelow(r stage.Levelled, levelMM float64) float64 {
	floor := r.Layout.Fall.Raised(r.Heights.TileMM)
	// The surface of the water is one more plane over the floor: where it is
	// the highest of all, there is water.
	surface := append(append(solid.Surface(nil), floor...), solid.Plane{Level: levelMM})
	over := func(region plan.Region) float64 { return surface.Integral(region) - floor.Integral(region) }
	return over(r.Layout.FallArea) - over(r.Layout.Kerb) // which holds no water
}
