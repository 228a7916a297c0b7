package joist

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// Compression across the grain, EN 1995-1-1, 6.1.5: what bears counts up to 30 mm longer to each
// side, and joists of softwood on supports at least twice their depth apart half as strong again;
// as an explanation of a program that works by it has them.
const (
	spreadMM    = 30
	kcApart     = 1.5
	kcElse      = 1
	apartDepths = 2
)

// crossPerDensity is the characteristic strength across the grain over the characteristic density,
// and meanDensity the mean density over that: EN 384 for softwood; from memory. They give the 2.2
// and 2.5 N/mm² of C16 and C24 in EN 338.
const (
	crossPerDensity = 0.007
	meanDensity     = 1.2
)

// Contact is where a joist bears on a support, along it as its supports are told. BeforeMM and
// PastMM are how far it goes on to both sides.
type Contact struct {
	FromMM, ToMM, BeforeMM, PastMM float64
	// ClearMM is how far the next support is from it, at least.
	ClearMM float64
	forceKN float64
}

// MiddleMM of the contact.
func (c Contact) MiddleMM() float64 { return (c.FromMM + c.ToMM) / 2 }

// Contacts are those of a joist that nothing is cut out of, with the loads of a beam over each of its
// spans; none where it is not known how far joists bear.
//
// Supports that are stated are the middles of what bears. Others are the faces of walls, in which it
// lies. How far a joist goes on past its first and last support is not known, and counts as nothing.
func Contacts(j *job.Job, l *layout.Layout, b Beam) (out []Contact) {
	long, n := j.Floor.Joists.BearingMM, len(l.SupportsMM)
	if long <= 0 {
		return nil
	}
	for i, s := range l.SupportsMM {
		c := Contact{FromMM: s - long/2, ToMM: s + long/2, ClearMM: math.Inf(1)}
		switch walls := len(j.Floor.Joists.SupportsMM) == 0; {
		case walls && i == 0:
			c.FromMM, c.ToMM = s-long, s
		case walls && i == n-1:
			c.FromMM, c.ToMM = s, s+long
		}
		span := func(mm float64) float64 {
			b.SpanMM = mm
			c.forceKN += b.designShearKN(0)
			c.ClearMM = math.Min(c.ClearMM, mm-long)
			return mm - long
		}
		if i > 0 {
			c.BeforeMM = span(s - l.SupportsMM[i-1])
		}
		if i < n-1 {
			c.PastMM = span(l.SupportsMM[i+1] - s)
		}
		out = append(out, c)
	}
	return out
}

// Left is what bears of a contact besides cuts, and by how much longer it counts. What is cut right
// through or only in part bears nothing, and the timber spreads nothing past it: on the safe side.
func (c Contact) Left(cuts []plan.Interval) (bearsMM, spreadsMM float64) {
	for _, iv := range plan.Without([]plan.Interval{{From: c.FromMM, To: c.ToMM}}, cuts) {
		bearsMM += iv.To - iv.From
	}
	most := math.Min(spreadMM, c.ToMM-c.FromMM)
	before, past := math.Min(most, c.BeforeMM), math.Min(most, c.PastMM)
	for _, cut := range cuts {
		if cut.From < c.FromMM && cut.To > c.FromMM-before {
			before = math.Max(0, c.FromMM-cut.To)
		}
		if cut.To > c.ToMM && cut.From < c.ToMM+past {
			past = math.Max(0, cut.From-c.ToMM)
		}
		if cut.From <= c.FromMM && cut.To >= c.FromMM {
			before = 0
		}
		if cut.From <= c.ToMM && cut.To >= c.ToMM {
			past = 0
		}
	}
	return bearsMM, before + past
}

// Near tells whether a cut lies where a contact bears, or its load spreads.
func (c Contact) Near(cut plan.Interval) bool {
	return cut.To > c.FromMM-math.Min(spreadMM, c.BeforeMM) && cut.From < c.ToMM+math.Min(spreadMM, c.PastMM)
}

// BearingShare is the stress across the grain where a joist bears against the design strength:
// σ = F/(b·lef), f = kc·kmod·fc,90,k/γM. Source: EN 1995-1-1, 6.1.5. Not for allowable stresses.
func (b Beam) BearingShare(c Contact, cuts []plan.Interval) float64 {
	bears, spreads := c.Left(cuts)
	if bears <= 0 {
		return math.Inf(1)
	}
	kc := float64(kcApart)
	if c.ClearMM < apartDepths*b.DepthMM {
		kc = kcElse
	}
	for _, cut := range cuts {
		if c.Near(cut) {
			kc = kcElse
		}
	}
	stress := c.forceKN * 1000 / (b.WidthMM * (bears + spreads))
	return stress / (kc * kMod * crossPerDensity * b.Timber.DensityKGM3 / meanDensity / gammaM)
}
