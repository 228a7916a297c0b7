package trace

import (
	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl32"
)

// mirror is what the largest mirror of a room shows: the room seen all round from before its middle, on a disc whose
// middle lies straight ahead and whose rim to the sides (a paraboloid), so that a moving picture need follow no light.
type mirror struct {
	from, u, v, ahead mgl32.Vec3
	seen, next        sums // what is shown; what is being looked at again
	row               int  // of next, to be drawn next
	due               bool // by newer light
}

const mirrorSide = 256 // pixels

// mirrorOf finds the mirror; none of a room without one.
func mirrorOf(s *Scene, middle mgl32.Vec3) *mirror {
	largest, at := float32(0), -1
	area := func(t Triangle) float32 {
		return t.Corners[1].Sub(t.Corners[0]).Cross(t.Corners[2].Sub(t.Corners[0])).Len()
	}
	centre := func(t Triangle) mgl32.Vec3 { return t.Corners[0].Add(t.Corners[1]).Add(t.Corners[2]).Mul(1.0 / 3) }
	for i, t := range s.Triangles {
		if s.Materials[t.Material].Kind != Mirror || t.Normals[0].Dot(middle.Sub(centre(t))) <= 0 {
			continue
		}
		if a := area(t); a > largest {
			largest, at = a, i
		}
	}
	if at < 0 {
		return nil
	}
	m := &mirror{ahead: s.Triangles[at].Normals[0]}
	const alike, sameFaceMM, beforeMM = 0.999, 2, 20
	whole := float32(0)
	for _, t := range s.Triangles {
		off := centre(t).Sub(centre(s.Triangles[at])).Dot(m.ahead)
		if s.Materials[t.Material].Kind == Mirror && t.Normals[0].Dot(m.ahead) > alike && max(off, -off) < sameFaceMM {
			m.from, whole = m.from.Add(centre(t).Mul(area(t))), whole+area(t)
		}
	}
	m.from = m.from.Mul(1 / whole).Add(m.ahead.Mul(beforeMM))
	other := mgl32.Vec3{0, 0, 1}
	if z := m.ahead[2]; z > 0.9 || z < -0.9 {
		other = mgl32.Vec3{1, 0, 0}
	}
	m.u = other.Cross(m.ahead).Normalize()
	m.v = m.ahead.Cross(m.u)
	return m
}

// look draws the next rows of what the mirror shows, about so many pixels.
func (t *Tracer) look(r *Room, paths int) error {
	m := r.mirror
	if err := m.next.fit(mirrorSide, mirrorSide, 1, gl.RGBA32F); err != nil {
		return err
	}
	if m.row == 0 {
		m.next.clear()
	}
	r.bind(t.mirror, nil, 0)
	m.tell(t.mirror)
	t.mirror.whole("side", mirrorSide)
	end := min(mirrorSide, m.row+max(1, paths/mirrorSide))
	if err := t.add(t.mirror, &m.next, roomUnits, m.row, end, [2]int{}); err != nil {
		return err
	}
	if m.row = end; end == mirrorSide {
		m.row, m.due = 0, false
		m.seen, m.next = m.next, m.seen
		gl.ActiveTexture(gl.TEXTURE0)
		gl.BindTexture(gl.TEXTURE_2D, m.seen.textures[0])
		gl.TexParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.LINEAR)
		gl.TexParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.LINEAR)
		gl.BindTexture(gl.TEXTURE_2D, 0)
	}
	return nil
}

// stands tells that it was looked at whole.
func (m *mirror) stands() bool { return m.seen.frame != 0 }

func (m *mirror) free() {
	m.seen.free()
	m.next.free()
}

// tell tells a program where the mirror stands.
func (m *mirror) tell(p program) {
	p.vec3("mirrorFrom", m.from)
	p.vec3("mirrorU", m.u)
	p.vec3("mirrorV", m.v)
	p.vec3("mirrorAhead", m.ahead)
}

const mirrorShader = `
uniform vec3 mirrorFrom, mirrorU, mirrorV, mirrorAhead;
`

// mirrorPath is what the mirror shows in one direction.
const mirrorPath = pathShader + glimpseShader + mirrorShader + `
uniform int side; // pixels
void follow(ivec2 pixel) {
	vec2 at = (vec2(pixel) + 0.5) / float(side) * 2.0 - 1.0;
	float l = min(dot(at, at), 1.0);
	vec3 c = glimpse(mirrorFrom, normalize((mirrorU * at.x + mirrorV * at.y) * 2.0 + mirrorAhead * (1.0 - l)));
	outSeen = vec4(min(c, vec3(most)), 1.0);
	if (any(isnan(outSeen)) || any(isinf(outSeen))) outSeen = vec4(0.0);
}
`
