package start_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/words"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// called is what of a kind on a page is called so, for who cannot see it; of several the first that is
// shown.
func called[T any](t *testing.T, page fyne.CanvasObject, label string) (found T) {
	t.Helper()
	any := false
	each(page, fyne.Position{}, func(o fyne.CanvasObject, _ fyne.Position) {
		a, ok := o.(interface{ AccessibilityLabel() string })
		if of, is := o.(T); is && ok && !any && strings.HasPrefix(a.AccessibilityLabel(), label) {
			found, any = of, true
		}
	})
	if !any {
		t.Fatalf("nothing is called %q", label)
	}
	return found
}

// choose presses what is called so.
func choose(t *testing.T, page fyne.CanvasObject, label string) {
	t.Helper()
	called[fyne.Tappable](t, page, label).Tapped(&fyne.PointEvent{})
}

// enter types into the field that is called so, and goes on.
func enter(t *testing.T, w fyne.Window, page fyne.CanvasObject, label, text string) {
	t.Helper()
	called[interface{ Focus() }](t, page, label).Focus()
	w.Canvas().Focused().(interface{ SetText(string) }).SetText(text)
	w.Canvas().Unfocus()
}

// An L is made of the lengths of its walls and the turns after them: 3000, 2500, 1800, 1000 and the last
// two worked out, 1200 and 1500 by hand. The same in feet and inches: 10', 8', 6', 3', then 4' and 5'.
func TestARoomWallByWall(t *testing.T) {
	for _, c := range []struct {
		region string
		typed  []string
		wantMM []float64
	}{
		{"UK", []string{"3000", "2.5 m", "1800", "100 cm"}, []float64{3000, 2500, 1800, 1000, 1200, 1500}},
		{"US", []string{"10'", "8'", "6'", "36\""}, []float64{120 * 25.4, 96 * 25.4, 72 * 25.4, 36 * 25.4, 48 * 25.4, 60 * 25.4}},
	} {
		inApp(t, false, words.British)
		s, _ := aSheet(t, c.region, true)
		w := opened(t, s.Object(), 1280, 800)
		choose(t, s.Object(), "L-shaped")
		choose(t, s.Object(), "Drawn wall by wall")
		for i, text := range c.typed {
			enter(t, w, s.Object(), "Wall "+question.Letter(i)+", length", text)
		}
		got := s.Sheet().Room.Drawn.Close()
		for i, want := range c.wantMM {
			// What an L lacks is at the far left to begin with: the turn out is at CD.
			if i < 4 && math.Abs(got.LengthMM(i)-want) > 1e-6 {
				t.Errorf("%s: wall %s is %v, not %v", c.region, question.Letter(i), got.LengthMM(i), want)
			}
		}
		// With C out to the left it has to turn right after C and left after D.
		choose(t, s.Object(), "After wall C it turns right")
		choose(t, s.Object(), "After wall B it turns right")
		choose(t, s.Object(), "After wall D it turns left")
		got = s.Sheet().Room.Drawn.Close()
		for i, want := range c.wantMM {
			if math.Abs(got.LengthMM(i)-want) > 1e-6 {
				t.Errorf("%s: wall %s is %v, not %v", c.region, question.Letter(i), got.LengthMM(i), want)
			}
		}
		if metric := slices.ContainsFunc(texts(w.Canvas()), func(s string) bool { return strings.Contains(s, " mm") }); c.region == "US" && metric || s.Sheet().Units == unit.Metric && c.region == "US" {
			t.Error("a metric figure in feet and inches")
		}
	}
}

// What does not close and what crosses is said in the sheet and on the plan; Undo takes back one thing
// that was done.
func TestWallsThatDoNotGoTogether(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", true)
	w := opened(t, s.Object(), 1280, 800)
	choose(t, s.Object(), "Drawn wall by wall")
	said := func(what string) bool {
		return slices.ContainsFunc(texts(w.Canvas()), func(s string) bool { return strings.Contains(s, what) })
	}
	for wall, text := range map[string]string{"A": "2400", "B": "1900", "C": "2400", "D": "1865"} {
		enter(t, w, s.Object(), "Wall "+wall+", length", text)
	}
	if !said("The last wall, D, is 35 mm short.") {
		t.Errorf("35 short is not said: %q", texts(w.Canvas()))
	}
	before := s.Sheet()
	from, to := s.PlaceAt(2400, 1900), s.PlaceAt(-600, 400)
	test.Drag(w.Canvas(), to, to.X-from.X, to.Y-from.Y)
	if n := s.Sheet().Room.Drawn; n.Walls[2].Long.Given || s.Sheet() == before {
		t.Errorf("the corner stays: %+v", n)
	}
	if !said("Walls B and D cross.") {
		t.Errorf("the crossing is not said: %q", texts(w.Canvas()))
	}
	s.Undo()
	if s.Sheet() != before || said("D cross.") {
		t.Errorf("taken back: %v, %q", s.Sheet() == before, texts(w.Canvas()))
	}
	choose(t, s.Object(), "Put a corner into wall B")
	if n := s.Sheet().Room.Drawn.N; n != 5 {
		t.Errorf("%d walls", n)
	}
	choose(t, s.Object(), "Take out the corner after wall B")
	if n := s.Sheet().Room.Drawn.N; n != 4 {
		t.Errorf("%d walls", n)
	}
}

// What a question asks more of stands under it, not over the next question, also in a window that is high
// enough for all of them.
func TestTheQuestionsStandUnderEachOther(t *testing.T) {
	inApp(t, false, words.British)
	for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1920, Height: 1080}} {
		s, _ := aSheet(t, "UK", true)
		opened(t, s.Object(), size.Width, size.Height)
		for _, label := range []string{"L-shaped", "Drawn wall by wall", "Put a corner into wall B", "Timber", "Out through wall", "Gully", "Rectangle", "Concrete"} {
			choose(t, s.Object(), label)
			end := float32(0)
			for i, q := range s.Questions() {
				if q.Position().Y < end || q.Size().Height < q.MinSize().Height {
					t.Errorf("%v, %s: question %d begins at %v, %v high of %v, that before it ends at %v", size, label, i+1, q.Position().Y, q.Size().Height, q.MinSize().Height, end)
				}
				end = q.Position().Y + q.Size().Height
			}
		}
	}
}
