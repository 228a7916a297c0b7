package app

import (
	"underfall/geometry"
	"underfall/geometry/unit"
)

// signedLevel writes a height above the datum with its sign, in the job's units.
func signedLevel(mm float64, r geometry.Result) string {
	return signed(mm, r.Settled.Units)
}

// signed writes a length with its sign.
func signed(mm float64, u unit.System) string {
	s := unit.Format(mm, unit.Length, u)
	if mm > 0.04 {
		return "+" + s
	}
	return s
}
