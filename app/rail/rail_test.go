package rail_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/rail"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
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
