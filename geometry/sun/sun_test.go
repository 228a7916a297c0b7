package sun

import (
	"math"
	"testing"
)

// The example of Reda and Andreas, "Solar Position Algorithm for Solar Radiation Applications", NREL/TP-560-34302: at
// 39.742476° N the sun, 9.316179° south of the equator and 11.10629° past its noon as seen from there, is 50.11162° from
// overhead and 194.34024° from north. What is counted there and not here is the air, which lifts the sun by 0.0163°
// (820 hPa, 11 °C).
func TestSunAsPublished(t *testing.T) {
	got := seen(radians(11.10629), radians(-9.316179), radians(39.742476))
	const airDeg, printedDeg = 0.0163, 0.0001
	if off := got.HighDeg + airDeg - (90 - 50.11162); math.Abs(off) > printedDeg {
		t.Errorf("%v° high, off by %v", got.HighDeg, off)
	}
	if off := got.FromNorthDeg - 194.34024; math.Abs(off) > printedDeg {
		t.Errorf("%v° from north, off by %v", got.FromNorthDeg, off)
	}
}

// By hand: at the equinox the sun rises due east at six and sets due west at eighteen everywhere; at noon it stands as
// far from overhead as the place from the equator, in the south of the northern half and in the north of the southern.
func TestEquinox(t *testing.T) {
	for _, c := range []struct{ hour, latitude, high, fromNorth float64 }{
		{6, 52, 0, 90}, {18, 52, 0, 270}, {12, 52, 38, 180}, {12, -34, 56, 0}, {6, -34, 0, 90}, {12, 38, 52, 180},
		// Half way up the day at 45°: sin h = cos 45° cos 45° = 1/2, and east of south by atan(sin 45°/(cos 45° sin 45°)).
		{9, 45, 30, 180 - math.Atan2(1, math.Sqrt2/2)*180/math.Pi},
	} {
		got := Equinox(c.hour, c.latitude)
		turn := math.Mod(got.FromNorthDeg-c.fromNorth+540, 360) - 180
		if math.Abs(got.HighDeg-c.high) > 1e-9 || math.Abs(turn) > 1e-9 {
			t.Errorf("at %v, %v°: %v, want %v high, %v from north", c.hour, c.latitude, got, c.high, c.fromNorth)
		}
	}
}

// Regions of both halves of the earth, and one that is not known.
func TestLatitudes(t *testing.T) {
	for region, north := range map[string]bool{"UK": true, "UK-SC": true, "US": true, "US-UPC": true, "DE": true, "IE": true,
		"AU": false, "AU-SA": false, "NZ": false, "XX": true} {
		if got := LatitudeDeg(region); got > 0 != north || math.Abs(got) > 60 {
			t.Errorf("%s: %v", region, got)
		}
	}
}
