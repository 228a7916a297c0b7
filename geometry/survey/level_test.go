package survey_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/survey"
)

// A levelling net of six lines: C. D. Ghilani, Adjustment Computations, 5th edition (2010), example 12.6, with the adjusted
// heights as F. Krumm gives them, Geodetic Network Adjustment Examples, Rev. 3.5 (2020); metres. Each line is a set-up
// with a reading at either end, whose errors come together to the line's.
func TestGhilaniLevelNet(t *testing.T) {
	const a, b, c, d = 0, 1, 2, 3
	lines := []struct {
		from, to  int
		up, sigma float64
	}{{a, b, 10.509, 0.006}, {b, c, 5.360, 0.004}, {c, d, -8.523, 0.005}, {d, a, -7.348, 0.003}, {b, d, -3.167, 0.004}, {a, c, 15.881, 0.012}}
	var readings []survey.Down
	for i, l := range lines {
		tolerance := 2 * l.sigma / math.Sqrt2
		const back = 20 // the line over where it comes from
		readings = append(readings, survey.Down{SetUp: i, Point: l.from, MM: back, Tolerance: tolerance},
			survey.Down{SetUp: i, Point: l.to, MM: back - l.up, Tolerance: tolerance})
	}
	got := survey.Level(len(lines), 4, []survey.Known{{Point: a, LevelMM: 437.596, Tolerance: 1e-4}}, readings)
	for i, want := range []float64{437.5960, 448.1087, 453.4685, 444.9436} {
		near(t, "height", got.Points[i], want, 6e-5)
	}
}

// One set-up by hand: a line 1000 over the datum reads 923 at a point that lies 77 high, and 987 at one 13 high. Moved, it
// reads 960 at the first: 1037 over the datum.
func TestSetUpsByHand(t *testing.T) {
	readings := []survey.Down{{0, 0, 1000, 1}, {0, 1, 923, 1}, {0, 2, 987, 1}, {1, 1, 960, 1}, {1, 3, 1000, 1}, {2, 4, 900, 1}}
	got := survey.Level(3, 5, []survey.Known{{0, 0, 1}}, readings)
	for i, want := range []float64{1000, 1037} {
		near(t, "line", got.Lines[i], want, 1e-6)
	}
	for i, want := range []float64{0, 77, 13, 37} {
		near(t, "point", got.Points[i], want, 1e-6)
	}
	if !math.IsNaN(got.Lines[2]) || !math.IsNaN(got.Points[4]) {
		t.Errorf("tied to nothing: %v, %v", got.Lines[2], got.Points[4])
	}
}

// Readings without error give back all levels, in whatever order they were taken.
func TestReadingsGiveLevelsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		setUps, points := rapid.IntRange(1, 4).Draw(t, "set-ups"), rapid.IntRange(2, 8).Draw(t, "points")
		level := rapid.Float64Range(-300, 300)
		var lines, floor []float64
		for range setUps {
			lines = append(lines, 1000+level.Draw(t, "line"))
		}
		for range points {
			floor = append(floor, level.Draw(t, "point"))
		}
		var readings []survey.Down
		for s := range setUps {
			for p := range points {
				if p == 0 || rapid.Bool().Draw(t, "read") {
					readings = append(readings, survey.Down{SetUp: s, Point: p, MM: lines[s] - floor[p], Tolerance: 1})
				}
			}
		}
		known := []survey.Known{{Point: 0, LevelMM: floor[0], Tolerance: 1}}
		got := survey.Level(setUps, points, known, readings)
		for s, want := range lines {
			if math.Abs(got.Lines[s]-want) > 1e-5 {
				t.Fatalf("line %d is %v, want %v", s, got.Lines[s], want)
			}
		}
		slices.Reverse(readings)
		again := survey.Level(setUps, points, known, readings)
		if !slices.Equal(again.Lines, got.Lines) {
			t.Fatal("in another order, they lie otherwise")
		}
	})
}
