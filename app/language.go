package app

import (
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// languageKey is the preference that holds the language chosen, by its tag.
const languageKey = "language"

// languages are those offered, by their tags, with what they are called: each by its
// own name, whatever is spoken now.
func languages() (tags, names []string) {
	return []string{words.British, words.American}, []string{"English (UK)", "English (US)"}
}

// bookOf is the catalogue of a language; what it has no words for is logged.
func (w *mainWindow) bookOf(tag string) words.Book {
	return w.shelf.Book(tag, unit.Metric, func(m message.Message) { w.log("no words for %s", m) }).Drawn()
}

// speak changes the language of the window as it stands: its panels are made anew,
// and everything is drawn again from its values.
func (w *mainWindow) speak(tag string) {
	if theme.Book().Language() == tag {
		return
	}
	w.window.Canvas().Unfocus() // what is being typed is taken first
	b := w.bookOf(tag)
	w.theme.Speak(b)
	w.prefers.SetString(languageKey, tag)
	w.log("language %s", tag)
	w.again()
}

// again makes the panels anew, and has everything drawn again from its values: in another
// language, in other sizes, or with other parts.
func (w *mainWindow) again() {
	w.window.Canvas().Unfocus() // what is being typed is taken first
	w.runs.Stop()
	tried := w.trial.Trial()
	w.trial.PutBack()
	station, drawing, side := w.tray.Station(), w.drawings.SelectedIndex(), w.sides.SelectedIndex()
	w.compose()
	w.tray.Open(station)
	w.drawings.SelectIndex(drawing)
	switch {
	case side >= 0:
		w.sides.SelectIndex(side)
	case side == sideFields:
		w.sides.openFields()
	}
	if w.showroom == nil && !w.start.shown() {
		w.window.SetContent(w.main)
	}
	w.start.anew()
	w.follow(w.change)
	w.showPanels()
	for _, v := range w.drawn() {
		v.Redraw()
	}
	w.view.Redraw()
	if len(tried.Ways) > 0 {
		w.trial.Open(tried)
	}
}
