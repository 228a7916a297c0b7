package hydraulic

import "math"

// CriticalMM is the depth of a flow in a rectangular channel where it falls off the end:
// (Q²/(g·B²))^(1/3).
func CriticalMM(flowLPS, widthMM float64) float64 {
	q := flowLPS / widthMM // m²/s
	return 1000 * math.Cbrt(q*q/gravity)
}

// CollectorMM is how deep water stands in a level channel that takes a flow in evenly along
// its length and lets it fall freely off one end, at a share of the length from the closed
// end, 0 to 1; √3 times the critical depth there.
//
// Source: the balance of momentum without friction, (x/L)² = r·(1.5 − r²/2) with r the depth
// over the critical depth; Novak and others, Hydraulic Structures, equations 4.28 and 4.29,
// as quoted elsewhere. By bisection, as far as numbers go.
func CollectorMM(flowLPS, widthMM, share float64) float64 {
	deep, shallow := math.Sqrt(3), 1.0
	for {
		r := (deep + shallow) / 2
		switch {
		case r <= shallow || r >= deep:
			return r * CriticalMM(flowLPS, widthMM)
		case r*(1.5-r*r/2) < share*share:
			deep = r
		default:
			shallow = r
		}
	}
}
