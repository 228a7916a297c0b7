package app

import (
	"math"

	"fyne.io/fyne/v2/driver/desktop"
	"underfall/geometry/unit"
)

// MouseIn is needed to hear of moves.
func (v *drawingView) MouseIn(*desktop.MouseEvent) {}

// MouseOut clears the readout.
func (v *drawingView) MouseOut() {
	if v.readout != nil {
		v.readout("")
	}
}

// MouseMoved reads out what is under the pointer.
func (v *drawingView) MouseMoved(e *desktop.MouseEvent) {
	defer v.shared.guard.Catch(partDrawing)
	p := v.toDrawing(e.Position)
	v.pointer = p
	if v.measuring && len(v.points) == 1 {
		if q, ok := v.drawing.Snap(p, 10*v.scale/v.view.PixelsPerMM); ok {
			v.pointer = q
		}
		v.placeOverlay()
	}
	if v.readout == nil || len(v.result.Layout.Walls) == 0 {
		return
	}
	name, u := "", v.result.Settled.Units
	if a, ok := v.drawing.At(p); ok {
		name = text(a.Name) + ", "
	}
	switch v.kind {
	case drawSection:
		v.readout(name + textf("level %s", unit.SignedLevel(p.Y(), u)))
		return
	case drawLong:
		v.readout(name + textf("%s from the trap, level %s", unit.Format(p.X(), unit.Length, u), unit.SignedLevel(p.Y()/math.Max(1, v.drawing.Rise), u)))
		return
	}
	if v.result.Layout.Room.Contains(p, 0) {
		v.readout(name + textf("finished floor %s", unit.SignedLevel(v.result.Floor.FinishedMM(p), u)))
		return
	}
	v.readout(name)
}
