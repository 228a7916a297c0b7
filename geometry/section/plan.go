package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// roomID is the area of a plan that is its floor.
const roomID = "room"

// PlanOf draws the plan of a result: walls cut, floor, shower, drain, run and
// joists below as dashed lines, with handles on what can be dragged.
func PlanOf(r geometry.Result) Drawing { return new(sketch).planOf(r) }

func (k *sketch) planOf(r geometry.Result) Drawing {
	l := r.Layout
	d := Drawing{Cut: solid.HorizontalCut(r.Heights.TileMM + 1000)}
	seen := func(id string, name message.ID, m material.Material, region plan.Region) {
		if len(region) > 0 {
			d.Areas = append(d.Areas, Area{PartID: id, Name: message.Of(name), Material: m, Region: region})
		}
	}
	seen(roomID, "part.room", material.Screed, l.Room)
	seen("shower", "part.shower", material.Tile, l.FallArea)
	seen("heated", "part.heated", material.Heating, l.Heated)
	if level := r.Water.Level; level.AreaMM2 > leastLevelMM2 {
		d.Areas = append(d.Areas, Area{PartID: "level-floor", Name: message.Of("part.level-floor"), Material: material.Tile,
			Region: level.Region, Hatched: true})
	}
	for _, z := range r.Floor.Zones {
		if z.Edge >= 0 {
			seen("ramp", "part.ramp", material.FormerBody, z.Region)
		}
	}
	d.Areas = append(d.Areas, k.areas(r.Assembly, d.Cut, buildup.StageBare)...)
	seen("kerb", "part.kerb", material.Tile, l.Kerb)
	d.things(r)
	d.timbersInPlan(r)
	for _, s := range l.Studs {
		d.Lines = append(d.Lines, Line{closed(s.Ring), Thin, false, "stud"})
	}
	if o, ok := joist.OpeningOf(&r.Settled, &l, &r.Heights); ok {
		for _, n := range o.Noggins {
			d.Lines = append(d.Lines, Line{closed(n.Ring), Thin, true, "noggin"})
		}
	}
	d.fallsInPlan(&r)
	seen("drain", "part.drain", material.Metal, l.Drain)
	d.Lines = append(d.Lines, Line{closed(l.Trap[0].Outer), Medium, true, "trap"})
	k.runInPlan(&d, &r)
	k.boxingInPlan(&d, r)
	d.fittings(r)
	d.outside(r)
	d.north(r)
	d.bound()
	d.swingsBeyond(r)
	d.planDimensions(r)
	d.planInverts(r)
	d.levelNote(r)
	d.sealingInPlan(r)
	d.namesInPlan(r)
	d.setOuts(r)
	d.handles(r)
	d.thingsOfPlan(r)
	d.Fault = Fault(k.err, FaultOfRun)
	return d
}

// fallsInPlan draws the planes of the former and the ramps, with an arrow down each that falls.
func (d *Drawing) fallsInPlan(r *geometry.Result) {
	for _, p := range r.Layout.Planes {
		for _, poly := range p.Region {
			d.Lines = append(d.Lines, Line{closed(poly.Outer), Thin, false, "plane"})
		}
		if p.Gradient() >= levelSlope {
			d.Lines = append(d.Lines, fallArrow(p.Region, p.Plane))
		}
	}
	for _, z := range r.Floor.Zones {
		if z.Edge < 0 {
			continue
		}
		for _, poly := range z.Region {
			d.Lines = append(d.Lines, Line{closed(poly.Outer), Thin, false, "ramp"})
		}
		d.Lines = append(d.Lines, fallArrow(z.Region, z.Top()[0]))
	}
}

// runInPlan draws the run as broad as its pipes are, and the line of its middle.
func (k *sketch) runInPlan(d *Drawing, r *geometry.Result) {
	path := r.Heights.Run.BodyPath()
	if len(path) <= 1 {
		return
	}
	for _, p := range k.shape(nil, func(sh *plan.Shaper) plan.Region { return runOutline(sh, &r.Heights.Run) }) {
		d.Lines = append(d.Lines, Line{closed(p.Outer), Medium, true, "run"})
	}
	d.Lines = append(d.Lines, Line{path, Thin, false, "run axis"})
}

// things draws what is in the room and its walls: doors, screens, the shower's head, windows
// and fixtures.
func (d *Drawing) things(r geometry.Result) {
	l := r.Layout
	for _, door := range l.Doors {
		if len(door.Sweep) > 0 {
			d.Lines = append(d.Lines, Line{closed(door.Sweep[0].Outer), Thin, false, "door"})
		}
		d.Lines = append(d.Lines, Line{[]plan.Point{door.A, door.B}, Thin, false, "door"})
		if pocket, ok := door.Pocket(&r.Settled.Room.Doorways[door.Index]); ok {
			d.Lines = append(d.Lines, Line{closed(pocket), Thin, true, "door"})
		}
	}
	for _, s := range l.Screens {
		d.Lines = append(d.Lines, Line{closed(s.Glass[0].Outer), Medium, false, "screen"})
		if len(s.Sweep) > 0 {
			d.Lines = append(d.Lines, Line{closed(s.Sweep[0].Outer), Thin, true, "screen"})
		}
	}
	if h := r.Settled.Shower.Head; h != nil {
		d.Lines = append(d.Lines, Line{closed(plan.Circle(h.At, roseMM/2, solid.ChordErrorMM)), Medium, false, "head"})
	}
	for _, o := range r.Settled.Room.Windows {
		w := l.Walls[o.Wall]
		for _, off := range []float64{0, w.ThicknessMM / 2, w.ThicknessMM} {
			out := w.Outward.Mul(off)
			d.Lines = append(d.Lines, Line{[]plan.Point{w.At(o.OffsetMM).Add(out), w.At(o.OffsetMM + o.WidthMM).Add(out)}, Thin, false, "window"})
		}
	}
	for _, ring := range l.Fixtures {
		d.Lines = append(d.Lines, Line{closed(ring), Medium, false, "fixture"})
	}
}

// swingsBeyond draws the leaves that open outwards, which show as far as they go.
func (d *Drawing) swingsBeyond(r geometry.Result) {
	low, high := d.FocusLow, d.FocusHigh
	for _, door := range r.Layout.Doors {
		if swing, ok := door.Beyond(&r.Settled); ok {
			d.Lines = append(d.Lines, Line{closed(swing), Thin, true, "door-beyond"})
			d.Shows = append(d.Shows, swing...)
		}
	}
	d.bound()
	d.FocusLow, d.FocusHigh = low, high
}

func closed(r plan.Ring) []plan.Point { return append(append([]plan.Point(nil), r...), r[0]) }

// roseMM is how wide a shower head is drawn. Common practice, no source.
const roseMM = 250

// leastLevelMM2 is a square centimetre: less of a level floor is no place where water
// stands.
const leastLevelMM2 = 100

// fallArrow runs down the middle of a plane.
func fallArrow(cell plan.Region, p solid.Plane) Line {
	down := plan.Point{-p.SlopeX, -p.SlopeY}.Normalize()
	c := cell.Centroid()
	half := 120.0
	if iv := cell.Clip(c, down); len(iv) > 0 {
		half = math.Min(half, (iv[len(iv)-1].To-iv[0].From)/3)
	}
	tip := c.Add(down.Mul(half))
	barb := down.Mul(-half / 4)
	side := plan.Left(down).Mul(half / 8)
	return Line{[]plan.Point{c.Sub(down.Mul(half)), tip, tip.Add(barb).Add(side), tip, tip.Add(barb).Sub(side)}, Medium, false, "fall"}
}

func (d *Drawing) planDimensions(r geometry.Result) {
	l, j := r.Layout, r.Settled
	d.wallDimensions(&l)
	d.studDimensions(r)
	if j.Former.Fall == job.FallRoom {
		return
	}
	c := l.Corners
	d.Dimensions = append(d.Dimensions,
		Dimension{From: c[3], To: c[2], Text: length(c[2].Sub(c[3]).Len()), Row: 1, Side: l.Into, Key: "shower.widthMM"},
		Dimension{From: c[1], To: c[2], Text: length(c[2].Sub(c[1]).Len()), Row: 1, Side: l.ToRight, Key: "shower.depthMM"})
	d.drainDimension(r)
	d.rampDimensions(r)
}

// wallDimensions are the lengths of the walls, outside them.
func (d *Drawing) wallDimensions(l *layout.Layout) {
	const leastMM = 250
	for _, w := range l.Walls {
		if w.LengthMM < leastMM {
			continue
		}
		out := w.Outward.Mul(w.ThicknessMM)
		d.Dimensions = append(d.Dimensions,
			Dimension{From: w.A.Add(out), To: w.B.Add(out), Text: length(w.LengthMM),
				Row: 1, Side: w.Outward, Key: edit.Side{Wall: w.Index}.Key()})
	}
}

// drainDimension is along a linear drain, which is sold by its length, on the side that the floor falls from.
func (d *Drawing) drainDimension(r geometry.Result) {
	l, j := &r.Layout, &r.Settled
	if !j.Former.Fall.Linear() {
		return
	}
	out := l.DrainCentre.Sub(l.DrainEdge).Normalize()
	long := j.DrainLengthMM()
	half, across := l.DrainAlong.Mul(long/2), out.Mul(-j.Drain.WidthMM/2)
	from, to := l.DrainCentre.Sub(half).Add(across), l.DrainCentre.Add(half).Add(across)
	d.Dimensions = append(d.Dimensions, Dimension{From: from, To: to, Text: message.Of("dimension.length", message.MM("length", long)),
		Row: 1, Side: out.Mul(-1), Key: "drain.lengthMM"})
}

// studDimensions sets out the studs behind a drain at a wall from the drain's start.
func (d *Drawing) studDimensions(r geometry.Result) {
	w, start, studs, ok := r.Layout.DrainStuds(&r.Settled)
	if !ok {
		return
	}
	at := []float64{start}
	for _, s := range studs {
		at = append(at, s.AtMM)
	}
	wall := job.Nth(job.WallsKey, w.Index)
	d.chainAlong(&w, at, 2, [2]message.ID{FirstStud, NextStud}, wall+".firstStudMM", wall+".studSpacingMM", "drain")
	if len(studs) == 0 {
		return
	}
	// Room for a second row of dimensions; texts beside upright lines take more.
	room := plan.Point{0.1, 0.05}.Mul(d.High.Sub(d.Low).Len())
	for axis, o := range w.Outward {
		d.FocusLow[axis] += math.Min(0, o) * room[axis]
		d.FocusHigh[axis] += math.Max(0, o) * room[axis]
	}
}

// The texts of the stretches to the studs behind a drain: the first says what they are.
const (
	FirstStud message.ID = "dimension.first-stud"
	NextStud  message.ID = "dimension.next-stud"
)

// chainAlong dimensions the stretches between places along a wall's outer face, in a row of theirs: by the text of the first, and of
// those after it.
func (d *Drawing) chainAlong(w *layout.Wall, atMM []float64, row int, texts [2]message.ID, hangsOn ...string) {
	out, chain := w.Outward.Mul(w.ThicknessMM), chainOf(atMM)
	for i, mm := range chain.PartsMM {
		if mm > plan.HairMM {
			text := message.Of(texts[min(i, 1)], message.InFeet(chain.Part("length", i)))
			d.Dimensions = append(d.Dimensions, Dimension{From: w.At(atMM[i]).Add(out), To: w.At(atMM[i+1]).Add(out), Text: text,
				Row: row, Side: w.Outward, HangsOn: hangsOn})
		}
	}
}

// fittings draws a wedge on every in-line fitting, pointing the way it should
// carry the water: one the wrong way round points back.
func (d *Drawing) fittings(r geometry.Result) {
	for _, p := range r.Heights.Run.Pieces {
		if !p.InLine() {
			continue
		}
		from, to := p.Path[0], p.Path[len(p.Path)-1]
		if p.Reversed {
			from, to = to, from
		}
		side := plan.Left(to.Sub(from).Normalize()).Mul(p.Pipe.OutsideDiameterMM * 0.6)
		d.Lines = append(d.Lines, Line{[]plan.Point{from.Add(side), to, from.Sub(side), from.Add(side)}, Heavy, false, "fitting"})
	}
}

// outside draws what the run leads into and what joins it.
func (d *Drawing) outside(r geometry.Result) {
	run, w := &r.Heights.Run, &r.Settled.Waste
	for i, s := range r.Layout.Stacks {
		_, vents := r.Settled.StackAsVent(run.LengthMM)
		d.Marks = append(d.Marks, Mark{At: s.At, Of: MarkStack, Number: i + 1, Size: sizeOf(&r, r.Settled.Room.Stacks[i].NominalMM),
			Under: vents && w.Exit.Stack == i})
	}
	for i, p := range r.Settled.Room.PipeEnds {
		d.pipeEnd(i, p)
	}
	if len(run.Pieces) == 0 {
		return
	}
	if way := w.WayOut(); way != nil {
		d.wayOut(way, run, joinKnown(&r.Settled))
	}
	if w.Exit.Kind == job.ExitPipe {
		half := run.ExitTo.Mul(assembly.OldPipeMM(r.Layout.Room, run))
		side := plan.Left(run.ExitTo).Mul(run.Outgoing().OutsideDiameterMM / 2)
		for _, from := range [2]plan.Point{run.Exit.Add(side), run.Exit.Sub(side)} {
			d.Lines = append(d.Lines, Line{[]plan.Point{from, from.Add(half)}, Thin, true, "old-pipe"})
		}
		if _, listed := r.Settled.Room.PipeEndAt(w.Exit); !listed {
			d.Marks = append(d.Marks, Mark{At: run.Exit.Add(half), Of: MarkOldPipe, Size: sizeOf(&r, w.Exit.NominalMM)})
		}
	}
	if p := w.IntoPump(); p != nil {
		box := layout.PumpBox(*p, run.Exit, run.ExitTo)
		d.Lines = append(d.Lines, Line{closed(box), Medium, false, "pump"})
		d.Marks = append(d.Marks, Mark{At: plan.FromRing(box).Centroid(), Of: MarkPump})
	}
	if at, ok := ventAt(&r); ok {
		p := run.PointAt(at)
		if s, in := r.Settled.StackAsVent(run.LengthMM); in {
			p = s.At
		} else {
			d.Lines = append(d.Lines, Line{closed(plan.Circle(p, w.Vent.NominalMM/2, solid.ChordErrorMM)), Heavy, false, "vent"})
		}
		d.Marks = append(d.Marks, Mark{At: p, Of: MarkVent, Size: sizeOf(&r, w.Vent.NominalMM), Under: true})
	}
}

// joinKnown tells whether what the waste joins outside is known, be it assumed.
func joinKnown(j *job.Job) bool { return j.StandingOf("waste.beyond.joins") != job.NotKnown }

// wayOut draws what the waste joins outside: a gully or a drain about its end, a stack on
// from it.
func (d *Drawing) wayOut(way *job.Beyond, run *waste.Run, known bool) {
	end, half := run.PointAt(run.LengthMM), gullyMM/2.0
	if !known {
		d.Marks = append(d.Marks, Mark{At: end, Of: MarkJoinNotKnown})
		return
	}
	outline, mark := plan.Circle(end, half, solid.ChordErrorMM), Mark{At: end, Of: MarkDrain}
	switch way.Joins {
	case job.JoinGully:
		outline = plan.Ring{end.Add(plan.Point{-half, -half}), end.Add(plan.Point{half, -half}),
			end.Add(plan.Point{half, half}), end.Add(plan.Point{-half, half})}
		if mark.Of = MarkGully; way.DownToMM != nil {
			d.Marks = append(d.Marks, Mark{At: end, Of: MarkWayDown, LevelMM: *way.DownToMM, Under: true})
			d.Lines = append(d.Lines, Line{closed(plan.Circle(end, run.Outgoing().OutsideDiameterMM/2, solid.ChordErrorMM)), Thin, true, "way-down"})
		}
	case job.JoinStack:
		at := end.Add(run.ExitTo.Mul(outsideMM / 2))
		outline, mark = plan.Circle(at, outsideMM/2, solid.ChordErrorMM), Mark{At: at, Of: MarkStackOutside}
	}
	d.Lines = append(d.Lines, Line{closed(outline), Medium, false, string(way.Joins)})
	d.Marks = append(d.Marks, mark)
}

// pipeEnd draws the end of a pipe that was found, by its index: thinly where its size is
// not known.
func (d *Drawing) pipeEnd(i int, p job.PipeEnd) {
	size, weight := p.NominalMM, Heavy
	if size == 0 {
		size, weight = assembly.PipeEndMM, Thin
	}
	d.Lines = append(d.Lines, Line{closed(plan.Circle(p.At, size/2, solid.ChordErrorMM)), weight, false, "pipe-end"})
	mark := Mark{At: p.At, Of: MarkPipeEnd, Number: i + 1}
	if p.InvertMM != nil {
		mark.Of, mark.LevelMM = MarkPipeEndLevel, *p.InvertMM
	}
	d.Marks = append(d.Marks, mark)
}

// fixtureMark is what is written at a fixture.
func fixtureMark(k job.FixtureKind) message.ID {
	switch k {
	case job.FixtureToilet:
		return MarkToilet
	case job.FixtureRadiator:
		return MarkRadiator
	case job.FixtureCupboard:
		return MarkCupboard
	}
	return MarkBasin
}

// north draws an arrow to the north beside the room, where it is known.
func (d *Drawing) north(r geometry.Result) {
	north := r.Settled.Room.North
	if north == nil {
		return
	}
	_, high, _ := r.Layout.Room.Bounds()
	thickest := 0.0
	for _, w := range r.Layout.Walls {
		thickest = math.Max(thickest, w.ThicknessMM)
	}
	const halfMM = 200
	sin, cos := math.Sincos(north.Deg * math.Pi / 180)
	up := plan.Point{sin, cos}.Mul(halfMM)
	middle := high.Add(plan.Point{thickest + 2*halfMM, -halfMM})
	side := plan.Left(up).Mul(0.25)
	arrow := []plan.Point{middle.Sub(up), middle.Add(up), middle.Add(side), middle.Sub(side), middle.Add(up)}
	d.Lines = append(d.Lines, Line{arrow, Medium, false, "north"})
	d.Marks = append(d.Marks, Mark{At: middle.Add(up), Of: MarkNorth})
}

// ventAt is how far along the run its vent joins it; ok is false without one.
func ventAt(r *geometry.Result) (alongMM float64, ok bool) {
	v, run := r.Settled.Waste.Vent, &r.Heights.Run
	if v == nil || len(run.Pieces) == 0 {
		return 0, false
	}
	return math.Min(v.AtMM, run.LengthMM), true
}

// planInverts writes the invert at the outlet, every bend, with its name, and the exit.
func (d *Drawing) planInverts(r geometry.Result) {
	run := r.Heights.Run
	if len(run.Corners) < 2 {
		return
	}
	mark := func(p plan.Point, s float64) {
		d.Marks = append(d.Marks, Mark{At: p, Of: MarkInvert, LevelMM: run.InvertAt(s)})
	}
	d.Marks = append(d.Marks, outletMark(&r, run.Corners[0]))
	for _, p := range run.Pieces {
		if p.Kind == waste.Bend && p.FromMM < run.ExitAtMM {
			level := run.InvertAt((p.FromMM + p.ToMM) / 2)
			d.Marks = append(d.Marks, Mark{At: p.Middle(), Of: MarkPieceInvert, LevelMM: level, Said: p.Name().Message()})
		}
	}
	if exit := run.Exit; r.Settled.Waste.Exit.Kind == job.ExitFloor {
		// The bend turns down before it.
		mark(run.PointAt(run.ExitAtMM), run.ExitAtMM)
	} else {
		mark(exit, run.ExitAtMM)
	}
	if r.Settled.Waste.WayOut() != nil {
		end := run.LevelEndMM(&r.Settled.Waste)
		mark(run.PointAt(end), end)
	}
	if core, m, ok := coreMark(&r); ok {
		w := &r.Layout.Walls[core.Wall-1]
		m.At = core.At.Add(w.Outward.Mul(w.ThicknessMM / 2))
		d.Marks = append(d.Marks, m)
	}
}

// coreMark is the mark of the hole that is drilled through a wall, to be put in its place;
// ok is false where none is.
func coreMark(r *geometry.Result) (core level.Core, m Mark, ok bool) {
	core, ok = r.Heights.Core(&r.Settled, &r.Layout)
	if !ok || r.Settled.Room.Walls[core.Wall-1].Kind == job.WallStud {
		return core, m, false
	}
	return core, Mark{Of: MarkCore, LevelMM: core.CentreMM, ThicknessMM: r.Pack.CoreDrills.For(core.LeastMM)}, true
}

// exitGrip is where the exit is taken hold of: where it is, or on the way there where a stack
// or the end of a pipe can be dragged itself. False where it can go into one stack alone.
func exitGrip(r *geometry.Result) (at plan.Point, ok bool) {
	const beforeMM = 200
	run, e := &r.Heights.Run, r.Settled.Waste.Exit
	_, led := r.Settled.Room.PipeEndAt(e)
	switch {
	case e.Kind == job.ExitStack && len(r.Settled.Room.Stacks) < 2:
		return at, false
	case (led || e.Kind == job.ExitStack) && len(run.Pieces) > 0:
		return run.PointAt(math.Max(run.ExitAtMM/2, run.ExitAtMM-beforeMM)), true
	}
	return run.Exit, true
}

// handles puts a grip on what can be dragged in plan.
func (d *Drawing) handles(r geometry.Result) {
	l, j := r.Layout, r.Settled
	c := l.Corners
	mid := func(a, b plan.Point) plan.Point { return a.Add(b).Mul(0.5) }
	if j.Former.Fall != job.FallRoom {
		d.Handles = append(d.Handles, Handle{mid(c[2], c[3]), edit.Handle{Kind: edit.HandleDepth}},
			Handle{mid(c[1], c[2]), edit.Handle{Kind: edit.HandleRight}},
			Handle{mid(c[0], c[3]), edit.Handle{Kind: edit.HandleLeft}}, Handle{l.Shower.Centroid(), edit.Handle{Kind: edit.HandleShower}})
	}
	d.Handles = append(d.Handles, Handle{l.DrainCentre, edit.Handle{Kind: edit.HandleDrain}})
	if at, ok := exitGrip(&r); ok {
		d.Handles = append(d.Handles, Handle{at, edit.Handle{Kind: edit.HandleExit}})
	}
	for i, s := range l.Stacks {
		d.Handles = append(d.Handles, Handle{s.At, edit.Handle{Kind: edit.HandleStack, Index: i}})
	}
	for i, p := range j.Room.PipeEnds {
		d.Handles = append(d.Handles, Handle{p.At, edit.Handle{Kind: edit.HandlePipeEnd, Index: i}})
	}
	if at, ok := ventAt(&r); ok {
		d.Handles = append(d.Handles, Handle{r.Heights.Run.PointAt(at), edit.Handle{Kind: edit.HandleVent}})
	}
	for i, p := range edit.Turns(r.Settled, r.Heights.Run) {
		d.Handles = append(d.Handles, Handle{p, edit.Handle{Kind: edit.HandleTurn, Index: i}})
	}
	for _, p := range r.Heights.Run.Pieces {
		if p.InLine() {
			d.Handles = append(d.Handles, Handle{p.Path[0], edit.Handle{Kind: edit.HandleFitting, Index: p.Fitting}})
		}
	}
	for i, p := range j.Room.Outline {
		d.Handles = append(d.Handles, Handle{p, edit.Handle{Kind: edit.HandleCorner, Index: i}})
	}
	for i := range l.Walls {
		w := &l.Walls[i]
		d.Handles = append(d.Handles, Handle{mid(w.A, w.B).Add(w.Outward.Mul(w.ThicknessMM)), edit.Handle{Kind: edit.HandleSide, Index: i}})
	}
}
