package viewer

import (
	"errors"
	"fmt"
	"image"
	"time"

	"github.com/g3n/engine/gls"
	"github.com/g3n/engine/math32"
	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/message"
	"underfall/viewer/trace"
)

// Renderer draws frames. A Studio makes it and lends it to the pictures; all its
// methods must be called from there.
type Renderer struct {
	context *glContext
	gs      *gls.GLS
	Device  string // what draws, as the driver names it

	body, line, cap, flat, shadow, add, tone *gls.Program
	// classed draw what body does, for one class of materials each; nil where one could not be built.
	classed map[trace.Class]*gls.Program

	found  trace.Abilities // what the driver can do
	able   trace.Abilities // those of them that are made use of
	resets int             // of the driver, before
	tracer *trace.Tracer
	traced []tracedRoom // used last last
	baked  []bakedLight // of rooms that are no longer there; kept last last
	looks  []dressed    // so are they
	// The exposures that pictures at rest were shown with last, and those taken for them before.
	exposures map[exposed]trace.Exposure
	guesses   map[guessed]trace.Exposure

	live  sheet
	sums  [Slots]sum
	still stillSheet
	whole uint32 // a vertex array with nothing in it

	// Quick pictures take turns in the same memory.
	moving [quickPictures]*image.RGBA
	turn   int

	// What is in the graphics memory, used last last; the last of each is being
	// drawn.
	scenes []loadedScene
	caps   []loadedCaps
}

// sheet is where samples of a frame are drawn and shown.
type sheet struct {
	keyMap        shadowMap
	sample, shown target
}

func (s *sheet) free() {
	s.keyMap.free()
	s.sample.free()
	s.shown.free()
}

// sum is the samples of one frame added up.
type sum struct {
	summed
	of      Frame
	samples int
	began   time.Time   // refining
	next    int         // samples at which the picture is shown again
	rested  *image.RGBA // what was shown of it at rest; nil for nothing
	// Of a picture made by following light: at the frame's size, and at half.
	traced, half tracedSum
}

// holds tells whether the sum is of a frame, if of more of its width.
func (s *sum) holds(f Frame) bool {
	if had := s.of.Strip; had == ([2]float64{}) || f.Strip != ([2]float64{}) && f.Strip[0] >= had[0] && f.Strip[1] <= had[1] {
		f.Strip = had
	}
	return f == s.of
}

// begin starts the sum of a frame, unless it is of that already.
func (s *sum) begin(f Frame) {
	if !s.holds(f) {
		s.of, s.samples, s.rested = f, 0, nil
		s.traced.begin()
		s.half.begin()
	}
}

// Slots are how many frames can be refined side by side.
const Slots = 3

// quickPictures is how many quick pictures have memory of their own: of every
// slot the one that is looked at, the one being drawn and the one between.
const quickPictures = 3 * Slots

// ErrNoGraphics tells that there is no OpenGL 3.3 to draw with.
var ErrNoGraphics error = message.Fail("view3d.no-opengl")

// ErrLost tells that the driver dropped the context: a new renderer may work.
var ErrLost error = message.Fail("view3d.driver-reset")

// newRenderer opens a context on the calling thread and builds the programs.
func newRenderer() (*Renderer, error) { return newRendererFor(worthwhile) }

// worthwhile are the abilities of a driver that are made use of: without a card, shaders that compute take longer than
// drawing does.
func worthwhile(able trace.Abilities, software bool) trace.Abilities {
	if software {
		able.Computes = false
	}
	return able
}

// newRendererFor is newRenderer with the abilities that use chooses of those there are.
func newRendererFor(use func(able trace.Abilities, software bool) trace.Abilities) (r *Renderer, err error) {
	context, err := openContext()
	if err != nil {
		return nil, fmt.Errorf("%w (%v)", ErrNoGraphics, err)
	}
	defer func() {
		if err != nil {
			context.close()
		}
	}()
	gs, err := gls.New()
	if err != nil {
		return nil, fmt.Errorf("%w (loading OpenGL: %v)", ErrNoGraphics, err)
	}
	gs.SetCheckErrors(false)
	// Otherwise the first sample of all would have other shadows than the rest.
	gs.Disable(gls.CULL_FACE)
	gs.DepthFunc(gls.LESS)
	if err := gl.InitWithProcAddrFunc(context.procAddress); err != nil {
		return nil, fmt.Errorf("%w (loading OpenGL: %v)", ErrNoGraphics, err)
	}
	r = &Renderer{context: context, gs: gs, exposures: map[exposed]trace.Exposure{}, guesses: map[guessed]trace.Exposure{},
		classed: map[trace.Class]*gls.Program{}}
	r.Device = gl.GoStr(gl.GetString(gl.RENDERER))
	r.found = trace.Able(context.procAddress)
	r.able = use(r.found, r.Software())
	for _, p := range []struct {
		to               **gls.Program
		vertex, fragment string
	}{{&r.body, bodyVertex, bodyFragment(r.able)}, {&r.line, lineVertex, inkFragment},
		{&r.cap, capVertex, inkFragment}, {&r.flat, shadowVertex, inkFragment},
		{&r.shadow, shadowVertex, shadowFragment}, {&r.add, sheetVertex, addFragment}, {&r.tone, sheetVertex, toneFragment}} {
		program := gs.NewProgram()
		program.AddShader(gls.VERTEX_SHADER, p.vertex)
		program.AddShader(gls.FRAGMENT_SHADER, p.fragment)
		if err := program.Build(); err != nil {
			return nil, fmt.Errorf("%w (building shaders: %v)", ErrNoGraphics, err)
		}
		*p.to = program
	}
	if r.tracer, err = trace.New(r.able); err != nil {
		return nil, fmt.Errorf("%w (%v)", ErrNoGraphics, err)
	}
	r.live.keyMap = newShadowMap()
	r.whole = gs.GenVertexArray()
	return r, nil
}

// Software tells that no graphics card draws, so that pictures should be asked
// for sparingly.
func (r *Renderer) Software() bool { return isSoftware(r.Device) }

// close gives the context back; once is enough.
func (r *Renderer) close() {
	if r.context == nil {
		return
	}
	r.unload()
	r.live.free()
	r.still.free()
	for i := range r.sums {
		r.sums[i].free()
		r.sums[i].traced.free()
		r.sums[i].half.free()
	}
	for _, t := range r.traced {
		t.room.Free()
	}
	for _, d := range r.looks {
		d.room.Free()
	}
	r.tracer.Free()
	r.context.close()
	r.context = nil
}

// Draw gives one picture at once, as it is drawn while something moves. Its memory is
// used again after quickPictures others.
func (r *Renderer) Draw(f Frame) (*image.RGBA, error) {
	if err := r.pass(f, 0); err != nil {
		return nil, err
	}
	r.turn = (r.turn + 1) % len(r.moving)
	if m := r.moving[r.turn]; m == nil || m.Rect.Dx() != f.Width || m.Rect.Dy() != f.Height {
		r.moving[r.turn] = image.NewRGBA(image.Rect(0, 0, f.Width, f.Height))
	}
	return r.show(&r.live.sample, 1, r.moving[r.turn])
}

// Refine adds samples to the picture of a frame at rest and gives the mean so
// far and how many it is of. A frame that differs from the slot's last starts
// again. Without a need to see it the picture is nil and costs nothing.
func (r *Renderer) Refine(f Frame, slot, samples int, see bool) (*image.RGBA, int, error) {
	s := &r.sums[slot]
	s.begin(f)
	if f.traced() {
		return r.refineTraced(f, s, samples, see)
	}
	for range samples {
		if err := r.pass(f, s.samples+1); err != nil {
			return nil, 0, err
		}
		if err := r.addUp(&s.summed, &r.live.sample, s.samples == 0, allRows(f)); err != nil {
			return nil, 0, err
		}
		s.samples++
	}
	if !see {
		return nil, s.samples, nil
	}
	img, err := r.show(&s.target, s.samples, image.NewRGBA(image.Rect(0, 0, f.Width, f.Height)))
	return img, s.samples, err
}

// rows are a part of a picture, from its first row on.
type rows struct{ from, to int }

func allRows(f Frame) rows { return rows{0, f.Height} }

// within draws only inside the rows of a picture of that width.
func (w rows) within(width int, draw func()) {
	gl.Enable(gl.SCISSOR_TEST)
	gl.Scissor(0, int32(w.from), int32(width), int32(w.to-w.from))
	draw()
	gl.Disable(gl.SCISSOR_TEST)
}

// addUp adds rows of a sample to the sum, which begins with the first.
func (r *Renderer) addUp(sum *summed, sample *target, first bool, part rows) error {
	on := []*target{&sum.target}
	if !r.able.Blends {
		on = append(on, &sum.other)
	}
	for _, t := range on {
		if err := t.fit(sample.width, sample.height, gl.RGBA32F, false); err != nil {
			return fmt.Errorf("refining: %w", err)
		}
	}
	gl.BindFramebuffer(gl.FRAMEBUFFER, on[len(on)-1].frame)
	r.gs.Viewport(0, 0, int32(sum.width), int32(sum.height))
	r.gs.Disable(gls.DEPTH_TEST)
	r.gs.UseProgram(r.add)
	gl.ActiveTexture(gl.TEXTURE1)
	gl.BindTexture(gl.TEXTURE_2D, sum.other.colour)
	r.gs.Uniform1i(r.add.GetUniformLocation("before"), 1)
	more := float32(0)
	if !r.able.Blends && !first {
		more = 1
		gl.BindTexture(gl.TEXTURE_2D, sum.colour)
	}
	r.gs.Uniform1f(r.add.GetUniformLocation("more"), more)
	part.within(sum.width, func() {
		if first {
			r.gs.ClearColor(0, 0, 0, 0)
			r.gs.Clear(gls.COLOR_BUFFER_BIT)
		}
		if r.able.Blends {
			r.gs.Enable(gls.BLEND)
			r.gs.BlendFunc(gls.ONE, gls.ONE)
		}
		r.over(r.add, sample.colour)
		r.gs.Disable(gls.BLEND)
	})
	if !r.able.Blends && part.to == sum.height {
		sum.target, sum.other = sum.other, sum.target
	}
	return nil
}

// over draws a program over the whole picture, reading another.
func (r *Renderer) over(p *gls.Program, from uint32) {
	r.gs.UseProgram(p)
	gl.ActiveTexture(gl.TEXTURE0)
	gl.BindTexture(gl.TEXTURE_2D, from)
	r.gs.Uniform1i(p.GetUniformLocation("picture"), 0)
	r.gs.BindVertexArray(r.whole)
	r.gs.DrawArrays(gls.TRIANGLES, 0, 3)
}

// show tones the mean of samples and reads it back.
func (r *Renderer) show(t *target, samples int, out *image.RGBA) (*image.RGBA, error) {
	return out, r.showRows(t, &r.live.shown, samples, rows{0, t.height}, out)
}

// showRows is show for some rows of the picture.
func (r *Renderer) showRows(t, shown *target, samples int, part rows, out *image.RGBA) error {
	if err := shown.fit(t.width, t.height, gl.RGBA8, false); err != nil {
		return err
	}
	gl.BindFramebuffer(gl.FRAMEBUFFER, shown.frame)
	r.gs.Viewport(0, 0, int32(t.width), int32(t.height))
	r.gs.Disable(gls.DEPTH_TEST)
	r.gs.Disable(gls.BLEND)
	r.gs.UseProgram(r.tone)
	r.gs.Uniform1f(r.tone.GetUniformLocation("samples"), float32(samples))
	part.within(t.width, func() { r.over(r.tone, t.colour) })
	read(out, part)
	switch code := gl.GetError(); code {
	case gl.NO_ERROR:
	case gl.OUT_OF_MEMORY:
		return message.Fail("view3d.memory-full", message.No("width", t.width), message.No("height", t.height))
	default:
		return fmt.Errorf("%w (code %#x)", ErrLost, code)
	}
	return nil
}

// pass draws one sample into the live sheet; sample 0 has no jitter.
func (r *Renderer) pass(f Frame, sample int) error {
	p, err := r.prepare(f, &r.live, sample)
	if err != nil {
		return err
	}
	p.paint(allRows(f))
	return nil
}

// ready brings a frame to the graphics memory; an error means that it cannot be
// drawn.
func (r *Renderer) ready(f Frame) error {
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
	return nil
}

// prepare makes all that a sample needs before it is painted, its shadows among it.
func (r *Renderer) prepare(f Frame, on *sheet, sample int) (*painter, error) {
	if err := r.ready(f); err != nil {
		return nil, err
	}
	p := r.prepareInks(f, on, sample)
	p.look = r.dressed(f)
	if sky := p.look.sky; f.Look != LookTechnical && sky.Sun.Len() > 0 {
		p.key = sunAt(wide(sky.ToSun), float64(sky.SunSpread), sample)
		p.keyMatrix = p.shade(&on.keyMap, p.key)
	}
	if f.Look != LookTechnical {
		var err error
		if p.exposure, err = r.exposureOf(p); err != nil {
			return nil, err
		}
	}
	return p, on.sample.fit(f.Width, f.Height, gl.RGBA16F, true)
}

// prepareInks makes what lines and cut faces need.
func (r *Renderer) prepareInks(f Frame, on *sheet, sample int) *painter {
	p := &painter{Renderer: r, on: on, f: f, eye: f.Camera.Eye(), clips: f.Caps.passes()}
	p.keyMatrix.Identity()
	jitterX, jitterY := 0.0, 0.0
	if sample > 0 {
		jitterX, jitterY = halton(sample, 2)-0.5, halton(sample, 3)-0.5
	}
	p.matrix = f.Camera.matrix(f.Width, f.Height, jitterX, jitterY)
	return p
}

func uniformMatrix(r *Renderer, p *gls.Program, name string, m *math32.Matrix4) {
	r.gs.UniformMatrix4fv(p.GetUniformLocation(name), 1, false, &m[0])
}

func uniformVec(r *Renderer, p *gls.Program, name string, v mgl64.Vec3) {
	r.gs.Uniform3f(p.GetUniformLocation(name), float32(v[0]), float32(v[1]), float32(v[2]))
}
