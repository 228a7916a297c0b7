// Package assembly turns a job with its plan and its heights into an assembly:
// every part a closed solid with its true cut-outs, a material, a precedence
// for sections and the stage of the work it belongs to.
package assembly

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"
	"sync"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/parallel"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// Part is one body of the assembly.
type Part struct {
	ID       string // unique in the assembly
	Name     message.Message
	Material material.Material
	Stage    buildup.Stage
	// Precedence decides which of two overlapping parts a section shows: the
	// greater one.
	Precedence int
	// From is the part of the job it comes from, a key of its file.
	From  string
	Shape solid.Shape
	// Finish is the tile of parts of tile.
	Finish *job.Finish
	// Wall is the wall the part belongs to, counted from one; 0 for none.
	Wall   int
	mesh   func() *solid.Mesh
	bounds func() solid.Box
}

// Mesh of the part, made once.
func (p Part) Mesh() *solid.Mesh { return p.mesh() }

// Bounds of the part, worked out once.
func (p Part) Bounds() solid.Box { return p.bounds() }

// Precedences, least first.
const (
	precedenceWall = iota
	precedenceFloor
	precedenceAdhesive
	precedenceBase
	precedenceFormer
	precedenceLayer
	precedenceTile
	precedencePipe
	precedenceTrap
)

// Assembly is all parts, in the order they are built.
type Assembly struct{ Parts []Part }

// Bounds of all parts.
func (a Assembly) Bounds() solid.Box {
	b := solid.EmptyBox()
	for _, p := range a.Parts {
		b = b.Join(p.Bounds())
	}
	return b
}

type builder struct {
	job     job.Job
	layout  layout.Layout
	heights level.Heights
	floor   buildup.Floor
	cuts    []joist.Crossing
	parts   []Part
	// wallFinish are the plan strips the wall's finish takes in the shower;
	// they meet in corners.
	wallFinish []plan.Region
	// wallJoints are those of the gap between it and the floor's tile.
	wallJoints []plan.Region
	channel    plan.Region
	// recess is cut into the boards' tops for the drain's channel; nil where the
	// channel stays over them or they are not being laid.
	recess plan.Region
	// lying is where water stops lie in the bed of the shower's tile.
	lying plan.Region
	// boards are the falling floor beside the channel.
	boards solid.Sheet
	shaper *plan.Shaper
	// boxes are those over the run in the room.
	boxes []boxed
	// hole is the core hole, once it is known.
	hole  plan.Region
	holed bool
}

// Assemble builds all parts, those that do not wait for each other side by side.
// Where the shaper fails parts are missing and the assembly must not be used; where
// it does not, every part can be meshed. The error is a fault of the program.
func Assemble(j job.Job, l layout.Layout, h level.Heights, f buildup.Floor, cuts []joist.Crossing, sh *plan.Shaper) (Assembly, error) {
	common := builder{job: j, layout: l, heights: h, floor: f, cuts: cuts, shaper: sh}
	common.channel = common.channels()
	beside := message.Of("shape.base-beside-channel")
	common.boards = common.without(common.round(l.FallArea, beside), common.channel, beside)
	common.boxes = common.boxesInPlan()
	steps := []func(*builder){(*builder).structure, (*builder).walls, (*builder).base, (*builder).drainAndTrap, (*builder).waste,
		(*builder).former, (*builder).finishes, (*builder).room, (*builder).standing}
	builders, shapers := make([]builder, len(steps)), sh.Parts(len(steps))
	err := parallel.Each(context.Background(), len(steps), func(i int) error {
		builders[i] = common
		builders[i].shaper = &shapers[i]
		steps[i](&builders[i])
		return nil
	})
	sh.Join(shapers)
	var a Assembly
	for i := range builders {
		a.Parts = append(a.Parts, builders[i].parts...)
	}
	return a, err
}

// Same tells whether two settled jobs of one layout and the same levels have the
// same parts, since they differ in nothing else that Assemble reads. What it does not
// know counts as read.
func Same(a, b job.Job) bool { return reflect.DeepEqual(read(a), read(b)) }

// read is a job without what Assemble does not read.
func read(j job.Job) job.Job {
	j.Version, j.Name, j.Notes, j.Region, j.Units, j.Accessible, j.Standings = 0, "", "", "", "", false, nil
	j.Water, j.Tolerances, j.AsBuilt = job.Water{}, job.Tolerances{}, job.AsBuilt{}
	j.State, j.Room.North, j.Room.Fixtures, j.Picture = 0, nil, nil, nil
	j.Floor.Joists.Timber, j.Parts = nil, job.Parts{}
	if j.Shower.Head = nil; j.ScreenStopMM() == 0 {
		j.Shower.Screens = nil
	}
	j.Drain.CapacityLPS, j.Drain.CapacityHeadMM, j.Drain.CapacityCurve = 0, 0, nil
	return j
}

// finishes are the walls' and then the floor's, which ends at them.
func (b *builder) finishes() {
	b.wallFinishes()
	b.floorFinishes()
	b.doorStops()
	b.upturns()
}

func (b *builder) add(p Part) {
	shape := p.Shape
	p.mesh = sync.OnceValue(shape.Mesh)
	p.bounds = sync.OnceValue(shape.Bounds)
	b.parts = append(b.parts, p)
}

// subtract, intersect and sheet are the shaper's; what names the shape.
func (b *builder) subtract(from, less plan.Region, what message.Message) plan.Region {
	return b.shaper.Subtract(from, less, what)
}

func (b *builder) intersect(a, c plan.Region, what message.Message) plan.Region {
	return b.shaper.Intersect(a, c, what)
}

// where is the part of a region where an affine function is not negative, with an outline
// that can be covered: the box round the region is cut by it, which leaves one piece. Corners
// are put on the grid, so that the function may fall a hair below.
func (b *builder) where(region plan.Region, side func(plan.Point) float64, what message.Message) plan.Region {
	low, high, ok := region.Bounds()
	if !ok {
		return nil
	}
	box := plan.FromRing(plan.Ring{low, {high.X(), low.Y()}, high, {low.X(), high.Y()}})
	cut := box.Where(side)
	if cut.Area() == box.Area() {
		return region
	}
	return b.intersect(region, cut, what)
}

func (b *builder) sheet(region plan.Region, what message.Message) solid.Sheet {
	return solid.Cover(b.shaper, region, what)
}

// without is a region less what is taken out of it.
func (b *builder) without(from, less plan.Region, what message.Message) solid.Sheet {
	return b.sheet(b.subtract(from, less, what), what)
}

// addPrism adds a prism unless there is nothing of it. It may run out to nothing
// at an edge, as a bed on a floor that falls does.
func (b *builder) addPrism(
	id string, name message.Message, m material.Material, s buildup.Stage, precedence int, from string,
	sheet solid.Sheet, bottom, top solid.Surface,
) {
	if !stands(sheet, bottom, top) {
		return
	}
	b.add(Part{ID: id, Name: name, Material: m, Stage: s, Precedence: precedence, From: from, Shape: b.recessed(sheet, m, bottom, top, name)})
}

// stands tells whether there is something between two surfaces over a sheet, and the top
// nowhere below the bottom.
func stands(sheet solid.Sheet, bottom, top solid.Surface) bool {
	const sameMM = 1e-6
	least, most := solid.Between(sheet.Region(), bottom, top)
	return least >= -sameMM && most >= sameMM
}

// leastWebMM is the least of a board that is left under a recess; less breaks out.
// Common practice, no source.
const leastWebMM = 6

// recessed is a layer of boards with its top cut back where the drain's channel
// reaches below it, or cut through where too little would be left. Only flat layers are:
// the channel in any other is a clash.
func (b *builder) recessed(sheet solid.Sheet, m material.Material, bottom, top solid.Surface, what message.Message) solid.Shape {
	whole := solid.Upright(sheet, bottom, top)
	under := b.heights.ChannelMM
	if b.recess == nil || !flat(bottom) || !flat(top) || top[0].Level <= under {
		return whole
	}
	beside := b.without(sheet.Region(), b.recess, what)
	web := under - bottom[0].Level
	if web <= 0 || m == material.BaseBoard && web < leastWebMM {
		return solid.Upright(beside, bottom, top)
	}
	return solid.Compound{solid.Upright(sheet, bottom, solid.Level(under)), solid.Upright(beside, solid.Level(under), top)}
}

// flat tells whether a surface is one level plane.
func flat(s solid.Surface) bool { return len(s) == 1 && s[0].Gradient() == 0 }

// grown is a region around another one's corners: exact for convex outlines.
func grown(r plan.Region, by float64) plan.Region {
	if len(r) == 0 || by <= 0 {
		return r
	}
	c := r.Centroid()
	ring := make(plan.Ring, len(r[0].Outer))
	n := len(ring)
	for i := range n {
		p, q, s := r[0].Outer[(i+n-1)%n], r[0].Outer[i], r[0].Outer[(i+1)%n]
		u, v := q.Sub(p).Normalize(), s.Sub(q).Normalize()
		a, d := plan.Left(u).Mul(-by), plan.Left(v).Mul(-by)
		if t, _, ok := plan.MeetLines(q.Add(a), u, q.Add(d), v); ok {
			ring[i] = q.Add(a).Add(u.Mul(t))
		} else {
			ring[i] = q.Add(q.Sub(c).Normalize().Mul(by))
		}
	}
	return plan.FromRing(ring)
}

// dropHole is the hole through the floor for a run that leaves through it, or what an existing
// pipe that lies in the floor takes of it.
func (b *builder) dropHole() plan.Region {
	run := &b.heights.Run
	if len(run.Pieces) == 0 {
		return nil
	}
	if b.job.Waste.Exit.Kind == job.ExitFloor {
		return plan.FromRing(plan.Circle(run.Exit, DropHoleRadiusMM(run, b.job.Waste.HoleRoomMM), solid.ChordErrorMM))
	}
	last := &run.Pieces[len(run.Pieces)-1]
	if last.ToInvertMM-last.Gradient()*oldPipeMM-run.Outgoing().WallMM() < b.heights.Survey.Floor.At(run.Exit) {
		return b.oldPipeStrip()
	}
	return nil
}

// DropHoleRadiusMM is half the hole through the floor for a run that drops through it, with
// so much room round the pipe: the socket of the bend down may come to lie in it.
func DropHoleRadiusMM(run *waste.Run, roomMM float64) float64 {
	return math.Max(run.Outgoing().OutsideDiameterMM/2+roomMM, run.Pieces[len(run.Pieces)-1].RadiusMM())
}

// slab is one thickness, or a lower and an upper one where it is set down.
func (b *builder) slab(drop plan.Region) {
	what, floor := message.Of("shape.slab"), solid.Surface{b.heights.Survey.Floor}
	under, down := floor.Raised(-b.job.Floor.SlabThicknessMM), b.job.SetDown()
	whole := b.without(b.round(b.layout.Room, what), drop, what)
	if down == 0 {
		b.addPrism("slab", message.Of("part.slab"), material.Concrete, buildup.StageBare, precedenceFloor, "floor.slabThicknessMM",
			whole, under, floor)
		return
	}
	beside := b.without(b.round(b.layout.Rest, what), drop, what)
	b.add(Part{ID: "slab", Name: message.Of("part.slab"), Material: material.Concrete, Stage: buildup.StageBare,
		Precedence: precedenceFloor, From: "floor.setDownMM",
		Shape: solid.Compound{solid.Upright(whole, under, floor.Raised(-down)), solid.Upright(beside, floor.Raised(-down), floor)}})
}

func (b *builder) structure() {
	j, l, h := b.job, b.layout, b.heights
	floor, drop := solid.Surface{h.Survey.Floor}, b.dropHole()
	if j.Floor.Kind == job.FloorSlab {
		b.slab(drop)
		return
	}
	what := message.Of("shape.deck")
	deck := b.subtract(b.round(l.Room, what), drop, what)
	if j.Base.Support == job.BetweenJoists {
		deck = b.subtract(deck, l.FallArea, what)
	}
	b.addPrism("deck", message.Of("part.deck"), material.Deck, buildup.StageBare, precedenceFloor, "floor.deck.thicknessMM",
		b.sheet(deck, what), floor.Raised(-j.Floor.Deck.ThicknessMM), floor)
	for _, js := range l.Joists {
		b.add(Part{ID: js.ID(), Name: js.Name(), Material: material.Timber, Stage: buildup.StageBare,
			Precedence: precedenceFloor, From: "floor.joists.depthMM", Shape: b.joist(js)})
	}
}

// joist is a beam with its holes and notches, as a profile extruded over its
// width.
func (b *builder) joist(js layout.Joist) solid.Shape {
	j := b.job
	top := func(u float64) float64 { return joist.TopMM(&j, &b.heights, &js, js.Origin.Add(js.Along.Mul(u))) }
	depth := j.Floor.Joists.DepthMM
	what := js.Shape()
	start, end := top(js.FromMM), top(js.ToMM)
	profile := plan.FromRing(plan.Ring{{js.FromMM, start - depth}, {js.ToMM, end - depth}, {js.ToMM, end}, {js.FromMM, start}})
	for _, c := range b.cuts {
		if c.Joist.Index != js.Index {
			continue
		}
		ring := c.Outline(solid.ChordErrorMM)
		if c.Kind == joist.Notch {
			// Sawn down from the top edge.
			low, high, _ := (plan.Region{{Outer: ring}}).Bounds()
			ring = plan.Hull(append(ring, plan.Point{low.X(), c.TopMM + depth}, plan.Point{high.X(), c.TopMM + depth}))
		}
		profile = b.subtract(profile, plan.FromRing(ring), what)
	}
	origin := js.Origin.Add(plan.Left(js.Along).Mul(js.WidthMM / 2))
	return solid.Prism{Frame: solid.UprightFrame(mgl64.Vec3{origin.X(), origin.Y(), 0}, js.Along), Sheet: b.sheet(profile, what),
		Bottom: solid.Level(0), Top: solid.Level(js.WidthMM)}
}

// wallFootMM is how far walls are drawn below the floor.
func (b *builder) wallFootMM() float64 {
	if b.job.Floor.Kind == job.FloorSlab {
		return b.heights.Survey.Floor.Level - b.job.Floor.SlabThicknessMM
	}
	return b.heights.Survey.Floor.Level - b.job.Floor.Deck.ThicknessMM - b.job.Floor.Joists.DepthMM
}

// wallProfile is a wall's face in (distance along, level) with windows, doorways and
// the hole for the waste taken out.
func (b *builder) wallProfile(w layout.Wall, face plan.Region, what message.Message) solid.Sheet {
	for _, o := range b.job.Room.Windows {
		if o.Wall == w.Index {
			opening := plan.Rectangle(plan.Point{o.OffsetMM, o.SillMM}, plan.Point{o.OffsetMM + o.WidthMM, o.SillMM + o.HeightMM})
			face = b.subtract(face, opening, what)
		}
	}
	for _, d := range b.job.Room.Doorways {
		if d.Wall == w.Index {
			sill := math.Min(d.NeighbourFFLMM, 0)
			opening := plan.Rectangle(plan.Point{d.OffsetMM, sill}, plan.Point{d.OffsetMM + d.WidthMM, d.NeighbourFFLMM + d.HeightMM})
			face = b.subtract(face, opening, what)
		}
	}
	if w.Index+1 != b.heights.Run.Wall {
		return b.sheet(face, what)
	}
	if !b.holed {
		b.hole, b.holed = b.coreHole(w), true
	}
	return b.without(face, b.hole, what)
}

// coreHole is the hole for the waste in the face of the wall that it goes out through.
func (b *builder) coreHole(w layout.Wall) plan.Region {
	hole := CoreHole(&b.heights.Run, w, b.job.Waste.HoleRoomMM)
	return plan.FromRing(hole.Outline(solid.ChordErrorMM))
}

// CoreHole is the hole that a levelled run leaves through, square through its wall:
// it holds the ellipses that the pipe, with so much room round it, makes on both faces.
// Distances are along the wall from its start.
func CoreHole(run *waste.Run, w layout.Wall, roomMM float64) joist.Crossing {
	pipe := run.Outgoing()
	face := func(at float64) plan.Point {
		return plan.Point{run.PointAt(at).Sub(w.A).Dot(w.Along), run.InvertAt(at) + pipe.BoreMM/2}
	}
	in, out := face(run.WallAtMM), face(run.OuterFaceAtMM(w.ThicknessMM, w.Outward))
	slant := joist.Slant{Along: (out.X() - in.X()) / w.ThicknessMM, Rise: (out.Y() - in.Y()) / w.ThicknessMM}
	return joist.Crossing{EntryMM: in.X(), EntryLevelMM: in.Y(), EntrySlant: slant, ExitMM: out.X(), ExitLevelMM: out.Y(), ExitSlant: slant,
		RadiusMM: pipe.OutsideDiameterMM/2 + roomMM}
}

// leastWallMM is how high a wall is drawn where the ceiling leaves nothing of it.
const leastWallMM = 1

// underCeiling is a stretch of a wall's face from a foot up to the ceiling, in (distance
// along, level).
func (b *builder) underCeiling(w layout.Wall, from, to, foot float64) plan.Region {
	ring := plan.Ring{{from, foot}, {to, foot}}
	for _, p := range slices.Backward(b.layout.CeilingBetween(w.At(from), w.At(to))) {
		ring = append(ring, plan.Point{from + p.X(), math.Max(p.Y(), foot+leastWallMM)})
	}
	return plan.FromRing(ring)
}

// WallMaterial is what a kind of wall is made of.
func WallMaterial(k job.WallKind) material.Material {
	if k == job.WallStud {
		return material.StudWall
	}
	return material.Masonry
}

func (b *builder) walls() {
	foot := b.wallFootMM()
	for _, w := range b.layout.Walls {
		of := WallMaterial(b.job.Room.Walls[w.Index].Kind)
		// The stretch where both faces run is one board with true holes, or two with a cavity
		// between; the mitres at its ends are wedges, which close a cavity.
		from, to := math.Max(0, w.OuterFromMM), math.Min(w.LengthMM, w.OuterToMM)
		what := message.Of("shape.wall", w.Name())
		shape := solid.Compound{}
		if to > from {
			face := b.wallProfile(w, b.underCeiling(w, from, to, foot), what)
			// The frame's third axis must point outwards.
			frame, flip := solid.UprightFrame(mgl64.Vec3{w.A.X(), w.A.Y(), 0}, w.Along), false
			if plan.Left(w.Along).Dot(w.Outward) > 0 {
				flip = true
			}
			if flip {
				frame = solid.UprightFrame(mgl64.Vec3{w.A.X() + w.Outward.X()*w.ThicknessMM, w.A.Y() + w.Outward.Y()*w.ThicknessMM, 0}, w.Along)
			}
			for _, leaf := range b.job.Room.Walls[w.Index].Leaves() {
				if face.Empty() {
					break
				}
				if flip {
					leaf.FromMM, leaf.ToMM = w.ThicknessMM-leaf.ToMM, w.ThicknessMM-leaf.FromMM
				}
				shape = append(shape, solid.Prism{Frame: frame, Sheet: face, Bottom: solid.Level(leaf.FromMM), Top: solid.Level(leaf.ToMM)})
			}
		}
		out := w.Outward.Mul(w.ThicknessMM)
		for _, wedge := range []plan.Ring{
			{w.At(0), w.At(from), w.At(from).Add(out), w.At(w.OuterFromMM).Add(out)},
			{w.At(to), w.At(w.LengthMM), w.At(w.OuterToMM).Add(out), w.At(to).Add(out)},
		} {
			head := math.Max(b.layout.CeilingAt(wedge[0]), foot+leastWallMM)
			if r := plan.FromRing(wedge); r.Area() > 1 {
				shape = append(shape, solid.Block(b.sheet(r, what), foot, head))
			}
		}
		if len(shape) > 0 {
			b.add(Part{ID: fmt.Sprintf("wall-%d", w.Index+1), Name: message.Of("part.wall", w.Name()), Material: of,
				Stage:      buildup.StageBare,
				Precedence: precedenceWall, From: fmt.Sprintf("room.walls[%d]", w.Index), Shape: shape, Wall: w.Index + 1})
		}
	}
}
