package unit_test

import (
	"testing"

	"underfall/geometry/unit"
)

// A bare number that is too small for millimetres and makes sense in metres alone is taken so, and that is told; one
// that has its unit, makes sense as it stands, or makes none either way is not.
func TestBareMetres(t *testing.T) {
	for _, c := range []struct {
		text   string
		value  float64 // 0 where it is refused
		metres bool
	}{
		{"2.6", 2600, true}, {"2,6", 2600, true}, {"3", 3000, true}, {"2.6 m", 2600, false}, {"2600", 2600, false},
		{"0.5", 0, false}, {"25", 0, false}, {"2.6 cm", 0, false}, {"0", 0, false}, {"-2.6", 0, false},
	} {
		v, metres, err := unit.Understand(c.text, unit.Length, unit.Metric, 600, 20000)
		if v != c.value || metres != c.metres || (err == nil) != (c.value != 0) {
			t.Errorf("%q: %v, metres %v, %v; want %v, %v", c.text, v, metres, err, c.value, c.metres)
		}
	}
	if _, metres, err := unit.Understand("2.6", unit.Length, unit.Imperial, 600, 20000); metres || err == nil {
		t.Errorf("in inches a bare number is taken as metres: %v", err)
	}
}
