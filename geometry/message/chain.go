package message

// Chain is lengths measured one after the other, which are shown so that they add up: what is shown
// of its parts makes what is shown of the whole.
type Chain struct {
	// PartsMM are the lengths in their order, those that are not shown as well.
	PartsMM []float64
	// Round is how finely the parts are shown, Whole how finely the whole is, where that can be.
	Round, Whole Round
}

// InChain is a stretch of a chain: from the part with one index to before that with another.
type InChain struct {
	Chain
	From, To int
	// Feet is as that of Length.
	Feet bool
}

// MM is its length in full.
func (v InChain) MM() float64 {
	sum := 0.0
	for _, mm := range v.PartsMM[v.From:v.To] {
		sum += mm
	}
	return sum
}

func (InChain) isValue() {}

func (v InChain) String() string { return plain(v.MM()) + " mm" }

// Part is a part of the chain, by its index.
func (c Chain) Part(name string, at int) Arg { return c.Between(name, at, at+1) }

// Between is a stretch of the chain, from a part to before another.
func (c Chain) Between(name string, from, to int) Arg {
	return Arg{name, InChain{Chain: c, From: from, To: to}}
}

// All is the whole of the chain.
func (c Chain) All(name string) Arg { return c.Between(name, 0, len(c.PartsMM)) }
