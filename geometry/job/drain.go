package job

import "math"

// DrainSideMM is how long the side is that a drain runs along.
func (j *Job) DrainSideMM() float64 {
	if j.Former.Fall == FallLeft || j.Former.Fall == FallRight {
		return j.Shower.DepthMM
	}
	return j.Shower.WidthMM
}

// The shortest and the longest linear drain that make sense at all.
const (
	shortestDrainMM = 50
	longestDrainMM  = 6000
)

// DrainLengthMM is how long the drain is: a point drain as long as wide, a linear one as
// long as stated, or else as long as its side. Such a drain keeps as far from the ends of
// its side as it stands from a wall, which is what the wall's finish takes, and the same
// each side of its middle where that is off its side's; of the lengths that it is sold in
// it has the longest that fits, the shortest where none does. Common practice, no source.
func (j *Job) DrainLengthMM() float64 {
	d := &j.Drain
	switch {
	case !linear(*j):
		return d.WidthMM
	case d.LengthMM > 0:
		return d.LengthMM
	}
	return j.drainWithinMM(j.DrainSideMM() - 2*(d.WallClearanceMM+math.Abs(d.OffsetMM)))
}

// drainWithinMM is the longest drain for a room.
func (j *Job) drainWithinMM(room float64) float64 {
	sold := j.Drain.SoldLengthsMM
	if len(sold) == 0 {
		return math.Max(shortestDrainMM, room)
	}
	best := sold[0]
	for _, mm := range sold {
		if mm <= room+sameWithin && mm > best {
			best = mm
		}
	}
	return best
}

// DrainMovesMM is how far a drain that is as long as its side moves along it, either way
// from the middle, without being shorter.
func (j *Job) DrainMovesMM() float64 {
	room := j.DrainSideMM() - 2*j.Drain.WallClearanceMM
	return math.Max(0, (room-j.drainWithinMM(room))/2)
}
