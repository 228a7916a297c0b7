package app

import (
	"fyne.io/fyne/v2/widget"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// partsEnding is how the names of files of parts end that are written here: tables for a spreadsheet.
const partsEnding = ".csv"

// openParts tells which parts are at hand, and takes others in from a file or writes them to one.
func (w *mainWindow) openParts() {
	known, err := assets.Parts()
	if err != nil {
		w.fail(err)
		return
	}
	own, err := store.OwnParts(w.folder, known)
	says := theme.Word("app.parts-at-hand", message.N("n", w.parts.Count()), message.No("own", own.Count()))
	if err != nil {
		says += "\n\n" + theme.Sentence(message.OfError(err), w.desk.Job().Units)
	}
	w.ask(theme.Word("start.parts"), says,
		reply{theme.Word("app.take-parts-in"), widget.HighImportance, func() { w.chooseFile(endings{partsEnding, extension}, w.takePartsIn) }},
		reply{theme.Word("app.write-parts"), widget.MediumImportance, w.writeParts},
		reply{theme.Word("app.close"), widget.MediumImportance, func() {}})
}

// takePartsIn takes what is new or changed in a file into the user's own parts, which are at hand from now
// on, and says what has become of it.
func (w *mainWindow) takePartsIn(path string) {
	known, err := assets.Parts()
	var done message.Message
	if err == nil {
		done, err = store.ImportParts(w.folder, known, path)
	}
	var own part.Shelf
	if err == nil {
		own, err = store.OwnParts(w.folder, known)
	}
	if err != nil {
		w.log("parts not taken in: %v", err)
		w.fail(err)
		return
	}
	w.parts, w.ownParts = known.With(own), nil
	w.start.forgetPractices()
	w.again()
	w.log("parts taken in from %s", path)
	w.tell("start.parts", done)
}

// writeParts asks for a file and writes all parts at hand to it.
func (w *mainWindow) writeParts() {
	w.askWhere(saveDialog{title: theme.Word("app.write-parts"), ending: partsEnding, write: func(path string, done func()) {
		wrote, err := store.ExportParts(w.parts, path)
		if err != nil {
			w.fail(err)
			return
		}
		done()
		w.log("parts written to %s", path)
		w.rememberFolder(path)
		w.tell("start.parts", wrote)
	}}, theme.Word("app.parts-file"))
}

// tell says over the window what has been done.
func (w *mainWindow) tell(title message.ID, done message.Message) {
	w.ask(theme.Word(title), theme.Say(done, w.desk.Job().Units), reply{theme.Word("app.close"), widget.HighImportance, func() {}})
}
