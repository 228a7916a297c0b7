package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
)

// CuttingOf is what a cut goes through.
type CuttingOf string

// What there is to cut through.
const (
	CutDrain  CuttingOf = "drain"  // the trap, along the floor's fall
	CutWayIn  CuttingOf = "way-in" // the open edge with the greatest step, across it
	CutDoor   CuttingOf = "door"   // the doorway with the greatest step, across it
	CutStep   CuttingOf = "step"   // a step, across it
	CutPipe   CuttingOf = "pipe"   // along the first leg of the waste run
	CutPoints CuttingOf = "points" // two points on plan
	// Level cuts are plans of all that is at a level.
	CutLevel       CuttingOf = "level"        // at a level that is stated
	CutPipeLevel   CuttingOf = "pipe-level"   // through the waste run, half way down its fall
	CutBoardsLevel CuttingOf = "boards-level" // through the thickest board of the base
	CutTileLevel   CuttingOf = "tile-level"   // just under the tile at the drain
)

// Level tells whether what is cut lies at a level, and is seen from above.
func (o CuttingOf) Level() bool {
	return o == CutLevel || o == CutPipeLevel || o == CutBoardsLevel || o == CutTileLevel
}

// Name is the id of what a level cut goes through.
func (o CuttingOf) Name() message.ID { return message.ID("cut." + string(o)) }

// LevelCuts are the level cuts that a job has by itself, in the order that they are offered.
func LevelCuts() []CuttingOf { return []CuttingOf{CutPipeLevel, CutBoardsLevel, CutTileLevel} }

// LevelCutIDs are the ids of the names of all of them.
func LevelCutIDs() []message.ID { return message.Names(append(LevelCuts(), CutLevel)) }

// Cutting says where a job is cut by what the cut goes through. It finds its plane anew in every
// result: one across the way in stays there when the shower moves.
type Cutting struct {
	Of CuttingOf
	// Step is the open edge or the doorway whose step CutStep goes across.
	Step rule.Subject
	// From and To are the points that CutPoints goes through, seen with From at the left.
	From, To plan.Point
	// LevelMM is that of CutLevel, over the datum.
	LevelMM float64
	// TurnedDeg is how far an upright cut is turned about its place, anticlockwise seen from
	// above.
	TurnedDeg float64
	// AsideMM is how far an upright cut is moved off its place, to the side that it is looked at from,
	// once it is turned.
	AsideMM float64
}

// toldAsideMM is how far a cut lies off its place where that is told: less is told as nothing, in inches too.
const toldAsideMM = 1

// Home is the cut at its own place, neither turned nor moved aside.
func (c Cutting) Home() Cutting {
	c.TurnedDeg, c.AsideMM = 0, 0
	return c
}

// Across is the cut across a step.
func Across(step rule.Subject) Cutting { return Cutting{Of: CutStep, Step: step} }

// AcrossSteps are the cuts across all steps of a job, in the order of its answer's.
func AcrossSteps(r geometry.Result) (out []Cutting) {
	for _, s := range r.Steps() {
		out = append(out, Across(s.Where))
	}
	return out
}

// Plane is where the cut lies in a result, or why it is none. The origin of an upright one is the
// place that it is turned about.
func (c Cutting) Plane(r geometry.Result) (solid.Cut, error) {
	if len(r.Problems) > 0 {
		return solid.Cut{}, message.Fail("cut.no-room")
	}
	if c.Of.Level() {
		return c.level(&r)
	}
	plane, err := c.Upright(r)
	if err != nil {
		return solid.Cut{}, err
	}
	if len(r.Layout.Room.Clip(planOf(plane.Origin), planOf(plane.Along))) == 0 {
		return solid.Cut{}, message.Fail("cut.outside-room")
	}
	return plane, nil
}

// Upright is the plane of an upright cut, whether it meets the room or not, or why it is none.
func (c Cutting) Upright(r geometry.Result) (solid.Cut, error) {
	through, along, err := c.line(&r)
	if err != nil {
		return solid.Cut{}, err
	}
	if !finite(c.TurnedDeg) || !finite(c.AsideMM) {
		return solid.Cut{}, message.Fail("cut.no-direction")
	}
	if c.TurnedDeg != 0 {
		turn := plan.DirectionDeg(c.TurnedDeg)
		along = along.Mul(turn.X()).Add(plan.Left(along).Mul(turn.Y()))
	}
	return solid.VerticalCut(through.Sub(plan.Left(along).Mul(c.AsideMM)), along), nil
}

// line is the place that an upright cut goes through, and the way that it runs from there, of
// length one, before it is turned.
func (c Cutting) line(r *geometry.Result) (through, along plan.Point, err error) {
	switch c.Of {
	case CutPoints:
		return c.between(r)
	case CutPipe:
		if len(r.Heights.Run.Corners) < 2 {
			return through, along, message.Fail("cut.no-pipe")
		}
		plane := AlongRun(*r)
		return planOf(plane.Origin), planOf(plane.Along), nil
	case CutDrain:
		plane := ThroughDrain(*r)
		return planOf(plane.Origin), planOf(plane.Along), nil
	}
	step, err := c.step(r)
	if err != nil {
		return through, along, err
	}
	through, along, ok := r.StepPlace(step)
	if !ok {
		return through, along, message.Fail("cut.no-step", message.In("place", step.Message()))
	}
	if step.Of == rule.Doorway {
		through, along = acrossDoor(r, &r.Layout.Doors[step.Number-1], through)
	}
	return through, along, nil
}

// step is the step that the cut goes across.
func (c Cutting) step(r *geometry.Result) (rule.Subject, error) {
	switch c.Of {
	case CutWayIn:
		if s := r.WayIn(); s != nil {
			return s.Where, nil
		}
		return rule.Subject{}, message.Fail("cut.no-way-in")
	case CutDoor:
		if s := geometry.WorstStep(r.Steps(), rule.Doorway); s != nil {
			return s.Where, nil
		}
		return rule.Subject{}, message.Fail("cut.no-door")
	}
	return c.Step, nil
}

// leastCutMM is how far apart two points must be to tell which way a cut goes.
const leastCutMM = 1

// between is the line through the two points, from the middle between them.
func (c Cutting) between(r *geometry.Result) (through, along plan.Point, err error) {
	for _, v := range [...]float64{c.From.X(), c.From.Y(), c.To.X(), c.To.Y()} {
		if !finite(v) {
			return through, along, message.Fail("cut.no-points")
		}
	}
	way := c.To.Sub(c.From)
	long := way.Len()
	if !(long >= leastCutMM) {
		return through, along, message.Fail("cut.no-length")
	}
	along = way.Mul(1 / long)
	for _, in := range r.Layout.Room.Clip(c.From, along) {
		if in.From < long && in.To > 0 {
			return c.From.Add(way.Mul(0.5)), along, nil
		}
	}
	return through, along, message.Fail("cut.outside-room")
}

// level is the plane at the cut's level.
func (c Cutting) level(r *geometry.Result) (solid.Cut, error) {
	all := r.Assembly.Bounds()
	low, high := all.Low.Z(), all.High.Z()
	at, err := c.levelMM(r)
	if err != nil {
		return solid.Cut{}, err
	}
	if !(at > low && at < high) {
		return solid.Cut{}, message.Fail("cut.no-level", message.At("from", low), message.At("to", high))
	}
	return solid.HorizontalCut(at), nil
}

// levelMM is the level that a level cut lies at, over the datum.
func (c Cutting) levelMM(r *geometry.Result) (float64, error) {
	switch c.Of {
	case CutPipeLevel:
		run := &r.Heights.Run
		if len(run.Pieces) == 0 {
			return 0, message.Fail("cut.no-pipe")
		}
		return (run.InvertAt(0)+run.InvertAt(run.ExitAtMM))/2 + run.PipeAt(0).BoreMM/2, nil
	case CutBoardsLevel:
		thickest := -1
		stack := r.Floor.At(r.Layout.OpenFloor.Centroid())
		for i := range stack {
			if stack[i].Material == material.BaseBoard && (thickest < 0 || stack[i].ThicknessMM() > stack[thickest].ThicknessMM()) {
				thickest = i
			}
		}
		if thickest < 0 {
			return 0, message.Fail("cut.no-boards")
		}
		return (stack[thickest].BottomMM + stack[thickest].TopMM) / 2, nil
	case CutTileLevel:
		stack := r.Floor.At(r.Layout.DrainEdge)
		return stack[len(stack)-1].BottomMM - underMM, nil
	}
	return c.LevelMM, nil
}

// underMM is how far under a layer a cut lies that is to be just under it.
const underMM = 0.5

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// Says is what the cut goes through and what one looks at, as “across the way in, looking at
// wall B”; it says nothing of a cut that is none.
func (c Cutting) Says(r geometry.Result) message.Message {
	plane, err := c.Plane(r)
	if err != nil {
		return message.Message{}
	}
	if level := message.At("level", plane.Origin.Z()); c.Of == CutLevel {
		return message.Of("cut.at-level", level)
	} else if c.Of.Level() {
		return message.Of("cut.level-through", message.In("cut", message.Of(c.Of.Name())), level)
	}
	wall, goes := message.Wall("wall", looksAt(&r, plane)), c.Goes(r)
	if c.passesShower(&r, plane) {
		goes = message.Of("cut.past-shower", message.In("cut", goes))
	}
	if math.Abs(c.AsideMM) >= toldAsideMM {
		goes = message.Of("cut.aside", message.In("cut", goes), message.Along("aside", math.Abs(c.AsideMM)))
	}
	// Half a turn is the same place seen from its other side, which the wall tells.
	if half := math.Abs(math.Abs(c.TurnedDeg)-180) < leastTurnDeg; c.TurnedDeg != 0 && !half {
		return message.Of("cut.turned", message.In("cut", goes), message.Arg{Name: "angle", Value: message.Degrees(c.TurnedDeg)}, wall)
	}
	return message.Of("cut.looking-at", message.In("cut", goes), wall)
}

// passesShower tells of a cut across a doorway, which is to show the way to the shower, that none of that lies on it.
func (c Cutting) passesShower(r *geometry.Result, plane solid.Cut) bool {
	step, err := c.step(r)
	if across := c.Of == CutDoor || c.Of == CutStep; !across || err != nil || step.Of != rule.Doorway {
		return false
	}
	return len(r.Layout.FallArea.Clip(planOf(plane.Origin), planOf(plane.Along))) == 0
}

// Goes is what the cut goes through, as “across the way in”; nothing of a step that is none.
func (c Cutting) Goes(r geometry.Result) message.Message {
	switch c.Of {
	case CutWayIn:
		return message.Of("cut.across-way-in")
	case CutPipe:
		if len(r.Heights.Run.Corners) > 2 {
			return message.Of("cut.along-pipe-to-bend")
		}
		return message.Of("cut.along-pipe")
	case CutPoints:
		return message.Of("cut.between-points")
	case CutDrain:
		return message.Of("cut.through-drain")
	}
	step, err := c.step(&r)
	edges := r.Layout.OpenEdges()
	switch {
	case err != nil:
		return message.Message{}
	case step.Of == rule.Doorway && len(r.Layout.Doors) == 1:
		return message.Of("cut.across-the-door")
	case step.Of == rule.Doorway:
		return message.Of("cut.across-door", message.No("number", step.Number))
	case step.Of != rule.OpenEdge || step.Number > len(edges):
		return message.Message{}
	}
	return message.Of("cut.across-edge", message.In("at", message.Of(edges[step.Number-1].Side.At())))
}

// looksAt is the letter of the wall that one looks at from a cut: the first before one who stands
// where the cut meets the room nearest to its own place.
func looksAt(r *geometry.Result, c solid.Cut) message.Letter {
	through, along, way := planOf(c.Origin), planOf(c.Along), planOf(c.Normal).Mul(-1)
	standAt, nearest := through, math.Inf(1)
	for _, in := range r.Layout.Room.Clip(through, along) {
		// In the room for sure, not on its outline.
		inside := math.Min(1, (in.To-in.From)/2)
		at := math.Max(in.From+inside, math.Min(in.To-inside, 0))
		if math.Abs(at) < nearest {
			standAt, nearest = through.Add(along.Mul(at)), math.Abs(at)
		}
	}
	var letter message.Letter
	before := math.Inf(1)
	for i := range r.Layout.Walls {
		w := &r.Layout.Walls[i]
		far, at, ok := plan.MeetLines(standAt, way, w.A, w.Along)
		if ok && far > 0 && far < before && at >= -plan.HairMM && at <= w.LengthMM+plan.HairMM {
			letter, before = w.Letter, far
		}
	}
	return letter
}

// Through draws a result where it is cut, up to a stage; what the cut was chosen for is looked at
// first.
func Through(r geometry.Result, c Cutting, stage buildup.Stage) (Drawing, error) {
	plane, err := c.Plane(r)
	if err != nil {
		return Drawing{}, err
	}
	d := Of(r, plane, stage)
	switch c.Of {
	case CutPoints:
		if c == c.Home() {
			half := c.To.Sub(c.From).Len() / 2
			d.focusOn(&r, -half, half)
		}
	case CutPipe:
		if stage >= buildup.StageWaste {
			d.besidePipe(&r)
		}
	case CutDoor, CutStep:
		if step, err := c.step(&r); err == nil && step.Of == rule.Doorway {
			d.lookThrough(&r, step)
		}
	}
	return d, nil
}

// focusOn has a stretch of the cut looked at first, as far as anything is drawn there.
func (d *Drawing) focusOn(r *geometry.Result, from, to float64) {
	from, to = math.Max(from, d.Low.X()), math.Min(to, d.High.X())
	if to-from < leastCutMM {
		return
	}
	low, high := d.focusLevels(r)
	d.FocusLow, d.FocusHigh = plan.Point{from, low}, plan.Point{to, high}
}

// LookAt has a place along the section looked at first: what is looked at is moved along, as little as it must be to
// have the place in it, and stays as wide; no further than anything is drawn.
func (d *Drawing) LookAt(along float64) {
	low, high := d.FocusLow.X(), d.FocusHigh.X()
	besideMM := (high - low) / 6 // what is left of the place and right of it
	by := math.Min(0, along-besideMM-low) + math.Max(0, along+besideMM-high)
	by = math.Max(d.Low.X()-low, math.Min(d.High.X()-high, by))
	d.FocusLow[0] += by
	d.FocusHigh[0] += by
}

// levelPlan letters the walls of a plan at a level, measures them and names what is cut.
func (d *Drawing) levelPlan(r geometry.Result) {
	d.wallDimensions(&r.Layout)
	d.wallNames(r)
	d.cornerNames(r)
	for i := range d.Areas {
		a := &d.Areas[i]
		if _, wall := a.wall(); wall {
			continue
		}
		n := Name{Texts: []message.Message{a.Name}, In: a.Region, Small: true}
		if at := a.Region.Centroid(); a.Region.Contains(at, 0) {
			n.Places = append(n.Places, NameAt{At: at})
		}
		for _, at := range middlesAcross(a.Region, 0.5, 0.25, 0.75) {
			n.Places = append(n.Places, NameAt{At: at})
		}
		d.Names = append(d.Names, n)
	}
}
