package rail_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/rail"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// railOf is a rail in a window, in a language, with what it opened last.
func railOf(t *testing.T, language string, size fyne.Size) (r *rail.Rail, w fyne.Window, opened *int) {
	t.Helper()
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	a := test.NewTempApp(t)
	a.Settings().SetTheme(theme.New(false, shelf.Book(language, unit.Metric, nil)))
	opened = new(int)
	*opened = -1
	r = rail.New(control.NewKeys(), len(job.Stations()), func(station int) { *opened = station })
	w = test.NewTempWindow(t, r)
	w.SetPadded(false)
	w.Resize(size)
	return r, w, opened
}

type labelled interface{ AccessibilityLabel() string }

// The rail has every station of the work with its facts; a press, Enter and Space open one, the
// arrows go along it.
func TestStations(t *testing.T) {
	r, w, opened := railOf(t, words.British, fyne.NewSize(1280, 64))
	result := demotest.Shown(t)[0]
	r.Tell(result.StationsOf(result.Answer(nil)), unit.Metric)
	stations := r.Inside()
	if len(stations) != 7 {
		t.Fatalf("%d stations", len(stations))
	}
	// Its room is 2400 by 1900 with a door in the wall one comes in by.
	if label := stations[0].(labelled).AccessibilityLabel(); label != "Room: 2400 × 1900, door in A" {
		t.Errorf("the first is “%s”", label)
	}
	test.Tap(stations[4].(fyne.Tappable))
	if *opened != 4 {
		t.Errorf("a press on the fifth opened %d", *opened)
	}
	key := func(k fyne.KeyName) { w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	w.Canvas().Focus(stations[1].(fyne.Focusable))
	key(fyne.KeyRight)
	key(fyne.KeyRight)
	key(fyne.KeyLeft)
	key(fyne.KeyReturn)
	if *opened != 2 {
		t.Errorf("after the arrows Enter opened %d, want 2", *opened)
	}
	w.Canvas().Focus(stations[0].(fyne.Focusable))
	key(fyne.KeyLeft)
	key(fyne.KeySpace)
	if *opened != 0 {
		t.Errorf("before the first there is none, Space opened %d", *opened)
	}
}

// In a language that is longer by half the names of the stations have room at the least width
// that shows all facts, for every demo.
func TestLongNamesHaveRoom(t *testing.T) {
	r, _, _ := railOf(t, words.MadeUp, fyne.NewSize(1280, 64))
	for _, result := range demotest.Shown(t) {
		r.Tell(result.StationsOf(result.Answer(nil)), unit.Metric)
		for _, s := range r.Inside() {
			right := s.Size().Width
			for _, o := range test.WidgetRenderer(s.(fyne.Widget)).Objects() {
				if l, ok := o.(labelled); ok && o.Position().X+o.MinSize().Width > right {
					t.Errorf("%s: “%s” reaches over %v", result.Settled.Name, l.AccessibilityLabel(), right)
				}
			}
		}
	}
}

// A station at which something is tried says so with its facts as they would be and how it would then stand; under the
// pointer it says that a press puts that back, and afterwards it is as it was. The others stay as they are.
func TestWhatIsTriedIsSaidAtItsStation(t *testing.T) {
	r, _, _ := railOf(t, words.British, fyne.NewSize(1280, 64))
	result := demotest.Shown(t)[0]
	all := result.StationsOf(result.Answer(nil))
	r.Tell(all, unit.Metric)
	label := func(i int) string { return r.Inside()[i].(labelled).AccessibilityLabel() }
	before := []string{label(0), label(4)}
	tried := all[4]
	tried.Standing, tried.Facts = geometry.Stops, all[0].Facts
	r.Try([]geometry.StationFacts{tried}, unit.Metric)
	if label(0) != before[0] || label(4) != "Way out: trying: 2400 × 1900, door in A. Put back" || !r.Trying(4) || r.Trying(0) {
		t.Errorf("trying, the stations say %q and %q", label(0), label(4))
	}
	facts := func() (said string) {
		for _, o := range test.WidgetRenderer(r.Inside()[4].(fyne.Widget)).Objects() {
			if l, ok := o.(*control.Text); ok {
				said = l.Text
			}
		}
		return said
	}
	over := r.Inside()[4].(desktop.Hoverable)
	if over.MouseIn(nil); facts() != "Put back" {
		t.Errorf("under the pointer it says %q", facts())
	}
	if over.MouseOut(); facts() != "trying: 2400 × 1900, door in A" {
		t.Errorf("it says %q", facts())
	}
	if r.Try(nil, unit.Metric); label(4) != before[1] || r.Trying(4) {
		t.Errorf("put back it says %q", label(4))
	}
}
