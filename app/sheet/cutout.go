package sheet

import (
	"math"

	"underfall/geometry/boarding"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

// besideCutMM is how much of a board is shown round what is sawn out of it.
const besideCutMM = 8.0

// cutOuts are the boards' edges round what is sawn out of them, for trap, channel and pipe, at full size as each board lies with its
// corner at the lower left.
func (m *maker) cutOuts() ([]template, error) {
	boards, err := m.r.Boarding()
	if err != nil {
		return nil, err
	}
	var out []template
	for i := range boards.Layers {
		l := &boards.Layers[i]
		for k := range l.Pieces {
			if p := &l.Pieces[k]; len(p.Cuts) > 0 {
				out = append(out, m.cutOut(l, p))
			}
		}
	}
	return out, nil
}

// cutOut is the template of one board.
func (m *maker) cutOut(l *boarding.Layer, p *boarding.Piece) template {
	low, high := p.Cuts[0].AtMM, p.Cuts[0].AtMM
	for _, c := range p.Cuts {
		for axis := range 2 {
			low[axis] = math.Min(low[axis], c.AtMM[axis])
			high[axis] = math.Max(high[axis], c.AtMM[axis]+c.SizeMM[axis])
		}
	}
	for axis, most := range [...]float64{p.LengthMM, p.WidthMM} {
		low[axis], high[axis] = math.Max(0, low[axis]-besideCutMM), math.Min(most, high[axis]+besideCutMM)
	}
	from := message.Of("sheet.cut-out", message.No("n", p.Number), message.In("layer", l.Name),
		message.Along("along", low.X()), message.Along("across", low.Y()))
	t := template{names: []string{m.say.Say(from)}, wideMM: high.X() - low.X(), upMM: high.Y() - low.Y()}
	at := func(q plan.Point) placing.Point { return placing.Point{q.X() - low.X(), q.Y() - low.Y()} }
	box := placing.Box{High: placing.Point{t.wideMM, t.upMM}}
	for _, polygon := range p.Sawn(plan.Point{}) {
		for _, ring := range polygon.Rings() {
			for i, a := range ring {
				if part, ok := (placing.Straight{at(a), at(ring[(i+1)%len(ring)])}).CutTo(box); ok {
					t.lines = append(t.lines, part)
				}
			}
		}
	}
	for _, c := range p.Cuts {
		size := message.Of("boards.sawn-out", message.MM("long", c.SizeMM.X()), message.MM("wide", c.SizeMM.Y()))
		for _, along := range textsAlong(c.SizeMM.X()) {
			for _, across := range textsAlong(c.SizeMM.Y()) {
				t.texts = append(t.texts, templateText{m.say.Say(size), at(c.AtMM.Add(plan.Point{along, across}))})
			}
		}
	}
	return t
}

// studs is the drain's length with the studs behind it, which the screws of its flange are to meet; ok is false without studs.
func (m *maker) studs() (t template, ok bool) {
	w, start, studs, ok := m.r.Layout.DrainStuds(&m.r.Settled)
	if !ok || len(studs) == 0 {
		return template{}, false
	}
	const highMM = 42.0 // three of them stand on a page of Letter
	long := m.r.Settled.DrainLengthMM()
	t = template{names: []string{m.say.Say(message.Of("sheet.studs", w.Name()))}, wideMM: long, upMM: highMM}
	t.lines = placing.Round(placing.Box{High: placing.Point{long, highMM}}.Corners())
	for _, s := range studs {
		middle := s.AtMM - start
		half := m.r.Settled.Room.Walls[w.Index].StudWidthMM / 2
		t.lines = append(t.lines, placing.Straight{{middle, 0}, {middle, highMM}})
		for _, edge := range [...]float64{middle - half, middle + half} {
			if edge > 0 && edge < long {
				t.lines = append(t.lines, placing.Straight{{edge, 0}, {edge, highMM / 2}})
			}
		}
		t.texts = append(t.texts, templateText{m.say.Value(message.Length{MM: middle}), placing.Point{middle, highMM + 6}})
	}
	t.upMM += 12
	return t, true
}

// textsAlong is where along something a text stands: in its middle, along what is long at both ends, as the page of its middle may be
// left out.
func textsAlong(longMM float64) []float64 {
	const inMM, shortMM = 30, 150
	if longMM < shortMM {
		return []float64{longMM / 2}
	}
	return []float64{inMM, longMM - inMM}
}
