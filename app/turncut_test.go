package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/paint"
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
