package app

import (
	"time"

	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/drawing"
	"underfall/app/paint"
	"underfall/app/sight"
	"underfall/app/space"
	"underfall/app/still"
	"underfall/app/theme"
	"underfall/geometry"
)

// views show the job as it would stand: the 3D picture and the drawings. They have no words
// of their own.
type views struct {
	view                     *space.View
	section, plan, long, bed *drawing.View
	boards, level            *drawing.View
	runsPainter              *paint.Painter // draws the runs that are found
	trialPainter             *paint.Painter // draws what is tried
}

func newViews(d *desk.Desk, keys *control.Keys, s *sight.Sight, t *theme.Theme) (views, error) {
	font := fynetheme.DefaultTextFont().Content()
	var painters [9]*paint.Painter
	for i := range painters {
		var err error
		if painters[i], err = paint.NewPainter(font); err != nil {
			return views{}, err
		}
	}
	view := func(kind still.Kind, p *paint.Painter) *drawing.View { return drawing.New(kind, d, keys, s, t, p) }
	return views{
		view:        space.New(s, t, painters[0]),
		section:     view(still.Section, painters[1]),
		plan:        view(still.Plan, painters[2]),
		long:        view(still.Long, painters[3]),
		bed:         view(still.Bed, painters[4]),
		boards:      view(still.Boards, painters[5]),
		level:       view(still.Level, painters[8]),
		runsPainter: painters[6], trialPainter: painters[7],
	}, nil
}

// drawn are the views that show a drawing.
func (v *views) drawn() []*drawing.View { return append(v.above(), v.across()...) }

// above are those of what is seen from above, of which one is seen at a time, across the others.
func (v *views) above() []*drawing.View { return []*drawing.View{v.plan, v.bed, v.boards, v.level} }

func (v *views) across() []*drawing.View { return []*drawing.View{v.section, v.long} }

// blank takes away what is shown of a job, until there is a result of another.
func (v *views) blank() {
	v.view.Blank()
	for _, d := range v.drawn() {
		d.Blank()
	}
}

// setPlan shows a result from above, setOthers everywhere else; fit brings all of it into view.
func (v *views) setPlan(r geometry.Result, fit bool) {
	for _, d := range v.above() {
		d.SetResult(r, fit)
	}
}

func (v *views) setOthers(r geometry.Result, fit bool) {
	for _, d := range v.across() {
		d.SetResult(r, fit)
	}
	v.view.SetResult(r, fit)
}

// othersAfter is how long after its numbers what is typed is drawn anywhere but from above: by then the toolkit, which looks
// sixty times a second, has begun to paint them, and goes before. Where no graphics card paints, it takes all processors.
const othersAfter = 20 * time.Millisecond

// setOthersIn shows a result everywhere else once what was set is painted.
func (v *views) setOthersIn(r geometry.Result) {
	for _, d := range v.across() {
		d.SetResultIn(othersAfter, r)
	}
	v.view.SetResultIn(othersAfter, r)
}
