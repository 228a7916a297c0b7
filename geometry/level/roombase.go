package level

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// RoomBase is what a raised room's floor is laid on, as the base of the shower is.
type RoomBase struct {
	// UnderMM is the level of its underside: the bed under it levels the floor.
	UnderMM float64
	// Stack is what it is made of; zero for one in one piece.
	Stack Stack
}

// RoomBase is that of a raised room: of the boards at hand as many as go between the least
// bed, on the highest spot of the floor, and the room's finish; what they leave the bed takes
// up. It is in one piece where there is none so thin. ok is false without one, and where so little is to be made up
// that levelling compound does it.
func (h *Heights) RoomBase(j *job.Job, l *layout.Layout) (b RoomBase, ok bool) {
	if math.IsNaN(h.RoomTopMM) || len(l.Rest) == 0 {
		return RoomBase{}, false
	}
	_, high, _ := h.Survey.highSpots(j.OfStructure(l.FallArea), l.Rest, 0)
	top := h.RoomTopMM - j.Layers.Room.ThicknessMM()
	room := top - high - j.Floor.KeptInRoomMM() - j.Base.AdhesiveMM
	if room <= plan.HairMM {
		return RoomBase{}, false
	}
	if len(j.Base.BoardsMM) == 0 {
		return RoomBase{UnderMM: top - room}, true
	}
	s, ok := stackWithin(&j.Base, room)
	if !ok && room > mostLevelledMM {
		return RoomBase{UnderMM: top - room}, true
	}
	return RoomBase{top - s.HeightMM(), s}, ok
}

// mostLevelledMM is up to which height over the highest spot of a floor it is levelled with compound where no board
// fits. Common practice, no source.
const mostLevelledMM = 30

// stackWithin is the highest stack of the boards at hand that is no higher than the given
// height, unless one of fewer boards is next to as high; ok is false where the thinnest board is.
func stackWithin(b *job.Base, atMostMM float64) (best Stack, ok bool) {
	most := math.Inf(-1)
	var now Stack
	var more func(laid int, sumMM float64, thickest int)
	more = func(laid int, sumMM float64, thickest int) {
		if laid > 0 {
			if beds := float64(laid - 1); beds == 0 {
				now.BetweenMM = 0
			} else {
				between := math.Floor(2*((atMostMM-sumMM)/beds+plan.HairMM)) / 2
				now.BetweenMM = math.Min(b.BetweenGreatestMM, math.Max(b.BetweenLeastMM, between))
			}
			now.n = laid
			height := now.HeightMM()
			if height > atMostMM+plan.HairMM {
				return // as is anything on it
			}
			if counts := height - savedByBoardMM*float64(laid-1); counts > most+plan.HairMM {
				most, best, ok = counts, now, true
			}
		}
		if laid == MostBoards {
			return
		}
		for i := thickest; i >= 0; i-- {
			now.boards[laid] = b.BoardsMM[i]
			more(laid+1, sumMM+b.BoardsMM[i], i)
			now.boards[laid] = 0
		}
	}
	more(0, 0, len(b.BoardsMM)-1)
	return best, ok
}

// UnderRoomFloor tells whether the run lies under the structural floor wherever it goes beside the shower, as beneath a deck: what is
// laid in the room then goes on over it.
func (h *Heights) UnderRoomFloor(l *layout.Layout) bool {
	const besideMM = 50 // what is sawn out for a pipe is wider than it
	run := &h.Run
	for i := range run.Pieces {
		p := &run.Pieces[i]
		from, to := p.FromMM, math.Min(p.ToMM, run.InRoomMM())
		if from >= to || !slices.ContainsFunc(p.Around(besideMM), l.Rest.Overlap) {
			continue
		}
		for _, s := range [...]float64{from, to} {
			if run.InvertAt(s)+p.AboveInvertMM(s) > h.Survey.Floor.At(run.PointAt(s)) {
				return false
			}
		}
	}
	return true
}
