package control_test

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
)

// Of a sheet that something covers from somewhere on down only what is above that is painted, and its rim.
func TestACoveredSheet(t *testing.T) {
	c := control.NewCard(container.NewStack())
	s := show(t, func(*shown) fyne.CanvasObject { return c }, fyne.NewSize(300, 300))
	sheet := color.NRGBAModel.Convert(s.theme.Role(theme.Sheet))
	at := func(x, y int) bool {
		return color.NRGBAModel.Convert(s.window.Canvas().Capture().At(x, y)) == sheet
	}
	for _, of := range []struct {
		from, foot float32
		middle     bool
		low        bool // what lies 30 above the foot
	}{{0, 0, true, true}, {100, 0, false, false}, {100, 40, false, true}, {0, 0, true, true}} {
		c.Covered(of.from, of.foot)
		if !at(150, 60) || !at(5, 200) || !at(294, 200) || !at(150, 294) {
			t.Errorf("covered from %v the head or the rim is not painted", of.from)
		}
		if at(150, 200) != of.middle {
			t.Errorf("covered from %v the middle is painted: %v", of.from, !of.middle)
		}
		if at(150, 270) != of.low {
			t.Errorf("covered from %v to %v above the foot what lies under that is painted: %v", of.from, of.foot, !of.low)
		}
	}
}
