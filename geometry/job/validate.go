package job

import (
	"fmt"
	"math"
	"strings"

	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/source"
)

// Limits that keep arithmetic and drawing sane, far beyond any bathroom.
const (
	farthestMM   = 50000
	leastCorners = 3
	mostCorners  = 64
	mostItems    = 200
	mostFlows    = 10
	mostCurve    = part.MostPoints
	mostFittings = 20
	mostScreens  = 12
	mostStates   = 1_000_000 // far more than anybody saves
	mostBoards   = part.MostBoards
	mostBoardMM  = 300
	mostSupports = 200
	mostFlowLPS  = 20
	mostHeadMM   = 500
	// mostReadingMM is how far a reading or a level as built can lie from the datum, mostOffMM how far off one can be.
	mostReadingMM = 500
	mostBuiltMM   = 2000
	mostOffMM     = 100
	leastWallMM   = 100
	leastFloorMM2 = 100 * 100
)

// Validate lists everything that stops the job from being evaluated; nil when it
// is sound.
func (j Job) Validate() Problems {
	v := &validator{}
	if j.Version != Version {
		v.add("version", "problem.version", message.No("version", j.Version), message.No("known", Version))
	}
	if j.State < 0 || j.State > mostStates {
		v.add("state", "problem.state", message.No("is", j.State), message.No("most", mostStates))
	}
	checkEnum(v, "units", j.Units, UnitSystems())
	v.text("name", j.Name, mostNameRunes, false)
	v.text("notes", j.Notes, mostNotesRunes, true)
	if strings.TrimSpace(j.Region) == "" {
		v.add("region", "problem.no-country")
	}
	if j.Edition != "" && !source.IsEdition(j.Edition) {
		v.add("edition", "problem.edition", message.Name("value", j.Edition))
	}
	in := &j
	for p := range EachParameter {
		// An unused number may be anything that can be kept in a file.
		x := *p.field(in)
		if math.IsNaN(x) || math.IsInf(x, 0) {
			v.add(p.Key, "problem.not-a-number")
		} else if p.Uses(j) {
			if wrong := p.Check(x); !wrong.IsZero() {
				v.problems = append(v.problems, Problem{Key: p.Key, What: wrong})
			}
		}
	}
	v.lists(in)
	v.standings(in)
	v.tape(&in.Room)
	v.laser(in)
	v.room(j.Room)
	v.floor(j)
	v.shower(j)
	v.stacks(j)
	v.drainAndWaste(j)
	v.finishes(in)
	for _, m := range j.AsBuilt.Levels() {
		if *m.MM != nil {
			v.within(BuiltKey(m.Field), **m.MM, -mostBuiltMM, mostBuiltMM)
		}
	}
	for _, p := range j.Chosen() {
		for _, wrong := range p.Check() {
			v.add("parts", "problem.part", message.In("part", part.Name(p)), message.Name("field", wrong.Field), message.In("what", wrong.What))
		}
	}
	checkEnum(v, "style.metal", j.Style.Metal, MetalKinds())
	checkEnum(v, "style.cover", j.Style.Cover, CoverKinds())
	v.picture(j.Picture)
	v.atMost("water.showerFlowsLPS", len(j.Water.ShowerFlowsLPS), mostFlows)
	for i, f := range j.Water.ShowerFlowsLPS {
		v.within(fmt.Sprintf("water.showerFlowsLPS[%d]", i), f, 0, mostFlowLPS)
	}
	for i := range v.problems {
		v.problems[i].In = &j
	}
	return v.problems
}

// finishes checks how the floors' and the walls' finishes look.
func (v *validator) finishes(j *Job) {
	for _, f := range []struct {
		key    string
		finish Finish
	}{{"layers.shower", j.Layers.Shower}, {"layers.room", j.Layers.Room}, {"layers.wall", j.Layers.Wall}} {
		if _, ok := material.ParseColour(f.finish.Colour); !ok {
			v.add(f.key+".colour", "problem.no-colour", message.Name("value", f.finish.Colour))
		}
		if _, ok := material.ParseColour(f.finish.GroutColour); !ok && f.finish.GroutColour != "" {
			v.add(f.key+".groutColour", "problem.no-colour", message.Name("value", f.finish.GroutColour))
		}
		checkEnum(v, f.key+".bond", f.finish.Bond, Bonds())
		checkEnum(v, f.key+".surface", f.finish.Surface, Surfaces())
		checkEnum(v, f.key+".sheen", f.finish.Sheen, Sheens())
	}
}

type validator struct {
	problems Problems
	from     message.Letter // of the wall that joists are counted from
}

func (v *validator) add(key string, id message.ID, args ...message.Arg) {
	v.problems = append(v.problems, Problem{Key: key, What: message.Of(id, args...)})
}

// atMost checks how many of something there are.
func (v *validator) atMost(key string, n, most int) bool {
	if n > most {
		v.add(key, "problem.too-many", message.No("most", most), message.No("is", n))
		return false
	}
	return true
}

// noWall says that a room has no such wall as is chosen.
func (v *validator) noWall(key string, r *Room) {
	v.add(key, "problem.no-wall", message.No("walls", len(r.Outline)), message.Wall("last", r.LastLetter()))
}

// longest is the greatest whole length that fits into one.
func longest(name string, mm float64) message.Arg {
	return message.Along(name, math.Floor(mm+plan.HairMM))
}

func (v *validator) within(key string, x, least, greatest float64) bool {
	if math.IsNaN(x) || x < least || x > greatest {
		v.problems = append(v.problems, Problem{Key: key, What: between(least, greatest, KindOf(key))})
		return false
	}
	return true
}

func (v *validator) point(key string, p plan.Point) bool {
	return v.within(key+"[0]", p.X(), -farthestMM, farthestMM) &&
		v.within(key+"[1]", p.Y(), -farthestMM, farthestMM)
}

func (v *validator) room(r Room) {
	checkEnum(v, "room.edge", r.Edge, EdgeKinds())
	n := len(r.Outline)
	if n < leastCorners || n > mostCorners {
		v.add("room.outline", "problem.corners", message.No("least", leastCorners), message.No("most", mostCorners), message.No("is", n))
		return
	}
	sound := true
	for i, p := range r.Outline {
		sound = v.point(fmt.Sprintf("room.outline[%d]", i), p) && sound
	}
	if sound {
		for i := range n {
			if r.Outline[i].Sub(r.Outline[(i+1)%n]).Len() < 1 {
				v.add(fmt.Sprintf("room.outline[%d]", i), "problem.corner-twice", message.AtCorner("next", r.Corner((i+1)%n)))
				sound = false
			}
		}
	}
	if sound {
		if a, b, bad := plan.Ring(r.Outline).CrossingEdges(); bad {
			v.add("room.outline", "problem.walls-cross", r.Wall("wall", a), r.Wall("other", b))
			sound = false
		} else if math.Abs(plan.Ring(r.Outline).SignedArea()) < leastFloorMM2 {
			v.add("room.outline", "problem.no-floor")
		}
	}
	if len(r.Walls) != n {
		v.add("room.walls", "problem.walls-and-sides", message.No("sides", n), message.No("is", len(r.Walls)))
		return
	}
	for i, w := range r.Walls {
		key := fmt.Sprintf("room.walls[%d]", i)
		if w.Kind == WallCavity && w.InnerLeafMM > 0 && w.CavityMM > 0 && w.InnerLeafMM+w.CavityMM >= w.ThicknessMM {
			v.add(key+".cavityMM", "problem.no-outer-leaf", message.MM("wall", w.ThicknessMM))
		}
	}
	if sound && len(r.Doorways) <= mostItems {
		v.doorways(r)
		v.windows(r)
		v.fixtures(r)
	}
}

func (v *validator) floor(j Job) {
	checkEnum(v, "floor.kind", j.Floor.Kind, FloorKinds())
	if timber(j) {
		js := j.Floor.Joists
		if js.WidthMM >= js.SpacingMM {
			v.add("floor.joists.spacingMM", "problem.joists-touch", message.MM("width", js.WidthMM))
		}
		if n := len(js.SupportsMM); n == 1 || n > mostItems {
			v.add("floor.joists.supportsMM", "problem.one-support", message.No("most", mostItems))
		}
		for i, s := range js.SupportsMM {
			v.within(fmt.Sprintf("floor.joists.supportsMM[%d]", i), s, -farthestMM, farthestMM)
			if i > 0 && s <= js.SupportsMM[i-1] {
				v.add(fmt.Sprintf("floor.joists.supportsMM[%d]", i), "problem.support-order", message.Along("before", js.SupportsMM[i-1]))
			}
		}
		// Where joists lie can only be told of a room and of joists that are sound.
		if len(v.problems) == 0 {
			v.trims(j)
		}
	}
	if slab(j) && j.Floor.SetDownMM >= j.Floor.SlabThicknessMM {
		v.add("floor.setDownMM", "problem.set-down-too-deep", message.MM("slab", j.Floor.SlabThicknessMM))
	}
	checkEnum(v, ReadOnKey, j.Floor.ReadsOn(), ReadOns())
	if !v.atMost("spotLevels", len(j.SpotLevels), mostItems) {
		return
	}
	for i, s := range j.SpotLevels {
		key := fmt.Sprintf("spotLevels[%d]", i)
		v.point(key+".at", s.At)
		v.within(key+".levelMM", s.LevelMM, -mostReadingMM, mostReadingMM)
		v.within(key+".toleranceMM", s.ToleranceMM, 0, mostOffMM)
	}
}

func (v *validator) shower(j Job) {
	checkEnum(v, "former.fall", j.Former.Fall, FallKinds())
	checkEnum(v, "former.ends", j.Former.Ends, EndsKinds())
	checkEnum(v, "base.support", j.Base.Support, SupportKinds())
	checkEnum(v, "base.height", j.Base.Height, HeightModes())
	if j.Base.Support == BetweenJoists && !timber(j) {
		v.add("base.support", "problem.let-into-slab")
	}
	v.atMost("base.boardsMM", len(j.Base.BoardsMM), mostBoards)
	for i, b := range j.Base.BoardsMM {
		key := fmt.Sprintf("base.boardsMM[%d]", i)
		if v.within(key, b, 1, mostBoardMM) && i > 0 && b <= j.Base.BoardsMM[i-1] {
			v.add(key, "part.problem.thickness-order", message.Fine("before", j.Base.BoardsMM[i-1]))
		}
	}
	if stacked(j) && j.Base.BetweenGreatestMM < j.Base.BetweenLeastMM {
		v.add("base.betweenGreatestMM", "problem.bed-between", message.Layer("least", j.Base.BetweenLeastMM))
	}
	if j.Base.CutAtStartMM != nil {
		v.within("base.cutAtStartMM", *j.Base.CutAtStartMM, 0, 5000)
	}
	n := len(j.Room.Outline)
	if j.Shower.Wall < 0 || j.Shower.Wall >= n {
		v.noWall("shower.wall", &j.Room)
		return
	}
	if len(v.problems) > 0 {
		return
	}
	room := plan.FromRing(j.Room.Outline)
	if !j.ShowerInRoom() {
		v.problems = append(v.problems, Problem{Key: "shower", What: j.sticksOut()})
	}
	if h := j.Shower.Head; h != nil && !room.Contains(h.At, plan.HairMM) {
		v.add("shower.head.at", "problem.head-outside")
	}
}

// ShowerInRoom tells whether the shower of a job with a sound room lies in it.
func (j Job) ShowerInRoom() bool {
	const trifleMM2 = 100
	corners := j.ShowerCorners()
	area := plan.FromRing(corners[:])
	return area.Area()-plan.SharedArea(area, plan.FromRing(j.Room.Outline)) <= trifleMM2
}

// sticksOut says how a shower that does not lie in its room leaves it.
func (j Job) sticksOut() message.Message {
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
		return message.Of("problem.shower-out-between-corners")
	}
	corner := [4]message.ID{"corner.back-left", "corner.back-right", "corner.front-right", "corner.front-left"}[which]
	return message.Of("problem.shower-out", message.Along("by", math.Ceil(worst)), message.In("corner", message.Of(corner)))
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
		v.add("drain.coverGreatestMM", "problem.cover-settings", message.MM("lowest", d.CoverLeastMM))
	}
	if d.TrapDepthMM < d.OutletInvertDepthMM {
		v.add("drain.trapDepthMM", "problem.outlet-below-trap", message.MM("outlet", d.OutletInvertDepthMM))
	}
	if turn := AngleDeg(d.OutletTurnDeg) / 90; turn != math.Trunc(turn) {
		v.add("drain.outletTurnDeg", "problem.quarter-turn")
	}
	if d.ForwardMM != nil {
		v.within("drain.forwardMM", *d.ForwardMM, 0, farthestMM)
	}
	if linear(j) && d.LengthMM > 0 {
		v.within("drain.lengthMM", d.LengthMM, shortestDrainMM, longestDrainMM)
	}
	v.atMost("drain.soldLengthsMM", len(d.SoldLengthsMM), mostCurve)
	for i, mm := range d.SoldLengthsMM {
		key := fmt.Sprintf("drain.soldLengthsMM[%d]", i)
		if v.within(key, mm, shortestDrainMM, longestDrainMM) && i > 0 && mm <= d.SoldLengthsMM[i-1] {
			v.add(key, "problem.length-order", message.MM("before", d.SoldLengthsMM[i-1]))
		}
	}
	v.atMost("drain.capacityCurve", len(d.CapacityCurve), mostCurve)
	for i, p := range d.CapacityCurve {
		key := fmt.Sprintf("drain.capacityCurve[%d]", i)
		v.within(key+".headMM", p.HeadMM, 0, mostHeadMM)
		v.within(key+".flowLPS", p.FlowLPS, 0, mostFlowLPS)
		if i > 0 && (p.HeadMM <= d.CapacityCurve[i-1].HeadMM || p.FlowLPS < d.CapacityCurve[i-1].FlowLPS) {
			v.add(key, "problem.trap-data-order")
		}
	}
	w := j.Waste
	if w.BoreMM >= w.OutsideDiameterMM {
		v.add("waste.boreMM", "problem.bore", message.Fine("outside", w.OutsideDiameterMM))
	}
	v.socket("waste.", w.Pipe)
	checkEnum(v, "waste.exit.kind", w.Exit.Kind, ExitKinds())
	if mm, ok := w.Exit.Level.InvertMM(); ok {
		v.within("waste.exit.level.invertMM", mm, -20000, 5000)
	}
	if w.Exit.Kind == ExitWall {
		if w.Exit.Wall < 0 || w.Exit.Wall >= len(j.Room.Outline) {
			v.noWall("waste.exit.wall", &j.Room)
		} else if length := j.Room.WallLengthMM(w.Exit.Wall); w.Exit.OffsetMM > length {
			v.add("waste.exit.offsetMM", "problem.exit-past-wall", longest("length", length))
		}
	} else if w.Exit.Kind != ExitStack {
		v.point("waste.exit.at", w.Exit.At)
	}
	v.atMost("waste.waypoints", len(w.Waypoints), mostItems)
	for i, p := range w.Waypoints {
		v.point(fmt.Sprintf("waste.waypoints[%d]", i), p)
	}
	for i, f := range w.Fittings {
		if key := fmt.Sprintf("waste.fittings[%d].", i); f.sized() {
			if f.BoreMM >= f.OutsideDiameterMM {
				v.add(key+"boreMM", "problem.bore", message.Fine("outside", f.OutsideDiameterMM))
			}
			v.socket(key, f.Pipe)
		}
	}
	v.drainInShower(j)
}

// widestSocket is how wide a socket or nut may be, in diameters of its pipe. Common
// practice, no source.
const widestSocket = 2

// socket checks that a socket is no thicker than bends take. One narrower than its pipe
// counts as none.
func (v *validator) socket(key string, p part.Pipe) {
	v.within(key+"socketOutsideMM", p.SocketOutsideMM, 0, widestSocket*p.OutsideDiameterMM)
}

// drainInShower checks that the drain's body lies in the floor it drains.
func (v *validator) drainInShower(j Job) {
	if len(v.problems) > 0 {
		return
	}
	d := j.Drain
	width, depth := j.drainSideMM()
	length := j.DrainLengthMM()
	if spare := (width-length)/2 - math.Abs(d.OffsetMM); spare < -plan.HairMM {
		v.add("drain.offsetMM", "problem.drain-past-side", message.MM("drain", length), longest("side", width))
	}
	if atWall(j) && d.WallClearanceMM+d.WidthMM >= depth {
		v.add("drain.wallClearanceMM", "problem.drain-past-shower", longest("depth", depth))
	}
	if !atWall(j) && d.ForwardMM != nil && (*d.ForwardMM < d.WidthMM/2 || *d.ForwardMM > depth-d.WidthMM/2) {
		v.add("drain.forwardMM", "problem.drain-outside", message.Along("least", d.WidthMM/2), message.Along("greatest", depth-d.WidthMM/2))
	}
	if most := (length - math.Min(d.TrapSizeMM, length)) / 2; linear(j) && math.Abs(d.TrapOffsetMM) > most+plan.HairMM {
		v.add("drain.trapOffsetMM", "problem.trap-off-drain", longest("most", most))
	}
}
