package material

// Family is one set of parallel hatch lines. Lengths are in steps of the
// hatch's basic spacing, which the paper decides.
type Family struct {
	AngleDeg float64
	Spacing  float64
	Offset   float64
	// Dash and Gap break the lines; zero Dash draws them through. Lines are
	// broken by turns, so that dashes of neighbours do not line up.
	Dash, Gap float64
}

// Pattern is how a cut material is shown: thin lines at 45° for most, as
// ISO 128-3 prefers, told apart by direction, spacing and breaks; thin layers
// are filled.
type Pattern struct {
	// Families without a spacing are none.
	Families [3]Family
	Solid    bool
}

func lines(families ...Family) (p Pattern) {
	copy(p.Families[:], families)
	return p
}
