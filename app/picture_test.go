package app

import (
	"context"
	"image"
	"math"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/viewer"
)

// withPicture opens the window and waits for its first picture; the test is
// skipped where there is no 3D.
func withPicture(t *testing.T) *mainWindow {
	t.Helper()
	w, _ := openWindow(t, Options{})
	w.view.Resize(fyne.NewSize(420, 300))
	until(t, "a picture or a notice", func() bool { return w.view.picture.Image != nil || w.view.notice.Visible() })
	if w.view.notice.Visible() {
		t.Skip("no 3D here: " + w.view.notice.Text)
	}
	return w
}

// Two taps on a part open the field it comes from.
func TestDoubleTapEdits(t *testing.T) {
	w := withPicture(t)
	w.sight.Change(func(s *sight.State) { s.CutOn = false })
	w.sight.Camera = viewer.CameraFor(viewer.ViewPlan, w.change.Result, w.view.aspect())
	c := w.change.Result.Layout.Shower.Centroid()
	x, y, _ := w.sight.Camera.Project([3]float64{c.X(), c.Y(), w.change.Result.Heights.TileMM}, w.view.aspect())
	at := fyne.NewPos(float32(x)*w.view.Size().Width, float32(y)*w.view.Size().Height)
	w.view.Tapped(&fyne.PointEvent{Position: at})
	if w.sight.Chosen != "tile" {
		t.Fatalf("%q is chosen", w.sight.Chosen)
	}
	w.view.Tapped(&fyne.PointEvent{Position: at})
	if !focusIn(w, numberField(t, w, "layers.shower.tile.thicknessMM")) {
		t.Error("the tile's thickness has not got the focus")
	}
}

// Two corners of the shower's tile are measured in space: their distance is the
// shower's width.
func TestMeasureInSpace(t *testing.T) {
	w := withPicture(t)
	w.setMeasuring(true)
	r := w.change.Result
	w.sight.Change(func(s *sight.State) { s.CutOn = false })
	w.sight.Camera = viewer.CameraFor(viewer.ViewPlan, r, w.view.aspect())
	for _, p := range r.Layout.Corners[2:] {
		x, y, _ := w.sight.Camera.Project([3]float64{p.X(), p.Y(), r.Heights.ShowerAt(&r.Layout, p)}, w.view.aspect())
		w.view.Tapped(&fyne.PointEvent{Position: fyne.NewPos(float32(x)*w.view.Size().Width, float32(y)*w.view.Size().Height)})
	}
	if n := len(w.view.tape.points); n != 2 {
		t.Fatalf("%d points", n)
	}
	if got := w.view.tape.points[1].Sub(w.view.tape.points[0]).Len(); math.Abs(got-r.Settled.Shower.WidthMM) > 30 {
		t.Errorf("measured %v, the shower is %v wide", got, r.Settled.Shower.WidthMM)
	}
	if !w.view.tape.label.Visible() {
		t.Error("the measure is not written")
	}
	w.setMeasuring(false)
}

// A lost context is opened anew and the picture comes back.
func TestLostContextComesBack(t *testing.T) {
	w := withPicture(t)
	lost := make(chan struct{})
	var once sync.Once
	w.view.engine.studio.Live(viewer.Picture{Step: func(*viewer.Renderer) (bool, error) {
		err := error(nil)
		once.Do(func() { close(lost); err = viewer.ErrLost })
		return false, err
	}})
	<-lost
	w.view.picture.Image = nil
	w.view.ask(true)
	until(t, "the picture", func() bool { return w.view.picture.Image != nil })
	if w.view.notice.Visible() {
		t.Error("3D is given up: " + w.view.notice.Text)
	}
}

// The showroom changes the job by its large controls, compares, and leaves the
// window as it was.
func TestShowroom(t *testing.T) {
	w := withPicture(t)
	w.openShowroom()
	s := w.showroom
	if s == nil || !w.view.plain || w.sight.CutOn {
		t.Fatal("the showroom is not open, or technical")
	}
	width := w.desk.Job().Shower.WidthMM
	press := func(label string) {
		t.Helper()
		for _, o := range s.controls.Objects {
			if b := buttonCalled(o, label); b != nil {
				b.OnTapped()
				settle(t)
				return
			}
		}
		t.Fatalf("no button %q", label)
	}
	press("−")
	until(t, "the smaller shower", func() bool { return w.desk.Job().Shower.WidthMM == width-100 })
	press("Brass")
	until(t, "brass", func() bool { return w.desk.Job().Style.Metal == job.MetalBrass })
	press("Keep this to compare")
	if w.view.other == nil {
		t.Error("nothing is kept")
	}
	press("Terrazzo")
	until(t, "both pictures", func() bool {
		return w.desk.Job().Layers.Shower.Surface == job.SurfaceTerrazzo && w.view.other != nil
	})
	size := w.view.Size()
	at := func(x float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, 30)} }
	w.view.MouseDown(&desktop.MouseEvent{PointEvent: at(size.Width / 2), Button: desktop.MouseButtonPrimary})
	w.view.Dragged(&fyne.DragEvent{PointEvent: at(size.Width / 4), Dragged: fyne.NewDelta(-size.Width/4, 0)})
	w.view.MouseUp(nil)
	if math.Abs(w.view.divide-0.25) > 0.01 {
		t.Errorf("the line stands at %v", w.view.divide)
	}
	press("Look inside")
	if !w.sight.CutOn {
		t.Error("one cannot look inside")
	}
	press("Close")
	if w.showroom != nil || w.view.plain || !w.sight.CutOn || w.view.other != nil {
		t.Error("the window is not as it was")
	}
}

// A still is written in the background, without the background it was asked to
// leave out; a stopped one is not.
func TestTakePicture(t *testing.T) {
	w := withPicture(t)
	path := filepath.Join(t.TempDir(), "still.png")
	frames := w.pictureFrames(image.Pt(80, 60), true, false)
	w.drawPictures(frames, path)
	until(t, "the file", func() bool { _, err := os.Stat(path); return err == nil })
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil || img.Bounds().Dx() != 80 {
		t.Fatalf("%v, %v", img, err)
	}
	if n := len(w.pictureFrames(image.Pt(80, 60), false, true)); n != turntableSteps {
		t.Errorf("a turn has %d pictures", n)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	drawn := func(int, *image.RGBA) error { t.Error("a stopped picture is drawn"); return nil }
	if err := w.view.engine.studio.Stills(ctx, frames, 4, nil, drawn); err == nil {
		t.Error("stopping is no error")
	}
	if got := still.PictureFile("a/b.png", 2, 36); got != "a/b-03.png" {
		t.Errorf("the third picture of a turn is called %q", got)
	}
}

// A picture is taken while the view turns; with -race this used to be reported.
func TestTakePictureWhileTheViewTurns(t *testing.T) {
	w := withPicture(t)
	w.view.Resize(fyne.NewSize(120, 90))
	path := filepath.Join(t.TempDir(), "still.png")
	w.drawPictures(w.pictureFrames(image.Pt(80, 60), true, false), path)
	pictures := 0
	until(t, "a turning view", func() bool {
		if w.view.picture.Image != nil {
			pictures++
			w.view.picture.Image = nil
		}
		w.sight.Camera = w.sight.Camera.Orbit(0.05, 0)
		w.view.ask(true)
		return pictures > 10
	})
	if _, err := os.Stat(path); err == nil {
		t.Error("the picture was done before the view turned")
	}
	until(t, "the file", func() bool { _, err := os.Stat(path); return err == nil })
}

// A later stage comes down from above unless motion is off; the end is the
// stage itself either way.
func TestStageArrives(t *testing.T) {
	w := withPicture(t)
	w.view.arrive(buildup.StageBare)
	w.view.arrive(buildup.StageBase)
	until(t, "the arrival", func() bool { return w.view.arriving == 0 && w.sight.Stage == buildup.StageBase })
	w.sight.Motion = false
	w.view.arrive(buildup.StageFormer)
	if w.view.arriving != 0 || w.sight.Stage != buildup.StageFormer {
		t.Error("without motion the stage does not come at once")
	}
}
