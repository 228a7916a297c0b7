package section

import (
	"math"
	"slices"
	"sort"

	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

// Sheet is the picture that drawings are lettered on: a window's or a page.
type Sheet struct {
	Width, Height float64 // in pixels
	Scale         float64 // pixels to a point of text
	// LeastText is how small a text may be at least, in pixels; 0 for as small as there is room for.
	LeastText float64
	// Measure is how wide a text is in a size, both in pixels.
	Measure func(text message.Message, size float64) float64
	// Unit says what unit bare numbers are in; nothing where each has its own.
	Unit message.Message
	// Chosen are the parts that are looked at, whose names stand out.
	Chosen []string
	// Pins are places that are marked, those first whose labels are worth most.
	Pins []Pin
	// Taken is what lies over the sheet: nothing is written there, and nothing leads through.
	Taken []placing.Box
	// Before is where labels were put on the sheet that this one follows (Lettering.Places): they stay there as far as
	// they can. Nil has all of them placed afresh.
	Before []int
}

// Seen is a drawing as it lies on a sheet.
type Seen struct {
	*Drawing
	// To is where a point of the drawing lies, NaN behind a camera; Back the point of the drawing
	// at a place. Back is nil in a picture in space, where measures and marks alone are written.
	To   func(plan.Point) placing.Point
	Back func(placing.Point) plan.Point
	// PixelsPerMM is the scale; 1 in space.
	PixelsPerMM float64
}

// Lettering is all that is written on a sheet, with what leads to it. Places are in pixels.
type Lettering struct {
	Texts    []Text
	Measures []Measure
	SetOuts  []SetOutLine
	Stems    []Stem
	Notes    []NoteLines
	Discs    []Disc
	Dots     []placing.Point
	// Tapes are lines of tapes, Dotted those across the room, Square the edges of a room if it were square.
	Tapes          []TapeLine
	Dotted, Square []placing.Straight
	// Read are places that were read, where their marks stand on their points; ReadQuiet those whose marks give way to all else: none
	// lies under a text.
	Read, ReadQuiet []placing.Point
	// Pinned are the labels of pins that found room.
	Pinned []Pinned
	// Places is where each label was put, for the sheet that follows.
	Places []int
}

// Text is a text about the middle of a place.
type Text struct {
	Message message.Message
	At      placing.Point
	Size    float64
	// Box is what it takes, with the paper round it.
	Box placing.Box
	// Key, Sets and Mark are what it shows that can be typed on.
	Key  string
	Sets edit.FromWall
	Mark *edit.Mark
	// HangsOn are paths of what it is worked out from, where it is told instead of typed on.
	HangsOn []string
	// Line is the line that it is the figure of, of a dimension; nil for none.
	Line *placing.Straight
	Look TextLook
}

// TextLook is how a text stands out.
type TextLook int

// How texts stand out.
const (
	LookUsual TextLook = iota
	LookLit            // a field of it is asked
	LookTold           // it is told as not being as it was meant
	LookPress          // it speaks of what can be pressed
)

// Measure is the line of a dimension: what it measures, the line itself, and the way that it stands
// off, of length one.
type Measure struct {
	Of, Line placing.Straight
	Side     placing.Point
	// Flat is of a drawing, not of a picture in space: where it runs off the sheet it is broken.
	Flat bool
}

// SetOutLine is the line of a distance that is set out, and the straight from there to what it is of.
type SetOutLine struct{ Line, Lead placing.Straight }

// Stem leads from a level to its mark: up from its foot, or down, and then aside.
type Stem struct {
	Points []placing.Point // from the foot
	Down   bool
}

// NoteLines are the lines of a note and the dots in its layers.
type NoteLines struct {
	Lines []placing.Straight
	Dots  []placing.Point
}

// Disc holds the letter of a wall, or in a ring those of a corner.
type Disc struct {
	At           placing.Point
	Radius, Size float64
	Letters      string
	Ring         bool
}

// Sizes on paper, in points.
const (
	TextPoints  = 11
	patchPoints = 2    // how far the paper under a text reaches past it
	smallShare  = 0.82 // of the usual size: of names that are written smaller
	gapPoints   = 5    // from a place to a text beside it
	gripPoints  = 6    // half of what can be dragged, which no text is to lie on
	pressPoints = 22   // half of what is pressed for it
	inkCell     = 4    // of the cover of ink
	cutCell     = 3    // and of what is cut
)

// What it costs to leave labels out: what has to be there, and what comes when one zooms in.
const (
	mustCost  = 5000
	stepCost  = 4 * mustCost // what one stumbles over
	couldCost = 34           // no more than to cover a line
	setCost   = 60           // where a thing of its own stands, which can be typed there
	ringCost  = 160          // a corner that fields tell distances from, which stands nowhere else
	markCost  = 90           // a level on a plan, which the section and the list have as well
	thingCost = 300          // what the waste ends in on a plan, and what else no list has
	standCost = 160          // what stands in the room
)

// How bad it is to cover ink, for every cell of it.
const (
	thinWeight = 1.5
	edgeWeight = 2 // edges of areas
	bodyWeight = 6 // all of what runs through others
)

// letterer letters a sheet.
type letterer struct {
	Sheet
	scene  placing.Scene
	labels []placing.Label
	// put writes a label at one of its candidates.
	put []func(candidate int, out *Lettering)
	// kept are the lines of drawings, and of their dimensions.
	kept []placing.Straight
	out  Lettering
}

// Letter finds room for all that drawings say on a sheet: texts of one keep off those of the others.
func Letter(s Sheet, drawings ...Seen) Lettering {
	l := letterer{Sheet: s}
	l.scene = placing.Scene{
		Picture: placing.Box{High: placing.Point{s.Width, s.Height}}, Aside: gripPoints * s.Scale,
		Ink: placing.NewCover(s.Width, s.Height, inkCell*s.Scale), Cut: placing.NewCover(s.Width, s.Height, cutCell*s.Scale),
	}
	l.taken() // before all else, which then keeps off it
	for i := range drawings {
		if d := &drawings[i]; d.Back != nil {
			l.ink(d)
			l.over(d)
			l.foot(d)
			l.list(d)
		}
	}
	for i := range s.Pins {
		l.pin(i)
	}
	for i := range drawings {
		if d := &drawings[i]; d.Back != nil {
			l.measured(d)
			l.readings(d)
		}
	}
	for i := range drawings {
		for k := range drawings[i].Dimensions {
			l.dimension(&drawings[i], &drawings[i].Dimensions[k])
		}
	}
	for i := range drawings {
		d := &drawings[i]
		if d.Back == nil {
			l.marks(d)
			continue
		}
		l.names(d, true)
		l.marks(d)
		for k := range d.SetOuts {
			l.setOut(d, &d.SetOuts[k])
		}
		l.names(d, false)
		for k := range d.Notes {
			l.note(d, &d.Notes[k])
		}
	}
	place := placing.Place
	if s.Before != nil {
		place = func(scene *placing.Scene, labels []placing.Label) []int { return placing.Keep(scene, labels, s.Before) }
	}
	l.out.Places = place(&l.scene, l.labels)
	for i, k := range l.out.Places {
		if k >= 0 {
			l.put[i](k, &l.out)
		}
	}
	l.giveWay()
	return l.out
}

// add asks for room for a label.
func (l *letterer) add(label placing.Label, put func(candidate int, out *Lettering)) {
	l.labels, l.put = append(l.labels, label), append(l.put, put)
}

// straight is a straight of a drawing as it comes to lie on the sheet.
func (d *Seen) straight(a, b plan.Point) placing.Straight { return placing.Straight{d.To(a), d.To(b)} }

// way is the way on the sheet, of length one, that a direction of the drawing leads at a place; of none no way.
func (d *Seen) way(at, direction plan.Point) (way placing.Point) {
	const byMM = 10
	from, to := d.To(at), d.To(at.Add(direction.Mul(byMM)))
	way = placing.Point{to[0] - from[0], to[1] - from[1]}
	if long := math.Hypot(way[0], way[1]); long > 1e-9 {
		way = placing.Point{way[0] / long, way[1] / long}
	}
	return way
}

// ring is a ring of the drawing as it comes to lie on the sheet.
func (d *Seen) ring(r plan.Ring) []placing.Point {
	out := make([]placing.Point, len(r))
	for i, p := range r {
		out[i] = d.To(p)
	}
	return out
}

// ink notes what is drawn: what runs through others, edges of areas, and lines by their weight.
func (l *letterer) ink(d *Seen) {
	for i := range d.Lines {
		if line := &d.Lines[i]; line.Kind == "run" || line.Kind == "trap" {
			l.scene.Ink.Fill([][]placing.Point{d.ring(line.Points)}, bodyWeight)
		}
	}
	edges := make([][]placing.Straight, len(d.Areas))
	for i := range d.Areas {
		a := &d.Areas[i]
		for _, p := range a.Region {
			var rings [][]placing.Point
			for _, r := range p.Rings() {
				ring := d.ring(r)
				rings = append(rings, ring)
				edges[i] = append(edges[i], placing.Round(ring)...)
			}
			if a.Cut {
				l.scene.Cut.Fill(rings, 1)
			}
			if a.Material.RunsThrough() {
				l.scene.Ink.Fill(rings, bodyWeight)
			}
		}
	}
	for i := range d.Areas {
		for _, edge := range edges[i] {
			if d.Areas[i].Material.RunsThrough() {
				l.keep(edge)
			} else {
				l.scene.Ink.Line(edge, edgeWeight)
			}
		}
	}
	for i := range d.Lines {
		line := &d.Lines[i]
		for k := 1; k < len(line.Points); k++ {
			if s := d.straight(line.Points[k-1], line.Points[k]); line.Weight > Thin {
				l.keep(s)
			} else {
				l.scene.Ink.Line(s, thinWeight)
			}
		}
	}
}

// keep notes a line that no text is to cover where it can stand elsewhere.
func (l *letterer) keep(s placing.Straight) {
	l.scene.Ink.Line(s, placing.OwnWeight)
	l.kept = append(l.kept, s)
}

// over notes what a window lays over the drawing: what can be dragged, and straights.
func (l *letterer) over(d *Seen) {
	for _, h := range d.Handles {
		at := d.To(h.At)
		l.scene.Handles = append(l.scene.Handles, placing.Around(at, 2*gripPoints*l.Scale, 2*gripPoints*l.Scale))
		l.scene.Near = append(l.scene.Near, placing.Around(at, 2*pressPoints*l.Scale, 2*pressPoints*l.Scale))
	}
	for _, o := range d.Over {
		l.scene.Over = append(l.scene.Over, d.straight(o[0], o[1]))
	}
}

// sized is the size of a text of so many points: never less than what can be read.
func (l *letterer) sized(points float64) float64 { return math.Max(points*l.Scale, l.LeastText) }

// small is that of a text that is so much of the usual one.
func (l *letterer) small(share float64) float64 { return l.sized(TextPoints * share) }

// text is a text about the middle of a place.
func (l *letterer) text(m message.Message, at placing.Point, width, size float64) Text {
	const halfHigh = 0.62 // of the size
	return Text{Message: m, At: at, Size: size, Box: placing.Around(at, width+2*patchPoints*l.Scale, 2*halfHigh*size)}
}

// foot says at the foot of a drawing which unit its numbers are in, and how many times its heights
// are exaggerated: at the left, or where lines run there at the right or a line higher.
func (l *letterer) foot(d *Seen) {
	said := l.Unit
	if d.Rise > 1 {
		rise := message.Of("drawing.rise", message.No("times", int(math.Round(d.Rise))))
		if said = rise; !l.Unit.IsZero() {
			said = message.Of("drawing.foot", message.In("unit", l.Unit), message.In("rise", rise))
		}
	}
	if said.IsZero() {
		return
	}
	size := TextPoints * l.Scale
	width := l.Measure(said, size)
	left, right := size+width/2, l.Width-size-width/2
	l.oneOf(l.text(said, placing.Point{left, l.Height - 1.5*size}, width, size), l.text(said, placing.Point{right, l.Height - 1.5*size}, width, size),
		l.text(said, placing.Point{left, l.Height - 3.5*size}, width, size), l.text(said, placing.Point{right, l.Height - 3.5*size}, width, size))
}

// fixed writes a text that has one place.
func (l *letterer) fixed(t Text) { l.oneOf(t) }

// oneOf writes a text at one of its places, the best first.
func (l *letterer) oneOf(places ...Text) {
	const eachCost = 1
	label := placing.Label{LeaveOut: mustCost}
	for i := range places {
		label.Candidates = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{places[i].Box}, Cost: eachCost * float64(i)})
	}
	l.add(label, func(k int, out *Lettering) { out.Texts = append(out.Texts, places[k]) })
}

// stems on which level marks stand, in points.
const (
	stemFirst = 34 // from the highest of them to the first row of texts
	stemRow   = 17 // from row to row
	stemLeast = 28 // from a level to its text
	stemRows  = 12
	stemAside = 12 // past the end of its text
)

// FootPoints is how broad and high the foot is on which a stem stands, in points.
const FootPoints = 6

// marks leads level marks out to free space, finished levels upwards, what lies below downwards,
// into rows that all of them share.
func (l *letterer) marks(d *Seen) {
	order := slices.Clone(d.Marks)
	sort.SliceStable(order, func(i, k int) bool { return order[i].At.X() < order[k].At.X() })
	// The same level said twice close together is said once.
	const apartPoints = 130
	type said struct {
		text string
		x    float64
	}
	var done []said
	var shown []Mark
	for _, m := range order {
		whole := m // as levels are told
		whole.LevelMM = math.Round(m.LevelMM)
		at, text := d.To(m.At), whole.Message().String()
		again := slices.ContainsFunc(done, func(o said) bool { return o.text == text && math.Abs(o.x-at[0]) < apartPoints*l.Scale })
		if again || !(at[0] >= 0 && at[0] <= l.Width && at[1] >= 0 && at[1] <= l.Height) {
			continue
		}
		done, shown = append(done, said{text, at[0]}), append(shown, m)
	}
	up, down := stemWay{way: -1, row: math.Inf(-1)}, stemWay{way: 1, row: math.Inf(-1)}
	for _, m := range shown {
		way := &up
		if m.Below() {
			way = &down
		}
		way.row = math.Max(way.row, way.way*d.To(m.At)[1]+stemFirst*l.Scale)
	}
	for _, m := range shown {
		way, other := up, down
		if m.Below() {
			way, other = down, up
		}
		ways := []stemWay{way}
		if d.Back != nil && !upright(d.Cut) {
			// On plan neither is over the other.
			other.row, other.cost = math.Max(other.row, other.way*d.To(m.At)[1]+stemFirst*l.Scale), otherWayCost
			ways = append(ways, other)
		}
		l.mark(d, m, ways)
	}
}

// stemWay is a way that stems lead, up (−1) or down (1): how far that way the first row of texts is,
// and what it costs to go there.
type stemWay struct{ way, row, cost float64 }

// otherWayCost is what it costs to lead a mark on plan the way that it does not go in a section.
const otherWayCost = 5

// mark asks for room for a level mark, whose texts stand in rows.
func (l *letterer) mark(d *Seen, m Mark, ways []stemWay) {
	foot, said := d.To(m.At), m.Message()
	width := l.Measure(said, TextPoints*l.Scale)
	most := len(ways) * stemRows * 2 * rowTries // candidates, two stems to each
	texts, stems := make([]Text, 0, most), make([]Stem, 0, most)
	label := placing.Label{LeaveOut: mustCost, Candidates: make([]placing.Candidate, 0, most)}
	room := d.floor()
	if len(room) > 0 {
		label.LeaveOut = markCost
		if m.onlyNames() {
			label.LeaveOut = thingCost
		}
	}
	for _, w := range ways {
		size := FootPoints * l.Scale
		mark := []placing.Box{placing.Around(placing.Point{foot[0], foot[1] + w.way*size/2}, size, size)}
		first := w.row - math.Floor((w.row-w.way*foot[1]-stemLeast*l.Scale)/(stemRow*l.Scale))*stemRow*l.Scale
		for k := range stemRows {
			y := w.way * (first + float64(k)*stemRow*l.Scale)
			l.inRow(foot, width, func(x float64) {
				t := l.text(said, placing.Point{x, y}, width, TextPoints*l.Scale)
				for i, points := range stemsTo(foot, &t.Box, y, w.way) {
					c := placing.Candidate{Boxes: []placing.Box{t.Box}, Leader: legs(points), Marks: mark}
					c.Cost = w.cost + slantCost*float64(i) + l.stemCost(foot, t.At)
					label.Candidates, texts, stems = append(label.Candidates, c), append(texts, t), append(stems, Stem{points, w.way > 0})
				}
			})
		}
	}
	label.More = func(k int) float64 {
		leader := label.Candidates[k].Leader
		return l.alongOver(leader) + l.overFloor(d, room, leader)
	}
	l.add(label, func(k int, out *Lettering) {
		out.Texts, out.Stems = append(out.Texts, texts[k]), append(out.Stems, stems[k])
	})
}

// What stems cost, for a point of length, of how far their text stands aside, and of length past
// which one is long; one that is not upright; and one that runs along what is laid over the picture.
const (
	lengthCost, asideCost = 0.25, 0.06
	longPoints, longCost  = 70, 0.5
	slantCost             = 14
	alongOverCost         = 60
	overFloorCost         = 0.35 // and one across a plan, for a point of length over its floor
)

// floor is the floor of the room in a plan; empty in other drawings.
func (d *Seen) floor() plan.Region {
	if d.Back == nil || upright(d.Cut) {
		return nil
	}
	for i := range d.Areas {
		if d.Areas[i].PartID == roomID {
			return d.Areas[i].Region
		}
	}
	return nil
}

// overFloor is what a leader costs by how far it leads over the floor of a plan: one hardly tells it from a pipe.
func (l *letterer) overFloor(d *Seen, floor plan.Region, leader []placing.Straight) (cost float64) {
	if len(floor) == 0 {
		return 0
	}
	for _, leg := range leader {
		from, to := d.Back(leg[0]), d.Back(leg[1])
		long := to.Sub(from).Len()
		if long <= plan.HairMM {
			continue
		}
		for _, in := range floor.Clip(from, to.Sub(from).Mul(1/long)) {
			if over := math.Min(in.To, long) - math.Max(in.From, 0); over > 0 {
				cost += overFloorCost * over * d.PixelsPerMM / l.Scale
			}
		}
	}
	return cost
}

// rowTries is how many places are tried in a row.
const rowTries = 9

// inRow calls try with the middles of texts, so wide, in a row: over the foot of a stem, then aside,
// on the picture where the level is near its rim.
func (l *letterer) inRow(foot placing.Point, width float64, try func(x float64)) {
	s, beside := l.Scale, width/2+stemAside*l.Scale
	for _, aside := range [rowTries]float64{0, 55 * s, -55 * s, beside, -beside, 110 * s, -110 * s, beside + 50*s, -beside - 50*s} {
		try(math.Max(width/2+4*s, math.Min(l.Width-width/2-4*s, foot[0]+aside)))
	}
}

// stemCost is what a stem costs by how far it leads.
func (l *letterer) stemCost(foot, text placing.Point) float64 {
	long, aside := math.Abs(text[1]-foot[1])/l.Scale, math.Abs(text[0]-foot[0])/l.Scale
	return lengthCost*long + asideCost*aside + longCost*math.Max(0, long-longPoints)
}

// alongOver is what leaders cost that run along what is laid over the picture.
func (l *letterer) alongOver(leader []placing.Straight) (cost float64) {
	for _, leg := range leader {
		if slices.ContainsFunc(l.scene.Over, leg.Along) {
			cost += alongOverCost
		}
	}
	return cost
}

// legs are the straights of a chain.
func legs(points []placing.Point) (out []placing.Straight) {
	for i := 1; i < len(points); i++ {
		out = append(out, placing.Straight{points[i-1], points[i]})
	}
	return out
}

// stemsTo are the ways of a stem from its foot to a text at a height, the better first: upright, with
// a bend where the text stands aside; straight there.
func stemsTo(foot placing.Point, text *placing.Box, y, way float64) [][]placing.Point {
	upright := []placing.Point{foot, {foot[0], y}}
	near := text.Low[0]
	switch {
	case foot[0] > text.High[0]:
		near = text.High[0]
	case foot[0] >= text.Low[0]:
		return [][]placing.Point{upright}
	}
	edge := text.High[1]
	if way > 0 {
		edge = text.Low[1]
	}
	return [][]placing.Point{append(upright, placing.Point{near, y}), {foot, {(text.Low[0] + text.High[0]) / 2, edge}}}
}
