package level

import (
	"iter"
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
)

// leastFaceMM is up to which height a step at an open edge is closed by the tile's own edge: a higher one
// has a face of tile with a trim over it. Common practice, no source.
const leastFaceMM = 4

// Faces are the upright faces of tile along the open edges, each straight: from the floor beside up to the
// shower's tile, or to the top of a kerb on it, which ShowerA and ShowerB then are. None where the floor
// falls as a whole.
func (h *Heights) Faces(j *job.Job, l *layout.Layout) iter.Seq[EdgeLevels] {
	return func(yield func(EdgeLevels) bool) {
		for _, e := range h.Edges(j, l) {
			for _, x := range e.Faces() {
				if !yield(x) {
					return
				}
			}
		}
	}
}

// Faces are those along one edge.
func (e EdgeLevels) Faces() (out []EdgeLevels) {
	for _, x := range e.Straights() {
		if x.HasKerb {
			x.ShowerA, x.ShowerB = x.Kerb, x.Kerb
		}
		if math.Max(x.ShowerA-x.RoomA, x.ShowerB-x.RoomB) > leastFaceMM {
			out = append(out, x)
		}
	}
	return out
}

// FaceMM2 is the area of a straight's face: between both floors, as far as the shower's is the higher.
func (e EdgeLevels) FaceMM2() float64 {
	a, b, long := e.ShowerA-e.RoomA, e.ShowerB-e.RoomB, e.Edge.LengthMM()
	switch {
	case a <= 0 && b <= 0:
		return 0
	case a >= 0 && b >= 0:
		return long * (a + b) / 2
	}
	high := math.Max(a, b)
	return long * high / math.Abs(a-b) * high / 2
}

// FacesMM2 is the area of all faces of tile along the open edges, FootMM how long they are.
func (h *Heights) FacesMM2(j *job.Job, l *layout.Layout) (mm2, footMM float64) {
	for e := range h.Faces(j, l) {
		mm2 += e.FaceMM2()
		footMM += e.Edge.LengthMM()
	}
	return mm2, footMM
}

// BoxesMM2 is the tile on boxes over the run: on their sides, over the room's finished floor, and on their
// tops. None where the room's floor is not tiled, nor then are they.
func (h *Heights) BoxesMM2(j *job.Job, l *layout.Layout) (sidesMM2, topsMM2 float64) {
	if !j.RoomFinished() {
		return 0, 0
	}
	boxes := h.Boxes(j, l)
	for i := range boxes {
		b := &boxes[i]
		for _, f := range b.Faces(l) {
			high := b.TopMM() - (h.RoomAt(j, f.A)+h.RoomAt(j, f.B))/2
			sidesMM2 += math.Max(0, high) * f.LengthMM()
		}
		topsMM2 += b.LidMM2(l.Rest)
	}
	return sidesMM2, topsMM2
}
