package edit

import (
	"fmt"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
	"underfall/geometry/waste"
)

// HandleKind is what a handle of a drawing moves.
type HandleKind int

// The handles of the plan and of the section along the waste.
const (
	NoHandle HandleKind = iota
	HandleDepth
	HandleRight
	HandleLeft
	HandleShower
	HandleDrain
	HandleExit
	HandleExitLevel // in the section along the waste
	HandleCorner    // of the room, by its index
	HandleTurn      // of the waste run, by its index
	HandleFitting   // on the waste run, by its index
	HandleStack     // by its index
	HandleVent
	HandlePipeEnd // by its index
	HandleSide    // of the room, by its wall's index
	HandleDoorway // by its index, as all that follow
	HandleWindow
	HandleFixture
	HandleJoist   // by its index in the layout
	HandleLevel   // of the structural floor, of those that are stated
	HandleReading // of the laser
)

// Handle is something of a drawing that can be dragged. The zero value is none.
type Handle struct {
	Kind  HandleKind
	Index int
}

// Message says what a handle moves.
func (h Handle) Message() message.Message {
	return message.Of(map[HandleKind]message.ID{HandleDepth: "edit.shower-depth", HandleRight: "edit.shower-width", HandleLeft: "edit.shower-width",
		HandleShower: "edit.shower-place", HandleDrain: "edit.drain-place", HandleExit: "edit.exit-place", HandleExitLevel: "edit.exit-level",
		HandleCorner: "edit.corner", HandleTurn: "edit.turn", HandleFitting: "edit.fitting-place",
		HandleSide: "edit.room-side", HandleStack: "edit.stack-place", HandleVent: "edit.vent-place",
		HandlePipeEnd: "edit.pipe-end-place", HandleDoorway: "edit.doorway-place", HandleWindow: "edit.window-place", HandleFixture: "edit.fixture-place",
		HandleJoist: "edit.joists-place", HandleLevel: "edit.level-place", HandleReading: "edit.level-place"}[h.Kind])
}

// named says what a handle moves in a job: of a room the wall or the corner.
func (h Handle) named(j *job.Job) message.Message {
	switch h.Kind {
	case HandleSide:
		return message.Of("edit.wall-moved", j.Room.Wall("wall", h.Index))
	case HandleCorner:
		return message.Of("edit.corner-moved", message.AtCorner("corner", j.Room.Corner(h.Index)))
	}
	return h.Message()
}

// keys are the paths in a job's file of what a handle moves.
func (h Handle) keys() []string {
	switch h.Kind {
	case HandleDepth:
		return []string{"shower.depthMM"}
	case HandleRight, HandleLeft:
		return []string{"shower.widthMM", "shower.offsetMM"}
	case HandleShower:
		return []string{"shower"}
	case HandleDrain:
		return []string{"drain.offsetMM", "drain.forwardMM"}
	case HandleExit:
		return []string{"waste.exit"}
	case HandleExitLevel:
		return []string{"waste.exit.level"}
	case HandleCorner, HandleSide:
		return []string{"room.outline"}
	case HandleTurn:
		return []string{"waste.waypoints"}
	case HandleFitting:
		return []string{fmt.Sprintf("waste.fittings[%d]", h.Index)}
	case HandleStack:
		return []string{job.Nth(job.StacksKey, h.Index) + ".at"}
	case HandlePipeEnd:
		return []string{job.Nth(job.PipeEndsKey, h.Index) + ".at"}
	case HandleVent:
		return []string{job.VentKey}
	case HandleDoorway:
		return atWallKeys(job.DoorwaysKey, h.Index)
	case HandleWindow:
		return atWallKeys(job.WindowsKey, h.Index)
	case HandleFixture:
		return atWallKeys(job.FixturesKey, h.Index)
	case HandleJoist:
		return []string{job.JoistsKey + ".firstOffsetMM"}
	case HandleLevel:
		return []string{job.Nth(job.SpotLevelsKey, h.Index)}
	case HandleReading:
		return []string{job.Nth(job.ReadingsKey, h.Index), job.SpotLevelsKey}
	}
	return []string{}
}

// atWallKeys are the paths that say where a thing of a list is at the walls.
func atWallKeys(list string, index int) []string {
	return []string{job.Nth(list, index) + ".wall", job.Nth(list, index) + ".offsetMM"}
}

// Fineness is how finely a place is taken that something is dragged to.
type Fineness int

// How finely.
const (
	Coarse Fineness = iota // in steps as one sets out by hand; a turn of the run falls into 45°
	Fine                   // in the smallest steps there are on a rule
	Exact                  // as it is
)

// What dragged lengths are rounded to: 5 mm or a quarter of an inch, and 1 mm or a sixteenth. Common
// practice, no source.
const (
	coarseMM, coarseInchMM = 5, 25.4 / 4
	fineMM, fineInchMM     = 1, 25.4 / 16
)

// StepMM is what lengths are rounded to in a system of units; 0 for nothing.
func (f Fineness) StepMM(u unit.System) float64 {
	switch {
	case f == Exact:
		return 0
	case f == Fine && u == unit.Imperial:
		return fineInchMM
	case f == Fine:
		return fineMM
	case u == unit.Imperial:
		return coarseInchMM
	}
	return coarseMM
}

// rounding rounds lengths to the nearest multiple of a step, in millimetres; of 0 to what sums of lengths lose.
type rounding float64

// mm is a length rounded. Half-way it goes up, also where rounding has left a hair too little, so that the
// same pointer always gives the same length.
func (r rounding) mm(mm float64) float64 {
	const hair = 1e-6 // of a step
	if r == 0 {
		return rounded(plan.Point{mm}).X()
	}
	return math.Floor(mm/float64(r)+0.5+hair) * float64(r)
}

// down is a length rounded down.
func (r rounding) down(mm float64) float64 {
	if r == 0 {
		return mm
	}
	return math.Floor(mm/float64(r)) * float64(r)
}

// at is a point rounded.
func (r rounding) at(p plan.Point) plan.Point { return plan.Point{r.mm(p.X()), r.mm(p.Y())} }

// Drag moves a handle of the plan to a point of it, coarsely; DragAs as finely as is said. The other values
// stay. What the handle stood on before plays no part, so that the last of many
// drags decides. What was not known or assumed and comes to lie elsewhere is stated by it.
func Drag(h Handle, to plan.Point) Edit { return DragAs(h, to, Coarse) }

// DragAs is Drag with how finely the place is taken.
func DragAs(h Handle, to plan.Point, f Fineness) Edit {
	drag := func(to plan.Point) Edit { return drag(h, to, f).About(h.keys()...).called(h.named) }
	e := drag(to)
	e.partWay = func(j job.Job) (func(share float64) Edit, bool) {
		from, ok := h.stands(&j)
		return func(share float64) Edit { return drag(from.Add(to.Sub(from).Mul(share))) }, ok
	}
	return e
}

// stands is where a handle of the plan stands in a job, as far as that decides what moving it does; false
// where there is none, or it follows what it is dragged along.
func (h Handle) stands(j *job.Job) (at plan.Point, ok bool) {
	l, ok := laidOut(*j)
	if !ok {
		return at, false
	}
	back, right, into := l.Corners[0], l.ToRight, l.Into
	middle := right.Mul(j.Shower.WidthMM / 2).Add(into.Mul(j.Shower.DepthMM / 2))
	switch h.Kind {
	case HandleDepth:
		return back.Add(middle).Add(into.Mul(j.Shower.DepthMM / 2)), true
	case HandleRight:
		return back.Add(middle).Add(right.Mul(j.Shower.WidthMM / 2)), true
	case HandleLeft:
		return back.Add(middle).Sub(right.Mul(j.Shower.WidthMM / 2)), true
	case HandleShower:
		return back.Add(middle), true
	case HandleDrain:
		return l.DrainCentre, true
	case HandleCorner:
		if h.Index >= 0 && h.Index < len(j.Room.Outline) {
			return j.Room.Outline[h.Index], true
		}
	case HandleSide:
		if h.Index >= 0 && h.Index < len(l.Walls) {
			w := &l.Walls[h.Index]
			return w.A.Add(w.B).Mul(0.5).Add(w.Outward.Mul(w.ThicknessMM)), true
		}
	case HandleDoorway, HandleWindow, HandleFixture:
		if wall, offsetMM, longMM, there := h.atWall(j); there && *wall >= 0 && *wall < len(l.Walls) {
			return l.Walls[*wall].At(*offsetMM + longMM/2), true
		}
	case HandleJoist:
		if h.Index >= 0 && h.Index < len(l.Joists) {
			return l.Joists[h.Index].Middle(), true
		}
	case HandleLevel:
		if h.Index >= 0 && h.Index < len(j.StatedLevels()) {
			return j.SpotLevels[h.Index].At, true
		}
	case HandleReading:
		if h.Index >= 0 && h.Index < len(j.Laser.Readings) {
			return j.Laser.Readings[h.Index].At, true
		}
	}
	return standsAt(j, &l, h)
}

func drag(h Handle, to plan.Point, f Fineness) Edit {
	return statesMoved(Of(h.Message(), func(j *job.Job) {
		l, ok := laidOut(*j)
		if !ok {
			return
		}
		r, rel := rounding(f.StepMM(j.Units)), to.Sub(l.Corners[0])
		right, into := rel.Dot(l.ToRight), rel.Dot(l.Into)
		switch h.Kind {
		case HandleDepth:
			j.Shower.DepthMM = r.mm(into)
		case HandleRight:
			resize(j, l, 0, r.mm(right)-j.Shower.WidthMM)
		case HandleLeft:
			resize(j, l, j.Shower.WidthMM-r.mm(j.Shower.WidthMM-right), 0)
		case HandleShower:
			moveShower(j, l, right-j.Shower.WidthMM/2, r)
		case HandleDrain:
			dragDrain(j, &l, to, r)
		case HandleExit:
			dragExit(j, l, to, r)
		case HandleSide:
			dragSide(j, &l, h.Index, to, r)
		case HandleCorner:
			if h.Index >= 0 && h.Index < len(j.Room.Outline) {
				j.Room.Outline[h.Index] = r.at(to)
			}
		case HandleStack:
			if h.Index >= 0 && h.Index < len(j.Room.Stacks) {
				j.Room.Stacks[h.Index].At = r.at(to)
			}
		case HandlePipeEnd:
			if h.Index >= 0 && h.Index < len(j.Room.PipeEnds) {
				keepingLed(j, h.Index, func() { j.Room.PipeEnds[h.Index].At = r.at(to) })
			}
		case HandleVent:
			if j.Waste.Vent != nil {
				run := waste.Lay(*j, l)
				j.Waste.Vent.AtMM = r.mm(run.Nearest(to))
			}
		case HandleDoorway, HandleWindow, HandleFixture:
			dragAtWall(j, &l, h, to, r)
		case HandleJoist:
			dragJoist(j, &l, h.Index, to, r)
		case HandleLevel:
			if h.Index >= 0 && h.Index < len(j.StatedLevels()) {
				j.SpotLevels[h.Index].At = r.at(to)
			}
		case HandleReading:
			if h.Index >= 0 && h.Index < len(j.Laser.Readings) {
				j.Laser.Readings[h.Index].At = r.at(to)
				j.WorkOutLevels()
			}
		case HandleTurn:
			dragTurn(j, l, h.Index, to, f)
		case HandleFitting:
			dragFitting(j, l, h.Index, to, r)
		}
	}))
}

// dragDrain moves the drain along its side, and where it may lie anywhere also to and from the wall.
func dragDrain(j *job.Job, l *layout.Layout, to plan.Point, r rounding) {
	middle := l.DrainCentre.Sub(l.DrainAlong.Mul(j.Drain.OffsetMM))
	j.Drain.OffsetMM = r.mm(to.Sub(middle).Dot(l.DrainAlong))
	if j.Former.Fall.Linear() && j.Drain.LengthMM == 0 {
		// As long as its side, it stays so.
		least, greatest := j.DrainMovesMM()
		j.Drain.OffsetMM = math.Max(least, math.Min(greatest, j.Drain.OffsetMM))
	}
	if !j.Former.Fall.Linear() || j.Former.Fall == job.FallMid {
		forward := r.mm(to.Sub(l.Corners[0]).Dot(l.Into))
		j.Drain.ForwardMM = &forward
	}
}

// dragFitting moves a fitting along the run to the place nearest to the pointer. As far as the fitting the run lies
// as without it, wherever it stood before.
func dragFitting(j *job.Job, l layout.Layout, fitting int, to plan.Point, r rounding) {
	if fitting < 0 || fitting >= len(j.Waste.Fittings) {
		return
	}
	without := j.Clone()
	without.Waste.Fittings = slices.Delete(without.Waste.Fittings, fitting, fitting+1)
	run := waste.Lay(without, l)
	j.Waste.Fittings[fitting].AtMM = math.Min(r.mm(run.Nearest(to)), r.down(run.ExitAtMM))
}

// startsLeft tells whether the shower's offset counts from its left: from its
// wall's start corner, which may be on either side.
func startsLeft(j job.Job, l layout.Layout) bool {
	return l.Walls[j.Shower.Wall].Along.Dot(l.ToRight) > 0
}

// resize moves the sides of the shower, both towards its right.
func resize(j *job.Job, l layout.Layout, leftByMM, rightByMM float64) {
	if startsLeft(*j, l) {
		j.Shower.OffsetMM += leftByMM
	} else {
		j.Shower.OffsetMM -= rightByMM
	}
	j.Shower.WidthMM += rightByMM - leftByMM
}

// moveShower moves the shower to its right, within its wall.
func moveShower(j *job.Job, l layout.Layout, byMM float64, r rounding) {
	if !startsLeft(*j, l) {
		byMM = -byMM
	}
	most := l.Walls[j.Shower.Wall].LengthMM - j.Shower.WidthMM
	j.Shower.OffsetMM = math.Max(0, math.Min(r.mm(j.Shower.OffsetMM+byMM), most))
}

// dragExit moves the exit: one through a wall to the nearest wall, one into a stack to
// the nearest stack.
func dragExit(j *job.Job, l layout.Layout, to plan.Point, r rounding) {
	e := &j.Waste.Exit
	switch e.Kind {
	case job.ExitStack:
		e.Stack = nearestStack(j, to)
		return
	case job.ExitFloor, job.ExitPipe, job.ExitPump:
		e.At = r.at(to)
		return
	}
	best := math.Inf(1)
	for _, w := range l.Walls {
		if d := plan.DistanceToSegment(to, w.A, w.B); d < best {
			best = d
			e.Wall = w.Index
			e.OffsetMM = math.Max(0, math.Min(w.LengthMM, r.mm(to.Sub(w.A).Dot(w.Along))))
		}
	}
}

// squareWithinMM is how near to a fitting's angle a dragged turn falls into it.
const squareWithinMM = 25

// dragTurn moves a turn of the run. Legs near to a multiple of 45° to the
// shower fall into it, so that fittings fit; a run that was found by itself
// becomes stated.
func dragTurn(j *job.Job, l layout.Layout, i int, to plan.Point, f Fineness) {
	run := waste.Lay(*j, l)
	turns := Turns(*j, run)
	if i < 0 || i >= len(turns) || len(run.Corners) < 2 {
		return
	}
	corners := withEnds(turns, run)
	u, v := l.ToRight, l.Into
	snap := func(from, p plan.Point) plan.Point {
		if f != Coarse {
			return p
		}
		d := p.Sub(from)
		a, b := d.Dot(u), d.Dot(v)
		switch {
		case math.Abs(a) < squareWithinMM:
			a = 0
		case math.Abs(b) < squareWithinMM:
			b = 0
		case math.Abs(math.Abs(a)-math.Abs(b)) < squareWithinMM:
			b = math.Copysign(a, b)
		}
		return from.Add(u.Mul(a)).Add(v.Mul(b))
	}
	// The leg before is brought into line first; the leg after moves the turn
	// along it only.
	before, after := corners[i], corners[i+2]
	p := snap(before, to)
	if q := snap(after, p); q != p {
		leg := p.Sub(before)
		if s, _, ok := plan.MeetLines(before, leg, after, q.Sub(after)); ok && leg.Mul(s).Add(before).Sub(to).Len() < 2*squareWithinMM {
			p = before.Add(leg.Mul(s))
		}
	}
	turns[i] = p
	j.Waste.Waypoints = turns
}

// levelSnapMM is what a dragged level is rounded to.
const levelSnapMM = 0.5

// DragLong moves a handle of the section along the waste to a distance along
// the run and a level: the exit's level is then given and sets the fall, a
// fitting slides along the run.
func DragLong(h Handle, alongMM, levelMM float64) Edit {
	return Of(h.Message(), func(j *job.Job) {
		r := rounding(Coarse.StepMM(j.Units))
		switch {
		case h.Kind == HandleExitLevel:
			j.Waste.Exit.Level = job.Exactly(math.Round(levelMM/levelSnapMM) * levelSnapMM)
		case h.Kind == HandleFitting && h.Index >= 0 && h.Index < len(j.Waste.Fittings):
			j.Waste.Fittings[h.Index].AtMM = math.Max(0, r.mm(alongMM))
		case h.Kind == HandleVent && j.Waste.Vent != nil:
			j.Waste.Vent.AtMM = math.Max(0, r.mm(alongMM))
		}
	}).About(h.keys()...)
}
