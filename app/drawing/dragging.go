package drawing

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// dragging is what is known of a drag in the plan.
type dragging struct {
	// off is from the pointer to where the thing is taken hold of that was grasped anywhere on it; from is where the pointer
	// was put down, and begun tells that it has gone far enough to mean a drag, and not a press that trembled.
	off     plan.Point
	from    fyne.Position
	onThing bool
	begun   bool
	onto    []edit.Guide // what it has fallen onto
	at      fyne.Position
	dragged bool // since the pointer was put down
}

// What is near enough in a drag, in units: to fall into a place, to be taken hold of by its middle, how far a press
// on a thing may tremble, and how far a drag goes at least that falls into places: a smaller one is for a place of its own.
const (
	fallReach   = 7
	middleReach = 14
	trembles    = 4
	leastFall   = 16
)

// mostFallMM is how far off its place a thing falls into it at most, however small the plan is drawn.
const mostFallMM = 40

// fallMM is how near to its place a thing falls into it that the pointer has led to a position; 0 where it falls into none.
func (v *View) fallMM(at fyne.Position) float64 {
	if v.keys.Shifted() || away(at, v.drag.from) < leastFall {
		return 0
	}
	return math.Min(mostFallMM, fallReach*v.scale/v.view.PixelsPerMM)
}

// away is how far two places are from each other.
func away(a, b fyne.Position) float64 { return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) }

// graspThing takes hold of the thing of the plan under the pointer that can be dragged by itself: the shower where it
// is chosen, a joist by its middle.
func (v *View) graspThing(at fyne.Position) {
	if v.kind != still.Plan {
		return
	}
	p := v.toDrawing(at)
	thing, ok := v.drawing.ThingAt(p, trembles*v.scale/v.view.PixelsPerMM)
	grip, there := v.handleAt(thing.Moves)
	if !ok || !there || thing.Moves == (edit.Handle{}) {
		return
	}
	switch thing.Moves.Kind {
	case edit.HandleShower:
		if v.selected != thing.ThingID {
			return
		}
	case edit.HandleJoist:
		if away(v.toWindow(thing.At), at) > middleReach {
			return
		}
	}
	v.grasped.handle = thing.Moves
	v.drag.off, v.drag.onThing = grip.Sub(p), true
}

// dragTo moves what is grasped to where the pointer is. It falls onto what it comes near to; not with Shift, nor in a
// small move.
func (v *View) dragTo(at fyne.Position) {
	d := &v.drag
	if d.onThing && !d.begun && away(at, d.from) < trembles {
		return
	}
	d.begun, d.dragged, d.at, d.onto = true, true, at, nil
	h, to := v.grasped.handle, v.toDrawing(at).Add(d.off)
	if v.kind != still.Plan {
		v.desk.DoLive(v.live, v.moveTo(h, to))
		return
	}
	if v.keys.Shifted() {
		v.desk.DoLive(v.live, edit.DragAs(h, to, edit.Fine))
		return
	}
	s, ok := edit.SnapTo(&v.result.Settled, &v.result.Layout, h, to, v.fallMM(at))
	if !ok {
		v.desk.DoLive(v.live, edit.Drag(h, to))
		return
	}
	d.onto = s.Onto
	if v.Readout != nil {
		v.Readout(v.ontoSaid())
	}
	v.desk.DoLive(v.live, edit.DragAs(h, s.At, edit.Exact))
}

// ontoSaid names what is fallen onto.
func (v *View) ontoSaid() (said string) {
	for i, g := range v.drag.onto {
		if i > 0 {
			said += " · "
		}
		said += theme.Say(g.Name, v.result.Settled.Units)
	}
	return said
}

// placeDragging puts over the picture what is dragged onto, by its name, and the distances that it is placed by.
func (v *View) placeDragging() {
	if !v.drag.dragged || v.kind != still.Plan || v.grasped.handle == (edit.Handle{}) {
		return
	}
	press := v.theme.Role(theme.Press)
	for _, g := range v.drag.onto {
		l := canvas.NewLine(press)
		l.StrokeWidth = 1
		l.Position1, l.Position2 = v.toWindow(g.From), v.toWindow(g.To)
		v.overlay.Add(l)
		v.placeDot(g.From, 3, true)
	}
	for _, s := range edit.Spans(&v.result.Settled, &v.result.Layout, v.grasped.handle) {
		v.placeLine(s.From, s.To)
		v.placeDot(s.From, 3, false)
		v.placePlate(theme.Say(message.Of("dimension.length", message.Along("length", s.MM())), v.result.Settled.Units), v.toWindow(s.From.Add(s.To).Mul(0.5)), true)
	}
	if said := v.ontoSaid(); said != "" {
		const under = 44
		v.placePlate(said, v.drag.at.AddXY(0, under), false)
	}
}

// placePlate puts a text on a plate beside a place of the picture.
func (v *View) placePlate(text string, at fyne.Position, bold bool) {
	label := canvas.NewText(text, v.theme.Role(theme.Ink))
	label.TextSize, label.TextStyle.Bold = v.theme.Text(theme.TextSecond), bold
	box := canvas.NewRectangle(v.theme.Role(theme.Sheet))
	box.CornerRadius = theme.PlateRadius
	box.StrokeColor, box.StrokeWidth = v.theme.Role(theme.Press), theme.EdgeWidth
	sight.PlaceMeasure(box, label, at, v.Size())
	v.overlay.Add(box)
	v.overlay.Add(label)
}
