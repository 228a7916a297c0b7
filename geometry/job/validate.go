package job

import (
	"fmt"
	"math"
	"strings"

	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// Problem is one reason why a job cannot be built at all: not a value outside
// a code's limits, but a value that means nothing.
type Problem struct {
	Path   string // where in the job, as in its file
	Reason string // what is wrong and what to do
}

// Problems are everything wrong with a job; as an error it lists them.
type Problems []Problem

// Error lists the problems, one a line.
func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i, x := range p {
		lines[i] = x.Error()
	}
	return strings.Join(lines, "\n")
}

// Limits that keep arithmetic and drawing sane, far beyond any bathroom.
const (
	farthestMM  = 50000
	mostCorners = 64
	mostItems   = 200
)

// Validate lists everything that stops the job from being evaluated, with the
// place in the file and the reason in plain words; nil when it is sound.
func (j Job) Validate() Problems {
	v := &validator{units: j.Units}
	if j.Version != Version {
		v.add("version", "must be %d", Version)
	}
	checkEnum(v, "units", j.Units, UnitSystems())
	v.text("name", j.Name, mostNameRunes, false)
	v.text("notes", j.Notes, mostNotesRunes, true)
	if strings.TrimSpace(j.Region) == "" {
		v.add("region", "choose the region whose rules apply")
	}
	in := &j
	for p := range EachParameter {
		// An unused number may be anything that can be kept in a file.
		x := *p.field(in)
		if math.IsNaN(x) || math.IsInf(x, 0) {
			v.add(p.Key, "is not a number")
		} else if p.Uses(j) {
			if err := p.Check(x, j.Units); err != nil {
				v.add(p.Key, "%s", err)
			}
		}
	}
	v.room(j.Room)
	v.floor(j)
	v.shower(j)
	v.drainAndWaste(j)
	for _, f := range []struct {
		path   string
		finish Finish
	}{{"layers.shower", j.Layers.Shower}, {"layers.room", j.Layers.Room}, {"layers.wall", j.Layers.Wall}} {
		if _, ok := material.ParseColour(f.finish.Colour); !ok {
			v.add(f.path+".colour", "must be a colour as #rrggbb")
		}
		if _, ok := material.ParseColour(f.finish.GroutColour); !ok && f.finish.GroutColour != "" {
			v.add(f.path+".groutColour", "must be a colour as #rrggbb")
		}
		checkEnum(v, f.path+".bond", f.finish.Bond, Bonds())
		checkEnum(v, f.path+".surface", f.finish.Surface, Surfaces())
		checkEnum(v, f.path+".sheen", f.finish.Sheen, Sheens())
	}
	for _, m := range j.AsBuilt.Levels() {
		if *m.MM != nil {
			v.within("asBuilt."+m.Field, **m.MM, -2000, 2000, unit.Length)
		}
	}
	checkEnum(v, "style.metal", j.Style.Metal, MetalKinds())
	checkEnum(v, "style.cover", j.Style.Cover, CoverKinds())
	if len(j.Water.ShowerFlowsLPS) > 10 {
		v.add("water.showerFlowsLPS", "at most 10 outlets")
	}
	for i, f := range j.Water.ShowerFlowsLPS {
		v.within(fmt.Sprintf("water.showerFlowsLPS[%d]", i), f, 0, 20, unit.Flow)
	}
	return v.problems
}

type validator struct {
	problems Problems
	units    unit.System
}

func (v *validator) add(path, format string, args ...any) {
	v.problems = append(v.problems, Problem{path, fmt.Sprintf(format, args...)})
}

func (v *validator) within(path string, x, least, greatest float64, kind unit.Kind) bool {
	if math.IsNaN(x) || x < least || x > greatest {
		v.add(path, "must be between %s and %s", unit.Format(least, kind, v.units), unit.Format(greatest, kind, v.units))
		return false
	}
	return true
}

func (v *validator) point(path string, p plan.Point) bool {
	return v.within(path+"[0]", p.X(), -farthestMM, farthestMM, unit.Length) &&
		v.within(path+"[1]", p.Y(), -farthestMM, farthestMM, unit.Length)
}

func (v *validator) room(r Room) {
	checkEnum(v, "room.edge", r.Edge, EdgeKinds())
	n := len(r.Outline)
	if n < 3 || n > mostCorners {
		v.add("room.outline", "needs 3 to %d corners, has %d", mostCorners, n)
		return
	}
	sound := true
	for i, p := range r.Outline {
		sound = v.point(fmt.Sprintf("room.outline[%d]", i), p) && sound
	}
	if sound {
		for i := range n {
			if r.Outline[i].Sub(r.Outline[(i+1)%n]).Len() < 1 {
				v.add(fmt.Sprintf("room.outline[%d]", i), "lies on the next corner; remove one of the two")
				sound = false
			}
		}
	}
	if sound {
		if a, b, bad := plan.Ring(r.Outline).CrossingEdges(); bad {
			v.add("room.outline", "wall %d crosses or touches wall %d; put the corners in order around the room", a+1, b+1)
			sound = false
		} else if math.Abs(plan.Ring(r.Outline).SignedArea()) < 100*100 {
			v.add("room.outline", "encloses no floor")
		}
	}
	if len(r.Walls) != n {
		v.add("room.walls", "needs one wall for each of the %d sides, has %d", n, len(r.Walls))
		return
	}
	for i, w := range r.Walls {
		path := fmt.Sprintf("room.walls[%d]", i)
		checkEnum(v, path+".kind", w.Kind, WallKinds())
		v.within(path+".thicknessMM", w.ThicknessMM, 10, 1500, unit.Length)
		if w.Kind == WallStud {
			v.within(path+".studSpacingMM", w.StudSpacingMM, 50, 3000, unit.Length)
			v.within(path+".firstStudMM", w.FirstStudMM, -3000, 3000, unit.Length)
			v.within(path+".studWidthMM", w.StudWidthMM, 10, 300, unit.Length)
		}
		if w.OutsideGroundMM != nil {
			v.within(path+".outsideGroundMM", *w.OutsideGroundMM, -20000, 5000, unit.Length)
		}
	}
	if len(r.Doorways) > mostItems {
		v.add("room.doorways", "at most %d", mostItems)
		return
	}
	for i, d := range r.Doorways {
		path := fmt.Sprintf("room.doorways[%d]", i)
		checkEnum(v, path+".leaf", d.Leaf, LeafSwings())
		v.within(path+".neighbourFFLMM", d.NeighbourFFLMM, -1000, 1000, unit.Length)
		v.within(path+".leafGapMM", d.LeafGapMM, 0, 500, unit.Length)
		if d.Wall < 0 || d.Wall >= n {
			v.add(path+".wall", "there is no wall %d", d.Wall+1)
			continue
		}
		if !sound {
			continue
		}
		length := r.Outline[(d.Wall+1)%n].Sub(r.Outline[d.Wall]).Len()
		if v.within(path+".widthMM", d.WidthMM, 100, 5000, unit.Length) && (math.IsNaN(d.OffsetMM) || d.OffsetMM < 0 || d.OffsetMM+d.WidthMM > length+plan.HairMM) {
			v.add(path+".offsetMM", "the doorway must lie within its wall, which is %s long", unit.Format(length, unit.Length, v.units))
			continue
		}
		for k, o := range r.Doorways[:i] {
			if o.Wall == d.Wall && o.OffsetMM < d.OffsetMM+d.WidthMM && d.OffsetMM < o.OffsetMM+o.WidthMM {
				v.add(path, "overlaps doorway %d", k+1)
			}
		}
	}
}

func (v *validator) floor(j Job) {
	checkEnum(v, "floor.kind", j.Floor.Kind, FloorKinds())
	if timber(j) {
		js := j.Floor.Joists
		if js.WidthMM >= js.SpacingMM {
			v.add("floor.joists.spacingMM", "must be more than the joist width")
		}
		if n := len(js.SupportsMM); n == 1 || n > mostItems {
			v.add("floor.joists.supportsMM", "give at least two lines of support, or none for the room's walls")
		}
		for i, s := range js.SupportsMM {
			v.within(fmt.Sprintf("floor.joists.supportsMM[%d]", i), s, -farthestMM, farthestMM, unit.Length)
			if i > 0 && s <= js.SupportsMM[i-1] {
				v.add(fmt.Sprintf("floor.joists.supportsMM[%d]", i), "must lie beyond the support before it")
			}
		}
	}
	if len(j.SpotLevels) > mostItems {
		v.add("spotLevels", "at most %d readings", mostItems)
		return
	}
	for i, s := range j.SpotLevels {
		path := fmt.Sprintf("spotLevels[%d]", i)
		v.point(path+".at", s.At)
		v.within(path+".levelMM", s.LevelMM, -500, 500, unit.Length)
		v.within(path+".toleranceMM", s.ToleranceMM, 0, 100, unit.Length)
	}
}

func (v *validator) shower(j Job) {
	checkEnum(v, "former.fall", j.Former.Fall, FallKinds())
	checkEnum(v, "base.support", j.Base.Support, SupportKinds())
	checkEnum(v, "base.height", j.Base.Height, HeightModes())
	if j.Base.Support == BetweenJoists && !timber(j) {
		v.add("base.support", "a base can only be let in between joists on a timber floor")
	}
	if j.Base.CutAtStartMM != nil {
		v.within("base.cutAtStartMM", *j.Base.CutAtStartMM, 0, 5000, unit.Length)
	}
	n := len(j.Room.Outline)
	if j.Shower.Wall < 0 || j.Shower.Wall >= n {
		v.add("shower.wall", "there is no wall %d", j.Shower.Wall+1)
		return
	}
	if len(v.problems) > 0 {
		return
	}
	corners := j.ShowerCorners()
	room := plan.FromRing(j.Room.Outline)
	area := plan.FromRing(corners[:])
	if out := area.Area() - plan.SharedArea(area, room); out > 100 {
		v.add("shower", "%s; move it or make it smaller", j.sticksOut())
	}
}

// sticksOut words how a shower that does not lie in its room leaves it.
func (j Job) sticksOut() string {
	room := plan.FromRing(j.Room.Outline)
	worst, which := 0.0, 0
	for i, c := range j.ShowerCorners() {
		far := math.Inf(1)
		for k, p := range j.Room.Outline {
			far = math.Min(far, plan.DistanceToSegment(c, p, j.Room.Outline[(k+1)%len(j.Room.Outline)]))
		}
		if !room.Contains(c, 0) && far > worst {
			worst, which = far, i
		}
	}
	if worst == 0 {
		return "reaches out of the room between its corners"
	}
	corner := [4]string{"back left", "back right", "front right", "front left"}[which]
	return fmt.Sprintf("reaches %s out of the room at its %s corner, as seen facing the back wall", unit.Format(math.Ceil(worst), unit.Length, j.Units), corner)
}

// ShowerCorners are the corners of the shower area: back left, back right,
// front right, front left, as seen by someone facing its back wall.
func (j Job) ShowerCorners() [4]plan.Point {
	outline := plan.Ring(j.Room.Outline)
	n := len(outline)
	a, b := outline[j.Shower.Wall], outline[(j.Shower.Wall+1)%n]
	along := b.Sub(a).Normalize()
	into := plan.Left(along)
	start, end := j.Shower.OffsetMM, j.Shower.OffsetMM+j.Shower.WidthMM
	left, right := a.Add(along.Mul(end)), a.Add(along.Mul(start))
	if outline.SignedArea() < 0 {
		// Walked the other way round, the room lies to the right of its walls.
		into = into.Mul(-1)
		left, right = right, left
	}
	deep := into.Mul(j.Shower.DepthMM)
	return [4]plan.Point{left, right, right.Add(deep), left.Add(deep)}
}

func (v *validator) drainAndWaste(j Job) {
	d := j.Drain
	if d.CoverGreatestMM < d.CoverLeastMM {
		v.add("drain.coverGreatestMM", "must not be less than the lowest setting")
	}
	if d.TrapDepthMM < d.OutletInvertDepthMM {
		v.add("drain.trapDepthMM", "the outlet's invert cannot lie below the underside of the trap")
	}
	if turn := AngleDeg(d.OutletTurnDeg) / 90; turn != math.Trunc(turn) {
		v.add("drain.outletTurnDeg", "must be a quarter turn: 0, 90, 180 or 270")
	}
	if d.ForwardMM != nil {
		v.within("drain.forwardMM", *d.ForwardMM, 0, farthestMM, unit.Length)
	}
	if len(d.CapacityCurve) > 20 {
		v.add("drain.capacityCurve", "at most 20 points")
	}
	for i, p := range d.CapacityCurve {
		path := fmt.Sprintf("drain.capacityCurve[%d]", i)
		v.within(path+".headMM", p.HeadMM, 0, 500, unit.Length)
		v.within(path+".flowLPS", p.FlowLPS, 0, 20, unit.Flow)
		if i > 0 && (p.HeadMM <= d.CapacityCurve[i-1].HeadMM || p.FlowLPS < d.CapacityCurve[i-1].FlowLPS) {
			v.add(path, "must have more water than the point before it, and carry no less")
		}
	}
	w := j.Waste
	if w.BoreMM >= w.OutsideDiameterMM {
		v.add("waste.boreMM", "must be less than the outside diameter")
	}
	checkEnum(v, "waste.exit.kind", w.Exit.Kind, ExitKinds())
	if mm, ok := w.Exit.Level.InvertMM(); ok {
		v.within("waste.exit.level.invertMM", mm, -20000, 5000, unit.Length)
	}
	n := len(j.Room.Outline)
	if w.Exit.Kind == ExitWall {
		if w.Exit.Wall < 0 || w.Exit.Wall >= n {
			v.add("waste.exit.wall", "there is no wall %d", w.Exit.Wall+1)
		} else if length := j.Room.Outline[(w.Exit.Wall+1)%n].Sub(j.Room.Outline[w.Exit.Wall]).Len(); w.Exit.OffsetMM > length {
			v.add("waste.exit.offsetMM", "the wall is only %s long", unit.Format(length, unit.Length, v.units))
		}
	} else {
		v.point("waste.exit.at", w.Exit.At)
	}
	if len(w.Waypoints) > mostItems {
		v.add("waste.waypoints", "at most %d", mostItems)
	}
	for i, p := range w.Waypoints {
		v.point(fmt.Sprintf("waste.waypoints[%d]", i), p)
	}
	if len(w.Fittings) > 20 {
		v.add("waste.fittings", "at most 20")
	}
	for i, f := range w.Fittings {
		path := fmt.Sprintf("waste.fittings[%d]", i)
		checkEnum(v, path+".kind", f.Kind, FittingKinds())
		v.within(path+".atMM", f.AtMM, 0, farthestMM, unit.Length)
		v.within(path+".lengthMM", f.LengthMM, 1, 2000, unit.Length)
		if f.Kind == FittingReducer {
			v.within(path+".nominalMM", f.NominalMM, 20, 200, unit.Length)
			v.within(path+".outsideDiameterMM", f.OutsideDiameterMM, 20, 250, unit.Length)
			if v.within(path+".boreMM", f.BoreMM, 10, 240, unit.Length) && f.BoreMM >= f.OutsideDiameterMM {
				v.add(path+".boreMM", "must be less than the outside diameter")
			}
		} else {
			v.within(path+".slope", f.Slope, 0, 1, unit.Slope)
		}
	}
	v.drainInShower(j)
}

// drainInShower checks that the drain's body lies in the floor it drains.
func (v *validator) drainInShower(j Job) {
	if len(v.problems) > 0 {
		return
	}
	s, d := j.Shower, j.Drain
	width, depth := s.WidthMM, s.DepthMM
	if j.Former.Fall == FallLeft || j.Former.Fall == FallRight {
		width, depth = depth, width
	}
	length := d.LengthMM
	if !linear(j) {
		length = d.WidthMM
	}
	if spare := (width-length)/2 - math.Abs(d.OffsetMM); spare < -plan.HairMM {
		v.add("drain.offsetMM", "the drain does not fit the side it stands at, which is %s long", unit.Format(width, unit.Length, v.units))
	}
	if atWall(j) && d.WallClearanceMM+d.WidthMM >= depth {
		v.add("drain.wallClearanceMM", "the drain reaches past the shower area")
	}
	if !atWall(j) && d.ForwardMM != nil && (*d.ForwardMM < d.WidthMM/2 || *d.ForwardMM > depth-d.WidthMM/2) {
		v.add("drain.forwardMM", "the drain lies outside the shower area")
	}
	if linear(j) && math.Abs(d.TrapOffsetMM) > (d.LengthMM-math.Min(d.TrapSizeMM, d.LengthMM))/2+plan.HairMM {
		v.add("drain.trapOffsetMM", "the trap does not fit under the drain")
	}
}
