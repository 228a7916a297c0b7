package drawing

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// An end of a cut's line in plan, by which it is turned.
type cutEnd int

const (
	noEnd   cutEnd = iota
	nearEnd        // where the line begins
	farEnd         // on the way that it runs
)

// How the line of a cut is drawn, in units: its strokes, and the flags at its ends, which point the way
// that one looks.
const (
	longStroke, shortStroke, strokeGap = 14, 3, 4
	flagWide, flagHigh                 = 12, 14
	cutInset                           = 16 // from an end of the line to the rim of the picture
)

// cutEnds are the ends of a cut's line in plan as it is seen: a little past the room, and in the picture.
func (v *View) cutEnds(c solid.Cut) (a, b plan.Point) {
	a, b = v.cutLine(c)
	return endsIn(v.view, v.scale, a, b)
}

// endsIn are the ends of a line as far as it lies in a view, off its rim.
func endsIn(view paint.View, scale float64, a, b plan.Point) (from, to plan.Point) {
	inset := cutInset * scale
	if least := min(view.Width, view.Height); float64(least) <= 2*inset {
		return a, b
	}
	low, up := view.Shown(inset)
	way := b.Sub(a)
	for _, in := range plan.Rectangle(low, up).Clip(a, way) {
		if from, to := math.Max(0, in.From), math.Min(1, in.To); from < to {
			return a.Add(way.Mul(from)), a.Add(way.Mul(to))
		}
	}
	return a, b
}

// overIn is what is laid over a plan in a view, which no text is to lie under: the lines of cuts with their flags,
// and the batten of a rod.
func overIn(view paint.View, scale float64, lines [][2]plan.Point, rod *plan.Point) (out [][2]plan.Point) {
	perUnit := scale / view.PixelsPerMM
	for _, line := range lines {
		from, to := endsIn(view, scale, line[0], line[1])
		out = append(out, line)
		along := to.Sub(from).Normalize()
		look := plan.Left(along).Mul(flagHigh * perUnit)
		along = along.Mul(flagWide / 2 * perUnit)
		for _, end := range [2]plan.Point{from, to} {
			out = append(out, [2]plan.Point{end.Sub(along), end.Add(look)}, [2]plan.Point{end.Add(along), end.Add(look)}, [2]plan.Point{end.Sub(along).Sub(look.Mul(0.4)), end.Add(along).Add(look.Mul(0.4))})
		}
	}
	if rod != nil {
		half, up := view.Way(rodWide/2*scale, 0), view.Way(0, -rodHigh*scale)
		out = append(out, [2]plan.Point{rod.Sub(half), rod.Add(half).Add(up)}, [2]plan.Point{rod.Add(half), rod.Sub(half).Add(up)})
	}
	return out
}

// placeCutInPlan puts the line of a cut over the plan, with what it is taken hold of by.
func (v *View) placeCutInPlan(c solid.Cut, turns, held bool) {
	from, to := v.cutEnds(c)
	a, b := v.toWindow(from), v.toWindow(to)
	way := placing.Point{float64(b.X - a.X), float64(b.Y - a.Y)}
	long := math.Hypot(way[0], way[1])
	if long < 1 {
		return
	}
	way = placing.Point{way[0] / long, way[1] / long}
	v.placeStrokes(a, way, long)
	// Seen from the right of the way that it runs, as y goes down.
	look := placing.Point{way[1], -way[0]}
	for _, end := range [2]fyne.Position{a, b} {
		v.placeFlag(end, way, look)
		if turns {
			v.placeSquare(end, held)
		}
	}
}

// placeStrokes draws a line of long and short strokes.
func (v *View) placeStrokes(from fyne.Position, way placing.Point, long float64) {
	at := func(t float64) fyne.Position { return from.AddXY(float32(way[0]*t), float32(way[1]*t)) }
	stroke := func(t, length float64) {
		if length = math.Min(length, long-t); length <= 0 {
			return
		}
		l := canvas.NewLine(v.theme.Role(theme.Press))
		l.StrokeWidth = 1.5
		l.Position1, l.Position2 = at(t), at(t+length)
		v.overlay.Add(l)
	}
	const all = longStroke + shortStroke + 2*strokeGap
	for t := 0.0; t < long; t += all {
		stroke(t, longStroke)
		stroke(t+longStroke+strokeGap, shortStroke)
	}
}

// placeFlag draws a flag at an end of a line, which points the way one looks.
func (v *View) placeFlag(at fyne.Position, along, look placing.Point) {
	corners := [3]fyne.Position{
		at.AddXY(float32(along[0]*flagWide/2), float32(along[1]*flagWide/2)),
		at.AddXY(float32(-along[0]*flagWide/2), float32(-along[1]*flagWide/2)),
		at.AddXY(float32(look[0]*flagHigh), float32(look[1]*flagHigh))}
	low, high := corners[0], corners[0]
	for _, c := range corners[1:] {
		low = fyne.NewPos(min(low.X, c.X), min(low.Y, c.Y))
		high = fyne.NewPos(max(high.X, c.X), max(high.Y, c.Y))
	}
	var points []fyne.Position
	for _, c := range corners {
		points = append(points, c.Subtract(low))
	}
	flag := canvas.NewArbitraryPolygon(points, v.theme.Role(theme.Press))
	flag.Move(low)
	flag.Resize(fyne.NewSize(high.X-low.X, high.Y-low.Y))
	v.overlay.Add(flag)
}

// placeSquare draws what an end of the line is taken hold of by.
func (v *View) placeSquare(at fyne.Position, filled bool) {
	const side = 10
	s := canvas.NewRectangle(v.theme.Role(theme.Sheet))
	if filled {
		s.FillColor = v.theme.Role(theme.Press)
	}
	s.StrokeColor, s.StrokeWidth = v.theme.Role(theme.Press), 2
	s.Move(at.SubtractXY(side/2, side/2))
	s.Resize(fyne.NewSize(side, side))
	v.overlay.Add(s)
}

// graspCut is the cut at a place in plan: an end of its line within a reach, or the line itself.
func (v *View) graspCut(at fyne.Position, reach float64) (g grasp, off float64) {
	point := func(p fyne.Position) plan.Point { return plan.Point{float64(p.X), float64(p.Y)} }
	const cutReach = 8
	off = math.Inf(1)
	for _, plane := range v.sight.Active() {
		from, to := v.cutEnds(v.sight.Plane(v.result, plane))
		a, b := point(v.toWindow(from)), point(v.toWindow(to))
		if !v.sight.Corner {
			for i, p := range [2]plan.Point{a, b} {
				if d := p.Sub(point(at)).Len(); d < reach && d < off {
					g, off = grasp{cut: true, plane: plane, end: [2]cutEnd{nearEnd, farEnd}[i]}, d
				}
			}
		}
		if g == (grasp{}) && plan.DistanceToSegment(point(at), a, b) < cutReach {
			g = grasp{cut: true, plane: plane}
		}
	}
	return g, off
}

// pressEnd asks for how far the cut is turned where an end of its line was pressed; it tells whether one was.
func (v *View) pressEnd(at fyne.Position) bool {
	if !v.showsCut() || v.room != nil || v.TypeTurn == nil {
		return false
	}
	g, _ := v.graspCut(at, graspReach)
	if g.end == noEnd {
		return false
	}
	v.TypeTurn(at)
	return true
}

// cutPlace is the place that a cut is turned about: where it goes through, moved with it.
func (v *View) cutPlace() plan.Point {
	o := v.sight.Cut(v.result).Origin
	return plan.Point{o.X(), o.Y()}
}

// turnCut leads an end of the cut's line to a place.
func (v *View) turnCut(to plan.Point) {
	deg, ok := v.sight.Cutting.TurnTo(v.result, v.about, to, v.grasped.end == farEnd)
	if !ok {
		return
	}
	const stepDeg = 0.1
	deg, v.onto = v.sight.Cutting.Onto(v.result, math.Round(deg/stepDeg)*stepDeg)
	_ = v.sight.Turn(v.result, v.about, deg) // where it leads out of the room the cut stays
}

// placeTurning says at the end that is led round how far the cut is turned, and onto what; at a line that
// is moved, how far it is beside its own place.
func (v *View) placeTurning() {
	g := v.grasped
	if !g.cut || !v.showsCut() || v.sight.Corner {
		return
	}
	c := v.sight.Cutting
	from, to := v.cutEnds(v.sight.Cut(v.result))
	at := to
	var said message.Message
	switch angle := (message.Arg{Name: "angle", Value: message.Degrees(math.Abs(c.TurnedDeg))}); {
	case g.end == noEnd:
		said = message.Of("cut.beside", message.Along("aside", math.Abs(c.AsideMM)))
	case v.onto.IsZero():
		said = message.Of("turning.by", angle)
	default:
		said = message.Of("turning.onto", angle, message.In("way", v.onto))
	}
	if g.end == nearEnd {
		at = from
	}
	v.placeSaid(said, v.toWindow(at))
}

// aimAt sets the first or the second point that a cut is to go through.
func (v *View) aimAt(p plan.Point) {
	if q, ok := v.drawing.Snap(p, snapReach*v.scale/v.view.PixelsPerMM); ok {
		p = q
	}
	v.aimed = append(v.aimed, p)
	if len(v.aimed) < 2 {
		v.pointer = p
		v.placeOverlay()
		return
	}
	c := section.Cutting{Of: section.CutPoints, From: v.aimed[0], To: v.aimed[1]}
	v.aimed = nil
	v.placeOverlay()
	if v.Cut != nil {
		v.Cut(c)
	}
}

// aim starts or ends pressing two points that a cut is to go through.
func (v *View) aim(on bool) {
	if on == v.aiming {
		return
	}
	v.aiming, v.aimed = on, nil
	v.placeOverlay()
}

// placeAimed puts the line from the first point of a cut over the plan.
func (v *View) placeAimed() {
	if len(v.aimed) == 0 {
		return
	}
	v.placeLine(v.aimed[0], v.pointer)
	v.placeDot(v.aimed[0], 4, true)
	v.placeDot(v.pointer, 4, true)
}
