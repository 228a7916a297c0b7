package unit_test

import (
	"errors"
	"fmt"

	"underfall/geometry/unit"
)

// How long is what was typed? An inch is 25.4 mm: 1.5 · 25.4 = 38.1.
func ExampleParse() {
	for _, typed := range []string{`1 1/2"`, "38 mm", "3.8 cm", "=76/2", "38"} {
		mm, err := unit.Parse(typed, unit.Length, unit.Metric)
		fmt.Println(typed, "is", mm, "mm", err)
	}
	// Output:
	// 1 1/2" is 38.1 mm <nil>
	// 38 mm is 38 mm <nil>
	// 3.8 cm is 38 mm <nil>
	// =76/2 is 38 mm <nil>
	// 38 is 38 mm <nil>
}

// Two metres thirty, and three feet two and a half: 38.5 · 25.4 = 977.9.
func ExampleParse_mixed() {
	metric, _ := unit.Parse("2 m 30", unit.Length, unit.Metric)
	imperial, _ := unit.Parse(`3' 2 1/2"`, unit.Length, unit.Imperial)
	fmt.Println(metric, imperial)
	// Output: 2300 977.9
}

// Is 1.200 one metre twenty in millimetres, or a little over one? The program
// does not guess.
func ExampleAmbiguous() {
	_, err := unit.Parse("1.200", unit.Length, unit.Metric)
	var choose *unit.Ambiguous
	if errors.As(err, &choose) {
		for _, r := range choose.Readings {
			fmt.Println(r.Text)
		}
	}
	// A doorway is wider than a millimetre: where only that makes sense nobody is
	// asked.
	width, err := unit.ParseWithin("1.200", unit.Length, unit.Metric, 100, 5000)
	fmt.Println(width, err)
	// Output:
	// 1200 mm
	// 1.2 mm
	// 1200 <nil>
}

// What a fitter reads: 12 l/min is 0.2 l/s, 0.2 · 60; a fall of 0.025 is one in
// forty, 25 mm on a metre.
func ExampleFormat() {
	fmt.Println(unit.Format(38.1, unit.Length, unit.Metric))
	fmt.Println(unit.Format(38.1, unit.Length, unit.Imperial))
	fmt.Println(unit.Format(0.025, unit.Slope, unit.Metric))
	fmt.Println(unit.Format(0.2, unit.Flow, unit.Metric))
	// Output:
	// 38.1 mm
	// 1 1/2"
	// 1:40 (25 mm/m)
	// 12 l/min
}
