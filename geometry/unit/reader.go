package unit

import (
	"math"

	"underfall/geometry/message"
)

// dimension is what an amount measures.
type dimension int

const (
	bare   dimension = iota // a number without a unit: a factor, or in the system's own unit
	own                     // in the unit of the kind that is read
	length                  // a length, where another kind is read
	share                   // one length over another, or the like
)

// amount is a number with what it measures.
type amount struct {
	value float64
	dim   dimension
	// inchLike marks a bare number with a fraction as inches have them.
	inchLike bool
}

// reader reads tokens in one manner. Its methods take tokens from next on.
type reader struct {
	tokens []token
	next   int
	kind   Kind
	s      System
	manner
	sum bool
	// divides tells that a stroke was just taken: in 12/4/5 the 4/5 is no fraction.
	divides bool
	// depth counts open parentheses.
	depth int
}

func (r *reader) ahead(n int) token {
	return r.tokens[min(r.next+n, len(r.tokens)-1)]
}

func (r *reader) numberAhead(n int) bool {
	k := r.ahead(n).kind
	return k == numeral || k == glyph
}

// read gives the meaning of all tokens.
func (r *reader) read() (Reading, *fault) {
	if r.ahead(0).is("=") {
		r.next++
		r.sum = true
		if r.ahead(0).kind == end {
			return Reading{}, faultAt(r.ahead(0), "reading.sum-missing")
		}
		a, f := r.terms()
		if f == nil {
			f = r.finished()
		}
		if f != nil {
			return Reading{}, f
		}
		return r.settle(a, 1)
	}
	sign := 1.0
	if t := r.ahead(0); t.is("-", "+") {
		r.next++
		if t.text == "-" {
			sign = -1
		}
	}
	a, f := r.atom()
	if f == nil && r.kind == Slope && r.ahead(0).is("(") {
		a, f = r.again(a)
	}
	if f == nil {
		f = r.finished()
	}
	if f != nil {
		return Reading{}, f
	}
	return r.settle(a, sign)
}

// finished complains when something is left over.
func (r *reader) finished() *fault {
	t := r.ahead(0)
	switch {
	case t.kind == end:
		return nil
	case t.is(")"):
		return faultAt(t, "reading.no-opening")
	case t.is("+", "-", "*", "/", ":", "(") || t.kind == word && t.text == "x":
		if r.ahead(1).kind == end {
			return faultAt(r.ahead(1), "reading.must-follow", message.Name("typed", t.text))
		}
		if !r.sum && !t.is(":") {
			return faultAt(t, "reading.begin-with-equals")
		}
		return faultAt(t, "reading.not-here", message.Name("typed", t.text))
	case t.kind == word:
		return faultAt(t, "reading.unknown-unit", message.Name("typed", t.text))
	case t.kind == glyph:
		return faultAt(t, "reading.fraction-not-here")
	}
	return faultAt(t, "reading.not-here", message.Name("typed", t.text))
}

// settle gives the value of an amount in the unit of the kind.
func (r *reader) settle(a amount, sign float64) (Reading, *fault) {
	value := sign * a.value
	switch {
	case a.dim == own:
	case a.dim == bare && r.kind == Slope:
		return r.bareSlope(value), nil
	case a.dim == bare && r.kind.IsLength() && a.inchLike && r.second && !r.sum && r.s != Imperial:
		// Fractions are for inches, also where all else is metric.
		value = inchScale().of(value)
		return Reading{value, exactInches(value, r.kind)}, nil
	case a.dim == bare:
		value = bareScale(r.kind, r.s).of(value)
	case a.dim == share && (r.kind == Ratio || r.kind == Count):
	case a.dim == length:
		return Reading{}, faultAt(r.ahead(0), "reading.length-no-fall")
	default:
		return Reading{}, faultAt(r.ahead(0), "reading.no-unit-left")
	}
	return Reading{value, exact(value, r.kind, r.s)}, nil
}

// atom reads one number with its unit.
func (r *reader) atom() (amount, *fault) {
	switch r.kind {
	case Length, Along:
		return r.length()
	case Slope:
		return r.slope()
	}
	n, f := r.mixed()
	if f != nil {
		return amount{}, f
	}
	units := unitsOf(r.kind)
	name, tokens := r.unitName(units)
	k, known := units[name]
	if !known {
		return amount{value: n.value}, nil
	}
	r.next += tokens
	a := amount{value: k.of(n.value), dim: own}
	if r.kind == Ratio {
		a.dim = bare
	}
	return a, nil
}

// unitName is the unit ahead, and how many tokens it takes.
func (r *reader) unitName(units map[string]scale) (string, int) {
	t := r.ahead(0)
	if t.kind != word {
		return t.text, 1
	}
	name := unitWord(t.text)
	if per := r.ahead(1); per.is("/") || per.kind == word && per.text == "per" {
		whole := name + "/" + unitWord(r.ahead(2).text)
		if _, known := units[whole]; known && r.ahead(2).kind == word {
			return whole, 3
		}
	}
	return name, 1
}

// unitWord is the short name of a unit written out.
func unitWord(w string) string {
	switch w {
	case "millimetre", "millimetres", "millimeter", "millimeters":
		return "mm"
	case "centimetre", "centimetres", "centimeter", "centimeters":
		return "cm"
	case "metre", "metres", "meter", "meters":
		return "m"
	case "inch", "inches":
		return "in"
	case "foot", "feet":
		return "ft"
	case "litre", "litres", "liter", "liters":
		return "l"
	case "minute", "minutes", "mins":
		return "min"
	case "second", "seconds", "sec":
		return "s"
	case "hour", "hours":
		return "h"
	case "gallon", "gallons":
		return "gal"
	case "degree", "degrees":
		return "deg"
	}
	return w
}

// number is a whole number, a decimal, a fraction, or a whole with a fraction.
type number struct {
	value float64
	// whole tells that it has neither decimals nor fraction.
	whole bool
	// digits are those before the decimal mark, as typed.
	digits int
	// inchLike tells of a fraction below 1 in halves to sixty-fourths.
	inchLike bool
}

func inchLike(over, under float64) bool {
	return over < under && under <= 64 && under == math.Exp2(math.Trunc(math.Log2(under)))
}

// fraction is the fraction n tokens ahead and how many tokens it takes; 0
// when there is none.
func (r *reader) fraction(n int) (over, under float64, tokens int) {
	if t := r.ahead(n); t.kind == glyph {
		return t.over, t.under, 1
	}
	over, whole, _, ok := r.ahead(n).read(r.decimal)
	if !ok || !whole || !r.ahead(n+1).is("/") {
		return 0, 0, 0
	}
	under, whole, _, ok = r.ahead(n + 2).read(r.decimal)
	if !ok || !whole {
		return 0, 0, 0
	}
	return over, under, 3
}

// mixed reads a number with its fraction, if it has one.
func (r *reader) mixed() (number, *fault) {
	t := r.ahead(0)
	if !r.numberAhead(0) {
		return number{}, r.noNumber()
	}
	divides := r.divides
	r.divides = false
	if over, under, tokens := r.fraction(0); tokens == 1 || tokens > 0 && !divides {
		if under == 0 {
			return number{}, faultAt(r.ahead(2), "reading.divided-by-nought")
		}
		r.next += tokens
		return number{value: over / under, inchLike: inchLike(over, under)}, nil
	}
	value, whole, digits, ok := t.read(r.decimal)
	if !ok {
		return number{}, faultAt(t, "reading.marks", message.Name("typed", t.text))
	}
	r.next++
	n := number{value: value, whole: whole, digits: digits}
	if !whole {
		return n, nil
	}
	hyphen := 0
	if r.tight(0) {
		hyphen = 1
	}
	over, under, tokens := r.fraction(hyphen)
	switch {
	case tokens == 0:
		return n, nil
	case hyphen == 1 && (!inchLike(over, under) || r.sum && !(r.joins && r.inches(hyphen+tokens))):
		return n, nil
	case over >= under:
		return number{}, faultAt(r.ahead(hyphen), "reading.fraction-too-large")
	}
	r.next += hyphen + tokens
	return number{value: value + over/under, inchLike: inchLike(over, under)}, nil
}

// noNumber says that a number is missing ahead.
func (r *reader) noNumber() *fault {
	t := r.ahead(0)
	switch {
	case t.kind == end && r.next > 0:
		return faultAt(t, "reading.number-must-follow", message.Name("typed", r.tokens[r.next-1].text))
	case t.kind == end:
		return faultAt(t, "reading.number-missing")
	case t.kind == word:
		return faultAt(t, "reading.no-number", message.Name("typed", t.text))
	}
	return faultAt(t, "reading.number-before", message.Name("typed", t.text))
}

// tight tells whether a hyphen without spaces stands n tokens ahead.
func (r *reader) tight(n int) bool {
	return r.ahead(n).is("-") && !r.ahead(n).spaced && !r.ahead(n+1).spaced
}

// inches tells whether a number that ends n tokens ahead is in inches.
func (r *reader) inches(n int) bool {
	t := r.ahead(n)
	return t.is(`"`) || t.kind == word && unitWord(t.text) == "in" || r.s == Imperial && t.kind != word
}
