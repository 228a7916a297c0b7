package start_test

import (
	"fmt"
	"image"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/control"
	"underfall/app/golden"
	"underfall/app/roomtest"
	"underfall/app/start"
	"underfall/app/theme"
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
	if got := strings.Join(f.Shown(), " "); got != want {
		t.Errorf("rows %s, want %s", got, want)
	}
	key := func(k fyne.KeyName) { w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	f.FocusRow(0)
	key(fyne.KeyDown)
	key(fyne.KeyReturn)
	key(fyne.KeyDelete)
	f.FocusRow(4)
	key(fyne.KeyReturn)
	if strings.Join(a.opened, " ") != "/stops.json" || strings.Join(a.removed, " ") != "/stops.json" ||
		strings.Join(a.seeks, " ") != "/gone.json" {
		t.Errorf("opened %v, removed %v, looked for %v", a.opened, a.removed, a.seeks)
	}
	f.Find()
	typeIn(w, "MILL")
	if got := strings.Join(f.Shown(), " "); got != "/tight.json" {
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
	if len(a.begun) != 1 || a.begun[0].At(question.RoomLong) != question.Given(2600) ||
		a.begun[0].At(question.RoomWide) != question.Given(2100) {
		t.Errorf("begun %+v", a.begun)
	}
}

// many are so many jobs that are not worked out yet, each looked at a day before the one before.
func many(n int) (all []start.Job) {
	for i := range n {
		all = append(all, start.Job{Path: fmt.Sprintf("/jobs/%d.json", i), Name: fmt.Sprintf("%d Mill Lane", i), When: "Monday",
			At: time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC).AddDate(0, 0, -i)})
	}
	return all
}

// Of many jobs the latest are shown, and how many others there are; all are on a press, and whoever looks
// for one finds it among all.
func TestOlderJobs(t *testing.T) {
	inApp(t, false, words.British)
	f, a := frontWith(t, "UK", func(o *start.FrontOptions) { o.Jobs, o.Latest = many(30), 24 })
	w := opened(t, f.Object(), 1280, 800)
	if rows := f.Shown(); len(rows) != 24 || rows[0] != "/jobs/0.json" || rows[23] != "/jobs/23.json" ||
		!slices.Contains(texts(w.Canvas()), " Older jobs: 6") {
		t.Errorf("%d rows: %v", len(rows), rows)
	}
	f.Find()
	typeIn(w, "lane 29")
	if rows := f.Shown(); len(rows) != 1 || rows[0] != "/jobs/29.json" || a.all != 1 {
		t.Errorf("found %v, asked for all %d times", rows, a.all)
	}
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if strings.Join(a.opened, " ") != "/jobs/29.json" {
		t.Errorf("Enter on the only one opens %v", a.opened)
	}

	f, a = frontWith(t, "UK", func(o *start.FrontOptions) { o.Jobs, o.Latest = many(30), 24 })
	w = opened(t, f.Object(), 1280, 800)
	press(t, w.Canvas(), "Show all")
	if rows := f.Shown(); len(rows) != 30 || a.all != 1 || slices.Contains(texts(w.Canvas()), " Older jobs: 6") {
		t.Errorf("all are %d, asked for %d times", len(rows), a.all)
	}
}

// The keys go from the page into the list, through it and out at its top; a row keeps them while other
// rows come, and what has them is in sight.
func TestKeysOfTheList(t *testing.T) {
	inApp(t, false, words.British)
	f, a := frontWith(t, "UK", func(o *start.FrontOptions) { o.Jobs = many(20) })
	w := opened(t, f.Object(), 1024, 700)
	key := func(k fyne.KeyName) { w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	f.Rows()
	for range 18 {
		key(fyne.KeyDown)
	}
	f.SetJobs(many(21))
	key(fyne.KeyReturn)
	if strings.Join(a.opened, " ") != "/jobs/18.json" {
		t.Errorf("opened %v", a.opened)
	}
	object := w.Canvas().Focused().(fyne.CanvasObject)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(object)
	if at.Y < 100 || at.Y+object.Size().Height > 700 {
		t.Errorf("the row with the keys is at %v", at)
	}
	for range 19 {
		key(fyne.KeyUp)
	}
	typeIn(w, "20")
	if rows := f.Shown(); strings.Join(rows, " ") != "/jobs/20.json" {
		t.Errorf("above the first row one looks for %v", rows)
	}
	key(fyne.KeyDown)
	key(fyne.KeyDelete)
	if strings.Join(a.removed, " ") != "/jobs/20.json" {
		t.Errorf("removed %v", a.removed)
	}
}

// The right button and the key for it show what can be done with a job; of one that is gone there is
// nothing to open or copy.
func TestMenuOfARow(t *testing.T) {
	inApp(t, false, words.British)
	f, _ := aFront(t, "UK")
	w := opened(t, f.Object(), 1280, 800)
	if got := strings.Join(f.Menu(0), ", "); got != "Open, Open folder, Copy as new, Remove from the list" {
		t.Errorf("a job's menu: %s", got)
	}
	if got := strings.Join(f.Menu(4), ", "); got != "Look for it, Remove from the list" {
		t.Errorf("the menu of one that is gone: %s", got)
	}
	f.PressRight(0)
	if w.Canvas().Overlays().Top() == nil {
		t.Error("the right button shows nothing")
	}
	w.Canvas().Overlays().Remove(w.Canvas().Overlays().Top())
	f.FocusRow(1)
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: desktop.KeyMenu})
	if w.Canvas().Overlays().Top() == nil {
		t.Error("the key shows nothing")
	}
}

// A job is found by its name, its notes, its file or its folder: all words, in any order.
func TestFindingAJob(t *testing.T) {
	inApp(t, false, words.British)
	f, _ := frontWith(t, "UK", func(o *start.FrontOptions) {
		o.Jobs = []start.Job{{Path: "/home/shop/Weaver/bath.json", Name: "Ground floor", Notes: "14 Mill Lane"},
			{Path: "/home/shop/Brandt/shower.json", Name: "Loft, 3 Orchard Row"}}
	})
	w := opened(t, f.Object(), 1280, 800)
	for looked, want := range map[string]string{
		"mill": "bath", "LANE ground": "bath", "weaver": "bath", "shower.json": "shower", "orchard loft": "shower",
		"shop": "", "o": "bath shower", "mill orchard": "",
	} {
		f.Find()
		w.Canvas().Focused().(interface{ SetText(string) }).SetText(looked)
		var got []string
		for _, p := range f.Shown() {
			got = append(got, strings.TrimSuffix(filepath.Base(p), ".json"))
		}
		slices.Sort(got)
		if strings.Join(got, " ") != want {
			t.Errorf("%q finds %v", looked, got)
		}
	}
}

// Without jobs the examples have the page; before the list is read nobody is told that there are none.
func TestPageWithoutJobs(t *testing.T) {
	inApp(t, false, words.British)
	for name, jobs := range map[string][]start.Job{"none": {}, "not read yet": nil} {
		f, _ := frontWith(t, "UK", func(o *start.FrontOptions) { o.Jobs = jobs })
		w := opened(t, f.Object(), 1024, 700)
		none := name == "none"
		all := texts(w.Canvas())
		if slices.Contains(all, " Nothing here yet. Two numbers are enough.") != none || slices.Contains(all, " Your jobs") == none {
			t.Errorf("%s: %q", name, all)
		}
		left := float32(0)
		each(w.Canvas().Content(), fyne.Position{}, func(o fyne.CanvasObject, at fyne.Position) {
			if x, ok := o.(*control.Text); ok && x.Text == "Worked examples" {
				left = at.X
			}
		})
		if (left < 100) != none {
			t.Errorf("%s: the examples are at %.0f", name, left)
		}
	}
}

// No text of the page is cut off nor reaches out of its row, in the least window and in a wide one, nor
// drawn out as in a longer language.
func TestTheFrontHoldsItsTexts(t *testing.T) {
	for _, language := range []string{words.British, words.American, words.MadeUp} {
		for _, size := range []fyne.Size{fyne.NewSize(1024, 700), fyne.NewSize(1280, 800), fyne.NewSize(1920, 1080)} {
			if language == words.MadeUp && size.Width < 1280 {
				continue
			}
			inApp(t, false, language)
			f, _ := frontWith(t, "US", func(o *start.FrontOptions) {
				o.Jobs[0].Name = "The Old Dairy, en suite over the long back kitchen extension"
				o.Where = "Australia and New Zealand · mm · English"
			})
			w := opened(t, f.Object(), size.Width, size.Height)
			if cut := cutOff(w.Canvas().Content(), size); len(cut) > 0 {
				t.Errorf("%s at %v: cut off %q", language, size, cut)
			}
			for i := range f.Shown() {
				if out := f.OutOfRow(i); len(out) > 0 {
					t.Errorf("%s at %v: out of row %d: %q", language, size, i, out)
				}
			}
		}
	}
}

// Both pages look as they did, in the light and in the dark.
func TestGoldenPages(t *testing.T) {
	seen := func(page fyne.CanvasObject, w, h float32) image.Image {
		win := opened(t, page, w, h)
		if !roomtest.NewFrames().Settle(win.Content()) {
			t.Fatal("laid out without end")
		}
		return win.Canvas().Capture()
	}
	for name, dark := range map[string]bool{"light": false, "dark": true} {
		inApp(t, dark, words.British)
		s, _ := aSheet(t, "UK", true)
		golden.Check(t, "sheet-"+name, seen(s.Object(), 1280, 800))
		f, _ := aFront(t, "UK")
		golden.Check(t, "front-"+name, seen(f.Object(), 1280, 800))
		golden.Check(t, "front-least-"+name, seen(f.Object(), 1024, 700))
		none, _ := frontWith(t, "UK", func(o *start.FrontOptions) { o.Jobs, o.Kept = []start.Job{}, nil })
		golden.Check(t, "front-none-"+name, seen(none.Object(), 1024, 700))
	}
}

// With everything large the band of a new job goes into the least window, in every language: nothing in it lies
// over anything else.
func TestTheBandGoesIntoTheLeastWindow(t *testing.T) {
	for _, spoken := range []string{words.British, words.American} {
		for _, large := range []bool{false, true} {
			inApp(t, false, spoken)
			fyne.CurrentApp().Settings().Theme().(*theme.Theme).SetLarge(large)
			f, _ := aFront(t, "UK")
			w := opened(t, f.Object(), 1024, 700)
			roomtest.NewFrames().Settle(w.Content())
			start := called[fyne.CanvasObject](t, f.Object(), "Start")
			for _, label := range []string{"Concrete", "Timber", "Not known"} {
				o := called[fyne.CanvasObject](t, f.Object(), label)
				at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
				if right, begins := at.X+o.Size().Width, fyne.CurrentApp().Driver().AbsolutePositionForObject(start).X; right > begins {
					t.Errorf("%s, large %v: %q ends at %v, the way on begins at %v", spoken, large, label, right, begins)
				}
			}
		}
	}
}

// What stands under the band of a new job begins and ends where it does; examples have room between them.
func TestTheExamplesEndWhereThePageEnds(t *testing.T) {
	inApp(t, false, words.British)
	const margin, apart = 18, 6 // units: of the page; between two things that are pressed, common practice, no source
	for _, jobs := range [][]start.Job{nil, {}} {
		f, _ := frontWith(t, "UK", func(o *start.FrontOptions) {
			o.Jobs = jobs
			for len(o.Examples) < 8 {
				o.Examples = append(o.Examples, o.Examples...)
			}
		})
		w := opened(t, f.Object(), 1280, 800)
		left, right, last := float32(1280), float32(0), float32(-1)
		for _, at := range f.ExamplePlaces() {
			left, right = min(left, at.X), max(right, at.X+at.Width)
			if last > 0 && at.X > last && at.X-last < apart {
				t.Errorf("%v between two examples", at.X-last)
			}
			last = at.X + at.Width
		}
		if jobs != nil && left != margin {
			t.Errorf("the examples begin at %v", left)
		}
		if right < 1280-margin-0.5 || right > 1280-margin+0.5 {
			t.Errorf("the examples end at %v of %v", right, w.Canvas().Size().Width)
		}
	}
}
