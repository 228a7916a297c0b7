package hydraulic

import "math"

// Basis says where a trap's capacity comes from.
type Basis string

// The bases, best first.
const (
	FromCurve   Basis = "curve"   // between points of its data sheet
	FromPoint   Basis = "point"   // one point of its data sheet, carried to another head
	FromOrifice Basis = "orifice" // estimated from the size of its outlet
)

// HeadFlow is one point of a trap's data sheet.
type HeadFlow struct{ HeadMM, FlowLPS float64 }

// outletOrifice is the discharge coefficient of a short, sharp-edged outlet.
// HEC-22 gives 0.67 for grates, handbooks 0.6 to 0.62 for a sharp orifice; the
// bends of a trap take more, so this is the most that can be expected.
const outletOrifice = 0.6

// TrapLPS is what a trap carries with a depth of water over its cover. The
// points are those of its data sheet, in the order of their heads; dropMM is
// from the cover down to the trap's weir or the middle of its outlet, whichever lies
// higher: it drives the flow as well.
//
// Method: between points in straight lines; beyond them, and from a single
// point, with the square root of the whole height driving the flow; without
// any, as an orifice of the outlet's bore. More head never carries less.
func TrapLPS(points []HeadFlow, boreMM, dropMM, headMM float64) (flowLPS float64, basis Basis) {
	headMM, dropMM = math.Max(0, headMM), math.Max(0, dropMM)
	if len(points) == 0 {
		return OrificeLPS(outletOrifice, math.Pi*boreMM*boreMM/4, headMM+dropMM), FromOrifice
	}
	basis = FromCurve
	if len(points) == 1 {
		basis = FromPoint
	}
	scaled := func(p HeadFlow) float64 {
		if p.HeadMM+dropMM <= 0 {
			return p.FlowLPS
		}
		return p.FlowLPS * math.Sqrt((headMM+dropMM)/(p.HeadMM+dropMM))
	}
	first, last := points[0], points[len(points)-1]
	if headMM <= first.HeadMM {
		return scaled(first), basis
	}
	if headMM >= last.HeadMM {
		return scaled(last), basis
	}
	for i := 1; i < len(points); i++ {
		if a, b := points[i-1], points[i]; headMM <= b.HeadMM {
			return a.FlowLPS + (b.FlowLPS-a.FlowLPS)*(headMM-a.HeadMM)/(b.HeadMM-a.HeadMM), basis
		}
	}
	return scaled(last), basis
}

// TrapHeadMM is the depth of water over the cover at which a trap carries a
// flow, up to the greatest asked for; ok is false when that does not do. By
// bisection, to a thousandth of a millimetre.
func TrapHeadMM(points []HeadFlow, boreMM, dropMM, flowLPS, greatestMM float64) (headMM float64, ok bool) {
	carries := func(head float64) bool {
		q, _ := TrapLPS(points, boreMM, dropMM, head)
		return q >= flowLPS
	}
	if !carries(greatestMM) {
		return greatestMM, false
	}
	low, high := 0.0, greatestMM
	if carries(0) {
		return 0, true
	}
	const closeMM = 1e-3
	for high-low > closeMM {
		if middle := (low + high) / 2; carries(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high, true
}
