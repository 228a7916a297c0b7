package app

import (
	"fmt"
	"image"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/app/paint"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/viewer"
)

// seenAt tells what is wrong with how a place is shown, empty for nothing. It looks with its own eyes: whether
// the camera's eye is in a part follows from that part's mesh, what lies before the place from a ray
// through the scene.
func seenAt(w *mainWindow, at mgl64.Vec3) string {
	r, c, cuts := w.change.Result, w.sight.Camera, w.sight.Cuts(w.change.Result)
	size := w.view.Size()
	if x, y, ok := c.Project(at, float64(size.Width/size.Height)); !ok || x < 0.05 || x > 0.95 || y < 0.05 || y > 0.95 {
		return "it is not in the picture"
	}
	eye := c.Eye()
	taken := func(p mgl64.Vec3) bool {
		least := math.Inf(1)
		for _, cut := range cuts {
			least = math.Min(least, cut.Side(p))
		}
		return len(cuts) > 0 && least > 0
	}
	for _, p := range r.Assembly.Parts {
		if p.Wall > 0 { // left out as soon as it stands before the room
			l := r.Layout.Walls[p.Wall-1]
			if (eye.X()-l.A.X())*l.Outward.X()+(eye.Y()-l.A.Y())*l.Outward.Y() > 0 {
				continue
			}
		}
		if !taken(eye) && demotest.Holds(p.Mesh(), eye) {
			return "the camera stands in " + p.ID
		}
	}
	for _, cut := range cuts {
		if math.Abs(cut.Side(at)) < 1 && cut.Side(eye) > 0 {
			return "" // the cut passes it, seen from the side that is taken away
		}
	}
	f := viewer.Frame{Scene: viewer.NewScene(r, nil), Stage: w.sight.Stage}
	if len(cuts) > 0 {
		f.Caps = &viewer.Caps{Cuts: cuts}
	}
	to := at.Sub(eye)
	if hit, ok := f.Pick(eye, to.Normalize()); ok && hit.At.Sub(eye).Len() < to.Len()-61 {
		return "before it is " + hit.Part.ID
	}
	return ""
}

// eachJob opens the demo jobs and some more one after the other in a window in which nothing moves.
func eachJob(t *testing.T, more []job.Job, visit func(w *mainWindow, r geometry.Result)) {
	w, _ := openWindow(t, Options{})
	w.theme.SetStill(true)
	var all []job.Job
	for i := range w.demos {
		all = append(all, w.demos[i].Job)
	}
	for _, j := range append(all, more...) {
		w.resetView()
		if err := w.desk.Replace(j); err != nil {
			t.Fatal(err)
		}
		until(t, "the job", func() bool { return !w.replaced && w.change.Result.Settled.Name == j.Name })
		w.view.Resize(fyne.NewSize(460, 270))
		w.digitAt = time.Time{} // a key that was pressed in the job before begins no figure in this one
		visit(w, w.change.Result)
	}
}

// cutAt tells what is wrong with how a place is shown in the section, empty for nothing: the cut goes through it, or as
// near to it as leaves something of the room on both sides, and it is on the sheet, or so high over the floor that no section shows it.
func cutAt(w *mainWindow, at mgl64.Vec3) string {
	const insideMM = 11
	d := w.sight.Section(w.change.Result)
	switch off := math.Abs(d.Cut.Side(at)); {
	case off > insideMM:
		return fmt.Sprintf("the cut passes it by %.0f", off)
	case !d.Fault.IsZero():
		return "there is no such cut: " + d.Fault.String()
	}
	const wide, high, rim, overMM = 600, 200, 2, 1000
	flat := d.Cut.Flat(at)
	x, y := paint.FitTo(&d, wide, high, 1).ToPixel(flat)
	if x < rim || x > wide-rim || (y < rim || y > high-rim) && flat.Y() < d.FocusHigh.Y()+overMM {
		return fmt.Sprintf("at %.0f it stands at %.0f, %.0f of the sheet, which shows %.0f to %.0f", flat, x, y, d.FocusLow, d.FocusHigh)
	}
	return ""
}

// spoilt are jobs that are bad on purpose: with no fall to the floor, with an uneven slab that leaves the pipe none, led
// through walls and joists, with a pipe and a trap too small, and with a level and a floor that are not known.
func spoilt(t *testing.T) []job.Job {
	t.Helper()
	start := func() job.Job { return demotest.Rooms(t)[0].Job.Clone() }
	flat, flatPipe, long, small, unknown, across := start(), start(), start(), start(), start(), clash(t)
	flat.Former.Slope = 0
	flatPipe.Waste.Gradient = 0.0005
	long.Drain.OutletTurnDeg, long.Waste.Exit = 0, job.Exit{Kind: job.ExitPipe, At: plan.Point{2300, 1832}}
	small.Waste.NominalMM, small.Waste.OutsideDiameterMM, small.Waste.BoreMM = 32, 32, 28
	small.Drain.SealMM, small.Water.ShowerFlowsLPS = 15, []float64{0.4, 0.4}
	unknown.Waste.Beyond = nil
	unknown.SetStanding("floor.kind", job.NotKnown)
	all := []job.Job{flat, flatPipe, long, small, unknown, across}
	for i := range all {
		all[i].Name = fmt.Sprintf("spoilt %d", i+1)
	}
	return all
}

// Whatever is wrong with any demo, and with jobs that are bad on purpose, its place is shown: in the picture, nothing
// before it, the camera in nothing; what lies there is lit and the section goes across it. Then all is as it was.
func TestEveryFindingIsShown(t *testing.T) {
	rules := map[string]bool{}
	eachJob(t, spoilt(t), func(w *mainWindow, r geometry.Result) {
		before := w.sight.State
		for _, f := range r.Findings {
			rules[f.Rule.ID] = true
			w.goToFinding(f)
			settle(t)
			if wrong := seenAt(w, f.Measurement.At); wrong != "" {
				t.Errorf("%s, %s at %.0f: %s", r.Settled.Name, f.Key(), f.Measurement.At, wrong)
			}
			if wrong := cutAt(w, f.Measurement.At); wrong != "" {
				t.Errorf("%s, %s at %.0f: %s", r.Settled.Name, f.Key(), f.Measurement.At, wrong)
			}
			if w.sight.Mark == nil || w.sight.Mark.At != f.Measurement.At {
				t.Errorf("%s, %s: the place is not marked", r.Settled.Name, f.Key())
			}
			if at := w.sight.Chosen; at != "" && far(r, at, f.Measurement.At) > 120 {
				t.Errorf("%s, %s: %s is lit, which is elsewhere", r.Settled.Name, f.Key(), at)
			}
			if !w.drawings.shown[0].view.Visible() || w.drawings.SelectedIndex() != 0 {
				t.Errorf("%s, %s: the section does not show", r.Settled.Name, f.Key())
			}
		}
		backAsBefore(t, w, before, len(r.Findings) > 0)
	})
	for _, id := range []string{"beyond-unknown", "clash-deck", "clash-joist", "core-slab",
		"former-pieces", "head-splash", "pipe-exposed", "uk-fall-min", "uk-seal"} {
		if !rules[id] {
			t.Errorf("nothing breaks %s; broken are %v", id, slices.Sorted(maps.Keys(rules)))
		}
	}
}

// far is how far a part's bounds are from a place.
func far(r geometry.Result, part string, at mgl64.Vec3) float64 {
	for _, p := range r.Assembly.Parts {
		if p.ID == part {
			b := p.Bounds()
			out := mgl64.Vec3{}
			for k := range 3 {
				out[k] = math.Max(0, math.Max(b.Low[k]-at[k], at[k]-b.High[k]))
			}
			return out.Len()
		}
	}
	return math.Inf(1)
}

// backAsBefore goes back, once, and holds what is looked at against what was.
func backAsBefore(t *testing.T, w *mainWindow, before sight.State, went bool) {
	t.Helper()
	if w.pictureHead.back.Visible() != went {
		t.Errorf("the way back shows: %v, went anywhere: %v", w.pictureHead.back.Visible(), went)
	}
	w.plainKey(&fyne.KeyEvent{Name: fyne.Key0})
	settle(t)
	before.Touched = w.sight.Touched
	if d := differences(before, w.sight.State); len(d) > 0 {
		t.Errorf("%s: back, these are not as they were: %v", w.change.Result.Settled.Name, d)
	}
	if w.pictureHead.back.Visible() {
		t.Error("back, there is still a way back")
	}
}

// The figures of the plate and the levels of the schedule are shown as well, and the same button leads back.
func TestFiguresAndLevelsAreShown(t *testing.T) {
	eachJob(t, nil, func(w *mainWindow, r geometry.Result) {
		before := w.sight.State
		for _, f := range r.Figures() {
			w.goToFigure(f)
			settle(t)
			if wrong := seenAt(w, f.At); wrong != "" {
				t.Errorf("%s, figure %s: %s", r.Settled.Name, f.Of.ID, wrong)
			}
		}
		for _, row := range r.Schedule {
			w.goToLevel(row)
			settle(t)
			if wrong := seenAt(w, row.At); wrong != "" {
				t.Errorf("%s, level %v at %.0f: %s", r.Settled.Name, row.ID, row.At, wrong)
			}
		}
		w.pictureHead.back.OnPressed()
		settle(t)
		before.Touched = w.sight.Touched
		if d := differences(before, w.sight.State); len(d) > 0 {
			t.Errorf("%s: back, these are not as they were: %v", r.Settled.Name, d)
		}
	})
}

// What is lit because its place was gone to goes out with Escape, and once something else is asked to be looked at; what was
// chosen instead stays chosen.
func TestWhatWasGoneToGoesOut(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.theme.SetStill(true)
	until(t, "the job", func() bool { return len(w.change.Result.Layout.Walls) > 0 })
	figure := w.change.Result.Figures()[0]
	for what, leave := range map[string]func(){
		"Escape":       func() { w.plainKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) },
		"another view": func() { w.lookFrom(viewer.ViewCorner) },
	} {
		w.goToFigure(figure)
		if w.sight.Chosen == "" {
			t.Fatal("nothing is lit")
		}
		if leave(); w.sight.Chosen != "" {
			t.Errorf("%s leaves %s lit", what, w.sight.Chosen)
		}
		w.goToFigure(figure)
		w.sight.Change(func(s *sight.State) { s.Chosen = "base" })
		if leave(); w.sight.Chosen != "base" {
			t.Errorf("%s puts out what was chosen", what)
		}
	}
}

// What was asked to be looked at after a place was gone to is not taken back.
func TestAnotherViewIsNoPlaceToGoBackFrom(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	w.theme.SetStill(true)
	until(t, "the job", func() bool { return len(w.change.Result.Findings) > 0 })
	w.view.Resize(fyne.NewSize(460, 270))
	w.goToFinding(w.change.Result.Findings[0])
	w.window.Canvas().Unfocus() // of the field that it is of, where a digit would be one of a figure
	w.plainKey(&fyne.KeyEvent{Name: fyne.Key4})
	settle(t)
	at := w.sight.Camera
	w.digitAt = time.Time{} // some time later
	w.plainKey(&fyne.KeyEvent{Name: fyne.Key0})
	settle(t)
	if w.sight.Camera != at || w.pictureHead.back.Visible() {
		t.Error("key 0 goes back from a view that was asked for")
	}
}

// A pin that is pressed opens the card of what is found there, in sight with that of its places, and that is gone
// to as from the card.
func TestAPinLeadsToItsCard(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	w.theme.SetStill(true)
	until(t, "the cards", func() bool { return !w.replaced && w.answer.Result().Settled.Name == "Cannot be built as drawn" })
	w.view.Resize(fyne.NewSize(460, 270))
	for _, c := range w.answer.Answer().Cards {
		last := c.Places[len(c.Places)-1]
		w.view.Go(last.Finding)
		settle(t)
		if w.sight.Marked != last.Key() {
			t.Errorf("%s: %s is marked", last.Key(), w.sight.Marked)
		}
		if told := w.answer.Details(); !strings.Contains(told, theme.Say(last.Rule.Text(), w.change.Result.Settled.Units)) {
			t.Errorf("%s: the card that is open says “%s”", last.Key(), told)
		}
	}
}

// A trial that is put back, a number that is typed, and a pane that is made smaller and large again leave the picture
// looked at from where it was, however that was.
func TestFramingIsKept(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	w.theme.SetStill(true)
	until(t, "the job", func() bool { return !w.replaced && w.change.Result.Settled.Name == "Cannot be built as drawn" })
	w.view.Resize(fyne.NewSize(460, 270))
	w.lookFrom(viewer.ViewFront)
	w.view.Turn(0.2, 0.1)
	settle(t)
	at := w.sight.Camera
	same := func(what string) {
		t.Helper()
		settle(t)
		if is := w.sight.Camera; is.Target.Sub(at.Target).Len() > 1e-6 || math.Abs(is.Yaw-at.Yaw)+math.Abs(is.Pitch-at.Pitch) > 1e-9 ||
			math.Abs(is.DistanceMM-at.DistanceMM) > 1e-6 {
			t.Errorf("%s: looked at from %+v, before from %+v", what, is, at)
		}
	}
	until(t, "the button", func() bool { return w.answer.PressOffer("trap-joist", "Cut the joist out between trimmers") })
	until(t, "the trial", w.trial.Running)
	w.trial.PutBack()
	same("a trial that was put back")
	in, _ := job.InputOf("shower.depthMM")
	w.desk.Do(edit.Number(*in.Number, w.desk.Job().Shower.DepthMM+50))
	until(t, "the change", func() bool { return w.change.Result.Settled.Shower.DepthMM == 950 })
	same("a deeper shower")
	for _, size := range []fyne.Size{{Width: 220, Height: 300}, {Width: 900, Height: 300}, {Width: 460, Height: 270}} {
		w.view.Resize(size)
		settle(t)
	}
	same("a pane made narrow, wide, and as it was")
}

// What was gone to and is cured is marked no longer, in the picture and in the drawings, at once and not only when
// something else is looked at; cured only in what is being typed it is marked again once that is given up. Back from
// there it is not marked again either.
func TestAPinGoesWithItsCause(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.theme.SetStill(true)
	w.showPanels()
	w.begin(clash(t))
	until(t, "the cards", func() bool { return w.answer.Press("trap-joist") })
	w.view.Resize(fyne.NewSize(460, 270))
	key := w.sight.Marked
	painted := func() image.Image {
		t.Helper()
		until(t, "the section", w.section.AtRest)
		settle(t)
		return imageIn(w.section).Image
	}
	cure := edit.Of(message.Of("edit.test"), func(j *job.Job) { *j = demotest.Rooms(t)[2].Job.Clone() })
	found := func() bool {
		return slices.ContainsFunc(w.change.Result.Findings, func(f rule.Finding) bool { return f.Key() == key })
	}
	marked := func(what string, want bool) {
		t.Helper()
		if found() != want || (w.sight.Mark != nil) != want {
			t.Fatalf("%s: found %v, marked %v, want %v", what, found(), w.sight.Mark, want)
		}
		was := painted()
		w.section.Redraw()
		if !reflect.DeepEqual(painted(), was) {
			t.Errorf("%s: drawn anew, the section is another", what)
		}
	}
	marked("gone to", true)
	w.desk.Preview(cure)
	until(t, "the preview", func() bool { return !found() })
	marked("typed", false)
	w.desk.EndPreview()
	until(t, "given up", found)
	marked("given up", true)
	w.desk.Do(cure)
	until(t, "the cure", func() bool { return !found() })
	marked("cured", false)
	w.goBack()
	settle(t)
	marked("back", false)
}
