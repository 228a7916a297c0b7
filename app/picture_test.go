package app

import (
	"context"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/paint"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
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

// typeOnText taps the text of a drawing that is meant, once it stands there, and types in its
// field: what is typed takes the place of the number there.
func typeOnText(t *testing.T, w *mainWindow, v *drawingView, typed string, meant func(paint.Placed) bool) {
	t.Helper()
	var box image.Rectangle
	until(t, "the text", func() bool {
		i := slices.IndexFunc(v.placed, meant)
		if i >= 0 {
			box = v.placed[i].Box
		}
		return i >= 0
	})
	at := fyne.NewPos(float32(float64(box.Min.X+box.Dx()/2)/v.scale), float32(float64(box.Min.Y+box.Dy()/2)/v.scale))
	v.Tapped(&fyne.PointEvent{Position: at, AbsolutePosition: at})
	field := w.window.Canvas().Focused()
	if field == nil {
		t.Fatal("tapping the text opens no field")
	}
	for _, r := range typed {
		field.TypedRune(r)
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// A dimension is typed on where it stands, in the plan and in the section; a
// base as low as works becomes a chosen height.
func TestTypingOnADimension(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for _, c := range []struct {
		tab    int
		view   *drawingView
		key    string
		text   string
		landed func(job.Job) bool
	}{
		{1, w.plan, "shower.depthMM", "950", func(j job.Job) bool { return j.Shower.DepthMM == 950 }},
		{1, w.plan, "room.walls[1]", "2000", func(j job.Job) bool { return j.Room.WallLengthMM(1) == 2000 && j.Room.WallLengthMM(3) == 2000 }},
		{0, w.section, "base.heightMM", "90", func(j job.Job) bool { return j.Base.HeightMM == 90 && j.Base.Height == job.HeightChosen }},
	} {
		w.drawings.SelectIndex(c.tab)
		c.view.Resize(fyne.NewSize(700, 330))
		typeOnText(t, w, c.view, c.text, func(p paint.Placed) bool { return p.Key == c.key })
		until(t, c.key+" to land", func() bool { return c.landed(w.desk.Job()) })
	}
}

// A stack is set from a wall by typing on the distance in the plan, and is taken hold of where
// it stands though the waste goes into it.
func TestStackIsSetFromAWall(t *testing.T) {
	w, _ := openWindow(t, Options{})
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{300, 700}, NominalMM: 110, OutsideMM: 110}}
	j.Waste.Exit = job.Exit{Kind: job.ExitStack}
	j.Drain.OutletTurnDeg = 270
	w.desk.Do(edit.Of(message.Of("edit.stack-place"), func(to *job.Job) { *to = j }))
	w.drawings.SelectIndex(1)
	w.plan.Resize(fyne.NewSize(900, 700))
	left := edit.FromWall{Of: edit.Handle{Kind: edit.HandleStack}, Wall: 3}
	typeOnText(t, w, w.plan, "250", func(p paint.Placed) bool { return p.Sets == left })
	if got := w.desk.Job().Room.Stacks[0].At; got != (plan.Point{250, 700}) {
		t.Fatalf("the stack stands at %v", got)
	}
	until(t, "the stack in the plan", func() bool {
		return slices.Contains(w.plan.drawing.Handles, section.Handle{At: plan.Point{250, 700}, Moves: edit.Handle{Kind: edit.HandleStack}})
	})
	at := fyne.PointEvent{Position: w.plan.toWindow(plan.Point{250, 700})}
	w.plan.MouseDown(&desktop.MouseEvent{PointEvent: at, Button: desktop.MouseButtonPrimary})
	if got := w.plan.grasped.handle; got != (edit.Handle{Kind: edit.HandleStack}) {
		t.Errorf("at the stack %v is taken hold of", got)
	}
	w.plan.MouseUp(nil)
}

// A handle that was clicked moves with the arrow keys.
func TestArrowKeysMoveAHandle(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.drawings.SelectIndex(1)
	w.plan.Resize(fyne.NewSize(700, 330))
	until(t, "the plan", func() bool { return len(w.plan.drawing.Handles) > 0 })
	before := w.desk.Job().Shower.DepthMM
	for _, h := range w.plan.drawing.Handles {
		if h.Moves.Kind == edit.HandleDepth {
			w.plan.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: w.plan.toWindow(h.At)}, Button: desktop.MouseButtonPrimary})
			w.plan.MouseUp(nil)
		}
	}
	w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	until(t, "the shower to get deeper", func() bool { return w.desk.Job().Shower.DepthMM == before+5 })
	w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyC})
	if w.cutCheck.Checked {
		t.Error("a key the plan has no use for does not reach the window")
	}
}

// The second plane of a corner stands in the section and is dragged there.
func TestCutIsDraggedInTheSection(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sight.SetMode(sight.CutCorner)
	w.section.Resize(fyne.NewSize(700, 330))
	until(t, "the section", func() bool { return len(w.section.drawing.Areas) > 0 && w.section.fitted == w.section.fits })
	x, _, ok := w.section.crossing(sight.PlaneRun)
	if !ok {
		t.Fatal("the second plane does not show in the section")
	}
	at := w.section.toWindow(plan.Point{x, w.section.view.Centre.Y()})
	w.section.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	w.section.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(-60, 0)}, Dragged: fyne.NewDelta(-60, 0)})
	w.section.MouseUp(nil)
	const snapsMM = 10 // it may fall onto a place that near
	moved, _, _ := w.section.crossing(sight.PlaneRun)
	if want := x - 60/w.section.view.PixelsPerMM*w.section.scale; math.Abs(moved-want) > snapsMM {
		t.Errorf("dragged 60 points to the left the plane stands at %v, want %v", moved, want)
	}
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
