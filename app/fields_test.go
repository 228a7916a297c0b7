package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/tray"
	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// rowOf finds the field of an input by its key, at its station.
func rowOf[T tray.Row](t *testing.T, w *mainWindow, key string) T {
	t.Helper()
	r, ok := w.tray.Row(key).(T)
	if !ok {
		t.Fatalf("no field for %s", key)
	}
	return r
}

func numberField(t *testing.T, w *mainWindow, key string) *tray.NumberRow {
	t.Helper()
	return rowOf[*tray.NumberRow](t, w, key)
}

func listField(t *testing.T, w *mainWindow, key string) *tray.TextRow {
	t.Helper()
	return rowOf[*tray.TextRow](t, w, key)
}

func choiceField(t *testing.T, w *mainWindow, key string) *tray.ChoiceRow {
	t.Helper()
	return rowOf[*tray.ChoiceRow](t, w, key)
}

// typed is what a person types into.
type typed interface {
	fyne.Focusable
	SetText(string)
	TypedKey(*fyne.KeyEvent)
}

// into puts the focus into a number's field and gives what is typed on there.
func into(w *mainWindow, r *tray.NumberRow) typed {
	w.sides.openFields() // a field that does not show takes no focus
	r.Field.Focus()
	return w.window.Canvas().Focused().(typed)
}

// enter types a number as a person does: into its field, over what is there, and Enter.
func enter(w *mainWindow, r *tray.NumberRow, s string) {
	e := into(w, r)
	e.SetText(s)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// enterList types into a field of lines and leaves it.
func enterList(w *mainWindow, r *tray.TextRow, s string) {
	w.sides.openFields()
	w.window.Canvas().Focus(r.Entry)
	r.Entry.SetText(s)
	if r.Entry.MultiLine {
		w.window.Canvas().Unfocus()
		return
	}
	r.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// shownOf is the text of what is chosen in a list, and those of all that it offers.
func shownOf(c *tray.ChoiceRow) (chosen string, all []string) {
	for _, o := range c.Offered() {
		all = append(all, o.Text)
		if o.ID == c.Chosen() {
			chosen = o.Text
		}
	}
	return chosen, all
}

// choose picks an option as a person does, by its words.
func choose(t *testing.T, w *mainWindow, key, words string) {
	t.Helper()
	c := choiceField(t, w, key)
	for _, o := range c.Offered() {
		if o.Text == words {
			c.Choose(o.ID)
			return
		}
	}
	t.Fatalf("%s has no %q: %+v", key, words, c.Offered())
}

// focusIn tells whether the keys go to a field.
func focusIn(w *mainWindow, r tray.Row) bool {
	o, ok := w.window.Canvas().Focused().(fyne.CanvasObject)
	if !ok {
		return false
	}
	d := fyne.CurrentApp().Driver()
	at := d.AbsolutePositionForObject(o).Subtract(d.AbsolutePositionForObject(r.Object()))
	size := r.Object().Size()
	return at.X >= 0 && at.Y >= 0 && at.X < size.Width && at.Y < size.Height
}

// pressesIn are the buttons that show in an object and whose text begins so, from the top down.
func pressesIn(all fyne.CanvasObject, begin string) (out []*control.Press) {
	roomtest.EachShown(all, func(o fyne.CanvasObject) {
		if p, ok := o.(*control.Press); ok && strings.HasPrefix(p.Text, begin) {
			out = append(out, p)
		}
	})
	return out
}

// A 0 that is no measure is told in words under its field, until there is a number.
func TestNoughtsAreTold(t *testing.T) {
	w, _ := openWindow(t, Options{})
	row := func() *tray.NumberRow { return numberField(t, w, "drain.lengthMM") }
	set := func(mm float64) {
		p, _ := job.Find("drain.lengthMM")
		w.desk.Do(edit.Number(p, mm))
	}
	set(0)
	// The longest that it is sold in within the shower of 1400 less 13 at both ends.
	until(t, "the words", func() bool { return row().Field.Below != "" })
	if got := row().Field.Below; got != "0 stands for: as long as its side of the shower, which is 1200 mm" {
		t.Errorf("“%s”", got)
	}
	set(900)
	until(t, "the number", func() bool { return row().Field.Below == "" })
}
