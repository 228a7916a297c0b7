package viewer

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// opening is a rectangle that daylight comes in by: its middle and half sides, whose cross product points into
// the room. It lies behind the window's frame, so far behind the wall's face.
type opening struct {
	centre, u, v mgl64.Vec3
	behindMM     float64
}

// inFront is the opening moved to just before the wall's face: for a room whose walls are shown as they are built.
func (o opening) inFront() opening {
	const offMM = 12
	o.centre = o.centre.Add(o.u.Cross(o.v).Normalize().Mul(o.behindMM + offMM))
	o.behindMM = -offMM
	return o
}

// hole is a rectangle in a wall's face: along the wall, and levels.
type hole struct{ fromMM, toMM, lowMM, highMM float64 }

// shell closes the finished room: the walls' inner faces up to the ceiling, skirtings where no tile comes down to the
// floor, doors, and windows with something to be seen outside.
func (s *Scene) shell(r *geometry.Result, old map[string]*Body) {
	const thickFloorMM = 60 // how far under the floor the faces begin
	p := paletteOf(r)
	paint := surface{parseColour(plaster), 0.95, 0, 1}
	white := surface{parseColour("#e6e3dd"), 0.6, 0, 1}
	job := &r.Settled
	foot, faceMM := math.Inf(1), furnish.FaceMM(r)
	for _, w := range r.Layout.Walls {
		for _, at := range []plan.Point{w.A, w.B, w.At(w.LengthMM / 2)} {
			foot = math.Min(foot, r.Floor.FinishedMM(at.Sub(w.Outward.Mul(1))))
		}
	}
	foot -= thickFloorMM
	for i := range r.Layout.Walls {
		w := &r.Layout.Walls[i]
		var holes []hole
		for _, d := range job.Room.Doorways {
			if d.Wall == i {
				holes = append(holes, hole{d.OffsetMM, d.OffsetMM + d.WidthMM, math.Min(foot, d.NeighbourFFLMM), d.NeighbourFFLMM + d.HeightMM})
			}
		}
		for _, o := range s.furnished.Windows {
			if o.Wall == i {
				holes = append(holes, hole{o.OffsetMM, o.OffsetMM + o.WidthMM, o.SillMM, o.SillMM + o.HeightMM})
			}
		}
		for _, o := range s.furnished.Objects {
			if o.Wall == i && recessed(o) {
				holes = append(holes, holeOf(w, o))
			}
		}
		ceiling := r.Layout.CeilingBetween(w.A, w.B)
		s.pieces(fmt.Sprintf("wall-%d", i), i, r, made{of: [3]any{*w, holes, [2]any{ceiling, foot}}}, func() []piece {
			f := alongWall(w)
			f.panel(w.LengthMM, foot, ceiling, holes)
			return []piece{{name: "face", look: paint, stuff: stuffPlain, form: f}}
		}, old)
		s.skirting(r, i, white, old)
		s.plinth(r, i, paint, old)
	}
	s.downlights(r, old)
	s.openTile(r, old)
	for i, d := range job.Room.Doorways {
		w := &r.Layout.Walls[d.Wall]
		s.pieces(fmt.Sprintf("door-%d", i), d.Wall, r, fromWall(w, d, p), func() []piece { return door(w, d, p, white, paint) }, old)
	}
	for i, o := range s.furnished.Windows {
		w := &r.Layout.Walls[o.Wall]
		s.pieces(fmt.Sprintf("window-%d", i), o.Wall, r, fromWall(w, o, faceMM), func() []piece { return window(w, o, faceMM, white) }, old)
		behind := furnish.RevealMM(o, w.ThicknessMM) + casementMM + 2
		at := w.At(o.OffsetMM + o.WidthMM/2).Add(w.Outward.Mul(behind))
		in, v := flat(w.Outward.Mul(-1)), mgl64.Vec3{0, 0, o.HeightMM / 2}
		s.daylight = append(s.daylight, opening{at.Vec3(o.SillMM + o.HeightMM/2), v.Normalize().Cross(in).Mul(o.WidthMM / 2), v, behind})
	}
}

// downlights are the rims and faces of the lamps that are let into the ceiling.
func (s *Scene) downlights(r *geometry.Result, old map[string]*Body) {
	const rimMM, faceMM = 52, 37
	p := paletteOf(r)
	n := 0
	for _, l := range s.furnished.Lamps {
		if l.Kind != furnish.Downlight {
			continue
		}
		at, first := l.At.Vec3(l.LevelMM), len(s.Bodies)
		s.pieces(fmt.Sprintf("downlight-%d", n), -1, r, made{of: [2]any{l, p.lacquer}}, func() []piece {
			rim, face := newForm(at, mgl64.Vec3{1, 0, 0}, mgl64.Vec3{0, 1, 0}, up()), newForm(at, mgl64.Vec3{1, 0, 0}, mgl64.Vec3{0, 1, 0}, up())
			down := up().Mul(-1)
			rim.turned(mgl64.Vec3{}, down, [][2]float64{{rimMM + 1, 0}, {rimMM, 2.5}, {faceMM + 8, 3}, {faceMM - 1, 0.6}}, 20)
			face.turned(mgl64.Vec3{}, down, [][2]float64{{faceMM, 0.8}, {0.1, 0.8}}, 16)
			return []piece{{name: "rim", look: p.lacquer, form: rim}, {name: "face", look: p.globe, stuff: stuffGlow, form: face}}
		}, old)
		for i := first; i < len(s.Bodies); i++ {
			s.Bodies[i].ceiling, s.Bodies[i].face = true, at // who looks in from above sees no lamp without its ceiling
		}
		n++
	}
}

// openTile cuts what rules have put into walls, a window and a niche, out of the tile on them: in the closed room a
// copy with holes stands for what is built. The niche is lined with the tile.
func (s *Scene) openTile(r *geometry.Result, old map[string]*Body) {
	for wall := range r.Layout.Walls {
		w := &r.Layout.Walls[wall]
		var cuts []hole
		for _, o := range s.furnished.Windows {
			if o.Wall == wall && len(r.Settled.Room.Windows) == 0 { // the build has holes for what is stated
				cuts = append(cuts, hole{o.OffsetMM, o.OffsetMM + o.WidthMM, o.SillMM, o.SillMM + o.HeightMM})
			}
		}
		for _, o := range s.furnished.Objects {
			if o.Wall == wall && recessed(o) {
				cuts = append(cuts, holeOf(w, o))
				s.lineNiche(r, o, old)
			}
		}
		if len(cuts) > 0 {
			s.holed(wall, cuts, alongWall(w), old)
		}
	}
}

// holed puts copies with holes in the place of what is built on a wall.
func (s *Scene) holed(wall int, cuts []hole, f *form, old map[string]*Body) {
	for i := range s.Bodies {
		b := &s.Bodies[i]
		if b.Part.Wall != wall+1 || b.raw || b.dressing {
			continue
		}
		kept, changed := b.vertices, false
		for _, cut := range cuts {
			left, opened := f.besideHole(kept, cut)
			kept, changed = left, changed || opened
		}
		if !changed {
			continue
		}
		b.raw = true
		tile := *b
		tile.Part = assembly.Part{ID: "dressing-holed-" + b.Part.ID, Stage: b.Part.Stage}
		tile.vertices, tile.edges, tile.raw, tile.dressing, tile.open, tile.made = kept, nil, false, true, true, made{of: [2]any{b.vertices, cuts}}
		if before := old[tile.Part.ID]; before != nil && reflect.DeepEqual(before.made.of, tile.made.of) {
			tile.vertices = before.vertices
		}
		s.Bodies = append(s.Bodies, tile)
	}
}

// recessed tells whether an object is let into its wall.
func recessed(o furnish.Object) bool { return o.Kind == furnish.Niche && !o.Other }

// holeOf is the hole in a wall for an object that is let into it.
func holeOf(w *layout.Wall, o furnish.Object) hole {
	at := o.At.Sub(w.A).Dot(w.Along)
	return hole{at - o.WidthMM/2, at + o.WidthMM/2, o.FromMM, o.ToMM}
}

// lineNiche tiles a niche: its back goes on as the wall, its sides are plain.
func (s *Scene) lineNiche(r *geometry.Result, o furnish.Object, old map[string]*Body) {
	at := slices.IndexFunc(s.Bodies, func(b Body) bool { return b.Part.Wall == o.Wall+1 && b.Part.Finish != nil && !b.dressing })
	if at < 0 {
		return
	}
	look, tile := s.Bodies[at].surface, s.Bodies[at].tile
	first := len(s.Bodies)
	s.pieces("niche-tile", o.Wall, r, placed(o, palette{stone: look}), func() []piece {
		j := &joiner{o: o}
		x, high := o.WidthMM/2, o.ToMM-o.FromMM
		back, sides := j.of("back", look, stuffPlain), j.of("sides", look, stuffPlain)
		back.quad(mgl64.Vec3{x, 0, 0}, mgl64.Vec3{-x, 0, 0}, mgl64.Vec3{-x, 0, high}, mgl64.Vec3{x, 0, high})
		deep := o.DepthMM
		sides.quad(mgl64.Vec3{-x, 0, 0}, mgl64.Vec3{-x, deep, 0}, mgl64.Vec3{-x, deep, high}, mgl64.Vec3{-x, 0, high})
		sides.quad(mgl64.Vec3{x, deep, 0}, mgl64.Vec3{x, 0, 0}, mgl64.Vec3{x, 0, high}, mgl64.Vec3{x, deep, high})
		sides.quad(mgl64.Vec3{-x, 0, 0}, mgl64.Vec3{x, 0, 0}, mgl64.Vec3{x, deep, 0}, mgl64.Vec3{-x, deep, 0})
		sides.quad(mgl64.Vec3{x, 0, high}, mgl64.Vec3{-x, 0, high}, mgl64.Vec3{-x, deep, high}, mgl64.Vec3{x, deep, high})
		return j.pieces
	}, old)
	if first < len(s.Bodies) {
		s.Bodies[first].tile = tile
	}
}

// besideHole are triangles without what of them lies in a hole of the wall that the form is of.
func (f *form) besideHole(vertices []float32, h hole) (kept []float32, changed bool) {
	type corner [6]float64 // place and normal
	where := func(c corner) (along, up float64) {
		p := mgl64.Vec3{c[0], c[1], c[2]}.Sub(f.origin)
		return p.Dot(f.x), p.Dot(f.z)
	}
	clip := func(shape []corner, side func(corner) float64) (out []corner) {
		for i, c := range shape {
			d := shape[(i+1)%len(shape)]
			a, b := side(c), side(d)
			if a <= 0 {
				out = append(out, c)
			}
			if a < 0 && b > 0 || a > 0 && b < 0 {
				var on corner
				for k := range on {
					on[k] = c[k] + (d[k]-c[k])*a/(a-b)
				}
				out = append(out, on)
			}
		}
		return out
	}
	sides := []func(corner) float64{
		func(c corner) float64 { x, _ := where(c); return x - h.fromMM },
		func(c corner) float64 { x, _ := where(c); return h.toMM - x },
		func(c corner) float64 { _, z := where(c); return z - h.lowMM },
		func(c corner) float64 { _, z := where(c); return h.highMM - z },
	}
	for i := 0; i+17 < len(vertices); i += 18 {
		var left []corner
		for k := range 3 {
			var c corner
			for n := range c {
				c[n] = float64(vertices[i+6*k+n])
			}
			left = append(left, c)
		}
		// What is beside the hole on one side after the other; what is left lies in it.
		for _, side := range sides {
			part := clip(left, side)
			left = clip(left, func(c corner) float64 { return -side(c) })
			for k := 1; k+1 < len(part); k++ {
				for _, c := range []corner{part[0], part[k], part[k+1]} {
					for _, v := range c {
						kept = append(kept, float32(v))
					}
				}
			}
		}
		changed = changed || len(left) > 2
	}
	return kept, changed
}

// alongWall is a form whose x runs along a wall's face, y out of the wall into the room, z up; z counts from the datum.
func alongWall(w *layout.Wall) *form {
	return newForm(flat(w.A), flat(w.Along), flat(w.Outward.Mul(-1)), mgl64.Vec3{0, 0, 1})
}

// panel adds a wall's face from a level up to the ceiling, with holes.
func (f *form) panel(lengthMM, footMM float64, ceiling []plan.Point, holes []hole) {
	cuts := []float64{0, lengthMM}
	for _, h := range holes {
		cuts = append(cuts, h.fromMM, h.toMM)
	}
	for _, c := range ceiling {
		cuts = append(cuts, c.X())
	}
	slices.Sort(cuts)
	top := func(at float64) float64 {
		for i := 1; i < len(ceiling); i++ {
			a, b := ceiling[i-1], ceiling[i]
			if at <= b.X() {
				return a.Y() + (b.Y()-a.Y())*(at-a.X())/math.Max(1e-9, b.X()-a.X())
			}
		}
		return ceiling[len(ceiling)-1].Y()
	}
	for i := 1; i < len(cuts); i++ {
		a, b := math.Max(0, cuts[i-1]), math.Min(lengthMM, cuts[i])
		if b-a < 1e-6 {
			continue
		}
		var in []hole
		for _, h := range holes {
			if h.fromMM < (a+b)/2 && (a+b)/2 < h.toMM {
				in = append(in, h)
			}
		}
		slices.SortFunc(in, func(x, y hole) int { return int(math.Copysign(1, x.lowMM-y.lowMM)) })
		low := footMM
		for _, h := range in {
			high := math.Min(h.lowMM, math.Min(top(a), top(b)))
			if high > low {
				f.quad(mgl64.Vec3{b, 0, low}, mgl64.Vec3{a, 0, low}, mgl64.Vec3{a, 0, high}, mgl64.Vec3{b, 0, high})
			}
			low = math.Max(low, h.highMM)
		}
		if top(a) > low || top(b) > low {
			f.quad(mgl64.Vec3{b, 0, low}, mgl64.Vec3{a, 0, low}, mgl64.Vec3{a, 0, math.Max(low, top(a))}, mgl64.Vec3{b, 0, math.Max(low, top(b))})
		}
	}
}

// plinth is the edge of the floor along a wall, for who looks in from outside of it.
func (s *Scene) plinth(r *geometry.Result, wall int, look surface, old map[string]*Body) {
	const downMM, parts, insideMM = 90, 6, 2
	w := &r.Layout.Walls[wall]
	var levels [parts + 1]float64
	for i := range levels {
		// At the very ends lies the next wall.
		at := math.Max(insideMM, math.Min(w.LengthMM-insideMM, w.LengthMM*float64(i)/parts))
		levels[i] = r.Floor.FinishedMM(w.At(at).Sub(w.Outward.Mul(insideMM)))
	}
	before := len(s.Bodies)
	s.pieces(fmt.Sprintf("plinth-%d", wall), wall, r, made{of: [2]any{*w, levels}}, func() []piece {
		f := alongWall(w)
		for i := 1; i < len(levels); i++ {
			a, b := w.LengthMM*float64(i-1)/parts, w.LengthMM*float64(i)/parts
			f.quad(mgl64.Vec3{a, 0, levels[i-1] - downMM}, mgl64.Vec3{b, 0, levels[i] - downMM}, mgl64.Vec3{b, 0, levels[i]}, mgl64.Vec3{a, 0, levels[i-1]})
		}
		return []piece{{name: "edge", look: look, stuff: stuffPlain, form: f}}
	}, old)
	for i := range s.Bodies[before:] {
		s.Bodies[before+i].outward = flat(w.Outward.Mul(-1))
	}
}

// architraveMM is how wide the board round a doorway is. Common practice, no source.
const architraveMM = 64

// casementMM is how deep the frame of a window is. Common practice, no source.
const casementMM = 55

// skirting runs along a wall where no tile comes down to the floor, between doors, showers and casings.
func (s *Scene) skirting(r *geometry.Result, wall int, look surface, old map[string]*Body) {
	const highMM, thickMM, leastMM = 85, 15, 60
	if r.Settled.Former.Fall == job.FallRoom {
		return // tiled all round
	}
	w := &r.Layout.Walls[wall]
	var taken []plan.Interval
	for _, e := range r.Layout.Edges {
		if e.Wall == wall {
			a, b := e.A.Sub(w.A).Dot(w.Along), e.B.Sub(w.A).Dot(w.Along)
			taken = append(taken, plan.Interval{From: math.Min(a, b) - 3, To: math.Max(a, b) + 3})
		}
	}
	for _, d := range r.Settled.Room.Doorways {
		if d.Wall == wall {
			taken = append(taken, plan.Interval{From: d.OffsetMM - architraveMM, To: d.OffsetMM + d.WidthMM + architraveMM})
		}
	}
	for _, o := range s.furnished.Objects {
		if o.Kind != furnish.Casing && o.Kind != furnish.Cupboard && o.Kind != furnish.Toilet {
			continue
		}
		from, to, near := math.Inf(1), math.Inf(-1), false
		for _, p := range o.Footprint() {
			at := p.Sub(w.A).Dot(w.Along)
			from, to = math.Min(from, at), math.Max(to, at)
			near = near || math.Abs(p.Sub(w.A).Dot(w.Outward)) < 5
		}
		if near && o.FromMM-r.Floor.FinishedMM(o.Middle()) < highMM {
			taken = append(taken, plan.Interval{From: from, To: to})
		}
	}
	slices.SortFunc(taken, func(a, b plan.Interval) int { return int(math.Copysign(1, a.From-b.From)) })
	at := 0.0
	n := 0
	run := func(to float64) {
		if to-at < leastMM {
			return
		}
		level := func(x float64) float64 { return r.Floor.FinishedMM(w.At(x).Sub(w.Outward.Mul(thickMM / 2))) }
		low, high := level(at+1), level(to-1)
		from := at
		s.pieces(fmt.Sprintf("skirting-%d-%d", wall, n), wall, r, fromWall(w, from, to, low, high), func() []piece {
			f := alongWall(w)
			f.bentBlock(mgl64.Vec3{from, 0, 0}, mgl64.Vec3{to, thickMM, highMM}, 4, 1, func(q mgl64.Vec3) mgl64.Vec3 {
				q[2] += low + (high-low)*(q[0]-from)/(to-from)
				return q
			})
			return []piece{{name: "board", look: look, stuff: stuffPlain, form: f}}
		}, old)
		n++
	}
	for _, t := range taken {
		run(math.Min(t.From, w.LengthMM))
		at = math.Max(at, t.To)
	}
	run(w.LengthMM)
}

// door closes a doorway: a panelled leaf, its frame and the boards round it; where it has no leaf, what one sees
// of the room beyond.
func door(w *layout.Wall, d job.Doorway, p palette, white, paint surface) []piece {
	const frameMM, leafMM, boardMM, revealMM = 32, 40, 18, 12
	low, high := d.NeighbourFFLMM, d.NeighbourFFLMM+d.HeightMM
	a, b := d.OffsetMM, d.OffsetMM+d.WidthMM
	deep := -math.Max(80, w.ThicknessMM)
	f := alongWall(w)
	// The lining, and the boards round it.
	f.block(mgl64.Vec3{a, deep, low}, mgl64.Vec3{a + frameMM, 2, high}, 2)
	f.block(mgl64.Vec3{b - frameMM, deep, low}, mgl64.Vec3{b, 2, high}, 2)
	f.block(mgl64.Vec3{a, deep, high - frameMM}, mgl64.Vec3{b, 2, high}, 2)
	f.block(mgl64.Vec3{a - architraveMM + revealMM, 0, low}, mgl64.Vec3{a + revealMM, boardMM, high - revealMM}, 4)
	f.block(mgl64.Vec3{b - revealMM, 0, low}, mgl64.Vec3{b + architraveMM - revealMM, boardMM, high - revealMM}, 4)
	f.block(mgl64.Vec3{a - architraveMM + revealMM, 0, high - revealMM}, mgl64.Vec3{b + architraveMM - revealMM, boardMM, high + architraveMM - revealMM}, 4)
	out := []piece{{name: "frame", look: white, stuff: stuffPlain, form: f}}
	if d.Leaf == job.LeafNone {
		beyond := alongWall(w)
		const farMM, upMM = 1500, 2400
		from, to := a-700, b+700
		y := deep - farMM
		beyond.quad(mgl64.Vec3{from, y, low}, mgl64.Vec3{from, y, low + upMM}, mgl64.Vec3{to, y, low + upMM}, mgl64.Vec3{to, y, low})
		beyond.quad(mgl64.Vec3{from, deep, low}, mgl64.Vec3{from, deep, low + upMM}, mgl64.Vec3{from, y, low + upMM}, mgl64.Vec3{from, y, low})
		beyond.quad(mgl64.Vec3{to, y, low}, mgl64.Vec3{to, y, low + upMM}, mgl64.Vec3{to, deep, low + upMM}, mgl64.Vec3{to, deep, low})
		beyond.quad(mgl64.Vec3{from, y, low + upMM}, mgl64.Vec3{from, deep, low + upMM}, mgl64.Vec3{to, deep, low + upMM}, mgl64.Vec3{to, y, low + upMM})
		floor := alongWall(w)
		floor.quad(mgl64.Vec3{from, y, low}, mgl64.Vec3{to, y, low}, mgl64.Vec3{to, 0, low}, mgl64.Vec3{from, 0, low})
		return append(out, piece{name: "beyond", look: paint, stuff: stuffPlain, form: beyond}, piece{name: "floor", look: p.wood, stuff: stuffWood, form: floor})
	}
	leaf := alongWall(w)
	y := -8.0 // its face in the room
	from, to, top := a+frameMM+2, b-frameMM-2, high-frameMM-2
	switch d.Leaf {
	case job.LeafOut, job.LeafPocket:
		y = deep/2 + leafMM/2
	case job.LeafSlide:
		y, from, to, top = leafMM+8, a-30, b+30, high+25
	}
	bottom := low + math.Max(4, d.LeafGapMM)
	leaf.block(mgl64.Vec3{from, y - leafMM, bottom}, mgl64.Vec3{to, y, top}, 2)
	// Two panels let in: a moulding round each.
	const railMM, lockMM, mouldMM = 110, 950, 14
	if to-from > 3*railMM && top-bottom > lockMM+3*railMM {
		for _, z := range [][2]float64{{bottom + railMM*1.6, bottom + lockMM - railMM/2}, {bottom + lockMM + railMM/2, top - railMM}} {
			x0, x1 := from+railMM, to-railMM
			leaf.block(mgl64.Vec3{x0, y - 2, z[0]}, mgl64.Vec3{x1, y + 3, z[0] + mouldMM}, 2.5)
			leaf.block(mgl64.Vec3{x0, y - 2, z[1] - mouldMM}, mgl64.Vec3{x1, y + 3, z[1]}, 2.5)
			leaf.block(mgl64.Vec3{x0, y - 2, z[0] + mouldMM}, mgl64.Vec3{x0 + mouldMM, y + 3, z[1] - mouldMM}, 2.5)
			leaf.block(mgl64.Vec3{x1 - mouldMM, y - 2, z[0] + mouldMM}, mgl64.Vec3{x1, y + 3, z[1] - mouldMM}, 2.5)
			leaf.block(mgl64.Vec3{x0 + 45, y - 4, z[0] + 45}, mgl64.Vec3{x1 - 45, y + 2, z[1] - 45}, 2)
		}
	}
	metal := alongWall(w)
	x, inward := to-55, -1.0
	if !d.HingeAtStart {
		x, inward = from+55, 1
	}
	if d.Leaf.Slides() {
		metal.block(mgl64.Vec3{x - 10, y - 1, bottom + 900}, mgl64.Vec3{x + 10, y + 3, bottom + 1100}, 1.5)
	} else {
		z := bottom + 1030
		metal.turned(mgl64.Vec3{x, y, z}, mgl64.Vec3{0, 1, 0}, [][2]float64{{25, 0}, {25, 6}, {23, 8}, {9, 8}}, 20)
		metal.swept(9, 10, mgl64.Vec3{x, y, z}, mgl64.Vec3{x, y + 45, z}, mgl64.Vec3{x + inward*8, y + 52, z}, mgl64.Vec3{x + inward*115, y + 52, z})
	}
	return append(out, piece{name: "leaf", look: white, stuff: stuffPlain, form: leaf}, piece{name: "handle", look: p.metal, stuff: stuffPlain, form: metal})
}

// window is a casement in its reveal, with a sill, and what is to be seen outside, in a wall whose tile stands so far off it.
func window(w *layout.Wall, o job.Window, faceMM float64, white surface) []piece {
	const frameMM, sashMM, deepMM, sillMM, sillOutMM, barMM = 46, 40, casementMM, 24, 34, 900
	a, b, low, high := o.OffsetMM, o.OffsetMM+o.WidthMM, o.SillMM, o.SillMM+o.HeightMM
	y := -furnish.RevealMM(o, w.ThicknessMM)
	reveal := alongWall(w)
	reveal.quad(mgl64.Vec3{a, faceMM, low}, mgl64.Vec3{a, faceMM, high}, mgl64.Vec3{a, y, high}, mgl64.Vec3{a, y, low})
	reveal.quad(mgl64.Vec3{b, faceMM, high}, mgl64.Vec3{b, faceMM, low}, mgl64.Vec3{b, y, low}, mgl64.Vec3{b, y, high})
	reveal.quad(mgl64.Vec3{a, faceMM, high}, mgl64.Vec3{b, faceMM, high}, mgl64.Vec3{b, y, high}, mgl64.Vec3{a, y, high})
	frame := alongWall(w)
	ring := func(a, b, low, high, wide, from, to float64) {
		frame.block(mgl64.Vec3{a, from, low}, mgl64.Vec3{a + wide, to, high}, 3)
		frame.block(mgl64.Vec3{b - wide, from, low}, mgl64.Vec3{b, to, high}, 3)
		frame.block(mgl64.Vec3{a + wide, from, low}, mgl64.Vec3{b - wide, to, low + wide}, 3)
		frame.block(mgl64.Vec3{a + wide, from, high - wide}, mgl64.Vec3{b - wide, to, high}, 3)
	}
	ring(a, b, low, high, frameMM, y-deepMM, y)
	sashes := 1
	if o.WidthMM > barMM {
		sashes = 2
	}
	for k := range sashes {
		each := (o.WidthMM - 2*frameMM) / float64(sashes)
		from := a + frameMM + float64(k)*each
		ring(from, from+each, low+frameMM, high-frameMM, sashMM, y-deepMM+12, y+8)
	}
	frame.block(mgl64.Vec3{a - 30, y, low - sillMM}, mgl64.Vec3{b + 30, faceMM + sillOutMM, low}, 5)
	glass := alongWall(w)
	g := y - deepMM/2
	glass.quad(mgl64.Vec3{b - frameMM, g, low + frameMM}, mgl64.Vec3{a + frameMM, g, low + frameMM}, mgl64.Vec3{a + frameMM, g, high - frameMM}, mgl64.Vec3{b - frameMM, g, high - frameMM})
	out := []piece{{name: "reveal", look: surface{parseColour(plaster), 0.95, 0, 1}, stuff: stuffPlain, form: reveal}, {name: "frame", look: white, stuff: stuffPlain, form: frame},
		{name: "glass", look: surface{[3]float32{0.9, 0.95, 0.97}, 0.03, 0, 0.08}, stuff: stuffPlain, form: glass}}
	return append(out, outside(w, o)...)
}

// outside is what is seen by a window: a bright sky, trees and a hedge, as a photograph shows them that is exposed for
// the room. It is a picture close behind the window, so that nothing of it is seen past the room.
func outside(w *layout.Wall, o job.Window) []piece {
	const behindMM, overMM, eyesMM = 16, 60, 1350
	from, to := o.OffsetMM-overMM, o.OffsetMM+o.WidthMM+overMM
	low, high := o.SillMM-overMM, o.SillMM+o.HeightMM+overMM
	y := -furnish.RevealMM(o, w.ThicknessMM) - casementMM - behindMM
	sky := alongWall(w)
	sky.quad(mgl64.Vec3{to, y, low}, mgl64.Vec3{from, y, low}, mgl64.Vec3{from, y, high}, mgl64.Vec3{to, y, high})
	// Their tops lie about the horizon, which is as high as who looks out.
	green := func(off, over, rough, phase float64) *form {
		f := alongWall(w)
		f.sheet(80, 1, func(u, v float64) mgl64.Vec3 {
			x := to - u*(to-from)
			top := eyesMM + over + rough*(math.Sin(x/190+phase)+0.55*math.Sin(x/77+2*phase)+0.3*math.Sin(x/29+3*phase))
			return mgl64.Vec3{x, y + off, low + v*math.Max(0, math.Min(high, top)-low)}
		})
		return f
	}
	return []piece{
		{name: "sky", look: surface{[3]float32{2.6, 2.9, 3.2}, 1, 0, 1}, stuff: stuffOutside, form: sky},
		{name: "trees", look: surface{[3]float32{0.95, 1.05, 0.93}, 1, 0, 1}, stuff: stuffOutside, form: green(6, 60, 45, 0.4)},
		{name: "hedge", look: surface{[3]float32{0.60, 0.74, 0.50}, 1, 0, 1}, stuff: stuffOutside, form: green(12, -150, 18, 1.9)},
	}
}
