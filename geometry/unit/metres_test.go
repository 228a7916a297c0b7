package unit_test

import (
	"errors"
	"testing"

	"underfall/geometry/unit"
)

// A bare number that is too small for millimetres and makes sense in metres is asked about; one
// that has its unit, makes sense as it stands, or makes none either way is not.
func TestBareMetres(t *testing.T) {
	for _, c := range []struct {
		text  string
		meant float64 // 0 where it is not asked
		value float64 // 0 where it is refused
	}{
		{"2.6", 2600, 0}, {"2,6", 2600, 0}, {"3", 3000, 0}, {"2.6 m", 0, 2600}, {"2600", 0, 2600},
		{"0.5", 0, 0}, {"25", 0, 0}, {"2.6 cm", 0, 0}, {"0", 0, 0}, {"-2.6", 0, 0},
	} {
		v, err := unit.ParseWithin(c.text, unit.Length, unit.Metric, 600, 20000)
		asked := new(unit.Ambiguous)
		switch is := errors.As(err, &asked); {
		case c.meant != 0 && (!is || len(asked.Readings) != 1 || asked.Readings[0].Value != c.meant):
			t.Errorf("%q: %v, %v; %v was meant", c.text, v, err, c.meant)
		case c.meant == 0 && is:
			t.Errorf("%q is asked about: %v", c.text, asked.Readings)
		case c.value != 0 && (err != nil || v != c.value), c.meant == 0 && c.value == 0 && err == nil:
			t.Errorf("%q: %v, %v; want %v", c.text, v, err, c.value)
		}
	}
	if _, err := unit.ParseWithin("2.6", unit.Length, unit.Imperial, 600, 20000); errors.As(err, new(*unit.Ambiguous)) {
		t.Error("in inches a bare number is asked about")
	}
}
