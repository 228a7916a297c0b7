package plan

// Quarters is a turn by whole quarters, clockwise as a plan is seen from above; four are none, fewer than none
// turn the other way.
type Quarters int

// Turned is a vector turned, or a point turned about the origin; exact.
func (q Quarters) Turned(v Point) Point {
	switch q.least() {
	case 1:
		return Point{v.Y(), -v.X()}
	case 2:
		return Point{-v.X(), -v.Y()}
	case 3:
		return Point{-v.Y(), v.X()}
	}
	return v
}

// Back is the turn that takes this one back.
func (q Quarters) Back() Quarters { return (4 - q.least()) % 4 }

// And is this turn followed by another, from none to three quarters.
func (q Quarters) And(other Quarters) Quarters { return (q + other).least() }

// least is the turn in none to three quarters.
func (q Quarters) least() Quarters { return (q%4 + 4) % 4 }
