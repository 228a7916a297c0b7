package space

import (
	"image"
	"testing"

	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/roomtest"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/section"
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

// BenchmarkDragValue is everything a dragged value costs on one core: a new
// job, its evaluation, the scene, the caps, a moving picture at the size the
// window uses, and the section painted.
func BenchmarkDragValue(b *testing.B) {
	packs, demos := demotest.Packs(b), demotest.Rooms(b)
	draw := openStudio(b)
	painter, err := paint.NewPainter(fynetheme.DefaultTextFont().Content())
	if err != nil {
		b.Fatal(err)
	}
	style := roomtest.British(b).PaintStyle(1, "metric", "")
	j := demos[0].Job
	depth, _ := job.Find("shower.depthMM")
	v := 900.0
	var scene *viewer.Scene
	for b.Loop() {
		v += 0.5
		if v > 1000 {
			v = 900
		}
		res := geometry.Evaluate(depth.With(j, v), packs["UK"])
		cut := section.ThroughDrain(res)
		scene = viewer.NewScene(res, scene)
		f := viewer.Frame{Scene: scene, Caps: viewer.NewCaps(res, buildup.StageTile, 11, cut),
			Camera: viewer.CameraFor(viewer.ViewCut, res, 2, cut), Stage: buildup.StageTile, Width: 440, Height: 220}
		draw(func(r *viewer.Renderer) (bool, error) {
			_, err := r.Draw(f, true)
			return false, err
		})
		d := section.Of(res, cut, buildup.StageTile)
		img := image.NewRGBA(image.Rect(0, 0, 626, 315))
		painter.Draw(img, d, paint.Fit(d.FocusLow, d.FocusHigh, 626, 315, 1), style)
	}
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
	e := &engine{painter: painter, show: func(*image.RGBA, viewer.Frame, int) {}, trouble: func(err error) { b.Error(err) }, share: quickShare{0.7}}
	w := wish{result: res, cuts: []solid.Cut{cut}, moving: true, style: &style,
		frame: viewer.Frame{Camera: viewer.CameraFor(viewer.ViewCut, res, 1.5, cut), Stage: buildup.StageTile, Width: 1200, Height: 800}}
	turn := func() {
		w.frame.Camera = w.frame.Camera.Orbit(0.01, 0)
		p := &progress{engine: e, wish: w}
		draw(p.step)
	}
	for range 20 { // until the size has settled
		turn()
	}
	for b.Loop() {
		turn()
	}
	b.ReportMetric(e.share.share, "share")
}
