package buildup

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/layout"
	"underfall/geometry/message"
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
	IsDepth RowKind = "depth" // thickness, cover or another length, mm
)

// Value is a value of the kind, as it is said.
func (k RowKind) Value(v float64) message.Value {
	switch k {
	case IsFall:
		return message.Fall{Slope: v}
	case IsDepth:
		return message.Length{MM: v, Round: message.Half}
	}
	return message.Level{MM: v}
}

// RowOf is what a row of the schedule is about.
type RowOf int

// What rows are about, in the order of the schedule.
const (
	FloorHigh RowOf = iota
	BaseUnder       // of a base on the floor
	LedgerTop       // of the ledgers that carry the boards of one let in
	BaseTop
	TrapUnder
	OutletInvert
	PieceInvert       // of a piece of the run at its end, by its index
	PieceInvertAtWall // of the piece that goes on through the wall, there
	PieceFall
	PipeCover
	FormerOverPipe
	ExitInvert
	ExitCrown
	OutsideInvert // at the run's end outside, or where it turns down there
	CoreMiddle    // of the hole, square through a wall
	CoreLeast     // diameter it needs
	Flange
	TileAtDrain
	CoverSet
	DrainLong // of a linear drain whose length is worked out
	PlaneFall // of a plane, by its index
	EdgeLow   // of an open edge, by its index
	EdgeHigh
	EdgeTile
	EdgeStep
	RoomFloor
	DoorFloor // of a doorway, by its index
	DoorStep
	ScreenDrop // of the glass of a screen, by its index: how far its lower edge is out of level
	ScreenTall
	RampRise // of the ramp at an open edge, by its index, where it climbs most
	RampRun  // its length on plan, straight out from there
	RampFall
	RampFoot // where it is down, in the room
)

// RowID tells the rows of schedules apart: the same one of a job whose numbers
// have shifted has the same.
type RowID struct {
	Of     RowOf
	Number int // of several; 0 for the only one
}

// Row is one line of the schedule of levels.
type Row struct {
	ID RowID
	// Piece of the run, or Side of the shower, that the row is about; empty where
	// the id says it all.
	Piece message.Numbered
	Side  layout.Side
	Value float64
	// Rise is between which levels a step lies where it is looked at; of other rows nothing.
	Rise message.Rise
	// Assumed tells of a step that nobody has said how high the floor lies that it leads from.
	Assumed bool
	// OverStop tells of a step at a doorway that it leads over the water stop there.
	OverStop bool
	// Worst and Statistical are how far the value may be off, in its own unit.
	Worst, Statistical float64
	At                 mgl64.Vec3
	Stack              Stack
}

// Kind is what the row's value is.
func (r Row) Kind() RowKind { return r.ID.Of.kind() }

// Said is the row's value, as it is said: a step adds up with the levels that it lies between, the length of a ramp
// lies along the floor.
func (r Row) Said() message.Value {
	if r.Kind() == IsStep {
		rise := r.Rise
		rise.Signed = true
		return rise
	}
	if said, long := r.Kind().Value(r.Value).(message.Length); long && r.ID.Of == RampRun {
		said.Feet = true
		return said
	}
	return r.Kind().Value(r.Value)
}

// Message names the row.
func (r Row) Message() message.Message {
	if m := r.ofRun(); !m.IsZero() {
		return m
	}
	if m := r.ofEdge(); !m.IsZero() {
		return m
	}
	number := message.No("n", r.ID.Number+1)
	switch r.ID.Of {
	case FloorHigh:
		return message.Of("row.floor-high")
	case BaseUnder:
		return message.Of("row.base-under")
	case LedgerTop:
		return message.Of("row.ledger-top")
	case BaseTop:
		return message.Of("row.base-top")
	case TrapUnder:
		return message.Of("row.trap-under")
	case OutletInvert:
		return message.Of("row.outlet-invert")
	case Flange:
		return message.Of("row.flange")
	case TileAtDrain:
		return message.Of("row.tile-at-drain")
	case CoverSet:
		return message.Of("row.cover-set")
	case DrainLong:
		return message.Of("row.drain-long")
	case PlaneFall:
		return message.Of("row.plane-fall", number)
	case RoomFloor:
		return message.Of("row.room-floor")
	case DoorFloor:
		return message.Of("row.door-floor", number)
	case ScreenDrop:
		return message.Of("row.screen-drop", number)
	case ScreenTall:
		return message.Of("row.screen-tall", number)
	}
	switch {
	case r.OverStop:
		return message.Of("row.door-step-stop", number)
	case r.Assumed:
		return message.Of("row.door-step-assumed", number)
	}
	return message.Of("row.door-step", number)
}

// ofRun says what a row about the waste run is of; nothing of any other.
func (r Row) ofRun() message.Message {
	switch r.ID.Of {
	case PieceInvert:
		return message.Of("row.piece-invert", message.In("piece", r.Piece.Message()))
	case PieceInvertAtWall:
		return message.Of("row.piece-invert-at-wall", message.In("piece", r.Piece.Message()))
	case PieceFall:
		return message.Of("row.piece-fall", message.In("piece", r.Piece.Message()))
	case PipeCover:
		return message.Of("row.pipe-cover")
	case FormerOverPipe:
		return message.Of("row.former-over-pipe")
	case ExitInvert:
		return message.Of("row.exit-invert")
	case ExitCrown:
		return message.Of("row.exit-crown")
	case OutsideInvert:
		return message.Of("row.outside-invert")
	case CoreMiddle:
		return message.Of("row.core-middle")
	case CoreLeast:
		return message.Of("row.core-least")
	}
	return message.Message{}
}

// ofEdge says what a row about an edge of the shower, or its ramp, is of; nothing of any other.
func (r Row) ofEdge() message.Message {
	switch r.ID.Of {
	case EdgeLow:
		return message.Of("row.edge-low", r.at())
	case EdgeHigh:
		return message.Of("row.edge-high", r.at())
	case EdgeTile:
		return message.Of("row.edge-tile", r.at())
	case EdgeStep:
		return message.Of("row.edge-step", r.at())
	case RampRise:
		return message.Of("row.ramp-rise", r.at())
	case RampRun:
		return message.Of("row.ramp-run", r.at())
	case RampFall:
		return message.Of("row.ramp-fall", r.at())
	case RampFoot:
		return message.Of("row.ramp-foot", r.at())
	}
	return message.Message{}
}

// LayerLines name the layers under the row's level with their thicknesses, from the top down.
func (r Row) LayerLines() (out []message.Message) {
	for i := len(r.Stack) - 1; i >= 1; i-- {
		l := r.Stack[i]
		out = append(out, message.Of("levels.layer", message.Layer("thickness", l.ThicknessMM()), message.In("layer", message.Of(l.Name))))
	}
	return out
}

// at says which edge the row is about.
func (r Row) at() message.Arg { return message.In("at", message.Of(r.Side.At())) }

// kind is what the value of a row of a kind is.
func (o RowOf) kind() RowKind {
	switch o {
	case PieceFall, PlaneFall, RampFall:
		return IsFall
	case PipeCover, FormerOverPipe, CoreLeast, DrainLong, ScreenDrop, ScreenTall, RampRise, RampRun:
		return IsDepth
	case EdgeStep, DoorStep:
		return IsStep
	}
	return IsLevel
}

// stacked tells whether a row's level is the top of layers to be shown with it.
func (o RowOf) stacked() bool {
	switch o {
	case TileAtDrain, EdgeLow, EdgeHigh, EdgeTile, RoomFloor, DoorFloor:
		return true
	}
	return false
}

// Value is what a row of the job's schedule, or of one that is the same in plan,
// comes to.
func (f *Floor) Value(r Row) float64 { return f.value(r.ID, plan.Point{r.At.X(), r.At.Y()}) }

func (f *Floor) value(id RowID, at plan.Point) float64 {
	h, run := &f.heights, &f.heights.Run
	switch id.Of {
	case FloorHigh:
		return h.FloorHighMM
	case BaseUnder:
		return h.BaseUnderMM
	case LedgerTop:
		return h.LedgerTopMM(&f.job)
	case BaseTop:
		return h.BaseTopMM
	case TrapUnder:
		return h.TrapMM
	case OutletInvert:
		return h.OutletMM
	case PieceInvert, PieceInvertAtWall:
		return run.InvertAt(math.Min(run.Pieces[id.Number].ToMM, run.ExitAtMM))
	case PieceFall:
		return run.Pieces[id.Number].Gradient()
	case PipeCover, FormerOverPipe:
		value, _ := f.overPipe(id.Of)
		return value
	case ExitInvert:
		return run.InvertAt(run.ExitAtMM)
	case ExitCrown:
		return run.InvertAt(run.ExitAtMM) + run.PipeAt(run.ExitAtMM).BoreMM
	case OutsideInvert:
		return run.InvertAt(run.LevelEndMM(&f.job.Waste))
	case CoreMiddle, CoreLeast:
		core, _ := h.Core(&f.job, &f.layout)
		return [...]float64{core.CentreMM, core.LeastMM}[id.Of-CoreMiddle]
	case Flange:
		return h.FlangeMM
	case CoverSet:
		return h.TileMM
	case DrainLong:
		return f.job.DrainLengthMM()
	case PlaneFall:
		return f.layout.Planes[id.Number].Gradient()
	case EdgeStep:
		return h.EdgeLevels(&f.job, &f.layout, f.layout.OpenEdges()[id.Number]).WorstStepMM()
	case DoorStep:
		return f.DoorStepMM(f.layout.Doors[id.Number])
	case RampRise, RampRun, RampFall:
		ramp, _ := h.RampAt(&f.job, &f.layout, id.Number)
		return [...]float64{ramp.RiseMM, ramp.RunMM, ramp.Slope}[id.Of-RampRise]
	case RampFoot:
		return h.RampFootAt(&f.job, at)
	case ScreenDrop:
		return h.GlassOf(&f.job, &f.layout, &f.layout.Screens[id.Number]).DropMM()
	case ScreenTall:
		return h.GlassOf(&f.job, &f.layout, &f.layout.Screens[id.Number]).TallMM()
	}
	return f.FinishedMM(at)
}

// noLengthMM is under which a piece of the run has no length.
const noLengthMM = 1e-6

// overPipe is the least cover over the run, up to the base's top, or the least
// thickness of the former over it, and where that is; endless where there is
// none. Both are straight over a piece, so the least is over an end of one.
func (f *Floor) overPipe(of RowOf) (leastMM float64, at mgl64.Vec3) {
	leastMM = math.Inf(1)
	run := &f.heights.Run
	for i := range run.Pieces {
		p := &run.Pieces[i]
		if p.FromMM >= run.InRoomMM() || p.LengthMM() < noLengthMM {
			continue
		}
		for _, s := range [2]float64{p.FromMM, math.Min(p.ToMM, run.InRoomMM())} {
			q := run.PointAt(s)
			crown := run.InvertAt(s) + p.AboveInvertMM(s)
			z := f.zone(q)
			for k := range z.Layers {
				layer := &z.Layers[k]
				from := crown
				switch {
				case of == PipeCover && layer.Kind.TopsBase():
				case of == FormerOverPipe && layer.Kind == Former:
					from = layer.Bottom.At(q)
				default:
					continue
				}
				if over := layer.Top.At(q) - from; over < leastMM && !layer.leavesOut(q) {
					leastMM, at = over, q.Vec3(crown)
				}
			}
		}
	}
	return leastMM, at
}

// roomPoint is a point of the room's floor well outside the shower and its
// ramps; ok is false where there is none.
func (f *Floor) roomPoint() (at plan.Point, ok bool) {
	rest := f.layout.Rest
	if len(rest) == 0 {
		return plan.Point{}, false
	}
	onRoom := func(p plan.Point) bool { return f.ZoneAt(p) == len(f.Zones)-1 } // the last is the room's
	if c := rest.Centroid(); rest.Contains(c, 0) && onRoom(c) {
		return c, true
	}
	// The middle of the longest stretch across the floor that is no ramp.
	// Counted from the shower, so that it is the same place however the room lies.
	across, along := f.layout.Into, f.layout.ToRight
	low, high := math.Inf(1), math.Inf(-1)
	for _, poly := range rest {
		for _, p := range poly.Outer {
			low, high = min(low, p.Dot(across)), max(high, p.Dot(across))
		}
	}
	best := 0.0
	const lines, places = 12, 12
	for k := range lines - 1 {
		line := across.Mul(low + (high-low)*float64(k+1)/lines)
		for _, iv := range rest.Clip(line, along) {
			for i := range places - 1 {
				on := iv.From + (iv.To-iv.From)*float64(i+1)/places
				// How far it is to the nearer end of the stretch; a hair more counts as no more.
				clear := math.Min(on-iv.From, iv.To-on)
				if p := line.Add(along.Mul(on)); (!ok || clear > best+plan.HairMM) && onRoom(p) {
					best, at, ok = clear, p, true
				}
			}
		}
	}
	return at, ok
}
