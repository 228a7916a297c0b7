package app

import (
	"underfall/geometry"
	"underfall/geometry/unit"
)

// signedLevel writes a height above the datum with its sign, in the job's units.
func signedLevel(mm float64, r geometry.Result) string {
	s := unit.Format(mm, unit.Length, r.Settled.Units)
	if mm > 0.04 {
		return "+" + s
	}
	return s
}
