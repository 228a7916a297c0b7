// Package drawing is the widget of a drawing: section, plan, along the waste, bed, boards. It is
// panned, zoomed, measured in, and what can be dragged in it is; what is changed goes to the desk,
// what is clicked is told.
package drawing

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// grasp is what the pointer or the arrow keys hold: a handle, or a cut plane.
// The zero value is nothing.
type grasp struct {
	handle edit.Handle
	cut    bool
	plane  int    // that is cut, then
	end    cutEnd // of its line in plan, by which it is turned
}

// Part is how a fault in a drawing is told.
const Part message.ID = "fault.drawing"

// Desk takes what is changed in a drawing.
type Desk interface {
	Do(edit.Edit) job.Problems
	// DoLive makes an edit that goes on, such as a drag: it takes the place of the one before of
	// the same name. Settle ends it.
	DoLive(name string, e edit.Edit) job.Problems
	Settle()
}

// View shows the section or the plan: pan, zoom, measure, and in plan
// drag what can be dragged.
type View struct {
	widget.BaseWidget
	kind still.Kind
	desk Desk
	// keys takes the keys the drawing has no use for.
	keys    *control.Keys
	sight   *sight.Sight
	theme   *theme.Theme
	painter *paint.Painter
	worker  *guard.Latest
	pace    *sight.Pace       // of what is drawn while something is dragged elsewhere
	ground  *canvas.Rectangle // where there is no picture: what the view stands on is not painted under it
	picture *canvas.Image
	overlay *fyne.Container

	result  geometry.Result
	drawing section.Drawing
	view    paint.View
	scale   float64
	// touched tells that it was panned or zoomed by hand: until Fit it stays as it is then. Else all that
	// is to be looked at first is shown, whatever changes.
	touched bool
	grasped grasp  // being dragged
	live    string // what its edits are called in the history
	button  desktop.MouseButton
	tapped  time.Time     // when it was last pressed
	at      fyne.Position // and where
	// measuring: first and second point on the drawing.
	measuring bool
	points    []plan.Point
	pointer   plan.Point
	// aiming: two points are pressed that a cut is to go through.
	aiming bool
	aimed  []plan.Point
	// While the cut is turned: the place that it is turned about, and the way with a name that it has
	// fallen onto.
	about plan.Point
	onto  message.Message
	// Readout is told what is under the pointer, Choose which part was clicked, TypeOn which dimension,
	// TypeTurn where in the widget an end of the cut's line was, Cut what two points were pressed to be cut
	// through, Rod where in plan a rod is to stand, or the one within a reach of it no more; nil for nobody.
	Readout  func(string)
	Choose   func(part string)
	TypeOn   func(on paint.Placed)
	TypeTurn func(at fyne.Position)
	Cut      func(c section.Cutting)
	Rod      func(at plan.Point, reachMM float64)
	// Moved is told when the drawing is panned or zoomed by hand, and when it is whole again.
	Moved func()
	// Key is asked first about every key that the drawing has no use for; it tells whether it had one.
	Key func(fyne.KeyName) bool
	// ReadAt is told where the floor is to be read that is pressed, and where in the widget; nil while nothing is read.
	ReadAt func(p plan.Point, at fyne.Position)
	// readings has the plan show where the floor was read.
	readings bool
	// room is what is lit in the room as it is measured, while the plan shows that; nil for the usual plan.
	room *section.Lit
	// Focused is told when keys go to the drawing, and when no longer.
	Focused func(on bool)
	choosing
	drag dragging
	// The water, while it runs.
	watering  bool
	drops     *drops
	dropsFor  int         // the drawing its courses are of
	drawn     int         // counts drawings
	looked    sight.State // what is looked at beside the cut, as it was last drawn
	blanks    int         // counts how often all was taken away
	stopWater chan struct{}
	// placed are the dimensions that can be typed on; picked is the handle the
	// arrow keys move.
	placed []paint.Placed
	places []int // of all labels, for the next drawing
	picked grasp
	moved  moved
	// away tells that it is not seen; later has it not drawn after a while, nil where nothing waits to be.
	away  bool
	later func()
}

// New makes the view of a drawing; keys takes those that it has no use for, the painter is for it
// alone.
func New(kind still.Kind, d Desk, keys *control.Keys, s *sight.Sight, t *theme.Theme, p *paint.Painter) *View {
	v := &View{kind: kind, desk: d, keys: keys, sight: s, theme: t, painter: p, scale: 1, Focused: func(bool) {}, Moved: func() {},
		worker:  s.Guard.NewLatest(Part),
		ground:  canvas.NewRectangle(t.Role(theme.Sheet)),
		picture: &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest},
		overlay: container.NewWithoutLayout()}
	v.pace = s.NewPace(Part, v.draw)
	v.ExtendBaseWidget(v)
	s.Listen(v.follow)
	return v
}

// CreateRenderer lays handles and measures over the picture.
func (v *View) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(v.ground, v.picture, v.overlay))
}

// MinSize lets the drawing be small.
func (v *View) MinSize() fyne.Size { return fyne.NewSize(200, 120) }

// Resize paints anew.
func (v *View) Resize(s fyne.Size) {
	defer v.sight.Guard.Catch(Part)
	v.BaseWidget.Resize(s)
	v.Redraw()
}

// SetResult shows a result; fit brings all of the drawing into view.
func (v *View) SetResult(r geometry.Result, fit bool) {
	v.result = r
	v.moved.came(fit)
	if fit {
		v.touch(false)
	}
	v.Redraw()
}

// SetResultIn shows a result as SetResult does, drawn only after a while: what goes before is painted by then.
func (v *View) SetResultIn(wait time.Duration, r geometry.Result) {
	v.result = r
	v.moved.came(false)
	if v.away || v.follows() {
		v.Redraw()
		return
	}
	v.drawIn(wait)
}

// Blank shows nothing until there is another result, nor what is being drawn of the one before.
func (v *View) Blank() {
	v.blanks++
	v.result, v.drawing, v.placed, v.places = geometry.Result{}, section.Drawing{}, nil, nil
	v.show(nil)
	v.overlay.RemoveAll()
}

// show shows a picture, or nothing.
func (v *View) show(img *image.RGBA) {
	v.ground.FillColor, v.ground.Hidden = v.theme.Role(theme.Sheet), img != nil
	if v.picture.Image = nil; img != nil {
		v.picture.Image = img
	}
	v.picture.Refresh()
}

// Fit shows the whole drawing, and goes on to as it changes, until it is panned or zoomed by hand.
func (v *View) Fit() {
	v.touch(false)
	v.Redraw()
}

// Touched tells whether the drawing stands as it was panned or zoomed by hand.
func (v *View) Touched() bool { return v.touched }

// touch notes that the drawing is panned or zoomed by hand, or no more.
func (v *View) touch(on bool) {
	if on != v.touched {
		v.touched = on
		v.Moved()
	}
}

// ShowRoom shows the room as it is measured in the place of the usual plan, with a figure lit; nil shows that again.
func (v *View) ShowRoom(lit *section.Lit) {
	if (v.room == nil) != (lit == nil) {
		v.touch(false)
	}
	v.room = lit
	v.Redraw()
}

// ShowReadings has the plan show where the floor was read, or not.
func (v *View) ShowReadings(on bool) {
	if on != v.readings {
		v.readings = on
		v.Redraw()
	}
}

// follow comes to what is looked at.
func (v *View) follow() {
	v.measure(v.sight.Pressing == sight.PressingMeasure)
	v.aim(v.sight.Pressing == sight.PressingCut && v.kind == still.Plan)
	v.runWater(v.sight.Water && (v.kind == still.Plan || v.kind == still.Long))
	if v.showsCut() && v.sight.Held() != sight.HeldNothing && v.looked == v.sight.BesideCut() {
		v.placeOverlay() // the line of the cut that is dragged: labels make way for it once it is let go
		return
	}
	v.Redraw()
}

// awayAfter is how long nothing must have changed before a drawing that is not seen is drawn.
const awayAfter = 250 * time.Millisecond

// Away tells that the drawing is not seen, or is again: until then what changes is drawn once that rests, and
// takes no time from what is seen.
func (v *View) Away(on bool) {
	if v.away = on; !on && v.later != nil {
		v.Redraw()
	}
}

// Redraw works the drawing out and paints it off the window's goroutine: at once where it is seen.
func (v *View) Redraw() {
	switch {
	case v.away:
		v.drawIn(awayAfter)
		return
	case v.later != nil:
		v.later()
		v.later = nil
	}
	if v.follows() {
		v.pace.Ask()
	} else {
		v.draw()
	}
}

// drawIn draws after a while, unless it is drawn or put off again before.
func (v *View) drawIn(wait time.Duration) {
	if v.later != nil {
		v.later()
	}
	v.later = v.sight.After(wait, Part, func() {
		v.later = nil
		v.draw()
	})
}

// follows tells whether what is dragged is held elsewhere, and only shows here as well. The section is what a cut that is
// dragged is looked at in.
func (v *View) follows() bool {
	switch v.sight.Held() {
	case sight.HeldNothing:
		return false
	case sight.HeldCut:
		return v.kind != still.Section
	}
	return v.grasped == (grasp{})
}

// draw works the drawing out and paints it off the window's goroutine.
func (v *View) draw() {
	v.pace.Begun()
	size := v.Size()
	if size.Width < 2 || size.Height < 2 || len(v.result.Layout.Walls) == 0 || !v.Visible() {
		v.pace.Drawn()
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		v.scale = float64(c.Scale())
	}
	r, kind := v.result, v.kind
	s := v.sight.State
	v.looked = s.BesideCut()
	style := s.Styled(v.theme.PaintStyle(v.scale, r.Settled.Units, s.Chosen), r)
	if kind == still.Level {
		style = withCut(style, s.Level.Says(r))
	}
	width, height := int(float64(size.Width)*v.scale), int(float64(size.Height)*v.scale)
	over, room, readings := v.cutLines(), v.room, v.readings
	// What is held must not slip from under the pointer.
	view, scale, fit := v.view, v.scale, !v.touched && (v.grasped == grasp{} || v.drawn == 0)
	turned := v.turned()
	came, pins, blanks := v.moved.results, v.pinned(), v.blanks
	var before []int
	if v.sight.Held() != sight.HeldNothing {
		before = v.places
	}
	v.worker.Run(func() {
		defer v.sight.Do(v.pace.Drawn) // after what is shown of it
		d := drawingOf(kind, r, &s, room, readings)
		if fit {
			view = paint.FitTurned(&d, turned, width, height, scale)
		}
		view.Width, view.Height, view.Turned = width, height, turned
		d.Over = over
		if kind == still.Plan || kind == still.Level {
			d.Over = overIn(view, scale, over, s.Rod())
		}
		img := image.NewRGBA(image.Rect(0, 0, width, height))
		placed, places := v.painter.DrawAfter(img, d, view, style, before, pins(&d, view)...)
		v.sight.Do(func() {
			if blanks != v.blanks {
				return
			}
			v.drawing = d
			v.drawn++
			v.placed, v.places = placed, places
			v.markMoved(r.Settled.Units, came)
			if fit && !v.touched {
				v.view = view
			}
			v.view.Width, v.view.Height, v.view.Turned = width, height, turned
			v.show(img)
			v.keepSelected()
			v.placeOverlay()
			if v.Drawn != nil {
				v.Drawn()
			}
		})
	})
}

// drawingOf is what is drawn of a result as it is looked at: of the room's tapes, while they are stated, and of where the floor was read.
func drawingOf(kind still.Kind, r geometry.Result, s *sight.State, room *section.Lit, readings bool) (d section.Drawing) {
	switch {
	case kind == still.Section:
		d = s.Section(r)
	case kind == still.Level:
		d = s.AtLevel(r)
	case room != nil:
		d = section.RoomOf(r, *room)
	default:
		d = kind.Of(r, nil, s.Stage)
	}
	switch {
	case readings:
		d.Read(r)
	case kind == still.Plan && room == nil:
		d.MarkRead(r)
	}
	return d
}

// Behind tells whether it is seen, and not all that was asked for is drawn.
func (v *View) Behind() bool { return !v.away && !v.AtRest() }

// turned is how the drawing is turned: as what is seen from above in the room is.
func (v *View) turned() plan.Quarters {
	switch v.kind {
	case still.Plan, still.Bed, still.Level:
		return v.sight.Turned
	}
	return 0
}

// withCut is a style that has the foot of a drawing say where it is cut as well.
func withCut(style paint.Style, cut message.Message) paint.Style {
	switch {
	case cut.IsZero():
		return style
	case style.Unit.IsZero():
		style.Unit = cut
	default:
		style.Unit = message.Of("drawing.unit-and-cut", message.In("unit", style.Unit), message.In("cut", cut))
	}
	return style
}

// AtRest tells whether all that was asked for is drawn.
func (v *View) AtRest() bool { return v.later == nil && !v.pace.Owes() && v.worker.Idle() }

// toWindow is the place of a point of the drawing in the widget.
func (v *View) toWindow(p plan.Point) fyne.Position {
	x, y := v.view.ToPixel(p)
	return fyne.NewPos(float32(x/v.scale), float32(y/v.scale))
}

func (v *View) toDrawing(p fyne.Position) plan.Point {
	return v.view.ToDrawing(float64(p.X)*v.scale, float64(p.Y)*v.scale)
}

// dragged is the way in the drawing that a drag leads.
func (v *View) dragged(by fyne.Delta) plan.Point {
	return v.view.Way(float64(by.DX)*v.scale, float64(by.DY)*v.scale)
}

const handleRadius = 6

// graspReach is how near to a handle, in units, a pointer takes hold of it.
const graspReach = 12

// snapReach is how near a corner attracts a point that is pressed, in units.
const snapReach = 10

// placeOverlay puts handles, the cut's line and measures over the picture.
func (v *View) placeOverlay() {
	v.overlay.RemoveAll()
	v.placeCuts()
	for _, h := range v.drawing.Handles {
		radius := float32(handleRadius)
		if h.Moves.Kind == edit.HandleCorner || h.Moves.Kind == edit.HandleSide {
			radius = handleRadius - 2
		}
		v.placeDot(h.At, radius, h.Moves == v.grasped.handle || h.Moves == v.picked.handle)
	}
	v.placeSelected()
	v.placeDragging()
	v.placeMeasured()
	v.placeRod()
	v.placeMoved()
	v.placeDrops()
	v.overlay.Refresh()
}

// placeLine draws a line over the picture.
func (v *View) placeLine(a, b plan.Point) {
	l := canvas.NewLine(v.theme.Color("primary", 0))
	l.StrokeWidth = 2
	l.Position1, l.Position2 = v.toWindow(a), v.toWindow(b)
	v.overlay.Add(l)
}

// placeDot draws a dot over the picture, filled or a ring.
func (v *View) placeDot(p plan.Point, radius float32, filled bool) {
	accent := v.theme.Color("primary", 0)
	c := canvas.NewCircle(v.theme.Color("background", 0))
	if filled {
		c.FillColor = accent
	}
	c.StrokeColor, c.StrokeWidth = accent, 2
	at := v.toWindow(p)
	c.Resize(fyne.NewSize(2*radius, 2*radius))
	c.Move(at.SubtractXY(radius, radius))
	v.overlay.Add(c)
}

// placeCuts puts the lines of the planes that cut the picture over a drawing that they
// cross.
func (v *View) placeCuts() {
	if v.room != nil {
		return
	}
	if v.showsCut() {
		for i, c := range v.sight.Planes(v.result) {
			held := func(g grasp) bool { return g.cut && g.plane == i }
			v.placeCutInPlan(c, !v.sight.Corner, held(v.grasped) || held(v.picked))
		}
		v.placeTurning()
		v.placeAimed()
		return
	}
	for _, line := range v.cutLines() {
		a := line[0]
		low, high := v.toDrawing(fyne.NewPos(0, v.Size().Height)).Y(), v.toDrawing(fyne.NewPos(0, 0)).Y()
		v.placeLine(plan.Point{a.X(), low}, plan.Point{a.X(), high})
		v.placeDot(plan.Point{a.X(), high - (high-low)*0.06}, handleRadius+1, true)
	}
}

// showsCut tells whether the line of the upright cut lies over the drawing: over what is seen from above, also while
// the picture is not cut, as the section is.
func (v *View) showsCut() bool { return v.kind == still.Plan || v.kind == still.Level }

// cutLines are the lines of the planes that cut the picture, over a drawing that they cross: in a
// section from far below to far above it.
func (v *View) cutLines() (out [][2]plan.Point) {
	const farMM = 1e5
	switch {
	case v.kind == still.Section && v.sight.CutOn:
		for _, plane := range v.sight.Active()[1:] {
			if x, _, ok := v.crossing(plane); ok {
				out = append(out, [2]plan.Point{{x, -farMM}, {x, farMM}})
			}
		}
	case v.showsCut() && v.room == nil:
		for _, c := range v.sight.Planes(v.result) {
			a, b := v.cutLine(c)
			out = append(out, [2]plan.Point{a, b})
		}
	}
	return out
}

// placeMeasured puts what is being measured over the picture.
func (v *View) placeMeasured() {
	if len(v.points) == 0 {
		return
	}
	start, end := v.points[0], v.pointer
	if len(v.points) > 1 {
		end = v.points[1]
	}
	v.placeLine(start, end)
	v.placeDot(start, 4, true)
	v.placeDot(end, 4, true)
	v.placeSaid(v.measured(start, end), v.toWindow(start.Add(end).Mul(0.5)))
}

// placeSaid puts words beside a place over the picture.
func (v *View) placeSaid(said message.Message, at fyne.Position) {
	label := canvas.NewText(theme.Say(said, v.result.Settled.Units), v.theme.Color("foreground", 0))
	label.TextSize = 13
	label.TextStyle.Bold = true
	box := canvas.NewRectangle(v.theme.Color("background", 0))
	sight.PlaceMeasure(box, label, at, v.Size())
	v.overlay.Add(box)
	v.overlay.Add(label)
}

// placeDrops puts the water's drops over the picture while it runs.
func (v *View) placeDrops() {
	if !v.watering || v.kind == still.Section || len(v.result.Layout.Walls) == 0 {
		v.drops = nil
		return
	}
	if v.drops == nil || v.dropsFor != v.drawn {
		v.drops, v.dropsFor = newDrops(courses(v.kind, v.result, math.Max(1, v.drawing.Rise)), color.NRGBA{0x1f, 0x78, 0xb4, 230}), v.drawn
		v.drops.move(0, v.toWindow)
	}
	for _, d := range v.drops.dots {
		v.overlay.Add(d)
	}
}

// pinned marks the place that was gone to, as things are looked at now, where it lies in a drawing, at the rim where that
// is off the sheet; not where the cut has moved away from it.
func (v *View) pinned() func(*section.Drawing, paint.View) []paint.Pin {
	m, kind := v.sight.Mark, v.kind
	if m == nil || kind == still.Long || v.room != nil {
		return func(*section.Drawing, paint.View) []paint.Pin { return nil }
	}
	role := theme.Press
	for _, f := range v.result.Findings {
		if f.Key() == v.sight.Marked {
			role, _ = theme.OfStanding(geometry.StandingOf(f.Rule.Severity))
		}
	}
	pin := paint.Pin{Label: v.sight.Beside(m.Label, v.result), Chosen: true, Ink: color.RGBA(v.theme.Role(role)), Ground: color.RGBA(v.theme.Role(theme.Sheet))}
	rim := 2 * paint.PinRadius * v.scale
	return func(d *section.Drawing, view paint.View) []paint.Pin {
		const awayMM = 150
		if kind == still.Section && math.Abs(d.Cut.Side(m.At)) > awayMM {
			return nil
		}
		x, y := view.ToPixel(d.Cut.Flat(m.At))
		pin.At[0] = math.Max(rim, math.Min(float64(view.Width)-rim, x))
		pin.At[1] = math.Max(rim, math.Min(float64(view.Height)-rim, y))
		pin.Hidden = pin.At != placing.Point{x, y} // off the sheet: at its rim
		return []paint.Pin{pin}
	}
}

// measured is the distance between two points of the drawing.
func (v *View) measured(a, b plan.Point) message.Message {
	d := b.Sub(a)
	if v.drawing.Rise > 0 {
		d = plan.Point{d.X(), d.Y() / v.drawing.Rise}
	}
	if v.kind == still.Plan {
		return message.Of("distance", message.Along("straight", d.Len()))
	}
	return sight.Distance(math.Abs(d.X()), math.Abs(d.Y()))
}

// cutLine is a cut's line in plan, a little longer than the room.
func (v *View) cutLine(c solid.Cut) (a, b plan.Point) {
	along := plan.Point{c.Along.X(), c.Along.Y()}
	origin := plan.Point{c.Origin.X(), c.Origin.Y()}
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range v.result.Settled.Room.Outline {
		t := p.Sub(origin).Dot(along)
		low, high = math.Min(low, t), math.Max(high, t)
	}
	const pastMM = 180
	return origin.Add(along.Mul(low - pastMM)), origin.Add(along.Mul(high + pastMM))
}

// crossing is where another cut plane stands in the section, and how fast one
// moves to its side along the section; ok is false when the two run together.
func (v *View) crossing(plane int) (x, slope float64, ok bool) {
	c, other := v.sight.Cut(v.result), v.sight.Plane(v.result, plane)
	at := func(x float64) float64 { return other.Side(c.Space(plan.Point{x, 0})) }
	slope = at(1) - at(0)
	if math.Abs(slope) < 1e-6 {
		return 0, 0, false
	}
	return -at(0) / slope, slope, true
}

// measure starts or ends measuring.
func (v *View) measure(on bool) {
	if on == v.measuring {
		return
	}
	v.measuring, v.points = on, nil
	v.placeOverlay()
}

// MouseDown grasps a handle or starts a measure.
func (v *View) MouseDown(e *desktop.MouseEvent) {
	defer v.sight.Guard.Catch(Part)
	v.button = e.Button
	v.grasped, v.drag = grasp{}, dragging{from: e.Position}
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	control.FocusOn(v)
	if v.measuring || v.aiming || v.standing() {
		return
	}
	if v.kind == still.Section {
		v.graspPlane(e.Position)
		return
	}
	near := func(p plan.Point) float64 {
		q := v.toWindow(p)
		return math.Hypot(float64(q.X-e.Position.X), float64(q.Y-e.Position.Y))
	}
	best := float64(graspReach)
	for _, h := range v.drawing.Handles {
		if d := near(h.At); d < best {
			best, v.grasped.handle = d, h.Moves
		}
	}
	if v.showsCut() {
		if g, off := v.graspCut(e.Position, graspReach); off < best || v.grasped == (grasp{}) {
			v.grasped = g
			v.about, v.onto = v.cutPlace(), message.Message{}
		}
	}
	if v.grasped == (grasp{}) {
		v.graspThing(e.Position)
	}
	v.live = fmt.Sprintf("drag %v", v.grasped.handle)
	v.pick(v.grasped)
}

// graspPlane grasps the other cut plane where it stands in the section.
func (v *View) graspPlane(at fyne.Position) {
	if !v.sight.CutOn {
		return
	}
	const reach = 8
	for _, plane := range v.sight.Active()[1:] {
		if x, _, ok := v.crossing(plane); ok && math.Abs(float64(v.toWindow(plan.Point{x, 0}).X-at.X)) < reach {
			v.grasped = grasp{cut: true, plane: plane}
		}
	}
}

// MouseUp lets go.
func (v *View) MouseUp(*desktop.MouseEvent) { v.letGo() }

// DragEnd ends a drag; a cut that is drawn goes to where it ends.
func (v *View) DragEnd() {
	if v.aiming && len(v.aimed) == 1 {
		v.aimAt(v.pointer)
	}
	v.letGo()
}

// Holds tells whether something of the job is being dragged.
func (v *View) Holds() bool { return v.grasped.handle != (edit.Handle{}) }

func (v *View) letGo() {
	defer v.sight.Guard.Catch(Part)
	held := v.Holds()
	v.grasped, v.drag = grasp{}, dragging{}
	if held {
		v.desk.Settle()
	}
	v.placeOverlay()
	v.sight.Hold(sight.HeldNothing)
	v.Redraw() // which fits it again
}

// Dragged moves what is grasped, or the paper.
func (v *View) Dragged(e *fyne.DragEvent) {
	defer v.sight.Guard.Catch(Part)
	switch {
	case v.aiming:
		if len(v.aimed) == 0 {
			v.aimAt(v.toDrawing(e.Position.Subtract(e.Dragged)))
		}
		v.pointer = v.toDrawing(e.Position)
		v.placeOverlay()
	case v.grasped == grasp{}:
		v.touch(true)
		v.view.Centre = v.view.Centre.Sub(v.dragged(e.Dragged))
		v.Redraw()
	case v.grasped.end != noEnd:
		v.sight.Hold(sight.HeldCut)
		v.turnCut(v.toDrawing(e.Position))
	case v.grasped.cut:
		v.sight.Hold(sight.HeldCut)
		if v.kind == still.Section {
			_, slope, _ := v.crossing(v.grasped.plane)
			v.sight.Drag(v.result, v.grasped.plane, v.dragged(e.Dragged).X()*slope)
			return
		}
		n := v.sight.Plane(v.result, v.grasped.plane).Normal
		v.sight.Drag(v.result, v.grasped.plane, v.dragged(e.Dragged).Dot(plan.Point{n.X(), n.Y()}))
	default:
		v.sight.Hold(sight.HeldThing)
		v.dragTo(e.Position)
	}
}

// moveFinely moves a handle of the plan in the least steps there are.
func (v *View) moveFinely(h edit.Handle, to plan.Point) edit.Edit {
	if v.kind == still.Plan {
		return edit.DragAs(h, to, edit.Fine)
	}
	return v.moveTo(h, to)
}

// moveTo moves a handle to a point of the drawing.
func (v *View) moveTo(h edit.Handle, to plan.Point) edit.Edit {
	if v.kind == still.Long {
		return edit.DragLong(h, to.X(), to.Y()/math.Max(1, v.drawing.Rise))
	}
	return edit.Drag(h, to)
}

// Scrolled zooms about the pointer.
func (v *View) Scrolled(e *fyne.ScrollEvent) {
	defer v.sight.Guard.Catch(Part)
	v.touch(true)
	at := v.toDrawing(e.Position)
	factor := math.Exp(float64(e.Scrolled.DY) * 0.006)
	v.view.PixelsPerMM = math.Max(0.01, math.Min(40, v.view.PixelsPerMM*factor))
	moved := v.toDrawing(e.Position)
	v.view.Centre = v.view.Centre.Add(at.Sub(moved))
	v.Redraw()
}

// twiceWithin is how soon a second press at the same place has the drawing whole again.
const twiceWithin = 450 * time.Millisecond

// Tapped sets the points of a measure, or chooses the part there.
func (v *View) Tapped(e *fyne.PointEvent) {
	defer v.sight.Guard.Catch(Part)
	p := v.toDrawing(e.Position)
	if v.aiming {
		v.aimAt(p)
		return
	}
	if v.standing() {
		v.standRod(p)
		return
	}
	if v.measuring {
		if q, ok := v.drawing.Snap(p, snapReach*v.scale/v.view.PixelsPerMM); ok {
			p = q
		}
		if len(v.points) >= 2 {
			v.points = nil
		}
		v.points = append(v.points, p)
		v.placeOverlay()
		if len(v.points) == 2 && v.Readout != nil {
			v.Readout(theme.Say(message.Of("measured", message.In("distance", v.measured(v.points[0], v.points[1]))), v.result.Settled.Units))
		}
		return
	}
	if v.pressEnd(e.Position) {
		return
	}
	if b, ok := v.dimensionAt(e.Position); ok {
		if v.TypeOn != nil {
			v.TypeOn(b)
		}
		return
	}
	if v.ReadAt != nil {
		v.ReadAt(p, e.Position)
		return
	}
	again := time.Since(v.tapped) < twiceWithin && v.at == e.Position
	v.tapped, v.at = time.Now(), e.Position
	if again && v.touched {
		v.Fit()
		return
	}
	v.press(p)
	if v.Choose == nil {
		return
	}
	if a, ok := v.drawing.At(p); ok {
		v.Choose(a.PartID)
	} else {
		v.Choose("")
	}
}
