package paint_test

import (
	"fmt"
	"image"
	"slices"
	"testing"

	"underfall/app/paint"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// The joist that is looked at is named in every plan, however small, with a cut along it as well, where
// the names of most others find no room; and it alone stands out.
func TestTheJoistLookedAtIsNamed(t *testing.T) {
	joists := 0
	for _, r := range demotest.Shown(t) {
		d := section.PlanOf(r)
		for i := range d.Names {
			n := d.Names[i]
			if n.PartID == "" {
				continue
			}
			joists++
			at := n.Places[0].At
			along := n.Places[1].At.Sub(at)
			d.Over = [][2]plan.Point{{at.Sub(along.Mul(10)), at.Add(along.Mul(10))}}
			for u, size := range map[unit.System][2]int{unit.Imperial: {300, 220}, unit.Metric: {430, 300}} {
				where := fmt.Sprintf("%s, %s, %d by %d, %s", r.Settled.Name, n.PartID, size[0], size[1], u)
				v := paint.FitTo(&d, size[0], size[1], 1)
				s := style(u)
				s.Chosen = []string{n.PartID}
				l := section.Letter(paint.SheetOf(painter(t), v, s), paint.SeenIn(&d, v))
				keptApart(t, where, &l, v)
				var lit []string
				for _, text := range l.Texts {
					if text.Look == section.LookLit {
						lit = append(lit, text.Message.String())
					}
				}
				if len(lit) != 1 || !slices.ContainsFunc(n.Texts, func(m message.Message) bool { return m.String() == lit[0] }) {
					t.Errorf("%s: lit is %q", where, lit)
				}
			}
		}
	}
	if joists < 10 {
		t.Errorf("only %d joists", joists)
	}
}

// It is outlined in the plan as well, under the floor as it lies; so is nothing else.
func TestTheJoistLookedAtIsOutlined(t *testing.T) {
	r := demotest.Results(t)[1]
	d := section.PlanOf(r)
	if len(d.Below) != len(r.Layout.Joists) {
		t.Fatalf("%d of %d joists can be outlined", len(d.Below), len(r.Layout.Joists))
	}
	d.Names, d.Marks, d.Dimensions, d.Notes, d.SetOuts, d.Handles = nil, nil, nil, nil, nil, nil
	v := paint.FitTo(&d, 900, 700, 1)
	drawn := func(chosen ...string) *image.RGBA {
		s := style(unit.Metric)
		s.Chosen = chosen
		img := image.NewRGBA(image.Rect(0, 0, 900, 700))
		painter(t).Draw(img, d, v, s)
		return img
	}
	before := drawn()
	for i := range r.Layout.Joists {
		js := &r.Layout.Joists[i]
		after := drawn(js.ID())
		changed, off := 0, 0
		for y := range 700 {
			for x := range 900 {
				if before.RGBAAt(x, y) == after.RGBAAt(x, y) {
					continue
				}
				changed++
				const lineMM = 30 // half as broad as the outline at this scale
				if p := v.ToDrawing(float64(x)+0.5, float64(y)+0.5); !js.Footprint.Contains(p, lineMM) {
					off++
				}
			}
		}
		if changed < 200 || off > 0 {
			t.Errorf("%s: %d pixels differ, %d of them away from it", js.ID(), changed, off)
		}
	}
}
