package survey_test

import (
	"testing"

	"underfall/geometry/plan"
	"underfall/geometry/survey"
)

// A room of four walls, all measured, with both diagonals.
func BenchmarkWork(b *testing.B) {
	drawn, measures := squareRoom()
	for b.Loop() {
		if _, err := survey.Work(drawn, measures); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSettled(b *testing.B) {
	drawn, measures := squareRoom()
	f, err := survey.Work(drawn, measures)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if !survey.Settled(drawn, measures, f.Corners) {
			b.Fatal("not settled")
		}
	}
}

func squareRoom() ([]plan.Point, []survey.Measure) {
	return []plan.Point{{0, 0}, {2400, 0}, {2400, 1900}, {0, 1900}}, []survey.Measure{far(0, 1, 2400, usual), far(1, 2, 1903, usual),
		far(2, 3, 2405, usual), far(3, 0, 1898, usual), far(0, 2, 3063, usual), far(1, 3, 3060, usual)}
}
