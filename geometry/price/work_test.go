package price_test

import (
	"reflect"
	"testing"

	"underfall/geometry/price"
)

// Work is typed a line each; what cannot be used is told by its line and the rest kept.
func TestParseWork(t *testing.T) {
	rows, bad := price.ParseWork("Fitting; 2,5; 380\n\n  Skip ; 120.50\nTalk\n;5\nTea; free\nTea; 0; 3\nTea; 1; 2; 3\n")
	want := []price.Row{{Key: "Fitting", Name: "Fitting", Amount: 2.5, Price: 380, Priced: true},
		{Key: "Skip", Name: "Skip", Amount: 1, Price: 120.5, Priced: true}}
	if !reflect.DeepEqual(rows, want) {
		t.Errorf("%+v", rows)
	}
	var lines []int
	for _, b := range bad {
		lines = append(lines, b.Line)
	}
	if !reflect.DeepEqual(lines, []int{4, 5, 6, 7, 8}) {
		t.Errorf("bad lines %v: %v", lines, bad)
	}
}
