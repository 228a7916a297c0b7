package drawing

import (
	"math"

	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/still"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// MouseIn is needed to hear of moves.
func (v *View) MouseIn(*desktop.MouseEvent) {}

// MouseOut clears the readout.
func (v *View) MouseOut() {
	if v.Readout != nil {
		v.Readout("")
	}
}

// MouseMoved reads out what is under the pointer.
func (v *View) MouseMoved(e *desktop.MouseEvent) {
	defer v.sight.Guard.Catch(Part)
	p := v.toDrawing(e.Position)
	v.pointer = p
	if v.measuring && len(v.points) == 1 {
		if q, ok := v.drawing.Snap(p, snapReach*v.scale/v.view.PixelsPerMM); ok {
			v.pointer = q
		}
		v.placeOverlay()
	}
	if v.aiming && len(v.aimed) == 1 {
		v.placeOverlay()
	}
	if v.Readout == nil || len(v.result.Layout.Walls) == 0 {
		return
	}
	a, there := v.drawing.At(p)
	place, placed := v.place(p)
	say := v.sight.Levels(theme.Book().In(v.result.Settled.Units), v.result).Say
	switch {
	case there && placed:
		v.Readout(say(message.Of("readout.part", message.In("part", a.Name), message.In("place", place))))
	case there:
		v.Readout(say(a.Name))
	default:
		v.Readout(say(place))
	}
}

// place tells where a point of the drawing is; in plan there is nothing to tell
// outside the room.
func (v *View) place(p plan.Point) (at message.Message, ok bool) {
	level := func(mm float64) message.Arg { return message.At("level", mm) }
	switch {
	case v.kind == still.Section:
		return message.Of("readout.level", level(p.Y())), true
	case v.kind == still.Long:
		return message.Of("readout.along-run", message.Along("along", p.X()), level(p.Y()/math.Max(1, v.drawing.Rise))), true
	case v.kind == still.Boards || v.kind == still.Level:
		return message.Message{}, false
	case v.kind == still.Bed:
		if !v.result.Layout.FallArea.Contains(p, 0) {
			return message.Message{}, false
		}
		return message.Of("readout.bed", message.Layer("bed", v.result.Heights.BedMM(p))), true
	case v.result.Layout.Room.Contains(p, 0):
		return message.Of("readout.finished-floor", level(v.result.Floor.FinishedMM(p))), true
	}
	return message.Message{}, false
}
