package trace

import (
	"fmt"

	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl32"
)

// program is a shader program and the places of its uniforms.
type program struct {
	handle uint32
	places map[string]int32
}

// build makes a program that draws, by a vertex and a fragment shader.
func build(vertex, fragment string) (program, error) {
	return link(stage{gl.VERTEX_SHADER, vertex}, stage{gl.FRAGMENT_SHADER, fragment})
}

// stage is the source of one of a program's shaders.
type stage struct {
	kind   uint32
	source string
}

func link(stages ...stage) (p program, err error) {
	p = program{gl.CreateProgram(), map[string]int32{}}
	defer func() {
		if err != nil {
			gl.DeleteProgram(p.handle)
		}
	}()
	for _, s := range stages {
		shader := gl.CreateShader(s.kind)
		defer gl.DeleteShader(shader)
		text, free := gl.Strs(s.source + "\x00")
		gl.ShaderSource(shader, 1, text, nil)
		free()
		gl.CompileShader(shader)
		var ok int32
		if gl.GetShaderiv(shader, gl.COMPILE_STATUS, &ok); ok == gl.FALSE {
			return p, fmt.Errorf("compiling: %s", said(shader, gl.GetShaderiv, gl.GetShaderInfoLog))
		}
		gl.AttachShader(p.handle, shader)
	}
	gl.LinkProgram(p.handle)
	var ok int32
	if gl.GetProgramiv(p.handle, gl.LINK_STATUS, &ok); ok == gl.FALSE {
		return p, fmt.Errorf("linking: %s", said(p.handle, gl.GetProgramiv, gl.GetProgramInfoLog))
	}
	return p, nil
}

// said is what a driver says of a shader.
func said(of uint32, number func(uint32, uint32, *int32), text func(uint32, int32, *int32, *uint8)) string {
	var n int32
	number(of, gl.INFO_LOG_LENGTH, &n)
	if n < 1 {
		return "the driver does not say why"
	}
	b := make([]uint8, n)
	text(of, n, nil, &b[0])
	return gl.GoStr(&b[0])
}

func (p program) place(name string) int32 {
	at, ok := p.places[name]
	if !ok {
		at = gl.GetUniformLocation(p.handle, gl.Str(name+"\x00"))
		p.places[name] = at
	}
	return at
}

func (p program) number(name string, v float32) { gl.Uniform1f(p.place(name), v) }
func (p program) whole(name string, v int)      { gl.Uniform1i(p.place(name), int32(v)) }
func (p program) vec2(name string, x, y float32) {
	gl.Uniform2f(p.place(name), x, y)
}
func (p program) vec3(name string, v mgl32.Vec3) { gl.Uniform3f(p.place(name), v[0], v[1], v[2]) }
func (p program) vec4(name string, v mgl32.Vec4) { gl.Uniform4f(p.place(name), v[0], v[1], v[2], v[3]) }

// texture binds a texture to a unit and tells the program.
func (p program) texture(name string, unit int, kind, texture uint32) {
	gl.ActiveTexture(uint32(gl.TEXTURE0 + unit))
	gl.BindTexture(kind, texture)
	gl.Uniform1i(p.place(name), int32(unit))
}

// texels binds what numbers a shader reads to a unit and tells the program.
func (p program) texels(name string, unit int, t texels) { p.texture(name, unit, t.kind, t.texture) }

// texels are numbers that a shader reads, four in each: in a row, or in a grid of three dimensions.
type texels struct{ kind, buffer, texture uint32 }

// fill gives the row other numbers; without any there is one texel of zeros.
func (t *texels) fill(data []float32) {
	if len(data) == 0 {
		data = make([]float32, 4)
	}
	if t.texture == 0 {
		t.kind = gl.TEXTURE_BUFFER
		gl.GenBuffers(1, &t.buffer)
		gl.GenTextures(1, &t.texture)
	}
	gl.BindBuffer(gl.TEXTURE_BUFFER, t.buffer)
	gl.BufferData(gl.TEXTURE_BUFFER, 4*len(data), gl.Ptr(data), gl.STATIC_DRAW)
	gl.ActiveTexture(gl.TEXTURE0)
	gl.BindTexture(gl.TEXTURE_BUFFER, t.texture)
	gl.TexBuffer(gl.TEXTURE_BUFFER, gl.RGBA32F, t.buffer)
	gl.BindTexture(gl.TEXTURE_BUFFER, 0)
}

// fillGrid makes a grid of numbers, kept in 16 bits each, that is read between its places.
func (t *texels) fillGrid(data []float32, across, deep, high int) {
	if t.texture == 0 {
		t.kind = gl.TEXTURE_3D
		gl.GenTextures(1, &t.texture)
	}
	gl.ActiveTexture(gl.TEXTURE0)
	gl.BindTexture(gl.TEXTURE_3D, t.texture)
	gl.PixelStorei(gl.UNPACK_ALIGNMENT, 1)
	gl.TexImage3D(gl.TEXTURE_3D, 0, gl.RGBA16F, int32(across), int32(deep), int32(high), 0, gl.RGBA, gl.FLOAT, gl.Ptr(data))
	for _, k := range []uint32{gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER} {
		gl.TexParameteri(gl.TEXTURE_3D, k, gl.LINEAR)
	}
	for _, k := range []uint32{gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T, gl.TEXTURE_WRAP_R} {
		gl.TexParameteri(gl.TEXTURE_3D, k, gl.CLAMP_TO_EDGE)
	}
	gl.BindTexture(gl.TEXTURE_3D, 0)
}

func (t *texels) free() {
	if t.texture != 0 {
		gl.DeleteTextures(1, &t.texture)
	}
	if t.buffer != 0 {
		gl.DeleteBuffers(1, &t.buffer)
	}
	*t = texels{}
}

// sheets are textures of one size that are drawn into at once.
type sheets struct {
	frame         uint32
	textures      []uint32
	width, height int
}

// fit gives the sheets a size; what was on them is lost when it is another.
func (s *sheets) fit(width, height, count int, format int32) error {
	if s.frame != 0 && s.width == width && s.height == height {
		return nil
	}
	s.free()
	gl.GenFramebuffers(1, &s.frame)
	gl.BindFramebuffer(gl.FRAMEBUFFER, s.frame)
	s.textures, s.width, s.height = make([]uint32, count), width, height
	gl.GenTextures(int32(count), &s.textures[0])
	var into []uint32
	kind := uint32(gl.FLOAT)
	if format == gl.RGBA8 {
		kind = gl.UNSIGNED_BYTE
	}
	gl.ActiveTexture(gl.TEXTURE0)
	for i, t := range s.textures {
		gl.BindTexture(gl.TEXTURE_2D, t)
		gl.TexImage2D(gl.TEXTURE_2D, 0, format, int32(width), int32(height), 0, gl.RGBA, kind, nil)
		gl.TexParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST)
		gl.TexParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST)
		at := uint32(gl.COLOR_ATTACHMENT0 + i)
		gl.FramebufferTexture2D(gl.FRAMEBUFFER, at, gl.TEXTURE_2D, t, 0)
		into = append(into, at)
	}
	gl.BindTexture(gl.TEXTURE_2D, 0)
	gl.DrawBuffers(int32(count), &into[0])
	if status := gl.CheckFramebufferStatus(gl.FRAMEBUFFER); status != gl.FRAMEBUFFER_COMPLETE {
		s.free()
		return fmt.Errorf("%w: %d × %d (status %#x)", ErrSize, width, height, status)
	}
	return nil
}

func (s *sheets) clear() {
	gl.BindFramebuffer(gl.FRAMEBUFFER, s.frame)
	for i := range s.textures {
		zero := [4]float32{}
		gl.ClearBufferfv(gl.COLOR, int32(i), &zero[0])
	}
}

// read gives the numbers of one of the sheets, lowest row first.
func (s *sheets) read(which int) []float32 {
	out := make([]float32, 4*s.width*s.height)
	gl.BindFramebuffer(gl.FRAMEBUFFER, s.frame)
	gl.ReadBuffer(uint32(gl.COLOR_ATTACHMENT0 + which))
	gl.ReadPixels(0, 0, int32(s.width), int32(s.height), gl.RGBA, gl.FLOAT, gl.Ptr(out))
	gl.ReadBuffer(gl.COLOR_ATTACHMENT0)
	return out
}

// write puts numbers on one of the sheets, as read gives them.
func (s *sheets) write(which int, numbers []float32) {
	gl.ActiveTexture(gl.TEXTURE0)
	gl.BindTexture(gl.TEXTURE_2D, s.textures[which])
	gl.PixelStorei(gl.UNPACK_ALIGNMENT, 1)
	gl.TexSubImage2D(gl.TEXTURE_2D, 0, 0, 0, int32(s.width), int32(s.height), gl.RGBA, gl.FLOAT, gl.Ptr(numbers))
	gl.BindTexture(gl.TEXTURE_2D, 0)
}

func (s *sheets) free() {
	if s.frame != 0 {
		gl.DeleteFramebuffers(1, &s.frame)
		gl.DeleteTextures(int32(len(s.textures)), &s.textures[0])
	}
	*s = sheets{}
}

// drawing sets the state that every sheet is drawn in, added to what is there or
// over it, and gives what brings back the state before: others on the context keep
// account of theirs.
func drawing(added bool) (restore func()) {
	var from, to [2]int32
	var colour [4]float32
	depth, blend := gl.IsEnabled(gl.DEPTH_TEST), gl.IsEnabled(gl.BLEND)
	for i, k := range []uint32{gl.BLEND_SRC_RGB, gl.BLEND_SRC_ALPHA} {
		gl.GetIntegerv(k, &from[i])
	}
	for i, k := range []uint32{gl.BLEND_DST_RGB, gl.BLEND_DST_ALPHA} {
		gl.GetIntegerv(k, &to[i])
	}
	gl.GetFloatv(gl.COLOR_CLEAR_VALUE, &colour[0])
	var view [4]int32
	gl.GetIntegerv(gl.VIEWPORT, &view[0])
	gl.Disable(gl.DEPTH_TEST)
	gl.Disable(gl.BLEND)
	if added {
		gl.Enable(gl.BLEND)
		gl.BlendFunc(gl.ONE, gl.ONE)
	}
	return func() {
		set := func(which uint32, on bool) {
			if on {
				gl.Enable(which)
			} else {
				gl.Disable(which)
			}
		}
		set(gl.DEPTH_TEST, depth)
		set(gl.BLEND, blend)
		gl.BlendFuncSeparate(uint32(from[0]), uint32(to[0]), uint32(from[1]), uint32(to[1]))
		gl.Viewport(view[0], view[1], view[2], view[3])
		gl.ActiveTexture(gl.TEXTURE0)
		gl.BindVertexArray(0)
	}
}
