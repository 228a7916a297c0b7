package viewer

import (
	"errors"
	"fmt"
	"image"

	"github.com/g3n/engine/gls"
	"github.com/g3n/engine/math32"
	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl64"
)

// Renderer draws frames. All its methods must be called on the goroutine that
// made it, locked to its thread.
type Renderer struct {
	context *glContext
	gs      *gls.GLS
	Device  string // what draws, as the driver names it

	quick, full, line, cap, shadow, add, tone *gls.Program

	keyMap, skyMap shadowMap
	sample, shown  target
	sums           [Slots]sum
	sheet          uint32 // a vertex array with nothing in it

	// Quick pictures take turns in the same memory.
	moving [3]*image.RGBA
	turn   int

	scene        *Scene
	sceneBuffers []bodyBuffers
	flow         buffer
	caps         *Caps
	capBuffers   []capBuffers
}

// sum is the samples of one frame added up.
type sum struct {
	target
	of      Frame
	samples int
}

// Slots are how many frames can be refined side by side.
const Slots = 2

type bodyBuffers struct{ faces, edges buffer }

type capBuffers struct {
	face                  capFace
	faces, outline, hatch buffer
}

// ErrNoGraphics tells that there is no OpenGL 3.3 to draw with.
var ErrNoGraphics = errors.New("no OpenGL 3.3")

// ErrLost tells that the driver dropped the context: a new renderer may work.
var ErrLost = errors.New("the graphics driver was reset")

// NewRenderer opens a context on the calling thread and builds the programs.
func NewRenderer() (r *Renderer, err error) {
	context, err := openContext()
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoGraphics, err)
	}
	defer func() {
		if err != nil {
			context.close()
		}
	}()
	gs, err := gls.New()
	if err != nil {
		return nil, fmt.Errorf("%w: loading OpenGL: %w", ErrNoGraphics, err)
	}
	gs.SetCheckErrors(false)
	if err := gl.InitWithProcAddrFunc(context.procAddress); err != nil {
		return nil, fmt.Errorf("%w: loading OpenGL: %w", ErrNoGraphics, err)
	}
	r = &Renderer{context: context, gs: gs}
	r.Device = gl.GoStr(gl.GetString(gl.RENDERER))
	for _, p := range []struct {
		to               **gls.Program
		vertex, fragment string
	}{{&r.quick, bodyVertex, bodyFragmentQuick}, {&r.full, bodyVertex, bodyFragmentFull}, {&r.line, lineVertex, inkFragment}, {&r.cap, capVertex, inkFragment},
		{&r.shadow, shadowVertex, shadowFragment}, {&r.add, sheetVertex, addFragment}, {&r.tone, sheetVertex, toneFragment}} {
		program := gs.NewProgram()
		program.AddShader(gls.VERTEX_SHADER, p.vertex)
		program.AddShader(gls.FRAGMENT_SHADER, p.fragment)
		if err := program.Build(); err != nil {
			return nil, fmt.Errorf("%w: building shaders: %w", ErrNoGraphics, err)
		}
		*p.to = program
	}
	r.keyMap, r.skyMap = newShadowMap(), newShadowMap()
	r.sheet = gs.GenVertexArray()
	return r, nil
}

// Software tells that no graphics card draws, so that pictures should be asked
// for sparingly.
func (r *Renderer) Software() bool { return isSoftware(r.Device) }

// Close gives the context back.
func (r *Renderer) Close() {
	r.dropScene()
	r.dropCaps()
	r.sample.free()
	r.shown.free()
	for i := range r.sums {
		r.sums[i].free()
	}
	r.context.close()
}

func (r *Renderer) dropScene() {
	for _, b := range r.sceneBuffers {
		r.drop(b.faces, b.edges)
	}
	r.drop(r.flow)
	r.sceneBuffers, r.scene = nil, nil
}

func (r *Renderer) dropCaps() {
	for _, b := range r.capBuffers {
		r.drop(b.faces, b.outline, b.hatch)
	}
	r.capBuffers, r.caps = nil, nil
}

// load brings scene and caps to the graphics memory when they are new.
func (r *Renderer) load(f Frame) {
	if f.Scene != r.scene {
		// What the last scene had and this one takes over stays where it is.
		kept := map[*float32]bodyBuffers{}
		if r.scene != nil {
			for i, b := range r.scene.Bodies {
				if len(b.vertices) > 0 {
					kept[&b.vertices[0]] = r.sceneBuffers[i]
				}
			}
		}
		r.drop(r.flow)
		r.scene, r.sceneBuffers = f.Scene, nil
		for _, b := range f.Scene.Bodies {
			if len(b.vertices) > 0 {
				if old, ok := kept[&b.vertices[0]]; ok {
					r.sceneBuffers = append(r.sceneBuffers, old)
					delete(kept, &b.vertices[0])
					continue
				}
			}
			r.sceneBuffers = append(r.sceneBuffers, bodyBuffers{r.makeBuffer(b.vertices, 3, 3), r.makeBuffer(strips(b.edges), 3, 3, 2)})
		}
		for _, b := range kept {
			r.drop(b.faces, b.edges)
		}
		r.flow = r.makeBuffer(strips(f.Scene.flow), 3, 3, 2)
	}
	if f.Caps != r.caps {
		r.dropCaps()
		r.caps = f.Caps
		if f.Caps != nil {
			for _, c := range f.Caps.faces {
				r.capBuffers = append(r.capBuffers, capBuffers{c, r.makeBuffer(c.triangles, 3), r.makeBuffer(strips(c.outline), 3, 3, 2), r.makeBuffer(strips(c.hatch), 3, 3, 2)})
			}
		}
	}
}

// Draw gives one picture at once: without shadows when quick, else one sample.
// A quick picture's memory is used again for the third after it.
func (r *Renderer) Draw(f Frame, quick bool) (*image.RGBA, error) {
	sample := 1
	if quick {
		sample = 0
	}
	if err := r.pass(f, sample, quick); err != nil {
		return nil, err
	}
	if !quick {
		return r.show(&r.sample, 1, image.NewRGBA(image.Rect(0, 0, f.Width, f.Height)))
	}
	r.turn = (r.turn + 1) % len(r.moving)
	if m := r.moving[r.turn]; m == nil || m.Rect.Dx() != f.Width || m.Rect.Dy() != f.Height {
		r.moving[r.turn] = image.NewRGBA(image.Rect(0, 0, f.Width, f.Height))
	}
	return r.show(&r.sample, 1, r.moving[r.turn])
}

// Refine adds samples to the picture of a frame at rest and gives the mean so
// far and how many it is of. A frame that differs from the slot's last starts
// again. Without a need to see it the picture is nil and costs nothing.
func (r *Renderer) Refine(f Frame, slot, samples int, see bool) (*image.RGBA, int, error) {
	s := &r.sums[slot]
	if f != s.of || s.frame == 0 {
		s.of, s.samples = f, 0
	}
	for range samples {
		if err := r.pass(f, s.samples+1, false); err != nil {
			return nil, 0, err
		}
		if err := s.fit(f.Width, f.Height, gl.RGBA32F, false); err != nil {
			return nil, 0, fmt.Errorf("refining: %w", err)
		}
		gl.BindFramebuffer(gl.FRAMEBUFFER, s.frame)
		if s.samples == 0 {
			r.gs.ClearColor(0, 0, 0, 0)
			r.gs.Clear(gls.COLOR_BUFFER_BIT)
		}
		r.gs.Disable(gls.DEPTH_TEST)
		r.gs.Enable(gls.BLEND)
		r.gs.BlendFunc(gls.ONE, gls.ONE)
		r.over(r.add, r.sample.colour)
		r.gs.Disable(gls.BLEND)
		s.samples++
	}
	if !see {
		return nil, s.samples, nil
	}
	img, err := r.show(&s.target, s.samples, image.NewRGBA(image.Rect(0, 0, f.Width, f.Height)))
	return img, s.samples, err
}

// over draws a program over the whole picture, reading another.
func (r *Renderer) over(p *gls.Program, from uint32) {
	r.gs.UseProgram(p)
	gl.ActiveTexture(gl.TEXTURE0)
	gl.BindTexture(gl.TEXTURE_2D, from)
	r.gs.Uniform1i(p.GetUniformLocation("picture"), 0)
	r.gs.BindVertexArray(r.sheet)
	r.gs.DrawArrays(gls.TRIANGLES, 0, 3)
}

// show tones the mean of samples and reads it back.
func (r *Renderer) show(t *target, samples int, out *image.RGBA) (*image.RGBA, error) {
	if err := r.shown.fit(t.width, t.height, gl.RGBA8, false); err != nil {
		return nil, err
	}
	gl.BindFramebuffer(gl.FRAMEBUFFER, r.shown.frame)
	r.gs.Viewport(0, 0, int32(t.width), int32(t.height))
	r.gs.Disable(gls.DEPTH_TEST)
	r.gs.Disable(gls.BLEND)
	r.gs.UseProgram(r.tone)
	r.gs.Uniform1f(r.tone.GetUniformLocation("samples"), float32(samples))
	r.over(r.tone, t.colour)
	read(out)
	switch code := gl.GetError(); code {
	case gl.NO_ERROR:
	case gl.OUT_OF_MEMORY:
		return nil, fmt.Errorf("drawing %d × %d: the graphics memory is full; make the window or picture smaller", t.width, t.height)
	default:
		return nil, fmt.Errorf("%w (code %#x)", ErrLost, code)
	}
	return out, nil
}

// pass draws one sample into the sample's target; sample 0 has no jitter.
func (r *Renderer) pass(f Frame, sample int, quick bool) error {
	if f.Scene == nil || f.Width < 1 || f.Height < 1 || f.Camera.DistanceMM <= 0 {
		return errors.New("drawing: nothing to draw")
	}
	const most = 16
	for range most { // what others left behind
		if gl.GetError() == gl.NO_ERROR {
			break
		}
		if r.context.lost() {
			return ErrLost
		}
	}
	r.load(f)
	p := painter{Renderer: r, f: f, eye: f.Camera.Eye(), light: f.Scene.lighting(f.Light), clips: f.Caps.passes(), program: r.quick}
	if !quick && f.Look != LookTechnical {
		p.program = r.full
		p.key, p.sky = p.light.keyAt(sample), skyAt(sample)
		p.keyMatrix, p.skyMatrix = p.shade(r.keyMap, p.key), p.shade(r.skyMap, p.sky)
		p.virtual = f.bounced(p.light, p.key, sample)
		p.jitter = [2]float32{float32(halton(sample, 23)), float32(halton(sample, 29))}
	} else {
		p.key, p.sky = p.light.key, mgl64.Vec3{0, 0, 1}
		p.keyMatrix.Identity()
		p.skyMatrix.Identity()
	}
	if err := r.sample.fit(f.Width, f.Height, gl.RGBA16F, true); err != nil {
		return err
	}
	jitterX, jitterY := 0.0, 0.0
	if sample > 0 {
		jitterX, jitterY = halton(sample, 2)-0.5, halton(sample, 3)-0.5
	}
	p.matrix = f.Camera.matrix(f.Width, f.Height, jitterX, jitterY)
	gl.BindFramebuffer(gl.FRAMEBUFFER, r.sample.frame)
	gs := r.gs
	gs.Viewport(0, 0, int32(f.Width), int32(f.Height))
	bg := f.background()
	gs.ClearColor(bg[0], bg[1], bg[2], bg[3])
	gs.DepthMask(true)
	gs.Enable(gls.DEPTH_TEST)
	gs.Disable(gls.BLEND)
	gs.Disable(gls.CULL_FACE)
	gs.Clear(gls.COLOR_BUFFER_BIT | gls.DEPTH_BUFFER_BIT)
	p.clipped(func() { p.bodies(true) })
	p.clipped(p.lines)
	p.cutFaces()
	p.clipped(func() { p.bodies(false) })
	return nil
}

func uniformMatrix(r *Renderer, p *gls.Program, name string, m *math32.Matrix4) {
	r.gs.UniformMatrix4fv(p.GetUniformLocation(name), 1, false, &m[0])
}

func uniformVec(r *Renderer, p *gls.Program, name string, v mgl64.Vec3) {
	r.gs.Uniform3f(p.GetUniformLocation(name), float32(v[0]), float32(v[1]), float32(v[2]))
}
