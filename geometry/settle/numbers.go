package settle

import (
	"math"

	"underfall/geometry/job"
)

// widestSocket is how wide a socket may be, in diameters of its pipe. Common practice, no source.
const widestSocket = 2

// numbers has a number that another must not pass go along with it: what was typed stays.
func (s *settler) numbers() {
	d, b, w := &s.job.Drain, &s.job.Base, &s.job.Waste
	s.noLess("drain.coverGreatestMM", &d.CoverGreatestMM, "drain.coverLeastMM", &d.CoverLeastMM)
	s.noLess("drain.trapDepthMM", &d.TrapDepthMM, "drain.outletInvertDepthMM", &d.OutletInvertDepthMM)
	if len(b.BoardsMM) > 0 {
		s.noLess("base.betweenGreatestMM", &b.BetweenGreatestMM, "base.betweenLeastMM", &b.BetweenLeastMM)
	}
	if b.Support == job.BetweenJoists && s.job.Floor.Kind != job.FloorTimber && s.free("base.support") {
		b.Support = job.OnFloor
	}
	// A pipe of another size keeps the thickness of its wall, and of its sockets.
	was := &s.before.Waste
	if w.BoreMM >= w.OutsideDiameterMM {
		wall := was.OutsideDiameterMM - was.BoreMM
		switch {
		case s.free("waste.boreMM") && w.OutsideDiameterMM-wall >= leastBoreMM:
			w.BoreMM = w.OutsideDiameterMM - wall
		case s.free("waste.outsideDiameterMM"):
			w.OutsideDiameterMM = w.BoreMM + wall
		}
	}
	if most := widestSocket * w.OutsideDiameterMM; w.SocketOutsideMM > most && s.free("waste.socketOutsideMM") {
		w.SocketOutsideMM = math.Min(most, w.OutsideDiameterMM+was.SocketOutsideMM-was.OutsideDiameterMM)
	}
}

// leastBoreMM is the least bore that makes sense at all.
const leastBoreMM = 10

// noLess has the greater of two numbers be no less than the lesser: the one that may moves to the other.
func (s *settler) noLess(greaterKey string, greater *float64, lesserKey string, lesser *float64) {
	switch {
	case *greater >= *lesser:
	case s.free(greaterKey):
		*greater = *lesser
	case s.free(lesserKey):
		*lesser = *greater
	}
}
