package takeoff

import (
	"math"

	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// legs are how many tapes meet in a corner piece.
const legs = 3

// tape is sealing tape along all that is taped, its laps on corner pieces, and where a roll ends.
func (b *builder) tape() {
	s := &b.r.Sealing
	inside, outside := b.corners()
	lap := b.figure(guide.TapeLapMM)
	laps := float64(legs*(inside+outside)) * lap.Value
	l := Line{Group: Sealing, Item: message.Of("order.tape"), Needed: guide.Amount{Measure: guide.Length}, Source: lap.Source}
	if s.TapeMM() > 0 {
		l.Needed.Value = s.TapeMM() + laps
		if p, ok := b.t.Pack(guide.Tape, b.j.Region, ""); ok && p.Measure == guide.Length && p.Holds > lap.Value {
			// Each further roll laps the one before.
			if n := math.Ceil((l.Needed.Value-lap.Value)/(p.Holds-lap.Value)-noneLess) - 1; n > 0 {
				l.Needed.Value += n * lap.Value
				laps += n * lap.Value
			}
		}
	}
	l.How = []message.Message{message.Of("order.how.tape", stretches(
		stretch{s.TapeFloorMM, func(a message.Arg) message.Message { return message.Of("order.how.at-floor", a) }},
		stretch{s.TapeCornersMM, func(a message.Arg) message.Message { return message.Of("order.how.in-corners", a) }},
		stretch{s.TapeEdgesMM, func(a message.Arg) message.Message { return message.Of("order.how.at-edges", a) }},
		stretch{s.TapeFacesMM, func(a message.Arg) message.Message { return message.Of("order.how.at-feet", a) }},
		stretch{s.TapeOpeningsMM, func(a message.Arg) message.Message { return message.Of("order.how.round-openings", a) }},
		stretch{s.TapeBoxingMM, func(a message.Arg) message.Message { return message.Of("order.how.round-boxing", a) }},
		stretch{laps, func(a message.Arg) message.Message { return message.Of("order.how.in-laps", a) }}))}
	b.add(b.packed(l, guide.Tape, ""))
	b.add(Line{Group: Sealing, Item: message.Of("order.corner-inside"), Needed: count(inside),
		How: []message.Message{message.Of("order.how.corner-inside")}})
	b.add(Line{Group: Sealing, Item: message.Of("order.corner-outside"), Needed: count(outside),
		How: []message.Message{message.Of("order.how.corner-outside")}})
}

// windowCorners are those of a window's reveal.
const windowCorners = 4

// corners are the pieces for corners where tanked walls meet at a tanked floor, by whether they lie
// inside or stand out; what stands out is a corner of walls into the room, one of the base that stands
// up at two open edges, and one of a window's reveal.
func (b *builder) corners() (inside, outside int) {
	for i := range b.l.Walls {
		w, next := &b.l.Walls[i], &b.l.Walls[(i+1)%len(b.l.Walls)]
		if !b.tapedAt(w, w.LengthMM) || !b.tapedAt(next, 0) {
			continue
		}
		switch turn := next.Along.Dot(w.Outward); {
		case turn < -plan.HairMM:
			inside++
		case turn > plan.HairMM:
			outside++
		}
	}
	open := b.l.OpenEdges()
	for i := range open {
		for k := range open {
			at := open[i].B
			if i != k && open[k].A.Sub(at).Len() < nearMM && open[k].Side != open[i].Side && b.stepsUp(open[i]) && b.stepsUp(open[k]) {
				outside++
			}
		}
	}
	return inside, outside + windowCorners*len(b.r.Sealing.Windows)
}

const (
	// nearMM is within which two places are one, levelMM within which floors are level with each other.
	nearMM, levelMM = 1, 2
)

// stepsUp tells whether the shower's floor stands over what is beside it at an open edge: the room's
// floor, or a ramp's.
func (b *builder) stepsUp(e layout.Edge) bool {
	at := e.Middle()
	return b.h.ShowerAt(b.l, at)-b.r.Floor.FinishedMM(at.Add(b.l.Outward(e).Mul(nearMM))) > levelMM
}

// tapedAt tells whether tape runs along the foot of a wall at an end of it: where the shower's finish
// goes so far, or the room's floor is tanked there.
func (b *builder) tapedAt(w *layout.Wall, atMM float64) bool {
	for _, iv := range b.l.Finished(b.j, w) {
		if math.Abs(iv.From-atMM) < nearMM || math.Abs(iv.To-atMM) < nearMM {
			return b.j.Layers.Wall.Tanking.ThicknessMM > 0
		}
	}
	beyond, all := b.j.TankedBeyondMM()
	if !all && beyond == 0 || b.j.Former.Fall == job.FallRoom {
		return false
	}
	inward := w.Along.Mul(nearMM)
	if atMM > nearMM {
		inward = inward.Mul(-1)
	}
	return !b.l.Untanked.Contains(w.At(atMM).Add(inward).Sub(w.Outward.Mul(nearMM)), 0)
}
