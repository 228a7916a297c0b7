// Package setout works out what is marked out in the room before work begins: how far each place lies from
// which walls, and at which level.
package setout

import (
	"underfall/geometry"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Off is how far a place lies from something of the room along a straight: off a wall's face, or from the
// corner that a wall begins at along that wall.
type Off struct {
	From message.Message
	MM   float64
}

// Mark is one place to mark out.
type Mark struct {
	What message.Message
	// At is where it is, in plan.
	At plan.Point
	// Offs are the one or two distances that it is found by; none from a wall that it stands at.
	Offs []Off
	// LevelMM is its level where Levelled; a place that is only of the plan has none.
	LevelMM  float64
	Levelled bool
}

// Of is all that is marked out for a result that could be worked out, in the order in which it is cut and set: the hole
// in the wall, the run's turns and its end, the trap, the drain, the shower's corners.
func Of(r *geometry.Result) []Mark {
	if len(r.Problems) > 0 {
		return nil
	}
	m := marker{r: r, l: &r.Layout}
	m.core()
	m.waste()
	m.drain()
	m.corners()
	return m.marks
}

type marker struct {
	r     *geometry.Result
	l     *layout.Layout
	marks []Mark
}

// add marks a place by its walls; a place outside the room is left out, as no wall's inner face leads to it.
func (m *marker) add(what message.Message, at plan.Point, levelMM float64, levelled bool) {
	const atWallMM = 0.5
	if !m.l.Room.Contains(at, atWallMM) {
		return
	}
	mark := Mark{What: what, At: at, LevelMM: levelMM, Levelled: levelled}
	for _, x := range m.l.OffTwoWalls(at, -atWallMM) {
		if x.OffMM > atWallMM {
			mark.Offs = append(mark.Offs, Off{message.Of("setout.wall", x.Wall.Name()), x.OffMM})
		}
	}
	m.marks = append(m.marks, mark)
}

// core marks the hole that the waste goes out through on both faces of its wall.
func (m *marker) core() {
	core, ok := m.r.Heights.Core(&m.r.Settled, m.l)
	if !ok {
		return
	}
	run, w := &m.r.Heights.Run, &m.l.Walls[core.Wall-1]
	from := message.Of("setout.corner", message.AtCorner("corner", m.r.Settled.Room.Corner(w.Index)))
	for _, face := range [...]struct {
		what    message.ID
		atMM    float64
		levelMM float64
	}{{"setout.core-inside", run.WallAtMM, core.InsideMM}, {"setout.core-outside", run.OuterFaceAtMM(w.ThicknessMM, w.Outward), core.OutsideMM}} {
		at := run.PointAt(face.atMM)
		m.marks = append(m.marks, Mark{What: message.Of(face.what, w.Name()), At: at,
			Offs: []Off{{from, at.Sub(w.A).Dot(w.Along)}}, LevelMM: face.levelMM, Levelled: true})
	}
}

// waste marks the outlet, the run's turns, and its end where it stays in the room.
func (m *marker) waste() {
	run := &m.r.Heights.Run
	if len(run.Pieces) == 0 {
		return
	}
	last := len(run.Corners) - 1
	for i, at := range run.Corners {
		what := message.Of("setout.turn", message.No("n", i))
		switch {
		case i == 0:
			what = message.Of("setout.outlet")
		case i == last && run.Wall > 0:
			continue // the hole tells it
		case i == last:
			what = message.Of("setout.end")
		}
		m.add(what, at, run.InvertAt(run.Nearest(at)), true)
	}
}

func (m *marker) drain() {
	m.add(message.Of("setout.trap"), m.l.TrapCentre, 0, false)
	h := &m.r.Heights
	if !m.r.Settled.Former.Fall.Linear() {
		m.add(message.Of("setout.drain"), m.l.DrainCentre, h.TileMM, true)
		return
	}
	half := m.l.DrainAlong.Mul(m.r.Settled.DrainLengthMM() / 2)
	m.add(message.Of("setout.drain-end", message.No("n", 1)), m.l.DrainCentre.Sub(half), h.TileMM, true)
	m.add(message.Of("setout.drain-end", message.No("n", 2)), m.l.DrainCentre.Add(half), h.TileMM, true)
}

// corners marks those of the shower that stand away from a wall, at the level of its tile.
func (m *marker) corners() {
	for i, at := range m.l.Corners {
		before := len(m.marks)
		m.add(message.Of([...]message.ID{"setout.back-left", "setout.back-right", "setout.front-right", "setout.front-left"}[i]),
			at, m.r.Heights.ShowerAt(m.l, at), true)
		if len(m.marks) > before && len(m.marks[before].Offs) == 0 {
			m.marks = m.marks[:before] // in a corner of the room
		}
	}
}
