package trace

import (
	"fmt"
	"strings"

	"github.com/go-gl/gl/v3.3-core/gl"
	gl43 "github.com/go-gl/gl/v4.3-core/gl"
)

// sums are sheets that what a path gives is added to.
type sums struct {
	sheets
	other sheets // takes turns with them where drawings do not add up
}

func (s *sums) free() {
	s.sheets.free()
	s.other.free()
}

// Paths followed at once by shaders that compute: as many as a card takes together, beside each other in the picture.
const groupAcross, groupDown = 8, 4

// adder makes the program that follows a path for each pixel and adds what it gives to sheets, a name for each.
func (a Abilities) adder(path string, outs []string) (program, error) {
	var declared, before, added, kept strings.Builder
	for i, out := range outs {
		fmt.Fprintf(&declared, "layout(location=%d) out vec4 %s;\n", i, out)
		fmt.Fprintf(&before, "uniform sampler2D before%d;\n", i)
		fmt.Fprintf(&added, "%s += texelFetch(before%d, pixel, 0);\n", out, i)
		fmt.Fprintf(&kept, "imageStore(sum%d, pixel, imageLoad(sum%d, pixel) + %s);\n", i, i, out)
	}
	const drawn = "#version 330 core\n"
	switch {
	case a.Computes:
		declared.Reset()
		for i, out := range outs {
			fmt.Fprintf(&declared, "layout(rgba32f) uniform image2D sum%d;\nvec4 %s;\n", i, out)
		}
		head := fmt.Sprintf("#version 430 core\n#define AT_ONCE\nlayout(local_size_x=%d, local_size_y=%d) in;\n", groupAcross, groupDown)
		return link(stage{gl43.COMPUTE_SHADER, head + define(a.pathsFilter()) + declared.String() + path + `
uniform ivec4 pixels; // the columns from which and before which, the rows so
void main() {
	ivec2 pixel = ivec2(gl_GlobalInvocationID.xy) + pixels.xz;
	if (pixel.x >= pixels.y || pixel.y >= pixels.w) return;
	follow(pixel);
` + kept.String() + "}"})
	case a.Blends:
		return build(sheetVertex, drawn+define(a.pathsFilter())+declared.String()+path+`
void main() {
	follow(ivec2(gl_FragCoord.xy));
}`)
	}
	return build(sheetVertex, drawn+define(a.pathsFilter())+declared.String()+before.String()+path+`
void main() {
	ivec2 pixel = ivec2(gl_FragCoord.xy);
	follow(pixel);
`+added.String()+"}")
}

// add follows the paths of some rows by a program of adder, which is in use and knows all else, with texture units from
// one on free: in the columns from the first and before the second; zero for all.
func (t *Tracer) add(p program, to *sums, unit, from, before int, columns [2]int) error {
	left, right := columns[0], columns[1]
	if columns == ([2]int{}) || !t.able.Computes && !t.able.Blends { // sheets that take turns are of all
		left, right = 0, to.width
	}
	if t.able.Computes {
		for i, texture := range to.textures {
			gl43.BindImageTexture(uint32(i), texture, 0, false, 0, gl43.READ_WRITE, gl.RGBA32F)
			p.whole(fmt.Sprintf("sum%d", i), i)
		}
		gl.Uniform4i(p.place("pixels"), int32(left), int32(right), int32(from), int32(before))
		groups := func(n, size int) uint32 { return uint32((n + size - 1) / size) }
		gl43.DispatchCompute(groups(right-left, groupAcross), groups(before-from, groupDown), 1)
		gl43.MemoryBarrier(gl43.ALL_BARRIER_BITS)
		return nil
	}
	on := &to.sheets
	if !t.able.Blends {
		on = &to.other
		if err := on.fit(to.width, to.height, len(to.textures), gl.RGBA32F); err != nil {
			return err
		}
		for i, texture := range to.textures {
			p.texture(fmt.Sprintf("before%d", i), unit+i, gl.TEXTURE_2D, texture)
		}
	}
	restore := drawing(t.able.Blends)
	defer restore()
	gl.BindFramebuffer(gl.FRAMEBUFFER, on.frame)
	gl.Viewport(0, 0, int32(to.width), int32(to.height))
	gl.Enable(gl.SCISSOR_TEST)
	gl.Scissor(int32(left), int32(from), int32(right-left), int32(before-from))
	gl.BindVertexArray(t.whole)
	gl.DrawArrays(gl.TRIANGLES, 0, 3)
	gl.Disable(gl.SCISSOR_TEST)
	if !t.able.Blends && before == to.height {
		to.sheets, to.other = to.other, to.sheets
	}
	return nil
}
