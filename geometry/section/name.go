package section

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
)

// Name is a text beside what it names, without a line to it.
type Name struct {
	// Texts are what it may say, the fullest first; Places where it may stand, the best first.
	Texts  []message.Message
	Places []NameAt
	// In is where all of it has to lie; nil for anywhere.
	In plan.Region
	// Disc is the letter that stands on a filled disc in place of the text, wherever any of what it
	// names, which runs along Line, is on the picture; none for a text.
	Disc message.Letter
	Line [2]plan.Point
	// Ring is the corner whose two letters stand in a ring; none for a text.
	Ring message.Corner
	// BroadMM is how broad that is, which tells whether a disc stands on it or beside it.
	BroadMM float64
	// PartID is the part that it names, where that can be chosen: it is written then, wherever there is room.
	PartID string
	// First has it written before marks and notes, which find room elsewhere. Small has it
	// written smaller than they are, Dot with a dot at its place. A Thing is told nowhere else, and rather
	// smaller than not at all.
	First, Small, Dot, Thing bool
}

// NameAt is a place of a name and the side that it stands on, by direction; the zero side is
// on the place itself.
type NameAt struct{ At, Side plan.Point }

// namesInPlan names what inputs and findings speak of, and writes the levels of the schedule:
// the worthiest first, as what finds no room is left out.
func (d *Drawing) namesInPlan(r geometry.Result) {
	d.wallNames(r)
	d.drainLevel(r)
	d.fallNames(r)
	d.pieceNames(r)
	d.edgeLevels(r)
	d.doorNames(r)
	d.windowNames(r)
	d.headroomName(r)
	d.openingNames(&r.Layout)
	d.trimmerNames(&r.Layout)
	d.joistNames(r)
	d.fixtureNames(r)
	d.headName(r)
	d.cornerNames(r)
}

// wallNames puts the letters of the walls into them or beside them, each about its middle, and beside them
// what people call them.
func (d *Drawing) wallNames(r geometry.Result) {
	const aside = 0.5
	for i := range r.Layout.Walls {
		w := &r.Layout.Walls[i]
		n := Name{Texts: []message.Message{message.Of("part.wall", w.Name())}, First: true, Disc: w.Letter, BroadMM: w.ThicknessMM}
		n.Line = [2]plan.Point{w.A.Add(w.Outward.Mul(aside * w.ThicknessMM)), w.B.Add(w.Outward.Mul(aside * w.ThicknessMM))}
		for _, off := range [...]struct {
			share float64
			side  plan.Point
		}{{aside, plan.Point{}}, {1, w.Outward}} {
			for _, share := range [...]float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.25, 0.75, 0.15, 0.85} {
				if opened(&r.Settled, i, share*w.LengthMM) {
					continue
				}
				n.Places = append(n.Places, NameAt{w.At(share * w.LengthMM).Add(w.Outward.Mul(off.share * w.ThicknessMM)), off.side})
			}
		}
		d.Names = append(d.Names, n)
	}
	for i := range r.Layout.Walls {
		if w := &r.Layout.Walls[i]; w.Called != "" {
			n := Name{Texts: []message.Message{message.Text(w.Called)}}
			for _, share := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8} {
				at := w.At(share * w.LengthMM)
				n.Places = append(n.Places, NameAt{at.Add(w.Outward.Mul(w.ThicknessMM)), w.Outward}, NameAt{at, w.Outward.Mul(-1)})
			}
			d.Names = append(d.Names, n)
		}
	}
}

// cornerNames ring the letters of the corners, outside them, or inside where there is no room, as distances are told from them
// and they can be dragged.
func (d *Drawing) cornerNames(r geometry.Result) {
	n := len(r.Layout.Walls)
	for i := range r.Layout.Walls {
		w, before := &r.Layout.Walls[i], &r.Layout.Walls[(i+n-1)%n]
		corner := r.Settled.Room.Corner(i)
		at := w.At(w.OuterFromMM).Add(w.Outward.Mul(w.ThicknessMM))
		name := Name{Texts: []message.Message{message.Of("place.corner", message.AtCorner("corner", corner))}, First: true, Ring: corner}
		for _, side := range [...]plan.Point{w.Outward.Add(before.Outward), w.Outward, before.Outward} {
			name.Places = append(name.Places, NameAt{at, side})
		}
		name.Places = append(name.Places, NameAt{w.A, w.Outward.Add(before.Outward).Mul(-1)})
		d.Names = append(d.Names, name)
	}
}

// opened tells whether a doorway or a window is at a distance along a wall.
func opened(j *job.Job, wall int, atMM float64) bool {
	at := func(in int, fromMM, widthMM float64) bool {
		return in == wall && atMM > fromMM && atMM < fromMM+widthMM
	}
	return slices.ContainsFunc(j.Room.Doorways, func(d job.Doorway) bool { return at(d.Wall, d.OffsetMM, d.WidthMM) }) ||
		slices.ContainsFunc(j.Room.Windows, func(o job.Window) bool { return at(o.Wall, o.OffsetMM, o.WidthMM) })
}

// fallNames write the fall at the arrows of the planes, with their numbers where there are
// several; one that is too small for it, at an end of a drain, has it led out.
func (d *Drawing) fallNames(r geometry.Result) {
	several := len(r.Layout.Planes) > 1
	for i := range r.Layout.Planes {
		p := &r.Layout.Planes[i]
		if p.Gradient() < levelSlope {
			continue
		}
		fall := message.Slope("fall", p.Gradient())
		texts := []message.Message{message.Of("name.fall", fall)}
		if several {
			n := message.No("n", i+1)
			texts = []message.Message{message.Of("name.plane-fall", n, fall), texts[0], message.Of("name.plane", n)}
		}
		if p.End {
			d.Notes = append(d.Notes, Note{[]NotePlace{{texts[:1], []plan.Point{p.Region.Centroid()}}}})
			continue
		}
		d.Names = append(d.Names, Name{Texts: texts, Places: besideArrow(p.Region, p.Plane), In: p.Region})
	}
	for _, z := range r.Floor.Zones {
		if z.Edge >= 0 {
			top := z.Top()[0]
			d.Names = append(d.Names, Name{Texts: []message.Message{message.Of("name.fall", message.Slope("fall", top.Gradient()))}, Places: besideArrow(z.Region, top), In: z.Region})
		}
	}
}

// besideArrow are places for what is written at the arrow of a falling plane: beside it, then
// before and behind it.
func besideArrow(region plan.Region, p solid.Plane) []NameAt {
	arrow := fallArrow(region, p).Points
	tail, tip := arrow[0], arrow[1]
	down := tip.Sub(tail).Normalize()
	middle, side := tail.Add(tip).Mul(0.5), plan.Left(down)
	var out []NameAt
	for _, at := range [...]plan.Point{middle, tail, tip} {
		out = append(out, NameAt{at, side}, NameAt{at, side.Mul(-1)})
	}
	return append(out, NameAt{tail, down.Mul(-1)}, NameAt{tip, down})
}

// edgeLevels write the finished tile at the corners of the shower and along its open edges, and
// the step there, as the schedule has them.
func (d *Drawing) edgeLevels(r geometry.Result) {
	l := &r.Layout
	t := tiles{Drawing: d, l: l}
	corners := l.Corners[:]
	if r.Settled.Former.Fall == job.FallRoom {
		corners = r.Settled.Room.Outline
	}
	const onEdgeMM = 1
	for _, p := range corners {
		if l.FallArea.Contains(p, onEdgeMM) {
			t.at(p, r.Heights.ShowerAt(l, p))
		}
	}
	steps := r.Steps()
	for i := range r.Schedule {
		row := &r.Schedule[i]
		at := planOf(row.At)
		switch row.ID.Of {
		case buildup.EdgeLow, buildup.EdgeHigh:
			t.at(at, row.Value)
		case buildup.EdgeTile:
			if e := l.OpenEdges()[row.ID.Number]; !t.written(e.A) || !t.written(e.B) {
				t.at(at, row.Value)
			}
		case buildup.EdgeStep:
			d.stepName(l, l.OpenEdges()[row.ID.Number], stepText(row, kindOf(steps, rule.OpenEdge, row.ID.Number+1)))
		}
	}
}

// tiles writes levels of the finished tile, none twice at a place.
type tiles struct {
	*Drawing
	l    *layout.Layout
	done []plan.Point
}

// sameTileMM is how near to each other levels are not both written.
const sameTileMM = 30

func (t *tiles) written(p plan.Point) bool {
	return slices.ContainsFunc(t.done, func(q plan.Point) bool { return q.Sub(p).Len() < sameTileMM })
}

// at writes a level at a place, into the shower where there is room.
func (t *tiles) at(p plan.Point, levelMM float64) {
	if t.written(p) {
		return
	}
	t.done = append(t.done, p)
	in := t.l.FallArea.Centroid().Sub(p)
	u, v := t.l.ToRight.Mul(sign(in.Dot(t.l.ToRight))), t.l.Into.Mul(sign(in.Dot(t.l.Into)))
	n := Name{Texts: []message.Message{Mark{Of: MarkTile, LevelMM: levelMM}.Message()}, Small: true, Dot: true}
	for _, side := range [...]plan.Point{u.Add(v), u.Sub(v), v.Sub(u), u.Add(v).Mul(-1), v, u, u.Mul(-1), v.Mul(-1)} {
		if t.l.Room.Contains(p.Add(side.Mul(sameTileMM)), 0) {
			n.Places = append(n.Places, NameAt{p, side})
		}
	}
	t.Names = append(t.Names, n)
}

// kindOf is, of the steps of a result, the kind of the one at an open edge or a doorway, by its number: a step where none is walked over.
func kindOf(steps []geometry.Step, of rule.Thing, number int) geometry.StepKind {
	for _, s := range steps {
		if s.Where.Of == of && s.Where.Number == number {
			return s.Kind
		}
	}
	return geometry.AStep
}

// stepName writes the step at an open edge, outside it where there is room.
func (d *Drawing) stepName(l *layout.Layout, e layout.Edge, step message.Message) {
	n := Name{Texts: []message.Message{step}, Small: true}
	for _, side := range [...]plan.Point{l.Outward(e), l.Outward(e).Mul(-1)} {
		for _, share := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			n.Places = append(n.Places, NameAt{e.A.Add(e.B.Sub(e.A).Mul(share)), side})
		}
	}
	d.Names = append(d.Names, n)
}

// stepText says how high a step of the schedule is, and whether it goes down, in the words for its kind.
func stepText(row *buildup.Row, kind geometry.StepKind) message.Message {
	down, high := row.Rise.ToMM < row.Rise.FromMM, message.Arg{Name: "step", Value: row.Rise}
	switch {
	case kind == geometry.Flush:
		return message.Of("name.flush")
	case kind == geometry.Lip && down:
		return message.Of("name.lip-down", high)
	case kind == geometry.Lip:
		return message.Of("name.lip", high)
	case down:
		return message.Of("name.step-down", high)
	}
	return message.Of("name.step", high)
}

// doorText says of a doorway, called by its name, at which level the room's floor lies there and what step it makes.
func doorText(name message.Message, levelMM float64, row *buildup.Row, kind geometry.StepKind) message.Message {
	doorway, level, high := message.In("doorway", name), message.At("level", levelMM), message.Arg{Name: "step", Value: row.Rise}
	down := row.Rise.ToMM < row.Rise.FromMM
	switch {
	case kind == geometry.Flush:
		return message.Of("name.doorway-flush", doorway, level)
	case row.OverStop && !down:
		return message.Of("name.doorway-stop", doorway, level, high)
	case kind == geometry.Lip && down:
		return message.Of("name.doorway-lip-down", doorway, level, high)
	case kind == geometry.Lip:
		return message.Of("name.doorway-lip", doorway, level, high)
	case down:
		return message.Of("name.doorway-down", doorway, level, high)
	}
	return message.Of("name.doorway", doorway, level, high)
}

// sign is the way that a number points, up for nought.
func sign(v float64) float64 {
	if v < 0 {
		return -1
	}
	return 1
}

// doorNames number the doorways, with the finished floor there and the step up into the room,
// as the schedule has them, and how high each is clear over that floor.
func (d *Drawing) doorNames(r geometry.Result) {
	rows := map[buildup.RowID]*buildup.Row{}
	for i := range r.Schedule {
		rows[r.Schedule[i].ID] = &r.Schedule[i]
	}
	steps := r.Steps()
	for i := range r.Layout.Doors {
		door := &r.Layout.Doors[i]
		name := message.Of("place.doorway", message.No("n", i+1))
		texts := []message.Message{name}
		floor, step := rows[buildup.RowID{Of: buildup.DoorFloor, Number: i}], rows[buildup.RowID{Of: buildup.DoorStep, Number: i}]
		if floor != nil && step != nil {
			full := doorText(name, floor.Value, step, kindOf(steps, rule.Doorway, door.Index+1))
			texts = []message.Message{full, name}
			if clear, ok := r.MeasurementOf("doorway.height", rule.Subject{Of: rule.Doorway, Number: i + 1}); ok {
				high := message.Of("name.doorway-clear", message.In("doorway", full), message.MM("height", clear.Value))
				texts = []message.Message{high, full, name}
			}
		}
		in, middle := door.Wall.Outward.Mul(-1), door.Middle()
		d.Names = append(d.Names, Name{Texts: texts, Places: []NameAt{
			{middle.Sub(in.Mul(door.Wall.ThicknessMM / 2)), plan.Point{}}, {middle, in},
			{door.A.Add(middle).Mul(0.5), in}, {door.B.Add(middle).Mul(0.5), in},
			{middle.Sub(in.Mul(door.Wall.ThicknessMM)), in.Mul(-1)},
		}})
	}
}

// joistNames number the joists at an end of each, and tell which are doubled.
func (d *Drawing) joistNames(r geometry.Result) {
	at := map[int]int{} // by the number of a joist its name's place in d.Names, for several pieces
	doubled := map[int]int{}
	for i := range r.Layout.Joists {
		if js := &r.Layout.Joists[i]; js.Member == layout.SecondJoist {
			doubled[js.Doubles]++
		}
	}
	// A name may not come to lie on the next joist.
	freeMM := r.Settled.Floor.Joists.SpacingMM - r.Settled.Floor.Joists.WidthMM/2
	for i := range r.Layout.Joists {
		js := &r.Layout.Joists[i]
		if js.Member == layout.SecondJoist || js.Member == layout.Trimmer || js.LengthMM() <= 0 {
			continue
		}
		if _, named := at[js.Number]; !named {
			at[js.Number] = len(d.Names)
			d.Names = append(d.Names, Name{Texts: joistTexts(js, doubled[js.Number]), Small: true, PartID: js.ID()})
		}
		n := &d.Names[at[js.Number]]
		side := plan.Left(js.Along).Mul(freeMM)
		start, end := js.Origin.Add(js.Along.Mul(js.FromMM)), js.Origin.Add(js.Along.Mul(js.FromMM+js.LengthMM()))
		n.In = append(n.In, plan.Strip(start.Sub(side), end.Sub(side), side.Mul(2))...)
		for _, share := range [...]float64{0.04, 0.96, 0.09, 0.91, 0.15, 0.85, 0.25, 0.75} {
			n.Places = append(n.Places, NameAt{At: js.Origin.Add(js.Along.Mul(js.FromMM + share*js.LengthMM()))})
		}
		for _, share := range [...]float64{0.1, 0.9, 0.3, 0.7} {
			at, side := js.Origin.Add(js.Along.Mul(js.FromMM+share*js.LengthMM())), plan.Left(js.Along)
			n.Places = append(n.Places, NameAt{at, side}, NameAt{at, side.Mul(-1)})
			if doubled[js.Number] > 0 { // past the timber beside it
				past := side.Mul(1.5 * js.WidthMM)
				n.Places = append(n.Places, NameAt{at.Add(past), side}, NameAt{at.Sub(past), side.Mul(-1)})
			}
		}
	}
}

// joistTexts are what a joist's name may say, by how many others double it: in full at the first only,
// as there are many.
func joistTexts(js *layout.Joist, doubled int) []message.Message {
	number, from := message.No("n", js.Number), message.Wall("wall", js.From)
	texts := []message.Message{message.Of("part.joist", number, from), message.Of("name.joist", number, from)}
	if js.Number > 1 {
		texts = texts[1:]
	}
	for i, text := range texts {
		switch {
		case doubled == 1:
			texts[i] = message.Of("name.joist-doubled", message.In("joist", text))
		case doubled > 1:
			texts[i] = message.Of("name.joist-doubled-twice", message.In("joist", text))
		}
	}
	return texts
}

// fixtureNames name the fixtures.
func (d *Drawing) fixtureNames(r geometry.Result) {
	l := &r.Layout
	for i, ring := range l.Fixtures {
		n := Name{Texts: []message.Message{message.Of(fixtureMark(r.Settled.Room.Fixtures[i].Kind))}, Thing: true,
			Places: []NameAt{{At: plan.FromRing(ring).Centroid()}}}
		for k, p := range ring {
			const besideMM = 50
			side := p.Add(ring[(k+1)%len(ring)]).Mul(0.5)
			out := side.Sub(n.Places[0].At).Normalize()
			if l.Room.Contains(side.Add(out.Mul(besideMM)), 0) {
				n.Places = append(n.Places, NameAt{side, out})
			}
		}
		d.Names = append(d.Names, n)
	}
}

// headName names the shower's head.
func (d *Drawing) headName(r geometry.Result) {
	if h := r.Settled.Shower.Head; h != nil {
		rim := roseMM / 2.0
		n := Name{Texts: []message.Message{message.Of("subject.shower-head")}, Places: []NameAt{{At: h.At}}}
		for _, side := range [...]plan.Point{{0, -1}, {0, 1}, {1, 0}, {-1, 0}} {
			n.Places = append(n.Places, NameAt{h.At.Add(side.Mul(rim)), side})
		}
		d.Names = append(d.Names, n)
	}
}
