package trace

import (
	"unsafe"

	"github.com/go-gl/gl/v3.3-core/gl"
	gl43 "github.com/go-gl/gl/v4.3-core/gl"
)

// Abilities are what a driver can do beyond the least that pictures are made with. What it cannot do is done another
// way, which gives the same picture and takes longer.
type Abilities struct {
	// Blends: drawings add up where they fall on sheets of 32-bit numbers. Otherwise two sheets take turns.
	Blends bool
	// Filters: light is read between the places of a volume by the driver. Otherwise the eight places round are read
	// one by one.
	Filters bool
	// Computes: there are shaders that draw nothing and have all of a card to themselves. Otherwise paths are followed
	// pixel by pixel of a drawing.
	Computes bool
}

// Able finds out what the driver of the current context can do, by having it do so: a driver that says it can may not.
func Able(procAddress func(name string) unsafe.Pointer) Abilities {
	return Abilities{Blends: blends(), Filters: filters(), Computes: computes(procAddress)}
}

// probed draws a program's colour onto one pixel so many times, added up, and gives what is there.
func probed(fragment string, times int, set func(program)) (float32, bool) {
	p, err := build(sheetVertex, fragment)
	if err != nil {
		return 0, false
	}
	defer gl.DeleteProgram(p.handle)
	var pixel sheets
	defer pixel.free()
	if err := pixel.fit(1, 1, 1, gl.RGBA32F); err != nil {
		return 0, false
	}
	var array uint32
	gl.GenVertexArrays(1, &array)
	defer gl.DeleteVertexArrays(1, &array)
	pixel.clear()
	restore := drawing(times > 1)
	defer restore()
	gl.BindFramebuffer(gl.FRAMEBUFFER, pixel.frame)
	gl.Viewport(0, 0, 1, 1)
	gl.UseProgram(p.handle)
	set(p)
	gl.BindVertexArray(array)
	for range times {
		gl.DrawArrays(gl.TRIANGLES, 0, 3)
	}
	return pixel.read(0)[0], gl.GetError() == gl.NO_ERROR
}

// blends tells whether 1 and a millionth drawn twice adds up to 2 and two of them: in 16 bits it would not.
func blends() bool {
	const once = "#version 330 core\nout vec4 result;\nvoid main() { result = vec4(1.0 + 1.0 / 1048576.0); }"
	sum, ok := probed(once, 2, func(program) {})
	return ok && sum == 2+1.0/524288
}

// filters tells whether halfway between 0 and 1 there is a half.
func filters() bool {
	var line texels
	defer line.free()
	line.fillGrid([]float32{0, 0, 0, 0, 1, 1, 1, 1}, 2, 1, 1)
	half, ok := probed(`#version 330 core
uniform sampler3D line;
out vec4 result;
void main() { result = textureLod(line, vec3(0.5), 0.0); }`, 1, func(p program) { p.texels("line", 0, line) })
	const near = 1.0 / 128
	return ok && half > 0.5-near && half < 0.5+near
}

// computes tells whether the context has the functions of OpenGL 4.3, and makes them ready.
func computes(procAddress func(name string) unsafe.Pointer) bool {
	const needMajor, needMinor = 4, 3
	var major, minor int32
	gl.GetIntegerv(gl.MAJOR_VERSION, &major)
	gl.GetIntegerv(gl.MINOR_VERSION, &minor)
	if major < needMajor || major == needMajor && minor < needMinor {
		return false
	}
	return gl43.InitWithProcAddrFunc(procAddress) == nil
}
