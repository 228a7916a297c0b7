package app

import (
	"context"
	"image"
	"net/url"
	"path/filepath"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/papers"
	"underfall/app/pen"
	sheets "underfall/app/sheet"
	"underfall/app/space"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/price"
	"underfall/viewer"
)

// paperDialog is the room of sheets over the window.
type paperDialog struct {
	room   *papers.Room
	dialog *dialog.CustomDialog
	stop   func() // what is drawn for it
}

// Size of the room of sheets, where there is that much.
const (
	paperWidth  = 1500
	paperHeight = 1000
	paperMargin = 48
)

// putOnPaper shows the sheets of the job as it is shown, to be written and opened.
func (w *mainWindow) putOnPaper() {
	if w.papers != nil || w.saving != nil {
		return
	}
	if len(w.change.Result.Problems) > 0 {
		w.say(theme.Word("sheet.no-result"), true)
		return
	}
	fonts, err := pen.NewFonts(assets.TextFont(), assets.BoldFont())
	if err != nil {
		w.fail(err)
		return
	}
	r := w.change.Result
	asked := sheets.Asked{Paper: sheets.UsualPaper(r.Settled.Region), Made: time.Now(), State: w.desk.Job().State, Changed: w.desk.Unsaved()}
	if w.showroom != nil {
		asked.Kind = sheets.Customer // whoever stands there takes home what is theirs
	}
	asked.Picture, asked.Samples = w.finished.of(w.view)
	keys := control.NewKeys()
	open, stop := context.WithCancel(context.Background())
	room := papers.Open(papers.Asks{Result: r, Answer: w.answer.Answer(), Asked: asked, Words: theme.Book(), Fonts: fonts,
		Guard: w.guard, Keys: keys, OnWindow: w.sight.Do, Kept: w.prefers, Close: w.leavePaper,
		Into: w.startFolder(), Folder: w.chooseSheetFolder, Write: w.writeSheets,
		Draft: func(take func(image.Image)) { w.draftPicture(open, take) },
		Table: w.writePriceTable, For: w.jobsMark(),
		Prices: func(chosen func(string)) { w.chooseFile(endings{".csv"}, chosen) },
		Logo:   func(chosen func(string)) { w.chooseFile(endings{".png", ".jpg", ".jpeg"}, chosen) }})
	keys.Plain = func(e *fyne.KeyEvent) { room.Key(e.Name) }
	d := dialog.NewCustomWithoutButtons(theme.Word("paper.title"), room.Object(), w.window)
	w.papers = &paperDialog{room, d, stop}
	size := w.window.Canvas().Size()
	d.Resize(fyne.NewSize(min(paperWidth, size.Width-paperMargin), min(paperHeight, size.Height-paperMargin)))
	d.Show()
	w.window.Canvas().Focus(room.First())
	w.log("paper true")
}

// jobsMark is what the job is known by among others on this machine: its file, or its name until it has one.
func (w *mainWindow) jobsMark() string {
	if file := w.desk.File(); file != "" {
		return file
	}
	return w.desk.Job().Name
}

// writePriceTable asks for a file and writes a table of prices for all that the job takes, to be filled in.
func (w *mainWindow) writePriceTable(list price.List, written func(path string)) {
	r := w.change.Result
	w.askWhere(saveDialog{title: theme.Word("paper.table"), ending: ".csv", write: func(path string, done func()) {
		say := func(m message.Message) string { return theme.Say(m, r.Settled.Units) }
		of, err := sheets.Takeoff(&r)
		if err == nil {
			err = sheets.WritePrices(path, list, &of, say)
		}
		if err != nil {
			w.fail(err)
			return
		}
		done()
		w.log("prices written to %s", path)
		w.rememberFolder(path)
		written(path)
	}}, theme.Word("paper.table-file"))
}

// leavePaper closes the room of sheets.
func (w *mainWindow) leavePaper() {
	if w.papers == nil {
		return
	}
	w.papers.stop()
	w.papers.dialog.Hide()
	w.papers = nil
	w.log("paper false")
}

// chooseSheetFolder asks for the folder that sheets are written into.
func (w *mainWindow) chooseSheetFolder(chosen func(folder string)) {
	choose := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
		switch {
		case err != nil:
			w.fail(message.Wrap(err, "sheet.folder-unusable"))
		case u != nil:
			chosen(u.Path())
		}
	}, w.window)
	choose.SetTitleText(theme.Word("paper.folder"))
	choose.SetConfirmText(theme.Word("paper.here"))
	w.chooseFrom(choose, w.startFolder())
}

// writeSheets writes sheets, a file each named after the path; what is there is replaced only when the person says so.
func (w *mainWindow) writeSheets(path string, kinds []sheets.Kind, q sheets.Asked, open bool) {
	var files []string
	for _, k := range kinds {
		files = append(files, k.File(path))
	}
	write := func() { w.pictureFirst(path, kinds, q, open) }
	there := countThere(files)
	if there == 0 {
		write()
		return
	}
	w.ask(theme.Word("paper.title"), replaceQuestion(filepath.Base(files[0]), there, len(files)),
		reply{theme.Word("app.replace-2"), widget.DangerImportance, write},
		reply{theme.Word("app.cancel"), widget.MediumImportance, func() {}})
}

// pictureFirst writes sheets, once the finished shower is drawn where one of them shows it. What is stopped, or cannot be drawn, is left out,
// which the sheet says.
func (w *mainWindow) pictureFirst(path string, kinds []sheets.Kind, q sheets.Asked, open bool) {
	if !slices.Contains(kinds, sheets.Customer) || !w.view.Drawn() || q.Picture != nil {
		w.saveSheets(path, kinds, q, open)
		return
	}
	shot := w.view.Photograph(sheets.PictureSize())
	wait := w.waitForPictures(theme.Word("paper.picture"))
	var err error
	w.guard.Run(viewer.PartStill, func() {
		_, err = shot.Draw(wait.ctx, wait.tell, func(_ int, img *image.RGBA) error {
			q.Picture, q.Samples = img, shot.Samples()
			return nil
		})
	}, func(bool) {
		w.sight.Do(func() {
			wait.end()
			w.log("picture for paper: %v", err)
			if err == nil && q.Picture != nil {
				w.finished = finishedStill{shot, q.Picture}
			}
			w.saveSheets(path, kinds, q, open)
		})
	})
}

// finishedStill is the latest picture of the finished room that was drawn in full, for a file or for paper; nil for none.
type finishedStill struct {
	shot    space.Shot
	picture image.Image
}

// of is the picture if it is of the room that a view shows, in its light, with how often each of its points was followed; nil if not.
func (s finishedStill) of(v *space.View) (image.Image, int) {
	if s.picture == nil || !v.Drawn() || !s.shot.Alike(v.Photograph(sheets.PictureSize())) {
		return nil, 0
	}
	return s.picture, s.shot.Samples()
}

// draftShare is how large a draft is of the picture that is written.
const draftShare = 0.5

// draftPicture draws the finished shower quickly, to look at the customer's sheet by, and hands it over unless it is stopped or cannot be
// drawn.
func (w *mainWindow) draftPicture(open context.Context, take func(image.Image)) {
	if !w.view.Drawn() {
		return
	}
	size := sheets.PictureSize()
	shot := w.view.Photograph(image.Pt(int(draftShare*float64(size.X)), int(draftShare*float64(size.Y))))
	var img *image.RGBA
	var err error
	w.guard.Run(viewer.PartStill, func() { img, err = shot.Draft(open) }, func(bool) {
		w.sight.Do(func() {
			w.log("draft for paper: %v", err)
			if img != nil && open.Err() == nil {
				take(img)
			}
		})
	})
}

// saveSheets writes sheets and tells of it, or opens the first of them.
func (w *mainWindow) saveSheets(path string, kinds []sheets.Kind, q sheets.Asked, open bool) {
	files, err := sheets.Save(path, kinds, w.change.Result, w.answer.Answer(), q, theme.Book())
	if err != nil {
		w.fail(err)
		return
	}
	w.rememberFolder(path)
	w.log("sheets %v", files)
	first := files[max(0, slices.Index(kinds, sheets.Fitter))]
	if open {
		w.openSheet(first)
		return
	}
	w.ask(theme.Word("paper.title"), theme.Word("sheet.saved", message.N("n", len(files)), message.Name("folder", store.Plain(filepath.Dir(path)))),
		reply{theme.Word("app.close"), widget.HighImportance, func() {}},
		reply{theme.Word("paper.open-it"), widget.MediumImportance, func() { w.openSheet(first) }})
}

// openSheet hands a sheet to the system, from where it is printed.
func (w *mainWindow) openSheet(file string) {
	if err := w.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(file)}); err != nil {
		w.fail(message.Wrap(err, "sheet.not-opened", message.Name("file", store.Plain(file))))
	}
}
