// Package buildup holds the layers of a floor, from the structure up to the
// tile, wherever one stands: under the shower, on a ramp, in the room. Levels,
// schedule, bodies, sections and loads all read it.
package buildup

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Layer is one layer over the whole of its zone.
type Layer struct {
	Kind        Kind
	Bottom, Top solid.Surface
	// Material is what it is made of in this job.
	Material material.Material
	// Number of a layer of a list, from one: of the courses under a finish or a base, or
	// of what was found on the floor, as the job states it. 0 for any other.
	Number int
	Name   message.ID // in a list of layers
	// Without are places of the zone that the layer leaves out: boards between
	// joists where a joist is.
	Without []plan.Region
}

// leavesOut tells whether there is none of the layer at a plan point.
func (l Layer) leavesOut(p plan.Point) bool {
	for _, r := range l.Without {
		if r.Contains(p, 0) {
			return true
		}
	}
	return false
}

// Zone is a part of the floor in plan with one order of layers.
type Zone struct {
	// Region may reach into the zones before it, which come first.
	Region plan.Region
	Layers []Layer // from the structure up, each on the one before; never empty
	// Start is what the first layer lies on.
	Start solid.Surface
	// Edge is the index of the open edge that a part of a ramp lies at, else -1.
	Edge int
}

// Top is the surface of the zone's last layer.
func (z *Zone) Top() solid.Surface { return z.Layers[len(z.Layers)-1].Top }

// Floor is the build-up of a job's whole floor.
type Floor struct {
	// Zones in the order that decides which one a point is in: the shower, the
	// ramps, the rest of the room.
	Zones []Zone

	job     job.Job
	layout  layout.Layout
	heights level.Heights
	// planes are those of its surfaces, joists what boards between them leave out.
	planes []solid.Plane
	joists []plan.Region
}

// Of is the build-up of a job whose heights are solved. Thicknesses are plumb;
// at falls up to 1:20 they differ from those square to the tile by 0.13 %.
func Of(j job.Job, l layout.Layout, h level.Heights) Floor {
	var f Floor
	f.Set(&j, &l, &h)
	return f
}

// Set makes a floor that of another job, as Of would, in the room it has.
func (f *Floor) Set(j *job.Job, l *layout.Layout, h *level.Heights) {
	f.job, f.layout, f.heights = *j, *l, *h
	f.Zones, f.planes = slices.Grow(f.Zones[:0], 2), slices.Grow(f.planes[:0], 2*mostLayers)
	f.shower()
	if j.Former.Fall == job.FallRoom {
		return
	}
	for _, facet := range h.RampFacets(j, l) {
		f.ramp(facet)
	}
	f.room()
}

// noLayerMM is under which thickness a layer has run out: what rounding leaves.
const noLayerMM = 1e-9

// mostLayers is how many layers a zone has at most.
const mostLayers = 14 + 4*8

// begin adds a zone without layers, which starts on a surface.
func (f *Floor) begin(region plan.Region, start solid.Surface, edge int) {
	n := len(f.Zones)
	f.Zones = slices.Grow(f.Zones, 1)[:n+1]
	z := &f.Zones[n]
	*z = Zone{Region: region, Start: start, Edge: edge, Layers: slices.Grow(z.Layers[:0], mostLayers)}
}

// on adds a layer to the zone begun last, on those there are.
func (f *Floor) on(k Kind, top solid.Surface, without ...plan.Region) {
	z := &f.Zones[len(f.Zones)-1]
	bottom := z.Start
	if n := len(z.Layers); n > 0 {
		bottom = z.Layers[n-1].Top
	}
	z.Layers = append(z.Layers, Layer{Name: k.Facts().Name, Kind: k, Bottom: bottom, Top: top, Material: f.materialOf(k), Without: without})
}

// upper is the surface of the layers there are of the zone begun last.
func (f *Floor) upper() solid.Surface {
	z := &f.Zones[len(f.Zones)-1]
	if n := len(z.Layers); n > 0 {
		return z.Layers[n-1].Top
	}
	return z.Start
}

// listed adds a layer of a list, by its number from one, on those there are.
func (f *Floor) listed(k Kind, number int, name message.ID, m material.Material, mm float64) {
	f.on(k, f.raised(f.upper(), mm))
	z := &f.Zones[len(f.Zones)-1]
	l := &z.Layers[len(z.Layers)-1]
	l.Number, l.Name, l.Material = number, name, m
}

// courses adds the courses of a place.
func (f *Floor) courses(k Kind, courses []job.Course) {
	for i := range courses {
		c := &courses[i]
		name, of := CourseFacts(c.Kind)
		f.listed(k, i+1, name, of, c.ThicknessMM)
	}
}

// found adds what was found on the structural floor and stays there, under the shower or
// in the room.
func (f *Floor) found(inShower bool) { f.foundIn(inShower, func(int) bool { return true }) }

// foundIn adds those of them that are wanted, by their index.
func (f *Floor) foundIn(inShower bool, wanted func(int) bool) {
	kind := Existing
	if inShower {
		kind = ExistingUnder
	}
	for i, e := range f.job.Floor.Existing {
		if shower, room := f.job.Floor.Where(i); (inShower && shower || !inShower && room) && wanted(i) {
			name, of := existingFacts(e.Kind)
			f.listed(kind, i+1, name, of, e.ThicknessMM)
		}
	}
}

// materialOf is what a kind of layer is made of in the job: boards, or mortar in their
// place.
func (f *Floor) materialOf(k Kind) material.Material {
	switch {
	case f.job.Base.Screed && (k == Base || k == RoomBase), f.job.Former.Mortar && k == Former:
		return material.Mortar
	}
	return k.Facts().Material
}

// raised is a surface moved up, among the floor's own.
func (f *Floor) raised(s solid.Surface, byMM float64) solid.Surface {
	from := len(f.planes)
	for _, p := range s {
		f.planes = append(f.planes, p.Raised(byMM))
	}
	return solid.Surface(f.planes[from:len(f.planes):len(f.planes)])
}

// level is a level surface, among the floor's own.
func (f *Floor) level(mm float64) solid.Surface { return f.flat(solid.Plane{Level: mm}) }

// flat is a surface of one plane, among the floor's own.
func (f *Floor) flat(p solid.Plane) solid.Surface {
	f.planes = append(f.planes, p)
	return solid.Surface(f.planes[len(f.planes)-1 : len(f.planes) : len(f.planes)])
}

// finish adds courses, tanking, bed and tile on a surface. Where the room's tanking does not
// reach, the bed takes up its thickness; ramps are tanked whole.
func (f *Floor) finish(with *job.Finish, course, tanking, bed, tile Kind, on solid.Surface) {
	f.courses(course, with.Under)
	at := with.UnderMM()
	for _, l := range [...]struct {
		kind Kind
		mm   float64
	}{{tanking, with.Tanking.ThicknessMM}, {bed, with.Bed.ThicknessMM}, {tile, with.Tile.ThicknessMM}} {
		at += l.mm
		if l.kind == RoomTanking && f.Zones[len(f.Zones)-1].Edge < 0 && len(f.layout.Untanked) > 0 {
			f.on(l.kind, f.raised(on, at), f.layout.Untanked)
			continue
		}
		f.on(l.kind, f.raised(on, at))
	}
}

// shower adds the falling floor. Let in between joists it stands on their tops,
// and between them on boards on battens; the deck is cut out.
func (f *Floor) shower() {
	j, l, h := &f.job, &f.layout, &f.heights
	if j.Base.Support == job.BetweenJoists {
		joistTop := h.JoistTopMM(j)
		f.begin(l.FallArea, f.level(h.LedgerTopMM(j)), -1)
		f.joists = f.joists[:0]
		for i := range l.Joists {
			f.joists = append(f.joists, l.Joists[i].Footprint)
		}
		f.on(BaseBetweenJoists, f.level(joistTop), f.joists...)
	} else {
		f.begin(l.FallArea, f.flat(h.Survey.Floor.Raised(-j.SetDown())), -1)
		f.found(true)
		f.courses(BaseCourse, j.Base.Under)
		f.on(BaseBed, f.level(h.BaseUnderMM))
	}
	at := h.FootMM(j)
	for boards := h.Stack.BoardsMM(); len(boards) > 1; boards = boards[1:] {
		at += boards[0]
		f.on(LowerBoard, f.level(at))
		at += h.Stack.BetweenMM
		f.on(BoardBed, f.level(at))
	}
	f.on(Base, f.level(h.BaseTopMM))
	f.on(FormerBed, f.level(h.FormerMM))
	top := f.raised(l.Fall, h.FlangeMM)
	f.on(Former, top)
	f.finish(&j.Layers.Shower, ShowerCourse, ShowerTanking, ShowerBed, ShowerTile, top)
}

// ramp adds a part of a ramp: the room's finish on a wedge of mortar that tapers to its
// foot. A finish that stays uppermost in the room is taken up under it.
func (f *Floor) ramp(facet level.RampFacet) {
	finish := &f.job.Layers.Room
	f.begin(facet.Region, f.flat(f.heights.Survey.Floor), facet.Edge)
	top, kept := f.job.Floor.TopFinish()
	f.foundIn(false, func(i int) bool { return !kept || i != top })
	base := f.flat(facet.Plane.Raised(-finish.ThicknessMM()))
	f.on(RampBase, base)
	f.finish(finish, RoomCourse, RoomTanking, RoomBed, RoomTile, base)
}

// room adds the floor outside the shower and its ramps.
func (f *Floor) room() {
	j, h := &f.job, &f.heights
	f.begin(f.layout.Room, f.flat(h.Survey.Floor), -1)
	f.found(false)
	switch {
	case !math.IsNaN(h.RoomTopMM):
		base := f.roomBase()
		f.finish(&j.Layers.Room, RoomCourse, RoomTanking, RoomBed, RoomTile, base)
	case !j.Floor.KeepsFinish():
		f.finish(&j.Layers.Room, RoomCourse, RoomTanking, RoomBed, RoomTile, f.upper())
	}
}

// roomBase adds the base of a raised room, and gives its top. Where no board fits between the highest spot of its
// floor and the finish, levelling compound makes it up: boards cannot be sawn to a wedge that runs out to nothing.
func (f *Floor) roomBase() solid.Surface {
	h := &f.heights
	top := f.level(h.RoomTopMM - f.job.Layers.Room.ThicknessMM())
	b, boarded := h.RoomBase(&f.job, &f.layout)
	if !boarded && !f.job.Base.Screed {
		f.on(RoomLevelling, top)
		return top
	}
	if boarded {
		f.on(RoomBaseBed, f.level(b.UnderMM))
		at := b.UnderMM
		for boards := b.Stack.BoardsMM(); len(boards) > 1; boards = boards[1:] {
			at += boards[0]
			f.on(RoomLowerBoard, f.level(at))
			at += b.Stack.BetweenMM
			f.on(RoomBoardBed, f.level(at))
		}
	}
	f.on(RoomBase, top)
	return top
}

// Course is one layer at one plan point.
type Course struct {
	Kind            Kind
	BottomMM, TopMM float64
	Material        material.Material // none of the structure
	Name            message.ID
	Number          int // of a layer of a list, from one; 0 for any other
}

// ThicknessMM of the course, plumb.
func (c Course) ThicknessMM() float64 { return c.TopMM - c.BottomMM }

// Stack is the build-up at one plan point; its first course is the structure,
// without thickness.
type Stack []Course

// TopMM is the finished level.
func (s Stack) TopMM() float64 { return s[len(s)-1].TopMM }

// Chain is the thicknesses of the courses, told in half millimetres so that they make the height of
// all of them as it is told, in whole ones where that can be.
func (s Stack) Chain() message.Chain {
	c := message.Chain{PartsMM: make([]float64, len(s)), Round: message.Half, Whole: message.Whole}
	for i := range s {
		c.PartsMM[i] = s[i].ThicknessMM()
	}
	return c
}

// tolerance with which a point on the border of a zone counts as in it, mm:
// corners of regions lie on a grid of a ten-thousandth.
const borderMM = 1e-6

// ZoneAt is the zone a point is in, by its index; the last for a point outside
// all. It is the same for all jobs that are the same in plan, but for parts of ramps.
func (f *Floor) ZoneAt(p plan.Point) int {
	for i := range f.Zones {
		if f.Zones[i].Region.Contains(p, borderMM) {
			return i
		}
	}
	return len(f.Zones) - 1
}

func (f *Floor) zone(p plan.Point) *Zone { return &f.Zones[f.ZoneAt(p)] }

// LayersAt are the layers there are at a plan point, each over the whole of its
// zone, from the structure up; one may have run out to nothing.
func (f *Floor) LayersAt(p plan.Point) []Layer {
	var out []Layer
	for _, l := range f.zone(p).Layers {
		if !l.leavesOut(p) {
			out = append(out, l)
		}
	}
	return out
}

// At is the build-up at a plan point of the room. Each course lies on the one
// before; a layer that has run out to nothing there, or would lie under those
// before it, is no course.
func (f *Floor) At(p plan.Point) Stack {
	z := f.zone(p)
	return z.at(p, make(Stack, 0, len(z.Layers)+1))
}

// BesideJoists is the build-up at a plan point as it is between joists: on one as it is beside it, on the boards let in there.
func (f *Floor) BesideJoists(p plan.Point) Stack {
	z := *f.zone(p)
	z.Layers = slices.Clone(z.Layers)
	for i := range z.Layers {
		if z.Layers[i].Kind == BaseBetweenJoists {
			z.Layers[i].Without = nil
		}
	}
	return z.at(p, make(Stack, 0, len(z.Layers)+1))
}

// at is the build-up at a point of the zone, put into the room of an empty
// stack.
func (z *Zone) at(p plan.Point, room Stack) Stack {
	out := append(room, Course{Kind: Structure, BottomMM: math.NaN(), TopMM: math.NaN(), Name: Structure.Facts().Name})
	for i := range z.Layers {
		l := &z.Layers[i]
		if l.leavesOut(p) {
			continue
		}
		if math.IsNaN(out[0].TopMM) {
			// On a joist the boards between joists leave out, the next stand; what the tanking
			// leaves out, the bed fills.
			on := z.Start.At(p)
			if i > 0 && z.Layers[i-1].Kind == BaseBetweenJoists {
				on = l.Bottom.At(p)
			}
			out[0].BottomMM, out[0].TopMM = on, on
		}
		bottom, top := out.TopMM(), l.Top.At(p)
		if top-bottom > noLayerMM {
			out = append(out, Course{l.Kind, bottom, top, l.Material, l.Name, l.Number})
		}
	}
	return out
}

// FinishedMM is the finished level at a plan point of the room.
func (f *Floor) FinishedMM(p plan.Point) float64 { return f.FinishedIn(f.ZoneAt(p), p) }

// FinishedIn is the finished level at a point of a zone given by its index.
func (f *Floor) FinishedIn(zone int, p plan.Point) float64 {
	z := &f.Zones[zone]
	// The highest of the layers there are; mostly the last.
	finished, found := 0.0, false
	for i := len(z.Layers) - 1; i >= 0; i-- {
		l := &z.Layers[i]
		if top := l.Top.At(p); (!found || top > finished+noLayerMM) && !l.leavesOut(p) {
			finished, found = top, true
		}
	}
	if !found || finished < z.Start.At(p) || finished < z.Layers[0].Top.At(p) {
		// Layers that have sunk under what they stand on.
		var room [mostLayers + 1]Course
		return z.at(p, room[:0]).TopMM()
	}
	return finished
}

// gravityMS2 is the standard acceleration of free fall. ISO 80000-3, rounded.
const gravityMS2 = 9.81

// AddedKNM2 is the dead load that what lies on the structural floor, new or found there,
// brings on a square metre at a plan point.
func (f *Floor) AddedKNM2(p plan.Point) float64 {
	kgM2 := 0.0
	for _, c := range f.At(p) {
		kgM2 += c.ThicknessMM() / 1000 * c.Material.DensityKGM3()
	}
	return kgM2 * gravityMS2 / 1000
}
