package app

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"pgregory.net/rapid"
	"underfall/app/theme"
	"underfall/app/version"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// shownWords are the words of an object and of what it holds.
func shownWords(o fyne.CanvasObject) string {
	var words []string
	for _, x := range test.LaidOutObjects(o) {
		if l, ok := x.(*widget.Label); ok && l.Visible() {
			words = append(words, l.Text)
		}
	}
	return strings.Join(words, "\n")
}

// The window about Underfall tells what draws the 3D picture, and why it takes longer than it could.
func TestAboutTellsWhatDraws(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "what draws is known", func() bool { return len(w.view.DrawnBy()) > 0 })
	w.openAbout()
	words := shownWords(w.window.Canvas().Overlays().Top())
	for _, m := range w.view.DrawnBy() {
		if s := theme.Book().Say(m); !strings.Contains(words, s) {
			t.Errorf("it does not say %q", s)
		}
	}
}

// F1 and an entry of the menu open the window about Underfall: what
// it is, that it does not certify, and every notice with its text.
func TestAboutSaysWhatIsInside(t *testing.T) {
	w, log := openWindow(t, Options{})
	about := slices.IndexFunc(w.moreMenu().Items, func(i *fyne.MenuItem) bool { return i.Label == theme.Word("tool.about") })
	w.moreMenu().Items[about].Action()
	if w.about == nil || !strings.Contains(log.String(), "about true") {
		t.Fatal("the menu opens nothing")
	}
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.about != nil || w.window.Canvas().Overlays().Top() != nil {
		t.Fatal("Escape does not close it")
	}
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyF1})
	if w.about == nil {
		t.Fatal("F1 opens nothing")
	}
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyF1})
	if n := len(w.window.Canvas().Overlays().List()); n != 1 {
		t.Fatalf("a second F1 leaves %d windows", n)
	}
	words := shownWords(w.window.Canvas().Overlays().Top())
	for _, s := range []string{
		"About Underfall", version.Of(theme.Book()), "MIT licence", "does not certify", "Local code and licensed trades decide",
	} {
		if !strings.Contains(words, s) {
			t.Errorf("it does not say %q", s)
		}
	}
	a := w.about
	notices, err := assets.Notices()
	if err != nil {
		t.Fatal(err)
	}
	for i, n := range notices {
		a.list.Select(i)
		shown := spaced(a.text.wrapped)
		for _, s := range append([]assets.NoticeText{{Source: "its name", Text: n.Of + " " + n.Version}}, n.Texts...) {
			if !strings.Contains(shown, strings.Join(strings.Fields(s.Text), " ")) {
				t.Errorf("%s: %s is not shown whole", n.Of, s.Source)
			}
		}
		for _, l := range a.text.wrapped {
			if len([]rune(l.text)) > a.text.columns {
				t.Fatalf("%s: %q is wider than %d", n.Of, l.text, a.text.columns)
			}
		}
	}
}

// spaced are the words of lines, one blank between them.
func spaced(lines []noticeLine) string {
	var s []string
	for _, l := range lines {
		s = append(s, strings.Fields(l.text)...)
	}
	return strings.Join(s, " ")
}

// Typing finds notices; arrows walk through them and stop at the ends; pages
// scroll the text; the window behind hears nothing of it.
func TestAboutKeys(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.openAbout()
	a := w.about
	if w.window.Canvas().Focused() != fyne.Focusable(a.find) {
		t.Fatal("the field for finding has not got the focus")
	}
	press := func(k fyne.KeyName) { w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	press(fyne.KeyUp)
	if a.chosen != 0 {
		t.Errorf("up from the first goes to %d", a.chosen)
	}
	press(fyne.KeyDown)
	press(fyne.KeyDown)
	if a.chosen != 2 || a.text.lines[0].text != a.shown[2].Of+" "+a.shown[2].Version {
		t.Errorf("down twice chooses %d and shows %q", a.chosen, a.text.lines[0].text)
	}
	press(fyne.KeyUp) // a long one
	press(fyne.KeyPageDown)
	if a.text.GetScrollOffset() <= 0 {
		t.Error("the text does not scroll")
	}
	press(fyne.KeyPageUp)
	if at := a.text.GetScrollOffset(); at != 0 {
		t.Errorf("a page down and up ends at %v", at)
	}
	test.Type(a.find, "NOTO")
	if len(a.shown) != 6 || a.chosen != 0 || !strings.HasPrefix(a.text.lines[0].text, "Noto Sans") {
		t.Errorf("%d notices of Noto, %d chosen", len(a.shown), a.chosen)
	}
	for range 9 {
		press(fyne.KeyDown)
	}
	if a.chosen != 5 {
		t.Errorf("down nine times goes to %d of 6", a.chosen)
	}
	test.Type(a.find, "zzz")
	if len(a.shown) != 0 || len(a.text.wrapped) != 0 {
		t.Errorf("%d notices and %d lines of what is not there", len(a.shown), len(a.text.wrapped))
	}
	press(fyne.KeyDown)
	cut := w.cutCheck.Checked
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyC})
	if w.cutCheck.Checked != cut {
		t.Error("a key went through to the window behind")
	}
	press(fyne.KeyEscape)
	// Escape closes from the list and the text too.
	for name, part := range map[string]func(*aboutDialog) fyne.Focusable{
		"list": func(a *aboutDialog) fyne.Focusable { return a.list },
		"text": func(a *aboutDialog) fyne.Focusable { return a.text },
	} {
		w.openAbout()
		w.window.Canvas().Focus(part(w.about))
		press(fyne.KeyEscape)
		if w.about != nil {
			t.Errorf("Escape does not close it from the %s", name)
			w.about.dialog.Hide()
		}
	}
}

// In the showroom too, and Escape then closes what lies on top.
func TestAboutInShowroom(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.openShowroom()
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyF1})
	if w.about == nil {
		t.Fatal("F1 opens nothing")
	}
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.about != nil || w.showroom == nil {
		t.Errorf("Escape leaves about %v, showroom %v", w.about != nil, w.showroom != nil)
	}
}

func TestWrapLine(t *testing.T) {
	for _, c := range []struct {
		line    string
		columns int
		want    []string
	}{
		{"", 20, []string{""}},
		{"twenty characters ok", 20, []string{"twenty characters ok"}},
		{"twenty characters one", 20, []string{"twenty characters", "one"}},
		{"  * keeps indentation of it", 20, []string{"  * keeps", "  indentation of it"}},
		{"\ta tab is four blanks", 20, []string{"    a tab is four", "    blanks"}},
		{"https://example.org/without/a/blank", 20, []string{"https://example.org/", "without/a/blank"}},
		{"© § … – counted by letter", 20, []string{"© § … – counted by", "letter"}},
		{"never narrower than twenty", 3, []string{"never narrower than", "twenty"}},
	} {
		if got := wrapLine(c.line, c.columns); !slices.Equal(got, c.want) {
			t.Errorf("%q to %d: %q, want %q", c.line, c.columns, got, c.want)
		}
	}
}

// No letter is lost by wrapping, and no piece is too wide.
func TestWrapLineKeepsAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[ \t]{0,40}([a-zä©]{0,30} {1,3}){0,12}`).Draw(t, "line")
		columns := rapid.IntRange(0, 60).Draw(t, "columns")
		var all string
		for _, piece := range wrapLine(s, columns) {
			if n := len([]rune(piece)); n > max(columns, 20) {
				t.Fatalf("%q is %d wide", piece, n)
			}
			all += piece
		}
		bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if bare(all) != bare(s) {
			t.Fatalf("%q became %q", s, all)
		}
	})
}

// BenchmarkAbout is opening the window about Underfall, laid out in full.
func BenchmarkAbout(b *testing.B) {
	a := test.NewApp()
	defer a.Quit()
	w, err := newWindow(a, Options{ConfigFolder: b.TempDir(), Width: 1280, Height: 800, Do: func(func()) {}})
	if err != nil {
		b.Fatal(err)
	}
	defer w.view.Close()
	w.window.Show()
	for b.Loop() {
		w.openAbout()
		w.about.dialog.Hide()
	}
}

// british is the catalogue in British English, for texts that need no window.
func british(t testing.TB) words.Book {
	t.Helper()
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	return shelf.Book(words.British, unit.Metric, func(m message.Message) { t.Errorf("no words for %s", m) })
}
