package space

import (
	"fmt"
	"image"
	"math"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"underfall/app/desk"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/message"
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

// A picture that is not seen is not drawn while things change, once they rest, and at once where it comes to be seen.
func TestUnseenItWaits(t *testing.T) {
	v, b := pictured(t)
	pictures := 0
	v.Pictured = func(image.Point) { pictures++ }
	v.Away(true)
	change := func() (soon bool) {
		at := time.Now()
		v.SetResult(b.Change.Result, false)
		time.Sleep(awayAfter / 8)
		b.Settle()
		return time.Since(at) < awayAfter
	}
	change()
	left := make(chan struct{})
	v.engine.studio.Live(viewer.Picture{Step: func(*viewer.Renderer) (bool, error) {
		close(left)
		return false, nil
	}})
	<-left
	b.Settle() // what was being drawn before has come
	before := pictures
	soon := change()
	for range 12 {
		if soon = change() && soon; soon && pictures > before { // a busy computer may have let it rest
			t.Fatalf("%d pictures, and none is seen", pictures-before)
		}
	}
	b.Until("the picture at rest", func() bool { return pictures > before && !v.owed })
	change()
	before = pictures
	v.Away(false)
	if v.owed {
		t.Error("it is seen, and none is asked for")
	}
	b.Until("the picture that is seen", func() bool { return pictures > before })
}

// A picture that is to come after a while is owed until then.
func TestPicturedAfterAWhile(t *testing.T) {
	v, b := pictured(t)
	b.Until("the picture", v.Shows)
	pictures := 0
	v.Pictured = func(image.Point) { pictures++ }
	const wait = 50 * time.Millisecond
	began := time.Now()
	v.SetResultIn(wait, b.Change.Result)
	if v.Shows() {
		t.Fatal("no picture is owed")
	}
	b.Until("the picture that was owed", func() bool { return pictures > 0 && v.Shows() })
	if took := time.Since(began); took < wait {
		t.Errorf("there after %v", took)
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

// Results stand beside each other, each on the right of a line, which is dragged no further than to the next, with what it is over
// it; one that stays keeps what is drawn of it, and the camera is not moved by any of it.
func TestCompare(t *testing.T) {
	v, b := pictured(t)
	s := v.strips
	first, second := b.Change.Result, b.Change.Result
	v.Compare([]*geometry.Result{&first}, []string{"Now", "Kept"})
	b.Until("both pictures", func() bool { return s.lines[0].Visible() && !s.lines[1].Visible() })
	size := v.Size()
	at := func(x float64) fyne.PointEvent {
		return fyne.PointEvent{Position: fyne.NewPos(float32(x)*size.Width, 30)}
	}
	v.sight.Touched = false
	drag := func(from, to float64) {
		v.MouseDown(&desktop.MouseEvent{PointEvent: at(from), Button: desktop.MouseButtonPrimary})
		v.Dragged(&fyne.DragEvent{PointEvent: at(to), Dragged: fyne.NewDelta(float32(to-from)*size.Width, 0)})
		v.MouseUp(nil)
		v.DragEnd()
	}
	near := func(want ...float64) {
		t.Helper()
		if !slices.EqualFunc(s.divides, want, func(a, b float64) bool { return math.Abs(a-b) < 0.01 }) {
			t.Errorf("the lines stand at %v, not at %v", s.divides, want)
		}
	}
	// The lines divide the shower, as far as it is in the picture.
	low, high := 1., 0.
	for _, p := range first.Layout.Corners {
		x, _, _ := v.sight.Camera.Project(p.Vec3(first.Heights.ShowerAt(&first.Layout, p)), v.aspect())
		low, high = min(low, max(0, x)), max(high, min(1, x))
	}
	across := func(share float64) float64 { return low + share*(high-low) }
	near(across(0.5))
	drag(across(0.5), 0.2)
	near(0.2)
	v.Compare([]*geometry.Result{&first, &second}, []string{"Now", "Kept 1", "Kept 2, of which there is a lot to be said"})
	b.Until("three pictures", func() bool { return s.lines[0].Visible() && s.lines[1].Visible() })
	near(across(1./3), across(2./3))
	drag(across(1./3), 0.95)
	near(across(2./3)-0.02, across(2./3))
	drag(across(2./3)-0.02, 0.1) // of two that lie on each other the first
	near(0.1, across(2./3))
	if v.sight.Touched {
		t.Error("the camera counts as turned by hand")
	}
	for i, text := range s.texts {
		from, to := float32(0), size.Width
		if i > 0 {
			from = float32(s.divides[i-1]) * size.Width
		}
		if i < len(s.divides) {
			to = float32(s.divides[i]) * size.Width
		}
		if text.Visible() && (text.Position().X < from || text.Position().X+text.MinSize().Width > to || !strings.HasPrefix(s.says[i], strings.TrimSuffix(text.Text, "…"))) {
			t.Errorf("%q stands from %v on, its strip from %v to %v", text.Text, text.Position().X, from, to)
		}
	}
	if s.texts[1].Text != "Kept 1" || !s.texts[1].Visible() {
		t.Errorf("over the second stands %q", s.texts[1].Text)
	}
	counted := s.others[1].generation
	v.Compare([]*geometry.Result{&second}, []string{"Now", "Kept"})
	if s.others[0].generation != counted {
		t.Error("what stays is made ready anew")
	}
	v.Compare(nil, nil)
	b.Until("one picture", func() bool { return !s.lines[0].Visible() && !s.texts[0].Visible() })
}

// What is looked at from a ready-made place of the room is framed anew where another room has come of it; so is a picture that was
// turned by hand and shows nothing of the shower any more. One that still shows what it must is left as it is.
func TestAnotherRoomIsFramedAnew(t *testing.T) {
	v, b := at(t)
	v.sight.Change(func(s *sight.State) { s.CutOn = false })
	v.Plain = true
	opposite := func(j *job.Job) {
		j.Shower.Wall = (j.Shower.Wall + 2) % len(j.Room.Outline)
		j.Room.Fixtures, j.Room.Windows = nil, nil
		j.Shower.Head = nil
	}
	v.Look(viewer.ViewPhoto)
	b.Until("a photograph", func() bool { return viewer.Frames(&v.result, v.sight.Camera, v.aspect()) })
	v.rest()
	before := v.sight.Camera
	v.rest()
	if v.sight.Camera != before {
		t.Error("the picture is moved though it shows what it must")
	}
	b.Desk.Do(edit.Of(message.Of("edit.shower-look"), opposite))
	b.Until("the shower at the other wall", func() bool { return v.result.Settled.Shower.Head == nil })
	if viewer.Frames(&v.result, v.sight.Camera, v.aspect()) {
		t.Fatal("the other room is seen as well from there")
	}
	v.rest()
	b.Until("the other room in the picture", func() bool { return viewer.Frames(&v.result, v.sight.Camera, v.aspect()) })
	// Turned by hand, then another room again.
	v.rest()
	v.Turn(0.01, 0)
	v.rest()
	if v.sight.View != "" || !v.sees() {
		t.Fatalf("turned by hand it is looked at from %q", v.sight.View)
	}
	turned := &v.sight.Camera
	turned.Target, turned.Yaw = turned.Eye().Mul(2).Sub(turned.Target), turned.Yaw+math.Pi
	v.saw, v.sawFrom = true, v.sight.Camera
	if v.sees() {
		t.Fatal("the shower is seen with one's back to it")
	}
	v.rest()
	b.Until("the shower in the picture", func() bool { return v.sight.View == viewer.ViewPhoto && v.sees() })
}

// A cut that an edit turns along the way one looks is looked at anew: with the drain at another wall the one through it was seen from
// its edge, and the picture behind what is cut. One that the user has turned away from is left.
func TestACutThatTurnsIsFollowed(t *testing.T) {
	v, b := at(t)
	v.sight.Change(func(s *sight.State) { s.CutOn = true })
	v.Look(viewer.ViewCut)
	b.Until("the cut", func() bool { return v.sight.Camera == v.cameraFor(viewer.ViewCut) && v.faces() })
	cut, squarely := v.sight.Cut(v.result), v.sight.Camera
	for yaw := -math.Pi; yaw < math.Pi; yaw += 0.05 {
		c := squarely.Orbit(yaw, 0)
		if cut.Side(c.Eye()) > cut.Side(squarely.Eye()) {
			squarely = c
		}
	}
	v.sight.Camera = squarely
	v.rest()
	if v.sight.Camera != squarely {
		t.Fatal("the camera does not stay where it was put")
	}
	b.Desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Fall = job.FallLeft }))
	b.Until("the drain at the left", func() bool { return v.result.Settled.Former.Fall == job.FallLeft })
	v.rest()
	b.Until("the cut's face", func() bool { return v.faces() && v.sight.Camera == v.cameraFor(viewer.ViewCut) })
	v.rest()
	v.sight.Camera = v.sight.Camera.Orbit(math.Pi, 0)
	away := v.sight.Camera
	if v.rest(); v.faces() || v.sight.Camera != away {
		t.Error("turned away from by hand, it is brought back")
	}
}

// A still that is upright shows all of the shower that the picture shows, from a ready-made place and from one of one's own; one as
// wide as the picture has its camera.
func TestAnUprightStillShowsAsMuch(t *testing.T) {
	v, _ := at(t)
	v.sight.Change(func(s *sight.State) { s.CutOn = false })
	v.Plain = true
	v.sight.Camera = v.cameraFor(viewer.ViewPhoto)
	for _, name := range []viewer.View{viewer.ViewPhoto, ""} {
		v.sight.View = name
		if c := v.Shot(image.Pt(4200, 3000), false, false).frames[0].Camera; c != v.sight.Camera {
			t.Errorf("%q: the camera of a still as wide is another", name)
		}
		const wide, high = 1080, 1920
		c := v.Shot(image.Pt(wide, high), false, false).frames[0].Camera
		seen := 0
		for _, p := range v.result.Layout.Corners {
			x, y, ok := c.Project(p.Vec3(v.result.Heights.ShowerAt(&v.result.Layout, p)), wide/float64(high))
			if ok && x > 0 && x < 1 && y > 0 && y < 1 {
				seen++
			}
		}
		before := v.sight.Camera
		if p := v.result.Layout.Shower.Centroid(); seen < 3 || c == before {
			t.Errorf("%q: upright it shows %d of 4 corners of the shower round %v", name, seen, p)
		}
	}
}

// Once it is cleared no picture is shown that was wished for before, and the next that is wished for is.
func TestClearedItShowsNothingOfBefore(t *testing.T) {
	v, b := pictured(t)
	old := painted{image: image.NewRGBA(image.Rect(0, 0, 4, 4)), frame: v.frame, generation: v.generation, serial: v.asked}
	v.Clear()
	if v.shown(old); v.picture.Image != nil {
		t.Error("a picture of before is shown")
	}
	want := v.cameraFor(viewer.ViewPlan)
	if v.Look(viewer.ViewPlan); v.sight.Camera != want {
		t.Error("it is flown though nothing is seen")
	}
	b.Until("a picture", func() bool { return v.picture.Image != nil })
}

// Where there is no picture the view has a ground, as what it stands on is not painted under it; with one it has none, nor in the
// showroom.
func TestGroundOfNoPicture(t *testing.T) {
	v, b := at(t)
	b.Until("a picture", func() bool { return v.picture.Image != nil })
	if v.ground.Visible() {
		t.Error("the ground is painted under the picture")
	}
	v.Clear()
	if !v.ground.Visible() || v.ground.Size() != v.Size() {
		t.Error("nothing stands where the picture was")
	}
	v.Plain = true
	if v.Clear(); v.ground.Visible() {
		t.Error("the showroom has a ground of the window's")
	}
}

// What is seen under the pointer is dragged along its wall as far as the pointer goes, to one or the other side; the camera stays.
func TestThingsFollowThePointer(t *testing.T) {
	v, b := at(t)
	v.sight.Change(func(s *sight.State) { s.CutOn = false })
	r := b.Change.Result
	v.sight.Camera = viewer.CameraFor(viewer.ViewPhoto, r, v.aspect())
	var told, let float64
	v.ThingMoved = func(_ job.ThingKind, mm float64) { told = mm }
	v.ThingLet = func(_ job.ThingKind, mm float64) {
		if let = mm; v.Holds() {
			t.Error("what is told to be let go is still held")
		}
	}
	dragged := 0
	for _, o := range furnish.Of(&r).Objects {
		if k, ok := o.Thing(); !ok || k == job.ThingMirror || k == job.ThingVase {
			continue
		}
		place := func(alongMM float64) fyne.Position {
			q := o.Middle().Add(o.Along().Mul(alongMM)).Vec3((o.FromMM + o.ToMM) / 2)
			x, y, _ := v.sight.Camera.Project(q, v.aspect())
			return fyne.NewPos(float32(x)*v.Size().Width, float32(y)*v.Size().Height)
		}
		from := place(0)
		if under, ok := v.thingUnder(from); !ok || under.Kind != o.Kind {
			continue // something stands before its middle, or it is out of the picture
		}
		before := v.sight.Camera
		for _, mm := range []float64{60, -60} {
			v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}, Button: desktop.MouseButtonPrimary})
			v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: place(mm)}})
			if !v.Holds() || v.sight.Held() == sight.HeldNothing {
				t.Errorf("%s: while it is dragged nothing is held", o.Kind)
			}
			v.MouseUp(nil)
			if v.DragEnd(); v.Holds() || v.sight.Held() != sight.HeldNothing {
				t.Errorf("%s: let go it is held", o.Kind)
			}
			if math.Abs(told-mm) > 12 || let != told { // nearer the eye a millimetre is more of the picture
				t.Errorf("%s: dragged by %v it is told %v, let go %v", o.Kind, mm, told, let)
			}
		}
		if v.sight.Camera != before || v.sight.Touched {
			t.Errorf("%s: the camera moves as well", o.Kind)
		}
		dragged++
	}
	if dragged == 0 {
		t.Error("nothing could be dragged")
	}
}
