// Package setout works out what is marked out in the room before work begins: how far each place lies from
// which walls, and at which level.
package setout

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// Off is how far a place lies from something of the room along a straight: off a wall's face, from the
// corner that a wall begins at along that wall, or from a corner of the shower to the one across.
type Off struct {
	From message.Message
	MM   float64
}

// Mark is one place to mark out, or what a marking is checked by.
type Mark struct {
	What message.Message
	// At is where it is, in plan.
	At plan.Point
	// Offs are the one or two distances that it is found by, none from a wall that it stands at unless it lies on the floor; of the
	// shower as a whole what lies across it.
	Offs []Off
	// LevelMM is its level where Levelled; a place that is only of the plan has none.
	LevelMM  float64
	Levelled bool
}

// Of is all that is marked out for a result that could be worked out, in the order in which it is cut and set: where heights are taken
// from, where the bare floor is highest, the hole in the wall, what lies outside it, the run's turns and its end, the trap, the drain, the
// shower's corners with what lies across from corner to corner, the shower's head, the niche.
func Of(r *geometry.Result) []Mark {
	if len(r.Problems) > 0 {
		return nil
	}
	m := marker{r: r, l: &r.Layout}
	m.datum()
	m.highSpot()
	m.core()
	m.outside()
	m.waste()
	m.drain()
	m.corners()
	m.diagonals()
	m.head()
	m.niche()
	return m.marks
}

type marker struct {
	r     *geometry.Result
	l     *layout.Layout
	marks []Mark
}

// add marks a place by its walls; a place outside the room is left out, as no wall's inner face leads to it.
func (m *marker) add(what message.Message, at plan.Point, levelMM float64, levelled bool) {
	if !m.l.Room.Contains(at, atWallMM) {
		return
	}
	apart := slices.DeleteFunc(offWalls(m.l, at), func(o Off) bool { return o.MM <= atWallMM })
	m.marks = append(m.marks, Mark{What: what, At: at, Offs: apart, LevelMM: levelMM, Levelled: levelled})
}

// atWallMM is within which a place stands at a wall, which it is not measured from.
const atWallMM = 0.5

// offWalls is how far a place of the room lies from its two walls.
func offWalls(l *layout.Layout, at plan.Point) (out []Off) {
	for _, x := range l.OffTwoWalls(at, -atWallMM) {
		off := x.OffMM
		if off <= atWallMM {
			off = 0
		}
		out = append(out, Off{message.Of("setout.wall", x.Wall.Name()), off})
	}
	return out
}

// HighSpot is how far the highest spot of the bare floor under the shower lies from its walls; nothing where that floor is level, and so
// as high anywhere.
func HighSpot(r *geometry.Result) []Off {
	h := &r.Heights
	if unit.IsLevel(h.Survey.Floor.Gradient()) && h.ProudMM < atWallMM {
		return nil
	}
	return offWalls(&r.Layout, h.FloorHighAt)
}

// Where is how far the place that a row of the schedule is read at lies from its walls, of a level that is another elsewhere on the
// same floor: that of the bare floor at its highest, and that of the room's floor. It is nothing of any other row.
func Where(r *geometry.Result, row *buildup.Row) []Off {
	switch row.ID.Of {
	case buildup.FloorHigh:
		return HighSpot(r)
	case buildup.RoomFloor:
		at := plan.Point{row.At.X(), row.At.Y()}
		for _, p := range r.Floor.Zones[r.Floor.ZoneAt(at)].Top() {
			if !unit.IsLevel(p.Gradient()) {
				return offWalls(&r.Layout, at)
			}
		}
	}
	return nil
}

// datum marks where on the floor that levels were read on the laser line is struck from: by both its walls, as it mostly lies in a
// doorway, where nothing shows how far in it is meant.
func (m *marker) datum() {
	if at, levelMM, ok := m.r.DatumAt(); ok && m.l.Room.Contains(at, atWallMM) {
		m.marks = append(m.marks, Mark{What: message.Of("setout.datum", message.In("on", m.r.DatumOn())), At: at,
			Offs: offWalls(m.l, at), LevelMM: levelMM, Levelled: true})
	}
}

// highSpot marks where the bare floor under the shower is highest, unless it is level: what the base's height is counted from.
func (m *marker) highSpot() {
	if offs := HighSpot(m.r); len(offs) > 0 {
		h := &m.r.Heights
		m.marks = append(m.marks, Mark{What: message.Of("setout.high-spot"), At: h.FloorHighAt,
			Offs: offs, LevelMM: h.FloorHighMM, Levelled: true})
	}
}

// core marks the middle of the hole that the waste goes out through, square through its wall.
func (m *marker) core() {
	core, ok := m.r.Heights.Core(&m.r.Settled, m.l)
	if !ok {
		return
	}
	w := &m.l.Walls[core.Wall-1]
	m.addAlong(w, message.Of("setout.core", w.Name()), core.At, core.CentreMM)
}

// outside marks what the run comes to outside its wall, where that is stated: the ground, and the grating of a gully.
func (m *marker) outside() {
	run := &m.r.Heights.Run
	if run.Wall == 0 {
		return
	}
	w := &m.l.Walls[run.Wall-1]
	if ground := level.GroundOutsideMM(&m.r.Settled, run); ground != nil {
		at := run.PointAt(run.OuterFaceAtMM(w.ThicknessMM, w.Outward))
		m.addAlong(w, message.Of("setout.ground", w.Name()), at, *ground)
	}
	if way := m.r.Settled.Waste.Gully(); way != nil && way.GratingMM != nil {
		at := run.PointAt(run.LengthMM)
		face := Off{message.Of("setout.outer-face", w.Name()), at.Sub(w.A).Dot(w.Outward) - w.ThicknessMM}
		m.addAlong(w, message.Of("setout.grating"), at, *way.GratingMM, face)
	}
}

// addAlong marks a place at a level by how far it lies along a wall from the corner that the wall begins at, and by what else it is found.
func (m *marker) addAlong(w *layout.Wall, what message.Message, at plan.Point, levelMM float64, more ...Off) {
	corner := message.Of("setout.corner", message.AtCorner("corner", m.r.Settled.Room.Corner(w.Index)))
	offs := append([]Off{{corner, at.Sub(w.A).Dot(w.Along)}}, more...)
	m.marks = append(m.marks, Mark{What: what, At: at, Offs: offs, LevelMM: levelMM, Levelled: true})
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
	h := &m.r.Heights
	linear := m.r.Settled.Former.Fall.Linear()
	trap, apart := message.Of("setout.trap"), m.l.TrapCentre.Sub(m.l.DrainCentre)
	along, off := math.Abs(apart.Dot(m.l.DrainAlong)), math.Abs(apart.Dot(plan.Left(m.l.DrainAlong)))
	switch {
	case !linear && apart.Len() > atWallMM:
		trap = message.Of("setout.trap-off", message.Along("off", apart.Len()))
	case linear && along > atWallMM && off > atWallMM:
		trap = message.Of("setout.trap-along-off", message.Along("along", along), message.Along("off", off))
	case linear && along > atWallMM:
		trap = message.Of("setout.trap-along", message.Along("along", along))
	case linear && off > atWallMM:
		trap = message.Of("setout.trap-off-line", message.Along("off", off))
	}
	m.add(trap, m.l.TrapCentre, 0, false)
	if !linear {
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
		corner := [...]message.ID{"setout.back-left", "setout.back-right", "setout.front-right", "setout.front-left"}[i]
		m.add(message.Of(corner, m.backWall()), at, m.r.Heights.ShowerAt(m.l, at), true)
		if len(m.marks) > before && len(m.marks[before].Offs) == 0 {
			m.marks = m.marks[:before] // in a corner of the room
		}
	}
}

// backWall is the wall that the shower stands at, which its left and right are told from.
func (m *marker) backWall() message.Arg { return m.l.Walls[m.r.Settled.Shower.Wall].Name() }

// diagonals are what lies across the shower from corner to corner, by which it is seen whether it was marked out square. A
// floor that falls as a whole has no shower of its own to be marked.
func (m *marker) diagonals() {
	if m.r.Settled.Former.Fall == job.FallRoom {
		return
	}
	c := m.l.Corners
	mark := Mark{What: message.Of("setout.diagonals"), At: m.l.FallArea.Centroid()}
	for i, across := range [...]message.ID{"setout.across-from-left", "setout.across-from-right"} {
		mark.Offs = append(mark.Offs, Off{message.Of(across, m.backWall()), c[i+2].Sub(c[i]).Len()})
	}
	m.marks = append(m.marks, mark)
}

// head marks the shower's head where it is known, at its own height.
func (m *marker) head() {
	if h := m.r.Settled.Shower.Head; h != nil {
		m.add(message.Of("setout.head"), h.At, m.r.Floor.FinishedMM(h.At)+h.HeightMM, true)
	}
}

// niche marks the lower left corner of a niche in a wall of the shower, as pictures show it, and tells how its wall's tiles are cut
// beside it.
func (m *marker) niche() {
	for _, o := range furnish.Of(m.r).Objects {
		if o.Kind != furnish.Niche || o.Other {
			continue
		}
		w := &m.l.Walls[o.Wall]
		at := w.At(o.At.Sub(o.Along().Mul(o.WidthMM / 2)).Sub(w.A).Dot(w.Along))
		args := []message.Arg{w.Name(), message.Along("wide", o.WidthMM), message.Along("high", o.ToMM-o.FromMM)}
		what := message.Of("setout.niche", args...)
		if s, ok := furnish.SlipsOf(m.r, o); ok {
			what = message.Of("setout.niche-strips", append(args,
				message.Along("left", s.LeftMM), message.Along("right", s.RightMM),
				message.Along("below", s.BelowMM), message.Along("above", s.AboveMM))...)
		}
		m.addAlong(w, what, at, o.FromMM)
	}
}
