// Package viewer draws an assembly in 3D into images, off screen: scene,
// camera, cut planes with capped and hatched faces, picking. It needs OpenGL
// 3.3 but no window.
package viewer

import (
	"math"

	"github.com/g3n/engine/math32"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Camera looks at a target from a distance. Yaw turns about the vertical,
// pitch is above the horizon; both in radians.
type Camera struct {
	Target     mgl64.Vec3
	Yaw, Pitch float64
	DistanceMM float64
	// FieldDeg is the field of view upright; 0 for the usual one.
	FieldDeg float64
	// Rise is how far the line of the horizon is shifted up in the picture, as a share of half its height:
	// a camera that looks level sees more of the floor and keeps uprights upright. Negative for down.
	Rise float64
	// NearMM is the shortest distance drawn, where what stands beside the camera asks for less than is
	// usual; 0 for the usual one.
	NearMM float64
}

const (
	usualFieldDeg = 36
	nearShare     = 0.08 // of the distance
	leastPitch    = -1.3
	greatestPitch = 1.55
)

// field is the field of view, in radians.
func (c Camera) field() float64 {
	if c.FieldDeg > 0 {
		return c.FieldDeg * math.Pi / 180
	}
	return usualFieldDeg * math.Pi / 180
}

// near is the shortest distance drawn.
func (c Camera) near() float64 {
	usual := math.Max(10, math.Min(300, c.DistanceMM*nearShare))
	if c.NearMM > 0 {
		return math.Min(usual, c.NearMM)
	}
	return usual
}

// Eye is where the camera stands.
func (c Camera) Eye() mgl64.Vec3 {
	sp, cp := math.Sincos(c.Pitch)
	sy, cy := math.Sincos(c.Yaw)
	return c.Target.Add(mgl64.Vec3{cp * cy, cp * sy, sp}.Mul(c.DistanceMM))
}

// Orbit turns the camera about its target.
func (c Camera) Orbit(yaw, pitch float64) Camera {
	c.Yaw = math.Mod(c.Yaw+yaw, 2*math.Pi)
	c.Pitch = math.Max(leastPitch, math.Min(greatestPitch, c.Pitch+pitch))
	return c
}

// Pan moves the target across the picture by shares of its height.
func (c Camera) Pan(right, up float64) Camera {
	u, v, _ := c.axes()
	scale := 2 * c.DistanceMM * math.Tan(c.field()/2)
	c.Target = c.Target.Add(u.Mul(right * scale)).Add(v.Mul(up * scale))
	return c
}

// Zoom changes the distance by a factor, within reason.
func (c Camera) Zoom(factor float64) Camera {
	c.DistanceMM = math.Max(80, math.Min(30000, c.DistanceMM*factor))
	return c
}

// axes are the picture's right and up, and the direction looked in.
func (c Camera) axes() (right, up, forward mgl64.Vec3) {
	forward = c.Target.Sub(c.Eye()).Normalize()
	right = forward.Cross(mgl64.Vec3{0, 0, 1}).Normalize()
	return right, right.Cross(forward), forward
}

// Fit places the camera so that a box fills the picture, seen from its yaw and
// pitch.
func (c Camera) Fit(b solid.Box, aspect float64) Camera {
	c.Target = b.Centre()
	radius := b.High.Sub(b.Low).Len() / 2
	half := c.field() / 2
	if aspect < 1 {
		half = math.Atan(math.Tan(half) * aspect)
	}
	c.DistanceMM = math.Max(200, radius/math.Sin(half)*0.9)
	return c
}

// Between is the camera part of the way, 0 to 1, to another one, turning the
// short way.
func (c Camera) Between(o Camera, t float64) Camera {
	turn := math.Mod(o.Yaw-c.Yaw+3*math.Pi, 2*math.Pi) - math.Pi
	return Camera{
		Target:     c.Target.Add(o.Target.Sub(c.Target).Mul(t)),
		Yaw:        c.Yaw + turn*t,
		Pitch:      c.Pitch + (o.Pitch-c.Pitch)*t,
		DistanceMM: c.DistanceMM * math.Pow(o.DistanceMM/c.DistanceMM, t),
		FieldDeg:   (c.field() + (o.field()-c.field())*t) * 180 / math.Pi,
		Rise:       c.Rise + (o.Rise-c.Rise)*t,
	}
}

// matrix is the product of projection and view, for OpenGL; jitter shifts the
// picture by parts of a pixel.
func (c Camera) matrix(width, height int, jitterX, jitterY float64) math32.Matrix4 {
	eye := c.Eye()
	right, up, forward := c.axes()
	var view math32.Matrix4
	view.Set(
		float32(right.X()), float32(right.Y()), float32(right.Z()), float32(-right.Dot(eye)),
		float32(up.X()), float32(up.Y()), float32(up.Z()), float32(-up.Dot(eye)),
		float32(-forward.X()), float32(-forward.Y()), float32(-forward.Z()), float32(forward.Dot(eye)),
		0, 0, 0, 1)
	var projection math32.Matrix4
	near := float32(c.near())
	projection.MakePerspective(float32(c.field()*180/math.Pi), float32(width)/float32(height), near, float32(c.DistanceMM*6+20000))
	projection[8] += float32(2 * jitterX / float64(width))
	projection[9] += float32(2*jitterY/float64(height) - c.Rise)
	var out math32.Matrix4
	out.MultiplyMatrices(&projection, &view)
	return out
}

// Ray is the line of sight through a point of the picture, given as shares of
// its width and height from the top left.
func (c Camera) Ray(x, y, aspect float64) (from, direction mgl64.Vec3) {
	f := c.fixed()
	return f.ray(x, y, aspect)
}

// Project gives the place of a point in the picture as shares of its width and
// height; ok is false behind the camera.
func (c Camera) Project(p mgl64.Vec3, aspect float64) (x, y float64, ok bool) {
	f := c.fixed()
	return f.project(p, aspect)
}

// fixedCamera is one that no longer moves, with what is the same for all places of its picture: for whoever asks for many.
type fixedCamera struct {
	eye, right, up, forward mgl64.Vec3
	nearMM, half, rise      float64 // half is that of the picture's height a millimetre before the eye
}

func (c Camera) fixed() fixedCamera {
	f := fixedCamera{eye: c.Eye(), nearMM: c.near(), half: math.Tan(c.field() / 2), rise: c.Rise}
	f.right, f.up, f.forward = c.axes()
	return f
}

// ray is Ray.
func (f *fixedCamera) ray(x, y, aspect float64) (from, direction mgl64.Vec3) {
	d := f.forward.Add(f.right.Mul((2*x - 1) * f.half * aspect)).Add(f.up.Mul((1 - 2*y - f.rise) * f.half))
	return f.eye, d.Normalize()
}

// project is Project.
func (f *fixedCamera) project(p mgl64.Vec3, aspect float64) (x, y float64, ok bool) {
	d := p.Sub(f.eye)
	z := d.Dot(f.forward)
	if z < f.nearMM {
		return 0, 0, false
	}
	t := f.half * z
	return 0.5 + d.Dot(f.right)/(2*t*aspect), 0.5 - (d.Dot(f.up)/t+f.rise)/2, true
}

// InSpace places points of a drawing on a cut plane in a camera's picture; not
// a number for what lies behind the camera.
type InSpace struct {
	Camera        Camera
	Cut           solid.Cut
	Width, Height int
}

// ToPixel gives the place in the picture.
func (s InSpace) ToPixel(p plan.Point) (x, y float64) {
	x, y, ok := s.Camera.Project(s.Cut.Space(p), float64(s.Width)/float64(s.Height))
	if !ok {
		return math.NaN(), math.NaN()
	}
	return x * float64(s.Width), y * float64(s.Height)
}
