package trace

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"

	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl32"
)

// Print is equal for scenes that are equal in all that light depends on, volumes with them.
type Print [sha256.Size]byte

// PrintOf is the print of a scene whose light is baked in a volume.
func PrintOf(s *Scene, v *Volume) Print {
	h := sha256.New()
	var bytes []byte
	write := func(numbers []float32) {
		bytes = binary.LittleEndian.AppendUint64(bytes[:0], uint64(len(numbers)))
		for _, n := range numbers {
			bytes = binary.LittleEndian.AppendUint32(bytes, math.Float32bits(n))
		}
		h.Write(bytes)
	}
	all := make([]int, len(s.Triangles))
	for i := range all {
		all[i] = i
	}
	triangles, normals := packTriangles(s, all)
	lamps, _ := packLamps(s)
	for _, numbers := range [][]float32{triangles, normals, packMaterials(s.Materials, nil), lamps} {
		write(numbers)
	}
	fmt.Fprintf(h, "%d %v %v", len(s.Windows), s.Sky, s.Outside)
	if v != nil {
		fmt.Fprintf(h, "%v", *v)
	}
	return Print(h.Sum(nil))
}

// Baked is the light of a room as far as it was baked, out of the graphics memory: an equal room takes it over.
type Baked struct {
	sums           [2][]float32
	passes, row    int
	mean           mgl32.Vec3
	whole, bounced []float32
}

// Baked is the room's light; ok is false where none stands yet.
func (r *Room) Baked() (b Baked, ok bool) {
	if !r.warm {
		return b, false
	}
	b = Baked{[2][]float32{r.baked.read(0), r.baked.read(1)}, r.passes, r.row, r.mean, r.settled[0], r.settled[1]}
	if !r.able.Blends && !r.able.Computes { // what is not a whole pass is on the other sheets
		b.row = 0
	}
	return b, true
}

// Take gives a room the light of one that was equal to it. Where the driver refuses the sheets it is baked, which says why.
func (r *Room) Take(b Baked) {
	width, height := r.bakedSize()
	if err := r.baked.fit(width, height, 2, gl.RGBA32F); err != nil {
		return
	}
	for i, sums := range b.sums {
		r.baked.write(i, sums)
	}
	r.passes, r.row, r.mean, r.warm = b.passes, b.row, b.mean, true
	r.fill(b.whole, b.bounced)
	if r.mirror != nil {
		r.mirror.due = true
	}
}
