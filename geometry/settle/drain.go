package settle

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// What a drain that has to be shorter keeps off the ends of its side, and the shortest there is.
// Common practice, no source.
const (
	drainToCornerMM = 50
	shortestDrainMM = 50
)

// drain keeps the drain in the floor it drains: in the middle of its side or as far from it as there
// is room for, shorter only where its side is.
func (s *settler) drain() {
	d := &s.job.Drain
	if !s.changed(showerKey, "room.outline", "drain", "former.fall") {
		return
	}
	linear := s.job.Former.Fall.Linear()
	side, across := s.job.DrainSideMM(), s.job.Shower.DepthMM
	if s.job.Former.Fall.Sideways() {
		across = s.job.Shower.WidthMM
	}
	if linear && d.LengthMM > side && s.free("drain.lengthMM") {
		d.LengthMM = s.shorterDrain(side)
	}
	length := s.job.DrainLengthMM()
	if spare := math.Max(0, (side-length)/2); math.Abs(d.OffsetMM) > spare+plan.HairMM && s.free("drain.offsetMM") {
		d.OffsetMM = math.Copysign(spare, d.OffsetMM)
		length = s.job.DrainLengthMM()
	}
	if linear && s.job.Former.Fall != job.FallMid && d.WallClearanceMM+d.WidthMM >= across && s.free("drain.wallClearanceMM") {
		d.WallClearanceMM = math.Max(0, math.Floor(across-d.WidthMM-1))
	}
	if !linear || s.job.Former.Fall == job.FallMid {
		if f := d.ForwardMM; f != nil && across >= d.WidthMM && s.free("drain.forwardMM") {
			*f = clamp(*f, d.WidthMM/2, across-d.WidthMM/2)
		}
	}
	most := (length - math.Min(d.TrapSizeMM, length)) / 2
	if linear && math.Abs(d.TrapOffsetMM) > most+plan.HairMM && s.free("drain.trapOffsetMM") {
		d.TrapOffsetMM = math.Copysign(math.Floor(most+plan.HairMM), d.TrapOffsetMM)
	}
}

// shorterDrain is the length of a drain for a side that is shorter than it: the longest it is sold in
// that fits, or what leaves some floor at its ends.
func (s *settler) shorterDrain(sideMM float64) float64 {
	best := 0.0
	for _, mm := range s.job.Drain.SoldLengthsMM {
		if mm <= sideMM && mm > best {
			best = mm
		}
	}
	if best > 0 {
		return best
	}
	return math.Max(shortestDrainMM, sideMM-2*drainToCornerMM)
}

// exit slides a way out through a wall along it, where the wall ends before it.
func (s *settler) exit() {
	e := &s.job.Waste.Exit
	if e.Kind != job.ExitWall || !s.changed("room.outline", "waste.exit") || !s.free("waste.exit.offsetMM") {
		return
	}
	length := s.job.Room.WallLengthMM(e.Wall)
	if length == 0 || e.OffsetMM <= length {
		return
	}
	hole := s.job.Waste.OutsideDiameterMM/2 + s.job.Waste.HoleRoomMM
	e.OffsetMM = math.Max(length/2, s.onStep(length-hole, true))
}

// alongRun keeps fittings and the vent on a run that has become shorter, where they were on it.
func (s *settler) alongRun() {
	w := &s.job.Waste
	if len(w.Fittings) == 0 && w.Vent == nil || len(w.Fittings) != len(s.before.Waste.Fittings) || !s.placesMoved() {
		return
	}
	old, ok := s.earlier.laid()
	now, sound := laid(&s.job)
	was, is := old.ExitAtMM, now.ExitAtMM
	if !ok || !sound || is >= was {
		return
	}
	for i := range w.Fittings {
		f, before := &w.Fittings[i], s.before.Waste.Fittings[i]
		most := s.onStep(is-f.LengthMM, true)
		if before.AtMM <= was && f.AtMM > most && most >= 0 && s.free(fittingKey(i)+".atMM") {
			f.AtMM = most
		}
	}
	if v := w.Vent; v != nil && s.before.Waste.Vent != nil && s.before.Waste.Vent.AtMM <= was && v.AtMM > is && s.free("waste.vent.atMM") {
		v.AtMM = math.Max(0, s.onStep(is, true))
	}
}
