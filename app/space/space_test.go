package space

import (
	"fmt"
	"math"
	"os"
	"strings"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"underfall/app/desk"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/geometry/buildup"
	"underfall/viewer"
)

// at is the picture of the first of the jobs that Underfall comes with, in a window of its own.
func at(t *testing.T) (*View, *roomtest.Bench) {
	t.Helper()
	b := roomtest.New(t, roomtest.First(t))
	s := sight.New(b.Do, b.Guard)
	v := New(s, b.Theme, b.Painter())
	t.Cleanup(func() { close(s.Closed); v.Close() })
	window := test.NewTempWindow(t, v)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(420, 300))
	b.Desk.Subscribe(func(c desk.Change) { v.SetResult(c.Result, false) })
	b.Until("a camera", func() bool { return s.Placed })
	return v, b
}

// pictured is at, once there is a picture; the test is skipped where there is no 3D.
func pictured(t *testing.T) (*View, *roomtest.Bench) {
	t.Helper()
	v, b := at(t)
	b.Until("a picture or a notice", func() bool { return v.Drawn() || v.notice.Visible() })
	if !v.Drawn() {
		t.Skip("no 3D here: " + v.notice.Text)
	}
	return v, b
}

// A tap chooses a part, a second one asks for its field.
func TestDoubleTapEdits(t *testing.T) {
	v, b := pictured(t)
	v.sight.Change(func(s *sight.State) { s.CutOn = false })
	v.sight.Camera = viewer.CameraFor(viewer.ViewPlan, b.Change.Result, v.aspect())
	c := b.Change.Result.Layout.Shower.Centroid()
	x, y, _ := v.sight.Camera.Project([3]float64{c.X(), c.Y(), b.Change.Result.Heights.TileMM}, v.aspect())
	at := fyne.NewPos(float32(x)*v.Size().Width, float32(y)*v.Size().Height)
	var chosen, edited string
	v.Choose, v.Edit = func(part string) { chosen = part }, func(part string) { edited = part }
	v.Tapped(&fyne.PointEvent{Position: at})
	if chosen != "tile" || edited != "" {
		t.Fatalf("%q is chosen, %q edited", chosen, edited)
	}
	v.Tapped(&fyne.PointEvent{Position: at})
	if edited != "tile" {
		t.Errorf("tapped twice, %q is edited", edited)
	}
}

// Two corners of the shower's tile are measured in space: their distance is the
// shower's width.
func TestMeasureInSpace(t *testing.T) {
	v, b := pictured(t)
	v.sight.Change(func(s *sight.State) { s.Pressing = sight.PressingMeasure })
	r := b.Change.Result
	v.sight.Change(func(s *sight.State) { s.CutOn = false })
	v.sight.Camera = viewer.CameraFor(viewer.ViewPlan, r, v.aspect())
	for _, p := range r.Layout.Corners[2:] {
		x, y, _ := v.sight.Camera.Project([3]float64{p.X(), p.Y(), r.Heights.ShowerAt(&r.Layout, p)}, v.aspect())
		v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(float32(x)*v.Size().Width, float32(y)*v.Size().Height)})
	}
	if n := len(v.tape.points); n != 2 {
		t.Fatalf("%d points", n)
	}
	if got := v.tape.points[1].Sub(v.tape.points[0]).Len(); math.Abs(got-r.Settled.Shower.WidthMM) > 30 {
		t.Errorf("measured %v, the shower is %v wide", got, r.Settled.Shower.WidthMM)
	}
	if !v.tape.label.Visible() {
		t.Error("the measure is not written")
	}
	v.sight.Change(func(s *sight.State) { s.Pressing = sight.PressingNothing })
	if len(v.tape.points) != 0 {
		t.Error("the tape is not taken away")
	}
}

// A lost context is opened anew and the picture comes back.
func TestLostContextComesBack(t *testing.T) {
	v, b := pictured(t)
	lost := make(chan struct{})
	var once sync.Once
	v.engine.studio.Live(viewer.Picture{Step: func(*viewer.Renderer) (bool, error) {
		err := error(nil)
		once.Do(func() { close(lost); err = viewer.ErrLost })
		return false, err
	}})
	<-lost
	v.picture.Image = nil
	v.ask(true)
	b.Until("the picture", func() bool { return v.picture.Image != nil })
	if v.notice.Visible() {
		t.Error("3D is given up: " + v.notice.Text)
	}
}

// A later stage comes down from above unless motion is off; the end is the
// stage itself either way.
func TestStageArrives(t *testing.T) {
	v, b := pictured(t)
	v.Arrive(buildup.StageBare)
	v.Arrive(buildup.StageBase)
	b.Until("the arrival", func() bool { return v.arriving == 0 && v.sight.Stage == buildup.StageBase })
	v.theme.SetStill(true)
	v.Arrive(buildup.StageFormer)
	if v.arriving != 0 || v.sight.Stage != buildup.StageFormer {
		t.Error("without motion the stage does not come at once")
	}
}

// Orbit, pan and zoom move the camera; nothing else changes.
func TestCameraMoves(t *testing.T) {
	v, b := at(t)
	before := v.sight.Camera
	v.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	v.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(30, 10)})
	v.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 20)})
	if v.sight.Camera == before || v.sight.Camera.DistanceMM >= before.DistanceMM {
		t.Error("the camera did not move")
	}
	v.Look(viewer.ViewPlan)
	b.Until("the flight", func() bool { return v.sight.Camera.Pitch > 1.5 })
}

// Without 3D the view says why.
func TestWithout3D(t *testing.T) {
	b := roomtest.New(t, roomtest.First(t))
	v := New(sight.New(b.Do, b.Guard), b.Theme, nil)
	t.Cleanup(v.Close)
	v.tellOff(fmt.Errorf("%w (%v)", viewer.ErrNoGraphics, os.ErrNotExist))
	b.Until("the notice", func() bool { return v.notice.Visible() })
	if !strings.Contains(v.notice.Text, "3D picture is off: this computer's graphics driver offers no OpenGL 3.3. ") {
		t.Errorf("notice %q", v.notice.Text)
	}
}

// A second result stands on the right of a line, which is dragged.
func TestCompare(t *testing.T) {
	v, b := pictured(t)
	r := b.Change.Result
	v.Compare(&r)
	b.Until("both pictures", func() bool { return v.divider.Visible() })
	size := v.Size()
	at := func(x float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, 30)} }
	v.MouseDown(&desktop.MouseEvent{PointEvent: at(size.Width / 2), Button: desktop.MouseButtonPrimary})
	v.Dragged(&fyne.DragEvent{PointEvent: at(size.Width / 4), Dragged: fyne.NewDelta(-size.Width/4, 0)})
	v.MouseUp(nil)
	if math.Abs(v.divide-0.25) > 0.01 {
		t.Errorf("the line stands at %v", v.divide)
	}
	v.Compare(nil)
	b.Until("one picture", func() bool { return !v.divider.Visible() })
}
