package rule

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"underfall/geometry/source"
)

// Usual is what inputs of a job usually come to in a region: what to reckon with where one is
// not known.
type Usual struct {
	Inputs []UsualInput  `json:"inputs,omitempty"`
	Source source.Source `json:"source,omitzero"`
}

// UsualInput is what one input usually comes to.
type UsualInput struct {
	// Key is its path in a job's file, with # for the number of a thing of a list.
	Key string `json:"key"`
	// Of is the kind of thing that it is so of, where that matters: of wall.
	Of string `json:"of,omitempty"`
	// Values go up from the least that is met to the greatest.
	Values []float64 `json:"values"`
}

// Values are what an input usually comes to, least first; none where nothing is known of that.
func (u Usual) Values(key, of string) []float64 {
	for i := range u.Inputs {
		if u.Inputs[i].Key == key && u.Inputs[i].Of == of {
			return u.Inputs[i].Values
		}
	}
	return nil
}

// over is what is usual with what a region says itself in the place of what its parent says of
// the same.
func (u Usual) over(parent Usual) Usual {
	if len(u.Inputs) == 0 {
		return parent
	}
	u.Inputs = slices.Clone(u.Inputs)
	for _, p := range parent.Inputs {
		if u.Values(p.Key, p.Of) == nil {
			u.Inputs = append(u.Inputs, p)
		}
	}
	return u
}

func (u Usual) check() error {
	if len(u.Inputs) == 0 {
		return nil
	}
	for i, in := range u.Inputs {
		last := math.Inf(-1)
		for _, v := range in.Values {
			if !(v > last) || math.IsInf(v, 0) {
				return fmt.Errorf("what is usual for %s goes up", in.Key)
			}
			last = v
		}
		if in.Key == "" || len(in.Values) < 2 {
			return errors.New("what is usual names an input and two values or more")
		}
		if slices.ContainsFunc(u.Inputs[:i], func(o UsualInput) bool { return o.Key == in.Key && o.Of == in.Of }) {
			return fmt.Errorf("what is usual for %s is told twice", in.Key)
		}
	}
	return u.Source.Check()
}
