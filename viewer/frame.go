package viewer

import (
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/solid"
)

// Look is a way of drawing.
type Look int

// The looks.
const (
	LookFinished  Look = iota // as it will be seen
	LookTechnical             // flat colours and crisp edges
	LookThrough               // the floor's upper layers as glass, to see pipe and joists
	LookHeights               // the finished floor coloured by height, with contours and the water's ways
)

// Frame is everything one picture depends on. It is a value: the renderer
// keeps nothing of it but buffers.
type Frame struct {
	Scene  *Scene
	Caps   *Caps // nil without a cut
	Camera Camera
	Stage  buildup.Stage
	Look   Look
	// Light is the room's; zero as is usual.
	Light         job.Light
	Wet           bool // the shower's floor as if it had just been used
	Dark          bool
	Width, Height int
	// Strip is what is seen of the picture's width, shares of it, as it stands beside others; zero for all. What is far beside it
	// may be left out at rest.
	Strip [2]float64
	// Chosen is the part to be marked.
	Chosen string
	// Transparent leaves the background out.
	Transparent bool
	// Apart draws the layers of the floor lifted off each other, from 0 to 1.
	Apart float64
	// Arriving is how far the parts of the latest stage still hover, 1 to 0.
	Arriving float64
}

// Fault says what the picture leaves out or does not draw as it should; zero when it
// is all there.
func (f Frame) Fault() message.Message {
	var all []message.Message
	if f.Scene != nil && !f.Scene.fault.IsZero() {
		all = append(all, f.Scene.fault)
	}
	if f.Caps != nil && !f.Caps.fault.IsZero() {
		all = append(all, f.Caps.fault)
	}
	return message.Lines(all...)
}

// lightKept is the frame's light.
func (f Frame) lightKept() job.Light {
	if f.Light == (job.Light{}) {
		return job.UsualPicture().Light
	}
	return f.Light
}

// cuts are the planes of the frame.
func (f Frame) cuts() []solid.Cut {
	if f.Caps == nil {
		return nil
	}
	return f.Caps.Cuts
}

// Heights the layers are drawn apart by, and new ones arrive from.
const (
	apartMM  = 110
	arriveMM = 90
)

// lift is how far a part is drawn above its place.
func (f Frame) lift(stage buildup.Stage, wall int) float64 {
	if wall > 0 {
		return 0
	}
	steps := [buildup.Stages]float64{buildup.StageBase: 1, buildup.StageWaste: 1, buildup.StageFormer: 2.2, buildup.StageTanking: 3, buildup.StageWallTile: 3, buildup.StageTile: 3.8}
	up := f.Apart * apartMM * steps[stage]
	if stage == f.Stage && stage > buildup.StageBare {
		up += f.Arriving * arriveMM
	}
	return up
}

// shows tells whether a body is seen in the frame.
func (f Frame) shows(b Body, eye mgl64.Vec3) bool { return f.has(b) && !b.hiddenFrom(eye) }

// has tells whether a body is in the frame at all, if only for the light.
func (f Frame) has(b Body) bool {
	if b.Part.Stage > f.Stage {
		return false
	}
	if b.dressing {
		// A cut through what dresses the picture would be hollow.
		whole := f.Caps == nil && f.Apart == 0
		return f.Look == LookFinished && (whole || b.trim && f.Apart == 0)
	}
	return !b.raw || !f.Closed()
}

// Closed tells whether the frame shows the finished room, closed: the walls' faces in place of what they are built of.
func (f Frame) Closed() bool {
	return f.Look == LookFinished && f.Caps == nil && f.Apart == 0 && f.Stage == buildup.StageTile
}

// solidIn tells whether a body of the frame is drawn solid, not as glass.
func (f Frame) solidIn(b Body) bool {
	if f.Look != LookThrough {
		return b.surface.alpha == 1
	}
	switch b.Part.Material.Glass() {
	case material.Solid:
		return true
	case material.SolidIfBare:
		return b.Part.Stage == buildup.StageBare
	}
	return false
}

// castsShadow tells whether a body keeps the light of a direction off others:
// not the ceiling, and not the walls the light comes in through.
func (f Frame) castsShadow(b Body, eye, from mgl64.Vec3) bool {
	return !b.ceiling && b.stuff != stuffOutside && b.surface.alpha == 1 && f.shows(b, eye) && b.outward.Dot(from) <= 0
}

// stripPixels are so many more pixels than are seen, for noise to be taken off by what lies beside them.
const stripPixels = 8

// columns are the pixels across that are seen, from the first and before the second.
func (f Frame) columns() [2]int {
	if f.Strip == ([2]float64{}) {
		return [2]int{0, f.Width}
	}
	at := func(share float64) int { return int(math.Round(share * float64(f.Width))) }
	return [2]int{max(0, at(f.Strip[0])-stripPixels), min(f.Width, at(f.Strip[1])+stripPixels)}
}

// lineWidth is a width for the picture's size: the same share of a large still
// as of the window.
func (f Frame) lineWidth(w float32) float32 {
	return w * float32(math.Max(1, float64(f.Height)/900))
}

// Surround is what lies round the room in a picture by day: the paper of a light or a dark
// window, as #rrggbb.
func Surround(dark bool) string {
	if dark {
		return "#16191c"
	}
	return "#f3f1ec"
}

// background in linear light.
func (f Frame) background() [4]float32 {
	if f.Transparent {
		return [4]float32{}
	}
	c := parseColour(Surround(f.Dark))
	if f.lightKept().Kind == job.LightEvening && !f.Dark {
		c = parseColour("#4c4a4c")
	}
	return [4]float32{c[0], c[1], c[2], 1}
}

// getsWet tells whether a body is the floor of the shower.
func (f Frame) getsWet(b Body) bool {
	return b.floorTile() && !strings.HasPrefix(b.Part.ID, "room-tile")
}
