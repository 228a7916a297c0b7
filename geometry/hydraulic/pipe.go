// Package hydraulic works out where the water goes: flow in part-full pipes, what
// covers and traps take, and the film on the tile.
package hydraulic

import "math"

// Constants of EN 12056-2:2000 Annex B: hydraulic roughness with fittings and
// the kinematic viscosity of water at about 10 °C. From memory; the printed
// table rows are reproduced in the tests.
const (
	RoughnessMM   = 1.0
	ViscosityM2PS = 1.31e-6
	gravity       = 9.81
)

// Fill are the elements of the wetted part of a circular pipe.
type Fill struct {
	AreaM2     float64
	PerimeterM float64
	HydraulicM float64 // hydraulic radius, area over wetted perimeter
	SurfaceM   float64 // width of the water's surface
}

// PartFull gives the wetted elements of a pipe of the given bore filled to
// depth over bore, 0 to 1.
//
// Method: θ = 2·acos(1 − 2h/d); A = d²(θ − sin θ)/8; P = dθ/2; T = d·sin(θ/2).
// Exact. Source: geometry.
func PartFull(boreMM, depthOverBore float64) Fill {
	d := boreMM / 1000
	h := math.Max(0, math.Min(1, depthOverBore))
	theta := 2 * math.Acos(1-2*h)
	f := Fill{AreaM2: d * d * (theta - math.Sin(theta)) / 8, PerimeterM: d * theta / 2, SurfaceM: d * math.Sin(theta/2)}
	if f.PerimeterM > 0 {
		f.HydraulicM = f.AreaM2 / f.PerimeterM
	}
	return f
}

// ColebrookWhite gives flow and mean velocity in a part-full pipe at a fall
// (rise over run), as rough as pipes are in use. A level or rising pipe carries nothing.
//
// Method: v = −2·√(2g·4R·S)·log10(k/(3.71·4R) + 2.51ν/(4R·√(2g·4R·S))), Q = vA.
// Source: EN 12056-2:2000 Annex B, with its k and ν.
func ColebrookWhite(boreMM, depthOverBore, slope float64) (flowLPS, velocityMPS float64) {
	return turbulent(boreMM, depthOverBore, slope, RoughnessMM, ViscosityM2PS)
}

// SmoothFullLPS is what a pipe of glass would carry of warm water, running full at a fall:
// no pipe of that bore carries more.
//
// Method: as ColebrookWhite with k = 0 and ν of the shower's water.
func SmoothFullLPS(boreMM, slope float64) float64 {
	flow, _ := turbulent(boreMM, 1, slope, 0, ShowerViscosityM2PS)
	return flow
}

func turbulent(boreMM, depthOverBore, slope, roughnessMM, viscosityM2PS float64) (flowLPS, velocityMPS float64) {
	f := PartFull(boreMM, depthOverBore)
	if slope <= 0 || f.HydraulicM <= 0 {
		return 0, 0
	}
	d := 4 * f.HydraulicM
	root := math.Sqrt(2 * gravity * d * slope)
	v := -2 * root * math.Log10(roughnessMM/1000/(3.71*d)+2.51*viscosityM2PS/(d*root))
	return v * f.AreaM2 * 1000, v
}

// Manning gives flow and velocity by Manning's formula, as a second opinion:
// v = R^(2/3)·√S/n.
func Manning(boreMM, depthOverBore, slope, n float64) (flowLPS, velocityMPS float64) {
	f := PartFull(boreMM, depthOverBore)
	if slope <= 0 || f.HydraulicM <= 0 || n <= 0 {
		return 0, 0
	}
	v := math.Pow(f.HydraulicM, 2.0/3) * math.Sqrt(slope) / n
	return v * f.AreaM2 * 1000, v
}
