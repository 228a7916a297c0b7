package job

import "math"

// DrainSideMM is how long the side is that a drain runs along.
func (j *Job) DrainSideMM() float64 {
	along, _ := j.drainSideMM()
	return along
}

// drainSideMM is how long the shower is along the side that a drain runs along, and across
// it.
func (j *Job) drainSideMM() (alongMM, acrossMM float64) {
	if j.Former.Fall.Sideways() {
		return j.Shower.DepthMM, j.Shower.WidthMM
	}
	return j.Shower.WidthMM, j.Shower.DepthMM
}

// The shortest and the longest linear drain that make sense at all.
const (
	shortestDrainMM = 50
	longestDrainMM  = 6000
)

// DrainLengthMM is how long the drain is: a point drain as long as wide, a linear one as
// long as stated, or else as long as its side. Such a drain keeps as far from the ends of
// its side as it stands from a wall, which is what the wall's finish takes, or off the
// kerb there, and the same each side of its middle; of the lengths that it is sold in it
// has the longest that fits, the shortest where none does. Common practice, no source.
func (j *Job) DrainLengthMM() float64 {
	d := &j.Drain
	switch {
	case !linear(*j):
		return d.WidthMM
	case d.LengthMM > 0:
		return d.LengthMM
	}
	return j.drainWithinMM(j.DrainRoomMM())
}

// DrainRoomMM is the length that a linear drain as long as its side has room for.
func (j *Job) DrainRoomMM() float64 {
	first, last := j.drainKeepsMM()
	return j.DrainSideMM() - 2*math.Max(first-j.Drain.OffsetMM, last+j.Drain.OffsetMM)
}

// drainKeepsMM is what a linear drain keeps off the ends of its side, the left or back one
// first.
func (j *Job) drainKeepsMM() (first, last float64) {
	d := &j.Drain
	first, last = d.WallClearanceMM, d.WallClearanceMM
	if j.Shower.Kerb == nil {
		return first, last
	}
	_, across := j.drainSideMM()
	ends := [2]int{3, 1} // left and right, as ShowerSides has them
	if j.Former.Fall.Sideways() {
		ends = [2]int{0, 2}
	}
	// From the back, or from the left, to the drain's middle.
	middle := d.WallClearanceMM + d.WidthMM/2
	switch {
	case j.Former.Fall == FallFront || j.Former.Fall == FallRight:
		middle = across - middle
	case j.Former.Fall == FallMid && d.ForwardMM != nil:
		middle = *d.ForwardMM
	case j.Former.Fall == FallMid:
		middle = across / 2
	}
	sides := j.ShowerSides()
	for k, keeps := range [2]*float64{&first, &last} {
		at := middle
		if ends[k] >= 2 { // front and left run the other way
			at = across - middle
		}
		for _, s := range sides[ends[k]] {
			if s.Wall < 0 && s.FromMM < at+d.WidthMM/2 && s.ToMM > at-d.WidthMM/2 {
				*keeps = math.Max(*keeps, j.Shower.Kerb.WidthMM)
			}
		}
	}
	return first, last
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

// DrainMovesMM is how far a drain that is as long as its side moves along it, from the
// middle back or to the left and the other way, without being shorter than in the middle.
func (j *Job) DrainMovesMM() (leastMM, greatestMM float64) {
	first, last := j.drainKeepsMM()
	half := j.DrainSideMM() / 2
	long := j.drainWithinMM(2 * (half - math.Max(first, last)))
	return math.Min(0, first+long/2-half), math.Max(0, half-last-long/2)
}
