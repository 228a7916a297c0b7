package app

import (
	"fmt"
	"image"
	"image/draw"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/golden"
	"underfall/app/roomtest"
	"underfall/app/theme"
	"underfall/geometry/job"
)

// The desk looks as it did when it was looked at: in the light and in the dark, from the usual window
// to the least and to a large one, with the fields of a station and without. The picture in space is left
// out, which other tests look at.
func TestTheDeskAsSeen(t *testing.T) {
	onlyLooks(t)
	for _, at := range []struct {
		size   fyne.Size
		dark   bool
		demo   int
		fields job.Station // none for the tray closed
	}{
		{fyne.NewSize(1280, 800), false, 0, job.StationWayOut},
		{fyne.NewSize(1280, 800), true, 1, ""},
		{fyne.NewSize(1920, 1080), true, 0, job.StationShower},
		{fyne.NewSize(1024, 700), false, 5, ""},
	} {
		w, _ := openWindow(t, Options{Dark: at.dark, Builds: usualBuilds})
		w.theme.SetStill(true)
		w.window.Resize(at.size)
		w.sides.close()
		w.begin(w.demos[at.demo].Job)
		if at.fields != "" {
			w.tray.Open(at.fields)
			w.sides.openFields()
		}
		until(t, "the demo at rest", func() bool {
			return w.change.Result.Settled.Name == w.demos[at.demo].Job.Name && w.resting()
		})
		if !roomtest.NewFrames().Settle(w.window.Content()) {
			t.Fatal("laid out without end")
		}
		until(t, "its drawings", w.resting) // they may have got another size
		haveRoom(t, w, fmt.Sprintf("%v, %s", at.size, w.demos[at.demo].Job.Name))
		look := "light"
		if at.dark {
			look = "dark"
		}
		golden.Check(t, fmt.Sprintf("desk-%g-%s", at.size.Width, look), w.seen())
	}
}

// resting tells whether all that follows from the job on the desk is worked out, drawn and told.
func (w *mainWindow) resting() bool {
	if w.pace.due || len(w.change.Result.Problems) > 0 {
		return false
	}
	for _, f := range w.followers {
		if !f.resting() {
			return false
		}
	}
	for _, d := range w.drawn() {
		if !d.AtRest() {
			return false
		}
	}
	return true
}

// seen is the window as it is, without the picture in space.
func (w *mainWindow) seen() *image.NRGBA {
	shot := w.window.Canvas().Capture()
	img := image.NewNRGBA(shot.Bounds())
	draw.Draw(img, img.Rect, shot, shot.Bounds().Min, draw.Src)
	picture := w.frame.clips[regionPicture]
	if picture.Visible() {
		at, size := picture.Position(), picture.Size()
		draw.Draw(img, image.Rect(int(at.X), int(at.Y), int(at.X+size.Width), int(at.Y+size.Height)),
			image.NewUniform(w.theme.Role(theme.Paper)), image.Point{}, draw.Src)
	}
	return img
}
