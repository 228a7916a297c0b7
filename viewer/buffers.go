package viewer

import (
	"fmt"
	"image"

	"github.com/g3n/engine/gls"
	"github.com/go-gl/gl/v3.3-core/gl"
	"underfall/geometry/message"
)

// A vertex array with its buffer and count.
type buffer struct {
	array, data uint32
	count       int32
}

// makeBuffer brings vertices to the graphics memory; layout is how many floats
// each attribute has, in order.
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

func (r *Renderer) draw(b buffer) {
	r.gs.BindVertexArray(b.array)
	r.gs.DrawArrays(gls.TRIANGLES, 0, b.count)
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

// target is a picture to draw into: a texture, with or without depth.
type target struct {
	frame, colour, depth uint32
	width, height        int
}

// fit gives the target a size; format is that of its texture.
func (t *target) fit(width, height int, format int32, depth bool) error {
	if t.frame != 0 && t.width == width && t.height == height {
		return nil
	}
	t.free()
	gl.GenFramebuffers(1, &t.frame)
	gl.BindFramebuffer(gl.FRAMEBUFFER, t.frame)
	gl.GenTextures(1, &t.colour)
	gl.BindTexture(gl.TEXTURE_2D, t.colour)
	kind := uint32(gl.FLOAT)
	if format == gl.RGBA8 {
		kind = gl.UNSIGNED_BYTE
	}
	gl.TexImage2D(gl.TEXTURE_2D, 0, format, int32(width), int32(height), 0, gl.RGBA, kind, nil)
	gl.TexParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST)
	gl.TexParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST)
	gl.FramebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, t.colour, 0)
	if depth {
		gl.GenRenderbuffers(1, &t.depth)
		gl.BindRenderbuffer(gl.RENDERBUFFER, t.depth)
		gl.RenderbufferStorage(gl.RENDERBUFFER, gl.DEPTH_COMPONENT24, int32(width), int32(height))
		gl.FramebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.RENDERBUFFER, t.depth)
	}
	t.width, t.height = width, height
	if s := gl.CheckFramebufferStatus(gl.FRAMEBUFFER); s != gl.FRAMEBUFFER_COMPLETE {
		t.free()
		return &message.Error{What: message.Of("view3d.size-refused", message.No("width", width), message.No("height", height)), Cause: fmt.Errorf("status %#x", s)}
	}
	return nil
}

func (t *target) free() {
	if t.frame != 0 {
		gl.DeleteFramebuffers(1, &t.frame)
		gl.DeleteTextures(1, &t.colour)
		if t.depth != 0 {
			gl.DeleteRenderbuffers(1, &t.depth)
		}
	}
	*t = target{}
}

// summed is a target that samples are added up in.
type summed struct {
	target
	other target // takes turns with it where drawings do not add up
}

func (s *summed) free() {
	s.target.free()
	s.other.free()
}

// shadowMap is the depth of the scene as a light sees it.
type shadowMap struct {
	frame, depth uint32
	of           shadows // what it holds
}

const shadowMapSize = 1024

func newShadowMap() shadowMap {
	var m shadowMap
	gl.GenFramebuffers(1, &m.frame)
	gl.BindFramebuffer(gl.FRAMEBUFFER, m.frame)
	gl.GenTextures(1, &m.depth)
	gl.BindTexture(gl.TEXTURE_2D, m.depth)
	gl.TexImage2D(gl.TEXTURE_2D, 0, gl.DEPTH_COMPONENT24, shadowMapSize, shadowMapSize, 0, gl.DEPTH_COMPONENT, gl.UNSIGNED_INT, nil)
	for _, p := range [][2]int32{{gl.TEXTURE_MIN_FILTER, gl.LINEAR}, {gl.TEXTURE_MAG_FILTER, gl.LINEAR},
		{gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE}, {gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE},
		{gl.TEXTURE_COMPARE_MODE, gl.COMPARE_REF_TO_TEXTURE}, {gl.TEXTURE_COMPARE_FUNC, gl.LEQUAL}} {
		gl.TexParameteri(gl.TEXTURE_2D, uint32(p[0]), p[1])
	}
	gl.FramebufferTexture2D(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.TEXTURE_2D, m.depth, 0)
	gl.DrawBuffer(gl.NONE)
	gl.ReadBuffer(gl.NONE)
	return m
}

func (m *shadowMap) free() {
	if m.frame != 0 {
		gl.DeleteFramebuffers(1, &m.frame)
		gl.DeleteTextures(1, &m.depth)
	}
	*m = shadowMap{}
}

// read copies rows of a frame buffer into an image.
func read(out *image.RGBA, part rows) {
	gl.PixelStorei(gl.PACK_ALIGNMENT, 1)
	gl.ReadPixels(0, int32(part.from), int32(out.Rect.Dx()), int32(part.to-part.from), gl.RGBA, gl.UNSIGNED_BYTE, gl.Ptr(out.Pix[part.from*out.Stride:]))
}
