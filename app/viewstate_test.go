package app

import (
	"math"
	"reflect"
	"testing"
	"time"
	"unsafe"

	"fyne.io/fyne/v2"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/viewer"
)

// other gives every field of a view's state another value, so that none can be
// forgotten that is added later.
func other(s sight.State) sight.State {
	v := reflect.ValueOf(&s).Elem()
	for i := range v.NumField() {
		change(reflect.NewAt(v.Field(i).Type(), unsafe.Pointer(v.Field(i).UnsafeAddr())).Elem())
	}
	return s
}

// change gives a value another one that may stand in its place.
func change(v reflect.Value) {
	switch x := v.Addr().Interface().(type) {
	case *section.CuttingOf:
		*x = map[section.CuttingOf]section.CuttingOf{section.CutDrain: section.CutPipe, section.CutPipe: section.CutDrain}[*x]
		return
	case *rule.Subject:
		x.Number++
		return
	case *sight.Pressing:
		*x = map[sight.Pressing]sight.Pressing{sight.PressingNothing: sight.PressingRod, sight.PressingRod: sight.PressingMeasure, sight.PressingMeasure: sight.PressingCut}[*x]
		return
	case *buildup.Stage:
		*x = (*x + 1) % buildup.Stages
		return
	case *viewer.Look:
		*x = (*x + 1) % (viewer.LookHeights + 1)
		return
	case *plan.Quarters:
		*x = x.And(1)
		return
	case **sight.Mark:
		*x = &sight.Mark{Label: message.Of("app.elsewhere")}
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
func differences(a, b sight.State) []string {
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
	if n, all := len(differences(sight.Usual(), other(sight.Usual()))), reflect.TypeFor[sight.State]().NumField(); n != all {
		t.Errorf("%d of %d fields differ: %v", n, all, differences(sight.Usual(), other(sight.Usual())))
	}
}

// The showroom gives everything back. Stage, layers apart, what was chosen and
// marked, measuring and the camera used to stay as it had left them.
func TestShowroomGivesAllBack(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	until(t, "the job", func() bool { return !w.replaced })
	w.view.Resize(fyne.NewSize(300, 200))
	before := other(w.sight.State)
	before.Placed, before.Touched = true, true
	f := w.change.Result.Findings[0]
	before.Mark, before.Marked = markOf(f), f.Key()
	w.setView(before)
	w.openShowroom()
	s := w.sight.State
	if s.CutOn || s.Look != viewer.LookFinished || s.Apart != 0 || s.Stage != buildup.StageTile ||
		s.Chosen != "" || s.Mark != nil || s.Pressing != sight.PressingNothing || s.Water {
		t.Errorf("the showroom is technical: %+v", s)
	}
	inside := other(other(w.sight.State))
	inside.Placed = true
	w.setView(inside)
	w.closeShowroom()
	settle(t)
	if d := differences(before, w.sight.State); len(d) > 0 {
		t.Errorf("the showroom keeps %v", d)
	}
	toolsFollow(t, w)
}

// New and Open begin with the usual view, whatever was looked at before: evening
// light, the heights and the cut used to stay.
func TestNewAndOpenBeginAsUsual(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.view.Resize(fyne.NewSize(300, 200))
	for name, begin := range map[string]func(){
		"New":                 func() { w.begin(job.New()) },
		"Open":                func() { w.openFile("../assets/demos/3-let-in-between-joists.json") },
		"New in the showroom": func() { w.openShowroom(); w.begin(job.New()) },
	} {
		old := other(w.sight.State)
		old.Placed = true
		w.setView(old)
		begin()
		until(t, "the job", func() bool { return !w.replaced })
		if w.showroom != nil {
			t.Errorf("%s: the showroom is still open", name)
		}
		want := sight.Usual()
		want.Placed, want.Camera, want.View = true, w.sight.Camera, w.sight.View
		if want.Camera == old.Camera {
			t.Errorf("%s looks from where it was looked from before", name)
		}
		if d := differences(want, w.sight.State); len(d) > 0 {
			t.Errorf("%s keeps %v", name, d)
		}
		toolsFollow(t, w)
	}
}

// A file that cannot be opened leaves the view as it is.
func TestBadFileLeavesTheView(t *testing.T) {
	w, _ := openWindow(t, Options{})
	old := other(w.sight.State)
	old.Placed = true
	w.setView(old)
	w.openFile("no such file.json")
	if d := differences(old, w.sight.State); len(d) > 0 {
		t.Errorf("%v is lost", d)
	}
}

// Whoever changes the state, the tools show it, and do not change it themselves.
func TestToolsFollowTheState(t *testing.T) {
	w, _ := openWindow(t, Options{})
	toolsFollow(t, w)
	for range 4 {
		s := other(w.sight.State)
		s.Placed = true
		w.setView(s)
		if d := differences(s, w.sight.State); len(d) > 0 {
			t.Errorf("showing the state changes %v", d)
		}
		toolsFollow(t, w)
	}
}

// toolsFollow holds every tool against the state.
func toolsFollow(t *testing.T, w *mainWindow) {
	t.Helper()
	s := w.sight.State
	looks := map[viewer.Look]string{viewer.LookFinished: "Finished", viewer.LookTechnical: "Technical",
		viewer.LookThrough: "See through", viewer.LookHeights: "Heights"}
	for _, c := range []struct {
		tool      string
		got, want any
	}{
		{"cut", w.cutCheck.Checked, s.CutOn}, {"look", w.looks.AccessibilityLabel(), theme.Word("app.drawn-how") + ": " + looks[s.Look]},
		{"stage", w.stage.At(), int(s.Stage)}, {"stage's name", w.stage.Name(), theme.Word(s.Stage.Message().ID)},
		{"dimensions", w.settings.dimensions.Checked, s.Dimensions},
		{"apart", w.settings.apart.Value, s.Apart}, {"water", w.water.Run.Checked, s.Water},
		{"measuring", w.planHead.several.Chosen() == string(sight.PressingMeasure), s.Pressing == sight.PressingMeasure},
		{"aiming", w.planHead.several.Chosen() == string(sight.PressingCut), s.Pressing == sight.PressingCut},
		{"standing", w.planHead.several.Chosen() == string(sight.PressingRod), s.Pressing == sight.PressingRod},
		{"fit", w.fit.Chosen, s.MovedMM(sight.PlaneFirst) != 0 || !s.Corner && s.Cutting.TurnedDeg != 0},
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("%s shows %v, the state is %v", c.tool, c.got, c.want)
		}
	}
}

// A cut that was dragged away and turned comes back by pressing its place again, by its button and by keys;
// pressing again used to do nothing.
func TestCutComesBack(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for name, back := range map[string]func(){
		"the place pressed again": func() { w.pressPlace("3") }, // the drain's, after way in, door and pipe
		"the button":              w.fit.OnPressed,
		"the key":                 func() { w.keys.Plain(&fyne.KeyEvent{Name: fyne.Key0}) },
	} {
		r := w.change.Result
		w.sight.Turn(r, r.Layout.TrapCentre, 20)
		w.sight.Drag(r, sight.PlaneFirst, 180)
		if c := w.sight.Cutting; c.AsideMM == 0 || c.TurnedDeg != 20 || !w.fit.Chosen {
			t.Fatalf("the cut is not dragged and turned: %+v", c)
		}
		back()
		at := w.sight.Cutting
		w.sight.Drag(r, sight.PlaneFirst, 0) // to where it was dragged
		if at != (section.Cutting{Of: section.CutDrain}) || w.sight.Cutting != at || w.fit.Chosen {
			t.Errorf("%s leaves the cut at %+v, dragged to %+v", name, at, w.sight.Cutting)
		}
	}
}

// A room that has changed takes the cut along.
func TestCutFollowsTheRoom(t *testing.T) {
	w, _ := openWindow(t, Options{})
	r := w.change.Result
	const outsideMM = 5000 // as in a larger room
	w.sight.Cutting.AsideMM = outsideMM
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Name += "." }))
	until(t, "the change", func() bool { return w.change.Result.Settled.Name != r.Settled.Name })
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range r.Settled.Room.Outline {
		low, high = min(low, p.Y()), max(high, p.Y())
	}
	if at := math.Abs(w.sight.Cutting.AsideMM); at > high-low {
		t.Errorf("in a room of %v mm the cut stands %v mm off the drain", high-low, at)
	}
}

// What is said of something that is over goes by itself, and leaves alone what has been said since.
func TestWhatIsOverIsSaidAwhile(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return !w.replaced })
	const wait = 10 * time.Millisecond
	w.sayFor(wait, "over")
	until(t, "it gone", func() bool { return w.teller.Text() == "" })
	w.sayFor(wait, "over")
	w.say("newer", true)
	time.Sleep(3 * wait)
	settle(t)
	if w.teller.Text() != "newer" {
		t.Error("what has been said since goes as well")
	}
}
