package control_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/unit"
)

// held is a number somebody keeps for a field.
type held struct {
	*control.Field
	s        *shown
	shown    control.Shown
	previews []float64
	ended    int
	taken    []float64
	did      []string
	refuse   error
}

func field(t *testing.T, change func(n *control.Number, s *control.Shown)) *held {
	t.Helper()
	h := &held{shown: control.Shown{Value: 900, Known: control.Given, Usual: math.NaN()}}
	n := control.Number{Label: "Shower deep", Kind: unit.Length, Units: unit.Metric, Least: 300, Greatest: 2400, Step: 1}
	if change != nil {
		change(&n, &h.shown)
	}
	take := func(v float64) error {
		if h.refuse != nil {
			return h.refuse
		}
		h.taken = append(h.taken, v)
		h.shown.Value = v
		if h.shown.Known != control.Given {
			h.shown.Known = control.Held
		}
		h.Set(h.shown)
		return nil
	}
	h.s = show(t, func(s *shown) fyne.CanvasObject {
		h.Field = control.NewField(s.keys, n, sayings(), control.Intents{
			Preview: func(v float64) { h.previews = append(h.previews, v) }, EndPreview: func() { h.ended++ }, Take: take,
			Clear: func() error {
				h.did = append(h.did, "cleared")
				h.shown.Value, h.shown.Known = 77, control.WorkedOut
				h.Set(h.shown)
				return nil
			},
			Confirm: func() { h.did = append(h.did, "confirmed") }, LetGo: func() { h.did = append(h.did, "let go") },
		})
		other := control.NewPress(s.keys, "Next", func() {})
		return container.NewStack(container.NewVBox(h.Field, other), s.keys.Hints)
	}, fyne.NewSize(160, 200))
	h.Set(h.shown)
	return h
}

func (h *held) typeIn(text string) {
	h.s.window.Canvas().Focus(h.Entry())
	test.Type(h.Entry(), text)
}

// What is typed is shown as it is typed and taken when the field is left: by Enter, by Tab, by a
// press elsewhere. Typing begins by replacing what stood there.
func TestFieldTakesWhatIsTyped(t *testing.T) {
	h := field(t, nil)
	h.typeIn("950")
	if h.Text() != "950" {
		t.Errorf("typing gives %q", h.Text())
	}
	// 9 and 95 do not make sense here.
	if len(h.previews) != 1 || h.previews[0] != 950 || len(h.taken) != 0 {
		t.Errorf("previews %v, taken %v", h.previews, h.taken)
	}
	h.s.key(fyne.KeyReturn)
	if len(h.taken) != 1 || h.taken[0] != 950 {
		t.Errorf("Enter takes %v", h.taken)
	}
	h.s.key(fyne.KeyReturn)
	h.s.key(fyne.KeyTab)
	if len(h.taken) != 1 {
		t.Errorf("what was taken is taken again: %v", h.taken)
	}
	h.typeIn("960")
	h.s.key(fyne.KeyTab)
	h.typeIn("970")
	h.s.window.Canvas().Unfocus()
	if len(h.taken) != 3 || h.taken[1] != 960 || h.taken[2] != 970 {
		t.Errorf("left by Tab and by a press: %v", h.taken)
	}
}

// What the trade types is read: by hand, an inch is 25.4 mm, so 2' 11 1/2 is 35.5 · 25.4 = 901.7,
// 4 11 is 59 · 25.4 = 1498.6, 7-10 1/2 is 94.5 · 25.4 = 2400.3.
func TestFieldReads(t *testing.T) {
	for _, c := range []struct {
		units unit.System
		typed string
		want  float64
	}{
		{unit.Metric, "900.5", 900.5}, {unit.Metric, "90 cm", 900}, {unit.Metric, "0.9 m", 900}, {unit.Metric, "1 200", 1200},
		{unit.Metric, "=1400-13-70", 1317},
		{unit.Metric, "1.200", 1200}, // 1.2 mm makes no sense here
		{unit.Imperial, `2' 11 1/2`, 901.7}, {unit.Imperial, "4 11", 1498.6}, {unit.Imperial, `59"`, 1498.6}, {unit.Imperial, "7-10 1/2",
			2400.3}, {unit.Imperial, "900 mm", 900},
	} {
		h := field(t, func(n *control.Number, _ *control.Shown) { n.Units, n.Greatest = c.units, 2500 })
		h.typeIn(c.typed)
		h.s.key(fyne.KeyReturn)
		if v := append(h.taken, h.shown.Value)[0]; math.Abs(v-c.want) > 1e-9 {
			t.Errorf("%s in %s is %v, want %v; %s", c.typed, c.units, v, c.want, h.Refused())
		}
	}
}

// What is not allowed brings the number before back, never a part of what was typed, and says so
// until a number is taken here.
func TestFieldRefuses(t *testing.T) {
	h := field(t, nil)
	h.typeIn("9999999")
	h.s.key(fyne.KeyTab)
	if h.Text() != "900" || len(h.taken) != 0 || h.ended == 0 {
		t.Errorf("%q stands there, taken %v, preview ended %d times", h.Text(), h.taken, h.ended)
	}
	says(t, h.s, h.Field, "9999999 was not taken: reading.outside")
	h.Set(h.shown) // the job changed elsewhere
	says(t, h.s, h.Field, "9999999 was not taken")
	h.typeIn("8")
	h.s.key(fyne.KeyEscape)
	says(t, h.s, h.Field, "9999999 was not taken")
	h.typeIn("800")
	h.s.key(fyne.KeyReturn)
	if h.Refused() != "" || h.shown.Value != 800 {
		t.Errorf("%q after a number was taken, %v", h.Refused(), h.shown.Value)
	}
	// The job may refuse as well.
	h.refuse = errors.New("the wall is 1900")
	h.typeIn("1500")
	h.s.key(fyne.KeyReturn)
	if h.Text() != "800" {
		t.Errorf("%q stands there", h.Text())
	}
	says(t, h.s, h.Field, "1500 was not taken: the wall is 1900")
	h.typeIn("")
	test.Type(h.Entry(), " ")
	h.s.key(fyne.KeyReturn)
	if h.Text() != "800" || len(h.did) != 0 {
		t.Errorf("emptied: %q, %v", h.Text(), h.did)
	}
}

// Escape gives up what is typed; with nothing typed it is the window's.
func TestFieldEscape(t *testing.T) {
	h := field(t, nil)
	h.typeIn("95")
	h.s.key(fyne.KeyEscape)
	if h.Text() != "900" || len(h.s.passed) != 0 {
		t.Errorf("%q, handed on %v", h.Text(), h.s.passed)
	}
	h.s.key(fyne.KeyEscape, fyne.KeyF6)
	if len(h.s.passed) != 2 || h.s.passed[0] != fyne.KeyEscape || h.s.passed[1] != fyne.KeyF6 {
		t.Errorf("handed on %v", h.s.passed)
	}
	// A shortcut of the window is done once what was typed is taken.
	saved := 0.0
	h.s.keys.Shortcuts["save"] = func() { saved = h.shown.Value }
	h.typeIn("1000")
	h.Entry().TypedShortcut(saving{})
	if saved != 1000 {
		t.Errorf("saved with %v", saved)
	}
}

type saving struct{}

func (saving) ShortcutName() string { return "save" }

// Arrows step, Page up and down by ten, and not beyond what makes sense; inches step by
// sixteenths: 900 + 25.4/16 = 901.5875.
func TestFieldSteps(t *testing.T) {
	h := field(t, nil)
	h.s.window.Canvas().Focus(h.Entry())
	h.s.key(fyne.KeyUp, fyne.KeyUp, fyne.KeyDown, fyne.KeyPageUp)
	if h.shown.Value != 911 || h.Text() != "911" {
		t.Errorf("%v, shown %q", h.shown.Value, h.Text())
	}
	h.typeIn("2395")
	h.s.key(fyne.KeyPageUp)
	if h.shown.Value != 2400 {
		t.Errorf("stepped to %v", h.shown.Value)
	}
	h = field(t, func(n *control.Number, _ *control.Shown) { n.Units = unit.Imperial })
	h.s.window.Canvas().Focus(h.Entry())
	h.s.key(fyne.KeyUp)
	if math.Abs(h.shown.Value-901.5875) > 1e-9 {
		t.Errorf("a sixteenth on is %v", h.shown.Value)
	}
}

// Where two things may be meant the field asks; Enter takes the first, the arrows go to the
// other, a press takes either.
func TestFieldAsks(t *testing.T) {
	wide := func(n *control.Number, _ *control.Shown) { n.Least = 0.5 }
	h := field(t, wide)
	h.typeIn("1,200")
	says(t, h.s, h.Field, "1200 mm or 1.2 mm?")
	h.s.key(fyne.KeyReturn)
	if h.shown.Value != 1200 {
		t.Errorf("Enter takes %v", h.shown.Value)
	}
	h = field(t, wide)
	h.typeIn("1.200")
	h.s.key(fyne.KeyDown, fyne.KeyReturn)
	if h.shown.Value != 1.2 {
		t.Errorf("the arrow and Enter take %v", h.shown.Value)
	}
	h = field(t, wide)
	h.typeIn("1.200")
	h.s.key(fyne.KeyTab)
	if len(h.taken) != 0 {
		t.Errorf("leaving takes %v unasked", h.taken)
	}
	says(t, h.s, h.Field, "1200 mm or 1.2 mm?")
	test.Tap(h.Picks()[1])
	if h.shown.Value != 1.2 || len(h.Picks()) != 0 {
		t.Errorf("the press takes %v", h.shown.Value)
	}
}

// A question stands while one goes on: what is typed next goes into the next field, and the question is answered by keys when
// one comes back, or given up.
func TestAQuestionTakesNoKeys(t *testing.T) {
	var first, second float64
	field := func(s *shown, label string, of *float64) *control.Field {
		f := control.NewField(s.keys, control.Number{Label: label, Kind: unit.Length, Units: unit.Metric, Least: 0.5, Greatest: 2400}, sayings(),
			control.Intents{Take: func(v float64) error { *of = v; return nil }})
		f.Set(control.Shown{Value: 900, Known: control.Given, Usual: math.NaN()})
		return f
	}
	var a, b *control.Field
	s := show(t, func(s *shown) fyne.CanvasObject {
		a, b = field(s, "Wide", &first), field(s, "Deep", &second)
		return container.NewVBox(a, b)
	}, fyne.NewSize(160, 300))
	a.Focus()
	test.Type(s.window.Canvas().Focused(), "1,200")
	s.key(fyne.KeyTab)
	test.Type(s.window.Canvas().Focused(), "35")
	s.key(fyne.KeyReturn)
	if second != 35 || first != 0 || !a.Asks() {
		t.Errorf("1,200, Tab, 35, Enter takes %v and %v; it asks %v", first, second, a.Asks())
	}
	a.Focus()
	s.key(fyne.KeyDown, fyne.KeyReturn)
	if first != 1.2 || a.Asks() {
		t.Errorf("back, the arrow and Enter take %v; it asks %v", first, a.Asks())
	}
	a.Focus()
	test.Type(s.window.Canvas().Focused(), "1,300")
	s.key(fyne.KeyTab)
	a.Focus()
	s.key(fyne.KeyEscape)
	if first != 1.2 || a.Asks() || a.Text() != "900" {
		t.Errorf("given up it has %v, asks %v and shows %q", first, a.Asks(), a.Text())
	}
}

// Metres typed where millimetres of that number make no sense are taken, and the field says so until another number stands there.
func TestMetresAreTakenAndTold(t *testing.T) {
	h := field(t, nil)
	h.typeIn("2.1")
	h.s.key(fyne.KeyTab)
	if len(h.taken) != 1 || h.taken[0] != 2100 {
		t.Errorf("2.1 is taken as %v", h.taken)
	}
	says(t, h.s, h.Field, "2.1 was taken as metres")
	h.shown.Value = 900
	h.Set(h.shown)
	if h.Told() != "" {
		t.Errorf("with 900 it still says %q", h.Told())
	}
}

// What a field says of how a number was understood goes once another field has taken one: it was seen, and would only take room.
func TestWhatWasUnderstoodGoesWithTheNextNumber(t *testing.T) {
	field := func(s *shown, label string) (f *control.Field) {
		number := control.Number{Label: label, Kind: unit.Length, Units: unit.Metric, Least: 300, Greatest: 2400}
		f = control.NewField(s.keys, number, sayings(), control.Intents{Take: func(v float64) error {
			f.Set(control.Shown{Value: v, Known: control.Held, Usual: math.NaN()})
			return nil
		}})
		f.Set(control.Shown{Value: 900, Known: control.Given, Usual: math.NaN()})
		return f
	}
	var a, b *control.Field
	s := show(t, func(s *shown) fyne.CanvasObject {
		a, b = field(s, "Wide"), field(s, "Deep")
		return container.NewVBox(a, b)
	}, fyne.NewSize(160, 300))
	a.Focus()
	test.Type(s.window.Canvas().Focused(), "2.1")
	s.key(fyne.KeyTab)
	if a.Told() != "2.1 was taken as metres" {
		t.Fatalf("left, it says %q", a.Told())
	}
	high := a.MinSize().Height
	test.Type(s.window.Canvas().Focused(), "1.2")
	s.key(fyne.KeyReturn)
	if a.Told() != "" || b.Told() != "1.2 was taken as metres" || a.MinSize().Height >= high {
		t.Errorf("with the next number it says %q, the next %q, %v high, was %v", a.Told(), b.Told(), a.MinSize().Height, high)
	}
}

// A bare number that could be millimetres and was hardly meant so is taken as it stands, the field says so, and one press on what
// it was meant as takes that. What is half typed is not asked about, nor what was meant as it stands.
func TestMillimetresThatWereMetresAreTold(t *testing.T) {
	from0 := func(n *control.Number, _ *control.Shown) { n.Kind, n.Least, n.Greatest = unit.Along, 0, 20000 }
	h := field(t, from0)
	h.typeIn("2.4")
	if h.Told() != "" || len(h.Picks()) != 0 || h.Text() != "2.4" {
		t.Errorf("half typed: says %q, %d to press, %q stands there", h.Told(), len(h.Picks()), h.Text())
	}
	h.s.key(fyne.KeyTab)
	if len(h.taken) != 1 || h.taken[0] != 2.4 {
		t.Errorf("2.4 is taken as %v", h.taken)
	}
	says(t, h.s, h.Field, "2.4 was taken as millimetres", "2.4 m")
	h.Set(h.shown) // a result came
	if len(h.Picks()) != 1 {
		t.Fatalf("%d to press", len(h.Picks()))
	}
	h.typeIn("7")
	if len(h.Picks()) != 0 {
		t.Error("while something else is typed it can be pressed")
	}
	h.s.key(fyne.KeyEscape)
	h.s.window.Canvas().Unfocus()
	test.Tap(h.Picks()[0])
	if h.shown.Value != 2400 || h.Text() != "2400" || h.Told() != "" || len(h.Picks()) != 0 {
		t.Errorf("pressed: %v, %q, says %q, %d to press", h.shown.Value, h.Text(), h.Told(), len(h.Picks()))
	}
	for _, typed := range []string{"2.4 mm", "12.4", "9", "2.4 m", "0"} {
		h := field(t, from0)
		h.typeIn(typed)
		if h.s.key(fyne.KeyReturn); h.Told() != "" || len(h.Picks()) != 0 {
			t.Errorf("%s is told as %q", typed, h.Told())
		}
	}
	h = field(t, func(n *control.Number, s *control.Shown) {
		from0(n, s)
		n.Units = unit.Imperial
	})
	h.typeIn("4.5") // where 900 mm stood, a little under 3 ft
	h.s.key(fyne.KeyReturn)
	if h.shown.Value != 114.3 || len(h.Picks()) != 1 {
		t.Fatalf("4.5 in inches is %v, %d to press", h.shown.Value, len(h.Picks()))
	}
	if test.Tap(h.Picks()[0]); h.shown.Value != 1371.6 {
		t.Errorf("4.5 ft is %v", h.shown.Value)
	}
}

// A height without a sign where one below nought stood is taken as above, the field says so, and one press takes it as below. One with
// its sign is not asked about, nor one where the height before was above.
func TestAHeightWithoutItsSignIsTold(t *testing.T) {
	ground := func(before float64) func(n *control.Number, s *control.Shown) {
		return func(n *control.Number, s *control.Shown) {
			n.Kind, n.Least, n.Greatest, s.Value = unit.Length, -20000, 5000, before
		}
	}
	h := field(t, ground(-150))
	h.typeIn("200")
	h.s.key(fyne.KeyTab)
	if len(h.taken) != 1 || h.taken[0] != 200 {
		t.Fatalf("200 is taken as %v", h.taken)
	}
	says(t, h.s, h.Field, "200 was taken as above 0. Below it:", "-200")
	h.s.window.Canvas().Unfocus()
	if test.Tap(h.Picks()[0]); h.shown.Value != -200 || h.Told() != "" {
		t.Errorf("pressed: %v, says %q", h.shown.Value, h.Told())
	}
	for typed, before := range map[string]float64{"+200": -150, "-200": -150, "200": 20, "0": -150} {
		h := field(t, ground(before))
		h.typeIn(typed)
		if h.s.key(fyne.KeyReturn); h.Told() != "" || len(h.Picks()) != 0 {
			t.Errorf("%s in the place of %v is told as %q", typed, before, h.Told())
		}
	}
}

// pressed is a press behind what stands in a field.
func pressed(h *held) {
	at := desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, 10)}}
	h.Entry().MouseDown(&at)
	h.Entry().MouseUp(&at)
}

// What is typed replaces what stands in a field that has the keys, whatever was put there since it got them: a result that
// fills it, a number that Enter took, one that was not taken or given up, a step. A caret that was put somewhere stays there
// while the text does.
func TestTypingReplacesWhatStandsThere(t *testing.T) {
	for name, before := range map[string]func(h *held){
		"just come":   func(*held) {},
		"filled late": func(h *held) { h.Set(control.Shown{Value: 1207.5, Usual: math.NaN()}) },
		"filled late, shorter": func(h *held) {
			h.Set(control.Shown{Value: 1207.5, Usual: math.NaN()})
			h.Set(control.Shown{Value: 400, Usual: math.NaN()})
		},
		"filled late, was empty": func(h *held) {
			h.Set(control.Shown{Value: math.NaN(), Usual: math.NaN()})
			h.Set(control.Shown{Value: 1207.5, Usual: math.NaN()})
		},
		"taken by Enter": func(h *held) {
			h.typeIn("401")
			h.s.key(fyne.KeyReturn)
		},
		"not taken": func(h *held) {
			test.Type(h.Entry(), "99999")
			h.s.key(fyne.KeyReturn)
		},
		"refused by the job": func(h *held) {
			h.refuse = errors.New("the wall is 1900")
			test.Type(h.Entry(), "1500")
			h.s.key(fyne.KeyReturn)
			h.refuse = nil
		},
		"given up": func(h *held) {
			test.Type(h.Entry(), "77")
			h.s.key(fyne.KeyEscape)
		},
		"stepped": func(h *held) { h.s.key(fyne.KeyUp) },
		"pressed": pressed,
		"taken by Enter, and pressed": func(h *held) {
			h.typeIn("401")
			h.s.key(fyne.KeyReturn)
			pressed(h)
		},
		"other units": func(h *held) {
			h.SetUnits(unit.Imperial)
			h.SetUnits(unit.Metric)
		},
	} {
		h := field(t, nil)
		h.s.window.Canvas().Focus(h.Entry())
		before(h)
		for _, r := range "1207" {
			h.Entry().TypedRune(r)
			h.Set(h.shown) // a result lands between two keys
		}
		if h.Text() != "1207" {
			t.Errorf("%s: 1207 typed gives %q", name, h.Text())
		}
	}
	h := field(t, nil)
	h.s.window.Canvas().Focus(h.Entry())
	h.s.key(fyne.KeyEnd)
	h.Set(h.shown)
	if h.Entry().TypedRune('5'); h.Text() != "9005" {
		t.Errorf("5 at the end of 900 gives %q", h.Text())
	}
	h = field(t, nil)
	h.s.window.Canvas().Focus(h.Entry())
	pressed(h)
	pressed(h)
	if h.Entry().TypedRune('5'); h.Text() != "9005" {
		t.Errorf("5 after a second press behind 900 gives %q", h.Text())
	}
}

// Two presses, and three, one soon after the other select all that stands there, so that what is typed replaces it, whatever
// blanks there are in it. The driver tells of two of them once the second has ended.
func TestPressesInARowSelectAll(t *testing.T) {
	for _, text := range []string{"900", "2 1/2"} {
		for n := 2; n <= 4; n++ {
			h := field(t, nil)
			h.s.window.Canvas().Focus(h.Entry())
			test.Type(h.Entry(), text)
			for i := range n {
				if pressed(h); i%2 == 1 {
					h.Entry().DoubleTapped(&fyne.PointEvent{Position: fyne.NewPos(100, 10)})
				}
			}
			for _, r := range "910" {
				h.Entry().TypedRune(r)
			}
			if h.Text() != "910" {
				t.Errorf("%q after %d presses: 910 typed gives %q", text, n, h.Text())
			}
		}
	}
}

// A number that is worked out is held when it is typed on, and worked out again when it is
// emptied.
func TestFieldWorkedOut(t *testing.T) {
	h := field(t, func(n *control.Number, s *control.Shown) { n.Optional, s.Value, s.Known = true, 977, control.WorkedOut })
	h.typeIn("1000")
	h.s.key(fyne.KeyReturn)
	if h.shown.Known != control.Held {
		t.Errorf("typed on it is %v", h.shown.Known)
	}
	h.s.window.Canvas().Focus(h.Entry())
	h.Entry().TypedShortcut(&fyne.ShortcutSelectAll{})
	h.s.key(fyne.KeyBackspace, fyne.KeyReturn)
	if len(h.did) != 1 || h.did[0] != "cleared" || h.shown.Known != control.WorkedOut || h.Text() != "77" {
		t.Errorf("emptied: %v, %q", h.did, h.Text())
	}
}

// What is assumed is confirmed by Enter; what is held is let go by pressing its edge; an empty
// field takes what is usual by Enter.
func TestFieldStandings(t *testing.T) {
	h := field(t, func(_ *control.Number, s *control.Shown) { s.Known = control.Assumed })
	says(t, h.s, h.Field, "assumed")
	h.s.window.Canvas().Focus(h.Entry())
	h.s.key(fyne.KeyReturn)
	if len(h.did) != 1 || h.did[0] != "confirmed" {
		t.Errorf("Enter on what is assumed: %v", h.did)
	}
	h = field(t, func(_ *control.Number, s *control.Shown) { s.Known = control.Held })
	test.Tap(h.Grip())
	h.Entry().TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyL, Modifier: fyne.KeyModifierShortcutDefault})
	if strings.Join(h.did, ", ") != "let go, let go" {
		t.Errorf("pressing the edge, and Ctrl-L: %v", h.did)
	}
	// Tab goes from field to field, not over the edge.
	h.s.window.Canvas().Focus(h.Entry())
	h.s.key(fyne.KeyTab)
	if _, ok := h.s.window.Canvas().Focused().(*control.Press); !ok {
		t.Errorf("Tab goes to %T", h.s.window.Canvas().Focused())
	}
	h = field(t, func(n *control.Number, s *control.Shown) {
		n.Optional, s.Value, s.Known, s.Usual = true, math.NaN(), control.NotKnown, 1000
	})
	says(t, h.s, h.Field, "not known", "1000")
	h.s.window.Canvas().Focus(h.Entry())
	h.s.key(fyne.KeyReturn)
	if h.shown.Value != 1000 {
		t.Errorf("Enter in an empty field gives %v", h.shown.Value)
	}
}

// A change of the job elsewhere does not write over what is being typed.
func TestFieldFollows(t *testing.T) {
	h := field(t, nil)
	h.typeIn("95")
	h.shown.Value = 1100
	h.Set(h.shown)
	if h.Text() != "95" {
		t.Errorf("%q while typing", h.Text())
	}
	h.s.key(fyne.KeyEscape)
	if h.Text() != "1100" {
		t.Errorf("%q after giving up", h.Text())
	}
	h.SetUnits(unit.Imperial)
	if !strings.Contains(h.Text(), `"`) {
		t.Errorf("in inches %q", h.Text())
	}
}

// What is said by a field can be heard: what it asks, what stands there, how it came about.
func TestFieldCanBeHeard(t *testing.T) {
	h := field(t, func(_ *control.Number, s *control.Shown) { s.Known = control.Held })
	if got := h.AccessibilityLabel(); got != "Shower deep, 900 mm, held" {
		t.Errorf("%q", got)
	}
}

// The edge shows the state: thick and of ink where held, broken where assumed, of the stopping
// colour where refused.
func TestFieldEdges(t *testing.T) {
	for _, dark := range []bool{false, true} {
		h := field(t, func(_ *control.Number, s *control.Shown) { s.Known = control.Held })
		h.s.theme.SetDark(dark)
		fyne.CurrentApp().Settings().SetTheme(h.s.theme)
		img := h.s.window.Canvas().Capture()
		top := int(h.MinSize().Height) - 36
		if c := at(img, 2, top+18); c != theme.Ink.In(dark) {
			t.Errorf("dark %v: the edge of what is held is %v", dark, c)
		}
		h.typeIn("9999999")
		h.s.key(fyne.KeyReturn)
		h.s.window.Canvas().Unfocus()
		img = h.s.window.Canvas().Capture()
		found := false
		for x := range 160 {
			found = found || at(img, x, top) == theme.Stops.In(dark) || at(img, x, top+1) == theme.Stops.In(dark)
		}
		if !found {
			t.Errorf("dark %v: a refused field has no edge of its own", dark)
		}
	}
}

// Words a third longer than these have room: nothing is cut short, all of it is drawn within the
// field.
func TestFieldHasRoomForLongWords(t *testing.T) {
	h := field(t, func(n *control.Number, s *control.Shown) {
		n.Label, n.Below = "Breite der Dusche von Wand zu Wand gemessen", "gemessen von der fertigen Ecke BC aus"
	})
	says(t, h.s, h.Field, "Breite der Dusche von Wand zu Wand gemessen", "gemessen von der fertigen Ecke BC aus")
	h.Resize(fyne.NewSize(160, h.MinSize().Height))
	for _, text := range control.Drawn(h.Field) {
		if text.Position().X+text.MinSize().Width > 160+1 {
			t.Errorf("%q goes beyond the field", text.Text)
		}
	}
}

// A unit stands beside a number, that is there, that is usual or that is being typed; beside nothing it says
// nothing and is left out.
func TestFieldUnitStandsBesideANumber(t *testing.T) {
	for name, c := range map[string]struct {
		value, usual float64
		focused      bool
		want         bool
	}{
		"a number":      {900, math.NaN(), false, true},
		"nothing":       {math.NaN(), math.NaN(), false, false},
		"what is usual": {math.NaN(), 850, false, true},
		"being typed":   {math.NaN(), math.NaN(), true, true},
	} {
		h := field(t, func(n *control.Number, s *control.Shown) {
			n.Optional, s.Value, s.Usual = true, c.value, c.usual
		})
		if h.Set(h.shown); c.focused {
			h.Focus()
		}
		shown := false
		for _, text := range control.TextsIn(h.Field) {
			shown = shown || text == "mm"
		}
		if shown != c.want {
			t.Errorf("%s: the unit is shown %v", name, shown)
		}
	}
}

// A press on a field has the keys go there, also where the field moves while it is pressed: the driver then takes them away
// from it as the press ends on something else. A press that has ended, and one after which they go elsewhere, keeps nothing.
func TestPressOnAFieldThatMovesFocuses(t *testing.T) {
	h := field(t, nil)
	var soon []func()
	h.s.keys.Soon = func(f func()) { soon = append(soon, f) }
	after := func() {
		for _, f := range soon {
			f()
		}
		soon = nil
	}
	c, at := h.s.window.Canvas(), h.Entry()
	press := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	at.MouseDown(press)
	c.Unfocus()
	after()
	if c.Focused() != fyne.Focusable(at) {
		t.Fatalf("the keys go to %T", c.Focused())
	}
	for _, r := range "120" {
		c.Focused().TypedRune(r)
	}
	if at.Text != "120" {
		t.Errorf("the field has %q, want what was typed in the place of what stood there", at.Text)
	}
	c.Unfocus()
	at.MouseDown(press)
	at.MouseUp(press)
	c.Unfocus()
	after()
	if c.Focused() != nil {
		t.Errorf("after a press that has ended the keys go to %T", c.Focused())
	}
	at.MouseDown(press)
	c.FocusNext()
	other := c.Focused()
	after()
	if other == nil || c.Focused() != other {
		t.Errorf("gone on to %T, the keys go to %T", other, c.Focused())
	}
}
