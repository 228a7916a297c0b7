package unit

import (
	"math"
	"slices"

	"underfall/geometry/message"
)

// slope reads one fall. Numbers and lengths without more stay what they are,
// for a sum to divide.
func (r *reader) slope() (amount, *fault) {
	if t := r.ahead(0); t.kind == word && (t.text == "level" || t.text == "flat") {
		r.next++
		return amount{dim: own}, nil
	}
	a, f := r.length()
	if f != nil {
		return amount{}, f
	}
	t := r.ahead(0)
	if k, known := unitsOf(Slope)[t.text]; known && t.kind == symbol && a.dim == bare {
		r.next++
		return amount{value: k.of(a.value), dim: own}, nil
	}
	switch {
	case a.dim == bare && (t.is("°") || t.kind == word && unitWord(t.text) == "deg"):
		if r.sum {
			return amount{}, faultAt(t, "reading.degrees-in-sum")
		}
		const steepest = 90
		if a.value >= steepest {
			return amount{}, faultAt(t, "reading.steep-fall", message.Arg{Name: "steepest", Value: message.Degrees(steepest)})
		}
		r.next++
		return amount{value: math.Tan(a.value * math.Pi / 180), dim: own}, nil
	case t.is(":") || t.kind == word && t.text == "in" && r.numberAhead(1):
		r.next++
		return r.over(t, a)
	case t.is("/") || t.kind == word && t.text == "per":
		name := r.lengthUnitAt(1)
		if name != "" {
			r.next += 2
			if a.dim == bare {
				small := inchScale()
				if name == "m" {
					small = lengthUnits()["mm"]
				}
				a.value = small.of(a.value)
			}
			return amount{value: a.value / lengthUnits()[name].of(1), dim: own}, nil
		}
		// In a sum the stroke divides.
		if t.kind == word || !r.sum && a.dim == length {
			r.next++
			return r.over(t, a)
		}
	}
	return a, nil
}

// over reads what a falls on.
func (r *reader) over(mark token, a amount) (amount, *fault) {
	b, f := r.length()
	switch {
	case f != nil:
		return amount{}, f
	case a.dim != b.dim:
		return amount{}, faultAt(mark, "reading.units-both")
	case b.value == 0:
		return amount{}, faultAt(mark, "reading.one-in-nought")
	}
	return amount{value: a.value / b.value, dim: own}, nil
}

// bareSlope gives the meaning of a number alone: one in so many, or rise over
// run when small. Between them percent makes sense too; where inches are, so do the
// fractions of an inch to the foot in which falls are told there: 1/4 is 1:4 or 1:48.
func (r *reader) bareSlope(v float64) Reading {
	a := math.Abs(v)
	const finest = 1.0 / 16 // inch to the foot; below it people mean rise over run
	if a >= finest && a < 1 && r.second && r.s == Imperial {
		const inchesInFoot = 12
		return Reading{v / inchesInFoot, exact(v/inchesInFoot, Slope, r.s)}
	}
	if a >= 0.5 && a < 10 && r.second {
		return Reading{v / 100, decimals(v) + " %"}
	}
	if a >= 2 {
		return Reading{1 / v, exact(1/v, Slope, r.s)}
	}
	return Reading{v, decimals(v*100) + " %"}
}

// again reads the same fall said once more in brackets, as Format writes it:
// 1:40 (25 mm/m), 18 mm/m (1:55.6) or 5/16 in/ft (2.5 %). Each is rounded; the value suits both.
func (r *reader) again(a amount) (amount, *fault) {
	r.next++
	from := r.next
	b, f := r.slope()
	if f != nil {
		return amount{}, f
	}
	last := r.ahead(0)
	if !last.is(")") {
		return amount{}, faultAt(last, "reading.no-closing")
	}
	inRun, perMetre := a.value, b.value
	if slices.ContainsFunc(r.tokens[from:r.next], func(t token) bool { return t.is(":") }) {
		inRun, perMetre = perMetre, inRun
	}
	r.next++
	inFeet := func(t token) bool { return t.is("'") || t.kind == word && unitWord(t.text) == "ft" }
	inPercent := func(t token) bool { return t.is("%") }
	falls := a.dim == own && b.dim == own
	if falls && slices.ContainsFunc(r.tokens[:from], inFeet) && slices.ContainsFunc(r.tokens[from:r.next], inPercent) {
		return inFootAgain(a, b, last)
	}
	const half = 0.05 // of the last decimal shown, in 1:n as in mm/m
	low := math.Max(1/(1/inRun+half), perMetre-half/1000)
	high := perMetre + half/1000
	if n := 1/inRun - half; n > 0 {
		high = math.Min(high, 1/n)
	}
	fits := func(v float64) bool { return v >= low && v <= high }
	switch {
	case !falls || !(low <= high):
		return amount{}, faultAt(last, "reading.falls-disagree")
	case fits(a.value):
		return a, nil
	case fits(b.value):
		return b, nil
	}
	return amount{value: (low + high) / 2, dim: own}, nil
}

// inFootAgain is the percentage beside a fall in inches to the foot, which is told to the nearest sixteenth.
func inFootAgain(inFoot, percent amount, last token) (amount, *fault) {
	const halfSixteenth, half = 0.5 / sixteenthsIn / inchesInFoot, 0.5e-4 // of a sixteenth of an inch in a foot, and of the last decimal
	if math.Abs(inFoot.value-percent.value) > halfSixteenth+half {
		return amount{}, faultAt(last, "reading.falls-disagree")
	}
	return percent, nil
}
