package answer_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// A figure of the plate that a change has moved is underlined for two seconds; not those of another job, nor
// in other units, nor where nothing is to move.
func TestAFigureThatMovedIsUnderlined(t *testing.T) {
	look := roomtest.British(t)
	var ends []func()
	c := answer.NewColumn(look, control.NewKeys(), answer.Asks{ShowFinding: func(rule.Finding) {}, ShowFigure: func(geometry.Figure) {},
		Shown: func(geometry.Result, geometry.Answer) {}, After: func(wait time.Duration, end func()) {
			if wait != 2*time.Second {
				t.Errorf("it is underlined for %v", wait)
			}
			ends = append(ends, end)
		}})
	w := test.NewTempWindow(t, c.Object(nil, container.NewVBox()))
	w.Resize(fyne.NewSize(340, 640))
	under := func() (n int) {
		roomtest.EachShown(c.Plate(), func(o fyne.CanvasObject) {
			if r, ok := o.(*canvas.Rectangle); ok && r.FillColor == look.Role(theme.Press) {
				n++
			}
		})
		return n
	}
	j := roomtest.First(t)
	show := func() { c.Show(geometry.Evaluate(j, demotest.Packs(t)[j.Region])) }
	show()
	j.Drain.TrapDepthMM += 40
	if show(); under() == 0 || len(ends) != 1 {
		t.Fatalf("%d are underlined, %d end", under(), len(ends))
	}
	j.Drain.TrapDepthMM += 10
	show()
	if ends[0](); under() == 0 {
		t.Error("what moved last is not underlined as long as what moved first")
	}
	if ends[1](); under() > 0 {
		t.Errorf("%d stay underlined", under())
	}
	j.Units = unit.Imperial
	if show(); under() > 0 {
		t.Error("other units underline")
	}
	j.Name, j.Drain.TrapDepthMM = "Another", j.Drain.TrapDepthMM-30
	if show(); under() > 0 {
		t.Error("another job underlines")
	}
	look.SetStill(true)
	j.Drain.TrapDepthMM += 40
	if show(); under() > 0 {
		t.Error("it is underlined where nothing is to move")
	}
}
