// Package furnish says what stands, hangs and lies in a bathroom when it is finished: what its job states,
// and around that a few things that make it a room to live in, where the job leaves room for them. It also says
// where daylight comes in and where lamps are. All of it follows from a result, by rules; it is part of no
// quantity, no measurement and no finding.
package furnish

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Kind is what an object is.
type Kind string

// The kinds of object. The first four stand where the job states them.
const (
	Basin    Kind = "basin" // hung on the wall, nothing under it
	Toilet   Kind = "toilet"
	Radiator Kind = "radiator"
	Cupboard Kind = "cupboard"
	Casing   Kind = "casing" // round an upright pipe
	Vanity   Kind = "vanity" // a cabinet on the wall with a bowl on it
	Mirror   Kind = "mirror"
	Towels   Kind = "towels" // over a rail on the wall
	Stool    Kind = "stool"
	Mat      Kind = "mat"
	Plant    Kind = "plant"
	Pendant  Kind = "pendant" // a lamp that hangs from the ceiling
	Vase     Kind = "vase"    // on a window sill
	Niche    Kind = "niche"   // let into a tiled wall of the shower, with bottles; else a shelf on it
)

// Object is a thing in its place. In plan it takes a rectangle: At is the middle of its back, Out the direction
// it faces, square to it.
type Object struct {
	Kind    Kind
	At, Out plan.Point
	WidthMM float64
	DepthMM float64
	// FromMM and ToMM are the levels that it stands between.
	FromMM, ToMM float64
	// Wall is the wall that it stands or hangs at, by its index; -1 for none.
	Wall int
	// Stated tells that the job states it, there.
	Stated bool
	// Other tells that it is of the other of its kind's two designs.
	Other bool
	// MovedMM is how far the user moved it along its width, to the right of who looks at it.
	MovedMM float64
}

// Along is the direction of its width, to the right of who looks at it.
func (o Object) Along() plan.Point { return plan.Left(o.Out) }

// Footprint is what it takes in plan.
func (o Object) Footprint() plan.Ring {
	half, deep := o.Along().Mul(o.WidthMM/2), o.Out.Mul(o.DepthMM)
	return plan.Ring{o.At.Sub(half), o.At.Add(half), o.At.Add(half).Add(deep), o.At.Sub(half).Add(deep)}
}

// Middle of its footprint.
func (o Object) Middle() plan.Point { return o.At.Add(o.Out.Mul(o.DepthMM / 2)) }

// Room is a finished bathroom's furniture.
type Room struct {
	Objects []Object
	// Windows are those of the job, or the one that a rule puts in where it states none; empty where there is
	// no wall for it.
	Windows []job.Window
	Lamps   []Lamp
}

// LampKind is how a lamp gives light.
type LampKind string

// The kinds of lamp.
const (
	Downlight LampKind = "downlight" // let into the ceiling
	Globe     LampKind = "globe"     // a pendant's
	Strip     LampKind = "strip"     // along an edge
	Halo      LampKind = "halo"      // round the edge of a mirror, onto the wall behind it
)

// Lamp is where electric light comes from.
type Lamp struct {
	Kind LampKind
	// At is its middle, at LevelMM; Along is the direction of a strip or a halo, LengthMM how long it is, or how wide a globe or a halo.
	At       plan.Point
	LevelMM  float64
	Along    plan.Point
	LengthMM float64
}

// Of furnishes a result without problems.
//
// Method: what the job states first; then one thing after the other at the best of the places that are free for
// it, and not at all where none is. What the user had otherwise is then taken away, swapped or moved.
func Of(r *geometry.Result) Room {
	f := floorOf(r)
	out := Room{Windows: f.windows()}
	for _, w := range out.Windows {
		f.block(f.alongWall(w.Wall, w.OffsetMM, w.OffsetMM+w.WidthMM, windowFreeMM), w.SillMM-sillMM, w.SillMM+w.HeightMM)
	}
	f.furniture()
	f.onSills(out.Windows)
	f.niche(out.Windows)
	f.had(r.Settled.Shown(), out.Windows)
	out.Objects = f.placed
	out.Lamps = f.lamps()
	return out
}

// Sizes that keep things apart. Common practice, no source, but where it says so.
const (
	besideMM     = 30  // between things on a wall
	gapMM        = 5   // between anything and anything
	windowFreeMM = 120 // before a window
	sillMM       = 40
	wayFreeMM    = 700 // before the way into the shower
	doorFreeMM   = 600 // before a doorway
	architraveMM = 80  // on either side of a doorway
	useFreeMM    = 550 // before a basin or a toilet
	// lampFreeMM is how far electrical things that hang low keep from the shower: zone 2 of IEC 60364-7-701
	// ends 600 from zone 1.
	lampFreeMM = 600
)

// FaceMM is how far what is on a wall stands off its bare face.
func FaceMM(r *geometry.Result) float64 {
	if r.Settled.Former.Fall == job.FallRoom {
		return r.Settled.Layers.Wall.ThicknessMM()
	}
	return 0
}

// highMM is the lowest ceiling over a ring.
func highMM(r *geometry.Result, ring plan.Ring) float64 {
	low := math.Inf(1)
	for _, p := range ring {
		low = math.Min(low, r.Layout.CeilingAt(p))
	}
	return low
}
