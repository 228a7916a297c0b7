// Package trace follows light through a room: it bakes the light of a room into
// a volume, and traces pictures whose paths end there. It draws with OpenGL 3.3
// on a context that others opened, and changes no scene.
package trace

import "github.com/go-gl/mathgl/mgl32"

// Scene is what light is followed through: plain values, in millimetres and
// linear light. It is never changed once it was loaded.
type Scene struct {
	Triangles []Triangle
	Materials []Material
	Lamps     []Lamp
	// Windows are the openings the sky and the sun come in by.
	Windows []Window
	Sky     Sky
	// Outside is the radiance that comes from where nothing is, away from the
	// windows: what a room that is cut open gets from before it.
	Outside mgl32.Vec3
}

// Triangle is a face with the normals of its corners, which point out of the body
// it belongs to.
type Triangle struct {
	Corners, Normals [3]mgl32.Vec3
	Material         int // index among the scene's
	// LiftMM is how far above its place the triangle is drawn: cuts are made
	// where it belongs.
	LiftMM float32
}

// Kind is how a material deals with light.
type Kind int

// The kinds.
const (
	Solid  Kind = iota // matt below, glossy above; or metal
	Glass              // a thin sheet: light goes straight on or is mirrored
	Glow               // gives light of its own
	Mirror             // a silvered one
	Paint              // matt, put on with a roller
	Wood               // with its grain along the tiling's U
	Cloth              // with a pile
	Leaf               // light comes through
	Beyond             // the sky is seen in its place
)

// Material is how a face takes the light.
type Material struct {
	Kind      Kind
	Colour    mgl32.Vec3 // albedo; of metal its reflectance, of what glows its radiance
	Roughness float32    // 0 for a mirror to 1 for chalk
	Metal     float32    // 0 or 1
	Tiling    Tiling
	// Wet is how much water lies on it, 0 to 1.
	Wet float32
}

// Tiling lays tiles over a material; none where Bond is 0.
type Tiling struct {
	Bond                       float32 // 1 straight, 2 half, 3 third, 4 herringbone, 5 hexagons
	LengthMM, WidthMM, JointMM float32 // from joint to joint, and the joint
	Origin, U, V               mgl32.Vec3
	Surface                    float32 // 0 plain, 1 stone, 2 terrazzo
	Grout                      mgl32.Vec3
	// Hand is how much tiles differ from one another and from flat, 0 to 1.
	Hand float32
}

// Lamp is a light: a rectangle about its centre with its half sides U and V, that
// shines towards the cross product of U and V; or, where V is zero, a sphere with
// the radius that U is long.
type Lamp struct {
	Centre, U, V mgl32.Vec3
	Radiance     mgl32.Vec3
	// Beam gathers the light of a rectangle: the power of the cosine it falls off
	// with; 0 for an even one.
	Beam float32
}

// Window is a rectangle about its centre with its half sides U and V; their cross
// product points into the room.
type Window struct{ Centre, U, V mgl32.Vec3 }

// Sky is what is seen by the windows.
type Sky struct {
	High, Low, Ground mgl32.Vec3 // radiance overhead, over the horizon and below it
	Sun               mgl32.Vec3 // irradiance on a face towards it; zero for none
	ToSun             mgl32.Vec3 // of length 1
	SunSpread         float32    // radius of its disc, as a share of its distance
}

// Glowing is a lamp's radiance as a material, for the faces that are seen of it.
func (l Lamp) Glowing() Material { return Material{Kind: Glow, Colour: l.Radiance} }
