package joist

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/part"
)

// unknown is what joists of unknown strength count as: C16, the weaker of the classes
// that floors are commonly built of. EN 338:2016, Table 1; from memory.
func unknown() part.Timber {
	return part.Timber{BendingNMM2: 16, ShearNMM2: 3.2, ModulusNMM2: 8000, DensityKGM3: 370}
}

// Factors of the National Design Specification for joists: repetitive members,
// and the size factor in bending of No. 2 and better by depth. From memory.
const cRepetitive = 1.15

func cSize(depthMM float64) float64 {
	switch {
	case depthMM < 100:
		return 1.5
	case depthMM < 150:
		return 1.3
	case depthMM < 200:
		return 1.2
	case depthMM < 250:
		return 1.1
	}
	return 1
}

// Factors of EN 1995-1-1 for a domestic floor of solid timber, service classes
// 1 and 2, medium-term load: Tables 2.3, 3.1, 3.2; 6.1.7 and 6.6; EN 1990 A1.1.
const (
	kMod       = 0.8
	gammaM     = 1.3
	kDefDry    = 0.6 // service class 1
	kDefDamp   = 0.8 // service class 2
	kCrack     = 0.67
	kSystem    = 1.1
	psi2       = 0.3
	gammaDead  = 1.35
	gammaLive  = 1.5
	gravityMS2 = 9.81
)

// Beam is a simply supported joist with its loads as line loads, kN/m. PointKN stands on it
// alone, at the place looked at, when what is spread over the floor does not.
type Beam struct {
	WidthMM, DepthMM, SpanMM float64
	Timber                   part.Timber
	DeadKNM, LiveKNM         float64
	PointKN                  float64
	// Damp timber creeps more: service class 2.
	Damp bool
	// SpacingMM is how far joists stand apart; only FrequencyHz asks for it.
	SpacingMM float64
}

// Imposed is what a floor of a dwelling has to bear besides itself: spread over it, or
// at one place.
type Imposed struct{ KNM2, PointKN float64 }

// SecondMomentMM4 of the whole section.
func (b Beam) SecondMomentMM4() float64 { return b.WidthMM * math.Pow(b.DepthMM, 3) / 12 }

// MomentKNM is the bending moment under a line load at a distance from a
// support: q·x·(L − x)/2.
func (b Beam) MomentKNM(loadKNM, atMM float64) float64 {
	return loadKNM * atMM / 1000 * (b.SpanMM - atMM) / 1000 / 2
}

// ShearKN is the shear force there: q·|L/2 − x|.
func (b Beam) ShearKN(loadKNM, atMM float64) float64 {
	return loadKNM * math.Abs(b.SpanMM/2-atMM) / 1000
}

// modulusOverShear is the mean modulus of elasticity of softwood over its shear modulus:
// EN 338:2016, Table 1; from memory.
const modulusOverShear = 16

// DeflectionMM under a line load, in the middle: from bending 5·q·L⁴/(384·E·I), and from
// shear 1.2·q·L²/(8·G·A). The modulus that comes with allowable stresses has shear in it.
func (b Beam) DeflectionMM(loadKNM float64) float64 {
	e := b.Timber.ModulusNMM2
	bending := 5 * loadKNM * math.Pow(b.SpanMM, 4) / (384 * e * b.SecondMomentMM4())
	if b.Timber.Allowable {
		return bending
	}
	return bending + 1.2*loadKNM*b.SpanMM*b.SpanMM/(8*e/modulusOverShear*b.WidthMM*b.DepthMM)
}

// FrequencyHz is the lowest natural frequency of the floor, with its own weight alone:
// π/(2·L²)·√(EI/m), with EI and m of a metre across the joists. EN 1995-1-1, 7.3.3 (4).
func (b Beam) FrequencyHz() float64 {
	span, perM := b.SpanMM/1000, b.SpacingMM/1000
	stiffness := b.Timber.ModulusNMM2 * b.SecondMomentMM4() / 1e6 / perM // N·m²/m
	mass := b.DeadKNM * 1000 / gravityMS2 / perM                         // kg/m²
	return math.Pi / (2 * span * span) * math.Sqrt(stiffness/mass)
}

// FinalDeflectionMM includes creep: w_inst,G·(1 + kdef) + w_inst,Q·(1 +
// ψ2·kdef). Source: EN 1995-1-1, 2.2.3.
func (b Beam) FinalDeflectionMM() float64 {
	kDef := kDefDry
	if b.Damp {
		kDef = kDefDamp
	}
	return b.DeflectionMM(b.DeadKNM)*(1+kDef) + b.DeflectionMM(b.LiveKNM)*(1+psi2*kDef)
}

// designMomentKNM and designShearKN are what the strengths at a place are held against:
// of the whole line load, or of the dead one with the load at one place there; with
// partial factors, or without for allowable stresses.
func (b Beam) designMomentKNM(atMM float64) float64 {
	dead, live := b.factors()
	point := b.PointKN * atMM / 1000 * (b.SpanMM - atMM) / b.SpanMM
	return dead*b.MomentKNM(b.DeadKNM, atMM) + live*math.Max(b.MomentKNM(b.LiveKNM, atMM), point)
}

func (b Beam) designShearKN(atMM float64) float64 {
	dead, live := b.factors()
	point := b.PointKN * math.Max(atMM, b.SpanMM-atMM) / b.SpanMM
	return dead*b.ShearKN(b.DeadKNM, atMM) + live*math.Max(b.ShearKN(b.LiveKNM, atMM), point)
}

// factors are the partial ones of dead and imposed load.
func (b Beam) factors() (dead, live float64) {
	if b.Timber.Allowable {
		return 1, 1
	}
	return gammaDead, gammaLive
}

// kHeight is the size factor for bending of shallow joists, 3.2(3).
func (b Beam) kHeight() float64 {
	return math.Max(1, math.Min(1.3, math.Pow(150/b.DepthMM, 0.2)))
}

// Net is what is left of the section at a cut.
type Net struct {
	AtMM float64 // from a support
	// ModulusMM3 is the section modulus and AreaMM2 the area left.
	ModulusMM3, AreaMM2 float64
}

// Whole is the uncut section.
func (b Beam) Whole(atMM float64) Net {
	return Net{atMM, b.WidthMM * b.DepthMM * b.DepthMM / 6, b.WidthMM * b.DepthMM}
}

// WithNotch is the section under a notch from the top.
func (b Beam) WithNotch(atMM, depthMM float64) Net {
	h := math.Max(0, b.DepthMM-depthMM)
	return Net{atMM, b.WidthMM * h * h / 6, b.WidthMM * h}
}

// WithHole is the section through a hole that begins at a height over the underside: what
// is left above and below it bends as one about their common middle. A hole that
// comes out above or below leaves the one part.
func (b Beam) WithHole(atMM, lowMM, diameterMM float64) Net {
	h := b.DepthMM
	below := math.Min(h, math.Max(0, lowMM))
	above := math.Min(h-below, math.Max(0, h-lowMM-diameterMM))
	if diameterMM <= 0 {
		above = h - below
	}
	area := b.WidthMM * (below + above)
	if area <= 0 {
		return Net{AtMM: atMM}
	}
	middle := (below*below/2 + above*(h-above/2)) / (below + above)
	second := 0.0
	for _, part := range [2]struct{ height, middle float64 }{{below, below / 2}, {above, h - above/2}} {
		off := part.middle - middle
		second += b.WidthMM * part.height * (part.height*part.height/12 + off*off)
	}
	top, bottom := h, 0.0
	if above == 0 {
		top = below
	}
	if below == 0 {
		bottom = h - above
	}
	return Net{atMM, second / math.Max(top-middle, middle-bottom), area}
}

// BendingShare is the bending stress under the design load against the design
// strength: σ = M/W, f = kmod·ksys·kh·fm,k/γM. Source: EN 1995-1-1, 6.1.6. For
// allowable stresses f = CF·Cr·Fb: NDS, table 4.3.1.
func (b Beam) BendingShare(n Net) float64 {
	if n.ModulusMM3 <= 0 {
		return math.Inf(1)
	}
	stress := b.designMomentKNM(n.AtMM) * 1e6 / n.ModulusMM3
	if b.Timber.Allowable {
		return stress / (cRepetitive * cSize(b.DepthMM) * b.Timber.BendingNMM2)
	}
	return stress / (kMod * kSystem * b.kHeight() * b.Timber.BendingNMM2 / gammaM)
}

// ShearShare is the shear stress against the design strength: τ = 1.5·V/(kcr·A),
// f = kmod·ksys·fv,k/γM. Source: EN 1995-1-1, 6.1.7. Stress concentration at a
// notch on the supported side is not in it: such a notch is for an engineer.
func (b Beam) ShearShare(n Net) float64 {
	if n.AreaMM2 <= 0 {
		return math.Inf(1)
	}
	if b.Timber.Allowable {
		return 1.5 * b.designShearKN(n.AtMM) * 1000 / n.AreaMM2 / b.Timber.ShearNMM2
	}
	stress := 1.5 * b.designShearKN(n.AtMM) * 1000 / (kCrack * n.AreaMM2)
	return stress / (kMod * kSystem * b.Timber.ShearNMM2 / gammaM)
}

// existingKNM2 is the weight of a ceiling and services under a floor. Common practice,
// no source.
const existingKNM2 = 0.25

// mm2InM2 is a square metre, mm².
const mm2InM2 = 1e6

// BeamOf is a joist of the job's floor over its longest span, with the weight of
// the new floor, kN/m², and the imposed load all along it, and the weight of a
// deck also where it is cut out: on the safe side, as is that no other joist helps to
// bear what stands at one place.
func BeamOf(j job.Job, l layout.Layout, addedKNM2 float64, imposed Imposed) Beam {
	js := j.Floor.Joists
	timber := unknown()
	if js.Timber != nil {
		timber = *js.Timber
	}
	b := Beam{WidthMM: js.WidthMM, DepthMM: js.DepthMM, Timber: timber, PointKN: imposed.PointKN, SpacingMM: js.SpacingMM, Damp: js.Damp}
	for i := 1; i < len(l.SupportsMM); i++ {
		b.SpanMM = math.Max(b.SpanMM, l.SupportsMM[i]-l.SupportsMM[i-1])
	}
	spacing := js.SpacingMM / 1000
	self := js.WidthMM * js.DepthMM / mm2InM2 * timber.DensityKGM3 * gravityMS2 / 1000
	deck := j.Floor.Deck.ThicknessMM / 1000 * material.Deck.DensityKGM3() * gravityMS2 / 1000
	b.DeadKNM = (existingKNM2+deck+addedKNM2)*spacing + self
	b.LiveKNM = imposed.KNM2 * spacing
	return b
}

// NetAt is the section left at a crossing.
func (b Beam) NetAt(c Crossing) Net {
	at := math.Max(0, math.Min(c.SpanMM, c.SupportMM))
	switch c.Kind {
	case Notch:
		return b.WithNotch(at, c.TopMM-c.CutLowMM())
	case Hole:
		return b.WithHole(at, c.CutLowMM()-c.BottomMM, c.CutHighMM()-c.CutLowMM())
	}
	return Net{AtMM: at}
}
