package start_test

import (
	"strings"
	"testing"
	"underfall/app/golden"

	"fyne.io/fyne/v2"
	"underfall/app/words"
	"underfall/geometry/question"
)

// Jobs stand by what comes next: what cannot be built first, those looked at last first among them;
// what cannot be read or is not worked out yet at the end.
func TestRowsByWhatComesNext(t *testing.T) {
	inApp(t, false, words.British)
	f, a := aFront(t, "UK")
	w := opened(t, f.Object(), 1280, 800)
	want := "/later.json /stops.json /tight.json /sound.json /gone.json /broken.json /open.json"
	if got := strings.Join(f.Rows(), " "); got != want {
		t.Errorf("rows %s, want %s", got, want)
	}
	key := func(k fyne.KeyName) { w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	f.FocusRow(0)
	key(fyne.KeyDown)
	key(fyne.KeyReturn)
	key(fyne.KeyDelete)
	f.FocusRow(4)
	key(fyne.KeyReturn)
	if strings.Join(a.opened, " ") != "/stops.json" || strings.Join(a.removed, " ") != "/stops.json" || strings.Join(a.seeks, " ") != "/gone.json" {
		t.Errorf("opened %v, removed %v, looked for %v", a.opened, a.removed, a.seeks)
	}
	f.Find()
	typeIn(w, "MILL")
	if got := strings.Join(f.Rows(), " "); got != "/tight.json" {
		t.Errorf("found %s", got)
	}
}

// A new job is begun on the page itself: two lengths and Enter.
func TestBeginningOnThePage(t *testing.T) {
	inApp(t, false, words.British)
	f, a := aFront(t, "UK")
	w := opened(t, f.Object(), 1280, 800)
	f.Focus()
	typeIn(w, "2600")
	w.Canvas().FocusNext()
	typeIn(w, "99999999")
	key := func(k fyne.KeyName) { w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyReturn)
	if len(a.begun) > 0 {
		t.Fatalf("begun with a room without end: %+v", a.begun)
	}
	w.Canvas().Focused().(interface{ SetText(string) }).SetText("2100")
	key(fyne.KeyReturn)
	if len(a.begun) != 1 || a.begun[0].At(question.RoomLong) != question.Given(2600) || a.begun[0].At(question.RoomWide) != question.Given(2100) {
		t.Errorf("begun %+v", a.begun)
	}
}

// Both pages look as they did, in the light and in the dark.
func TestGoldenPages(t *testing.T) {
	for name, dark := range map[string]bool{"light": false, "dark": true} {
		inApp(t, dark, words.British)
		s, _ := aSheet(t, "UK", true)
		golden.Check(t, "sheet-"+name, opened(t, s.Object(), 1280, 800).Canvas().Capture())
		f, _ := aFront(t, "UK")
		golden.Check(t, "front-"+name, opened(t, f.Object(), 1280, 800).Canvas().Capture())
	}
}
