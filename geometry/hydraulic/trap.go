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

// Outlet is a trap under its cover: one way for the water, under one head.
type Outlet struct {
	// Points are those of the trap's data sheet with a cover on, in the order of their
	// heads; they may be empty.
	Points []HeadFlow
	// BoreMM is that of the trap's outlet.
	BoreMM float64
	// DropMM is from the cover down to the trap's weir or the middle of its outlet,
	// whichever lies higher: it drives the flow as well.
	DropMM float64
	Cover  Cover
}

// Basis is where what the outlet carries comes from.
func (o Outlet) Basis() Basis {
	switch len(o.Points) {
	case 0:
		return FromOrifice
	case 1:
		return FromPoint
	}
	return FromCurve
}

// DepthMM is the depth of water over the cover under which an outlet carries a flow.
//
// Method: cover and trap in series. The cover takes its part of the depth; what the trap
// needs grows with the square of the flow, from what the nearest point of its data sheet
// left it, and without any as an orifice of the outlet's bore; the drop to its weir gives it
// the first of that. Between points in straight lines. More flow never needs less.
func (o Outlet) DepthMM(flowLPS float64) float64 {
	if flowLPS <= 0 {
		return 0
	}
	cover := o.Cover.HeadMM(flowLPS)
	return math.Max(cover, o.backedMM(flowLPS, cover))
}

// StandsMM is how deep water stands over the cover at a flow: nothing where the trap keeps
// up and water runs in over the cover's edge as it comes down the floor.
func (o Outlet) StandsMM(flowLPS float64) float64 {
	if flowLPS <= 0 {
		return 0
	}
	cover := o.Cover.HeadMM(flowLPS)
	backed := o.backedMM(flowLPS, cover)
	if backed <= cover && o.Cover.overEdge(flowLPS) {
		return 0
	}
	return math.Max(cover, backed)
}

// backedMM is the depth up to which the trap backs the water up, through the cover, which
// takes coverMM; no more than that where the trap keeps up.
func (o Outlet) backedMM(flowLPS, coverMM float64) float64 {
	drop := math.Max(0, o.DropMM)
	if len(o.Points) == 0 {
		return coverMM + math.Max(0, headOf(outletOrifice, math.Pi*o.BoreMM*o.BoreMM/4, flowLPS)-drop)
	}
	from := o.Points[0]
	for i, p := range o.Points {
		if flowLPS < p.FlowLPS {
			break
		}
		if from = p; i+1 < len(o.Points) && flowLPS < o.Points[i+1].FlowLPS {
			to := o.Points[i+1]
			return p.HeadMM + (to.HeadMM-p.HeadMM)*(flowLPS-p.FlowLPS)/(to.FlowLPS-p.FlowLPS)
		}
	}
	left := math.Max(0, from.HeadMM-o.Cover.HeadMM(from.FlowLPS)) + drop
	if left == 0 && flowLPS > from.FlowLPS {
		return math.Inf(1) // nothing drives more
	}
	share := flowLPS / from.FlowLPS
	return coverMM + math.Max(0, left*(share*share)-drop)
}

// LPS is what an outlet carries with a depth of water over its cover; nothing without.
//
// Method: the flow is enclosed from both sides as far as numbers go, by straight lines between
// the ends where those get on (the Illinois method), else by halves.
func (o Outlet) LPS(depthMM float64) float64 {
	if depthMM <= 0 {
		return 0
	}
	high, _ := o.Cover.LPS(depthMM)
	high = math.Min(high, math.MaxFloat64) // an endless flow cannot be halved
	over := o.DepthMM(high) - depthMM
	if over <= 0 {
		return high
	}
	const halved = 8 // of so many steps one halves, whatever the shape
	low, under := 0.0, -depthMM
	for rose, n := false, 1; ; n++ {
		try := low + (high-low)/2
		if try <= low || try >= high {
			return low
		}
		if at := low + (high-low)*(under/(under-over)); n%halved != 0 && at > low && at < high {
			try = at
		}
		off := o.DepthMM(try) - depthMM
		if rises := off <= 0; rises {
			if low, under = try, off; rose {
				over /= 2
			}
			rose = true
		} else {
			if high, over = try, off; !rose {
				under /= 2
			}
			rose = false
		}
	}
}
