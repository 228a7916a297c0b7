package drawing

import (
	"image"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/control"
	"underfall/app/paint"
	"underfall/app/still"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// choosing is what is chosen in a plan, and who is told.
type choosing struct {
	selected section.ThingID // zero for nothing
	expected section.ThingID // is to be chosen as soon as it is drawn; zero for nothing
	// Selected is told what is chosen now; ok is false where nothing is. OpenTag is asked to show
	// the inputs of what is chosen: with the keys going there, and what has been typed already, where
	// it was by a key; typed is 0 for nothing. Both are nil for nobody.
	Selected func(thing section.Thing, ok bool)
	OpenTag  func(thing section.Thing, keys bool, typed rune)
	// Drawn is told that the drawing shows anew; nil for nobody.
	Drawn func()
}

// pressReach is how near to a small thing, in units, a press still means it.
const pressReach = 10

// press chooses what is at a point of the plan, and opens its tag; where there is nothing, nothing is chosen.
func (v *View) press(p plan.Point) {
	if v.kind != still.Plan {
		return
	}
	thing, ok := v.drawing.ThingAt(p, pressReach*v.scale/v.view.PixelsPerMM)
	v.choose(thing, ok)
	control.FocusOn(v)
	if !ok {
		if v.Selected != nil {
			v.Selected(thing, false) // also where nothing was chosen before
		}
		return
	}
	v.picked = grasp{handle: thing.Moves}
	v.placeOverlay()
	if v.OpenTag != nil {
		v.OpenTag(thing, false, 0)
	}
}

// choose makes a thing the one that is chosen, or none.
func (v *View) choose(thing section.Thing, ok bool) {
	if !ok && v.selected == (section.ThingID{}) {
		return
	}
	v.selected, v.picked = thing.ThingID, grasp{}
	v.placeOverlay()
	if ok && v.Readout != nil {
		v.Readout(theme.Say(thing.Name, v.result.Settled.Units))
	}
	if v.Selected != nil {
		v.Selected(thing, ok)
	}
}

// Deselect has nothing chosen.
func (v *View) Deselect() { v.choose(section.Thing{}, false) }

// Chosen is what is chosen; ok is false where nothing is.
func (v *View) Chosen() (thing section.Thing, ok bool) { return v.Thing(v.selected) }

// Thing is the thing of the plan of an ID; ok is false where it has none, or is not drawn yet.
func (v *View) Thing(id section.ThingID) (thing section.Thing, ok bool) { return v.drawing.Thing(id) }

// Expect has a thing chosen, and its tag opened, as soon as the drawing has it.
func (v *View) Expect(id section.ThingID) {
	v.expected = id
	v.keepSelected()
}

// keepSelected lets go of what is chosen where the drawing has it no more, and chooses what is expected.
func (v *View) keepSelected() {
	if thing, there := v.Thing(v.expected); there {
		v.expected = section.ThingID{}
		v.choose(thing, true)
		v.openTag(thing, 0)
	}
	if _, there := v.Chosen(); !there {
		v.Deselect()
	}
}

// AccessibilityLabel is what is chosen.
func (v *View) AccessibilityLabel() string {
	thing, ok := v.Chosen()
	if !ok {
		return ""
	}
	return theme.Say(thing.Name, v.result.Settled.Units)
}

// chooseKey goes from thing to thing of the plan, opens a tag or takes hold; it tells whether the key is
// one for that.
func (v *View) chooseKey(k fyne.KeyName) bool {
	if v.kind != still.Plan {
		return false
	}
	chosen, ok := v.Chosen()
	by := map[fyne.KeyName]int{fyne.KeyRight: 1, fyne.KeyDown: 1, fyne.KeyLeft: -1, fyne.KeyUp: -1, fyne.KeyHome: 1, fyne.KeyEnd: -1}[k]
	switch {
	case by != 0:
		from := v.selected
		if k == fyne.KeyHome || k == fyne.KeyEnd {
			from = section.ThingID{}
		}
		v.choose(v.drawing.NextThing(from, by))
	case !ok:
		return false
	case k == fyne.KeyReturn || k == fyne.KeyEnter:
		v.openTag(chosen, 0)
	case k == fyne.KeySpace:
		v.picked = grasp{handle: chosen.Moves}
		v.placeOverlay()
	case k == fyne.KeyEscape:
		v.Deselect()
	default:
		return len(k) == 1 && typesOn(rune(k[0])) // it is typed on the tag then
	}
	return true
}

// TypeFigure opens the tag of what is chosen in a plan in sight for a figure that begins with a key, which is itself typed
// there; it tells whether one can.
func (v *View) TypeFigure(k fyne.KeyName) bool {
	chosen, ok := v.Chosen()
	if !ok || !v.Visible() || len(k) != 1 || !strings.ContainsRune(figureBegins, rune(k[0])) {
		return false
	}
	v.openTag(chosen, 0)
	return true
}

// figureBegins are the characters that a figure can begin with.
const figureBegins = "0123456789=-.,"

// typesOn tells whether a typed character begins a number, or opens the tag.
func typesOn(r rune) bool { return strings.ContainsRune(figureBegins+"tT", r) }

// TypedRune opens the tag of what is chosen: T by itself, a number with what is typed.
func (v *View) TypedRune(r rune) {
	defer v.sight.Guard.Catch(Part)
	chosen, ok := v.Chosen()
	switch {
	case !ok || !typesOn(r):
	case r == 't' || r == 'T':
		v.openTag(chosen, 0)
	default:
		v.openTag(chosen, r)
	}
}

func (v *View) openTag(of section.Thing, typed rune) {
	if v.OpenTag != nil {
		v.OpenTag(of, true, typed)
	}
}

// handleAt is where a handle is taken hold of; false where the drawing has no such one.
func (v *View) handleAt(h edit.Handle) (at plan.Point, ok bool) {
	for _, o := range v.drawing.Handles {
		if o.Moves == h {
			return o.At, true
		}
	}
	for _, t := range v.drawing.Things {
		if t.Moves == h {
			return t.At, true
		}
	}
	return at, false
}

// placeSelected puts the outline of what is chosen over the picture, and where it is taken hold of.
func (v *View) placeSelected() {
	thing, ok := v.Chosen()
	if !ok {
		return
	}
	const wide = 3
	outline := thing.Outline()
	for i := 1; i < len(outline); i++ {
		l := canvas.NewLine(v.theme.Role(theme.Press))
		l.StrokeWidth = wide
		l.Position1, l.Position2 = v.toWindow(outline[i-1]), v.toWindow(outline[i])
		v.overlay.Add(l)
	}
	if _, drawn := v.handleAt(thing.Moves); thing.Moves != (edit.Handle{}) && drawn {
		v.placeDot(thing.At, handleRadius, v.picked.handle == thing.Moves)
	}
}

// Around is the box of a thing and its middle in the widget.
func (v *View) Around(thing section.Thing) (low, high, at fyne.Position) {
	at = v.toWindow(thing.At)
	low, high = at, at
	for _, p := range thing.Outline() {
		q := v.toWindow(p)
		low, high = fyne.NewPos(min(low.X, q.X), min(low.Y, q.Y)), fyne.NewPos(max(high.X, q.X), max(high.Y, q.Y))
	}
	return low, high, at
}

// lineReach is how near to the line of a dimension a press still means it, and lineEnds how far from its ends, which lie at
// what it measures; in units.
const lineReach, lineEnds = 4, 10

// dimensionAt is the dimension that can be typed on whose figure is pressed, or whose line.
func (v *View) dimensionAt(at fyne.Position) (of paint.Placed, ok bool) {
	p := plan.Point{float64(at.X) * v.scale, float64(at.Y) * v.scale}
	for _, b := range v.placed {
		if (image.Point{int(p.X()), int(p.Y())}).In(b.Box) {
			return b, true
		}
	}
	nearest := lineReach * v.scale
	for _, b := range v.placed {
		if b.Line == nil {
			continue
		}
		from, to := plan.Point(b.Line[0]), plan.Point(b.Line[1])
		way := to.Sub(from)
		if long := way.Len(); long > 2*lineEnds*v.scale {
			end := way.Mul(lineEnds * v.scale / long)
			if off := plan.DistanceToSegment(p, from.Add(end), to.Sub(end)); off < nearest {
				nearest, of, ok = off, b, true
			}
		}
	}
	return of, ok
}

// Figure is the middle of a dimension's figure in the widget.
func (v *View) Figure(on paint.Placed) fyne.Position {
	middle := on.Box.Min.Add(on.Box.Max)
	return fyne.NewPos(float32(float64(middle.X)/2/v.scale), float32(float64(middle.Y)/2/v.scale))
}

// Worked is a dimension that hangs on what another does and says the same, as it stands now; ok is false where none
// does.
func (v *View) Worked(on paint.Placed) (now paint.Placed, ok bool) {
	for _, p := range v.placed {
		if len(p.HangsOn) > 0 && p.Text == on.Text && slices.Equal(p.HangsOn, on.HangsOn) {
			return p, true
		}
	}
	return now, false
}

// BoxOf is the box of a dimension's figure in the widget.
func (v *View) BoxOf(on paint.Placed) (low, high fyne.Position) {
	at := func(p image.Point) fyne.Position {
		return fyne.NewPos(float32(float64(p.X)/v.scale), float32(float64(p.Y)/v.scale))
	}
	return at(on.Box.Min), at(on.Box.Max)
}

// Lines are the straights of what is drawn in the room, in the widget: what lies over them hides it.
func (v *View) Lines() (out [][2]fyne.Position) {
	for _, t := range v.drawing.Things {
		outline := t.Outline()
		for i := 1; i < len(outline); i++ {
			out = append(out, [2]fyne.Position{v.toWindow(outline[i-1]), v.toWindow(outline[i])})
		}
	}
	return out
}
