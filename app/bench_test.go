package app

import (
	"image"
	"runtime"
	"testing"

	"fyne.io/fyne/v2/theme"
	"underfall/app/paint"
	"underfall/geometry"
	"underfall/geometry/build"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/section"
	"underfall/viewer"
)

// BenchmarkDragValue is everything a dragged value costs on one core: a new
// job, its evaluation, the scene, the caps, a moving picture at the size the
// window uses, and the section painted.
func BenchmarkDragValue(b *testing.B) {
	runtime.LockOSThread()
	packs, demos := demotest.Packs(b), demotest.Demos(b)
	r, err := viewer.NewRenderer()
	if err != nil {
		b.Skip(err)
	}
	defer r.Close()
	painter, err := paint.NewPainter(theme.DefaultTextFont().Content())
	if err != nil {
		b.Fatal(err)
	}
	style := newLook(false).paintStyle(1, "metric", "")
	j := demos[0].Job
	depth, _ := job.Find("shower.depthMM")
	v := 900.0
	for b.Loop() {
		v += 0.5
		if v > 1000 {
			v = 900
		}
		res := geometry.Evaluate(depth.With(j, v), packs["UK"])
		cut := section.ThroughDrain(res)
		f := viewer.Frame{Scene: viewer.NewScene(res, nil), Caps: viewer.NewCaps(res, build.StageTile, 11, cut),
			Camera: viewer.CameraFor(viewer.ViewCut, res, 2, cut), Stage: build.StageTile, Width: 440, Height: 220}
		if _, err := r.Draw(f, true); err != nil {
			b.Fatal(err)
		}
		d := section.Of(res, cut, build.StageTile)
		img := image.NewRGBA(image.Rect(0, 0, 626, 315))
		painter.Draw(img, d, paint.Fit(d.FocusLow, d.FocusHigh, 626, 315, 1), style)
	}
}
