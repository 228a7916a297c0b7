package rule

import (
	"math"
	"slices"
)

// causes are quantities that go wrong together and are mended together; every other
// quantity is a cause by itself.
func causes() [][]string {
	return [][]string{
		// The run lies too low for the floor, or the floor too low for it.
		{"base.too-low", "base.clear-short-by", "pipe.into-floor", "trap.into-floor", "clash.deck-gap", "pipe.below-joists",
			"trap.below-joists", "exit.too-low"},
		// It is not covered.
		{"base.pipe-covering", "pipe.cover", "pipe.exposed", "pipe.former-over"},
		// Joists are cut.
		{"joist.severed", "joist.cut-depth", "joist.hole-size", "joist.hole-zone", "joist.hole-off-axis", "joist.hole-edge",
			"joist.hole-spacing", "joist.notch-depth", "joist.notch-zone", "joist.notch-length", "joist.notch-to-hole",
			"joist.notch-to-hole-depths", "joist.engineered-cut", "clash.joist-gap", "trap.in-joist", "exit.in-joist"},
		// Joists carry too little.
		{"joist.bending-share", "joist.shear-share", "joist.bearing-share", "joist.bearing", "joist.stiffness", "joist.final-stiffness", "joist.frequency"},
		// Pipe by pipe too flat, and so too slow or too small.
		{"pipe.gradient", "pipe.flow-share", "pipe.smooth-share", "pipe.velocity"},
		// The drain takes too little.
		{"inlet.flow-share", "channel.fill-share", "trap.flow-share", "trap.water-stands"},
		// Too far from air.
		{"run.length", "run.bends", "vent.distance", "vent.none"},
		// The turns cannot be made.
		{"run.turn-off", "run.leg-short", "run.fitting-misplaced", "clash.run-gap"},
		// Nobody knows how the waste goes on outside.
		{"beyond.unknown", "beyond.assumed", "beyond.no-outside"},
	}
}

// CauseOf is what findings on a quantity come from, by the first quantity of those that
// come from the same.
func CauseOf(quantity string) string {
	for _, together := range causes() {
		if slices.Contains(together, quantity) {
			return together[0]
		}
	}
	return quantity
}

// Beyond is how far a finding's value is past its limit, to hold findings of unlike
// quantities against each other: 1 is as much again as the limit, or ten millimetres
// where that is more. What cannot be told is infinitely far; what has no limit not at all.
func (f Finding) Beyond() float64 {
	const naturalMM, natural = 10, 1e-3
	if f.Rule.Compare == Present {
		return 0
	}
	scale := natural
	if Quantities()[f.Rule.Quantity].IsLength() {
		scale = naturalMM
	}
	limit := f.Nearest()
	past := math.Abs(f.Measurement.Value-limit) / math.Max(math.Abs(limit), scale)
	if math.IsNaN(past) {
		return math.Inf(1)
	}
	return past
}
