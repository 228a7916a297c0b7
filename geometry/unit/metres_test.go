package unit_test

import (
	"math"
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
}

// So with feet: 7.5 ft is 90 in, 2286 mm; 8 in, 203.2 mm, makes no sense where 600 mm is the least, 36 in does.
func TestBareFeet(t *testing.T) {
	for _, c := range []struct {
		text  string
		value float64
		feet  bool
	}{
		{"7.5", 2286, true}, {"7 1/2", 2286, true}, {"8", 2438.4, true}, {"36", 914.4, false}, {`8"`, 0, false}, {"8 m", 8000, false}, {"0", 0, false},
	} {
		v, feet, err := unit.Understand(c.text, unit.Along, unit.Imperial, 600, 20000)
		if math.Abs(v-c.value) > 1e-9 || feet != c.feet || (err == nil) != (c.value != 0) {
			t.Errorf("%q: %v, feet %v, %v; want %v, %v", c.text, v, feet, err, c.value, c.feet)
		}
	}
}

// A bare number that could be millimetres and is none that anybody measures is asked about, as it would be typed in metres;
// what is thick or high is not, nor what has its unit, is worked out, goes too far in metres, or stands near what stood there.
func TestALengthThatWasMeantInMetres(t *testing.T) {
	none := math.NaN()
	for _, c := range []struct {
		text             string
		kind             unit.Kind
		greatest, before float64
		want             string
	}{
		{"2.4", unit.Along, 20000, none, "2.4 m"}, {"2,4", unit.Along, 20000, 0, "2,4 m"}, {"2.4", unit.Along, 20000, 900, "2.4 m"},
		{" 0.9 ", unit.Along, 20000, 1200, "0.9 m"}, {"9.9", unit.Along, 20000, 900, "9.9 m"}, {"10.1", unit.Along, 20000, 900, ""},
		{"-2.4", unit.Along, 20000, -900, "-2.4 m"},
		{"2", unit.Along, 20000, 900, "2 m"}, {"3", unit.Along, 20000, 750, "3 m"}, {"3", unit.Along, 20000, 749, ""}, {"2", unit.Along, 20000, none, ""},
		{"2", unit.Along, 20000, 8000, "2 m"}, {"2", unit.Along, 20000, 8001, ""},
		{"2.4 mm", unit.Along, 20000, 900, ""}, {"2.4 m", unit.Along, 20000, 900, ""}, {"=2.4", unit.Along, 20000, 900, "=2.4 m"},
		{"=1+1.4", unit.Along, 20000, 900, ""}, {"2.4", unit.Along, 2399, none, ""}, {"2.4", unit.Along, 2400, none, "2.4 m"}, {"0", unit.Along, 20000, 900, ""},
		{"2.4", unit.Length, 20000, none, ""}, {"2.4", unit.Length, 20000, 0, ""},
		{"2.4", unit.Length, 20000, 75, ""}, {"2.4", unit.Length, 20000, 76, "2.4 m"}, // 2.4 · √1000 = 75.9
		{"2.4", unit.Slope, 20000, none, ""},
	} {
		v, larger, err := unit.Understand(c.text, c.kind, unit.Metric, -c.greatest, c.greatest)
		if err != nil && c.kind != unit.Slope || larger {
			t.Fatalf("%q is %v, larger %v, %v", c.text, v, larger, err)
		}
		got, is := unit.Larger(c.text, c.kind, unit.Metric, -c.greatest, c.greatest, v, c.before)
		if is != (c.want != "") || got.Text != c.want {
			t.Errorf("%q of %s where %v stood: %q, want %q", c.text, c.kind, c.before, got.Text, c.want)
		}
		if is && math.Abs(got.Value-1000*v) > 1e-9 {
			t.Errorf("%q is %v in metres, %v in millimetres", c.text, got.Value, v)
		}
	}
}

// In inches what stood there tells: 54 in, 1371.6 mm, is between half and twice 4.5 ft; a width of 9 in, 228.6 mm, is in inches.
func TestALengthThatWasMeantInFeet(t *testing.T) {
	for _, c := range []struct {
		text     string
		beforeIn float64
		want     string
	}{
		{"4.5", 54, "4.5 ft"}, {"4 1/2", 54, "4 1/2 ft"}, {"5", 30, "5 ft"}, {"5", 29, ""}, {"5", 120, "5 ft"}, {"5", 121, ""}, {"1", 12.1, "1 ft"},
		{"1", 11.9, ""}, {`5"`, 54, ""}, {"0", 54, ""}, {"5", math.NaN(), ""}, {"4 11", 54, ""}, {"30", 54, ""},
	} {
		v, _, err := unit.Understand(c.text, unit.Along, unit.Imperial, 0, 20000)
		if err != nil {
			t.Fatal(c.text, err)
		}
		got, is := unit.Larger(c.text, unit.Along, unit.Imperial, 0, 20000, v, 25.4*c.beforeIn)
		if is != (c.want != "") || got.Text != c.want {
			t.Errorf("%q where %v in stood: %q, want %q", c.text, c.beforeIn, got.Text, c.want)
		}
		if is && math.Abs(got.Value-12*v) > 1e-9 {
			t.Errorf("%q is %v in feet, %v in inches", c.text, got.Value, v)
		}
	}
}
