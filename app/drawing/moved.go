package drawing

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/unit"
)

// moved is which dimensions have moved with the last change of the job: for a while they are underlined.
type moved struct {
	results int // counts those that came to be shown
	drawn   int // which of them the texts are of
	units   unit.System
	texts   map[dimension]string
	marked  map[dimension]bool
	marks   int // counts what was marked
}

// dimension is what a dimension is of, from one drawing to the next.
type dimension struct {
	key  string
	sets edit.FromWall
	mark edit.Mark
}

func dimensionOf(p paint.Placed) dimension {
	d := dimension{key: p.Key, sets: p.Sets}
	if p.Mark != nil {
		d.mark = *p.Mark
	}
	return d
}

// came notes that another result is to be shown; of another job nothing has moved.
func (m *moved) came(another bool) {
	m.results++
	if another {
		m.texts, m.marked = nil, nil
	}
}

// markMoved marks the dimensions that say another thing than before in a drawing of the result that came so
// many others after: only what the job has moved, not the cut or the window.
func (v *View) markMoved(units unit.System, came int) {
	m := &v.moved
	texts, now := map[dimension]string{}, map[dimension]bool{}
	for _, p := range v.placed {
		d := dimensionOf(p)
		if d == (dimension{}) {
			continue // of what is worked out nothing tells one from others
		}
		texts[d] = p.Text
		if before, known := m.texts[d]; known && before != p.Text {
			now[d] = true
		}
	}
	same := came == m.drawn || units != m.units
	m.texts, m.units, m.drawn = texts, units, came
	if same || len(now) == 0 || !v.theme.Moves() {
		return
	}
	m.marked = now
	m.marks++
	marks := m.marks
	v.sight.After(theme.MarkTime, Part, func() {
		if m.marks == marks {
			m.marked = nil
			v.placeOverlay()
		}
	})
}

// placeMoved underlines what has moved.
func (v *View) placeMoved() {
	for _, p := range v.placed {
		if !v.moved.marked[dimensionOf(p)] {
			continue
		}
		l := canvas.NewRectangle(v.theme.Role(theme.Press))
		l.Move(fyne.NewPos(float32(float64(p.Box.Min.X)/v.scale), float32(float64(p.Box.Max.Y)/v.scale)-theme.FocusWidth))
		l.Resize(fyne.NewSize(float32(float64(p.Box.Dx())/v.scale), theme.FocusWidth))
		v.overlay.Add(l)
	}
}
