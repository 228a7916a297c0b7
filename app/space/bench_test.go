package space

import (
	"image"
	"math"
	"testing"
	"time"

	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/settle"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// openStudio gives a way to draw in a studio and wait for it; the benchmark is
// skipped where there is no OpenGL.
func openStudio(b *testing.B) (draw func(step func(*viewer.Renderer) (bool, error))) {
	failed := make(chan error, 1)
	s := viewer.OpenStudio(guard.New(func(f guard.Fault) { b.Error(f.Reason) }, nil), func(err error) { failed <- err })
	b.Cleanup(s.Close)
	return func(step func(*viewer.Renderer) (bool, error)) {
		drawn := make(chan error)
		s.Live(viewer.Picture{Step: func(r *viewer.Renderer) (bool, error) {
			_, err := step(r)
			drawn <- err
			return false, err
		}})
		select {
		case err := <-drawn:
			if err != nil {
				b.Fatal(err)
			}
		case err := <-failed:
			b.Skip(err)
		}
	}
}

// BenchmarkDrag is what a moved pointer costs on one core, from the edit to all that shows it: the change
// settled and evaluated, plan and section drawn and painted, the scene and a moving picture, each as large as
// in a window of 1280 × 800. It reports the parts in milliseconds; the window works the drawings and the
// picture out beside each other.
func BenchmarkDrag(b *testing.B) {
	side := func(j job.Job, by float64) edit.Edit {
		a, c := j.Room.Outline[0], j.Room.Outline[1]
		middle, n := a.Add(c).Mul(0.5), plan.Left(c.Sub(a).Normalize())
		return edit.Drag(edit.Handle{Kind: edit.HandleSide, Index: 0}, middle.Add(n.Mul(by)))
	}
	handle := func(k edit.HandleKind, of func(geometry.Result) plan.Point) func(geometry.Result) func(job.Job, float64) edit.Edit {
		return func(r geometry.Result) func(job.Job, float64) edit.Edit {
			at := of(r)
			along := r.Layout.DrainAlong
			return func(_ job.Job, by float64) edit.Edit { return edit.Drag(edit.Handle{Kind: k}, at.Add(along.Mul(by))) }
		}
	}
	for _, c := range []struct {
		name string
		demo int // of those that come with Underfall
		drag func(geometry.Result) func(job.Job, float64) edit.Edit
	}{
		{"wall", 0, func(geometry.Result) func(job.Job, float64) edit.Edit { return side }},
		{"wall-of-the-largest-room", 6, func(geometry.Result) func(job.Job, float64) edit.Edit { return side }},
		{"joist", 4, func(geometry.Result) func(job.Job, float64) edit.Edit {
			first, _ := job.Find("floor.joists.firstOffsetMM")
			return func(j job.Job, by float64) edit.Edit {
				return edit.Number(first, j.Floor.Joists.FirstOffsetMM+by)
			}
		}},
		{"drain", 0, handle(edit.HandleDrain, func(r geometry.Result) plan.Point { return r.Layout.DrainEdge })},
		{"hole", 0, handle(edit.HandleExit, func(r geometry.Result) plan.Point { return r.Settled.Waste.Exit.At })},
	} {
		b.Run(c.name, func(b *testing.B) {
			before := demotest.Shown(b)[c.demo]
			drag := c.drag(before)
			dragging(b, before, func(step int) (geometry.Result, func(geometry.Result) solid.Cut) {
				s := settle.Do(before.Stated, drag(before.Stated, float64(step)))
				return geometry.EvaluateAfter(before, s.Job, before.Pack), section.ThroughDrain
			})
		})
	}
	b.Run("cut", func(b *testing.B) {
		before := demotest.Shown(b)[0]
		dragging(b, before, func(step int) (geometry.Result, func(geometry.Result) solid.Cut) {
			return before, func(r geometry.Result) solid.Cut {
				cut := section.ThroughDrain(r)
				cut.Origin = cut.Origin.Add(cut.Normal.Mul(float64(step)))
				return cut
			}
		})
	})
}

// atRest draws a picture at rest until it is shown first: by then all is there that what moves is drawn with.
func atRest(b *testing.B, draw func(step func(*viewer.Renderer) (bool, error)), f viewer.Frame) {
	for shown := false; !shown; {
		draw(func(r *viewer.Renderer) (bool, error) {
			img, more, err := r.Rest(f, 0)
			shown = img != nil || !more
			return more, err
		})
	}
}

// dragging measures a drag whose events give a result and where it is cut.
func dragging(b *testing.B, before geometry.Result, event func(step int) (geometry.Result, func(geometry.Result) solid.Cut)) {
	draw := openStudio(b)
	painter, err := paint.NewPainter(fynetheme.DefaultTextFont().Content())
	if err != nil {
		b.Fatal(err)
	}
	style := roomtest.British(b).PaintStyle(1, before.Settled.Units, "")
	places := map[string][]int{}
	e := &engine{painter: painter, show: func(painted) {}, trouble: func(err error) { b.Error(err) }, share: quickShare{0.7}}
	page := func(name string, d section.Drawing, width, height int) {
		view := paint.FitTo(&d, width, height, 1)
		view.Width, view.Height = width, height
		_, places[name] = painter.DrawAfter(image.NewRGBA(image.Rect(0, 0, width, height)), d, view, style, places[name])
	}
	var changed, drawn, pictured time.Duration
	took := func(sum *time.Duration, f func()) {
		start := time.Now()
		f()
		*sum += time.Since(start)
	}
	cut := section.ThroughDrain(before)
	atRest(b, draw, viewer.Frame{Scene: viewer.NewScene(before, nil), Caps: viewer.NewCaps(before, buildup.StageTile, viewer.HatchMM, cut),
		Camera: viewer.CameraFor(viewer.ViewCut, before, 1.7, cut), Stage: buildup.StageTile, Width: 460, Height: 270})
	const furthestMM = 40
	step, n := 0, 0
	for b.Loop() {
		step = (step + 1) % furthestMM
		n++
		var r geometry.Result
		var cut solid.Cut
		took(&changed, func() {
			var at func(geometry.Result) solid.Cut
			r, at = event(step)
			if len(r.Problems) > 0 {
				b.Fatal(r.Problems[0])
			}
			cut = at(r)
		})
		took(&drawn, func() {
			page("plan", still.Plan.Of(r, nil, buildup.StageTile), 432, 320)
			page("section", section.Of(r, cut, buildup.StageTile), 632, 250)
		})
		took(&pictured, func() {
			w := wish{result: r, generation: n, cuts: []solid.Cut{cut}, moving: true, style: style, dimensions: true,
				frame: viewer.Frame{Camera: viewer.CameraFor(viewer.ViewCut, r, 1.7, cut), Stage: buildup.StageTile, Width: 460, Height: 270}}
			p := &progress{engine: e, wish: w}
			draw(p.step)
		})
	}
	for name, sum := range map[string]time.Duration{"ms-change": changed, "ms-drawings": drawn, "ms-picture": pictured} {
		b.ReportMetric(float64(sum.Microseconds())/1000/float64(n), name)
	}
	b.ReportMetric(e.share.share, "share")
}

// BenchmarkTurning is a picture of 1200×800 turned by hand as the window draws
// it: as large as the time between two pictures allows, with dimensions. It
// reports the share of the full size that came out.
func BenchmarkTurning(b *testing.B) {
	draw := openStudio(b)
	painter, err := paint.NewPainter(fynetheme.DefaultTextFont().Content())
	if err != nil {
		b.Fatal(err)
	}
	res := demotest.Results(b)[5]
	cut := section.ThroughDrain(res)
	style := roomtest.British(b).PaintStyle(1, "metric", "")
	e := &engine{painter: painter, show: func(painted) {}, trouble: func(err error) { b.Error(err) }, share: quickShare{0.7}}
	w := wish{result: res, cuts: []solid.Cut{cut}, moving: true, style: style, dimensions: true,
		frame: viewer.Frame{Camera: viewer.CameraFor(viewer.ViewCut, res, 1.5, cut), Stage: buildup.StageTile, Width: 1200, Height: 800}}
	turn := func() {
		w.frame.Camera = w.frame.Camera.Orbit(0.01, 0)
		p := &progress{engine: e, wish: w}
		draw(p.step)
	}
	still := w.frame
	still.Scene, still.Caps = viewer.NewScene(res, nil), viewer.NewCaps(res, buildup.StageTile, viewer.HatchMM, cut)
	atRest(b, draw, still)
	for range 20 { // until the size has settled
		turn()
	}
	for b.Loop() {
		turn()
	}
	b.ReportMetric(e.share.share, "share")
}

// BenchmarkPins is what is written over a moving picture of the job with the most wrong with it, all of which is
// pinned, as large as in a window of 1280 × 800 and turned a little from picture to picture, without the picture itself.
// It reports how many discs that is.
func BenchmarkPins(b *testing.B) {
	painter, err := paint.NewPainter(fynetheme.DefaultTextFont().Content())
	if err != nil {
		b.Fatal(err)
	}
	v := &View{strips: newStrips(), sight: sight.New(func(f func()) { f() }, nil), theme: roomtest.British(b)}
	for _, r := range demotest.Shown(b) {
		if len(r.Findings) > len(v.result.Findings) {
			v.result = r
		}
	}
	v.sight.State = sight.Usual()
	v.sight.AllPins = true
	e, cut := &engine{painter: painter}, section.ThroughDrain(v.result)
	w := wish{result: v.result, moving: true, dimensions: true, cuts: []solid.Cut{cut},
		style: v.theme.PaintStyle(1, v.result.Settled.Units, ""), pins: v.pins(),
		frame: viewer.Frame{Stage: buildup.StageTile, Width: 460, Height: 270,
			Scene: viewer.NewScene(v.result, nil), Caps: &viewer.Caps{Cuts: []solid.Cut{cut}}}}
	home := viewer.CameraFor(viewer.ViewCut, v.result, 1.7, cut)
	img, discs, n := image.NewRGBA(image.Rect(0, 0, 460, 270)), 0, 0
	for b.Loop() {
		n++
		w.frame.Camera = home.Orbit(0.4*math.Sin(float64(n)/40), 0)
		discs += len(e.write(&w, w.frame, img))
	}
	b.ReportMetric(float64(discs)/float64(n), "discs")
}
