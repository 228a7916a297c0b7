package unit

import (
	"math"
	"strings"
)

// larger is the unit that lengths are told in when they are long, as it is typed, and how many of the smaller it makes.
func (s System) larger() (symbol string, makes float64) {
	if s == Imperial {
		return "ft", inchesInFoot
	}
	return "m", 1000
}

// inLarger are the meanings of a bare number that makes no sense in millimetres or inches and does in metres or feet: rooms
// are told so. Nothing of any other.
func inLarger(text string, kind Kind, s System, least, greatest float64) []Reading {
	if !kind.IsLength() {
		return nil
	}
	symbol, _ := s.larger()
	all, err := readAll(text+" "+symbol, kind, s)
	if err != nil {
		return nil
	}
	return within(all, kind, s, least, greatest)
}

// What is a slip: a fraction of a millimetre is measured nowhere, and a number that is some four times what stood there, or a
// quarter, once it is read in metres was meant so (common practice, no source). Of feet, which are only twelve times an inch,
// half and twice; fractions of inches are common, and say nothing.
const (
	tenMM         = 10
	nearInMetres  = 4
	nearInFeet    = 2
	leastSlipInMM = 0.1
)

// Larger is what a bare number that was taken as v would be in metres, or in feet, where it was probably meant so: it makes
// sense there, is nothing that is measured as it stands, and what stood before it (NaN for nothing) is of that size. Its text is
// as it would be typed.
func Larger(text string, kind Kind, s System, least, greatest, v, before float64) (Reading, bool) {
	symbol, makes := s.larger()
	for _, r := range inLarger(text, kind, s, least, greatest) {
		if same(r.Value, v*makes) && slipped(v, r.Value, before, kind, s, strings.ContainsAny(text, ".,")) {
			return Reading{r.Value, strings.TrimSpace(text) + " " + symbol}, true
		}
	}
	return Reading{}, false
}

// slipped tells whether a length that was typed as v was meant as the longer one.
func slipped(v, longer, before float64, kind Kind, s System, fraction bool) bool {
	v, longer, before = math.Abs(v), math.Abs(longer), math.Abs(before)
	near := func(times float64) bool { return longer <= before*times && longer >= before/times }
	switch {
	case s == Imperial:
		return near(nearInFeet) && before >= inchScale().of(inchesInFoot)
	case v >= tenMM || v < leastSlipInMM:
		return false
	case !fraction:
		return near(nearInMetres)
	case before > 0: // nearer to what stood there, as a share, in metres than in millimetres
		return before*before > v*longer
	}
	return kind == Along
}
