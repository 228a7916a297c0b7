package app

import (
	"math"
	"reflect"
	"testing"
	"unsafe"

	"fyne.io/fyne/v2"
	"underfall/app/theme"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/viewer"
)

// other gives every field of a view's state another value, so that none can be
// forgotten that is added later.
func other(s viewState) viewState {
	v := reflect.ValueOf(&s).Elem()
	for i := range v.NumField() {
		change(reflect.NewAt(v.Field(i).Type(), unsafe.Pointer(v.Field(i).UnsafeAddr())).Elem())
	}
	return s
}

// change gives a value another one that may stand in its place.
func change(v reflect.Value) {
	switch x := v.Addr().Interface().(type) {
	case *cutMode:
		*x = map[cutMode]cutMode{cutDrain: cutRun, cutRun: cutCorner, cutCorner: cutDrain}[*x]
		return
	case *buildup.Stage:
		*x = (*x + 1) % buildup.Stages
		return
	case *viewer.Look:
		*x = (*x + 1) % (viewer.LookHeights + 1)
		return
	case *viewer.Light:
		*x = viewer.LightDay + viewer.LightEvening - *x
		return
	case **mark:
		*x = &mark{label: "elsewhere"}
		return
	}
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Float64:
		if x := v.Float(); x >= 0 && x <= 1 {
			v.SetFloat(math.Mod(x+0.5, 1)) // a share
		} else {
			v.SetFloat(x + 7)
		}
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Array:
		for i := range v.Len() {
			change(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			change(v.Field(i))
		}
	default:
		panic("no other value for a " + v.Type().String())
	}
}

// differences names the fields two states differ in.
func differences(a, b viewState) []string {
	var out []string
	x, y := reflect.ValueOf(&a).Elem(), reflect.ValueOf(&b).Elem()
	field := func(v reflect.Value, i int) any {
		return reflect.NewAt(v.Field(i).Type(), unsafe.Pointer(v.Field(i).UnsafeAddr())).Elem().Interface()
	}
	for i := range x.NumField() {
		if !reflect.DeepEqual(field(x, i), field(y, i)) {
			out = append(out, x.Type().Field(i).Name)
		}
	}
	return out
}

// The other state differs in every field: what the tests below rest on.
func TestOtherStateDiffersInAll(t *testing.T) {
	if n, all := len(differences(usualView(), other(usualView()))), reflect.TypeFor[viewState]().NumField(); n != all {
		t.Errorf("%d of %d fields differ: %v", n, all, differences(usualView(), other(usualView())))
	}
}

// The showroom gives everything back. Stage, layers apart, what was chosen and
// marked, measuring and the camera used to stay as it had left them.
func TestShowroomGivesAllBack(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	until(t, "the job", func() bool { return !w.replaced })
	w.view.Resize(fyne.NewSize(300, 200))
	before := other(w.shared.viewState)
	before.placed, before.touched = true, true
	f := w.change.Result.Findings[0]
	before.mark, before.marked = w.markOf(f), f.Key()
	w.setView(before)
	w.openShowroom()
	s := w.shared.viewState
	if s.cutOn || s.look != viewer.LookFinished || s.apart != 0 || s.stage != buildup.StageTile ||
		s.chosen != "" || s.mark != nil || s.measuring || s.water {
		t.Errorf("the showroom is technical: %+v", s)
	}
	inside := other(other(w.shared.viewState))
	inside.placed = true
	w.setView(inside)
	w.closeShowroom()
	settle(t)
	if d := differences(before, w.shared.viewState); len(d) > 0 {
		t.Errorf("the showroom keeps %v", d)
	}
	toolsFollow(t, w)
}

// New and Open begin with the usual view, whatever was looked at before: evening
// light, the wet floor, the heights and the cut used to stay.
func TestNewAndOpenBeginAsUsual(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.view.Resize(fyne.NewSize(300, 200))
	for name, begin := range map[string]func(){
		"New":                 func() { w.begin(job.New()) },
		"Open":                func() { w.openFile("../assets/demos/3-let-in-between-joists.json") },
		"New in the showroom": func() { w.openShowroom(); w.begin(job.New()) },
	} {
		old := other(w.shared.viewState)
		old.placed = true
		w.setView(old)
		begin()
		until(t, "the job", func() bool { return !w.replaced })
		if w.showroom != nil {
			t.Errorf("%s: the showroom is still open", name)
		}
		want := usualView()
		want.placed, want.camera = true, w.view.cameraFor(viewer.ViewCut)
		if d := differences(want, w.shared.viewState); len(d) > 0 {
			t.Errorf("%s keeps %v", name, d)
		}
		toolsFollow(t, w)
	}
}

// A file that cannot be opened leaves the view as it is.
func TestBadFileLeavesTheView(t *testing.T) {
	w, _ := openWindow(t, Options{})
	old := other(w.shared.viewState)
	old.placed = true
	w.setView(old)
	w.openFile("no such file.json")
	if d := differences(old, w.shared.viewState); len(d) > 0 {
		t.Errorf("%v is lost", d)
	}
}

// Whoever changes the state, the tools show it, and do not change it themselves.
func TestToolsFollowTheState(t *testing.T) {
	w, _ := openWindow(t, Options{})
	toolsFollow(t, w)
	for range 4 {
		s := other(w.shared.viewState)
		s.placed = true
		w.setView(s)
		if d := differences(s, w.shared.viewState); len(d) > 0 {
			t.Errorf("showing the state changes %v", d)
		}
		toolsFollow(t, w)
	}
}

// toolsFollow holds every tool against the state.
func toolsFollow(t *testing.T, w *mainWindow) {
	t.Helper()
	s := w.shared.viewState
	lights := map[viewer.Light]string{viewer.LightDay: "Daylight", viewer.LightEvening: "Evening light"}
	looks := map[viewer.Look]string{viewer.LookFinished: "Finished", viewer.LookTechnical: "Technical",
		viewer.LookThrough: "See through", viewer.LookHeights: "Heights"}
	for _, c := range []struct {
		tool      string
		got, want any
	}{
		{"cut", w.cutCheck.Checked, s.cutOn}, {"mode", w.cutMode.Selected, theme.Word(s.mode.name())}, {"look", w.looks.Selected, looks[s.look]},
		{"stage", w.stage.Value, float64(s.stage)}, {"stage's name", w.stageAt.Text, theme.Word(s.stage.Message().ID)},
		{"light", w.settings.lights.Selected, lights[s.light]}, {"wet", w.settings.wet.Checked, s.wet},
		{"dimensions", w.settings.dimensions.Checked, s.dimensions},
		{"motion", w.settings.motion.Checked, s.motion}, {"apart", w.settings.apart.Value, s.apart}, {"water", w.water.Run.Checked, s.water},
		{"water in plan", w.plan.watering, s.water},
		{"measuring in section", w.section.measuring, s.measuring}, {"measuring in 3D", w.view.tape.on, s.measuring},
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("%s shows %v, the state is %v", c.tool, c.got, c.want)
		}
	}
}

// A cut that was dragged away comes back by choosing its mode again, by its
// button and by a key; choosing again used to do nothing.
func TestCutComesBack(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for name, back := range map[string]func(){
		"the mode chosen again": func() { w.cutMode.SetSelectedIndex(w.cutMode.SelectedIndex()) },
		"the button":            func() { buttonCalled(w.main, "Fit").OnTapped() },
		"the key":               func() { w.keys.Plain(&fyne.KeyEvent{Name: fyne.Key0}) },
	} {
		w.shared.drag(w.change.Result, planeDrain, 180)
		if w.shared.offsetMM[planeDrain] == 0 {
			t.Fatal("the cut is not dragged")
		}
		back()
		if w.shared.offsetMM != [planes]float64{} || w.shared.draggedMM != [planes]float64{} {
			t.Errorf("%s leaves the cut at %v", name, w.shared.offsetMM)
		}
	}
}

// However far a plane is dragged or nudged, it cuts the room, and comes back as
// soon as it is dragged back; when the room shrinks it comes along.
func TestCutStaysInTheRoom(t *testing.T) {
	w, _ := openWindow(t, Options{})
	r := w.change.Result
	both := func(plane int) bool {
		c := w.shared.plane(w.change.Result, plane)
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range w.change.Result.Settled.Room.Outline {
			side := c.Side([3]float64{p.X(), p.Y(), c.Origin.Z()})
			low, high = min(low, side), max(high, side)
		}
		return low < -1 && high > 1
	}
	for _, mode := range cutModes() {
		for _, by := range []float64{50000, -50000} {
			w.shared.setMode(mode)
			for _, plane := range w.shared.active() {
				w.shared.drag(r, plane, by)
				if !both(plane) {
					t.Errorf("%s: dragged by %v plane %d leaves the room", mode, by, plane)
				}
				at := w.shared.offsetMM[plane]
				w.shared.drag(r, plane, -math.Copysign(60, by))
				if moved := w.shared.offsetMM[plane] - at; math.Abs(moved) < 60-2*snapWithinMM || moved*by > 0 {
					t.Errorf("%s: dragged back by 60 it moves by %v", mode, moved)
				}
			}
			for range 800 {
				w.shared.nudge(r, math.Copysign(10, by))
			}
			if !both(w.shared.active()[0]) {
				t.Errorf("%s: nudged by %v it leaves the room", mode, by)
			}
		}
	}
	w.shared.setMode(cutDrain)
	w.shared.drag(r, planeDrain, 50000)
	w.shared.offsetMM[planeDrain], w.shared.draggedMM[planeDrain] = 5000, 5000 // as in a larger room
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Name += "." }))
	until(t, "the change", func() bool { return w.change.Result.Settled.Name != r.Settled.Name })
	if !both(planeDrain) {
		t.Error("in a smaller room the plane stays outside")
	}
}
