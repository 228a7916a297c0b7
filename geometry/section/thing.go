package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// ThingID tells a thing of the plan from all others.
type ThingID struct {
	Key string // path in the job's file of what it is
	// Number tells it from others of that path, counted from one; 0 for the only one.
	Number int
}

// Thing is something of the plan that can be chosen by itself.
type Thing struct {
	ThingID
	Name message.Message
	// Ring is its outline, or Path the line that it is; the other is nil.
	Ring plan.Ring
	Path []plan.Point
	At   plan.Point // in its middle, where it is taken hold of
	// Moves is what dragging it moves; zero for nothing.
	Moves edit.Handle
	// Along is the side of the shower that it is the edge of; empty for none.
	Along job.ShowerSide
}

// things of the plan are listed in the order in which one goes through them: the room, what is in its
// walls, what stands in it, the floor below, the shower, the drain and the waste.
func (d *Drawing) thingsOfPlan(r geometry.Result) {
	t := thingList{r: &r, d: d}
	t.room()
	t.openings()
	t.inRoom()
	t.floor()
	t.shower()
	t.waste()
}

type thingList struct {
	r *geometry.Result
	d *Drawing
}

func (t *thingList) job() *job.Job { return &t.r.Settled }

// add lists what a path leads to, by its name there.
func (t *thingList) add(key string, thing Thing) {
	thing.Key = key
	if thing.Name.IsZero() {
		thing.Name = t.job().PlaceOf(key)
	}
	t.d.Things = append(t.d.Things, thing)
}

// ringed is a thing with an outline.
func ringed(ring plan.Ring, moves edit.Handle) Thing {
	return Thing{Ring: ring, At: plan.FromRing(ring).Centroid(), Moves: moves}
}

// round is a thing that is as good as round.
func round(at plan.Point, radiusMM float64, moves edit.Handle) Thing {
	return Thing{Ring: plan.Circle(at, radiusMM, solid.ChordErrorMM), At: at, Moves: moves}
}

// How large things are chosen by that have no size of their own in plan.
const (
	cornerGripMM  = 60
	readingGripMM = 45
)

func (t *thingList) room() {
	l := &t.r.Layout
	for _, i := range t.job().Room.InOrder() {
		w := &l.Walls[i]
		out := w.Outward.Mul(w.ThicknessMM)
		ring := plan.Ring{w.A, w.B, w.At(w.OuterToMM).Add(out), w.At(w.OuterFromMM).Add(out)}
		t.add(job.Nth(job.WallsKey, i), Thing{Ring: ring, At: w.At(w.LengthMM / 2).Add(out.Mul(0.5)),
			Moves: edit.Handle{Kind: edit.HandleSide, Index: i}})
	}
	for _, i := range t.job().Room.InOrder() {
		t.add(job.Nth(job.OutlineKey, i), round(t.job().Room.Outline[i], cornerGripMM, edit.Handle{Kind: edit.HandleCorner, Index: i}))
	}
}

// inWall is the outline of an opening in a wall.
func inWall(w *layout.Wall, fromMM, longMM float64) plan.Ring {
	out := w.Outward.Mul(w.ThicknessMM)
	a, b := w.At(fromMM), w.At(fromMM+longMM)
	return plan.Ring{a, b, b.Add(out), a.Add(out)}
}

func (t *thingList) openings() {
	for i := range t.job().Room.Doorways {
		o := &t.job().Room.Doorways[i]
		ring := inWall(&t.r.Layout.Walls[o.Wall], o.OffsetMM, o.WidthMM)
		t.add(job.Nth(job.DoorwaysKey, i), ringed(ring, edit.Handle{Kind: edit.HandleDoorway, Index: i}))
	}
	for i := range t.job().Room.Windows {
		o := &t.job().Room.Windows[i]
		ring := inWall(&t.r.Layout.Walls[o.Wall], o.OffsetMM, o.WidthMM)
		t.add(job.Nth(job.WindowsKey, i), ringed(ring, edit.Handle{Kind: edit.HandleWindow, Index: i}))
	}
}

func (t *thingList) inRoom() {
	for i, ring := range t.r.Layout.Fixtures {
		t.add(job.Nth(job.FixturesKey, i), ringed(ring, edit.Handle{Kind: edit.HandleFixture, Index: i}))
	}
	for i, s := range t.r.Layout.Stacks {
		t.add(job.Nth(job.StacksKey, i), round(s.At, t.job().Room.Stacks[i].OutsideMM/2, edit.Handle{Kind: edit.HandleStack, Index: i}))
	}
	for i, p := range t.job().Room.PipeEnds {
		t.add(job.Nth(job.PipeEndsKey, i), round(p.At, math.Max(p.NominalMM/2, readingGripMM), edit.Handle{Kind: edit.HandlePipeEnd, Index: i}))
	}
}

func (t *thingList) floor() {
	named := map[int]bool{}
	for i := range t.r.Layout.Joists {
		js := &t.r.Layout.Joists[i]
		if js.Member == layout.SecondJoist || js.Member == layout.Trimmer || js.LengthMM() <= 0 || named[js.Number] {
			continue
		}
		named[js.Number] = true
		side := plan.Left(js.Along).Mul(js.WidthMM / 2)
		a, b := js.Origin.Add(js.Along.Mul(js.FromMM)), js.Origin.Add(js.Along.Mul(js.ToMM))
		joist := ringed(plan.Ring{a.Sub(side), b.Sub(side), b.Add(side), a.Add(side)}, edit.Handle{Kind: edit.HandleJoist, Index: i})
		joist.Number, joist.Name = js.Number, message.Of("part.joist", message.No("n", js.Number), message.Wall("wall", js.From))
		t.add(job.JoistsKey, joist)
	}
	for i, s := range t.job().StatedLevels() {
		t.add(job.Nth(job.SpotLevelsKey, i), round(s.At, readingGripMM, edit.Handle{Kind: edit.HandleLevel, Index: i}))
	}
	for i, s := range t.job().Laser.Readings {
		t.add(job.Nth(job.ReadingsKey, i), round(s.At, readingGripMM, edit.Handle{Kind: edit.HandleReading, Index: i}))
	}
}

func (t *thingList) shower() {
	l, c := &t.r.Layout, t.r.Layout.Corners
	if t.job().Former.Fall != job.FallRoom {
		t.add("shower", ringed(plan.Ring(c[:]), edit.Handle{Kind: edit.HandleShower}))
		for n, side := range [...]struct {
			key   string
			a, b  plan.Point
			along job.ShowerSide
			moves edit.HandleKind
		}{{"shower.depthMM", c[3], c[2], job.SideFront, edit.HandleDepth},
			{"shower.widthMM", c[1], c[2], job.SideRight, edit.HandleRight},
			{"shower.widthMM", c[0], c[3], job.SideLeft, edit.HandleLeft}} {
			t.add(side.key, Thing{ThingID: ThingID{Number: n + 1}, Name: layout.Side(side.along).Edge(), Path: []plan.Point{side.a, side.b},
				At: side.a.Add(side.b).Mul(0.5), Moves: edit.Handle{Kind: side.moves}, Along: side.along})
		}
	}
	if len(l.Drain) > 0 {
		t.add("drain", Thing{Ring: l.Drain[0].Outer, At: l.DrainCentre, Moves: edit.Handle{Kind: edit.HandleDrain}})
	}
}

func (t *thingList) waste() {
	run := &t.r.Heights.Run
	turns := edit.Turns(t.r.Settled, *run)
	stated := len(t.job().Waste.Waypoints) > 0
	for i := range run.Pieces {
		p := &run.Pieces[i]
		if len(p.Path) < 2 || p.FromMM >= run.ExitAtMM || p.Kind == waste.Joint {
			continue
		}
		thing := Thing{ThingID: ThingID{Number: i + 1}, Name: p.Name().Message(), Ring: band(p.Path, p.RadiusMM()), At: p.Middle()}
		key := "waste"
		switch {
		case p.InLine():
			key, thing.Number, thing.Moves = job.Nth(job.FittingsKey, p.Fitting), 0, edit.Handle{Kind: edit.HandleFitting, Index: p.Fitting}
		case p.Kind == waste.Bend:
			turn := nearestOf(turns, thing.At)
			if turn < 0 {
				break
			}
			thing.Moves = edit.Handle{Kind: edit.HandleTurn, Index: turn}
			if stated {
				key = job.Nth(job.TurnsKey, turn)
			}
		}
		t.add(key, thing)
	}
	if at, ok := ventAt(t.r); ok {
		t.add(job.VentKey, round(run.PointAt(at), math.Max(t.job().Waste.Vent.NominalMM/2, readingGripMM), edit.Handle{Kind: edit.HandleVent}))
	}
	t.exit()
}

// exit is the way out: the hole through the wall, or where the pipe ends in the room.
func (t *thingList) exit() {
	at, ok := exitGrip(t.r)
	if !ok || len(t.r.Heights.Run.Pieces) == 0 {
		return
	}
	moves := edit.Handle{Kind: edit.HandleExit}
	thing := round(at, math.Max(readingGripMM, t.r.Heights.Run.Outgoing().OutsideDiameterMM/2), moves)
	if core, ok := t.r.Heights.Core(t.job(), &t.r.Layout); ok && t.job().Waste.Exit.Kind == job.ExitWall {
		thing = ringed(inWall(&t.r.Layout.Walls[core.Wall-1], core.AlongMM-core.LeastMM/2, core.LeastMM), moves)
		thing.At = at
	}
	t.add("waste.exit", thing)
}

// nearestOf is which of some places is nearest to a point, by its index; -1 for none.
func nearestOf(places []plan.Point, to plan.Point) int {
	best, bestMM := -1, math.Inf(1)
	for i, p := range places {
		if mm := p.Sub(to).Len(); mm < bestMM {
			best, bestMM = i, mm
		}
	}
	return best
}

// band is what lies so far on both sides of a path.
func band(path []plan.Point, halfMM float64) plan.Ring {
	out := make(plan.Ring, 2*len(path))
	for i, p := range path {
		along := path[min(i+1, len(path)-1)].Sub(path[max(i-1, 0)])
		if along.Len() > 0 {
			along = along.Normalize()
		}
		side := plan.Left(along).Mul(halfMM)
		out[i], out[len(out)-1-i] = p.Sub(side), p.Add(side)
	}
	return out
}

// areaMM2 of the thing; of a line nothing.
func (t *Thing) areaMM2() float64 { return math.Abs(t.Ring.SignedArea()) }

// awayMM is how far a point is from the thing: nothing from a place on it.
func (t *Thing) awayMM(p plan.Point) float64 {
	if len(t.Ring) > 2 && plan.FromRing(t.Ring).Contains(p, 0) {
		return 0
	}
	best, line := math.Inf(1), t.Outline()
	for i := 1; i < len(line); i++ {
		best = math.Min(best, plan.DistanceToSegment(p, line[i-1], line[i]))
	}
	return best
}

// Outline is the line round the thing, or the one that it is.
func (t *Thing) Outline() []plan.Point {
	if len(t.Ring) == 0 {
		return t.Path
	}
	return closed(t.Ring)
}

// ThingAt is the thing of the plan at a point or within reach of it. What is small and pressed itself goes before a
// line, and that before what lies under both, the smaller of two first; of what is only near, the nearest. False
// where there is none.
func (d *Drawing) ThingAt(p plan.Point, reachMM float64) (thing Thing, ok bool) {
	smallMM2, least := math.Max(9*reachMM*reachMM, 4*cornerGripMM*cornerGripMM), math.Inf(1)
	for i := range d.Things {
		t := &d.Things[i]
		away, size := t.awayMM(p), t.areaMM2()
		if on := away == 0 && len(t.Ring) > 0; !on {
			if away > reachMM || size > smallMM2 {
				continue
			}
			size = smallMM2 + away
		}
		if size < least {
			thing, least, ok = *t, size, true
		}
	}
	return thing, ok
}

// Thing is the thing of an ID; false where the plan has none.
func (d *Drawing) Thing(id ThingID) (thing Thing, ok bool) {
	for _, t := range d.Things {
		if t.ThingID == id {
			return t, true
		}
	}
	return thing, false
}

// NextThing is the thing after one in the order in which one goes through them, or as many before it,
// round and round; of none the first, or the last.
func (d *Drawing) NextThing(id ThingID, by int) (thing Thing, ok bool) {
	n := len(d.Things)
	if n == 0 {
		return thing, false
	}
	at := -1
	for i := range d.Things {
		if d.Things[i].ThingID == id {
			at = i
		}
	}
	if at < 0 && by < 0 {
		at = 0
	}
	return d.Things[((at+by)%n+n)%n], true
}
