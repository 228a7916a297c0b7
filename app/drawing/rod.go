package drawing

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/app/theme"
	"underfall/geometry/plan"
)

// How large the batten is that marks where a rod stands, in units.
const rodWide, rodHigh = 7.0, 24.0

// standing tells whether a point is being pressed that a rod is to stand at: in plan, and in the section on
// its line.
func (v *View) standing() bool { return v.sight.Pressing == sight.PressingRod && v.showsRod() }

// showsRod tells whether the drawing shows where the rod at a point stands.
func (v *View) showsRod() bool { return v.kind == still.Plan || v.kind == still.Section }

// standRod tells where a rod is to stand that was pressed at a point of the drawing.
func (v *View) standRod(p plan.Point) {
	if v.kind == still.Section {
		at := v.drawing.Cut.Space(plan.Point{p.X(), 0})
		p = plan.Point{at.X(), at.Y()}
	}
	if v.Rod != nil {
		v.Rod(p, snapReach*v.scale/v.view.PixelsPerMM)
	}
}

// placeRod marks where the rod at a point stands: in plan a small batten over its foot, in the section one where
// that goes through it.
func (v *View) placeRod() {
	if !v.sight.HasRod || !v.showsRod() || len(v.result.Layout.Walls) == 0 {
		return
	}
	at := v.sight.RodAt
	if v.kind == still.Section {
		rod, err := v.result.RodAt(at)
		in := [3]float64{at.X(), at.Y(), rod.LevelMM}
		const throughMM = 15
		if err != nil || math.Abs(v.drawing.Cut.Side(in)) > throughMM {
			return
		}
		at = v.drawing.Cut.Flat(in)
	}
	const wide, high, layers = rodWide, rodHigh, 3
	foot := v.toWindow(at)
	for i := range layers {
		block := canvas.NewRectangle(v.theme.Role(theme.Sheet))
		if i%2 == 0 {
			block.FillColor = v.theme.Role(theme.Press)
		}
		block.StrokeColor, block.StrokeWidth = v.theme.Role(theme.Press), 1
		block.Move(foot.AddXY(-wide/2, float32(i)*high/layers-high))
		block.Resize(fyne.NewSize(wide, high/layers))
		v.overlay.Add(block)
	}
}
