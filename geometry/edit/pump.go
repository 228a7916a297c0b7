package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// What is kept in mind where a pump is put. Common practice, no source.
const (
	pumpStepMM  = 50  // between the places that are looked at along an edge
	pumpClearMM = 120 // from the edge's ends
	pumpBendMM  = 300 // of pipe, for which a bend is taken
)

// placePump puts a pump where its box stands free in the room and the waste can be laid to its
// inlet: where it is, or beside an open edge of the shower, from under whose floor the pipe then
// comes straight into it. Of several places it is the one with few bends and a short pipe, by
// a wall; the outlet looks that way, where the run finds its turns by itself.
func placePump(j *job.Job) {
	var best laidPump
	for _, turnDeg := range outletTurns(j) {
		k := j.Clone()
		k.Drain.OutletTurnDeg = turnDeg
		l, ok := laidOut(k)
		if !ok {
			return
		}
		for i, at := range append([]plan.Point{j.Waste.Exit.At}, besideEdges(&l)...) {
			k.Waste.Exit.At = at
			run := waste.Lay(k, l)
			box := plan.FromRing(layout.PumpBox(*k.Waste.Pump, run.Exit, run.ExitTo))
			takes := run.LengthMM + pumpBendMM*float64(run.Bends) + l.Room.EdgeMM(box.Centroid())
			p := laidPump{true, i == 0, at, turnDeg, troubles(&run, &l) + standsInMany(box, &l), takes}
			if p.before(best) {
				best = p
			}
		}
	}
	if j.Waste.Exit.At = best.at; best.turnDeg != j.Drain.OutletTurnDeg {
		j.Drain.OutletTurnDeg, j.AsBuilt.OutletInvertMM = best.turnDeg, nil
	}
}

// laidPump is a place for a pump's inlet, which stays where it is or not, with the run that
// leads there and how much pipe, and way to the nearest wall, that takes.
type laidPump struct {
	laid, stays bool
	at          plan.Point
	turnDeg     float64
	troubles    int
	takesMM     float64
}

// before tells whether a place is better than another; any is than none.
func (p laidPump) before(o laidPump) bool {
	switch {
	case !o.laid:
		return true
	case p.troubles != o.troubles:
		return p.troubles < o.troubles
	case p.stays != o.stays && p.troubles == 0:
		return p.stays
	}
	return p.takesMM < o.takesMM-plan.HairMM
}

// besideEdges are places along the open edges of the shower, those straight ahead of the outlet
// among them.
func besideEdges(l *layout.Layout) (out []plan.Point) {
	for _, e := range l.OpenEdges() {
		along := e.B.Sub(e.A).Normalize()
		for at := float64(pumpClearMM); at <= e.LengthMM()-pumpClearMM; at += pumpStepMM {
			out = append(out, whole(e.A.Add(along.Mul(at))))
		}
		if ahead, at, meet := plan.MeetLines(l.Outlet, l.OutletTo, e.A, along); meet && ahead > 0 && at > 0 && at < e.LengthMM() {
			out = append(out, e.A.Add(along.Mul(at)))
		}
	}
	return out
}

// standsInMany is how many things the box of a pump stands in: the shower or a wall, fixtures,
// stacks, and what is kept free before doorways.
func standsInMany(box plan.Region, l *layout.Layout) (n int) {
	const nothingMM2 = 1000 // a hair along the shower's edge
	if box.Area()-plan.SharedArea(box, l.Rest) > nothingMM2 {
		n++
	}
	var others []plan.Region
	for _, ring := range l.Fixtures {
		others = append(others, plan.FromRing(ring))
	}
	for _, s := range l.Stacks {
		const chordMM = 1
		others = append(others, plan.FromRing(plan.Circle(s.At, s.RadiusMM, chordMM)))
	}
	for i := range l.Doors {
		others = append(others, l.Doors[i].Sweep, doorPassage(&l.Doors[i]))
	}
	for _, o := range others {
		if plan.SharedArea(box, o) > nothingMM2 {
			n++
		}
	}
	return n
}

// doorPassage is the floor that is kept free before a doorway.
func doorPassage(d *layout.Doorway) plan.Region {
	return plan.Strip(d.A, d.B, d.Wall.Outward.Mul(-doorPassageMM))
}
