// Package unit reads and writes lengths, falls, flows as people in the trade type them.
// Inside Underfall lengths are millimetres, slopes are rise over run, flows
// are litres per second and angles are degrees; display systems live here.
//
// What is typed is scanned into tokens (scan.go) and read once for every
// meaning it may have: with the point or the comma as decimal mark, and the
// few others named in reading.go. Meanings outside the range that makes sense
// are dropped; when more than one is left the caller is told to ask.
package unit

import (
	"math"

	"underfall/geometry/message"
)

// System is the set of units shown to the user.
type System string

// The two systems of units.
const (
	Metric   System = "metric"
	Imperial System = "imperial"
)

// Kind is what a number is of, which decides its units.
type Kind string

// The kinds of number Underfall keeps.
const (
	Length Kind = "length" // millimetres: a height, a thickness, or what is sold by its size
	// Along is a length along the floor or a wall, in millimetres: in American units it is told in feet
	// and inches from a foot up.
	Along Kind = "along"
	Slope Kind = "slope" // rise over run
	Flow  Kind = "flow"  // litres per second
	Angle Kind = "angle" // degrees
	Ratio Kind = "ratio" // plain number, shown as a share
	Count Kind = "count" // plain number
	Time  Kind = "time"  // minutes
	Speed Kind = "speed" // metres per second
	// Of what is shown and never typed.
	Area    Kind = "area"    // square millimetres
	Nominal Kind = "nominal" // size of a pipe, which is its name: in millimetres, or in inches where one stands for it
	Volume  Kind = "volume"  // litres
	Load    Kind = "load"    // kilonewtons on a square metre
	Mass    Kind = "mass"    // kilograms
	Liquid  Kind = "liquid"  // litres of what is sold by them
	Yield   Kind = "yield"   // kilograms of powder to a litre of what is made of it
	Cover   Kind = "cover"   // litres of liquid to a square metre
)

// IsLength tells whether a number of the kind is a length, told in whichever way.
func (k Kind) IsLength() bool { return k == Length || k == Along }

// scale is a factor kept as a fraction: an inch is 254/10 mm, so that a
// dyadic fraction of an inch comes out as the nearest number there is.
type scale struct{ over, under float64 }

func (k scale) of(v float64) float64 { return v * k.over / k.under }

func (k scale) back(v float64) float64 { return v * k.under / k.over }

// The international yard and pound agreement of 1959 makes the inch 25.4 mm;
// the US gallon is 231 cubic inches.
func inchScale() scale   { return scale{254, 10} }
func footScale() scale   { return scale{3048, 10} }
func gallonScale() scale { return scale{3.785411784, 60} }

// lengthUnits are the units of length by their names.
func lengthUnits() map[string]scale {
	return map[string]scale{
		"mm": {1, 1}, "cm": {10, 1}, "dm": {100, 1}, "m": {1000, 1}, "in": inchScale(), "ft": footScale(),
	}
}

// unitsOf are the units other than length that a number of a kind may be typed in.
func unitsOf(kind Kind) map[string]scale {
	switch kind {
	case Flow:
		return map[string]scale{"l/s": {1, 1}, "lps": {1, 1}, "l/min": {1, 60}, "lpm": {1, 60}, "gpm": gallonScale(), "gal/min": gallonScale()}
	case Slope:
		return map[string]scale{"%": {1, 100}, "‰": {1, 1000}}
	case Angle:
		return map[string]scale{"°": {1, 1}, "deg": {1, 1}, "rad": {180, math.Pi}}
	case Ratio:
		return map[string]scale{"%": {1, 100}}
	case Time:
		return map[string]scale{"min": {1, 1}, "s": {1, 60}, "h": {60, 1}}
	case Speed:
		return map[string]scale{"m/s": {1, 1}, "ft/s": {3048, 10000}}
	}
	return nil
}

// bareScale is what a number without a unit is taken in.
func bareScale(kind Kind, s System) scale {
	switch {
	case kind.IsLength() && s == Imperial:
		return inchScale()
	case kind == Flow && s == Imperial:
		return gallonScale()
	case kind == Flow:
		return scale{1, 60}
	case kind == Speed && s == Imperial:
		return scale{3048, 10000}
	}
	return scale{1, 1}
}

// greatest is the largest number of a kind that makes sense anywhere in a
// bathroom, in its own unit: lengths go no farther than 50 m.
func greatest(kind Kind) float64 {
	switch kind {
	case Length, Along:
		return 50000
	case Slope:
		return 10
	case Flow, Ratio, Speed:
		return 100
	case Angle:
		return 720
	case Time:
		return 1e6
	}
	return 1e12
}

// Symbol is the unit a bare number of the kind is taken in; empty when it
// has none.
func Symbol(kind Kind, s System) string {
	switch kind {
	case Length, Along:
		if s == Imperial {
			return "in"
		}
		return "mm"
	case Flow:
		if s == Imperial {
			return "gpm"
		}
		return "l/min"
	case Angle:
		return "°"
	case Time:
		return "min"
	case Speed:
		if s == Imperial {
			return "ft/s"
		}
		return "m/s"
	}
	return ""
}

// examples are ways to type a number, to go into a message.
func examples(kind Kind, s System) message.Arg {
	all := message.List{Or: true}
	for _, text := range exampleTexts(kind, s) {
		all.Items = append(all.Items, message.Text(text))
	}
	return message.Arg{Name: "examples", Value: all}
}

func exampleTexts(kind Kind, s System) []string {
	imperial := s == Imperial
	switch {
	case kind.IsLength() && imperial:
		return []string{"4 3/4", `3' 2 1/2"`}
	case kind.IsLength():
		return []string{"120", "12.5 cm", "1 m 20"}
	case kind == Slope && imperial:
		return []string{"1/4 in/ft", "1:48", "2 %"}
	case kind == Slope:
		return []string{"1:40", "2.5 %", "25 mm/m"}
	case kind == Flow && imperial:
		return []string{"2.5", "2.5 gpm"}
	case kind == Flow:
		return []string{"12", "12 l/min", "0.2 l/s"}
	case kind == Angle:
		return []string{"45", "22.5°"}
	case kind == Ratio:
		return []string{"0.5", "50 %"}
	case kind == Time:
		return []string{"15", "15 min"}
	case kind == Speed && imperial:
		return []string{"2", "2 ft/s"}
	case kind == Speed:
		return []string{"0.7", "0.7 m/s"}
	}
	return []string{"3"}
}
