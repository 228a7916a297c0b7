package unit

// Reading is one thing that may be meant.
type Reading struct {
	Value float64
	Text  string
}

// Ambiguous tells what may be meant.
type Ambiguous struct {
	Typed    string
	Readings []Reading
}

func (a *Ambiguous) Error() string { return a.Typed }

// ParseWithin reads text.
func ParseWithin(text string, q Quantity, s System, least, greatest float64) (float64, error) {
	return Parse(text, q, s)
}
