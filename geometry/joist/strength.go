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

// Factors of EN 1995-1-1 for a domestic floor of solid timber, service class
// 1, medium-term load: Tables 2.3, 3.1, 3.2; 6.1.7 and 6.6; EN 1990 A1.1.
const (
	kMod       = 0.8
	gammaM     = 1.3
	kDef       = 0.6
	kCrack     = 0.67
	kSystem    = 1.1
	psi2       = 0.3
	gammaDead  = 1.35
	gammaLive  = 1.5
	gravityMS2 = 9.81
)

// Beam is a simply supported joist with its loads as line loads, kN/m.
type Beam struct {
	WidthMM, DepthMM, SpanMM float64
	Timber                   part.Timber
	DeadKNM, LiveKNM         float64
}

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

// DeflectionMM under a line load, in the middle, from bending:
// 5·q·L⁴/(384·E·I).
func (b Beam) DeflectionMM(loadKNM float64) float64 {
	return 5 * loadKNM * math.Pow(b.SpanMM, 4) / (384 * b.Timber.ModulusNMM2 * b.SecondMomentMM4())
}

// FinalDeflectionMM includes creep: w_inst,G·(1 + kdef) + w_inst,Q·(1 +
// ψ2·kdef). Source: EN 1995-1-1, 2.2.3.
func (b Beam) FinalDeflectionMM() float64 {
	return b.DeflectionMM(b.DeadKNM)*(1+kDef) + b.DeflectionMM(b.LiveKNM)*(1+psi2*kDef)
}

// designKNM is the line load the strengths are held against: with partial
// factors, or without for allowable stresses.
func (b Beam) designKNM() float64 {
	if b.Timber.Allowable {
		return b.DeadKNM + b.LiveKNM
	}
	return gammaDead*b.DeadKNM + gammaLive*b.LiveKNM
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

// WithHole is the section through a hole in the middle: b·(h³ − d³)/(6h). A
// hole off the middle is weaker; rules keep it there.
func (b Beam) WithHole(atMM, diameterMM float64) Net {
	h, d := b.DepthMM, math.Min(b.DepthMM, diameterMM)
	return Net{atMM, b.WidthMM * (h*h*h - d*d*d) / (6 * h), b.WidthMM * (h - d)}
}

// BendingShare is the bending stress under the design load against the design
// strength: σ = M/W, f = kmod·ksys·kh·fm,k/γM. Source: EN 1995-1-1, 6.1.6. For
// allowable stresses f = CF·Cr·Fb: NDS, table 4.3.1.
func (b Beam) BendingShare(n Net) float64 {
	if n.ModulusMM3 <= 0 {
		return math.Inf(1)
	}
	stress := b.MomentKNM(b.designKNM(), n.AtMM) * 1e6 / n.ModulusMM3
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
		return 1.5 * b.ShearKN(b.designKNM(), n.AtMM) * 1000 / n.AreaMM2 / b.Timber.ShearNMM2
	}
	stress := 1.5 * b.ShearKN(b.designKNM(), n.AtMM) * 1000 / (kCrack * n.AreaMM2)
	return stress / (kMod * kSystem * b.Timber.ShearNMM2 / gammaM)
}

// existingKNM2 is the weight of a ceiling and services under a floor. Common practice,
// no source.
const existingKNM2 = 0.25

// mm2InM2 is a square metre, mm².
const mm2InM2 = 1e6

// BeamOf is a joist of the job's floor over its longest span, with the weight of
// the new floor and the imposed load, both kN/m², all along it, and the weight of a
// deck also where it is cut out: on the safe side.
func BeamOf(j job.Job, l layout.Layout, addedKNM2, imposedKNM2 float64) Beam {
	js := j.Floor.Joists
	timber := unknown()
	if js.Timber != nil {
		timber = *js.Timber
	}
	b := Beam{WidthMM: js.WidthMM, DepthMM: js.DepthMM, Timber: timber}
	for i := 1; i < len(l.SupportsMM); i++ {
		b.SpanMM = math.Max(b.SpanMM, l.SupportsMM[i]-l.SupportsMM[i-1])
	}
	spacing := js.SpacingMM / 1000
	self := js.WidthMM * js.DepthMM / mm2InM2 * timber.DensityKGM3 * gravityMS2 / 1000
	deck := j.Floor.Deck.ThicknessMM / 1000 * material.Deck.DensityKGM3() * gravityMS2 / 1000
	b.DeadKNM = (existingKNM2+deck+addedKNM2)*spacing + self
	b.LiveKNM = imposedKNM2 * spacing
	return b
}

// NetAt is the section left at a crossing.
func (b Beam) NetAt(c Crossing) Net {
	at := math.Max(0, math.Min(c.SpanMM, c.SupportMM))
	switch c.Kind {
	case Notch:
		return b.WithNotch(at, c.TopMM-c.CutLowMM())
	case Hole:
		return b.WithHole(at, c.CutHighMM()-c.CutLowMM())
	}
	return Net{AtMM: at}
}
