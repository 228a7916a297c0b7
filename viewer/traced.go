package viewer

import (
	"image"
	"math"
	"slices"

	"github.com/g3n/engine/gls"
	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/viewer/trace"
)

// traced tells whether a frame at rest is drawn by following light.
func (f Frame) traced() bool { return f.Look == LookFinished && f.Scene != nil }

// lit is all that the light in a frame's room depends on: not where it is looked at
// from, nor the cuts, which only take away what is seen.
type lit struct {
	scene           *Scene
	stage           buildup.Stage
	light           job.Light
	wet             bool
	whole           bool // nothing is left out for a cut
	apart, arriving float64
}

func (f Frame) lit() lit {
	return lit{f.Scene, f.Stage, f.lightKept(), f.Wet, f.Caps == nil, f.Apart, f.Arriving}
}

// tracedRoom is a lit room in the graphics memory; those of equal rooms share one.
type tracedRoom struct {
	of    lit
	print trace.Print
	room  *trace.Room
}

// bakedLight is the light of a room that is no longer in the graphics memory.
type bakedLight struct {
	print trace.Print
	light trace.Baked
}

// mostBaked is how many rooms' light is kept out of the graphics memory, some megabytes in all: who goes back and forth between
// looks does not wait for light that was there before.
const mostBaked = 12

// tracedRoom brings the frame's room to the graphics memory when it is new.
func (r *Renderer) tracedRoom(f Frame) *tracedRoom {
	key := f.lit()
	if !usedLast(r.traced, func(t tracedRoom) bool { return t.of == key }) {
		s, v := f.tracedScene(), f.Scene.volume()
		t := tracedRoom{of: key, print: trace.PrintOf(s, v)}
		if i := slices.IndexFunc(r.traced, func(had tracedRoom) bool { return had.print == t.print }); i >= 0 {
			t.room = r.traced[i].room
		} else {
			t.room = r.tracer.Load(s, v, r.dressed(f).room.Mean())
			r.relight(t)
		}
		r.traced = append(r.traced, t)
		for len(r.traced) > mostLoaded {
			r.dropTraced()
		}
	}
	return &r.traced[len(r.traced)-1]
}

// relight gives a room the light that an equal one had; without it, it is baked again.
func (r *Renderer) relight(t tracedRoom) {
	i := slices.IndexFunc(r.baked, func(b bakedLight) bool { return b.print == t.print })
	if i < 0 {
		return
	}
	light := r.baked[i].light
	r.baked = slices.Delete(r.baked, i, i+1)
	t.room.Take(light)
}

// dropTraced takes the room that was not used for longest out of the graphics memory, unless another is equal to it, and
// keeps its light.
func (r *Renderer) dropTraced() {
	old := r.traced[0]
	r.traced = slices.Delete(r.traced, 0, 1)
	if slices.ContainsFunc(r.traced, func(t tracedRoom) bool { return t.room == old.room }) {
		return
	}
	if light, ok := old.room.Baked(); ok {
		r.baked = append(r.baked, bakedLight{old.print, light})
		r.baked = slices.Delete(r.baked, 0, max(0, len(r.baked)-mostBaked))
	}
	old.room.Free()
}

// volume is the grid for the room's light.
func (s *Scene) volume() *trace.Volume {
	return trace.NewVolume(s.outline, float32(s.room.low[2]), float32(s.room.high[2]), s.ceilingMM)
}

// dressed is a scene's materials and its sky in the graphics memory, for faces that are
// lit by a volume.
type dressed struct {
	scene *Scene
	light job.Light
	wet   bool
	// closed tells that the windows are holes in the walls.
	closed bool
	room   *trace.Room
	sky    trace.Sky
	// classes are those of the materials.
	classes []trace.Class
}

// dressed brings the frame's materials and sky to the graphics memory when they are new.
func (r *Renderer) dressed(f Frame) *dressed {
	if !usedLast(r.looks, func(d dressed) bool {
		return d.scene == f.Scene && d.light == f.lightKept() && d.wet == f.Wet && d.closed == f.Closed()
	}) {
		s := &trace.Scene{Materials: f.tracedMaterials()}
		f.Scene.light(f.lightKept(), f.Closed(), s)
		d := dressed{f.Scene, f.lightKept(), f.Wet, f.Closed(), r.tracer.Load(s, nil, s.Even(f.Scene.box())), s.Sky, nil}
		for _, m := range s.Materials {
			d.classes = append(d.classes, m.Class())
		}
		r.looks = append(r.looks, d)
		for len(r.looks) > mostLoaded {
			r.looks[0].room.Free()
			r.looks = r.looks[1:]
		}
	}
	return &r.looks[len(r.looks)-1]
}

// lightOf is the room whose light lights a frame: its own where that stands, else the
// nearest to it, as while a wall is dragged; where there is none the frame's materials
// stand for a room with even light.
func (r *Renderer) lightOf(f Frame, d *dressed) *trace.Room {
	best, points, want := d.room, 0, f.lit()
	for _, t := range r.traced {
		n := 1
		if !t.room.Warm() || t.of.light.Kind != want.light.Kind {
			continue
		}
		for _, same := range []bool{t.of.whole == want.whole, t.of.stage == want.stage, t.of.scene == want.scene, t.of.light == want.light, t.of == want} {
			if n *= 2; same {
				n++
			}
		}
		if n >= points {
			best, points = t.room, n
		}
	}
	return best
}

// exposed is what exposures are kept by.
type exposed struct {
	light job.LightKind
	cut   bool
}

// guessed is what exposures are kept by until a picture at rest has one: with the light of a room or without.
type guessed struct {
	exposed
	warm bool
}

// exposureOf is a moving frame's exposure: the one that a picture at rest had last, before the first the one that it would
// have with the light that is known by now.
func (r *Renderer) exposureOf(p *painter) (trace.Exposure, error) {
	kept := p.f.exposed()
	if e, ok := r.exposures[kept]; ok {
		return e, nil
	}
	light := r.lightOf(p.f, p.look)
	guess := guessed{kept, light.Warm()}
	if e, ok := r.guesses[guess]; ok {
		return e, nil
	}
	e, err := r.meter(p, light.Mean())
	r.guesses[guess] = e
	return e, err
}

// meter is the exposure that a picture at rest of a painter's frame would have, by a small one of the moving frame and the
// mean light in the room.
func (r *Renderer) meter(p *painter, mean mgl32.Vec3) (trace.Exposure, error) {
	const across, down = 96, 60
	small := *p
	small.on, small.exposure = &sheet{keyMap: p.on.keyMap}, trace.Exposure{White: mgl32.Vec3{1, 1, 1}}
	small.f.Width, small.f.Height, small.f.Transparent, small.f.Chosen, small.f.Look = across, down, true, "", LookFinished
	small.matrix = p.f.Camera.matrix(p.f.Width, p.f.Height, 0, 0)
	target := &small.on.sample
	defer target.free()
	if err := target.fit(across, down, gl.RGBA16F, true); err != nil {
		return trace.Exposure{}, err
	}
	small.begun(allRows(small.f), func() {
		small.clipped(func() { small.bodies(true) })
		small.clipped(func() { small.bodies(false) })
	})
	pixels := make([]float32, 4*across*down)
	gl.PixelStorei(gl.PACK_ALIGNMENT, 1)
	gl.ReadPixels(0, 0, across, down, gl.RGBA, gl.FLOAT, gl.Ptr(pixels))
	light := []float32{mean[0], mean[1], mean[2], 1}
	return trace.Expose(pixels, light, p.f.lightKept().Kind == job.LightEvening), nil
}

// box is the room as a plain box.
func (s *Scene) box() trace.Box {
	b := s.room
	return trace.Box{Low: narrow(b.low), High: narrow(b.high), Cos: float32(b.cos), Sin: float32(b.sin), Wall: mgl32.Vec3(parseColour(plaster)), Floor: mgl32.Vec3(b.floor)}
}

func wide(v mgl32.Vec3) mgl64.Vec3 { return mgl64.Vec3{float64(v[0]), float64(v[1]), float64(v[2])} }

func narrow(v mgl64.Vec3) mgl32.Vec3 {
	return mgl32.Vec3{float32(v[0]), float32(v[1]), float32(v[2])}
}

// tracedMaterials are those of the scene's bodies, in their order.
func (f Frame) tracedMaterials() (out []trace.Material) {
	for _, b := range f.Scene.Bodies {
		out = append(out, f.tracedMaterial(b))
	}
	return out
}

// tracedScene is what light is followed through: the frame's bodies in the finished
// look, with a material each.
func (f Frame) tracedScene() *trace.Scene {
	f.Look = LookFinished
	out := &trace.Scene{Materials: f.tracedMaterials()}
	for i, b := range f.Scene.Bodies {
		if !f.has(b) || len(b.vertices) == 0 || b.stuff == stuffOutside {
			continue
		}
		lift := float32(f.lift(b.Part.Stage, b.Part.Wall))
		for k := 0; k+17 < len(b.vertices); k += 18 {
			t := trace.Triangle{Material: i, LiftMM: lift}
			for c := range 3 {
				v := b.vertices[k+6*c:]
				t.Corners[c] = mgl32.Vec3{v[0], v[1], v[2] + lift}
				t.Normals[c] = mgl32.Vec3{v[3], v[4], v[5]}
			}
			out.Triangles = append(out.Triangles, t)
		}
	}
	f.Scene.light(f.lightKept(), f.Closed(), out)
	return out
}

// tracedMaterial is how a body takes the light.
func (f Frame) tracedMaterial(b Body) trace.Material {
	s := b.surface
	m := trace.Material{Colour: mgl32.Vec3(s.colour), Roughness: s.roughness, Metal: s.metal}
	if b.stuff != stuffPlain {
		m.Tiling = trace.Tiling{Origin: narrow(b.tile.origin), U: narrow(b.tile.u), V: narrow(b.tile.v)}
	}
	switch {
	case b.stuff == stuffOutside:
		m.Kind = trace.Beyond
	case b.stuff == stuffMirror:
		m.Kind = trace.Mirror
	case b.stuff == stuffWood:
		m.Kind = trace.Wood
	case b.stuff == stuffCloth:
		m.Kind = trace.Cloth
	case b.stuff == stuffLeaf:
		m.Kind = trace.Leaf
	case b.stuff == stuffGlow && f.Scene.lampsOn(f.lightKept().Kind):
		return trace.Lamp{Radiance: glowing()}.Glowing()
	case s.alpha < 1:
		m.Kind = trace.Glass
	case b.tile.bond == 0 && s.roughness > 0.9:
		m.Kind = trace.Paint
	}
	if t := b.tile; t.bond > 0 {
		m.Tiling = trace.Tiling{Bond: t.bond, LengthMM: float32(t.length), WidthMM: float32(t.width), JointMM: float32(t.joint),
			Origin: narrow(t.origin), U: narrow(t.u), V: narrow(t.v), Surface: t.surface, Grout: mgl32.Vec3(t.grout), Hand: handOf(s, t)}
	}
	if f.Wet && f.getsWet(b) {
		m.Wet = 1
	}
	return m
}

// handOf is how much tiles differ: small ones with a gloss are glazed by hand, dark
// glazes show it and white stays one white.
func handOf(s surface, t tiling) float32 {
	const small, glossy = 130, 0.2
	if t.surface > 0 || s.roughness > glossy || math.Min(t.length, t.width) > small {
		return 0.08
	}
	bright := 0.2126*s.colour[0] + 0.7152*s.colour[1] + 0.0722*s.colour[2]
	return 0.1 + 0.9*max(0, 1-1.4*bright)
}

// glowing is what one sees of a lamp that is on: far less than it gives, as no picture holds that.
func glowing() mgl32.Vec3 { return mgl32.Vec3{6.5, 4.2, 2.3} }

// tracedView is the frame's camera for following light.
func (f Frame) tracedView() trace.View {
	c := f.Camera
	right, up, forward := c.axes()
	half := math.Tan(c.field() / 2)
	eye := c.Eye()
	v := trace.View{Eye: narrow(eye), Forward: narrow(forward.Sub(up.Mul(c.Rise * half))),
		Right: narrow(right.Mul(half * float64(f.Width) / float64(f.Height))), Up: narrow(up.Mul(half)), NearMM: float32(c.near()), Columns: f.columns()}
	for _, b := range f.Scene.Bodies {
		v.Hidden = append(v.Hidden, b.hiddenFrom(eye))
	}
	for _, cut := range f.cuts() {
		n := narrow(cut.Normal)
		v.Cuts = append(v.Cuts, mgl32.Vec4{n[0], n[1], n[2], float32(-cut.Normal.Dot(cut.Origin))})
	}
	return v
}

// inked tells whether anything is drawn over the traced picture.
func (f Frame) inked() bool {
	return f.Caps != nil || f.Apart > 0 || f.Stage != buildup.StageTile || f.Chosen != ""
}

// tracedSum is a traced picture on its way.
type tracedSum struct {
	picture trace.Picture
	inks    summed
	inked   int  // samples of the inks
	due     bool // to be shown
}

func (s *tracedSum) begin() {
	s.picture.Begin()
	s.inked, s.due = 0, false
}

func (s *tracedSum) free() {
	s.picture.Free()
	s.inks.free()
}

const (
	wholePass     = math.MaxInt // paths
	tracedBounces = 1
	mostInked     = 16
)

// traceRows draws the next rows of a sample.
func (r *Renderer) traceRows(f Frame, s *tracedSum, on *sheet, rowCount int) error {
	if err := r.ready(f); err != nil {
		return err
	}
	t := r.tracedRoom(f)
	before := s.picture.Samples()
	if err := r.tracer.Sample(&s.picture, t.room, f.tracedView(), f.Width, f.Height, rowCount, tracedBounces); err != nil {
		return err
	}
	if s.picture.Samples() > before && f.inked() && s.inked < mostInked {
		return r.ink(f, s, on)
	}
	return nil
}

// ink adds a sample of what is drawn over the traced picture.
func (r *Renderer) ink(f Frame, s *tracedSum, on *sheet) error {
	p := r.prepareInks(f, on, s.inked+1)
	if err := on.sample.fit(f.Width, f.Height, gl.RGBA16F, true); err != nil {
		return err
	}
	p.inks()
	if err := r.addUp(&s.inks, &on.sample, s.inked == 0, allRows(f)); err != nil {
		return err
	}
	s.inked++
	return nil
}

// inks draws lines and cut faces alone, where the bodies leave them to be seen.
func (p *painter) inks() {
	gs, f := p.gs, p.f
	gl.BindFramebuffer(gl.FRAMEBUFFER, p.on.sample.frame)
	gs.Viewport(0, 0, int32(f.Width), int32(f.Height))
	gs.ClearColor(0, 0, 0, 0)
	gs.DepthMask(true)
	gs.Enable(gls.DEPTH_TEST)
	gs.Disable(gls.BLEND)
	gs.Clear(gls.COLOR_BUFFER_BIT | gls.DEPTH_BUFFER_BIT)
	p.clipped(p.depths)
	p.clipped(p.marked)
	p.clipped(p.lines)
	p.cutFaces()
}

// marked lays an ink over the chosen part.
func (p *painter) marked() {
	gs, f := p.gs, p.f
	for i, b := range f.Scene.Bodies {
		if f.Chosen == "" || b.Part.ID != f.Chosen || !f.shows(b, p.eye) {
			continue
		}
		gs.DepthFunc(gls.LEQUAL)
		gs.UseProgram(p.flat)
		uniformMatrix(p.Renderer, p.flat, "matrix", &p.matrix)
		p.setClip(p.flat)
		gs.Uniform1f(p.flat.GetUniformLocation("lift"), float32(f.lift(b.Part.Stage, b.Part.Wall)))
		c := [3]float32{0.88, 0.42, 0.10}
		gs.Uniform4f(p.flat.GetUniformLocation("ink"), c[0], c[1], c[2], 0.42)
		p.draw(p.bodyBuffers()[i].faces)
		gs.DepthFunc(gls.LESS)
	}
}

// smooth takes all noise off a traced picture.
func (r *Renderer) smooth(s *tracedSum) error {
	for done := false; !done; {
		var err error
		if done, err = r.tracer.Smooth(&s.picture); err != nil {
			return err
		}
	}
	return nil
}

// showTraced takes the noise off a traced picture, tones it and reads it back.
func (r *Renderer) showTraced(f Frame, s *tracedSum) (*image.RGBA, error) {
	if err := r.smooth(s); err != nil {
		return nil, err
	}
	return r.toned(f, s)
}

// shownAs is showTraced with an exposure.
func (r *Renderer) shownAs(f Frame, s *tracedSum, e trace.Exposure) (*image.RGBA, error) {
	if err := r.smooth(s); err != nil {
		return nil, err
	}
	return r.exposedTo(f, s, e)
}

// exposureKept is the exposure that a frame's picture was shown with last.
func (r *Renderer) exposureKept(f Frame) trace.Exposure { return r.exposures[f.exposed()] }

// exposed is what a frame's exposure is kept by.
func (f Frame) exposed() exposed { return exposed{f.lightKept().Kind, f.Caps != nil} }

// toned is the picture with its noise taken off as it is shown.
func (r *Renderer) toned(f Frame, s *tracedSum) (*image.RGBA, error) {
	e, held := r.exposures[f.exposed()]
	if !held || f.Strip == ([2]float64{}) { // what stands beside each other is exposed alike
		var err error
		if e, err = r.tracer.Meter(&s.picture, f.lightKept().Kind == job.LightEvening); err != nil {
			return nil, err
		}
		r.exposures[f.exposed()] = e
	}
	return r.exposedTo(f, s, e)
}

// exposedTo is the picture with its noise taken off as it is shown with an exposure.
func (r *Renderer) exposedTo(f Frame, s *tracedSum, e trace.Exposure) (*image.RGBA, error) {
	out := image.NewRGBA(image.Rect(0, 0, f.Width, f.Height))
	return out, r.tracer.Show(&s.picture, e, trace.Inks{Texture: s.inks.colour, Samples: s.inked}, f.background(), out)
}

// refineTraced adds whole samples to a traced picture, once its room's light stands.
func (r *Renderer) refineTraced(f Frame, s *sum, samples int, see bool) (*image.RGBA, int, error) {
	if err := r.ready(f); err != nil {
		return nil, 0, err
	}
	for t := r.tracedRoom(f); t.room.Passes() < trace.EnoughPasses; {
		if err := r.tracer.Bake(t.room, wholePass); err != nil {
			return nil, 0, err
		}
	}
	for range samples {
		if err := r.traceRows(f, &s.traced, &r.live, f.Height); err != nil {
			return nil, 0, err
		}
	}
	if !see {
		return nil, s.traced.picture.Samples(), nil
	}
	img, err := r.showTraced(f, &s.traced)
	return img, s.traced.picture.Samples(), err
}
