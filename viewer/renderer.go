package viewer

import (
	"errors"
	"fmt"
	"image"
	"math"

	"github.com/g3n/engine/gls"
	"github.com/g3n/engine/math32"
	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/build"
)

// Look is a way of drawing.
type Look int

// The looks.
const (
	LookFinished  Look = iota // shaded, with soft shadows at rest
	LookTechnical             // flat colours and crisp edges
	LookThrough               // the floor's upper layers as lines, to see pipe and joists
)

// Frame is everything one picture depends on. It is a value: the renderer
// keeps nothing of it but buffers.
type Frame struct {
	Scene         *Scene
	Caps          *Caps // nil without a cut
	Camera        Camera
	Stage         build.Stage
	Look          Look
	Dark          bool
	Width, Height int
	// Chosen is the part to be marked.
	Chosen string
	// Transparent leaves the background out.
	Transparent bool
}

// Renderer draws frames. All its methods must be called on the goroutine that
// made it, locked to its thread.
type Renderer struct {
	context *glContext
	gs      *gls.GLS
	Device  string // what draws, as the driver names it
	body    *gls.Program
	line    *gls.Program
	cap     *gls.Program
	sunPass *gls.Program
	// frame buffer and its size
	target, colour, depth uint32
	width, height         int
	sunTarget, sunDepth   uint32
	scene                 *Scene
	sceneBuffers          []bodyBuffers
	caps                  *Caps
	capBuffers            []capBuffers
	sum                   []float32 // accumulated samples
	samples               int
	accumulated           Frame
}

// A vertex array with its buffer and count.
type buffer struct {
	array, data uint32
	count       int32
}

type bodyBuffers struct{ faces, edges buffer }

type capBuffers struct {
	faces, outline, hatch buffer
	colour                [3]float32
}

const sunMapSize = 1024

// ErrNoGraphics tells that there is no OpenGL 3.3 to draw with.
var ErrNoGraphics = errors.New("no OpenGL 3.3")

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
	}{{&r.body, bodyVertex, bodyFragment}, {&r.line, lineVertex, flatFragment}, {&r.cap, capVertex, flatFragment}, {&r.sunPass, sunVertex, sunFragment}} {
		program := gs.NewProgram()
		program.AddShader(gls.VERTEX_SHADER, p.vertex)
		program.AddShader(gls.FRAGMENT_SHADER, p.fragment)
		if err := program.Build(); err != nil {
			return nil, fmt.Errorf("%w: building shaders: %w", ErrNoGraphics, err)
		}
		*p.to = program
	}
	r.makeSunMap()
	return r, nil
}

// Close gives the context back.
func (r *Renderer) Close() {
	r.dropScene()
	r.dropCaps()
	r.context.close()
}

func (r *Renderer) makeSunMap() {
	gl.GenFramebuffers(1, &r.sunTarget)
	gl.BindFramebuffer(gl.FRAMEBUFFER, r.sunTarget)
	gl.GenTextures(1, &r.sunDepth)
	gl.BindTexture(gl.TEXTURE_2D, r.sunDepth)
	gl.TexImage2D(gl.TEXTURE_2D, 0, gl.DEPTH_COMPONENT24, sunMapSize, sunMapSize, 0, gl.DEPTH_COMPONENT, gl.UNSIGNED_INT, nil)
	for name, value := range map[uint32]int32{gl.TEXTURE_MIN_FILTER: gl.LINEAR, gl.TEXTURE_MAG_FILTER: gl.LINEAR,
		gl.TEXTURE_WRAP_S: gl.CLAMP_TO_EDGE, gl.TEXTURE_WRAP_T: gl.CLAMP_TO_EDGE,
		gl.TEXTURE_COMPARE_MODE: gl.COMPARE_REF_TO_TEXTURE, gl.TEXTURE_COMPARE_FUNC: gl.LEQUAL} {
		gl.TexParameteri(gl.TEXTURE_2D, name, value)
	}
	gl.FramebufferTexture2D(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.TEXTURE_2D, r.sunDepth, 0)
	gl.DrawBuffer(gl.NONE)
	gl.ReadBuffer(gl.NONE)
}

// resize makes the frame buffer fit.
func (r *Renderer) resize(width, height int) error {
	if r.target == 0 {
		gl.GenFramebuffers(1, &r.target)
		gl.GenRenderbuffers(1, &r.colour)
		gl.GenRenderbuffers(1, &r.depth)
	}
	gl.BindFramebuffer(gl.FRAMEBUFFER, r.target)
	if width != r.width || height != r.height {
		gl.BindRenderbuffer(gl.RENDERBUFFER, r.colour)
		gl.RenderbufferStorage(gl.RENDERBUFFER, gl.RGBA8, int32(width), int32(height))
		gl.BindRenderbuffer(gl.RENDERBUFFER, r.depth)
		gl.RenderbufferStorage(gl.RENDERBUFFER, gl.DEPTH_COMPONENT24, int32(width), int32(height))
		gl.FramebufferRenderbuffer(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.RENDERBUFFER, r.colour)
		gl.FramebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.RENDERBUFFER, r.depth)
		if s := gl.CheckFramebufferStatus(gl.FRAMEBUFFER); s != gl.FRAMEBUFFER_COMPLETE {
			return fmt.Errorf("making a picture of %d × %d: the driver refuses (status %#x)", width, height, s)
		}
		r.width, r.height = width, height
	}
	return nil
}

func (r *Renderer) makeBuffer(data []float32, layout ...int32) buffer {
	if len(data) == 0 {
		return buffer{}
	}
	stride := int32(0)
	for _, n := range layout {
		stride += n
	}
	b := buffer{array: r.gs.GenVertexArray(), data: r.gs.GenBuffer(), count: int32(len(data)) / stride}
	r.gs.BindVertexArray(b.array)
	r.gs.BindBuffer(gls.ARRAY_BUFFER, b.data)
	r.gs.BufferData(gls.ARRAY_BUFFER, len(data)*4, data, gls.STATIC_DRAW)
	at := int32(0)
	for i, n := range layout {
		r.gs.EnableVertexAttribArray(uint32(i))
		// Not g3n's call: it makes a pointer of the offset, which ends the
		// program when Go moves the stack at that moment.
		gl.VertexAttribPointerWithOffset(uint32(i), n, gl.FLOAT, false, stride*4, uintptr(at*4))
		at += n
	}
	return b
}

func (r *Renderer) drop(bs ...buffer) {
	for _, b := range bs {
		if b.array != 0 {
			r.gs.DeleteVertexArrays(b.array)
			r.gs.DeleteBuffers(b.data)
		}
	}
}

// strips makes screen-space strips of pairs of points.
func strips(pairs []float32) []float32 {
	out := make([]float32, 0, len(pairs)*8)
	for i := 0; i+5 < len(pairs); i += 6 {
		for _, c := range [6][2]float32{{0, -1}, {1, -1}, {1, 1}, {0, -1}, {1, 1}, {0, 1}} {
			out = append(out, pairs[i:i+6]...)
			out = append(out, c[0], c[1])
		}
	}
	return out
}

func (r *Renderer) dropScene() {
	for _, b := range r.sceneBuffers {
		r.drop(b.faces, b.edges)
	}
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
		r.dropScene()
		r.scene = f.Scene
		for _, b := range f.Scene.Bodies {
			r.sceneBuffers = append(r.sceneBuffers, bodyBuffers{r.makeBuffer(b.vertices, 3, 3), r.makeBuffer(strips(b.edges), 3, 3, 2)})
		}
	}
	if f.Caps != r.caps {
		r.dropCaps()
		r.caps = f.Caps
		if f.Caps != nil {
			for _, c := range f.Caps.faces {
				r.capBuffers = append(r.capBuffers, capBuffers{r.makeBuffer(c.triangles, 3), r.makeBuffer(strips(c.outline), 3, 3, 2), r.makeBuffer(strips(c.hatch), 3, 3, 2), c.colour})
			}
		}
	}
}

// background in display colour, light and dark.
func background(f Frame) [4]float32 {
	switch {
	case f.Transparent:
		return [4]float32{}
	case f.Dark:
		return [4]float32{0.11, 0.125, 0.14, 1}
	}
	return [4]float32{0.93, 0.94, 0.945, 1}
}

// Draw gives one picture at once: full size, no shadows when quick.
func (r *Renderer) Draw(f Frame, quick bool) (*image.RGBA, error) {
	out := image.NewRGBA(image.Rect(0, 0, f.Width, f.Height))
	if err := r.pass(f, 0, quick); err != nil {
		return nil, err
	}
	r.read(out)
	return out, nil
}

// Refine adds one sample to the picture of a frame at rest and gives the mean
// so far. A frame that differs from the last starts again.
func (r *Renderer) Refine(f Frame) (*image.RGBA, int, error) {
	if f != r.accumulated || len(r.sum) != 4*f.Width*f.Height {
		r.accumulated, r.samples = f, 0
		r.sum = make([]float32, 4*f.Width*f.Height)
	}
	if err := r.pass(f, r.samples+1, false); err != nil {
		return nil, 0, err
	}
	one := image.NewRGBA(image.Rect(0, 0, f.Width, f.Height))
	r.read(one)
	r.samples++
	scale := 1 / float32(r.samples)
	for i, v := range one.Pix {
		r.sum[i] += float32(v)
		one.Pix[i] = uint8(r.sum[i]*scale + 0.5)
	}
	return one, r.samples, nil
}

// halton is the i-th member of a low-discrepancy sequence in a base.
func halton(i, base int) float64 {
	f, out := 1.0, 0.0
	for ; i > 0; i /= base {
		f /= float64(base)
		out += f * float64(i%base)
	}
	return out
}

// sunDirection is where the light comes from, spread over the sun's disc and
// the sky near it from sample to sample, which makes shadows soft.
func sunDirection(sample int) mgl64.Vec3 {
	d := mgl64.Vec3{0.42, -0.36, 0.83}
	if sample > 0 {
		d = d.Add(mgl64.Vec3{halton(sample, 5) - 0.5, halton(sample, 7) - 0.5, halton(sample, 11) - 0.5}.Mul(0.5))
	}
	return d.Normalize()
}

// pass draws one sample into the frame buffer.
func (r *Renderer) pass(f Frame, sample int, quick bool) error {
	if f.Scene == nil || f.Width < 1 || f.Height < 1 || f.Camera.DistanceMM <= 0 {
		return errors.New("drawing: nothing to draw")
	}
	r.load(f)
	sun := sunDirection(sample)
	shadows := !quick && f.Look == LookFinished
	var sunMatrix math32.Matrix4
	sunMatrix.Identity()
	if shadows {
		sunMatrix = r.drawSunMap(f, sun)
	}
	if err := r.resize(f.Width, f.Height); err != nil {
		return err
	}
	jitterX, jitterY := 0.0, 0.0
	if sample > 0 {
		jitterX, jitterY = halton(sample, 2)-0.5, halton(sample, 3)-0.5
	}
	matrix := f.Camera.matrix(f.Width, f.Height, jitterX, jitterY)
	gs := r.gs
	gs.Viewport(0, 0, int32(f.Width), int32(f.Height))
	bg := background(f)
	gs.ClearColor(bg[0], bg[1], bg[2], bg[3])
	gs.DepthMask(true)
	gs.Enable(gls.DEPTH_TEST)
	gs.Disable(gls.BLEND)
	gs.Disable(gls.CULL_FACE)
	gs.Clear(gls.COLOR_BUFFER_BIT | gls.DEPTH_BUFFER_BIT)
	r.setCut(f)
	r.drawBodies(f, matrix, sunMatrix, sun, shadows)
	r.drawEdges(f, matrix)
	gs.Disable(gl.CLIP_DISTANCE0)
	r.drawCaps(f, matrix)
	return nil
}

func (r *Renderer) setCut(f Frame) {
	if f.Caps == nil {
		r.gs.Disable(gl.CLIP_DISTANCE0)
	} else {
		r.gs.Enable(gl.CLIP_DISTANCE0)
	}
}

func uniformMatrix(r *Renderer, p *gls.Program, name string, m *math32.Matrix4) {
	r.gs.UniformMatrix4fv(p.GetUniformLocation(name), 1, false, &m[0])
}

func uniformVec(r *Renderer, p *gls.Program, name string, v mgl64.Vec3) {
	r.gs.Uniform3f(p.GetUniformLocation(name), float32(v[0]), float32(v[1]), float32(v[2]))
}

func (r *Renderer) uniformCut(p *gls.Program, f Frame) {
	var plane [4]float32
	if f.Caps != nil {
		n := f.Caps.Cut.Normal
		plane = [4]float32{float32(n[0]), float32(n[1]), float32(n[2]), float32(-n.Dot(f.Caps.Cut.Origin))}
	}
	r.gs.Uniform4f(p.GetUniformLocation("cut"), plane[0], plane[1], plane[2], plane[3])
}

// shown tells whether a body is drawn solid in the frame.
func (f Frame) shown(b Body, eye mgl64.Vec3) bool {
	if b.Part.Stage > f.Stage || b.hiddenFrom(eye) {
		return false
	}
	if f.Look == LookThrough {
		switch b.Part.Material {
		case build.Plastic, build.Metal, build.Water, build.Timber:
			return true
		case build.Concrete, build.Deck, build.Masonry, build.StudWall:
			return b.Part.Stage == build.StageBare && b.Part.Material != build.Deck
		}
		return false
	}
	return true
}

func (r *Renderer) drawBodies(f Frame, matrix, sunMatrix math32.Matrix4, sun mgl64.Vec3, shadows bool) {
	gs, p := r.gs, r.body
	gs.UseProgram(p)
	uniformMatrix(r, p, "matrix", &matrix)
	uniformMatrix(r, p, "sunMatrix", &sunMatrix)
	r.uniformCut(p, f)
	eye := f.Camera.Eye()
	uniformVec(r, p, "eye", eye)
	uniformVec(r, p, "sun", sun)
	flag := func(name string, on bool) {
		v := float32(0)
		if on {
			v = 1
		}
		gs.Uniform1f(p.GetUniformLocation(name), v)
	}
	flag("shadows", shadows)
	flag("flatLook", f.Look != LookFinished)
	gl.ActiveTexture(gl.TEXTURE0)
	gl.BindTexture(gl.TEXTURE_2D, r.sunDepth)
	gs.Uniform1i(p.GetUniformLocation("sunDepth"), 0)
	for i, b := range f.Scene.Bodies {
		if r.sceneBuffers[i].faces.count == 0 || !f.shown(b, eye) {
			continue
		}
		gs.Uniform3f(p.GetUniformLocation("colour"), b.Colour[0], b.Colour[1], b.Colour[2])
		gloss := float32(0.04)
		switch b.Part.Material {
		case build.Metal:
			gloss = 0.9
		case build.Tile, build.Plastic, build.Water:
			gloss = 0.3
		}
		gs.Uniform1f(p.GetUniformLocation("gloss"), gloss)
		flag("chosen", f.Chosen != "" && f.Chosen == b.Part.ID)
		on := float32(0)
		if b.tile.on {
			on = 1
			uniformVec(r, p, "tileOrigin", b.tile.origin)
			uniformVec(r, p, "tileU", b.tile.u)
			uniformVec(r, p, "tileV", b.tile.v)
			gs.Uniform3f(p.GetUniformLocation("grout"), b.tile.grout[0], b.tile.grout[1], b.tile.grout[2])
		}
		gs.Uniform4f(p.GetUniformLocation("tile"), float32(b.tile.length), float32(b.tile.width), float32(b.tile.joint), on)
		gs.BindVertexArray(r.sceneBuffers[i].faces.array)
		gs.DrawArrays(gls.TRIANGLES, 0, r.sceneBuffers[i].faces.count)
	}
}

// lines draws strips in one ink.
func (r *Renderer) lines(f Frame, matrix math32.Matrix4, b buffer, ink [4]float32, widthPixels, lift float32) {
	if b.count == 0 {
		return
	}
	gs, p := r.gs, r.line
	gs.UseProgram(p)
	uniformMatrix(r, p, "matrix", &matrix)
	r.uniformCut(p, f)
	gs.Uniform2f(p.GetUniformLocation("size"), float32(f.Width)/2, float32(f.Height)/2)
	gs.Uniform1f(p.GetUniformLocation("widthPixels"), widthPixels/2)
	gs.Uniform1f(p.GetUniformLocation("lift"), lift)
	gs.Uniform4f(p.GetUniformLocation("ink"), ink[0], ink[1], ink[2], ink[3])
	gs.BindVertexArray(b.array)
	gs.DrawArrays(gls.TRIANGLES, 0, b.count)
}

// lineWidth is a width for the picture's size: the same share of a large still
// as of the window.
func (f Frame) lineWidth(w float32) float32 {
	return w * float32(math.Max(1, float64(f.Height)/900))
}

func (r *Renderer) drawEdges(f Frame, matrix math32.Matrix4) {
	ink := [4]float32{0.16, 0.18, 0.2, 1}
	if f.Dark {
		ink = [4]float32{0.05, 0.055, 0.06, 1}
	}
	width := f.lineWidth(0.8)
	if f.Look != LookFinished {
		width = f.lineWidth(1.1)
	}
	eye := f.Camera.Eye()
	for i, b := range f.Scene.Bodies {
		if b.Part.Stage > f.Stage || b.hiddenFrom(eye) {
			continue
		}
		through := ink
		if !f.shown(b, eye) {
			through = [4]float32{0.55, 0.58, 0.6, 1}
		}
		r.lines(f, matrix, r.sceneBuffers[i].edges, through, width, 0.0001)
	}
}

func (r *Renderer) drawCaps(f Frame, matrix math32.Matrix4) {
	if f.Caps == nil {
		return
	}
	gs := r.gs
	for _, c := range r.capBuffers {
		if c.faces.count == 0 {
			continue
		}
		gs.UseProgram(r.cap)
		uniformMatrix(r, r.cap, "matrix", &matrix)
		gs.Uniform1f(r.cap.GetUniformLocation("lift"), 0.00004)
		s := func(v float32) float32 { return float32(math.Pow(float64(v), 1/2.2)) }
		gs.Uniform4f(r.cap.GetUniformLocation("ink"), s(c.colour[0]), s(c.colour[1]), s(c.colour[2]), 1)
		gs.BindVertexArray(c.faces.array)
		gs.DrawArrays(gls.TRIANGLES, 0, c.faces.count)
	}
	for _, c := range r.capBuffers {
		r.lines(f, matrix, c.hatch, [4]float32{0.25, 0.25, 0.25, 1}, f.lineWidth(0.8), 0.00008)
	}
	for _, c := range r.capBuffers {
		r.lines(f, matrix, c.outline, [4]float32{0.05, 0.05, 0.06, 1}, f.lineWidth(1.8), 0.00012)
	}
}

// drawSunMap draws the scene's depth as the sun sees it.
func (r *Renderer) drawSunMap(f Frame, sun mgl64.Vec3) math32.Matrix4 {
	b := f.Scene.Bounds
	radius := float32(b.High.Sub(b.Low).Len() / 2)
	c := b.Centre()
	right := mgl64.Vec3{0, 0, 1}.Cross(sun).Normalize()
	up := sun.Cross(right)
	var view, projection, matrix math32.Matrix4
	view.Set(float32(right[0]), float32(right[1]), float32(right[2]), float32(-right.Dot(c)),
		float32(up[0]), float32(up[1]), float32(up[2]), float32(-up.Dot(c)),
		float32(sun[0]), float32(sun[1]), float32(sun[2]), float32(-sun.Dot(c)), 0, 0, 0, 1)
	projection.MakeOrthographic(-radius, radius, radius, -radius, -radius, radius)
	matrix.MultiplyMatrices(&projection, &view)
	gs := r.gs
	gl.BindFramebuffer(gl.FRAMEBUFFER, r.sunTarget)
	gs.Viewport(0, 0, sunMapSize, sunMapSize)
	gs.DepthMask(true)
	gs.Enable(gls.DEPTH_TEST)
	gs.Clear(gls.DEPTH_BUFFER_BIT)
	r.setCut(f)
	gs.UseProgram(r.sunPass)
	uniformMatrix(r, r.sunPass, "matrix", &matrix)
	r.uniformCut(r.sunPass, f)
	eye := f.Camera.Eye()
	for i, body := range f.Scene.Bodies {
		// Walls let the light in: the picture is of the floor.
		if r.sceneBuffers[i].faces.count == 0 || !f.shown(body, eye) || body.Part.Wall > 0 && body.outward.Dot(sun) > 0 {
			continue
		}
		gs.BindVertexArray(r.sceneBuffers[i].faces.array)
		gs.DrawArrays(gls.TRIANGLES, 0, r.sceneBuffers[i].faces.count)
	}
	return matrix
}

// read copies the frame buffer into an image, top row first.
func (r *Renderer) read(out *image.RGBA) {
	w, h := out.Rect.Dx(), out.Rect.Dy()
	gl.PixelStorei(gl.PACK_ALIGNMENT, 1)
	gl.ReadPixels(0, 0, int32(w), int32(h), gl.RGBA, gl.UNSIGNED_BYTE, gl.Ptr(out.Pix))
	row := make([]byte, out.Stride)
	for y := range h / 2 {
		a, b := out.Pix[y*out.Stride:(y+1)*out.Stride], out.Pix[(h-1-y)*out.Stride:(h-y)*out.Stride]
		copy(row, a)
		copy(a, b)
		copy(b, row)
	}
}
