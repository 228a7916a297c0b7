package measure

import "underfall/geometry/plan"

// obstacle is what takes floor away for whoever comes in or turns round: a fixture, or a
// straight of a box over the run.
type obstacle struct {
	ring plan.Ring
	// underMM and topMM are its underside and its top over the finished floor.
	underMM, topMM float64
	// wall is the one a fixture is at, by its index; elsewhere for a box.
	wall int
}

// elsewhere is no wall: a box goes where its pipe goes.
const elsewhere = -1

// obstacles are all that stands or hangs in the room beside the shower. A box counts as far as it
// stands over the finished floor.
func (m *Measurer) obstacles() (out []obstacle) {
	for i, ring := range m.Layout.Fixtures {
		f := &m.Settled.Room.Fixtures[i]
		out = append(out, obstacle{ring, f.UnderMM, f.UnderMM + f.HeightMM, f.Wall})
	}
	boxes := m.Heights.Boxes(&m.Settled, &m.Layout)
	for i := range boxes {
		for _, leg := range boxes[i].Legs() {
			if over := boxes[i].TopMM() - m.Heights.RoomAt(&m.Settled, plan.FromRing(leg).Centroid()); over > sameMM {
				out = append(out, obstacle{leg, 0, over, elsewhere})
			}
		}
	}
	return out
}
