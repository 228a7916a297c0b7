package hydraulic

import "math"

// Coefficients of a grate or slot taking in water, FHWA HEC-22, 4th edition
// (2024), equations 7.14, 7.15, 7.20 and 7.21. They come from tests on roads;
// at the small heads of a shower surface tension matters too, so what they
// give is the most that can be expected.
const (
	GrateWeir    = 0.37
	GrateOrifice = 0.67
	SlotWeir     = 0.31
	SlotOrifice  = 0.8
)

// weirPower is that of the head in the flow over a weir, mmToWeirPower a millimetre in metres to
// that power.
const (
	weirPower     = 1.5
	mmToWeirPower = 3.16227766016838e-05
)

// WeirLPS is the flow over an edge of the given length under a head:
// Q = Cw·√(2g)·P·d^1.5.
func WeirLPS(coefficient, perimeterMM, headMM float64) float64 {
	d := math.Max(0, headMM) / 1000
	return coefficient * math.Sqrt(2*gravity) * perimeterMM / 1000 * math.Pow(d, weirPower) * 1000
}

// mm2InM2 is a square metre, mm².
const mm2InM2 = 1e6

// OrificeLPS is the flow through an opening of the given area under a head:
// Q = Co·A·√(2gd).
func OrificeLPS(coefficient, areaMM2, headMM float64) float64 {
	return coefficient * areaMM2 / mm2InM2 * math.Sqrt(2*gravity*math.Max(0, headMM)/1000) * 1000
}

// headOf is the head under which an opening lets a flow through; endless without an opening.
func headOf(coefficient, areaMM2, flowLPS float64) float64 {
	perRoot := OrificeLPS(coefficient, areaMM2, 1)
	if flowLPS <= 0 {
		return 0
	}
	root := flowLPS / perRoot
	return root * root
}

// Cover is a drain's cover, a grate: the edge that water comes over to it, and the
// opening that it goes through.
type Cover struct{ EdgeMM, OpeningMM2 float64 }

// LPS is what a cover takes in under a depth of water: the lesser of weir and orifice, as
// HEC-22 section 7.3 has it; weir tells which governs.
func (c Cover) LPS(headMM float64) (flowLPS float64, weir bool) {
	w, o := WeirLPS(GrateWeir, c.EdgeMM, headMM), OrificeLPS(GrateOrifice, c.OpeningMM2, headMM)
	return math.Min(w, o), w <= o
}

// HeadMM is the depth of water under which a cover takes a flow in; endless where it takes
// in none.
func (c Cover) HeadMM(flowLPS float64) float64 {
	if flowLPS <= 0 {
		return 0
	}
	return math.Max(c.edgeHeadMM(flowLPS), headOf(GrateOrifice, c.OpeningMM2, flowLPS))
}

// edgeHeadMM is the depth under which a flow comes over the edge.
func (c Cover) edgeHeadMM(flowLPS float64) float64 {
	underMM := GrateWeir * math.Sqrt(2*gravity) * c.EdgeMM / 1000 * mmToWeirPower * 1000
	return math.Pow(flowLPS/underMM, 1/weirPower)
}

// overEdge tells whether a flow is limited by the edge it comes over, not by the opening.
func (c Cover) overEdge(flowLPS float64) bool {
	return c.edgeHeadMM(flowLPS) >= headOf(GrateOrifice, c.OpeningMM2, flowLPS)
}

// Flow is the state of a part-full pipe.
type Flow struct {
	DepthShare  float64 // depth over bore, 0 to 1
	VelocityMPS float64
	// Full tells that the pipe cannot carry the flow with a free surface.
	Full bool
}

// InPipe is the depth and velocity at which a pipe carries a flow at a fall,
// by bisection on Colebrook-White; exact to a millionth of the bore. Flow
// peaks a little before the pipe is full, so only depths up to 0.93 count as
// a free surface.
func InPipe(boreMM, slope, flowLPS float64) Flow {
	const deepest = 0.93
	if flowLPS <= 0 {
		return Flow{}
	}
	if most, v := ColebrookWhite(boreMM, deepest, slope); flowLPS >= most {
		return Flow{DepthShare: 1, VelocityMPS: v, Full: true}
	}
	low, high := 0.0, deepest
	for range 40 {
		middle := (low + high) / 2
		if q, _ := ColebrookWhite(boreMM, middle, slope); q < flowLPS {
			low = middle
		} else {
			high = middle
		}
	}
	_, v := ColebrookWhite(boreMM, high, slope)
	return Flow{DepthShare: high, VelocityMPS: v}
}

// Film is a sheet of water running down a plane.
type Film struct {
	DepthMM     float64
	VelocityMPS float64
	Laminar     bool
}

// laminarLimit is the Reynolds number q/ν up to which a film is taken as
// laminar; from memory.
const laminarLimit = 500

// ShowerViscosityM2PS is the kinematic viscosity of water at 38 °C, as warm as people
// shower: 0.68 mPa·s over 993 kg/m³, from memory. Cold water runs slower and deeper.
const ShowerViscosityM2PS = 0.68e-6

// OnTile is the film on a tiled plane for a flow over a width.
//
// Method: q = Q/B; laminar (q/ν ≤ 500, Nusselt) h = (3νq/(gS))^(1/3); beyond,
// Manning with R = h, h = (q·n/√S)^0.6, n 0.012 for a smooth finish (HEC-22
// table 5.3, trowelled). Neither counts drops, splashing or surface tension:
// below about 0.5 mm water runs in threads instead.
func OnTile(flowLPS, widthMM, slope float64) Film {
	if flowLPS <= 0 || widthMM <= 0 || slope <= 0 {
		return Film{}
	}
	q := flowLPS / 1000 / (widthMM / 1000)
	f := Film{Laminar: q/ShowerViscosityM2PS <= laminarLimit}
	h := math.Pow(q*TileRoughness/math.Sqrt(slope), 0.6)
	if f.Laminar {
		h = math.Cbrt(3 * ShowerViscosityM2PS * q / (gravity * slope))
	}
	f.DepthMM, f.VelocityMPS = h*1000, q/h
	return f
}

// TileRoughness is Manning's n of smooth tile.
const TileRoughness = 0.012
