package part

import "math"

// HeadFlow is one point of a trap's data sheet: what it carries with a depth of
// water over the cover.
type HeadFlow struct {
	HeadMM  float64 `json:"headMM"`
	FlowLPS float64 `json:"flowLPS"`
}

// Outlet is a way out of a trap.
type Outlet struct {
	// NominalMM is the size of pipe that goes on.
	NominalMM float64 `json:"nominalMM"`
	Joint     Joint   `json:"joint"`
	// InvertDepthMM is from the flange down to the outlet's invert.
	InvertDepthMM float64 `json:"invertDepthMM"`
	// JointOutsideMM is the outside diameter of the socket or nut the pipe goes into,
	// JointMM how far it stands out from the trap's body.
	JointOutsideMM float64 `json:"jointOutsideMM"`
	JointMM        float64 `json:"jointMM"`
	// Capacity is what the trap carries through this outlet, least head first; none
	// where the data sheet says nothing.
	Capacity []HeadFlow `json:"capacity,omitempty"`
}

// Drain is a drain with its trap. Depths are from the flange down.
type Drain struct {
	About
	// Linear drains are sold in LengthsMM; a point drain is WidthMM square.
	Linear    bool      `json:"linear,omitempty"`
	LengthsMM []float64 `json:"lengthsMM,omitempty"`
	WidthMM   float64   `json:"widthMM"`
	// FlangeMM is the width of the flange that the tanking goes onto.
	FlangeMM float64 `json:"flangeMM"`
	// ChannelDepthMM is down to the underside of the channel.
	ChannelDepthMM float64 `json:"channelDepthMM"`
	// The trap's body: down to its underside, and its side in plan.
	BodyDepthMM float64 `json:"bodyDepthMM"`
	BodySizeMM  float64 `json:"bodySizeMM"`
	// WeirDepthMM is down to the weir that the water stands at, SealMM from there to
	// the edge of the dip, PassageMM under that edge.
	WeirDepthMM float64  `json:"weirDepthMM"`
	SealMM      float64  `json:"sealMM"`
	PassageMM   float64  `json:"passageMM"`
	Outlets     []Outlet `json:"outlets"` // at least one
	// The cover's top can be set between these heights above the flange.
	CoverLeastMM    float64 `json:"coverLeastMM"`
	CoverGreatestMM float64 `json:"coverGreatestMM"`
	// LeastFormerMM is the least former the flange needs under it.
	LeastFormerMM float64 `json:"leastFormerMM"`
	// LiftsOut tells that the trap can be taken out from above for cleaning.
	LiftsOut bool `json:"liftsOut,omitempty"`
}

// Kind of part.
func (Drain) Kind() Kind { return KindDrain }

// Of is what the part says of itself.
func (d Drain) Of() About { return d.About }

// TrapWallMM is the thickness of a trap's plastic. Common practice, no source.
const TrapWallMM = 2.5

// Outlet is the outlet for a nominal size of pipe; the nearest in size where there is
// none, and then ok is false.
func (d *Drain) Outlet(nominalMM float64) (o Outlet, ok bool) {
	nearest := math.Inf(1)
	for _, x := range d.Outlets {
		if by := math.Abs(x.NominalMM - nominalMM); by < nearest {
			nearest, o = by, x
		}
	}
	return o, nearest == 0
}

// NearestLengthMM is the longest of the drain's lengths that does not exceed a
// length, the shortest where all do; the length itself where none are stated.
func (d *Drain) NearestLengthMM(atMostMM float64) float64 {
	if len(d.LengthsMM) == 0 {
		return atMostMM
	}
	best := d.LengthsMM[0]
	for _, x := range d.LengthsMM {
		if x <= atMostMM && x > best {
			best = x
		}
	}
	return best
}
