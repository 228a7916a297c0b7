package sheet

import (
	"math"
	"slices"

	"underfall/app/pen"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// template is a shape to be laid on the work, in millimetres at full size, up and to the right from its lower left corner.
type template struct {
	// names are of all that it serves for.
	names        []string
	lines        []placing.Straight
	texts        []templateText
	wideMM, upMM float64
	// turns tells that what it is of may as well be made by it turned over.
	turns bool
}

type templateText struct {
	text string
	at   placing.Point // the middle of the text
}

const (
	besideMM  = 8.0  // a page's width for the upright check dimension
	roundMM   = 1.0  // of paper round a shape
	checkHigh = 22.0 // points that the check dimensions take at a page's foot
)

// templates are shapes at full size: the hole through the wall, what is sawn out of boards, the studs behind the drain, and the
// pieces at open edges that are higher at one end than at the other.
func (m *maker) templates() ([]block, error) {
	var all []template
	if t, ok := m.coreTemplate(); ok {
		all = append(all, t)
	}
	cuts, err := m.cutOuts()
	if err != nil {
		return nil, err
	}
	all = append(all, cuts...)
	if t, ok := m.studs(); ok {
		all = append(all, t)
	}
	j, l := &m.r.Settled, &m.r.Layout
	for i, e := range m.r.Heights.Edges(j, l) {
		if cheek := e.Cheek(); cheek != nil {
			all = append(all, m.rakeTemplate(message.Of("sheet.rake", message.No("n", i+1), message.In("edge", e.Edge.Side.Edge())), cheek))
		}
	}
	if len(all) == 0 {
		return m.lines(m.full.Text("sheet.no-templates"), body()), nil
	}
	all = m.shared(all)
	var tiles []tile
	for i := range all {
		tiles = append(tiles, m.tiled(&all[i])...)
	}
	return m.ganged(tiles), nil
}

// shared are templates of which each serves for all that have its shape, or have it turned over where they may be made so.
func (m *maker) shared(all []template) (out []template) {
	for _, t := range all {
		at := slices.IndexFunc(out, func(o template) bool { return o.same(&t) })
		if at < 0 && t.turns {
			over := t.turnedOver()
			if at = slices.IndexFunc(out, func(o template) bool { return o.turns && o.same(&over) }); at >= 0 {
				t.names = []string{m.say.Say(message.Of("sheet.turned-over", message.Name("what", t.names[0])))}
			}
		}
		if at < 0 {
			out = append(out, t)
			continue
		}
		out[at].names = append(out[at].names, t.names...)
	}
	return out
}

// same tells whether two templates are of one shape, as far as a pencil shows.
func (t *template) same(o *template) bool {
	const sameMM = 0.1
	near := func(a, b placing.Point) bool { return math.Hypot(a[0]-b[0], a[1]-b[1]) < sameMM }
	if len(t.lines) != len(o.lines) || !near(placing.Point{t.wideMM, t.upMM}, placing.Point{o.wideMM, o.upMM}) {
		return false
	}
	for _, l := range t.lines {
		if !slices.ContainsFunc(o.lines, func(x placing.Straight) bool {
			return near(l[0], x[0]) && near(l[1], x[1]) || near(l[0], x[1]) && near(l[1], x[0])
		}) {
			return false
		}
	}
	return true
}

// turnedOver is the template as it is seen from its back.
func (t *template) turnedOver() template {
	out := *t
	out.lines = make([]placing.Straight, len(t.lines))
	for i, l := range t.lines {
		out.lines[i] = placing.Straight{{t.wideMM - l[0][0], l[0][1]}, {t.wideMM - l[1][0], l[1][1]}}
	}
	return out
}

// coreTemplate is the hole through the wall with its middle, a level line through it, and where that lies.
func (m *maker) coreTemplate() (template, bool) {
	core, ok := m.r.Heights.Core(&m.r.Settled, &m.r.Layout)
	if !ok {
		return template{}, false
	}
	size := m.r.Pack.CoreDrills.For(core.LeastMM)
	const aboutMM = 25.0
	t := template{wideMM: size + 2*aboutMM, upMM: size + 2*aboutMM}
	middle := t.wideMM / 2
	said := m.say.Say(message.Of("sheet.core", message.MM("size", size), message.AtCorner("corner", m.r.Settled.Room.Corner(core.Wall-1)),
		message.MM("along", core.AlongMM), message.At("level", core.CentreMM)))
	t.names = []string{said}
	const sides = 180
	at := func(i int) placing.Point {
		way := plan.DirectionDeg(float64(i) * 360 / sides)
		return placing.Point{middle + size/2*way.X(), middle + size/2*way.Y()}
	}
	for i := range sides {
		t.lines = append(t.lines, placing.Straight{at(i), at(i + 1)})
	}
	t.lines = append(t.lines, placing.Straight{{0, middle}, {t.wideMM, middle}}, placing.Straight{{middle, 0}, {middle, t.upMM}})
	return t, true
}

// rakeTemplate is the piece along an edge, by its outline: as high all along as the shower lies over the room's tile.
func (m *maker) rakeTemplate(name message.Message, cheek plan.Ring) template {
	t := template{names: []string{m.say.Say(name)}, wideMM: cheek[1].X(), turns: true}
	figure := func(mm float64, at placing.Point) {
		t.texts = append(t.texts, templateText{m.say.Value(message.Length{MM: mm, Round: message.Half}), at})
	}
	const footMM, inMM = 6.0, 14.0 // over the foot stands how far along it is
	for i, p := range cheek {
		to := cheek[(i+1)%len(cheek)]
		t.lines = append(t.lines, placing.Straight{placing.Point(p), placing.Point(to)})
		t.upMM = math.Max(t.upMM, p.Y())
	}
	top := cheek[2:]
	for i, p := range top {
		if along := p.X(); i > 0 && i < len(top)-1 {
			figure(along, placing.Point{along, footMM})
			t.lines = append(t.lines, placing.Straight{{along, 0}, {along, footMM / 2}})
		}
		figure(p.Y(), placing.Point{math.Min(math.Max(p.X(), inMM), t.wideMM-inMM), p.Y() / 2})
	}
	for _, along := range textsAlong(t.wideMM) {
		figure(t.wideMM, placing.Point{along, footMM})
	}
	return t
}

// draw draws the shape and its texts, in a box, by where a place of the shape lies in it: a text that a page's edge would cut through
// stands whole on every page that its middle is on.
func (t *template) draw(to pen.Pen, place func(placing.Point) placing.Point, b placing.Box) {
	var lines []placing.Straight
	for _, l := range t.lines {
		lines = append(lines, placing.Straight{place(l[0]), place(l[1])})
	}
	to.Stroke(lines, 0.8, ink())
	for _, x := range t.texts {
		const size = section.TextPoints
		p, half := place(x.at), to.TextWidth(x.text, size, pen.Bold)/2
		wide := b.High[0] - b.Low[0]
		if p[0] < 0 || p[0] > wide {
			continue
		}
		middle := math.Max(half, math.Min(p[0], wide-half))
		to.Text(x.text, placing.Point{middle - half, p[1] + size*0.36}, size, pen.Bold, ink())
	}
}
