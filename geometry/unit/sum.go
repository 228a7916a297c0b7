package unit

import "underfall/geometry/message"

// deepest is how many parentheses may stand one in another.
const deepest = 20

// terms reads amounts with + and - between.
func (r *reader) terms() (amount, *fault) {
	a, f := r.factors()
	for f == nil && r.ahead(0).is("+", "-") {
		mark := r.ahead(0)
		r.next++
		var b amount
		if b, f = r.factors(); f == nil {
			a, f = r.add(mark, a, b)
		}
	}
	return a, f
}

// factors reads amounts with * and / between.
func (r *reader) factors() (amount, *fault) {
	a, f := r.factor()
	for f == nil {
		mark := r.ahead(0)
		times := mark.is("*") || mark.kind == word && mark.text == "x"
		if !times && !mark.is("/") {
			break
		}
		r.next++
		r.divides = !times
		var b amount
		if b, f = r.factor(); f == nil {
			if times {
				a, f = multiply(mark, a, b)
			} else {
				a, f = r.divide(mark, a, b)
			}
		}
	}
	return a, f
}

// factor reads an amount with its signs, or one in parentheses.
func (r *reader) factor() (amount, *fault) {
	sign := 1.0
	for r.ahead(0).is("+", "-") {
		if r.ahead(0).text == "-" {
			sign = -sign
		}
		r.next++
	}
	if !r.ahead(0).is("(") {
		a, f := r.atom()
		a.value *= sign
		return a, f
	}
	if r.depth++; r.depth > deepest {
		return amount{}, faultAt(r.ahead(0), "reading.many-parentheses")
	}
	r.next++
	r.divides = false
	a, f := r.terms()
	if f != nil {
		return amount{}, f
	}
	if t := r.ahead(0); t.kind == end {
		return amount{}, faultAt(t, "reading.no-closing")
	} else if !t.is(")") {
		return amount{}, r.finished()
	}
	r.next++
	r.depth--
	a.value *= sign
	return a, nil
}

// add adds b to a or takes it away. Of two amounts one may be bare: it is in
// the system's own unit then, save for falls, which have none.
func (r *reader) add(mark token, a, b amount) (amount, *fault) {
	if a.dim != b.dim && r.kind != Slope {
		k := bareScale(r.kind, r.s)
		if a.dim == bare && b.dim == own {
			a = amount{value: k.of(a.value), dim: own}
		}
		if b.dim == bare && a.dim == own {
			b = amount{value: k.of(b.value), dim: own}
		}
	}
	if a.dim != b.dim {
		return amount{}, faultAt(mark, "reading.sum-of-units", message.Name("typed", mark.text))
	}
	if mark.text == "-" {
		b.value = -b.value
	}
	return amount{value: a.value + b.value, dim: a.dim}, nil
}

func multiply(mark token, a, b amount) (amount, *fault) {
	if a.dim == bare || a.dim == share && b.dim != bare {
		a, b = b, a
	}
	if b.dim != bare && b.dim != share {
		return amount{}, faultAt(mark, "reading.product-of-units")
	}
	return amount{value: a.value * b.value, dim: a.dim}, nil
}

func (r *reader) divide(mark token, a, b amount) (amount, *fault) {
	switch {
	case b.value == 0:
		return amount{}, faultAt(mark, "reading.divided-by-nought")
	case b.dim == bare || b.dim == share:
		return amount{value: a.value / b.value, dim: a.dim}, nil
	case a.dim != b.dim:
		return amount{}, faultAt(mark, "reading.divided-by-unit")
	case a.dim == length:
		// A length over a length is a fall.
		return amount{value: a.value / b.value, dim: own}, nil
	}
	return amount{value: a.value / b.value, dim: share}, nil
}
