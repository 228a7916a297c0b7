package section

import (
	"underfall/geometry"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// timbersInPlan draws the joists under the floor, what is cut out of them and the timber
// put in for that, which is drawn full.
func (d *Drawing) timbersInPlan(r geometry.Result) {
	l := &r.Layout
	for i := range l.Joists {
		js := &l.Joists[i]
		line := Line{closed(js.Footprint[0].Outer), Thin, true, "joist"}
		d.Below = append(d.Below, Below{js.ID(), js.Footprint})
		switch js.Member {
		case layout.Trimmer:
			line = Line{line.Points, Medium, false, "trimmer"}
		case layout.SecondJoist:
			line = Line{line.Points, Medium, false, "second-joist"}
		}
		d.Lines = append(d.Lines, line)
	}
	for _, c := range l.CutOuts {
		// Crossed out.
		d.Lines = append(d.Lines, Line{closed(c.Ring), Medium, true, "cut-out"},
			Line{[]plan.Point{c.Ring[0], c.Ring[2]}, Thin, true, "cut-out"}, Line{[]plan.Point{c.Ring[1], c.Ring[3]}, Thin, true, "cut-out"})
	}
}

// openingNames name in plan what is cut out at each opening, once for all of its joists.
func (d *Drawing) openingNames(l *layout.Layout) {
	of := map[int][]*layout.CutOut{}
	var order []int
	for i := range l.CutOuts {
		c := &l.CutOuts[i]
		if len(of[c.Trim]) == 0 {
			order = append(order, c.Trim)
		}
		of[c.Trim] = append(of[c.Trim], c)
	}
	for _, trim := range order {
		cut := of[trim]
		first, last := cut[0], cut[len(cut)-1]
		text := message.Of("name.cut-out", message.No("n", first.Joist), message.Wall("wall", l.JoistsFrom))
		if len(cut) > 1 {
			text = message.Of("name.cut-outs", message.No("first", first.Joist), message.No("last", last.Joist), message.Wall("wall", l.JoistsFrom))
		}
		n := Name{Texts: []message.Message{text}, Small: true, Places: []NameAt{{At: first.Middle().Add(last.Middle()).Mul(0.5)}}}
		for _, c := range [2]*layout.CutOut{first, last} {
			half := l.JoistAlong.Mul(c.LengthMM / 2)
			for _, along := range [...]float64{0, 0.5, -0.5, 0.8, -0.8} {
				at, side := c.Middle().Add(half.Mul(along)), plan.Left(l.JoistAlong)
				n.Places = append(n.Places, NameAt{at, side}, NameAt{at, side.Mul(-1)})
			}
		}
		d.Names = append(d.Names, n)
	}
}

// trimmerNames name the trimmers in plan; their sizes are in the list of what is cut.
func (d *Drawing) trimmerNames(l *layout.Layout) {
	for i := range l.Joists {
		js := &l.Joists[i]
		if js.Member != layout.Trimmer {
			continue
		}
		n := Name{Texts: []message.Message{message.Of("part.trimmer", message.No("n", js.Number))}, Small: true, PartID: js.ID()}
		side := plan.Left(js.Along)
		for _, share := range [...]float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			at := js.Origin.Add(js.Along.Mul(js.FromMM + share*js.LengthMM()))
			out := side.Mul(js.WidthMM / 2)
			n.Places = append(n.Places, NameAt{at.Add(out), side}, NameAt{at.Sub(out), side.Mul(-1)})
		}
		d.Names = append(d.Names, n)
	}
}

// timberName is what is written at a trimmer, and at a second joist for the pair; ok is
// false for others.
func timberName(r *geometry.Result, js *layout.Joist) (m message.Message, ok bool) {
	width, depth := message.MM("width", js.WidthMM), message.MM("depth", r.Settled.Floor.Joists.DepthMM)
	switch js.Member {
	case layout.Trimmer:
		return message.Of("note.trimmer", message.No("n", js.Number), width, depth, message.Along("length", js.LengthMM())), true
	case layout.SecondJoist:
		return message.Of("note.doubled-joist", message.No("n", js.Doubles), message.Wall("wall", js.From), width, depth), true
	}
	return m, false
}

// timberNotes name the trimmers and the doubled joists that a section cuts: beside them,
// where the room under the floor is open, or on one that is cut along.
func (d *Drawing) timberNotes(r geometry.Result) {
	middles := map[string]float64{} // of the joists that are cut
	for _, a := range d.Areas {
		if low, high, ok := a.Region.Bounds(); ok {
			middles[a.PartID] = (low.X() + high.X()) / 2
		}
	}
	for i := range r.Layout.Joists {
		js := &r.Layout.Joists[i]
		text, ok := timberName(&r, js)
		if !ok {
			continue
		}
		for _, a := range d.Areas {
			if a.PartID != js.ID() || len(a.Region) == 0 {
				continue
			}
			// Away from the joist that it doubles.
			doubled := layout.Joist{Number: js.Doubles}
			at, there := middles[doubled.ID()]
			d.Notes = append(d.Notes, Note{besideTimber(text, a.Region, !there || at < middles[a.PartID], !there || at > middles[a.PartID])})
		}
	}
}

// besideTimber are places for the name of a timber that is cut: led out of it to the right
// or to the left, low down first, as boards and pipes lie high up.
func besideTimber(name message.Message, region plan.Region, right, left bool) (out []NotePlace) {
	texts := []message.Message{name}
	low, high, _ := region.Bounds()
	for _, up := range [...]float64{0.15, 0.3, 0.5} {
		y := low.Y() + up*(high.Y()-low.Y())
		if right {
			out = append(out, NotePlace{texts, []plan.Point{{high.X() - intoMM, y}, {high.X() - intoMM - 1, y}}})
		}
		if left {
			out = append(out, NotePlace{texts, []plan.Point{{low.X() + intoMM, y}, {low.X() + intoMM + 1, y}}})
		}
	}
	return out
}
