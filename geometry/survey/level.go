package survey

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Down is one reading down from a laser's line to a point: the line lies so much over the point.
type Down struct {
	// SetUp is which set-up of the laser it was read in, and Point which point it is of, both by their indices.
	SetUp, Point int
	MM           float64
	// Tolerance is plus or minus, held by 95 of 100; over 0.
	Tolerance float64
}

// Known is a point whose level is known. How well counts as with a reading.
type Known struct {
	Point     int
	LevelMM   float64
	Tolerance float64
}

// Levelled are levels by readings down from lines.
type Levelled struct {
	// Lines are the levels of the lines, by set-up, and Points those of the points: not a number where nothing
	// ties them to a known point.
	Lines, Points []float64
	// Residuals are by how much each reading is changed to agree with all others.
	Residuals []float64
}

// Level works out how high the lines of a number of set-ups lie over a datum, and so the points that were read.
//
// Method: least squares by the singular values, weighted by the tolerances; lines and points that no chain of
// readings ties to a known point are left open.
func Level(setUps, points int, known []Known, readings []Down) Levelled {
	out := Levelled{Lines: open(setUps), Points: open(points), Residuals: make([]float64, len(readings))}
	tied := tiedTo(setUps, points, known, readings)
	column := map[int]int{} // of a line, or of a point after the lines, that is tied
	for i, is := range tied {
		if is {
			column[i] = len(column)
		}
	}
	type row struct {
		at     [2]int // line and point, columns; the line's less than 0 for none
		value  float64
		weight float64
	}
	var rows []row
	for _, k := range known {
		rows = append(rows, row{[2]int{-1, column[setUps+k.Point]}, k.LevelMM, deviations / k.Tolerance})
	}
	for _, r := range readings {
		if tied[r.SetUp] {
			rows = append(rows, row{[2]int{column[r.SetUp], column[setUps+r.Point]}, -r.MM, deviations / r.Tolerance})
		}
	}
	if len(rows) == 0 {
		return out
	}
	// In an order of their own, so that the one they were taken in makes no difference.
	slices.SortStableFunc(rows, func(a, b row) int {
		return cmp.Or(cmp.Compare(a.at[0], b.at[0]), cmp.Compare(a.at[1], b.at[1]), cmp.Compare(a.value, b.value), cmp.Compare(a.weight, b.weight))
	})
	j, off := mat.NewDense(len(rows), len(column), nil), mat.NewVecDense(len(rows), nil)
	for i, r := range rows {
		j.Set(i, r.at[1], r.weight)
		if r.at[0] >= 0 {
			j.Set(i, r.at[0], -r.weight)
		}
		off.SetVec(i, r.value*r.weight)
	}
	x, ok := solved(j, off)
	if !ok {
		return out
	}
	for i, c := range column {
		if v := rounded(x.AtVec(c)); i < setUps {
			out.Lines[i] = v
		} else {
			out.Points[i-setUps] = v
		}
	}
	for i, r := range readings {
		out.Residuals[i] = out.Lines[r.SetUp] - out.Points[r.Point] - r.MM
	}
	return out
}

// open are so many levels that are not known.
func open(n int) []float64 { return slices.Repeat([]float64{math.NaN()}, n) }

// tiedTo tells of each line, and after them of each point, whether a chain of readings ties it to a known point.
func tiedTo(setUps, points int, known []Known, readings []Down) []bool {
	tied := make([]bool, setUps+points)
	for _, k := range known {
		tied[setUps+k.Point] = true
	}
	for more := true; more; {
		more = false
		for _, r := range readings {
			if line, point := &tied[r.SetUp], &tied[setUps+r.Point]; *line != *point {
				*line, *point, more = true, true, true
			}
		}
	}
	return tied
}
