package app

import (
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// enterText types on what has the keys, and takes it with Enter.
func enterText(w *mainWindow, text string) {
	for _, r := range text {
		w.window.Canvas().Focused().TypedRune(r)
	}
	w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// How far the cut is turned is typed, beside what says so and at an end of its line: the section turns while it
// is typed, what makes no sense is refused in words and turns nothing, 0 and the key 0 bring it back.
func TestTheTurnOfACutIsTyped(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close() // the room's fields would have the plan alone
	thingOfPlan(t, w, section.ThingID{Key: "shower"})
	turned := func() float64 { return w.sight.Cutting.TurnedDeg }
	open := func() {
		t.Helper()
		w.cuts.turn.OnPressed()
		if !w.cuts.figure.isOpen() {
			t.Fatal("no field opens")
		}
	}
	open()
	w.window.Canvas().Focused().TypedRune('3')
	if turned() != 3 {
		t.Errorf("while 3 is typed the cut is turned by %v", turned())
	}
	enterText(w, "7.5")
	if turned() != 37.5 || w.cuts.figure.isOpen() {
		t.Errorf("typed, the cut is turned by %v, the field open %v", turned(), w.cuts.figure.isOpen())
	}
	for text, says := range map[string]string{"3-": "not taken", "x": "not taken", "9999": "-180° to 180°", "-": "not taken"} {
		open()
		enterText(w, text)
		if said := w.cuts.figure.field.Refused(); turned() != 37.5 || !strings.Contains(said, says) {
			t.Errorf("%q: turned by %v, said %q", text, turned(), said)
		}
		w.cuts.figure.leave()
	}
	open()
	w.window.Canvas().Focused().TypedRune('9')
	w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if turned() != 37.5 || w.cuts.figure.isOpen() {
		t.Errorf("given up, the cut is turned by %v, the field open %v", turned(), w.cuts.figure.isOpen())
	}
	open()
	enterText(w, "0")
	if w.sight.Cutting != w.sight.Cutting.Home() {
		t.Errorf("typed 0, the cut is %+v", w.sight.Cutting)
	}
	w.plan.TypeTurn(fyne.NewPos(100, 60))
	enterText(w, "-20")
	if turned() != -20 || w.tag.layer.IsOpen() {
		t.Errorf("at its end, the cut is turned by %v", turned())
	}
	w.plainKey(&fyne.KeyEvent{Name: fyne.Key0})
	if turned() != 0 {
		t.Errorf("after the key 0 it is turned by %v", turned())
	}
	w.sight.CutCorner()
	if w.cuts.turn.Visible() {
		t.Error("a corner can be turned")
	}
}

// What is refused of a figure when the keys go elsewhere is said where it stays, in plan and section.
func TestARefusedFigureIsSaid(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close() // the room's fields would have the plan alone
	thingOfPlan(t, w, section.ThingID{Key: "shower"})
	w.sight.CutThere(section.Cutting{Of: section.CutDrain})
	w.section.TypeOn(paint.Placed{Key: "base.heightMM"})
	for _, r := range "9999999" {
		w.window.Canvas().Focused().TypedRune(r)
	}
	w.window.Canvas().Focus(w.section)
	until(t, "the field to close", func() bool { return !w.cuts.figure.isOpen() })
	if !strings.Contains(w.teller.Text(), "9999999 was not taken") {
		t.Errorf("said %q", w.teller.Text())
	}
}

// A place that is pressed, on its button, by its key or in the plan, shows the section there, also while all of the run is shown along the
// waste; its button is lit.
func TestAPlaceThatIsPressedShowsTheSection(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	thingOfPlan(t, w, section.ThingID{Key: "shower"})
	press := func(of section.CuttingOf) {
		for i, c := range w.cuts.places {
			if c.Of == of {
				w.pressPlace(strconv.Itoa(i))
				return
			}
		}
		t.Fatalf("there is no place %s", of)
	}
	for name, do := range map[string]func(){
		"the door's button":   func() { press(section.CutDoor) },
		"the pipe's in More":  func() { press(section.CutPipe) },
		"a corner's":          func() { w.pressPlace(cornerPlace) },
		"the key of the door": func() { w.placeKey(fyne.KeyD) },
		"two points": func() {
			w.cutPoints(section.Cutting{Of: section.CutPoints, From: plan.Point{300, 900}, To: plan.Point{900, 900}})
		},
	} {
		w.drawings.show(w.long)
		if w.drawings.shows(w.section) {
			t.Fatal("the section is not away")
		}
		do()
		settle(t)
		if !w.drawings.shows(w.section) || w.cuts.several.Chosen() == "" || w.cuts.says.Text == theme.Word("app.along-the-waste.says") {
			t.Errorf("%s: the section shows %v, %q is lit, it says “%s”", name, w.drawings.shows(w.section), w.cuts.several.Chosen(),
				w.cuts.says.Text)
		}
	}
}

// While all of the run is shown along the waste, the caption says that, no place of the section is lit and nothing is there to turn, and
// the choice, pressed in its list, is as wide as what it says then; back at the section all is as before.
func TestTheCaptionIsOfWhatIsShown(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	w.window.Resize(fyne.NewSize(1024, 700))
	said, placed := w.cuts.says.Text, w.cuts.several.Chosen()
	choice := w.drawings.below.choice
	choice.SetSelected(words.Capital(theme.Word("app.along-the-waste")))
	settle(t)
	if got := w.cuts.says.Text; got != theme.Word("app.along-the-waste.says") || w.cuts.several.Chosen() != "" || !w.cuts.turn.Hidden {
		t.Errorf("along the waste it says “%s”, %q is lit, turning away %v", got, w.cuts.several.Chosen(), w.cuts.turn.Hidden)
	}
	if choice.Size().Width < choice.Whole()-1 {
		t.Errorf("the choice is %v wide of %v", choice.Size().Width, choice.Whole())
	}
	choice.SetSelected(words.Capital(theme.Word("app.section")))
	settle(t)
	if w.cuts.says.Text != said || w.cuts.several.Chosen() != placed || w.cuts.turn.Hidden {
		t.Errorf("back at the section it says “%s”, was “%s”", w.cuts.says.Text, said)
	}
}
