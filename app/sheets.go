package app

import (
	"net/url"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2/widget"
	sheets "underfall/app/sheet"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/geometry/message"
)

// putOnPaper asks for a name and writes the sheets of the job as it is shown, a file each.
func (w *mainWindow) putOnPaper() {
	if len(w.change.Result.Problems) > 0 {
		w.say(theme.Word("sheet.no-result"), true)
		return
	}
	w.askWhere(saveDialog{title: theme.Word("sheet.save"), ending: sheets.Ending, files: sheetFiles, write: func(path string, done func()) {
		r := w.change.Result
		asked := sheets.Asked{Paper: sheets.UsualPaper(r.Settled.Region), Made: time.Now()}
		if _, err := sheets.Save(path, sheets.Kinds(), r, w.answer.Answer(), asked, theme.Book()); err != nil {
			w.fail(err)
			return
		}
		done()
		w.remember(path)
		w.offerSheet(path)
	}}, store.SafeName(w.desk.Job().Name, theme.Word("sheet.save")))
}

// sheetFiles are the files that the sheets of a name are written to.
func sheetFiles(path string) (files []string) {
	for _, kind := range sheets.Kinds() {
		files = append(files, kind.File(path))
	}
	return files
}

// offerSheet tells that the sheets are written and offers to open the fitter's, from where it can be printed.
func (w *mainWindow) offerSheet(path string) {
	file := sheets.Fitter.File(path)
	w.ask(theme.Word("sheet.save"), theme.Word("sheet.saved", message.N("n", len(sheets.Kinds())), message.Name("folder", store.Plain(filepath.Dir(path)))),
		reply{theme.Word("sheet.open"), widget.HighImportance, func() {
			if err := w.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(file)}); err != nil {
				w.fail(message.Wrap(err, "sheet.not-opened", message.Name("file", store.Plain(file))))
			}
		}},
		reply{theme.Word("app.close"), widget.MediumImportance, func() {}})
}
