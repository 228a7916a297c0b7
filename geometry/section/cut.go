package section

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Areas are the exact cut faces of the parts on a plane, up to a stage of the
// work.
//
// Method: each mesh is sliced exactly; where parts overlap, the greater
// precedence is taken out of the lesser by polygon difference. Parts of the
// floor are built without overlaps, so only pipes, trap and drain, which run
// through others, need it.
//
// With an error the areas are those that came out; what runs through others
// then lies over them in the order of the areas, without being cut out.
func Areas(a assembly.Assembly, c solid.Cut, stage buildup.Stage) ([]Area, error) {
	var k sketch
	areas := k.areas(a, c, stage)
	return areas, k.err
}

// sketch is drawing that goes on where a shape cannot be worked out, with what
// there was before, and remembers the first reason.
type sketch struct {
	refuse func(what message.Message, gridMM float64) error // for tests
	err    error
}

// shape is what draw makes, or the fallback where that fails.
func (k *sketch) shape(fallback plan.Region, draw func(*plan.Shaper) plan.Region) plan.Region {
	sh := plan.Shaper{Refuse: k.refuse}
	out := draw(&sh)
	if sh.Err() == nil {
		return out
	}
	if k.err == nil {
		k.err = sh.Err()
	}
	return fallback
}

// What a shape that could not be worked out means for the picture it was to be in,
// and what to move to mend it.
const (
	FaultOfCut      message.ID = "undrawn.cut"
	FaultOfRun      message.ID = "undrawn.run"
	FaultOfDressing message.ID = "undrawn.dressing"
)

// Fault says that a shape could not be worked out; zero without an error.
func Fault(err error, of message.ID) message.Message {
	var f *plan.Failure
	if !errors.As(err, &f) {
		return message.Message{}
	}
	return message.Of(of, message.In("shape", f.What))
}

func (k *sketch) areas(a assembly.Assembly, c solid.Cut, stage buildup.Stage) []Area {
	type face struct {
		area       Area
		precedence int
		box        solid.Box
	}
	var faces []face
	for _, p := range a.Parts {
		if p.Stage > stage {
			continue
		}
		box := p.Bounds()
		if !c.Crosses(box) {
			continue
		}
		region := k.merged(k.shape(nil, func(sh *plan.Shaper) (out plan.Region) {
			sh.Attempt(p.Name, func() (err error) {
				out, err = p.Mesh().Slice(c)
				return err
			})
			return out
		}), p.Name)
		a := Area{PartID: p.ID, Name: p.Name, Material: p.Material, Region: region, Cut: true}
		if p.Finish != nil {
			a.Colour, _ = material.ParseColour(p.Finish.Colour)
		}
		if p.Material.Pattern().AlongFall {
			a.FallDeg = fallDeg(region)
		}
		faces = append(faces, face{a, p.Precedence, box})
	}
	slices.SortStableFunc(faces, func(a, b face) int { return cmp.Compare(a.precedence, b.precedence) })
	out := make([]Area, 0, len(faces))
	for i, f := range faces {
		for _, g := range faces[i+1:] {
			if g.precedence > f.precedence && g.area.Material.RunsThrough() && f.box.Meets(g.box) && f.area.Region.Overlap(g.area.Region) {
				f.area.Region = k.shape(f.area.Region, func(sh *plan.Shaper) plan.Region {
					return sh.Subtract(f.area.Region, g.area.Region, message.Of("shape.part-without", message.In("part", f.area.Name), message.In("less", g.area.Name)))
				})
			}
		}
		if len(f.area.Region) > 0 {
			out = append(out, f.area)
		}
	}
	return out
}

// fallDeg is how the fall of a cut layer lies, anticlockwise from level: the direction of
// its longest side that is neither level nor steep; 0 without one.
func fallDeg(r plan.Region) float64 {
	const level, steep = 5e-4, 0.25
	longest, deg := 0.0, 0.0
	for _, p := range r {
		for i, a := range p.Outer {
			d := p.Outer[(i+1)%len(p.Outer)].Sub(a)
			slope := d.Y() / d.X()
			if long := d.Len(); math.Abs(slope) > level && math.Abs(slope) < steep && long > longest {
				longest, deg = long, math.Atan(slope)*180/math.Pi
			}
		}
	}
	return deg
}

// merged joins the touching shells of one part.
func (k *sketch) merged(r plan.Region, name message.Message) plan.Region {
	if len(r) < 2 {
		return r
	}
	out := plan.Region{r[0]}
	for _, p := range r[1:] {
		q := plan.Region{p}
		apart := append(out[:len(out):len(out)], p)
		al, ah, _ := out.Bounds()
		bl, bh, _ := q.Bounds()
		if al.X() <= bh.X() && bl.X() <= ah.X() && al.Y() <= bh.Y() && bl.Y() <= ah.Y() {
			out = k.shape(apart, func(sh *plan.Shaper) plan.Region { return sh.Union(out, q, name) })
		} else {
			out = apart
		}
	}
	return out
}

// Of draws the section of a result on a plane up to a stage: on an upright one with dimensions and
// level marks, on a level one as a plan.
func Of(r geometry.Result, c solid.Cut, stage buildup.Stage) Drawing {
	return new(sketch).of(r, c, stage)
}

func (k *sketch) of(r geometry.Result, c solid.Cut, stage buildup.Stage) Drawing {
	d := Drawing{Cut: c, Areas: k.areas(r.Assembly, c, stage)}
	// A level ceiling lies over all that is shown.
	slopes := len(r.Layout.Ceiling) > 1
	if slopes {
		d.ceiling(r)
	}
	d.bound()
	k.trim(&d, r)
	if upright(c) {
		if !slopes {
			d.ceiling(r)
		}
		if stage >= buildup.StageTile {
			d.screens(r)
			d.fixtures(r)
			d.headroom(r)
		}
		d.focus(r)
		d.levels(r, stage)
		d.outdoors(r)
		d.waterStops(&r)
		d.uprights(r, stage)
		d.dimensions(r, stage)
		d.wedges(&r, stage)
		d.steps(r, stage)
		d.notes(r, stage)
		d.wallLetters()
	} else {
		d.levelPlan(r)
	}
	d.Fault = Fault(k.err, FaultOfCut)
	return d
}

// upright tells a cut through the floor from one along it.
func upright(c solid.Cut) bool { return c.Up.Z() > 0 }

// Sections show walls this far above the finished floor, and structure this
// far below it: the rest is the same all the way.
const (
	aboveFloorMM = 420
	belowFloorMM = 320
)

// trim cuts a vertical drawing off above the build-up, where there is only
// wall.
func (k *sketch) trim(d *Drawing, r geometry.Result) {
	if !upright(d.Cut) {
		return
	}
	h := r.Heights
	low, high := h.FloorHighMM-belowFloorMM, h.TileMM+aboveFloorMM
	low = math.Min(low, math.Min(h.TrapMM, h.Run.InvertAt(h.Run.LengthMM))-80)
	window := plan.Rectangle(plan.Point{d.Low.X(), low}, plan.Point{d.High.X(), high})
	kept := d.Areas[:0]
	for _, a := range d.Areas {
		al, ah, _ := a.Region.Bounds()
		if al.Y() < low || ah.Y() > high {
			a.Region = k.cropped(a, low, high, window)
		}
		if len(a.Region) > 0 {
			kept = append(kept, a)
		}
	}
	d.Areas = kept
	d.bound()
}

// cropped is the area's region within the window's levels; upright rectangles, which
// walls mostly are, need no boolean operation.
func (k *sketch) cropped(a Area, low, high float64, window plan.Region) plan.Region {
	var out plan.Region
	for _, p := range a.Region {
		if o := p.Outer; len(p.Holes) == 0 && len(o) == 4 && uprightRectangle(o) {
			a, b, _ := (plan.Region{p}).Bounds()
			if from, to := math.Max(a.Y(), low), math.Min(b.Y(), high); to > from {
				out = append(out, plan.Rectangle(plan.Point{a.X(), from}, plan.Point{b.X(), to})...)
			}
			continue
		}
		whole := plan.Region{p}
		out = append(out, k.shape(whole, func(sh *plan.Shaper) plan.Region {
			return sh.Intersect(whole, window, message.Of("shape.part-near-floor", message.In("part", a.Name)))
		})...)
	}
	return out
}

func uprightRectangle(r plan.Ring) bool {
	for i := range r {
		d := r[(i+1)%len(r)].Sub(r[i])
		if d.X() != 0 && d.Y() != 0 {
			return false
		}
	}
	return true
}

// focus is the shower with its ramps and a little of what is round it, when the cut meets it.
func (d *Drawing) focus(r geometry.Result) {
	spans := d.along(r.Layout.FallArea)
	if len(spans) == 0 {
		return
	}
	const stackMM = 130
	besideMM := 260.0
	if len(r.Heights.Stack.BoardsMM()) > 1 {
		besideMM += stackMM // for one more row of dimensions
	}
	from, to := spans[0].From, spans[len(spans)-1].To
	for _, ramp := range d.ramps(r) {
		from, to = math.Min(from, ramp.FromMM), math.Max(to, ramp.ToMM)
	}
	low, high := d.focusLevels(&r)
	d.FocusLow = plan.Point{math.Max(d.Low.X(), from-besideMM), low}
	d.FocusHigh = plan.Point{math.Min(d.High.X(), to+besideMM), high}
}

// focusLevels are the levels between which a section is looked at first.
func (d *Drawing) focusLevels(r *geometry.Result) (low, high float64) {
	const aboveMM, belowMM = 170, 170
	h := &r.Heights
	return math.Max(d.Low.Y(), math.Min(h.TrapMM, h.FloorHighMM)-belowMM), math.Min(d.High.Y(), h.TileMM+aboveMM)
}

// along gives the stretches of a plan region under the cut, by distance on it.
func (d *Drawing) along(region plan.Region) []plan.Interval {
	return region.Clip(planOf(d.Cut.Origin), planOf(d.Cut.Along))
}

// planAt is the plan point at a distance along the cut.
func (d *Drawing) planAt(x float64) plan.Point { return planOf(d.Cut.Origin.Add(d.Cut.Along.Mul(x))) }

// levels puts a mark on every finished level the cut meets, and on the invert
// where it crosses the run.
func (d *Drawing) levels(r geometry.Result, stage buildup.Stage) {
	h, l, j := r.Heights, r.Layout, r.Settled
	mark := func(of message.ID, x, z float64) {
		d.Marks = append(d.Marks, Mark{At: plan.Point{x, z}, Of: of, LevelMM: z})
	}
	shower := d.along(l.OpenFloor)
	top := func(p plan.Point) (float64, message.ID) {
		switch {
		case stage >= buildup.StageTile:
			return h.ShowerAt(&l, p), MarkTile
		case stage >= buildup.StageFormer:
			return h.FlangeMM + l.Fall.At(p), MarkFormer
		case stage >= buildup.StageBase:
			return h.BaseTopMM, MarkBase
		}
		return h.GroundAt(&l, p), MarkFloor
	}
	for _, iv := range shower {
		// A strip beside the drain is level with it.
		if iv.To-iv.From < 60 {
			continue
		}
		za, of := top(d.planAt(iv.From))
		zb, _ := top(d.planAt(iv.To))
		mark(of, iv.From, za)
		if math.Abs(za-zb) > 0.05 || iv.To-iv.From > 600 {
			mark(of, iv.To, zb)
		}
	}
	if j.Former.Fall != job.FallRoom {
		for _, iv := range d.besideRamps(r, d.besideBoxes(&r, d.besidePump(r, d.along(l.Rest)))) {
			if iv.To-iv.From > 50 {
				x := d.roomFloorAt(&r, iv)
				mark(MarkRoomFloor, x, r.Floor.FinishedMM(d.planAt(x)))
			}
		}
	}
	if stage >= buildup.StageWaste {
		d.runMarks(r, mark)
	}
	if j.SetDown() > 0 {
		for _, iv := range d.along(l.Rest) {
			x := (iv.From + iv.To) / 2
			mark(MarkStructure, x, h.StructureAt(&j, &l, d.planAt(x)))
		}
	}
	middle := (d.FocusLow.X() + d.FocusHigh.X()) / 2
	if spans := d.along(l.FallArea); j.SetDown() > 0 && len(spans) > 0 {
		middle = (spans[0].From + spans[0].To) / 2
	}
	// Where the cut goes through it: between joists the deck is cut away.
	structure := func(x float64) float64 { return h.StructureAt(&j, &l, d.planAt(x)) }
	if x, ok := nearest(middle, d.FocusLow.X(), d.FocusHigh.X(), func(x float64) bool { return d.column(x).structure(structure(x)) }); ok {
		mark(MarkStructure, x, structure(x))
	}
}

// runMarks marks the invert where the cut crosses the run, or at both ends of
// what it follows.
func (d *Drawing) runMarks(r geometry.Result, mark func(message.ID, float64, float64)) {
	run := r.Heights.Run
	type place struct{ s, x, side float64 }
	var with []place // what lies with the cut, without a gap
	leave := func() {
		if len(with) == 0 {
			return
		}
		first, last, nearest := with[0], with[len(with)-1], with[0]
		for i, p := range with {
			if math.Abs(p.side) < math.Abs(nearest.side) {
				nearest = p
			}
			if i > 0 && with[i-1].side*p.side < 0 {
				before := with[i-1]
				share := before.side / (before.side - p.side)
				nearest = place{before.s + share*(p.s-before.s), before.x + share*(p.x-before.x), 0}
			}
		}
		if math.Abs(last.x-first.x) > 80 {
			mark(MarkInvert, first.x, run.InvertAt(first.s))
			nearest = last
		}
		mark(MarkInvert, nearest.x, run.InvertAt(nearest.s))
		with = nil
	}
	const stepMM = 5
	for i := range int(run.LengthMM/stepMM) + 1 {
		s := float64(i) * stepMM
		p := run.PointAt(s)
		q := mgl64.Vec3{p.X(), p.Y(), 0}
		side := d.Cut.Side(q)
		if math.Abs(side) < math.Max(1, run.PipeAt(s).BoreMM/2) {
			with = append(with, place{s, d.Cut.Flat(q).X(), side})
		} else {
			leave()
		}
	}
	leave()
}

// nearDrain tells whether the one of two places along the cut is nearer to the drain.
func (d *Drawing) nearDrain(r geometry.Result, at, other float64) bool {
	to := func(x float64) float64 { return d.planAt(x).Sub(r.Layout.DrainCentre).Len() }
	return to(at) < to(other)
}

// stackOf are the layers from the lowest board of a stack to before what lies on the highest; ok is
// false where there is no more than one.
func stackOf(s buildup.Stack) (from, to int, ok bool) {
	for i := range s {
		switch {
		case s[i].Kind == buildup.LowerBoard && !ok:
			from, ok = i, true
		case s[i].Kind == buildup.Base:
			to = i + 1
		}
	}
	return from, to, ok && to > from
}

// dimensions puts the build-up at both ends of the shower, and the lengths
// along the cut below.
func (d *Drawing) dimensions(r geometry.Result, stage buildup.Stage) {
	l := r.Layout
	spans := d.along(l.FallArea)
	if len(spans) == 0 {
		return
	}
	first, last := spans[0], spans[len(spans)-1]
	d.buildUp(r, stage, first.From, last.To, plan.Point{-1, 0})
	d.buildUp(r, stage, last.To, first.From, plan.Point{1, 0})
	d.lengths(&l, first.From, last.To, d.ramps(r))
	if in := d.along(l.Trap); len(in) == 1 && stage >= buildup.StageWaste {
		// Away from the outlet's pipe; where that leaves the cut, towards the middle of the
		// floor, as the build-up is written at its ends.
		right := (in[0].From+in[0].To)/2 < (first.From+last.To)/2
		if along := l.OutletTo.Dot(planOf(d.Cut.Along)); math.Abs(along) > 0.5 {
			right = along < 0
		}
		if right {
			d.seal(r, in[0].To, plan.Point{1, 0})
		} else {
			d.seal(r, in[0].From, plan.Point{-1, 0})
		}
	}
}

// lengths measures, below the drawing, all of the room's stretch that the shower lies in, and in a row above that what lies in
// it one after the other: the floor before and beyond, ramps, the shower on both sides of its drain and across it.
func (d *Drawing) lengths(l *layout.Layout, from, to float64, ramps []cutRamp) {
	at := []float64{from, to}
	if drain := d.along(l.Drain); len(drain) == 1 {
		at = append(at, drain[0].From, drain[0].To)
	}
	for _, ramp := range ramps {
		at = append(at, ramp.FromMM, ramp.ToMM)
	}
	slices.Sort(at)
	chained := false
	for _, room := range d.along(l.Room) {
		if room.From > from+plan.HairMM || room.To < to-plan.HairMM {
			d.atFoot(room.From, room.To, message.Of("dimension.length", message.Along("length", room.To-room.From)), 2)
			continue
		}
		chain := d.lengthsOf(slices.Concat([]float64{room.From}, at, []float64{room.To}), ramps)
		d.atFoot(room.From, room.To, message.Of("dimension.length", message.InFeet(chain.All("length"))), 2)
		chained = true
	}
	if !chained {
		d.lengthsOf(at, ramps)
	}
}

// lengthsOf measures what lies between places along the cut, in their order, and tells of which of it is a ramp; one length alone
// is that of the row below.
func (d *Drawing) lengthsOf(at []float64, ramps []cutRamp) message.Chain {
	at = slices.CompactFunc(at, func(a, b float64) bool { return math.Abs(a-b) < plan.HairMM })
	chain := chainOf(at)
	for i := range chain.PartsMM {
		part, middle := message.InFeet(chain.Part("length", i)), (at[i]+at[i+1])/2
		text := message.Of("dimension.length", part)
		for _, ramp := range ramps {
			if middle > ramp.FromMM && middle < ramp.ToMM {
				text = message.Of("dimension.ramp-here", part, message.Slope("fall", ramp.fall))
			}
		}
		if len(chain.PartsMM) > 1 {
			d.atFoot(at[i], at[i+1], text, 1)
		}
	}
	return chain
}

// atFoot writes a length below what is looked at first of the drawing, where there is room for one: under deep joists it would not be
// seen with what it measures.
func (d *Drawing) atFoot(from, to float64, text message.Message, row int) {
	const leastMM = 5
	if to-from > leastMM {
		foot := math.Max(d.Low.Y(), d.FocusLow.Y())
		d.Dimensions = append(d.Dimensions, Dimension{From: plan.Point{from, foot}, To: plan.Point{to, foot},
			Text: text, Row: row, Side: plan.Point{0, -1}})
	}
}

// LookToFoot has the drawing looked at first down to its foot, with what is measured there under that.
func (d *Drawing) LookToFoot() {
	was, foot := math.Max(d.Low.Y(), d.FocusLow.Y()), d.Low.Y()
	d.FocusLow[1] = math.Min(d.FocusLow.Y(), foot)
	for i := range d.Dimensions {
		if m := &d.Dimensions[i]; m.Side == (plan.Point{0, -1}) && m.From.Y() == was && m.To.Y() == was {
			m.From[1], m.To[1] = foot, foot
		}
	}
}

// chainOf is the chain of lengths between places one after the other, told in whole millimetres as all lengths along a floor.
func chainOf(at []float64) message.Chain {
	c := message.Chain{Round: message.Whole, Whole: message.Whole}
	for i := 1; i < len(at); i++ {
		c.PartsMM = append(c.PartsMM, at[i]-at[i-1])
	}
	return c
}

// buildUp dimensions the floor at one end of the shower: the layers that the cut goes
// through near it, as they are at the very edge.
func (d *Drawing) buildUp(r geometry.Result, stage buildup.Stage, x, other float64, side plan.Point) {
	j := r.Settled
	stack := r.Floor.At(d.planAt(x))
	// A wall's finish, or what is sawn out for the drain, may take the edge itself.
	var near []column
	for _, insideMM := range [...]float64{2, 8, 30} {
		near = append(near, d.column(x-side.X()*insideMM))
	}
	cut := func(c *buildup.Course) bool {
		return slices.ContainsFunc(near, func(through column) bool { return through.cut(c) })
	}
	layers := laid(stack, stage)
	chain := layers.Chain()
	put := func(from, to int, text message.Arg, row int, key string) {
		low, high := plan.Point{x, layers[from].BottomMM}, plan.Point{x, layers[to-1].TopMM}
		d.Dimensions = append(d.Dimensions, Dimension{From: low, To: high, Text: message.Of("dimension.length", text),
			Row: row, Side: side, Key: key})
	}
	boards := false // there are, of a stack
	for i := range layers {
		if layer := &layers[i]; cut(layer) && layer.ThicknessMM() >= leastDimensionMM {
			put(i, i+1, chain.Part("length", i), 1, thicknessKey(&r, layer))
			boards = boards || layer.Kind == buildup.Base
		}
	}
	row := 2
	if from, to, ok := stackOf(layers); ok && boards && !d.nearDrain(r, x, other) {
		key := "base.heightMM"
		if j.Base.Support == job.BetweenJoists {
			key = ""
		}
		put(from, to, chain.Between("length", from, to), row, key)
		row++
	}
	if n := len(layers); n > 0 && layers[n-1].TopMM > stack[0].TopMM {
		put(0, n, chain.All("length"), row, "")
	}
}

// laid are the layers of a stack on its structural floor that lie there at a stage.
func laid(s buildup.Stack, stage buildup.Stage) (out buildup.Stack) {
	for i := range s[1:] {
		if layer := s[i+1]; layer.Kind.Facts().Stage <= stage {
			out = append(out, layer)
		}
	}
	return out
}

// leastDimensionMM is the thinnest layer that is dimensioned.
const leastDimensionMM = 8

// thicknessKey is the parameter that a layer's thickness at a place is; empty where none is.
func thicknessKey(r *geometry.Result, layer *buildup.Course) string {
	j := r.Settled
	key := layer.Kind.Facts().ThicknessKey
	switch p, ok := job.Find(key); {
	case layer.Kind == buildup.Base:
		if j.Base.Support == job.BetweenJoists || len(r.Heights.Stack.BoardsMM()) > 1 {
			return "" // the number is of what stands over the deck, or of the whole stack
		}
	case ok && math.Abs(p.Get(j)-layer.ThicknessMM()) > 0.05:
		return "" // the number is of another place, as a former's up its fall
	}
	return key
}

// seal dimensions the trap's seal at a distance along the drawing.
func (d *Drawing) seal(r geometry.Result, at float64, side plan.Point) {
	const leastMM = 1
	t := r.Heights.Trap(&r.Settled, &r.Layout)
	if t.SealMM < leastMM {
		return
	}
	key := ""
	if math.Abs(t.SealMM-r.Settled.Drain.SealMM) < plan.HairMM {
		key = "drain.sealMM"
	}
	rise := math.Max(1, d.Rise) // of a drawing that exaggerates heights
	text := message.Of("dimension.seal", message.Layer("seal", t.SealMM))
	d.Dimensions = append(d.Dimensions, Dimension{From: plan.Point{at, t.DipMM * rise}, To: plan.Point{at, t.WaterMM * rise},
		Text: text, Row: 1, Side: side, Key: key})
}
