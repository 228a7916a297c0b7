package control_test

import (
	"image"
	"image/color"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// shown is a window with one thing in it, under the program's theme.
type shown struct {
	window fyne.Window
	theme  *theme.Theme
	keys   *control.Keys
	// passed are the keys that were handed on.
	passed []fyne.KeyName
	// did is what was asked for.
	did []string
	// later is what is to happen after a while.
	later []func()
	// after is what is to be done once it is shown.
	after []func()
}

// british is the language of the tests.
func british(t *testing.T) words.Book {
	t.Helper()
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	return shelf.Book("en-GB", unit.Metric, nil)
}

// show shows a thing in a window.
func show(t *testing.T, make func(s *shown) fyne.CanvasObject, size fyne.Size) *shown {
	t.Helper()
	a := test.NewTempApp(t)
	s := &shown{theme: theme.New(false, british(t)), keys: control.NewKeys()}
	a.Settings().SetTheme(s.theme)
	s.keys.Plain = func(k *fyne.KeyEvent) { s.passed = append(s.passed, k.Name) }
	s.keys.Hints = control.NewHints(func(_ time.Duration, f func()) func() {
		i := len(s.later)
		s.later = append(s.later, f)
		return func() { s.later[i] = nil }
	})
	s.window = test.NewTempWindow(t, make(s))
	s.window.SetPadded(false)
	s.window.Resize(size)
	return s
}

// key types keys into what has the focus.
func (s *shown) key(names ...fyne.KeyName) {
	for _, n := range names {
		if n == fyne.KeyTab {
			s.window.Canvas().(interface{ FocusNext() }).FocusNext()
			continue
		}
		s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: n})
	}
}

func says(t *testing.T, s *shown, o fyne.CanvasObject, want ...string) {
	t.Helper()
	seen := strings.Join(strings.Fields(strings.Join(control.TextsIn(o), " ")), " ")
	for _, w := range want {
		if !strings.Contains(seen, w) {
			t.Errorf("%q is not said: %s", w, seen)
		}
	}
}

// sayings are the words of a field for tests.
func sayings() control.Words {
	return control.Words{
		NotTaken: func(typed string, why error) string {
			m := message.OfError(why)
			if m.ID == "own" {
				return typed + " was not taken: " + why.Error()
			}
			return typed + " was not taken: " + string(m.ID)
		},
		Which:     func(r []string) string { return strings.Join(r, " or ") + "?" },
		InLarger:  func(typed string) string { return typed + " was taken as metres" },
		InSmaller: func(typed string) string { return typed + " was taken as millimetres" },
		Above:     func(typed string) string { return typed + " was taken as above 0. Below it:" },
		Assumed:   "assumed", NotKnown: "not known", LetGo: "let it be moved again",
		States: [control.NotKnown + 1]string{"", "held", "worked out", "assumed", "not known"},
	}
}

// at is a pixel of a picture, by its place in units.
func at(img image.Image, x, y int) color.NRGBA {
	return color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
}
