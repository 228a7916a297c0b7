package sheet

import (
	"image"
	"image/color"
	"math"
	"slices"
	"strings"

	"underfall/app/pen"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/price"
	"underfall/geometry/rule"
	"underfall/geometry/section"
)

// Sizes of a customer's sheet, which is read at a table: in points.
const (
	plainPoints = 10.0
	plainHead   = 12.5
	besideEach  = 20.0 // between two columns
)

// PictureSize is how large the picture of the finished shower is drawn for a customer's sheet, in pixels.
func PictureSize() image.Point { return image.Pt(1500, 720) }

// customer is the sheet that a customer says yes to: what it will look like, how one steps in, what was chosen, what is good to
// know, and where to sign. It is of one page where that takes no more than a somewhat smaller picture, so that what is signed stands
// over the signature.
func (m *maker) customer() ([]block, error) {
	costs, err := m.costs()
	if err != nil {
		return nil, err
	}
	half := (m.wide - besideEach) / 2
	sheet := func(share float64) []block {
		out := append(m.forWhom(plainHead), m.pictured(share)...)
		out = append(out, gap(10))
		out = append(out, beside(column{blocks: m.stepIn(half)}, column{half + besideEach, m.chosen(half)}), gap(10))
		out = append(append(out, costs...), m.goodToKnow()...)
		return append(append(out, gap(8)), m.agreed()...)
	}
	return m.fewestPages(sheet), nil
}

// said is a text as a customer reads it, so wide.
func (m *maker) said(text string, wide float64) []block {
	return paragraph(m.to, text, style{size: plainPoints}, wide)
}

// over is a heading as a customer reads it, so wide.
func (m *maker) over(id message.ID, wide float64) []block {
	return headed(m.to, m.full.Text(id), style{size: plainHead, face: pen.Bold}, wide, 4)
}

// forWhom says whom the sheet is for, in letters of a size; nothing where that is not stated.
func (m *maker) forWhom(size float64) []block {
	if m.Customer == "" {
		return nil
	}
	whom := m.full.Say(message.Of("sheet.for", message.Name("customer", m.Customer)))
	return append(m.lines(whom, style{size: size, face: pen.Bold}), gap(8))
}

// pictured is the finished shower, in a share of its usual size; without a picture of it plan and section, which is told.
func (m *maker) pictured(share float64) []block {
	if m.Picture == nil {
		return m.drawnInstead(share)
	}
	under := message.Of("customer.colours-differ")
	switch {
	case m.Draft:
		under = message.Of("customer.draft")
	case m.Samples > 0:
		size := m.Picture.Bounds().Size()
		under = message.Of("customer.drawn-at", message.In("says", under), message.No("wide", size.X), message.No("high", size.Y),
			message.No("samples", m.Samples))
	}
	wide, high := fitted(m.Picture, m.wide, share*0.37*m.room())
	left := (m.wide - wide) / 2
	return append([]block{{high: high + 3, keep: true, draw: func(to pen.Pen, at placing.Point) {
		to.Picture(m.Picture, placing.Box{Low: placing.Point{at[0] + left, at[1]}, High: placing.Point{at[0] + left + wide, at[1] + high}})
	}}}, m.lines(m.full.Say(under), style{size: smallPoints, soft: true})...)
}

// drawnInstead are plan and section beside each other, as bare as a customer reads them.
func (m *maker) drawnInstead(share float64) []block {
	half := (m.wide - besideEach) / 2
	whole := section.PlanOf(m.r)
	seen := whole.Bare()
	seen.Dimensions = slices.DeleteFunc(slices.Clone(whole.Dimensions), func(d section.Dimension) bool {
		return d.Text.ID == section.FirstStud || d.Text.ID == section.NextStud // nothing that is seen
	})
	left := m.unscaled(message.Of("customer.plan"), &seen, half, share*0.32*m.room())
	var right []block
	if cut, err := m.across(); err == nil {
		cut = cut.Bare()
		right = m.unscaled(message.Of("customer.section"), &cut, half, share*0.22*m.room())
	}
	instead := message.ID("customer.no-picture")
	if m.Draft {
		instead = "customer.picture-to-come"
	}
	return append([]block{beside(column{blocks: left}, column{half + besideEach, right})},
		m.lines(m.full.Text(instead), style{size: smallPoints, soft: true})...)
}

// across is the section across the way in; through the drain where nobody steps in over an edge.
func (m *maker) across() (section.Drawing, error) {
	d, err := section.Through(m.r, section.Cutting{Of: section.CutWayIn}, buildup.StageTile)
	if err != nil {
		d, err = section.Through(m.r, section.Cutting{Of: section.CutDrain}, buildup.StageTile)
	}
	return d, err
}

// stairMM is how high a step of a stair usually is: common practice, no source.
const stairMM = 180

// likeAStair compares a step with one of a stair.
func likeAStair(mm float64) message.ID {
	switch share := mm / stairMM; {
	case share < 0.4:
		return "customer.third-of-a-stair"
	case share < 0.58:
		return "customer.half-a-stair"
	case share < 0.71:
		return "customer.two-thirds-of-a-stair"
	case share < 0.9:
		return "customer.three-quarters-of-a-stair"
	case share < 1.15:
		return "customer.a-stair"
	}
	return "customer.more-than-a-stair"
}

// stepSaid says in plain words how one steps into the shower, and over the doorway where that has a step.
func (m *maker) stepSaid() (out []message.Message) {
	switch s := m.r.WayIn(); {
	case s == nil:
		out = append(out, message.Of("customer.level-floor"))
	case s.Kind == geometry.Flush:
		out = append(out, m.levelIn())
	case s.Kind == geometry.Lip:
		out = append(out, message.Of("customer.lip", s.High("high")))
	case s.MM < 0:
		out = append(out, message.Of("customer.step-down", s.High("high"), message.In("like", message.Of(likeAStair(-s.MM)))))
	default:
		out = append(out, message.Of("customer.step-up", s.High("high"), message.In("like", message.Of(likeAStair(s.MM)))))
	}
	if d := geometry.WorstStep(m.r.Steps(), rule.Doorway); d != nil && d.Kind != geometry.Flush {
		says := message.ID("customer.door-up")
		if d.MM < 0 {
			says = "customer.door-down"
		}
		out = append(out, message.Of(says, message.N("doors", len(m.r.Settled.Room.Doorways)), d.High("high")))
	}
	return out
}

// levelIn says that one walks in without a step, and up which ramp.
func (m *maker) levelIn() message.Message {
	for i := range m.r.Schedule {
		if row := &m.r.Schedule[i]; row.ID.Of == buildup.RampRise {
			return message.Of("customer.ramp-in", message.MM("high", row.Value), message.No("run", int(math.Floor(1/m.r.Heights.RampSlope))))
		}
	}
	return message.Of("customer.level-in")
}

// stepIn says how one steps in and how large the shower is, so wide.
func (m *maker) stepIn(wide float64) []block {
	out := m.over("customer.step-in", wide)
	for _, s := range m.stepSaid() {
		out = append(out, m.said(m.full.Say(s), wide)...)
	}
	if m.r.Settled.Former.Fall != job.FallRoom {
		shower := &m.r.Settled.Shower
		size := message.Of("customer.size", message.Along("width", shower.WidthMM), message.Along("depth", shower.DepthMM))
		out = append(out, gap(3))
		out = append(out, m.said(m.full.Say(size), wide)...)
	}
	return out
}

// choice is something chosen, with the colour that it is shown in and that of its joints; clear for none.
type choice struct {
	what, says  string
	face, joint color.RGBA
	hexagons    bool // its joints meet by three
}

// chosen are the finishes, each with a swatch, so wide.
func (m *maker) chosen(wide float64) []block {
	const swatch, apart, high = 24.0, 8.0, 28.0
	out := m.over("customer.chosen", wide)
	for _, c := range m.choices() {
		words := append(paragraph(m.to, c.what, style{size: plainPoints, face: pen.Bold}, wide-swatch-apart),
			paragraph(m.to, c.says, style{size: bodyPoints, soft: true}, wide-swatch-apart)...)
		of := beside(column{swatch + apart, words})
		texts := of.draw
		of.high = max(high, of.high+2)
		of.draw = func(to pen.Pen, at placing.Point) {
			texts(to, at)
			c.swatch(to, placing.Box{Low: at, High: placing.Point{at[0] + swatch, at[1] + swatch}})
		}
		out = append(out, of)
	}
	return out
}

// swatch shows the colour with its joints.
func (c choice) swatch(to pen.Pen, b placing.Box) {
	to.Box(b, c.face)
	middle := placing.Point{(b.Low[0] + b.High[0]) / 2, (b.Low[1] + b.High[1]) / 2}
	switch {
	case c.joint == (color.RGBA{}):
	case c.hexagons:
		rise := (b.High[0] - b.Low[0]) / 2 / math.Sqrt(3) // sides at 30° to level
		to.Stroke([]placing.Straight{{middle, {middle[0], b.Low[1]}}, {middle, {b.Low[0], middle[1] + rise}}, {middle, {b.High[0], middle[1] + rise}}},
			1, c.joint)
	default:
		across := placing.Straight{{b.Low[0], middle[1]}, {b.High[0], middle[1]}}
		to.Stroke([]placing.Straight{{{middle[0], b.Low[1]}, {middle[0], b.High[1]}}, across}, 1, c.joint)
	}
	to.Stroke(placing.Round(b.Corners()), 0.5, softInk())
}

// choices are the tiles, the metal, the cover and the glass of the job.
func (m *maker) choices() []choice {
	j := &m.r.Settled
	out := []choice{m.finish("customer.shower-floor", &j.Layers.Shower), m.finish("customer.room-floor", &j.Layers.Room),
		m.finish("customer.walls", &j.Layers.Wall)}
	cover, _ := job.WordOf(j.Style.Cover)
	metal, _ := job.WordOf(j.Style.Metal)
	says := m.full.Say(message.Of("customer.metal", message.In("metal", message.Of(metal)), message.In("cover", message.Of(cover))))
	out = append(out, choice{what: m.full.Text("customer.trims"), says: says, face: j.Style.Metal.Look().Colour})
	if n := len(j.Shower.Screens); n > 0 {
		glass := message.Of("customer.glass", message.N("n", n))
		out = append(out, choice{what: m.full.Text("customer.screens"), says: m.full.Say(glass), face: color.RGBA{0xcf, 0xdb, 0xdb, 0xff}})
	}
	return out
}

// finish is a tile as it was chosen for a place.
func (m *maker) finish(where message.ID, f *job.Finish) choice {
	face, _ := material.ParseColour(f.Colour)
	joint, known := material.ParseColour(f.GroutColour)
	if !known {
		joint = softInk()
	}
	colour, named := job.ColourWord(f.Colour)
	if !named {
		colour = message.Of("customer.tile-own-colour")
	}
	says := message.Of("customer.tile", message.In("colour", colour),
		message.Layer("long", f.TileLengthMM), message.Layer("wide", f.TileWidthMM))
	if f.Bond == job.BondHexagon {
		says = message.Of("customer.tile-hexagon", message.In("colour", colour), message.Layer("wide", f.TileLengthMM))
	}
	said := m.full.Say(says)
	if grout, named := job.GroutWord(f.GroutColour); named {
		said = m.full.Say(message.Of("customer.tile-and-grout", message.Name("tile", said), message.In("grout", grout)))
	}
	return choice{m.full.Text(where), said, face, joint, f.Bond == job.BondHexagon}
}

// costs is what it comes to by the user's prices, where that is asked for and there are any.
func (m *maker) costs() ([]block, error) {
	if !m.Costs || !m.Prices.Priced() {
		return nil, nil
	}
	list, err := m.takeoff()
	if err != nil {
		return nil, err
	}
	q := price.Of(&list, m.Prices)
	says := message.Of("customer.price", message.Name("sum", m.money(q.GrossCents)))
	if m.Prices.Tax == 0 {
		says = message.Of("customer.price-net", message.Name("sum", m.money(q.NetCents)))
	}
	out := append(m.over("customer.costs", m.wide), m.said(m.full.Say(says), m.wide)...)
	if q.Missing > 0 {
		out = append(out, m.said(m.full.Say(unpriced(&q)), m.wide)...)
	}
	return append(out, gap(8)), nil
}

// goodToKnow is what a customer has to know before saying yes: what is open, what the water does, what there is to mind once it is
// handed over.
func (m *maker) goodToKnow() []block {
	out := m.over("customer.good-to-know", m.wide)
	const point, in = "·", 9.0
	add := func(says string) {
		for i, b := range m.said(says, m.wide-in) {
			of := beside(column{in, []block{b}})
			if i == 0 {
				texts := of.draw
				of.draw = func(to pen.Pen, at placing.Point) {
					texts(to, at)
					to.Text(point, placing.Point{at[0] + 1, at[1] + plainPoints}, plainPoints, pen.Bold, ink())
				}
			}
			out = append(out, of)
		}
		out = append(out, block{high: 2})
	}
	if open := m.openInPlainWords(); len(open) > 0 {
		add(m.full.Say(message.Of("customer.open", message.Arg{Name: "what", Value: message.List{Items: open}})))
	}
	if w := &m.r.Water; w.Trap.CapacityLPS > 0 && w.FlowLPS > 0 {
		flow := func(name string, lps float64) message.Arg {
			return message.Arg{Name: name, Value: message.Flow{LPS: lps}}
		}
		add(m.full.Say(message.Of("customer.water", flow("takes", w.Trap.CapacityLPS), flow("brings", w.FlowLPS))))
	}
	for _, f := range m.r.Findings {
		if f.Rule.Quantity == "pipe.boxed" {
			add(m.full.Say(message.Of("customer.boxed", message.In("finding", f.Message()))))
		}
	}
	for _, c := range m.r.Cautions {
		toTiler := c.Rule.Quantity == "caution.covering"
		if c.Rule.Stage == rule.HandingOver || c.Rule.Stage == rule.Finishing && !toTiler {
			add(m.full.Say(message.Of("customer.caution", message.In("heading", c.Rule.Heading()), message.In("text", c.Rule.Text()))))
		}
	}
	add(m.full.Text("customer.care"))
	return out
}

// openInPlainWords is what nobody has stated yet, as far as it matters to who will shower there: of what, not how much of it.
func (m *maker) openInPlainWords() (out []message.Message) {
	j := &m.r.Settled
	keys := append(j.StandingUsed(job.NotKnown), j.StandingUsed(job.Assumed)...)
	floor := message.ID("customer.open-floor")
	if len(j.SpotLevels) == 0 {
		out = append(out, message.Of(floor))
	}
	for _, key := range keys {
		of := message.ID("customer.open-parts")
		switch subject, rest, _ := strings.Cut(key, "."); {
		case subject == "floor", subject == "spotLevels", subject == "laser":
			of = floor
		case subject == "waste", subject == "room" && strings.HasPrefix(rest, "stacks"), subject == "room" && strings.HasPrefix(rest, "pipeEnds"):
			of = "customer.open-waste"
		case subject == "room":
			of = "customer.open-room"
		}
		if !slices.ContainsFunc(out, func(m message.Message) bool { return m.ID == of }) {
			out = append(out, message.Of(of))
		}
	}
	return out
}

// agreed is where a customer signs; a job that cannot be built as drawn has nothing to agree to.
func (m *maker) agreed() []block {
	out := m.over("customer.agreed", m.wide)
	if m.r.Stops() {
		return m.together(append(out, m.said(m.full.Text("customer.not-yet"), m.wide)...))
	}
	out = append(out, m.said(m.full.Text("customer.agree"), m.wide)...)
	out = append(out, block{high: 46, draw: func(to pen.Pen, at placing.Point) {
		const y, apart = 34.0, 14.0
		left := at[0]
		for _, line := range [...]struct {
			of    message.ID
			share float64
		}{{"customer.name", 0.4}, {"customer.signature", 0.4}, {"customer.date", 0.2}} {
			wide := line.share * (m.wide - 2*apart)
			to.Stroke([]placing.Straight{{{left, at[1] + y}, {left + wide, at[1] + y}}}, 0.8, ink())
			to.Text(m.full.Text(line.of), placing.Point{left, at[1] + y + 10}, bodyPoints, pen.Regular, softInk())
			left += wide + apart
		}
	}})
	return m.together(out)
}
