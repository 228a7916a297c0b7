// Package layout says where everything in a job is in plan: the shower and its
// edges, the drain, the trap and its outlet, walls, doorways and joists, and
// the shape of the fall. Heights are not decided here.
package layout

import (
	"math"
	"reflect"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Side names a side of the shower as seen facing its back wall.
type Side string

// The four sides.
const (
	Back  Side = "back"
	Right Side = "right"
	Front Side = "front"
	Left  Side = "left"
)

// sides are the four in the order of the shower's corners that they begin at.
func sides() [4]Side { return [...]Side{Back, Right, Front, Left} }

// first is the corner of the shower that the side begins at.
func (s Side) first() int {
	all := sides()
	return slices.Index(all[:], s)
}

// Edge names the side's edge.
func (s Side) Edge() message.Message {
	switch s {
	case Back:
		return message.Of("edge.back")
	case Right:
		return message.Of("edge.right")
	case Front:
		return message.Of("edge.front")
	}
	return message.Of("edge.left")
}

// At says where something at the side's edge is: at the back edge.
func (s Side) At() message.ID {
	switch s {
	case Back:
		return "edge.at-back"
	case Right:
		return "edge.at-right"
	case Front:
		return "edge.at-front"
	}
	return "edge.at-left"
}

// DrainSide is the side a drain stands at; none where the fall is to the middle or
// to a point.
func DrainSide(k job.FallKind) (side Side, ok bool) {
	switch k {
	case job.FallBack:
		return Back, true
	case job.FallRight:
		return Right, true
	case job.FallFront:
		return Front, true
	case job.FallLeft:
		return Left, true
	}
	return "", false
}

// Edge is a stretch of one side of the shower; Wall is the wall it stands
// against, or -1 for an open edge.
type Edge struct {
	Side Side
	A, B plan.Point
	Wall int
	// Creases are the places between the ends of an open edge where the falling floor's
	// planes meet, or one meets the level of the drain.
	Creases []plan.Point
}

// LengthMM of the stretch.
func (e Edge) LengthMM() float64 { return e.B.Sub(e.A).Len() }

// Middle of the stretch.
func (e Edge) Middle() plan.Point { return e.A.Add(e.B).Mul(0.5) }

// Wall is one side of the room in plan: its inner face runs from A along
// Along for LengthMM; Outward points out of the room.
type Wall struct {
	Index          int
	Letter         message.Letter
	Called         string // what people call it beside its letter; empty for no more than that
	A, B           plan.Point
	Along, Outward plan.Point
	LengthMM       float64
	ThicknessMM    float64
	// The outer face runs between these distances along the wall.
	OuterFromMM, OuterToMM float64
}

// Name is what the wall is called in a text.
func (w *Wall) Name() message.Arg { return message.WallCalled("wall", w.Letter, w.Called) }

// Doorway is an opening in plan.
type Doorway struct {
	Index int
	Wall  Wall
	A, B  plan.Point
	// Sweep is the floor the leaf passes over inside the room; nil when it
	// opens outwards or into the wall, or has no leaf.
	Sweep plan.Region
	// SweepFall and SweepRoom are its parts over the falling floor and beside it.
	SweepFall, SweepRoom plan.Region
}

// Middle of the opening on the inner wall face.
func (d Doorway) Middle() plan.Point { return d.A.Add(d.B).Mul(0.5) }

// FallPlane is one falling plane of the floor, with its level relative to the
// drain.
type FallPlane struct {
	solid.Plane
	Region plan.Region
	// End tells that it falls to an end of a linear drain.
	End bool
}

// Layout is everything in plan.
type Layout struct {
	Room    plan.Region
	Walls   []Wall
	Doors   []Doorway
	Corners [4]plan.Point // back left, back right, front right, front left
	Shower  plan.Region
	Edges   []Edge
	open    []Edge
	// Screens stand along open edges; Kerb is the floor that one along them takes.
	Screens []Screen
	Kerb    plan.Region
	// Studs stand in the stud walls.
	Studs []Stud
	// Ramps are the floors that ramps outside the open edges may take.
	Ramps     []RampFloor
	rampLines []rampLine
	// walked tells by open edge whether there is room to walk over it.
	walked []bool
	// ToRight and Into are the shower's own directions.
	ToRight, Into plan.Point
	// FallArea is the floor the former covers.
	FallArea plan.Region
	// Rest is the room's floor beside it.
	Rest plan.Region
	// Untanked is the part of it that the tanking does not reach as stated.
	Untanked plan.Region
	// Heated is where a heating mat lies.
	Heated plan.Region
	// Fall is the shape of the falling surface with level zero at the drain.
	Fall solid.Surface
	// OpenFloor is the fall area without the drain; Planes are its parts that
	// fall, each carried by one plane. Level is the rest of it: what lies level with
	// the drain, such as the strip behind one at a wall.
	OpenFloor plan.Region
	Planes    []FallPlane
	Level     plan.Region

	DrainCentre plan.Point
	DrainAlong  plan.Point // along a linear drain; ToRight for a point drain
	Drain       plan.Region
	// DrainEdge is the middle of the drain's edge on the room side.
	DrainEdge  plan.Point
	TrapCentre plan.Point
	Trap       plan.Region
	Outlet     plan.Point // on the face of the trap
	OutletTo   plan.Point

	Stacks []Stack
	// Fixtures are what stands or hangs in the room, in plan; in the order of the job.
	Fixtures []plan.Ring
	// Ceiling are the planes that the room lies under, the level one first; the ceiling
	// is the lowest.
	Ceiling []solid.Plane

	// JoistsFrom is the letter of the wall that joists are counted from; none without joists.
	JoistsFrom message.Letter
	// Joists are the joists, then what trims the openings cut out of them: all timber of
	// the floor that is as deep as they are.
	Joists []Joist
	// CutOuts are the openings for which joists are cut.
	CutOuts []CutOut
	// Deck is the deck that is left beside a base let in between joists, in
	// convex parts; nil where none is cut out.
	Deck []plan.Ring
	// SupportsMM are distances along the joists from JoistOrigin.
	SupportsMM  []float64
	JoistOrigin plan.Point
	JoistAlong  plan.Point
}

// Of works out the plan of a valid job. Where the shaper fails the layout is
// incomplete and must not be used.
func Of(j job.Job, sh *plan.Shaper) Layout {
	l := Layout{Room: plan.FromRing(j.Room.Outline), Corners: j.ShowerCorners()}
	l.walls(j)
	l.ceiling(j)
	l.doors(j, sh)
	l.studs(j)
	c := l.Corners
	l.ToRight = c[1].Sub(c[0]).Normalize()
	l.Into = c[3].Sub(c[0]).Normalize()
	l.edges(j)
	l.Shower = sh.Intersect(plan.FromRing(l.upToWalls()), l.Room, message.Of("shape.shower"))
	l.drain(j)
	l.fall(j, sh)
	l.joists(j)
	for _, f := range j.Room.Fixtures {
		l.Fixtures = append(l.Fixtures, j.Room.Footprint(f))
	}
	for _, s := range j.Room.Stacks {
		l.Stacks = append(l.Stacks, Stack{s.At, s.OutsideMM / 2})
	}
	l.Rest = sh.Subtract(l.Room, l.FallArea, message.Of("shape.room-floor"))
	if j.Base.Support == job.BetweenJoists {
		for _, t := range solid.Cover(sh, l.Rest, message.Of("shape.deck-beside-shower")).Triangles() {
			l.Deck = append(l.Deck, t[:])
		}
	}
	for i := range l.Doors {
		if d := &l.Doors[i]; len(d.Sweep) > 0 {
			what := sweep(i)
			d.SweepFall, d.SweepRoom = sh.Intersect(d.Sweep, l.FallArea, what), sh.Subtract(d.Sweep, l.FallArea, what)
		}
	}
	for i := range l.Edges {
		if e := &l.Edges[i]; e.Wall < 0 {
			e.Creases = l.creasesAlong(e.A, e.B)
			l.open = append(l.open, *e)
		}
	}
	l.screens(j)
	l.kerb(j, sh)
	l.walked = l.walkedEdges()
	l.ramps(j, sh)
	l.untanked(j, sh)
	l.heated(j, sh)
	return l
}

// Same tells whether two jobs have the same layout, since they differ in nothing
// that Of reads. What it does not know counts as read.
func Same(a, b job.Job) bool { return reflect.DeepEqual(read(a), read(b)) }

// read is a job without what Of does not read.
func read(j job.Job) job.Job {
	j.Version, j.Name, j.Notes, j.Region, j.Edition, j.Units, j.Accessible, j.Standings = 0, "", "", "", "", "", false, nil
	beyond, all := j.TankedBeyondMM()
	showerHeated, roomHeated := j.Heated()
	heating := j.Layers.Heating
	j.State, j.Laser, j.Room.Tape, j.Picture = 0, job.Laser{}, job.Tape{}, nil
	j.SpotLevels, j.Layers, j.Water, j.Tolerances, j.AsBuilt, j.Style = nil, job.Layers{}, job.Water{}, job.Tolerances{}, job.AsBuilt{}, job.Style{}
	if !all {
		j.Layers.Tanking = &job.Tanking{BeyondMM: &beyond}
	}
	mat := []job.Course{{Kind: job.CourseHeating}}
	if showerHeated {
		j.Layers.Shower.Under = mat
	}
	if roomHeated {
		j.Layers.Room.Under = mat
	}
	if showerHeated || roomHeated {
		j.Layers.Heating = heating
	}
	j.Waste, j.Room.North, j.Room.PipeEnds = job.Waste{}, nil, nil
	j.Base = job.Base{Support: j.Base.Support}
	j.Former.ThicknessAtDrainMM, j.Former.BedMM, j.Former.LongestMM, j.Former.WidestMM = 0, 0, 0, 0
	j.Floor.Joists.Timber, j.Parts, j.Shower.Head = nil, job.Parts{}, nil
	j.Floor.SetDownMM, j.Floor.Existing, j.Floor.ReadOn = 0, nil, ""
	j.Room.RampRunMM = 0
	d := &j.Drain
	d.ChannelDepthMM, d.TrapDepthMM, d.WeirDepthMM, d.SealMM, d.PassageMM, d.BedUnderMM = 0, 0, 0, 0, 0, 0
	d.OutletInvertDepthMM, d.OutletNominalMM, d.OutletJointMM, d.OutletJointOutsideMM = 0, 0, 0, 0
	d.CapacityLPS, d.CapacityHeadMM, d.CapacityCurve = 0, 0, nil
	d.CoverLeastMM, d.CoverGreatestMM, d.LeastFormerMM = 0, 0, 0
	return j
}

// untanked finds what lies farther from the open edges than the tanking reaches.
func (l *Layout) untanked(j job.Job, sh *plan.Shaper) {
	beyond, all := j.TankedBeyondMM()
	if all {
		return
	}
	l.Untanked = l.Rest
	for _, e := range l.open {
		if beyond == 0 {
			break
		}
		along, out := e.B.Sub(e.A).Normalize().Mul(beyond), l.Outward(e).Mul(beyond)
		a, b := e.A.Sub(along), e.B.Add(along)
		l.Untanked = sh.Subtract(l.Untanked, plan.Strip(a, b, out), message.Of("shape.untanked"))
	}
}

// Outward is the direction out of the shower across an edge.
func (l Layout) Outward(e Edge) plan.Point {
	switch e.Side {
	case Back:
		return l.Into.Mul(-1)
	case Right:
		return l.ToRight
	case Front:
		return l.Into
	}
	return l.ToRight.Mul(-1)
}

// WithSlope is the layout with the former's slope changed from one value to
// another: the falling planes keep their places and turn about the drain.
func (l Layout) WithSlope(from, to float64) Layout {
	if from <= 0 || from == to {
		return l
	}
	turn := func(p solid.Plane) solid.Plane {
		return solid.Plane{Level: p.Level * to / from, SlopeX: p.SlopeX * to / from, SlopeY: p.SlopeY * to / from}
	}
	surface, planes := make(solid.Surface, len(l.Fall)), make([]FallPlane, len(l.Planes))
	for i, p := range l.Fall {
		surface[i] = turn(p)
	}
	for i, p := range l.Planes {
		planes[i] = FallPlane{turn(p.Plane), p.Region, p.End}
	}
	l.Fall, l.Planes = surface, planes
	return l
}

func (l *Layout) walls(j job.Job) {
	outline := j.Room.Outline
	n := len(outline)
	turn := 1.0
	if plan.Ring(outline).SignedArea() < 0 {
		turn = -1
	}
	l.Walls = make([]Wall, n)
	for i := range n {
		a, b := outline[i], outline[(i+1)%n]
		along := b.Sub(a).Normalize()
		l.Walls[i] = Wall{Index: i, Letter: j.Room.Letter(i), Called: j.Room.Walls[i].Name, A: a, B: b, Along: along, Outward: plan.Left(along).Mul(-turn),
			LengthMM: b.Sub(a).Len(), ThicknessMM: j.Room.Walls[i].ThicknessMM}
	}
	for i := range n {
		w := &l.Walls[i]
		prev, next := l.Walls[(i+n-1)%n], l.Walls[(i+1)%n]
		w.OuterFromMM = w.outerMeets(prev, 0)
		w.OuterToMM = w.outerMeets(next, w.LengthMM)
	}
}

// outerMeets is the distance along w at which its outer face meets that of a
// neighbour, kept within one and a half thicknesses of the corner so that
// sharp corners do not make spikes.
func (w Wall) outerMeets(o Wall, corner float64) float64 {
	s, _, ok := plan.MeetLines(w.A.Add(w.Outward.Mul(w.ThicknessMM)), w.Along, o.A.Add(o.Outward.Mul(o.ThicknessMM)), o.Along)
	if !ok {
		return corner
	}
	reach := 1.5 * math.Max(w.ThicknessMM, o.ThicknessMM)
	return math.Max(corner-reach, math.Min(corner+reach, s))
}

// At is the point of the inner face at a distance along the wall.
func (w Wall) At(alongMM float64) plan.Point { return w.A.Add(w.Along.Mul(alongMM)) }

// Footprint of the wall in plan.
func (w Wall) Footprint() plan.Region {
	out := w.Outward.Mul(w.ThicknessMM)
	return plan.FromRing(plan.Ring{w.A, w.B, w.At(w.OuterToMM).Add(out), w.At(w.OuterFromMM).Add(out)})
}

// sweep names the floor that a doorway's leaf passes over.
func sweep(doorway int) message.Message {
	return message.Of("shape.door-sweep", message.No("doorway", doorway+1))
}

func (l *Layout) doors(j job.Job, sh *plan.Shaper) {
	for i, d := range j.Room.Doorways {
		w := l.Walls[d.Wall]
		door := Doorway{Index: i, Wall: w, A: w.At(d.OffsetMM), B: w.At(d.OffsetMM + d.WidthMM)}
		if d.Leaf == job.LeafIn {
			hinge, free := door.A, door.B
			if !d.HingeAtStart {
				hinge, free = door.B, door.A
			}
			door.Sweep = sh.Intersect(plan.FromRing(quarter(hinge, free, w.Outward.Mul(-1))), l.Room, sweep(i))
		}
		if d.Leaf == job.LeafSlide {
			door.Sweep = sh.Intersect(slid(&w, d), l.Room, sweep(i))
		}
		l.Doors = append(l.Doors, door)
	}
}

// edges are the stretches of each side of the shower against walls and the open ones.
func (l *Layout) edges(j job.Job) {
	stretches := j.ShowerSides()
	for i, side := range sides() {
		a := l.Corners[i]
		along := l.Corners[(i+1)%4].Sub(a).Normalize()
		for _, s := range stretches[i] {
			l.Edges = append(l.Edges, Edge{Side: side, A: a.Add(along.Mul(s.FromMM)), B: a.Add(along.Mul(s.ToMM)), Wall: s.Wall})
		}
	}
}

// OpenEdges are the stretches of the shower's sides without a wall. They are
// the layout's own: not to be changed.
func (l Layout) OpenEdges() []Edge { return l.open }

// Direction turns an outlet direction, in degrees facing the back wall, into
// the model's plan.
func (l Layout) Direction(turnDeg float64) plan.Point {
	d := plan.DirectionDeg(turnDeg)
	return l.ToRight.Mul(d.X()).Sub(l.Into.Mul(d.Y()))
}

// rectangle about a centre with half sizes along two square directions.
func rectangle(centre, u, v plan.Point, halfU, halfV float64) plan.Region {
	a, b := u.Mul(halfU), v.Mul(halfV)
	return plan.FromRing(plan.Ring{centre.Sub(a).Sub(b), centre.Add(a).Sub(b), centre.Add(a).Add(b), centre.Sub(a).Add(b)})
}

// drainSide is the side of the shower a drain stands at, the back for one in the
// middle: its middle, the direction along it, the way from it into the shower, and
// how deep the shower is that way.
func (l Layout) drainSide(k job.FallKind) (middle, along, away plan.Point, depth float64) {
	c := l.Corners
	mid := func(a, b plan.Point) plan.Point { return a.Add(b).Mul(0.5) }
	width, deep := c[1].Sub(c[0]).Len(), c[3].Sub(c[0]).Len()
	switch k {
	case job.FallLeft:
		return mid(c[0], c[3]), l.Into, l.ToRight, width
	case job.FallRight:
		return mid(c[1], c[2]), l.Into, l.ToRight.Mul(-1), width
	case job.FallFront:
		return mid(c[2], c[3]), l.ToRight, l.Into.Mul(-1), deep
	}
	return mid(c[0], c[1]), l.ToRight, l.Into, deep
}

func (l *Layout) drain(j job.Job) {
	d := j.Drain
	middle, along, away, depth := l.drainSide(j.Former.Fall)
	l.DrainAlong = along
	halfWidth, halfLength := d.WidthMM/2, j.DrainLengthMM()/2
	trapHalf := d.TrapSizeMM / 2
	switch {
	case j.Former.Fall == job.FallMid || !j.Former.Fall.Linear():
		forward := depth / 2
		if d.ForwardMM != nil {
			forward = *d.ForwardMM
		}
		l.DrainCentre = middle.Add(away.Mul(forward)).Add(along.Mul(d.OffsetMM))
		l.TrapCentre = l.DrainCentre
	default:
		l.DrainCentre = middle.Add(away.Mul(d.WallClearanceMM + halfWidth)).Add(along.Mul(d.OffsetMM))
		// A trap wider than its channel stands out on the room side only: there
		// is no room behind a wall drain.
		l.TrapCentre = middle.Add(away.Mul(d.WallClearanceMM + math.Max(halfWidth, trapHalf))).Add(along.Mul(d.OffsetMM))
	}
	if j.Former.Fall.Linear() {
		l.TrapCentre = l.TrapCentre.Add(along.Mul(d.TrapOffsetMM))
	}
	l.Drain = rectangle(l.DrainCentre, along, away, halfLength, halfWidth)
	l.DrainEdge = l.DrainCentre.Add(away.Mul(halfWidth))
	l.Trap = rectangle(l.TrapCentre, along, away, trapHalf, trapHalf)
	l.OutletTo = l.Direction(d.OutletTurnDeg)
	l.Outlet = l.TrapCentre.Add(l.OutletTo.Mul(trapHalf))
}

func (l *Layout) fall(j job.Job, sh *plan.Shaper) {
	l.FallArea = l.Shower
	if j.Former.Fall == job.FallRoom {
		l.FallArea = l.Room
	}
	_, _, away, _ := l.drainSide(j.Former.Fall)
	halfWidth := j.Drain.WidthMM / 2
	ends := math.MaxInt // index of the first plane to an end
	// The floor at and behind the drain stays at the drain's level.
	l.Fall = solid.Level(0)
	switch k := j.Former.Fall; {
	case k == job.FallMid:
		for _, up := range []plan.Point{away, away.Mul(-1)} {
			l.Fall = append(l.Fall, solid.Through(l.DrainCentre.Add(up.Mul(halfWidth)), 0, up, j.Former.Slope))
		}
	case k.Linear():
		l.Fall = append(l.Fall, solid.Through(l.DrainEdge, 0, away, j.Former.Slope))
	default:
		l.Fall = append(l.Fall, l.toPoint(j.Former.Slope, halfWidth)...)
	}
	if j.Former.EndsFall() {
		ends = len(l.Fall)
		l.Fall = append(l.Fall, l.toEnds(j)...)
	}
	l.OpenFloor = sh.Subtract(l.FallArea, l.Drain, message.Of("shape.falling-floor"))
	for i, cell := range l.Fall.Cells(sh, l.OpenFloor, message.Of("shape.falling-planes")) {
		if i == 0 {
			l.Level = cell
		} else if len(cell) > 0 {
			l.Planes = append(l.Planes, FallPlane{l.Fall[i], cell, i >= ends})
		}
	}
}

// reachedMM is how far a drain may stay from its side and still reach it: a joint and a
// cut tile, no strip for a plane of its own. Common practice, no source.
const reachedMM = 40

// toEnds makes a plane for each end of a linear drain that does not reach the side of
// the shower there: level with it at the end, and rising on from there.
func (l Layout) toEnds(j job.Job) (s solid.Surface) {
	slope := j.Former.EndSlope
	if slope == 0 {
		slope = j.Former.Slope
	}
	halfMM := j.DrainLengthMM() / 2
	for _, way := range [2]plan.Point{l.DrainAlong.Mul(-1), l.DrainAlong} {
		end := l.DrainCentre.Add(way.Mul(halfMM))
		sideMM := math.Inf(-1)
		for _, c := range l.Corners {
			sideMM = math.Max(sideMM, c.Sub(end).Dot(way))
		}
		if sideMM > reachedMM {
			s = append(s, solid.Through(end, 0, way, slope))
		}
	}
	return s
}

// toPoint makes one plane for each side of the convex hull of the fall area,
// all level with each other along the hull and at the drain, so that they meet
// on hips. The longest plane has the given slope; shorter ones are steeper.
func (l Layout) toPoint(slope, halfWidth float64) solid.Surface {
	var corners []plan.Point
	for _, p := range l.FallArea {
		corners = append(corners, p.Outer...)
	}
	hull := l.fromBackLeft(plan.Hull(corners))
	type side struct {
		out plan.Point
		run float64
	}
	var sides []side
	longest := 0.0
	for i := range hull {
		a, b := hull[i], hull[(i+1)%len(hull)]
		if b.Sub(a).Len() < 1 {
			continue
		}
		out := plan.Left(b.Sub(a).Normalize()).Mul(-1)
		// A drain against the edge leaves no run; a millimetre keeps the plane
		// finite, and the fall is then reported as too steep.
		run := math.Max(1, a.Sub(l.DrainCentre).Dot(out)-halfWidth)
		sides = append(sides, side{out, run})
		longest = math.Max(longest, run)
	}
	var s solid.Surface
	for _, e := range sides {
		s = append(s, solid.Through(l.DrainCentre.Add(e.out.Mul(halfWidth)), 0, e.out, slope*longest/e.run))
	}
	return s
}

// fromBackLeft walks a ring from its corner nearest to the shower's back left,
// of two as near the one nearer to its back right, so that planes are counted
// the same wherever the room lies.
func (l Layout) fromBackLeft(r plan.Ring) plan.Ring {
	first := 0
	for i, p := range r {
		left := p.Sub(l.Corners[0]).Len() - r[first].Sub(l.Corners[0]).Len()
		right := p.Sub(l.Corners[1]).Len() - r[first].Sub(l.Corners[1]).Len()
		if left < -plan.HairMM || left < plan.HairMM && right < 0 {
			first = i
		}
	}
	return append(append(plan.Ring(nil), r[first:]...), r[:first]...)
}

// HighEnd is the highest corner of the main fall, without the planes to a drain's ends,
// and how far it lies over the drain.
func (l Layout) HighEnd() (at plan.Point, riseMM float64) {
	at = l.DrainEdge
	higher := func(p plan.Point) {
		if z := l.Fall.At(p); z > riseMM {
			at, riseMM = p, z
		}
	}
	ends := solid.Surface{}
	for _, p := range l.Planes {
		if p.End {
			ends = append(ends, p.Plane)
		}
	}
	onEnd := func(p plan.Point) bool { return len(ends) > 0 && ends.At(p) > l.Fall.At(p)-plan.HairMM }
	for _, poly := range l.FallArea {
		for _, p := range poly.Outer {
			if !onEnd(p) {
				higher(p)
			}
		}
	}
	if len(ends) > 0 {
		for _, c := range l.Creases() {
			higher(c.A)
		}
	}
	return at, riseMM
}

// Clear is how far a plan point is from the nearest wall face, and that wall.
func (l Layout) Clear(p plan.Point) (mm float64, wall Wall) {
	mm = math.Inf(1)
	for _, w := range l.Walls {
		if d := plan.DistanceToSegment(p, w.A, w.B); d < mm {
			mm, wall = d, w
		}
	}
	return mm, wall
}
