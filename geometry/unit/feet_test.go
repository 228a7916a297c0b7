package unit_test

import (
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// From a foot up lengths along the floor are told in feet and inches with what is left of sixteenths, worked by
// hand: 96 in are 8 ft, 94.5 in 7 ft and 10 1/2; what rounds up to 12 in is a foot; less stays inches, and
// millimetres stay what they are. What is written reads back.
func TestLengthsInFeet(t *testing.T) {
	const inch = 25.4
	for _, c := range []struct {
		mm               float64
		metric, imperial string
	}{
		{96 * inch, "2438.5 mm", `8' 0"`}, {94.5 * inch, "2400.5 mm", `7' 10 1/2"`}, {12 * inch, "305 mm", `1' 0"`},
		{11.97 * inch, "304 mm", `1' 0"`}, {11.5 * inch, "292 mm", `11 1/2"`}, {12.0625 * inch, "306.5 mm", `1' 1/16"`},
		{-36 * inch, "-914.5 mm", `-3' 0"`}, {0, "0 mm", `0"`},
	} {
		if got := unit.InFeet(c.mm, message.Half, unit.Metric); got != c.metric {
			t.Errorf("%v: %s, want %s", c.mm, got, c.metric)
		}
		got := unit.InFeet(c.mm, message.Half, unit.Imperial)
		if got != c.imperial {
			t.Errorf("%v: %s, want %s", c.mm, got, c.imperial)
		}
	}
	// A chain of a shower between two rests of its wall: 30 and 36 in with 1 1/2 between.
	chain := message.Chain{PartsMM: []float64{30 * inch, 1.5 * inch, 36 * inch}, Round: message.Half, Whole: message.Half}
	for want, arg := range map[string]message.Arg{
		`2' 6"`: message.InFeet(chain.Part("a", 0)), `1 1/2"`: message.InFeet(chain.Part("a", 1)), `5' 7 1/2"`: message.InFeet(chain.All("a")),
		`67 1/2"`: chain.All("a"),
	} {
		if got := unit.Chained(arg.Value.(message.InChain), unit.Imperial); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
