package app

import (
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// keepPause is how long after unsaved work was kept beside it is not kept again. An edit after a
// rest is kept at once: the program may end at any moment, as with its display.
const keepPause = 400 * time.Millisecond

// keepEvery is how often unsaved work is kept beside.
const keepEvery = 5 * time.Second

// keptFolder holds the work that is kept, inside the program's own folder.
const keptFolder = "kept"

// startKeeping offers what earlier windows left behind and keeps unsaved work
// until the window ends.
func (w *mainWindow) startKeeping() {
	w.keepEnded = make(chan struct{})
	if w.folder == "" {
		close(w.keepEnded)
		w.keepNotice.SetText(theme.Word("app.unsaved-work-is-not-kept-this"))
		w.keepNotice.Show()
		return
	}
	w.offerLeftBehind()
	keep := func() {
		w.guard.Do(partKeeping, nil, func() {
			err := w.desk.Keep()
			w.sight.Do(func() { w.tellKeeping(err) })
		})
	}
	w.guard.Run(partKeeping, func() {
		defer keep() // what was changed since it was kept last, where the window goes unasked
		tick := time.NewTicker(keepEvery)
		defer tick.Stop()
		for {
			select {
			case <-w.sight.Closed:
				return
			case <-w.keepSoon:
			case <-tick.C:
			}
			keep()
			// What is changed meanwhile is kept then: a drag is not kept at every step.
			select {
			case <-w.sight.Closed:
				return
			case <-time.After(keepPause):
			}
		}
	}, func(bool) { close(w.keepEnded) })
}

// keep keeps unsaved work, or lets go of what is saved or given up, now.
func (w *mainWindow) keep() { w.tellKeeping(w.desk.Keep()) }

// tellKeeping shows as long as it lasts that unsaved work cannot be kept.
func (w *mainWindow) tellKeeping(err error) {
	switch {
	case w.folder == "":
		return // told once for all
	case err == nil:
		w.keepNotice.Hide()
		return
	}
	s := theme.Word("kept.lost-if-ended", theme.Because("reason", err))
	if s != w.keepNotice.Text {
		w.log("not kept: %v", err)
	}
	w.keepNotice.SetText(s)
	w.keepNotice.Show()
}

// leftBehind is the list of work that earlier windows left, to be brought back
// or set aside.
type leftBehind struct {
	window *mainWindow
	found  []*store.Found
	rows   *fyne.Container // one for each that is found
	dialog *dialog.CustomDialog
}

// offerLeftBehind shows what earlier windows left, if anything.
func (w *mainWindow) offerLeftBehind() {
	found, unreadable, err := w.desk.LeftBehind()
	for _, f := range found {
		w.log("unsaved work found: %q", f.Name)
	}
	if len(found) == 0 && len(unreadable) == 0 && err == nil {
		return
	}
	if w.options.beginsOnPage() && len(unreadable) == 0 && err == nil {
		w.start.found = found // the start page offers it
		return
	}
	l := &leftBehind{window: w, found: found, rows: container.NewVBox()}
	all := container.NewVBox()
	switch {
	case len(found) == 1:
		all.Add(paragraph(theme.Word("app.underfall-ended-before-this-was-saved")))
	case len(found) > 1:
		all.Add(paragraph(theme.Word("app.underfall-ended-before-these-were-saved")))
	}
	all.Add(l.rows)
	for _, f := range found {
		l.rows.Add(l.row(f))
	}
	for _, path := range unreadable {
		w.log("unreadable kept work set aside: %s", path)
		all.Add(paragraph(theme.Word("kept.unreadable-moved", message.Name("file", store.Plain(path)))))
	}
	if err != nil {
		w.log("looking for kept work: %v", err)
		p := paragraph(theme.Word("kept.looking-failed", theme.Because("reason", err)))
		p.Importance = widget.WarningImportance
		all.Add(p)
	}
	l.dialog = dialog.NewCustomWithoutButtons(theme.Word("app.unsaved-work-was-found"), container.NewVScroll(all), w.window)
	l.dialog.SetButtons([]fyne.CanvasObject{widget.NewButton(theme.Word("app.later"), w.guard.Wrap(partWindow, l.later))})
	const wide, most, titleAndButton = 600, 420, 130
	all.Resize(fyne.NewSize(wide-40, most)) // its paragraphs are as high as their wrapped lines from then on
	l.dialog.Resize(fyne.NewSize(wide, min(most, all.MinSize().Height+titleAndButton)))
	l.dialog.Show()
	w.leftBehind = l
}

func paragraph(s string) *widget.Label {
	l := widget.NewLabel(s)
	l.Wrapping = fyne.TextWrapWord
	return l
}

// row shows one that was found.
func (l *leftBehind) row(f *store.Found) fyne.CanvasObject {
	w := l.window
	name := paragraph(store.Plain(f.Name))
	name.TextStyle = fyne.TextStyle{Bold: true}
	var row fyne.CanvasObject
	back := widget.NewButton(theme.Word("app.bring-back"), w.guard.Wrap(partWindow, func() { l.bringBack(f) }))
	back.Importance = widget.HighImportance
	aside := widget.NewButton(theme.Word("app.set-aside"), w.guard.Wrap(partWindow, func() { l.setAside(f, row) }))
	row = container.NewVBox(name, paragraph(describe(f)), container.NewHBox(back, aside), widget.NewSeparator())
	return row
}

// describe tells what a person needs to know of found work.
func describe(f *store.Found) string {
	const form = "2006-01-02 15:04"
	c := f.Compare()
	file := store.Plain(filepath.Base(f.File))
	say := []string{theme.Word("kept.kept-on", message.Name("date", f.At.Local().Format(form)))}
	switch c.State {
	case store.NoFile:
		say = append(say, theme.Word("app.it-was-never-saved"))
	case store.Same:
		say = append(say, theme.Word("kept.file-same", message.Name("file", file)))
	case store.Gone:
		say = append(say, theme.Word("kept.file-gone", message.Name("file", file)))
	case store.Changed:
		at := c.FileAt.Local().Format(form)
		switch {
		case c.FileAt.IsZero():
			say = append(say, theme.Word("kept.file-unreadable", message.Name("file", file)))
		case c.FileAt.After(f.At):
			say = append(say, theme.Word("kept.file-later", message.Name("file", file), message.Name("date", at)))
		default:
			say = append(say, theme.Word("kept.file-meanwhile", message.Name("file", file), message.Name("date", at)))
		}
	}
	if c.Compared && len(c.Differing) > 0 {
		say = append(say, theme.Word("kept.differs", message.Name("what", places(f.Job, c.Differing))))
	}
	return strings.Join(say, " ")
}

// places are the places of a job that some paths lie at, in words, each once;
// of many the first few and how many more.
func places(data []byte, paths []string) string {
	named := job.PlaceInFile
	if j, err := job.Parse(data); err == nil {
		named = j.PlaceOf
	}
	var names []string
	for _, path := range paths {
		if place := theme.Say(named(path), unit.Metric); !slices.Contains(names, place) {
			names = append(names, place)
		}
	}
	const most = 4
	if more := len(names) - most; more > 0 {
		return strings.Join(names[:most], ", ") + ", " + theme.Word("kept.and-more", message.N("n", more))
	}
	return strings.Join(names, ", ")
}

func (l *leftBehind) bringBack(f *store.Found) {
	w := l.window
	if err := w.desk.BringBack(f); err != nil {
		w.fail(err)
		return
	}
	w.resetView()
	w.log("brought back %q", f.Name)
	l.drop(f)
	l.later()
}

func (l *leftBehind) setAside(f *store.Found, row fyne.CanvasObject) {
	w := l.window
	path, err := f.SetAside(time.Now())
	if path != "" {
		w.log("set aside %s", path)
		l.drop(f)
		l.rows.Remove(row)
		l.rows.Add(paragraph(theme.Word("kept.moved", message.Name("job", store.Plain(f.Name)), message.Name("file", store.Plain(path)))))
	}
	if err != nil {
		w.fail(err)
	}
}

// drop takes one off the list that is no longer waiting.
func (l *leftBehind) drop(f *store.Found) {
	for i, other := range l.found {
		if other == f {
			l.found = append(l.found[:i], l.found[i+1:]...)
			return
		}
	}
}

// later leaves what is still on the list for the next start.
func (l *leftBehind) later() {
	for _, f := range l.found {
		if err := f.Later(); err != nil {
			l.window.log("leaving kept work for later: %v", err)
		}
	}
	l.found = nil
	l.dialog.Hide()
}
