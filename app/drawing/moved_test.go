package drawing

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/still"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
)

// underlined counts what is underlined.
func (v *View) underlined() (n int) {
	for _, o := range v.overlay.Objects {
		if r, ok := o.(*canvas.Rectangle); ok && r.Size().Height == theme.FocusWidth && r.FillColor == v.theme.Role(theme.Press) {
			n++
		}
	}
	return n
}

// A dimension that a change has moved is underlined for two seconds; after them the drawing is still: nothing
// is drawn any more. What moves the cut or the window underlines nothing, nor does anything where nothing is to
// move.
func TestADimensionThatMovedIsUnderlined(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(700, 330))
	deeper := func(mm float64) {
		b.Desk.Do(edit.Of(message.Of("edit.pipe"), func(j *job.Job) { j.Shower.DepthMM = mm }))
		b.Until("the depth", func() bool { return b.Change.Result.Settled.Shower.DepthMM == mm && v.AtRest() && len(b.Queue) == 0 })
	}
	b.sight.CutThere(section.Cutting{Of: section.CutPipe})
	viewOf(b, v)
	if n := v.underlined(); n > 0 {
		t.Errorf("another cut underlines %d", n)
	}
	began := time.Now()
	deeper(950)
	if v.underlined() == 0 {
		t.Fatal("nothing is underlined")
	}
	b.Until("the end of it", func() bool { return v.underlined() == 0 })
	if took := time.Since(began); took < theme.MarkTime || theme.MarkTime != 2*time.Second {
		t.Errorf("it is underlined for %v", took)
	}
	drawn := v.drawn
	time.Sleep(300 * time.Millisecond) // in which eighteen frames would be drawn
	if len(b.Queue) > 0 || v.drawn != drawn {
		t.Errorf("at rest %d things are to be done, %d drawings were drawn", len(b.Queue), v.drawn-drawn)
	}
	v.theme.SetStill(true)
	deeper(1000)
	if n := v.underlined(); n > 0 {
		t.Errorf("where nothing is to move %d are underlined", n)
	}
}
