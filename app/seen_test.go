package app

import (
	"fmt"
	"image"
	"image/draw"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"underfall/app/golden"
	"underfall/app/theme"
	"underfall/geometry/job"
)

// The desk looks as it did when it was looked at: in the light and in the dark, from the usual window
// to a large one, with the fields of a station and without. Drawings and the picture in space are left
// out, which other tests look at.
func TestTheDeskAsSeen(t *testing.T) {
	for _, at := range []struct {
		size   fyne.Size
		dark   bool
		demo   int
		fields job.Station // none for the tray closed
	}{
		{fyne.NewSize(1280, 800), false, 0, job.StationWayOut},
		{fyne.NewSize(1280, 800), true, 1, ""},
		{fyne.NewSize(1920, 1080), true, 0, job.StationShower},
	} {
		w, _ := openWindow(t, Options{Dark: at.dark})
		w.window.Resize(at.size)
		w.sides.close()
		if err := w.desk.Replace(w.demos[at.demo].Job); err != nil {
			t.Fatal(err)
		}
		until(t, "the demo", func() bool { return w.change.Result.Settled.Name == w.demos[at.demo].Job.Name })
		if at.fields != "" {
			w.tray.Open(at.fields)
			w.sides.openFields()
		}
		until(t, "its chances", func() bool {
			c := w.answer.Chances() // those of the job before stand until the panels follow
			return w.answer.Result().Settled.Name == w.demos[at.demo].Job.Name && c != nil && !c.Rough
		})
		look := "light"
		if at.dark {
			look = "dark"
		}
		golden.Check(t, fmt.Sprintf("desk-%g-%s", at.size.Width, look), w.atRest(t))
	}
}

// atRest is the window once nothing changes in it, without drawings and the picture in space.
func (w *mainWindow) atRest(t *testing.T) image.Image {
	t.Helper()
	var before, now *image.NRGBA
	until(t, "the desk at rest", func() bool {
		const long = 2 * time.Second // a loaded machine works remedies out slowly
		time.Sleep(long)
		before, now = now, w.seen()
		if before == nil || before.Rect != now.Rect {
			return false
		}
		worst, _ := golden.Apart(before, now)
		return worst == 0
	})
	return now
}

// seen is the window as it is, without drawings and the picture in space.
func (w *mainWindow) seen() *image.NRGBA {
	shot := w.window.Canvas().Capture()
	img := image.NewNRGBA(shot.Bounds())
	draw.Draw(img, img.Rect, shot, shot.Bounds().Min, draw.Src)
	for _, r := range []region{regionPlan, regionPicture, regionSection} {
		o := w.frame.clips[r]
		at, size := o.Position(), o.Size()
		if o.Visible() {
			draw.Draw(img, image.Rect(int(at.X), int(at.Y), int(at.X+size.Width), int(at.Y+size.Height)),
				image.NewUniform(w.theme.Role(theme.Paper)), image.Point{}, draw.Src)
		}
	}
	return img
}
