package level

import (
	"math"
	"reflect"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// Bound is what keeps the base from being lower.
type Bound uint8

// The bounds.
const (
	JoistTops Bound = iota
	ThinnestBoard
	TrapOnFloor
	TrapOnHighSpot // of the floor, which stands proud of its plane
	TrapOnJoists   // over the underside of the joists, where there is a ceiling
	PieceOnFloor
	PieceOnHighSpot
	PieceOnJoists
	PieceBeside // on what lies higher beside the shower
	ExitInvert
	GullyWater
	PumpInlet
	OutsideGround
)

// noticedMM is by how much a high spot must stand proud to be named: what a fitter
// can feel with a straightedge. Common practice, no source.
const noticedMM = 0.5

// Constraint is one reason why the base cannot be lower.
type Constraint struct {
	By Bound
	// Piece is the piece of the run that it holds up; nil for none.
	Piece *waste.Piece
	// BaseTopMM is the lowest level of the base's top that it allows, and ClearMM the
	// room to be left under what it holds up beside.
	BaseTopMM float64
	ClearMM   float64
	At        mgl64.Vec3
	order     int // in which it was looked at, from nought
}

// Seat tells whether the base itself is what would lie too low: it cannot, once it is
// laid.
func (c Constraint) Seat() bool { return c.By == JoistTops || c.By == ThinnestBoard }

// ID is what people call the bound.
func (b Bound) ID() message.ID {
	switch b {
	case JoistTops:
		return "bound.joist-tops"
	case ThinnestBoard:
		return "bound.thinnest-board"
	case TrapOnFloor:
		return "bound.trap-on-floor"
	case TrapOnHighSpot:
		return "bound.trap-on-high-spot"
	case TrapOnJoists:
		return "bound.trap-on-joists"
	case PieceOnFloor:
		return "bound.piece-on-floor"
	case PieceOnHighSpot:
		return "bound.piece-on-high-spot"
	case PieceOnJoists:
		return "bound.piece-on-joists"
	case PieceBeside:
		return "bound.piece-beside-shower"
	case ExitInvert:
		return "bound.exit-invert"
	case GullyWater:
		return "bound.gully-water"
	case PumpInlet:
		return "bound.pump-inlet"
	}
	return "bound.outside-ground"
}

// Reason is what a constraint says without its levels.
type Reason struct {
	By    Bound
	Piece message.Numbered // that it holds up; zero for none
}

// Reason is what the constraint says.
func (c Constraint) Reason() Reason {
	if c.Piece == nil {
		return Reason{By: c.By}
	}
	return Reason{c.By, c.Piece.Name()}
}

// OfTrap tells that the constraint holds up the trap's body.
func (c Constraint) OfTrap() bool {
	return c.By == TrapOnFloor || c.By == TrapOnHighSpot || c.By == TrapOnJoists
}

// Message is what people call it.
func (r Reason) Message() message.Message {
	if r.Piece.Number == 0 {
		return message.Of(r.By.ID())
	}
	return message.Of(r.By.ID(), message.In("piece", r.Piece.Message()))
}

// Heights are the levels that do not depend on the place in plan. All are
// above the datum.
type Heights struct {
	Survey Survey
	// FloorHighMM is the highest structural floor under the fall area, by plane or
	// reading: boards and a straightedge lie on the high spots. ProudMM is how far
	// the highest reading there stands over the plane. FloorHighAt is where it is so high, where several
	// places are their middle.
	FloorHighMM float64
	ProudMM     float64
	FloorHighAt plan.Point
	// Ground is what the bed under a base on the floor lies on, and trap and pipe over:
	// the structural floor, less what it is set down, with what stays on it and the courses
	// under the base. Beside is what lies in the room so: the structural floor and what
	// stays on it.
	Ground, Beside solid.Plane
	BaseUnderMM    float64 // underside of the base boards on a floor
	BaseTopMM      float64
	FormerMM       float64 // underside of the former
	FlangeMM       float64 // top of the former at the drain
	TileMM         float64 // finished tile at the drain
	OutletMM       float64 // invert of the trap's outlet
	TrapMM         float64 // underside of the trap
	ChannelMM      float64 // underside of the drain channel
	// Stack is what the base is made of; zero for one in one piece, or whose height no
	// boards at hand give.
	Stack Stack
	// Constraints, least first; the last one governs the least raise.
	Constraints []Constraint
	Run         waste.Run
	Gradient    float64
	// RoomTopMM is the finished level of a raised room; not a number when the
	// room follows its own floor.
	RoomTopMM float64
	// RampSlope is the fall of ramps away from their edges; 0 without any.
	RampSlope float64
}

// Same tells whether two solutions are equal in all their levels.
func (h *Heights) Same(o *Heights) bool {
	a, b := *h, *o
	if math.IsNaN(a.RoomTopMM) && math.IsNaN(b.RoomTopMM) {
		a.RoomTopMM, b.RoomTopMM = 0, 0 // which is not equal to itself
	}
	return reflect.DeepEqual(a, b)
}

// LeastBaseTopMM is the lowest base top at which everything fits, touching what it lies
// on.
func (h *Heights) LeastBaseTopMM() float64 { return h.Governing().BaseTopMM }

// ClearTop is the constraint that sets the lowest base top at which trap and pipe have
// the room they want under them, and that level.
func (h *Heights) ClearTop() (by Constraint, topMM float64) {
	topMM = math.Inf(-1)
	for _, c := range h.Constraints {
		if top := c.BaseTopMM + c.ClearMM; top >= topMM {
			by, topMM = c, top
		}
	}
	return by, topMM
}

// ShortMM is by how much the base lies too low for what must fit over what it lies on;
// negative by how much it is higher.
func (h *Heights) ShortMM() float64 {
	short := math.Inf(-1)
	for i := range h.Constraints {
		if c := &h.Constraints[i]; !c.Seat() {
			short = math.Max(short, c.BaseTopMM-h.BaseTopMM)
		}
	}
	return short
}

// AppendShortMM adds by how much the base lies too low for each thing that must fit, in
// an order that is the same for all jobs that differ in levels alone.
func (h *Heights) AppendShortMM(room []float64) []float64 {
	from := len(room)
	for range h.Constraints {
		room = append(room, math.Inf(-1))
	}
	for i := range h.Constraints {
		if c := &h.Constraints[i]; !c.Seat() {
			room[from+c.order] = c.BaseTopMM - h.BaseTopMM
		}
	}
	return room
}

// ChosenFromMM is the level that a chosen height of the base counts from: the top of the
// bed under it, or the deck's where it is let in.
func (h *Heights) ChosenFromMM(j *job.Job) float64 {
	if j.Base.Support == job.BetweenJoists {
		return h.FloorHighMM
	}
	return h.BaseUnderMM
}

// FootMM is the level that the base's boards are counted from: the top of the bed under
// it, or the joists' tops where it is let in.
func (h *Heights) FootMM(j *job.Job) float64 {
	if j.Base.Support == job.BetweenJoists {
		return h.JoistTopMM(j)
	}
	return h.BaseUnderMM
}

// RaiseMM is how high the base's top comes over the structural floor where that is highest under it.
func (h *Heights) RaiseMM() float64 { return h.BaseTopMM - h.FloorHighMM }

// RiseTo is how far a base with its top at a level comes over the structural floor where that is highest under it, told so that both
// levels as they are read and what lies between them add up.
func (h *Heights) RiseTo(topMM float64) message.Rise {
	return message.Rise{FromMM: h.FloorHighMM, ToMM: topMM}
}

// Governing is the constraint that sets the least raise.
func (h *Heights) Governing() Constraint { return h.Constraints[len(h.Constraints)-1] }

// JoistTopMM is the level that a base let in between joists stands on: the
// joists' tops where the floor is highest, the deck being cut out.
func (h *Heights) JoistTopMM(j *job.Job) float64 { return h.FloorHighMM - j.Floor.Deck.ThicknessMM }

// LedgerTopMM is the level of the tops of the ledgers, and of the noggins between them, that carry the boards of a base let in.
func (h *Heights) LedgerTopMM(j *job.Job) float64 { return h.JoistTopMM(j) - j.Base.MinThicknessMM }

// BaseThicknessMM is the height of the base on a floor; what stands over the
// deck for a base let in.
func (h *Heights) BaseThicknessMM(j *job.Job) float64 {
	return h.BaseTopMM - h.ChosenFromMM(j)
}

// Solve works out all heights. leastGradient is the flattest pipe the region
// allows, used for the least raise when the exit's level drives.
func Solve(j job.Job, l layout.Layout, run waste.Run, leastGradient float64) Heights {
	var h Heights
	h.Solve(&j, &l, &run, leastGradient, math.Inf(-1))
	return h
}

// Solve makes heights those of a job, as the function does, in the room they have. A
// base that is to be safe comes up to the given level at least.
//
// Method: flange = base top + bed + former at the drain; outlet = flange −
// outlet depth; invert at distance s = outlet − drop(s), and drop is affine in
// the gradient. Every requirement is thus a lower bound on the base's top, and
// the least raise is the greatest of them: a closed form.
func (h *Heights) Solve(j *job.Job, l *layout.Layout, run *waste.Run, leastGradient, safeTopMM float64) {
	setDown := j.SetDown()
	spots := j.OfStructure(l.FallArea)
	h.Survey, h.RoomTopMM = Measure(spots, l.FallArea, setDown), math.NaN()
	if len(spots) == 0 {
		h.Survey.Floor.Level = -j.Floor.ReadOverMM(false) // under the datum, which lies in the room
	}
	h.FloorHighAt, h.FloorHighMM, h.ProudMM = h.Survey.highSpots(spots, l.FallArea, setDown)
	h.Ground, h.Beside = h.Survey.Floor.Raised(j.OnStructureMM()), h.Survey.Floor.Raised(j.Floor.KeptInRoomMM())
	h.BaseUnderMM = h.GroundHighMM(j) + j.Base.AdhesiveMM
	h.constrain(j, l, run, leastGradient)
	h.setBase(j, safeTopMM)
	h.FormerMM = h.BaseTopMM + j.Former.BedMM
	h.FlangeMM = h.FormerMM + j.Former.ThicknessAtDrainMM
	h.TileMM = h.FlangeMM + j.Layers.Shower.ThicknessMM()
	h.OutletMM = h.FlangeMM - j.Drain.OutletInvertDepthMM
	h.TrapMM = h.FlangeMM - j.Drain.TrapDepthMM
	h.ChannelMM = h.FlangeMM - j.Drain.ChannelDepthMM
	h.Gradient = j.Waste.Gradient
	if exit, ok := j.Waste.Exit.Level.ExactlyMM(); ok {
		if g, ok := run.GradientTo(h.OutletMM, exit); ok {
			h.Gradient = g
		} else {
			h.Gradient = 0
		}
	}
	pieces := append(h.Run.Pieces[:0], run.Pieces...)
	h.Run = *run
	h.Run.Pieces = pieces
	h.Run.Level(h.OutletMM, h.Gradient)
	if j.Room.Edge == job.EdgeRaiseRoom && j.Former.Fall != job.FallRoom {
		if open := l.OpenEdges(); len(open) > 0 {
			top := math.Inf(-1)
			for _, e := range open {
				top = math.Max(top, math.Max(h.ShowerAt(l, e.A), h.ShowerAt(l, e.B)))
			}
			_, own := highest(h.Beside, l.Room)
			h.RoomTopMM = math.Max(top, own+j.Layers.Room.ThicknessMM())
		}
	}
	h.setRamp(j, l)
}

// setBase sets the height of the base and finds what it is made of.
func (h *Heights) setBase(j *job.Job, safeTopMM float64) {
	foot := h.FootMM(j)
	h.Stack = Stack{}
	switch j.Base.Height {
	case job.HeightBuildable, job.HeightSafe:
		_, top := h.ClearTop()
		if j.Base.Height == job.HeightSafe {
			top = math.Max(top, safeTopMM)
		}
		height, stack, ok := NextHeight(&j.Base, top-foot)
		if h.BaseTopMM = top; ok {
			h.BaseTopMM, h.Stack = foot+height, stack
		}
		return
	case job.HeightBare:
		h.BaseTopMM = h.LeastBaseTopMM()
	case job.HeightChosen:
		h.BaseTopMM = h.ChosenFromMM(j) + j.Base.HeightMM
	}
	h.Stack, _ = StackOf(&j.Base, h.BaseTopMM-foot)
}

// constrain lists every lower bound on the base's top, sorted.
func (h *Heights) constrain(j *job.Job, l *layout.Layout, run *waste.Run, leastGradient float64) {
	// With the base top at zero, the flange is this high.
	toFlange := j.Former.BedMM + j.Former.ThicknessAtDrainMM
	toOutlet := toFlange - j.Drain.OutletInvertDepthMM
	gradient := j.Waste.Gradient
	if _, exact := j.Waste.Exit.Level.ExactlyMM(); exact {
		gradient = leastGradient
	}
	h.Constraints = slices.Grow(h.Constraints[:0], 2*len(run.Pieces)+4)
	middle := l.FallArea.Centroid()
	// What trap and pipe may not reach below: the floor, or a ceiling under the
	// joists, or nothing.
	structure, proud := h.Survey.Floor, h.ProudMM
	floor := func(p plan.Point) float64 { return h.HighAt(l, p) }
	trap, pieces, bounded := TrapOnFloor, PieceOnFloor, true
	if proud > noticedMM {
		trap, pieces = TrapOnHighSpot, PieceOnHighSpot
	}
	if j.Base.Support == job.BetweenJoists {
		h.bound(JoistTops, nil, h.JoistTopMM(j), 0, middle.Vec3(h.FloorHighMM))
		depth := j.Floor.Deck.ThicknessMM + j.Floor.Joists.DepthMM
		floor = func(p plan.Point) float64 { return structure.At(p) - depth }
		trap, pieces, bounded = TrapOnJoists, PieceOnJoists, j.Floor.CeilingBelow
	} else {
		h.bound(ThinnestBoard, nil, h.BaseUnderMM+j.Base.MinThicknessMM, 0, middle.Vec3(h.BaseUnderMM))
	}
	if bounded {
		trapFloor := math.Inf(-1)
		for _, poly := range l.Trap {
			for _, q := range poly.Outer {
				trapFloor = math.Max(trapFloor, floor(q))
			}
		}
		h.bound(trap, nil, trapFloor+j.Drain.TrapDepthMM-toFlange, j.Drain.BedUnderMM, l.TrapCentre.Vec3(trapFloor))
		for i := range run.Pieces {
			p := &run.Pieces[i]
			if p.FromMM > run.InRoomMM() {
				break
			}
			for _, s := range [2]float64{p.FromMM, math.Min(p.ToMM, run.InRoomMM())} {
				q := p.PointAt(s)
				by := pieces
				if on := h.GroundAt(l, q); by != PieceOnJoists && on > h.Ground.At(q) {
					by = PieceBeside
				}
				need := floor(q) + p.BelowInvertMM(s) + run.DropMM(s, gradient) - toOutlet
				h.bound(by, p, need, j.Waste.ClearUnderMM, q.Vec3(floor(q)))
			}
			for s, q := range h.Kerbs(j, l, p, run.InRoomMM()) {
				on := h.KerbAt(q)
				h.bound(PieceBeside, p, on+p.BelowInvertMM(s)+run.DropMM(s, gradient)-toOutlet, j.Waste.ClearUnderMM, q.Vec3(on))
			}
		}
	}
	h.constrainAtExit(j, l, run, gradient, toOutlet)
}

// constrainAtExit lists those that follow from where the waste goes: it falls so steeply, from an outlet so high over the
// base's top.
func (h *Heights) constrainAtExit(j *job.Job, l *layout.Layout, run *waste.Run, gradient, toOutlet float64) {
	drop := run.DropMM(run.ExitAtMM, gradient)
	if invert, ok := j.Waste.Exit.Level.InvertMM(); ok {
		h.bound(ExitInvert, nil, invert+drop-toOutlet, 0, run.Exit.Vec3(invert))
	}
	if way := j.Waste.WayOut(); way != nil && way.Joins == job.JoinGully && way.WaterMM != nil {
		out := run.LengthMM
		h.bound(GullyWater, nil, *way.WaterMM+run.DropMM(out, gradient)-toOutlet, 0, run.PointAt(out).Vec3(*way.WaterMM))
	}
	if inlet, ok := h.PumpInletMM(j, l, run); ok {
		h.bound(PumpInlet, nil, inlet+drop-toOutlet, 0, run.Exit.Vec3(inlet))
	}
	if ground := OutsideGroundMM(j, run); ground != nil {
		out := run.LengthMM
		need := *ground + run.PipeAt(out).WallMM() + run.DropMM(out, gradient) - toOutlet
		h.bound(OutsideGround, nil, need, 0, run.PointAt(out).Vec3(*ground))
	}
}

// bound puts a lower bound in its place among the others.
func (h *Heights) bound(by Bound, piece *waste.Piece, baseTop, clear float64, place mgl64.Vec3) {
	c := Constraint{by, piece, baseTop, clear, place, len(h.Constraints)}
	k := len(h.Constraints)
	for k > 0 && h.Constraints[k-1].BaseTopMM > baseTop {
		k--
	}
	h.Constraints = slices.Insert(h.Constraints, k, c)
}

// OutsideGroundMM is the level of the ground outside the wall that a run goes out
// through, which it stays over; nil where there is none, or where it goes on to a gully or
// a drain in the ground.
func OutsideGroundMM(j *job.Job, run *waste.Run) *float64 {
	if way := j.Waste.WayOut(); way != nil && way.Joins != job.JoinStack {
		return nil
	}
	return GroundOutsideMM(j, run)
}

// GroundOutsideMM is the level of the ground outside the wall that a run goes out through, whatever it goes on to; nil where there is
// none, or it goes out through no wall.
func GroundOutsideMM(j *job.Job, run *waste.Run) *float64 {
	if run.Wall == 0 {
		return nil
	}
	return j.Room.Walls[run.Wall-1].OutsideGroundMM
}

// DownToMM is the level that the pipe ends at which a bend turns down outside: the one that is stated, else the ground that it goes
// into there; known is false where neither is.
func DownToMM(j *job.Job, run *waste.Run) (mm float64, known bool) {
	way := j.Waste.WayOut()
	switch {
	case way == nil || run.Wall == 0 || !j.Waste.TurnsDown():
		return 0, false
	case way.DownToMM != nil && way.Joins == job.JoinGully:
		return *way.DownToMM, true
	}
	ground := GroundOutsideMM(j, run)
	if ground == nil {
		return 0, false
	}
	return *ground, true
}

// OverGroundMM is how far the underside of a run's end outside lies over the ground there, whatever it goes on to; known is false
// where it does not go out through a wall with ground outside.
func OverGroundMM(j *job.Job, run *waste.Run) (mm float64, known bool) {
	ground := GroundOutsideMM(j, run)
	if ground == nil {
		return 0, false
	}
	return run.InvertAt(run.LengthMM) - run.Outgoing().WallMM() - *ground, true
}

// ShowerAt is the finished level of the falling floor at a plan point.
func (h *Heights) ShowerAt(l *layout.Layout, p plan.Point) float64 {
	return h.TileMM + l.Fall.At(p)
}

// RoomAt is the finished level of the room's floor at a plan point outside the
// shower.
func (h *Heights) RoomAt(j *job.Job, p plan.Point) float64 {
	if !math.IsNaN(h.RoomTopMM) {
		return h.RoomTopMM
	}
	if j.Floor.KeepsFinish() {
		return h.Beside.At(p)
	}
	return h.Beside.At(p) + j.Layers.Room.ThicknessMM()
}
