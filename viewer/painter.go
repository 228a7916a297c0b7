package viewer

import (
	"fmt"
	"slices"
	"strings"

	"github.com/g3n/engine/gls"
	"github.com/g3n/engine/math32"
	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/viewer/trace"
)

// painter draws one sample of one frame.
type painter struct {
	*Renderer
	on        *sheet
	f         Frame
	eye       mgl64.Vec3
	matrix    math32.Matrix4
	key       mgl64.Vec3 // towards the sun; zero where none shines
	keyMatrix math32.Matrix4
	look      *dressed // materials and sky; nil for inks alone
	exposure  trace.Exposure
	clips     [][2]clip
	clip      [2]clip      // of the pass being drawn
	program   *gls.Program // that draws bodies now
}

// paint draws rows of the sample.
func (p *painter) paint(part rows) {
	p.begun(part, func() {
		p.clipped(func() { p.bodies(true) })
		p.clipped(p.lines)
		p.cutFaces()
		p.clipped(func() { p.bodies(false) })
	})
}

// begun draws rows of the sample from their beginning.
func (p *painter) begun(part rows, draw func()) {
	gs, f := p.gs, p.f
	gl.BindFramebuffer(gl.FRAMEBUFFER, p.on.sample.frame)
	gs.Viewport(0, 0, int32(f.Width), int32(f.Height))
	bg := f.background()
	gs.ClearColor(bg[0], bg[1], bg[2], bg[3])
	gs.DepthMask(true)
	gs.Enable(gls.DEPTH_TEST)
	gs.Disable(gls.BLEND)
	gs.Disable(gls.CULL_FACE)
	part.within(f.Width, func() {
		gs.Clear(gls.COLOR_BUFFER_BIT | gls.DEPTH_BUFFER_BIT)
		draw()
	})
}

// isSoftware tells the names software renderers go by.
func isSoftware(device string) bool {
	d := strings.ToLower(device)
	return strings.Contains(d, "llvmpipe") || strings.Contains(d, "softpipe") || strings.Contains(d, "swiftshader")
}

// clipped draws once for each part of the scene the cuts leave.
func (p *painter) clipped(draw func()) {
	if p.f.Caps == nil { // nothing is cut away
		p.clip = p.clips[0]
		draw()
		return
	}
	p.gs.Enable(gl.CLIP_DISTANCE0)
	p.gs.Enable(gl.CLIP_DISTANCE0 + 1)
	for _, c := range p.clips {
		p.clip = c
		draw()
	}
	p.gs.Disable(gl.CLIP_DISTANCE0)
	p.gs.Disable(gl.CLIP_DISTANCE0 + 1)
}

func (p *painter) setClip(program *gls.Program) {
	for i, name := range []string{"cutA", "cutB"} {
		c := p.clip[i]
		p.gs.Uniform4f(program.GetUniformLocation(name), c[0], c[1], c[2], c[3])
	}
}

func (p *painter) float(name string, v float64) {
	p.gs.Uniform1f(p.program.GetUniformLocation(name), float32(v))
}

func (p *painter) flag(name string, on bool) {
	v := 0.0
	if on {
		v = 1
	}
	p.float(name, v)
}

// bodies draws the solid bodies, or the ones like glass over them.
func (p *painter) bodies(solid bool) {
	gs, f := p.gs, p.f
	if solid {
		// Depth first, so that the costly program runs once a pixel.
		p.depths()
		gs.DepthFunc(gls.LEQUAL)
		defer gs.DepthFunc(gls.LESS)
	}
	set := map[*gls.Program]bool{}
	if !solid {
		gs.Enable(gls.BLEND)
		gs.BlendFunc(gls.ONE, gls.ONE_MINUS_SRC_ALPHA)
		gs.DepthMask(false)
		defer func() { gs.Disable(gls.BLEND); gs.DepthMask(true) }()
	}
	for i, b := range f.Scene.Bodies {
		if p.bodyBuffers()[i].faces.count == 0 || !f.shows(b, p.eye) || f.solidIn(b) != solid {
			continue
		}
		p.use(p.programOf(i, b), set)
		p.setBody(i, b)
		if !solid && b.surface.alpha == 1 {
			p.float("alpha", 0.13)
		}
		p.draw(p.bodyBuffers()[i].faces)
	}
}

// depths draws how far the solid bodies are, and nothing else.
func (p *painter) depths() {
	gs, f := p.gs, p.f
	gl.ColorMask(false, false, false, false)
	gs.UseProgram(p.shadow)
	uniformMatrix(p.Renderer, p.shadow, "matrix", &p.matrix)
	p.setClip(p.shadow)
	for i, b := range f.Scene.Bodies {
		if p.bodyBuffers()[i].faces.count > 0 && f.shows(b, p.eye) && f.solidIn(b) {
			gs.Uniform1f(p.shadow.GetUniformLocation("lift"), float32(f.lift(b.Part.Stage, b.Part.Wall)))
			p.draw(p.bodyBuffers()[i].faces)
		}
	}
	gl.ColorMask(true, true, true, true)
}

// programOf is what draws a body, the i-th of its scene: that of its class where it is there, else that of all.
func (p *painter) programOf(i int, b Body) *gls.Program {
	if program := p.classed[p.look.classes[i]]; program != nil && !p.reliefOf(b) {
		return program
	}
	return p.body
}

// buildOne builds one more of the programs for classes of materials that a frame has, and tells whether there was one
// to build. Drivers without a card take a while for each, most of it when it draws first: so it draws here, little, and
// only between pictures at rest.
func (r *Renderer) buildOne(f Frame) (built bool, err error) {
	if err := r.ready(f); err != nil {
		return false, err
	}
	for _, class := range r.dressed(f).classes {
		if _, known := r.classed[class]; known {
			continue
		}
		program := r.gs.NewProgram()
		program.AddShader(gls.VERTEX_SHADER, bodyVertex)
		program.AddShader(gls.FRAGMENT_SHADER, bodyFragmentOf(class, r.able))
		if program.Build() != nil { // that of all classes goes on to draw it
			program = nil
		}
		r.classed[class] = program
		const few = 32 // pixels
		f.Width, f.Height = few, few
		return true, r.pass(f, 0)
	}
	return false, nil
}

// use has a program draw what comes; set are those that were told of the scene.
func (p *painter) use(program *gls.Program, set map[*gls.Program]bool) {
	p.program = program
	p.gs.UseProgram(program)
	if !set[program] {
		set[program] = true
		p.setScene()
		p.setClip(program)
	}
}

// setScene tells the program what all bodies share.
func (p *painter) setScene() {
	gs, program := p.gs, p.program
	const unit = 1
	p.tracer.Light(program.Handle(), p.look.room, p.lightOf(p.f, p.look), p.f.Scene.box(), p.exposure, unit)
	gl.ActiveTexture(gl.TEXTURE0)
	gl.BindTexture(gl.TEXTURE_2D, p.on.keyMap.depth)
	gs.Uniform1i(program.GetUniformLocation("keyMap"), 0)
	p.flag("keyOn", p.key != mgl64.Vec3{})
	uniformMatrix(p.Renderer, program, "matrix", &p.matrix)
	uniformMatrix(p.Renderer, program, "keyMatrix", &p.keyMatrix)
	uniformVec(p.Renderer, program, "eye", p.eye)
	p.flag("flatLook", p.f.Look == LookTechnical)
	for i, c := range heightColours() {
		gs.Uniform3f(program.GetUniformLocation(fmt.Sprintf("heightColours[%d]", i)), c[0], c[1], c[2])
	}
	bg := p.f.background()
	fade := float32(0)
	if p.f.Caps != nil {
		fade = 0.5
	}
	gs.Uniform4f(program.GetUniformLocation("paper"), bg[0], bg[1], bg[2], fade)
}

// setBody tells the program about one body, the i-th of its scene.
func (p *painter) setBody(i int, b Body) {
	gs, f := p.gs, p.f
	p.tracer.Face(p.program.Handle(), p.look.room, i)
	p.float("alpha", float64(b.surface.alpha))
	p.float("lift", f.lift(b.Part.Stage, b.Part.Wall))
	p.flag("chosen", f.Chosen != "" && f.Chosen == b.Part.ID)
	levels := f.Scene.levels
	on := float32(0)
	if p.reliefOf(b) {
		on = 1
	}
	gs.Uniform4f(p.program.GetUniformLocation("relief"), float32(levels.drainMM), float32(levels.spanMM), on, float32(contourOf(levels.spanMM)))
}

// reliefOf tells whether a body has the colours of its heights.
func (p *painter) reliefOf(b Body) bool { return p.f.Look == LookHeights && b.floorTile() }

// strips draws lines in one ink over what is there.
func (p *painter) strips(b buffer, ink [3]float32, alpha, widthPixels, nearer, lift float32) {
	if b.count == 0 {
		return
	}
	gs, program := p.gs, p.line
	gs.UseProgram(program)
	uniformMatrix(p.Renderer, program, "matrix", &p.matrix)
	p.setClip(program)
	gs.Uniform2f(program.GetUniformLocation("size"), float32(p.f.Width)/2, float32(p.f.Height)/2)
	gs.Uniform1f(program.GetUniformLocation("widthPixels"), widthPixels/2)
	gs.Uniform1f(program.GetUniformLocation("nearer"), nearer)
	gs.Uniform1f(program.GetUniformLocation("lift"), lift)
	gs.Uniform4f(program.GetUniformLocation("ink"), ink[0], ink[1], ink[2], alpha)
	p.draw(b)
}

// lines draws the edges of bodies and the ways of the water.
func (p *painter) lines() {
	f := p.f
	if f.Look == LookHeights && p.flow().count > 0 && f.Stage == buildup.StageTile {
		p.strips(p.flow(), parseColour("#f4f7f8"), 1, f.lineWidth(2.2), 0.0002, float32(f.lift(buildup.StageTile, 0)))
		p.strips(p.flow(), parseColour("#0b3c5d"), 1, f.lineWidth(1.1), 0.0003, float32(f.lift(buildup.StageTile, 0)))
	}
	ink, width := parseColour("#2b3035"), f.lineWidth(1.1)
	if f.Dark {
		ink = parseColour("#101214")
	}
	if f.Look == LookFinished || f.Look == LookHeights {
		// A photograph has no outlines; while the work is drawn apart or cut,
		// thin ones help to tell the layers.
		if f.Caps == nil && f.Apart == 0 && f.Stage == buildup.StageTile {
			return
		}
		width = f.lineWidth(0.7)
	}
	faint := parseColour("#8f969b")
	for i, b := range f.Scene.Bodies {
		if b.dressing || !f.shows(b, p.eye) {
			continue
		}
		c := ink
		if !f.solidIn(b) {
			c = faint
		}
		p.strips(p.bodyBuffers()[i].edges, c, 1, width, 0.0001, float32(f.lift(b.Part.Stage, b.Part.Wall)))
	}
}

// cutFaces draws the caps: flat colour, hatch, outline.
func (p *painter) cutFaces() {
	p.clip = [2]clip{everything(), everything()}
	gs, f := p.gs, p.f
	for _, c := range p.capBuffers() {
		if c.faces.count == 0 {
			continue
		}
		gs.UseProgram(p.cap)
		uniformMatrix(p.Renderer, p.cap, "matrix", &p.matrix)
		gs.Uniform1f(p.cap.GetUniformLocation("nearer"), 0.00004)
		gs.Uniform1f(p.cap.GetUniformLocation("lift"), float32(f.lift(c.face.stage, c.face.wall)))
		k := c.face.colour
		gs.Uniform4f(p.cap.GetUniformLocation("ink"), k[0], k[1], k[2], 1)
		p.draw(c.faces)
	}
	for _, c := range p.capBuffers() {
		p.strips(c.hatch, parseColour("#404040"), 1, f.lineWidth(0.8), 0.00008, float32(f.lift(c.face.stage, c.face.wall)))
	}
	for _, c := range p.capBuffers() {
		p.strips(c.outline, parseColour("#0d0d0f"), 1, f.lineWidth(1.8), 0.00012, float32(f.lift(c.face.stage, c.face.wall)))
	}
}

// shadows are all that a shadow map depends on.
type shadows struct {
	scene           *Scene
	caps            *Caps
	stage           buildup.Stage
	from            mgl64.Vec3
	apart, arriving float64
	casters         []int // of the scene's bodies
}

func (s shadows) same(o shadows) bool {
	return s.scene == o.scene && s.caps == o.caps && s.stage == o.stage && s.from == o.from && s.apart == o.apart &&
		s.arriving == o.arriving && slices.Equal(s.casters, o.casters)
}

// casters are the bodies that keep the light of a direction off others.
func (p *painter) casters(from mgl64.Vec3) (out []int) {
	for i, body := range p.f.Scene.Bodies {
		// Thin bars would only streak the sky's soft light.
		if p.bodyBuffers()[i].faces.count == 0 || !p.f.castsShadow(body, p.eye, from) || p.f.Look == LookThrough && !p.f.solidIn(body) {
			continue
		}
		out = append(out, i)
	}
	return out
}

// shade has a map hold the scene's depth as a light sees it from a direction; a map that holds it stays as it is.
func (p *painter) shade(m *shadowMap, from mgl64.Vec3) math32.Matrix4 {
	matrix := p.seenFrom(from)
	of := shadows{p.f.Scene, p.f.Caps, p.f.Stage, from, p.f.Apart, p.f.Arriving, p.casters(from)}
	if of.same(m.of) {
		return matrix
	}
	m.of = of
	gs := p.gs
	gl.BindFramebuffer(gl.FRAMEBUFFER, m.frame)
	gs.Viewport(0, 0, shadowMapSize, shadowMapSize)
	gs.DepthMask(true)
	gs.Enable(gls.DEPTH_TEST)
	gs.Disable(gls.BLEND)
	gs.Clear(gls.DEPTH_BUFFER_BIT)
	gs.UseProgram(p.shadow)
	uniformMatrix(p.Renderer, p.shadow, "matrix", &matrix)
	p.clipped(func() {
		p.setClip(p.shadow)
		for _, i := range of.casters {
			part := p.f.Scene.Bodies[i].Part
			gs.Uniform1f(p.shadow.GetUniformLocation("lift"), float32(p.f.lift(part.Stage, part.Wall)))
			p.draw(p.bodyBuffers()[i].faces)
		}
	})
	return matrix
}

// seenFrom brings the scene to what a light far off in a direction sees of it.
func (p *painter) seenFrom(from mgl64.Vec3) (matrix math32.Matrix4) {
	b := p.f.Scene.Bounds
	radius := float32(b.High.Sub(b.Low).Len()/2 + p.f.Apart*apartMM*4)
	c := b.Centre()
	right := mgl64.Vec3{0, 0, 1}.Cross(from)
	if right.Len() < 1e-6 {
		right = mgl64.Vec3{1, 0, 0}
	}
	right = right.Normalize()
	up := from.Cross(right)
	var view, projection math32.Matrix4
	view.Set(float32(right[0]), float32(right[1]), float32(right[2]), float32(-right.Dot(c)),
		float32(up[0]), float32(up[1]), float32(up[2]), float32(-up.Dot(c)),
		float32(from[0]), float32(from[1]), float32(from[2]), float32(-from.Dot(c)), 0, 0, 0, 1)
	projection.MakeOrthographic(-radius, radius, radius, -radius, -radius, radius)
	matrix.MultiplyMatrices(&projection, &view)
	return matrix
}
