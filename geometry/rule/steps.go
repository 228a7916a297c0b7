package rule

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"underfall/geometry/source"
	"underfall/geometry/unit"
)

// Steps are the values that the trade sets inputs of a job to in a region: a fall of 1:50 or 1:40 and
// nothing between, a shower in whole steps of so many millimetres.
type Steps struct {
	Inputs []StepsOf     `json:"inputs,omitempty"`
	Source source.Source `json:"source,omitzero"`
}

// StepsOf are those of one input.
type StepsOf struct {
	// Key is its path in a job's file.
	Key string `json:"key"`
	// Units are those of the jobs that it is so in; empty for any.
	Units unit.System `json:"units,omitempty"`
	// Values are all that it is set to, going up; or it is set to whole multiples of Every, in the input's
	// own unit.
	Values []float64 `json:"values,omitempty"`
	Every  float64   `json:"every,omitempty"`
}

// Of are the steps of an input in a job with some units; ok is false where any value does.
func (s Steps) Of(key string, u unit.System) (of StepsOf, ok bool) {
	for _, in := range s.Inputs {
		if in.Key == key && (in.Units == "" || in.Units == u) {
			return in, true
		}
	}
	return of, false
}

// sameStep is how near a value is to a step to be that: of a step in lengths, and of falls in the ninth
// decimal that they are kept to.
const sameStep = 1e-8

// From are so many steps at most, from a value on, that itself counted, upwards or downwards: the nearest
// first.
func (s StepsOf) From(value float64, up bool, most int) (out []float64) {
	way := 1.0
	if !up {
		way = -1
	}
	if s.Every > 0 {
		for n := range most {
			out = append(out, (math.Ceil(value*way/s.Every-sameStep)+float64(n))*s.Every*way)
		}
		return out
	}
	for _, v := range s.Values {
		if (v-value)*way > -sameStep {
			out = append(out, v)
		}
	}
	slices.SortFunc(out, func(a, b float64) int { return cmp.Compare(a*way, b*way) })
	return out[:min(most, len(out))]
}

// over is the steps with what a region says itself in the place of what its parent says of the same input in
// the same units.
func (s Steps) over(parent Steps) Steps {
	if len(s.Inputs) == 0 {
		return parent
	}
	s.Inputs = slices.Clone(s.Inputs)
	own := len(s.Inputs)
	for _, p := range parent.Inputs {
		if !slices.ContainsFunc(s.Inputs[:own], func(o StepsOf) bool { return o.Key == p.Key && (o.Units == "" || o.Units == p.Units) }) {
			s.Inputs = append(s.Inputs, p)
		}
	}
	return s
}

func (s Steps) check() error {
	if len(s.Inputs) == 0 {
		return nil
	}
	for i, in := range s.Inputs {
		if in.Key == "" || (in.Every > 0) == (len(in.Values) > 0) {
			return errors.New("steps name an input, and either its values or what they are multiples of")
		}
		if !slices.IsSorted(in.Values) {
			return fmt.Errorf("the values of %s go up", in.Key)
		}
		if slices.ContainsFunc(s.Inputs[:i], func(o StepsOf) bool { return o.Key == in.Key && o.Units == in.Units }) {
			return fmt.Errorf("the steps of %s are told twice", in.Key)
		}
	}
	return s.Source.Check()
}
