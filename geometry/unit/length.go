package unit

import "underfall/geometry/message"

// How many of the smaller unit make the larger one.
const (
	inchesInFoot       = 12
	centimetresInMetre = 100
)

// lengthUnit takes the unit of length ahead; empty when there is none.
func (r *reader) lengthUnit() string {
	name := r.lengthUnitAt(0)
	if name == "in" && r.kind == Slope && r.ahead(0).kind == word && r.numberAhead(1) {
		return "" // 1 in 40
	}
	if name != "" {
		r.next++
	}
	return name
}

func (r *reader) lengthUnitAt(n int) string {
	t := r.ahead(n)
	switch {
	case t.is("'"):
		return "ft"
	case t.is(`"`):
		return "in"
	case t.kind == word:
		if name := unitWord(t.text); lengthUnits()[name].under != 0 {
			return name
		}
	}
	return ""
}

// length reads one length, which may go on in a smaller unit: 3' 2 1/2",
// 2 m 30. A number without a unit stays bare.
func (r *reader) length() (amount, *fault) {
	start := r.ahead(0)
	n, f := r.mixed()
	if f != nil {
		return amount{}, f
	}
	unit := r.lengthUnit()
	mm := lengthUnits()[unit].of
	dim := own
	if !r.kind.IsLength() {
		dim = length
	}
	switch unit {
	case "":
		if r.hyphenedFeet() {
			r.next++
			return r.bareFeet(start, n, dim)
		}
		if !r.numberAhead(0) {
			return amount{value: n.value, inchLike: n.inchLike}, nil
		}
		return r.bareFeet(start, n, dim)
	case "ft":
		hyphen := 0
		if r.ahead(0).is("-") && (!r.sum || r.joins && r.tight(0)) && r.numberAhead(1) {
			hyphen = 1
		}
		if !r.numberAhead(hyphen) {
			break
		}
		r.next += hyphen
		inches, f := r.inchesAfter(start, n)
		return amount{value: feetAndInches(n, inches), dim: dim}, f
	case "m", "cm":
		if !r.numberAhead(0) {
			break
		}
		if !n.whole {
			return amount{}, faultAt(r.ahead(0), "reading.whole-before-number", message.Name("unit", unit))
		}
		more, f := r.metricAfter(unit)
		return amount{value: mm(n.value) + more, dim: dim}, f
	}
	return amount{value: mm(n.value), dim: dim}, nil
}

// feetAndInches is their length in millimetres.
func feetAndInches(feet number, inches float64) float64 {
	return inchScale().of(inchesInFoot*feet.value + inches)
}

// inchesAfter reads the inches that follow feet.
func (r *reader) inchesAfter(start token, feet number) (float64, *fault) {
	if !feet.whole {
		return 0, faultAt(start, "reading.feet-whole")
	}
	at := r.ahead(0)
	n, f := r.mixed()
	if f != nil {
		return 0, f
	}
	if name := r.lengthUnitAt(0); name == "in" {
		r.next++
	} else if name != "" {
		return 0, faultAt(r.ahead(0), "reading.inches-after-feet")
	}
	if n.value >= inchesInFoot {
		return 0, faultAt(at, "reading.inches-below-foot", message.No("foot", inchesInFoot))
	}
	return n.value, nil
}

// hyphenedFeet tells whether inches follow feet behind a hyphen, as they are written on
// drawings where inches are used: 7-10 1/2. In a sum a hyphen takes away.
func (r *reader) hyphenedFeet() bool {
	return r.kind.IsLength() && r.s == Imperial && !r.sum && r.tight(0) && r.numberAhead(1)
}

// bareFeet reads feet and inches without the mark of the feet: 4 11 1/2.
func (r *reader) bareFeet(start token, feet number, dim dimension) (amount, *fault) {
	second := r.ahead(0)
	inches, f := r.inchesAfter(start, feet)
	if r.s != Imperial && r.lengthUnitBefore() != "in" {
		return amount{}, faultAt(second, r.severalNumbers())
	}
	return amount{value: feetAndInches(feet, inches), dim: dim}, f
}

// severalNumbers is the id of what says of numbers side by side, of which two have been taken, that they are not one.
func (r *reader) severalNumbers() message.ID {
	if r.numberAhead(0) {
		return "reading.several-numbers"
	}
	return "reading.two-numbers"
}

// lengthUnitBefore is the unit that was taken last.
func (r *reader) lengthUnitBefore() string {
	r.next--
	defer func() { r.next++ }()
	return r.lengthUnitAt(0)
}

// metricAfter reads what follows whole metres or centimetres, in millimetres:
// 30 cm, 30 and 300 after metres are all 0.3 m; one digit after metres can be
// centimetres or tenths.
func (r *reader) metricAfter(unit string) (float64, *fault) {
	at := r.ahead(0)
	n, f := r.mixed()
	if f != nil {
		return 0, f
	}
	smaller := r.lengthUnitAt(0)
	if smaller != "" {
		r.next++
	}
	switch {
	case unit == "cm" && smaller == "", smaller == "mm":
		if unit == "cm" && n.value >= 10 || n.value >= 1000 {
			return 0, faultAt(at, "reading.too-many-mm", message.Name("unit", unit))
		}
		return n.value, nil
	case unit == "m" && smaller == "cm":
		if n.value >= centimetresInMetre {
			return 0, faultAt(at, "reading.too-many-cm", message.No("most", centimetresInMetre))
		}
		if !n.whole || !r.numberAhead(0) {
			return n.value * 10, nil
		}
		more, f := r.metricAfter("cm")
		return n.value*10 + more, f
	case smaller != "":
		return 0, faultAt(at, "reading.smaller-unit", message.Name("unit", unit))
	case n.digits == 3 && n.whole:
		return n.value, nil
	case n.digits == 1 && n.whole && r.second:
		return n.value * 100, nil
	case n.digits == 1 || n.digits == 2:
		return n.value * 10, nil
	}
	return 0, faultAt(at, "reading.cm-or-mm")
}
