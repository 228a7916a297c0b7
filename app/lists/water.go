package lists

import (
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/hydraulic"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/waste"
)

// Water tells what the water does, with the method and source of every
// number.
type Water struct {
	// Run is whether the water runs in the drawings.
	Run  *control.Check
	body *widget.RichText
	last string // what the body says
}

// NewWater makes it; run is told whether the water is to run in the drawings.
func NewWater(keys *control.Keys, run func(on bool)) *Water {
	p := &Water{body: widget.NewRichText(), Run: control.NewCheck(keys, theme.Word("water.show"), run)}
	p.body.Wrapping = fyne.TextWrapWord
	return p
}

// Object is what is shown of it.
func (p *Water) Object() fyne.CanvasObject {
	return container.NewVScroll(container.NewVBox(p.Run, p.body))
}

// Show tells of a result; one that has problems is left out.
func (p *Water) Show(r geometry.Result) {
	if len(r.Problems) > 0 {
		return
	}
	var segments []widget.RichTextSegment
	var all strings.Builder
	for _, l := range waterLines(r) {
		style := widget.RichTextStyleParagraph
		switch {
		case l.heading:
			style.TextStyle.Bold = true
			style.SizeName = fynetheme.SizeNameSubHeadingText
		case l.source:
			style = widget.RichTextStyle{ColorName: fynetheme.ColorNameDisabled, SizeName: fynetheme.SizeNameCaptionText}
		}
		line := theme.Say(l.says, r.Settled.Units)
		fmt.Fprintln(&all, line)
		segments = append(segments, &widget.TextSegment{Text: line, Style: style})
	}
	if s := all.String(); s != p.last {
		p.last, p.body.Segments = s, segments
		p.body.Refresh()
	}
}

// waterLine is a sentence about the water, a heading, or where a figure comes from.
type waterLine struct {
	says            message.Message
	heading, source bool
}

// waterText gathers lines about the water.
type waterText []waterLine

func (t *waterText) says(ms ...message.Message) {
	for _, m := range ms {
		*t = append(*t, waterLine{says: m})
	}
}

func (t *waterText) heading(m message.Message) { *t = append(*t, waterLine{says: m, heading: true}) }

func (t *waterText) source(m message.Message) { *t = append(*t, waterLine{says: m, source: true}) }

// waterLines say what the water of a result does, and what keeps it in.
func waterLines(r geometry.Result) []waterLine {
	w := r.Water
	var t waterText
	t.heading(message.Of("water.shower", flowArg("flow", w.FlowLPS)))
	if len(r.Settled.Water.ShowerFlowsLPS) > 1 {
		t.says(outlets(r)...)
	}
	t.heading(message.Of("water.trap-and-cover"))
	t.trap(w)
	t.cover(w)
	t.heading(message.Of("water.in-the-pipe"))
	t.pipe(w)
	t.heading(message.Of("water.on-the-tile"))
	t.film(w)
	t.evenness(w)
	t.heading(message.Of("water.blocked"))
	t.says(reserve(r))
	t.source(message.Of("water.reserve-source"))
	t.heading(message.Of("sealing.heading"))
	t.says(r.Sealing.Lines()...)
	if cut := r.Cutting().Lines(); len(cut) > 0 {
		t.heading(message.Of("cutting.heading"))
		t.says(cut...)
	}
	boards, _ := r.Boarding() // a drawing tells what could not be laid
	if lines := boards.Lines(); len(lines) > 0 {
		t.heading(message.Of("boarding.heading"))
		t.says(lines...)
	}
	return t
}

// cover says what the drain's cover lets in.
func (t *waterText) cover(w measure.Water) {
	governs := message.Of("water.through-openings")
	if w.InletWeir {
		governs = message.Of("water.over-rim")
	}
	t.says(message.Of("water.cover", flowArg("flow", w.InletLPS), message.Fine("head", w.InletHeadMM), message.In("governs", governs)))
	t.source(message.Of("water.cover-source"))
}

// pipe says how the water stands in each piece, and what the flattest of them carries.
func (t *waterText) pipe(w measure.Water) {
	for _, p := range w.Pieces {
		state := message.Of("water.piece-flows",
			message.Arg{Name: "full", Value: message.Share(p.DepthShare)}, speedArg("speed", p.VelocityMPS))
		if p.Full {
			state = message.Of("water.piece-full")
		}
		if p.Piece.Gradient() <= 0 {
			state = message.Of("water.piece-level")
		}
		t.says(message.Of("water.piece", message.In("piece", p.Piece.Name().Message()), message.In("state", state)))
	}
	t.source(message.Of("water.pipe-source", message.Fine("roughness", hydraulic.RoughnessMM)))
	if p, ok := flattest(w.Pieces); ok {
		cw, _ := hydraulic.ColebrookWhite(p.Pipe.BoreMM, 1, p.Gradient())
		manning, _ := hydraulic.Manning(p.Pipe.BoreMM, 1, p.Gradient(), smoothPlastic)
		t.says(message.Of("water.flattest",
			message.In("piece", p.Name().Message()), flowArg("carries", cw), flowArg("manning", manning)))
		t.source(message.Of("water.flattest-source", message.Arg{Name: "n", Value: message.Number(smoothPlastic)}))
	}
}

// film says how the water runs on the tile; nothing where none does.
func (t *waterText) film(w measure.Water) {
	if w.Film.DepthMM <= 0 {
		return
	}
	kind := message.Of("water.turbulent")
	if w.Film.Laminar {
		kind = message.Of("water.laminar")
	}
	t.says(message.Of("water.film",
		message.Fine("depth", w.Film.DepthMM), speedArg("speed", w.Film.VelocityMPS), message.In("kind", kind)))
	t.source(message.Of("water.film-source", message.Fine("threads", threadsMM)))
}

// evenness says what falls little or not at all, and how large a tile may be.
func (t *waterText) evenness(w measure.Water) {
	e, where := w.Evenness, message.Of("water.on-plane")
	if e.OnCrease {
		where = message.Of("water.on-crease")
	}
	says := message.Of("water.least-fall", message.MM("over", e.OverMM), message.In("where", where), message.Slope("fall", e.LeastFall))
	if e.PuddleMM > 0 {
		says = message.Of("water.puddle", message.MM("over", e.OverMM), message.In("where", where), message.Fine("puddle", e.PuddleMM))
	}
	t.says(says)
	t.source(message.Of("water.uneven-source"))
	const showsMM2 = 100 // a square centimetre
	if l := w.Level; l.AreaMM2 > showsMM2 {
		area := message.Arg{Name: "area", Value: message.Area{MM2: l.AreaMM2}}
		t.says(message.Of("water.level", area, message.MM("wide", l.WidestMM)))
	}
	if least, ok := measure.SmallestFit(w.Tiles); ok {
		size := []message.Arg{message.MM("length", math.Floor(least.LengthMM)), message.MM("width", math.Floor(least.WidthMM))}
		t.says(message.Of("water.tile-fits", size...))
	}
}

// threadsMM is about how thin a film breaks up into threads. Common practice, no
// source.
const threadsMM = 0.5

func flowArg(name string, lps float64) message.Arg {
	return message.Arg{Name: name, Value: message.Flow{LPS: lps}}
}

func speedArg(name string, mps float64) message.Arg {
	return message.Arg{Name: name, Value: message.Speed{MPS: mps}}
}

// trap says what the trap carries and where that is known from.
func (t *waterText) trap(w measure.Water) {
	flow, head := flowArg("flow", w.Trap.CapacityLPS), message.Fine("head", w.Trap.HeadMM)
	add := func(m message.Message, source message.ID) {
		t.says(m)
		t.source(message.Of(source))
	}
	switch w.Trap.Basis {
	case hydraulic.FromCurve:
		add(message.Of("water.trap", flow, head), "water.trap-curve-source")
	case hydraulic.FromPoint:
		add(message.Of("water.trap", flow, head), "water.trap-point-source")
	default:
		add(message.Of("water.trap-estimated", flow, head), "water.trap-estimated-source")
	}
	if w.Trap.Drowned {
		t.says(message.Of("water.drowned"))
	} else if w.Trap.StandsMM > 0.5 {
		t.says(message.Of("water.stands", message.MM("stands", w.Trap.StandsMM)))
	}
	if w.SealLeftMM < w.SealMM-0.5 {
		add(message.Of("water.seal-left", message.MM("seal", w.SealLeftMM)), "water.seal-left-source")
	}
}

// outlets say which of several outlets can run together.
func outlets(r geometry.Result) []message.Message {
	o, flows := r.Water.Outlets, r.Settled.Water.ShowerFlowsLPS
	carries, limit := flowArg("carries", o.CarriesLPS), message.In("limit", o.Limit.Message())
	if len(o.Keep) == len(flows) {
		return []message.Message{message.Of("water.all-outlets", message.N("n", len(flows)), carries, limit)}
	}
	out := []message.Message{message.Of("water.carries", carries, limit)}
	if len(o.Keep) == 0 {
		out = append(out, message.Of("water.none-fits"))
	} else {
		var keep message.List
		for _, i := range o.Keep {
			keep.Items = append(keep.Items, message.Of("water.outlet", message.No("n", i+1), flowArg("flow", flows[i])))
		}
		out = append(out, message.Of("water.keep", message.Arg{Name: "outlets", Value: keep}, flowArg("together", o.KeepLPS)))
	}
	for i := range flows {
		if left, ok := o.RegulateTo[i]; ok {
			out = append(out, message.Of("water.regulate", message.No("n", i+1), flowArg("flow", left)))
		}
	}
	return out
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

// reserve says what a blocked shower holds.
func reserve(r geometry.Result) message.Message {
	v := r.Water.Reserve
	if math.IsInf(v.SpillMM, 1) {
		return message.Of("water.nowhere")
	}
	volume, where := message.Arg{Name: "volume", Value: message.Volume{Litres: v.Litres}}, message.In("where", v.Where.Message())
	switch {
	case v.Litres < 0.05:
		return message.Of("water.held-nothing", where)
	case math.IsInf(v.Minutes, 1):
		return message.Of("water.held", volume, where)
	}
	return message.Of("water.held-for", volume, message.Arg{Name: "time", Value: message.Minutes(v.Minutes)}, where)
}
