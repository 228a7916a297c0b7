package app

import (
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry"
	"underfall/geometry/hydraulic"
	"underfall/geometry/measure"
	"underfall/geometry/unit"
	"underfall/geometry/waste"
)

// waterPanel tells what the water does, with the method and source of every
// number.
type waterPanel struct {
	body *widget.RichText
	run  *widget.Check
	last string
}

func newWaterPanel(run func(on bool)) *waterPanel {
	p := &waterPanel{body: widget.NewRichText(), run: widget.NewCheck(word("app.show-the-water-running-below"), run)}
	p.body.Wrapping = fyne.TextWrapWord
	return p
}

func (p *waterPanel) object() fyne.CanvasObject {
	return container.NewVScroll(container.NewVBox(p.run, p.body))
}

func (p *waterPanel) show(r geometry.Result) {
	if len(r.Problems) > 0 {
		return
	}
	lines := waterLines(r)
	if s := fmt.Sprint(lines); s != p.last {
		p.last = s
		p.body.Segments = nil
		for _, l := range lines {
			style := widget.RichTextStyleParagraph
			switch {
			case l.heading:
				style.TextStyle.Bold = true
				style.SizeName = theme.SizeNameSubHeadingText
			case l.source:
				style = widget.RichTextStyle{ColorName: theme.ColorNameDisabled, SizeName: theme.SizeNameCaptionText}
			}
			p.body.Segments = append(p.body.Segments, &widget.TextSegment{Text: l.text, Style: style})
		}
		p.body.Refresh()
	}
}

type waterLine struct {
	text            string
	heading, source bool
}

// waterLines words the water of a result.
func waterLines(r geometry.Result) []waterLine {
	u := r.Settled.Units
	w := r.Water
	flow := func(lps float64) string { return unit.Format(lps, unit.Flow, u) }
	length := func(mm float64) string { return unit.Format(mm, unit.Length, u) }
	var out []waterLine
	heading := func(s string) { out = append(out, waterLine{text: s, heading: true}) }
	line := func(s string) { out = append(out, waterLine{text: s}) }
	source := func(s string) { out = append(out, waterLine{text: s, source: true}) }

	heading(textf("Shower %s", flow(w.FlowLPS)))
	if len(r.Settled.Water.ShowerFlowsLPS) > 1 {
		line(outletsText(r))
	}
	heading(word("app.trap-and-cover"))
	out = append(out, trapLines(r)...)
	governs := word("app.through-its-openings")
	if w.InletWeir {
		governs = word("app.over-its-rim")
	}
	line(textf("The cover takes in %s under %s of water, limited by the flow %s.", flow(w.InletLPS), length(w.InletHeadMM), governs))
	source(word("app.weir-and-orifice-the-lesser-fhwa"))

	heading(word("app.in-the-pipe"))
	for _, p := range w.Pieces {
		state := textf("%.0f %% full, %.2f m/s", 100*p.DepthShare, p.VelocityMPS)
		if p.Full {
			state = word("app.runs-full-it-cannot-carry-this")
		}
		if p.Piece.Gradient() <= 0 {
			state = word("app.does-not-fall-water-stands-in")
		}
		line(fmt.Sprintf("%s: %s", say(p.Piece.Name().Message(), u), state))
	}
	source(textf("Colebrook-White, roughness %.1f mm, %.2e m²/s: EN 12056-2 Annex B.", hydraulic.RoughnessMM, hydraulic.ViscosityM2PS))

	if p, ok := flattest(w.Pieces); ok {
		cw, _ := hydraulic.ColebrookWhite(p.Pipe.BoreMM, 1, p.Gradient())
		manning, _ := hydraulic.Manning(p.Pipe.BoreMM, 1, p.Gradient(), smoothPlastic)
		line(textf("%s is the flattest: full it carries %s; by Manning, as a second opinion, %s.", say(p.Name().Message(), u), flow(cw), flow(manning)))
		source(textf("Manning's n %.3f for smooth plastic, HEC-22 table 9.1; without the fittings and deposits the roughness above allows for.", smoothPlastic))
	}

	heading(word("app.on-the-tile"))
	if w.Film.DepthMM > 0 {
		kind := word("app.turbulent-manning")
		if w.Film.Laminar {
			kind = word("app.laminar-nusselt")
		}
		line(textf("A film %.1f mm deep running at %.2f m/s (%s).", w.Film.DepthMM, w.Film.VelocityMPS, kind))
		source(word("app.for-water-spread-evenly-over-the"))
	}
	e := w.Evenness
	if e.PuddleMM > 0 {
		line(textf("Laid as unevenly as allowed, a stretch of %s can fall back and hold %s of water.", length(e.OverMM), length(e.PuddleMM)))
	} else {
		line(textf("Laid as unevenly as allowed, the flattest %s still fall %s.", length(e.OverMM), unit.Format(e.LeastFall, unit.Slope, u)))
	}
	source(word("app.tile-bed-and-tile-off-by"))
	heading(word("app.if-the-waste-is-blocked"))
	line(reserveText(r))
	source(word("app.volume-under-the-lowest-lip-of"))
	return out
}

// trapLines words what the trap carries and where that is known from.
func trapLines(r geometry.Result) []waterLine {
	u, t := r.Settled.Units, r.Water.Trap
	flow := unit.Format(t.CapacityLPS, unit.Flow, u)
	head := unit.Format(t.HeadMM, unit.Length, u)
	var out []waterLine
	switch t.Basis {
	case hydraulic.FromCurve:
		out = append(out, waterLine{text: textf("The trap carries %s with %s of water over the cover.", flow, head)},
			waterLine{text: word("app.from-the-curve-of-its-data"), source: true})
	case hydraulic.FromPoint:
		out = append(out, waterLine{text: textf("The trap carries %s with %s of water over the cover.", flow, head)},
			waterLine{text: word("app.from-the-one-value-of-its"), source: true})
	default:
		out = append(out, waterLine{text: textf("The trap's capacity is not entered; its outlet could carry %s at most with %s of water over the cover.", flow, head)},
			waterLine{text: word("app.estimate-an-orifice-of-the-outlets"), source: true})
	}
	if t.Drowned {
		out = append(out, waterLine{text: word("app.at-this-flow-the-water-goes")})
	} else if t.StandsMM > 0.5 {
		out = append(out, waterLine{text: textf("At this flow the water stands %s over the cover.", unit.Format(t.StandsMM, unit.Length, u))})
	}
	if seal := r.Water.SealLeftMM; seal < r.Settled.Drain.SealMM-0.5 {
		out = append(out, waterLine{text: textf("The pipe runs full and may suck on the trap: %s of its seal may be left.", unit.Format(seal, unit.Length, u))},
			waterLine{text: word("app.at-most-the-fall-of-the"), source: true})
	}
	return out
}

// outletsText words which of several outlets can run together.
func outletsText(r geometry.Result) string {
	u, o, flows := r.Settled.Units, r.Water.Outlets, r.Settled.Water.ShowerFlowsLPS
	flow := func(lps float64) string { return unit.Format(lps, unit.Flow, u) }
	if len(o.Keep) == len(flows) {
		return textf("All %d outlets can run together: the waste carries %s, limited by: %s.", len(flows), flow(o.CarriesLPS), say(o.Limit.Message(), u))
	}
	var keep []string
	for _, i := range o.Keep {
		keep = append(keep, textf("outlet %d (%s)", i+1, flow(flows[i])))
	}
	s := textf("The waste carries %s, limited by: %s.", flow(o.CarriesLPS), say(o.Limit.Message(), u)) + " "
	if len(keep) == 0 {
		s += word("app.none-of-the-outlets-fits-it")
	} else {
		s += textf("Keep %s, together %s.", strings.Join(keep, ", "), flow(o.KeepLPS))
	}
	for i := range flows {
		if left, ok := o.RegulateTo[i]; ok {
			s += " " + textf("Outlet %d could run as well behind a regulator of %s.", i+1, flow(left))
		}
	}
	return s
}

// smoothPlastic is Manning's n in the middle of HEC-22's 0.009 to 0.011.
const smoothPlastic = 0.010

// flattest is the piece that falls least; ok is false when none falls.
func flattest(pieces []measure.PieceFlow) (least waste.Piece, ok bool) {
	for _, p := range pieces {
		if g := p.Piece.Gradient(); g > 0 && (!ok || g < least.Gradient()-1e-9) {
			least, ok = p.Piece, true
		}
	}
	return least, ok
}

// reserveText words what a blocked shower holds.
func reserveText(r geometry.Result) string {
	v := r.Water.Reserve
	if math.IsInf(v.SpillMM, 1) {
		return word("app.no-open-edge-the-water-has")
	}
	where := strings.ToLower(say(v.Where.Message(), r.Settled.Units))
	if v.Litres < 0.05 {
		return textf("Nothing is held back: water goes over the %s at once, at its lowest place.", text(where))
	}
	if math.IsInf(v.Minutes, 1) {
		return textf("%.1f litres are held; then water goes over the %s.", v.Litres, text(where))
	}
	return textf("%.1f litres are held: %.1f minutes, then water goes over the %s.", v.Litres, v.Minutes, text(where))
}
