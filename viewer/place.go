package viewer

import (
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// hiddenMM is how much nearer to the eye than a place something must be to hide it, and how far a place
// must lie on the side that is cut away to be gone with it.
const hiddenMM = 3

// Place is where a place of the model is drawn, lifted with the part that it is of, as At tells, and
// whether it cannot be seen there: it is cut away, or something solid is before it. What the place lies
// in, or is of, does not hide it: the mark of a trap is seen where the trap is.
func (f Frame) Place(at mgl64.Vec3, of string) (drawn mgl64.Vec3, hidden bool) {
	drawn = at
	for i := range f.Scene.Bodies {
		if b := &f.Scene.Bodies[i]; b.Part.ID == of {
			drawn[2] += f.lift(b.Part.Stage, b.Part.Wall)
			break
		}
	}
	cuts := slices.Clone(f.cuts())
	for i := range cuts {
		cuts[i].Origin = cuts[i].Origin.Add(cuts[i].Normal.Mul(hiddenMM))
	}
	if cutAway(cuts, drawn) {
		return drawn, true
	}
	eye := f.Camera.Eye()
	way := drawn.Sub(eye)
	_, hidden = f.solidHit(eye, way.Normalize(), way.Len()-hiddenMM, func(b *Body) bool {
		return b.Part.ID == of || b.holds(at)
	})
	return drawn, hidden
}
