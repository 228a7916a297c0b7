package app

import (
	"context"
	"image"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/space"
	"underfall/app/still"
	"underfall/geometry/edit"
)

// withPicture opens the window and waits for its first picture; the test is
// skipped where there is no 3D.
func withPicture(t *testing.T) *mainWindow {
	t.Helper()
	w, _ := openWindow(t, Options{})
	w.frame.bring(regionPicture)
	w.view.Resize(fyne.NewSize(420, 300))
	until(t, "a picture or a notice", func() bool { return w.view.Drawn() || noticeIn(w.view) != "" })
	if !w.view.Drawn() {
		t.Skip("no 3D here: " + noticeIn(w.view))
	}
	return w
}

// The showroom is not technical, and leaves the window as it was.
func TestShowroom(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.openShowroom()
	if w.showroom == nil || !w.view.Plain || w.sight.CutOn {
		t.Fatal("the showroom is not open, or technical")
	}
	press := func(label string) {
		t.Helper()
		b := buttonCalled(w.window.Content(), label)
		if b == nil {
			t.Fatalf("no button %q", label)
		}
		b.OnTapped()
		settle(t)
	}
	width := w.desk.Job().Shower.WidthMM
	press("−")
	until(t, "the smaller shower", func() bool { return w.change.Result.Settled.Shower.WidthMM == width-100 })
	press("Close")
	if w.showroom != nil || w.view.Plain || !w.sight.CutOn || w.window.Content() != w.main {
		t.Error("the window is not as it was")
	}
}

// A still is written in the background, without the background it was asked to
// leave out; a stopped one is not.
func TestTakePicture(t *testing.T) {
	w := withPicture(t)
	path := filepath.Join(t.TempDir(), "still.png")
	shot := w.view.Shot(image.Pt(80, 60), true, false)
	w.drawPictures(shot, path)
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
	if n := w.view.Shot(image.Pt(80, 60), false, true).Pictures(); n != space.TurnSteps {
		t.Errorf("a turn has %d pictures", n)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	drawn := func(int, *image.RGBA) error { t.Error("a stopped picture is drawn"); return nil }
	if _, err := shot.Draw(ctx, nil, drawn); err == nil {
		t.Error("stopping is no error")
	}
	if got := still.PictureFile("a/b.png", 2, 36); got != "a/b-03.png" {
		t.Errorf("the third picture of a turn is called %q", got)
	}
}

// A picture of the finished room that was taken stands on the customer's sheet, as often followed as stills are, until the job is
// another; one without its background, or of a room still being built, does not.
func TestTheTakenPictureGoesOntoPaper(t *testing.T) {
	w := withPicture(t)
	take := func(shot space.Shot) {
		t.Helper()
		path := filepath.Join(t.TempDir(), "still.png")
		w.drawPictures(shot, path)
		until(t, "the picture", func() bool { _, err := os.Stat(path); return err == nil && len(w.stills.Objects) == 0 })
	}
	onPaper := func() (image.Image, int) {
		t.Helper()
		w.putOnPaper()
		if w.papers == nil {
			t.Fatal("nothing is put on paper")
		}
		defer w.leavePaper()
		return w.finished.of(w.view)
	}
	take(w.view.Photograph(image.Pt(80, 60)))
	if img, samples := onPaper(); img == nil || img.Bounds().Dx() != 80 || samples != 32 {
		t.Errorf("on paper is %v, followed %d times", img != nil, samples)
	}
	w.finished = finishedStill{}
	take(w.view.Shot(image.Pt(80, 60), true, false))
	if img, _ := onPaper(); img != nil {
		t.Error("a picture without its background is on paper")
	}
	take(w.view.Photograph(image.Pt(80, 60)))
	before := w.view.Photograph(image.Pt(8, 6))
	w.desk.Do(edit.WidenShower(-100))
	until(t, "the smaller shower", func() bool { return !before.Alike(w.view.Photograph(image.Pt(8, 6))) })
	if img, _ := onPaper(); img != nil {
		t.Error("the picture of another shower is on paper")
	}
}

// A picture is taken while the view turns; with -race this used to be reported.
func TestTakePictureWhileTheViewTurns(t *testing.T) {
	w := withPicture(t)
	w.view.Resize(fyne.NewSize(120, 90))
	path := filepath.Join(t.TempDir(), "still.png")
	w.drawPictures(w.view.Shot(image.Pt(80, 60), true, false), path)
	pictures := 0
	until(t, "a turning view", func() bool {
		if shown := imageIn(w.view); shown.Image != nil {
			pictures++
			shown.Image = nil
		}
		w.view.Turn(0.05, 0)
		return pictures > 10
	})
	if _, err := os.Stat(path); err == nil {
		t.Error("the picture was done before the view turned")
	}
	until(t, "the file", func() bool { _, err := os.Stat(path); return err == nil })
}

// While a picture is drawn the window is worked in, what is drawn and how to stop it are told at the foot of the answer, each of
// several by itself, and go with it.
func TestPicturesAreDrawnMeanwhile(t *testing.T) {
	w := withPicture(t)
	path := filepath.Join(t.TempDir(), "still.png")
	w.drawPictures(w.view.Shot(image.Pt(640, 480), false, true), path)
	w.drawPictures(w.view.Shot(image.Pt(80, 60), false, false), path)
	if n := len(w.stills.Objects); n != 2 || w.window.Canvas().Overlays().Top() != nil {
		t.Fatalf("%d pictures are told of, over the window stands %v", n, w.window.Canvas().Overlays().Top())
	}
	for _, left := range []int{1, 0} {
		stopStill(t, w)
		until(t, "it stopped", func() bool { return len(w.stills.Objects) == left })
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("a picture that was stopped is written")
	}
}

// A window that is closed while it draws pictures asks before, as they would be lost; it goes on drawing if that is wanted.
func TestClosingAsksForPicturesBeingDrawn(t *testing.T) {
	w := withPicture(t)
	w.drawPictures(w.view.Shot(image.Pt(640, 480), false, true), filepath.Join(t.TempDir(), "still.png"))
	w.close()
	if w.question == nil || len(w.stills.Objects) != 1 {
		t.Fatalf("question %v, %d pictures being drawn", w.question, len(w.stills.Objects))
	}
	if !w.answerKey(fyne.KeyEscape) || w.question != nil || len(w.stills.Objects) != 1 {
		t.Error("Escape does not go on drawing")
	}
	stopStill(t, w)
	until(t, "it stopped", func() bool { return len(w.stills.Objects) == 0 })
	ended := false
	if w.unlessDrawing(func() { ended = true }); !ended {
		t.Error("it asks while nothing is drawn")
	}
}

// stopStill stops the first of the pictures that are being drawn.
func stopStill(t *testing.T, w *mainWindow) {
	t.Helper()
	for _, o := range test.LaidOutObjects(w.stills) {
		if b, ok := o.(*control.Press); ok {
			b.OnPressed()
			return
		}
	}
	t.Fatal("nothing to stop it by")
}
