package viewer

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// Sizes of what dresses the picture. Common practice, no source.
const (
	trimMM      = 3
	underTrimMM = 1 // that a face of tile ends below the trim's top
)

// openSide is the way out of the shower where an edge is open: a side before
// the front, so that pictures show the step.
func openSide(l layout.Layout) plan.Point {
	best, at := 0.0, l.Into
	for _, e := range l.OpenEdges() {
		length := e.LengthMM()
		if e.Side == layout.Left || e.Side == layout.Right {
			length *= 10
		}
		if length > best {
			best, at = length, l.Outward(e)
		}
	}
	return at
}

// lateral is the side pictures are looked at and lit from: an open one, else
// the right.
func lateral(l layout.Layout) plan.Point {
	if out := openSide(l); math.Abs(out.Dot(l.ToRight)) > 0.5 {
		return out
	}
	return l.ToRight
}

// dresser adds a body that dresses the picture.
type dresser func(id string, stage buildup.Stage, look surface, shapes ...solid.Shape) *Body

// dress adds what the customer sees and the build does not count: a ceiling, walls,
// windows and doors, furniture, glass screens, the shower's fittings, and the trim of open edges.
func (s *Scene) dress(r geometry.Result, old map[string]*Body) {
	metal := metalSurface(r.Settled.Style.Metal)
	add := func(id string, stage buildup.Stage, look surface, shapes ...solid.Shape) *Body {
		whole := solid.Compound(shapes)
		part := assembly.Part{ID: fmt.Sprintf("dressing-%s-%d", id, len(s.Bodies)), Stage: stage, Shape: whole}
		b := Body{Part: part, surface: look, dressing: true}
		if !b.take(old[b.Part.ID]) {
			b.box = whole.Bounds()
			b.prepare(whole.Mesh())
		}
		s.Bodies = append(s.Bodies, b)
		return &s.Bodies[len(s.Bodies)-1]
	}
	s.ceiling(r.Layout, add)
	s.furnished = furnish.Of(&r)
	s.furnish(&r, old)
	s.shell(&r, old)
	for e := range r.Heights.Faces(&r.Settled, &r.Layout) {
		s.openEdge(r, e, add)
	}
	s.boxes(r, add)
	for n := range r.Layout.Screens {
		if pane, feet := s.glass(r, n); pane != nil {
			add("glass", buildup.StageTile, surface{[3]float32{0.86, 0.95, 0.92}, 0.03, 0, 0.10}, pane)
			add("glass-feet", buildup.StageTile, metal, feet...).thin = true
		}
	}
	f, wall := fittings(r)
	s.pieces("fittings", wall, &r, made{of: [2]any{f.vertices, metal}}, func() []piece { return []piece{{name: "metal", look: metal, form: f, thin: true}} }, old)
}

// openEdge is the tile that faces the step at a straight of an open edge, or a kerb on it,
// and its trim.
func (s *Scene) openEdge(r geometry.Result, e level.EdgeLevels, add dresser) {
	if sh := s.riser(e, r.Layout); sh != nil {
		s.tiled("riser", r, &r.Settled.Layers.Shower, add, sh).laidUpright(e.Edge.A, e.Edge.B, math.Min(e.ShowerA, e.ShowerB))
	}
	if sh := s.trim(e, r.Layout); sh != nil {
		add("trim", buildup.StageTile, metalSurface(r.Settled.Style.Metal), sh).trim = true
	}
}

// tiled is tile with a finish on what the floor's own does not cover.
func (s *Scene) tiled(id string, r geometry.Result, f *job.Finish, add dresser, shapes ...solid.Shape) *Body {
	part := assembly.Part{Material: material.Tile, Finish: f}
	b := add(id, buildup.StageTile, surfaceOf(part, r.Settled.Style), shapes...)
	b.tile = tilingOf(r, part)
	return b
}

// laidUpright has the tiles of what stands upright start at one end of it, from a level.
func (b *Body) laidUpright(a, to plan.Point, levelMM float64) {
	b.tile.origin, b.tile.u, b.tile.v = a.Vec3(levelMM), flat(to.Sub(a).Normalize()), up()
}

// facingMM is how far the tile that is drawn on a face stands off it.
const facingMM = 2

// boxes are the tile on the sides and the tops of boxes over the run, where the room's floor is tiled.
func (s *Scene) boxes(r geometry.Result, add dresser) {
	j, l, h := &r.Settled, &r.Layout, &r.Heights
	if !j.RoomFinished() {
		return
	}
	what, f := message.Of("shape.boxing"), &r.Settled.Layers.Room
	boxes := h.Boxes(j, l)
	for i := range boxes {
		top := boxes[i].TopMM()
		for _, face := range boxes[i].Faces(l) {
			if sh := s.slab(what, face.A, face.B, face.Out.Mul(facingMM), h.RoomAt(j, face.A), h.RoomAt(j, face.B), top, top); sh != nil {
				s.tiled("box-side", r, f, add, sh).laidUpright(face.A, face.B, top)
			}
		}
		sh := plan.Shaper{Refuse: s.refuse}
		outer, _ := boxes[i].InPlan(&sh, l, what)
		if s.fault.IsZero() {
			s.fault = section.Fault(sh.Err(), section.FaultOfDressing)
		}
		if lid := s.cover(outer, what); sh.Err() == nil && !lid.Empty() {
			s.tiled("box-top", r, f, add, solid.Block(lid, top, top+facingMM))
		}
	}
}

// ceiling is the room's, a body for each of its planes.
func (s *Scene) ceiling(l layout.Layout, add dresser) {
	// The lowest of planes is the highest of them upside down.
	var down solid.Surface
	for _, p := range l.Ceiling {
		down = append(down, solid.Plane{Level: -p.Level, SlopeX: -p.SlopeX, SlopeY: -p.SlopeY})
	}
	what := message.Of("shape.ceiling")
	sh := plan.Shaper{Refuse: s.refuse}
	for i, cell := range down.Cells(&sh, l.Room, what) {
		if sh.Err() != nil || len(cell) == 0 {
			continue
		}
		if room := s.cover(cell, what); !room.Empty() {
			plane := l.Ceiling[i]
			look := surface{[3]float32{0.83, 0.82, 0.80}, 0.95, 0, 1}
			body := add("ceiling", buildup.StageBare, look, solid.Upright(room, solid.Surface{plane}, solid.Surface{plane.Raised(20)}))
			body.ceiling, body.face = true, mgl64.Vec3{0, 0, plane.At(cell.Centroid())}
		}
	}
	if s.fault.IsZero() {
		s.fault = section.Fault(sh.Err(), section.FaultOfDressing)
	}
}

// cover is a sheet for what dresses the picture; where it cannot be made the
// body is left out and the scene's fault says so.
func (s *Scene) cover(region plan.Region, what message.Message) solid.Sheet {
	sh := plan.Shaper{Refuse: s.refuse}
	sheet := solid.Cover(&sh, region, what)
	if s.fault.IsZero() {
		s.fault = section.Fault(sh.Err(), section.FaultOfDressing)
	}
	return sheet
}

// slab is a body with four upright sides whose top and bottom run straight
// between two ends.
func (s *Scene) slab(what message.Message, a, b, across plan.Point, bottomA, bottomB, topA, topB float64) solid.Shape {
	along := b.Sub(a)
	length := along.Len()
	if length < 1 || topA-bottomA < 0.1 && topB-bottomB < 0.1 {
		return nil
	}
	u := along.Mul(1 / length)
	plane := func(za, zb float64) solid.Surface { return solid.Surface{solid.Through(a, za, u, (zb-za)/length)} }
	sheet := s.cover(plan.FromRing(plan.Ring{a, b, b.Add(across), a.Add(across)}), what)
	if sheet.Empty() {
		return nil
	}
	return solid.Upright(sheet, plane(bottomA, bottomB), plane(topA, topB))
}

// riser is the tile that faces a step at an open edge, under its trim.
func (s *Scene) riser(e level.EdgeLevels, l layout.Layout) solid.Shape {
	return s.slab(message.Of("shape.riser"), e.Edge.A, e.Edge.B, l.Outward(e.Edge).Mul(facingMM),
		e.RoomA, e.RoomB, e.ShowerA-underTrimMM, e.ShowerB-underTrimMM)
}

// trim is the metal edge of the tile along an open edge.
func (s *Scene) trim(e level.EdgeLevels, l layout.Layout) solid.Shape {
	const deepMM = 16
	return s.slab(message.Of("shape.trim"), e.Edge.A, e.Edge.B, l.Outward(e.Edge).Mul(trimMM),
		math.Max(e.RoomA, e.ShowerA-deepMM), math.Max(e.RoomB, e.ShowerB-deepMM), e.ShowerA+0.3, e.ShowerB+0.3)
}

// glass is the n-th screen, closed: a pane with the profile it stands in and the post at
// its wall; a door or a panel, which hangs, has a post at its hinge alone.
func (s *Scene) glass(r geometry.Result, n int) (pane solid.Shape, feet []solid.Shape) {
	l, h := r.Layout, r.Heights
	x, of := l.Screens[n], r.Settled.Shower.Screens[n]
	in := x.Out.Mul(-1)
	a, b := x.Foot()
	near := func(p plan.Point) float64 { mm, _ := l.Clear(p); return mm }
	if of.Hangs() && of.HingeAtEnd || !of.Hangs() && near(b) < near(a) {
		a, b = b, a
	}
	const profileMM, profileHighMM, postMM = 14, 16, 12
	u := b.Sub(a).Normalize()
	za, zb := h.ShowerAt(&l, a), h.ShowerAt(&l, b)
	if on, ok := h.KerbTop(&r.Settled, &l); ok {
		za, zb = on, on
	}
	cut := h.GlassOf(&r.Settled, &l, &x)
	top := cut.TopMM
	var straights solid.Compound
	for i, q := range cut.Foot[1:] {
		p := cut.Foot[i]
		if part := s.slab(message.Of("shape.screen"), p.At, q.At, in.Mul(-of.ThicknessMM), p.LevelMM, q.LevelMM, top, top); part != nil {
			straights = append(straights, part)
		}
	}
	if len(straights) > 0 {
		pane = straights
	}
	back := in.Mul((profileMM - of.ThicknessMM) / 2)
	if !of.Hangs() {
		foot := s.slab(message.Of("shape.screen-foot"), a.Add(back), b.Add(back), in.Mul(-profileMM),
			za, zb, za+profileHighMM, zb+profileHighMM)
		if foot != nil {
			feet = append(feet, foot)
		}
	}
	post, end := a.Add(back), a.Add(back).Add(u.Mul(postMM))
	place := plan.FromRing(plan.Ring{post, end, end.Sub(in.Mul(profileMM)), post.Sub(in.Mul(profileMM))})
	if sheet := s.cover(place, message.Of("shape.screen-post")); !sheet.Empty() {
		feet = append(feet, solid.Block(sheet, za, top))
	}
	return pane, feet
}

// bent is the path of a bar round a corner.
func bent(a, corner, b mgl64.Vec3, radius float64) []mgl64.Vec3 {
	u, v := a.Sub(corner).Normalize(), b.Sub(corner).Normalize()
	from, to := corner.Add(u.Mul(radius)), corner.Add(v.Mul(radius))
	path := []mgl64.Vec3{a}
	const steps = 8
	for k := range steps + 1 {
		t := float64(k) / steps
		p := from.Mul((1 - t) * (1 - t)).Add(corner.Mul(2 * t * (1 - t))).Add(to.Mul(t * t))
		path = append(path, p)
	}
	return append(path, b)
}

// Sizes of a rose and its arm. Common practice, no source.
const (
	roseUnderMM  = 44 // from the end of the arm down to the rose's underside
	roseThickMM  = 10
	roseRadiusMM = 118
	armRadiusMM  = 11
)

// rose is the middle of the rose's underside: as the job states it, or at the end of an arm of the usual length from the wall that
// its mixer is on; ok is false where there is neither.
func rose(r geometry.Result) (under mgl64.Vec3, ok bool) {
	const usualArmMM, usualUnderMM = 380, 2036
	if h := r.Settled.Shower.Head; h != nil {
		return h.At.Vec3(r.Heights.ShowerAt(&r.Layout, h.At) + h.HeightMM), true
	}
	edge, ok := furnish.Fittings(&r)
	if !ok {
		return under, false
	}
	in := r.Layout.Walls[edge.Wall].Outward.Mul(-1)
	return edge.Middle().Add(in.Mul(r.Settled.Layers.Wall.ThicknessMM() + usualArmMM)).Vec3(r.Heights.TileMM + usualUnderMM), true
}

// fittings are a mixer, a rail with a rose over the shower and a hand shower,
// on a wall of the shower, given by its index; below nought where a rose hangs from the ceiling. Nothing where there is
// neither a wall for them nor a head that is stated.
func fittings(r geometry.Result) (f *form, wallIndex int) {
	l := r.Layout
	f = newForm(mgl64.Vec3{}, mgl64.Vec3{1, 0, 0}, mgl64.Vec3{0, 1, 0}, up())
	edge, ok := furnish.Fittings(&r)
	if !ok {
		fromCeiling(r, f)
		return f, -1
	}
	wall := l.Walls[edge.Wall]
	in := flat(wall.Outward.Mul(-1))
	along := flat(edge.B.Sub(edge.A).Normalize())
	under, _ := rose(r)
	head := plan.Point{under.X(), under.Y()}
	middle := plan.NearestOnSegment(head, edge.A, edge.B)
	armMM := head.Sub(middle).Len() - r.Settled.Layers.Wall.ThicknessMM()
	headMM := under.Z() - r.Heights.TileMM + roseUnderMM
	face := flat(middle).Add(in.Mul(r.Settled.Layers.Wall.ThicknessMM()))
	face[2] = r.Heights.TileMM
	at := func(s, out, z float64) mgl64.Vec3 {
		return face.Add(along.Mul(s)).Add(in.Mul(out)).Add(up().Mul(z))
	}
	const mixerMM, railMM = 1050, 60
	f.bar(21, at(-135, railMM, mixerMM), at(135, railMM, mixerMM))
	f.bar(15, at(-75, 0, mixerMM), at(-75, railMM, mixerMM))
	f.bar(15, at(75, 0, mixerMM), at(75, railMM, mixerMM))
	f.bar(26, at(-175, railMM, mixerMM), at(-138, railMM, mixerMM))
	f.bar(26, at(138, railMM, mixerMM), at(175, railMM, mixerMM))
	f.bar(armRadiusMM, bent(at(0, railMM, mixerMM), at(0, railMM, headMM), at(0, armMM, headMM), 60)...)
	f.bar(9, at(0, 0, headMM-240), at(0, railMM, headMM-240))
	f.bar(armRadiusMM, at(0, armMM, headMM+4), at(0, armMM, headMM-roseUnderMM+roseThickMM))
	f.bar(roseRadiusMM, at(0, armMM, headMM-roseUnderMM+roseThickMM), at(0, armMM, headMM-roseUnderMM))
	// The hand shower on its holder, with a hose.
	f.bar(13, at(0, railMM, mixerMM+420), at(62, railMM+34, mixerMM+420))
	f.bar(12, at(62, railMM+10, mixerMM+300), at(62, railMM+62, mixerMM+500))
	f.bar(42, at(62, railMM+52, mixerMM+520), at(62, railMM+76, mixerMM+512))
	hose := []mgl64.Vec3{}
	for k := range 25 {
		t := float64(k) / 24
		sag := 560 * 4 * t * (1 - t)
		belly := math.Sin(math.Pi * t)
		hose = append(hose, at(62*(1-t)-100*t+40*belly, railMM+10*(1-t)+30*belly, (mixerMM+300)*(1-t)+(mixerMM-21)*t-sag))
	}
	f.bar(7, hose...)
	return f, edge.Wall
}

// fromCeiling adds a rose on a pipe from the ceiling; nothing where no head is stated.
func fromCeiling(r geometry.Result, f *form) {
	under, ok := rose(r)
	if !ok {
		return
	}
	at := func(z float64) mgl64.Vec3 { return mgl64.Vec3{under.X(), under.Y(), z} }
	f.bar(roseRadiusMM, at(under.Z()+roseThickMM), at(under.Z()))
	if top := r.Layout.CeilingAt(plan.Point{under.X(), under.Y()}); top > under.Z()+roseThickMM {
		f.bar(armRadiusMM, at(top), at(under.Z()+roseThickMM))
	}
}

// layWater puts the water's ways a little over the tile, with arrow heads.
func (s *Scene) layWater(r geometry.Result) {
	const overMM, spacingMM = 1.5, 180
	over := func(p plan.Point) mgl64.Vec3 {
		return mgl64.Vec3{p.X(), p.Y(), r.Heights.ShowerAt(&r.Layout, p) + overMM}
	}
	line := func(a, b plan.Point) {
		p, q := over(a), over(b)
		s.flow = append(s.flow, float32(p[0]), float32(p[1]), float32(p[2]), float32(q[0]), float32(q[1]), float32(q[2]))
	}
	for _, way := range section.FlowLines(r, spacingMM) {
		for i := 1; i < len(way); i++ {
			line(way[i-1], way[i])
		}
		a, b := way[0], way[1]
		d := b.Sub(a)
		if l := d.Len(); l > 90 {
			u := d.Mul(1 / l)
			tip := a.Add(u.Mul(math.Min(l*0.6, 90)))
			side := plan.Left(u).Mul(9)
			line(tip.Sub(u.Mul(24)).Add(side), tip)
			line(tip.Sub(u.Mul(24)).Sub(side), tip)
		}
	}
}
