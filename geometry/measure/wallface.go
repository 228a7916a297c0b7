package measure

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/stage"
)

// straight is a level along a wall: at the wall's start, and how much higher each
// millimetre on.
type straight struct{ startMM, rise float64 }

func (s straight) at(alongMM float64) float64 { return s.startMM + s.rise*alongMM }

// wallFace is a stretch of a wall from the highest of some levels, the planes of the floor,
// up to the lowest of others, those of the ceiling and how high the wall is finished.
type wallFace struct {
	fromMM, toMM float64
	floor, head  []straight
}

// faceOf is the face of a stretch of a wall from the falling floor up to a level, or to a
// ceiling under it.
func faceOf(r *stage.Levelled, w *layout.Wall, on plan.Interval, headMM float64) wallFace {
	f := wallFace{fromMM: on.From, toMM: on.To, head: []straight{{startMM: headMM}}}
	through := func(levelMM float64, at func(plan.Point) float64) straight {
		a, b := at(w.A), at(w.At(1))
		return straight{levelMM + a, b - a}
	}
	for _, p := range r.Layout.Fall {
		f.floor = append(f.floor, through(r.Heights.TileMM, p.At))
	}
	for _, p := range r.Layout.Ceiling {
		f.head = append(f.head, through(0, p.At))
	}
	return f
}

// heightMM is how high the face is at a place, as far as it lies between two levels.
func (f wallFace) heightMM(alongMM, lowMM, highMM float64) float64 {
	for _, s := range f.floor {
		lowMM = math.Max(lowMM, s.at(alongMM))
	}
	for _, s := range f.head {
		highMM = math.Min(highMM, s.at(alongMM))
	}
	return math.Max(0, highMM-lowMM)
}

// bends are the places from one to another between which the face has straight edges, two
// levels across it counted as edges as well.
func (f wallFace) bends(fromMM, toMM, lowMM, highMM float64) []float64 {
	fromMM, toMM = math.Max(fromMM, f.fromMM), math.Min(toMM, f.toMM)
	if toMM <= fromMM {
		return nil
	}
	all := slices.Concat(f.floor, f.head)
	for _, level := range [2]float64{lowMM, highMM} {
		if !math.IsInf(level, 0) {
			all = append(all, straight{startMM: level})
		}
	}
	at := []float64{fromMM, toMM}
	for i, s := range all {
		for _, o := range all[:i] {
			if a, b := s.at(fromMM)-o.at(fromMM), s.at(toMM)-o.at(toMM); a*b < 0 {
				at = append(at, fromMM+(toMM-fromMM)*a/(a-b))
			}
		}
	}
	slices.Sort(at)
	return at
}

// areaMM2 is the face's area within a rectangle, by distances along the wall and levels.
// Exact: between its bends the face's height is straight.
func (f wallFace) areaMM2(fromMM, toMM, lowMM, highMM float64) (mm2 float64) {
	at := f.bends(fromMM, toMM, lowMM, highMM)
	for i := 1; i < len(at); i++ {
		mm2 += (at[i] - at[i-1]) * (f.heightMM(at[i-1], lowMM, highMM) + f.heightMM(at[i], lowMM, highMM)) / 2
	}
	return mm2
}

// wholeMM2 is the face's area.
func (f wallFace) wholeMM2() float64 { return f.areaMM2(f.fromMM, f.toMM, math.Inf(-1), math.Inf(1)) }

// acrossMM is how much of a level straight from one place to another lies within the face.
func (f wallFace) acrossMM(fromMM, toMM, levelMM float64) (mm float64) {
	at := f.bends(fromMM, toMM, levelMM, levelMM)
	for i := 1; i < len(at); i++ {
		middle := (at[i] + at[i-1]) / 2
		if f.heightMM(middle, math.Inf(-1), levelMM) > 0 && f.heightMM(middle, levelMM, math.Inf(1)) > 0 {
			mm += at[i] - at[i-1]
		}
	}
	return mm
}

// wallOpening is a window or a doorway as a rectangle of its wall's face.
type wallOpening struct {
	fromMM, toMM, lowMM, highMM float64
	// window is the window's index; -1 for a doorway. revealMM is how deep it stands back.
	window   int
	revealMM float64
}

// wallOpenings are those of a wall.
func wallOpenings(j *job.Job, wall int) (out []wallOpening) {
	for i, o := range j.Room.Windows {
		if o.Wall == wall {
			out = append(out, wallOpening{o.OffsetMM, o.OffsetMM + o.WidthMM, o.SillMM, o.SillMM + o.HeightMM, i, o.RevealMM})
		}
	}
	for _, d := range j.Room.Doorways {
		if d.Wall == wall {
			out = append(out, wallOpening{d.OffsetMM, d.OffsetMM + d.WidthMM, math.Min(0, d.NeighbourFFLMM), d.NeighbourFFLMM + d.HeightMM, -1, 0})
		}
	}
	return out
}

// rimMM is how much of an opening's outline lies within a face.
func (f wallFace) rimMM(o wallOpening) float64 {
	mm := f.acrossMM(o.fromMM, o.toMM, o.lowMM) + f.acrossMM(o.fromMM, o.toMM, o.highMM)
	for _, jamb := range [2]float64{o.fromMM, o.toMM} {
		if jamb > f.fromMM-sameMM && jamb < f.toMM+sameMM {
			mm += f.heightMM(jamb, o.lowMM, o.highMM)
		}
	}
	return mm
}

// tallMM is how much of an opening's height lies within a face, at most.
func (f wallFace) tallMM(o wallOpening) (mm float64) {
	for _, at := range f.bends(o.fromMM, o.toMM, o.lowMM, o.highMM) {
		mm = math.Max(mm, f.heightMM(at, o.lowMM, o.highMM))
	}
	return mm
}

// tank adds the face of a finished wall that is tanked, less its openings, and what goes
// round them.
func (s *Sealing) tank(j *job.Job, wall int, f wallFace) {
	s.TankedWallMM2 += f.wholeMM2()
	for _, o := range wallOpenings(j, wall) {
		mm2 := f.areaMM2(o.fromMM, o.toMM, o.lowMM, o.highMM)
		if mm2 < leastOpeningMM2 {
			continue
		}
		rim := f.rimMM(o)
		s.TankedWallMM2 -= mm2
		s.OpeningsMM2 += mm2
		s.TapeOpeningsMM += rim
		s.RevealsMM2 += rim * o.revealMM
		if o.window >= 0 {
			s.Windows = append(s.Windows, TankedWindow{o.window, f.tallMM(o), (math.Max(o.fromMM, f.fromMM) + math.Min(o.toMM, f.toMM)) / 2})
		}
	}
}

// leastOpeningMM2 is under which an opening only touches what is tanked.
const leastOpeningMM2 = 1e-3

// TankedWindow is a window within what is tanked of a wall.
type TankedWindow struct {
	Index int
	// TallMM is how much of its height is, at most; AlongMM the middle of that, from the
	// wall's start.
	TallMM, AlongMM float64
}
